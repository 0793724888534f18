//! The pages' texts: every key that the crate names is there in both languages with the same
//! values in it, and none is there for nothing.

use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

use coneyard_core::words::Words;

const ENGLISH: &str = include_str!("../../../assets/lang/shell.en.ftl");
const SPANISH: &str = include_str!("../../../assets/lang/shell.es.ftl");

/// Keys of a file with the names of the values they put in.
fn messages(text: &str) -> BTreeMap<String, BTreeSet<String>> {
    let mut all = BTreeMap::<String, BTreeSet<String>>::new();
    let mut key = String::new();
    for line in text.lines().filter(|l| !l.starts_with('#')) {
        let mut said = line;
        if !line.starts_with([' ', '}'])
            && let Some((name, rest)) = line.split_once(" =")
        {
            name.clone_into(&mut key);
            assert!(all.insert(key.clone(), BTreeSet::new()).is_none(), "{key} stands twice");
            said = rest;
        }
        let values = said.split('$').skip(1).filter_map(|t| {
            t.split(|c: char| !c.is_ascii_alphanumeric()).next().map(ToOwned::to_owned)
        });
        if let Some(known) = all.get_mut(&key) {
            known.extend(values);
        }
    }
    all
}

/// Text of all Rust files under a folder.
fn sources(folder: &Path, into: &mut String) {
    for entry in std::fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            sources(&path, into);
        } else if path.extension().is_some_and(|e| e == "rs") {
            into.push_str(&std::fs::read_to_string(&path).unwrap());
        }
    }
}

/// The literals that follow this opening, where it is not the end of a longer name.
fn literals<'a>(code: &'a str, opening: &'a str) -> impl Iterator<Item = &'a str> {
    code.match_indices(opening).filter_map(move |(at, _)| {
        let before = code[..at].chars().next_back();
        if before.is_some_and(|c| c.is_alphanumeric() || c == '_') {
            return None;
        }
        code[at + opening.len()..].split('"').next()
    })
}

/// Keys that the crate names: the literals in `k("...")`, `tr("...")`, `say("...")` and in the
/// property `name="..."`, which the parts hand to `tr`.
fn named() -> BTreeSet<String> {
    let mut code = String::new();
    sources(&Path::new(env!("CARGO_MANIFEST_DIR")).join("src"), &mut code);
    let mut keys = BTreeSet::new();
    for opening in ["k(\"", "tr(\"", "say(\""] {
        keys.extend(literals(&code, opening).map(ToOwned::to_owned));
    }
    // Names of form fields and keys share a property; keys are told by their dash.
    let properties = literals(&code, "name=\"").filter(|n| n.contains('-') && *n != FIELD);
    keys.extend(properties.map(ToOwned::to_owned));
    keys.remove("...");
    // The page before there are pages: `{{en_start_again}}` stands for a text in English.
    let names = PAGE.split("{{en_").skip(1).filter_map(|rest| rest.split("}}").next());
    keys.extend(names.map(|name| name.replace('_', "-")));
    keys
}

const PAGE: &str = include_str!("../../../web/index.html");

#[test]
fn the_bare_page_says_everything_in_both_languages() {
    assert!(PAGE.contains("{{en_start_again}}"));
    assert_eq!(PAGE.matches("{{en_").count(), PAGE.matches("{{es_").count());
    for rest in PAGE.split("{{en_").skip(1) {
        let name = rest.split("}}").next().unwrap();
        assert!(PAGE.contains(&format!("{{{{es_{name}}}}}")), "{name}");
    }
}

/// The one form field whose name has a dash.
const FIELD: &str = "replay-pace";

#[test]
fn both_languages_have_the_same_keys_with_the_same_values() {
    assert_eq!(messages(ENGLISH), messages(SPANISH));
}

#[test]
fn every_key_that_is_named_has_a_text() {
    for lang in ["en", "es"] {
        let words = Words::new(lang);
        let missing: Vec<String> = named().into_iter().filter(|key| !words.has(key)).collect();
        assert!(missing.is_empty(), "{lang}: {missing:?}");
    }
}

#[test]
fn no_text_is_there_for_nothing() {
    let named = named();
    // Named by the core, which knows how a drive can end.
    let by_core =
        ["ending-done", "ending-failed", "ending-tipped", "ending-time-out", "ending-broken"];
    let unused: Vec<String> = messages(ENGLISH)
        .into_keys()
        .filter(|key| !named.contains(key) && !by_core.contains(&key.as_str()))
        .filter(|key| !is_of_a_rule(key))
        .collect();
    assert!(unused.is_empty(), "{unused:?}");
}

/// Names of the values that rules hold: every one is there for a value.
fn is_of_a_rule(key: &str) -> bool {
    let Some(name) = key.strip_prefix("limit-") else {
        return false;
    };
    let of_any = [
        "on",
        "severity",
        "skill",
        "graver",
        "graver-above",
        "graver-below",
        "value",
        "speed-limit",
    ];
    let points = ["minor", "major", "most-by-one-code", "pass-skill", "pass-total"];
    let of_one = coneyard_core::rules::DUTIES.iter().flat_map(|d| d.limits).any(|l| l.name == name);
    of_one || of_any.contains(&name) || points.contains(&name)
}
