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
    wilson_when(r, n, 1.0)
}

/// The same where opportunities hang together, so that all of them tell as much as a number of independent ones
/// that is smaller by this factor, 1 and more: see [`design_effect`].
pub fn wilson_when(r: u32, n: u32, effect: f64) -> Option<(f64, f64)> {
    if n == 0 || r > n {
        return None;
    }
    let (r, n, z) = (f64::from(r) / effect, f64::from(n) / effect, Z_95);
    let p = r / n;
    let middle = 2.0 * n * p + z * z;
    let half = z * (z * z + 4.0 * n * p * (1.0 - p)).sqrt();
    let below = 2.0 * (n + z * z);
    // At the ends the exact value is 0 or 1; rounding must not say otherwise.
    let lower = if r == 0.0 { 0.0 } else { (middle - half) / below };
    let upper = if r == n { 1.0 } else { (middle + half) / below };
    Some((lower, upper))
}

/// By how much opportunities that hang together within runs tell less than as many independent ones, 1 and more; from
/// the clean ones and all of them by run. 1 where nothing can be told: of one run, and where all were clean or none.
///
/// It is Pearson's chi-square of the runs over what it comes to on the average when the same misses fall on any
/// opportunities: (R - 1) n / (n - 1) for R runs with n opportunities. That a share's sample is divided by such a
/// factor: J. N. K. Rao and A. J. Scott, A simple method for the analysis of clustered binary data, Biometrics 48,
/// 1992, 577-585 (from memory).
pub fn design_effect(runs: &[(u32, u32)]) -> f64 {
    let runs = || runs.iter().filter(|(r, n)| *n > 0 && r <= n);
    let (of, r, n) = runs().fold((0_u32, 0.0, 0.0), |(of, r, n), (ri, ni)| {
        (of + 1, r + f64::from(*ri), n + f64::from(*ni))
    });
    if of < 2 || r == 0.0 || r == n {
        return 1.0;
    }
    let p = r / n;
    let square = |(ri, ni): &(u32, u32)| {
        let off = f64::from(*ri) - f64::from(*ni) * p;
        off * off / (f64::from(*ni) * p * (1.0 - p))
    };
    let mean = f64::from(of - 1) * n / (n - 1.0);
    (runs().map(square).sum::<f64>() / mean).max(1.0)
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
    readiness_when(clean, opportunities, 1.0, ready_from)
}

/// The same where opportunities hang together by this factor: see [`design_effect`].
pub fn readiness_when(clean: u32, opportunities: u32, effect: f64, ready_from: f64) -> Readiness {
    let Some((lower, upper)) = wilson_when(clean, opportunities, effect) else {
        return Readiness::NotEnoughShown;
    };
    if lower >= ready_from {
        return Readiness::Ready;
    }
    let best = wilson_when(opportunities, opportunities, effect);
    let too_few = best.is_none_or(|best| best.0 < ready_from);
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

    /// Of a hypergeometric table with R rows and n in all, Pearson's chi-square has the mean (R - 1) n / (n - 1):
    /// here by placing the misses in every way there is. The factor is what is above that mean.
    #[test]
    fn misses_that_fall_anywhere_have_the_factor_one_on_the_average() {
        let sizes = [2_u32, 3, 4];
        let (mut sum, mut ways) = (0.0, 0.0);
        // Three misses among nine opportunities.
        for placed in (0_u32..512).filter(|set| set.count_ones() == 3) {
            let runs: Vec<(u32, u32)> = [(placed & 3, 2), (placed >> 2 & 7, 3), (placed >> 5, 4)]
                .into_iter()
                .map(|(misses, n)| (n - misses.count_ones(), n))
                .collect();
            assert_eq!(runs.iter().map(|r| r.1).collect::<Vec<_>>(), sizes);
            let p = 6.0 / 9.0;
            let off = |(r, n): &(u32, u32)| f64::from(*r) - f64::from(*n) * p;
            let square = |run| off(run) * off(run) / (f64::from(run.1) * p * (1.0 - p));
            let x2: f64 = runs.iter().map(square).sum();
            let factor = x2 / (2.0 * 9.0 / 8.0);
            assert!((design_effect(&runs) - factor.max(1.0)).abs() < 1e-12, "{runs:?}");
            (sum, ways) = (sum + factor, ways + 1.0);
        }
        assert!((sum / ways - 1.0_f64).abs() < 1e-12, "{sum} / {ways}");
    }

    #[test]
    fn what_hangs_together_tells_less_and_what_cannot_be_told_is_one() {
        for runs in [&[][..], &[(3, 9)], &[(5, 5), (9, 9)], &[(0, 5), (0, 9)], &[(1, 0), (7, 5)]] {
            assert_eq!(design_effect(runs), 1.0, "{runs:?}");
        }
        // A single miss in runs of equal length shows nothing of it.
        assert!((design_effect(&[(5, 5), (4, 5), (5, 5)]) - 1.0).abs() < 1e-12);
        // All or nothing: every run tells as much as one opportunity.
        let whole = design_effect(&[(10, 10), (0, 10), (10, 10), (10, 10)]);
        assert!((whole - 13.0).abs() < 1e-12, "40 / 3 runs less one, by 39 / 40: {whole}");
        let (apart, together) = (wilson(30, 40).unwrap(), wilson_when(30, 40, whole).unwrap());
        assert!(together.0 < apart.0 && together.1 > apart.1);
        assert_eq!(readiness(40, 44, 0.7), Readiness::Ready);
        assert_eq!(readiness_when(40, 44, 4.0, 0.7), Readiness::PractiseMore);
        // As if it were 8 of 8, which is too few.
        assert_eq!(readiness_when(16, 16, 2.0, 0.7), Readiness::NotEnoughShown);
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
            did: None,
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
