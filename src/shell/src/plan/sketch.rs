//! A course in a list: its plan as a small picture, with the person's best line on it.

use leptos::prelude::*;

use super::frame::Frame;
use super::ground::Ground;
use super::view::{driven, hatching, layers};

/// The picture is at most so wide and so high, in its own units: lines keep their strength when it is small.
const WIDEST: f64 = 600.0;
const HIGHEST: f64 = 320.0;

/// The picture. A line without points is left out.
#[component]
pub(crate) fn Sketch(ground: Ground, line: Vec<[f32; 2]>) -> impl IntoView {
    let floor = &ground.floor;
    let frame = Frame::within(floor.south_west_m, floor.north_east_m, WIDEST, HIGHEST);
    let (width, height) = (frame.width(), frame.height());
    let drawn = layers(&ground, &frame)
        .into_iter()
        .map(|(class, data)| view! { <path class=class fill=hatching(class) d=data /> })
        .collect_view();
    let way = (!line.is_empty()).then(|| driven(&line, &frame));
    view! {
        <svg class="plan" viewBox=format!("0 0 {width:.1} {height:.1}") aria-hidden="true">
            <path class="floor" d=format!("M0 0H{width:.1}V{height:.1}H0Z") />
            {drawn}
            {way}
        </svg>
    }
}
