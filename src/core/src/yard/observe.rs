//! What is true of the yard after a tick.

use crate::acts::{Act, Input};
use crate::controls::Controls;
use crate::course::Travel;
use crate::course::place::{footing, grade_at, place, surface_at};
use crate::geometry::rectangle;
use crate::math::{Vec2, vec2};
use crate::moment::{LoadMoment, Moment, OffMoment, RiderMoment, SightMoment, TruckMoment};
use crate::people::encounter::{Mover, gap};
use crate::sight::looking::Disc;
use crate::sight::polygon::{Segment, clear_line};
use crate::time::{DT, Tick};
use crate::truck::stopping::{braking_reached, stopping_distance};
use crate::truck::tiller::scrub_torque;
use crate::yard::contacts::Contacts;
use crate::yard::eye::off_path;
use crate::yard::foot::PERSON_RADIUS;
use crate::yard::machine::{Spare, Yard};
use crate::yard::now::{onward, parts, truck_now};
use crate::yard::setting::Setting;

/// A truck slower than this keeps the direction of travel it had, m/s.
const STANDS: f64 = 0.02;

/// Where the brake cannot stop the truck, this is said of the distance, m: longer than any yard, and
/// a number that a run file can hold.
const NEVER_STOPS: f64 = 200.0;

impl<C: Contacts> Yard<C> {
    /// Everything but the task. `travel` is what the present step asks for: at rest with the throttle in
    /// neutral that is the way that lies ahead.
    ///
    /// `last` is what was true before: its room is used again, so that a tick asks for no memory.
    pub fn observe(&mut self, tick: Tick, input: Input, travel: Travel, last: Moment) -> Moment {
        let Input { controls, acts } = input;
        let truck = self.truck(&controls);
        let place = place(&self.setting.course, &truck.pose, &self.setting.truck);
        let Moment {
            outline, contacts, people, others, ways, crossings, docks, load, rider, ..
        } = last;
        let mut moment = Moment {
            controls,
            acts,
            place,
            truck,
            outline,
            contacts,
            people,
            others,
            ways,
            crossings,
            docks,
            load,
            // Who is off stays where they stepped down.
            rider: RiderMoment { off: rider.off, ..Moment::at_rest().rider },
            ..Moment::at_rest()
        };
        self.observe_around(tick, travel, &mut moment);
        moment
    }

    fn observe_around(&mut self, tick: Tick, travel: Travel, moment: &mut Moment) {
        let setting = &self.setting;
        let Setting { course, truck: spec, .. } = setting;
        let motion = &self.motion;
        self.ahead = match (moment.truck.speed, moment.controls.throttle) {
            (v, _) if v.abs() > STANDS => v > 0.0,
            (_, 0) => travel == Travel::PowerUnitFirst,
            (_, throttle) => throttle > 0,
        };
        self.parts.clear();
        self.parts.extend(parts(setting, moment.truck.pose, &self.loads));
        moment.outline.clone_from(&self.parts);
        moment.contacts.clone_from(&self.touching.now);
        let mut spare = core::mem::take(&mut self.spare);
        let Spare { outlines, moving, seen, .. } = &mut spare;
        outlines.clear();
        outlines.extend(self.others.outlines(course));
        moment.tick = tick;
        let truck = truck_now(&self.parts, &moment.truck, motion, self.ahead, moment);
        self.eye.head.tick(moment.controls.look, moment.truck.stance);
        moving.clone_from(outlines);
        let fork_height = moment.truck.fork_height;
        let hides = self.loads.top(fork_height) > spec.rider.eye_height_m;
        if hides {
            moving.extend(self.parts.iter().skip(spec.outline().len()));
        }
        self.high_pallets(moving);
        self.eye.look(course, &truck, moving);
        self.foot.look(&mut self.eye.outlook, &self.eye.noticing, tick);
        self.others.look(course, &mut self.eye.outlook, tick);

        let pose = moment.truck.pose;
        let stands = [vec2(spec.geometry.wheelbase_m, 0.0), motion.body.com];
        let [wheel, com] = stands.map(pose.placer());
        let on = footing(course, spec, (wheel, com), pose.heading, self.ahead);
        self.deceleration = braking_reached(spec, &motion.body, &on);
        let speed = moment.truck.speed.abs();
        let braking = stopping_distance(speed, 0.0, self.deceleration).min(NEVER_STOPS);
        let in_sight = self.foot.people.iter().filter(|p| p.sighting.since.is_some());
        seen.clear();
        seen.extend(in_sight.map(|p| Disc { at: p.person.at, radius: PERSON_RADIUS }));
        let onward = onward(setting, &moment.truck, self.ahead, braking);
        moment.sight = SightMoment {
            clear_ahead: self.eye.clear_ahead(course, &truck, &onward, (seen, moving)),
            braking,
            load_hides: hides && !self.ahead,
        };
        moment.rider = RiderMoment {
            aboard: moment.controls.aboard,
            head: self.eye.head.angle,
            off_path: if speed > STANDS { off_path(&self.eye.head, &truck) } else { 0.0 },
            headroom: self.room.headroom(spec, moment.truck.pose),
            body_gap: self.room.gap(spec, moment.truck.pose, moment.truck.steer, outlines),
            off: (!moment.controls.aboard).then(|| {
                let stepped_down = moment.rider.off.map_or(moment.truck.platform_in_yard, |o| o.at);
                off(stepped_down, &self.parts, self.eye.opaque(stepped_down, outlines))
            }),
        };
        let mut events = core::mem::take(&mut moment.load.events);
        events.clone_from(&self.loads.events);
        moment.load = LoadMoment {
            pallets: self.loads.carried.len() as u32,
            mass: self.loads.mass(),
            capacity: spec.mass.capacity_kg,
            holds_sideways: self
                .loads
                .stack
                .holds_sideways(fork_height)
                .map(|most| most - self.leans()),
            slid: self.loads.stack.farthest_slide(),
            cases_off: self.loads.cases_off,
            events,
            refused: self.loads.refused,
            pushed: self.loads.pushed(),
            ran_over: self.touching.ran_over,
            grade: grade_at(course, com, pose.heading),
        };
        self.foot.moments(&truck, &mut moment.people);
        self.others.moments(course, &truck, &mut moment.others);
        let view = &mut self.eye.outlook;
        self.ways.lines(course, &truck, view, &mut moment.ways);
        self.ways.crossings(course, &truck, (&self.foot, view), &mut moment.crossings);
        let head = (&mut self.eye.outlook, self.eye.head.angle);
        let reports = moment.acts.contains(&Act::Report);
        self.ways.docks(course, &truck, head, reports, &mut moment.docks);
        self.docks.clone_from(&moment.docks);
        if let Some(walk) = &mut self.walk {
            let beside = !moment.controls.aboard && speed <= STANDS;
            walk.tick(&moment.acts, beside, self.look_closer);
            moment.walk = Some(walk.clone());
        }
        self.pushed = moment.load.pushed.is_some();
        self.spare = spare;
    }

