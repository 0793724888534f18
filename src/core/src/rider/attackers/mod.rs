//! Riders that attack the score, and what they must get: the careless, who leave one duty out; the
//! cunning, who look for a way round the rules; and the careful, who do more than is asked and must
//! never be found at fault.
//!
//! A fault (`faults`) is committed where nothing else comes out. An attacker drives anywhere, and much
//! may come out: a row says what must be among it.

mod careful;
mod careless;
mod cunning;
mod trick;

pub(super) use trick::Tricky;

use super::habits::Habits;
use crate::finding::Skill;
use crate::rules::SiteRules;
use trick::{Memory, Trick};

/// A rider who attacks the score.
#[derive(Clone, Copy, Debug)]
pub struct Attacker {
    /// The rider's name.
    pub name: &'static str,
    /// Course and truck, by name, on which they drive.
    pub on: &'static [(&'static str, &'static str)],
    /// What they must get there.
    pub gets: Gets,
    /// The seeds with which it comes out, where what others do decides; None: all of them.
    pub seeds: Option<&'static [u32]>,
    /// Takes so many seeds for each one of a rider with a fault: those who drive quickly take more.
    pub times: u32,
    /// Changes a model rider's ways, by the rules that are in force and a share from 0 to 1 that hangs
    /// on the seed.
    habit: fn(&mut Habits, &SiteRules, f64),
    /// What hands, head and feet do besides.
    trick: Option<Trick>,
}

/// What an attacker must get.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Gets {
    /// At least this.
    AtLeast(Least),
    /// Nothing at all is found, and the drive comes to its end.
    CleanToTheEnd,
}

/// What bad driving gets, whatever else is found.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Least {
    /// Codes that are found, each at least once.
    pub found: &'static [&'static str],
    /// Codes of which at least one is found; empty when none needs to be.
    pub one_of: &'static [&'static str],
    /// Skills whose points stay below the pass mark.
    pub below: &'static [Skill],
    /// No skill has an opportunity that counts.
    pub shows_nothing: bool,
}

impl Least {
    /// These codes are found.
    const fn found(codes: &'static [&'static str]) -> Self {
        Self { found: codes, one_of: &[], below: &[], shows_nothing: false }
    }

    /// And this skill stays below the pass mark.
    const fn fails(self, below: &'static [Skill]) -> Self {
        Self { below, ..self }
    }
}

/// All of them.
pub fn all() -> impl Iterator<Item = &'static Attacker> {
    [careless::ATTACKERS, cunning::ATTACKERS, careful::ATTACKERS].into_iter().flatten()
}

/// An attacker by name.
pub fn by_name(name: &str) -> Option<&'static Attacker> {
    all().find(|a| a.name == name)
}

impl Attacker {
    /// Gives a model rider the attacker's ways; returns what hands, head and feet do besides.
    pub(super) fn spoil(&self, habits: &mut Habits, rules: &SiteRules, seed: u64) -> Option<Trick> {
        (self.habit)(habits, rules, super::habits::share_of(seed));
        self.trick
    }
}

/// How many seeds most of them take for each one of a rider with a fault: what they do may come out
/// anyhow.
const OFTEN: u32 = 3;

/// A row whose rider must get at least this.
const fn bad(
    name: &'static str,
    on: &'static [(&'static str, &'static str)],
    least: Least,
    habit: fn(&mut Habits, &SiteRules, f64),
) -> Attacker {
    Attacker { name, on, gets: Gets::AtLeast(least), seeds: None, times: OFTEN, habit, trick: None }
}

/// A row whose rider must come to the end without anything found.
const fn good(
    name: &'static str,
    on: &'static [(&'static str, &'static str)],
    habit: fn(&mut Habits, &SiteRules, f64),
) -> Attacker {
    Attacker { name, on, gets: Gets::CleanToTheEnd, seeds: None, times: OFTEN, habit, trick: None }
}

/// The ways of the model rider.
fn as_the_model(_: &mut Habits, _: &SiteRules, _: f64) {}

impl Attacker {
    const fn with(self, trick: Trick) -> Self {
        Self { trick: Some(trick), ..self }
    }

    /// Takes long to drive.
    const fn slow(self) -> Self {
        Self { times: 1, ..self }
    }
}
