//! What a pre-test tells of itself: how hard each of its items is, and whether they go together.
//!
//! An item is a skill (right: so large a share of its opportunities was clean) or the code of a fault (right: the fault
//! was not made). How much is told depends on how many people there are: few tell nothing but counts.
//!
//! | people | what is told |
//! | --- | --- |
//! | fewer than 10 | counts |
//! | 10 and more | besides, the share of right ones with Wilson's interval |
//! | 30 and more | besides, alpha with Feldt's interval |
//! | 100 and more | besides, how each item goes with the rest, and which ones do not |
//!
//! Alpha and what goes with what are of those people only of whom every item is known (listwise).

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::alpha::{alpha_without, with_interval, with_the_rest};
use super::attempt::Attempt;
use super::detection::Estimate;
use super::form::word;
use super::results::plain_name;
use crate::finding::Severity;
use crate::pretest::count;
use crate::score::certainty::wilson;
use crate::score::points::SKILLS;

/// From so many people on the share of right ones has its interval,
pub const SHARES_FROM: usize = 10;
/// alpha is told,
pub const ALPHA_FROM: usize = 30;
/// and how each item goes with the rest.
pub const REST_FROM: usize = 100;

/// An item goes with the rest when its correlation is no lower: R. L. Ebel's mark between poor and marginal items
/// (from memory).
pub const GOES_FROM: f64 = 0.2;

/// Who did what right: a column for each item, a row for each person; None where it is not known.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// Names of the items.
    pub items: Vec<String>,
    /// By person, as long as there are items.
    pub rows: Vec<Vec<Option<bool>>>,
}

/// Something that takes enough people, and people who differ.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Told<T> {
    /// There are too few people.
    TooFew,
    /// There are enough, and it has no value: nobody differs.
    Undefined,
    /// This is it.
    Is(T),
}

impl<T> Told<T> {
    fn of(is_enough: bool, value: impl FnOnce() -> Option<T>) -> Self {
        match is_enough {
            false => Self::TooFew,
            true => value().map_or(Self::Undefined, Self::Is),
        }
    }
}

/// How an item goes with the rest.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Rest {
    /// The correlation with the sum of the other items.
    pub with: Estimate,
    /// Even the upper end of its interval is below [`GOES_FROM`]: it measures something else, or is told badly.
    pub stands_out: bool,
}

/// One item.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Item {
    /// Its name.
    pub name: String,
    /// Of so many people it is known.
    pub known: u32,
    /// So many of them did it right.
    pub right: u32,
    /// The share of these, 0 to 1: the higher, the easier.
    pub share: Told<Estimate>,
    /// What alpha would be without it.
    pub alpha_without: Told<f64>,
    /// How it goes with the rest.
    pub rest: Told<Rest>,
}

/// What a test tells of itself.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Items {
    /// How many people took it.
    pub people: usize,
    /// Of how many every item is known: of these are alpha and what goes with what.
    pub whole: usize,
    /// Each item.
    pub items: Vec<Item>,
    /// Whether they go together, with Feldt's interval.
    pub alpha: Told<Estimate>,
}

/// What this table tells.
pub fn items(table: &Table) -> Items {
    let whole: Vec<Vec<f64>> = table
        .rows
        .iter()
        .filter_map(|row| row.iter().map(|r| r.map(|r| f64::from(u8::from(r)))).collect())
        .collect();
    let (alpha_told, rest_told) = (whole.len() >= ALPHA_FROM, whole.len() >= REST_FROM);
    let item = |(i, name): (usize, &String)| {
        let known = || table.rows.iter().filter_map(|row| row.get(i).copied().flatten());
        let (all, right) = (known().count() as u32, known().filter(|right| *right).count() as u32);
        let share = || {
            let (low, high) = wilson(right, all)?;
            Some(Estimate { value: f64::from(right) / f64::from(all), low, high })
        };
        let rest = || {
            let with = with_the_rest(&whole, i)?;
            Some(Rest { with, stands_out: with.high < GOES_FROM })
        };
        Item {
            name: name.clone(),
            known: all,
            right,
            share: Told::of(all as usize >= SHARES_FROM, share),
            alpha_without: Told::of(alpha_told, || alpha_without(&whole, i)),
            rest: Told::of(rest_told, rest),
        }
    };
    Items {
        people: table.rows.len(),
        whole: whole.len(),
        items: table.items.iter().enumerate().map(item).collect(),
        alpha: Told::of(alpha_told, || with_interval(&whole)),
    }
}

