//! A class that never was: invented people of differing, improving skill drive real runs on days past, so that boards and
//! statistics have something to be held against of which the truth is known.
//!
//! Everybody has a skill from 0 to 1 that grows by a share of what is missing with every day. It sets how late they notice,
//! how fast they drive, how much the hand trembles and how often a glance is left out (`rider::human`); and
//! the less there is of it, the more often one of the faults of the corpus is committed whole.

use std::sync::Arc;
use std::sync::atomic::{AtomicUsize, Ordering};

use coneyard_core::class::again::Cause;
use coneyard_core::class::date::Date;
use coneyard_core::class::record::{
    Decided, Entry, Happened, Kind, Purpose, Seen, Sheet, Training,
};
use coneyard_core::class::workplace::List;
use coneyard_core::class::{Record, write_record};
use coneyard_core::course::{Course, shipped};
use coneyard_core::outside::BadInput;
use coneyard_core::rider::faults;
use coneyard_core::rider::human::Human;
use coneyard_core::rules::SHIPPED;
use coneyard_core::run::DriveSetup;
use coneyard_core::time::TICK_RATE;
use coneyard_core::truck::spec::shipped as trucks;
use tokio::sync::mpsc;

use crate::clock::{self, DAY, Millis};
use crate::judging::at_arrival;
use crate::records::{Edited, NewRun, Person};
use crate::store::Store;

/// Trees that people are called by.
const TREES: [&str; 24] = [
    "Alder", "Aspen", "Beech", "Birch", "Cedar", "Cypress", "Elder", "Elm", "Fir", "Hawthorn",
    "Hazel", "Holly", "Juniper", "Larch", "Laurel", "Linden", "Maple", "Olive", "Pine", "Poplar",
    "Rowan", "Spruce", "Walnut", "Willow",
];

/// So many people have names of their own: each tree with each other one.
pub const PEOPLE_MOST: u32 = (TREES.len() * (TREES.len() - 1)) as u32;

/// The courses that are driven, in the order of the days.
const COURSES: [&str; 10] = [
    "first-drive",
    "straight",
    "emergency-stops",
    "laps-counter-clockwise",
    "laps-clockwise",
    "figure-eight",
    "slalom",
    "bays",
    "cross-aisles",
    "rack-end",
];

/// A class begins at this time of the day, UTC.
const BEGINS: Millis = 8 * 3600 * 1000;
/// One after the other, ms.
const APART: Millis = 4 * 60 * 1000;
/// How often someone without any skill commits a fault whole.
const FAULTY: f64 = 0.8;

/// What is to be simulated.
#[derive(Clone, Debug)]
pub struct Plan {
    /// How many people, at most [`PEOPLE_MOST`].
    pub people: u32,
    /// How many days.
    pub days: u32,
    /// Of all chance.
    pub seed: u64,
    /// The last day: its midnight, UTC.
    pub until: Millis,
}

/// One run to be driven.
#[derive(Clone, Debug)]
struct Turn {
    who: usize,
    course: &'static str,
    at: Millis,
    seed: u32,
    skill: f64,
    fault: Option<&'static str>,
}

impl Plan {
    /// A number from 0 to 1 that hangs on the seed and on what it is for.
    fn chance(&self, what: &str) -> f64 {
        f64::from(self.dice(what)) / (f64::from(u32::MAX) + 1.0)
    }

    fn dice(&self, what: &str) -> u32 {
        let hash = blake3::hash(format!("class {}\n{what}", self.seed).as_bytes());
        let [a, b, c, d, ..] = *hash.as_bytes();
        u32::from_le_bytes([a, b, c, d])
    }

    /// Somebody's name: two trees, nobody's the same.
    pub fn name(&self, who: usize) -> String {
        let all = TREES.len();
        let first = (who + (self.seed % all as u64) as usize) % all;
        // The second name moves on with every round of first ones, and is never the first one.
        let last = (first + 1 + (who / all * 5 + who) % (all - 1)) % all;
        format!("{} {}", TREES[first], TREES[last])
    }

    /// Somebody's skill on a day, 0 to 1: the truth of this class.
    pub fn skill(&self, who: usize, day: u32) -> f64 {
        let begins = 0.1 + 0.6 * self.chance(&format!("begins {who}"));
        let learns = 0.05 + 0.25 * self.chance(&format!("learns {who}"));
        let lacks = (0..day).fold(1.0 - begins, |lacks, _| lacks * (1.0 - learns));
        1.0 - lacks
    }

    fn turns(&self) -> Vec<Turn> {
        let mut turns = Vec::new();
        for day in 0..self.days {
            let morning = self.until - DAY * Millis::from(self.days - 1 - day) + BEGINS;
            for who in 0..self.people as usize {
                let of = |what: &str| format!("{what} {who} {day}");
                let skill = self.skill(who, day);
                let mut course = COURSES[day as usize % COURSES.len()];
                let mut fault = None;
                if self.chance(&of("faulty")) < FAULTY * (1.0 - skill) {
                    (course, fault) = self.fault(&of("fault")).unwrap_or((course, None));
                }
                let at = morning + APART * who as Millis;
                turns.push(Turn { who, course, at, seed: self.dice(&of("seed")), skill, fault });
            }
        }
        turns
    }

