//! What people have shown lately, and what of it a class misses.
//!
//! How far somebody is follows from their own opportunities, never from those of the class, which would
//! flatter the weak. Opportunities within a run hang together, so a single run or a single day does not do, and
//! misses that come in bunches widen the interval (`design_effect`; measured in `tests/truth.rs`).

use std::borrow::Borrow;
use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::brief::Brief;
use super::results::plain_name;
use crate::finding::{Severity, Skill};
use crate::score::certainty::{Readiness, design_effect, readiness_when, wilson_when};
use crate::score::points::SKILLS;

/// So many runs with an opportunity count, the latest ones.
pub const LATELY: usize = 10;
/// So many runs at least are asked for: after three it is wrong too often that somebody is ready, since three cannot
/// show in how many bunches misses come (`tests/truth.rs`),
pub const RUNS_LEAST: usize = 5;
/// on so many days.
pub const DAYS_LEAST: usize = 2;

/// What somebody has shown of a skill lately.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Lately {
    /// Which.
    pub skill: Skill,
    /// Clean opportunities.
    pub clean: u32,
    /// All of them, at least one.
    pub all: u32,
    /// In so many runs.
    pub runs: usize,
    /// On so many days.
    pub days: usize,
    /// Lower end of the share's interval, 0 to 1.
    pub least: f64,
    /// Upper end.
    pub most: f64,
    /// How much misses that come in bunches widen the interval, from 1 (`design_effect`).
    pub effect: f64,
}

impl Lately {
    /// What follows, when the lower end must reach `ready_from`, share of one.
    pub fn readiness(&self, ready_from: f64) -> Readiness {
        let is_enough = self.runs >= RUNS_LEAST && self.days >= DAYS_LEAST;
        match readiness_when(self.clean, self.all, self.effect, ready_from) {
            Readiness::Ready if !is_enough => Readiness::NotEnoughShown,
            other => other,
        }
    }
}

/// The day of an RFC 3339 time.
fn day(started: &str) -> &str {
    started.get(..10).unwrap_or(started)
}

/// What these attempts of one person and one truck, oldest first, show of each skill, in the order of the skills.
pub fn lately(attempts: &[&Brief]) -> Vec<Lately> {
    SKILLS.into_iter().filter_map(|skill| of_skill(attempts, skill)).collect()
}

fn of_skill(attempts: &[&Brief], skill: Skill) -> Option<Lately> {
    let shown = attempts.iter().rev().filter(|a| a.shows).filter_map(|a| {
        let (_, clean, all) = a.skills.iter().find(|(s, _, all)| *s == skill && *all > 0)?;
        Some((day(&a.started), *clean.min(all), *all))
    });
    let (mut clean, mut all, mut runs, mut days) = (0_u32, 0_u32, Vec::new(), BTreeSet::new());
    for (day, of_run, opportunities) in shown.take(LATELY) {
        clean = clean.saturating_add(of_run);
        all = all.saturating_add(opportunities);
        runs.push((of_run, opportunities));
        days.insert(day);
    }
    let effect = design_effect(&runs);
    let (least, most) = wilson_when(clean, all, effect)?;
    Some(Lately { skill, clean, all, runs: runs.len(), days: days.len(), least, most, effect })
}

/// Somebody's row.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Row {
    /// Who, as it was typed last.
    pub who: String,
    /// Truck id: who is ready for one truck has not shown it with the other.
    pub truck: String,
    /// How many drives.
    pub drives: usize,
    /// When the last one began, RFC 3339.
    pub last: String,
    /// By skill.
    pub skills: Vec<Lately>,
}

/// A row for each person and truck, by name; attempts in any order.
pub fn rows<B: Borrow<Brief>>(attempts: &[B]) -> Vec<Row> {
    let mut all: Vec<&Brief> = attempts.iter().map(Borrow::borrow).collect();
    all.sort_by(|a, b| a.started.cmp(&b.started));
    let mut by: BTreeMap<(String, &str), Vec<&Brief>> = BTreeMap::new();
    for attempt in all {
        by.entry((plain_name(&attempt.who), &attempt.truck)).or_default().push(attempt);
    }
    let mut rows: Vec<Row> = by
        .into_values()
        .filter_map(|theirs| {
            let last = theirs.last()?;
            Some(Row {
                who: last.who.clone(),
                truck: last.truck.clone(),
                drives: theirs.len(),
                last: last.started.clone(),
                skills: lately(&theirs),
            })
        })
        .collect();
    rows.sort_by(|a, b| (&a.who, &a.truck).cmp(&(&b.who, &b.truck)));
    rows
}

