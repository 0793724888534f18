//! Reads the values of a site-rules file: each refusal names the place and what would do.

use crate::finding::Unit;
use crate::outside::BadInput;
use crate::rules::file::LimitFile;
use crate::rules::needs::Need;
use crate::rules::site::Limit;

/// Longest text in the file, characters.
const MAX_TEXT: usize = 300;

pub(super) struct Reader<'a> {
    pub(super) file: &'a str,
}

impl Reader<'_> {
    pub(super) fn bad(&self, place: &str, reason: impl Into<String>) -> BadInput {
        BadInput::new(self.file, place, reason)
    }

    pub(super) fn left_out<T>(&self, place: &str, default: Option<T>) -> Result<T, BadInput> {
        default.ok_or_else(|| self.bad(place, "this is missing; add it"))
    }

    pub(super) fn text(&self, place: &str, text: String) -> Result<String, BadInput> {
        if text.chars().count() > MAX_TEXT || text.chars().any(char::is_control) {
            return Err(self.bad(place, format!("use one line of at most {MAX_TEXT} characters")));
        }
        Ok(text)
    }

    pub(super) fn said(&self, place: &str, text: String) -> Result<String, BadInput> {
        if text.trim().is_empty() {
            return Err(self.bad(place, "say where this comes from, such as \"site rule\""));
        }
        self.text(place, text)
    }

    pub(super) fn number(
        &self,
        place: &str,
        value: f64,
        least: f64,
        most: f64,
    ) -> Result<f64, BadInput> {
        if (least..=most).contains(&value) {
            Ok(value)
        } else {
            Err(self.bad(place, format!("{value} lies outside {least} to {most}")))
        }
    }

    pub(super) fn limit(&self, place: &str, l: LimitFile, need: &Need) -> Result<Limit, BadInput> {
        if l.unit != need.unit {
            return Err(self.bad(
                &format!("{place}.unit"),
                format!("the unit is \"{}\" here", unit_in_file(need.unit)),
            ));
        }
        Ok(Limit {
            value: self.number(&format!("{place}.value"), l.value, need.least, need.most)?,
            unit: l.unit,
            source: self.said(&format!("{place}.source"), l.source)?,
        })
    }

    pub(super) fn unknown(
        &self,
        place: &str,
        name: &str,
        known: impl Iterator<Item = &'static str>,
    ) -> BadInput {
        let shown: String =
            name.chars().map(|c| if c.is_control() { ' ' } else { c }).take(60).collect();
        let known: Vec<&str> = known.collect();
        let reason = if known.is_empty() {
            format!("there is no \"{shown}\"; leave it out")
        } else {
            format!("there is no \"{shown}\"; there is {}", known.join(", "))
        };
        self.bad(place, reason)
    }
}

fn unit_in_file(unit: Unit) -> String {
    match serde_json::to_value(unit) {
        Ok(serde_json::Value::String(s)) => s,
        _ => String::new(),
    }
}
