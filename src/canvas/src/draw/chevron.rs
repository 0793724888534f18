//! An arrow head, which says the way on the floor.

use bevy::math::Vec2;

use super::ink::Ink;
use crate::palette::Colour;

/// An open arrow head with its point at `tip`.
pub(super) fn chevron(
    ink: &mut Ink,
    tip: Vec2,
    way: Vec2,
    out: Vec2,
    size: f32,
    width: f32,
    colour: Colour,
) {
    let back = tip - way * size * 0.7;
    ink.run(&[back + out * size, tip, back - out * size], width, colour);
}
