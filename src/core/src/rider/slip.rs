//! Something that a rider does once, for a while, whatever the plan says: most mistakes are of this
//! kind. A slip says when it begins, how long it lasts and what hands and feet do in it.

use super::Rider;
use crate::acts::Input;
use crate::controls::Controls;
use crate::math::Vec2;
use crate::moment::Moment;
use crate::time::{DT, Tick};

/// A slip. SI units.
#[derive(Clone, Copy, Debug)]
pub(super) struct Slip {
    pub(super) when: When,
    /// Lasts so long, s.
    pub(super) for_s: f64,
    /// How much of it: what that means is between the fault and `does`.
    pub(super) amount: f64,
    /// What hands and feet do, from what the rider otherwise would.
    pub(super) does: fn(&mut Controls, &Moment, f64),
    /// The rider leaves it at that: the drive is broken off so long after it, s.
    pub(super) then_stops_s: Option<f64>,
}

/// When it begins.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum When {
    /// After so long at rest at the start, s.
    Start(f64),
    /// When the truck first moves.
    MovesOff,
    /// When the platform is this near to a place, yard frame, m.
    Near(Vec2, f64),
    /// When it is faster than this with the platform beyond so far east, m/s and m.
    Fast(f64, f64),
    /// So long after somebody who stepped out is first seen, s.
    StepOut(f64),
}

/// A rider who makes a slip, and otherwise does as the other one would.
pub(super) struct Slipping {
    pub(super) rider: Box<dyn Rider>,
    pub(super) slip: Slip,
    pub(super) begun: Option<Tick>,
}

impl Slipping {
    /// Seconds since the slip began.
    fn lasts(&self, m: &Moment) -> Option<f64> {
        self.begun.map(|begun| f64::from(m.tick.saturating_sub(begun)) * DT)
    }
}

fn begins(when: When, m: &Moment) -> bool {
    let at = m.truck.platform_in_yard;
    let speed = m.truck.speed.abs();
    match when {
        When::Start(after) => f64::from(m.tick) * DT >= after,
        When::MovesOff => speed > 0.02,
        When::Near(place, within) => (at - place).length() < within,
        When::Fast(least, beyond) => speed > least && at.x > beyond,
        When::StepOut(after) => m.people.iter().any(|p| {
            let seen = p.first_seen.filter(|_| p.stepped_out.is_some());
            seen.is_some_and(|t| f64::from(m.tick.saturating_sub(t)) * DT >= after)
        }),
    }
}

impl Rider for Slipping {
    fn ride(&mut self, m: &Moment) -> Input {
        let mut input = self.rider.ride(m);
        if self.begun.is_none() && begins(self.slip.when, m) {
            self.begun = Some(m.tick);
        }
        if self.lasts(m).is_some_and(|s| s < self.slip.for_s) {
            (self.slip.does)(&mut input.controls, m, self.slip.amount);
        }
        input
    }

    fn stops(&self, m: &Moment) -> bool {
        let stops = self.slip.then_stops_s.map(|after| self.slip.for_s + after);
        self.lasts(m).zip(stops).is_some_and(|(lasts, stops)| lasts >= stops)
    }
}
