//! A class in figures: what its people have shown, seen together. Nothing here says how far one person is; that is
//! told from their own drives alone (`board`).

use std::collections::{BTreeMap, BTreeSet};

use serde::{Deserialize, Serialize};

use super::attempt::Attempt;
use super::board::{Lately, rows};
use super::brief::Brief;
use super::detection::Estimate;
use super::glance::{self, OfClass};
use super::items::{Items, by_code, by_skill, items, pretests};
use super::learning::{self, Of, Step};
use super::own::{Asked, Knowing, knowing};
use super::pooling::pooled;
use super::results::plain_name;
use super::teach::{Again, again};
use crate::finding::Skill;
use crate::score::points::SKILLS;

/// Figures are of so many of the newest drives at most: each of them is read whole. A class of forty that drives
/// thirty a head in a course of lessons stays far below.
pub const RUNS_MOST: u32 = 5000;
/// So many exercises have their curve, those that most people drove twice.
const CURVES_MOST: usize = 6;

/// All of it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Figures {
    /// Of how many drives, the newest ones.
    pub runs: usize,
    /// Looked before entering: the headline.
    pub glance: OfClass,
    /// What to teach again, what most people have first.
    pub again: Vec<Again>,
    /// People's shares of clean opportunities, seen together; by truck, in the order of the skills.
    pub skills: Vec<OfSkill>,
    /// Points by the number of the attempt, by exercise.
    pub curves: Vec<Curve>,
    /// What the pre-test tells of itself, an item for each skill.
    pub items: Items,
    /// How well people know how they drove.
    pub knowing: BTreeMap<Asked, Knowing>,
}

/// A skill with a truck.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct OfSkill {
    /// Truck id.
    pub truck: String,
    /// Which.
    pub skill: Skill,
    /// Everybody who has shown something of it lately, by name.
    pub people: Vec<Shown>,
    /// The middle of the people, 0 to 1.
    pub middle: f64,
    /// How far they are from it, as a standard deviation.
    pub apart: f64,
}

/// Somebody's share in the class.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Shown {
    /// Who.
    pub who: String,
    /// Clean opportunities lately.
    pub clean: u32,
    /// All of them.
    pub all: u32,
    /// The share, drawn towards the middle of the class, 0 to 1.
    pub drawn: Estimate,
}

/// A class on one exercise.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Curve {
    /// Course id.
    pub course: String,
    /// By the number of the attempt.
    pub steps: Vec<Step>,
}

impl Figures {
    /// The figures of these attempts, in any order. An item of the pre-test is right from this share of clean
    /// opportunities on.
    pub fn of(attempts: &[Attempt], clean_from: f64) -> Self {
        let briefs: Vec<Brief> = attempts.iter().map(Brief::of).collect();
        let tests = pretests(attempts);
        Self {
            runs: attempts.len(),
            glance: glance::of_class(attempts),
            again: again(&briefs, &items(&by_code(&tests))),
            skills: skills(&briefs),
            curves: curves(attempts),
            items: items(&by_skill(&tests, clean_from)),
            knowing: knowing(attempts),
        }
    }
}

fn skills(briefs: &[Brief]) -> Vec<OfSkill> {
    let rows = rows(briefs);
    let trucks: BTreeSet<&str> = rows.iter().map(|r| r.truck.as_str()).collect();
    let of = |truck: &str, skill: Skill| {
        let of_it = |lately: &&Lately| lately.skill == skill;
        let shown: Vec<(&str, &Lately)> = rows
            .iter()
            .filter(|r| r.truck == truck)
            .filter_map(|r| Some((r.who.as_str(), r.skills.iter().find(of_it)?)))
            .collect();
        let counts: Vec<(u32, u32)> = shown.iter().map(|(_, l)| (l.clean, l.all)).collect();
        let together = pooled(&counts)?;
        let person = |((who, l), drawn): (&(&str, &Lately), Option<Estimate>)| {
            Some(Shown { who: (*who).to_owned(), clean: l.clean, all: l.all, drawn: drawn? })
        };
        let people = shown.iter().zip(together.people).filter_map(person).collect();
        let (truck, middle, apart) = (truck.to_owned(), together.middle, together.apart);
        Some(OfSkill { truck, skill, people, middle, apart })
    };
    // The single truck first, as everywhere.
    trucks
        .into_iter()
        .rev()
        .flat_map(|t| SKILLS.into_iter().filter_map(move |s| of(t, s)))
        .collect()
}

