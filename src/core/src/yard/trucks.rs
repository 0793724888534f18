//! Other trucks on their ways: who is there, how they drive, and how they stand to the own truck.

use crate::course::Course;
use crate::course::warehouse::OtherTruck;
use crate::dice::{Stream, dice};
use crate::geometry::{convex_overlap, rectangle};
use crate::math::{Pose, Vec2, vec2, wrap_angle};
use crate::moment::OtherMoment;
use crate::moment::reach::TRUCKS_AHEAD;
use crate::sight::outlook::Outlook;
use crate::state;
use crate::time::{DT, TICK_RATE, Tick};
use crate::yard::TruckNow;
use crate::yard::draws::{after, who_is_there};

/// Radius of their turns, m (typical, no source).
const RADIUS: f64 = 1.6;
/// Speeding up and slowing down, m/s^2 (typical, no source).
const SPEEDING: f64 = 0.8;
const SLOWING: f64 = 1.5;
/// They stop this far before what stands in their way, m.
const KEEPS_OFF: f64 = 0.6;
/// And mind what is this far beside their outline, m.
const BESIDE: f64 = 0.1;
/// A place of the way counts as reached from so near, m.
const REACHED: f64 = 0.3;
/// The way straight ahead of the own truck on which another one counts as ahead: half its width, m.
const LANE: f64 = 1.3;
/// Their horns sound for so long, s, when they set off and before they turn (typical, no source).
const HORN_S: f64 = 0.75;
/// So far before a turn, m.
const HORN_BEFORE_M: f64 = 4.0;
/// Cosine of the least change of heading that counts as one: 45 degrees.
const TURN: f64 = core::f64::consts::FRAC_1_SQRT_2;
/// Cosine of the angle between two headings within which they go the same way, or meet: 60 degrees.
const SAME_WAY: f64 = 0.5;

/// Another truck that is there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Other {
    /// Index in the course.
    pub index: usize,
    /// Middle and heading.
    pub pose: Pose,
    /// Speed along its heading, m/s.
    pub speed: f64,
    /// Turns left, rad/s.
    pub yaw_rate: f64,
    /// Set off in this tick.
    pub set_off: Option<Tick>,
    /// First tick of its present time in sight.
    pub seen_since: Option<Tick>,
    next: usize,
    after_s: f64,
}

/// All other trucks.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Others {
    /// Those that are there.
    pub trucks: Vec<Other>,
}

impl Others {
    /// At the start, drawn from the seed.
    pub fn new(course: &Course, seed: u64) -> Self {
        let all = &course.warehouse.others;
        let mut dice = dice(seed, Stream::Trucks);
        let there = who_is_there(all.iter().map(|o| o.one_of.as_deref()), &mut dice);
        let mut trucks = Vec::new();
        for (index, (other, there)) in all.iter().zip(there).enumerate() {
            let after_s = after(&other.sets_off, &mut dice);
            if there {
                trucks.push(Other {
                    index,
                    pose: Pose { at: other.way[0], heading: (other.way[1] - other.way[0]).angle() },
                    speed: 0.0,
                    yaw_rate: 0.0,
                    set_off: None,
                    seen_since: None,
                    next: 1,
                    after_s,
                });
            }
        }
        Self { trucks }
    }

    /// One tick. People that are on foot are minded as the own truck is.
    pub fn step(&mut self, course: &Course, truck: &TruckNow<'_>, people: &[Vec2]) {
        for i in 0..self.trucks.len() {
            let me = self.trucks[i];
            let file = &course.warehouse.others[me.index];
            let ahead = me.room_ahead(file);
            let blocked = truck.parts.iter().any(|p| convex_overlap(p, &ahead))
                || people.iter().any(|p| crate::geometry::in_polygon(*p, &ahead))
                || self.trucks.iter().enumerate().any(|(j, o)| {
                    j != i && convex_overlap(&o.outline(&course.warehouse.others), &ahead)
                });
            self.trucks[i].drive(file, truck, blocked);
        }
    }

    /// Which of them the rider sees.
    pub fn look(&mut self, course: &Course, view: &mut Outlook, now: Tick) {
        for other in &mut self.trucks {
            let size = course.warehouse.others[other.index].size;
            // What is opaque bounds the view itself: a disc around it that is a little larger is
            // reached exactly when its face is.
            let seen = view.reaches_disc(other.pose.at, 0.5 * size.x.min(size.y) + 0.05)
                || other.outline(&course.warehouse.others).iter().any(|p| view.holds(*p));
            other.seen_since = if seen { other.seen_since.or(Some(now)) } else { None };
        }
    }

    /// Outlines, yard frame, m.
    pub fn outlines(&self, course: &Course) -> impl Iterator<Item = [Vec2; 4]> {
        self.trucks.iter().map(|o| o.outline(&course.warehouse.others))
    }

    /// What a Moment says about them.
    pub fn moments(&self, course: &Course, truck: &TruckNow<'_>, into: &mut Vec<OtherMoment>) {
        let moment = |o: &Other| {
            let outline = o.outline(&course.warehouse.others);
            let ahead = ahead(truck, &outline);
            OtherMoment {
                other: o.index as u32,
                pose: o.pose,
                speed: o.speed,
                gap: truck.parts.iter().map(|p| apart(p, &outline)).fold(f64::INFINITY, f64::min),
                seen_since: o.seen_since,
                set_off: o.set_off,
                ahead,
                oncoming: ahead.is_some()
                    && o.speed > 0.0
                    && Vec2::from_angle(o.pose.heading).dot(truck.along) < -SAME_WAY,
            }
        };
        into.clear();
        into.extend(self.trucks.iter().map(moment));
    }
}

