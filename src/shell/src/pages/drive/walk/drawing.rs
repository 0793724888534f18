//! The drawings of the truck: each is read as SVG, loses the states that are not present, and is put into the
//! page. Which state it was nobody can tell from what is left.

use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::round::Round;
use crate::parts::drawing::cut;

/// A drawing in a state.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Drawn {
    /// Its name.
    pub(super) name: String,
    /// The states that are present.
    pub(super) present: Vec<String>,
}

/// Reads a drawing; None where it is none.
fn read(text: &str, present: &[String], tenths: u32) -> Option<web_sys::Element> {
    let drawing = cut(text, |state| present.iter().any(|p| p == state), tenths)?;
    document().adopt_node(&drawing).ok()?.dyn_into().ok()
}

/// A drawing in the page. What is seen on it is said in words beside it.
#[component]
pub(super) fn Drawing(round: Round, #[prop(into)] what: Signal<Option<Drawn>>) -> impl IntoView {
    let frame = NodeRef::<leptos::html::Div>::new();
    Effect::new(move |_| {
        let (Some(frame), what) = (frame.get(), what.get()) else {
            return;
        };
        let drawing = what.and_then(|what| {
            round.drawings.with_value(|all| {
                read(all.get(&what.name)?, &what.present, round.hours.get_untracked())
            })
        });
        match drawing {
            Some(drawing) => frame.replace_children_with_node_1(&drawing),
            None => frame.replace_children_with_node_0(),
        }
    });
    view! { <div class="walk-drawing" aria-hidden="true" node_ref=frame></div> }
}
