//! The few things that the pages read of a file: names, sentences, marks. Nothing is driven or
//! judged by what is read here; the yard, which drives and judges, checks every file in full and
//! refuses it with its sentence. Checking it here as well would double what a browser loads.

mod changes;

pub(crate) use changes::{Change, RuleValue};

use coneyard_core::outside::Said;
use coneyard_core::rules::{PassMarks, SHIPPED};
use coneyard_core::run::DriveSetup;
use coneyard_core::run::coding::unpack;
use coneyard_core::run::header::Header;
use serde_json::Value;

use crate::parts::notes::not_again;

/// Largest text inside a run file that is unpacked, bytes: as large as a run may hold.
const TEXT_MOST: usize = 1024 * 1024;

/// What the pages show of a course.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct CourseLabel {
    /// Short name.
    pub(crate) id: String,
    /// What people call it.
    pub(crate) title: Said,
    /// What it trains.
    pub(crate) trains: Said,
    /// The trucks it may be driven with.
    pub(crate) trucks: Vec<String>,
    /// The sentence of each step.
    pub(crate) steps: Vec<Said>,
    /// It is a part of a pre-test and no exercise of its own.
    pub(crate) is_part: bool,
}

fn read(file: &str, text: &str) -> Result<Value, String> {
    serde_json::from_str(text).map_err(|e| format!("{file}: {e}"))
}

/// The text at this place.
fn text_at(file: &str, value: &Value, place: &str) -> Result<String, String> {
    let found = value.pointer(place).and_then(Value::as_str);
    found.map(str::to_owned).ok_or_else(|| format!("{file}, at {place}: no text is here"))
}

/// The list at this place.
fn list_at<'a>(file: &str, value: &'a Value, place: &str) -> Result<&'a [Value], String> {
    let found = value.pointer(place).and_then(Value::as_array);
    found.map(Vec::as_slice).ok_or_else(|| format!("{file}, at {place}: no list is here"))
}

/// The sentence in every language at this place.
fn said_at(file: &str, value: &Value, place: &str) -> Result<Said, String> {
    let found = value.pointer(place).and_then(Value::as_object);
    let by_language = found.ok_or_else(|| format!("{file}, at {place}: no sentence is here"))?;
    let mut said = Said::new();
    for (language, sentence) in by_language {
        if let Some(sentence) = sentence.as_str() {
            said.insert(language.clone(), sentence.to_owned());
        }
    }
    Ok(said)
}

/// What the pages show of a course file.
pub(crate) fn course(file: &str, text: &str) -> Result<CourseLabel, String> {
    let course = read(file, text)?;
    let trucks = list_at(file, &course, "/trucks")?;
    let mut steps = Vec::new();
    for step in list_at(file, &course, "/steps")? {
        steps.push(said_at(file, step, "/say")?);
    }
    Ok(CourseLabel {
        id: text_at(file, &course, "/id")?,
        title: said_at(file, &course, "/title")?,
        trains: said_at(file, &course, "/trains")?,
        trucks: trucks.iter().filter_map(|t| t.as_str().map(str::to_owned)).collect(),
        steps,
        is_part: course.get("part_of").is_some_and(Value::is_string),
    })
}

/// The `id` of a course or truck file.
pub(crate) fn id_of(file: &str, text: &str) -> Result<String, String> {
    text_at(file, &read(file, text)?, "/id")
}

/// The setup inside a run file that the yard has judged.
pub(crate) fn setup_of_run(file: &str, text: &str) -> Result<DriveSetup, String> {
    let run = read(file, text)?;
    let inner = |place: &str| {
        let packed = text_at(file, &run, place)?;
        let bytes = unpack(file, place, &packed, TEXT_MOST).map_err(|e| e.to_string())?;
        String::from_utf8(bytes).map_err(|e| format!("{file}, at {place}: {e}"))
    };
    let seed = run.pointer("/seed").and_then(Value::as_u64).and_then(|s| u32::try_from(s).ok());
    Ok(DriveSetup {
        course: inner("/course/text")?,
        truck: inner("/truck/text")?,
        rules: inner("/site_rules/text")?,
        seed: seed.ok_or_else(|| format!("{file}, at /seed: no seed is here"))?,
        who: text_at(file, &run, "/who")?,
        started: text_at(file, &run, "/started")?,
    })
}

/// Refuses a run file that another simulation made, with the sentence that says so.
pub(crate) fn can_be_driven_again(file: &str, text: &str) -> Result<(), String> {
    let head = Header::parse(file, text.as_bytes()).map_err(|bad| bad.to_string())?;
    if head.can_be_driven_again() { Ok(()) } else { Err(not_again(Some(head.simulation))) }
}

/// Where a rule comes from, and what the site wants said beside it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Citation {
    /// The rule's source, as it stands in the file.
    pub(crate) source: String,
    /// The site's note.
    pub(crate) note: Option<String>,
}

/// What the pages show of a site-rules file. What it leaves out is as in the shipped one.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct RulesLabel {
    site: Value,
    shipped: Value,
}

impl RulesLabel {
    fn find<'a, T>(&'a self, place: &str, read: fn(&'a Value) -> Option<T>) -> Option<T> {
        [&self.site, &self.shipped].into_iter().find_map(|r| r.pointer(place).and_then(read))
    }