impl Other {
    /// Outline, yard frame, m.
    pub fn outline(&self, all: &[OtherTruck]) -> [Vec2; 4] {
        rectangle(self.pose, all[self.index].size)
    }

    /// Where it was so many seconds ago within this tick.
    #[must_use]
    pub fn back_by(&self, seconds: f64) -> Self {
        let Pose { at, heading } = self.pose;
        let at = at - Vec2::from_angle(heading) * (self.speed * seconds);
        Self { pose: Pose { at, heading: heading - self.yaw_rate * seconds }, ..*self }
    }

    /// Its horn sounds: when it sets off, and when it comes to a turn of its way. Nobody in the yard
    /// minds it; it is there to be heard and seen.
    pub fn horn(&self, file: &OtherTruck, now: Tick) -> bool {
        let Some(set_off) = self.set_off else {
            return false;
        };
        let sets_off = f64::from(now.saturating_sub(set_off)) < HORN_S * f64::from(TICK_RATE);
        sets_off || self.comes_to_a_turn(file)
    }

    fn comes_to_a_turn(&self, file: &OtherTruck) -> bool {
        let count = file.way.len();
        let after = if file.starts_over { (self.next + 1) % count } else { self.next + 1 };
        let (Some(goal), Some(then)) = (file.way.get(self.next), file.way.get(after)) else {
            return false;
        };
        let (there, on) = (*goal - self.pose.at, *then - *goal);
        let away = there.length();
        let turns = there.dot(on) < TURN * away * on.length();
        let from = HORN_BEFORE_M - self.speed * HORN_S;
        turns && self.speed > 0.0 && away <= HORN_BEFORE_M && away > from
    }

    /// What it minds before it: as far as it takes to stop, and some room.
    fn room_ahead(&self, file: &OtherTruck) -> [Vec2; 4] {
        let long = self.speed * self.speed / (2.0 * SLOWING) + KEEPS_OFF;
        let middle = vec2(0.5 * (file.size.x + long), 0.0);
        let pose = Pose { at: self.pose.to_yard(middle), heading: self.pose.heading };
        rectangle(pose, vec2(long, file.size.y + 2.0 * BESIDE))
    }

    fn drive(&mut self, file: &OtherTruck, truck: &TruckNow<'_>, blocked: bool) {
        self.yaw_rate = 0.0;
        if self.set_off.is_none() {
            if !file.sets_off.is_now(self.after_s, truck) {
                return;
            }
            self.set_off = Some(truck.tick);
        }
        let Some(goal) = file.way.get(self.next).copied() else {
            self.speed = 0.0;
            return;
        };
        let last = self.next + 1 == file.way.len() && !file.starts_over;
        let to_goal = (goal - self.pose.at).length();
        let wanted = match (blocked, last) {
            (true, _) => 0.0,
            (false, true) => file.speed.min((2.0 * SLOWING * 0.6 * to_goal).sqrt()),
            (false, false) => file.speed,
        };
        let change = (wanted - self.speed).clamp(-SLOWING * DT, SPEEDING * DT);
        self.speed = (self.speed + change).max(0.0);
        let turn = wrap_angle((goal - self.pose.at).angle() - self.pose.heading);
        let most = self.speed / RADIUS * DT;
        let turned = turn.clamp(-most, most);
        self.yaw_rate = turned / DT;
        self.pose.heading = wrap_angle(self.pose.heading + turned);
        self.pose.at = self.pose.at + Vec2::from_angle(self.pose.heading) * (self.speed * DT);
        let from = file.way[(self.next + file.way.len() - 1) % file.way.len()];
        let past = (self.pose.at - goal).dot(goal - from) >= 0.0;
        if (goal - self.pose.at).length() < REACHED || past {
            self.next += 1;
            if self.next == file.way.len() && file.starts_over {
                self.next = 0;
            }
        }
    }
}

/// Distance along the own truck's way to an outline on it, m.
fn ahead(truck: &TruckNow<'_>, outline: &[Vec2; 4]) -> Option<f64> {
    let at = |p: Vec2| {
        let d = p - truck.leading;
        vec2(truck.along.dot(d), truck.along.cross(d))
    };
    let corners = outline.map(at);
    let least = |f: fn(&Vec2) -> f64| corners.iter().map(f).fold(f64::INFINITY, f64::min);
    let most = |f: fn(&Vec2) -> f64| corners.iter().map(f).fold(f64::NEG_INFINITY, f64::max);
    let on_the_way = least(|p| p.y) < LANE && most(|p| p.y) > -LANE;
    let near = least(|p| p.x);
    (on_the_way && most(|p| p.x) > 0.0 && near < TRUCKS_AHEAD).then_some(near.max(0.0))
}

/// Clear distance between two convex outlines, m; 0 when they overlap.
pub fn apart(a: &[Vec2], b: &[Vec2]) -> f64 {
    if convex_overlap(a, b) {
        return 0.0;
    }
    use crate::geometry::distance_to_polygon;
    let from = |p: &[Vec2], q: &[Vec2]| {
        p.iter().map(|c| distance_to_polygon(*c, q)).fold(f64::INFINITY, f64::min)
    };
    from(a, b).min(from(b, a))
}

state!(Other { index, pose, speed, yaw_rate, set_off, seen_since, next, after_s });
state!(Others { trucks });
