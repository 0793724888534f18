//! A finding's number in a shape by its severity, so that it is told without colour: a diamond is
//! good, a circle minor, a triangle major, a black square critical.

use coneyard_core::finding::Severity;
use leptos::prelude::*;

use crate::parts::finding;

/// Path data of the shape around 0, 0, and how far below the middle its number stands, 0.1 mm.
fn shape(severity: Severity) -> (&'static str, f64) {
    match severity {
        Severity::Good => ("M0 -35L35 0L0 35L-35 0Z", 0.0),
        Severity::Minor => ("M-27 0a27 27 0 1 0 54 0a27 27 0 1 0 -54 0Z", 0.0),
        Severity::Major => ("M0 -40L38 26L-38 26Z", 9.0),
        Severity::Critical => ("M-25 -25H25V25H-25Z", 0.0),
    }
}

/// The number as part of a drawing, around 0, 0; without a number only the shape.
#[component]
pub(super) fn Shape(number: Option<usize>, severity: Severity) -> impl IntoView {
    let (shape, lower) = shape(severity);
    // A triangle has less room.
    let size = match number {
        Some(100..) => 21,
        Some(10..) if severity == Severity::Major => 25,
        _ => 28,
    };
    view! {
        <path d=shape />
        {number
            .map(|n| {
                view! {
                    <text y=lower font-size=size dy="0.35em">
                        {n}
                    </text>
                }
            })}
    }
}

/// The number in a line of text, as on the plan.
#[component]
pub(crate) fn Marker(
    /// As on the plan; None for the shape alone.
    #[prop(into)]
    number: Option<usize>,
    /// Which shape.
    severity: Severity,
) -> impl IntoView {
    view! {
        <svg
            class=format!("marker {}", finding::class(severity))
            data-number=number
            viewBox="-42 -42 84 84"
            role="img"
            aria-label=number.map(|n| n.to_string())
            aria-hidden=number.is_none().then_some("true")
        >
            <Shape number severity />
        </svg>
    }
}
