//! A judgement by other rules than those of the run. The run file stays as it is, and so does what was said first.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::attempt::Attempt;
use crate::debrief::{Debrief, Ending};
use crate::finding::Severity;

/// That an attempt was judged again, by which rules, and what was said before.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct JudgedAgain {
    /// Text of the rules that the debrief goes by now.
    pub rules: String,
    /// When, RFC 3339.
    pub at: String,
    /// What was said by the rules that it was driven under.
    pub first: Debrief,
}

/// Why an attempt is not judged again.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum NotAgain {
    /// A part of a pre-test goes by the rules under which that was begun.
    PreTest,
    /// Another simulation made its run.
    OtherSimulation,
    /// Its run is not what it says it is.
    NotWhatItSays,
}

impl Attempt {
    /// Why it cannot be judged again; None where it can.
    pub fn not_judged_again(&self) -> Option<NotAgain> {
        if self.place.is_some() {
            Some(NotAgain::PreTest)
        } else if !self.can_be_driven_again() {
            Some(NotAgain::OtherSimulation)
        } else if !self.verdict.reproduces {
            Some(NotAgain::NotWhatItSays)
        } else {
            None
        }
    }

    /// What was said by the rules that it was driven under.
    pub fn first_debrief(&self) -> &Debrief {
        self.judged_again.as_ref().map_or(&self.verdict.debrief, |j| &j.first)
    }

    /// With what these rules say of it, beside what was said first. Where they say the same as was said first there is
    /// nothing to keep beside it.
    pub fn judged_by(mut self, rules: &str, at: &str, debrief: Debrief) -> Self {
        let first = self.first_debrief().clone();
        self.judged_again = (debrief != first)
            .then(|| Box::new(JudgedAgain { rules: rules.to_owned(), at: at.to_owned(), first }));
        self.verdict.debrief = debrief;
        self
    }

    /// As it was judged first.
    pub fn judged_first(mut self) -> Self {
        if let Some(again) = self.judged_again.take() {
            self.verdict.debrief = again.first;
        }
        self
    }
}

/// What a debrief comes to in a few numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Counted {
    /// Total; None where no skill was shown.
    pub total: Option<f64>,
    /// Faults that were critical, major and minor.
    pub faults: [usize; 3],
    /// Driven to the end without a fault.
    pub clean: bool,
}

impl Counted {
    /// Counts.
    pub fn of(debrief: &Debrief) -> Self {
        let count = |s: Severity| debrief.findings.iter().filter(|f| f.severity == s).count();
        let faults = [Severity::Critical, Severity::Major, Severity::Minor].map(count);
        let clean = debrief.ending == Ending::Done && faults == [0, 0, 0];
        Self { total: debrief.total, faults, clean }
    }
}

/// How often each fault was found more (or, below nought, less) often than before, by code; nought where only its
/// severity is another.
pub fn moved(before: &Debrief, after: &Debrief) -> Vec<(String, i64)> {
    let by_code = |debrief: &Debrief| {
        let mut by: BTreeMap<String, (i64, Vec<Severity>)> = BTreeMap::new();
        for f in debrief.findings.iter().filter(|f| f.severity != Severity::Good) {
            let (times, severities) = by.entry(f.code.clone()).or_default();
            *times += 1;
            severities.push(f.severity);
            severities.sort();
        }
        by
    };
    let (before, after) = (by_code(before), by_code(after));
    let mut codes: Vec<&String> = before.keys().chain(after.keys()).collect();
    codes.sort();
    codes.dedup();
    let moved = codes.into_iter().filter(|code| before.get(*code) != after.get(*code));
    let times = |by: &BTreeMap<String, (i64, Vec<Severity>)>, code: &String| {
        by.get(code).map_or(0, |(times, _)| *times)
    };
    moved.map(|code| (code.clone(), times(&after, code) - times(&before, code))).collect()
}

#[cfg(test)]
mod tests {
    use super::super::contract::attempt;
    use super::super::drive::Place;
    use super::*;
    use crate::finding::{Finding, Unit};
    use crate::math::Vec2;

