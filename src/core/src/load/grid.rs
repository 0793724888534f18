//! Columns beside each other on a pallet.

use crate::load::event::Towards;
use crate::math::Vec2;

/// The part of a vector that goes one way.
pub(super) fn along(way: Towards, v: Vec2) -> f64 {
    match way {
        Towards::Backrest => v.x,
        Towards::Tips => -v.x,
        Towards::Left => v.y,
        Towards::Right => -v.y,
    }
}

/// The column beside one in its grid: rows from the backrest, in a row from left to right.
pub(super) fn neighbour(
    row: usize,
    place: usize,
    rows: usize,
    across: usize,
    way: Towards,
) -> Option<usize> {
    let (row, place) = match way {
        Towards::Backrest => (row.checked_sub(1)?, place),
        Towards::Tips => (row + 1, place),
        Towards::Left => (row, place.checked_sub(1)?),
        Towards::Right => (row, place + 1),
    };
    (row < rows && place < across).then_some(row * across + place)
}
