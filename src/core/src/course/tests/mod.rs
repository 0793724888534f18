//! The course as files.

mod checks;
mod files;
mod warehouse_checks;
mod warehouse_files;
