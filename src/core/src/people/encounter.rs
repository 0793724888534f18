//! How close it came: the measures that traffic engineers take of a near miss (FHWA, Surrogate
//! Safety Assessment Model, FHWA-HRT-08-051, 2008; thresholds of 1.5 s and 5.0 s from memory).
//!
//! Time to collision is the time until two users meet if both keep their speed and their path;
//! there is none when they do not close in.

use crate::geometry::{distance_to_polygon, edges, in_polygon};
use crate::math::Vec2;

/// Someone or something round that moves, yard frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mover {
    /// Middle, m.
    pub at: Vec2,
    /// m/s.
    pub velocity: Vec2,
    /// Radius, m.
    pub radius: f64,
}

/// A truck with its load as seen from above, yard frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Outline<'a> {
    /// Convex parts, m.
    pub parts: &'a [[Vec2; 4]],
    /// A point of the truck whose velocity is known, m.
    pub pivot: Vec2,
    /// Its velocity, m/s.
    pub velocity: Vec2,
    /// Yaw rate, rad/s, counter-clockwise.
    pub yaw_rate: f64,
}

/// How near a person is to a truck in one tick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearness {
    /// Clear distance between the two outlines, m; 0 when they touch.
    pub gap: f64,
    /// Time to collision, s; None when they do not close in.
    pub time_to_collision: Option<f64>,
    /// Speed of the truck's nearest point relative to the person, m/s.
    pub passing_speed: f64,
    /// Speed of the truck's nearest point over the floor, m/s.
    pub place_speed: f64,
}

/// What is farther by this much, m, is so whatever the rounding.
const NEARLY: f64 = 1e-6;

/// Measures one tick. The truck's speed is that of its nearest point, so that a tail or a nose that
/// swings out counts with the speed it has.
pub fn nearness(truck: &Outline<'_>, person: &Mover) -> Nearness {
    let mut sides = Sides::default();
    sides.see(truck.parts);
    nearness_by(truck, &sides, person)
}

/// The same for everybody round a truck; `sides` is room for what all of them are measured from.
pub fn nearness_of_all(
    truck: &Outline<'_>,
    people: impl Iterator<Item = Mover>,
    sides: &mut Sides,
) -> impl Iterator<Item = Nearness> {
    sides.see(truck.parts);
    people.map(move |person| nearness_by(truck, sides, &person))
}

/// The sides of an outline, with what is the same for everybody who is measured from it.
#[derive(Clone, Debug, Default)]
pub struct Sides {
    circle: (Vec2, f64),
    parts: Vec<Part>,
}

/// A convex part of an outline, with a circle round it.
#[derive(Clone, Copy, Debug, Default)]
struct Part {
    circle: (Vec2, f64),
    sides: [Side; 4],
}

#[derive(Clone, Copy, Debug, Default)]
struct Side {
    from: Vec2,
    along: Vec2,
    squared_length: f64,
}

impl Sides {
    fn see(&mut self, parts: &[[Vec2; 4]]) {
        self.circle = circle_round(parts);
        self.parts.clear();
        self.parts.extend(parts.iter().map(|part| {
            let side = |i: usize| {
                let (from, along) = (part[i], part[(i + 1) % 4] - part[i]);
                Side { from, along, squared_length: along.dot(along) }
            };
            let circle = circle_round(core::slice::from_ref(part));
            Part { circle, sides: core::array::from_fn(side) }
        }));
    }
}

fn nearness_by(truck: &Outline<'_>, sides: &Sides, person: &Mover) -> Nearness {
    let nearest = nearest_point(truck.parts, sides, person.at);
    let velocity = truck.velocity + (nearest - truck.pivot).left() * truck.yaw_rate;
    Nearness {
        gap: ((nearest - person.at).length() - person.radius).max(0.0),
        time_to_collision: time_by(truck.parts, &sides.circle, velocity, person),
        passing_speed: (velocity - person.velocity).length(),
        place_speed: velocity.length(),
    }
}

/// Clear distance between an outline and a disc, m; 0 when they touch.
pub fn gap(parts: &[[Vec2; 4]], disc: &Mover) -> f64 {
    let away = parts.iter().map(|p| distance_to_polygon(disc.at, p)).fold(f64::INFINITY, f64::min);
    (away - disc.radius).max(0.0)
}

