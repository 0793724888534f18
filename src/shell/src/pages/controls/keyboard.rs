//! The keyboard as it is set: keys by their place, those that do something filled, and under it
//! what they do.

use leptos::prelude::*;

use crate::devices::Action;
use crate::parts::keycap::{KeysOf, key_name};
use crate::settings::use_settings;
use crate::words::{say, tr};

/// Rows of the keyboard by place, with each row's indent in key widths.
const ROWS: [(f64, &[&str]); 4] = [
    (
        0.0,
        &[
            "Digit1", "Digit2", "Digit3", "Digit4", "Digit5", "Digit6", "Digit7", "Digit8",
            "Digit9", "Digit0", "Minus", "Equal",
        ],
    ),
    (0.5, &["KeyQ", "KeyW", "KeyE", "KeyR", "KeyT", "KeyY", "KeyU", "KeyI", "KeyO", "KeyP"]),
    (0.75, &["KeyA", "KeyS", "KeyD", "KeyF", "KeyG", "KeyH", "KeyJ", "KeyK", "KeyL"]),
    (-0.25, &["ShiftLeft", "KeyZ", "KeyX", "KeyC", "KeyV", "KeyB", "KeyN", "KeyM"]),
];

/// Width of a key with its gap, and of the drawing, in the drawing's own units.
const KEY: f64 = 44.0;
const WIDTH: f64 = 640.0;

#[component]
fn Key(code: &'static str, x: f64, y: f64, width: f64) -> impl IntoView {
    let settings = use_settings();
    let action = Memo::new(move |_| settings.with(|s| s.keys.action(code)));
    view! {
        <g class="key" class:used=move || action.get().is_some()>
            <title>{move || action.get().map(|a| say(a.name()))}</title>
            <rect x=x y=y width=width - 4.0 height=KEY - 4.0 rx="6" />
            <text x=x + (width - 4.0) / 2.0 y=y + 25.0>
                {move || key_name(code)}
            </text>
        </g>
    }
}

/// The drawing and the list.
#[component]
pub(super) fn KeyboardDrawing() -> impl IntoView {
    let keys = ROWS
        .into_iter()
        .enumerate()
        .flat_map(|(row, (indent, codes))| {
            codes.iter().enumerate().map(move |(column, code)| {
                let x = 16.0 + (indent + column as f64) * KEY;
                // Shift is wider than the rest of its row.
                let (x, width) = match (indent < 0.0, column) {
                    (true, 0) => (x, KEY * 1.5),
                    (true, _) => (x + KEY * 0.5, KEY),
                    (false, _) => (x, KEY),
                };
                view! { <Key code x y=4.0 + row as f64 * KEY width /> }
            })
        })
        .collect_view();
    let arrows = [
        ("ArrowUp", 1.0, 3.0),
        ("ArrowLeft", 0.0, 4.0),
        ("ArrowDown", 1.0, 4.0),
        ("ArrowRight", 2.0, 4.0),
    ]
    .into_iter()
    .map(|(code, column, row)| {
        view! { <Key code x=496.0 + column * KEY y=4.0 + row * KEY width=KEY /> }
    })
    .collect_view();
    let list = Action::ALL
        .into_iter()
        .map(|action| {
            view! {
                <li>
                    <span class="caps"><KeysOf action /></span>
                    <span>{tr(action.name())}</span>
                </li>
            }
        })
        .collect_view();
    view! {
        <svg class="keyboard" viewBox=format!("0 0 {WIDTH} 228") aria-hidden="true">
            {keys} <Key code="Space" x={16.0 + 3.0 * KEY} y={4.0 + 4.0 * KEY} width={KEY * 5.0} />
            {arrows}
        </svg>
        <ul class="key-list">{list}</ul>
    }
}
