//! The pages, one file each.

pub(crate) mod class;
pub(crate) mod controls;
pub(crate) mod cut_off;
pub(crate) mod debrief;
pub(crate) mod drive;
pub(crate) mod home;
pub(crate) mod import;
pub(crate) mod lesson;
pub(crate) mod moments;
pub(crate) mod path;
pub(crate) mod pretest;
pub(crate) mod print;
pub(crate) mod progress;
pub(crate) mod replay;
pub(crate) mod rules;
pub(crate) mod settings;
pub(crate) mod training;
pub(crate) mod two;
