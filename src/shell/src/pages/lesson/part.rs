//! A part of the truck as it should be, and beside it with a defect.

use coneyard_core::reading::PartShown;
use leptos::prelude::*;

use crate::courses::said;
use crate::parts::drawing::{Picture, SOUND, use_drawings};
use crate::words::{k, say, say_with, text};

/// What the hour meter shows in the drawings, tenths of an hour.
const HOURS: u32 = 21_874;

/// Both drawings.
#[component]
pub(super) fn Part(
    /// Id of the point.
    point: String,
    /// Id of the defect.
    defect: String,
    /// What is said beside them.
    shown: PartShown,
) -> impl IntoView {
    let drawings = use_drawings();
    let picture = move |state: String| {
        let point = point.clone();
        move || {
            drawings.with(|fetched| match fetched {
                None => None,
                Some(Err(why)) => Some(
                    view! {
                        <p class="note warn">
                            {say_with(k("lesson-trouble"), vec![("why", text(why.clone()))])}
                        </p>
                    }
                    .into_any(),
                ),
                Some(Ok(all)) => all
                    .closer(&point, &state, HOURS)
                    .map(|markup| view! { <Picture markup /> }.into_any()),
            })
        }
    };
    let PartShown { name, sound, defect: bad, seen, grade, may_run, why } = shown;
    let runs = if may_run { k("lesson-may-run") } else { k("lesson-must-not-run") };
    view! {
        <div class="ways">
            <section class="way-side right">
                <h3>
                    <span class="way-mark" aria-hidden="true">
                        "✓"
                    </span>
                    {move || said(&name)}
                </h3>
                <div class="yard-box">{picture(SOUND.to_owned())}</div>
                <p>{move || said(&sound)}</p>
            </section>
            <section class="way-side wrong">
                <h3>
                    <span class="way-mark" aria-hidden="true">
                        "✗"
                    </span>
                    {move || said(&bad)}
                </h3>
                <div class="yard-box">{picture(defect)}</div>
                <p>{move || said(&seen)}</p>
                <p>
                    <strong>{move || format!("{} · {}. ", said(&grade), say(runs))}</strong>
                    {move || said(&why)}
                </p>
            </section>
        </div>
    }
}
