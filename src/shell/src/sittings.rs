//! What a pre-test comes to from its record and its attempts: which part is due, the joined
//! judgement, and its file. Drawing, rules and the file's form are the core's.

use coneyard_core::outside::BadInput;
use coneyard_core::pretest::{Joined, Part, Sitting, count, draw, join};
use coneyard_core::rules::SiteRules;
use coneyard_core::run::Run;
use coneyard_core::run::file::SIMULATION;

use crate::browser;
use crate::files;
use crate::store::{Attempt, Drive, Place, Taken};

/// Parts of this pre-test that are driven, in order, without a gap. Attempts come oldest first; a
/// part that is there twice counts as it was driven first.
pub(crate) fn driven(attempts: &[Attempt], sitting: &str) -> Vec<Attempt> {
    let of = |part: usize| {
        let is =
            |a: &&Attempt| a.place.as_ref().is_some_and(|p| p.sitting == sitting && p.part == part);
        attempts.iter().find(is).cloned()
    };
    (0..count()).map_while(of).collect()
}

/// Parts are left, and it was not given up.
pub(crate) fn is_open(sitting: &Taken, driven: usize) -> bool {
    !sitting.given_up && driven < count()
}

/// Its parts as they are drawn.
pub(crate) fn parts(sitting: &Taken) -> Vec<Part> {
    draw(&sitting.class_word, sitting.seat)
}

/// The simulation that the first of these parts was driven under which is not the one that is here:
/// then the rest of them cannot be driven any more.
pub(crate) fn other_simulation(driven: &[Attempt]) -> Option<u32> {
    driven.iter().filter_map(|a| a.simulation).find(|made| *made != SIMULATION)
}

/// The drive of a part, from its start.
pub(crate) fn drive(sitting: &Taken, part: usize) -> Result<Drive, String> {
    let drawn = parts(sitting).into_iter().nth(part);
    let drawn = drawn.ok_or_else(|| format!("{}, part {}: no such part", sitting.id, part + 1))?;
    let said = |bad: BadInput| bad.to_string();
    let setup = drawn.setup(&sitting.who, &browser::now(), &sitting.rules).map_err(said)?;
    Ok(Drive {
        id: browser::new_id(),
        course: files::id_of(&drawn.course, &setup.course)?,
        truck: drawn.truck,
        place: Some(Place { sitting: sitting.id.clone(), part }),
        simulation: SIMULATION,
        setup,
    })
}

/// The least share of the time on the wall that a computer may simulate, by a text of site rules.
pub(crate) fn time_ratio_least(rules: &str) -> f64 {
    files::rules("site-rules.json", rules).map_or(1.0, |r| r.time_ratio_least())
}

/// How often a pre-test may be paused, by a text of site rules.
pub(crate) fn pauses_most(rules: &str) -> u32 {
    files::rules("site-rules.json", rules).map_or(0, |r| r.pauses_most())
}

/// The judgement over the parts that are driven.
pub(crate) fn joined(sitting: &Taken, driven: &[Attempt]) -> Result<Joined, String> {
    let rules = SiteRules::parse("site-rules.json", sitting.rules.as_bytes());
    let rules = rules.map_err(|bad| bad.to_string())?;
    // A run that does not tell how fast time went by cannot show that it was fast enough.
    let share = |a: &Attempt| a.share_of_real_time().unwrap_or_default();
    let parts: Vec<_> = driven.iter().map(|a| (&a.verdict.debrief, share(a))).collect();
    Ok(join(&parts, sitting.pauses, &rules))
}

/// The text of its file, with the run files of the parts that are driven.
pub(crate) fn file(sitting: &Taken, runs: &[String]) -> Result<String, String> {
    let said = |bad: BadInput| bad.to_string();
    let Taken { class_word, seat, who, started, rules, .. } = sitting;
    let mut whole = Sitting::new(class_word, *seat, who, started, rules).map_err(said)?;
    whole.pauses = sitting.pauses;
    for (part, run) in runs.iter().enumerate() {
        let name = format!("part {}", part + 1);
        whole.done(part, Run::parse(&name, run.as_bytes()).map_err(said)?).map_err(said)?;
    }
    Ok(whole.to_text())
}

/// Name of the file it is handed out as.
pub(crate) fn file_name(sitting: &Taken) -> String {
    let plain = |text: &str| -> String {
        let dashed = text.chars().map(|c| if c.is_alphanumeric() { c } else { '-' });
        dashed.collect::<String>().to_lowercase()
    };
    let day: String = sitting.started.chars().take(10).collect();
    let who = if sitting.who.is_empty() { "nobody".to_owned() } else { plain(&sitting.who) };
    let (word, seat) = (plain(&sitting.class_word), sitting.seat);
    format!("pre-test-{word}-{seat}-{who}-{}.sitting.json", plain(&day))
}

/// Reads a file that came in: its record, and the text of each run in it.
pub(crate) fn read(file: &str, text: &str, id: String) -> Result<(Taken, Vec<String>), String> {
    let whole = Sitting::parse(file, text.as_bytes()).map_err(|bad| bad.to_string())?;
    let runs = whole.runs().iter().map(Run::to_text).collect();
    let taken = Taken {
        id,
        class_word: whole.class_word,
        seat: whole.seat,
        who: whole.who,
        started: whole.started,
        rules: whole.rules,
        pauses: whole.pauses,
        given_up: false,
        imported: true,
    };
    Ok((taken, runs))
}

