//! Working without network, in words: that it can be done, and that a newer version of the site is ready.

use leptos::prelude::*;

use super::press::Press;
use crate::canvas;
use crate::store::use_store;
use crate::words::{k, tr};

/// `web/offline.js` says by this event that something has changed.
const CHANGED: &str = "coneyard-offline";

/// What `web/offline.js` answers, now and whenever it has changed.
fn followed(ask: fn() -> bool) -> RwSignal<bool> {
    let answer = RwSignal::new(ask());
    let changed = window_event_listener_untyped(CHANGED, move |_| {
        answer.try_set(ask());
    });
    on_cleanup(move || changed.remove());
    answer
}

/// Offers a newer version. It is not shown where something is driven, and loads nothing unasked; nor while
/// there are attempts that would be lost with the page.
#[component]
pub(crate) fn Newer() -> impl IntoView {
    let newer = followed(canvas::is_newer);
    let store = use_store();
    let refused = RwSignal::new(false);
    let take = move |_| {
        leptos::task::spawn_local(async move {
            let taken = canvas::take_newer().await;
            refused.try_set(!taken);
        });
    };
    view! {
        <div class="kept no-print" role="status">
            <Show when=move || newer.get() && store.loose.with(Vec::is_empty)>
                <section class="note" id="newer">
                    <p>{tr("newer-ready")}</p>
                    <p class="actions">
                        <Press name=k("newer-take") id="take-newer" act=take />
                    </p>
                    <Show when=move || refused.get()>
                        <p>{tr("newer-refused")}</p>
                    </Show>
                </section>
            </Show>
        </div>
    }
}

/// That there is no need of a network, once that is so.
#[component]
pub(crate) fn WithoutNetwork() -> impl IntoView {
    let kept = followed(canvas::is_kept);
    view! {
        <Show when=move || kept.get()>
            <p id="kept-here">{tr("works-offline")}</p>
        </Show>
    }
}
