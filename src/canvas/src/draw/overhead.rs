//! What hangs over the floor, drawn over everything that drives under it: beams and strip curtains.

use bevy::math::Vec2;
use coneyard_core::course::{Structure, StructureKind};

use super::ink::{Ink, turned};
use super::v;
use crate::palette::Palette;
use crate::slices::slices;

/// Strips of a curtain are this wide, m.
const STRIP: f32 = 0.2;

/// All of it.
pub(super) fn overhead(all: &[Structure], p: &Palette) -> Ink {
    let mut ink = Ink::default();
    for s in all {
        match s.kind {
            StructureKind::Beam => beam(&mut ink, s, p),
            StructureKind::Curtain => curtain(&mut ink, s, p),
            _ => {}
        }
    }
    ink
}

/// A dashed outline with a sparse hatch: the floor under it stays in sight.
fn beam(ink: &mut Ink, s: &Structure, p: &Palette) {
    let corners = turned(v(s.pose.at), s.pose.heading as f32, v(s.size));
    let slant = Vec2::from_angle(s.pose.heading as f32 + core::f32::consts::FRAC_PI_4);
    for stripe in slices(&corners, slant, 0.05, 0.4) {
        ink.area(&stripe, p.beam.faded(0.55));
    }
    for i in 0..4 {
        ink.dashes(corners[i], corners[(i + 1) % 4], 0.18, 0.055, p.beam);
    }
}

/// A wavy row of clear strips: one goes through them.
fn curtain(ink: &mut Ink, s: &Structure, p: &Palette) {
    let along = Vec2::from_angle(s.pose.heading as f32);
    let half = 0.5 * v(s.size);
    let depth = half.y.clamp(0.04, 0.12);
    let count = (2.0 * half.x / STRIP).round().clamp(1.0, 400.0) as u32;
    let width = 2.0 * half.x / count as f32;
    let at = |x: f32, y: f32| v(s.pose.at) + along * x + along.perp() * y;
    let corners = turned(v(s.pose.at), s.pose.heading as f32, Vec2::new(2.0 * half.x, 2.0 * depth));
    ink.area(&corners, p.curtain.faded(0.5));
    for i in 0..count {
        let x = -half.x + width * i as f32;
        let side = if i % 2 == 0 { depth } else { -depth };
        let wave: Vec<Vec2> = (0..=6)
            .map(|k| {
                let share = k as f32 / 6.0;
                at(x + width * share, side * (share * core::f32::consts::PI).sin())
            })
            .collect();
        ink.run(&wave, 0.035, p.curtain_edge);
    }
    for end in [-half.x, half.x] {
        ink.line(at(end, -depth - 0.06), at(end, depth + 0.06), 0.09, p.rack_post);
    }
}