    /// Adds the pallets on the floor that stand higher than the eye.
    fn high_pallets(&self, into: &mut Vec<[Vec2; 4]>) {
        let w = &self.setting.course.warehouse;
        let floor = self.loads.on_floor().filter(|(i, _)| self.high[*i as usize]);
        into.extend(floor.map(|(i, pose)| rectangle(pose, self.loads.size(i, w))));
    }

    fn truck(&self, hands: &Controls) -> TruckMoment {
        let Setting { course, truck: spec, .. } = &self.setting;
        let (motion, rig) = (&self.motion, &self.rig);
        let body = &motion.body;
        let pose = motion.pose;
        let to_yard = pose.placer();
        let axle = motion.twist.at(Vec2::default(), body.com);
        let drive_wheel = vec2(spec.geometry.wheelbase_m, 0.0);
        let wheel = motion.twist.at(drive_wheel, body.com);
        let torque = scrub_torque(
            motion.loads.drive,
            spec.friction_on(surface_at(course, to_yard(drive_wheel))),
            spec.geometry.drive_wheel_width_m,
            wheel.length(),
            spec.tiller.scrub_fade_mps,
        );
        TruckMoment {
            pose,
            platform_in_yard: to_yard(spec.platform()),
            nose_in_yard: to_yard(vec2(spec.geometry.nose_x_m, 0.0)),
            tips_in_yard: to_yard(vec2(spec.geometry.fork_tips_x_m, 0.0)),
            speed: axle.x,
            yaw_rate: motion.twist.yaw_rate,
            accel_long: motion.acceleration.x,
            accel_side: motion.acceleration.y,
            accel_wheel: (wheel.dot(Vec2::from_angle(rig.wheel)) - motion.wheel_before) / DT,
            steer: rig.wheel,
            steer_rate: rig.tiller.rate,
            arm: rig.arm.angle,
            arm_zone: rig.arm.zone,
            braking: rig.travel.braking,
            plugging: rig.travel.plugging,
            high_speed_on: rig.travel.high_speed_on,
            fork_height: rig.fork_height,
            stance: rig.stance,
            stepping: rig.stepping(),
            arm_strength: rig.tiller.arm_strength,
            arm_torque: if rig.tiller.arm_works { torque } else { 0.0 },
            drive_wheel_slips: motion.solved.is_some_and(|s| s.drive_slips),
            load_wheels_slip: motion.solved.is_some_and(|s| s.load_slips),
            wheel_loads: [motion.loads.drive, motion.loads.left, motion.loads.right],
            horn_sounds: self.setting.machine().horn_sounds(hands),
            tipped: motion.tipped,
            battery_slid: self.battery_slid,
        }
    }
}

/// Someone who stands there, and the truck: how far apart, and whether they see a corner of it.
fn off(at: Vec2, truck: &[[Vec2; 4]], opaque: &[Segment]) -> OffMoment {
    let stands = Mover { at, velocity: Vec2::default(), radius: 0.0 };
    let away = gap(truck, &stands);
    let in_view =
        away <= 0.0 || truck.iter().flatten().any(|corner| clear_line(at, *corner, opaque));
    OffMoment { at, away, in_view }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn who_stands_round_a_corner_sees_nothing_of_the_truck() {
        let truck = [[vec2(9.0, -0.5), vec2(12.0, -0.5), vec2(12.0, 0.5), vec2(9.0, 0.5)]];
        let wall = |half: f64| [Segment { from: vec2(5.0, -half), to: vec2(5.0, half) }];
        let seen = |half: f64| off(Vec2::default(), &truck, &wall(half));
        assert_eq!((seen(2.0).away, seen(2.0).in_view), (9.0, false));
        // A corner of it shows past a wall that is as wide as 0.27 m on either side.
        assert!(seen(0.27).in_view && !seen(0.28).in_view);
        assert!(off(vec2(10.0, 0.0), &truck, &wall(2.0)).in_view, "who touches it sees it");
    }
}
