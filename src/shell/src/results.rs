//! What the attempts on one exercise come to, and what to drive next.

use coneyard_core::finding::Skill;
use coneyard_core::score::points::SKILLS;

use crate::courses::Library;
use crate::store::Attempt;

/// The attempts of one person on one exercise.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Standing {
    /// The best attempt that counts.
    pub(crate) best: Option<Attempt>,
    /// The last attempt, whether it counts or not.
    pub(crate) last: Option<Attempt>,
    /// How many there are.
    pub(crate) tries: usize,
}

/// What this person's attempts on this course come to. Attempts come oldest first.
pub(crate) fn standing(attempts: &[Attempt], course: &str, who: &str) -> Standing {
    let mut standing = Standing::default();
    // A part of a pre-test is no try at the exercise, on whichever side it was driven.
    let tries = |a: &&Attempt| a.course == course && a.who == who && a.place.is_none();
    for attempt in attempts.iter().filter(tries) {
        standing.tries += 1;
        standing.last = Some(attempt.clone());
        let beats = |best: &Attempt| {
            let points = |a: &Attempt| a.total().unwrap_or(0.0);
            points(attempt) > points(best)
                || points(attempt) == points(best)
                    && attempt.verdict.debrief.ticks < best.verdict.debrief.ticks
        };
        if attempt.counts() && standing.best.as_ref().is_none_or(beats) {
            standing.best = Some(attempt.clone());
        }
    }
    standing
}

/// By skill, in their order: clean opportunities and all opportunities over these attempts
/// together. A skill without an opportunity is left out, and so are slowed practice and what is not
/// what it says it is.
pub(crate) fn shares(attempts: &[Attempt]) -> Vec<(Skill, u32, u32)> {
    SKILLS
        .into_iter()
        .filter_map(|skill| {
            let shown = attempts
                .iter()
                .filter(|a| a.shows_skill())
                .flat_map(|a| &a.verdict.debrief.skills)
                .filter(|s| s.skill == skill);
            let (clean, all) =
                shown.fold((0, 0), |(clean, all), s| (clean + s.clean, all + s.opportunities));
            (all > 0).then_some((skill, clean, all))
        })
        .collect()
}

/// The exercise to practise next: the first in teaching order whose best result is below the total
/// that a pre-test asks for, else the one with the lowest best result.
pub(crate) fn next_course(library: &Library, attempts: &[Attempt], who: &str) -> Option<String> {
    let best = |id: &str| standing(attempts, id, who).best.and_then(|a| a.total()).unwrap_or(0.0);
    let ids = || library.courses.iter().map(|c| c.course.id.as_str());
    let open = ids().find(|id| best(id) < library.marks.total);
    let weakest = || ids().min_by(|a, b| best(a).total_cmp(&best(b)));
    open.or_else(weakest).map(ToOwned::to_owned)
}

/// Name of the file a run is handed out as.
pub(crate) fn run_file_name(attempt: &Attempt) -> String {
    let plain = |text: &str| -> String {
        let dashed: String =
            text.chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
        dashed.to_ascii_lowercase()
    };
    let date: String = attempt.started.chars().take(10).collect();
    let who = if attempt.who.is_empty() { "nobody".to_owned() } else { plain(&attempt.who) };
    format!("{}-{who}-{}.run.json", plain(&attempt.course), plain(&date))
}

#[cfg(test)]
mod tests {
    use super::*;
    use coneyard_core::debrief::{Debrief, Ending, SkillResult};
    use coneyard_core::run::Verdict;

    fn attempt(id: &str, course: &str, ending: Ending, total: f64, ticks: u32) -> Attempt {
        Attempt {
            id: id.into(),
            course: course.into(),
            truck: "single".into(),
            who: "Alder".into(),
            started: String::new(),
            imported: false,
            place: None,
            time_ratio: None,
            pace: 1.0,
            simulation: None,
            verdict: Verdict {
                reproduces: true,
                first_difference_s: None,
                debrief_agrees: true,
                debrief: Debrief {
                    ending,
                    ticks,
                    total: Some(total),
                    skills: vec![],
                    findings: vec![],
                    practise: None,
                    changed_rules: vec![],
                },
                final_digest: String::new(),
            },
        }
    }

