//! Tests of the room of checks.
