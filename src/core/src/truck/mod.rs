//! The truck: what its maker decided (`spec`), what has become of it (`condition`), what the rider's hands reach (`arm`, `tiller`,
//! `stance` in `rig`), what the controller asks of the motor (`travel`), what the floor allows
//! (`wheels`), how far a stop takes (`stopping`), and the forks. Body frame: origin on the load axle, +x to the power unit, +y left.

pub mod arm;
pub mod condition;
#[cfg(test)]
mod energy;
pub mod loads;
pub mod rig;
pub mod spec;
pub mod stopping;
pub mod tiller;
pub mod travel;
pub mod wheels;
