//! What is painted for the task: gates, lines, boxes and speed zones. What is due now is drawn
//! bolder and with chevrons, so that it is found at a glance and without its colour.

use bevy::camera::visibility::NoFrustumCulling;
use bevy::prelude::*;
use coneyard_core::course::{Course, Gate, Line, LineKind, StopBox};
use coneyard_core::moment::DockMoment;

use super::chevron::chevron;
use super::ink::{Ink, turned};
use super::{Layer, Painter, Scene, Scenery, Shown, outline, places, v};
use crate::palette::Palette;
use crate::picture::Due;

/// All marks of the task.
fn marks(course: &Course, due: Due, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    for zone in &course.zones {
        let area = outline(&zone.area);
        for (a, b) in area.iter().zip(area.iter().cycle().skip(1)) {
            ink.dashes(*a, *b, 0.3, 0.045, p.zone);
        }
    }
    places::places(&mut ink, course, due, p);
    for (i, b) in course.boxes.iter().enumerate() {
        stop_box(&mut ink, b, due.stop_box == Some(i), p);
    }
    for (i, l) in course.lines.iter().enumerate() {
        line(&mut ink, l, due.line == Some(i), p);
    }
    for (i, g) in course.gates.iter().enumerate() {
        if due.gate != Some(i) {
            gate(&mut ink, g, p);
        }
    }
    // The due one last, over its neighbours.
    if let Some(g) = due.gate.and_then(|i| course.gates.get(i)) {
        due_gate(&mut ink, g, p);
    }
    ink
}

/// Middle of a gate, the way through it and half its width to the left.
fn across(g: &Gate) -> (Vec2, Vec2, Vec2) {
    let (left, right) = (v(g.left), v(g.right));
    let half = (left - right) * 0.5;
    (right + half, -half.perp().normalize_or_zero(), half)
}

fn gate(ink: &mut Ink, g: &Gate, p: &Palette) {
    let (middle, way, half) = across(g);
    let out = half.normalize_or_zero();
    for end in [half, -half] {
        let post = middle + end;
        ink.disc(post, 0.07, p.gate);
        ink.line(post - way * 0.16, post + way * 0.16, 0.05, p.gate);
    }
    ink.dashes(middle + half, middle - half, 0.12, 0.03, p.gate.faded(0.75));
    chevron(ink, middle + way * 0.18, way, out, 0.17, 0.05, p.gate);
}

fn due_gate(ink: &mut Ink, g: &Gate, p: &Palette) {
    let (middle, way, half) = across(g);
    let out = half.normalize_or_zero();
    let deep = way * 0.55;
    ink.area(
        &[middle + half - deep, middle - half - deep, middle - half + deep, middle + half + deep],
        p.gate_wash,
    );
    ink.line(middle + half, middle - half, 0.08, p.gate_due);
    for end in [half, -half] {
        let post = middle + end;
        ink.line(post - way * 0.55, post + way * 0.55, 0.09, p.gate_due);
        ink.disc(post, 0.15, p.gate_due);
        ink.disc(post, 0.07, p.floor);
    }
    // Two before the line and one beyond it lead through.
    let size = (0.3 * half.length()).clamp(0.16, 0.34);
    for ahead in [-0.55, -0.2, 0.55] {
        chevron(ink, middle + way * ahead, way, out, size, 0.09, p.gate_due);
    }
}

fn line(ink: &mut Ink, l: &Line, due: bool, p: &Palette) {
    let (from, to) = (v(l.from), v(l.to));
    let along = (to - from).normalize_or_zero();
    let side = along.perp();
    match l.kind {
        LineKind::Paint => ink.line(from, to, 0.06, p.paint),
        // They are never due; `site` draws them.
        LineKind::Stop | LineKind::Yield => {}
        LineKind::Mark => {
            ink.line(from, to, if due { 0.14 } else { 0.09 }, p.ink);
            for end in [from, to] {
                ink.line(end - side * 0.2, end + side * 0.2, 0.08, p.ink);
            }
        }
        LineKind::Trigger => {
            ink.dashes(from, to, 0.2, if due { 0.11 } else { 0.06 }, p.trigger);
            for end in [from, to] {
                let r = if due { 0.16 } else { 0.1 };
                let diamond = [end + along * r, end + side * r, end - along * r, end - side * r];
                ink.area(&diamond, p.trigger);
            }
        }
    }
    if due && l.kind != LineKind::Paint {
        // Arrow heads at both ends, pointing at the line from outside.
        for (end, inward) in [(from, along), (to, -along)] {
            let tip = end - inward * 0.3;
            chevron(ink, tip, inward, side, 0.22, 0.08, p.gate_due);
            chevron(ink, tip - inward * 0.22, inward, side, 0.22, 0.08, p.gate_due);
        }
    }
}

fn stop_box(ink: &mut Ink, b: &StopBox, due: bool, p: &Palette) {
    let corners = turned(v(b.pose.at), b.pose.heading as f32, v(b.size));
    if due {
        ink.area(&corners, p.gate_wash);
    }
    ink.edge(
        &corners,
        if due { 0.07 } else { 0.045 },
        p.stop_box.faded(if due { 1.0 } else { 0.75 }),
    );
    // Brackets at the corners tell a box from a lane.
    let width = if due { 0.15 } else { 0.1 };
    for i in 0..4 {
        let (at, before, after) = (corners[i], corners[(i + 3) % 4], corners[(i + 1) % 4]);
        let reach =
            |to: Vec2| at + (to - at).normalize_or_zero() * 0.4_f32.min(0.3 * at.distance(to));
        ink.run(&[reach(before), at, reach(after)], width, p.stop_box);
    }
}

/// The marks on the floor, or the signs that stand over racks and walls.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Floor,
    Signs,
}

/// A picture of the marks, with what was due and what had been looked at when it was drawn.
#[derive(Component)]
pub(super) struct Marks {
    kind: Kind,
    drawn: Option<(Due, Vec<u64>)>,
}

pub(super) fn put(commands: &mut Commands, painter: &mut Painter) {
    for (kind, layer) in [(Kind::Floor, Layer::Marks), (Kind::Signs, Layer::Signs)] {
        commands.spawn((
            Scenery,
            Marks { kind, drawn: None },
            painter.piece(Ink::default(), layer),
            NoFrustumCulling,
        ));
    }
}

/// Draws the marks again when something else is due, or something more was looked at.
pub(super) fn renew(
    scene: Res<Scene>,
    shown: Res<Shown>,
    mut meshes: ResMut<Assets<Mesh>>,
    mut drawn: Query<(&mut Marks, &mut Mesh2d)>,
) {
    let (due, docks) = (shown.picture.due, &shown.picture.frame.docks);
    for (mut marks_of, mut mesh) in &mut drawn {
        let looked_at = docks.iter().map(|d| d.inspected.looked_at).collect();
        let now = Some((due, if marks_of.kind == Kind::Signs { looked_at } else { Vec::new() }));
        if marks_of.drawn == now {
            continue;
        }
        marks_of.drawn = now;
        let ink = match marks_of.kind {
            Kind::Floor => marks(&scene.course, due, scene.palette()),
            Kind::Signs => signs(&scene.course, due, docks, scene.palette()),
        };
        mesh.0 = meshes.add(ink.into_mesh());
    }
}

fn signs(course: &Course, due: Due, docks: &[DockMoment], p: &Palette) -> Ink {
    let mut ink = Ink::default();
    places::signs(&mut ink, course, due, docks, p);
    ink
}
