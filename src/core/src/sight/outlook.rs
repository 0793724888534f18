//! What is seen from one place, worked out as far as it is asked.
//!
//! Most of what is asked is told for certain by the few opaque sides in that direction. Where it is too
//! close to call so, the whole view is found, and its word counts: an answer never hangs on how it was
//! come by. A yard full of people in view is looked at in a fraction of the time.

use core::ops::ControlFlow;

use crate::geometry::distance_to_polygon;
use crate::math::{Vec2, vec2};
use crate::sight::cover::{Block, Blocks, Cover};
use crate::sight::polygon::{CERTAIN, Field, View, is_farther};
use crate::sight::round::Round;
use crate::sight::sides::{Corner, Gaze, Side, is_beyond, key};
use crate::sight::sweep::{Buffers, Sweep};

/// What is nearer to the edge of what is seen than this, m, is too close to call.
const CLOSE: f64 = 1e-6;

/// A disc nearer than so many times its radius is left to the whole view: it takes up much of it.
const NEAR: f64 = 2.0;

/// An eye, which way it looks, and what is opaque round it.
#[derive(Clone, Debug, Default)]
pub struct Outlook {
    /// What never moves.
    pub fixed: Blocks,
    moving: Vec<[Vec2; 4]>,
    gaze: Gaze,
    field: Field,
    /// Key of the field's left edge.
    reach: f64,
    floor: (Vec2, Vec2),
    /// What stands in which direction.
    round: Round,
    /// Of one disc: what may hide some of it.
    before: Vec<Side>,
    /// What is seen, when it was asked for.
    view: View,
    is_whole: bool,
    cover: Cover,
    uncovered: Vec<Side>,
    room: Buffers,
}

impl Outlook {
    /// Among what never moves.
    pub fn new(fixed: Blocks) -> Self {
        Self { fixed, ..Self::default() }
    }

    /// Looks from here. The floor is given by its south-west and north-east corners; what is opaque and
    /// moves, by convex outlines.
    pub fn look(&mut self, eye: Vec2, field: &Field, floor: (Vec2, Vec2), moving: &[[Vec2; 4]]) {
        let gaze = Gaze { eye, look: field.look };
        (self.gaze, self.field, self.floor, self.is_whole) = (gaze, *field, floor, false);
        self.reach = key(field.half);
        self.moving.clear();
        self.moving.extend_from_slice(moving);
        self.round.look((gaze, field.half), floor, self.fixed.iter());
        for outline in moving {
            self.round.take(&Block::new(*outline), field.half);
        }
    }

    /// The whole view.
    pub fn view(&mut self) -> &View {
        if !self.is_whole {
            self.is_whole = true;
            let (eye, field, out) = (self.gaze.eye, &self.field, &mut self.uncovered);
            self.cover.look((eye, field), &mut self.fixed, &self.moving, out);
            let sides = self.uncovered.iter().copied();
            self.view.look_from(eye, field, self.floor, sides, &mut self.room);
        }
        &self.view
    }

    /// The same for one who may change nothing.
    pub fn whole(&self) -> View {
        let mut mine = self.clone();
        mine.view();
        mine.view
    }

    /// Whether a point lies within an angle of where the rider looks, by the angle's cosine.
    pub fn is_before_the_eyes(&self, p: Vec2, cosine: f64) -> bool {
        let d = self.gaze.to_look(p);
        d.x >= cosine * d.length()
    }

    /// Whether a point is seen. The nearest surface itself counts as seen.
    pub fn holds(&mut self, p: Vec2) -> bool {
        self.tell_point(p).unwrap_or_else(|| self.view().holds(p))
    }

    /// The same without the whole view; None where it is too close to call.
    pub(super) fn tell_point(&mut self, p: Vec2) -> Option<bool> {
        let d = self.gaze.to_look(p);
        if is_beyond(self.field.half, d, 0.0) {
            return Some(false);
        }
        let (from, to) = (key(d) - CERTAIN, key(d) + CERTAIN);
        if from <= -self.reach || to >= self.reach {
            return None;
        }
        let told = self.round.each_between((from, to), d.length() + CLOSE, |side| {
            match depth(side, d, CLOSE) {
                Depth::Before => ControlFlow::Continue(()),
                Depth::Behind if side.reaches_over(from, to) => ControlFlow::Break(Some(false)),
                _ => ControlFlow::Break(None),
            }
        });
        told.unwrap_or(Some(true))
    }

    /// Whether a clear line leads to any part of a disc: what is seen of it first is its outline.
    pub fn reaches_disc(&mut self, middle: Vec2, radius: f64) -> bool {
        let told = self.tell_disc(middle, radius);
        told.unwrap_or_else(|| self.view().reaches_disc(middle, radius))
    }

