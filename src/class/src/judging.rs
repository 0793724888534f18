//! From a run's file to what is known of it: what it tells when it arrives, and what comes of driving it again.

use std::panic::{AssertUnwindSafe, catch_unwind};

use coneyard_core::class::whole::told;
use coneyard_core::class::{Attempt, Brief, Place, Told, thinned, write_record};
use coneyard_core::debrief::Debrief;
use coneyard_core::finding::Severity;
use coneyard_core::pretest::draw;
use coneyard_core::rules::SiteRules;
use coneyard_core::run::file::SIMULATION;
use coneyard_core::run::{JudgedBy, Run};
use coneyard_core::time::TICK_RATE;
use coneyard_sim::JudgingBy;

use crate::clock;
use crate::known;
use crate::records::{About, Handed, Job, State};

/// A place in the path is noted after so many ticks, eight times a second.
const EVERY: usize = 8;

/// What a run tells of itself when it arrives.
pub fn at_arrival(bytes: &[u8]) -> About {
    match read(bytes) {
        Err(reason) => unreadable(reason),
        Ok((_, told)) if told.simulation != SIMULATION => {
            let reason = other_simulation(told.simulation);
            About { state: Some(State::Unreadable), reason: Some(reason), ..about(&told) }
        }
        Ok((_, told)) => {
            About { state: Some(State::Waiting), simulation: Some(told.simulation), ..about(&told) }
        }
    }
}

/// Why a run of another simulation is not driven again here.
fn other_simulation(made: u32) -> String {
    format!(
        "simulation {made} made this run, and {SIMULATION} is here: it is kept, and not driven again"
    )
}

/// What is said of runs that wait for a simulation which is no longer here.
pub fn stale() -> String {
    format!(
        "another simulation than {SIMULATION}, which is here, made this run: it is kept, and not driven again"
    )
}

fn unreadable(reason: String) -> About {
    About { state: Some(State::Unreadable), reason: Some(reason), ..About::default() }
}

fn read(bytes: &[u8]) -> Result<(&str, Told), String> {
    let text = str::from_utf8(bytes).map_err(|_| "the run is no text".to_owned())?;
    told("the run", text).map(|told| (text, told)).map_err(|bad| bad.to_string())
}

fn about(told: &Told) -> About {
    About {
        course: told.course.clone(),
        truck: told.truck.clone(),
        started: told.started.clone(),
        ..About::default()
    }
}

/// Drives a run again and says what came of it. Whatever is in the file, something comes of it.
pub fn judge(job: &Job) -> About {
    let judged = catch_unwind(AssertUnwindSafe(|| driven_again(job)));
    judged.unwrap_or_else(|_| {
        unreadable("driving this run again failed: it is kept, and counts for nothing".to_owned())
    })
}

fn driven_again(job: &Job) -> About {
    let (text, told) = match read(&job.bytes) {
        Ok(read) => read,
        Err(reason) => return unreadable(reason),
    };
    let known = about(&told);
    let not = |reason: String| About {
        state: Some(State::Unreadable),
        reason: Some(reason),
        ..known.clone()
    };
    let run = match Run::parse("the run", text.as_bytes()) {
        Ok(run) => run,
        Err(bad) => return not(bad.to_string()),
    };
    let (mut path, mut tick) = (Vec::new(), 0_usize);
    let verdict = coneyard_sim::drive_again(&run, |session| {
        if tick.is_multiple_of(EVERY) {
            let at = session.moment().truck.platform_in_yard;
            path.push([at.x as f32, at.y as f32]);
        }
        tick += 1;
    });
    let verdict = match verdict {
        Ok(verdict) => verdict,
        Err(bad) => return not(bad.to_string()),
    };
    let mut attempt = Attempt::new(job.run.clone(), told, verdict, false);
    attempt.line = thinned(&path);
    if attempt.verdict.reproduces
        && let Some(why) = known::unknown(&run.setup, &attempt.course, &attempt.truck)
    {
        return for_nothing(&attempt, why);
    }
    let others = others(job, &run);
    let Some((text, rules)) = others.filter(|_| attempt.verdict.reproduces) else {
        attempt.place = place(&job.handed, &run);
        return of_attempt(&attempt);
    };
    // A part of a pre-test that was driven by other rules is practice.
    match judged_by(&run, rules) {
        Ok(debrief) => of_attempt(&attempt.judged_by(&text, &clock::text(clock::now()), debrief)),
        Err(why) => for_nothing(&attempt, why),
    }
}

