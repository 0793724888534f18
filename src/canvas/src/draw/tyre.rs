//! Marks that sliding wheels leave on the floor.

use bevy::camera::visibility::NoFrustumCulling;
use bevy::prelude::*;

use super::ink::Ink;
use super::{Layer, Painter, Scene, Scenery, Shown};
use crate::streak::Streaks;

/// Older streaks fade from the floor when there are more than this.
const MOST: usize = 3_000;

/// The picture of the streaks, with the first and the last that it holds.
#[derive(Component)]
pub(super) struct Drawn(usize, usize);

pub(super) fn put(commands: &mut Commands, painter: &mut Painter) {
    commands.init_resource::<Streaks>();
    commands.spawn((
        Scenery,
        Drawn(0, 0),
        painter.piece(Ink::default(), Layer::Tyre),
        NoFrustumCulling,
    ));
}

/// Draws again when there are more or, in a replay, fewer than before.
pub(super) fn draw(
    scene: Res<Scene>,
    shown: Res<Shown>,
    streaks: Option<Res<Streaks>>,
    mut meshes: ResMut<Assets<Mesh>>,
    mut drawn: Query<(&mut Drawn, &mut Mesh2d)>,
) {
    let Some(streaks) = streaks else {
        return;
    };
    let end = streaks.0.partition_point(|s| s.tick <= shown.picture.frame.tick);
    let start = end.saturating_sub(MOST);
    for (mut drawn, mut mesh) in &mut drawn {
        if (drawn.0, drawn.1) == (start, end) {
            continue;
        }
        *drawn = Drawn(start, end);
        let mut ink = Ink::default();
        for s in &streaks.0[start..end] {
            ink.quad(s.from, s.to, s.width, scene.palette().tyre);
        }
        mesh.0 = meshes.add(ink.into_mesh());
    }
}
