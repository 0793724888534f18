//! "Looked before entering": of how many stop lines and hidden places somebody looked to both sides before going in.
//!
//! It is the headline because it is the measure of simulated driving that was found again on real roads (A. K.
//! Pradhan et al., Human Factors 51, 2009; T. Taylor et al., Accident Analysis and Prevention, 2011, after six months;
//! from memory).
//!
//! A debrief tells how often somebody went in without looking, and each stop line and each hidden place leaves its own
//! finding, good or bad, in the same tick: so both are counted from records as they are. Of crossings it tells only
//! those at which nobody looked, so they are counted beside and are in no share.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::attempt::Attempt;
use super::board::LATELY;
use super::detection::Estimate;
use super::results::{plain_name, same_person};
use crate::score::certainty::{design_effect, wilson_when};
use crate::time::Tick;

/// Gone in without looking.
const MISSED: &str = "not-looked-before-entry";
/// One of the first two for each stop line, one of the others for each hidden place.
const ENTRIES: [&str; 4] =
    ["stop-line-run", "full-stop", "no-horn-at-blind-spot", "horn-at-blind-spot"];

/// How often somebody looked before entering.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Glances {
    /// Stop lines and hidden places that were gone over.
    pub entries: u32,
    /// Before how many of these they looked to both sides.
    pub looked: u32,
    /// Crossings that were driven onto without looking.
    pub crossings_missed: u32,
    /// In so many runs with an entry.
    pub runs: usize,
    /// Runs of which it cannot be told, because their site has changed one of the rules that it is counted by, or
    /// switched it off.
    pub untold: usize,
    /// The share of looks with Wilson's interval, 0 to 1; None without an entry.
    pub share: Option<Estimate>,
}

/// What one run tells: entries, those with a look, and crossings without; None where it cannot be told.
fn of_run(attempt: &Attempt) -> Option<(u32, u32, u32)> {
    let debrief = &attempt.verdict.debrief;
    let asked = |code: &String| code == MISSED || ENTRIES.contains(&code.as_str());
    if debrief.changed_rules.iter().any(asked) {
        return None;
    }
    let mut open = BTreeMap::<Tick, u32>::new();
    let mut entries = 0;
    for f in debrief.findings.iter().filter(|f| ENTRIES.contains(&f.code.as_str())) {
        *open.entry(f.from).or_default() += 1;
        entries += 1;
    }
    let (mut missed, mut crossings) = (0, 0);
    for f in debrief.findings.iter().filter(|f| f.code == MISSED) {
        match open.get_mut(&f.from).filter(|left| **left > 0) {
            Some(left) => (*left, missed) = (*left - 1, missed + 1),
            None => crossings += 1,
        }
    }
    Some((entries, entries - missed, crossings))
}

/// What these attempts tell together; attempts that show no skill are left out. All of one person, or of many.
pub fn glances<'a>(attempts: impl IntoIterator<Item = &'a Attempt>) -> Glances {
    let mut all = Glances::default();
    let mut runs = Vec::new();
    for attempt in attempts.into_iter().filter(|a| a.shows_skill()) {
        let Some((entries, looked, crossings)) = of_run(attempt) else {
            all.untold += 1;
            continue;
        };
        all.entries = all.entries.saturating_add(entries);
        all.looked = all.looked.saturating_add(looked);
        all.crossings_missed = all.crossings_missed.saturating_add(crossings);
        if entries > 0 {
            runs.push((looked, entries));
        }
    }
    all.runs = runs.len();
    let interval = wilson_when(all.looked, all.entries, design_effect(&runs));
    let value = f64::from(all.looked) / f64::from(all.entries);
    all.share = interval.map(|(low, high)| Estimate { value, low, high });
    all
}

/// What somebody has shown lately: their last [`LATELY`] runs in which something was entered.
pub fn lately(attempts: &[Attempt], who: &str) -> Glances {
    let enters = |a: &&Attempt| {
        let told = of_run(a);
        a.shows_skill() && told.is_none_or(|(entries, _, crossings)| entries + crossings > 0)
    };
    let mut theirs: Vec<&Attempt> =
        attempts.iter().filter(|a| same_person(&a.who, who)).filter(enters).collect();
    theirs.sort_by(|a, b| b.started.cmp(&a.started));
    glances(theirs.into_iter().take(LATELY))
}

/// A class's headline.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct OfClass {
    /// Each person who entered anything lately, by name.
    pub people: Vec<(String, Glances)>,
    /// Mean of the people's shares, 0 to 1: whoever drives most does not stand for all. None without any.
    pub mean: Option<f64>,
}

