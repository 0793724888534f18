//! What falls from the forks, and what is too heavy for them.

use std::collections::VecDeque;

use coneyard_core::time::{TICK_RATE, Tick};

use crate::notes::{Kind, Notes};
use crate::seen::{Fixed, Seen};

/// Forks lower than this, m over lowered, have set a pallet down and not let it fall, when all its cases
/// stay on it.
const SETS_DOWN: f64 = 0.02;
/// What falls within this time falls together, ticks.
const TOGETHER: Tick = 3 * TICK_RATE;

/// What fell in the last seconds: tick and cases.
#[derive(Clone, Debug, Default)]
pub(crate) struct Load {
    fell: VecDeque<(Tick, u32)>,
}

impl Load {
    pub(crate) fn look(&mut self, (before, here): (&Seen, &Seen), notes: &mut Notes) {
        let on_floor = here.cases.len().saturating_sub(before.cases.len()) as u32;
        let pallets = before.pallets.iter().zip(&here.pallets);
        let off = pallets.filter(|(was, is)| {
            let high = here.fork_height > SETS_DOWN;
            was.carried && !is.carried && (high || is.cases < was.cases)
        });
        let whole: u32 = off.map(|(was, _)| was.cases.max(1)).sum();
        if on_floor + whole == 0 {
            return;
        }
        self.fell.push_back((here.tick, on_floor + whole));
        while self.fell.front().is_some_and(|(tick, _)| tick + TOGETHER < here.tick) {
            self.fell.pop_front();
        }
        let together: u32 = self.fell.iter().map(|(_, cases)| cases).sum();
        notes.add(Kind::LoadFell, 0, here.tick, (f64::from(together), true));
    }
}

/// Whether the forks are asked to lift more than the truck may carry.
pub(crate) fn too_heavy(fixed: &Fixed, seen: &Seen) -> bool {
    let [tips, backrest] = fixed.truck.forks;
    let over_forks = |i: usize| {
        let at = seen.truck.to_body(seen.pallets[i].pose.at);
        let across = 0.5 * fixed.pallets[i].size.y;
        (tips..=backrest).contains(&at.x) && at.y.abs() < across
    };
    let kg = (0..seen.pallets.len().min(fixed.pallets.len()))
        .filter(|i| seen.pallets[*i].carried || over_forks(*i))
        .map(|i| fixed.pallets[i].kg + f64::from(seen.pallets[i].cases) * fixed.pallets[i].case_kg)
        .sum::<f64>();
    seen.forks_up && kg > fixed.truck.capacity
}
