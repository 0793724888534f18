//! People on foot, moved to where they are. Those whom the rider does not see are not drawn; where
//! everything is shown, they are lines.

use bevy::prelude::*;
use coneyard_core::desk::Sight;
use coneyard_core::time::TICK_RATE;
use coneyard_core::yard::frame::PersonFrame;

use super::{Layer, Painter, Scenery, Shown, person, v};
use crate::palette::Palette;

/// A pair of steps is this long, m (typical, no source).
const STRIDE: f32 = 1.4;

/// How far a foot goes before the body and behind it, m.
const SWING: f32 = 0.17;

/// Somebody, by the index in the course.
#[derive(Component)]
pub(super) struct Person(usize);

/// A part of somebody.
#[derive(Component)]
pub(super) struct Part {
    person: usize,
    kind: Kind,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    LeftBoot,
    RightBoot,
    Torso,
    Head,
    Face,
    Palm,
    Outline,
}

pub(super) fn put(commands: &mut Commands, painter: &mut Painter, count: usize, p: &Palette) {
    let boot = painter.piece(person::boot(p), Layer::Floor);
    let shapes = [
        (Kind::LeftBoot, boot.clone()),
        (Kind::RightBoot, boot),
        (Kind::Torso, painter.piece(person::torso(p), Layer::Floor)),
        (Kind::Palm, painter.piece(person::palm(p), Layer::Floor)),
        (Kind::Head, painter.piece(person::head(p), Layer::Floor)),
        (Kind::Face, painter.piece(person::face(p), Layer::Floor)),
        (Kind::Outline, painter.piece(person::outline(p), Layer::Floor)),
    ];
    for index in 0..count {
        let root = Transform::from_xyz(0.0, 0.0, Layer::People.z());
        commands.spawn((Scenery, Person(index), root, Visibility::Hidden)).with_children(|body| {
            for (order, (kind, (mesh, paint, _))) in shapes.iter().enumerate() {
                body.spawn((
                    Part { person: index, kind: *kind },
                    mesh.clone(),
                    paint.clone(),
                    Transform::from_xyz(0.0, 0.0, 0.1 * order as f32),
                    Visibility::default(),
                ));
            }
        });
    }
}

pub(super) fn place(
    shown: Res<Shown>,
    mut people: Query<(&Person, &mut Transform, &mut Visibility), Without<Part>>,
    mut parts: Query<(&Part, &mut Transform, &mut Visibility), Without<Person>>,
) {
    let frame = &shown.picture.frame;
    let there = |index: usize| frame.people.iter().find(|p| p.person as usize == index);
    for (person, mut transform, mut visibility) in &mut people {
        let now = there(person.0).filter(|p| p.seen || shown.view.sight == Sight::Everything);
        let Some(now) = now else {
            visibility.set_if_neq(Visibility::Hidden);
            continue;
        };
        visibility.set_if_neq(Visibility::Inherited);
        let at = v(now.at).extend(Layer::People.z());
        transform.set_if_neq(
            Transform::from_translation(at)
                .with_rotation(Quat::from_rotation_z(now.heading as f32)),
        );
    }
    for (part, mut transform, mut visibility) in &mut parts {
        let Some(now) = there(part.person) else {
            continue;
        };
        let wanted = if shows(part.kind, now) { Visibility::Inherited } else { Visibility::Hidden };
        visibility.set_if_neq(wanted);
        if let Some(side) = side(part.kind) {
            let z = transform.translation.z;
            let ahead = side * swing(now, frame.tick);
            transform.set_if_neq(Transform::from_xyz(ahead, side * 0.1, z));
        }
    }
}

fn shows(kind: Kind, now: &PersonFrame) -> bool {
    match kind {
        Kind::Outline => !now.seen,
        Kind::Head => now.seen && !now.looks_up,
        Kind::Face => now.seen && now.looks_up,
        Kind::Palm => now.seen && now.holds_back,
        Kind::LeftBoot | Kind::RightBoot | Kind::Torso => now.seen,
    }
}

/// +1 for the left foot.
fn side(kind: Kind) -> Option<f32> {
    match kind {
        Kind::LeftBoot => Some(1.0),
        Kind::RightBoot => Some(-1.0),
        _ => None,
    }
}

/// How far the left foot is ahead, m; nothing while standing.
fn swing(now: &PersonFrame, tick: u32) -> f32 {
    let speed = now.speed as f32;
    // Each person in another step, or all would march.
    let steps = tick as f32 / TICK_RATE as f32 * speed / STRIDE + 0.37 * now.person as f32;
    SWING * speed.min(1.0) * (steps.fract() * core::f32::consts::TAU).sin()
}
