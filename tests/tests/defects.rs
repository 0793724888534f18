//! What each defect of the shipped check list does to a drive: every one that changes the machine changes a
//! figure of the drive, and none of the others changes a bit of it. The figures are printed as a table.

use coneyard_core::checks::list::{Changes, CheckList, Defect};
use coneyard_core::controls::{ArmAsk, Controls, TillerAsk};
use coneyard_core::math::DEG;
use coneyard_core::moment::Moment;
use coneyard_core::time::DT;
use coneyard_core::truck::condition::Condition;
use coneyard_core::yard::Setting;
use coneyard_sim::Session;
use coneyard_tests::yards::Floor;

/// Power unit first at this throttle, percent, arm held.
fn drives(throttle: i8) -> Controls {
    Controls { throttle, ..Controls::default() }
}

fn session(floor: &Floor, condition: Condition) -> Session {
    let setup = floor.setup();
    let mut setting = Setting::open(&setup).expect("the floor is valid");
    setting.condition = condition;
    Session::of(&setup, setting)
}

fn on_dry(condition: Condition) -> Session {
    session(&Floor::new("dry"), condition)
}

fn laden(condition: Condition) -> Session {
    session(&Floor::new("dry").laden(1, 60.0), condition)
}

/// Does this for so many ticks.
fn go(session: &mut Session, ticks: u32, controls: Controls) {
    (0..ticks).for_each(|_| {
        session.step(controls);
    });
}

/// Does this until something is so; the time it takes, s, and the way, m. At most a minute.
fn until(session: &mut Session, controls: Controls, so: impl Fn(&Moment) -> bool) -> (f64, f64) {
    let (mut ticks, mut way) = (0, 0.0);
    while !so(session.moment()) && ticks < 64 * 60 {
        way += session.step(controls).truck.speed.abs() * DT;
        ticks += 1;
    }
    (f64::from(ticks) * DT, way)
}

fn stands(m: &Moment) -> bool {
    m.truck.speed.abs() < 0.01
}

/// Way of a stop from 2 m/s, m.
fn stop(mut s: Session, how: Controls) -> f64 {
    until(&mut s, drives(100), |m| m.truck.speed >= 2.0);
    until(&mut s, how, |m| m.truck.speed <= 0.01).1
}

/// What is measured, its unit, and the figure of a machine.
type Figure = (&'static str, &'static str, fn(Condition) -> f64);

const UPPER: Figure = ("stop by the upper zone", "m", |c| {
    stop(on_dry(c), Controls { arm: ArmAsk::LetGo, ..drives(0) })
});
const LOWER: Figure = ("stop by the lower zone", "m", |c| {
    stop(on_dry(c), Controls { arm: ArmAsk::PushDown, ..drives(0) })
});
const PLUGGING: Figure = ("stop by plugging", "m", |c| stop(on_dry(c), drives(-100)));
const SPRING: Figure = ("arm let go until it brakes", "s", |c| {
    let mut s = on_dry(c);
    go(&mut s, 5, drives(0));
    until(&mut s, Controls { arm: ArmAsk::LetGo, ..drives(0) }, |m| m.truck.braking).0
});
const TOP_SPEED: Figure = ("top speed", "m/s", |c| {
    let mut s = on_dry(c);
    go(&mut s, 64 * 20, drives(100));
    s.moment().truck.speed
});
const LIFT: Figure = ("forks to 0.15 m", "s", |c| {
    let up = Controls { forks_up: true, ..drives(0) };
    until(&mut on_dry(c), up, |m| m.truck.fork_height >= 0.15).0
});
const SINK: Figure = ("forks after 5 s", "m", |c| {
    let mut s = on_dry(c);
    go(&mut s, 64 * 5, drives(0));
    s.moment().truck.fork_height
});
const DRAG: Figure = ("laden, top speed", "m/s", |c| {
    let mut s = laden(c);
    go(&mut s, 64 * 20, drives(100));
    s.moment().truck.speed
});
const UNEVEN: Figure = ("side acceleration that a load bears", "m/s^2", |c| {
    laden(c).moment().load.holds_sideways.expect("there is a load")
});
const PLAY: Figure = ("wheel for a tiller of 10 degrees", "deg", |c| {
    let mut s = on_dry(c);
    go(&mut s, 64, Controls { tiller: TillerAsk::To(20), ..drives(0) });
    s.moment().truck.steer / DEG
});
const CREEP: Figure = ("speed with the throttle let go", "m/s", |c| {
    let mut s = on_dry(c);
    go(&mut s, 64 * 8, drives(0));
    s.moment().truck.speed
});
const HORN: Figure = ("horn", "", |c| {
    let mut s = on_dry(c);
    f64::from(u8::from(s.step(Controls { horn: true, ..drives(0) }).truck.horn_sounds))
});
const HIGH_SPEED: Figure = ("speed at 90 % after high speed", "m/s", |c| {
    let mut s = on_dry(c);
    go(&mut s, 64 * 6, Controls { high_speed: true, ..drives(100) });
    go(&mut s, 64 * 6, Controls { high_speed: true, ..drives(90) });
    s.moment().truck.speed
});
const BATTERY: Figure = ("drives through a hard turn", "", |c| {
    let mut s = on_dry(c);
    go(&mut s, 64 * 6, drives(70));
    go(&mut s, 64 * 3, Controls { tiller: TillerAsk::To(80), ..drives(70) });
    f64::from(u8::from(s.ending().is_none()))
});
const BACKREST: Figure = ("load slides in a hard stop", "m", |c| {
    let mut s = session(&Floor::new("dry").laden(1, 2.0), c);
    until(&mut s, drives(100), |m| m.truck.speed >= 2.5);
    until(&mut s, Controls { arm: ArmAsk::LetGo, ..drives(0) }, stands);
    s.moment().load.slid
});

