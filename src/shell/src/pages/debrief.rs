//! The debrief: points by skill, what went well, each fault with what to do instead, and what to
//! drive next. It prints as it stands.

use coneyard_core::debrief::Debrief as Told;
use coneyard_core::finding::{Finding, Severity, TICK_RATE};
use leptos::prelude::*;

use super::path::{ending_word, truck_name};
use crate::app::skill_name;
use crate::browser::{date_text, number_text, save_file};
use crate::courses::{Library, said, use_library};
use crate::parts::finding;
use crate::parts::skillbar::{SkillBar, points_word};
use crate::results::next_course;
use crate::route::Route;
use crate::settings::use_settings;
use crate::store::{Attempt, use_store};
use crate::units::{fine_time_text, time_text};
use crate::words::{k, number, say, say_with, text, tr};

/// "Look at it" opens the replay this much before, ticks.
const LEAD_IN: u32 = 2 * TICK_RATE;

/// The debrief of an attempt.
#[component]
pub(crate) fn Debrief(id: String) -> impl IntoView {
    let store = use_store();
    let found = Memo::new(move |_| store.attempt(&id));
    move || match (found.get(), store.ready.get()) {
        (Some(attempt), _) => view! { <Told attempt /> }.into_any(),
        (None, false) => view! { <p role="status">{say(k("debrief-loading"))}</p> }.into_any(),
        (None, true) => view! { <p class="note warn">{say(k("debrief-not-there"))}</p> }.into_any(),
    }
}

#[component]
fn Told(attempt: Attempt) -> impl IntoView {
    let library = use_library();
    let attempt_head = attempt.clone();
    let head = move || {
        let a = &attempt_head;
        let title = library
            .with(|l| {
                let library = l.as_ref()?.as_ref().ok()?;
                library.course(&a.course).map(|c| said(&c.course.title))
            })
            .unwrap_or_else(|| a.course.clone());
        let who = if a.who.is_empty() { say(k("who-nobody")) } else { a.who.clone() };
        [
            title,
            truck_name(&a.truck),
            who,
            date_text(&a.started),
            time_text(a.verdict.debrief.ticks),
        ]
        .join(" · ")
    };
    let debrief = attempt.verdict.debrief.clone();
    let (good, faults): (Vec<Finding>, Vec<Finding>) =
        debrief.findings.iter().cloned().partition(|f| f.severity == Severity::Good);
    let id = attempt.id.clone();
    let skills =
        debrief.skills.iter().cloned().map(|result| view! { <SkillBar result /> }).collect_view();
    view! {
        <p class="lead">{head}</p>
        <Total debrief=debrief.clone() />
        <section class="card" aria-labelledby="skills-title">
            <h2 id="skills-title">{tr("debrief-skills")}</h2>
            <ul class="skills">{skills}</ul>
        </section>
        <section class="card" aria-labelledby="good-title">
            <h2 id="good-title">{tr("debrief-good")}</h2>
            <Good good id=id.clone() />
        </section>
        <section class="card" aria-labelledby="faults-title">
            <h2 id="faults-title">{tr("debrief-faults")}</h2>
            <Faults faults id=id.clone() />
        </section>
        <Next attempt=attempt.clone() />
        <Word attempt=attempt.clone() />
        <Actions attempt />
        <section class="card caution">
            <h2>{tr("caution-title")}</h2>
            <p>{tr("caution-long")}</p>
        </section>
    }
}

#[component]
fn Total(debrief: Told) -> impl IntoView {
    move || {
        let ending = say(ending_word(debrief.ending));
        let total = debrief.total.map(|p| {
            view! {
                <p class="total">
                    <span class="big">{number_text(p, 0)}</span>
                    <span>{say(k("debrief-of-hundred"))}</span>
                    <strong>{say(points_word(p))}</strong>
                </p>
            }
        });
        view! {
            <section class="verdict" aria-label=say(k("debrief-total"))>
                {total} <p class="ending">{ending}</p>
            </section>
        }
    }
}

fn look_link(id: &str, finding: &Finding) -> impl IntoView + use<> {
    let href = Route::Replay { id: id.to_owned(), at: finding.from.saturating_sub(LEAD_IN) }.href();
    let at = fine_time_text(finding.from);
    view! {
        <a class="look" href=href>
            {move || say_with(k("debrief-look"), vec![("at", text(at.clone()))])}
        </a>
    }
}

#[component]
fn Good(good: Vec<Finding>, id: String) -> impl IntoView {
    if good.is_empty() {
        return view! { <p>{tr("debrief-no-good")}</p> }.into_any();
    }
    let items = good
        .into_iter()
        .map(|f| {
            let look = look_link(&id, &f);
            view! {
                <li class="deed">
                    <span class="mark good" aria-hidden="true">
                        {finding::mark(Severity::Good)}
                    </span>
                    <span>{move || finding::title(&f)}</span>
                    {look}
                </li>
            }
        })
        .collect_view();
    view! { <ul class="deeds">{items}</ul> }.into_any()
}

