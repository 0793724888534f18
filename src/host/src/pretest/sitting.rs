//! Judging a sitting: every part is driven again, and then the whole is judged by what came out.

use std::fmt::Write;

use coneyard_core::outside::BadInput;
use coneyard_core::pretest::{Joined, Part, Sitting, join};
use coneyard_core::rules::SiteRules;
use coneyard_core::run::Verdict;
use coneyard_core::time::DT;
use coneyard_core::words::pretest::{outcome_key, truck_key};
use coneyard_core::words::{Words, ending_key, skill_key};
use serde::Serialize;

use crate::difference::difference;
use coneyard::files::say;
use coneyard::trouble::Trouble;

/// What is printed as JSON.
#[derive(Serialize)]
struct Judged {
    truck: &'static str,
    parts: Vec<JudgedPart>,
    joined: Joined,
}

#[derive(Serialize)]
struct JudgedPart {
    part: Part,
    verdict: Verdict,
}

/// Judges a sitting and prints the judgement.
///
/// # Errors
/// Bad input when the file cannot be used; a difference when a part's drive does not come out
/// again.
pub(crate) fn judge(name: &str, text: &[u8], json: bool, lang: &str) -> Result<(), Trouble> {
    let sitting = Sitting::parse(name, text)?;
    let mut parts = Vec::new();
    for (i, (part, run)) in sitting.parts().into_iter().zip(sitting.runs()).enumerate() {
        let verdict = coneyard_sim::judge(run).map_err(|bad| {
            BadInput::new(
                format!("{name}, part {}, {} in it", i + 1, bad.file),
                bad.place,
                bad.reason,
            )
        })?;
        parts.push(JudgedPart { part, verdict });
    }
    let rules = SiteRules::parse("the site rules", sitting.rules.as_bytes())?;
    let debriefs: Vec<_> = parts
        .iter()
        .zip(sitting.runs())
        .map(|(part, run)| (&part.verdict.debrief, run.share_of_real_time()))
        .collect();
    let joined = join(&debriefs, sitting.pauses, &rules);
    let judged = Judged { truck: sitting.truck, parts, joined };
    if json {
        let json = serde_json::to_string_pretty(&judged)
            .map_err(|e| Trouble::Here(format!("the verdict cannot be written as JSON: {e}")))?;
        say(json);
    } else {
        say(told(&judged, &Words::new(lang)));
    }
    let wrong = judged
        .parts
        .iter()
        .enumerate()
        .find_map(|(i, part)| difference(&format!("{name}, part {}", i + 1), &part.verdict));
    wrong.map_or(Ok(()), |sentence| Err(Trouble::Differs(sentence)))
}

fn told(judged: &Judged, words: &Words) -> String {
    let Judged { truck, parts, joined } = judged;
    let mut text = words.say(truck_key(truck), &[]) + "\n";
    // Writing to a string cannot fail.
    for (i, JudgedPart { part, verdict }) in parts.iter().enumerate() {
        let d = &verdict.debrief;
        let _ = writeln!(
            text,
            "{:>2}  {:<22}{} {} s",
            i + 1,
            part.course,
            words.say(ending_key(d.ending), &[]),
            words.number(f64::from(d.ticks) * DT, 1)
        );
    }
    let _ = writeln!(text, "\n{}", words.say(outcome_key(joined.result), &[]));
    for reason in &joined.reasons {
        let _ = writeln!(text, "  {}", words.reason(reason));
    }
    if let Some(total) = joined.total {
        let _ = writeln!(
            text,
            "{}: {} {}",
            words.say("debrief-total", &[]),
            words.number(total, 1),
            words.say("debrief-of-hundred", &[])
        );
    }
    for result in &joined.skills {
        let points = match result.points {
            Some(points) => words.number(points, 1),
            None => words.say("points-not-shown", &[]),
        };
        let _ = writeln!(text, "  {}: {points}", words.say(skill_key(result.skill), &[]));
    }
    text.truncate(text.trim_end().len());
    text
}
