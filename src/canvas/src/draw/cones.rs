//! Cones: standing, with a ring and a soft shadow, or lying where they were pushed.

use bevy::prelude::*;
use coneyard_core::course::CONE_RADIUS;

use super::ink::Ink;
use super::{Layer, Painter, Scenery, Shown, v};
use crate::palette::Palette;

/// Half the side of a cone's base, m: what is touched is what is seen.
const BASE: f32 = CONE_RADIUS as f32;

/// Height of a cone, m.
const HEIGHT: f32 = 0.5;

/// A cone's picture, by its index in the course.
#[derive(Component)]
pub(super) struct Cone {
    index: usize,
    fallen: bool,
}

/// Puts up both pictures of each cone; `place` shows the right one.
pub(super) fn put(commands: &mut Commands, painter: &mut Painter, count: usize, p: &Palette) {
    let standing = painter.piece(standing(p), Layer::Cones);
    let fallen = painter.piece(fallen(p), Layer::FallenCones);
    for index in 0..count {
        commands.spawn((
            Scenery,
            Cone { index, fallen: false },
            standing.clone(),
            Visibility::Hidden,
        ));
        commands.spawn((Scenery, Cone { index, fallen: true }, fallen.clone(), Visibility::Hidden));
    }
}

/// Moves the cones to where they are now.
pub(super) fn place(shown: Res<Shown>, mut cones: Query<(&Cone, &mut Transform, &mut Visibility)>) {
    for (cone, mut transform, mut visibility) in &mut cones {
        let Some(now) = shown.picture.frame.cones.get(cone.index) else {
            continue;
        };
        let seen = now.fallen_towards.is_some() == cone.fallen;
        let wanted = if seen { Visibility::Inherited } else { Visibility::Hidden };
        visibility.set_if_neq(wanted);
        let at = v(now.at);
        let z = transform.translation.z;
        transform.set_if_neq(
            Transform::from_xyz(at.x, at.y, z)
                .with_rotation(Quat::from_rotation_z(now.fallen_towards.unwrap_or(0.0) as f32)),
        );
    }
}

fn standing(p: &Palette) -> Ink {
    let mut ink = Ink::default();
    ink.blur(Vec2::new(0.11, -0.12), Vec2::new(0.34, 0.28), p.shadow);
    ink.slab(Vec2::splat(-BASE - 0.04), Vec2::splat(BASE + 0.04), 0.08, p.halo);
    ink.slab(Vec2::splat(-BASE), Vec2::splat(BASE), 0.05, p.outline);
    ink.slab(Vec2::splat(-BASE + 0.032), Vec2::splat(BASE - 0.032), 0.035, p.cone);
    ink.disc(Vec2::ZERO, 0.135, p.cone_base);
    ink.disc(Vec2::ZERO, 0.125, p.cone);
    ink.disc(Vec2::ZERO, 0.098, p.cone_ring);
    ink.disc(Vec2::ZERO, 0.064, p.cone);
    ink.disc(Vec2::new(-0.006, 0.008), 0.030, p.cone_tip);
    ink
}

/// Lying along +x, the base's middle at the origin.
fn fallen(p: &Palette) -> Ink {
    let mut ink = Ink::default();
    let at = |x: f32, y: f32| Vec2::new(x, y);
    ink.blur(at(0.25, 0.0), at(0.42, 0.24), p.shadow);
    // The body: a long trapezium from the base to the tip.
    let width = |x: f32| 0.135 + (0.028 - 0.135) * (x / HEIGHT);
    let part = |x0: f32, x1: f32, grow: f32| {
        [
            at(x0 - grow, -width(x0) - grow),
            at(x1 + grow, -width(x1) - grow),
            at(x1 + grow, width(x1) + grow),
            at(x0 - grow, width(x0) + grow),
        ]
    };
    ink.area(&part(0.0, HEIGHT, 0.06), p.halo);
    ink.area(&part(0.0, HEIGHT, 0.026), p.outline);
    ink.area(&part(0.0, HEIGHT, 0.0), p.cone);
    ink.area(&part(0.17, 0.31, 0.0), p.cone_ring);
    ink.disc(at(HEIGHT, 0.0), 0.026, p.cone_tip);
    // The base stands on its edge.
    ink.slab(at(-0.09, -BASE - 0.04), at(0.02, BASE + 0.04), 0.03, p.halo);
    ink.slab(at(-0.06, -BASE), at(0.02, BASE), 0.02, p.outline);
    ink.slab(at(-0.032, -BASE + 0.026), at(0.0, BASE - 0.026), 0.015, p.cone);
    ink
}
