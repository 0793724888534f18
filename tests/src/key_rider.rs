//! A rider with nothing but a keyboard: it looks where the truck is and says which keys are down.
//!
//! It drives slowly, looks only a few times a second and reacts late, as a beginner does. It stands
//! on the inner side of each bend, and stops to step across. The keys are the ones that the site
//! starts out with; the tiller stays where it is let go.

use std::collections::BTreeSet;

use coneyard_core::controls::Side;
use coneyard_core::course::{Course, StepKind};
use coneyard_core::geometry::dubins::widest;
use coneyard_core::math::{DEG, Pose, Vec2, atan, vec2};
use coneyard_core::moment::Moment;
use coneyard_core::truck::spec::TruckSpec;

/// The keys that are held, as what is printed on them.
pub type Held = BTreeSet<char>;

const QUARTER_TWIST: char = '1';
const HALF_TWIST: char = '2';
const AHEAD: char = 'w';
const LEFT: char = 'a';
const RIGHT: char = 'd';
const STAND_LEFT: char = 'q';
const STAND_RIGHT: char = 'e';
const FORKS_DOWN: char = 'f';
const HORN: char = 'h';

/// Distance between the points of the track, m.
const SPACING: f64 = 0.1;
/// The rider steers for a point so far ahead of the platform, m.
const LOOK_AHEAD: f64 = 1.3;
/// The tiller is left alone when it is this close to what is wanted, rad.
const NEAR_ENOUGH: f64 = 6.0 * DEG;
/// The truck slows down by itself by this much, m/s^2, a little less than it does.
const COASTING: f64 = 0.42;
/// Slower than this it stands, m/s.
const STANDING: f64 = 0.02;
/// A box is driven into straight for so long, m.
const STRAIGHT_IN: f64 = 1.8;
/// The wrist turns less for the last metres.
const CAREFUL: f64 = 4.0;
/// Ticks of horn before the start.
const HORN_TICKS: u32 = 32;
/// The forks are down at this height, m.
const DOWN: f64 = 0.002;

/// A place to stop at: an index into the track, and the side to stand on from there.
struct Stop {
    at: usize,
    stand: Side,
}

/// The rider.
pub struct KeyRider {
    /// Where the platform should go.
    track: Vec<Vec2>,
    stops: Vec<Stop>,
    wheelbase: f64,
    /// Nearest point of the track; it only ever moves on.
    here: usize,
    horn_until: u32,
}

impl KeyRider {
    /// A rider for a course of gates that ends in a box.
    pub fn new(course: &Course, truck: &TruckSpec) -> Self {
        let mut rider = Self {
            track: Vec::new(),
            stops: Vec::new(),
            wheelbase: truck.geometry.wheelbase_m,
            here: 0,
            horn_until: HORN_TICKS,
        };
        let platform = vec2(truck.geometry.platform_x_m, 0.0);
        let mut at = Pose { at: course.spawn.to_yard(platform), heading: course.spawn.heading };
        let mut stand = course.spawn_stance;
        for pose in goals(course) {
            let way = widest(at, pose, 2.2, 14.0, |_| true);
            let bend = way.parts.iter().map(|(curvature, length)| curvature * length).sum::<f64>();
            let inner = if bend > 0.0 { Side::Left } else { Side::Right };
            if bend.abs() > 0.5 && inner != stand {
                stand = inner;
                rider.stops.push(Stop { at: rider.track.len(), stand });
            }
            let points = (way.length() / SPACING) as usize;
            rider.track.extend((0..points).map(|i| way.pose_at(at, i as f64 * SPACING).at));
            at = pose;
        }
        rider.stops.push(Stop { at: rider.track.len(), stand });
        rider
    }

    /// The keys that are down from now on.
    pub fn keys(&mut self, moment: &Moment) -> Held {
        let truck = &moment.truck;
        let mut held = Held::new();
        if moment.tick < self.horn_until {
            held.insert(HORN);
            return held;
        }
        self.look_where(truck.platform_in_yard);
        let Some(stop) = self.stops.first() else {
            return held;
        };
        let standing = truck.speed.abs() < STANDING;
        let to_stop = (stop.at as f64 - self.here as f64) * SPACING;
        let last = self.stops.len() == 1;
        if to_stop > truck.speed * truck.speed / (2.0 * COASTING) {
            held.insert(AHEAD);
            held.insert(if last && to_stop < CAREFUL { QUARTER_TWIST } else { HALF_TWIST });
        } else if standing && last {
            if truck.fork_height > DOWN {
                held.insert(FORKS_DOWN);
            }
            return held;
        } else if standing && (truck.stance != stop.stand || truck.stepping) {
            held.insert(if stop.stand == Side::Left { STAND_LEFT } else { STAND_RIGHT });
            return held;
        } else if standing {
            self.horn_until = moment.tick + HORN_TICKS;
            self.stops.remove(0);
            return held;
        }
        let wanted = self.wanted_steer(truck.pose);
        if wanted - truck.steer > NEAR_ENOUGH {
            held.insert(LEFT);
        } else if truck.steer - wanted > NEAR_ENOUGH {
            held.insert(RIGHT);
        }
        held
    }

