//! Where the tiller arm reaches as seen from above.

use bevy::math::Vec2;
use coneyard_core::truck::spec::TruckSpec;
use coneyard_core::yard::frame::Frame;

/// What the arm still shows from above when it stands upright, m.
const UPRIGHT_REACH: f32 = 0.09;

/// How far the arm's end is from the column as seen from above, m.
pub(super) fn arm_reach(frame: &Frame, spec: &TruckSpec) -> f32 {
    let length = spec.geometry.tiller_length_m as f32;
    (length * (frame.arm as f32).sin()).max(UPRIGHT_REACH)
}

/// Middle of the grips, body frame: opposite to where the drive wheel points.
pub(super) fn grips_on_truck(frame: &Frame, spec: &TruckSpec) -> Vec2 {
    let away = -Vec2::from_angle(frame.steer as f32);
    Vec2::new(spec.geometry.wheelbase_m as f32, 0.0) + away * arm_reach(frame, spec)
}
