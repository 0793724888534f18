//! Places that steps name: bays to set down in, stops to pick from, and what is to be checked at a
//! dock. What is due now is drawn bolder.

use bevy::math::Vec2;
use coneyard_core::course::Course;
use coneyard_core::course::warehouse::{Bay, Dock, DockCheck, PICK_REACH_M, PickStop};
use coneyard_core::moment::DockMoment;

use super::chevron::chevron;
use super::ink::{Ink, turned};
use super::{digits, v};
use crate::palette::Palette;
use crate::picture::Due;

/// What lies on the floor of them.
pub(super) fn places(ink: &mut Ink, course: &Course, due: Due, p: &Palette) {
    for (i, b) in course.warehouse.bays.iter().enumerate() {
        bay(ink, b, due.bay == Some(i), p);
    }
    if let Some(stop) = due.stop.and_then(|i| course.warehouse.stops.get(i)) {
        reach(ink, stop, p);
    }
}

/// Their signs, which stand before racks and walls, with what has been looked at in each dock.
pub(super) fn signs(ink: &mut Ink, course: &Course, due: Due, docks: &[DockMoment], p: &Palette) {
    for (i, s) in course.warehouse.stops.iter().enumerate() {
        pick_stop(ink, s, i + 1, due.stop == Some(i), p);
    }
    for (i, d) in course.warehouse.docks.iter().enumerate() {
        let now = docks.iter().find(|m| m.dock as usize == i);
        checks(ink, d, now, due.dock == Some(i), p);
    }
}

/// Corner marks, a quiet outline, and an arrow the way the forks point.
fn bay(ink: &mut Ink, b: &Bay, due: bool, p: &Palette) {
    let (at, heading) = (v(b.pose.at), b.pose.heading as f32);
    let corners = turned(at, heading, v(b.size));
    let colour = if due { p.gate_due } else { p.gate };
    if due {
        ink.area(&corners, p.gate_wash);
    }
    ink.edge(&corners, 0.025, colour.faded(0.6));
    for i in 0..4 {
        let (here, before, after) = (corners[i], corners[(i + 3) % 4], corners[(i + 1) % 4]);
        let reach = |to: Vec2| {
            here + (to - here).normalize_or_zero() * 0.28_f32.min(0.3 * here.distance(to))
        };
        ink.run(&[reach(before), here, reach(after)], if due { 0.11 } else { 0.07 }, colour);
    }
    let way = Vec2::from_angle(heading);
    chevron(
        ink,
        at + way * 0.2,
        way,
        way.perp(),
        0.22,
        0.05,
        colour.faded(if due { 1.0 } else { 0.6 }),
    );
}

/// The reach within which the platform must stop.
fn reach(ink: &mut Ink, s: &PickStop, p: &Palette) {
    let at = v(s.at);
    ink.disc(at, PICK_REACH_M as f32, p.gate_wash.faded(0.6));
    ink.ring(at, PICK_REACH_M as f32, 0.05, p.gate_due.faded(0.7));
}

/// A numbered disc.
fn pick_stop(ink: &mut Ink, s: &PickStop, number: usize, due: bool, p: &Palette) {
    let at = v(s.at);
    ink.disc(at, 0.31, if due { p.gate_due } else { p.gate });
    ink.disc(at, 0.26, p.floor);
    digits::number(ink, number, at, 0.3, if due { p.gate_due } else { p.ink });
}

/// A ring where something is to be looked at; once it was looked at, what was to be seen.
fn checks(ink: &mut Ink, d: &Dock, now: Option<&DockMoment>, due: bool, p: &Palette) {
    for (i, (what, at)) in d.checks.iter().enumerate() {
        let at = v(*at);
        ink.disc(at, 0.36, if due { p.gate_due } else { p.gate });
        ink.disc(at, 0.31, p.floor);
        if let Some(is_fine) = now.and_then(|m| m.inspected.is_fine(i)) {
            check(ink, *what, at, is_fine, p);
        } else {
            // An eye: look here.
            let lid = |side: f32| {
                [Vec2::new(-0.2, 0.0), Vec2::new(0.0, 0.13 * side), Vec2::new(0.2, 0.0)]
                    .map(|q| at + q)
            };
            ink.run(&lid(1.0), 0.035, p.ink);
            ink.run(&lid(-1.0), 0.035, p.ink);
            ink.disc(at, 0.06, p.ink);
        }
    }
}

/// What a look shows: as it must be, or not. No tick and no cross: the rider has to tell.
fn check(ink: &mut Ink, what: DockCheck, at: Vec2, is_fine: bool, p: &Palette) {
    let q = |x: f32, y: f32| at + Vec2::new(x, y);
    match what {
        // A wheel, and the wedge against it or lying aside.
        DockCheck::VehicleHeld => {
            ink.ring(q(-0.06, 0.03), 0.13, 0.06, p.ink);
            ink.line(q(-0.25, -0.13), q(0.25, -0.13), 0.03, p.ink);
            let x = if is_fine { 0.03 } else { 0.17 };
            let tip = if is_fine { [0.02, 0.14] } else { [0.06, 0.1] };
            ink.area(&[q(x, -0.11), q(x + tip[1], -0.11), q(x + tip[1], tip[0])], p.zone);
        }
        // The plate's lip, flat on the other side's floor or hanging short of it.
        DockCheck::PlateSeated => {
            ink.line(q(-0.26, -0.1), q(-0.04, -0.1), 0.09, p.ink);
            ink.line(q(0.1, -0.1), q(0.26, -0.1), 0.09, p.ink);
            let end = if is_fine { q(0.2, -0.01) } else { q(0.07, 0.13) };
            ink.line(q(-0.2, -0.01), end, 0.06, p.zone);
        }
        // Two posts, with the bar between them or hanging from one.
        DockCheck::EdgeClosed => {
            for x in [-0.18, 0.18] {
                ink.line(q(x, -0.18), q(x, 0.16), 0.05, p.ink);
            }
            let end = if is_fine { q(0.18, 0.08) } else { q(-0.1, -0.18) };
            ink.line(q(-0.18, 0.08), end, 0.05, p.zone);
        }
    }
}
