//! Small drawings on the dashboard. Each stands beside the same value in words.

use coneyard_core::truck::arm::ArmZone;
use leptos::prelude::*;

/// A point on a circle about (cx, cy), at an angle from straight up, clockwise positive, degrees.
pub(super) fn around(cx: f64, cy: f64, radius: f64, degrees: f64) -> (f64, f64) {
    let radians = degrees.to_radians();
    let (sin, cos) = (coneyard_core::math::sin(radians), coneyard_core::math::cos(radians));
    (cx + radius * sin, cy - radius * cos)
}

/// SVG path of an arc from one angle to another, clockwise.
pub(super) fn arc(cx: f64, cy: f64, radius: f64, from: f64, to: f64) -> String {
    let (x0, y0) = around(cx, cy, radius, from);
    let (x1, y1) = around(cx, cy, radius, to);
    let large = i32::from((to - from).abs() > 180.0);
    format!("M{x0:.2} {y0:.2}A{radius} {radius} 0 {large} 1 {x1:.2} {y1:.2}")
}

/// Parts of the arm's arc, degrees from upright: where the drawing changes from brake to driving
/// and back. Only the picture's proportions; the zone itself comes from the yard.
pub(super) const UPPER_ENDS: f64 = 12.0;
pub(super) const LOWER_BEGINS: f64 = 78.0;

/// The arm from the side: a quarter circle with its two brake zones hatched, and the arm in it.
#[component]
pub(crate) fn ArmDial(
    /// Arm from upright, degrees.
    #[prop(into)]
    degrees: Signal<f64>,
    /// The zone it is in.
    #[prop(into)]
    zone: Signal<Option<ArmZone>>,
) -> impl IntoView {
    let (cx, cy, r) = (10.0, 74.0, 60.0);
    let tip = move || around(cx, cy, r + 4.0, degrees.get());
    let braking = move || zone.get().is_some_and(|z| z != ArmZone::Driving);
    view! {
        <svg class="dial arm" viewBox="0 0 84 84" aria-hidden="true" class:braking=braking>
            <path class="zone brake" d=arc(cx, cy, r, 0.0, UPPER_ENDS) />
            <path class="zone drive" d=arc(cx, cy, r, UPPER_ENDS, LOWER_BEGINS) />
            <path class="zone brake" d=arc(cx, cy, r, LOWER_BEGINS, 90.0) />
            <line class="hand" x1=cx y1=cy x2=move || tip().0 y2=move || tip().1 />
            <circle class="hub" cx=cx cy=cy r="5" />
        </svg>
    }
}

/// The truck's front from above with the drive wheel turned.
#[component]
pub(crate) fn TillerDial(
    /// Drive wheel angle, degrees, left positive.
    #[prop(into)]
    degrees: Signal<f64>,
) -> impl IntoView {
    let turn = move || format!("rotate({:.1} 42 54)", -degrees.get());
    view! {
        <svg class="dial tiller" viewBox="0 0 84 84" aria-hidden="true">
            <path class="zone drive" d=arc(42.0, 54.0, 44.0, -85.0, 85.0) />
            <line class="tick" x1="42" y1="6" x2="42" y2="16" />
            <g transform=turn>
                <rect class="wheel" x="35" y="38" width="14" height="32" rx="4" />
                <line class="hand" x1="42" y1="38" x2="42" y2="15" />
            </g>
        </svg>
    }
}

/// Fork height beside the travelling height.
#[component]
pub(crate) fn ForkDial(
    /// Height, m.
    #[prop(into)]
    height: Signal<f64>,
) -> impl IntoView {
    // 0.20 m of lift over 60 units of drawing.
    let y = move || 72.0 - (height.get().clamp(0.0, 0.2)) * 300.0;
    view! {
        <svg class="dial forks" viewBox="0 0 84 84" aria-hidden="true">
            <line class="floor" x1="6" y1="78" x2="78" y2="78" />
            <rect class="band" x="6" y="57" width="72" height="7.5" />
            <path class="fork" d=move || format!("M18 12V{0:.1}H72v-5H26V12z", y()) />
        </svg>
    }
}

/// The platform from behind with the rider's side marked.
#[component]
pub(crate) fn StanceDial(
    /// Stands on the left.
    #[prop(into)]
    left: Signal<bool>,
    /// Between the sides.
    #[prop(into)]
    stepping: Signal<bool>,
) -> impl IntoView {
    let foot = move |is_left: bool| {
        if stepping.get() {
            "foot between"
        } else if left.get() == is_left {
            "foot here"
        } else {
            "foot"
        }
    };
    view! {
        <svg class="dial stance" viewBox="0 0 84 84" aria-hidden="true">
            <rect class="platform" x="6" y="18" width="72" height="48" rx="6" />
            <rect class=move || foot(true) x="12" y="24" width="27" height="36" rx="10" />
            <rect class=move || foot(false) x="45" y="24" width="27" height="36" rx="10" />
        </svg>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_arc_begins_upright_and_ends_level() {
        assert_eq!(arc(0.0, 0.0, 10.0, 0.0, 90.0), "M0.00 -10.00A10 10 0 0 1 10.00 -0.00");
    }
}
