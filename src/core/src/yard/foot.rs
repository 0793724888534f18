//! The people of a course: who is there, when they set off, and how near they are to the truck.

use crate::course::Course;
use crate::course::place::limit_in;
use crate::course::step_out::Trigger;
use crate::course::warehouse::{SetsOff, Walker};
use crate::dice::{Stream, dice};
use crate::math::{Pose, Vec2, vec2};
use crate::moment::PersonMoment;
use crate::people::encounter::{
    Mover, Nearness, Outline, Sides, circle_round, gap, nearness_of_all,
};
use crate::people::pace::WALKING;
use crate::people::walk::{Doing, HornManners, Person};
use crate::sight::looking::{Noticing, Sighting};
use crate::sight::outlook::Outlook;
use crate::sight::polygon::{Segment, clear_line};
use crate::state;
use crate::time::{DT, Tick};
use crate::truck::loads::RigidBody;
use crate::truck::spec::TruckSpec;
use crate::yard::TruckNow;
use crate::yard::draws::{after, who_is_there};
use crate::yard::setting::Reckoned;

/// Radius of a person seen from above, m: half the shoulder breadth of a large adult (typical,
/// from memory, no source).
pub const PERSON_RADIUS: f64 = 0.25;
/// A person stops short of a truck that stands in the way, m.
const KEEPS_OFF: f64 = 0.4;
/// And of one that moves, m; less when they have stepped out without looking.
const KEEPS_OFF_MOVING: f64 = 2.2;
const KEEPS_OFF_SLOW: f64 = 0.8;
/// A truck slower than this stands, and is walked round, m/s; from one slower than that even those
/// keep off who have stepped out without looking.
const STANDS: f64 = 0.05;
const SLOW: f64 = 1.5;
/// A way to the side of a step-out's own way, m, on which the truck counts as coming.
const BESIDE: f64 = 2.5;
/// The truck comes when it is faster than this, m/s.
const COMES: f64 = 0.3;
/// A truck faster than this is waited for by those who hold back, m/s.
const HOLDS_FOR: f64 = 0.3;
/// A truck slower than this has stopped, m/s, and lets people cross that are this near, m.
const STOPPED: f64 = 0.05;
const LETS: f64 = 8.0;
/// How far behind its leading end a rider's eye is at most, m, for what hides a step-out.
const EYE_BEHIND: f64 = 1.5;

/// Someone who is there.
#[derive(Clone, Debug)]
pub struct Someone {
    /// Index in the course.
    pub index: usize,
    /// Walks.
    pub person: Person,
    /// What the rider has seen of them.
    pub sighting: Sighting,
    /// Has stepped out in front of the truck since then.
    pub stepped_out: Option<Tick>,
    /// Ticks in the view and moving.
    moves_in_view: u32,
    /// How far the truck has moved since it touches them, m.
    pushed: f64,
    after_s: f64,
    /// Way from where they stand to where they can be seen, m; for who steps out.
    hidden_way: f64,
    manners: HornManners,
}

/// All people.
#[derive(Clone, Debug, Default)]
pub struct Foot {
    /// Those that are there.
    pub people: Vec<Someone>,
    /// Room for the truck as they are measured from it.
    sides: Sides,
}

/// What a step-out is placed by.
#[derive(Clone, Copy)]
pub struct Placing<'a> {
    /// The course.
    pub course: &'a Course,
    /// The truck.
    pub truck: &'a TruckSpec,
    /// Truck and load as they are now.
    pub body: &'a RigidBody,
    /// The speed limits that it is reckoned with.
    pub reckoned: &'a Reckoned,
}

impl Placing<'_> {
    /// Distance before `at` at which someone comes into sight there, m; `ahead` when the power unit
    /// leads, None when it is not known yet which end does.
    pub fn distance(&self, at: Pose, asked: Option<f64>, ahead: Option<bool>) -> f64 {
        let (course, truck, limit) = (self.course, (self.truck, self.body), self.limit(at));
        let trigger = match ahead {
            Some(ahead) => Trigger::at(course, truck, at, limit, ahead),
            None => Trigger::either_way(course, truck, at, limit),
        };
        let computed = trigger.distance();
        asked.map_or(computed, |d| d.max(computed))
    }

    fn limit(&self, at: Pose) -> f64 {
        let Reckoned { speed_limit, zones } = self.reckoned;
        limit_in(zones, at.at).unwrap_or(*speed_limit).min(*speed_limit)
    }
}

