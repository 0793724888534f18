//! The plan of a drive, for paper, the debrief and lists: the course from above as a drawing, the path
//! driven on it, and the findings by their numbers. Nothing hangs on colour: lines differ by width and dashes, areas
//! by hatching, findings by shape and number.

mod arrows;
pub(crate) mod clock;
mod frame;
mod ground;
mod labels;
pub(crate) mod mark;
mod marker;
mod playing;
mod sketch;
mod view;

pub(crate) use ground::Ground;
pub(crate) use labels::{numbered, on_the_plan};
pub(crate) use marker::Marker;
pub(crate) use playing::Playing;
pub(crate) use sketch::Sketch;
pub(crate) use view::{Key, Plan};