/// The first whole pre-test of each person: its parts in order. Whoever takes it again has learned from the first.
/// Attempts come in any order; what shows no skill makes a pre-test none.
pub fn pretests(attempts: &[Attempt]) -> Vec<Vec<&Attempt>> {
    let mut sittings = BTreeMap::<&str, BTreeMap<usize, &Attempt>>::new();
    let mut oldest_first: Vec<&Attempt> = attempts.iter().collect();
    oldest_first.sort_by(|a, b| a.started.cmp(&b.started));
    for attempt in oldest_first {
        if let Some(place) = &attempt.place {
            // A part that is there twice counts as it was driven first.
            sittings.entry(&place.sitting).or_default().entry(place.part).or_insert(attempt);
        }
    }
    let is_whole = |parts: &BTreeMap<usize, &Attempt>| {
        (0..count()).all(|part| parts.get(&part).is_some_and(|a| a.shows_skill()))
    };
    let mut whole: Vec<Vec<&Attempt>> =
        sittings.into_values().filter(is_whole).map(|p| p.into_values().collect()).collect();
    whole.sort_by(|a, b| a[0].started.cmp(&b[0].started));
    let mut people = BTreeSet::new();
    whole.retain(|parts| people.insert(plain_name(&parts[0].who)));
    whole
}

/// An item for each skill: right when no less than this share of its opportunities was clean.
pub fn by_skill(tests: &[Vec<&Attempt>], clean_from: f64) -> Table {
    let right = |parts: &[&Attempt], skill| {
        let results = parts.iter().flat_map(|a| &a.verdict.debrief.skills);
        let (clean, all) = results.filter(|s| s.skill == skill).fold((0.0, 0.0), |(c, a), s| {
            (c + f64::from(s.clean.min(s.opportunities)), a + f64::from(s.opportunities))
        });
        (all > 0.0).then_some(clean >= clean_from * all)
    };
    Table {
        items: SKILLS.iter().map(word).collect(),
        rows: tests.iter().map(|t| SKILLS.into_iter().map(|s| right(t, s)).collect()).collect(),
    }
}