/// Whether a file that came in is a pre-test and not a run: only a pre-test has a class.
pub(crate) fn is_file_of_one(text: &str) -> bool {
    serde_json::from_str::<serde_json::Value>(text).is_ok_and(|v| v.get("class_word").is_some())
}

#[cfg(test)]
mod tests {
    use coneyard_core::debrief::{Debrief, Ending};
    use coneyard_core::pretest::Outcome;
    use coneyard_core::rules::SHIPPED;
    use coneyard_core::run::Verdict;
    use coneyard_core::state::chain::Digest;

    use super::*;

    fn taken() -> Taken {
        Taken {
            id: "s".into(),
            class_word: "grey-heron".into(),
            seat: 4,
            who: "Alder / B".into(),
            started: "2026-01-05T08:00:00Z".into(),
            rules: SHIPPED.into(),
            pauses: 1,
            given_up: false,
            imported: false,
        }
    }

    fn debrief() -> Debrief {
        Debrief {
            ending: Ending::Done,
            ticks: 64,
            total: None,
            skills: vec![],
            findings: vec![],
            practise: None,
            changed_rules: vec![],
        }
    }

    fn attempt(id: &str, sitting: &str, part: usize) -> Attempt {
        Attempt {
            id: id.into(),
            course: "straight".into(),
            truck: "single".into(),
            who: "Alder".into(),
            started: String::new(),
            imported: false,
            place: Some(Place { sitting: sitting.into(), part }),
            time_ratio: Some(1.0),
            pace: 1.0,
            simulation: Some(SIMULATION),
            verdict: Verdict {
                reproduces: true,
                first_difference_s: None,
                debrief_agrees: true,
                debrief: debrief(),
                final_digest: String::new(),
            },
        }
    }

    /// The run file of a part, of which nothing was driven.
    fn run(sitting: &Taken, part: usize) -> String {
        let drawn = &parts(sitting)[part];
        let setup = drawn.setup(&sitting.who, "2026-01-05T08:01:00Z", &sitting.rules).unwrap();
        let digests = vec![Digest([7; 8])];
        let claimed = Debrief { ticks: 0, ..debrief() };
        Run { setup, time_ratio: 1.0, pace: 1.0, controls: vec![], digests, claimed }.to_text()
    }

    #[test]
    fn the_part_that_is_due_comes_after_those_without_a_gap() {
        let attempts = [
            attempt("c", "s", 1),
            attempt("a", "s", 0),
            attempt("x", "t", 2),
            attempt("d", "s", 1),
        ];
        let ids = |sitting| -> Vec<String> {
            driven(&attempts, sitting).into_iter().map(|a| a.id).collect()
        };
        assert_eq!(ids("s"), ["a", "c"], "a part that is there twice counts once");
        assert!(ids("t").is_empty(), "a part cannot count before the one before it");
        assert!(is_open(&taken(), count() - 1) && !is_open(&taken(), count()));
        assert!(!is_open(&Taken { given_up: true, ..taken() }, 0));
    }

    #[test]
    fn a_slow_computer_and_parts_that_are_left_leave_it_incomplete() {
        let mut all: Vec<Attempt> = (0..count()).map(|part| attempt("a", "s", part)).collect();
        let result = |parts: &[Attempt]| joined(&taken(), parts).unwrap();
        assert_eq!(result(&all[..3]).result, Outcome::Incomplete);
        assert_eq!(result(&all[..3]).driven, 3);
        all[2].time_ratio = Some(0.9);
        let slow = result(&all[..3])
            .reasons
            .iter()
            .filter(|r| format!("{r:?}").contains("TooSlow"))
            .count();
        assert_eq!(slow, 1);
        (all[2].time_ratio, all[2].pace) = (Some(1.0), 0.5);
        let reasons = format!("{:?}", result(&all[..3]).reasons);
        assert!(reasons.contains("TooSlow { part: 2, ratio: 0.5"), "{reasons}");
        all[2].pace = 1.0;
        let twice = joined(&Taken { pauses: 2, ..taken() }, &all[..3]).unwrap();
        assert_eq!(twice.result, Outcome::NotPassed);
    }

    #[test]
    fn parts_of_another_simulation_are_not_joined_with_new_ones() {
        let mut all: Vec<Attempt> = (0..3).map(|part| attempt("a", "s", part)).collect();
        assert_eq!(other_simulation(&all), None);
        assert_eq!(other_simulation(&[]), None);
        all[1].simulation = Some(SIMULATION - 1);
        assert_eq!(other_simulation(&all), Some(SIMULATION - 1));
    }

    #[test]
    fn its_file_comes_back_as_it_was() {
        let runs: Vec<String> = (0..2).map(|part| run(&taken(), part)).collect();
        let text = file(&taken(), &runs).unwrap();
        assert!(is_file_of_one(&text) && !is_file_of_one(&runs[0]) && !is_file_of_one("{"));
        let (back, again) = read("a.sitting.json", &text, "s".into()).unwrap();
        assert_eq!(back, Taken { imported: true, ..taken() });
        assert_eq!(again, runs);
        let swapped = [runs[1].clone(), runs[0].clone()];
        assert!(file(&taken(), &swapped).is_err(), "the parts have their order");
        let bad = read("b.sitting.json", "{\"class_word\": 1}", "s".into()).unwrap_err();
        assert!(bad.starts_with("b.sitting.json"), "{bad}");
    }

    #[test]
    fn a_file_name_holds_class_seat_person_and_day_and_nothing_odd() {
        assert_eq!(file_name(&taken()), "pre-test-grey-heron-4-alder---b-2026-01-05.sitting.json");
    }
}
