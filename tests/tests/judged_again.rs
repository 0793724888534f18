//! Kept drives judged by other rules than their own: by their own nothing comes out otherwise, and by others nobody in
//! the yard moves otherwise. What does not hold there is said and judges nobody.

use coneyard_core::rules::{Edit, SiteRules};
use coneyard_core::run::{CannotJudge, JudgedBy, Run};
use coneyard_sim::{JudgingBy, Session};
use coneyard_tests::golden::{folders, name};
use rayon::prelude::*;

fn golden() -> Vec<(String, Run)> {
    let read = |folder: &std::path::PathBuf| {
        let text = std::fs::read(folder.join("run.json")).expect("a run");
        (name(folder), Run::parse("a golden run", &text).expect("a run of this simulation"))
    };
    folders().iter().map(read).collect()
}

fn edited(edits: &[Edit]) -> SiteRules {
    let shipped = SiteRules::shipped();
    edits.iter().fold(shipped, |rules, edit| rules.edited("own", edit).expect("within its bounds"))
}

fn number(place: &str, value: f64) -> Edit {
    Edit::Number(place.to_owned(), value)
}

#[test]
fn by_its_own_rules_every_kept_drive_comes_out_as_it_was() {
    let golden = golden();
    assert!(golden.len() > 30);
    golden.par_iter().for_each(|(name, run)| {
        let own = SiteRules::parse("own", run.setup.rules.as_bytes()).expect("valid");
        let mut judging = JudgingBy::new(run, own).expect("it can be driven");
        assert_eq!(judging.go_on(u32::MAX), JudgedBy::Done(run.claimed.clone()), "{name}");
    });
}

/// The rules that reach farthest into the yard: how fast one may be, how one looks, what is noticed, what is near.
#[test]
fn by_other_rules_nobody_moves_otherwise() {
    let strict = edited(&[
        number("speed_limit", 0.5),
        number("terms.looks-along", 20.0),
        number("terms.notices", 20.0),
        number("terms.notices-moving", 2.0),
        number("terms.remembers", 0.0),
        number("terms.approach", 20.0),
        number("terms.steps-on", 5.0),
        number("rules.outruns-sight.limits.reaction", 2.0),
        number("rules.person-near-miss.limits.gap", 1.0),
    ]);
    let found: Vec<bool> = golden()
        .par_iter()
        .map(|(name, run)| {
            let mut judging = JudgingBy::new(run, strict.clone()).expect("it can be driven");
            let mut again = Session::again(run).expect("it can be driven");
            for input in run.each_tick() {
                again.step(input);
                if !matches!(judging.go_on(1), JudgedBy::Working(_)) {
                    break;
                }
                let (own, by) = (again.moment(), judging.moment());
                assert_eq!(own.truck.pose, by.truck.pose, "{name} {}", own.tick);
                let at = |m: &coneyard_core::moment::Moment| {
                    m.people.iter().map(|p| p.at).collect::<Vec<_>>()
                };
                assert_eq!(at(own), at(by), "{name} {}", own.tick);
                assert_eq!(own.task.step, by.task.step, "{name} {}", own.tick);
            }
            let JudgedBy::Done(debrief) = judging.go_on(1) else { panic!("{name}: it is over") };
            assert_eq!(debrief.ending, run.claimed.ending, "{name}");
            debrief.findings.len() > run.claimed.findings.len()
        })
        .collect();
    assert!(found.iter().filter(|more| **more).count() > found.len() / 2, "they find more");
}

/// Rules that decide when a step is done: either nobody moves otherwise, or it is said.
#[test]
fn what_would_be_otherwise_is_said() {
    let slow = edited(&[
        number("terms.check-time", 5.0),
        number("terms.look-closer", 5.0),
        number("terms.check-reach", 6.0),
    ]);
    let said: Vec<Option<CannotJudge>> = golden()
        .par_iter()
        .map(|(name, run)| {
            let mut judging = JudgingBy::new(run, slow.clone()).expect("it can be driven");
            match judging.go_on(u32::MAX) {
                JudgedBy::Done(debrief) => {
                    assert_eq!(debrief.ending, run.claimed.ending, "{name}");
                    None
                }
                JudgedBy::Cannot(why) => Some(why),
                JudgedBy::Working(_) => panic!("{name}: it is over"),
            }
        })
        .collect();
    let cannot = said.iter().flatten().count();
    assert!(cannot > 0 && cannot < said.len() / 2, "{said:?}");
}
