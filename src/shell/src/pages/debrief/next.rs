//! What to drive after this: the same once more, or what comes next.

use coneyard_core::debrief::Debrief;
use coneyard_core::debrief::Ending;
use coneyard_core::finding::Skill;
use coneyard_core::reading::Terms;
use coneyard_core::words::skill_key;
use leptos::prelude::*;

use crate::courses::{Library, said, use_library};
use crate::parts::round::is_practice_walk;
use crate::route::Route;
use crate::store::{Attempt, use_store};
use crate::words::{k, say, say_with, text};

/// Why the same should be driven once more.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Again {
    /// It was not driven to its end.
    NotDone,
    /// This skill, which the exercise asks for, is not good enough yet.
    Practise(Skill),
    /// It is good enough.
    No,
}

/// Whether to drive the same again, by what a pre-test asks for. What lost points here is asked for here, so
/// it is practised here.
pub(super) fn again(debrief: &Debrief, counts: bool, terms: Terms) -> Again {
    if debrief.ending != Ending::Done {
        return Again::NotDone;
    }
    let is_enough = debrief.total.is_none_or(|t| t >= terms.pass_total)
        && debrief.skills.iter().all(|s| s.points.is_none_or(|p| p >= terms.pass_skill));
    match debrief.practise {
        Some(skill) if !is_enough || !counts => Again::Practise(skill),
        _ if counts => Again::No,
        _ => Again::NotDone,
    }
}

/// The exercise that comes next in the order for who drove this, when it is another one: title and address.
pub(super) fn another(attempt: &Attempt) -> Option<(String, String)> {
    let store = use_store();
    use_library().find(|library| {
        let next = store.attempts.with(|all| library.next(all, &attempt.who))?;
        let course = &library.course(&next).filter(|_| next != attempt.course)?.course;
        let truck = Library::truck_for(course, &attempt.truck);
        Some((said(&course.title), Route::Drive { course: next, truck }.href()))
    })
}

/// What to do now in a sentence, with the one filled button of the page, and the other way as a quiet one.
#[component]
pub(super) fn Next(attempt: Attempt) -> impl IntoView {
    let library = use_library();
    let same = Route::Drive { course: attempt.course.clone(), truck: attempt.truck.clone() }.href();
    let next_truck = is_practice_walk(&attempt);
    let again_key = if next_truck { k("debrief-next-truck") } else { k("debrief-again") };
    move || {
        let Some(terms) = library.terms() else {
            // What this site asks for is on its way.
            return view! {
                <a class="button" href=same.clone()>
                    {say(again_key)}
                </a>
            }
            .into_any();
        };
        let again = again(&attempt.verdict.debrief, attempt.counts(), terms);
        let why = match again {
            Again::NotDone => say(k("debrief-again-not-done")),
            Again::Practise(skill) => {
                let skill = text(say(skill_key(skill)));
                say_with(k("debrief-again-practise"), vec![("skill", skill)])
            }
            Again::No if attempt.verdict.debrief.practise.is_some() => say(k("debrief-enough")),
            Again::No => say(k("debrief-nothing-at-fault")),
        };
        let other = another(&attempt);
        // One truck says little: the next one is always the first choice.
        let is_same_first = next_truck || again != Again::No || other.is_none();
        let button = |first: bool| if first { "button primary" } else { "button" };
        let other = other.map(|(title, href)| {
            view! {
                <a class=button(!is_same_first) id="drive-next" href=href>
                    {say_with(k("debrief-drive-next"), vec![("title", text(title))])}
                </a>
            }
        });
        let same = view! {
            <a class=button(is_same_first) id="drive-again" href=same.clone()>
                {say(again_key)}
            </a>
        };
        let both = if is_same_first {
            view! { {same} {other} }.into_any()
        } else {
            view! { {other} {same} }.into_any()
        };
        view! {
            <p class="why-next">{why}</p>
            {both}
        }
        .into_any()
    }
}

#[cfg(test)]
mod tests {
    use coneyard_core::debrief::SkillResult;

    use super::*;
    use crate::test_support::terms;

    #[test]
    fn what_lost_points_here_is_practised_here_until_it_is_enough() {
        let terms = terms();
        let skill = |points| SkillResult {
            skill: Skill::Mounting,
            points: Some(points),
            opportunities: 3,
            clean: 1,
            weight: 1.0,
        };
        let mut debrief = Debrief {
            ending: Ending::Done,
            ticks: 64,
            total: Some(90.0),
            did: None,
            skills: vec![skill(60.0)],
            findings: vec![],
            practise: Some(Skill::Mounting),
            changed_rules: vec![],
        };
        let asked = |d: &Debrief| again(d, true, terms);
        assert_eq!(asked(&debrief), Again::Practise(Skill::Mounting));
        debrief.skills = vec![skill(75.0)];
        assert_eq!(asked(&debrief), Again::No);
        debrief.total = Some(79.0);
        assert_eq!(asked(&debrief), Again::Practise(Skill::Mounting));
        debrief.ending = Ending::Broken;
        assert_eq!(asked(&debrief), Again::NotDone);
        let clean = Debrief { ending: Ending::Done, practise: None, total: None, ..debrief };
        assert_eq!(asked(&clean), Again::No);
        assert_eq!(again(&clean, false, terms), Again::NotDone, "slowed, or not what it says");
    }
}
