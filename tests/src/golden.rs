//! Golden runs: drives kept as files with what must be found in them. `tests/golden` holds a folder
//! for each; this tells how those came about that a script drove, so that they can be driven anew
//! when the simulation was meant to change.

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

use coneyard_core::controls::{ArmAsk, Controls, Look, Side, TillerAsk};
use coneyard_core::debrief::{Debrief, Ending};
use coneyard_core::finding::{Severity, Skill};
use coneyard_core::rider::corpus::by_faults;
use coneyard_core::rider::{MODEL, by_name};
use coneyard_core::rules::SiteRules;
use coneyard_core::run::Run;
use coneyard_sim::{Session, random_run, ride};
use serde::{Deserialize, Serialize};

use crate::drives::{offered, setup};
use crate::mishaps;
use crate::yards::{Floor, repo_file};

/// A drive to keep.
pub struct Case {
    /// Name of its folder.
    pub name: String,
    /// Why it is there, in a sentence.
    pub why: String,
    drive: Box<dyn Fn() -> Run>,
}

impl Case {
    fn new(
        name: impl Into<String>,
        why: impl Into<String>,
        drive: impl Fn() -> Run + 'static,
    ) -> Self {
        Self { name: name.into(), why: why.into(), drive: Box::new(drive) }
    }

    /// Drives it.
    pub fn run(&self) -> Run {
        (self.drive)()
    }
}

/// What must be found in a golden run.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Found {
    /// How it ends.
    pub ending: Ending,
    /// Points in all.
    pub total: Option<f64>,
    /// Code, severity, first and last tick of each finding, in their order.
    pub findings: Vec<(String, Severity, u32, u32)>,
    /// The digest after the last tick.
    pub digest: String,
}

impl Found {
    /// What a run says of itself.
    pub fn claimed(run: &Run) -> Self {
        let digest = run.digests.last().map(|d| d.to_hex()).unwrap_or_default();
        Self::of(&run.claimed, digest)
    }

    /// A debrief, and the digest at the end.
    pub fn of(debrief: &Debrief, digest: String) -> Self {
        let finding =
            |f: &coneyard_core::finding::Finding| (f.code.clone(), f.severity, f.from, f.to);
        Self {
            ending: debrief.ending,
            total: debrief.total,
            findings: debrief.findings.iter().map(finding).collect(),
            digest,
        }
    }

    /// What has changed since `kept`, for people; empty when nothing has.
    pub fn changes_since(&self, kept: &Self) -> Vec<String> {
        let mut said = Vec::new();
        if self.ending != kept.ending {
            said.push(format!("ended {:?}, now {:?}", kept.ending, self.ending));
        }
        if self.total != kept.total {
            said.push(format!("total {:?}, now {:?}", kept.total, self.total));
        }
        let codes = |f: &Self| {
            let mut counts = BTreeMap::<String, u32>::new();
            f.findings.iter().for_each(|(code, ..)| *counts.entry(code.clone()).or_default() += 1);
            counts
        };
        let (before, now) = (codes(kept), codes(self));
        let all: BTreeSet<&String> = before.keys().chain(now.keys()).collect();
        for code in all {
            let count = |c: &BTreeMap<String, u32>| c.get(code).copied().unwrap_or(0);
            if count(&before) != count(&now) {
                said.push(format!("{code} {} times, now {}", count(&before), count(&now)));
            }
        }
        if said.is_empty() && self.findings != kept.findings {
            said.push("the same findings at other ticks or of other severity".to_owned());
        }
        if said.is_empty() && self.digest != kept.digest {
            said.push("the same findings, but the drive itself is another one".to_owned());
        }
        said
    }
}

/// The folder of golden runs.
pub fn folder() -> PathBuf {
    repo_file("tests/golden")
}

/// The folder of each golden run, in the order of their names.
///
/// # Panics
/// When `tests/golden` cannot be read: a test cannot go on without it.
pub fn folders() -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder()).expect("tests/golden is there");
    let mut all: Vec<PathBuf> =
        entries.map(|e| e.expect("it can be read").path()).filter(|p| p.is_dir()).collect();
    all.sort();
    all
}

/// The name of a golden run.
pub fn name(folder: &Path) -> String {
    folder.file_name().unwrap_or_default().to_string_lossy().into_owned()
}

/// Every drive that a script can make again.
pub fn cases() -> Vec<Case> {
    let mut all = model_rides();
    all.extend(faulty_rides());
    all.extend(mishaps_and_corners());
    all
}

/// Every course and part of the pre-test by the model rider, those for two trucks with both.
fn model_rides() -> Vec<Case> {
    let parts = ["stops", "laps", "eight", "circuit", "leaving"];
    let parts = parts.map(|part| (format!("pretest-{part}"), "single".to_owned()));
    let both = ["straight", "figure-eight", "long-truck-turn"];
    let drives = offered().into_iter().map(|(course, truck)| (course.to_owned(), truck));
    let drives: BTreeSet<(String, String)> = drives.chain(parts).collect();
    drives
        .into_iter()
        .filter(|(course, truck)| truck == "single" || both.contains(&course.as_str()))
        .map(|(course, truck)| {
            let why = format!("The model rider, {truck} truck, on {course}: nothing is at fault.");
            Case::new(format!("model-{course}-{truck}"), why, move || {
                ride(&setup(&course, &truck, 1), MODEL).expect("a shipped course can be driven")
            })
        })
        .collect()
}

/// Faults that a golden run is kept of in any case: a beam, a head-on meeting, people, a load.
const ALWAYS: [&str; 4] = ["headroom", "meeting-not-stopped", "person-near-miss", "load-spilled"];

