//! People on foot: how they walk and what a horn does to them (`walk`), how close it came
//! (`encounter`), and where someone may step out so that a rider who keeps the rules can stop
//! (`step_out`).

pub mod encounter;
pub mod pace;

pub mod walk;
