//! Draws what stands in the yard. It reads a `Scene` (what never moves) and a `Shown` (this
//! picture's state, between two ticks) and writes nothing back.

mod arm;
mod camera;
mod cases;
mod chevron;
mod cones;
mod digits;
mod floor;
mod helps;
mod ink;
mod marks;
mod others;
mod outside;
mod overhead;
mod paint;
mod pallets;
mod path;
mod people;
mod person;
mod places;
mod pointer;
mod quality;
mod rider;
mod signal;
mod site;
mod structures;
mod truck;
mod truck_shapes;
mod tyre;

use bevy::prelude::*;
use bevy::sprite_render::MeshMaterial2d;

use self::ink::Ink;
use self::paint::{Paint, Paints};
use crate::picture::{Scene, Shown, Which, v};

pub(crate) use self::quality::{Coarse, SinceLast};

/// What is drawn over what: the z of each thing, in drawing order.
#[derive(Clone, Copy)]
pub(crate) enum Layer {
    Floor,
    Site,
    Marks,
    Tyre,
    Path,
    Helps,
    FloorLoads,
    Cases,
    Structures,
    Signs,
    FallenCones,
    Cones,
    Others,
    People,
    Outside,
    TruckShadow,
    Forks,
    Load,
    Body,
    Column,
    Tiller,
    Grips,
    Feet,
    Arms,
    Torso,
    Sleeves,
    Hands,
    Head,
    Overhead,
    Signal,
}

impl Layer {
    /// Height in the picture; the companion lies under the own truck.
    fn z(self) -> f32 {
        self as u8 as f32
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
        app.init_resource::<SinceLast>()
            .init_resource::<Coarse>()
            .add_systems(Startup, (camera::put, quality::begin).chain())
            .add_systems(
                Update,
                (
                    (clear, set).chain().run_if(resource_exists_and_changed::<Scene>),
                    clear.run_if(resource_removed::<Scene>),
                    (
                        marks::renew,
                        cones::place,
                        pallets::place,
                        cases::draw,
                        others::place,
                        people::place,
                        outside::draw,
                        truck::place,
                        rider::place,
                        tyre::draw,
                        helps::draw,
                        signal::draw,
                        camera::follow,
                        pointer::draw,
                    )
                        .chain()
                        .run_if(resource_exists::<Scene>.and_then(resource_exists::<Shown>)),
                    quality::ease,
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
        (site::site(&scene.course, p), Layer::Site),
        (structures::structures(&scene.course.structures, p), Layer::Structures),
        (overhead::overhead(&scene.course.structures, p), Layer::Overhead),
    ];
    for (ink, layer) in still {
        commands.spawn((Scenery, painter.piece(ink, layer)));
    }
    marks::put(&mut commands, &mut painter);
    cones::put(&mut commands, &mut painter, scene.course.cones.len(), p);
    pallets::put(&mut commands, &mut painter, scene.course.warehouse.pallets.len());
    cases::put(&mut commands, &mut painter);
    others::put(&mut commands, &mut painter, &scene.course.warehouse.others, p);
    people::put(&mut commands, &mut painter, scene.course.warehouse.people.len(), p);
    outside::put(&mut commands, &mut painter);
    tyre::put(&mut commands, &mut painter);
    helps::put(&mut commands, &mut painter);
    signal::put(&mut commands, &mut painter, p);
    pointer::put(&mut commands, &mut painter, p);
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

/// An outline of the course as the engine wants it.
fn outline(points: &[coneyard_core::math::Vec2]) -> Vec<Vec2> {
    points.iter().map(|p| v(*p)).collect()
}