#[component]
fn Faults(faults: Vec<Finding>, id: String) -> impl IntoView {
    if faults.is_empty() {
        return view! { <p>{tr("debrief-no-faults")}</p> }.into_any();
    }
    let items = faults.into_iter().map(|f| view! { <Fault f id=id.clone() /> }).collect_view();
    view! { <ol class="faults">{items}</ol> }.into_any()
}

#[component]
fn Fault(f: Finding, id: String) -> impl IntoView {
    let settings = use_settings();
    let look = look_link(&id, &f);
    let class = format!("fault {}", finding::class(f.severity));
    let severity = f.severity;
    let f = StoredValue::new(f);
    let measured = move || {
        let units = settings.with(|s| s.units);
        f.with_value(|f| finding::measured(f, units))
    };
    view! {
        <li class=class>
            <h3>
                <span class="mark" aria-hidden="true">
                    {finding::mark(severity)}
                </span>
                {move || f.with_value(finding::title)}
                <span class="severity">{move || say(finding::severity_word(severity))}</span>
            </h3>
            <p class="measured">{measured}</p>
            <p>{move || f.with_value(finding::why)}</p>
            <p class="instead">{move || f.with_value(finding::instead)}</p>
            <p class="cite">{move || f.with_value(finding::citation)} " " {look}</p>
        </li>
    }
}

/// One suggestion of what to drive next.
#[component]
fn Next(attempt: Attempt) -> impl IntoView {
    let library = use_library();
    let store = use_store();
    move || {
        let library = library.get()?.ok()?;
        let next = store.attempts.with(|all| next_course(&library, all, &attempt.who))?;
        let course = &library.course(&next)?.course;
        let truck = Library::truck_for(course, &attempt.truck);
        let href = Route::Drive { course: next.clone(), truck }.href();
        let title = said(&course.title);
        let why = match attempt.verdict.debrief.practise {
            Some(skill) => {
                say_with(k("debrief-practise-skill"), vec![("skill", text(say(skill_name(skill))))])
            }
            None => say(k("debrief-nothing-at-fault")),
        };
        Some(view! {
            <section class="card next-drive">
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
        let (mark, key) = match (v.reproduces, v.debrief_agrees) {
            (true, _) => ("✓", k("verdict-reproduces")),
            (false, false) if v.first_difference_s.is_none() => ("▲", k("verdict-debrief-differs")),
            (false, _) => ("▲", k("verdict-differs")),
        };
        let second = number(v.first_difference_s.unwrap_or(0));
        let digest: String = v.final_digest.chars().take(16).collect();
        view! {
            <section class="card word">
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

/// Name of the file a run is handed out as.
pub(crate) fn run_file_name(attempt: &Attempt) -> String {
    let plain = |text: &str| -> String {
        text.chars()
            .map(|c| if c.is_alphanumeric() { c } else { '-' })
            .collect::<String>()
            .to_lowercase()
    };
    let date: String = attempt.started.chars().take(10).collect();
    let who = if attempt.who.is_empty() { "nobody".to_owned() } else { plain(&attempt.who) };
    format!("{}-{who}-{date}.run.json", plain(&attempt.course))
}

#[component]
fn Actions(attempt: Attempt) -> impl IntoView {
    let store = use_store();
    let trouble = RwSignal::new(None::<String>);
    let sure = RwSignal::new(false);
    let replay = Route::Replay { id: attempt.id.clone(), at: 0 }.href();
    let again =
        Route::Drive { course: attempt.course.clone(), truck: attempt.truck.clone() }.href();
    let id = StoredValue::new(attempt.id.clone());
    let attempt = StoredValue::new(attempt);
    let export = move |_| {
        leptos::task::spawn_local(async move {
            let saved = match store.run(&id.get_value()).await {
                Ok(Some(run)) => save_file(&attempt.with_value(run_file_name), &run)
                    .map_err(crate::yard::sentence),
                Ok(None) => Err(say(k("debrief-not-there"))),
                Err(why) => Err(why),
            };
            trouble.try_set(saved.err());
        });
    };
    let delete = move |_| {
        leptos::task::spawn_local(async move {
            store.forget(&id.get_value()).await;
            crate::app::go(&Route::Path);
        });
    };
    view! {
        <p class="actions no-print">
            <a class="button" href=replay>
                {tr("debrief-replay")}
            </a>
            <a class="button" href=again>
                {tr("debrief-again")}
            </a>
            <button type="button" on:click=export>
                {tr("debrief-export")}
            </button>
            <button
                type="button"
                on:click=move |_| {
                    // A browser that cannot print says so itself.
                    let _ = window().print();
                }
            >
                {tr("debrief-print")}
            </button>
            <Show
                when=move || sure.get()
                fallback=move || {
                    view! {
                        <button type="button" on:click=move |_| sure.set(true)>
                            {tr("delete")}
                        </button>
                    }
                }
            >
                <button type="button" class="grave" on:click=delete>
                    {tr("delete-sure")}
                </button>
            </Show>
        </p>
        <p role="status">
            {move || {
                trouble.get().map(|why| say_with(k("export-trouble"), vec![("why", text(why))]))
            }}
        </p>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

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
