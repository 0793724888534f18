//! Horns of other trucks as they are seen: waves at the truck, or, of one that is hidden, beside the rider on
//! the side from which they come. Whoever does not hear them is told as much.

use bevy::prelude::*;
use coneyard_core::desk::Sight;

use super::ink::Ink;
use super::{Layer, Painter, Scenery, Shown, v};
use crate::palette::Palette;

/// Waves of one that is hidden are drawn this far from the rider's eye, m.
const BESIDE_M: f32 = 2.6;

/// The waves of another truck, by its index in the course.
#[derive(Component)]
pub(super) struct Waves(usize);

pub(super) fn put(commands: &mut Commands, painter: &mut Painter, count: usize, p: &Palette) {
    for index in 0..count {
        let piece = painter.piece(waves(p), Layer::Signal);
        commands.spawn((Scenery, Waves(index), piece, Visibility::Hidden));
    }
}

pub(super) fn place(
    shown: Res<Shown>,
    mut waves: Query<(&Waves, &mut Transform, &mut Visibility)>,
) {
    let frame = &shown.picture.frame;
    for (wave, mut transform, mut visibility) in &mut waves {
        let sounds = frame.others.iter().find(|o| o.other as usize == wave.0 && o.horn);
        let Some(other) = sounds else {
            visibility.set_if_neq(Visibility::Hidden);
            continue;
        };
        visibility.set_if_neq(Visibility::Inherited);
        let (from, eye) = (v(other.pose.at), v(frame.eye));
        let (at, way) = if other.seen || shown.view.sight == Sight::Everything {
            (from, other.pose.heading as f32)
        } else {
            let towards = (from - eye).normalize_or_zero();
            (eye + towards * BESIDE_M, (-towards).to_angle())
        };
        transform.set_if_neq(
            Transform::from_translation(at.extend(Layer::Signal.z()))
                .with_rotation(Quat::from_rotation_z(way)),
        );
    }
}

/// Three arcs that run along +x.
fn waves(p: &Palette) -> Ink {
    let mut ink = Ink::default();
    let arc = |radius: f32| -> Vec<Vec2> {
        (-8..=8).map(|i| Vec2::from_angle(i as f32 * 0.08) * radius).collect()
    };
    for (width, colour) in [(0.2, p.floor), (0.1, p.ink)] {
        for radius in [0.5, 0.8, 1.1] {
            ink.run(&arc(radius), width, colour);
        }
    }
    ink
}
