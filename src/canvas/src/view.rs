//! How the yard is shown: what the pages set, kept while drives and replays come and go.

use coneyard_core::desk::{Covered, Sight, View};

/// Until the pages have set anything.
pub(crate) const FIRST: View = View {
    north_up: true,
    helps: false,
    dark: false,
    sight: Sight::WhatTheRiderSees,
    covered: Covered { top: 0.0, bottom: 0.0 },
    zoom: 1.0,
    overview: false,
};

/// The view with its zoom within what can be made out.
pub(crate) fn within(view: View) -> View {
    let zoom = if view.zoom.is_finite() { view.zoom.clamp(0.3, 8.0) } else { 1.0 };
    View { zoom, ..view }
}