    /// Where the rule of this code comes from.
    pub(crate) fn citation(&self, code: &str) -> Option<Citation> {
        let text = |name: &str| self.find(&format!("/rules/{code}/{name}"), Value::as_str);
        Some(Citation {
            source: text("citation")?.to_owned(),
            note: text("note").map(str::to_owned),
        })
    }

    /// What the site wants said beside findings of this code, in this language: else in English,
    /// else in whichever there is, else the rule's own note.
    pub(crate) fn note(&self, code: &str, language: &str) -> Option<String> {
        let said = self.find(&format!("/notes/{code}"), Value::as_object).and_then(|texts| {
            let text = texts.get(language).or_else(|| texts.get("en"));
            text.or_else(|| texts.values().next())?.as_str().map(str::to_owned)
        });
        said.or_else(|| self.citation(code)?.note)
    }

    /// What a pre-test asks for.
    pub(crate) fn marks(&self) -> PassMarks {
        let mark = |place: &str| self.find(place, Value::as_f64).unwrap_or_default();
        PassMarks { skill: mark("/pass/skill"), total: mark("/pass/total") }
    }

    /// The least share of the time on the wall that a computer may simulate in a pre-test.
    pub(crate) fn time_ratio_least(&self) -> f64 {
        self.find("/terms/time-ratio/value", Value::as_f64).unwrap_or(1.0)
    }

    /// How often a pre-test may be paused.
    pub(crate) fn pauses_most(&self) -> u32 {
        self.find("/terms/pauses/value", Value::as_f64).unwrap_or(0.0) as u32
    }

    /// What the lower end of an interval must reach to be called ready, share of one.
    pub(crate) fn ready_from(&self) -> f64 {
        self.find("/terms/ready-from/value", Value::as_f64).unwrap_or(1.0)
    }
}

/// What the pages show of a site-rules file.
pub(crate) fn rules(file: &str, text: &str) -> Result<RulesLabel, String> {
    Ok(RulesLabel { site: read(file, text)?, shipped: read(file, SHIPPED)? })
}

#[cfg(test)]
mod tests {
    use coneyard_core::course::Course;
    use coneyard_core::course::shipped;
    use coneyard_core::pretest;
    use coneyard_core::rules::SiteRules;
    use coneyard_core::truck::spec::shipped::SINGLE;

    use super::*;

    #[test]
    fn every_shipped_course_shows_what_it_is() {
        for (file, text) in shipped::ALL {
            let (label, whole) = (course(file, text), Course::parse(file, text.as_bytes()));
            let (label, whole) = (label.unwrap(), whole.unwrap());
            assert_eq!((&label.id, &label.title), (&whole.id, &whole.title));
            assert_eq!((&label.trains, &label.trucks), (&whole.trains, &whole.trucks));
            let sentences: Vec<Said> = whole.steps.into_iter().map(|s| s.say).collect();
            assert_eq!(label.steps, sentences);
            assert_eq!(label.is_part, whole.part_of.is_some());
        }
        assert_eq!(id_of("single.json", SINGLE).unwrap(), "single");
    }

    #[test]
    fn marks_and_citations_are_those_of_the_rules() {
        let shown = rules("site-rules.json", SHIPPED).unwrap();
        let whole = SiteRules::shipped();
        assert_eq!(shown.marks(), whole.pass);
        assert_eq!(shown.ready_from(), whole.term("ready-from"));
        assert_eq!(shown.time_ratio_least(), pretest::time_ratio_least(&whole));
        assert_eq!(shown.pauses_most(), pretest::pauses_most(&whole));
        for (code, rule) in &whole.rules {
            assert_eq!(shown.citation(code).unwrap().source, rule.citation, "{code}");
        }
    }

    #[test]
    fn what_a_site_leaves_out_is_as_shipped() {
        let text = r#"{"format":1,"pass":{"total":90},"rules":{"contact-cone":{"note":"Ours."}}}"#;
        let shown = rules("ours.json", text).unwrap();
        let marks = shown.marks();
        assert_eq!((marks.skill, marks.total), (SiteRules::shipped().pass.skill, 90.0));
        let cone = shown.citation("contact-cone").unwrap();
        assert_eq!((cone.source.as_str(), cone.note.as_deref()), ("course task", Some("Ours.")));
        assert_eq!(shown.note("contact-cone", "es").as_deref(), Some("Ours."));
    }

    #[test]
    fn notes_are_those_of_the_rules_in_every_language() {
        let text = r#"{"format":1,"notes":{"contact-cone":{"en":"Ours.","es":"Nuestro."},
            "contact-structure":{"es":"Solo aquí."}}}"#;
        let shown = rules("ours.json", text).unwrap();
        let whole = SiteRules::parse("ours.json", text.as_bytes()).unwrap();
        for code in ["contact-cone", "contact-structure", "no-horn-at-start"] {
            for language in ["en", "es", "fi"] {
                assert_eq!(shown.note(code, language).as_deref(), whole.note(code, language));
            }
        }
        assert_eq!(shown.note("contact-cone", "es").as_deref(), Some("Nuestro."));
    }

    #[test]
    fn damage_gets_a_sentence_with_the_files_name() {
        for text in ["", "{}", "[1, 2]", "{\"id\": 3}"] {
            assert!(course("odd.json", text).unwrap_err().starts_with("odd.json"));
            assert!(setup_of_run("odd.json", text).unwrap_err().starts_with("odd.json"));
        }
    }
}
