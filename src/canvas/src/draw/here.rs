//! A ring about the truck where all of the yard is shown: there it is too small to be found at once.

use bevy::prelude::*;

use super::camera::Scale;
use super::ink::Ink;
use super::{Layer, Painter, Scenery, Shown, v};
use crate::palette::Palette;

/// Least radius of the ring, CSS pixels and m.
const LEAST: (f32, f32) = (18.0, 1.8);

/// The ring.
#[derive(Component)]
pub(super) struct Here;

pub(super) fn put(commands: &mut Commands, painter: &mut Painter, p: &Palette) {
    let mut ink = Ink::default();
    ink.ring(Vec2::ZERO, 1.0, 0.3, p.halo);
    ink.ring(Vec2::ZERO, 1.0, 0.16, p.outline);
    commands.spawn((Scenery, Here, painter.piece(ink, Layer::Signal), Visibility::Hidden));
}

pub(super) fn place(
    shown: Res<Shown>,
    scale: Res<Scale>,
    ring: Single<(&mut Transform, &mut Visibility), With<Here>>,
) {
    let (mut transform, mut visibility) = ring.into_inner();
    let is_shown = shown.view.overview;
    visibility.set_if_neq(if is_shown { Visibility::Inherited } else { Visibility::Hidden });
    let at = v(shown.picture.frame.eye).extend(Layer::Signal.z());
    let radius = (LEAST.0 * scale.0).max(LEAST.1);
    transform
        .set_if_neq(Transform::from_translation(at).with_scale(Vec3::new(radius, radius, 1.0)));
}
