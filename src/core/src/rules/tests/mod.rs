//! The site-rules file, and what it cites.

mod citations;
mod editing;
pub(crate) mod reading;
