//! The site-rules file, what it cites, and the judge.

mod citations;
mod judging;
mod reading;
