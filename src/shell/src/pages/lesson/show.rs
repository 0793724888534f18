//! What is shown of a topic: one of its pictures at a time, chosen by a row of buttons where there are several.

use std::sync::Arc;

use coneyard_core::lesson::{Show, scene_name};
use coneyard_core::reading::Teaching;
use leptos::prelude::*;

use super::part::Part;
use super::yard::Yard;
use crate::plan::Ground;
use crate::plan::clock::Clock;
use crate::words::{k, number, say, say_with, tr};

/// The pictures of the topic at this place.
#[component]
pub(super) fn Shows(
    teaching: Arc<Teaching>,
    place: usize,
    /// Where the clock of what is shown is put, for the keys.
    clock: StoredValue<Option<Clock>>,
) -> impl IntoView {
    let chosen = RwSignal::new(0);
    let count = teaching.lesson.topics.get(place).map_or(0, |t| t.shows.len());
    let choice = (count > 1).then(|| {
        let buttons = (0..count)
            .map(|n| {
                view! {
                    <button
                        type="button"
                        class="show-choice"
                        aria-pressed=move || (chosen.get() == n).to_string()
                        on:click=move |_| chosen.set(n)
                    >
                        {move || say_with(k("lesson-show-number"), vec![("number", number(n as f64 + 1.0))])}
                    </button>
                }
            })
            .collect_view();
        view! {
            <div class="show-choices" role="group" aria-label=tr("lesson-shows")>
                {buttons}
            </div>
        }
    });
    let shown = move || {
        clock.set_value(None);
        let topic = teaching.lesson.topics.get(place)?;
        let n = chosen.get();
        let name = scene_name(&topic.id, n);
        match topic.shows.get(n)? {
            Show::Part { point, defect } => {
                let shown = teaching.parts.get(&name)?.clone();
                let (point, defect) = (point.clone(), defect.clone());
                Some(view! { <Part point defect shown /> }.into_any())
            }
            show => {
                let scene = teaching.scenes.get(&name)?.clone();
                let ground = |side: usize| {
                    let of = &scene.sides[side].of.course;
                    let course = teaching.courses.iter().find(|c| c.name == *of)?;
                    Ground::read(&course.name, &course.text).ok()
                };
                let (Some(a), Some(b)) = (ground(0), ground(1)) else {
                    return Some(
                        view! { <p class="note warn">{say(k("lesson-no-scene"))}</p> }.into_any(),
                    );
                };
                let show = show.clone();
                let keys = Callback::new(move |of| clock.set_value(Some(of)));
                Some(view! { <Yard show scene grounds=[a, b] keys /> }.into_any())
            }
        }
    };
    view! {
        <section class="lesson-show" aria-label=tr("lesson-show")>
            {choice} {shown}
        </section>
    }
}
