//! How close it came: the measures that traffic engineers take of a near miss (FHWA, Surrogate
//! Safety Assessment Model, FHWA-HRT-08-051, 2008; thresholds of 1.5 s and 5.0 s from memory).
//!
//! Time to collision is the time until two users meet if both keep their speed and their path;
//! there is none when they do not close in. Post-encroachment time is the time from the first one
//! leaving a piece of floor to the second one reaching it.

use crate::course::geometry::{distance_to_polygon, edges, in_polygon};
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
}

/// Measures one tick. The truck's speed is that of its nearest point, so that a tail or a nose that
/// swings out counts with the speed it has.
pub fn nearness(truck: &Outline<'_>, person: &Mover) -> Nearness {
    let nearest = nearest_point(truck.parts, person.at);
    let velocity = truck.velocity + (nearest - truck.pivot).left() * truck.yaw_rate;
    Nearness {
        gap: ((nearest - person.at).length() - person.radius).max(0.0),
        time_to_collision: time_to_outline(truck.parts, velocity, person),
        passing_speed: (velocity - person.velocity).length(),
    }
}

/// Clear distance between an outline and a disc, m; 0 when they touch.
pub fn gap(parts: &[[Vec2; 4]], disc: &Mover) -> f64 {
    let away = parts.iter().map(|p| distance_to_polygon(disc.at, p)).fold(f64::INFINITY, f64::min);
    (away - disc.radius).max(0.0)
}

/// The point of an outline that is nearest to a point; the point itself when it lies inside.
fn nearest_point(parts: &[[Vec2; 4]], p: Vec2) -> Vec2 {
    if parts.iter().any(|part| in_polygon(p, part)) {
        return p;
    }
    let mut best = (f64::INFINITY, p);
    for (a, b) in parts.iter().flat_map(|part| edges(part)) {
        let ab = b - a;
        let share = ((p - a).dot(ab) / ab.dot(ab)).clamp(0.0, 1.0);
        let q = a + ab * share;
        let away = (p - q).length();
        if away < best.0 {
            best = (away, q);
        }
    }
    best.1
}

