//! What points are called.

use coneyard_core::debrief::SkillResult;
use coneyard_core::reading::Terms;

use crate::words::k;

/// A word for so many points, by what a pre-test asks for: its total of the whole is well shown,
/// its mark of a single skill is enough.
pub(crate) fn points_word(points: f64, terms: Terms) -> &'static str {
    if points >= terms.pass_total {
        k("points-well")
    } else if points >= terms.pass_skill {
        k("points-enough")
    } else {
        k("points-practise")
    }
}

/// The word for a skill. Whose every second chance had a fault in it has not shown it well, however small
/// the faults were.
pub(crate) fn skill_word(result: &SkillResult, points: f64, terms: Terms) -> &'static str {
    let word = points_word(points, terms);
    let mostly_clean = 2 * result.clean >= result.opportunities;
    if word == k("points-well") && !mostly_clean { k("points-enough") } else { word }
}

#[cfg(test)]
mod tests {
    use coneyard_core::finding::Skill;

    use super::*;
    use crate::test_support::terms;

    #[test]
    fn a_word_never_praises_what_was_mostly_at_fault() {
        let terms = terms();
        let word = |points: f64, clean, opportunities| {
            let skill = Skill::Steering;
            let all = Some(points);
            let result = SkillResult { skill, points: all, opportunities, clean, weight: 1.0 };
            skill_word(&result, points, terms)
        };
        assert_eq!(word(96.0, 0, 1), "points-enough");
        assert_eq!(word(96.0, 1, 2), "points-well");
        assert_eq!(word(75.0, 0, 3), "points-enough");
        assert_eq!(word(0.0, 6, 8), "points-practise");
    }
}
