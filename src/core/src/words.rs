//! Words: every text that a person reads, by its key, in the language that is set.
//!
//! The texts are in assets/lang: findings.*.ftl for what the judge says, shell.*.ftl for the
//! pages. A key without a text comes back in brackets, so that it is seen and the tests find it.

pub mod fluent;
pub mod measure;
pub mod pretest;
pub mod table;
#[cfg(test)]
mod tests;

pub use measure::Units;
pub use table::{Table, Value};

use crate::finding::{Finding, JustBefore, Severity, Skill, Unit};
use crate::math::G;
use crate::outside::BadInput;
use crate::rules::SiteRules;
use crate::score::certainty::Readiness;
use measure::Shown;

/// The languages that there are, by their codes.
pub const LANGUAGES: [&str; 2] = ["en", "es"];

const ENGLISH: [(&str, &str); 2] = [
    ("findings.en.ftl", include_str!("../../../assets/lang/findings.en.ftl")),
    ("shell.en.ftl", include_str!("../../../assets/lang/shell.en.ftl")),
];
const SPANISH: [(&str, &str); 2] = [
    ("findings.es.ftl", include_str!("../../../assets/lang/findings.es.ftl")),
    ("shell.es.ftl", include_str!("../../../assets/lang/shell.es.ftl")),
];

/// The code of the language there is for a code like "es-MX"; English for one that there is not.
fn language(code: &str) -> &'static str {
    let base = code.split(['-', '_']).next().unwrap_or(code);
    LANGUAGES.into_iter().find(|l| *l == base).unwrap_or(LANGUAGES[0])
}

/// The table of a language's texts, by its code in [`LANGUAGES`].
///
/// # Errors
/// One sentence with file and key when a text cannot be used.
pub fn shipped(lang: &str) -> Result<Table, BadInput> {
    fluent::compile(if lang == "es" { &SPANISH } else { &ENGLISH })
}

/// The texts of one language.
pub struct Words {
    table: Table,
    lang: &'static str,
}

/// What happened, where a finding can be measured in several units and each is another thing: code, unit, and
/// the key of its sentence. In any other unit it is the code's own.
pub const WHAT_BY_UNIT: [(&str, Unit, &str); 4] = [
    ("yield-not-slowed", Unit::Degree, "yield-not-slowed-what-look"),
    ("person-near-miss", Unit::Second, "person-near-miss-what-time"),
    ("person-near-miss", Unit::MetrePerSecondSquared, "person-near-miss-what-slowing"),
    ("unchecked-crossing", Unit::Count, "unchecked-crossing-what-checks"),
];

/// What is said about a finding.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Told {
    /// In a few words.
    pub title: String,
    /// What happened, with the measured value and its limit.
    pub what: String,
    /// Why it matters.
    pub why: String,
    /// What to do instead; after a good deed, what to keep.
    pub instead: String,
}

impl Words {
    /// The texts of a language by its code, "es" or "es-MX"; English for a language that there is
    /// not.
    pub fn new(lang: &str) -> Self {
        let lang = language(lang);
        // What is wrong in a text is found by the tests, and when a site is built.
        Self { table: shipped(lang).unwrap_or_default(), lang }
    }

    /// The texts of a language from a table that was read.
    pub fn of(lang: &str, table: Table) -> Self {
        Self { table, lang: language(lang) }
    }

    /// The text of a key with values put in; the key in brackets where there is none.
    pub fn say(&self, key: &str, values: &[(&str, Value)]) -> String {
        self.table.say(key, values).unwrap_or_else(|| format!("[{key}]"))
    }

    /// Whether there is a text for a key.
    pub fn has(&self, key: &str) -> bool {
        self.table.has(key)
    }

    /// A number as the language writes it, with at most so many decimals.
    pub fn number(&self, value: f64, decimals: usize) -> String {
        let mut text = format!("{value:.decimals$}");
        if text.contains('.') {
            text.truncate(text.trim_end_matches('0').trim_end_matches('.').len());
        }
        if text == "-0" {
            text.remove(0);
        }
        if self.lang == "es" { text.replace('.', ",") } else { text }
    }

    /// A measured value with its unit, "9.7 km/h". Number and unit are not torn apart at the end
    /// of a line.
    pub fn quantity(&self, value: f64, unit: crate::finding::Unit, units: Units) -> String {
        self.shown(units.show(value, unit))
    }

    /// What was measured in a finding, and its limit, so that they read alike only where they are.
    pub fn measured_and_limit(&self, finding: &Finding, units: Units) -> [String; 2] {
        units.show_both(finding.measured, finding.limit, finding.unit).map(|s| self.shown(s))
    }

