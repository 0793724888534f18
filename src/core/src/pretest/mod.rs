//! The pre-test: one sitting of about twelve minutes, joined from parts.
//!
//! Each part is an ordinary drive of an ordinary course, so it is recorded, judged and replayed
//! like any other, and a sitting that was cut off goes on with the next part. Which side a part is
//! driven on and its seed are drawn from the class's word and the seat: neighbours meet the same
//! things at other times and on the other side, and nobody meets more of them than others. All parts
//! are driven with the truck that it is taken on.
//!
//! `draw` says what the parts are, `sitting` keeps what was driven, `file` is its form on disk,
//! `joined` the judgement over all parts.

mod courses;
mod draw;
mod file;
mod joined;
mod sitting;
#[cfg(test)]
mod tests;

pub use draw::{DRAW, LONGEST_WORD, Part, TRUCKS, class_word, count, course_of, draw, truck_of};
pub use file::{FORMAT, MAX_BYTES, is_sitting};
pub use joined::{ASKED, Joined, Outcome, Reason, join, pauses_most, time_ratio_least};
pub use sitting::Sitting;
