//! A debrief as lines of text, in the words of the language that is asked for.

use std::fmt::Write;

use coneyard_core::course::Course;
use coneyard_core::debrief::Debrief;
use coneyard_core::finding::{Finding, Severity};
use coneyard_core::run::is_slowed;
use coneyard_core::time::DT;
use coneyard_core::truck::spec::TruckSpec;
use coneyard_core::words::{Units, Value, Words, ending_key, severity_key, skill_key};

/// Course, truck and rider on one line.
pub(crate) fn heading(course: &Course, truck: &TruckSpec, lang: &str, who: &str) -> String {
    let title = course.title.get(lang).or_else(|| course.title.get("en"));
    let title = title.unwrap_or(&course.id);
    let who = if who.is_empty() { String::new() } else { format!(" ({})", printable(who)) };
    format!("{} [{}]{who}", printable(title), truck.id)
}

/// That slower time was chosen, where it was.
pub(crate) fn slowed(pace: f64, words: &Words) -> Option<String> {
    let percent = Value::from(words.number((100.0 * pace).floor(), 0));
    is_slowed(pace).then(|| words.say("attempt-slowed", &[("percent", percent)]))
}

/// Everything that is said after a drive.
pub(crate) fn debrief(debrief: &Debrief, words: &Words, units: Units) -> String {
    let mut text = String::new();
    let seconds = f64::from(debrief.ticks) * DT;
    // Writing to a string cannot fail.
    let _ = writeln!(
        text,
        "{} {} s",
        words.say(ending_key(debrief.ending), &[]),
        words.number(seconds, 1)
    );
    if let Some(total) = debrief.total {
        let _ = writeln!(
            text,
            "{}: {} {}",
            words.say("debrief-total", &[]),
            words.number(total, 0),
            words.say("debrief-of-hundred", &[])
        );
    }
    for result in &debrief.skills {
        let points = match result.points {
            Some(points) => words.number(points, 0),
            None => words.say("points-not-shown", &[]),
        };
        let _ = writeln!(text, "  {}: {points}", words.say(skill_key(result.skill), &[]));
    }
    let (good, faults): (Vec<&Finding>, Vec<&Finding>) =
        debrief.findings.iter().partition(|f| f.severity == Severity::Good);
    section(&mut text, words, units, "debrief-good", "debrief-no-good", &good);
    section(&mut text, words, units, "debrief-faults", "debrief-no-faults", &faults);
    if let Some(skill) = debrief.practise {
        let skill = Value::from(words.say(skill_key(skill), &[]));
        let _ = writeln!(text, "\n{}", words.say("debrief-practise-skill", &[("skill", skill)]));
    }
    text.truncate(text.trim_end().len());
    text
}

fn section(
    text: &mut String,
    words: &Words,
    units: Units,
    title: &str,
    nothing: &str,
    findings: &[&Finding],
) {
    let _ = writeln!(text, "\n{}", words.say(title, &[]));
    if findings.is_empty() {
        let _ = writeln!(text, "  {}", words.say(nothing, &[]));
    }
    for finding in findings {
        let told = words.tell(finding, units);
        let at = words.number(f64::from(finding.from) * DT, 1);
        let grave = match finding.severity {
            Severity::Good => String::new(),
            severity => format!(" ({})", words.say(severity_key(severity), &[])),
        };
        let _ = writeln!(text, "  {at} s: {}{grave}. {}", told.title, told.what);
    }
}

/// A text from a file must not move the cursor or change the colours of a terminal.
fn printable(text: &str) -> String {
    text.chars().filter(|c| !c.is_control()).collect()
}
