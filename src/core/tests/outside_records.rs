//! Records that go out, read by programs that others wrote: statements by the validator of a record store (npm's
//! `@learninglocker/xapi-validation` 3.0.0), tables by Python's own `csv`. `./check` installs the one and asks for
//! the other, and runs these; without them they fail.

#![allow(clippy::unwrap_used)]

use std::collections::BTreeMap;
use std::io::Write as _;
use std::path::PathBuf;
use std::process::{Command, Stdio};

use coneyard_core::class::Brief;
use coneyard_core::class::board::rows;
use coneyard_core::class::xapi::{Home, Judged, statements};
use coneyard_core::class::{Attempt, Place, contract, csv};
use coneyard_core::debrief::{Ending, SkillResult};
use coneyard_core::finding::{Finding, Severity, Skill, Unit};
use coneyard_core::math::vec2;
use coneyard_core::pretest::{Joined, Outcome};
use serde_json::{Value, json};

fn outside() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("../../tests/outside")
}

/// What a program says to this, its lines.
fn asked(program: &str, script: &str, text: &str) -> Vec<String> {
    let mut child = Command::new(program)
        .arg(outside().join(script))
        .current_dir(outside())
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap_or_else(|e| panic!("this test needs {program} ({e}); ./check says how"));
    child.stdin.take().unwrap().write_all(text.as_bytes()).unwrap();
    let out = child.wait_with_output().unwrap();
    assert!(out.status.success(), "{program} {script} failed: see above; ./check installs it");
    String::from_utf8(out.stdout).unwrap().lines().map(str::to_owned).collect()
}

/// Attempts with all that texts and numbers can be: quotes, commas, ends of lines, formulas, letters of other scripts.
fn driven() -> Vec<Attempt> {
    let names =
        ["Rowan", "=1+1", "Álamo, \"el de noche\"", "@Birch\nHazel", "ヒノキ", "-Ash", "\tElm"];
    let attempt = |(i, who): (usize, &str)| {
        let mut a = contract::attempt(&format!("run-{i}"));
        a.who = who.to_owned();
        a.place = (i % 2 == 0).then(|| Place { sitting: "s".to_owned(), part: i });
        a.time_ratio = (i % 3 > 0).then_some(0.987_654_321_012_345_6);
        a.pace = if i == 3 { 0.5 } else { 1.0 };
        a.started = format!("2026-01-0{}T08:00:00+01:00", i + 1);
        let debrief = &mut a.verdict.debrief;
        debrief.ending = if i == 4 { Ending::Struck } else { Ending::Done };
        debrief.ticks = 64 * 83 + i as u32;
        debrief.total = (i != 5).then_some(100.0 - 12.3 * i as f64);
        debrief.skills = vec![SkillResult {
            skill: Skill::RightOfWay,
            points: Some(96.0),
            opportunities: 7,
            clean: 7 - i as u32,
            weight: 1.0,
        }];
        debrief.findings = vec![Finding {
            code: "stop-line-run".to_owned(),
            severity: Severity::Major,
            from: 64 * i as u32,
            to: 64 * i as u32 + 3,
            measured: 1e-7 + i as f64 / 3.0,
            limit: 0.05,
            unit: Unit::MetrePerSecond,
            at: vec2(-12.25, 1.0 / 3.0),
            before: None,
            cause: (i == 2).then(|| "wet-not-slowed".to_owned()),
            point: None,
        }];
        a
    };
    names.into_iter().enumerate().map(attempt).collect()
}

fn made() -> Vec<Value> {
    let said = [("en", "Gentle starts"), ("es", "Arranques suaves")];
    let said = said.map(|(l, t)| (l.to_owned(), t.to_owned())).into();
    let titles = BTreeMap::from([("straight".to_owned(), said)]);
    let accounts = BTreeMap::from([("Rowan".to_owned(), "person-7".to_owned())]);
    let (address, now) = ("https://yard.example/class/", "2026-02-01T00:00:00Z");
    let home = Home { address, now, titles: &titles, accounts: &accounts };
    let taken = contract::taken("s");
    let joined = |result| Joined {
        result,
        reasons: vec![],
        total: Some(91.3),
        skills: vec![],
        driven: 11,
        parts: 11,
        ticks: 64 * 700 + 1,
        practise: None,
    };
    let all = [Outcome::Passed, Outcome::NotPassed, Outcome::Incomplete].map(joined);
    let pretests: Vec<Judged<'_>> =
        all.iter().map(|joined| Judged { taken: &taken, joined }).collect();
    let out = statements(&driven(), &pretests, &home).unwrap();
    assert_eq!((out.statements.len(), out.left_out.len()), (driven().len() + 3, 0));
    let text = out.to_text().unwrap();
    serde_json::from_str(&text).unwrap()
}

