//! A run is exact: it comes out the same when it is driven again, today and after the next change,
//! and a run in which anything was changed is told apart.
//!
//! The fixed digests in tests/reference/digests.json fail loudly when the simulation changes. When
//! that was meant: raise `SIMULATION` in core's run/file.rs if runs recorded before no longer
//! reproduce, and write the file anew with `CONEYARD_WRITE_DIGESTS=1 cargo test --release -p
//! coneyard-tests --test replay_exact`.

use std::collections::BTreeMap;

use coneyard_core::run::Run;
use coneyard_core::time::TICK_RATE;
use coneyard_sim::{judge, random_run};
use coneyard_tests::drives::{offered, setup};
use coneyard_tests::yards::{repo_file, repo_text};

/// Random runs in the exactness test, over all courses.
const RUNS: u32 = 200;

/// Course, truck and seed of the n-th random run.
fn nth(n: u32) -> (&'static str, String, u32) {
    let drives = offered();
    let (course, truck) = drives[n as usize % drives.len()].clone();
    (course, truck, 1000 + n)
}

#[test]
fn two_hundred_random_runs_come_out_the_same_from_their_files() {
    for n in 0..RUNS {
        let (course, truck, seed) = nth(n);
        let run = random_run(&setup(course, &truck, seed), 20 * TICK_RATE).expect("valid");
        let text = run.to_text();
        let read = Run::parse("run", text.as_bytes()).expect("what was written can be read");
        assert_eq!(read, run, "{course} {truck} {seed}");
        let verdict = judge(&read).expect("valid");
        assert!(verdict.reproduces, "{course} {truck} {seed}: {:?}", verdict.first_difference_s);
    }
}

#[test]
fn the_digests_are_those_kept_in_the_repository() {
    let mut now = BTreeMap::new();
    for n in 0..18 {
        let (course, truck, seed) = nth(n);
        let run = random_run(&setup(course, &truck, seed), 60 * TICK_RATE).expect("valid");
        let last = run.digests.last().expect("there is always a last digest");
        now.insert(format!("{course} {truck} {seed}"), (run.ticks(), last.to_hex()));
    }
    let path = repo_file("tests/reference/digests.json");
    if std::env::var_os("CONEYARD_WRITE_DIGESTS").is_some() {
        let mut text = serde_json::to_string_pretty(&now).expect("plain data");
        text.push('\n');
        std::fs::write(&path, text).expect("the repository can be written");
    }
    let kept: BTreeMap<String, (u32, String)> =
        serde_json::from_str(&repo_text("tests/reference/digests.json")).expect("valid JSON");
    assert_eq!(now, kept, "the simulation, a course, a truck or the site rules have changed");
}

/// Changes one byte of a run's controls, seed or digests at a time, at 1,000 places spread over
/// all of them; every one must be refused, or told as not reproducing.
#[test]
fn a_changed_run_is_told_apart_at_a_thousand_places() {
    const PLACES: usize = 1000;
    let run = random_run(&setup("figure-eight", "single", 7), 40 * TICK_RATE).expect("valid");
    let text = run.to_text();
    assert!(judge(&run).expect("valid").reproduces);

    let mut bytes_that_count = Vec::new();
    for field in ["\"controls\":\"", "\"seed\":", "\"digests\":["] {
        let start = text.find(field).expect("the field is there") + field.len();
        let end = match field {
            "\"controls\":\"" => start + text[start..].find('"').expect("it closes"),
            "\"seed\":" => start + text[start..].find(',').expect("it ends"),
            _ => start + text[start..].find(']').expect("it closes"),
        };
        bytes_that_count.extend(start..end);
    }
    assert!(bytes_that_count.len() > 300, "{}", bytes_that_count.len());

    let (mut refused, mut not_reproducing) = (0, 0);
    for i in 0..PLACES {
        let at = bytes_that_count[i * bytes_that_count.len() / PLACES];
        let mut changed = text.clone().into_bytes();
        // Different for each visit of the same byte, and printable, so that it is a likely edit.
        let new = b' ' + (changed[at] - b' ' + 1 + (i % 90) as u8) % 95;
        assert_ne!(new, changed[at]);
        changed[at] = new;
        match Run::parse("changed", &changed) {
            Err(e) => {
                assert!(!e.to_string().is_empty() && !e.to_string().contains('\n'));
                refused += 1;
            }
            Ok(run) => {
                let verdict = judge(&run);
                assert!(
                    verdict.is_err() || verdict.is_ok_and(|v| !v.reproduces),
                    "byte {at}: {:?} became {:?} and nobody noticed",
                    text.as_bytes()[at] as char,
                    new as char
                );
                not_reproducing += 1;
            }
        }
    }
    println!("{PLACES} changes: {refused} refused, {not_reproducing} do not reproduce");
    assert!(refused > 0 && not_reproducing > 0, "both ways of noticing were tried");
}

/// A wrong claim is no better than a wrong drive.
#[test]
fn a_claimed_debrief_that_flatters_is_told_apart() {
    let mut run = random_run(&setup("figure-eight", "single", 9), 30 * TICK_RATE).expect("valid");
    run.claimed.findings.clear();
    run.claimed.total = Some(100.0);
    let verdict = judge(&run).expect("valid");
    assert!(!verdict.debrief_agrees && !verdict.reproduces);
    assert_eq!(verdict.first_difference_s, None, "the drive itself is as recorded");
}

/// The first second that differs is named.
#[test]
fn the_first_second_that_differs_is_named() {
    let mut run = random_run(&setup("figure-eight", "single", 11), 30 * TICK_RATE).expect("valid");
    let mut tick = 0;
    let span = run
        .controls
        .iter_mut()
        .find(|s| {
            tick += s.ticks;
            tick > 12 * TICK_RATE + 1
        })
        .expect("longer than twelve seconds");
    let first = (tick - span.ticks) / TICK_RATE + 1;
    span.controls.throttle = if span.controls.throttle > 0 { -37 } else { 41 };
    let verdict = judge(&run).expect("valid");
    assert_eq!(verdict.first_difference_s, Some(first));
}
