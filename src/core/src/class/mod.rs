//! The class: what was driven and by whom, as it is kept.
//!
//! `attempt`, `drive` and `sitting` are the records; `results` is what attempts come to; `keeper`
//! is where records are kept, whatever does the keeping, `cut` what is asked of it, `memory` the
//! simplest one and `contract` what every one must do. `taught` is what a class was told; `own` is what people
//! said of their drives before they were told, `note` what is said of a moment of one, `mark` what is drawn beside it,
//! `clip` how long a moment is looked at, and `remarks` own words and notes on their way to a host; `judged` is an
//! attempt judged again by other rules. `board` is what people have shown lately, made of attempts in `brief`, `found` where something was found. `walks`
//! is what walk-rounds come to, and `detection`
//! how well defects are told from none. Of a whole class, `pooling`, `items` with `alpha`, `learning`, `glance` and
//! `teach`, all of which `figures` puts together; `exercises` is what trains which fault, `again` what is due and
//! `due` of whom. `csv` and `xapi` go out, `record` with `workplace` is what is kept of training and of the real truck.
//! None of them reads a run or a rule: reading is apart from judging, so an old record stays readable, and a page that
//! only lists records carries no judge. `whole` is what does need whole runs and rules.
//!
//! Every record has a version of its form. One without it is from before there were versions, and
//! is of the first; a field that came later has a default that is true of the records from before.

pub mod again;
pub mod alpha;
mod attempt;
pub mod board;
mod brief;
pub mod clip;
pub mod contract;
pub mod csv;
mod cut;
pub mod date;
pub mod detection;
mod drive;
pub mod due;
pub mod exercises;
pub mod figures;
mod form;
pub mod found;
pub mod glance;
pub mod items;
pub mod judged;
mod keeper;
pub mod learning;
mod line;
pub mod mark;
pub mod memory;
pub mod note;
pub mod own;
pub mod pooling;
pub mod record;
mod remarks;
mod results;
mod sitting;
mod taught;
pub mod teach;
#[cfg(test)]
mod tests;
pub mod walks;
pub mod whole;
pub mod workplace;
pub mod xapi;

pub use attempt::{Attempt, Told};
pub use brief::Brief;
pub use cut::{Cut, Found, PartSoFar, cut_drives, drive, drives_of, part};
pub use drive::{CutDrive, Drive, Piece, Place};
pub use form::{FIRST_FORM, Form, read_record, write_record};
pub use keeper::{Keeper, Kept, Listed};
pub use line::thinned;
pub use record::Record;
pub use remarks::Remarks;
pub use results::{
    Standing, helps_rest, next_course, plain_name, run_file_name, same_person, standing,
};
pub use sitting::{Taken, driven, is_open, other_simulation, sitting_file_name};
pub use taught::{Taught, TaughtTopic};
