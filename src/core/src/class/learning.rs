//! Learning curves: of one person what each attempt came to, and of a class the mean by the number of the attempt.
//!
//! No curve is fitted to one person: the smooth ones that are known come of averaging many people (A. Heathcote, S. Brown
//! and D. J. K. Mewhort, Psychonomic Bulletin and Review 7, 2000, 185-207). And a mean over whoever is still in it rises when
//! weak people leave off: so it is told how many are, and what the same people came to one attempt before.

use serde::{Deserialize, Serialize};

use super::attempt::Attempt;
use super::results::same_person;
use crate::finding::Skill;

/// So many attempts are in a mean of the last ones.
pub const LAST: usize = 5;
/// A class's curve ends where fewer people are still in it.
pub const STILL_LEAST: usize = 3;

/// What is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Of<'a> {
    /// Points in all of this exercise, 0 to 100. Parts of a pre-test are no tries at it.
    Exercise(&'a str),
    /// The share of this skill's opportunities that was clean, percent, wherever there were any.
    Skill(Skill),
}

impl Of<'_> {
    fn value(self, attempt: &Attempt) -> Option<f64> {
        if !attempt.shows_skill() {
            return None;
        }
        match self {
            Self::Exercise(course) if attempt.course == course && attempt.place.is_none() => {
                attempt.total()
            }
            Self::Exercise(_) => None,
            Self::Skill(skill) => {
                let mut results = attempt.verdict.debrief.skills.iter();
                let of = results.find(|s| s.skill == skill && s.opportunities > 0)?;
                let clean = of.clean.min(of.opportunities);
                Some(100.0 * f64::from(clean) / f64::from(of.opportunities))
            }
        }
    }
}

/// One attempt on a person's curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Dot {
    /// The attempt.
    pub attempt: String,
    /// When it began, RFC 3339.
    pub started: String,
    /// What it came to, 0 to 100.
    pub value: f64,
    /// Mean of the last [`LAST`] up to this one; None as long as there are fewer.
    pub last: Option<f64>,
}

/// The dots of this person, oldest first; attempts come in any order.
pub fn of_person(attempts: &[Attempt], who: &str, of: Of<'_>) -> Vec<Dot> {
    let mut theirs: Vec<&Attempt> = attempts.iter().filter(|a| same_person(&a.who, who)).collect();
    theirs.sort_by(|a, b| a.started.cmp(&b.started));
    let mut dots = Vec::<Dot>::new();
    for attempt in theirs {
        let Some(value) = of.value(attempt) else { continue };
        let before = dots.iter().rev().take(LAST - 1).map(|d| d.value);
        let last = (dots.len() + 1 >= LAST).then(|| (before.sum::<f64>() + value) / LAST as f64);
        dots.push(Dot {
            attempt: attempt.id.clone(),
            started: attempt.started.clone(),
            value,
            last,
        });
    }
    dots
}

/// A class at the attempt of one number.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Step {
    /// Which attempt, from 1.
    pub number: usize,
    /// How many people came so far.
    pub people: usize,
    /// Mean of what they came to, 0 to 100.
    pub mean: f64,
    /// Mean of what the same people came to one attempt before; None at the first.
    pub before: Option<f64>,
}

impl Step {
    /// By how much the same people became better since their attempt before.
    pub fn gained(&self) -> Option<f64> {
        self.before.map(|before| self.mean - before)
    }
}

