//! What the draft says of the drives that are kept here, and how it is found out: each drive is driven again in small
//! pieces, so that the page goes on meanwhile, and can be stopped.

use coneyard_core::class::judged::NotAgain;
use coneyard_core::debrief::Debrief;
use coneyard_core::run::{CannotJudge, JudgedBy};
use leptos::prelude::*;

use crate::browser;
use crate::canvas;
use crate::reader;
use crate::store::{Attempt, StoreDesk};
use crate::words::{k, say};

/// So many ticks are driven at once,
const PIECE: u32 = 16;
/// again and again for so long, ms; then the page has its turn.
const TURN_MS: f64 = 20.0;

/// What the draft says of a drive.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Says {
    /// This.
    Debrief(Debrief),
    /// Nothing, and why.
    Nothing(String),
}

/// A drive beside what the draft says of it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Compared {
    /// The drive as it is judged now.
    pub(super) attempt: Attempt,
    /// What the draft says.
    pub(super) says: Says,
}

impl Compared {
    /// Something is said of it otherwise than now.
    pub(super) fn differs(&self) -> bool {
        match &self.says {
            Says::Debrief(then) => {
                let now = &self.attempt.verdict.debrief;
                // That a site has changed a rule is said with every debrief; it changes none.
                (now.total, &now.findings, &now.skills, now.ending)
                    != (then.total, &then.findings, &then.skills, then.ending)
            }
            Says::Nothing(_) => false,
        }
    }
}

/// How far the looking is.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Phase {
    /// Nobody has asked.
    Idle,
    /// This drive of so many, and how much of it.
    Working(usize, usize, f64),
    /// All of them.
    Done,
    /// Somebody stopped it.
    Stopped,
    /// Why it could not go on.
    Trouble(String),
}

/// Drives that can be judged again, the latest first, and how many cannot be, by why.
pub(super) fn sorted(attempts: &[Attempt]) -> (Vec<Attempt>, [usize; 3]) {
    let (mut can, mut cannot) = (Vec::new(), [0; 3]);
    for attempt in attempts.iter().rev() {
        match attempt.not_judged_again() {
            None => can.push(attempt.clone()),
            Some(NotAgain::PreTest) => cannot[0] += 1,
            Some(NotAgain::OtherSimulation) => cannot[1] += 1,
            Some(NotAgain::NotWhatItSays) => cannot[2] += 1,
        }
    }
    (can, cannot)
}

/// A turn of looking, until another one begins, somebody stops it, or the page is left.
#[derive(Clone, Copy)]
pub(super) struct Turn {
    number: u32,
    now: StoredValue<u32>,
}

impl Turn {
    /// Begins one, in place of any other.
    pub(super) fn begin(now: StoredValue<u32>) -> Self {
        now.update_value(|n| *n = n.wrapping_add(1));
        Self { number: now.get_value(), now }
    }

    fn goes_on(self) -> bool {
        self.now.try_get_value() == Some(self.number)
    }
}

/// Looks at one drive after another.
pub(super) async fn look(
    rules: String,
    store: StoreDesk,
    attempts: Vec<Attempt>,
    turn: Turn,
    (phase, rows): (RwSignal<Phase>, RwSignal<Vec<Compared>>),
) -> Result<(), String> {
    canvas::load().await?;
    let count = attempts.len();
    for (n, attempt) in attempts.into_iter().enumerate() {
        let run = store.run(&attempt.id).await?;
        if !turn.goes_on() {
            return Ok(());
        }
        let Some(run) = run else { continue };
        let says = match canvas::judge_by(&run, &rules) {
            Ok(()) => {
                let on = |share: f64| drop(phase.try_set(Phase::Working(n, count, share)));
                match judged(turn, on).await? {
                    Some(says) => says,
                    None => return Ok(()),
                }
            }
            Err(why) => Says::Nothing(reader::in_english(why)),
        };
        rows.try_update(|rows| rows.push(Compared { attempt, says }));
    }
    phase.try_set(Phase::Done);
    Ok(())
}

/// Drives what was begun to its end; None when the turn is over before.
async fn judged(turn: Turn, on: impl Fn(f64)) -> Result<Option<Says>, String> {
    while turn.goes_on() {
        let until = browser::clock_ms() + TURN_MS;
        let came = loop {
            let came = canvas::judge_on(PIECE)?;
            if !matches!(came, JudgedBy::Working(_)) || browser::clock_ms() > until {
                break came;
            }
        };
        match came {
            JudgedBy::Done(debrief) => return Ok(Some(Says::Debrief(debrief))),
            JudgedBy::Cannot(CannotJudge::WouldGoOn) => {
                return Ok(Some(Says::Nothing(say(k("rules-would-go-on")))));
            }
            JudgedBy::Cannot(CannotJudge::WouldBeOtherwise) => {
                return Ok(Some(Says::Nothing(say(k("rules-would-be-otherwise")))));
            }
            JudgedBy::Working(share) => {
                on(share);
                browser::wait(core::time::Duration::ZERO).await;
            }
        }
    }
    Ok(None)
}

#[cfg(test)]
mod tests {
    use coneyard_core::class::Place;
    use coneyard_core::class::contract::attempt;

    use super::*;

    #[test]
    fn the_latest_comes_first_and_what_cannot_be_judged_again_is_counted() {
        let part = Attempt { place: Some(Place { sitting: "s".into(), part: 0 }), ..attempt("p") };
        let old = Attempt { simulation: Some(1), ..attempt("o") };
        let (can, cannot) = sorted(&[attempt("a"), part, old, attempt("b")]);
        let ids: Vec<&str> = can.iter().map(|a| a.id.as_str()).collect();
        assert_eq!((ids, cannot), (vec!["b", "a"], [1, 1, 0]));
    }

    #[test]
    fn a_changed_rule_that_finds_nothing_else_is_no_difference() {
        let now = attempt("a");
        let mut then = now.verdict.debrief.clone();
        then.changed_rules = vec!["over-speed".to_owned()];
        let compared = |then: Debrief| Compared { attempt: now.clone(), says: Says::Debrief(then) };
        assert!(!compared(then.clone()).differs());
        then.total = Some(96.0);
        assert!(compared(then).differs());
    }
}
