//! The pages, one file each.

pub(crate) mod cut_off;
pub(crate) mod debrief;
pub(crate) mod drive;
pub(crate) mod home;
pub(crate) mod path;
