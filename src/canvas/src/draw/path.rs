//! The way driven, in a replay: the platform's middle from start to end.

use bevy::math::Vec2;

use super::Scene;
use super::ink::Ink;
use crate::palette::Palette;

/// The own way as a line, the companion's as a thinner, paler one.
pub(super) fn path(scene: &Scene, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    if scene.companion_path.len() > 1 {
        ink.run(&thinned(&scene.companion_path), 0.03, p.path.faded(0.5));
    }
    if scene.path.len() > 1 {
        ink.run(&thinned(&scene.path), 0.045, p.path);
    }
    ink
}

/// Only points that are a hand's breadth apart: standing still adds nothing.
fn thinned(points: &[Vec2]) -> Vec<Vec2> {
    let mut kept: Vec<Vec2> = Vec::new();
    for p in points {
        if kept.last().is_none_or(|last| last.distance(*p) > 0.08) {
            kept.push(*p);
        }
    }
    kept
}
