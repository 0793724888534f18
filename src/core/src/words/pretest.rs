//! Words for how a pre-test came out.

use serde::{Deserialize, Serialize};

use super::{Value, Words, ending_key, skill_key};
use crate::pretest::{Outcome, Reason, TRUCKS};

/// Key of the words for the truck that a sitting is taken on.
pub fn truck_key(truck: &str) -> &'static str {
    if truck == TRUCKS[1] { "pretest-on-double" } else { "pretest-on-single" }
}

/// Key of the word for how a sitting came out.
pub fn outcome_key(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Passed => "pretest-passed",
        Outcome::NotPassed => "pretest-not-passed",
        Outcome::Incomplete => "pretest-incomplete",
    }
}

/// A reason as a text and what is put into it, for whoever has texts and no pre-test.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Because {
    /// Key of the text.
    pub key: String,
    /// Names and values.
    pub values: Vec<(String, Part)>,
}

/// A value to be put into it.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Part {
    /// A number with at most so many decimals.
    Number(f64, usize),
    /// The text of a key.
    Text(String),
}

/// The text that tells a reason, with what is put into it.
pub fn because(reason: &Reason) -> Because {
    let number = |name: &'static str, value: f64, decimals| (name, Part::Number(value, decimals));
    let text = |name: &'static str, key: &str| (name, Part::Text(key.to_owned()));
    // People count from 1.
    let part = |part: &usize| number("part", *part as f64 + 1.0, 0);
    let (key, values) = match reason {
        Reason::Critical { part: p, code } => {
            ("pretest-why-critical", vec![part(p), text("what", code)])
        }
        Reason::MajorAgain { code, times, limit } => (
            "pretest-why-major-again",
            vec![
                text("what", code),
                number("times", f64::from(*times), 0),
                number("limit", f64::from(*limit), 0),
            ],
        ),
        Reason::NotDone { part: p, ending } => {
            ("pretest-why-not-done", vec![part(p), text("ending", ending_key(*ending))])
        }
        Reason::OutOfTime { part: p, after_s } => {
            ("pretest-why-out-of-time", vec![part(p), number("seconds", *after_s, 0)])
        }
        Reason::SkillBelow { skill, points, limit } => (
            "pretest-why-skill-below",
            vec![
                text("skill", skill_key(*skill)),
                number("points", *points, 1),
                number("limit", *limit, 1),
            ],
        ),
        Reason::SkillNotShown { skill } => {
            ("pretest-why-skill-not-shown", vec![text("skill", skill_key(*skill))])
        }
        Reason::TotalBelow { points, limit } => (
            "pretest-why-total-below",
            vec![number("points", *points, 1), number("limit", *limit, 1)],
        ),
        Reason::Pauses { pauses, limit } => (
            "pretest-why-pauses",
            vec![number("pauses", f64::from(*pauses), 0), number("limit", f64::from(*limit), 0)],
        ),
        Reason::Missing { part: p } => (MISSING, vec![part(p)]),
        Reason::TooSlow { part: p, ratio, limit } => (
            "pretest-why-too-slow",
            vec![part(p), number("ratio", 100.0 * ratio, 1), number("limit", 100.0 * limit, 1)],
        ),
    };
    let values = values.into_iter().map(|(name, value)| (name.to_owned(), value)).collect();
    Because { key: key.to_owned(), values }
}

/// Key of the text for a part that is not driven yet.
pub const MISSING: &str = "pretest-why-missing";

impl Words {
    /// Why a sitting is not passed, in a sentence.
    pub fn reason(&self, reason: &Reason) -> String {
        self.because(&because(reason))
    }

    /// The same, of a reason that is a text already.
    pub fn because(&self, because: &Because) -> String {
        let value = |part: &Part| match part {
            Part::Number(value, decimals) => Value::Text(self.number(*value, *decimals)),
            Part::Text(key) => Value::Text(self.say(key, &[])),
        };
        let values: Vec<(&str, Value)> =
            because.values.iter().map(|(name, part)| (name.as_str(), value(part))).collect();
        self.say(&because.key, &values)
    }
}

/// All keys of this file, for the test that none is missing and none unused.
#[cfg(test)]
pub(super) const KEYS: [&str; 15] = [
    "pretest-on-single",
    "pretest-on-double",
    "pretest-passed",
    "pretest-not-passed",
    "pretest-incomplete",
    "pretest-why-critical",
    "pretest-why-major-again",
    "pretest-why-not-done",
    "pretest-why-out-of-time",
    "pretest-why-skill-below",
    "pretest-why-skill-not-shown",
    "pretest-why-total-below",
    "pretest-why-pauses",
    MISSING,
    "pretest-why-too-slow",
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::debrief::Ending;
    use crate::finding::Skill;

    #[test]
    fn every_reason_is_a_sentence_in_every_language() {
        let reasons = [
            Reason::Critical { part: 6, code: "load-spilled".into() },
            Reason::MajorAgain { code: "not-looking".into(), times: 2, limit: 1 },
            Reason::NotDone { part: 0, ending: Ending::Failed },
            Reason::SkillBelow { skill: Skill::Steering, points: 66.5, limit: 70.0 },
            Reason::SkillNotShown { skill: Skill::Leaving },
            Reason::TotalBelow { points: 79.9, limit: 80.0 },
            Reason::Pauses { pauses: 2, limit: 1 },
            Reason::Missing { part: 9 },
            Reason::TooSlow { part: 3, ratio: 0.9, limit: 0.95 },
            Reason::OutOfTime { part: 1, after_s: 180.0 },
        ];
        for lang in crate::words::LANGUAGES {
            let words = Words::new(lang);
            for reason in &reasons {
                let said = words.reason(reason);
                assert!(!said.contains(['[', '{']) && said.ends_with('.'), "{lang}: {said}");
            }
        }
        let said = |lang| Words::new(lang).reason(&reasons[3]);
        assert!(said("en").contains("66.5") && said("es").contains("66,5"));
        let late = Words::new("en").reason(&reasons[9]);
        assert!(late.contains("Part 2") && late.contains("180"), "{late}");
        assert!(Words::new("en").reason(&reasons[0]).contains('7'), "people count from 1");
    }
}