    /// A fault of the corpus with an exercise that it comes out on.
    fn fault(&self, what: &str) -> Option<(&'static str, Option<&'static str>)> {
        let all: Vec<(&str, &str)> = faults::all()
            .flat_map(|fault| fault.over.on.iter().map(move |(course, _)| (*course, fault.name)))
            .filter(|(course, _)| shipped::text(course).is_some())
            .collect();
        let chosen = all.get(self.dice(what) as usize % all.len().max(1))?;
        Some((chosen.0, Some(chosen.1)))
    }
}

/// Someone of this skill at the wheel.
fn human(skill: f64) -> Human {
    let between = |none: f64, all: f64| none + (all - none) * skill;
    Human {
        delay_s: between(1.8, 0.25),
        pace: between(1.7, 0.95),
        tremor: between(0.6, 0.03),
        drops_glance: between(0.8, 0.02),
    }
}

/// Drives one run; its file, and when it was over.
fn drive(plan: &Plan, turn: &Turn) -> Result<(Vec<u8>, Millis), BadInput> {
    let none = |what: &str| BadInput::new(turn.course, "", format!("there is no such {what}"));
    let course = shipped::text(turn.course).ok_or_else(|| none("course"))?;
    let read = Course::parse(turn.course, course.as_bytes())?;
    let truck = read.trucks.first().and_then(|truck| trucks::text(truck));
    let setup = DriveSetup {
        course: course.to_owned(),
        truck: truck.ok_or_else(|| none("truck"))?.to_owned(),
        rules: SHIPPED.to_owned(),
        checks: shipped::checks_of(course),
        seed: turn.seed,
        who: plan.name(turn.who),
        started: clock::text(turn.at),
    };
    let hand = u64::from(plan.dice(&format!("hand {}", turn.who)));
    let run = match turn.fault {
        Some(fault) => coneyard_sim::ride_as(&setup, fault, hand)?,
        None => coneyard_sim::ride_by(&setup, |setting| {
            human(turn.skill).rider(&setting.course, &setting.truck, &setting.rules, hand)
        })?,
    };
    let took = Millis::from(run.ticks()) * 1000 / Millis::from(TICK_RATE);
    Ok((run.to_text().into_bytes(), turn.at + took))
}

/// Who trained everybody, and who evaluated.
const TRAINER: &str = "Holly Fir";
const EVALUATOR: &str = "Olive Pine";

/// Somebody's training record: everybody was trained on the first day, every third was evaluated on the last one, and
/// of every seventh something unsafe was seen in between.
fn record(plan: &Plan, who: usize, person: &Person) -> Option<Record> {
    let day = |before: u32| {
        let at = clock::text(plan.until - DAY * Millis::from(before));
        Date::read(at.get(..10)?)
    };
    let (first, last) = (day(plan.days.saturating_sub(1))?, day(0)?);
    let mut record = Record::new(&person.id, &person.name);
    let (truck, site) = ("single".to_owned(), "Invented cold store".to_owned());
    record.trainings.push(Training {
        on: first,
        kind: Kind::First,
        by: TRAINER.to_owned(),
        truck: truck.clone(),
        site: site.clone(),
        note: String::new(),
        simulation: Some(coneyard_core::run::file::SIMULATION),
    });
    if who.is_multiple_of(3) {
        let list = List::shipped();
        let seen = |item: &coneyard_core::class::workplace::Item| Entry {
            item: item.id.clone(),
            seen: Some(Seen::Ok),
            note: String::new(),
            by: EVALUATOR.to_owned(),
            on: last,
        };
        record.sheets.push(Sheet {
            purpose: Purpose::Evaluation,
            on: last,
            by: EVALUATOR.to_owned(),
            truck: truck.clone(),
            site,
            entries: list.items.iter().map(seen).collect(),
            list: list.id,
            decided: Some(Decided::Safe),
        });
    }
    if who % 7 == 1 {
        record.happened.push(Happened {
            on: day(plan.days / 2)?,
            cause: Cause::UnsafeSeen,
            truck,
            codes: vec!["stop-line-run".to_owned()],
            note: String::new(),
            by: TRAINER.to_owned(),
        });
    }
    Some(record)
}