#[test]
#[ignore = "needs node and what ./check installs for it"]
fn a_record_store_takes_every_statement() {
    let statements = made();
    let found = asked("node", "statements.cjs", &Value::from(statements.clone()).to_string());
    assert_eq!(found, vec!["[]"; statements.len()]);
}

/// The validator refuses what is wrong, so what it takes is right.
#[test]
#[ignore = "needs node and what ./check installs for it"]
fn a_record_store_refuses_what_is_wrong() {
    let with = |change: &dyn Fn(&mut Value)| {
        let mut statement = made().remove(0);
        change(&mut statement);
        statement
    };
    let wrong = [
        with(&|s| s["id"] = json!("run-0")),
        with(&|s| s["timestamp"] = json!("2026-01-05T08:00:00-00:00")),
        with(&|s| s["timestamp"] = json!("today")),
        with(&|s| s["context"]["registration"] = json!("s")),
        with(&|s| s["verb"]["display"] = json!({"en_us": "done"})),
        with(&|s| s["verb"]["id"] = json!("done")),
        with(&|s| s["result"]["score"]["scaled"] = json!(1.01)),
        with(&|s| s["result"]["duration"] = json!("00:01:23")),
        with(&|s| s["result"]["success"] = Value::Null),
        with(&|s| s["context"]["extensions"] = json!({"pace": 1})),
        with(&|s| s["actor"]["mbox"] = json!("mailto:rowan@yard.example")),
        with(&|s| s["more"] = json!(1)),
    ];
    let found = asked("node", "statements.cjs", &Value::from(wrong.to_vec()).to_string());
    assert_eq!(found.len(), wrong.len());
    for (found, wrong) in found.iter().zip(wrong) {
        assert_ne!(found, "[]", "{wrong}");
    }
}

/// Cells by heading, as Python reads the table. With `CONEYARD_TABLES=FOLDER` it is kept there too, for
/// `table_pandas.py`.
fn table(name: &str, text: &str) -> Vec<BTreeMap<String, String>> {
    if let Some(folder) = std::env::var_os("CONEYARD_TABLES") {
        std::fs::write(PathBuf::from(folder).join(name), text).unwrap();
    }
    let lines: Vec<Vec<String>> =
        serde_json::from_str(&asked("python3", "table.py", text).join("\n")).unwrap();
    let head = lines[0].clone();
    assert!(lines.iter().all(|line| line.len() == head.len()), "{lines:?}");
    lines[1..].iter().map(|l| head.iter().cloned().zip(l.iter().cloned()).collect()).collect()
}

#[test]
#[ignore = "needs python3, which ./check asks for"]
fn python_reads_the_tables_as_they_were_meant() {
    let all = driven();
    let attempts = table("attempts.csv", &csv::attempts(&all).unwrap());
    assert_eq!(attempts.len(), all.len());
    for (line, a) in attempts.iter().zip(&all) {
        let told = line["who"].strip_prefix('\'').unwrap_or(&line["who"]);
        assert_eq!((told, &line["attempt"]), (a.who.as_str(), &a.id));
        assert!(!line["who"].starts_with(['=', '+', '-', '@', '\t', '\r', '\n']), "{line:?}");
        assert_eq!(line["total"].parse().ok(), a.total());
        assert_eq!(line["time_ratio"].parse().ok(), a.time_ratio);
    }
    let findings = table("findings.csv", &csv::findings(&all).unwrap());
    for (line, a) in findings.iter().zip(&all) {
        let f = &a.verdict.debrief.findings[0];
        assert_eq!(line["measured"].parse(), Ok(f.measured));
        assert_eq!((line["east_m"].parse(), line["unit"].as_str()), (Ok(f.at.x), "m/s"));
    }
    let people = table(
        "people.csv",
        &csv::people(&rows(&all.iter().map(Brief::of).collect::<Vec<_>>()), 0.7).unwrap(),
    );
    // The one who only drove in slower time is there, and has shown nothing.
    let slowed = people.iter().find(|p| p["who"] == "'@Birch\nHazel").unwrap();
    assert_eq!((people.len(), slowed["right_of_way_clean"].as_str()), (all.len(), ""));
}
