//! Figures of strokes, for numbered marks: there is no font in the yard.

use bevy::math::Vec2;

use super::ink::Ink;
use crate::palette::Colour;

/// Strokes of each figure, in a box 1 wide and 2 high about the origin.
const FIGURES: [&[&[(f32, f32)]]; 10] = [
    &[&[(-0.5, -0.6), (-0.5, 0.6), (0.0, 1.0), (0.5, 0.6), (0.5, -0.6), (0.0, -1.0), (-0.5, -0.6)]],
    &[&[(-0.4, 0.55), (0.1, 1.0), (0.1, -1.0)]],
    &[&[(-0.5, 0.6), (0.0, 1.0), (0.5, 0.55), (-0.5, -1.0), (0.5, -1.0)]],
    &[&[(-0.5, 1.0), (0.5, 1.0), (-0.05, 0.2), (0.5, -0.4), (0.0, -1.0), (-0.5, -0.7)]],
    &[&[(0.25, -1.0), (0.25, 1.0), (-0.5, -0.35), (0.55, -0.35)]],
    &[&[(0.5, 1.0), (-0.4, 1.0), (-0.45, 0.2), (0.2, 0.2), (0.5, -0.4), (0.0, -1.0), (-0.5, -0.8)]],
    &[&[(0.4, 1.0), (-0.5, -0.3), (0.0, -1.0), (0.5, -0.5), (0.1, 0.1), (-0.35, -0.1)]],
    &[&[(-0.5, 1.0), (0.5, 1.0), (-0.15, -1.0)]],
    &[&[
        (0.0, 0.1),
        (-0.45, 0.55),
        (0.0, 1.0),
        (0.45, 0.55),
        (0.0, 0.1),
        (-0.5, -0.45),
        (0.0, -1.0),
        (0.5, -0.45),
        (0.0, 0.1),
    ]],
    &[&[(-0.4, -1.0), (0.5, 0.3), (0.0, 1.0), (-0.5, 0.5), (-0.1, -0.1), (0.35, 0.1)]],
];

/// Draws a number with its middle here; `height` in metres.
pub(super) fn number(ink: &mut Ink, n: usize, middle: Vec2, height: f32, colour: Colour) {
    let figures: Vec<usize> =
        n.to_string().bytes().map(|b| usize::from(b.saturating_sub(b'0'))).collect();
    let unit = 0.5 * height;
    let pitch = 1.5 * unit;
    let left = -0.5 * pitch * (figures.len() as f32 - 1.0);
    for (i, figure) in figures.into_iter().enumerate() {
        let at = middle + Vec2::new(left + pitch * i as f32, 0.0);
        for stroke in FIGURES[figure.min(9)] {
            let points: Vec<Vec2> =
                stroke.iter().map(|(x, y)| at + Vec2::new(*x, *y) * unit).collect();
            ink.run(&points, 0.32 * unit, colour);
        }
    }
}
