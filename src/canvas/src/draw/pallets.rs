//! Pallets with what stands on them, from above. How many cases a column still has shows by its
//! shade and by its size: what is nearer to the eye is larger and lighter. What has slid lies
//! aside; a load that leans shows its layers fanned out.

use bevy::prelude::*;
use coneyard_core::load::pallet::PalletLoad;
use coneyard_core::truck::spec::TruckSpec;
use coneyard_core::yard::frame::{Frame, PalletFrame};

use super::ink::{Ink, turned};
use super::{Layer, Painter, Scene, Scenery, Shown, v};
use crate::palette::Palette;

/// Leaning as far as it can without falling, the top of a load is drawn this far aside for each
/// metre of its height, m.
const LEAN: f32 = 0.3;

/// A pallet's picture, by its index in the course.
#[derive(Component)]
pub(super) struct Pallet {
    index: usize,
    drawn: Option<(PalletFrame, bool)>,
}

pub(super) fn put(commands: &mut Commands, painter: &mut Painter, count: usize) {
    for index in 0..count {
        commands.spawn((
            Scenery,
            Pallet { index, drawn: None },
            painter.piece(Ink::default(), Layer::FloorLoads),
            bevy::camera::visibility::NoFrustumCulling,
            Visibility::Hidden,
        ));
    }
}

/// Moves the pallets, and draws anew those whose load has changed.
pub(super) fn place(
    scene: Res<Scene>,
    shown: Res<Shown>,
    mut meshes: ResMut<Assets<Mesh>>,
    mut pallets: Query<(&mut Pallet, &mut Mesh2d, &mut Transform, &mut Visibility)>,
) {
    let frame = &shown.picture.frame;
    for (mut pallet, mut mesh, mut transform, mut visibility) in &mut pallets {
        let index = pallet.index;
        let warehouse = &scene.course.warehouse;
        let is_here = |p: &&PalletFrame| p.pallet as usize == index && v(p.pose.at).is_finite();
        let found = frame.pallets.iter().find(is_here);
        let (Some(now), Some(kind)) = (found, warehouse.pallets.get(index)) else {
            visibility.set_if_neq(Visibility::Hidden);
            continue;
        };
        visibility.set_if_neq(Visibility::Inherited);
        let over_forks = now.carried || on_forks(now, frame, &scene.truck);
        let layer = if over_forks { Layer::Load } else { Layer::FloorLoads };
        let at = v(now.pose.at).extend(layer.z());
        transform.set_if_neq(
            Transform::from_translation(at)
                .with_rotation(Quat::from_rotation_z(now.pose.heading as f32)),
        );
        let due = shown.picture.due.pallet == Some(index) && !now.carried;
        let load = &warehouse.loads[kind.load];
        let is_new = pallet.drawn.as_ref().is_none_or(|(before, was_due)| {
            *was_due != due
                || before.columns != now.columns
                || before.lean != now.lean
                || before.carried != now.carried
        });
        if is_new {
            mesh.0 = meshes.add(pallet_from_above(load, now, due, scene.palette()).into_mesh());
            pallet.drawn = Some((now.clone(), due));
        }
    }
}

/// The forks are in it, or about to be: it hides them.
fn on_forks(pallet: &PalletFrame, frame: &Frame, spec: &TruckSpec) -> bool {
    let on_truck = frame.truck.to_body(pallet.pose.at);
    let g = &spec.geometry;
    on_truck.x > g.fork_tips_x_m - 0.75
        && on_truck.x < g.backrest_x_m + 0.2
        && on_truck.y.abs() < 0.8
}

