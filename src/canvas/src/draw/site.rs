//! What is painted or laid on the floor for good: stop and yield lines, crossings, ramps, dock
//! plates and the signs at blind spots. Each has a shape of its own, whatever its colour.

use bevy::math::Vec2;
use coneyard_core::course::warehouse::{BlindSpot, Crossing, Dock};
use coneyard_core::course::{Course, Line, LineKind};
use coneyard_core::floor::Ramp;

use super::chevron::chevron;
use super::floor::scatter;
use super::ink::Ink;
use super::{outline, v};
use crate::palette::Palette;
use crate::slices::{longest_side, slices};

/// A stop line is this thick, m.
const STOP_LINE: f32 = 0.28;

/// From one tooth of a yield line to the next, m.
const TOOTH: f32 = 0.5;

/// Bars of a crossing are this wide and this far apart, m.
const BAR: (f32, f32) = (0.4, 0.8);

/// All of it.
pub(super) fn site(course: &Course, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    for r in &course.warehouse.ramps {
        ramp(&mut ink, r, p);
    }
    for d in &course.warehouse.docks {
        dock(&mut ink, d, p);
    }
    for c in &course.warehouse.crossings {
        crossing(&mut ink, c, p);
    }
    for l in &course.lines {
        match l.kind {
            LineKind::Stop => stop(&mut ink, l, p),
            LineKind::Yield => give_way(&mut ink, l, p),
            LineKind::Mark | LineKind::Trigger | LineKind::Paint => {}
        }
    }
    for b in &course.warehouse.blind_spots {
        blind_spot(&mut ink, b, p);
    }
    ink
}

/// The way over a line that counts: with its first end on the left hand.
fn way_over(left: Vec2, right: Vec2) -> Vec2 {
    (right - left).perp().normalize_or_zero()
}

/// A thick line, and on the right hand before it the eight-sided plate that means stop.
fn stop(ink: &mut Ink, l: &Line, p: &Palette) {
    let (left, right) = (v(l.from), v(l.to));
    let (along, way) = ((right - left).normalize_or_zero(), way_over(left, right));
    ink.line(left, right, STOP_LINE, p.ink);
    let at = right - along * 0.34 - way * 0.62;
    let plate = |radius: f32| -> Vec<Vec2> {
        let corner = |i: u32| (i as f32 + 0.5) / 8.0 * core::f32::consts::TAU;
        (0..8).map(|i| at + radius * Vec2::from_angle(way.to_angle() + corner(i))).collect()
    };
    ink.area(&plate(0.3), p.ink);
    ink.area(&plate(0.275), p.warn_ink);
    ink.area(&plate(0.25), p.warn);
    ink.line(at - along * 0.15, at + along * 0.15, 0.09, p.warn_ink);
}

/// A row of triangles that point at whoever comes.
fn give_way(ink: &mut Ink, l: &Line, p: &Palette) {
    let (left, right) = (v(l.from), v(l.to));
    let (along, way) = ((right - left).normalize_or_zero(), way_over(left, right));
    let length = left.distance(right);
    let count = (length / TOOTH).round().clamp(1.0, 200.0);
    let pitch = length / count;
    for i in 0..count as u32 {
        let middle = left + along * pitch * (i as f32 + 0.5);
        let base = along * 0.34 * pitch;
        let foot = middle + way * 0.22;
        ink.area(&[foot - base, foot + base, middle - way * 0.28], p.ink);
    }
}

/// Bars that lie the way the trucks go, one beside the other the way people walk.
fn crossing(ink: &mut Ink, c: &Crossing, p: &Palette) {
    let area = outline(&c.area);
    for bar in slices(&area, longest_side(&area), BAR.0, BAR.1) {
        ink.area(&bar, p.paint);
    }
    for (a, b) in area.iter().zip(area.iter().cycle().skip(1)) {
        ink.line(*a, *b, 0.04, p.paint);
    }
}

/// Arrow heads uphill; the steeper, the closer.
fn ramp(ink: &mut Ink, r: &Ramp, p: &Palette) {
    let area = outline(&r.area);
    let up = v(r.uphill);
    let spacing = (1.3 - 3.0 * r.grade.abs() as f32).clamp(0.7, 1.3);
    scatter(&area, spacing, |at, _| {
        for tip in [0.1, -0.08] {
            chevron(ink, at + up * tip, up, up.perp(), 0.2, 0.045, p.paint);
        }
    });
    ink.edge(&area, 0.05, p.paint);
    // The foot and the head of it are told apart: a double line where it begins to rise.
    let reach = |q: &Vec2| q.dot(up);
    let low = area.iter().map(reach).fold(f32::MAX, f32::min);
    for (a, b) in area.iter().zip(area.iter().cycle().skip(1)) {
        if reach(a) < low + 0.05 && reach(b) < low + 0.05 {
            ink.line(*a + up * 0.14, *b + up * 0.14, 0.05, p.paint);
        }
    }
}

/// The plate and what lies behind it: a sparse hatch with a strong edge. Where the course lays steel
/// there, `floor` draws it.
fn dock(ink: &mut Ink, d: &Dock, p: &Palette) {
    let area = outline(&d.area);
    ink.area(&area, p.plate.faded(0.35));
    for stripe in slices(&area, Vec2::new(1.0, 1.0), 0.04, 0.42) {
        ink.area(&stripe, p.plate_mark.faded(0.8));
    }
    ink.edge(&area, 0.08, p.plate_mark);
    ink.edge(&area, 0.03, p.ink);
}

/// A small quiet plate at each corner with two arrow heads the way that counts.
fn blind_spot(ink: &mut Ink, b: &BlindSpot, p: &Palette) {
    let (left, right) = (v(b.left), v(b.right));
    let (along, way) = ((right - left).normalize_or_zero(), way_over(left, right));
    for (end, inward) in [(left, along), (right, -along)] {
        let at = end + inward * 0.24;
        let (x, y) = (way * 0.21, along * 0.17);
        ink.area(&[at - x - y, at + x - y, at + x + y, at - x + y], p.floor);
        ink.edge(&[at - x - y, at + x - y, at + x + y, at - x + y], 0.03, p.zone);
        for tip in [0.14, 0.0] {
            chevron(ink, at + way * tip, way, along, 0.1, 0.04, p.zone);
        }
    }
}