    fn shown(&self, Shown { value, decimals, unit }: Shown) -> String {
        let number = self.number(value, decimals);
        match unit {
            "" => number,
            "unit-deg" => format!("{number}{}", self.say(unit, &[])),
            _ => format!("{number}\u{a0}{}", self.say(unit, &[])),
        }
    }

    /// All that is said about a finding.
    pub fn tell(&self, finding: &Finding, units: Units) -> Told {
        let [measured, limit] = self.measured_and_limit(finding, units).map(Value::from);
        let values = [("measured", measured), ("limit", limit)];
        let part = |suffix: &str| self.say(&format!("{}{suffix}", finding.code), &values);
        let by_unit = WHAT_BY_UNIT.iter().find(|w| w.0 == finding.code && w.1 == finding.unit);
        let mut what = by_unit.map_or_else(|| part("-what"), |w| self.say(w.2, &values));
        if let Some(before) = finding.before {
            what.push(' ');
            what.push_str(&self.just_before(&before, units));
        }
        if let Some(cause) = &finding.cause {
            what.push(' ');
            let cause = Value::from(self.say(cause, &[]));
            what.push_str(&self.say("because-of", &[("cause", cause)]));
        }
        Told { title: part(""), what, why: part("-why"), instead: part("-instead") }
    }

    fn just_before(&self, before: &JustBefore, units: Units) -> String {
        let shown = |value, unit| Value::from(self.quantity(value, unit, units));
        let values = [
            ("speed", shown(before.speed, Unit::MetrePerSecond)),
            ("side", shown(before.side / G, Unit::Gravity)),
            ("along", shown(before.along / G, Unit::Gravity)),
            ("height", shown(before.fork_height, Unit::Metre)),
        ];
        self.say("just-before", &values)
    }

    /// Where a rule or a number comes from, in words: parts of the site rules' own that have a
    /// text are put into the language, anything else stays as it is.
    pub fn source(&self, source: &str) -> String {
        let parts: Vec<String> = source
            .split("; ")
            .map(|part| match source_key(part) {
                Some(key) => self.say(key, &[]),
                None => part.to_owned(),
            })
            .collect();
        parts.join("; ")
    }

    /// What a site wants said beside findings of a code, in this language where it says so.
    pub fn note<'a>(&self, rules: &'a SiteRules, code: &str) -> Option<&'a str> {
        rules.note(code, self.lang)
    }

    /// The name of what a site changed in its rules, as listed in a debrief.
    pub fn changed(&self, what: &str) -> String {
        if crate::rules::duty(what).is_some() {
            self.say(what, &[])
        } else {
            self.say(&format!("changed-{what}"), &[])
        }
    }
}

fn source_key(source: &str) -> Option<&'static str> {
    match source {
        "common practice, no source" => Some("source-common-practice"),
        "course task" => Some("source-course-task"),
        "site rule" => Some("source-site-rule"),
        _ => None,
    }
}

/// Key of a skill's name.
pub fn skill_key(skill: Skill) -> &'static str {
    match skill {
        Skill::Checking => "skill-checking",
        Skill::Mounting => "skill-mounting",
        Skill::StartingAndStopping => "skill-starting-and-stopping",
        Skill::Steering => "skill-steering",
        Skill::ForksAndLoad => "skill-forks-and-load",
        Skill::RightOfWay => "skill-right-of-way",
        Skill::SpeedAndRoom => "skill-speed-and-room",
        Skill::Leaving => "skill-leaving",
    }
}

/// Key of a severity's word.
pub fn severity_key(severity: Severity) -> &'static str {
    match severity {
        Severity::Good => "severity-good",
        Severity::Minor => "severity-minor",
        Severity::Major => "severity-major",
        Severity::Critical => "severity-critical",
    }
}

/// Key of the word for how far someone is.
pub fn readiness_key(readiness: Readiness) -> &'static str {
    match readiness {
        Readiness::Ready => "readiness-ready",
        Readiness::PractiseMore => "readiness-practise-more",
        Readiness::NotEnoughShown => "readiness-not-enough-shown",
    }
}

/// Key of the word for how a drive ended.
pub fn ending_key(ending: crate::debrief::Ending) -> &'static str {
    use crate::debrief::Ending;
    match ending {
        Ending::Done => "ending-done",
        Ending::Failed => "ending-failed",
        Ending::Tipped => "ending-tipped",
        Ending::Struck => "ending-struck",
        Ending::BrokenDown => "ending-broken-down",
        Ending::TimeOut => "ending-time-out",
        Ending::Broken => "ending-broken",
    }
}
