//! Coneyard's trade: the truck, the course, the rules, the scoring and the run file.
//!
//! Pure Rust without an engine, without input or output, without a clock, and without randomness
//! that is not handed in. The same inputs give the same bits on every platform.

pub mod acts;
pub mod checks;
pub mod class;
pub mod controls;
pub mod course;
pub mod debrief;
pub mod desk;
pub mod dice;
pub mod drive;
pub mod finding;
pub mod floor;
pub mod geometry;
pub mod lesson;
pub mod load;
pub mod math;
pub mod moment;
pub mod outside;
pub mod people;
pub mod pretest;
pub mod reading;
pub mod rider;
pub mod rules;
pub mod run;
pub mod score;
pub mod sight;
pub mod state;
pub mod task;
pub mod time;
pub mod truck;
pub mod watch;
pub mod words;
pub mod yard;
