//! The loads on the forks from tick to tick: what they carry for the truck, and what happens to
//! them. Each tick takes the truck's motion and moves pallets on forks, cases on pallets and on
//! cases, and what rocks. Sliding in the plane is without turning: a pallet keeps its heading on
//! the forks.

use crate::load::column::Report;
use crate::load::event::{LoadEvent, Stop};
use crate::load::motion::{Felt, Forks};
use crate::load::standing::{Ahead, Standing};
use crate::state;
use crate::time::DT;
use crate::truck::loads::Carried;

/// Events of one tick for which room is kept.
const ROOM: usize = 64;

/// All pallets on the forks, from the backrest to the tips.
#[derive(Clone, Debug, PartialEq)]
pub struct Stack {
    /// What they stand on.
    pub forks: Forks,
    /// The pallets.
    pub pallets: Vec<Standing>,
    events: Vec<LoadEvent>,
}

impl Stack {
    /// Empty forks.
    pub fn new(forks: Forks) -> Self {
        Self { forks, pallets: Vec::new(), events: Vec::with_capacity(ROOM) }
    }

    /// Takes up a pallet, nearer to the tips than those that are there.
    pub fn take_up(&mut self, pallet: Standing) {
        self.pallets.push(pallet);
    }

    /// Sets all pallets down as they stand and leaves the forks empty.
    pub fn set_down(&mut self) -> Vec<Standing> {
        core::mem::take(&mut self.pallets)
    }

    /// What the truck carries, the undersides `underside` m over the floor.
    pub fn carried(&self, underside: f64) -> impl Iterator<Item = Carried> + '_ {
        self.pallets.iter().filter_map(move |p| p.carried(underside))
    }

    /// The farthest that anything has slid on what is under it, m.
    pub fn farthest_slide(&self) -> f64 {
        self.pallets.iter().map(Standing::farthest_slide).fold(0.0, f64::max)
    }

    /// The truck's side acceleration, m/s^2, from which something slides or rocks sideways with
    /// the forks at this height over lowered, m; None with empty forks.
    pub fn holds_sideways(&self, fork_height: f64) -> Option<f64> {
        let least = self
            .pallets
            .iter()
            .filter(|p| !p.is_off)
            .map(Standing::holds_sideways)
            .reduce(f64::min)?;
        Some(least / (1.0 + self.forks.sway_per_m * fork_height))
    }

    /// One tick; what happened in it, in the order of pallets.
    pub fn step(&mut self, motion: &Felt) -> &[LoadEvent] {
        self.events.clear();
        let mut ahead =
            Ahead { x: self.forks.backrest_x + self.forks.gives, speed: 0.0, what: Stop::Backrest };
        for i in 0..self.pallets.len() {
            let (before, rest) = self.pallets.split_at_mut(i);
            let this = &mut rest[0];
            let mut report = Report { pallet: i, events: &mut self.events };
            let struck = this.step(&self.forks, motion, ahead, DT, &mut report);
            if let (Some(speed), Stop::Pallet) = (struck, ahead.what)
                && let Some(front) = before.iter_mut().rev().find(|p| !p.is_off)
            {
                push_on(front, this, speed, &self.forks);
            }
            if !this.is_off {
                ahead = Ahead {
                    x: this.at().x - 0.5 * this.load.pallet.length_m,
                    speed: this.slide.velocity.x,
                    what: Stop::Pallet,
                };
            }
        }
        &self.events
    }
}

/// A pallet has met the one before it, and already moves with it: now both take the momentum of
/// both, unless the front one is held by the backrest.
fn push_on(front: &mut Standing, rear: &mut Standing, speed: f64, forks: &Forks) {
    let length = front.load.pallet.length_m;
    if front.at().x + 0.5 * length >= forks.backrest_x + forks.gives - 1e-9 {
        return;
    }
    let mass = |p: &Standing| p.carried(0.0).map_or(0.0, |c| c.mass);
    let (m1, m2) = (mass(front), mass(rear));
    let shared = front.slide.velocity.x + speed * m2 / (m1 + m2);
    front.bump(shared);
    rear.bump(shared);
}

// What happened is told once and made anew in each tick.
state!(Stack { pallets } left out { forks, events });