/// A fault of a class.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Missed {
    /// Code of its rule.
    pub code: String,
    /// The gravest of them.
    pub severity: Severity,
    /// The attempt in which that was, the first of equals.
    pub attempt: String,
    /// How many people had it.
    pub people: usize,
    /// How often it was found.
    pub times: usize,
}

/// What a class misses: what most people have first, of equals the graver, then the more frequent.
pub fn missed<B: Borrow<Brief>>(attempts: &[B]) -> Vec<Missed> {
    let mut by: BTreeMap<&str, (Missed, BTreeSet<String>)> = BTreeMap::new();
    for attempt in attempts.iter().map(Borrow::borrow).filter(|a: &&Brief| a.shows) {
        let who = plain_name(&attempt.who);
        for (code, severity, times) in &attempt.faults {
            let (missed, people) = by.entry(code).or_insert_with(|| {
                let (code, attempt) = (code.clone(), attempt.id.clone());
                let none = Missed { code, severity: *severity, attempt, people: 0, times: 0 };
                (none, BTreeSet::new())
            });
            if *severity > missed.severity {
                (missed.severity, missed.attempt) = (*severity, attempt.id.clone());
            }
            if !people.contains(&who) {
                people.insert(who.clone());
            }
            (missed.people, missed.times) = (people.len(), missed.times + *times as usize);
        }
    }
    let mut all: Vec<Missed> = by.into_values().map(|(missed, _)| missed).collect();
    all.sort_by_key(|m| core::cmp::Reverse((m.people, m.severity, m.times)));
    all
}

/// All of it, as a host gives it to a trainer.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Board {
    /// How many drives there are.
    pub drives: usize,
    /// What people have shown lately.
    pub rows: Vec<Row>,
    /// What the class misses, worst first.
    pub missed: Vec<Missed>,
}