    fn finding(code: &str, severity: Severity) -> Finding {
        Finding {
            code: code.to_owned(),
            severity,
            from: 1,
            to: 2,
            measured: 1.0,
            limit: 0.5,
            unit: Unit::Metre,
            at: Vec2::default(),
            before: None,
            cause: None,
            point: None,
        }
    }

    fn debrief(findings: &[(&str, Severity)]) -> Debrief {
        let findings = findings.iter().map(|(code, severity)| finding(code, *severity)).collect();
        Debrief { findings, ..attempt("a").verdict.debrief }
    }

    #[test]
    fn what_was_said_first_is_kept_and_comes_back() {
        let first = attempt("a");
        let other = debrief(&[("over-speed", Severity::Minor)]);
        let again = first.clone().judged_by("rules", "2026-01-06", other.clone());
        assert_eq!(
            (&again.verdict.debrief, again.first_debrief()),
            (&other, &first.verdict.debrief)
        );
        assert_eq!(again.judged_again.as_ref().map(|j| j.rules.as_str()), Some("rules"));
        // Judged a third time, what was said first is still what was said first.
        let third = again.clone().judged_by("others", "2026-01-07", debrief(&[]));
        assert_eq!(third, first, "the same is nothing to keep");
        let third =
            again.clone().judged_by("others", "", debrief(&[("not-looking", Severity::Major)]));
        assert_eq!(third.first_debrief(), &first.verdict.debrief);
        assert_eq!(third.judged_first(), first);
        assert_eq!(first.clone().judged_first(), first);
        // It is kept and read again, and a record from before has none.
        let text = serde_json::to_string(&again).unwrap();
        assert_eq!(serde_json::from_str::<Attempt>(&text).unwrap(), again);
        assert!(!serde_json::to_string(&first).unwrap().contains("judged_again"));
    }

    /// An exercise that does not count shows no skill, and its best result is still one.
    #[test]
    fn an_exercise_that_is_left_out_shows_no_skill() {
        let out = Attempt { left_out: true, ..attempt("a") };
        assert_eq!((out.shows_skill(), out.counts()), (false, true));
        assert!(
            super::super::Brief::of(&attempt("a")).shows && !super::super::Brief::of(&out).shows
        );
        let text = serde_json::to_string(&out).unwrap();
        assert!(
            !serde_json::from_str::<Attempt>(&text).unwrap().left_out && !text.contains("left_out")
        );
    }

    #[test]
    fn what_cannot_be_driven_again_and_parts_of_a_pre_test_are_left_as_they_are() {
        let plain = attempt("a");
        assert_eq!(plain.not_judged_again(), None);
        let part = Attempt { place: Some(Place { sitting: "s".into(), part: 0 }), ..plain.clone() };
        assert_eq!(part.not_judged_again(), Some(NotAgain::PreTest));
        let old = Attempt { simulation: Some(1), ..plain.clone() };
        assert_eq!(old.not_judged_again(), Some(NotAgain::OtherSimulation));
        let mut forged = plain;
        forged.verdict.reproduces = false;
        assert_eq!(forged.not_judged_again(), Some(NotAgain::NotWhatItSays));
    }

    #[test]
    fn faults_are_counted_and_good_deeds_are_not() {
        use Severity::{Critical, Good, Major, Minor};
        let before =
            debrief(&[("a", Minor), ("a", Minor), ("b", Major), ("c", Minor), ("g", Good)]);
        let after = debrief(&[("a", Minor), ("b", Critical), ("c", Minor), ("d", Major)]);
        assert_eq!(Counted::of(&before).faults, [0, 1, 3]);
        assert_eq!(Counted::of(&after).faults, [1, 1, 2]);
        let moves = [("a", -1), ("b", 0), ("d", 1)].map(|(code, n)| (code.to_owned(), n));
        assert_eq!(moved(&before, &after), moves);
        assert!(moved(&before, &before).is_empty());
        assert!(Counted::of(&debrief(&[("g", Good)])).clean && !Counted::of(&before).clean);
        let broken = Debrief { ending: Ending::Broken, ..debrief(&[]) };
        assert!(!Counted::of(&broken).clean);
    }
}