/// It is what it says it is, and counts for nothing all the same.
fn for_nothing(attempt: &Attempt, why: String) -> About {
    About {
        state: Some(State::Differs),
        reason: Some(why),
        record: None,
        brief: None,
        ..of_attempt(attempt)
    }
}

/// The class's rules, where the run was driven by others.
fn others(job: &Job, run: &Run) -> Option<(String, SiteRules)> {
    let text = job.rules.as_ref()?;
    let rules = SiteRules::parse("the class's rules", text.as_bytes()).ok()?;
    let own = SiteRules::parse("the run's rules", run.setup.rules.as_bytes()).ok()?;
    (rules != own).then(|| (text.clone(), rules))
}

/// What these rules say of it, or why nothing.
fn judged_by(run: &Run, rules: SiteRules) -> Result<Debrief, String> {
    let mut judging = JudgingBy::new(run, rules).map_err(|bad| bad.to_string())?;
    loop {
        match judging.go_on(TICK_RATE) {
            JudgedBy::Working(_) => {}
            JudgedBy::Done(debrief) => return Ok(debrief),
            JudgedBy::Cannot(_) => {
                return Err(
                    "it was driven by other rules than the class's, by which people or trucks would have moved \
                     otherwise: it is kept, and counts for nothing"
                        .to_owned(),
                );
            }
        }
    }
}

/// What lists show of an attempt.
pub fn of_attempt(attempt: &Attempt) -> About {
    let verdict = &attempt.verdict;
    let debrief = &verdict.debrief;
    let faults = |least: Severity| {
        let is = |s: Severity| s != Severity::Good && (least != Severity::Critical || s == least);
        debrief.findings.iter().filter(|finding| is(finding.severity)).count() as u32
    };
    let ending = serde_json::to_value(debrief.ending).ok();
    About {
        course: attempt.course.clone(),
        truck: attempt.truck.clone(),
        started: attempt.started.clone(),
        simulation: attempt.simulation,
        state: Some(if verdict.reproduces { State::Judged } else { State::Differs }),
        reason: (!verdict.reproduces).then(|| differs(attempt)),
        total: debrief.total,
        ending: ending.and_then(|ending| ending.as_str().map(str::to_owned)),
        findings: faults(Severity::Minor),
        critical: faults(Severity::Critical),
        sitting: attempt.place.as_ref().map(|place| place.sitting.clone()),
        part: attempt.place.as_ref().and_then(|place| u32::try_from(place.part).ok()),
        record: write_record(attempt).ok(),
        brief: serde_json::to_string(&Brief::of(attempt)).ok(),
        ticks: debrief.ticks,
    }
}

fn differs(attempt: &Attempt) -> String {
    match attempt.verdict.first_difference_s {
        Some(second) => format!(
            "driven again, it first differs in second {second}: the file was changed, or another version of \
             the simulation made it"
        ),
        None => "driven again, its debrief or its end is not what the file says".to_owned(),
    }
}

/// The part of a handed-out pre-test that a run is, by its seed, course and truck: the seeds of a seat are its own. Of
/// somebody else's pre-test it is none.
fn place(handed: &[Handed], run: &Run) -> Option<Place> {
    let of = |handed: &Handed| {
        let parts = draw(&handed.word, handed.seat, &handed.truck);
        let is = parts.iter().position(|part| {
            part.seed == run.setup.seed
                && part.course_text().is_ok_and(|text| text == run.setup.course)
                && part.truck_text().is_ok_and(|text| text == run.setup.truck)
        });
        is.map(|part| Place { sitting: handed.id.clone(), part })
    };
    handed.iter().find_map(of)
}
