//! Other trucks: slate with an ochre band, so that they are not taken for the own one. Those that
//! the rider does not see are not drawn; where everything is shown, they are lines.

use bevy::prelude::*;
use coneyard_core::course::warehouse::OtherTruck;
use coneyard_core::desk::Sight;

use super::ink::Ink;
use super::{Layer, Painter, Scenery, Shown, v};
use crate::palette::Palette;

/// A truck's picture, by its index in the course.
#[derive(Component)]
pub(super) struct Other {
    index: usize,
    /// The lines that stand for one that is not seen.
    lines: bool,
}

pub(super) fn put(
    commands: &mut Commands,
    painter: &mut Painter,
    others: &[OtherTruck],
    p: &Palette,
) {
    for (index, other) in others.iter().enumerate() {
        let half = 0.5 * v(other.size);
        for (lines, ink) in [(false, truck(half, p)), (true, outline(half, p))] {
            commands.spawn((
                Scenery,
                Other { index, lines },
                painter.piece(ink, Layer::Others),
                Visibility::Hidden,
            ));
        }
    }
}

pub(super) fn place(
    shown: Res<Shown>,
    mut others: Query<(&Other, &mut Transform, &mut Visibility)>,
) {
    for (other, mut transform, mut visibility) in &mut others {
        let now = shown.picture.frame.others.iter().find(|o| o.other as usize == other.index);
        let now = now
            .filter(|o| o.seen != other.lines && (o.seen || shown.view.sight == Sight::Everything));
        let Some(now) = now else {
            visibility.set_if_neq(Visibility::Hidden);
            continue;
        };
        visibility.set_if_neq(Visibility::Inherited);
        let at = v(now.pose.at).extend(Layer::Others.z());
        transform.set_if_neq(
            Transform::from_translation(at)
                .with_rotation(Quat::from_rotation_z(now.pose.heading as f32)),
        );
    }
}

/// About its middle, power unit to +x: forks, platform with its rider, power unit.
fn truck(half: Vec2, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    let at = |x: f32, y: f32| Vec2::new(half.x * x, half.y * y);
    ink.halo(-half + 0.06, half - 0.06, 0.14, p.shadow);
    for y in [-0.55, 0.55] {
        ink.slab(at(-1.0, y - 0.18), at(0.05, y + 0.18), 0.05, p.fork_edge);
        ink.slab(at(-1.0, y - 0.18) + 0.02, at(0.05, y + 0.18) - 0.02, 0.04, p.fork);
    }
    // Platform with a bar at its back.
    ink.slab(at(0.0, -1.0), at(0.55, 1.0), 0.04, p.other_edge);
    ink.slab(at(0.0, -1.0) + 0.02, at(0.55, 1.0) - 0.02, 0.03, p.platform);
    ink.slab(at(0.0, -1.0), at(0.0, 1.0) + Vec2::new(0.08, 0.0), 0.03, p.trim);
    // Power unit: slate, with an ochre band across and an off-white nose.
    let hood = Vec2::new(half.x * 0.45, 0.0);
    let nose = 0.16_f32.min(0.3 * half.y);
    ink.slab(Vec2::new(hood.x, -half.y), half, nose, p.other_edge);
    ink.slab(Vec2::new(hood.x, -half.y) + 0.02, half - 0.02, nose, p.other_body);
    let band = half.x * 0.56;
    ink.slab(
        Vec2::new(band, -half.y + 0.02),
        Vec2::new(band + 0.14, half.y - 0.02),
        0.0,
        p.other_band,
    );
    ink.slab(at(0.78, -0.55), at(0.94, 0.55), 0.05, p.other_light);
    ink.line(at(0.97, -0.6), at(0.97, 0.6), 0.04, p.trim);
    // Its tiller and whoever stands on it.
    ink.line(at(0.62, 0.0), at(0.34, 0.0), 0.06, p.trim_shade);
    let spine = at(0.16, 0.0);
    ink.slab(spine - Vec2::new(0.14, 0.25), spine + Vec2::new(0.14, 0.25), 0.13, p.body_edge);
    ink.slab(spine - Vec2::new(0.125, 0.235), spine + Vec2::new(0.125, 0.235), 0.115, p.vest);
    for y in [-0.13, 0.13] {
        let band = spine + Vec2::new(0.0, y);
        ink.slab(band - Vec2::new(0.11, 0.026), band + Vec2::new(0.11, 0.026), 0.01, p.vest_band);
    }
    ink.disc(spine + Vec2::new(0.03, 0.0), 0.112, p.cap_peak);
    ink.disc(spine + Vec2::new(0.03, 0.0), 0.1, p.other_band);
    ink
}

/// Its outline with an arrow head the way it points.
fn outline(half: Vec2, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    let corners = [-half, Vec2::new(half.x, -half.y), half, Vec2::new(-half.x, half.y)];
    ink.edge(&corners, 0.05, p.other_edge);
    let tip = Vec2::new(half.x * 0.8, 0.0);
    super::chevron::chevron(&mut ink, tip, Vec2::X, Vec2::Y, 0.6 * half.y, 0.05, p.other_edge);
    ink
}
