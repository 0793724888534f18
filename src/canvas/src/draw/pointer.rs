//! An arrow at the edge of the picture, towards what the step wants next while that lies outside of it.

use bevy::prelude::*;

use super::ink::Ink;
use super::{Layer, Painter, Scenery, Shown};
use crate::palette::Palette;

/// Length of the arrow over what is seen across the picture's shorter side.
const SIZE: f32 = 0.06;
/// It stays so far from the edge, in its own lengths.
const MARGIN: f32 = 1.3;

/// The arrow; it looks along +x at its origin.
#[derive(Component)]
pub(super) struct Pointer;

/// What is looked through, and never the arrow.
type IsCamera = (With<Camera2d>, Without<Pointer>);

pub(super) fn put(commands: &mut Commands, painter: &mut Painter, p: &Palette) {
    commands.spawn((Scenery, Pointer, painter.piece(arrow(p), Layer::Signal), Visibility::Hidden));
}

pub(super) fn draw(
    shown: Res<Shown>,
    camera: Single<(&Transform, &Projection), IsCamera>,
    pointer: Single<(&mut Transform, &mut Visibility), With<Pointer>>,
) {
    let (mut transform, mut visibility) = pointer.into_inner();
    let (camera, projection) = *camera;
    let Projection::Orthographic(projection) = projection else { return };
    let seen = projection.area.size();
    let (top, bottom) = (shown.covered.top as f32, shown.covered.bottom as f32);
    let size = SIZE * seen.min_element();
    let free = seen * Vec2::new(1.0, (1.0 - top - bottom).max(0.0));
    let middle = Vec2::new(0.0, 0.5 * (bottom - top) * seen.y);
    let turn = camera.rotation.to_euler(EulerRot::XYZ).2;
    let place = shown.picture.toward.and_then(|to| {
        let on_screen = Vec2::from_angle(-turn).rotate(to - camera.translation.truncate());
        at_the_edge(on_screen - middle, 0.5 * free, MARGIN * size)
    });
    visibility.set_if_neq(match place {
        Some(_) => Visibility::Inherited,
        None => Visibility::Hidden,
    });
    if let Some((at, way)) = place {
        let at = camera.translation.truncate() + Vec2::from_angle(turn).rotate(middle + at);
        transform.set_if_neq(
            Transform::from_translation(at.extend(Layer::Signal.z()))
                .with_rotation(Quat::from_rotation_z(turn + way))
                .with_scale(Vec3::new(size, size, 1.0)),
        );
    }
}

/// Where the arrow stands, from the middle of what is free, and which way it looks, rad; None when the
/// place is in the picture. `half` is half of what is free.
fn at_the_edge(to: Vec2, half: Vec2, margin: f32) -> Option<(Vec2, f32)> {
    let within = (half - margin).max(Vec2::splat(1e-3));
    let out = (to.abs() / half.max(Vec2::splat(1e-3))).max_element();
    (out > 1.0).then(|| (to / (to.abs() / within).max_element(), to.to_angle()))
}

fn arrow(p: &Palette) -> Ink {
    let mut ink = Ink::default();
    let (tip, back) = (Vec2::new(0.5, 0.0), -0.5);
    let head = [tip, Vec2::new(back, 0.42), Vec2::new(-0.22, 0.0), Vec2::new(back, -0.42)];
    ink.edge(&head, 0.16, p.gate_wash);
    ink.edge(&head, 0.08, p.ink);
    ink.area(&head, p.gate_due);
    ink
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_stands_at_the_edge_towards_what_is_out_of_the_picture_and_nowhere_else() {
        let half = Vec2::new(8.0, 4.0);
        assert_eq!(at_the_edge(Vec2::new(7.9, -3.9), half, 1.0), None);
        let (at, way) = at_the_edge(Vec2::new(16.0, 0.0), half, 1.0).unwrap();
        assert_eq!((at, way), (Vec2::new(7.0, 0.0), 0.0));
        let (at, way) = at_the_edge(Vec2::new(0.0, -4.1), half, 1.0).unwrap();
        assert_eq!(at, Vec2::new(0.0, -3.0));
        assert!((way + core::f32::consts::FRAC_PI_2).abs() < 1e-6);
        // Far away in both it stays on the way there.
        let (at, _) = at_the_edge(Vec2::new(80.0, 40.0), half, 1.0).unwrap();
        assert!((at.y / at.x - 0.5).abs() < 1e-6 && at.x <= 7.0 && at.y <= 3.0, "{at}");
    }
}