/// Pallet frame: +x towards the backrest.
fn pallet_from_above(load: &PalletLoad, now: &PalletFrame, due: bool, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    let half = 0.5 * Vec2::new(load.pallet.length_m as f32, load.pallet.width_m as f32);
    ink.halo(-half, half, 0.12, p.shadow.faded(0.8));
    deck(&mut ink, half, p);
    let size = Vec2::new(load.case.length_m as f32, load.case.width_m as f32);
    let most = load.layers.iter().copied().max().unwrap_or(1).max(1);
    let lean = v(now.lean).clamp_length_max(1.2) * LEAN * load.case.height_m as f32;
    if now.columns.is_empty() {
        heap(&mut ink, load, half, p);
    }
    // Layer by layer, so that what is higher lies over what is lower.
    for layer in 0..most {
        for (i, (count, shift)) in now.columns.iter().enumerate() {
            if layer >= *count {
                continue;
            }
            let home = v(load.place_of(i / load.across, i % load.across));
            // What is under the topmost has slid less.
            let slid = v(*shift) * f32::from(layer + 1) / f32::from(*count);
            let at = home + slid + lean * f32::from(layer + 1);
            let height = f32::from(layer + 1) / f32::from(most);
            let top = size * (0.86 + 0.12 * height);
            let is_top = layer + 1 == *count;
            case(&mut ink, at, top, if is_top { height } else { 0.5 * height }, is_top, p);
        }
    }
    if load.wrapped && !now.columns.is_empty() {
        wrap(&mut ink, half, lean * f32::from(most), p);
    }
    if due {
        let out = half + 0.14;
        let corners = [-out, Vec2::new(out.x, -out.y), out, Vec2::new(-out.x, out.y)];
        for i in 0..4 {
            ink.dashes(corners[i], corners[(i + 1) % 4], 0.16, 0.07, p.gate_due);
        }
    }
    ink
}

/// A load that fell off the forks as a whole: its cases lie over the pallet as they came down.
fn heap(ink: &mut Ink, load: &PalletLoad, half: Vec2, p: &Palette) {
    let size = Vec2::new(load.case.length_m as f32, load.case.width_m as f32);
    let count = load.cases().min(14);
    for i in 0..count {
        // Turned and strewn by the golden angle: never in rows, and the same each time.
        let turn = 2.4 * i as f32;
        let out = (0.15 + 0.85 * i as f32 / count as f32).sqrt();
        let at = half * 1.05 * out * Vec2::from_angle(turn);
        let corners = turned(at, 1.7 * turn, size);
        ink.piece(corners, p.goods_line);
        let shade = p.goods_low.towards(p.goods_top, (i % 4) as f32 / 3.0);
        ink.piece(turned(at, 1.7 * turn, size - 0.035), shade);
    }
}

/// Boards across on three runners.
fn deck(ink: &mut Ink, half: Vec2, p: &Palette) {
    ink.slab(-half, half, 0.01, p.wood_edge);
    let boards = (2.0 * half.x / 0.17).round().clamp(3.0, 20.0) as u32;
    let pitch = 2.0 * half.x / boards as f32;
    for i in 0..boards {
        let x = -half.x + pitch * i as f32;
        ink.slab(
            Vec2::new(x + 0.015, -half.y + 0.015),
            Vec2::new(x + pitch - 0.015, half.y - 0.015),
            0.0,
            p.wood,
        );
    }
}

/// One case, lighter the higher its top is.
fn case(ink: &mut Ink, at: Vec2, size: Vec2, height: f32, is_top: bool, p: &Palette) {
    let shade = p.goods_low.towards(p.goods_top, height);
    let (lo, hi) = (at - 0.5 * size, at + 0.5 * size);
    ink.slab(lo, hi, 0.0, p.goods_line);
    ink.slab(lo + 0.014, hi - 0.014, 0.0, shade);
    if is_top {
        let tape = Vec2::new(0.5 * size.x - 0.014, 0.0);
        ink.quad(at - tape, at + tape, 0.035, shade.towards(p.trim, 0.45));
    }
}

/// Film over the top: two slanting glints.
fn wrap(ink: &mut Ink, half: Vec2, aside: Vec2, p: &Palette) {
    let corners = [-half, Vec2::new(half.x, -half.y), half, Vec2::new(-half.x, half.y)];
    ink.edge(&corners.map(|c| c * 0.96 + aside), 0.03, p.trim.faded(0.8));
    for x in [-0.4, 0.2] {
        let from = Vec2::new(half.x * x, -half.y * 0.8) + aside;
        ink.line(from, from + Vec2::new(half.x * 0.35, half.y * 1.6), 0.04, p.trim.faded(0.6));
    }
}
