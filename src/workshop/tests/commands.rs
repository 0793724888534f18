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
