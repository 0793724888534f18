//! On the whiteboard: what people drive arrives by itself, is kept before it is acknowledged, is driven again and
//! marked, and everybody sees what their role lets them see.
//!
//! `records` is what is kept, `store` where (SQLite or PostgreSQL, one trait), `judging` how a run becomes an
//! attempt and `work` who does it; `roles` are objects that can do no more than their role may, `http` the routes
//! that are handed one; `file` is the class as one file, `simulate` a class that never was. `secret` makes codes,
//! passphrases and tokens, `clock` tells the time, `events` what has just happened.

// The same statements for two databases whose types differ: one file, mounted in both stores.
#![allow(clippy::duplicate_mod)]

pub mod clock;
pub mod events;
pub mod file;
pub mod http;
pub mod judging;
mod known;
pub mod records;
pub mod roles;
pub mod secret;
pub mod simulate;
pub mod store;
pub mod work;
