//! When somebody is to practise again, and what is due by 29 CFR 1910.178(l)(4), each with its reason.
//!
//! These are defaults: local codes and the employer's rules come first, and whether somebody may drive is for competent
//! people to say, who see that person on the truck.

use serde::{Deserialize, Serialize};

use super::date::Date;

/// A hint: half of what practice gained is gone after about half a year (S. Tatel and P. Ackerman, on the decay of
/// procedural skills, of accuracy; from memory).
pub const PRACTISE_AFTER_MONTHS: u16 = 6;
/// An operator's performance is evaluated at least once every three years: 1910.178(l)(4)(iii).
pub const EVALUATE_AFTER_MONTHS: u16 = 36;

/// What makes refresher training due: 1910.178(l)(4)(ii), (A) to (E).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Cause {
    /// (A): somebody saw them operate the truck in an unsafe manner.
    UnsafeSeen,
    /// (B): an accident or a near miss.
    AccidentOrNearMiss,
    /// (C): an evaluation showed that they do not operate the truck safely.
    EvaluationUnsafe,
    /// (D): they are to drive a different type of truck.
    OtherTruck,
    /// (E): something in the workplace has changed that can affect safe operation.
    WorkplaceChanged,
}

impl Cause {
    /// All, in the order of the paragraph.
    pub const ALL: [Self; 5] = [
        Self::UnsafeSeen,
        Self::AccidentOrNearMiss,
        Self::EvaluationUnsafe,
        Self::OtherTruck,
        Self::WorkplaceChanged,
    ];

    /// Where it stands.
    pub fn citation(self) -> &'static str {
        match self {
            Self::UnsafeSeen => "29 CFR 1910.178(l)(4)(ii)(A)",
            Self::AccidentOrNearMiss => "29 CFR 1910.178(l)(4)(ii)(B)",
            Self::EvaluationUnsafe => "29 CFR 1910.178(l)(4)(ii)(C)",
            Self::OtherTruck => "29 CFR 1910.178(l)(4)(ii)(D)",
            Self::WorkplaceChanged => "29 CFR 1910.178(l)(4)(ii)(E)",
        }
    }
}

/// What is known of somebody and one truck.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Past {
    /// The last drive here.
    pub practised: Option<Date>,
    /// The last training, first or refresher.
    pub trained: Option<Date>,
    /// The last evaluation on the truck in the workplace.
    pub evaluated: Option<Date>,
    /// What happened, and when.
    pub happened: Vec<(Date, Cause)>,
}

/// Why something is due.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "why", content = "cause")]
pub enum Why {
    /// Refresher training: something happened, and nobody trained them since.
    Refresher(Cause),
    /// An evaluation: they were never evaluated; 1910.178(l)(2)(ii) asks for it as a part of training.
    NeverEvaluated,
    /// An evaluation: they were trained again, and nobody looked since whether it helped; 1910.178(l)(4)(i).
    TrainedSince,
    /// An evaluation: three years have passed; 1910.178(l)(4)(iii).
    ThreeYears,
    /// A hint and no rule: half a year without practice.
    HalfAYear,
}

impl Why {
    /// Where it stands; a hint has no paragraph.
    pub fn citation(self) -> &'static str {
        match self {
            Self::Refresher(cause) => cause.citation(),
            Self::NeverEvaluated => "29 CFR 1910.178(l)(2)(ii)",
            Self::TrainedSince => "29 CFR 1910.178(l)(4)(i)",
            Self::ThreeYears => "29 CFR 1910.178(l)(4)(iii)",
            Self::HalfAYear => "published finding, no rule",
        }
    }

    /// It is a hint and no rule.
    pub fn is_hint(self) -> bool {
        self == Self::HalfAYear
    }
}

/// What is due.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub struct Due {
    /// From this day on; None where it has been due from the first, and no day tells it.
    pub on: Option<Date>,
    /// Why.
    #[serde(flatten)]
    pub why: Why,
}

impl Due {
    /// It is due on this day already.
    pub fn is_due(&self, today: Date) -> bool {
        self.on.is_none_or(|on| on <= today)
    }
}

