//! What the dashboard shows of one tick.

use coneyard_core::checks::walk::{Answer, By};
use coneyard_core::controls::{ArmAsk, Look, Side};
use coneyard_core::course::{Course, StepKind, Travel};
use coneyard_core::desk::{
    CheckStatus, Mode, ShownStatus, Status, TaskStatus, TruckStatus, WalkStatus,
};
use coneyard_core::moment::Moment;
use coneyard_core::task::aim_from_the_leading_end;
use coneyard_core::task::hint::hint;
use coneyard_core::truck::arm::ArmZone;
use coneyard_core::truck::spec::TruckSpec;
use coneyard_core::truck::travel::plugging_most;
use coneyard_core::yard::frame::PalletFrame;

/// The truck and its rider in this tick.
pub(crate) fn truck(moment: &Moment, spec: &TruckSpec) -> TruckStatus {
    let mass = spec.mass.truck_kg + spec.mass.rider_kg + moment.load.mass;
    let (t, c) = (&moment.truck, &moment.controls);
    TruckStatus {
        speed: t.speed,
        throttle: c.throttle,
        steer: t.steer,
        arm: t.arm,
        arm_zone: t.arm_zone,
        braking: t.braking,
        plugging: t.plugging,
        slipping: t.drive_wheel_slips || t.load_wheels_slip,
        high_speed: t.high_speed_on,
        forks: t.fork_height,
        stance: t.stance,
        stepping: t.stepping,
        contacts: contacts(moment),
        look: c.look,
        horn: c.horn && c.key_on,
        zone_limit: moment.place.zone_limit,
        aboard: moment.rider.aboard,
        key_on: c.key_on,
        head: moment.rider.head,
        pallets: moment.load.pallets,
        load: moment.load.mass,
        capacity: moment.load.capacity,
        plugging_most: plugging_most(spec, mass),
    }
}

/// Hands on the tiller and feet on the platform: four when both are where they belong.
fn contacts(moment: &Moment) -> u8 {
    let c = &moment.controls;
    if !c.aboard {
        return 0;
    }
    let feet = if moment.truck.stepping { 1 } else { 2 };
    let hands = if c.arm == ArmAsk::LetGo { 0 } else { 2 };
    feet + hands
}

/// The task after this tick.
pub(crate) fn task(
    moment: &Moment,
    pallets: &[PalletFrame],
    course: &Course,
    spec: &TruckSpec,
) -> TaskStatus {
    let task = &moment.task;
    let toward = aim_from_the_leading_end(course, moment, pallets);
    TaskStatus {
        step: task.step,
        steps: course.steps.len() as u32,
        travel: task.travel,
        laps_done: task.laps_done,
        next_gate: task.next_gate,
        signal: task.signal_brake.filter(|_| task.signal_since.is_some()),
        signal_from: signal_from(moment, course),
        mark_ahead: task.mark_ahead,
        pick_away: task.pick_at.map(|at| (at - moment.truck.platform_in_yard).length()),
        dock: checks(moment, course),
        toward: toward.map(|to| [to.x, to.y]),
        hint: hint(course, spec, moment, pallets),
        done: task.done,
        failed: task.failed,
    }
}

/// From which speed on the signal comes, while it is waited for.
fn signal_from(moment: &Moment, course: &Course) -> Option<f64> {
    let step = course.steps.get(moment.task.step as usize)?;
    let StepKind::EmergencyStop { min_speed_mps, .. } = step.what else { return None };
    moment.task.signal_since.is_none().then_some(min_speed_mps)
}

/// The checks of the dock that the step asks for.
fn checks(moment: &Moment, course: &Course) -> Vec<CheckStatus> {
    let step = course.steps.get(moment.task.step as usize);
    let Some(StepKind::CheckDock { dock }) = step.map(|s| &s.what) else {
        return Vec::new();
    };
    let Some(now) = moment.docks.iter().find(|d| d.dock as usize == *dock) else {
        return Vec::new();
    };
    let check = |(i, (what, _)): (usize, &(_, _))| CheckStatus {
        what: *what,
        is_fine: now.inspected.is_fine(i),
    };
    course.warehouse.docks[*dock].checks.iter().enumerate().map(check).collect()
}

/// The walk-round while it goes on.
pub(crate) fn walk(moment: &Moment) -> Option<WalkStatus> {
    let walk = moment.walk.as_ref().filter(|w| w.decided.is_none())?;
    let short = |i: usize| u8::try_from(i).unwrap_or(u8::MAX);
    let truck = &walk.truck;
    Some(WalkStatus {
        looks: walk.points().map(|p| truck.defect_of(p).map(|(d, _)| short(d))).collect(),
        shown: walk.shown.map(|s| ShownStatus {
            point: short(s.point),
            view: match s.by {
                By::Looking(view) => Some(view),
                By::Trying => None,
            },
            defect: s.defect.map(short),
            ticks: s.ticks,
        }),
        done: walk.points().map(|p| walk.done >> p & 1 == 1).collect(),
        said: walk.points().map(|p| walk.said[p].map(Answer::code)).collect(),
        hours: truck.drawn.hours,
        hours_read: walk.hours_read,
    })
}

/// Nothing is open.
pub(crate) fn idle() -> Status {
    Status {
        mode: Mode::Idle,
        tick: 0,
        last_tick: 0,
        paused: true,
        pace: 1.0,
        time_ratio: 1.0,
        ending: None,
        truck: TruckStatus {
            speed: 0.0,
            throttle: 0,
            steer: 0.0,
            arm: 0.0,
            arm_zone: ArmZone::UpperBrake,
            braking: true,
            plugging: false,
            slipping: false,
            high_speed: false,
            forks: 0.0,
            stance: Side::Left,
            stepping: false,
            contacts: 0,
            look: Look::Ahead,
            horn: false,
            zone_limit: None,
            aboard: true,
            key_on: true,
            head: 0.0,
            pallets: 0,
            load: 0.0,
            capacity: 0.0,
            plugging_most: 0.0,
        },
        task: TaskStatus {
            step: 0,
            steps: 0,
            travel: Travel::PowerUnitFirst,
            laps_done: 0,
            next_gate: None,
            signal: None,
            signal_from: None,
            mark_ahead: None,
            pick_away: None,
            dock: Vec::new(),
            toward: None,
            hint: None,
            done: false,
            failed: false,
        },
        findings: Vec::new(),
        walk: None,
    }
}
