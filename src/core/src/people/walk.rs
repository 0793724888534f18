//! A person on a route: walking from place to place, waiting, holding back at a horn.

use rand_chacha::ChaCha8Rng;

use crate::dice::{Stream, dice};
use crate::math::Vec2;
use crate::people::pace::{Paces, share};
use crate::sight::polygon::{Segment, clear_line};
use crate::state;
use crate::time::DT;

/// A place on a route.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Waypoint {
    /// Where, yard frame, m.
    pub at: Vec2,
    /// How long someone waits who waits here, s.
    pub wait_s: f64,
    /// How likely it is that someone waits here, 0 to 1.
    pub wait_chance: f64,
    /// From here to the next place the way of trucks is crossed. Who is on it when a horn sounds
    /// goes on: standing still there would be the worst.
    pub crosses: bool,
}

/// What comes after the last place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum AtTheEnd {
    /// Stay there.
    Stay,
    /// Walk on to the first place.
    StartOver,
}

/// A way that someone walks.
#[derive(Clone, Debug, PartialEq)]
pub struct Route {
    places: Vec<Waypoint>,
    at_the_end: AtTheEnd,
}

/// Least distance between places that follow each other, m: more than anybody walks in a tick.
const APART: f64 = 0.1;

impl Route {
    /// A route over one or more places.
    ///
    /// # Errors
    /// One sentence when there is no place, two are too close, or a number is out of range.
    pub fn new(places: Vec<Waypoint>, at_the_end: AtTheEnd) -> Result<Self, String> {
        if places.is_empty() {
            return Err("the route has no place; give at least one".into());
        }
        let n = places.len();
        for (i, p) in places.iter().enumerate() {
            let next = &places[(i + 1) % n];
            let goes_on = i + 1 < n || (at_the_end == AtTheEnd::StartOver && n > 1);
            if !(p.at.x.is_finite() && p.at.y.is_finite()) {
                return Err(format!("place {i} of the route is nowhere; give two numbers"));
            }
            if !(0.0..=600.0).contains(&p.wait_s) {
                return Err(format!(
                    "the wait of {} s at place {i} lies outside 0 to 600",
                    p.wait_s
                ));
            }
            if !(0.0..=1.0).contains(&p.wait_chance) {
                return Err(format!(
                    "the chance of {} at place {i} lies outside 0 to 1",
                    p.wait_chance
                ));
            }
            if goes_on && (next.at - p.at).length() < APART {
                return Err(format!(
                    "place {i} of the route and the next one are less than {APART} m apart; \
                     leave one out and let the other have the wait"
                ));
            }
        }
        Ok(Self { places, at_the_end })
    }

    /// Its places, in order.
    pub fn places(&self) -> &[Waypoint] {
        &self.places
    }

    /// Way along the route, m, to the first point of which something is true, looked at every
    /// 5 cm from the first place to the last; None when there is none.
    pub fn first_where(&self, is_true: impl Fn(Vec2) -> bool) -> Option<f64> {
        const STRIDE: f64 = 0.05;
        let mut before = 0.0;
        if is_true(self.places[0].at) {
            return Some(0.0);
        }
        for leg in self.places.windows(2) {
            let way = leg[1].at - leg[0].at;
            let length = way.length();
            let steps = (length / STRIDE).ceil();
            for i in 1..=steps as u32 {
                let s = (f64::from(i) * STRIDE).min(length);
                if is_true(leg[0].at + way * (s / length)) {
                    return Some(before + s);
                }
            }
            before += length;
        }
        None
    }

    /// Every leg that is walked: the number of its first place, and both ends, m.
    pub fn legs(&self) -> impl Iterator<Item = (usize, Vec2, Vec2)> + '_ {
        let to = |i: usize| self.after(i).map(|next| (i, self.places[i].at, self.places[next].at));
        (0..self.places.len()).filter_map(to)
    }

    fn after(&self, place: usize) -> Option<usize> {
        match self.at_the_end {
            _ if place + 1 < self.places.len() => Some(place + 1),
            AtTheEnd::StartOver if self.places.len() > 1 => Some(0),
            _ => None,
        }
    }
}

/// How likely it is that someone holds back at a horn: mostly, never always. A rider who trusts the
/// horn alone must be able to fail.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct HoldBack(f64);

/// Nobody can be made to hold back more surely than this.
pub const HOLD_BACK_MOST: f64 = 0.95;

impl HoldBack {
    /// # Errors
    /// One sentence when it is not from 0 to `HOLD_BACK_MOST`.
    pub fn new(chance: f64) -> Result<Self, String> {
        if (0.0..=HOLD_BACK_MOST).contains(&chance) {
            return Ok(Self(chance));
        }
        Err(format!(
            "a chance of {chance} to hold back at a horn lies outside 0 to {HOLD_BACK_MOST}: \
             a horn is never certain to stop anybody"
        ))
    }
}

/// What a horn does to people. The numbers are typical, from memory, with no source.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HornManners {
    /// Heard and heeded this far away with nothing between, m.
    pub in_the_open_m: f64,
    /// And this far round a corner, m.
    pub round_a_corner_m: f64,
    /// How likely someone who looks up holds back.
    pub hold_back: HoldBack,
    /// How long, s.
    pub hold_s: f64,
    /// How long someone's mind stays made up, s: sounding the horn again and again does not draw
    /// again and again.
    pub mind_s: f64,
    /// How long someone looks up, s.
    pub look_up_s: f64,
}

impl Default for HornManners {
    fn default() -> Self {
        Self {
            in_the_open_m: 12.0,
            round_a_corner_m: 6.0,
            hold_back: HoldBack(0.85),
            hold_s: 4.0,
            mind_s: 10.0,
            look_up_s: 2.0,
        }
    }
}