/// What is or will be due, by its day; of one cause only what happened first since the last training. Who has never
/// driven here nor been trained is due an evaluation before they drive, and nothing else.
pub fn due(past: &Past) -> Vec<Due> {
    let mut due = Vec::new();
    // Training on the very day of what happened may have come before it: only a later day is certainly after.
    let open = |on: &Date| past.trained.is_none_or(|trained| *on >= trained);
    for cause in Cause::ALL {
        let days =
            past.happened.iter().filter(|(on, is)| *is == cause && open(on)).map(|(on, _)| *on);
        due.extend(days.min().map(|on| Due { on: Some(on), why: Why::Refresher(cause) }));
    }
    match (past.evaluated, past.trained) {
        (None, trained) => due.push(Due { on: trained, why: Why::NeverEvaluated }),
        (Some(evaluated), Some(trained)) if trained > evaluated => {
            due.push(Due { on: Some(trained), why: Why::TrainedSince });
        }
        (Some(evaluated), _) => {
            let on = evaluated.months_later(EVALUATE_AFTER_MONTHS);
            due.push(Due { on: Some(on), why: Why::ThreeYears });
        }
    }
    let last = past.practised.max(past.trained);
    due.extend(last.map(|last| Due {
        on: Some(last.months_later(PRACTISE_AFTER_MONTHS)),
        why: Why::HalfAYear,
    }));
    due.sort();
    due
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(text: &str) -> Date {
        Date::read(text).unwrap()
    }

    fn told(past: &Past) -> Vec<(String, Why)> {
        let on = |d: &Due| d.on.map(|on| on.to_string()).unwrap_or_default();
        due(past).iter().map(|d| (on(d), d.why)).collect()
    }

    fn trained_and_evaluated() -> Past {
        Past {
            practised: Some(day("2026-03-01")),
            trained: Some(day("2026-03-02")),
            evaluated: Some(day("2026-03-05")),
            happened: vec![],
        }
    }

    #[test]
    fn practice_is_a_hint_after_half_a_year_and_evaluation_is_due_after_three() {
        let past = trained_and_evaluated();
        let should = [("2026-09-02", Why::HalfAYear), ("2029-03-05", Why::ThreeYears)]
            .map(|(d, w)| (d.to_owned(), w));
        assert_eq!(told(&past), should);
        let all = due(&past);
        assert!(!all[0].is_due(day("2026-09-01")) && all[0].is_due(day("2026-09-02")));
        assert!(!all[1].is_due(day("2029-03-04")) && all[1].is_due(day("2029-03-05")));
        assert!(all[0].why.is_hint() && !all[1].why.is_hint());
        let drove_since = Past { practised: Some(day("2026-06-30")), ..past };
        assert_eq!(told(&drove_since)[0], ("2026-12-30".to_owned(), Why::HalfAYear));
    }

    #[test]
    fn who_was_never_evaluated_is_due_at_once() {
        assert_eq!(told(&Past::default()), [(String::new(), Why::NeverEvaluated)]);
        assert!(due(&Past::default())[0].is_due(day("1950-01-01")));
        let trained = Past { evaluated: None, ..trained_and_evaluated() };
        assert_eq!(told(&trained)[0], ("2026-03-02".to_owned(), Why::NeverEvaluated));
    }

    #[test]
    fn each_cause_makes_a_refresher_due_until_somebody_was_trained_later() {
        for cause in Cause::ALL {
            let on = |happened: &str| {
                let past =
                    Past { happened: vec![(day(happened), cause)], ..trained_and_evaluated() };
                let is = told(&past);
                is.into_iter().find(|(_, why)| *why == Why::Refresher(cause)).map(|(day, _)| day)
            };
            assert_eq!(on("2026-03-01"), None, "trained since");
            assert_eq!(on("2026-03-02").as_deref(), Some("2026-03-02"), "the same day");
            assert_eq!(on("2026-04-01").as_deref(), Some("2026-04-01"));
            assert!(Why::Refresher(cause).citation().starts_with("29 CFR 1910.178(l)(4)(ii)("));
        }
        let twice = vec![
            (day("2026-05-02"), Cause::UnsafeSeen),
            (day("2026-04-02"), Cause::UnsafeSeen),
            (day("2026-04-03"), Cause::AccidentOrNearMiss),
        ];
        let is = told(&Past { happened: twice, ..trained_and_evaluated() });
        assert_eq!(is[0], ("2026-04-02".to_owned(), Why::Refresher(Cause::UnsafeSeen)));
        assert_eq!(is[1], ("2026-04-03".to_owned(), Why::Refresher(Cause::AccidentOrNearMiss)));
        assert_eq!(is.len(), 4);
    }

    #[test]
    fn after_a_refresher_somebody_looks_whether_it_helped() {
        let past = Past { trained: Some(day("2026-05-01")), ..trained_and_evaluated() };
        let is = told(&past);
        assert_eq!(is[0], ("2026-05-01".to_owned(), Why::TrainedSince));
        assert!(!is.iter().any(|(_, why)| *why == Why::ThreeYears));
        let looked = Past { evaluated: Some(day("2026-05-01")), ..past };
        assert!(
            told(&looked).iter().any(|(on, why)| *why == Why::ThreeYears && on == "2029-05-01")
        );
    }

    #[test]
    fn what_is_due_can_be_written_and_read() {
        let past =
            Past { happened: vec![(day("2026-05-02"), Cause::OtherTruck)], ..Past::default() };
        let all = due(&past);
        let text = serde_json::to_string(&all).unwrap();
        assert!(
            text.contains(r#"{"on":"2026-05-02","why":"refresher","cause":"other-truck"}"#),
            "{text}"
        );
        assert_eq!(serde_json::from_str::<Vec<Due>>(&text).unwrap(), all);
    }
}