fn curves(attempts: &[Attempt]) -> Vec<Curve> {
    let mut drove = BTreeMap::<&str, BTreeMap<String, usize>>::new();
    for attempt in attempts.iter().filter(|a| a.shows_skill() && a.place.is_none()) {
        *drove.entry(&attempt.course).or_default().entry(plain_name(&attempt.who)).or_default() +=
            1;
    }
    let twice = |people: &BTreeMap<String, usize>| people.values().filter(|n| **n > 1).count();
    let mut courses: Vec<(usize, &str)> = drove.iter().map(|(c, p)| (twice(p), *c)).collect();
    courses.sort_by_key(|(people, course)| (core::cmp::Reverse(*people), *course));
    let curve = |(_, course): (usize, &str)| {
        let steps = learning::of_class(attempts, Of::Exercise(course));
        // A single step is no curve.
        (steps.len() > 1).then(|| Curve { course: course.to_owned(), steps })
    };
    courses.into_iter().filter_map(curve).take(CURVES_MOST).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::class::contract;
    use crate::class::items::Told;
    use crate::class::learning::STILL_LEAST;
    use crate::class::own::Own;
    use crate::class::pooling::PEOPLE_LEAST;
    use crate::debrief::SkillResult;

    fn run(who: &str, day: usize, clean: u32, of: u32) -> Attempt {
        let mut attempt = contract::attempt(&format!("{who}-{day}"));
        attempt.who = who.to_owned();
        attempt.started = format!("2026-03-{:02}T08:00:00Z", day + 1);
        let debrief = &mut attempt.verdict.debrief;
        debrief.total = Some(60.0 + 10.0 * day as f64);
        debrief.skills = vec![SkillResult {
            skill: Skill::Steering,
            opportunities: of,
            clean,
            points: None,
            weight: 1.0,
        }];
        attempt
    }

    #[test]
    fn a_class_that_drove_has_its_figures() {
        let names = ["Alder", "Birch", "Cedar", "Elm"];
        let all: Vec<Attempt> = names
            .iter()
            .enumerate()
            .flat_map(|(n, who)| (0..3).map(move |day| run(who, day, n as u32, 4)))
            .collect();
        let is = Figures::of(&all, 0.8);
        assert_eq!(is.runs, 12);
        let [steering] = &is.skills[..] else { panic!("{:?}", is.skills) };
        assert_eq!((steering.skill, steering.truck.as_str()), (Skill::Steering, "single"));
        let shown: Vec<_> =
            steering.people.iter().map(|p| (p.who.as_str(), p.clean, p.all)).collect();
        assert_eq!(shown, [("Alder", 0, 12), ("Birch", 3, 12), ("Cedar", 6, 12), ("Elm", 9, 12)]);
        // Each is drawn towards the middle, and stays on their side of it.
        for p in &steering.people {
            let own = f64::from(p.clean) / f64::from(p.all);
            let (far, near) =
                ((own - steering.middle).abs(), (p.drawn.value - steering.middle).abs());
            assert!(near < far && (own < steering.middle) == (p.drawn.value < steering.middle));
        }
        let [curve] = &is.curves[..] else { panic!("{:?}", is.curves) };
        let means: Vec<f64> = curve.steps.iter().map(|s| s.mean).collect();
        assert_eq!((curve.course.as_str(), means), ("straight", vec![60.0, 70.0, 80.0]));
        assert_eq!((is.items.people, is.items.alpha), (0, Told::TooFew));
        assert!(is.again.is_empty() && is.knowing.is_empty() && is.glance.people.is_empty());
        let text = serde_json::to_string(&is).unwrap();
        assert_eq!(serde_json::from_str::<Figures>(&text).unwrap(), is);
    }

    #[test]
    fn what_too_few_show_is_left_out() {
        let people = |n: usize, days: usize| -> Vec<Attempt> {
            let names = ["Alder", "Birch", "Cedar", "Elm"];
            let of = |who: &&str| (0..days).map(|d| run(who, d, 2, 4)).collect::<Vec<_>>();
            names[..n].iter().flat_map(of).collect()
        };
        let told = |all: &[Attempt]| {
            let is = Figures::of(all, 0.8);
            (is.skills.len(), is.curves.len())
        };
        assert_eq!(PEOPLE_LEAST.max(STILL_LEAST), 3);
        assert_eq!(told(&people(3, 2)), (1, 1));
        assert_eq!(told(&people(2, 2)), (0, 0));
        assert_eq!(told(&people(3, 1)), (1, 0), "one attempt is no curve");
        let slowed: Vec<Attempt> =
            people(3, 2).into_iter().map(|a| Attempt { pace: 0.5, ..a }).collect();
        assert_eq!(told(&slowed), (0, 0), "slowed practice shows no skill");
        assert_eq!(told(&[]), (0, 0));
    }

    #[test]
    fn how_well_people_know_themselves_is_among_them() {
        let mut said = run("Alder", 0, 4, 4);
        said.own = Some(Own { fine: BTreeMap::from([(Asked::Tidy, false)]), closed: true });
        let is = Figures::of(&[said], 0.8);
        assert_eq!(
            is.knowing[&Asked::Tidy],
            Knowing { without: 1, too_hard: 1, ..Knowing::default() }
        );
    }
}
