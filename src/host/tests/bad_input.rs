//! Files that no one should hand in: each gets one sentence, exit code 2, and no panic.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

mod common;

use std::fs;
use std::path::{Path, PathBuf};

use common::{assert_refused, run};
use tempfile::TempDir;

/// The two commands that read a file from outside, and a good file for each to be spoilt.
const READERS: [&str; 2] = ["course", "judge"];

fn file(folder: &TempDir, name: &str, content: &[u8]) -> PathBuf {
    let path = folder.path().join(name);
    fs::write(&path, content).unwrap();
    path
}

fn refused(reader: &str, path: &Path, words: &[&str]) {
    assert_refused(&run(&[reader, path.to_str().unwrap()]), words);
}

#[test]
fn a_file_that_is_not_there() {
    for reader in READERS {
        refused(reader, Path::new("no/such/file.json"), &["no/such/file.json", "no such file"]);
    }
}

#[test]
fn a_folder() {
    for reader in READERS {
        refused(reader, Path::new("levels/"), &["levels", "folder"]);
    }
}

#[test]
fn a_file_of_200_megabytes_is_refused_by_its_size() {
    let folder = TempDir::new().unwrap();
    let path = folder.path().join("large.json");
    fs::File::create(&path).unwrap().set_len(200_000_000).unwrap();
    for reader in READERS {
        refused(reader, &path, &["large.json", "200000000 bytes"]);
    }
}

#[test]
fn files_that_are_no_json() {
    let folder = TempDir::new().unwrap();
    let cases: [(&str, Vec<u8>); 6] = [
        ("empty.json", Vec::new()),
        ("zeros.json", vec![0; 1000]),
        ("picture.json", b"\x89PNG\r\n\x1a\n\xff\xfe\x00".to_vec()),
        ("deep-lists.json", b"[".repeat(100_000)),
        ("deep-objects.json", br#"{"format":"#.repeat(50_000)),
        ("nan.json", br#"{"format": NaN}"#.to_vec()),
    ];
    for (name, content) in cases {
        let path = file(&folder, name, &content);
        for reader in READERS {
            refused(reader, &path, &[name]);
        }
    }
}

#[test]
fn a_course_cut_off_anywhere() {
    let folder = TempDir::new().unwrap();
    let whole = fs::read("../../levels/straight.json").unwrap();
    for share in [1, 10, 50, 90, 99] {
        let path = file(&folder, "cut.json", &whole[..whole.len() * share / 100]);
        refused("course", &path, &["cut.json"]);
    }
}

/// One value of the shipped straight replaced by another, as text.
fn spoilt_course(place: &str, value: &str) -> Vec<u8> {
    let text = fs::read_to_string("../../levels/straight.json").unwrap();
    let mut course: serde_json::Value = serde_json::from_str(&text).unwrap();
    *course.pointer_mut(place).unwrap() = serde_json::Value::String("<here>".to_owned());
    course.to_string().replace("\"<here>\"", value).into_bytes()
}

#[test]
fn a_course_with_a_value_that_makes_no_sense() {
    let folder = TempDir::new().unwrap();
    let cases = [
        ("/format", "99", "format"),
        ("/spawn/load_axle_m/0", "1e999", "spawn"),
        ("/spawn/load_axle_m/0", "-1e300", "spawn"),
        ("/spawn/load_axle_m/0", "NaN", "spawn"),
        ("/spawn/load_axle_m/0", "29", ""),
        ("/structures/0/length_m", "-4", "structures[0]"),
        ("/structures/0/depth_m", "0", "structures[0]"),
        ("/structures/0/length_m", "1e12", "structures[0]"),
        ("/floor/north_east_m/0", "-50", "floor"),
        ("/trucks", "[]", "trucks"),
        ("/trucks/0", r#""triple""#, "trucks"),
        ("/steps", "[]", "steps"),
        ("/id", r#""../../etc""#, "id"),
    ];
    for (place, value, named) in cases {
        // The start is moved into a load that stands beside the lane for the one without a place.
        let content = if named.is_empty() {
            let text = String::from_utf8(spoilt_course(place, "42")).unwrap();
            text.replace("[42,0]", "[42,-4.6]").into_bytes()
        } else {
            spoilt_course(place, value)
        };
        let path = file(&folder, "spoilt.json", &content);
        let named = if named.is_empty() { "spawn" } else { named };
        let output = run(&["course", path.to_str().unwrap()]);
        assert_eq!(output.status.code(), Some(2), "{place} = {value}");
        let sentence = common::said(&output);
        assert!(sentence.contains(named), "{place} = {value}: {sentence}");
        assert!(!sentence.contains("panicked"), "{sentence}");
    }
}

#[test]
fn a_course_with_a_field_that_nobody_knows() {
    let folder = TempDir::new().unwrap();
    let text = fs::read_to_string("../../levels/straight.json").unwrap();
    let text = text.replacen('{', "{\"colour\": \"teal\",", 1);
    refused("course", &file(&folder, "extra.json", text.as_bytes()), &["colour"]);
}

#[test]
fn words_that_are_no_command() {
    for args in [&["drvie"][..], &["judge"], &["ride", "straight", "--seed", "minus one"]] {
        let output = run(args);
        assert_eq!(output.status.code(), Some(2));
        assert!(!common::said(&output).contains("panicked"));
    }
}

#[test]
fn every_command_helps_with_an_example() {
    for command in ["serve", "ride", "judge", "course"] {
        let output = run(&[command, "--help"]);
        assert!(output.status.success(), "{command}");
        let help = String::from_utf8_lossy(&output.stdout).into_owned();
        assert!(help.contains(&format!("Example: coneyard {command}")), "{help}");
    }
}
