//! The judge.

mod at_the_limit;
mod edges;
mod judging;
mod own;
