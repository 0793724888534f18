//! Records as tables for spreadsheets and other programs: RFC 4180, with a line of headings, a decimal point, lines ended
//! by CR LF, UTF-8 without a mark at its beginning. What is not known is an empty cell.
//!
//! A spreadsheet takes some texts for formulas and runs them, and a name is typed by whoever joins: a text that begins
//! like one gets an apostrophe before it. Numbers are written by this program and stay numbers.
//!
//! People, one line for each person and truck:
//!
//! | heading | what |
//! | --- | --- |
//! | `who`, `truck` | name as it was typed last, truck id |
//! | `drives`, `last_started` | how many there are, when the last one began (RFC 3339) |
//! | `SKILL_clean`, `SKILL_opportunities` | of the last runs, for each of the eight skills |
//! | `SKILL_least`, `SKILL_most` | ends of the interval of the share, 0 to 1 |
//! | `SKILL_readiness` | `ready`, `practise-more`, `not-enough-shown`; classroom practice certifies nobody |
//!
//! Attempts, one line each:
//!
//! | heading | what |
//! | --- | --- |
//! | `attempt`, `who`, `truck`, `course`, `started` | id of the record, and whose it is of what |
//! | `imported`, `pretest`, `part` | came in as a file; pre-test and part from 1, where it is one |
//! | `reproduces`, `pace`, `time_ratio`, `simulation` | is what it says it is; slowest pace; share of real time; version |
//! | `ending`, `seconds`, `total` | how it ended; length, s; points of 100 |
//! | `faults`, `critical` | findings that are faults; those of them that are critical |
//! | `SKILL_points`, `SKILL_clean`, `SKILL_opportunities` | for each of the eight skills |
//!
//! Findings, one line each, good ones too:
//!
//! | heading | what |
//! | --- | --- |
//! | `attempt`, `who`, `truck`, `course`, `started` | of which attempt |
//! | `code`, `severity` | which rule; `good`, `minor`, `major`, `critical` |
//! | `from_s`, `to_s` | since the start of the drive, s |
//! | `measured`, `limit`, `unit` | what was measured, the limit, the unit of both |
//! | `east_m`, `north_m` | where the platform was, m |
//! | `cause`, `point` | code of the fault that it came of; number of the point of the check list |

use ::csv::{Terminator, WriterBuilder};
use serde::Serialize;

use super::attempt::Attempt;
use super::board::Row;
use super::form::word;
use crate::finding::Severity;
use crate::score::points::SKILLS;
use crate::time::DT;

/// What a spreadsheet takes for the beginning of a formula, or what it leaves out before one; the wide forms too,
/// which some take for the narrow ones (OWASP, CSV Injection).
const FORMULA: [char; 11] =
    ['=', '+', '-', '@', '\t', '\r', '\n', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}'];

/// A text from outside that no spreadsheet runs.
fn text(from: &str) -> String {
    if from.starts_with(FORMULA) { format!("'{from}") } else { from.to_owned() }
}

fn number(value: impl Into<f64>) -> String {
    value.into().to_string()
}

fn or_empty<T>(value: Option<T>, written: impl Fn(T) -> String) -> String {
    value.map(written).unwrap_or_default()
}

/// Headings, those of the eight skills among them.
fn headings(before: &[&str], of_skill: &[&str]) -> Vec<String> {
    let mut all: Vec<String> = before.iter().map(|h| (*h).to_owned()).collect();
    for skill in &SKILLS {
        let skill = word(skill).replace('-', "_");
        all.extend(of_skill.iter().map(|what| format!("{skill}_{what}")));
    }
    all
}

fn table(lines: impl IntoIterator<Item = Vec<String>>) -> Result<String, String> {
    let mut to = WriterBuilder::new().terminator(Terminator::CRLF).from_writer(Vec::new());
    for line in lines {
        to.write_record(&line).map_err(|e| format!("the table cannot be written: {e}"))?;
    }
    let bytes = to.into_inner().map_err(|e| format!("the table cannot be written: {e}"))?;
    String::from_utf8(bytes).map_err(|e| format!("the table cannot be written: {e}"))
}

