//! The timeline under a replay: findings as marks, traces of speed, throttle, tiller, arm, look and forks
//! with their names beside them, and the place that is shown. It knows ticks and values, not the canvas: whoever uses it is told
//! where to go.

mod marks;
mod scale;
mod traces;

use coneyard_core::desk::Traces;
use coneyard_core::finding::Finding;
use coneyard_core::time::{TICK_RATE, Tick};
use coneyard_core::words::Units;
use leptos::ev::{KeyboardEvent, PointerEvent, resize};
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use crate::words::{fine_time_text, k, say_with, text, time_text, tr};
use marks::Marks;
use scale::{Scale, tick_step};
use traces::{Name, Row, rows};

/// Where the playhead goes by a key; None when the key is not one of the timeline's.
fn by_key(key: &str, fast: bool, now: Tick, last: Tick) -> Option<Tick> {
    let step = if fast { TICK_RATE } else { 1 };
    match key {
        "ArrowLeft" | "ArrowDown" => Some(now.saturating_sub(step)),
        "ArrowRight" | "ArrowUp" => Some((now + step).min(last)),
        "PageUp" => Some(now.saturating_sub(5 * TICK_RATE)),
        "PageDown" => Some((now + 5 * TICK_RATE).min(last)),
        "Home" => Some(0),
        "End" => Some(last),
        _ => None,
    }
}

/// The timeline.
#[component]
pub(crate) fn Timeline(
    /// Length of the run.
    last: Tick,
    /// Values under it.
    traces: Traces,
    /// Marks on it.
    findings: Vec<Finding>,
    /// The tick that is shown.
    #[prop(into)]
    now: Signal<Tick>,
    /// Units of the values.
    #[prop(into)]
    units: Signal<Units>,
    /// Goes to a tick.
    seek: Callback<Tick>,
    /// Shows the finding of this index.
    pick: Callback<usize>,
) -> impl IntoView {
    let scale = Scale { last };
    let pointed = move |ev: &PointerEvent| {
        let Some(track) = ev.current_target().and_then(|t| t.dyn_into::<web_sys::Element>().ok())
        else {
            return;
        };
        let area = track.get_bounding_client_rect();
        let share = (f64::from(ev.client_x()) - area.left()) / area.width().max(1.0);
        seek.run(scale.tick_at(share));
    };
    let key = move |ev: KeyboardEvent| {
        if let Some(tick) = by_key(&ev.key(), ev.shift_key(), now.get_untracked(), last) {
            ev.prevent_default();
            // The page's own keys would move it a second time.
            ev.stop_propagation();
            seek.run(tick);
        }
    };
    let told = move || {
        say_with(
            k("timeline-at"),
            vec![("at", text(fine_time_text(now.get()))), ("length", text(time_text(last)))],
        )
    };
    let rows = rows(&traces, last);
    let names = rows
        .iter()
        .map(|row| view! { <Name name=row.name() ends=row.ends() units /> })
        .collect_view();
    let places: Vec<f64> = findings.iter().map(|f| 100.0 * scale.share(f.from)).collect();
    let places = places
        .into_iter()
        .map(|at| view! { <span class="at-finding" style:left=format!("{at:.3}%")></span> })
        .collect_view();
    let rows = rows.into_iter().map(|row| view! { <Row row /> }).collect_view();
    let plot = NodeRef::<leptos::html::Div>::new();
    let wide = RwSignal::new(0.0);
    let measure = move || {
        // The page may be left before the next picture.
        if let Some(Some(plot)) = plot.try_get_untracked() {
            wide.try_set(f64::from(plot.client_width()));
        }
    };
    plot.on_load(move |_| request_animation_frame(measure));
    let resized = window_event_listener(resize, move |_| measure());
    on_cleanup(move || resized.remove());
    view! {
        <section class="timeline" aria-label=tr("timeline-label")>
            <Marks findings scale wide pick />
            <ul class="trace-names">
                {names}
            </ul>
            <div
                class="plot"
                node_ref=plot
                role="slider"
                tabindex="0"
                aria-label=tr("timeline-place")
                aria-valuemin="0"
                aria-valuemax=last
                aria-valuenow=move || now.get()
                aria-valuetext=told
                on:keydown=key
                on:pointerdown=move |ev| {
                    if let Some(track) = ev
                        .current_target()
                        .and_then(|t| t.dyn_into::<web_sys::Element>().ok())
                    {
                        // Without capture the drag ends at the plot's edge.
                        let _ = track.set_pointer_capture(ev.pointer_id());
                    }
                    pointed(&ev);
                }
                on:pointermove=move |ev| {
                    if ev.buttons() != 0 {
                        pointed(&ev);
                    }
                }
            >
                {rows} {places}
                <span
                    class="playhead"
                    aria-hidden="true"
                    style:left=move || format!("{:.3}%", scale.share(now.get()) * 100.0)
                ></span>
            </div>
            <div class="axis" aria-hidden="true">
                {(0..=last / tick_step(last))
                    .map(|n| {
                        let tick = n * tick_step(last);
                        view! {
                            <span style:left=format!(
                                "{:.3}%",
                                scale.share(tick) * 100.0,
                            )>{time_text(tick)}</span>
                        }
                    })
                    .collect_view()}
            </div>
        </section>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_stay_within_the_run() {
        assert_eq!(by_key("ArrowLeft", false, 0, 100), Some(0));
        assert_eq!(by_key("ArrowRight", false, 7, 100), Some(8));
        assert_eq!(by_key("ArrowRight", true, 7, 100), Some(71));
        assert_eq!(by_key("PageDown", false, 7, 100), Some(100));
        assert_eq!(by_key("End", false, 7, 100), Some(100));
        assert_eq!(by_key("q", false, 7, 100), None);
    }
}
