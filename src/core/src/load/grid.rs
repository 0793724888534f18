//! Columns beside each other on a pallet.

use crate::load::event::Way;
use crate::math::Vec2;

/// The part of a vector that goes one way.
pub(super) fn along(way: Way, v: Vec2) -> f64 {
    match way {
        Way::Backrest => v.x,
        Way::Tips => -v.x,
        Way::Left => v.y,
        Way::Right => -v.y,
    }
}

/// The column beside one in its grid: rows from the backrest, in a row from left to right.
pub(super) fn neighbour(
    row: usize,
    place: usize,
    rows: usize,
    across: usize,
    way: Way,
) -> Option<usize> {
    let (row, place) = match way {
        Way::Backrest => (row.checked_sub(1)?, place),
        Way::Tips => (row + 1, place),
        Way::Left => (row, place.checked_sub(1)?),
        Way::Right => (row, place + 1),
    };
    (row < rows && place < across).then_some(row * across + place)
}