    /// Moves on along the track to the point nearest to the platform.
    fn look_where(&mut self, platform: Vec2) {
        if self.here == self.track.len() {
            return;
        }
        let near = |i: usize| (self.track[i] - platform).length();
        let end = (self.here + 30).min(self.track.len());
        if let Some(nearest) = (self.here..end).min_by(|a, b| near(*a).total_cmp(&near(*b))) {
            self.here = nearest;
        }
        // Past the last point the track is over, however far to its side the truck is.
        if self.here + 1 == self.track.len() {
            self.here = self.track.len();
        }
    }

    /// The drive wheel's angle whose arc leads the load axle through the point ahead.
    fn wanted_steer(&self, truck: Pose) -> f64 {
        let ahead = self.here + (LOOK_AHEAD / SPACING) as usize;
        let target = match self.track.get(ahead) {
            Some(point) => *point,
            None => beyond(&self.track, ahead),
        };
        let seen = truck.to_body(target);
        let curvature = 2.0 * seen.y / seen.dot(seen);
        atan(self.wheelbase * curvature)
    }
}

/// The track's last direction carried on.
fn beyond(track: &[Vec2], index: usize) -> Vec2 {
    let [.., before, last] = track else { return Vec2::default() };
    *last + (*last - *before) * (index as f64 + 1.0 - track.len() as f64)
}

/// Poses of the platform to go through, in order.
fn goals(course: &Course) -> Vec<Pose> {
    let mut goals = Vec::new();
    for step in &course.steps {
        match &step.what {
            StepKind::Gates { gates, laps } => {
                for gate in (0..*laps).flat_map(|_| gates) {
                    let gate = &course.gates[*gate];
                    goals.push(Pose { at: gate.middle(), heading: gate.direction().angle() });
                }
            }
            StepKind::Park { stop_box, .. } => {
                let stop = course.boxes[*stop_box].pose;
                let before = stop.at - Vec2::from_angle(stop.heading) * STRAIGHT_IN;
                goals.extend([Pose { at: before, ..stop }, stop]);
            }
            // Driven by keys are only courses of gates and boxes.
            _ => {}
        }
    }
    goals
}

#[cfg(test)]
mod tests {
    use super::*;
    use coneyard_core::controls::{ArmAsk, Controls, TillerAsk};
    use coneyard_core::course::shipped;
    use coneyard_core::debrief::{Debrief, Ending};
    use coneyard_core::rules::SHIPPED;
    use coneyard_core::run::DriveSetup;
    use coneyard_core::time::DT;
    use coneyard_core::truck::spec;
    use coneyard_sim::Session;

    /// What the keys make of the truck's controls, in a few lines; the site's own way is tested in
    /// the browser.
    fn controls(held: &Held, before: &Controls, ticks: u32) -> Controls {
        let grown = (f64::from(ticks) * DT / 0.8 * 100.0) as i8;
        let reach = if held.contains(&QUARTER_TWIST) { 25 } else { 50 };
        let throttle = if held.contains(&AHEAD) {
            before.throttle.saturating_add(grown).min(reach)
        } else {
            0
        };
        let swing = i8::from(held.contains(&LEFT)) - i8::from(held.contains(&RIGHT));
        let stance = if held.contains(&STAND_LEFT) {
            Side::Left
        } else if held.contains(&STAND_RIGHT) {
            Side::Right
        } else {
            before.stance
        };
        Controls {
            throttle,
            tiller: TillerAsk::Swing(swing * 100),
            arm: ArmAsk::Hold,
            stance,
            horn: held.contains(&HORN),
            forks_down: held.contains(&FORKS_DOWN),
            ..Controls::default()
        }
    }

    /// Drives the figure-eight, looking every so many ticks and acting so many ticks later.
    fn drive(every: u32, late: u32) -> Debrief {
        let setup = DriveSetup {
            course: shipped::text("figure-eight").unwrap().to_owned(),
            truck: spec::shipped::SINGLE.to_owned(),
            rules: SHIPPED.to_owned(),
            checks: String::new(),
            seed: 1,
            who: String::new(),
            started: String::new(),
        };
        let mut session = Session::new(&setup).unwrap();
        let mut rider = KeyRider::new(&shipped::parse("figure-eight"), &spec::shipped::single());
        let mut now = Controls { stance: Side::Right, ..Controls::default() };
        let mut held = Held::new();
        while session.ending().is_none() {
            let next = rider.keys(session.moment());
            for i in 0..every {
                let keys = if i < late { &held } else { &next };
                now = controls(keys, &now, 1);
                session.step(now);
            }
            held = next;
        }
        let run = session.finish(1.0);
        run.claimed
    }

    #[test]
    fn it_drives_the_figure_eight_although_it_looks_seldom_and_acts_late() {
        for (every, late) in [(4, 2), (8, 4), (12, 8)] {
            let debrief = drive(every, late);
            assert_eq!(debrief.ending, Ending::Done, "every {every} ticks, {late} late");
        }
    }
}
