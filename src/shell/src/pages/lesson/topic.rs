//! One topic, as large as the screen allows. Arrow keys and the keys of a presenter's remote (Page Up, Page Down)
//! go from topic to topic; the space bar plays what is shown.

use std::sync::Arc;

use coneyard_core::lesson::Topic;
use coneyard_core::outside::Said;
use coneyard_core::reading::Teaching;
use leptos::ev::{KeyboardEvent, keydown};
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::desk::Desk;
use super::show::Shows;
use crate::browser;
use crate::courses::{Library, said, use_library};
use crate::parts::press::Press;
use crate::plan::clock::Clock;
use crate::route::{Route, go};
use crate::settings::use_settings;
use crate::words::{k, number, say, say_with, text, tr};

/// Where a key leads: back, on, or to what is shown.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Asks {
    Back,
    On,
    Play,
}

/// What a key asks for on an element of this kind. Whoever writes, or moves a slider, goes nowhere; only the keys of
/// a remote, which write nothing and move no slider here, lead on from a button as well.
fn asks(code: &str, tag: &str) -> Option<Asks> {
    let writes = matches!(tag, "TEXTAREA" | "SELECT" | "INPUT");
    let presses = matches!(tag, "BUTTON" | "A" | "SUMMARY");
    match code {
        "PageUp" if tag != "TEXTAREA" => Some(Asks::Back),
        "PageDown" if tag != "TEXTAREA" => Some(Asks::On),
        "ArrowLeft" if !writes => Some(Asks::Back),
        "ArrowRight" if !writes => Some(Asks::On),
        "Space" if !writes && !presses => Some(Asks::Play),
        _ => None,
    }
}

fn key_down(ev: &KeyboardEvent, back: &Route, on: &Route, clock: StoredValue<Option<Clock>>) {
    if ev.ctrl_key() || ev.meta_key() || ev.alt_key() || ev.shift_key() {
        return;
    }
    let element = ev.target().and_then(|t| t.dyn_into::<web_sys::Element>().ok());
    let tag = element.map(|e| e.tag_name()).unwrap_or_default();
    match asks(&ev.code(), &tag) {
        Some(Asks::Back) => go(back),
        Some(Asks::On) => go(on),
        Some(Asks::Play) => match clock.get_value() {
            Some(clock) => clock.toggle(),
            None => return,
        },
        None => return,
    }
    ev.prevent_default();
}

/// Fills the screen, or gives it back. It is asked for the whole page: going on to the next topic keeps it.
fn toggle_full_screen() {
    if document().fullscreen_element().is_some() {
        document().exit_fullscreen();
    } else if let Some(page) = document().document_element() {
        // A browser that does not allow it leaves the page as it is.
        let _ = page.request_fullscreen();
    }
}

/// The topic at this place.
#[component]
pub(super) fn Whole(desk: Desk, teaching: Arc<Teaching>, place: usize) -> impl IntoView {
    let topics = &teaching.lesson.topics;
    let Some(topic) = topics.get(place).cloned() else {
        return ().into_any();
    };
    let route = |n: usize| topics.get(n).map(|t| Route::Topic(t.id.clone()));
    // Before the first and after the last are all of them.
    let back = place.checked_sub(1).and_then(route).unwrap_or(Route::Lesson);
    let on = route(place + 1).unwrap_or(Route::Lesson);
    let next = topics.get(place + 1).map(|t| t.title.clone());
    let count = topics.len();
    let clock = StoredValue::new(None);
    let heard = {
        let (back, on) = (back.clone(), on.clone());
        window_event_listener(keydown, move |ev| key_down(&ev, &back, &on, clock))
    };
    on_cleanup(move || heard.remove());
    let where_ = move || {
        say_with(
            k("lesson-place"),
            vec![("number", number(place as f64 + 1.0)), ("count", number(count as f64))],
        )
    };
    let (id, ticked, title) = (topic.id.clone(), topic.id.clone(), topic.title.clone());
    let onwards = move || match &next {
        Some(title) => said(title),
        None => say(k("lesson-to-topics")),
    };
    view! {
        <div class="lesson-topic" data-topic=id>
            <header class="lesson-head">
                <p class="quiet">{where_}</p>
                <h2>{move || said(&title)}</h2>
                <Covered desk teaching=teaching.clone() topic=ticked />
            </header>
            <Words topic=topic.clone() />
            <Shows teaching=teaching.clone() place clock />
            <Ask topic=topic.clone() />
            <Then topic />
            <nav class="lesson-nav" aria-label=tr("lesson-nav")>
                <a class="button" id="lesson-back" href=back.href()>
                    <span aria-hidden="true">"←"</span>
                    {tr("lesson-back")}
                </a>
                <a class="button" href="#/lesson">
                    {tr("lesson-to-topics")}
                </a>
                <Press
                    name=k("drive-full-screen")
                    id="full-screen"
                    mark="⤢"
                    act=|_| toggle_full_screen()
                />
                <a class="button primary" id="lesson-on" href=on.href()>
                    {onwards}
                    <span aria-hidden="true">"→"</span>
                </a>
            </nav>
        </div>
    }
    .into_any()
}

