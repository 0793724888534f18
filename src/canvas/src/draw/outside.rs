//! What the rider does not see is dimmed and hatched: a veil over the floor outside the visibility polygon,
//! drawn anew with each picture, with a line along its edge. Where everything is shown, only that line is drawn.

use bevy::camera::visibility::NoFrustumCulling;
use bevy::prelude::*;
use coneyard_core::desk::Sight;

use super::camera::Scale;
use super::ink::Ink;
use super::{Layer, Painter, Scene, Scenery, Shown, v};
use crate::palette::Palette;
use crate::unseen::unseen;

/// Width of the edge of sight, CSS pixels.
const EDGE_PX: f32 = 2.0;

/// Two pieces: the veil and, without hatch, the edge.
#[derive(Component, Clone, Copy, PartialEq)]
pub(super) enum Part {
    Veil,
    Edge,
}

/// The view that they were drawn for.
#[derive(Resource, Default)]
pub(super) struct Before(Option<Drawn>);

#[derive(PartialEq)]
struct Drawn {
    eye: Vec2,
    boundary: std::sync::Arc<[[f32; 2]]>,
    sight: Sight,
    scale: f32,
}

pub(super) fn put(commands: &mut Commands, painter: &mut Painter) {
    commands.insert_resource(Before(None));
    for (part, layer) in [(Part::Veil, Layer::Outside), (Part::Edge, Layer::EdgeOfSight)] {
        commands.spawn((Scenery, part, painter.piece(Ink::default(), layer), NoFrustumCulling));
    }
}

pub(super) fn draw(
    scene: Res<Scene>,
    shown: Res<Shown>,
    mut meshes: ResMut<Assets<Mesh>>,
    scale: Res<Scale>,
    mut before: ResMut<Before>,
    mut parts: Query<(&Part, &mut Mesh2d)>,
) {
    let frame = &shown.picture.frame;
    let wanted = Drawn {
        eye: v(frame.eye),
        boundary: frame.view.clone(),
        sight: shown.view.sight,
        scale: scale.0,
    };
    if before.0.as_ref() == Some(&wanted) {
        return;
    }
    let boundary: Vec<Vec2> = wanted.boundary.iter().map(|p| Vec2::from(*p)).collect();
    let floor = (v(scene.course.floor_min), v(scene.course.floor_max));
    let p = scene.palette();
    for (part, mut mesh) in &mut parts {
        let ink = match (part, wanted.sight) {
            (Part::Veil, Sight::WhatTheRiderSees) => dimmed(wanted.eye, &boundary, floor, p),
            (Part::Veil, Sight::Everything) => Ink::default(),
            (Part::Edge, _) => outlined(wanted.eye, &boundary, EDGE_PX * scale.0, p),
        };
        mesh.0 = meshes.add(ink.into_mesh());
    }
    before.0 = Some(wanted);
}

fn dimmed(eye: Vec2, boundary: &[Vec2], floor: (Vec2, Vec2), p: &Palette) -> Ink {
    let mut ink = Ink::default();
    for piece in unseen(eye, boundary, floor) {
        ink.piece(piece, p.unseen);
    }
    ink
}

fn outlined(eye: Vec2, boundary: &[Vec2], width: f32, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    if boundary.is_empty() {
        return ink;
    }
    let around = core::iter::once(eye).chain(boundary.iter().copied());
    let next = boundary.iter().copied().chain(core::iter::once(eye));
    for (a, b) in around.zip(next) {
        ink.quad(a, b, width, p.seen_edge);
    }
    ink
}
