//! The golden runs, one folder each in tests/golden: `run.json`, `found.json` (what must be found),
//! `why.txt` (why it is there). They are driven again and judged.
//!
//! They fail when the simulation, a course, a truck or a rule has changed what comes of a drive. When
//! that was meant: raise `SIMULATION` in core's run/file.rs, so that runs recorded before are told
//! from new ones, and write them anew with
//!
//!     CONEYARD_RENEW_GOLDEN=1 cargo test --release --test golden -- --nocapture
//!
//! which says of each what has changed; `=new` writes only those that are not there yet. A run of one's own joins by a folder with a `run.json` in it.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use coneyard_core::run::Run;
use coneyard_core::run::file::SIMULATION;
use coneyard_sim::{Session, judge};
use coneyard_tests::golden::{Case, Found, cases, folder, folders, name};
use serde_json::Value;

fn read(path: &Path) -> String {
    fs::read_to_string(path).unwrap_or_else(|e| panic!("{}: {e}", path.display()))
}

fn kept(folder: &Path) -> Option<Found> {
    let text = fs::read_to_string(folder.join("found.json")).ok()?;
    Some(serde_json::from_str(&text).unwrap_or_else(|e| panic!("{}: {e}", folder.display())))
}

fn simulation_of(run: &str) -> u64 {
    let value: Value = serde_json::from_str(run).expect("a run is JSON");
    value["simulation"].as_u64().expect("a run names its simulation")
}

/// Writes every golden run anew, or only those that are missing, and says what has changed.
fn renew(only_missing: bool) {
    let recipes: BTreeMap<String, Case> =
        cases().into_iter().map(|case| (case.name.clone(), case)).collect();
    let names: BTreeSet<String> =
        folders().iter().map(|f| name(f)).chain(recipes.keys().cloned()).collect();
    for name in names {
        let folder = folder().join(&name);
        if only_missing && kept(&folder).is_some() {
            continue;
        }
        fs::create_dir_all(&folder).expect("the folder can be made");
        let run = match recipes.get(&name) {
            Some(case) => {
                fs::write(folder.join("why.txt"), format!("{}\n", case.why)).expect("written");
                case.run()
            }
            None => driven_anew(&read(&folder.join("run.json"))),
        };
        let now = Found::claimed(&run);
        match kept(&folder) {
            None => println!("{name}: new"),
            Some(kept) => {
                let before = simulation_of(&read(&folder.join("run.json")));
                for change in now.changes_since(&kept) {
                    assert!(
                        before < u64::from(SIMULATION),
                        "{name}: {change}; raise SIMULATION in run/file.rs first"
                    );
                    println!("{name}: {change}");
                }
            }
        }
        fs::write(folder.join("run.json"), run.to_text()).expect("written");
        let found = serde_json::to_string_pretty(&now).expect("plain data");
        fs::write(folder.join("found.json"), found + "\n").expect("written");
    }
}

/// The same hands in the simulation as it is now.
fn driven_anew(text: &str) -> Run {
    let mut value: Value = serde_json::from_str(text).expect("a run is JSON");
    value["simulation"] = SIMULATION.into();
    let old = Run::parse("a golden run", value.to_string().as_bytes()).expect("a run");
    let mut session = Session::again(&old).expect("its set-up can be driven");
    for controls in old.each_tick() {
        session.step(controls);
    }
    session.finish(old.time_ratio)
}

#[test]
fn every_golden_run_comes_out_as_it_is_kept() {
    if let Some(which) = std::env::var_os("CONEYARD_RENEW_GOLDEN") {
        renew(which == "new");
    }
    let mut wrong = Vec::new();
    let folders = folders();
    for folder in &folders {
        let (name, text) = (name(folder), read(&folder.join("run.json")));
        assert!(read(&folder.join("why.txt")).trim().len() > 20, "{name}: say why it is there");
        let kept = kept(folder).unwrap_or_else(|| panic!("{name}: found.json is missing"));
        let run = match Run::parse(&name, text.as_bytes()) {
            Ok(run) => run,
            Err(e) => {
                wrong.push(e.to_string());
                continue;
            }
        };
        let verdict = judge(&run).expect("its set-up can be driven");
        let now = Found::of(&verdict.debrief, verdict.final_digest.clone());
        wrong.extend(now.changes_since(&kept).into_iter().map(|c| format!("{name}: {c}")));
        if !verdict.reproduces && now == kept {
            wrong.push(format!("{name}: differs from second {:?}", verdict.first_difference_s));
        }
    }
    assert!(folders.len() >= 40, "{} golden runs", folders.len());
    let there: BTreeSet<String> = folders.iter().map(|f| name(f)).collect();
    let unwritten: Vec<String> =
        cases().into_iter().map(|c| c.name).filter(|n| !there.contains(n)).collect();
    assert!(unwritten.is_empty(), "not written yet: {unwritten:?}");
    assert!(
        wrong.is_empty(),
        "what comes of a drive has changed; if that was meant, raise SIMULATION in run/file.rs and \
         write the golden runs anew (see the head of this file):\n{}",
        wrong.join("\n")
    );
}
