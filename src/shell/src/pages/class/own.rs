//! For whoever drives: what of one's own has arrived, and what is on this device only.

use leptos::prelude::*;

use super::runs::{Run, Runs, fetch};
use crate::host::use_host;
use crate::parts::press::Press;
use crate::parts::sent::Waiting;
use crate::words::{k, say, say_with, text, tr};

/// The page.
#[component]
pub(super) fn Own() -> impl IntoView {
    let host = use_host();
    let runs = RwSignal::new(None::<Result<Vec<Run>, String>>);
    // Whatever has just arrived is shown.
    Effect::new(move |_| {
        host.waiting.track();
        leptos::task::spawn_local(async move {
            runs.try_set(Some(fetch(None).await));
        });
    });
    let name = move || {
        let name = host.trainee().unwrap_or_default();
        say_with(k("class-you-are"), vec![("name", text(name))])
    };
    let leave = move |_| leptos::task::spawn_local(host.leave());
    let all_there = move || {
        (host.waiting.get() == 0).then(|| view! { <p id="all-sent">{say(k("class-all-sent"))}</p> })
    };
    view! {
        <p id="class-you">{name}</p>
        <p class="actions">
            <a class="button primary" href="#/path">
                {tr("to-path")}
            </a>
            <Press name=k("class-leave") id="leave-class" act=leave />
        </p>
        <div role="status">{all_there} <Waiting /></div>
        <Runs runs names=false />
    }
}
