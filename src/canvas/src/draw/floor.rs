//! The floor: pale concrete with faint joints, the lanes painted on it, and patches that grip
//! otherwise. A patch is told by its pattern, not by its colour alone.

use bevy::math::Vec2;
use coneyard_core::course::Course;
use coneyard_core::floor::{Patch, Surface};

use super::ink::Ink;
use super::{outline, v};
use crate::joints;
use crate::palette::{Colour, Palette};

/// Paint of a lane's edge is this wide, m.
const LANE_EDGE: f32 = 0.07;

/// Everything that lies flat and never changes, without the marks of the task. It is drawn with
/// covering paint, because it fills the picture: no colour in it may let anything through.
pub(super) fn floor(course: &Course, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    let (lo, hi) = (v(course.floor_min), v(course.floor_max));
    let bare = course.lanes.is_empty();
    ink.slab(lo, hi, 0.0, if bare { p.floor } else { p.off_lane });
    if course.surface != Surface::Dry {
        let whole = [lo, Vec2::new(hi.x, lo.y), hi, Vec2::new(lo.x, hi.y)];
        pattern(&mut ink, course.surface, &whole, p);
    }
    lanes(&mut ink, course, p);
    saw_cuts(&mut ink, lo, hi, p.joint.over(p.floor));
    for patch in &course.patches {
        put_patch(&mut ink, patch, p);
    }
    ink.edge(&[lo, Vec2::new(hi.x, lo.y), hi, Vec2::new(lo.x, hi.y)], 0.12, p.paint);
    ink
}

/// All edges first, then all insides over them: where lanes cross, no edge is left inside.
fn lanes(ink: &mut Ink, course: &Course, p: &Palette) {
    let outlines: Vec<Vec<Vec<Vec2>>> = course
        .lanes
        .iter()
        .map(|lane| {
            core::iter::once(&lane.area).chain(&lane.holes).map(|points| outline(points)).collect()
        })
        .collect();
    for o in outlines.iter().flatten() {
        ink.edge(o, 2.0 * LANE_EDGE, p.lane_edge);
    }
    for lane in &outlines {
        ink.areas(lane.iter().map(Vec::as_slice), p.floor);
    }
}

fn saw_cuts(ink: &mut Ink, lo: Vec2, hi: Vec2, colour: Colour) {
    let lines = |from: f32, to: f32| {
        let place = |at: f32| (at - joints::FROM) / joints::EVERY;
        let first = place(from).floor() as i32 + 1;
        let last = (place(to).ceil() as i32 - 1).min(first + 2_000);
        (first..=last).map(|i| i as f32 * joints::EVERY + joints::FROM)
    };
    for x in lines(lo.x, hi.x) {
        ink.line(Vec2::new(x, lo.y), Vec2::new(x, hi.y), 0.025, colour);
    }
    for y in lines(lo.y, hi.y) {
        ink.line(Vec2::new(lo.x, y), Vec2::new(hi.x, y), 0.025, colour);
    }
}

fn put_patch(ink: &mut Ink, patch: &Patch, p: &Palette) {
    let area = outline(&patch.area);
    match patch.surface {
        Surface::Dry => ink.area(&area, p.floor),
        surface => pattern(ink, surface, &area, p),
    }
    if patch.surface == Surface::Wet {
        hatched_edge(ink, &area, p.wet_edge);
    }
    if patch.surface == Surface::Plate {
        ink.edge(&area, 0.05, p.plate_mark);
    }
}

/// Fills an area with the sign of its surface.
fn pattern(ink: &mut Ink, surface: Surface, area: &[Vec2], p: &Palette) {
    match surface {
        Surface::Dry => {}
        Surface::Wet => {
            ink.area(area, p.wet.over(p.floor));
            // Ripples: short level strokes.
            scatter(area, 0.9, |at, odd| {
                let half = Vec2::new(if odd { 0.16 } else { 0.10 }, 0.0);
                ink.run(&[at - half, at + half], 0.025, p.wet_edge.faded(0.7).over(p.floor));
            });
        }
        Surface::Dusty => {
            ink.area(area, p.dust.over(p.floor));
            scatter(area, 0.45, |at, odd| {
                ink.disc(at, if odd { 0.03 } else { 0.018 }, p.dust_grain);
            });
        }
        Surface::Plate => {
            ink.area(area, p.plate);
            // The raised bars of a tread plate, one way and the other in turn.
            scatter(area, 0.32, |at, odd| {
                let half = Vec2::new(0.07, if odd { 0.07 } else { -0.07 });
                ink.line(at - half, at + half, 0.035, p.plate_mark);
            });
        }
    }
}

/// Short strokes across the edge, pointing outwards.
fn hatched_edge(ink: &mut Ink, area: &[Vec2], colour: Colour) {
    ink.edge(area, 0.05, colour);
    for (a, b) in area.iter().zip(area.iter().cycle().skip(1)) {
        let along = (*b - *a).normalize_or_zero();
        let count = (a.distance(*b) / 0.35).clamp(1.0, 2_000.0) as u32;
        for i in 0..count {
            let at = a.lerp(*b, (i as f32 + 0.5) / count as f32);
            let slant = (along.perp() + along) * 0.09;
            ink.line(at - slant, at + slant, 0.035, colour);
        }
    }
}

/// Calls with the points of a staggered grid that lie well inside an area.
pub(super) fn scatter(area: &[Vec2], spacing: f32, mut put: impl FnMut(Vec2, bool)) {
    let (mut lo, mut hi) = (Vec2::MAX, Vec2::MIN);
    for p in area {
        (lo, hi) = (lo.min(*p), hi.max(*p));
    }
    // A huge patch is filled more sparsely, so that the mesh stays small.
    let most_in_a_row = 80.0;
    let spacing = spacing.max((hi - lo).max_element() / most_in_a_row);
    let (columns, rows) =
        (((hi.x - lo.x) / spacing).max(0.0) as u32, ((hi.y - lo.y) / spacing).max(0.0) as u32);
    for row in 0..=rows {
        for column in 0..=columns {
            let odd = (row + column) % 2 == 1;
            let shift = if row % 2 == 1 { 0.75 } else { 0.25 };
            let at = lo + Vec2::new(column as f32 + shift, row as f32 + 0.5) * spacing;
            if holds(area, at) {
                put(at, odd);
            }
        }
    }
}

/// Whether a point lies inside an outline (even-odd rule).
fn holds(area: &[Vec2], p: Vec2) -> bool {
    area.iter()
        .zip(area.iter().cycle().skip(1))
        .filter(|(a, b)| {
            (a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x
        })
        .count()
        % 2
        == 1
}