/// The tick.
#[component]
fn Covered(desk: Desk, teaching: Arc<Teaching>, topic: String) -> impl IntoView {
    let trouble = move || {
        desk.trouble.get().map(|why| say_with(k("lesson-not-kept"), vec![("why", text(why))]))
    };
    let id = topic.clone();
    let covered = Memo::new(move |_| desk.given().is_some_and(|t| t.is_covered(&id)));
    view! {
        <button
            type="button"
            id="covered"
            class="tick"
            aria-pressed=move || covered.get().to_string()
            on:click=move |_| {
                let now = browser::now();
                let to = !covered.get_untracked();
                desk.change(&teaching, |taught| taught.mark(&topic, to, &now));
            }
        >
            <span class="tick-box" aria-hidden="true">
                {move || if covered.get() { "✓" } else { "" }}
            </span>
            {tr("lesson-covered")}
        </button>
        <p class="trouble" role="alert">
            {trouble}
        </p>
    }
}

/// A list of sentences in the set language.
fn sentences(all: Vec<Said>) -> impl IntoView {
    all.into_iter().map(|one| view! { <li>{move || said(&one)}</li> }).collect_view()
}

#[component]
fn Words(topic: Topic) -> impl IntoView {
    let caution = topic.caution.map(|caution| {
        view! {
            <p class="note warn lesson-caution">
                <strong>{tr("lesson-caution")}</strong>
                ". "
                {move || said(&caution)}
            </p>
        }
    });
    view! {
        <section class="lesson-say" aria-label=tr("lesson-say")>
            <ol>{sentences(topic.say)}</ol>
            {caution}
        </section>
    }
}

#[component]
fn Ask(topic: Topic) -> impl IntoView {
    let questions = topic
        .ask
        .into_iter()
        .map(|question| {
            let (ask, hear) = (question.ask, question.hear);
            view! {
                <li>
                    <details>
                        <summary>{move || said(&ask)}</summary>
                        <p>{move || said(&hear)}</p>
                    </details>
                </li>
            }
        })
        .collect_view();
    view! {
        <section class="lesson-ask" aria-labelledby="ask-title">
            <h3 id="ask-title">{tr("lesson-ask")}</h3>
            <ul>{questions}</ul>
        </section>
    }
}

#[component]
fn Then(topic: Topic) -> impl IntoView {
    let library = use_library();
    let settings = use_settings();
    let exercises = topic
        .drive
        .into_iter()
        .map(|id| {
            let named = id.clone();
            let href = move || {
                let wished = settings.with(|s| s.truck.clone());
                let truck =
                    library.find(|l| Some(Library::truck_for(&l.course(&id)?.course, &wished)));
                Route::Drive { course: id.clone(), truck: truck.unwrap_or_default() }.href()
            };
            view! {
                <li>
                    <a class="button" href=href>
                        {move || library.title(&named)}
                    </a>
                </li>
            }
        })
        .collect_view();
    view! {
        <section class="lesson-drive" aria-labelledby="drive-title">
            <h3 id="drive-title">{tr("lesson-drive")}</h3>
            <ul class="lesson-exercises">{exercises}</ul>
        </section>
        <section class="lesson-truck" aria-labelledby="truck-title">
            <h3 id="truck-title">{tr("lesson-at-truck")}</h3>
            <ul>{sentences(topic.at_truck)}</ul>
        </section>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_remote_leads_on_from_anywhere_but_a_text_and_arrows_from_where_they_mean_nothing_else() {
        assert_eq!(asks("PageDown", "BODY"), Some(Asks::On));
        assert_eq!(asks("PageDown", "BUTTON"), Some(Asks::On));
        assert_eq!(asks("PageDown", "INPUT"), Some(Asks::On));
        assert_eq!(asks("PageUp", "TEXTAREA"), None);
        assert_eq!(asks("ArrowRight", "H1"), Some(Asks::On));
        assert_eq!(asks("ArrowLeft", "A"), Some(Asks::Back));
        assert_eq!(asks("ArrowRight", "INPUT"), None, "it moves the slider");
        assert_eq!(asks("Space", "H1"), Some(Asks::Play));
        assert_eq!(asks("Space", "BUTTON"), None, "it presses the button");
        assert_eq!(asks("KeyA", "H1"), None);
    }
}