/// An item for each code of a fault that anybody made: right when it was not made.
pub fn by_code(tests: &[Vec<&Attempt>]) -> Table {
    let made = |parts: &Vec<&Attempt>| -> BTreeSet<String> {
        let findings = parts.iter().flat_map(|a| &a.verdict.debrief.findings);
        findings.filter(|f| f.severity != Severity::Good).map(|f| f.code.clone()).collect()
    };
    let made: Vec<BTreeSet<String>> = tests.iter().map(made).collect();
    let codes: BTreeSet<&String> = made.iter().flatten().collect();
    Table {
        items: codes.iter().map(|c| (*c).clone()).collect(),
        rows: made.iter().map(|m| codes.iter().map(|c| Some(!m.contains(*c))).collect()).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::class::contract;
    use crate::class::drive::Place;
    use crate::debrief::SkillResult;
    use crate::finding::{Finding, Skill, Unit};
    use crate::math::Vec2;

    /// People who know so much of five items, each item harder than the one before; the last one is known by
    /// everybody.
    fn graded(people: usize) -> Table {
        let row = |i: usize| {
            let mut row: Vec<Option<bool>> = (0..4).map(|item| Some(i % 5 > item)).collect();
            row.push(Some(true));
            row
        };
        let items = ["a", "b", "c", "d", "e"].map(str::to_owned).to_vec();
        Table { items, rows: (0..people).map(row).collect() }
    }

    #[test]
    fn few_people_tell_counts_and_more_tell_more() {
        let told = |people| {
            let is = items(&graded(people));
            let first = is.items[0].clone();
            let is_share = matches!(first.share, Told::Is(_));
            let is_alpha = matches!(is.alpha, Told::Is(_));
            assert_eq!(matches!(first.alpha_without, Told::Is(_)), is_alpha);
            assert_eq!(first.known as usize, people);
            (is_share, is_alpha, matches!(first.rest, Told::Is(_)))
        };
        assert_eq!(told(9), (false, false, false));
        assert_eq!(told(10), (true, false, false));
        assert_eq!(told(29), (true, false, false));
        assert_eq!(told(30), (true, true, false));
        assert_eq!(told(99), (true, true, false));
        assert_eq!(told(100), (true, true, true));
    }

    #[test]
    fn the_share_is_wilsons_and_what_nobody_misses_is_undefined() {
        let is = items(&graded(100));
        assert_eq!((is.items[0].right, is.items[3].right, is.items[4].right), (80, 20, 100));
        let Told::Is(share) = is.items[0].share else { panic!("{is:?}") };
        assert_eq!((share.value, Some((share.low, share.high))), (0.8, wilson(80, 100)));
        assert_eq!(is.items[4].rest, Told::Undefined);
        let Told::Is(rest) = is.items[0].rest else { panic!("{is:?}") };
        assert!(rest.with.value > 0.5 && !rest.stands_out, "{rest:?}");
    }

    /// An item that falls as it likes among those that go together is told, and no other.
    #[test]
    fn an_item_that_goes_with_nothing_stands_out() {
        let mut table = graded(200);
        for (i, row) in table.rows.iter_mut().enumerate() {
            row[4] = Some(i / 5 % 2 == 0);
        }
        let stands_out = |i: &Item| matches!(i.rest, Told::Is(Rest { stands_out: true, .. }));
        let named: Vec<String> =
            items(&table).items.into_iter().filter(stands_out).map(|i| i.name).collect();
        assert_eq!(named, ["e"]);
        // Of a hundred people it might still go with the rest.
        table.rows.truncate(100);
        let least = items(&table);
        let Told::Is(rest) = least.items[4].rest else { panic!("{least:?}") };
        assert!((rest.with.high - libm::tanh(1.959963984540054 / 97.0_f64.sqrt())).abs() < 1e-9);
        assert!(rest.stands_out, "0.197 is just below");
    }

    #[test]
    fn who_is_not_known_in_all_is_left_out_of_what_goes_together() {
        let mut table = graded(31);
        table.rows[0][2] = None;
        let is = items(&table);
        assert_eq!((is.people, is.whole, is.items[2].known, is.items[0].known), (31, 30, 30, 31));
        assert!(matches!(is.alpha, Told::Is(_)));
        table.rows[1][0] = None;
        assert_eq!(items(&table).alpha, Told::TooFew);
        assert_eq!(items(&Table::default()).items, []);
    }

    fn part(who: &str, sitting: &str, part: usize, day: u32) -> Attempt {
        let mut attempt = contract::attempt(&format!("{sitting}-{part}"));
        attempt.who = who.to_owned();
        attempt.started = format!("2026-01-{day:02}T08:{part:02}:00Z");
        attempt.place = Some(Place { sitting: sitting.to_owned(), part });
        attempt
    }

    fn fault(code: &str, severity: Severity) -> Finding {
        Finding {
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
        }
    }

    #[test]
    fn the_first_whole_pretest_of_each_person_counts() {
        let whole = |who: &str, sitting: &str, day: u32| -> Vec<Attempt> {
            (0..count()).map(|p| part(who, sitting, p, day)).collect()
        };
        let mut all = whole("Rowan", "again", 9);
        all.extend(whole(" rowan ", "first", 2));
        all.extend(whole("Hazel", "half", 1).into_iter().skip(1));
        all.extend(whole("Alder", "slowed", 3));
        all.last_mut().unwrap().pace = 0.5;
        all.push(contract::attempt("practice"));
        let tests = pretests(&all);
        assert_eq!(tests.len(), 1);
        assert_eq!(tests[0][0].id, "first-0");
        assert_eq!(tests[0].len(), count());
    }

    #[test]
    fn items_are_skills_or_codes() {
        let skill = |skill, clean, opportunities| SkillResult {
            skill,
            points: None,
            opportunities,
            clean,
            weight: 1.0,
        };
        let (mut one, mut two) = (part("Rowan", "r", 0, 1), part("Rowan", "r", 1, 1));
        one.verdict.debrief.skills =
            vec![skill(Skill::Steering, 3, 4), skill(Skill::Leaving, 0, 0)];
        two.verdict.debrief.skills =
            vec![skill(Skill::Steering, 4, 6), skill(Skill::Mounting, 6, 9)];
        two.verdict.debrief.findings =
            vec![fault("horn", Severity::Minor), fault("clean-lap", Severity::Good)];
        let other = part("Hazel", "h", 0, 1);
        let tests = [vec![&one, &two], vec![&other]];
        let skills = by_skill(&tests, 0.7);
        let of = |name: &str| skills.items.iter().position(|i| i == name).unwrap();
        let told = |name: &str| skills.rows[0][of(name)];
        assert_eq!(told("steering"), Some(true), "7 of 10");
        assert_eq!((told("mounting"), told("leaving")), (Some(false), None));
        assert!(skills.rows[1].iter().all(Option::is_none));
        let codes = by_code(&tests);
        assert_eq!(codes.items, ["horn"]);
        assert_eq!(codes.rows, [[Some(false)], [Some(true)]]);
    }
}
