//! Draws what stands in the yard. It reads a `Scene` (what never moves) and a `Shown` (this
//! picture's state, between two ticks) and writes nothing back.

mod camera;
mod cones;
mod floor;
mod helps;
mod ink;
mod marks;
mod mix;
mod paint;
mod path;
mod quality;
mod rider;
mod signal;
mod structures;
mod truck;
mod tyre;

use bevy::prelude::*;
use bevy::sprite_render::MeshMaterial2d;
use coneyard_core::course::{BrakeZone, Course};
use coneyard_core::truck::spec::TruckSpec;
use coneyard_sim::frame::Frame;

use self::ink::Ink;
use self::paint::{Paint, Paints};
use crate::palette::{DARK, DAY, Palette};

pub(crate) use self::marks::Due;
pub(crate) use self::mix::between;
pub(crate) use self::quality::SinceLast;
pub(crate) use self::tyre::{Streak, Streaks, streaks};

/// What is drawn over what: the z of each thing, in drawing order.
#[derive(Clone, Copy)]
pub(crate) enum Layer {
    Floor,
    Marks,
    Tyre,
    Path,
    Helps,
    Structures,
    FallenCones,
    TruckShadow,
    Forks,
    Body,
    Column,
    Tiller,
    Feet,
    Torso,
    Hands,
    Head,
    Cones,
    Signal,
}

impl Layer {
    /// Height in the picture; the companion lies under the own truck.
    fn z(self) -> f32 {
        self as u8 as f32
    }
}

/// Which truck a part belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Which {
    /// The one that is driven or replayed.
    Own,
    /// The pale one beside it in a replay.
    Companion,
}

/// What never moves while one course is open.
#[derive(Resource, Clone)]
pub(crate) struct Scene {
    /// The course.
    pub(crate) course: Course,
    /// The truck.
    pub(crate) truck: TruckSpec,
    /// The truck of the companion run.
    pub(crate) companion: Option<TruckSpec>,
    /// The way driven by the platform in a replay, m.
    pub(crate) path: Vec<Vec2>,
    /// The same of the companion.
    pub(crate) companion_path: Vec<Vec2>,
    /// The colours of the dark look.
    pub(crate) dark: bool,
}

impl Scene {
    /// A course and a truck by day, with nothing beside them.
    pub(crate) fn of(course: Course, truck: TruckSpec) -> Self {
        Self {
            course,
            truck,
            companion: None,
            path: Vec::new(),
            companion_path: Vec::new(),
            dark: false,
        }
    }

    fn palette(&self) -> &'static Palette {
        if self.dark { &DARK } else { &DAY }
    }

    fn truck_of(&self, which: Which) -> Option<&TruckSpec> {
        match which {
            Which::Own => Some(&self.truck),
            Which::Companion => self.companion.as_ref(),
        }
    }
}

/// What a drive or a replay shows at one moment.
#[derive(Clone)]
pub(crate) struct Picture {
    /// The yard between two ticks.
    pub(crate) frame: Frame,
    /// The companion between two ticks.
    pub(crate) companion: Option<Frame>,
    /// What is to be done next.
    pub(crate) due: Due,
    /// The emergency signal, while it is on, and the end of the arm's swing it asks for.
    pub(crate) signal: Option<BrakeZone>,
}

/// That, and how it is looked at.
#[derive(Resource, Clone)]
pub(crate) struct Shown {
    /// What is shown.
    pub(crate) picture: Picture,
    /// Predicted paths and stopping distance.
    pub(crate) helps: bool,
    /// North stays up.
    pub(crate) north_up: bool,
    /// Metres seen across the shorter side, over the usual.
    pub(crate) zoom: f32,
    /// The camera jumps instead of gliding: something else is shown than before.
    pub(crate) jump: bool,
}

impl Shown {
    fn frame_of(&self, which: Which) -> Option<&Frame> {
        match which {
            Which::Own => Some(&self.picture.frame),
            Which::Companion => self.picture.companion.as_ref(),
        }
    }
}

/// Stands in the yard until another course is opened.
#[derive(Component)]
pub(crate) struct Scenery;

/// Adds all that draws. Its systems run in order after `Shown` was set.
pub(crate) struct DrawPlugin;

/// When drawing happens within an update.
#[derive(SystemSet, Clone, Debug, PartialEq, Eq, Hash)]
pub(crate) struct Drawing;

impl Plugin for DrawPlugin {
    fn build(&self, app: &mut App) {
        paint::add(app);
        app.init_resource::<SinceLast>().add_systems(Startup, camera::put).add_systems(
            Update,
            (
                (clear, set).chain().run_if(resource_exists_and_changed::<Scene>),
                clear.run_if(resource_removed::<Scene>),
                (
                    marks::renew,
                    cones::place,
                    truck::place,
                    rider::place,
                    tyre::draw,
                    helps::draw,
                    signal::draw,
                    camera::follow,
                    quality::ease,
                )
                    .chain()
                    .run_if(resource_exists::<Scene>.and_then(resource_exists::<Shown>)),
            )
                .chain()
                .in_set(Drawing),
        );
    }
}

fn clear(mut commands: Commands, old: Query<Entity, With<Scenery>>) {
    for entity in &old {
        commands.entity(entity).despawn();
    }
}

/// Puts up a new scene.
fn set(
    mut commands: Commands,
    scene: Res<Scene>,
    mut meshes: ResMut<Assets<Mesh>>,
    paints: Res<Paints>,
    mut backdrop: ResMut<ClearColor>,
) {
    let p = scene.palette();
    backdrop.0 = Color::srgb(p.void.red, p.void.green, p.void.blue);
    let mut painter = Painter { meshes: &mut meshes, paints: &paints };
    let still = [
        (floor::floor(&scene.course, p), Layer::Floor),
        (path::path(&scene, p), Layer::Path),
        (structures::structures(&scene.course.structures, p), Layer::Structures),
    ];
    for (ink, layer) in still {
        commands.spawn((Scenery, painter.piece(ink, layer)));
    }
    marks::put(&mut commands, &mut painter);
    cones::put(&mut commands, &mut painter, scene.course.cones.len(), p);
    tyre::put(&mut commands, &mut painter);
    helps::put(&mut commands, &mut painter);
    signal::put(&mut commands, &mut painter, p);
    for which in [Which::Companion, Which::Own] {
        if let Some(spec) = scene.truck_of(which) {
            truck::put(&mut commands, &mut painter, which, spec, p);
        }
    }
}

/// Turns ink into things that the engine draws.
pub(crate) struct Painter<'a> {
    meshes: &'a mut Assets<Mesh>,
    paints: &'a Paints,
}

impl Painter<'_> {
    /// One mesh at its layer.
    fn piece(&mut self, ink: Ink, layer: Layer) -> (Mesh2d, MeshMaterial2d<Paint>, Transform) {
        let paint =
            if matches!(layer, Layer::Floor) { &self.paints.opaque } else { &self.paints.blended };
        (
            Mesh2d(self.meshes.add(ink.into_mesh())),
            MeshMaterial2d(paint.clone()),
            Transform::from_xyz(0.0, 0.0, layer.z()),
        )
    }
}

/// A point of the simulation as the engine wants it.
pub(crate) fn v(p: coneyard_core::math::Vec2) -> Vec2 {
    Vec2::new(p.x as f32, p.y as f32)
}

/// An outline of the course as the engine wants it.
fn outline(points: &[coneyard_core::math::Vec2]) -> Vec<Vec2> {
    points.iter().map(|p| v(*p)).collect()
}
