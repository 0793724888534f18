//! Pre-tests on the command line: the draw, a sitting that is taken and judged, and what is said
//! of files that were changed.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

mod common;

use std::fs;
use std::path::{Path, PathBuf};

use common::{assert_refused, run, said};
use serde_json::{Value, json};
use tempfile::TempDir;

fn take(folder: &TempDir, rider: &str) -> PathBuf {
    take_on(folder, rider, "single")
}

fn take_on(folder: &TempDir, rider: &str, truck: &str) -> PathBuf {
    let path = folder.path().join("alder.sitting.json");
    let out = path.to_str().unwrap();
    let seat = ["--class", "Grey heron", "--seat", "4", "--truck", truck, "--who", "Alder"];
    let output = run(&[&["pretest", "drive", "--rider", rider, "--out", out][..], &seat].concat());
    assert_eq!(output.status.code(), Some(0), "{}", said(&output));
    path
}

fn judged(path: &Path, more: &[&str]) -> (Option<i32>, String, String) {
    let output = run(&[&["judge", path.to_str().unwrap()], more].concat());
    let out = String::from_utf8_lossy(&output.stdout).into_owned();
    (output.status.code(), out, said(&output))
}

#[test]
fn the_draw_is_printed_and_depends_on_the_seat_and_not_on_how_the_word_is_typed() {
    let draw = |class, seat| {
        let output = run(&["pretest", "draw", "--class", class, "--seat", seat]);
        assert_eq!(output.status.code(), Some(0), "{}", said(&output));
        String::from_utf8(output.stdout).unwrap()
    };
    assert_eq!(draw("Grey heron", "4").lines().count(), 11);
    assert_eq!(draw("Grey heron", "4"), draw("grey-heron", "4"));
    assert_ne!(draw("Grey heron", "4"), draw("grey-heron", "5"));
    let on = |truck| {
        let output = run(&["pretest", "draw", "--class", "7", "--seat", "4", "--truck", truck]);
        String::from_utf8(output.stdout).unwrap()
    };
    assert!(on("double").contains("pretest-laps-double") && !on("double").contains("single"));
    assert!(!on("single").contains("double"));
    let none = run(&["pretest", "draw", "--class", "7", "--seat", "4", "--truck", "crane"]);
    assert!(none.status.code() != Some(0) && said(&none).contains("single, double"));
    let nothing = run(&["pretest", "draw", "--class", " ", "--seat", "1"]);
    assert_refused(&nothing, &["class_word", "1 to 40 letters"]);
}

#[test]
fn a_sitting_is_taken_judged_and_told_from_one_that_was_changed() {
    let folder = TempDir::new().unwrap();
    let path = take(&folder, "model");
    for (lang, word) in [("en", "Pre-test passed"), ("es", "Prueba previa superada")] {
        let (code, out, _) = judged(&path, &["--lang", lang]);
        assert_eq!(code, Some(0));
        assert!(out.contains(word) && !out.contains('['), "{out}");
    }
    let (code, out, _) = judged(&path, &["--json"]);
    let verdict: Value = serde_json::from_str(&out).unwrap();
    assert_eq!((code, &verdict["joined"]["result"]), (Some(0), &json!("passed")));
    assert_eq!(verdict["parts"].as_array().unwrap().len(), 11);
    assert!(
        verdict["parts"].as_array().unwrap().iter().all(|p| p["verdict"]["reproduces"] == true)
    );

    let text = fs::read_to_string(&path).unwrap();
    let change = |change: &dyn Fn(&mut Value)| {
        let mut file: Value = serde_json::from_str(&text).unwrap();
        change(&mut file);
        fs::write(&path, file.to_string()).unwrap();
    };
    // A run inside claims more than was driven: told by driving it again.
    change(&|f| {
        let mut run: Value = serde_json::from_str(f["parts"][2]["run"].as_str().unwrap()).unwrap();
        run["debrief"]["total"] = json!(99);
        f["parts"][2]["run"] = json!(run.to_string());
    });
    let (code, _, sentence) = judged(&path, &[]);
    assert_eq!(code, Some(3));
    assert!(sentence.contains("part 3") && sentence.lines().count() == 1, "{sentence}");
    // Cut off: judged as far as it goes.
    change(&|f| {
        for part in &mut f["parts"].as_array_mut().unwrap()[4..] {
            part["run"] = Value::Null;
        }
    });
    let (code, out, _) = judged(&path, &[]);
    assert_eq!(code, Some(0));
    assert!(out.contains("Pre-test not complete") && out.contains("Part 10 "), "{out}");
    // Another seat's parts are none of this one's.
    change(&|f| f["seat"] = json!(5));
    let refused = run(&["judge", path.to_str().unwrap()]);
    assert_refused(&refused, &["alder.sitting.json", "parts[0].part"]);
}

#[test]
fn a_rider_with_a_fault_is_told_which_skill_fell_short() {
    let folder = TempDir::new().unwrap();
    let (code, out, _) = judged(&take(&folder, "no-horn"), &[]);
    assert_eq!(code, Some(0));
    assert!(out.contains("Pre-test not passed"), "{out}");
    // One code, often: it takes as much as one code may, forty.
    assert!(out.contains("Right of way: 60 points, and 70 are asked for."), "{out}");
}

#[test]
fn it_is_taken_on_the_double_truck_and_the_result_names_it() {
    let folder = TempDir::new().unwrap();
    let path = take_on(&folder, "model", "double");
    for (lang, words) in [
        ("en", ["Taken on the double truck", "Pre-test passed"]),
        ("es", ["Hecha con la transpaleta doble", "Prueba previa superada"]),
    ] {
        let (code, out, _) = judged(&path, &["--lang", lang]);
        assert_eq!(code, Some(0));
        assert!(words.iter().all(|w| out.contains(w)), "{out}");
    }
    let (_, out, _) = judged(&path, &["--json"]);
    let verdict: Value = serde_json::from_str(&out).unwrap();
    assert_eq!(verdict["truck"], json!("double"));
}
