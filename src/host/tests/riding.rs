//! Ride and judge: the same command writes the same file, and the judge tells a good run from a
//! changed one by its exit code.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

mod common;

use std::fs;
use std::path::{Path, PathBuf};

use common::{assert_refused, run, said};
use serde_json::Value;
use tempfile::TempDir;

fn ride(folder: &TempDir, name: &str) -> PathBuf {
    let path = folder.path().join(name);
    let out = path.to_str().unwrap();
    let output = run(&["ride", "straight", "--rider", "model", "--seed", "5", "--out", out]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    path
}

fn exit_of_judge(path: &Path) -> Option<i32> {
    run(&["judge", path.to_str().unwrap()]).status.code()
}

/// The run with one value replaced.
fn changed(folder: &TempDir, run: &Path, place: &str, value: Value) -> PathBuf {
    let mut file: Value = serde_json::from_slice(&fs::read(run).unwrap()).unwrap();
    *file.pointer_mut(place).unwrap() = value;
    let path = folder.path().join("changed.run.json");
    fs::write(&path, file.to_string()).unwrap();
    path
}

#[test]
fn the_same_ride_is_the_same_file() {
    let folder = TempDir::new().unwrap();
    let (one, other) = (ride(&folder, "one.run.json"), ride(&folder, "other.run.json"));
    assert_eq!(fs::read(one).unwrap(), fs::read(other).unwrap());
}

#[test]
fn a_good_run_is_judged_in_words_and_as_json() {
    let folder = TempDir::new().unwrap();
    let path = ride(&folder, "good.run.json");
    let output = run(&["judge", path.to_str().unwrap(), "--json"]);
    assert_eq!(output.status.code(), Some(0));
    let verdict: Value = serde_json::from_slice(&output.stdout).unwrap();
    assert_eq!(verdict["reproduces"], true);
    assert_eq!(verdict["debrief"]["ending"], "done");
    for lang in ["en", "es"] {
        let output = run(&["judge", path.to_str().unwrap(), "--lang", lang]);
        assert_eq!(output.status.code(), Some(0));
        let text = String::from_utf8(output.stdout).unwrap();
        assert!(text.lines().count() > 10, "{text}");
        // A key without a text comes back in brackets, but for the truck's name in the first line.
        assert!(!text.lines().skip(1).any(|line| line.contains('[')), "{text}");
    }
}

#[test]
fn a_run_that_was_changed_does_not_reproduce() {
    let folder = TempDir::new().unwrap();
    let good = ride(&folder, "good.run.json");
    for (place, value) in [
        ("/seed", Value::from(6)),
        ("/who", Value::from("Birch")),
        ("/pace", Value::from(0.5)),
        ("/debrief/total", Value::from(12.5)),
        ("/digests/3", Value::from("0123456789abcdef")),
    ] {
        let path = changed(&folder, &good, place, value);
        let output = run(&["judge", path.to_str().unwrap()]);
        assert_eq!(output.status.code(), Some(3), "{place}: {}", said(&output));
        assert_eq!(said(&output).lines().count(), 1, "{place}: {}", said(&output));
    }
}

#[test]
fn a_run_that_cannot_be_read_is_bad_input() {
    let folder = TempDir::new().unwrap();
    let good = ride(&folder, "good.run.json");
    let text = fs::read(&good).unwrap();
    let cut = folder.path().join("cut.run.json");
    fs::write(&cut, &text[..text.len() / 2]).unwrap();
    assert_eq!(exit_of_judge(&cut), Some(2));
    for (place, value, named) in [
        ("/format", Value::from(3), "format"),
        ("/simulation", Value::from(4_000_000_000_u32), "simulation"),
        ("/controls", Value::from("%%%"), "controls"),
        ("/course/text", Value::from("AAAA"), "course"),
        ("/ticks", Value::from(1), "ticks"),
        ("/time_ratio", Value::from(-1), "time_ratio"),
        ("/pace", Value::from(0), "pace"),
        ("/pace", Value::from(1.001), "pace"),
        ("/digests", Value::Array(Vec::new()), "digests"),
    ] {
        let path = changed(&folder, &good, place, value);
        assert_refused(&run(&["judge", path.to_str().unwrap()]), &["changed.run.json", named]);
    }
}

#[test]
fn a_ride_that_cannot_be_is_refused_in_a_sentence() {
    let folder = TempDir::new().unwrap();
    let out = folder.path().join("none.run.json");
    let out = out.to_str().unwrap();
    let rest = ["--rider", "model", "--seed", "1", "--out", out];
    let ride = |first: &[&str]| run(&[&["ride"], first, &rest].concat());
    assert_refused(&ride(&["strait"]), &["strait", "figure-eight"]);
    assert_refused(&ride(&["straight", "--truck", "triple"]), &["triple", "single, double"]);
    assert_refused(&ride(&["straight", "--truck", "double"]), &["straight", "double"]);
    assert_refused(&ride(&["straight", "--who", "two\nlines"]), &["--who"]);
    assert!(!Path::new(out).exists());
}
