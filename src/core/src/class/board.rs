//! What people have shown lately, and what of it a class misses.
//!
//! How far somebody is follows from their own opportunities, never from those of the class, which would
//! flatter the weak. Opportunities within a run hang together, so a single run or a single day does not do, and
//! misses that come in bunches widen the interval (`design_effect`; measured in `tests/truth.rs`).

use std::collections::{BTreeMap, BTreeSet};

use super::attempt::Attempt;
use super::results::same_person;
use crate::finding::{Finding, Severity, Skill};
use crate::score::certainty::{Readiness, design_effect, readiness_when, wilson_when};
use crate::score::points::SKILLS;

/// So many runs with an opportunity count, the latest ones.
pub const LATELY: usize = 10;
/// So many runs at least are asked for,
pub const RUNS_LEAST: usize = 3;
/// on so many days.
pub const DAYS_LEAST: usize = 2;

/// What somebody has shown of a skill lately.
#[derive(Clone, Debug, PartialEq)]
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
    /// What follows.
    pub readiness: Readiness,
}

/// The day of an RFC 3339 time.
fn day(started: &str) -> &str {
    started.get(..10).unwrap_or(started)
}

/// What these attempts of one person and one truck, oldest first, show of each skill, in the order of the skills.
/// `ready_from` is what the lower end must reach, share of one.
pub fn lately(attempts: &[&Attempt], ready_from: f64) -> Vec<Lately> {
    SKILLS.into_iter().filter_map(|skill| of_skill(attempts, skill, ready_from)).collect()
}

