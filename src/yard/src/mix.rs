//! The yard between two ticks. A screen shows pictures at its own rate; drawing the last tick as
//! it is would make the truck stutter.

use std::sync::Arc;

use coneyard_core::math::{Pose, Vec2, wrap_angle};
use coneyard_sim::frame::{ConeFrame, Frame};

/// The state at a share of the way from one tick to the next. What cannot lie between (a zone, a
/// flag) is that of the nearer tick.
pub(crate) fn between(a: &Frame, b: &Frame, share: f64) -> Frame {
    let share = share.clamp(0.0, 1.0);
    let nearer = if share < 0.5 { a } else { b };
    let cones = if Arc::ptr_eq(&a.cones, &b.cones) {
        b.cones.clone()
    } else {
        let mixed = a.cones.iter().zip(b.cones.iter()).map(|(a, b)| ConeFrame {
            at: point(a.at, b.at, share),
            fallen_towards: b.fallen_towards,
        });
        mixed.collect()
    };
    // Stepping across starts again at 0: then there is nothing between.
    let step_phase = if b.step_phase < a.step_phase || a.stance != b.stance {
        b.step_phase
    } else {
        number(a.step_phase, b.step_phase, share)
    };
    Frame {
        truck: Pose {
            at: point(a.truck.at, b.truck.at, share),
            heading: angle(a.truck.heading, b.truck.heading, share),
        },
        speed: number(a.speed, b.speed, share),
        steer: number(a.steer, b.steer, share),
        arm: number(a.arm, b.arm, share),
        fork_height: number(a.fork_height, b.fork_height, share),
        stance: b.stance,
        step_phase,
        cones,
        ..nearer.clone()
    }
}

fn number(a: f64, b: f64, share: f64) -> f64 {
    a + (b - a) * share
}

fn point(a: Vec2, b: Vec2, share: f64) -> Vec2 {
    a + (b - a) * share
}

fn angle(a: f64, b: f64, share: f64) -> f64 {
    wrap_angle(a + wrap_angle(b - a) * share)
}