impl Foot {
    /// At the start, drawn from the seed. `opaque` is what hides people at the start.
    pub fn new(placing: &Placing<'_>, opaque: &[Segment], seed: u64) -> Self {
        let walkers = &placing.course.warehouse.people;
        let mut dice = dice(seed, Stream::People);
        let there = who_is_there(walkers.iter().map(|w| w.one_of.as_deref()), &mut dice);
        let mut people = Vec::new();
        for (index, (walker, there)) in walkers.iter().zip(there).enumerate() {
            let after_s = after(&walker.sets_off, &mut dice);
            if !there {
                continue;
            }
            let mut manners = HornManners::default();
            if let Some(hold_back) = walker.hold_back {
                manners.hold_back = hold_back;
            }
            people.push(Someone {
                index,
                person: Person::new(&walker.route, &WALKING, seed, index as u32),
                sighting: Sighting::default(),
                stepped_out: None,
                moves_in_view: 0,
                pushed: 0.0,
                after_s,
                hidden_way: hidden_way(walker, placing, opaque),
                manners,
            });
        }
        Self { people, sides: Sides::default() }
    }

    /// One tick: who sets off, and where everybody walks. `opaque` muffles the horn.
    pub fn step(&mut self, placing: &Placing<'_>, truck: &TruckNow<'_>, opaque: &[Segment]) {
        let circle = circle_round(truck.parts);
        for someone in &mut self.people {
            let walker = &placing.course.warehouse.people[someone.index];
            someone.set_off(walker, placing, truck);
            // Who holds back because of a horn has looked up, and lets a moving truck pass.
            let near = (truck.platform - someone.person.at).length() < LETS;
            if near
                && truck.speed.abs() > HOLDS_FOR
                && someone.person.doing(&walker.route) == Doing::HoldingBack
            {
                someone.person.velocity = Vec2::default();
                continue;
            }
            // A truck that has stopped lets people cross, and they see it.
            if truck.speed.abs() < STOPPED && (truck.leading - someone.person.at).length() < LETS {
                someone.person.cross_now(&walker.route);
            }
            let hears =
                truck.horn && someone.manners.hears(truck.platform, someone.person.at, opaque);
            if someone.is_barred(truck, &circle, walker) {
                if truck.speed.abs() < STANDS {
                    someone.go_round(truck);
                } else {
                    someone.person.velocity = Vec2::default();
                }
                continue;
            }
            someone.person.tick(&walker.route, &someone.manners, hears);
        }
    }

    /// Who is noticed now. Who has been stays so while in view.
    pub fn look(&mut self, view: &mut Outlook, by: &Noticing, now: Tick) {
        for someone in &mut self.people {
            let at = someone.person.at;
            let in_view = view.reaches_disc(at, PERSON_RADIUS);
            let moves = someone.person.velocity.length() > by.moving;
            someone.moves_in_view =
                if in_view && moves { someone.moves_in_view.saturating_add(1) } else { 0 };
            let noticed = someone.sighting.since.is_some()
                || view.is_before_the_eyes(at, by.cosine)
                || someone.moves_in_view > by.after;
            someone.sighting.tick(in_view && noticed, now);
        }
    }

    /// What a Moment says about them.
    pub fn moments(&mut self, truck: &TruckNow<'_>, into: &mut Vec<PersonMoment>) {
        let outline = Outline {
            parts: truck.parts,
            pivot: truck.pose.at,
            velocity: truck.velocity,
            yaw_rate: truck.yaw_rate,
        };
        let all = self.people.iter().map(Someone::mover);
        let all = nearness_of_all(&outline, all, &mut self.sides);
        into.clear();
        into.extend(self.people.iter().zip(all).map(|(s, near): (&Someone, Nearness)| {
            PersonMoment {
                person: s.index as u32,
                at: s.person.at,
                velocity: s.person.velocity,
                seen_since: s.sighting.since,
                first_seen: s.sighting.first,
                gap: near.gap,
                time_to_collision: near.time_to_collision,
                passing_speed: near.passing_speed,
                place_speed: near.place_speed,
                stepped_out: s.stepped_out,
                pushed: s.pushed,
            }
        }));
        for (someone, moment) in self.people.iter_mut().zip(into) {
            someone.is_touched(truck, moment.gap <= 0.0);
            moment.pushed = someone.pushed;
        }
    }
}

impl Someone {
    /// As a disc that moves.
    pub fn mover(&self) -> Mover {
        Mover { at: self.person.at, velocity: self.person.velocity, radius: PERSON_RADIUS }
    }