/// What shows a change, the first that applies.
fn figure(changes: &Changes) -> Figure {
    let c = changes;
    let table: [(bool, Figure); 14] = [
        (c.upper_brake.is_some(), UPPER),
        (c.lower_brake.is_some(), LOWER),
        (c.plugging.is_some(), PLUGGING),
        (c.arm_spring.is_some(), SPRING),
        (c.top_speed.is_some(), TOP_SPEED),
        (c.lift_speed.is_some(), LIFT),
        (c.forks_sink_mps.is_some(), SINK),
        (c.left_wheel_drag.is_some() || c.right_wheel_drag.is_some(), DRAG),
        (c.forks_uneven_m.is_some(), UNEVEN),
        (c.steering_play_deg.is_some(), PLAY),
        (c.throttle_rest.is_some(), CREEP),
        (c.horn_dead, HORN),
        (c.high_speed_stays, HIGH_SPEED),
        (c.battery_loose, BATTERY),
    ];
    let found = table.into_iter().find(|(is, _)| *is).map(|(_, figure)| figure);
    found.unwrap_or(BACKREST)
}

fn each() -> Vec<(String, Defect)> {
    let list = CheckList::shipped();
    let name = |p: &str, d: &Defect| format!("{p}/{}", d.id);
    let all =
        list.points.iter().flat_map(|p| p.defects.iter().map(move |d| (name(&p.id, d), d.clone())));
    all.collect()
}

#[test]
fn every_defect_of_the_machine_changes_a_figure_of_the_drive() {
    println!("{:<26} {:<38} {:>8} {:>9}", "defect", "figure", "sound", "defective");
    let mut same = Vec::new();
    for (name, defect) in each().iter().filter(|(_, d)| !d.changes.is_nothing()) {
        let (what, unit, of) = figure(&defect.changes);
        let (sound, defective) = (of(Condition::SOUND), of(defect.changes.on(Condition::SOUND)));
        println!("{name:<26} {what:<38} {sound:>8.3} {defective:>9.3} {unit}");
        if (sound - defective).abs() <= 0.02 * sound.abs().max(0.2) {
            same.push(name.clone());
        }
    }
    assert!(same.is_empty(), "{same:?}");
}

/// Drives about with every control, and tells every digest.
fn about(condition: Condition) -> Vec<String> {
    let mut s = laden(condition);
    go(&mut s, 200, Controls { tiller: TillerAsk::To(20), high_speed: true, ..drives(100) });
    go(&mut s, 60, Controls { horn: true, forks_up: true, ..drives(-60) });
    go(&mut s, 120, Controls { arm: ArmAsk::LetGo, ..drives(0) });
    go(&mut s, 100, Controls { forks_down: true, arm: ArmAsk::PushDown, ..drives(0) });
    s.finish(1.0).digests.iter().map(|d| d.to_hex()).collect()
}

#[test]
fn no_other_defect_changes_a_bit_of_it() {
    let sound = about(Condition::SOUND);
    for (name, defect) in each() {
        let is_same = about(defect.changes.on(Condition::SOUND)) == sound;
        // What a motion without that use does not show may be the same.
        if defect.changes.is_nothing() {
            assert!(is_same, "{name}");
        }
    }
}
