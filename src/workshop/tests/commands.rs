//! The workshop's commands as a person runs them.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use std::process::{Command, Output};

fn run(args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_coneyard-workshop")).args(args).output().unwrap()
}

fn said(bytes: &[u8]) -> String {
    String::from_utf8_lossy(bytes).into_owned()
}

#[test]
fn every_command_helps_with_an_example() {
    for command in ["build", "bench", "corpus", "attack", "spread"] {
        let output = run(&[command, "--help"]);
        assert!(output.status.success(), "{command}");
        let help = said(&output.stdout);
        assert!(help.contains(&format!("Example: coneyard-workshop {command}")), "{help}");
    }
}

#[test]
fn words_that_are_no_command() {
    for args in [&[][..], &["serve"], &["spread", "--draws", "one"], &["corpus", "--seeds", "0"]] {
        let output = run(args);
        assert_eq!(output.status.code(), Some(2), "{args:?}");
        assert!(!said(&output.stderr).contains("panicked"), "{args:?}");
    }
    let output = run(&["corpus", "--rider", "nobody"]);
    assert_eq!(output.status.code(), Some(2));
    let sentence = said(&output.stderr);
    assert_eq!(sentence, "coneyard-workshop: --rider: no rider's name has \"nobody\" in it\n");
}

#[test]
fn the_spread_of_a_few_draws_is_printed() {
    let output = run(&["spread", "--draws", "2"]);
    assert_eq!(output.status.code(), Some(0), "{}", said(&output.stderr));
    let table = said(&output.stdout);
    assert!(table.starts_with("2 draws") && table.contains("Right of way"), "{table}");
}

#[test]
fn a_few_attacks_are_driven_and_what_is_wrong_is_kept() {
    let out = std::env::temp_dir().join(format!("coneyard-attack-{}", std::process::id()));
    let folder = out.to_str().unwrap();
    let output = run(&["attack", "--rides", "3", "--seed", "1", "--out", folder]);
    let code = output.status.code();
    let table = said(&output.stdout);
    assert!(table.contains("struck-hard") && table.contains("harmless"), "{table}");
    let kept = std::fs::read_to_string(out.join("wrong.txt")).unwrap();
    let runs = std::fs::read_dir(&out).unwrap().count() - 1;
    std::fs::remove_dir_all(&out).unwrap();
    // Whether anything is wrong is for the tests of the oracle to say.
    assert_eq!(code, Some(if kept.is_empty() { 0 } else { 3 }), "{}", said(&output.stderr));
    assert_eq!(runs == 0, kept.is_empty(), "{kept}");
    for args in [&["--rides", "0"][..], &["--course", "nowhere"], &["--look-at", "no-such-file"]] {
        let output = run(&[&["attack"], args].concat());
        assert_eq!(output.status.code(), Some(2), "{args:?}: {}", said(&output.stderr));
    }
}
