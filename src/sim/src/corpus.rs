//! Judging the labelled corpus: every ride is driven, written as a run, driven again from the run
//! and judged, and what was found is held against the label.

use std::collections::{BTreeMap, BTreeSet};

use coneyard_core::course::shipped;
use coneyard_core::debrief::{Debrief, Ending};
use coneyard_core::finding::Severity;
use coneyard_core::outside::BadInput;
use coneyard_core::rider::corpus::{Label, Labelled};
use coneyard_core::rules::{DUTIES, SHIPPED, SiteRules};
use coneyard_core::run::DriveSetup;
use coneyard_core::run::Run;
use coneyard_core::truck::spec;

use crate::{judge, ride};

/// What came of one ride.
#[derive(Clone, Debug)]
pub struct Judged {
    /// The run, to be kept or looked at.
    pub run: Run,
    /// Codes in the label that were found.
    pub found: BTreeSet<String>,
    /// Codes in the label that were not.
    pub missed: BTreeSet<String>,
    /// Codes that were found and must not be.
    pub false_alarms: BTreeSet<String>,
    /// What else is not as the label says, a few words each.
    pub otherwise: Vec<String>,
}

impl Judged {
    /// What the label says came of it.
    pub fn is_right(&self) -> bool {
        self.missed.is_empty() && self.false_alarms.is_empty() && self.otherwise.is_empty()
    }
}

/// Drives and judges one ride.
///
/// # Errors
/// One sentence when course, truck or rider are not known, or the run does not reproduce.
pub fn judge_ride(label: &Labelled) -> Result<Judged, BadInput> {
    let unknown = |what: &str, name: &str| BadInput::new("the corpus", what, format!("no {name}"));
    let course = shipped::text_of_any(label.course);
    let truck = spec::shipped::text(&label.truck);
    let course = course.ok_or_else(|| unknown("course", label.course))?;
    let setup = DriveSetup {
        course: course.to_owned(),
        truck: truck.ok_or_else(|| unknown("truck", &label.truck))?.to_owned(),
        rules: SHIPPED.to_owned(),
        checks: shipped::checks_of(course),
        seed: label.seed,
        who: label.rider.clone(),
        started: String::new(),
    };
    let run = ride(&setup, &label.rider)?;
    let judged = judge(&run)?;
    if !judged.reproduces {
        let ride = format!("{} with seed {} does not reproduce", label.rider, label.seed);
        return Err(BadInput::new("the corpus", label.course, ride));
    }
    let faults = judged.debrief.findings.iter().filter(|f| f.severity != Severity::Good);
    let all: BTreeSet<String> = faults.map(|f| f.code.clone()).collect();
    let wanted: BTreeSet<String> = label.label.codes().iter().map(|c| (*c).to_owned()).collect();
    let others_may_be_found = matches!(label.label, Label::AtLeast(_));
    let others = all.difference(&wanted).filter(|_| !others_may_be_found);
    Ok(Judged {
        found: all.intersection(&wanted).cloned().collect(),
        missed: wanted.difference(&all).cloned().collect(),
        false_alarms: others.cloned().collect(),
        otherwise: otherwise(&label.label, &judged.debrief, &all),
        run,
    })
}

/// What is not as the label says, besides the codes that must be found.
fn otherwise(label: &Label, debrief: &Debrief, all: &BTreeSet<String>) -> Vec<String> {
    let mut list = Vec::new();
    match label {
        Label::Exactly(_) => {}
        Label::CleanToTheEnd if debrief.ending == Ending::Done => {}
        Label::CleanToTheEnd => list.push(format!("ended {:?}", debrief.ending)),
        Label::AtLeast(least) => {
            if !least.one_of.is_empty() && !least.one_of.iter().any(|c| all.contains(*c)) {
                list.push(format!("none of {} found", least.one_of.join(", ")));
            }
            let shown = debrief.skills.iter().filter(|s| s.opportunities > 0);
            if least.shows_nothing {
                list.extend(shown.map(|s| format!("{:?} is shown", s.skill)));
            }
            let mark = SiteRules::shipped().pass.skill.value;
            let skills = debrief.skills.iter().filter(|s| least.below.contains(&s.skill));
            for skill in skills.filter(|s| s.points.is_none_or(|p| p >= mark)) {
                let points = skill.points.map_or("none".to_owned(), |p| p.to_string());
                list.push(format!("points in {:?}: {points}, not below {mark}", skill.skill));
            }
        }
    }
    list
}

/// Counts of one code over a corpus.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Count {
    /// Rides in whose label it is.
    pub intended: u32,
    /// Of these, rides in which it was found.
    pub found: u32,
    /// Of these, rides in which it was not.
    pub missed: u32,
    /// Rides in which it was found and must not be.
    pub false_alarms: u32,
}

/// Counts by code, in the order of the table of duties: every fault that there is.
pub fn count(judged: &[Judged]) -> Vec<(&'static str, Count)> {
    let mut counts: BTreeMap<&str, Count> = BTreeMap::new();
    for ride in judged {
        for code in &ride.found {
            counts.entry(code).or_default().found += 1;
        }
        for code in &ride.missed {
            counts.entry(code).or_default().missed += 1;
        }
        for code in &ride.false_alarms {
            counts.entry(code).or_default().false_alarms += 1;
        }
    }
    let faults = DUTIES.iter().filter(|d| !d.good);
    faults
        .map(|d| {
            let mut c = counts.get(d.code).copied().unwrap_or_default();
            c.intended = c.found + c.missed;
            (d.code, c)
        })
        .collect()
}
