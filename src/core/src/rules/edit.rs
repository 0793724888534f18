//! One change of a site's rules, as somebody makes it on a page. What comes out was read again as a file is read:
//! whatever a file is refused for, a change is refused for.

use serde::{Deserialize, Serialize};

use crate::outside::BadInput;
use crate::rules::needs::duty;
use crate::rules::site::{Graver, Limit, SiteRules};

/// Where a number comes from that was set on a page.
const OWN: &str = "site rule";

/// A change.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Edit {
    /// A number, by its place (`Number::place`), in the unit that it has there.
    Number(String, f64),
    /// Whether a rule is watched, by its code.
    On(String, bool),
    /// What the site wants said beside findings of a code, in a language by its code; empty says nothing.
    Say(String, String, String),
    /// What the site calls itself.
    Site(String),
    /// A number as it ships, by its place.
    Back(String),
    /// A rule as it ships, with all of its numbers, by its code.
    RuleBack(String),
    /// Everything as it ships.
    AllBack,
}

impl SiteRules {
    /// These rules with a change made.
    ///
    /// # Errors
    /// One sentence with the place: there is no such place, or a file with this change would be refused.
    pub fn edited(&self, file: &str, edit: &Edit) -> Result<Self, BadInput> {
        let mut rules = self.clone();
        let shipped = Self::shipped();
        match edit {
            Edit::Number(place, value) => rules.set(file, place, *value, OWN)?,
            Edit::On(code, on) => rules.rule(file, code)?.on = *on,
            Edit::Say(code, lang, text) => rules.say(file, code, lang, text.trim())?,
            Edit::Site(name) => name.trim().clone_into(&mut rules.site),
            Edit::Back(place) => rules.put_back(file, place, &shipped)?,
            Edit::RuleBack(code) => {
                let usual = shipped.rule_of(file, code)?.clone();
                *rules.rule(file, code)? = usual;
                rules.notes.remove(code);
                if code == "over-speed" {
                    rules.speed_limit = shipped.speed_limit;
                }
            }
            Edit::AllBack => return Ok(shipped),
        }
        Self::parse(file, rules.to_text().as_bytes())
    }

    fn rule_of(&self, file: &str, code: &str) -> Result<&super::Rule, BadInput> {
        self.rules.get(code).ok_or_else(|| nowhere(file, code))
    }

    fn rule(&mut self, file: &str, code: &str) -> Result<&mut super::Rule, BadInput> {
        self.rules.get_mut(code).ok_or_else(|| nowhere(file, code))
    }

    fn say(&mut self, file: &str, code: &str, lang: &str, text: &str) -> Result<(), BadInput> {
        // What stood in the rule itself was said in no language; from here on it has one.
        let note = self.rule(file, code)?.note.take();
        let said = self.notes.entry(code.to_owned()).or_default();
        if let Some(note) = note {
            said.entry("en".to_owned()).or_insert(note);
        }
        if text.is_empty() {
            said.remove(lang);
        } else {
            said.insert(lang.to_owned(), text.to_owned());
        }
        if said.is_empty() {
            self.notes.remove(code);
        }
        Ok(())
    }

    /// Sets the number at a place.
    fn set(&mut self, file: &str, place: &str, value: f64, source: &str) -> Result<(), BadInput> {
        if !value.is_finite() {
            return Err(BadInput::new(file, place, "this is no number"));
        }
        match place {
            "points.minor" => self.points.minor = value,
            "points.major" => self.points.major = value,
            "points.most_by_one_code" => self.points.most_by_one_code = value,
            _ => {
                let limit = self.limit_at(file, place)?;
                limit.value = value;
                source.clone_into(&mut limit.source);
            }
        }
        Ok(())
    }

    fn put_back(&mut self, file: &str, place: &str, shipped: &Self) -> Result<(), BadInput> {
        match place {
            "points.minor" => self.points.minor = shipped.points.minor,
            "points.major" => self.points.major = shipped.points.major,
            "points.most_by_one_code" => {
                self.points.most_by_one_code = shipped.points.most_by_one_code;
            }
            _ => {
                let usual = shipped.clone().limit_at(file, place)?.clone();
                *self.limit_at(file, place)? = usual;
            }
        }
        Ok(())
    }

    /// The number at a place, to be changed. What made a finding graver and was taken out comes back as it ships.
    fn limit_at(&mut self, file: &str, place: &str) -> Result<&mut Limit, BadInput> {
        let parts: Vec<&str> = place.split('.').collect();
        let found = match parts.as_slice() {
            ["speed_limit"] => Some(&mut self.speed_limit),
            ["pass", "skill"] => Some(&mut self.pass.skill),
            ["pass", "total"] => Some(&mut self.pass.total),
            ["terms", name] => self.terms.get_mut(*name),
            ["rules", code, "limits", name] => {
                self.rules.get_mut(*code).and_then(|rule| rule.limits.get_mut(*name))
            }
            ["rules", code, "graver"] => {
                let usual = || Self::shipped().rules.get(*code)?.graver.clone();
                let can_be = duty(code).is_some_and(|d| d.graver.is_some());
                let rule = self.rules.get_mut(*code).filter(|_| can_be);
                rule.and_then(|rule| {
                    rule.graver = rule.graver.take().or_else(usual);
                    rule.graver.as_mut().map(|Graver { beyond, .. }| beyond)
                })
            }
            _ => None,
        };
        found.ok_or_else(|| nowhere(file, place))
    }
}

fn nowhere(file: &str, place: &str) -> BadInput {
    let shown: String = place.chars().filter(|c| !c.is_control()).take(60).collect();
    BadInput::new(file, "", format!("there is no number and no rule \"{shown}\""))
}
