//! Words for how a pre-test came out.

use super::{Value, Words, ending_key, skill_key};
use crate::pretest::{Outcome, Reason};

/// Key of the word for how a sitting came out.
pub fn outcome_key(outcome: Outcome) -> &'static str {
    match outcome {
        Outcome::Passed => "pretest-passed",
        Outcome::NotPassed => "pretest-not-passed",
        Outcome::Incomplete => "pretest-incomplete",
    }
}

impl Words {
    /// Why a sitting is not passed, in a sentence.
    pub fn reason(&self, reason: &Reason) -> String {
        let number = |value: f64, decimals| Value::from(self.number(value, decimals));
        let part = |part: &usize| ("part", Value::from(self.number(*part as f64 + 1.0, 0)));
        let skill = |skill| ("skill", Value::from(self.say(skill_key(skill), &[])));
        match reason {
            Reason::Critical { part: p, code } => {
                let what = Value::from(self.say(code, &[]));
                self.say("pretest-why-critical", &[part(p), ("what", what)])
            }
            Reason::NotDone { part: p, ending } => {
                let ending = Value::from(self.say(ending_key(*ending), &[]));
                self.say("pretest-why-not-done", &[part(p), ("ending", ending)])
            }
            Reason::SkillBelow { skill: s, points, limit } => self.say(
                "pretest-why-skill-below",
                &[skill(*s), ("points", number(*points, 1)), ("limit", number(*limit, 1))],
            ),
            Reason::SkillNotShown { skill: s } => {
                self.say("pretest-why-skill-not-shown", &[skill(*s)])
            }
            Reason::TotalBelow { points, limit } => self.say(
                "pretest-why-total-below",
                &[("points", number(*points, 1)), ("limit", number(*limit, 1))],
            ),
            Reason::Pauses { pauses, limit } => self.say(
                "pretest-why-pauses",
                &[
                    ("pauses", number(f64::from(*pauses), 0)),
                    ("limit", number(f64::from(*limit), 0)),
                ],
            ),
            Reason::Missing { part: p } => self.say("pretest-why-missing", &[part(p)]),
            Reason::TooSlow { part: p, ratio, limit } => self.say(
                "pretest-why-too-slow",
                &[
                    part(p),
                    ("ratio", number(100.0 * ratio, 1)),
                    ("limit", number(100.0 * limit, 1)),
                ],
            ),
        }
    }
}

/// All keys of this file, for the test that none is missing and none unused.
#[cfg(test)]
pub(super) const KEYS: [&str; 11] = [
    "pretest-passed",
    "pretest-not-passed",
    "pretest-incomplete",
    "pretest-why-critical",
    "pretest-why-not-done",
    "pretest-why-skill-below",
    "pretest-why-skill-not-shown",
    "pretest-why-total-below",
    "pretest-why-pauses",
    "pretest-why-missing",
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
            Reason::NotDone { part: 0, ending: Ending::TimeOut },
            Reason::SkillBelow { skill: Skill::Steering, points: 66.5, limit: 70.0 },
            Reason::SkillNotShown { skill: Skill::Leaving },
            Reason::TotalBelow { points: 79.9, limit: 80.0 },
            Reason::Pauses { pauses: 2, limit: 1 },
            Reason::Missing { part: 9 },
            Reason::TooSlow { part: 3, ratio: 0.9, limit: 0.95 },
        ];
        for lang in crate::words::LANGUAGES {
            let words = Words::new(lang);
            for reason in &reasons {
                let said = words.reason(reason);
                assert!(!said.contains(['[', '{']) && said.ends_with('.'), "{lang}: {said}");
            }
        }
        let said = |lang| Words::new(lang).reason(&reasons[2]);
        assert!(said("en").contains("66.5") && said("es").contains("66,5"));
        assert!(Words::new("en").reason(&reasons[0]).contains('7'), "people count from 1");
    }
}
