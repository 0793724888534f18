//! Cases that fell on the floor.

use std::sync::Arc;

use bevy::camera::visibility::NoFrustumCulling;
use bevy::prelude::*;
use coneyard_core::yard::frame::CaseFrame;

use super::ink::{Ink, turned};
use super::{Layer, Painter, Scene, Scenery, Shown, v};
use crate::palette::Palette;

/// All of them in one mesh, and where they lay when it was drawn.
#[derive(Component)]
pub(super) struct Cases(Option<Arc<[CaseFrame]>>);

pub(super) fn put(commands: &mut Commands, painter: &mut Painter) {
    commands.spawn((
        Scenery,
        Cases(None),
        painter.piece(Ink::default(), Layer::Cases),
        NoFrustumCulling,
    ));
}

/// Draws them again when one has moved.
pub(super) fn draw(
    scene: Res<Scene>,
    shown: Res<Shown>,
    mut meshes: ResMut<Assets<Mesh>>,
    cases: Single<(&mut Cases, &mut Mesh2d)>,
) {
    let (mut cases, mut mesh) = cases.into_inner();
    let now = &shown.picture.frame.cases;
    if cases.0.as_ref() == Some(now) {
        return;
    }
    mesh.0 = meshes.add(drawn(now, scene.palette()).into_mesh());
    cases.0 = Some(now.clone());
}

fn drawn(all: &[CaseFrame], p: &Palette) -> Ink {
    let mut ink = Ink::default();
    for c in all {
        let (at, heading, size) = (v(c.pose.at), c.pose.heading as f32, v(c.size));
        ink.piece(turned(at + Vec2::new(0.06, -0.07), heading, size + 0.03), p.shadow);
    }
    for c in all {
        case(&mut ink, v(c.pose.at), c.pose.heading as f32, v(c.size), p);
    }
    ink
}

/// One case from above: a dark edge, its top, and the tape along it.
fn case(ink: &mut Ink, at: Vec2, heading: f32, size: Vec2, p: &Palette) {
    ink.piece(turned(at, heading, size), p.goods_line);
    ink.piece(turned(at, heading, size - 0.04), p.goods);
    let tape = Vec2::from_angle(heading) * 0.5 * (size.x - 0.04);
    ink.quad(at - tape, at + tape, 0.05, p.goods_top);
}
