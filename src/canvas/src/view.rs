//! How the yard is shown: what the pages set, kept while drives and replays come and go.

use coneyard_core::desk::{Covered, Sight, View};

/// The pages' view, and how far it is zoomed out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Viewing {
    /// What the pages set.
    pub(crate) view: View,
    /// Metres seen across the shorter side, over the usual; above 1 shows more of the yard.
    pub(crate) zoom: f64,
}

impl Default for Viewing {
    fn default() -> Self {
        let view = View {
            north_up: true,
            helps: false,
            dark: false,
            sight: Sight::WhatTheRiderSees,
            covered: Covered::default(),
        };
        Self { view, zoom: 1.0 }
    }
}

impl Viewing {
    /// Sets the zoom within what can be made out.
    pub(crate) fn set_zoom(&mut self, zoom: f64) {
        self.zoom = if zoom.is_finite() { zoom.clamp(0.3, 8.0) } else { 1.0 };
    }
}