impl HornManners {
    /// Whether someone looks up at a horn among opaque things.
    pub fn hears(&self, horn: Vec2, person: Vec2, opaque: &[Segment]) -> bool {
        let away = (person - horn).length();
        away <= self.round_a_corner_m
            || (away <= self.in_the_open_m && clear_line(horn, person, opaque))
    }
}

/// What someone does.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Doing {
    /// Stands where the route begins until set off.
    Standing,
    /// Walks.
    Walking,
    /// Waits at a place of the route.
    Waiting,
    /// Holds back because of a horn.
    HoldingBack,
    /// Has come to the end of the route.
    Arrived,
}

/// Someone on foot.
#[derive(Clone, Debug)]
pub struct Person {
    /// Where, yard frame, m.
    pub at: Vec2,
    /// Mean velocity over the last tick, m/s.
    pub velocity: Vec2,
    /// Speed when walking, m/s.
    pub pace: f64,
    /// Last place of the route that was reached.
    place: usize,
    set_off: bool,
    wait_left: f64,
    hold_left: f64,
    mind_left: f64,
    look_up_left: f64,
    dice: ChaCha8Rng,
}

impl Person {
    /// Someone at the beginning of a route with a pace and a character drawn from a seed and their
    /// number among the people of the course. Stands there until `set_off`.
    pub fn new(route: &Route, paces: &Paces, seed: u64, number: u32) -> Self {
        let mut dice = dice(seed, Stream::Walker(number));
        let pace = paces.draw(&mut dice);
        Self {
            at: route.places[0].at,
            velocity: Vec2::default(),
            pace,
            place: 0,
            set_off: false,
            wait_left: 0.0,
            hold_left: 0.0,
            mind_left: 0.0,
            look_up_left: 0.0,
            dice,
        }
    }

    /// Lets someone begin to walk, or to wait at the first place; once is enough.
    pub fn set_off(&mut self, route: &Route) {
        if !self.set_off {
            self.set_off = true;
            self.arrive(0, route);
        }
    }

    /// One tick. `horn` is true while a horn sounds that this person hears
    /// (`HornManners::hears`).
    pub fn tick(&mut self, route: &Route, manners: &HornManners, horn: bool) {
        self.mind_left = (self.mind_left - DT).max(0.0);
        self.look_up_left = (self.look_up_left - DT).max(0.0);
        if horn {
            self.hear(route, manners);
        }
        let before = self.at;
        let mut left = DT;
        spend(&mut self.hold_left, &mut left);
        // A tick holds at most the end of a wait, the rest of a leg and the wait after it.
        for _ in 0..3 {
            spend(&mut self.wait_left, &mut left);
            if left > 0.0 && self.set_off {
                self.walk(route, &mut left);
            }
        }
        self.velocity = (self.at - before) * (1.0 / DT);
    }

    fn walk(&mut self, route: &Route, left: &mut f64) {
        let Some(next) = route.after(self.place) else { return };
        let way = route.places[next].at - self.at;
        let (distance, reach) = (way.length(), self.pace * *left);
        if reach < distance {
            self.at = self.at + way * (reach / distance);
            *left = 0.0;
        } else {
            *left -= distance / self.pace;
            self.at = route.places[next].at;
            self.arrive(next, route);
        }
    }

    fn arrive(&mut self, place: usize, route: &Route) {
        self.place = place;
        let here = &route.places[place];
        if share(&mut self.dice) < here.wait_chance {
            self.wait_left = here.wait_s;
        }
    }

    fn hear(&mut self, route: &Route, manners: &HornManners) {
        self.look_up_left = manners.look_up_s;
        if self.mind_left > 0.0 {
            return;
        }
        self.mind_left = manners.mind_s;
        let holds = share(&mut self.dice) < manners.hold_back.0;
        let here = &route.places[self.place];
        let under_way = here.crosses && self.at != here.at;
        if holds && !under_way {
            self.hold_left = manners.hold_s;
        }
    }

    /// One tick beside the route, in the direction of a unit vector.
    pub fn step_aside(&mut self, way: Vec2) {
        self.velocity = way * self.pace;
        self.at = self.at + self.velocity * DT;
    }

    /// Waits no longer, where the way of trucks is to be crossed: they have stopped.
    pub fn cross_now(&mut self, route: &Route) {
        if route.places[self.place].crosses {
            self.wait_left = 0.0;
        }
    }

    /// The next place of the route, while there is one and this person has set off.
    pub fn bound_for(&self, route: &Route) -> Option<Vec2> {
        let next = route.after(self.place).filter(|_| self.set_off)?;
        Some(route.places[next].at)
    }

    /// What this person does now.
    pub fn doing(&self, route: &Route) -> Doing {
        if self.hold_left > 0.0 {
            Doing::HoldingBack
        } else if !self.set_off {
            Doing::Standing
        } else if self.wait_left > 0.0 {
            Doing::Waiting
        } else if route.after(self.place).is_none() {
            Doing::Arrived
        } else {
            Doing::Walking
        }
    }

    /// Looks up because of a horn.
    pub fn looks_up(&self) -> bool {
        self.look_up_left > 0.0
    }
}

/// Takes time off a wait, and the same time off what is left of the tick.
fn spend(wait: &mut f64, left: &mut f64) {
    let spent = wait.min(*left);
    *wait -= spent;
    *left -= spent;
}

state!(Person {
    at,
    velocity,
    pace,
    place,
    set_off,
    wait_left,
    hold_left,
    mind_left,
    look_up_left,
    dice,
});

#[cfg(test)]
mod tests;