    /// Adds what the truck moves where it touches this person, whichever way they came together.
    fn is_touched(&mut self, truck: &TruckNow<'_>, touched: bool) {
        let there = (self.person.at - truck.pose.at).left() * truck.yaw_rate;
        let moved = (truck.velocity + there).length() * DT;
        self.pushed = if touched { self.pushed + moved } else { 0.0 };
    }

    fn set_off(&mut self, walker: &Walker, placing: &Placing<'_>, truck: &TruckNow<'_>) {
        let SetsOff::InFront { at, distance_m } = walker.sets_off else {
            if walker.sets_off.is_now(self.after_s, truck) {
                self.person.set_off(&walker.route);
            }
            return;
        };
        if self.stepped_out.is_some() || !comes(at, truck) {
            return;
        }
        // What is driven until the person has come out from cover is added to the distance at
        // which the person is to be seen.
        let hidden_s = self.hidden_way / self.person.pace;
        let leads = Some(truck.velocity.dot(Vec2::from_angle(truck.pose.heading)) > 0.0);
        let distance = placing.distance(at, distance_m, leads) + placing.limit(at) * hidden_s;
        if ahead(at, truck.leading) <= distance {
            self.stepped_out = Some(truck.tick);
            self.person.set_off(&walker.route);
        }
    }

    /// Someone who looks where they walk keeps clear of a moving truck and stops short of one that
    /// stands; who steps out in front of it does not look.
    fn is_barred(
        &self,
        truck: &TruckNow<'_>,
        (middle, radius): &(Vec2, f64),
        walker: &Walker,
    ) -> bool {
        let speed = truck.speed.abs();
        let steps_out = matches!(walker.sets_off, SetsOff::InFront { .. });
        let keeps_off = match (speed < STANDS, steps_out) {
            (true, _) => KEEPS_OFF,
            (false, true) if speed > SLOW => return false,
            (false, true) => KEEPS_OFF_SLOW,
            (false, false) => KEEPS_OFF_MOVING,
        };
        // Most people are far away, which the circle round the truck tells.
        if (self.person.at - *middle).length() > radius + PERSON_RADIUS + keeps_off + 1e-6 {
            return false;
        }
        let Some(next) = self.person.bound_for(&walker.route) else { return false };
        let here = gap(truck.parts, &self.mover());
        if here > keeps_off {
            return false;
        }
        let step = (next - self.person.at).normalized() * 0.1;
        gap(truck.parts, &Mover { at: self.person.at + step, ..self.mover() }) < here
    }

    /// Walks along the truck to its nearer end, as people do who find it in their way.
    fn go_round(&mut self, truck: &TruckNow<'_>) {
        let heading = Vec2::from_angle(truck.pose.heading);
        let along = |p: &Vec2| (*p - self.person.at).dot(heading);
        let corners = || truck.parts.iter().flatten().map(along);
        let (nose, tips) = (corners().fold(f64::MIN, f64::max), corners().fold(f64::MAX, f64::min));
        let way = if nose < -tips { heading } else { -heading };
        self.person.step_aside(way);
    }

    /// What this person does.
    pub fn doing(&self, walker: &Walker) -> Doing {
        self.person.doing(&walker.route)
    }
}

/// Way from a point to a place along the heading there, m.
fn ahead(at: Pose, from: Vec2) -> f64 {
    -at.to_body(from).x
}

/// The truck drives towards the place, along its heading.
fn comes(at: Pose, truck: &TruckNow<'_>) -> bool {
    let here = at.to_body(truck.leading);
    here.x < 0.0
        && here.y.abs() < BESIDE
        && truck.velocity.dot(Vec2::from_angle(at.heading)) > COMES
}

/// How far along the route someone walks before a rider can see them who comes along in the middle
/// of the way and is as near as the step-out's distance.
fn hidden_way(walker: &Walker, placing: &Placing<'_>, opaque: &[Segment]) -> f64 {
    let SetsOff::InFront { at, distance_m } = walker.sets_off else { return 0.0 };
    let far = placing.distance(at, distance_m, None) + EYE_BEHIND;
    let eye = at.to_yard(vec2(-far, 0.0));
    let visible = |p: Vec2| {
        let across = (p - eye).normalized().left() * PERSON_RADIUS;
        [p + across, p, p - across].iter().any(|q| clear_line(eye, *q, opaque))
    };
    walker.route.first_where(visible).unwrap_or(0.0)
}

state!(Someone { index, person, sighting, stepped_out, moves_in_view, pushed, after_s } left out {
    hidden_way,
    manners,
});
state!(Foot { people } left out { sides });