/// The table of people, from the rows of the board; `ready_from` as in `Lately::readiness`.
///
/// # Errors
/// One sentence; lines of texts can always be written.
pub fn people(rows: &[Row], ready_from: f64) -> Result<String, String> {
    let head = headings(
        &["who", "truck", "drives", "last_started"],
        &["clean", "opportunities", "least", "most", "readiness"],
    );
    let line = |row: &Row| {
        let mut line =
            vec![text(&row.who), text(&row.truck), row.drives.to_string(), text(&row.last)];
        for skill in SKILLS {
            let shown = row.skills.iter().find(|s| s.skill == skill);
            line.push(or_empty(shown, |s| s.clean.to_string()));
            line.push(or_empty(shown, |s| s.all.to_string()));
            line.push(or_empty(shown, |s| number(s.least)));
            line.push(or_empty(shown, |s| number(s.most)));
            line.push(or_empty(shown, |s| word(&s.readiness(ready_from))));
        }
        line
    };
    table(core::iter::once(head).chain(rows.iter().map(line)))
}

/// Headings of which attempt it is.
const OF_ATTEMPT: [&str; 5] = ["attempt", "who", "truck", "course", "started"];

fn of_attempt(a: &Attempt) -> Vec<String> {
    [&a.id, &a.who, &a.truck, &a.course, &a.started].map(|t| text(t)).to_vec()
}

fn is(so: bool) -> String {
    so.to_string()
}

/// The table of attempts.
///
/// # Errors
/// One sentence; lines of texts can always be written.
pub fn attempts(attempts: &[Attempt]) -> Result<String, String> {
    let more = [
        "imported",
        "pretest",
        "part",
        "reproduces",
        "pace",
        "time_ratio",
        "simulation",
        "ending",
        "seconds",
        "total",
        "faults",
        "critical",
    ];
    let before: Vec<&str> = OF_ATTEMPT.into_iter().chain(more).collect();
    let head = headings(&before, &["points", "clean", "opportunities"]);
    let line = |a: &Attempt| {
        let debrief = &a.verdict.debrief;
        let graver = |than| debrief.findings.iter().filter(|f| f.severity > than).count();
        let mut line = of_attempt(a);
        line.extend([
            is(a.imported),
            or_empty(a.place.as_ref(), |p| text(&p.sitting)),
            or_empty(a.place.as_ref(), |p| (p.part + 1).to_string()),
            is(a.verdict.reproduces),
            number(a.pace),
            or_empty(a.time_ratio, number),
            or_empty(a.simulation, |s| s.to_string()),
            word(&debrief.ending),
            number(f64::from(debrief.ticks) * DT),
            or_empty(debrief.total, number),
            graver(Severity::Good).to_string(),
            graver(Severity::Major).to_string(),
        ]);
        for skill in SKILLS {
            let result = debrief.skills.iter().find(|s| s.skill == skill);
            line.push(or_empty(result.and_then(|s| s.points), number));
            line.push(or_empty(result, |s| s.clean.to_string()));
            line.push(or_empty(result, |s| s.opportunities.to_string()));
        }
        line
    };
    table(core::iter::once(head).chain(attempts.iter().map(line)))
}

/// The table of findings.
///
/// # Errors
/// One sentence; lines of texts can always be written.
pub fn findings(attempts: &[Attempt]) -> Result<String, String> {
    let more = [
        "code", "severity", "from_s", "to_s", "measured", "limit", "unit", "east_m", "north_m",
        "cause", "point",
    ];
    let head = OF_ATTEMPT.into_iter().chain(more).map(str::to_owned).collect();
    let lines = attempts.iter().flat_map(|a| {
        a.verdict.debrief.findings.iter().map(|f| {
            let mut line = of_attempt(a);
            line.extend([
                text(&f.code),
                word(&f.severity),
                number(f64::from(f.from) * DT),
                number(f64::from(f.to) * DT),
                number(f.measured),
                number(f.limit),
                word_of(&f.unit),
                number(f.at.x),
                number(f.at.y),
                or_empty(f.cause.as_ref(), |c| text(c)),
                or_empty(f.point, |p| p.to_string()),
            ]);
            line
        })
    });
    table(core::iter::once(head).chain(lines))
}

