//! The truck from above, in our own shapes: forks with their load wheels, backrest, platform,
//! power unit, drive wheel, and the tiller that swings opposite to it.
//!
//! The arm's zone has a shape of its own on the hood: a ring while the truck can be driven, a
//! barred triangle to the nose in the upper brake zone, to the forks in the lower one.

use bevy::prelude::*;
use coneyard_core::truck::arm::ArmZone;
use coneyard_core::truck::spec::TruckSpec;
use coneyard_core::yard::frame::Frame;

use super::arm::{arm_reach, grips_on_truck};
use super::{Layer, Painter, Scene, Scenery, Shown, Which, rider, truck_shapes as shapes, v};
use crate::palette::Palette;

/// The whole truck: everything else hangs on it.
#[derive(Component)]
pub(super) struct Truck(Which);

/// A part that moves, or that is seen only at times.
#[derive(Component, Clone, Copy)]
pub(super) struct Part {
    which: Which,
    kind: Kind,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Forks,
    ForkShadow,
    DriveWheel,
    /// The arm's tube, one metre long, towards the forks.
    Tube,
    /// The grips at the arm's end.
    Grips,
    Zone(ArmZone),
    BrakeLamps,
    Plugging,
    Horn,
}

/// Puts up a truck.
pub(super) fn put(
    commands: &mut Commands,
    painter: &mut Painter,
    which: Which,
    spec: &TruckSpec,
    palette: &Palette,
) {
    let pale = palette.pale();
    let p = if which == Which::Own { palette } else { &pale };
    let g = &spec.geometry;
    let root = match which {
        Which::Own => Transform::default(),
        // Flat, and under everything of the own truck.
        Which::Companion => Transform::from_xyz(0.0, 0.0, Layer::TruckShadow.z() - 0.5)
            .with_scale(Vec3::new(1.0, 1.0, 0.02)),
    };
    commands.spawn((Scenery, Truck(which), root, Visibility::Hidden)).with_children(|truck| {
        truck.spawn(painter.piece(shapes::shadow(g, p), Layer::TruckShadow));
        truck.spawn(painter.piece(shapes::body(g, p), Layer::Body));
        let moving = [
            (Kind::ForkShadow, shapes::fork_shadow(g, p), Layer::TruckShadow),
            (Kind::Forks, shapes::forks(g, p), Layer::Forks),
            (Kind::DriveWheel, shapes::drive_wheel(g, p), Layer::Column),
            (Kind::Tube, shapes::tube(p), Layer::Tiller),
            (Kind::Grips, shapes::grips(p), Layer::Grips),
            (
                Kind::Zone(ArmZone::Driving),
                shapes::zone_sign(ArmZone::Driving, g, p),
                Layer::Column,
            ),
            (
                Kind::Zone(ArmZone::UpperBrake),
                shapes::zone_sign(ArmZone::UpperBrake, g, p),
                Layer::Column,
            ),
            (
                Kind::Zone(ArmZone::LowerBrake),
                shapes::zone_sign(ArmZone::LowerBrake, g, p),
                Layer::Column,
            ),
            (Kind::BrakeLamps, shapes::brake_lamps(g, p), Layer::Column),
            (Kind::Plugging, shapes::plugging(g, p), Layer::Signal),
            (Kind::Horn, shapes::horn(g, p), Layer::Signal),
        ];
        for (kind, ink, layer) in moving {
            truck.spawn((Part { which, kind }, painter.piece(ink, layer), Visibility::default()));
        }
        rider::put(truck, painter, which, p);
    });
}

/// Moves the trucks and their parts to where they are now.
pub(super) fn place(
    scene: Res<Scene>,
    shown: Res<Shown>,
    mut trucks: Query<(&Truck, &mut Transform, &mut Visibility), Without<Part>>,
    mut parts: Query<(&Part, &mut Transform, &mut Visibility), Without<Truck>>,
) {
    for (truck, mut transform, mut visibility) in &mut trucks {
        let Some(frame) = shown.frame_of(truck.0) else {
            visibility.set_if_neq(Visibility::Hidden);
            continue;
        };
        visibility.set_if_neq(Visibility::Inherited);
        let at = v(frame.truck.at).extend(transform.translation.z);
        let turn = Quat::from_rotation_z(frame.truck.heading as f32);
        let here = transform.with_rotation(turn);
        transform.set_if_neq(Transform { translation: at, ..here });
    }
    for (part, mut transform, mut visibility) in &mut parts {
        let (Some(frame), Some(spec)) = (shown.frame_of(part.which), scene.truck_of(part.which))
        else {
            continue;
        };
        let seen = seen(part.kind, frame);
        visibility.set_if_neq(if seen { Visibility::Inherited } else { Visibility::Hidden });
        let mut here = local(part.kind, frame, spec);
        here.translation.z = transform.translation.z;
        transform.set_if_neq(here);
    }
}

fn seen(kind: Kind, frame: &Frame) -> bool {
    match kind {
        Kind::Zone(zone) => frame.arm_zone == zone,
        Kind::BrakeLamps => frame.braking,
        Kind::Plugging => frame.plugging,
        Kind::Horn => frame.horn,
        _ => true,
    }
}

/// Where a part is on the truck.
fn local(kind: Kind, frame: &Frame, spec: &TruckSpec) -> Transform {
    let column = Vec3::new(spec.geometry.wheelbase_m as f32, 0.0, 0.0);
    let turn = Quat::from_rotation_z(frame.steer as f32);
    match kind {
        Kind::ForkShadow => {
            // The higher the forks, the farther their shadow falls; it falls south-east in the
            // yard, whichever way the truck points.
            let fall = Vec2::new(0.8, -0.9) * (0.02 + frame.fork_height as f32);
            let on_truck = Vec2::from_angle(-frame.truck.heading as f32).rotate(fall);
            Transform::from_translation(on_truck.extend(0.0))
        }
        Kind::DriveWheel => Transform::from_translation(column).with_rotation(turn),
        Kind::Tube => Transform::from_translation(column)
            .with_rotation(turn)
            .with_scale(Vec3::new(arm_reach(frame, spec), 1.0, 1.0)),
        Kind::Grips => {
            Transform::from_translation(grips_on_truck(frame, spec).extend(0.0)).with_rotation(turn)
        }
        Kind::Zone(_) => column_sign(spec),
        _ => Transform::default(),
    }
}

/// The zone's sign lies on the hood ahead of the column, where the arm never covers it.
fn column_sign(spec: &TruckSpec) -> Transform {
    let g = &spec.geometry;
    let (column, nose) = (g.wheelbase_m as f32, g.nose_x_m as f32);
    Transform::from_xyz(column + 0.6 * (nose - column), 0.0, 0.0)
}
