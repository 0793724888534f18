//! The site-rules file, what it cites, and the judge.

mod at_the_limit;
mod citations;
mod edges;
mod judging;
mod own;
mod reading;
