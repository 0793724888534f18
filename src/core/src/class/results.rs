//! What the attempts on one exercise come to, and what to drive next.

use super::attempt::Attempt;

/// The attempts of one person on one exercise.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Standing {
    /// The best attempt that counts.
    pub best: Option<Attempt>,
    /// The last attempt, whether it counts or not.
    pub last: Option<Attempt>,
    /// How many there are.
    pub tries: usize,
}

/// The same name, however it was typed: capitals and spaces around it tell nobody apart.
pub fn same_person(one: &str, other: &str) -> bool {
    one == other || plain_name(one) == plain_name(other)
}

/// A name as names are compared: without outer blanks and without case.
pub fn plain_name(who: &str) -> String {
    who.trim().to_lowercase()
}

/// What this person's attempts on this course come to. Attempts come oldest first.
pub fn standing(attempts: &[Attempt], course: &str, who: &str) -> Standing {
    let mut standing = Standing::default();
    // A part of a pre-test is no try at the exercise, on whichever side it was driven.
    let tries = |a: &&Attempt| a.course == course && same_person(&a.who, who) && a.place.is_none();
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

/// The exercise of somebody's very first drive.
const FIRST_DRIVE: &str = "first-drive";

/// Of these courses, in teaching order, the one to practise next: the first whose best result is
/// below this total, else the one with the lowest best result. Who has driven anything else has skipped
/// the first drive.
pub fn next_course(
    courses: &[&str],
    total: f64,
    attempts: &[Attempt],
    who: &str,
) -> Option<String> {
    let best = |id: &str| standing(attempts, id, who).best.and_then(|a| a.total()).unwrap_or(0.0);
    let is_first = |id: &&&str| **id == FIRST_DRIVE;
    let driven = |id: &&str| standing(attempts, id, who).best.is_some();
    let skips = courses.iter().filter(|id| !is_first(id)).any(driven);
    let asked = || courses.iter().filter(|id| !(skips && is_first(id)));
    let open = asked().find(|id| best(id) < total);
    let weakest = || asked().min_by(|a, b| best(a).total_cmp(&best(b)));
    open.or_else(weakest).map(|id| (*id).to_owned())
}

/// A text as a part of a file's name: nothing odd in it.
pub(super) fn plain(text: &str) -> String {
    let dashed = text.chars().map(|c| if c.is_alphanumeric() { c } else { '-' });
    dashed.map(|c| c.to_ascii_lowercase()).collect()
}

/// The helps rest in this person's next drive of this course: in every second one, once a drive of it was clean. What
/// is always helped is not learned (Schmidt and Wulf 1997, from memory).
pub fn helps_rest(attempts: &[Attempt], course: &str, who: &str) -> bool {
    let own = attempts.iter().filter(|a| {
        a.course == course && same_person(&a.who, who) && a.place.is_none() && !a.imported
    });
    let is_clean = |a: &&Attempt| {
        let bad = |f: &crate::finding::Finding| f.severity != crate::finding::Severity::Good;
        a.counts() && !a.verdict.debrief.findings.iter().any(bad)
    };
    // With the clean one itself: so the next one is the first without.
    own.skip_while(|a| !is_clean(a)).count() % 2 == 1
}

/// Name of the file a run is handed out as.
pub fn run_file_name(attempt: &Attempt) -> String {
    let date: String = attempt.started.chars().take(10).collect();
    let who = if attempt.who.is_empty() { "nobody".to_owned() } else { plain(&attempt.who) };
    format!("{}-{who}-{}.run.json", plain(&attempt.course), plain(&date))
}
