//! The shapes of somebody on foot, from above, facing +x.

use bevy::math::Vec2;

use super::ink::Ink;
use crate::palette::Palette;

/// Half of the shoulders' width, m: what is drawn is what counts as the person's outline.
const HALF: f32 = 0.25;

pub(super) fn boot(p: &Palette) -> Ink {
    let mut ink = Ink::default();
    ink.slab(Vec2::new(-0.1, -0.05), Vec2::new(0.17, 0.05), 0.05, p.boot);
    ink
}

/// Shoulders in a lime vest with two pale bands.
pub(super) fn torso(p: &Palette) -> Ink {
    let mut ink = Ink::default();
    ink.blur(Vec2::new(0.05, -0.05), Vec2::new(0.3, 0.38), p.shadow);
    // A light halo tells them from a dark floor, a dark outline from a light one.
    ink.slab(Vec2::new(-0.2, -HALF - 0.05), Vec2::new(0.2, HALF + 0.05), 0.18, p.halo);
    ink.slab(Vec2::new(-0.15, -HALF), Vec2::new(0.15, HALF), 0.14, p.outline);
    ink.slab(Vec2::new(-0.115, -HALF + 0.035), Vec2::new(0.115, HALF - 0.035), 0.1, p.vest);
    for y in [-0.13_f32, 0.13] {
        ink.slab(Vec2::new(-0.11, y - 0.026), Vec2::new(0.11, y + 0.026), 0.01, p.vest_band);
    }
    ink
}

/// A capped head.
pub(super) fn head(p: &Palette) -> Ink {
    let mut ink = Ink::default();
    ink.disc(Vec2::new(0.03, 0.0), 0.1, p.skin);
    let peak: Vec<Vec2> = (0..=10)
        .map(|i| {
            Vec2::new(0.04, 0.0)
                + Vec2::new(0.14, 0.1) * Vec2::from_angle((i as f32 / 10.0 - 0.5) * 2.6)
        })
        .collect();
    ink.area(&peak, p.cap_peak);
    ink.disc(Vec2::ZERO, 0.112, p.cap_peak);
    ink.disc(Vec2::ZERO, 0.1, p.trim);
    ink
}

/// The head thrown back: a face is seen, and a ring of short strokes says that something was heard.
pub(super) fn face(p: &Palette) -> Ink {
    let mut ink = Ink::default();
    ink.disc(Vec2::new(-0.04, 0.0), 0.11, p.trim);
    ink.disc(Vec2::new(0.03, 0.0), 0.105, p.cap_peak);
    ink.disc(Vec2::new(0.03, 0.0), 0.095, p.skin);
    for y in [-0.035, 0.035] {
        ink.disc(Vec2::new(0.05, y), 0.015, p.boot);
    }
    for i in -2..=2 {
        let way = Vec2::from_angle(i as f32 * 0.42);
        ink.run(&[way * 0.36, way * 0.47], 0.045, p.ink);
    }
    ink
}

/// A hand held up before the body: going no farther.
pub(super) fn palm(p: &Palette) -> Ink {
    let mut ink = Ink::default();
    ink.run(&[Vec2::new(0.05, -0.2), Vec2::new(0.3, -0.16)], 0.11, p.body_edge);
    ink.run(&[Vec2::new(0.05, -0.2), Vec2::new(0.3, -0.16)], 0.085, p.vest);
    ink.disc(Vec2::new(0.34, -0.155), 0.065, p.boot);
    ink.disc(Vec2::new(0.34, -0.155), 0.052, p.skin);
    ink
}

/// Somebody whom the rider does not see: head and shoulders as lines.
pub(super) fn outline(p: &Palette) -> Ink {
    let mut ink = Ink::default();
    let shoulders: Vec<Vec2> = (0..24)
        .map(|i| {
            let a = i as f32 / 24.0 * core::f32::consts::TAU;
            Vec2::new(0.15 * a.cos(), HALF * a.sin())
        })
        .collect();
    ink.edge(&shoulders, 0.035, p.ink);
    ink.ring(Vec2::ZERO, 0.1, 0.035, p.ink);
    ink.run(&[Vec2::new(0.22, 0.07), Vec2::new(0.3, 0.0), Vec2::new(0.22, -0.07)], 0.035, p.ink);
    ink
}