/// Time until two discs with constant velocities touch, s: 0 when they already do, None when they
/// never will.
pub fn time_to_collision(a: &Mover, b: &Mover) -> Option<f64> {
    time_to_circle(b.at - a.at, b.velocity - a.velocity, a.radius + b.radius)
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
    let v = disc.velocity - velocity;
    // Whoever never comes into the circle round the outline never touches it: most people, most of
    // the time, and this is quick to see.
    let (middle, radius) = circle_round(parts);
    time_to_circle(disc.at - middle, v, radius + disc.radius)?;
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
fn circle_round(parts: &[[Vec2; 4]]) -> (Vec2, f64) {
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

/// Time until a gap along one line closes, s, when the truck changes its speed with a constant
/// acceleration and the other keeps its own: `speed` of the truck towards the other, `braking` what
/// it loses a second (negative when it gets faster), `other` the other's speed away from the truck.
/// A truck that has come to rest stays there; someone may still walk into it.
pub fn time_to_close(gap: f64, speed: f64, braking: f64, other: f64) -> Option<f64> {
    if gap <= 0.0 {
        return Some(0.0);
    }
    let closing = speed - other;
    let rests_at = if braking > 0.0 { speed / braking } else { f64::INFINITY };
    let under_root = closing * closing - 2.0 * braking * gap;
    if under_root >= 0.0 {
        let sum = closing + under_root.sqrt();
        let t = 2.0 * gap / sum;
        if sum > 0.0 && t <= rests_at {
            return Some(t);
        }
    }
    // At rest before that, or it never closes in.
    if !rests_at.is_finite() || other >= 0.0 {
        return None;
    }
    let left = gap + other * rests_at - 0.5 * speed * rests_at;
    Some(rests_at + left.max(0.0) / -other)
}

/// Nothing farther ahead than this is looked at, s.
const HORIZON: f64 = 10.0;
/// A gap this small is contact, m.
const CONTACT: f64 = 1e-4;
/// The least step, s: it bounds the work where two outlines slip past each other.
const LEAST_STEP: f64 = 1e-3;

/// The same in the plane: time until an outline that moves straight on, changes its speed by
/// -`braking` m/s^2 and stays where it comes to rest touches a disc with constant velocity, s.
/// None when that is more than 10 s ahead.
///
/// By steps that are never longer than the gap allows at the highest speed yet to come.
pub fn time_to_outline_braking(
    parts: &[[Vec2; 4]],
    velocity: Vec2,
    braking: f64,
    disc: &Mover,
) -> Option<f64> {
    let (speed, direction) = (velocity.length(), velocity.normalized());
    let rests_at = if braking > 0.0 { speed / braking } else { f64::INFINITY };
    let fastest = |t: f64| {
        let until = if braking < 0.0 { HORIZON } else { t };
        (speed - braking * until.min(rests_at)).max(0.0) + disc.velocity.length()
    };
    let mut t = 0.0;
    while t <= HORIZON {
        let moving = t.min(rests_at);
        let driven = speed * moving - 0.5 * braking * moving * moving;
        let at = disc.at + disc.velocity * t - direction * driven;
        let left = gap(parts, &Mover { at, ..*disc });
        if left <= CONTACT {
            return Some(t);
        }
        let bound = fastest(t);
        if bound <= 0.0 {
            return None;
        }
        t += (left / bound).max(LEAST_STEP);
    }
    None
}

/// How near two discs with constant velocities will come.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Closest {
    /// In this time, s; 0 when they already move apart.
    pub after_s: f64,
    /// Clear distance between them then, m; negative when they overlap.
    pub gap: f64,
}

/// The closest distance that two discs will come to.
pub fn closest(a: &Mover, b: &Mover) -> Closest {
    let (p, v) = (b.at - a.at, b.velocity - a.velocity);
    let v2 = v.dot(v);
    let after_s = if v2 > 0.0 { (-p.dot(v) / v2).max(0.0) } else { 0.0 };
    Closest { after_s, gap: (p + v * after_s).length() - a.radius - b.radius }
}

/// Post-encroachment time, s, from the first user leaving a piece of floor to the second reaching
/// it; negative when both were in it at once.
pub fn post_encroachment(left_at_s: f64, reached_at_s: f64) -> f64 {
    reached_at_s - left_at_s
}

/// Watches one piece of floor where a truck's way and a person's cross.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct SharedFloor {
    truck: Visit,
    person: Visit,
}

#[derive(Clone, Copy, Debug, Default, PartialEq)]
struct Visit {
    inside: bool,
    left_at_s: Option<f64>,
}

impl Visit {
    /// Returns whether it came in with this tick.
    fn tick(&mut self, now_s: f64, inside: bool) -> bool {
        let came = inside && !self.inside;
        if self.inside && !inside {
            self.left_at_s = Some(now_s);
        }
        self.inside = inside;
        came
    }
}

impl SharedFloor {
    /// One tick: the post-encroachment time, s, when one comes in after the other has left, 0 when
    /// the other is still there. Each leaving is measured once.
    pub fn tick(&mut self, now_s: f64, truck_inside: bool, person_inside: bool) -> Option<f64> {
        let truck_came = self.truck.tick(now_s, truck_inside);
        let person_came = self.person.tick(now_s, person_inside);
        if (truck_came || person_came) && truck_inside && person_inside {
            self.truck.left_at_s = None;
            self.person.left_at_s = None;
            return Some(0.0);
        }
        let other = match (truck_came, person_came) {
            (true, _) => &mut self.person,
            (_, true) => &mut self.truck,
            _ => return None,
        };
        other.left_at_s.take().map(|left| post_encroachment(left, now_s))
    }
}

#[cfg(test)]
mod tests;