/// What a class has shown lately.
pub fn of_class(attempts: &[Attempt]) -> OfClass {
    let mut names = BTreeMap::<String, String>::new();
    let mut last_first: Vec<&Attempt> = attempts.iter().collect();
    last_first.sort_by(|a, b| b.started.cmp(&a.started));
    for attempt in last_first {
        let folded = plain_name(&attempt.who);
        names.entry(folded).or_insert_with(|| attempt.who.trim().to_owned());
    }
    let names: BTreeSet<String> = names.into_values().collect();
    let of = |who: String| (lately(attempts, &who), who);
    let people: Vec<(String, Glances)> =
        names.into_iter().map(of).filter(|(g, _)| g.runs > 0).map(|(g, who)| (who, g)).collect();
    let shares: Vec<f64> = people.iter().filter_map(|(_, g)| g.share).map(|s| s.value).collect();
    let mean = (!shares.is_empty()).then(|| shares.iter().sum::<f64>() / shares.len() as f64);
    OfClass { people, mean }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::class::contract;
    use crate::finding::{Finding, Severity, Unit};
    use crate::math::Vec2;

    fn finding(code: &str, from: Tick) -> Finding {
        Finding {
            code: code.to_owned(),
            severity: Severity::Major,
            from,
            to: from,
            measured: 0.0,
            limit: 0.25,
            unit: Unit::Second,
            at: Vec2::default(),
            before: None,
            cause: None,
            point: None,
        }
    }

    fn run(who: &str, day: usize, found: &[(&str, Tick)]) -> Attempt {
        let mut attempt = contract::attempt(&format!("{who}-{day}"));
        (attempt.who, attempt.started) = (who.to_owned(), format!("2026-01-{day:02}T08:00:00Z"));
        attempt.verdict.debrief.findings = found.iter().map(|(c, t)| finding(c, *t)).collect();
        attempt
    }

    /// A stop line and a hidden place at one tick, each entered without a look; a line with one; and a crossing.
    const MIXED: [(&str, Tick); 7] = [
        ("full-stop", 100),
        ("no-horn-at-blind-spot", 100),
        (MISSED, 100),
        (MISSED, 100),
        ("horn-at-blind-spot", 300),
        (MISSED, 420),
        ("contact-cone", 430),
    ];

    #[test]
    fn each_miss_belongs_to_what_was_entered_in_its_tick_or_to_a_crossing() {
        let is = glances(&[run("Rowan", 1, &MIXED), run("Rowan", 2, &[("stop-line-run", 5)])]);
        assert_eq!((is.entries, is.looked, is.crossings_missed, is.runs), (4, 2, 1, 2));
        assert_eq!(is.share.map(|s| s.value), Some(0.5));
    }

    #[test]
    fn a_site_that_counts_otherwise_is_said_and_not_counted() {
        let mut own = run("Rowan", 1, &MIXED);
        own.verdict.debrief.changed_rules = vec!["full-stop".to_owned()];
        let slowed = Attempt { pace: 0.5, ..run("Rowan", 2, &MIXED) };
        let is = glances(&[own.clone(), slowed]);
        assert_eq!((is.entries, is.runs, is.untold, is.share), (0, 0, 1, None));
        own.verdict.debrief.changed_rules = vec!["contact-cone".to_owned()];
        assert_eq!(glances(&[own]).entries, 3);
    }

    #[test]
    fn a_person_is_told_by_the_last_runs_and_a_class_by_its_people() {
        let (looks, not) = ([("full-stop", 9)], [("full-stop", 9), (MISSED, 9)]);
        let mut all: Vec<Attempt> = (1..=LATELY + 3)
            .map(|day| run("Rowan", day, if day <= 3 { &not } else { &looks }))
            .collect();
        // Runs with nothing to enter push nothing out.
        all.extend((20..28).map(|day| run("rowan ", day, &[("contact-cone", 1)])));
        all.push(run("Hazel", 1, &not));
        all.push(run("Alder", 1, &[]));
        let rowan = lately(&all, "Rowan");
        assert_eq!((rowan.entries, rowan.looked), (LATELY as u32, LATELY as u32));
        let class = of_class(&all);
        let names: Vec<&str> = class.people.iter().map(|(who, _)| who.as_str()).collect();
        assert_eq!(names, ["Hazel", "rowan"]);
        assert_eq!(class.mean, Some(0.5));
        assert_eq!(of_class(&[]).mean, None);
    }

    /// Two kept drives: one that looks before each of its six lines and corners, one that steps round a rack's end
    /// without a look.
    #[test]
    fn kept_drives_have_as_many_entries_as_their_courses() {
        let of = |run: &str| {
            #[derive(serde::Deserialize)]
            struct Kept {
                debrief: crate::debrief::Debrief,
            }
            let mut attempt = contract::attempt("kept");
            attempt.verdict.debrief = serde_json::from_str::<Kept>(run).unwrap().debrief;
            let is = glances(&[attempt]);
            (is.entries, is.looked, is.crossings_missed)
        };
        let aisles = include_str!("../../../../tests/golden/model-cross-aisles-single/run.json");
        assert_eq!(of(aisles), (6, 6, 0));
        let late = include_str!("../../../../tests/golden/step-out-late/run.json");
        assert_eq!(of(late), (1, 0, 0));
    }

    /// Each of these codes is one, so that a renamed rule is noticed here.
    #[test]
    fn all_of_these_rules_are_there() {
        for code in ENTRIES.into_iter().chain([MISSED]) {
            assert!(crate::rules::duty(code).is_some(), "{code}");
        }
    }
}
