//! The sentences of the steps, taken at their word. What a step's way meets (a line, a hidden place,
//! moving off) has to be said, and said while there is still room to do it; and a rider who sounds the
//! horn and turns the head only where a sentence says so is not found at fault.

use coneyard_core::acts::Input;
use coneyard_core::controls::Look;
use coneyard_core::course::{Course, StepKind, Travel, shipped};
use coneyard_core::debrief::Ending;
use coneyard_core::finding::Severity;
use coneyard_core::moment::{Moment, WayKind};
use coneyard_core::rider::{MODEL, Rider, by_name};
use coneyard_sim::{Session, ride_by};
use coneyard_tests::drives::{offered, setup};
use rayon::prelude::*;

/// What a sentence can ask for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Demand {
    /// The horn, here.
    Horn,
    /// The horn whenever one moves off, from here on.
    HornEachTime,
    /// To stop at a line.
    StopAtLine,
    /// To look to both sides.
    LookBothWays,
    /// To go slowly.
    Slowly,
    /// To look to where the forks point.
    LookBack,
}
use Demand::{Horn, HornEachTime, LookBack, LookBothWays, Slowly, StopAtLine};

/// Phrases by which a sentence asks for something, in English and in Spanish.
const PHRASES: [(Demand, &[&str], &[&str]); 6] = [
    (Horn, &["the horn", "sound it again"], &["la bocina", "tóquela otra vez"]),
    (HornEachTime, &["each time before you move off"], &["cada vez antes de arrancar"]),
    (StopAtLine, &["stop at the line"], &["pare en la línea"]),
    (LookBothWays, &["look both ways"], &["mire a ambos lados"]),
    (
        Slowly,
        &["creep", "slow"],
        &["despacio", "frene antes", "frene mientras", "reduzca", "casi pare"],
    ),
    (
        LookBack,
        &["look back to", "back in", "back slowly", "back over", "slowly back"],
        &["mire atrás", "marcha atrás", "despacio hacia atrás"],
    ),
];

/// Words of the trade that nobody knows on the first day, and what has to stand beside them.
const UNEXPLAINED: [(&str, &str); 4] = [
    ("plugging", "turn the throttle the other way"),
    ("nose", "the front of the truck"),
    ("power unit", "the end with the motor"),
    ("upgrade", "uphill"),
];

/// What cannot be obeyed without a fault.
const ASKS_FOR_A_FAULT: [&str; 3] =
    ["with the forks on the floor", "forks down and empty", "look back at"];

/// So much room before a line or a hidden place is needed to read, to react and to stop, m.
const ROOM_M: f64 = 3.0;

fn says(course: &Course, step: usize, demand: Demand) -> bool {
    let said = course.steps.get(step).map_or("", |s| &s.say["en"]).to_lowercase();
    let (_, phrases, _) = PHRASES.iter().find(|(d, ..)| *d == demand).expect("in the table");
    phrases.iter().any(|p| said.contains(p))
}

/// The horn is asked for each time from this step on, or before it.
fn rule_holds(course: &Course, step: usize) -> bool {
    (0..=step).any(|s| says(course, s, HornEachTime))
}

