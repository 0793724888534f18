//! Our own drawings, from assets/drawings. They stand in the page itself and not behind an `img`,
//! so that they wear the colours of the light or the dark look. What they show stands beside them
//! in words, by number.

use leptos::prelude::*;

/// A drawing of assets/drawings: the text of its file, shown as it is.
#[component]
pub(super) fn Drawing(svg: &'static str) -> impl IntoView {
    view! { <div class="picture" inner_html=svg></div> }
}

/// The truck from above, power unit to the right.
pub(super) const TRUCK: &str = include_str!("../../../../../assets/drawings/truck.svg");
/// The arm from the side, with its two brake zones.
pub(super) const ARM: &str = include_str!("../../../../../assets/drawings/arm.svg");
/// A gamepad of the standard layout, from the front.
pub(super) const GAMEPAD: &str = include_str!("../../../../../assets/drawings/gamepad.svg");
/// A phone with a thumb on each track.
pub(super) const TOUCH: &str = include_str!("../../../../../assets/drawings/touch.svg");
