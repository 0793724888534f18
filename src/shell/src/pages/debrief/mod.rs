//! The debrief: points by skill, what went well, each fault with what to do instead, and what to
//! drive next. [`super::print`] has the same for paper.

mod actions;
pub(crate) mod findings;

use coneyard_core::debrief::{Debrief as Words, Ending};
use coneyard_core::finding::Severity;
use coneyard_core::reading::{Question, RulesShown, RunShown};
use coneyard_core::words::{ending_key, skill_key};
use leptos::prelude::*;

use crate::courses::{Library, said, use_library};
use crate::parts::names::truck_name;
use crate::parts::notes::Notes;
use crate::parts::skillbar::{SkillBar, points_word};
use crate::parts::when::{Length, Moment};
use crate::reader;
use crate::route::Route;
use crate::store::{Attempt, use_store};
use crate::words::{changed, k, number, say, say_with, steady_number, text, tr};
use actions::Actions;
use findings::{Faults, Good};

/// The debrief of an attempt.
#[component]
pub(crate) fn Debrief(id: String) -> impl IntoView {
    let store = use_store();
    let found = Memo::new(move |_| store.attempt(&id));
    move || match (found.get(), store.ready.get()) {
        (Some(attempt), _) => view! { <Told attempt /> }.into_any(),
        (None, false) => view! { <p role="status">{say(k("debrief-loading"))}</p> }.into_any(),
        (None, true) => view! { <p class="note warn">{say(k("run-not-there"))}</p> }.into_any(),
    }
}

/// The rules the run was judged by, which travel in its file.
fn rules_of(attempt: &Attempt) -> RwSignal<Option<RulesShown>> {
    let store = use_store();
    let rules = RwSignal::new(None);
    let id = attempt.id.clone();
    leptos::task::spawn_local(async move {
        let Ok(Some(text)) = store.run(&id).await else {
            return;
        };
        let shown: Result<RunShown, _> = reader::ask(&Question::Run(id, text, vec![])).await;
        // A run without readable rules has been refused before it was kept.
        rules.try_set(shown.ok().map(|run| run.rules));
    });
    rules
}

/// Who drove, as shown: the name, or that there is none.
pub(crate) fn who_text(attempt: &Attempt) -> String {
    if attempt.who.is_empty() { say(k("who-nobody")) } else { attempt.who.clone() }
}

/// Course, truck, person, day and length in a line.
#[component]
pub(crate) fn Headline(attempt: Attempt) -> impl IntoView {
    let library = use_library();
    let (started, ticks) = (attempt.started.clone(), attempt.verdict.debrief.ticks);
    let what = move || {
        let title = library.title(&attempt.course);
        format!("{title} · {} · {} · ", truck_name(&attempt.truck), who_text(&attempt))
    };
    view! {
        {what}
        <Moment at=started />
        " · "
        <Length ticks />
    }
}

#[component]
fn Told(attempt: Attempt) -> impl IntoView {
    let rules = rules_of(&attempt);
    let library = use_library();
    let debrief = attempt.verdict.debrief.clone();
    let (good, faults): (Vec<_>, Vec<_>) =
        debrief.findings.iter().cloned().partition(|f| f.severity == Severity::Good);
    let clean = faults.is_empty();
    let id = attempt.id.clone();
    let (shown, unshown): (Vec<_>, Vec<_>) =
        debrief.skills.iter().cloned().partition(|s| s.points.is_some());
    let skills = move || {
        let terms = library.terms();
        let row = |result| view! { <SkillBar result terms /> };
        shown.iter().cloned().map(row).collect_view()
    };
    let not_shown = move || {
        let names: Vec<String> = unshown.iter().map(|s| say(skill_key(s.skill))).collect();
        (!names.is_empty())
            .then(|| say_with(k("debrief-not-shown"), vec![("skills", text(names.join(", ")))]))
    };
    view! {
        <p class="lead">
            <Headline attempt=attempt.clone() />
        </p>
        <Notes attempt=attempt.clone() />
        <Total debrief=debrief.clone() />
        <section class="card" aria-labelledby="skills-title">
            <h2 id="skills-title">{tr("debrief-skills")}</h2>
            <ul class="skills">{skills}</ul>
            <p class="quiet">{not_shown}</p>
        </section>
        <section class="card" aria-labelledby="good-title">
            <h2 id="good-title">{tr("debrief-good")}</h2>
            <Good good id=id.clone() />
        </section>
        <section class="card" aria-labelledby="faults-title">
            <h2 id="faults-title">{tr("debrief-faults")}</h2>
            <Show when=move || clean>
                <p>{tr("debrief-no-faults")}</p>
            </Show>
            <Faults faults id rules />
        </section>
        <ChangedRules debrief />
        <Next attempt=attempt.clone() />
        <Word attempt=attempt.clone() />
        <Actions attempt />
        <section class="card caution">
            <h2>{tr("caution-title")}</h2>
            <p>{tr("caution")}</p>
        </section>
    }
}

