//! The camera: it follows the truck with a little look-ahead, north up or turning with it.

use bevy::camera::{Camera2d, OrthographicProjection, Projection, ScalingMode};
use bevy::core_pipeline::tonemapping::{DebandDither, Tonemapping};
use bevy::prelude::*;
use bevy::window::PrimaryWindow;

use super::{Coarse, Scene, Shown, v};

/// Metres seen across the shorter side.
const SPAN: f32 = 14.0;

/// The same on a phone: what is farther could not be made out.
const SPAN_SMALL: f32 = 10.0;

/// A shorter side below this counts as a phone, CSS pixels.
const SMALL_BELOW: f32 = 480.0;

/// The camera looks where the truck will be after this time, s.
const LOOK_AHEAD_S: f32 = 0.7;

/// It closes most of a distance in this time, s.
const GLIDE_S: f32 = 0.35;

/// So much is shown outside the floor's edge at most, m.
const RIM: f32 = 2.0;

/// Where the camera has glided to, before look-ahead is added.
#[derive(Component, Default)]
pub(super) struct Gliding {
    ahead: Vec2,
}

pub(super) fn put(mut commands: Commands) {
    commands.spawn((
        Camera2d,
        // The palette is what is seen: no tone curve over it.
        Tonemapping::None,
        DebandDither::Disabled,
        Projection::Orthographic(OrthographicProjection {
            scaling_mode: ScalingMode::AutoMin { min_width: SPAN, min_height: SPAN },
            ..OrthographicProjection::default_2d()
        }),
        Gliding::default(),
    ));
}

pub(super) fn follow(
    scene: Res<Scene>,
    shown: Res<Shown>,
    time: Res<Time<Real>>,
    window: Single<&Window, With<PrimaryWindow>>,
    coarse: Res<Coarse>,
    camera: Single<(&mut Transform, &mut Projection, &mut Gliding)>,
) {
    let (mut transform, mut projection, mut gliding) = camera.into_inner();
    let truck = shown.picture.frame.truck;
    let along = Vec2::from_angle(truck.heading as f32);
    let middle = v(truck.at) + along * scene.truck.geometry.platform_x_m as f32;

    let wanted = along * shown.picture.frame.speed as f32 * LOOK_AHEAD_S;
    let share = if shown.jump { 1.0 } else { 1.0 - (-time.delta_secs() / GLIDE_S).exp() };
    gliding.ahead = gliding.ahead.lerp(wanted, share);

    let shorter = window.width().min(window.height());
    // What is drawn with fewer points is as large as ever on the screen.
    let on_screen = shorter / coarse.share as f32;
    let span = shown.zoom * if on_screen < SMALL_BELOW { SPAN_SMALL } else { SPAN };
    let followed = middle + gliding.ahead;
    let seen = window.size() / shorter.max(1.0) * span;
    let (top, bottom) = (shown.covered.top as f32, shown.covered.bottom as f32);
    let free = seen * Vec2::new(1.0, (1.0 - top - bottom).max(0.0));
    let at = if shown.north_up {
        within_yard(followed, free, v(scene.course.floor_min), v(scene.course.floor_max))
    } else {
        followed
    };
    let turn =
        if shown.north_up { 0.0 } else { truck.heading as f32 - core::f32::consts::FRAC_PI_2 };
    // The middle of what is not covered, not that of the picture.
    let up = Vec2::from_angle(turn).perp();
    let at = at - up * (0.5 * (bottom - top) * seen.y);
    transform.set_if_neq(
        Transform::from_xyz(at.x, at.y, 0.0).with_rotation(Quat::from_rotation_z(turn)),
    );

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

/// As near to `at` as the camera may be without showing more than a rim outside the floor; the
/// middle of the floor where all of it is seen.
fn within_yard(at: Vec2, seen: Vec2, floor_min: Vec2, floor_max: Vec2) -> Vec2 {
    let room = 0.5 * (floor_max - floor_min - seen) + RIM;
    let middle = 0.5 * (floor_min + floor_max);
    middle + (at - middle).clamp(-room.max(Vec2::ZERO), room.max(Vec2::ZERO))
}
