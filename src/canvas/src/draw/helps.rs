//! Helps for practising: where both ends of the truck will go with the tiller as it is, and where
//! it would stand if it were braked.

use bevy::camera::visibility::NoFrustumCulling;
use bevy::prelude::*;
use coneyard_core::course::step_out::REACTION_S;
use coneyard_core::math::{Vec2 as Point, cos, sin, vec2};
use coneyard_core::truck::spec::TruckSpec;
use coneyard_core::yard::frame::Frame;

use super::ink::Ink;
use super::{Layer, Painter, Scene, Scenery, Shown, v};
use crate::palette::Palette;

/// Shortest way ahead that is drawn, m of the drive wheel.
const LEAST_M: f64 = 2.6;

/// Longest.
const MOST_M: f64 = 9.0;

/// The truck never turns by more than this in what is drawn, rad.
const MOST_TURN: f64 = 1.75;

/// A weaker brake than this is drawn as this, m/s^2: the line would be far outside the picture.
const LEAST_BRAKING: f64 = 0.2;

#[derive(Component)]
pub(super) struct Helps;

pub(super) fn put(commands: &mut Commands, painter: &mut Painter) {
    commands.spawn((
        Scenery,
        Helps,
        painter.piece(Ink::default(), Layer::Helps),
        NoFrustumCulling,
        Visibility::Hidden,
    ));
}

pub(super) fn draw(
    scene: Res<Scene>,
    shown: Res<Shown>,
    mut meshes: ResMut<Assets<Mesh>>,
    helps: Single<(&mut Mesh2d, &mut Visibility), With<Helps>>,
) {
    let (mut mesh, mut visibility) = helps.into_inner();
    visibility.set_if_neq(if shown.view.helps {
        Visibility::Inherited
    } else {
        Visibility::Hidden
    });
    if shown.view.helps {
        let ink = helps_of(&shown.picture.frame, &scene.truck, scene.palette());
        mesh.0 = meshes.add(ink.into_mesh());
    }
}

/// A truck that rolls without sliding, its drive wheel held at one angle.
struct Rolling<'a> {
    frame: &'a Frame,
    wheelbase: f64,
}

impl Rolling<'_> {
    /// Where a point of the truck will be after the drive wheel has rolled so far, m.
    fn after(&self, on_truck: Point, rolled: f64) -> Vec2 {
        let (s, c) = (sin(self.frame.steer), cos(self.frame.steer));
        let turned = rolled * s / self.wheelbase;
        let moved = if s.abs() < 1e-4 {
            on_truck + vec2(rolled * c, 0.0)
        } else {
            let middle = vec2(0.0, self.wheelbase * c / s);
            middle + (on_truck - middle).rotated(turned)
        };
        v(self.frame.truck.to_yard(moved))
    }

    fn path(&self, on_truck: Point, rolled: f64) -> Vec<Vec2> {
        const STEPS: u32 = 28;
        (0..=STEPS)
            .map(|i| self.after(on_truck, rolled * f64::from(i) / f64::from(STEPS)))
            .collect()
    }
}

fn helps_of(frame: &Frame, spec: &TruckSpec, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    let g = &spec.geometry;
    let rolling = Rolling { frame, wheelbase: g.wheelbase_m };
    // At rest the way ahead is drawn, unless the throttle already asks for the other.
    let back = if frame.speed.abs() > 0.05 { frame.speed < 0.0 } else { frame.throttle < 0 };
    let way = if back { -1.0 } else { 1.0 };

    // The drive wheel runs on a larger circle than the load axle.
    let wheel_speed = frame.speed.abs() / cos(frame.steer).abs().max(0.1);
    let braked = 0.5 * wheel_speed * wheel_speed / frame.deceleration.max(LEAST_BRAKING);
    let stopped = wheel_speed * REACTION_S + braked;
    let by_turn = MOST_TURN * g.wheelbase_m / sin(frame.steer).abs().max(1e-6);
    let reach = (1.15 * stopped).clamp(LEAST_M, MOST_M).min(by_turn);

    let (nose, tips) = (0.5 * g.chassis_width_m, 0.5 * g.fork_spread_m);
    for side in [1.0, -1.0] {
        ink.run(&rolling.path(vec2(g.nose_x_m, side * nose), way * reach), 0.035, p.help);
        // The tips are dashed, so that the two are told apart.
        let path = rolling.path(vec2(g.fork_tips_x_m, side * tips), way * reach);
        for dash in path.as_chunks::<2>().0 {
            ink.run(dash, 0.035, p.help);
        }
    }
    let (x, half) = if back { (g.fork_tips_x_m, tips) } else { (g.nose_x_m, nose) };
    let bar =
        |rolled: f64| [1.2, -1.2].map(|side| rolling.after(vec2(x, side * half), way * rolled));
    if wheel_speed > 0.15 {
        for (rolled, width) in [(braked, 0.05), (stopped, 0.1)] {
            if rolled <= reach {
                let [a, b] = bar(rolled);
                ink.line(a, b, width, p.help_stop);
            }
        }
    }
    ink
}