    #[test]
    fn opportunities_of_all_attempts_are_counted_together() {
        let shown = |skill, clean, opportunities| SkillResult {
            skill,
            points: (opportunities > 0).then_some(90.0),
            opportunities,
            clean,
            weight: 1.0,
        };
        let driven = |skills, reproduces| {
            let mut a = attempt("a", "straight", Ending::Broken, 50.0, 64);
            a.verdict.debrief.skills = skills;
            a.verdict.reproduces = reproduces;
            a
        };
        let attempts = [
            driven(vec![shown(Skill::Steering, 3, 4), shown(Skill::Mounting, 0, 1)], true),
            driven(vec![shown(Skill::Steering, 5, 5), shown(Skill::Leaving, 0, 0)], true),
            driven(vec![shown(Skill::Steering, 100, 100)], false),
        ];
        assert_eq!(shares(&attempts), [(Skill::Mounting, 0, 1), (Skill::Steering, 8, 9)]);
        assert!(shares(&[]).is_empty());
    }

    #[test]
    fn the_best_is_done_to_the_end_and_the_quicker_of_equals() {
        let attempts = [
            attempt("a", "straight", Ending::Done, 90.0, 900),
            attempt("b", "straight", Ending::Broken, 100.0, 10),
            attempt("c", "straight", Ending::Done, 90.0, 800),
            attempt("d", "straight", Ending::Done, 60.0, 700),
            attempt("e", "slalom", Ending::Done, 99.0, 700),
        ];
        let s = standing(&attempts, "straight", "Alder");
        assert_eq!(s.tries, 4);
        assert_eq!(s.best.map(|a| a.id), Some("c".into()));
        assert_eq!(s.last.map(|a| a.id), Some("d".into()));
        assert_eq!(standing(&attempts, "straight", "Birch"), Standing::default());
    }

    #[test]
    fn a_part_of_a_pre_test_is_no_try_at_the_exercise() {
        let mut part = attempt("a", "straight", Ending::Done, 100.0, 1);
        part.place = Some(crate::store::Place { sitting: "s".into(), part: 0 });
        assert_eq!(standing(&[part], "straight", "Alder"), Standing::default());
    }

    #[test]
    fn slowed_practice_is_nobodys_best_and_shows_no_skill() {
        let at = |pace| {
            let mut a = attempt("a", "straight", Ending::Done, 100.0, 1);
            a.verdict.debrief.skills = vec![SkillResult {
                skill: Skill::Steering,
                points: Some(100.0),
                opportunities: 1,
                clean: 1,
                weight: 1.0,
            }];
            a.pace = pace;
            [a]
        };
        let slowed = standing(&at(0.999), "straight", "Alder");
        assert_eq!((slowed.best, slowed.tries), (None, 1));
        assert!(shares(&at(0.999)).is_empty());
        assert!(standing(&at(1.0), "straight", "Alder").best.is_some());
        assert_eq!(shares(&at(1.0)), [(Skill::Steering, 1, 1)]);
    }

    #[test]
    fn a_run_that_does_not_reproduce_is_nobodys_best() {
        let mut forged = attempt("a", "straight", Ending::Done, 100.0, 1);
        forged.verdict.reproduces = false;
        let s = standing(&[forged], "straight", "Alder");
        assert_eq!((s.best, s.tries), (None, 1));
    }

    #[test]
    fn a_file_name_holds_course_person_and_day_and_nothing_odd() {
        let text = r#"{"id":"a","course":"figure-eight","truck":"single","who":"Alder / B",
            "started":"2026-01-02T03:04:05Z","imported":false,"verdict":{"reproduces":true,
            "first_difference_s":null,"debrief_agrees":true,"final_digest":"","debrief":{
            "ending":"done","ticks":1,"total":null,"skills":[],"findings":[],"practise":null,
            "changed_rules":[]}}}"#;
        let attempt: Attempt = serde_json::from_str(text).unwrap();
        assert_eq!(run_file_name(&attempt), "figure-eight-alder---b-2026-01-02.run.json");
    }
}
