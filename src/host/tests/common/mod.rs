//! Running the program as a person does, and what it must keep to whatever it is given.

// Each test program uses a part of it.
#![allow(dead_code)]

use std::path::Path;
use std::process::{Command, Output};

/// The program, to be completed and run from the project's folder.
pub(crate) fn coneyard() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_coneyard"));
    command.current_dir(Path::new(env!("CARGO_MANIFEST_DIR")).join("../.."));
    command
}

/// Runs it with these arguments.
pub(crate) fn run(args: &[&str]) -> Output {
    coneyard().args(args).output().expect("the program starts")
}

/// What it said on standard error.
pub(crate) fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}

/// Makes sure that bad input was answered as it must be: exit code 2, one sentence on standard
/// error that has these words in it, nothing on standard output, no panic.
pub(crate) fn assert_refused(output: &Output, words: &[&str]) {
    let sentence = said(output);
    assert_eq!(output.status.code(), Some(2), "{sentence}");
    assert_eq!(sentence.trim_end().lines().count(), 1, "one sentence: {sentence}");
    assert!(sentence.len() < 600, "a bounded sentence: {sentence}");
    assert!(!sentence.contains("panicked"), "{sentence}");
    assert!(output.stdout.is_empty(), "{}", String::from_utf8_lossy(&output.stdout));
    for word in words {
        assert!(sentence.contains(word), "{word} in: {sentence}");
    }
}
