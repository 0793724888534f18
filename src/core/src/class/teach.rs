//! What to teach a class again: the faults that most of its people make, each with the run that shows it best, the
//! exercises that train it, and whether it tells strong people from weak ones.
//!
//! The share is that of the people who drove where the fault can be made, not of all: of whoever never met a stop line
//! nothing is known. Where it can be made is where anybody of the class made it.

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::board::{Missed, missed};
use super::brief::Brief;
use super::detection::Estimate;
use super::exercises::that_train;
use super::items::{Items, Rest, Told};
use super::results::plain_name;
use crate::score::certainty::wilson;

/// A fault to teach again.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Again {
    /// The fault, the gravest of it and the run that shows it best.
    pub missed: Missed,
    /// How many people drove an exercise on which somebody of the class made it.
    pub of: usize,
    /// The share of these who made it, with Wilson's interval, 0 to 1.
    pub share: Estimate,
    /// Ids of the exercises that train it.
    pub exercises: Vec<String>,
    /// How avoiding it goes with the rest of the pre-test: what only weak people miss is taught to them, what
    /// strong people miss as well is taught to all. See `items` for how many people that takes.
    pub rest: Told<Rest>,
}

/// What to teach a class again: what most of its people have first, as in `missed`. `by_code` is what the pre-test
/// tells of itself, its items the codes of faults.
pub fn again(attempts: &[Brief], by_code: &Items) -> Vec<Again> {
    let shows = || attempts.iter().filter(|a| a.shows);
    // Who drove what, and where each fault was made.
    let mut drove = BTreeMap::<&str, BTreeSet<String>>::new();
    let mut made_on = BTreeMap::<&str, BTreeSet<&str>>::new();
    for attempt in shows() {
        drove.entry(&attempt.course).or_default().insert(plain_name(&attempt.who));
        for (code, _, _) in &attempt.faults {
            made_on.entry(code).or_default().insert(&attempt.course);
        }
    }
    let told = |missed: Missed| {
        let code = missed.code.as_str();
        let courses = made_on.get(code).into_iter().flatten();
        let met: BTreeSet<&String> =
            courses.filter_map(|course| drove.get(course)).flatten().collect();
        let (people, of) = (missed.people as u32, met.len() as u32);
        let (low, high) = wilson(people, of)?;
        let item = by_code.items.iter().find(|i| i.name == code);
        Some(Again {
            of: met.len(),
            share: Estimate { value: f64::from(people) / f64::from(of), low, high },
            exercises: that_train(code).iter().map(|id| (*id).to_owned()).collect(),
            rest: item.map_or(Told::TooFew, |i| i.rest),
            missed,
        })
    };
    missed(attempts).into_iter().filter_map(told).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::class::items::{Table, items};
    use crate::class::{Attempt, contract};
    use crate::finding::{Finding, Severity, Unit};
    use crate::math::Vec2;

    fn run(who: &str, course: &str, found: &[(&str, Severity)]) -> Attempt {
        let finding = |(code, severity): &(&str, Severity)| Finding {
            code: (*code).to_owned(),
            severity: *severity,
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
        let mut attempt = contract::attempt(&format!("{who}-{course}"));
        (attempt.who, attempt.course) = (who.to_owned(), course.to_owned());
        attempt.verdict.debrief.findings = found.iter().map(finding).collect();
        attempt
    }

    fn brief(all: &[Attempt]) -> Vec<Brief> {
        all.iter().map(Brief::of).collect()
    }

    #[test]
    fn the_share_is_of_those_who_could_make_it() {
        use Severity::{Critical, Good, Major, Minor};
        let all = [
            run("Rowan", "cross-aisles", &[("stop-line-run", Minor), ("contact-cone", Minor)]),
            run(" rowan", "cross-aisles", &[]),
            run("Hazel", "cross-aisles", &[("stop-line-run", Major)]),
            run("Alder", "cross-aisles", &[("full-stop", Good)]),
            run("Birch", "slalom", &[("contact-cone", Minor)]),
            run("Maple", "straight", &[]),
            Attempt { pace: 0.5, ..run("Maple", "cross-aisles", &[("stop-line-run", Critical)]) },
        ];
        let is = again(&brief(&all), &items(&Table::default()));
        let told: Vec<_> =
            is.iter().map(|a| (a.missed.code.as_str(), a.missed.people, a.of)).collect();
        // Of the same number of people the graver comes first.
        assert_eq!(told, [("stop-line-run", 2, 3), ("contact-cone", 2, 4)]);
        assert_eq!(is[0].missed.attempt, "Hazel-cross-aisles", "the gravest shows it best");
        assert_eq!(is[0].exercises[0], "cross-aisles");
        assert_eq!(
            (is[0].share.value, Some((is[0].share.low, is[0].share.high))),
            (2.0 / 3.0, wilson(2, 3))
        );
        assert_eq!(is[0].rest, Told::TooFew);
    }

    #[test]
    fn whether_it_tells_strong_from_weak_is_the_pre_tests_word() {
        let rows = (0..100_u32).map(|i| [i % 5 > 1, i % 5 > 2, i % 7 > 2]);
        let table = Table {
            items: ["stop-line-run", "horn-misused", "contact-cone"].map(str::to_owned).to_vec(),
            rows: rows.map(|row| row.map(Some).to_vec()).collect(),
        };
        let by_code = items(&table);
        let all = [run("Rowan", "cross-aisles", &[("stop-line-run", Severity::Minor)])];
        let is = again(&brief(&all), &by_code);
        assert_eq!(is[0].rest, by_code.items[0].rest);
        assert!(matches!(is[0].rest, Told::Is(_)));
    }
}
