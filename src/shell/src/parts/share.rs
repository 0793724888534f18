//! The share of clean opportunities and how sure it is, as words and as a bar: the band is
//! Wilson's interval, the line in it the share itself.

use coneyard_core::class::detection::Estimate;
use coneyard_core::finding::Unit;
use coneyard_core::score::certainty::wilson;
use leptos::prelude::*;

use crate::settings::use_settings;
use crate::words::{k, number, quantity, say_with, text};

/// The share and both ends of its 95 % interval, each of one; None without an opportunity.
pub(crate) fn share(clean: u32, opportunities: u32) -> Option<(f64, f64, f64)> {
    let (low, high) = wilson(clean, opportunities)?;
    Some((f64::from(clean) / f64::from(opportunities), low, high))
}

/// "75 % (30 % to 95 %)".
pub(crate) fn share_text(clean: u32, opportunities: u32) -> Option<String> {
    let (value, low, high) = share(clean, opportunities)?;
    Some(estimate_text(Estimate { value, low, high }))
}

/// The same of a share that was reckoned otherwise.
pub(crate) fn estimate_text(is: Estimate) -> String {
    let shown = |value| text(percent(value));
    say_with(
        k("share-interval"),
        vec![("share", shown(is.value)), ("low", shown(is.low)), ("high", shown(is.high))],
    )
}

/// A share of one in percent.
pub(crate) fn percent(share: f64) -> String {
    let units = use_settings().with(|s| s.units);
    quantity(share, Unit::Share, units)
}

/// "3 of 4 without a fault".
pub(crate) fn clean_text(clean: u32, opportunities: u32) -> String {
    say_with(
        k("debrief-clean-of"),
        vec![("clean", number(clean)), ("opportunities", number(opportunities))],
    )
}

/// The bar, from none to all.
#[component]
pub(crate) fn ShareBar(clean: u32, opportunities: u32) -> impl IntoView {
    let (value, low, high) = share(clean, opportunities)?;
    Some(view! { <EstimateBar is=Estimate { value, low, high } /> })
}

/// The same of a share that was reckoned otherwise.
#[component]
pub(crate) fn EstimateBar(is: Estimate) -> impl IntoView {
    let Estimate { value: share, low, high } = is;
    // A band of no width would not be seen.
    let (low, high) = (low * 100.0, (high * 100.0).max(low * 100.0 + 0.5));
    let at = (share * 100.0).clamp(0.6, 99.4);
    view! {
        <svg class="share" viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true">
            <rect class="track" x="0" y="0" width="100" height="10" />
            <rect
                class="band"
                x=format!("{low:.2}")
                y="2"
                width=format!("{:.2}", high - low)
                height="6"
            />
            <path class="here" d=format!("M{at:.2} 0V10") />
        </svg>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_share_lies_in_its_interval() {
        assert_eq!(share(0, 0), None);
        for (clean, of) in [(0, 1), (1, 1), (3, 4), (23, 60), (60, 60)] {
            let (share, low, high) = share(clean, of).unwrap();
            assert!(low <= share && share <= high && low < high, "{clean}/{of}");
        }
        // Newcombe 1998, Table I.
        let (_, low, high) = share(15, 148).unwrap();
        assert!((low - 0.0624).abs() < 5e-5 && (high - 0.1605).abs() < 5e-5);
    }
}
