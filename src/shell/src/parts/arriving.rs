//! How much of the yard has come, while one waits for it: on a slow line that takes long enough to wonder.

use std::time::Duration;

use leptos::leptos_dom::helpers::set_interval_with_handle;
use leptos::prelude::*;

use crate::canvas;
use crate::words::{k, say, say_with, steady_number, text};

/// How often it is looked at.
const LOOK_AGAIN: Duration = Duration::from_millis(250);

/// A megabyte, bytes.
const MB: f64 = 1e6;

/// A bar and the bytes; nothing when nothing is on its way.
#[component]
pub(crate) fn Arriving() -> impl IntoView {
    let arrived = RwSignal::new(canvas::arrived());
    let look = move || {
        // The page may have been left.
        arrived.try_set(canvas::arrived());
    };
    // Without a clock the first look stands.
    let clock = StoredValue::new(set_interval_with_handle(look, LOOK_AGAIN).ok());
    on_cleanup(move || {
        if let Some(Some(clock)) = clock.try_get_value() {
            clock.clear();
        }
    });
    let there = Memo::new(move |_| arrived.with(Option::is_some));
    let share = move || arrived.get().map_or(1.0, |(got, all)| got / all);
    let bytes = move || {
        let shown = |bytes: f64| text(steady_number(bytes / MB, 1));
        let (got, all) = arrived.get().unwrap_or_default();
        say_with(k("loading-bytes"), vec![("got", shown(got)), ("all", shown(all))])
    };
    view! {
        <Show when=move || there.get()>
            <span class="arriving">
                <progress max="1" prop:value=share aria-label=say(k("loading-share"))></progress>
                // What changes so often is not read aloud; the bar tells it to whoever asks.
                <span aria-hidden="true">{bytes}</span>
            </span>
        </Show>
    }
}