    /// The same without the whole view; None where it is too close to call.
    pub(super) fn tell_disc(&mut self, middle: Vec2, radius: f64) -> Option<bool> {
        let d = self.gaze.to_look(middle);
        let (away, wide) = (d.length(), radius + CLOSE);
        if is_beyond(self.field.half, d, radius) {
            return Some(false);
        }
        if away <= NEAR * radius {
            return None;
        }
        // Directions of both tangents, without an angle: turned by asin(wide / away).
        let (s, c) = (wide / away, (1.0 - wide * wide / (away * away)).sqrt());
        let right = Corner::new(vec2(c * d.x + s * d.y, c * d.y - s * d.x));
        let left = Corner::new(vec2(c * d.x - s * d.y, c * d.y + s * d.x));
        let (from, to) = (right.key.max(-self.reach), left.key.min(self.reach));
        if right.key > left.key || from >= to {
            return None;
        }
        let before = &mut self.before;
        before.clear();
        let hidden = self.round.each_between((from, to), away + wide, |side| {
            match depth(side, d, wide) {
                Depth::Before => {}
                Depth::Behind if side.reaches_over(from, to) => return ControlFlow::Break(()),
                _ => before.push(*side),
            }
            ControlFlow::Continue(())
        });
        if hidden.is_some() {
            return Some(false);
        }
        let is_inside = right.key > -self.reach && left.key < self.reach;
        if self.before.is_empty() && is_inside {
            return Some(true);
        }
        let nearest = self.nearest_seen(d, right, left);
        ((nearest - radius).abs() > CLOSE).then_some(nearest < radius)
    }

    /// How near to a point anything is that is seen between two directions, m, among what may hide it.
    fn nearest_seen(&mut self, d: Vec2, right: Corner, left: Corner) -> f64 {
        let half = self.field.half;
        let right = if right.key > -self.reach {
            right
        } else {
            Corner { at: vec2(half.x, -half.y), key: -self.reach }
        };
        let left = if left.key < self.reach { left } else { Corner { at: half, key: self.reach } };
        // Something far behind it bounds the view where nothing else does.
        let far = |c: Corner| Corner { at: c.at.normalized() * (3.0 * d.length()), ..c };
        let behind = Side::new(far(right), far(left));
        let mut sweep = Sweep::between(right, left, core::mem::take(&mut self.room));
        let sides = behind.iter().chain(&self.before);
        sides.enumerate().for_each(|(id, side)| sweep.add(id, side));
        self.room = sweep.trace();
        let pairs = self.room.points.windows(2);
        let triangles = pairs.map(|pair| [Vec2::default(), pair[0], pair[1]]);
        triangles.map(|t| distance_to_polygon(d, &t)).fold(f64::INFINITY, f64::min)
    }

    /// Whether everything between these points is seen for certain: their convex hull. False when one
    /// of them is not, or when it cannot be told so quickly.
    pub fn holds_hull(&mut self, points: impl Iterator<Item = Vec2> + Clone) -> bool {
        let points = points.map(|p| self.gaze.to_look(p));
        let (mut from, mut to, mut farthest) = (f64::INFINITY, f64::NEG_INFINITY, 0.0_f64);
        for p in points.clone() {
            let k = key(p);
            (from, to, farthest) = (from.min(k), to.max(k), farthest.max(p.dot(p)));
        }
        let (from, to) = (from - CERTAIN, to + CERTAIN);
        // What reaches round the eye or across the ray backwards is not one range of directions.
        if to - from > 1.0 || from <= -self.reach || to >= self.reach {
            return false;
        }
        let within = farthest.sqrt() + CLOSE;
        let before = self.round.each_between((from, to), within, |side| {
            let (a, b) = (side.from.at, side.to.at);
            let is_behind = is_farther(a, b, farthest)
                || points.clone().all(|p| (b - a).cross(p - a) > CERTAIN);
            if is_behind { ControlFlow::Continue(()) } else { ControlFlow::Break(()) }
        });
        before.is_none()
    }
}

/// Where something lies, seen over a side.
enum Depth {
    /// All of it is nearer than the side's line.
    Before,
    /// Some of it is nearly on it, or on both sides.
    On,
    /// All of it lies behind.
    Behind,
}

fn depth(side: &Side, middle: Vec2, radius: f64) -> Depth {
    let along = side.to.at - side.from.at;
    let depth = along.cross(middle - side.from.at);
    if depth * depth <= radius * radius * along.dot(along) {
        Depth::On
    } else if depth > 0.0 {
        Depth::Before
    } else {
        Depth::Behind
    }
}
