//! Smooth edges and many points cost a computer without a graphics card most of each picture: there, and
//! wherever pictures come too slowly, both are given up, because a slow picture slows the drive.

use bevy::prelude::*;
use bevy::render::renderer::RenderAdapterInfo;
use bevy::render::view::Msaa;

/// What browsers call a renderer that works without a graphics card.
const WITHOUT_CARD: [&str; 4] = ["swiftshader", "llvmpipe", "softpipe", "basic render"];

/// Slower than this is too slow, s: 22 pictures a second.
const SLOW_S: f32 = 0.045;

/// After so much lost time, what quick pictures win back taken off, edges become plain, s.
const PATIENCE_S: f32 = 0.6;

/// One picture counts for no more than this, s: a single long stop proves nothing.
const MOST_S: f32 = 0.15;

/// Time since the picture before, s; None when nothing was drawn in between because nothing moved.
#[derive(Resource, Default)]
pub(crate) struct SinceLast(pub(crate) Option<f32>);

/// Whether fewer points are drawn than the screen has, and how many of width and height.
#[derive(Resource)]
pub(crate) struct Coarse {
    /// They are, as long as something is driven.
    pub(crate) on: bool,
    /// Share of width and height, 0 to 1.
    pub(crate) share: f64,
}

impl Default for Coarse {
    fn default() -> Self {
        Self { on: false, share: 1.0 }
    }
}

/// Begins with plain edges and fewer points where there is no graphics card.
pub(super) fn begin(
    info: Option<Res<RenderAdapterInfo>>,
    mut edges: Single<&mut Msaa>,
    mut coarse: ResMut<Coarse>,
) {
    let name = info.map(|i| i.name.to_lowercase()).unwrap_or_default();
    if WITHOUT_CARD.iter().any(|part| name.contains(part)) {
        **edges = Msaa::Off;
        coarse.on = true;
    }
}

pub(super) fn ease(
    since: Res<SinceLast>,
    mut lost_s: Local<f32>,
    mut edges: Single<&mut Msaa>,
    mut coarse: ResMut<Coarse>,
) {
    let Some(gap) = since.0 else {
        return;
    };
    *lost_s = (*lost_s + (gap - SLOW_S).min(MOST_S)).max(0.0);
    if *lost_s < PATIENCE_S || coarse.on {
        return;
    }
    if **edges == Msaa::Off {
        coarse.on = true;
    } else {
        **edges = Msaa::Off;
        *lost_s = 0.0;
    }
}
