//! The lesson, for a trainer with a projector: its topics in order, each with what to say, show, ask and have
//! driven; ticks for what was covered; and the record of that, which prints and goes out as a file.

mod desk;
mod gauges;
mod overview;
mod part;
mod past;
mod record;
mod show;
mod topic;
mod yard;

use std::sync::Arc;

use coneyard_core::reading::Teaching;
use leptos::prelude::*;

use crate::words::{k, say, say_with, text};
use desk::{Desk, use_desk};

pub(crate) use record::Record;

/// Shows a page of the lesson as soon as the lesson is there.
fn with_lesson(
    desk: Desk,
    page: impl Fn(Arc<Teaching>) -> AnyView + Send + Sync + 'static,
) -> impl IntoView {
    move || match desk.teaching() {
        None => view! { <p role="status">{say(k("lesson-loading"))}</p> }.into_any(),
        Some(Err(why)) => view! {
            <p class="note warn" role="alert">
                {say_with(k("lesson-trouble"), vec![("why", text(why))])}
            </p>
        }
        .into_any(),
        Some(Ok(teaching)) => page(teaching),
    }
}

/// All topics, who is present, and lessons that were given.
#[component]
pub(crate) fn Lesson() -> impl IntoView {
    let desk = use_desk();
    with_lesson(desk, move |teaching| view! { <overview::Overview desk teaching /> }.into_any())
}

/// One topic.
#[component]
pub(crate) fn Topic(id: String) -> impl IntoView {
    let desk = use_desk();
    with_lesson(desk, move |teaching| match teaching.lesson.topic(&id).map(|(n, _)| n) {
        Some(place) => view! { <topic::Whole desk teaching place /> }.into_any(),
        None => view! {
            <p class="note warn">{say(k("lesson-no-topic"))}</p>
            <p>
                <a class="button" href="#/lesson">
                    {say(k("lesson-to-topics"))}
                </a>
            </p>
        }
        .into_any(),
    })
}
