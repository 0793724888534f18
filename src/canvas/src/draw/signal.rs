//! The emergency signal: a thick ring round the truck, and beside it which way the arm goes: a
//! triangle up for letting go, a triangle down for pushing it through. It does not blink.

use bevy::prelude::*;
use coneyard_core::course::BrakeZone;

use super::ink::Ink;
use super::{Layer, Painter, Scene, Scenery, Shown, v};
use crate::palette::Palette;

/// The picture for one of the two ends of the arm's swing.
#[derive(Component)]
pub(super) struct Sign(BrakeZone);

/// Radius of the ring over the truck's half length, m.
const CLEAR: f64 = 0.45;

pub(super) fn put(commands: &mut Commands, painter: &mut Painter, p: &Palette) {
    for end in [BrakeZone::Upper, BrakeZone::Lower] {
        commands.spawn((
            Scenery,
            Sign(end),
            painter.piece(sign(end, p), Layer::Signal),
            Visibility::Hidden,
        ));
    }
}

pub(super) fn draw(
    scene: Res<Scene>,
    shown: Res<Shown>,
    camera: Single<&Transform, (With<Camera2d>, Without<Sign>)>,
    mut signs: Query<(&Sign, &mut Transform, &mut Visibility)>,
) {
    let g = &scene.truck.geometry;
    let middle = coneyard_core::math::vec2(0.5 * (g.nose_x_m + g.fork_tips_x_m), 0.0);
    let at = v(shown.picture.frame.truck.to_yard(middle));
    let radius = (0.5 * (g.nose_x_m - g.fork_tips_x_m) + CLEAR) as f32;
    for (sign, mut transform, mut visibility) in &mut signs {
        let seen = shown.picture.signal == Some(sign.0);
        visibility.set_if_neq(if seen { Visibility::Inherited } else { Visibility::Hidden });
        // Upright on the screen, whichever way the yard is turned.
        transform.set_if_neq(
            Transform::from_translation(at.extend(Layer::Signal.z()))
                .with_rotation(camera.rotation)
                .with_scale(Vec3::new(radius, radius, 1.0)),
        );
    }
}

/// About the origin, for a ring of radius 1.
fn sign(end: BrakeZone, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    ink.ring(Vec2::ZERO, 1.0, 0.1, p.warn_ink);
    ink.ring(Vec2::ZERO, 1.0, 0.07, p.warn);
    let way = if end == BrakeZone::Upper { 1.0 } else { -1.0 };
    for x in [-1.0, 1.0] {
        let at = Vec2::new(x, 0.0);
        ink.disc(at, 0.24, p.warn_ink);
        ink.disc(at, 0.215, p.warn);
        let tip = at + Vec2::new(0.0, 0.15 * way);
        let foot = -0.05 * way;
        ink.area(&[tip, at + Vec2::new(0.13, foot), at + Vec2::new(-0.13, foot)], p.warn_ink);
        let bar = -0.115 * way;
        ink.line(at + Vec2::new(-0.13, bar), at + Vec2::new(0.13, bar), 0.055, p.warn_ink);
    }
    ink
}
