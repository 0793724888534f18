//! The controls, drawn: the truck and its parts, the arm's arc, the keyboard, the gamepad, touch.

mod drawings;
mod keyboard;

use leptos::prelude::*;

use crate::devices::Action;
use crate::parts::keycap::KeyOf;
use crate::words::{k, tr};
use drawings::{ARM, Drawing, GAMEPAD, TOUCH, TRUCK};
use keyboard::KeyboardDrawing;

/// The page.
#[component]
pub(crate) fn Controls() -> impl IntoView {
    let parts = [
        k("part-power-unit"),
        k("part-drive-wheel"),
        k("part-tiller"),
        k("part-platform"),
        k("part-backrest"),
        k("part-forks"),
        k("part-load-wheels"),
    ];
    let pad = [
        k("pad-part-tiller"),
        k("pad-part-twist"),
        k("pad-part-triggers"),
        k("pad-part-stance"),
        k("pad-part-buttons"),
        k("pad-part-forks"),
        k("pad-part-pause"),
    ];
    view! {
        <section class="card pictured" aria-labelledby="truck-title">
            <h2 id="truck-title">{tr("controls-truck")}</h2>
            <Drawing svg=TRUCK />
            <ol class="callouts">
                {parts.into_iter().map(|part| view! { <li>{tr(part)}</li> }).collect_view()}
            </ol>
        </section>
        <section class="card pictured" aria-labelledby="arm-title">
            <h2 id="arm-title">{tr("controls-arm")}</h2>
            <Drawing svg=ARM />
            <ol class="callouts">
                <li>
                    {tr("arm-part-upper")} " " <KeyOf action=Action::LetGo />
                </li>
                <li>{tr("arm-part-driving")}</li>
                <li>
                    {tr("arm-part-lower")} " " <KeyOf action=Action::PushDown />
                </li>
            </ol>
        </section>
        <section class="card" aria-labelledby="keyboard-title">
            <h2 id="keyboard-title">{tr("controls-keyboard")}</h2>
            <p>{tr("controls-keyboard-lead")}</p>
            <KeyboardDrawing />
            <p>
                <a href="#/settings">{tr("controls-to-settings")}</a>
            </p>
        </section>
        <section class="card pictured" aria-labelledby="gamepad-title">
            <h2 id="gamepad-title">{tr("controls-gamepad")}</h2>
            <Drawing svg=GAMEPAD />
            <ol class="callouts">
                {pad.into_iter().map(|part| view! { <li>{tr(part)}</li> }).collect_view()}
            </ol>
        </section>
        <section class="card pictured" aria-labelledby="touch-title">
            <h2 id="touch-title">{tr("controls-touch")}</h2>
            <Drawing svg=TOUCH />
            <p>{tr("controls-touch-lead")}</p>
        </section>
    }
}
