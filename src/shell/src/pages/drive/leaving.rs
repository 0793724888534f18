//! The question of how to leave.

use leptos::prelude::*;

use super::{Desk, finish};
use crate::canvas::focus_yard;
use crate::parts::press::Press;
use crate::words::{k, say};

/// How to leave: the browser's own dialog, so that the focus stays in it and Escape closes it.
#[component]
pub(super) fn LeaveDialog(desk: Desk) -> impl IntoView {
    let dialog = NodeRef::<leptos::html::Dialog>::new();
    Effect::new(move |_| {
        let Some(dialog) = dialog.get() else {
            return;
        };
        if desk.leaving.get() {
            // It is closed here, so that it can be opened.
            let _ = dialog.show_modal();
        } else {
            dialog.close();
        }
    });
    let choice = move |name: &'static str, id: &'static str, class: &'static str, act: fn(Desk)| {
        view! {
            <Press
                name=name
                id=id
                class=class
                act=move |_| {
                    desk.leaving.set(false);
                    act(desk);
                }
            />
        }
    };
    view! {
        <dialog
            node_ref=dialog
            aria-labelledby="leave-title"
            on:close=move |_| desk.leaving.set(false)
        >
            <h2 id="leave-title">
                {move || say(if desk.is_part() { k("pretest-leave") } else { k("leave-title") })}
            </h2>
            {move || desk.leaving_costs().map(|key| view! { <p>{say(key)}</p> })}
            <div class="choices">
                {choice(k("leave-go-on"), "go-on", "primary", go_on)}
                <Show
                    when=move || desk.is_part()
                    fallback=move || {
                        view! {
                            {choice(k("leave-debrief"), "end-here", "", finish::finish)}
                            {choice(k("leave-later"), "keep-for-later", "", finish::keep_for_later)}
                            {choice(k("leave-throw-away"), "throw-away", "", finish::throw_away)}
                        }
                    }
                >
                    // With no pause left it would be a second one.
                    <Show when=move || desk.paused.get()>
                        {choice(k("leave-later"), "keep-for-later", "", finish::keep_for_later)}
                    </Show>
                    {choice(k("pretest-leave-end"), "end-here", "grave", finish::finish)}
                </Show>
            </div>
        </dialog>
    }
}

fn go_on(desk: Desk) {
    desk.pause(false);
    focus_yard();
}
