//! The class: what was driven and by whom, as it is kept.
//!
//! `attempt`, `drive` and `sitting` are the records; `results` is what attempts come to; `keeper`
//! is where records are kept, whatever does the keeping, `cut` what is asked of it, `memory` the
//! simplest one and `contract` what every one must do. `taught` is what a class was told; `own` is what people
//! said of their drives before they were told, `note` what is said of a moment of one. `board` is what people have shown lately. `walks` is what walk-rounds come to, and `detection`
//! how well defects are told from none. None of them reads a run or a rule: reading
//! is apart from judging, so an old record stays readable, and a page that only lists records
//! carries no judge. `whole` is what does need whole runs and rules.
//!
//! Every record has a version of its form. One without it is from before there were versions, and
//! is of the first; a field that came later has a default that is true of the records from before.

mod attempt;
pub mod board;
pub mod contract;
mod cut;
pub mod detection;
mod drive;
mod form;
mod keeper;
mod line;
pub mod memory;
pub mod note;
pub mod own;
mod results;
mod sitting;
mod taught;
#[cfg(test)]
mod tests;
pub mod walks;
pub mod whole;

pub use attempt::{Attempt, Told};
pub use cut::{Cut, Found, PartSoFar, cut_drives, drive, drives_of, part};
pub use drive::{CutDrive, Drive, Piece, Place};
pub use form::{FIRST_FORM, read_record, write_record};
pub use keeper::{Keeper, Kept, Listed};
pub use line::thinned;
pub use results::{
    Standing, helps_rest, next_course, run_file_name, same_person, shares, standing,
};
pub use sitting::{Taken, driven, is_open, other_simulation, sitting_file_name};
pub use taught::{Taught, TaughtTopic};