/// Drives the whole class on so many cores and delivers its runs to the store, where they wait to be driven again; `told`
/// hears how many of how many are done.
///
/// # Errors
/// One sentence: a course that cannot be driven, or the store is away.
pub async fn simulate(
    store: &dyn Store,
    class: &str,
    plan: &Plan,
    cores: usize,
    mut told: impl FnMut(usize, usize),
) -> Result<usize, String> {
    let mut people = Vec::new();
    for who in 0..plan.people as usize {
        let joined = plan.until - DAY * Millis::from(plan.days.saturating_sub(1)) + BEGINS;
        let id = blake3::hash(format!("{} person {who}", plan.seed).as_bytes()).to_hex()[..32]
            .to_owned();
        let person = Person { id: id.clone(), name: plan.name(who), joined };
        let fresh = crate::secret::id().map_err(|e| e.to_string())?;
        let person = store.keep_person(class, &person, &fresh).await.map_err(|e| e.to_string())?;
        if let Some(record) = record(plan, who, &person) {
            let text = Edited { edition: 0, text: write_record(&record)? };
            store.keep_training(class, &person.id, &text).await.map_err(|e| e.to_string())?;
        }
        people.push(person);
    }
    let (plan, turns) = (Arc::new(plan.clone()), Arc::new(plan.turns()));
    let next = Arc::new(AtomicUsize::new(0));
    let (driven, mut runs) = mpsc::channel(cores * 2);
    for _ in 0..cores.max(1) {
        let (plan, turns, next, driven) =
            (plan.clone(), turns.clone(), next.clone(), driven.clone());
        tokio::task::spawn_blocking(move || {
            while let Some(turn) = turns.get(next.fetch_add(1, Ordering::Relaxed)) {
                let run = drive(&plan, turn).map(|(bytes, over)| (turn.who, bytes, over));
                if driven.blocking_send(run).is_err() {
                    return;
                }
            }
        });
    }
    drop(driven);
    let mut done = 0;
    while let Some(run) = runs.recv().await {
        let (who, bytes, over) = run.map_err(|bad| bad.to_string())?;
        let run = NewRun {
            class: class.to_owned(),
            person: people[who].id.clone(),
            id: blake3::hash(&bytes).to_hex().to_string(),
            about: at_arrival(&bytes),
            bytes,
            arrived: over,
        };
        store.keep(&run).await.map_err(|e| e.to_string())?;
        done += 1;
        told(done, turns.len());
    }
    Ok(done)
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLAN: Plan = Plan { people: 200, days: 10, seed: 5, until: 1_767_225_600_000 };

    #[test]
    fn nobody_has_anothers_name_and_everybody_learns() {
        let names: std::collections::BTreeSet<String> =
            (0..PEOPLE_MOST as usize).map(|who| PLAN.name(who)).collect();
        assert_eq!(names.len(), PEOPLE_MOST as usize);
        let twice = |name: &&String| name.split_once(' ').is_some_and(|(a, b)| a == b);
        assert_eq!(names.iter().find(twice), None);
        for who in 0..200 {
            let skills: Vec<f64> = (0..10).map(|day| PLAN.skill(who, day)).collect();
            assert!(skills.is_sorted() && skills[9] > skills[0] && skills[9] < 1.0, "{skills:?}");
        }
        let first: Vec<f64> = (0..200).map(|who| PLAN.skill(who, 0)).collect();
        let (least, most) =
            first.iter().fold((1.0_f64, 0.0_f64), |(l, m), s| (l.min(*s), m.max(*s)));
        assert!(least < 0.2 && most > 0.6, "{least} to {most}");
    }

    #[test]
    fn every_day_everybody_drives_and_the_weak_commit_faults() {
        let turns = PLAN.turns();
        assert_eq!(turns.len(), 2000);
        let faulty = |least: f64, most: f64| {
            let of: Vec<_> = turns.iter().filter(|t| (least..most).contains(&t.skill)).collect();
            of.iter().filter(|t| t.fault.is_some()).count() as f64 / of.len() as f64
        };
        assert!(faulty(0.0, 0.4) > faulty(0.8, 1.0) + 0.05);
        assert_eq!(clock::text(turns[0].at), "2025-12-23T08:00:00.000Z");
    }

    #[test]
    fn everybody_was_trained_and_a_third_has_all_that_is_certified() {
        let person = |who| Person { id: format!("p{who}"), name: PLAN.name(who), joined: 0 };
        let all: Vec<Record> =
            (0..30).map(|who| record(&PLAN, who, &person(who)).unwrap()).collect();
        let (lists, today) = ([List::shipped()], Date::read("2026-01-02").unwrap());
        let whole = all.iter().filter(|r| r.certified("single", &lists, today).lacks.is_empty());
        assert_eq!(whole.count(), 10);
        assert!(all.iter().all(|r| r.trainings.len() == 1));
        assert_eq!(all.iter().filter(|r| !r.happened.is_empty()).count(), 5);
    }

    #[test]
    fn the_same_turn_is_the_same_run_and_arrives_whole() {
        let turn = &PLAN.turns()[3];
        let (run, over) = drive(&PLAN, turn).unwrap();
        assert_eq!(drive(&PLAN, turn).unwrap().0, run);
        assert!(over > turn.at);
        let about = at_arrival(&run);
        assert_eq!((about.course.as_str(), about.started), (turn.course, clock::text(turn.at)));
    }
}
