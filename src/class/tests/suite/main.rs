//! The class, tried on both stores and by its routes.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

mod access;
mod asking;
mod away;
mod classfile;
mod contract;
mod operations;
mod postgres;
mod remarks;
mod rights;
mod runs;
mod stores;
