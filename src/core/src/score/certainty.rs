//! How sure a share is: Wilson's interval, and what follows from it: ready, practise more, or not
//! enough shown yet.
//!
//! One good run may be luck. Of `n` opportunities `r` were clean; the true share lies in this
//! interval with 95 % confidence. Few opportunities give a wide one. What is said of someone
//! follows from the interval's ends and never from the share itself.

use serde::{Deserialize, Serialize};

use crate::debrief::Debrief;
use crate::finding::Skill;
use crate::rules::SiteRules;
use crate::score::points::SKILLS;

/// The 0.975 quantile of the standard normal distribution.
pub const Z_95: f64 = 1.959963984540054;

/// Lower and upper end of Wilson's 95 % interval for `r` out of `n`; None without an opportunity
/// or with more hits than opportunities.
///
/// E. B. Wilson 1927; formula as in R. G. Newcombe, Statistics in Medicine 17, 1998, 857-872.
pub fn wilson(r: u32, n: u32) -> Option<(f64, f64)> {
    if n == 0 || r > n {
        return None;
    }
    let (r, n, z) = (f64::from(r), f64::from(n), Z_95);
    let p = r / n;
    let middle = 2.0 * n * p + z * z;
    let half = z * (z * z + 4.0 * n * p * (1.0 - p)).sqrt();
    let below = 2.0 * (n + z * z);
    // At the ends the exact value is 0 or 1; rounding must not say otherwise.
    let lower = if r == 0.0 { 0.0 } else { (middle - half) / below };
    let upper = if r == n { 1.0 } else { (middle + half) / below };
    Some((lower, upper))
}

/// How far someone is, in a skill or in all of them.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Readiness {
    /// Even the lower end of the interval is no lower than asked for.
    Ready,
    /// Enough was shown, and it was not good enough; or it is sure already that it will not be.
    PractiseMore,
    /// So few opportunities that even without a fault the lower end would be too low.
    NotEnoughShown,
}

/// What `clean` of so many `opportunities` say, when the interval's lower end must be no lower
/// than `ready_from`, share of one (the term "ready-from" of the site rules).
pub fn readiness(clean: u32, opportunities: u32, ready_from: f64) -> Readiness {
    let Some((lower, upper)) = wilson(clean, opportunities) else {
        return Readiness::NotEnoughShown;
    };
    if lower >= ready_from {
        return Readiness::Ready;
    }
    let too_few = wilson(opportunities, opportunities).is_none_or(|best| best.0 < ready_from);
    if too_few && upper >= ready_from { Readiness::NotEnoughShown } else { Readiness::PractiseMore }
}

/// What someone has shown of one skill over many drives.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Shown {
    /// Which.
    pub skill: Skill,
    /// Opportunities of all drives together.
    pub opportunities: u32,
    /// How many of these had no fault.
    pub clean: u32,
    /// Lower and upper end of the share of clean ones; None without an opportunity.
    pub interval: Option<(f64, f64)>,
    /// What follows.
    pub readiness: Readiness,
}

