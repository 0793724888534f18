//! What people said of their own drive before its debrief opened, beside what was found: whoever notices their own
//! faults goes on noticing them where nobody tells (Swinnen 1990, from memory: results that come at once hurt
//! this ability).

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::attempt::Attempt;
use crate::debrief::Debrief;
use crate::finding::{Finding, Severity, Skill};

/// What people are asked about.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Asked {
    /// People and other trucks first.
    People,
    /// Horn, signs, looking.
    Looking,
    /// Starting, stopping and speed.
    Stopping,
    /// Everything else: line, forks, load, stance, checks, leaving.
    Tidy,
}

/// All of it, in the order in which it is asked.
pub const ASKED: [Asked; 4] = [Asked::People, Asked::Looking, Asked::Stopping, Asked::Tidy];

impl Asked {
    /// Where a fault of this code belongs.
    pub fn of(code: &str) -> Self {
        match code {
            "person-struck"
            | "person-near-miss"
            | "person-not-given-way"
            | "meeting-not-stopped"
            | "passed-truck-hidden"
            | "too-close-behind" => Self::People,
            "no-horn-moving-off"
            | "horn-misused"
            | "stop-line-run"
            | "yield-not-slowed"
            | "no-horn-at-blind-spot"
            | "not-looking"
            | "not-looked-before-entry"
            | "too-fast-at-blind-spot"
            | "outruns-sight"
            | "load-hides-view" => Self::Looking,
            "plugging-ran-back"
            | "plugging-jerk"
            | "brake-arm-as-service"
            | "throttle-snatched"
            | "emergency-late"
            | "other-brake-used"
            | "missed-mark"
            | "wrong-way-command"
            | "wrong-first-reaction"
            | "over-speed"
            | "corner-speed"
            | "wet-not-slowed"
            | "grade-too-fast"
            | "high-speed-in-traffic" => Self::Stopping,
            _ => Self::Tidy,
        }
    }

    /// The skills of which one at least was shown where this is asked.
    fn skills(self) -> &'static [Skill] {
        match self {
            Self::People | Self::Looking => &[Skill::RightOfWay],
            Self::Stopping => &[Skill::StartingAndStopping, Skill::SpeedAndRoom],
            Self::Tidy => &[
                Skill::Steering,
                Skill::ForksAndLoad,
                Skill::Mounting,
                Skill::Checking,
                Skill::Leaving,
            ],
        }
    }
}

/// What somebody said of a drive of theirs.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct Own {
    /// Fine, or not. What is not there was not said.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub fine: BTreeMap<Asked, bool>,
    /// The debrief has been opened: nothing can be said any more.
    #[serde(default)]
    pub closed: bool,
}

/// What can be asked of this drive: that of which something was shown. Empty where a drive shows no skill.
pub fn asked_of(debrief: &Debrief) -> Vec<Asked> {
    let shown =
        |skill: &Skill| debrief.skills.iter().any(|s| s.skill == *skill && s.opportunities > 0);
    ASKED.into_iter().filter(|asked| asked.skills().iter().any(shown)).collect()
}

/// How what was said stands to what was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Word {
    /// Fine, and nothing was found.
    Fine,
    /// Something was wrong, and something was found.
    Noticed,
    /// Fine, but something was found.
    Missed,
    /// Something was wrong, but nothing was found.
    TooHard,
}

/// One question with both answers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Compared {
    /// What was asked.
    pub asked: Asked,
    /// How many faults were found.
    pub found: usize,
    /// The worst of them.
    pub worst: Option<Severity>,
    /// What was said beside it; None where nothing was.
    pub word: Option<Word>,
}

/// What was said beside what was found, of everything that could be asked.
pub fn compared(own: &Own, debrief: &Debrief) -> Vec<Compared> {
    let faults = |asked: Asked| {
        let of_it = move |f: &&Finding| f.severity != Severity::Good && Asked::of(&f.code) == asked;
        debrief.findings.iter().filter(of_it)
    };
    let one = |asked: Asked| {
        let found = faults(asked).count();
        let word = own.fine.get(&asked).map(|fine| match (fine, found) {
            (true, 0) => Word::Fine,
            (true, _) => Word::Missed,
            (false, 0) => Word::TooHard,
            (false, _) => Word::Noticed,
        });
        Compared { asked, found, worst: faults(asked).map(|f| f.severity).max(), word }
    };
    asked_of(debrief).into_iter().map(one).collect()
}

/// How well people know how they drove, over many answers.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Knowing {
    /// Answers in which something was found.
    pub with_faults: u32,
    /// Of these, how many said so.
    pub noticed: u32,
    /// Answers in which nothing was found.
    pub without: u32,
    /// Of these, how many said that something was wrong.
    pub too_hard: u32,
}

impl Knowing {
    fn count(&mut self, word: Word) {
        match word {
            Word::Fine => self.without += 1,
            Word::TooHard => (self.without, self.too_hard) = (self.without + 1, self.too_hard + 1),
            Word::Missed => self.with_faults += 1,
            Word::Noticed => {
                (self.with_faults, self.noticed) = (self.with_faults + 1, self.noticed + 1);
            }
        }
    }

    /// Share of what was wrong that they noticed themselves, 0 to 1; None where nothing was wrong.
    pub fn share_noticed(&self) -> Option<f64> {
        (self.with_faults > 0).then(|| f64::from(self.noticed) / f64::from(self.with_faults))
    }
}

