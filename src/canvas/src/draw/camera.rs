//! The camera: it follows the truck with more of the way ahead than of the way behind, north up or turning
//! with it, or shows all of the yard.

use core::cell::Cell;

use bevy::camera::{Camera2d, OrthographicProjection, Projection, ScalingMode};
use bevy::core_pipeline::tonemapping::{DebandDither, Tonemapping};
use bevy::prelude::*;
use bevy::window::PrimaryWindow;

use super::{Coarse, Scene, Shown, v};
use crate::aim;

/// It closes most of a distance in this time, s.
const GLIDE_S: f32 = 0.6;

/// Where the camera has glided to, before look-ahead is added.
#[derive(Component, Default)]
pub(super) struct Gliding {
    ahead: Vec2,
}

/// Metres on the floor for one CSS pixel.
#[derive(Resource, Default, PartialEq)]
pub(super) struct Scale(pub(super) f32);

/// What the last picture showed.
#[derive(Clone, Copy)]
struct Showed {
    at: Vec2,
    turn: f32,
    /// Metres across it and from top to bottom.
    seen: Vec2,
    /// CSS pixels a metre.
    pixels: f32,
}

thread_local! {
    static SHOWED: Cell<Option<Showed>> = const { Cell::new(None) };
}

/// Where a place of the yard, m, is in the last picture: shares of its width from the left and of its height
/// from above, and how many CSS pixels a metre has.
pub(crate) fn place_in_picture(x: f64, y: f64) -> Option<[f64; 3]> {
    let showed = SHOWED.get()?;
    let from = (Vec2::new(x as f32, y as f32) - showed.at).rotate(Vec2::from_angle(-showed.turn));
    let share = Vec2::splat(0.5) + from / showed.seen * Vec2::new(1.0, -1.0);
    Some([f64::from(share.x), f64::from(share.y), f64::from(showed.pixels)])
}

pub(super) fn put(mut commands: Commands) {
    commands.init_resource::<Scale>();
    commands.spawn((
        Camera2d,
        // The palette is what is seen: no tone curve over it.
        Tonemapping::None,
        DebandDither::Disabled,
        Projection::Orthographic(OrthographicProjection::default_2d()),
        Gliding::default(),
    ));
}

pub(super) fn follow(
    scene: Res<Scene>,
    shown: Res<Shown>,
    time: Res<Time<Real>>,
    window: Single<&Window, With<PrimaryWindow>>,
    coarse: Res<Coarse>,
    mut scale: ResMut<Scale>,
    camera: Single<(&mut Transform, &mut Projection, &mut Gliding)>,
) {
    let (mut transform, mut projection, mut gliding) = camera.into_inner();
    let truck = shown.picture.frame.truck;
    let heading = truck.heading as f32;
    let platform =
        v(truck.at) + Vec2::from_angle(heading) * scene.truck.geometry.platform_x_m as f32;
    let shorter = window.width().min(window.height());
    let frame = aim::Frame {
        view: shown.view,
        size: window.size(),
        // What is drawn with fewer points is as large as ever on the screen.
        on_screen: shorter / coarse.share as f32,
        floor: (v(scene.course.floor_min), v(scene.course.floor_max)),
    };

    let wanted = frame.ahead(heading, shown.picture.frame.speed as f32);
    let share = if shown.jump { 1.0 } else { 1.0 - (-time.delta_secs() / GLIDE_S).exp() };
    gliding.ahead = gliding.ahead.lerp(wanted, share);
    let (at, turn, span) =
        (frame.middle(platform + gliding.ahead, heading), frame.turn(heading), frame.span());
    transform.set_if_neq(
        Transform::from_xyz(at.x, at.y, 0.0).with_rotation(Quat::from_rotation_z(turn)),
    );
    let seen = window.size() / shorter.max(1.0) * span;
    scale.set_if_neq(Scale(span / frame.on_screen.max(1.0)));
    SHOWED.set(Some(Showed { at, turn, seen, pixels: frame.on_screen / span }));

    if let Projection::Orthographic(o) = &mut *projection {
        let is = match o.scaling_mode {
            ScalingMode::AutoMin { min_width, .. } => min_width,
            _ => 0.0,
        };
        if is != span {
            o.scaling_mode = ScalingMode::AutoMin { min_width: span, min_height: span };
        }
    }
}
