//! In preparation.