/// Each skill over someone's drives, in the order of the skills. All drives count alike: which of
/// them to look at is for the caller to choose. A skill of which these rules watch no fault is
/// left out, and so is a result that cannot be, with more clean opportunities than there were.
pub fn by_skill<'a>(
    debriefs: impl IntoIterator<Item = &'a Debrief>,
    rules: &SiteRules,
) -> Vec<Shown> {
    let mut sums = [(0u32, 0u32); SKILLS.len()];
    for result in debriefs.into_iter().flat_map(|d| &d.skills) {
        let place = SKILLS.iter().position(|s| *s == result.skill);
        if let Some(sum) = place.and_then(|i| sums.get_mut(i))
            && result.clean <= result.opportunities
        {
            sum.0 = sum.0.saturating_add(result.clean);
            sum.1 = sum.1.saturating_add(result.opportunities);
        }
    }
    SKILLS
        .iter()
        .zip(sums)
        .filter(|(skill, _)| rules.watches(**skill))
        .map(|(skill, (clean, opportunities))| Shown {
            skill: *skill,
            opportunities,
            clean,
            interval: wilson(clean, opportunities),
            readiness: readiness(clean, opportunities, rules.term("ready-from")),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::debrief::{Ending, SkillResult};

    /// R. G. Newcombe, Two-sided confidence intervals for the single proportion: comparison of
    /// seven methods, Statistics in Medicine 17, 1998, 857-872, Table I, score method without
    /// continuity correction, as printed to four decimals.
    #[test]
    fn the_published_examples_come_out() {
        for (r, n, lower, upper) in [
            (81, 263, 0.2553, 0.3662),
            (15, 148, 0.0624, 0.1605),
            (0, 20, 0.0000, 0.1611),
            (1, 29, 0.0061, 0.1718),
        ] {
            let (l, u) = wilson(r, n).expect("r is not above n");
            assert!((l - lower).abs() <= 0.00005 && (u - upper).abs() <= 0.00005, "{r}/{n}");
        }
    }

    /// Computed with the exact quantile by three independent programs that agree to 1e-12; see
    /// the design notes on the score interval.
    #[test]
    fn more_digits_come_out() {
        for (r, n, lower, upper) in [
            (81, 263, 0.2552885199, 0.3662095770),
            (15, 148, 0.0623863995, 0.1604872417),
            (5, 10, 0.2365930905, 0.7634069095),
            (10, 10, 0.7224672001, 1.0),
            (23, 60, 0.2708827237, 0.5098240418),
        ] {
            let (l, u) = wilson(r, n).expect("r is not above n");
            assert!((l - lower).abs() < 1e-10 && (u - upper).abs() < 1e-10, "{r}/{n}");
        }
    }

    #[test]
    fn the_ends_are_exact_and_nothing_says_nothing() {
        assert_eq!(wilson(0, 20).map(|i| i.0), Some(0.0));
        assert_eq!(wilson(20, 20).map(|i| i.1), Some(1.0));
        assert_eq!(wilson(0, 0), None);
        assert_eq!(wilson(2, 1), None);
    }

    #[test]
    fn readiness_follows_from_the_lower_end_and_not_from_the_share() {
        use Readiness::{NotEnoughShown, PractiseMore, Ready};
        for (clean, of, said) in [
            (0, 0, NotEnoughShown),
            // All clean, and still too few: 8/8 has its lower end at 0.676, 9/9 at 0.701.
            (1, 1, NotEnoughShown),
            (8, 8, NotEnoughShown),
            (9, 9, Ready),
            // The share is above 0.7 in all of these.
            (8, 9, PractiseMore),
            (25, 30, PractiseMore),
            (26, 30, Ready),
            (75, 100, PractiseMore),
            (79, 100, Ready),
            // Few, and one fault: more may still make up for it.
            (4, 5, NotEnoughShown),
            // Few, and even the upper end is too low: 0/3 has it at 0.562.
            (0, 3, PractiseMore),
            (u32::MAX, u32::MAX, Ready),
            (0, u32::MAX, PractiseMore),
            // There is no such share.
            (2, 1, NotEnoughShown),
        ] {
            assert_eq!(readiness(clean, of, 0.7), said, "{clean}/{of}");
        }
    }

    /// The lower end itself is enough.
    #[test]
    fn the_limit_itself_is_ready() {
        let (lower, _) = wilson(26, 30).expect("r is not above n");
        assert_eq!(readiness(26, 30, lower), Readiness::Ready);
        assert_eq!(readiness(26, 30, lower + 1e-12), Readiness::PractiseMore);
    }

    proptest::proptest! {
        #[test]
        fn more_clean_ones_never_set_anyone_back(n in 0u32..400, r in 0u32..400, from in 0.1f64..0.99) {
            let step = |r| match readiness(r, n, from) {
                Readiness::PractiseMore => 0,
                Readiness::NotEnoughShown => 1,
                Readiness::Ready => 2,
            };
            proptest::prop_assume!(r < n);
            proptest::prop_assert!(step(r) <= step(r + 1));
        }
    }

    fn debrief(results: &[(Skill, u32, u32)]) -> Debrief {
        let result = |&(skill, clean, opportunities): &(Skill, u32, u32)| SkillResult {
            skill,
            points: Some(100.0),
            opportunities,
            clean,
            weight: 1.0,
        };
        Debrief {
            ending: Ending::Done,
            ticks: 640,
            total: Some(100.0),
            skills: results.iter().map(result).collect(),
            findings: vec![],
            practise: None,
            changed_rules: vec![],
        }
    }

    #[test]
    fn drives_are_added_up_by_skill() {
        let rules = SiteRules::shipped();
        let drives = [
            debrief(&[(Skill::Steering, 9, 10), (Skill::Leaving, 1, 1), (Skill::Mounting, 5, 4)]),
            debrief(&[(Skill::Steering, 17, 20), (Skill::Leaving, u32::MAX, u32::MAX)]),
        ];
        let shown = by_skill(&drives, &rules);
        assert_eq!(shown.iter().map(|s| s.skill).collect::<Vec<_>>(), SKILLS);
        let of = |skill| shown.iter().find(|s| s.skill == skill).expect("watched");
        let steering = of(Skill::Steering);
        assert_eq!((steering.clean, steering.opportunities), (26, 30));
        assert_eq!((steering.interval, steering.readiness), (wilson(26, 30), Readiness::Ready));
        assert_eq!(of(Skill::Leaving).opportunities, u32::MAX);
        // What cannot be counts for nothing, and what was never shown is not ready.
        assert_eq!((of(Skill::Mounting).opportunities, of(Skill::Mounting).interval), (0, None));
        assert_eq!(of(Skill::Checking).readiness, Readiness::NotEnoughShown);
    }

    #[test]
    fn a_skill_that_the_site_does_not_watch_holds_nobody_back() {
        let mut rules = SiteRules::shipped();
        for rule in rules.rules.values_mut().filter(|r| r.skill != Skill::Steering) {
            rule.on = false;
        }
        let shown = by_skill(&[debrief(&[(Skill::Steering, 40, 40)])], &rules);
        assert_eq!(shown.len(), 1);
        assert_eq!(shown[0].readiness, Readiness::Ready);
    }
}