/// The point of an outline that is nearest to a point; the point itself when it lies inside.
fn nearest_point(parts: &[[Vec2; 4]], sides: &Sides, p: Vec2) -> Vec2 {
    let (middle, radius) = sides.circle;
    // Outside the circle it lies inside no part.
    let from_middle = p - middle;
    let may_be_inside = from_middle.dot(from_middle) <= radius * radius;
    if may_be_inside && parts.iter().any(|part| in_polygon(p, part)) {
        return p;
    }
    let (mut best, mut squared, mut nearest) = (f64::INFINITY, f64::INFINITY, p);
    let may_be_nearer = |part: &Part, best: f64| {
        let ((middle, radius), reach) = (part.circle, best + NEARLY);
        (p - middle).dot(p - middle) < (reach + radius) * (reach + radius)
    };
    for part in &sides.parts {
        if !may_be_nearer(part, best) {
            continue;
        }
        for side in &part.sides {
            let share = ((p - side.from).dot(side.along) / side.squared_length).clamp(0.0, 1.0);
            let q = side.from + side.along * share;
            let away = (p - q).dot(p - q);
            // A root is never less where its square is more.
            if away < squared {
                let root = away.sqrt();
                if root < best {
                    (best, squared, nearest) = (root, away, q);
                }
            }
        }
    }
    nearest
}

/// Time until a point at `p` with velocity `v` enters a circle about the origin.
fn time_to_circle(p: Vec2, v: Vec2, radius: f64) -> Option<f64> {
    let outside = p.dot(p) - radius * radius;
    if outside <= 0.0 {
        return Some(0.0);
    }
    let closing = -p.dot(v);
    let under_root = closing * closing - v.dot(v) * outside;
    // In this form the root is subtracted from nothing, so nothing cancels.
    (closing > 0.0 && under_root >= 0.0).then(|| outside / (closing + under_root.sqrt()))
}

/// Time until an outline that moves with a constant velocity and does not turn touches a disc, s.
pub fn time_to_outline(parts: &[[Vec2; 4]], velocity: Vec2, disc: &Mover) -> Option<f64> {
    time_by(parts, &circle_round(parts), velocity, disc)
}

/// `circle` is [`circle_round`] the parts.
fn time_by(
    parts: &[[Vec2; 4]],
    (middle, radius): &(Vec2, f64),
    velocity: Vec2,
    disc: &Mover,
) -> Option<f64> {
    let v = disc.velocity - velocity;
    // Whoever never comes into the circle round the outline never touches it: most people, most of
    // the time, and this is quick to see.
    time_to_circle(disc.at - *middle, v, radius + disc.radius)?;
    if gap(parts, disc) <= 0.0 {
        return Some(0.0);
    }
    parts
        .iter()
        .flat_map(|part| edges(part))
        .filter_map(|(a, b)| {
            let corner = time_to_circle(disc.at - a, v, disc.radius);
            let side = time_to_side(disc.at, v, disc.radius, a, b);
            [corner, side].into_iter().flatten().min_by(f64::total_cmp)
        })
        .min_by(f64::total_cmp)
}

/// A circle that holds an outline, hardly larger than it must be: middle and radius, m.
pub fn circle_round(parts: &[[Vec2; 4]]) -> (Vec2, f64) {
    let corners = || parts.iter().flatten();
    let sum = corners().fold(Vec2::default(), |sum, c| sum + *c);
    let middle = sum * (1.0 / (4 * parts.len()).max(1) as f64);
    let squared = |c: &Vec2| (*c - middle).dot(*c - middle);
    let radius = corners().map(squared).fold(0.0, f64::max).sqrt();
    // Rounding must not leave a corner outside.
    (middle, radius * (1.0 + 1e-9))
}

/// Time until a disc's middle is a radius away from the inner part of a segment.
fn time_to_side(p: Vec2, v: Vec2, radius: f64, a: Vec2, b: Vec2) -> Option<f64> {
    let along = (b - a).normalized();
    let away = along.cross(p - a);
    // From whichever side it comes.
    let (away, closing) =
        if away >= 0.0 { (away, -along.cross(v)) } else { (-away, along.cross(v)) };
    if closing <= 0.0 || away < radius {
        return None;
    }
    let t = (away - radius) / closing;
    let foot = along.dot(p + v * t - a);
    (0.0..=(b - a).length()).contains(&foot).then_some(t)
}

#[cfg(test)]
mod tests;