impl Board {
    /// The board of these attempts, in any order.
    pub fn of<B: Borrow<Brief>>(attempts: &[B]) -> Self {
        let mut all: Vec<&Brief> = attempts.iter().map(Borrow::borrow).collect();
        // Whoever gives them in another order sees the same.
        all.sort_by(|a, b| (&a.started, &a.id).cmp(&(&b.started, &b.id)));
        Self { drives: all.len(), rows: rows(&all), missed: missed(&all) }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::class::Attempt;
    use crate::class::contract;
    use crate::debrief::SkillResult;
    use crate::finding::{Finding, Unit};
    use crate::math::Vec2;

    /// An attempt that shows so many clean of so many opportunities.
    fn attempt(who: &str, started: &str, clean: u32, opportunities: u32) -> Attempt {
        let mut attempt = contract::attempt(started);
        (attempt.who, attempt.started) = (who.to_owned(), started.to_owned());
        attempt.verdict.reproduces = true;
        let skill = Skill::StartingAndStopping;
        attempt.verdict.debrief.skills =
            vec![SkillResult { skill, points: Some(100.0), opportunities, clean, weight: 1.0 }];
        attempt
    }

    fn brief(attempts: &[Attempt]) -> Vec<Brief> {
        attempts.iter().map(Brief::of).collect()
    }

    fn said(attempts: &[Attempt]) -> Lately {
        let all = brief(attempts);
        lately(&all.iter().collect::<Vec<_>>()).remove(0)
    }

    const DAYS: [&str; RUNS_LEAST] = [
        "2026-01-05T08:00:00Z",
        "2026-01-05T09:00:00Z",
        "2026-01-05T10:00:00Z",
        "2026-01-05T11:00:00Z",
        "2026-01-06T08:00:00Z",
    ];

    /// So many opportunities over five runs on two days, the misses one a run.
    fn spread(all: u32, missed: u32) -> Vec<Attempt> {
        let fifth = all / 5;
        let runs = [all - 4 * fifth, fifth, fifth, fifth, fifth];
        let run =
            |(i, n): (usize, u32)| attempt("Rowan", DAYS[i], n - u32::from((i as u32) < missed), n);
        runs.into_iter().enumerate().map(run).collect()
    }

    /// How many opportunities a lower end needs with no, one and two misses (the class design's table of the
    /// two-sided 95 % interval): one fewer does not do.
    #[test]
    fn readiness_needs_as_many_opportunities_as_the_table_says() {
        let table = [(0.7, [9, 15, 21]), (0.8, [16, 25, 33]), (0.9, [35, 53, 69])];
        for (share, needed) in table {
            for (missed, all) in (0..).zip(needed) {
                assert_eq!(said(&spread(all, missed)).readiness(share), Readiness::Ready, "{all}");
                let one_fewer = said(&spread(all - 1, missed));
                assert_ne!(one_fewer.readiness(share), Readiness::Ready, "{}", all - 1);
            }
        }
    }

    /// 31 of 33 are enough for 0.8 when the two misses have nothing to do with each other, and not when they came in
    /// one run.
    #[test]
    fn misses_that_come_in_a_bunch_need_more() {
        let with = |clean: [u32; 5]| {
            let runs = DAYS.into_iter().zip(clean).zip([7, 7, 7, 6, 6]);
            let runs = runs.map(|((day, clean), all)| attempt("Rowan", day, clean, all));
            said(&runs.collect::<Vec<_>>())
        };
        let (apart, bunch) = (with([6, 6, 7, 6, 6]), with([7, 7, 5, 6, 6]));
        assert_eq!((apart.clean, apart.all), (bunch.clean, bunch.all));
        assert_eq!(apart.readiness(0.8), Readiness::Ready);
        assert_ne!(bunch.readiness(0.8), Readiness::Ready);
        assert!(bunch.least < apart.least && bunch.most > apart.most);
    }

    #[test]
    fn a_single_day_or_four_runs_do_not_do() {
        let good = |day: &str| attempt("Rowan", day, 20, 20);
        let on = |days: &[&str]| {
            let all: Vec<Attempt> = days.iter().map(|d| good(d)).collect();
            said(&all).readiness(0.7)
        };
        assert_eq!(on(&DAYS), Readiness::Ready);
        assert_eq!(on(&DAYS[1..]), Readiness::NotEnoughShown, "four runs");
        let mut one_day = DAYS;
        one_day[4] = "2026-01-05T12:00:00Z";
        assert_eq!(on(&one_day), Readiness::NotEnoughShown, "one day");
    }

    #[test]
    fn what_was_long_ago_no_longer_counts() {
        let times: Vec<String> =
            (0..LATELY + 2).map(|i| format!("2026-01-{:02}T08:00:00Z", i + 1)).collect();
        let all: Vec<Attempt> = times
            .iter()
            .enumerate()
            .map(|(i, time)| attempt("Rowan", time, if i < 2 { 0 } else { 5 }, 5))
            .collect();
        let lately = said(&all);
        assert_eq!((lately.clean, lately.all, lately.runs), (50, 50, LATELY));
    }

    #[test]
    fn one_person_has_one_row_a_truck_however_the_name_was_typed() {
        let mut all = vec![
            attempt("Hazel", DAYS[4], 3, 3),
            attempt(" rowan", DAYS[1], 3, 3),
            attempt("Rowan", DAYS[0], 3, 3),
        ];
        let rows_of = rows(&brief(&all));
        let names: Vec<_> = rows_of.iter().map(|r| (r.who.as_str(), r.drives)).collect();
        assert_eq!(names, [(" rowan", 2), ("Hazel", 1)]);
        assert_eq!(rows_of[0].last, DAYS[1]);
        all[2].truck = "double".to_owned();
        assert_eq!(rows(&brief(&all)).len(), 3);
    }

    #[test]
    fn what_most_people_have_comes_first_and_the_gravest_of_it_is_shown() {
        let fault = |code: &str, severity| Finding {
            code: code.to_owned(),
            severity,
            from: 1,
            to: 1,
            measured: 1.0,
            limit: 0.0,
            unit: Unit::Count,
            at: Vec2::default(),
            before: None,
            cause: None,
            point: None,
        };
        let with = |who: &str, started: &str, findings| {
            let mut attempt = attempt(who, started, 1, 2);
            attempt.verdict.debrief.findings = findings;
            attempt
        };
        use Severity::{Critical, Good, Major, Minor};
        let all = [
            with("Rowan", DAYS[0], vec![fault("horn", Minor), fault("clean", Good)]),
            with("Hazel", DAYS[1], vec![fault("horn", Major), fault("sign", Critical)]),
            with("Rowan", DAYS[2], vec![fault("look", Minor), fault("look", Minor)]),
        ];
        let found = missed(&brief(&all));
        let shown: Vec<_> = found.iter().map(|m| (m.code.as_str(), m.people, m.times)).collect();
        assert_eq!(shown, [("horn", 2, 2), ("sign", 1, 1), ("look", 1, 2)]);
        assert_eq!((found[0].severity, found[0].attempt.as_str()), (Major, DAYS[1]));
    }
}