#[component]
fn Total(debrief: Words) -> impl IntoView {
    let library = use_library();
    let done = debrief.ending == Ending::Done;
    move || {
        let total = debrief.total.map(|p| {
            // Points of a part say little of the whole: no word of praise for it.
            let terms = library.terms().filter(|_| done);
            let word = terms.map(|terms| say(points_word(p, terms)));
            view! {
                <p class="total">
                    <span class="big">{steady_number(p, 0)}</span>
                    <span>{say(k("debrief-of-hundred"))}</span>
                    <strong>{word}</strong>
                </p>
            }
        });
        let ending = say(ending_key(debrief.ending));
        let how = if done {
            ending
        } else {
            say_with(k("debrief-does-not-count"), vec![("ending", text(ending))])
        };
        view! {
            <section class="verdict" aria-label=say(k("debrief-total"))>
                {total} <p class="ending">{how}</p>
            </section>
        }
    }
}

/// Rules that this site changed from the defaults: a result is read by them.
#[component]
fn ChangedRules(debrief: Words) -> impl IntoView {
    move || {
        if debrief.changed_rules.is_empty() {
            return None;
        }
        let items = debrief
            .changed_rules
            .iter()
            .map(|code| view! { <li>{changed(code)}</li> })
            .collect_view();
        Some(view! {
            <section class="note">
                <p>{say(k("debrief-changed-rules"))}</p>
                <ul class="plain">{items}</ul>
            </section>
        })
    }
}

/// One suggestion of what to drive next.
#[component]
fn Next(attempt: Attempt) -> impl IntoView {
    let library = use_library();
    let store = use_store();
    move || {
        let (title, href) = library.find(|library| {
            let next = store.attempts.with(|all| library.next(all, &attempt.who))?;
            let course = &library.course(&next)?.course;
            let truck = Library::truck_for(course, &attempt.truck);
            Some((said(&course.title), Route::Drive { course: next, truck }.href()))
        })?;
        let why = match attempt.verdict.debrief.practise {
            Some(skill) => {
                say_with(k("debrief-practise-skill"), vec![("skill", text(say(skill_key(skill))))])
            }
            None => say(k("debrief-nothing-at-fault")),
        };
        Some(view! {
            <section class="card next-drive no-print">
                <h2>{say(k("debrief-next"))}</h2>
                <p>{why}</p>
                <p>
                    <a class="button primary" href=href>
                        {say_with(k("debrief-drive-next"), vec![("title", text(title))])}
                    </a>
                </p>
            </section>
        })
    }
}

/// Whether the run is what it says it is.
#[component]
fn Word(attempt: Attempt) -> impl IntoView {
    move || {
        let v = &attempt.verdict;
        let (mark, key) = match (v.reproduces, v.debrief_agrees, v.first_difference_s) {
            (true, ..) => ("✓", k("verdict-reproduces")),
            (false, false, None) => ("▲", k("verdict-debrief-differs")),
            (false, ..) => ("▲", k("verdict-differs")),
        };
        let second = number(v.first_difference_s.unwrap_or(0));
        let digest: String = v.final_digest.chars().take(16).collect();
        view! {
            <section class="card truth" class:bad=!v.reproduces>
                <h2>{say(k("verdict-title"))}</h2>
                <p>
                    <span class="mark" aria-hidden="true">
                        {mark}
                    </span>
                    " "
                    {say_with(key, vec![("second", second)])}
                </p>
                <p class="quiet">{say_with(k("verdict-digest"), vec![("digest", text(digest))])}</p>
            </section>
        }
    }
}
