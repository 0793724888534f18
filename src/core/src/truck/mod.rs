//! The truck: what its maker decided (`spec`), what the rider's hands reach (`arm`, `tiller`,
//! `stance` in `rig`), what the controller asks of the motor (`travel`), what the floor allows
//! (`wheels`), and the forks. Body frame: origin on the load axle, +x to the power unit, +y left.

pub mod arm;
pub mod loads;
pub mod rig;
pub mod spec;
pub mod stopping;
pub mod tiller;
pub mod travel;
pub mod wheels;