/// The name of a unit; one that is written as a number says that it is a share.
fn word_of<T: Serialize>(unit: &T) -> String {
    let word = word(unit);
    if word == "1" { "share".to_owned() } else { word }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::class::Brief;
    use crate::class::board::rows;
    use crate::class::contract;
    use crate::class::drive::Place;
    use crate::debrief::SkillResult;
    use crate::finding::{Finding, Skill, Unit};
    use crate::math::vec2;

    /// Reads a table by the same library: headings, and cells by heading.
    fn read(table: &str) -> (Vec<String>, Vec<Vec<String>>) {
        let mut from = ::csv::ReaderBuilder::new().has_headers(false).from_reader(table.as_bytes());
        let mut lines: Vec<Vec<String>> =
            from.records().map(|l| l.unwrap().iter().map(str::to_owned).collect()).collect();
        (lines.remove(0), lines)
    }

    fn driven() -> Attempt {
        let mut a = contract::attempt("a\"b,c");
        a.who = "=HYPERLINK(\"x\"),\nÁlamo".to_owned();
        a.place = Some(Place { sitting: "s".to_owned(), part: 0 });
        a.time_ratio = None;
        a.verdict.debrief.skills = vec![SkillResult {
            skill: Skill::RightOfWay,
            points: Some(96.0),
            opportunities: 4,
            clean: 3,
            weight: 1.0,
        }];
        a.verdict.debrief.findings = vec![Finding {
            code: "stop-line-run".to_owned(),
            severity: Severity::Critical,
            from: 32,
            to: 96,
            measured: -0.25,
            limit: 0.05,
            unit: Unit::Share,
            at: vec2(-3.5, 2.0),
            before: None,
            cause: None,
            point: Some(7),
        }];
        a
    }

    fn brief(all: &[Attempt]) -> Vec<Brief> {
        all.iter().map(Brief::of).collect()
    }

    #[test]
    fn every_line_has_a_cell_for_each_heading_and_ends_as_it_should() {
        let all = [driven(), contract::attempt("b")];
        let tables = [people(&rows(&brief(&all)), 0.7), attempts(&all), findings(&all)];
        for (table, lines) in tables.into_iter().zip([2, 2, 1]) {
            let table = table.unwrap();
            let (head, body) = read(&table);
            assert_eq!(body.len(), lines);
            assert!(body.iter().all(|line| line.len() == head.len()));
            let mut once = head.clone();
            once.sort();
            once.dedup();
            assert_eq!(once.len(), head.len(), "no heading comes twice");
            assert!(table.ends_with("\r\n") && !table.starts_with('\u{feff}'));
        }
    }

    #[test]
    fn what_is_written_is_read_again() {
        let (head, body) = read(&attempts(&[driven()]).unwrap());
        let cell = |name: &str| body[0][head.iter().position(|h| h == name).unwrap()].clone();
        assert_eq!(cell("attempt"), "a\"b,c");
        assert_eq!(cell("who"), "'=HYPERLINK(\"x\"),\nÁlamo");
        assert_eq!(
            (cell("part"), cell("seconds"), cell("total")),
            ("1".into(), "1".into(), "100".into())
        );
        assert_eq!(
            (cell("time_ratio"), cell("faults"), cell("critical")),
            ("".into(), "1".into(), "1".into())
        );
        assert_eq!((cell("right_of_way_clean"), cell("steering_clean")), ("3".into(), "".into()));
        let (head, body) = read(&findings(&[driven()]).unwrap());
        let cell = |name: &str| body[0][head.iter().position(|h| h == name).unwrap()].clone();
        assert_eq!((cell("from_s"), cell("to_s")), ("0.5".into(), "1.5".into()));
        // A number is no formula, though it begins like one.
        assert_eq!(
            (cell("measured"), cell("east_m"), cell("unit")),
            ("-0.25".into(), "-3.5".into(), "share".into())
        );
        let (head, body) = read(&people(&rows(&brief(&[driven()])), 0.7).unwrap());
        let cell = |name: &str| body[0][head.iter().position(|h| h == name).unwrap()].clone();
        assert_eq!((cell("drives"), cell("right_of_way_opportunities")), ("1".into(), "4".into()));
        assert_eq!(cell("right_of_way_readiness"), "not-enough-shown");
    }

    #[test]
    fn a_text_that_begins_like_a_formula_is_one_no_more() {
        for bad in ["=1+1", "+1", "-1", "@SUM(A1)", "\t=1", "\r=1", "\n=1", "\u{ff1d}1"] {
            assert_eq!(text(bad), format!("'{bad}"));
        }
        for good in ["", "Rowan", "1=1", "'=1", " =1", "Ash-Birch"] {
            assert_eq!(text(good), good);
        }
    }
}