/// For each skill the first two riders who commit one of its faults on purpose, and some more.
fn faulty_rides() -> Vec<Case> {
    let rules = SiteRules::shipped();
    let mut by_skill: BTreeMap<Skill, BTreeSet<String>> = BTreeMap::new();
    let mut cases = Vec::new();
    for label in by_faults(1) {
        let codes = label.label.codes();
        let Some(code) = codes.first().copied() else { continue };
        let Some(rule) = rules.rules.get(code) else { continue };
        let riders = by_skill.entry(rule.skill).or_default();
        let always = codes.iter().any(|c| ALWAYS.contains(c));
        if (riders.len() >= 2 && !always) || !riders.insert(label.rider.clone()) {
            continue;
        }
        let why = format!(
            "The rider {} on {}: {} is found.",
            label.rider,
            label.course,
            codes.join(", ")
        );
        cases.push(Case::new(format!("fault-{}", label.rider), why, move || {
            ride(&setup(label.course, &label.truck, label.seed), &label.rider)
                .expect("a ride of the corpus")
        }));
    }
    cases
}

fn mishaps_and_corners() -> Vec<Case> {
    vec![
        Case::new(
            "spill",
            "An unwrapped stack is carried into a corner at full speed: cases fall and lie in the way.",
            || mishaps::spilled_load().run,
        ),
        Case::new(
            "step-out-late",
            "Somebody steps out behind a rack, and the brake comes late: a near miss.",
            || mishaps::near_miss().run,
        ),
        Case::new(
            "step-out-in-time",
            "Somebody steps out behind a rack, and the model rider stops.",
            || mishaps::blind_corner().run,
        ),
        Case::new(
            "ramp-in-neutral",
            "Up a grade, let roll back in neutral, caught with the brake, held there.",
            ramp,
        ),
        Case::new(
            "refused-dock",
            "A check at the dock is false, and the rider reports it instead of driving on.",
            refused_dock,
        ),
        Case::new(
            "cut-off-and-gone-on",
            "Hands off in the middle of a lap, as after a tab was closed, then driven on to the end.",
            cut_off,
        ),
        Case::new("wall", "Into a wall at speed, along it, and away from it again.", wall),
        Case::new("pallet-pushed", "Forks too high push a pallet over the floor.", pushed),
        Case::new("wander-yard", "Random hands in a warehouse: crashes, people, hops off.", || {
            random_run(&setup("full-circuit", "single", 77), 64 * 90).expect("a shipped course")
        }),
        Case::new(
            "wander-double",
            "Random hands with the double truck among other trucks.",
            || {
                random_run(&setup("long-truck-turn", "double", 78), 64 * 90)
                    .expect("a shipped course")
            },
        ),
    ]
}

/// Drives with these hands, each for so many ticks.
fn by_hand(session: Session, hands: &[(u32, Controls)]) -> Run {
    let mut session = session;
    for (ticks, controls) in hands {
        for _ in 0..*ticks {
            session.step(*controls);
        }
    }
    session.finish(1.0)
}

fn ahead(throttle: i8) -> Controls {
    Controls { throttle, ..Controls::default() }
}

fn ramp() -> Run {
    let floor = Floor::new("wet").rising(0.08).laden(1, 40.0);
    let session = Session::new(&floor.setup()).expect("the floor is valid");
    let hands_off = Controls { arm: ArmAsk::LetGo, ..Controls::default() };
    by_hand(
        session,
        &[
            (320, ahead(100)),
            (640, ahead(0)),
            (128, hands_off),
            (200, ahead(-60)),
            (256, hands_off),
        ],
    )
}

fn wall() -> Run {
    let wall = serde_json::json!([
        { "kind": "wall", "middle_m": [12, 0.9], "heading_deg": 8, "length_m": 10, "depth_m": 0.4 }
    ]);
    let floor = Floor::new("dry").with("structures", wall);
    let session = Session::new(&floor.setup()).expect("the floor is valid");
    let turn = |throttle, half_degrees| Controls {
        tiller: TillerAsk::To(half_degrees),
        stance: Side::Right,
        ..ahead(throttle)
    };
    by_hand(
        session,
        &[(400, ahead(90)), (128, turn(60, 30)), (128, turn(-70, -20)), (200, turn(50, -60))],
    )
}

fn pushed() -> Run {
    let load = Floor::new("dry").laden(1, 12.0);
    let standing = serde_json::json!([
        { "id": "goods", "load": "cases", "stands": { "floor": { "middle_m": [-3.0, 0.1], "heading_deg": 0 } } }
    ]);
    let session =
        Session::new(&load.with("pallets", standing).setup()).expect("the floor is valid");
    let up = Controls { forks_up: true, ..Controls::default() };
    let back = Controls { throttle: -45, look: Look::Behind, ..Controls::default() };
    by_hand(session, &[(64, up), (400, back), (200, ahead(0))])
}

/// The first seed with which something is false at the dock.
fn refused_dock() -> Run {
    (1..60)
        .map(|seed| ride(&setup("dock", "single", seed), MODEL).expect("a shipped course"))
        .find(|run| !run.acts.is_empty())
        .expect("in three of ten drives a check is false")
}

fn cut_off() -> Run {
    let mut session = Session::new(&setup("figure-eight", "single", 5)).expect("a shipped course");
    let scene = session.setting().clone();
    let mut rider =
        by_name(MODEL, &scene.course, &scene.truck, &scene.rules, 5).expect("the model rider");
    while session.ending().is_none() {
        let input = rider.ride(session.moment());
        // Whoever goes on has let go of everything meanwhile.
        let gone = (64 * 20..64 * 22).contains(&session.moment().tick);
        let let_go = Controls { stance: input.controls.stance, ..Controls::default() };
        session.step(if gone { let_go.into() } else { input });
    }
    session.finish(1.0)
}
