//! The site-rules file, and what it cites.

mod citations;
pub(crate) mod reading;
