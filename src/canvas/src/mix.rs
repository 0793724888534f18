//! The yard between two ticks. A screen shows pictures at its own rate; drawing the last tick as
//! it is would make the truck stutter.

use std::sync::Arc;

use coneyard_core::math::{Pose, Vec2, wrap_angle};
use coneyard_core::yard::frame::{
    CaseFrame, ConeFrame, Frame, OtherFrame, PalletFrame, PersonFrame,
};

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
        truck: pose(a.truck, b.truck, share),
        speed: number(a.speed, b.speed, share),
        deceleration: b.deceleration,
        steer: number(a.steer, b.steer, share),
        arm: number(a.arm, b.arm, share),
        fork_height: number(a.fork_height, b.fork_height, share),
        stance: b.stance,
        step_phase,
        cones,
        head: angle(a.head, b.head, share),
        people: each(&a.people, &b.people, |a, b| PersonFrame {
            at: point(a.at, b.at, share),
            heading: angle(a.heading, b.heading, share),
            ..*nearer_of(a, b, share)
        }),
        others: each(&a.others, &b.others, |a, b| OtherFrame {
            pose: pose(a.pose, b.pose, share),
            ..*nearer_of(a, b, share)
        }),
        pallets: each(&a.pallets, &b.pallets, |a, b| PalletFrame {
            pose: pose(a.pose, b.pose, share),
            ..nearer_of(a, b, share).clone()
        }),
        // A case that has just fallen off has no place before.
        cases: if a.cases.len() == b.cases.len() {
            each(&a.cases, &b.cases, |a, b| CaseFrame { pose: pose(a.pose, b.pose, share), ..*b })
        } else {
            b.cases.clone()
        },
        ..nearer.clone()
    }
}

/// Things that stand in the same order in both ticks, each between the two.
fn each<T: PartialEq>(a: &Arc<[T]>, b: &Arc<[T]>, mix: impl Fn(&T, &T) -> T) -> Arc<[T]> {
    if a == b {
        return b.clone();
    }
    a.iter().zip(b.iter()).map(|(a, b)| mix(a, b)).collect()
}

fn nearer_of<'a, T>(a: &'a T, b: &'a T, share: f64) -> &'a T {
    if share < 0.5 { a } else { b }
}

fn pose(a: Pose, b: Pose, share: f64) -> Pose {
    Pose { at: point(a.at, b.at, share), heading: angle(a.heading, b.heading, share) }
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
