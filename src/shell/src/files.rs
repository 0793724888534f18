//! The few things that the pages read of a file: names, sentences, marks. Nothing is driven or
//! judged by what is read here; the yard, which drives and judges, checks every file in full and
//! refuses it with its sentence. Checking it here as well would double what a browser loads.

use std::collections::BTreeMap;

use coneyard_core::course::Said;
use coneyard_core::desk::DriveSetup;
use coneyard_core::run::coding::unpack;
use coneyard_core::score::rules::{PassMarks, SHIPPED};
use serde::Deserialize;
use serde_json::Value;

/// Largest text inside a run file that is unpacked, bytes: as large as a run may hold.
const TEXT_MOST: usize = 1024 * 1024;

/// What the pages show of a course.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(crate) struct CourseLabel {
    /// Short name.
    pub(crate) id: String,
    /// What people call it.
    pub(crate) title: Said,
    /// What it trains.
    pub(crate) trains: Said,
    /// The trucks it may be driven with.
    pub(crate) trucks: Vec<String>,
    /// What is to be done, in order.
    pub(crate) steps: Vec<StepLabel>,
}

/// What the pages show of a step.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(crate) struct StepLabel {
    /// The sentence on the dashboard.
    pub(crate) say: Said,
}

#[derive(Deserialize)]
struct Named {
    id: String,
}

#[derive(Deserialize)]
struct RunHead {
    who: String,
    started: String,
    seed: u32,
    course: Packed,
    truck: Packed,
    site_rules: Packed,
}

#[derive(Deserialize)]
struct Packed {
    text: String,
}

fn read<'a, T: Deserialize<'a>>(file: &str, text: &'a str) -> Result<T, String> {
    serde_json::from_str(text).map_err(|e| format!("{file}: {e}"))
}

/// What the pages show of a course file.
pub(crate) fn course(file: &str, text: &str) -> Result<CourseLabel, String> {
    read(file, text)
}

/// The `id` of a course or truck file.
pub(crate) fn id_of(file: &str, text: &str) -> Result<String, String> {
    read::<Named>(file, text).map(|named| named.id)
}

/// The setup inside a run file that the yard has judged.
pub(crate) fn setup_of_run(file: &str, text: &str) -> Result<DriveSetup, String> {
    let head: RunHead = read(file, text)?;
    let inner = |place: &str, packed: &Packed| {
        let bytes = unpack(file, place, &packed.text, TEXT_MOST).map_err(|e| e.to_string())?;
        String::from_utf8(bytes).map_err(|e| format!("{file}, at {place}: {e}"))
    };
    Ok(DriveSetup {
        course: inner("course", &head.course)?,
        truck: inner("truck", &head.truck)?,
        rules: inner("site_rules", &head.site_rules)?,
        seed: head.seed,
        who: head.who,
        started: head.started,
    })
}

/// Where a rule comes from, and what the site wants said beside it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Citation {
    /// The rule's source, as it stands in the file.
    pub(crate) source: String,
    /// The site's note.
    pub(crate) note: Option<String>,
}

/// What the pages show of a site-rules file.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct RulesLabel {
    /// What a pre-test asks for.
    pub(crate) marks: PassMarks,
    /// By code.
    citations: BTreeMap<String, Citation>,
}

impl RulesLabel {
    /// Where the rule of this code comes from.
    pub(crate) fn citation(&self, code: &str) -> Option<&Citation> {
        self.citations.get(code)
    }
}

/// What the pages show of a site-rules file. What it leaves out is as in the shipped one.
pub(crate) fn rules(file: &str, text: &str) -> Result<RulesLabel, String> {
    let site: Value = read(file, text)?;
    let shipped: Value = read(file, SHIPPED)?;
    let mark = |place: &str| {
        let of = |rules: &Value| rules.pointer(place).and_then(Value::as_f64);
        of(&site).or_else(|| of(&shipped)).unwrap_or_default()
    };
    let mut citations = BTreeMap::new();
    for rules in [&shipped, &site] {
        let Some(rules) = rules.get("rules").and_then(Value::as_object) else {
            continue;
        };
        for (code, rule) in rules {
            let said = |name: &str| rule.get(name).and_then(Value::as_str).map(str::to_owned);
            let known: Option<Citation> = citations.get(code).cloned();
            let source = said("citation").or_else(|| known.as_ref().map(|c| c.source.clone()));
            let note = said("note").or_else(|| known.and_then(|c| c.note));
            citations.insert(code.clone(), Citation { source: source.unwrap_or_default(), note });
        }
    }
    Ok(RulesLabel {
        marks: PassMarks { skill: mark("/pass/skill"), total: mark("/pass/total") },
        citations,
    })
}

#[cfg(test)]
mod tests {
    use coneyard_core::course::Course;
    use coneyard_core::course::shipped;
    use coneyard_core::score::SiteRules;
    use coneyard_core::truck::spec::shipped::SINGLE;

    use super::*;

    #[test]
    fn every_shipped_course_shows_what_it_is() {
        for (file, text) in shipped::ALL {
            let (label, whole) = (course(file, text), Course::parse(file, text.as_bytes()));
            let (label, whole) = (label.unwrap(), whole.unwrap());
            assert_eq!((&label.id, &label.title), (&whole.id, &whole.title));
            assert_eq!((&label.trains, &label.trucks), (&whole.trains, &whole.trucks));
            let sentences: Vec<&Said> = label.steps.iter().map(|s| &s.say).collect();
            assert_eq!(sentences, whole.steps.iter().map(|s| &s.say).collect::<Vec<_>>());
        }
        assert_eq!(id_of("single.json", SINGLE).unwrap(), "single");
    }

    #[test]
    fn marks_and_citations_are_those_of_the_rules() {
        let shown = rules("site-rules.json", SHIPPED).unwrap();
        let whole = SiteRules::shipped();
        assert_eq!(shown.marks, whole.pass);
        for (code, rule) in &whole.rules {
            assert_eq!(shown.citation(code).unwrap().source, rule.citation, "{code}");
        }
    }

    #[test]
    fn what_a_site_leaves_out_is_as_shipped() {
        let text = r#"{"format":1,"pass":{"total":90},"rules":{"contact-cone":{"note":"Ours."}}}"#;
        let shown = rules("ours.json", text).unwrap();
        assert_eq!((shown.marks.skill, shown.marks.total), (SiteRules::shipped().pass.skill, 90.0));
        let cone = shown.citation("contact-cone").unwrap();
        assert_eq!((cone.source.as_str(), cone.note.as_deref()), ("course task", Some("Ours.")));
    }

    #[test]
    fn damage_gets_a_sentence_with_the_files_name() {
        for text in ["", "{}", "[1, 2]", "{\"id\": 3}"] {
            assert!(course("odd.json", text).unwrap_err().starts_with("odd.json: "));
            assert!(setup_of_run("odd.json", text).unwrap_err().starts_with("odd.json: "));
        }
    }
}
