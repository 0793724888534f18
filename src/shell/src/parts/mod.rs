//! Parts that pages share.

pub(crate) mod arriving;
pub(crate) mod dash;
pub(crate) mod dials;
pub(crate) mod drawing;
pub(crate) mod due;
pub(crate) mod ended;
pub(crate) mod face;
pub(crate) mod finding;
pub(crate) mod instrument;
pub(crate) mod kept;
pub(crate) mod keycap;
pub(crate) mod names;
pub(crate) mod notes;
pub(crate) mod noticed;
pub(crate) mod offline;
pub(crate) mod papers;
pub(crate) mod people;
pub(crate) mod prepare;
pub(crate) mod press;
pub(crate) mod round;
pub(crate) mod sent;
pub(crate) mod share;
pub(crate) mod sketch;
pub(crate) mod skillbar;
pub(crate) mod tap;
pub(crate) mod when;
