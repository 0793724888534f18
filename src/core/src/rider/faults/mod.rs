//! Riders that each commit one fault on purpose, and for each its near side: the same rider who
//! stays just inside the limit. What they do wrong, how much of it, where, and what is found.
//!
//! A fault is a few lines in the file of its skill. The amount is drawn from the seed.

mod checking;
mod leaving;
mod load;
mod mounting;
mod right_of_way;
mod room;
mod starting;
mod steering;

use super::habits::{Habits, Stepping, Stopping, Swerve};
use super::slip::{Slip, When};

/// A rider with one bad habit, and the same rider kept just inside the limit.
#[derive(Clone, Copy, Debug)]
pub struct Fault {
    /// The rider's name; the one who stays inside the limit is called the same with [`INSIDE`].
    pub name: &'static str,
    /// Codes of the findings that come of it: the fault, and what it cannot be committed without.
    pub codes: &'static [&'static str],
    /// The fault.
    pub over: LimitSide,
    /// The near side: nothing is found.
    pub inside: LimitSide,
    /// The seeds with which it comes out, where what others do decides; None: all of them.
    pub seeds: Option<&'static [u32]>,
}

/// One side of the limit.
#[derive(Clone, Copy, Debug)]
pub struct LimitSide {
    /// Course and truck, by name, on which it comes out, and nothing else does.
    pub on: &'static [(&'static str, &'static str)],
    /// How much of it, least and most. The unit is the habit's.
    pub amount: (f64, f64),
    /// Changes a model rider's ways.
    habit: fn(&mut Habits, f64),
}

/// What the name of a rider who stays inside the limit ends with.
pub const INSIDE: &str = "-inside";

const fn side(
    on: &'static [(&'static str, &'static str)],
    amount: (f64, f64),
    habit: fn(&mut Habits, f64),
) -> LimitSide {
    LimitSide { on, amount, habit }
}

const fn fault(
    name: &'static str,
    codes: &'static [&'static str],
    over: LimitSide,
    inside: LimitSide,
) -> Fault {
    Fault { name, codes, over, inside, seeds: None }
}

/// All of them.
pub fn all() -> impl Iterator<Item = &'static Fault> {
    [
        starting::FAULTS,
        steering::FAULTS,
        mounting::FAULTS,
        right_of_way::FAULTS,
        room::FAULTS,
        load::FAULTS,
        leaving::FAULTS,
        checking::FAULTS,
    ]
    .into_iter()
    .flatten()
}

/// Which side of which fault a rider's name means.
pub fn by_name(name: &str) -> Option<(&'static Fault, &'static LimitSide)> {
    let (plain, inside) = match name.strip_suffix(INSIDE) {
        Some(plain) => (plain, true),
        None => (name, false),
    };
    let fault = all().find(|f| f.name == plain)?;
    Some((fault, if inside { &fault.inside } else { &fault.over }))
}

impl LimitSide {
    /// Gives a rider the habit, with an amount drawn from the seed.
    pub(super) fn spoil(&self, habits: &mut Habits, seed: u64) {
        let (least, most) = self.amount;
        (self.habit)(habits, least + (most - least) * super::habits::share_of(seed));
    }
}