/// A class by the number of the attempt, until fewer than [`STILL_LEAST`] people are in it; attempts come in any order.
pub fn of_class(attempts: &[Attempt], of: Of<'_>) -> Vec<Step> {
    let mut oldest_first: Vec<&Attempt> = attempts.iter().collect();
    oldest_first.sort_by(|a, b| a.started.cmp(&b.started));
    let mut by: Vec<(&str, Vec<f64>)> = Vec::new();
    for attempt in oldest_first {
        let Some(value) = of.value(attempt) else { continue };
        match by.iter_mut().find(|(who, _)| same_person(who, &attempt.who)) {
            Some((_, values)) => values.push(value),
            None => by.push((&attempt.who, vec![value])),
        }
    }
    let step = |number: usize| {
        let still = || by.iter().filter(|(_, values)| values.len() >= number);
        let people = still().count();
        let mean =
            |at: usize| still().filter_map(|(_, v)| v.get(at - 1)).sum::<f64>() / people as f64;
        let before = (number > 1).then(|| mean(number - 1));
        (people >= STILL_LEAST).then(|| Step { number, people, mean: mean(number), before })
    };
    (1..).map_while(step).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::class::contract;
    use crate::debrief::SkillResult;

    fn attempt(who: &str, day: usize, total: f64) -> Attempt {
        let mut attempt = contract::attempt(&format!("{who}-{day}"));
        (attempt.who, attempt.started) = (who.to_owned(), format!("2026-01-{day:02}T08:00:00Z"));
        attempt.verdict.debrief.total = Some(total);
        attempt
    }

    const STRAIGHT: Of<'_> = Of::Exercise("straight");

    #[test]
    fn a_person_has_dots_and_from_the_fifth_on_a_mean_of_five() {
        let mut all: Vec<Attempt> = (1..=7)
            .map(|i| attempt(if i % 2 == 0 { " rowan" } else { "Rowan" }, i, 10.0 * i as f64))
            .collect();
        all.push(attempt("Hazel", 3, 99.0));
        all.push(Attempt { pace: 0.5, ..attempt("Rowan", 8, 99.0) });
        all.push(Attempt { course: "slalom".to_owned(), ..attempt("Rowan", 9, 99.0) });
        all.reverse();
        let dots = of_person(&all, "Rowan", STRAIGHT);
        let values: Vec<f64> = dots.iter().map(|d| d.value).collect();
        assert_eq!(values, [10.0, 20.0, 30.0, 40.0, 50.0, 60.0, 70.0]);
        let last: Vec<Option<f64>> = dots.iter().map(|d| d.last).collect();
        assert_eq!(last[3..], [None, Some(30.0), Some(40.0), Some(50.0)]);
        assert_eq!(dots[0].attempt, "Rowan-1");
    }

    #[test]
    fn a_skill_is_looked_at_wherever_it_had_an_opportunity() {
        let with = |day, clean, opportunities| {
            let skill = SkillResult {
                skill: Skill::Steering,
                points: None,
                opportunities,
                clean,
                weight: 1.0,
            };
            let mut attempt = attempt("Rowan", day, 50.0);
            attempt.course = format!("course-{day}");
            attempt.verdict.debrief.skills = vec![skill];
            attempt
        };
        let all = [with(1, 3, 4), with(2, 0, 0), with(3, 4, 4)];
        let dots = of_person(&all, "Rowan", Of::Skill(Skill::Steering));
        assert_eq!(dots.iter().map(|d| d.value).collect::<Vec<_>>(), [75.0, 100.0]);
        assert_eq!(of_person(&all, "Rowan", Of::Skill(Skill::Leaving)), []);
    }

    /// Nobody learns anything here; three weak people leave off after the first attempt, and the mean rises.
    #[test]
    fn those_who_leave_off_make_no_gain() {
        let mut all = Vec::new();
        for (i, who) in ["Alder", "Birch", "Hazel", "Maple", "Rowan", "Willow"].iter().enumerate() {
            let weak = i % 2 == 0;
            let days = if weak { 1..=1 } else { 1..=3 };
            all.extend(days.map(|day| attempt(who, day, if weak { 40.0 } else { 80.0 })));
        }
        let curve = of_class(&all, STRAIGHT);
        let told: Vec<_> = curve.iter().map(|s| (s.number, s.people, s.mean, s.gained())).collect();
        assert_eq!(told, [(1, 6, 60.0, None), (2, 3, 80.0, Some(0.0)), (3, 3, 80.0, Some(0.0))]);
    }

    #[test]
    fn a_gain_is_told_and_the_curve_ends_with_few_people() {
        let mut all = Vec::new();
        for who in ["Alder", "Birch", "Hazel"] {
            all.extend((1..=2).map(|day| attempt(who, day, 50.0 + 10.0 * day as f64)));
        }
        all.push(attempt("Alder", 3, 90.0));
        let curve = of_class(&all, STRAIGHT);
        assert_eq!(curve.len(), 2, "one person is no class");
        assert_eq!(curve[1].gained(), Some(10.0));
        assert_eq!(of_class(&[], STRAIGHT), []);
    }
}
