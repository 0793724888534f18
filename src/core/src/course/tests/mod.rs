//! The course as files and as a task.

mod checks;
mod files;
mod task;
mod warehouse_checks;
mod warehouse_files;
