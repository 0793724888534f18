//! What a step asks for besides driving: the way to the next place to pick from, and what there is
//! to be looked at before a dock. A look is told as what is to be seen, not as right or wrong: that
//! is for the rider to say.

use coneyard_core::course::warehouse::DockCheck;
use coneyard_core::desk::CheckStatus;
use coneyard_core::finding::Unit;
use leptos::prelude::*;

use super::Desk;
use crate::words::{k, quantity, say, say_with, text};

/// What a look at this has shown, or that it waits to be looked at.
fn words(check: CheckStatus) -> &'static str {
    match (check.what, check.is_fine) {
        (DockCheck::VehicleHeld, None) => k("dock-vehicle-look"),
        (DockCheck::VehicleHeld, Some(true)) => k("dock-vehicle-fine"),
        (DockCheck::VehicleHeld, Some(false)) => k("dock-vehicle-wrong"),
        (DockCheck::PlateSeated, None) => k("dock-plate-look"),
        (DockCheck::PlateSeated, Some(true)) => k("dock-plate-fine"),
        (DockCheck::PlateSeated, Some(false)) => k("dock-plate-wrong"),
        (DockCheck::EdgeClosed, None) => k("dock-edge-look"),
        (DockCheck::EdgeClosed, Some(true)) => k("dock-edge-fine"),
        (DockCheck::EdgeClosed, Some(false)) => k("dock-edge-wrong"),
    }
}

/// The lines under the task.
#[component]
pub(super) fn Asked(desk: Desk) -> impl IntoView {
    // To the nearest half metre: the text need not flicker.
    let away = Memo::new(move |_| {
        desk.status.with(|s| s.as_ref()?.task.pick_away.map(|m| (m * 2.0).round() / 2.0))
    });
    let checks = Memo::new(move |_| {
        desk.status.with(|s| s.as_ref().map(|s| s.task.dock.clone()).unwrap_or_default())
    });
    let away_text = move || {
        let units = desk.settings.with(|s| s.units);
        let distance = quantity(away.get()?, Unit::Metre, units);
        Some(say_with(k("drive-pick-away"), vec![("distance", text(distance))]))
    };
    let list = move || {
        let checks = checks.get();
        if checks.is_empty() {
            return None;
        }
        let items = checks
            .into_iter()
            .map(|check| {
                let mark = if check.is_fine.is_none() { "○" } else { "●" };
                view! {
                    <li>
                        <span aria-hidden="true">{mark} " "</span>
                        {say(words(check))}
                    </li>
                }
            })
            .collect_view();
        Some(view! { <ul class="checks">{items}</ul> })
    };
    view! {
        <p class="more">{away_text}</p>
        <div aria-live="polite">{list}</div>
    }
}