fn of_skill(attempts: &[&Attempt], skill: Skill, ready_from: f64) -> Option<Lately> {
    let shown = attempts.iter().rev().filter(|a| a.shows_skill()).filter_map(|a| {
        let of_it = |s: &&crate::debrief::SkillResult| s.skill == skill && s.opportunities > 0;
        let result = a.verdict.debrief.skills.iter().find(of_it)?;
        Some((day(&a.started), result.clean.min(result.opportunities), result.opportunities))
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
    let (runs, days) = (runs.len(), days.len());
    let is_enough = runs >= RUNS_LEAST && days >= DAYS_LEAST;
    let readiness = match readiness_when(clean, all, effect, ready_from) {
        Readiness::Ready if !is_enough => Readiness::NotEnoughShown,
        other => other,
    };
    Some(Lately { skill, clean, all, runs, days, least, most, readiness })
}

/// Somebody's row.
#[derive(Clone, Debug, PartialEq)]
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
pub fn rows(attempts: &[Attempt], ready_from: f64) -> Vec<Row> {
    let mut all: Vec<&Attempt> = attempts.iter().collect();
    all.sort_by(|a, b| a.started.cmp(&b.started));
    let mut by: Vec<(&str, &str, Vec<&Attempt>)> = Vec::new();
    for attempt in all {
        let is_of = |(who, truck, _): &&mut (&str, &str, Vec<&Attempt>)| {
            same_person(who, &attempt.who) && *truck == attempt.truck
        };
        match by.iter_mut().find(is_of) {
            Some((who, _, theirs)) => {
                *who = &attempt.who;
                theirs.push(attempt);
            }
            None => by.push((&attempt.who, &attempt.truck, vec![attempt])),
        }
    }
    let mut rows: Vec<Row> = by
        .into_iter()
        .map(|(who, truck, theirs)| Row {
            who: who.to_owned(),
            truck: truck.to_owned(),
            drives: theirs.len(),
            last: theirs.last().map(|a| a.started.clone()).unwrap_or_default(),
            skills: lately(&theirs, ready_from),
        })
        .collect();
    rows.sort_by(|a, b| (&a.who, &a.truck).cmp(&(&b.who, &b.truck)));
    rows
}

/// A fault of a class.
#[derive(Clone, Debug, PartialEq)]
pub struct Missed {
    /// The gravest of them, and of equals the first.
    pub worst: Finding,
    /// The attempt in which that was.
    pub attempt: String,
    /// How many people had it.
    pub people: usize,
    /// How often it was found.
    pub times: usize,
}

/// What a class misses: what most people have first, of equals the graver, then the more frequent.
pub fn missed(attempts: &[Attempt]) -> Vec<Missed> {
    let mut by: BTreeMap<&str, (Missed, BTreeSet<String>)> = BTreeMap::new();
    for attempt in attempts.iter().filter(|a| a.shows_skill()) {
        let faults = attempt.verdict.debrief.findings.iter();
        for finding in faults.filter(|f| f.severity != Severity::Good) {
            let (missed, people) = by.entry(&finding.code).or_insert_with(|| {
                let (worst, attempt) = (finding.clone(), attempt.id.clone());
                (Missed { worst, attempt, people: 0, times: 0 }, BTreeSet::new())
            });
            if finding.severity > missed.worst.severity {
                (missed.worst, missed.attempt) = (finding.clone(), attempt.id.clone());
            }
            people.insert(attempt.who.trim().to_lowercase());
            (missed.people, missed.times) = (people.len(), missed.times + 1);
        }
    }
    let mut all: Vec<Missed> = by.into_values().map(|(missed, _)| missed).collect();
    all.sort_by_key(|m| core::cmp::Reverse((m.people, m.worst.severity, m.times)));
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::class::contract;
    use crate::debrief::SkillResult;
    use crate::finding::Unit;
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

    fn said(attempts: &[Attempt], ready_from: f64) -> Lately {
        let all: Vec<&Attempt> = attempts.iter().collect();
        lately(&all, ready_from).remove(0)
    }

    const DAYS: [&str; 3] =
        ["2026-01-05T08:00:00Z", "2026-01-05T09:00:00Z", "2026-01-06T08:00:00Z"];

    /// So many opportunities over three runs on two days, the misses one a run.
    fn spread(all: u32, missed: u32) -> Vec<Attempt> {
        let third = all / 3;
        let runs = [all - 2 * third, third, third];
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
                assert_eq!(said(&spread(all, missed), share).readiness, Readiness::Ready, "{all}");
                let one_fewer = said(&spread(all - 1, missed), share);
                assert_ne!(one_fewer.readiness, Readiness::Ready, "{}", all - 1);
            }
        }
    }

    /// 31 of 33 are enough for 0.8 when the two misses have nothing to do with each other, and not when they came in
    /// one run.
    #[test]
    fn misses_that_come_in_a_bunch_need_more() {
        let with = |clean: [u32; 3]| {
            let runs = DAYS.into_iter().zip(clean).map(|(day, r)| attempt("Rowan", day, r, 11));
            said(&runs.collect::<Vec<_>>(), 0.8)
        };
        let (apart, bunch) = (with([10, 10, 11]), with([11, 11, 9]));
        assert_eq!((apart.clean, apart.all), (bunch.clean, bunch.all));
        assert_eq!(apart.readiness, Readiness::Ready);
        assert_ne!(bunch.readiness, Readiness::Ready);
        assert!(bunch.least < apart.least && bunch.most > apart.most);
    }

    #[test]
    fn a_single_day_or_two_runs_do_not_do() {
        let good = |day: &str| attempt("Rowan", day, 20, 20);
        let on = |days: &[&str]| {
            let all: Vec<Attempt> = days.iter().map(|d| good(d)).collect();
            said(&all, 0.7).readiness
        };
        assert_eq!(on(&DAYS), Readiness::Ready);
        assert_eq!(on(&DAYS[1..]), Readiness::NotEnoughShown, "two runs");
        let one_day = ["2026-01-05T08:00:00Z", "2026-01-05T09:00:00Z", "2026-01-05T10:00:00Z"];
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
        let lately = said(&all, 0.7);
        assert_eq!((lately.clean, lately.all, lately.runs), (50, 50, LATELY));
    }

    #[test]
    fn one_person_has_one_row_a_truck_however_the_name_was_typed() {
        let mut all = vec![
            attempt("Hazel", DAYS[2], 3, 3),
            attempt(" rowan", DAYS[1], 3, 3),
            attempt("Rowan", DAYS[0], 3, 3),
        ];
        let rows_of = rows(&all, 0.7);
        let names: Vec<_> = rows_of.iter().map(|r| (r.who.as_str(), r.drives)).collect();
        assert_eq!(names, [(" rowan", 2), ("Hazel", 1)]);
        assert_eq!(rows_of[0].last, DAYS[1]);
        all[2].truck = "double".to_owned();
        assert_eq!(rows(&all, 0.7).len(), 3);
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
        let found = missed(&all);
        let shown: Vec<_> =
            found.iter().map(|m| (m.worst.code.as_str(), m.people, m.times)).collect();
        assert_eq!(shown, [("horn", 2, 2), ("sign", 1, 1), ("look", 1, 2)]);
        assert_eq!((found[0].worst.severity, found[0].attempt.as_str()), (Major, DAYS[1]));
    }
}