#[test]
fn both_languages_ask_for_the_same() {
    let mut wrong = Vec::new();
    for (name, _) in shipped::ALL {
        for (i, step) in shipped::parse(name).steps.iter().enumerate() {
            let [en, es] = ["en", "es"].map(|l| step.say[l].to_lowercase());
            for (demand, english, spanish) in PHRASES {
                let asks = |text: &str, phrases: &[&str]| phrases.iter().any(|p| text.contains(p));
                if asks(&en, english) != asks(&es, spanish) {
                    wrong.push(format!("{name}, step {i}, {demand:?}: {en} | {es}"));
                }
            }
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

#[test]
fn no_sentence_asks_for_a_fault_or_uses_a_word_that_is_not_explained() {
    let mut wrong = Vec::new();
    for (name, _) in shipped::ALL {
        for step in shipped::parse(name).steps {
            let said = step.say["en"].to_lowercase();
            let words = UNEXPLAINED.iter().filter(|(w, e)| said.contains(w) && !said.contains(e));
            wrong.extend(words.map(|(word, _)| format!("{name}: {word}: {said}")));
            let faults = ASKS_FOR_A_FAULT.iter().filter(|f| said.contains(**f));
            wrong.extend(faults.map(|fault| format!("{name}: {fault}: {said}")));
        }
    }
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// How far ahead each line and hidden place was when a step began; those out of reach are missing.
type Ahead = Vec<(WayKind, u32, f64)>;

fn ahead(m: &Moment) -> Ahead {
    m.ways.iter().map(|w| (w.kind, w.index, w.ahead)).collect()
}

/// What is wrong with the sentences of one course, as the model rider drives it.
fn unsaid(course: &str, truck: &str) -> Vec<String> {
    let mut session = Session::new(&setup(course, truck, 1)).expect("a shipped course");
    let setting = session.setting();
    let file = setting.course.clone();
    let mut rider =
        by_name(MODEL, &setting.course, &setting.truck, &setting.rules, 1).expect("the model");
    let mut wrong = Vec::new();
    let mut begins: Vec<Ahead> = vec![ahead(session.moment())];
    let (mut rest, mut stood_at_begin) = (0, true);
    while session.ending().is_none() {
        let before = session.moment().task.step as usize;
        let input = rider.ride(session.moment());
        let m = session.step(input);
        let step = m.task.step as usize;
        let at = format!("{course}, {truck}, step {before}");
        let moved_off = rest >= 64 && m.truck.speed.abs() > 0.05;
        rest = if m.truck.speed.abs() <= 0.05 { rest + 1 } else { 0 };
        if moved_off && stood_at_begin {
            stood_at_begin = false;
            if file.traffic && !says(&file, before, Horn) && !rule_holds(&file, before) {
                wrong.push(format!("{at}: moves off, and no horn is asked for"));
            }
        }
        for way in m.ways.iter().filter(|w| w.crossed) {
            // Asked for in this step or the one before, while there was room for it.
            let asked = |demand: Demand| {
                (before.saturating_sub(1)..=before).any(|s| {
                    let seen = begins[s].iter().find(|(k, i, _)| (*k, *i) == (way.kind, way.index));
                    says(&file, s, demand) && seen.is_none_or(|(.., a)| *a >= ROOM_M)
                })
            };
            let demands: &[Demand] = match way.kind {
                WayKind::Stop => &[StopAtLine],
                WayKind::Yield => &[Slowly, LookBothWays],
                WayKind::Blind => &[Horn, Slowly],
            };
            for demand in demands.iter().filter(|d| !asked(**d)) {
                let (kind, index) = (way.kind, way.index);
                wrong
                    .push(format!("{at}: {demand:?} at {kind:?} {index} is not asked for in time"));
            }
        }
        if step != before {
            begins.push(ahead(m));
            stood_at_begin = m.truck.speed.abs() <= 0.05;
        }
    }
    if session.ending() != Some(Ending::Done) {
        wrong.push(format!("{course}, {truck}: {:?}", session.ending()));
    }
    wrong
}

#[test]
fn what_a_way_meets_is_said_in_time() {
    let wrong: Vec<String> =
        offered().par_iter().flat_map(|(course, truck)| unsaid(course, truck)).collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}

/// Sounds the horn and turns the head as the sentences say, and not otherwise; hands and feet are the
/// model rider's.
struct Literal {
    model: Box<dyn Rider>,
    course: Course,
}

impl Rider for Literal {
    fn ride(&mut self, m: &Moment) -> Input {
        let mut input = self.model.ride(m);
        let step = (m.task.step as usize).min(self.course.steps.len() - 1);
        input.controls.horn &= says(&self.course, step, Horn) || rule_holds(&self.course, step);
        let now = &self.course.steps[step];
        let checks = matches!(now.what, StepKind::CheckDock { .. });
        let looks = match input.controls.look {
            Look::Ahead => true,
            Look::Left | Look::Right => checks || says(&self.course, step, LookBothWays),
            // Who was told to look back in one step still does in the next.
            Look::Behind => {
                let told = (0..=step).any(|s| says(&self.course, s, LookBack));
                checks || now.travel == Travel::ForksFirst && told
            }
        };
        if !looks {
            input.controls.look = Look::Ahead;
        }
        input
    }
}

/// Others come and go otherwise with another seed.
const SEEDS: u32 = 4;

#[test]
fn who_does_only_what_the_sentences_say_is_not_at_fault() {
    let wrong: Vec<String> = offered()
        .par_iter()
        .flat_map(|drive| (1..=SEEDS).map(move |seed| (drive, seed)).collect::<Vec<_>>())
        .flat_map(|((course, truck), seed)| {
            let run = ride_by(&setup(course, truck, seed), |s| {
                let hand = u64::from(seed);
                let model = by_name(MODEL, &s.course, &s.truck, &s.rules, hand).expect("the model");
                Box::new(Literal { model, course: s.course.clone() })
            })
            .expect("a shipped course");
            let debrief = run.claimed;
            let faults = debrief.findings.iter().filter(|f| f.severity != Severity::Good);
            let mut wrong: Vec<String> = faults
                .map(|f| format!("{course}, {truck}, {seed}: {} at {} s", f.code, f.from / 64))
                .collect();
            if debrief.ending != Ending::Done {
                wrong.push(format!("{course}, {truck}, {seed}: {:?}", debrief.ending));
            }
            wrong
        })
        .collect();
    assert!(wrong.is_empty(), "{wrong:#?}");
}
