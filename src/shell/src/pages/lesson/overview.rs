//! All topics with their ticks, who is present, and the lessons that were given.

use std::sync::Arc;

use coneyard_core::reading::Teaching;
use leptos::prelude::*;

use super::desk::Desk;
use super::past::{Past, save};
use crate::browser;
use crate::courses::said;
use crate::parts::press::Press;
use crate::parts::when::Moment;
use crate::route::Route;
use crate::words::{k, number, say, say_with, text, tr};

/// The page.
#[component]
pub(super) fn Overview(desk: Desk, teaching: Arc<Teaching>) -> impl IntoView {
    let (name, caution) = (teaching.lesson.name.clone(), teaching.lesson.caution.clone());
    let first = teaching.lesson.topics.first().map(|t| Route::Topic(t.id.clone()));
    let count = teaching.lesson.topics.len() as f64;
    let covered = move || {
        let covered = desk.given().map_or(0, |t| t.covered()) as f64;
        say_with(
            k("lesson-covered-of"),
            vec![("covered", number(covered)), ("count", number(count))],
        )
    };
    view! {
        <p class="lead">{move || said(&name)} ". " {tr("lesson-lead")}</p>
        <p class="actions">
            <a
                class="button primary"
                id="lesson-begin"
                href=first.map(|r| r.href())
            >
                {tr("lesson-begin")}
            </a>
        </p>
        <Trouble desk />
        <section aria-labelledby="topics-title">
            <h2 id="topics-title">{tr("lesson-topics")}</h2>
            <p id="covered-of">{covered}</p>
            <Topics desk teaching=teaching.clone() />
        </section>
        <Given desk teaching />
        <Past desk />
        <p class="quiet caution">
            <strong>{tr("caution-title")}</strong>
            ". "
            {move || said(&caution)}
        </p>
    }
}

/// What the browser did not take, or could not read.
#[component]
fn Trouble(desk: Desk) -> impl IntoView {
    let trouble = move || {
        desk.trouble.get().map(|why| {
            view! {
                <p class="note warn" role="alert">
                    {say_with(k("lesson-not-kept"), vec![("why", text(why))])}
                </p>
            }
        })
    };
    let unreadable = move || {
        let count = desk.unreadable.get();
        (count > 0).then(|| {
            let count = number(count as f64);
            view! { <p class="note warn">{say_with(k("lesson-unreadable"), vec![("count", count)])}</p> }
        })
    };
    view! {
        {trouble}
        {unreadable}
    }
}

#[component]
fn Topics(desk: Desk, teaching: Arc<Teaching>) -> impl IntoView {
    let given = Memo::new(move |_| desk.given());
    let items = teaching
        .lesson
        .topics
        .iter()
        .enumerate()
        .map(|(n, topic)| {
            let (id, ticked, title, name) =
                (topic.id.clone(), topic.id.clone(), topic.title.clone(), topic.title.clone());
            let href = Route::Topic(id.clone()).href();
            let teaching = teaching.clone();
            let is_covered =
                move || given.with(|g| g.as_ref().is_some_and(|t| t.is_covered(&ticked)));
            view! {
                <li>
                    <label class="tick-label">
                        <input
                            type="checkbox"
                            data-topic=id.clone()
                            aria-label=move || {
                                say_with(k("lesson-tick"), vec![("topic", text(said(&name)))])
                            }
                            prop:checked=is_covered
                            on:change=move |ev| {
                                let now = browser::now();
                                let to = event_target_checked(&ev);
                                desk.change(&teaching, |taught| taught.mark(&id, to, &now));
                            }
                        />
                    </label>
                    <a href=href>
                        <span class="quiet">{n + 1}</span>
                        " "
                        {move || said(&title)}
                    </a>
                </li>
            }
        })
        .collect_view();
    view! { <ol class="lesson-topics">{items}</ol> }
}

/// The lesson that is being given: when it began, who gives it, who is present, a note.
#[component]
fn Given(desk: Desk, teaching: Arc<Teaching>) -> impl IntoView {
    let given = Memo::new(move |_| desk.given());
    let began = move || {
        given.with(|g| {
            g.as_ref().map(|t| {
                let at = t.started.clone();
                view! {
                    <p class="quiet">{tr("lesson-began")} " " <Moment at /></p>
                }
            })
        })
    };
    let of = |teaching: &Arc<Teaching>| teaching.clone();
    let (a, b, c) = (of(&teaching), of(&teaching), teaching);
    let is_given = Signal::derive(move || given.with(Option::is_some));
    view! {
        <section aria-labelledby="given-title">
            <h2 id="given-title">{tr("lesson-given")}</h2>
            {began}
            <div class="fields">
                <label class="field">
                    <span>{tr("lesson-trainer")}</span>
                    <input
                        type="text"
                        id="lesson-trainer"
                        maxlength="80"
                        autocomplete="off"
                        prop:value=move || given.with(|g| g.as_ref().map(|t| t.trainer.clone()).unwrap_or_default())
                        on:change=move |ev| {
                            let name = event_target_value(&ev).trim().to_owned();
                            desk.change(&a, |taught| taught.trainer = name);
                        }
                    />
                </label>
            </div>
            <label class="field">
                <span>{tr("lesson-present")}</span>
                <textarea
                    id="lesson-present"
                    rows="5"
                    maxlength="8000"
                    prop:value=move || given.with(|g| g.as_ref().map(|t| t.present.join("\n")).unwrap_or_default())
                    on:change=move |ev| {
                        let lines = event_target_value(&ev);
                        desk.change(&b, |taught| taught.set_present(&lines));
                    }
                ></textarea>
                <span class="quiet">{tr("lesson-present-more")}</span>
            </label>
            <label class="field">
                <span>{tr("lesson-note")}</span>
                <textarea
                    id="lesson-note"
                    rows="2"
                    maxlength="1000"
                    prop:value=move || given.with(|g| g.as_ref().map(|t| t.note.clone()).unwrap_or_default())
                    on:change=move |ev| {
                        let note = event_target_value(&ev).trim().to_owned();
                        desk.change(&c, |taught| taught.note = note);
                    }
                ></textarea>
            </label>
            <p class="actions">
                {move || {
                    given
                        .with(|g| {
                            g.as_ref()
                                .map(|t| {
                                    let href = Route::LessonRecord(t.id.clone()).href();
                                    let taught = t.clone();
                                    view! {
                                        <a class="button" id="lesson-print" href=href>
                                            {say(k("lesson-print"))}
                                        </a>
                                        <Press
                                            name=k("lesson-save")
                                            id="lesson-save"
                                            act=move |_| save(desk, &taught)
                                        />
                                    }
                                })
                        })
                }}
                <Press
                    name=k("lesson-end")
                    id="lesson-end"
                    disabled=Signal::derive(move || !is_given.get())
                    act=move |_| desk.end()
                />
            </p>
            <p class="quiet">{tr("lesson-where-kept")}</p>
        </section>
    }
}