/// The same for each question over these attempts: of one person, or of a class. Slowed practice and what is not
/// what it says it is tell nothing of anybody.
pub fn knowing<'a>(attempts: impl IntoIterator<Item = &'a Attempt>) -> BTreeMap<Asked, Knowing> {
    let mut all = BTreeMap::<Asked, Knowing>::new();
    for attempt in attempts.into_iter().filter(|a| a.shows_skill()) {
        let Some(own) = &attempt.own else { continue };
        for Compared { asked, word, .. } in compared(own, &attempt.verdict.debrief) {
            if let Some(word) = word {
                all.entry(asked).or_default().count(word);
            }
        }
    }
    all
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::class::contract;
    use crate::class::{read_record, write_record};
    use crate::debrief::SkillResult;
    use crate::finding::Unit;
    use crate::math::vec2;
    use crate::rules::{DUTIES, SiteRules};

    fn finding(code: &str, severity: Severity) -> Finding {
        Finding {
            code: code.to_owned(),
            severity,
            from: 64,
            to: 64,
            measured: 1.0,
            limit: 0.5,
            unit: Unit::Metre,
            at: vec2(0.0, 0.0),
            before: None,
            cause: None,
            point: None,
        }
    }

    fn shown(skill: Skill, opportunities: u32) -> SkillResult {
        SkillResult { skill, points: Some(100.0), opportunities, clean: opportunities, weight: 1.0 }
    }

    /// A drive with these faults in which right of way and steering were shown.
    fn attempt(codes: &[&str], own: Option<Own>) -> Attempt {
        let mut attempt = contract::attempt("a");
        let debrief = &mut attempt.verdict.debrief;
        debrief.skills = vec![
            shown(Skill::RightOfWay, 3),
            shown(Skill::Steering, 2),
            shown(Skill::StartingAndStopping, 0),
        ];
        debrief.findings = codes.iter().map(|c| finding(c, Severity::Major)).collect();
        debrief.findings.push(finding("clean-lap", Severity::Good));
        Attempt { own, ..attempt }
    }

    fn said(fine: &[(Asked, bool)]) -> Option<Own> {
        Some(Own { fine: fine.iter().copied().collect(), closed: true })
    }

    #[test]
    fn every_fault_belongs_where_its_skill_is_asked_about() {
        let rules = SiteRules::shipped();
        for duty in DUTIES.iter().filter(|d| !d.good) {
            let asked = Asked::of(duty.code);
            let skill = rules.rules[duty.code].skill;
            // A wrong first reaction and blind speed are asked about where people think of them.
            let elsewhere = [
                "too-fast-at-blind-spot",
                "outruns-sight",
                "load-hides-view",
                "too-close-behind",
                "missed-mark",
                "corner-speed",
                "grade-too-fast",
            ];
            let belongs = asked.skills().contains(&skill)
                || elsewhere.contains(&duty.code)
                || asked == Asked::Tidy;
            assert!(belongs, "{}: {asked:?} {skill:?}", duty.code);
        }
        // A name that no rule has would be asked about as what it is not.
        let named = ["person-struck", "horn-misused", "plugging-jerk", "passed-truck-hidden"];
        assert!(named.iter().all(|code| DUTIES.iter().any(|d| d.code == *code)));
    }

    #[test]
    fn only_what_was_shown_is_asked() {
        let drive = attempt(&[], None);
        let asked = asked_of(&drive.verdict.debrief);
        assert_eq!(asked, [Asked::People, Asked::Looking, Asked::Tidy]);
        assert_eq!(asked_of(&contract::attempt("b").verdict.debrief), []);
    }

    #[test]
    fn what_was_said_stands_beside_what_was_found() {
        let own = said(&[(Asked::People, true), (Asked::Looking, false)]);
        let drive = attempt(&["person-near-miss", "stop-line-run", "contact-cone"], own);
        let both = compared(drive.own.as_ref().unwrap(), &drive.verdict.debrief);
        let words: Vec<_> = both.iter().map(|c| (c.asked, c.found, c.word)).collect();
        assert_eq!(
            words,
            [
                (Asked::People, 1, Some(Word::Missed)),
                (Asked::Looking, 1, Some(Word::Noticed)),
                (Asked::Tidy, 1, None),
            ]
        );
        let own = said(&[(Asked::People, true), (Asked::Looking, false)]);
        let clean = attempt(&[], own);
        let both = compared(clean.own.as_ref().unwrap(), &clean.verdict.debrief);
        assert_eq!((both[0].word, both[1].word), (Some(Word::Fine), Some(Word::TooHard)));
        assert_eq!((both[0].worst, both[0].found), (None, 0), "a good deed is no fault");
    }

    #[test]
    fn how_well_people_know_themselves_is_counted() {
        let drives = [
            attempt(&["person-near-miss"], said(&[(Asked::People, true)])),
            attempt(&["person-near-miss"], said(&[(Asked::People, false)])),
            attempt(&[], said(&[(Asked::People, false)])),
            attempt(&[], said(&[(Asked::People, true)])),
            attempt(&["person-near-miss"], None),
            Attempt { pace: 0.5, ..attempt(&["person-near-miss"], said(&[(Asked::People, true)])) },
        ];
        let all = knowing(&drives);
        let people = Knowing { with_faults: 2, noticed: 1, without: 2, too_hard: 1 };
        assert_eq!(all, BTreeMap::from([(Asked::People, people)]));
        assert_eq!(people.share_noticed(), Some(0.5));
        assert_eq!(Knowing::default().share_noticed(), None);
    }

    #[test]
    fn an_attempt_keeps_what_was_said_and_one_from_before_has_nothing() {
        let drive = attempt(&[], said(&[(Asked::Looking, true)]));
        let text = write_record(&drive).unwrap();
        assert_eq!(read_record::<Attempt>(&text), Ok(drive));
        let without = write_record(&attempt(&[], None)).unwrap();
        assert!(!without.contains("\"own\""), "{without}");
        assert_eq!(read_record::<Attempt>(&without).unwrap().own, None);
    }
}
