//! What the rider does not see is dimmed: a veil over the floor outside the visibility polygon,
//! drawn anew with each picture. Where everything is shown, only the polygon's outline is drawn.

use bevy::camera::visibility::NoFrustumCulling;
use bevy::prelude::*;
use coneyard_core::desk::Sight;

use super::ink::Ink;
use super::{Layer, Painter, Scene, Scenery, Shown, v};
use crate::palette::Palette;
use crate::unseen::unseen;

/// The veil, with the view that it was drawn for.
#[derive(Component)]
pub(super) struct Veil(Option<Drawn>);

#[derive(PartialEq)]
struct Drawn {
    eye: Vec2,
    boundary: std::sync::Arc<[[f32; 2]]>,
    sight: Sight,
}

pub(super) fn put(commands: &mut Commands, painter: &mut Painter) {
    commands.spawn((
        Scenery,
        Veil(None),
        painter.piece(Ink::default(), Layer::Outside),
        NoFrustumCulling,
    ));
}

pub(super) fn draw(
    scene: Res<Scene>,
    shown: Res<Shown>,
    mut meshes: ResMut<Assets<Mesh>>,
    veil: Single<(&mut Veil, &mut Mesh2d)>,
) {
    let (mut veil, mut mesh) = veil.into_inner();
    let frame = &shown.picture.frame;
    let wanted = Drawn { eye: v(frame.eye), boundary: frame.view.clone(), sight: shown.sight };
    if veil.0.as_ref() == Some(&wanted) {
        return;
    }
    let boundary: Vec<Vec2> = wanted.boundary.iter().map(|p| Vec2::from(*p)).collect();
    let floor = (v(scene.course.floor_min), v(scene.course.floor_max));
    let ink = match wanted.sight {
        Sight::WhatTheRiderSees => dimmed(wanted.eye, &boundary, floor, scene.palette()),
        Sight::Everything => outlined(wanted.eye, &boundary, scene.palette()),
    };
    mesh.0 = meshes.add(ink.into_mesh());
    veil.0 = Some(wanted);
}

fn dimmed(eye: Vec2, boundary: &[Vec2], floor: (Vec2, Vec2), p: &Palette) -> Ink {
    let mut ink = Ink::default();
    for piece in unseen(eye, boundary, floor) {
        ink.piece(piece, p.unseen);
    }
    ink
}

fn outlined(eye: Vec2, boundary: &[Vec2], p: &Palette) -> Ink {
    let mut ink = Ink::default();
    if boundary.is_empty() {
        return ink;
    }
    let around = core::iter::once(eye).chain(boundary.iter().copied());
    let next = boundary.iter().copied().chain(core::iter::once(eye));
    for (a, b) in around.zip(next) {
        ink.quad(a, b, 0.05, p.seen_edge.faded(0.8));
    }
    ink
}
