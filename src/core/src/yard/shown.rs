//! What a picture of a tick shows.

use std::sync::Arc;

use crate::checks::walk::Walk;
use crate::math::{Pose, Vec2, vec2};
use crate::moment::{Moment, Touched};
use crate::people::walk::Doing;
use crate::yard::contacts::Contacts;
use crate::yard::foot::Someone;
use crate::yard::frame::{CaseFrame, ConeFrame, Frame, OtherFrame, PalletFrame, PersonFrame};
use crate::yard::loads::Where;
use crate::yard::machine::Yard;
use crate::yard::trucks::Other;

impl<C: Contacts> Yard<C> {
    /// The cones as they stand or lie, in the order of the course.
    pub fn cones(&self) -> impl Iterator<Item = ConeFrame> {
        self.touching.cones(&self.floor)
    }

    /// The picture of a tick; `cones` are shared by all in which nothing was moved.
    pub fn frame(&self, m: &Moment, cones: Arc<[ConeFrame]>) -> Frame {
        let course = &self.setting.course;
        let step_phase = 1.0 - self.rig.step_left / self.setting.truck.tiller.step_across_s;
        let mut frame = Frame {
            tick: m.tick,
            truck: m.truck.pose,
            speed: m.truck.speed,
            deceleration: self.deceleration,
            steer: m.truck.steer,
            arm: m.truck.arm,
            arm_zone: m.truck.arm_zone,
            fork_height: m.truck.fork_height,
            stance: m.truck.stance,
            step_phase,
            look: m.controls.look,
            horn: m.truck.horn_sounds,
            braking: m.truck.braking,
            plugging: m.truck.plugging,
            drive_wheel_slips: m.truck.drive_wheel_slips,
            load_wheels_slip: m.truck.load_wheels_slip,
            throttle: m.controls.throttle,
            cones,
            aboard: m.rider.aboard,
            key_on: m.controls.key_on,
            knock: knock(m),
            head: self.eye.head.angle,
            eye: m.truck.platform_in_yard,
            view: Arc::from([]),
            people: Arc::from([]),
            others: Arc::from([]),
            pallets: Arc::from([]),
            cases: Arc::from([]),
            docks: Arc::from([]),
            tried: m.walk.as_ref().and_then(Walk::tried),
        };
        let small = |p: &Vec2| [p.x as f32, p.y as f32];
        frame.view = self.eye.outlook.whole().boundary.iter().map(small).collect();
        let person = |p: &Someone| {
            let walker = &course.warehouse.people[p.index];
            let towards = p.person.bound_for(&walker.route).map(|n| n - p.person.at);
            let faces = if p.person.velocity.length() > 0.0 {
                p.person.velocity
            } else {
                towards.unwrap_or(vec2(0.0, 1.0))
            };
            PersonFrame {
                person: p.index as u32,
                at: p.person.at,
                heading: faces.angle(),
                speed: p.person.velocity.length(),
                seen: p.sighting.since.is_some(),
                looks_up: p.person.looks_up(),
                holds_back: p.doing(walker) == Doing::HoldingBack,
            }
        };
        frame.people = self.foot.people.iter().map(person).collect();
        let other = |o: &Other| OtherFrame {
            other: o.index as u32,
            pose: o.pose,
            seen: o.seen_since.is_some(),
            horn: o.horn(&course.warehouse.others[o.index], m.tick),
        };
        frame.others = self.others.trucks.iter().map(other).collect();
        let pallet = |i: usize| self.pallet_frame(i, frame.truck);
        frame.pallets = (0..self.loads.pallets.len()).map(pallet).collect();
        let case = |(pose, size)| CaseFrame { pose, size };
        frame.cases = self.floor.cases().map(case).collect();
        frame.docks = self.docks.iter().copied().collect();
        frame
    }

    fn pallet_frame(&self, i: usize, truck: Pose) -> PalletFrame {
        let standing = self.loads.standing(i as u32);
        let carried = self.loads.pallets[i].at == Where::Forks;
        let pose = match (self.loads.pallets[i].at, standing) {
            (Where::Floor(pose) | Where::Fallen(pose), _) => pose,
            (Where::Forks, Some(s)) => Pose { at: truck.to_yard(s.at()), ..truck },
            (Where::Forks, None) => truck,
        };
        let columns: Arc<[(u8, Vec2)]> = match standing {
            Some(s) => s
                .columns
                .iter()
                .map(|c| {
                    let top = c.cases.last().map_or(Vec2::default(), |k| k.shift);
                    (c.cases.len() as u8, top)
                })
                .collect(),
            None => Arc::from([]),
        };
        PalletFrame {
            pallet: i as u32,
            pose,
            carried,
            columns,
            lean: standing.map_or(Vec2::default(), |s| s.lean()),
        }
    }
}

/// How hard the truck moves into what is not a cone, m/s.
fn knock(m: &Moment) -> f64 {
    let hard = m.contacts.iter().filter(|c| !matches!(c.with, Touched::Cone(_)));
    hard.map(|c| c.closing_speed).fold(0.0, f64::max)
}
