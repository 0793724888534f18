//! Our own drawings. What they show stands beside them in words, by number.

use leptos::prelude::*;

use crate::parts::dials::arc;

/// A number on a drawing.
#[component]
fn Callout(n: u8, x: f64, y: f64) -> impl IntoView {
    view! {
        <g class="callout">
            <circle cx=x cy=y r="11" />
            <text x=x y=y + 4.5>
                {n}
            </text>
        </g>
    }
}

/// The truck from above, power unit to the right.
#[component]
pub(super) fn TruckDrawing() -> impl IntoView {
    view! {
        <svg class="drawing" viewBox="0 0 420 190" aria-hidden="true">
            <g class="forks">
                <rect x="20" y="58" width="190" height="22" rx="8" />
                <rect x="20" y="112" width="190" height="22" rx="8" />
            </g>
            <rect class="backrest" x="206" y="50" width="10" height="92" rx="2" />
            <rect class="platform" x="216" y="48" width="66" height="96" rx="4" />
            <ellipse class="rider" cx="248" cy="76" rx="17" ry="22" />
            <circle class="head" cx="250" cy="76" r="9" />
            <path
                class="power"
                d="M282 48h70q28 0 28 28v40q0 28 -28 28h-70z"
            />
            <rect class="wheel" x="322" y="86" width="40" height="20" rx="5" />
            <path class="tiller" d="M342 96L270 88" />
            <circle class="hub" cx="342" cy="96" r="6" />
            <path class="grip" d="M272 74v28" />
            <rect class="wheel" x="44" y="64" width="22" height="10" rx="3" />
            <rect class="wheel" x="44" y="118" width="22" height="10" rx="3" />
            <path class="way" d="M384 170h-30m30 0l-8 -6m8 6l-8 6" />
            <Callout n=1 x=352.0 y=66.0 />
            <Callout n=2 x=362.0 y=120.0 />
            <Callout n=3 x=298.0 y=76.0 />
            <Callout n=4 x=262.0 y=126.0 />
            <Callout n=5 x=211.0 y=164.0 />
            <Callout n=6 x=140.0 y=96.0 />
            <Callout n=7 x=55.0 y=152.0 />
        </svg>
    }
}

/// The arm from the side, with its two brake zones.
#[component]
pub(super) fn ArmDrawing() -> impl IntoView {
    let (cx, cy, r) = (60.0, 170.0, 130.0);
    view! {
        <svg class="drawing arm-drawing" viewBox="0 0 260 200" aria-hidden="true">
            <path class="zone brake" d=arc(cx, cy, r, 0.0, 12.0) />
            <path class="zone drive" d=arc(cx, cy, r, 12.0, 78.0) />
            <path class="zone brake" d=arc(cx, cy, r, 78.0, 90.0) />
            <line class="tiller" x1=cx y1=cy x2="152" y2="78" />
            <path class="grip" d="M142 68l20 20" />
            <circle class="hub" cx=cx cy=cy r="8" />
            <Callout n=1 x=92.0 y=24.0 />
            <Callout n=2 x=176.0 y=62.0 />
            <Callout n=3 x=214.0 y=156.0 />
        </svg>
    }
}

/// A gamepad of the standard layout, from the front.
#[component]
pub(super) fn PadDrawing() -> impl IntoView {
    view! {
        <svg class="drawing" viewBox="0 0 420 220" aria-hidden="true">
            <path
                class="body"
                d="M110 60h200q44 0 62 54l18 60q6 30 -20 30q-16 0 -34 -26l-22 -30h-208l-22 30q-18 26 -34 26q-26 0 -20 -30l18 -60q18 -54 62 -54z"
            />
            <rect class="part" x="96" y="36" width="60" height="16" rx="8" />
            <rect class="part" x="264" y="36" width="60" height="16" rx="8" />
            <rect class="part" x="102" y="12" width="48" height="16" rx="6" />
            <rect class="part" x="270" y="12" width="48" height="16" rx="6" />
            <circle class="part" cx="114" cy="96" r="22" />
            <circle class="part" cx="262" cy="136" r="22" />
            <path class="part" d="M150 124h16v-14h14v14h16v14h-16v14h-14v-14h-16z" />
            <circle class="part" cx="312" cy="74" r="9" />
            <circle class="part" cx="312" cy="118" r="9" />
            <circle class="part" cx="290" cy="96" r="9" />
            <circle class="part" cx="334" cy="96" r="9" />
            <rect class="part" x="226" y="82" width="22" height="12" rx="6" />
            <Callout n=1 x=114.0 y=96.0 />
            <Callout n=2 x=262.0 y=136.0 />
            <Callout n=3 x=340.0 y=20.0 />
            <Callout n=4 x=80.0 y=44.0 />
            <Callout n=5 x=312.0 y=96.0 />
            <Callout n=6 x=173.0 y=131.0 />
            <Callout n=7 x=237.0 y=66.0 />
        </svg>
    }
}

/// A phone with a thumb on each track.
#[component]
pub(super) fn TouchDrawing() -> impl IntoView {
    view! {
        <svg class="drawing" viewBox="0 0 420 180" aria-hidden="true">
            <rect class="body" x="10" y="10" width="400" height="160" rx="18" />
            <rect class="part" x="34" y="100" width="210" height="48" rx="20" />
            <circle class="knob" cx="118" cy="124" r="19" />
            <path class="way" d="M78 84h80m-80 0l10 -7m-10 7l10 7m70 -7l-10 -7m10 7l-10 7" />
            <rect class="part" x="320" y="30" width="60" height="120" rx="20" />
            <circle class="knob" cx="350" cy="66" r="19" />
            <path class="way" d="M300 50v80m0 -80l-7 10m7 -10l7 10m-7 70l-7 -10m7 10l7 -10" />
        </svg>
    }
}
