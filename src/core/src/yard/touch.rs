//! What the truck and its load touch, by geometry alone: a gap of nothing. The engine pushes things
//! apart on its own account, and begins to reckon with them before they meet: at a gap of some
//! millimetres it reports a contact where there is none.

use crate::geometry::{distance_to_polygon, edges, in_polygon};
use crate::math::Vec2;
use crate::truck::wheels::Twist;

/// A gap of so much is none, m: the engine reckons in single precision, so a place 100 m out is
/// known to 8 micrometres, and what it holds apart rests at nothing give or take some of those.
pub const TOUCHES: f64 = 1e-4;

/// Less deep than this, m, two corners may graze each other: a part is pressed into what it slides along.
const GRAZES: f64 = 5e-3;

/// Corners this near to the place of contact belong to it, m: of two that meet a wall together
/// either may be a hair nearer.
const AT_ONCE: f64 = 2e-3;

/// A thing on the floor that can be touched.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Thing<'a> {
    /// Something round: its middle and its radius, m.
    Disc(Vec2, f64),
    /// A convex outline with its corners counter-clockwise, m.
    Block(&'a [Vec2; 4]),
}

/// How the truck comes on, before anything pushed back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coming {
    /// Its centre of mass, yard frame, m.
    pub com: Vec2,
    /// Velocity there, yard frame, m/s, and yaw rate, rad/s.
    pub twist: Twist,
}

impl Coming {
    /// So many seconds later, if nothing is in the way.
    pub fn after(self, seconds: f64) -> Self {
        Self { com: self.com + self.twist.velocity * seconds, ..self }
    }

    fn speed_into(&self, at: Vec2, into: Vec2) -> f64 {
        self.twist.at(at, self.com).dot(into)
    }
}

/// A touch.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Touch {
    /// Speed with which the truck moves into the thing, m/s; 0 when it only rests there.
    pub closing: f64,
    /// Unit vector from the truck into the thing.
    pub into: Vec2,
    /// The speed were it only grazed, m/s, where it is met by a few millimetres; else the same.
    pub grazing: f64,
    /// Where it is met, yard frame, m.
    pub at: Vec2,
    /// How far the two lay in each other already before this, m: what fell under a truck.
    pub depth: f64,
}

/// Whether a convex part of the truck, corners counter-clockwise, touches a thing, and how; `before` is
/// where the part was a moment ago.
pub fn touch(
    before: &[Vec2; 4],
    part: &[Vec2; 4],
    thing: Thing<'_>,
    coming: &Coming,
) -> Option<Touch> {
    match thing {
        Thing::Disc(middle, radius) => touch_disc(part, middle, radius, coming),
        Thing::Block(block) => touch_block(before, part, block, coming),
    }
}

fn touch_disc(part: &[Vec2; 4], middle: Vec2, radius: f64, coming: &Coming) -> Option<Touch> {
    let nearest = edges(part)
        .map(|(a, b)| {
            let ab = b - a;
            let share = ((middle - a).dot(ab) / ab.dot(ab)).clamp(0.0, 1.0);
            a + ab * share
        })
        .min_by(|p, q| (*p - middle).length().total_cmp(&(*q - middle).length()))?;
    let away = middle - nearest;
    let inside = in_polygon(middle, part);
    if !inside && away.length() > radius + TOUCHES {
        return None;
    }
    // Its middle may be under the truck already, or on the very edge.
    let out = if inside { -away } else { away };
    let into =
        if out.length() > 0.0 { out.normalized() } else { coming.twist.velocity.normalized() };
    let closing = coming.speed_into(nearest, into).max(0.0);
    Some(Touch { closing, into, grazing: closing, at: nearest, depth: 0.0 })
}

fn touch_block(
    before: &[Vec2; 4],
    part: &[Vec2; 4],
    block: &[Vec2; 4],
    coming: &Coming,
) -> Option<Touch> {
    let now = gaps(part, block);
    // The direction in which they are farthest apart, or least far inside each other.
    let (gap, least) = now.iter().copied().max_by(|a, b| a.0.total_cmp(&b.0))?;
    if gap > TOUCHES {
        return None;
    }
    // They met along the direction along which they came together last: of two corners that meet, the
    // one lies less deep in the other sideways, however straight it came.
    let was = gaps(before, block);
    let met = was.iter().zip(&now).filter(|(was, _)| was.0 > TOUCHES);
    let share = |was: f64, now: f64| (was - TOUCHES) / (was - now);
    let last = met.max_by(|(a, b), (c, d)| share(a.0, b.0).total_cmp(&share(c.0, d.0)));
    let into = last.map_or(least, |(_, (_, into))| *into);
    let depth = if last.is_none() { (-gap).max(0.0) } else { 0.0 };
    let (closing, at) = fastest(part, block, coming, into)?;
    let shallow = now.iter().filter(|(gap, _)| *gap > -GRAZES);
    let along = shallow.filter_map(|(_, into)| Some(fastest(part, block, coming, *into)?.0));
    let grazing = along.fold(closing, f64::min);
    Some(Touch { closing, into, grazing, at, depth })
}

/// The corner that moves fastest into the other outline, with its speed, m/s, not below 0, and its place.
fn fastest(
    part: &[Vec2; 4],
    block: &[Vec2; 4],
    coming: &Coming,
    into: Vec2,
) -> Option<(f64, Vec2)> {
    let speed = |p: &Vec2| coming.speed_into(*p, into);
    let faster = |p: &&Vec2, q: &&Vec2| speed(p).total_cmp(&speed(q));
    let near = |points: &[Vec2; 4], other: &[Vec2; 4]| {
        let met = points.iter().filter(|p| distance_to_polygon(**p, other) <= AT_ONCE);
        met.max_by(faster).copied()
    };
    let corners = [near(part, block), near(block, part)];
    let met = corners.iter().flatten().max_by(faster).copied();
    // They may lie across each other, no corner of one within the other.
    let foremost = || part.iter().max_by(|p, q| p.dot(into).total_cmp(&q.dot(into))).copied();
    let at = met.or_else(foremost)?;
    Some((speed(&at).max(0.0), at))
}

/// The gaps between a part and a block along the outward normals of the edges of both, m, negative when
/// they lie inside each other along one, with the unit vector from the part into the block.
fn gaps(part: &[Vec2; 4], block: &[Vec2; 4]) -> [(f64, Vec2); 8] {
    let (own, its) = (along_edges(part, block), along_edges(block, part));
    core::array::from_fn(|i| match i {
        0..4 => own[i],
        _ => (its[i - 4].0, -its[i - 4].1),
    })
}

/// The gap between two outlines along the outward normal of each of the first one's edges, m, and that
/// normal.
fn along_edges(from: &[Vec2; 4], to: &[Vec2; 4]) -> [(f64, Vec2); 4] {
    core::array::from_fn(|i| {
        let (a, b) = (from[i], from[(i + 1) % 4]);
        let out = -(b - a).left().normalized();
        (to.iter().map(|p| (*p - a).dot(out)).fold(f64::INFINITY, f64::min), out)
    })
}

/// What holds a thing, for telling quickly that two are far apart, m.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Extent {
    low: Vec2,
    high: Vec2,
}

impl Extent {
    /// Of these points.
    pub fn of<'a>(points: impl Iterator<Item = &'a Vec2>) -> Self {
        let none = Vec2 { x: f64::INFINITY, y: f64::INFINITY };
        points.fold(Self { low: none, high: -none }, |e, p| Self {
            low: Vec2 { x: e.low.x.min(p.x), y: e.low.y.min(p.y) },
            high: Vec2 { x: e.high.x.max(p.x), y: e.high.y.max(p.y) },
        })
    }

    /// Of a disc.
    pub fn of_disc(middle: Vec2, radius: f64) -> Self {
        let r = Vec2 { x: radius, y: radius };
        Self { low: middle - r, high: middle + r }
    }

    /// With so much more on every side, m.
    #[must_use]
    pub fn wider(self, by: f64) -> Self {
        let all = Vec2 { x: by, y: by };
        Self { low: self.low - all, high: self.high + all }
    }

    /// Whether the two may touch.
    pub fn meets(&self, o: &Self) -> bool {
        self.low.x <= o.high.x + TOUCHES
            && o.low.x <= self.high.x + TOUCHES
            && self.low.y <= o.high.y + TOUCHES
            && o.low.y <= self.high.y + TOUCHES
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::rectangle;
    use crate::math::{Pose, vec2};

    /// A truck's part of 2 m by 1 m, its front at x = 1, driving east at 2 m/s and turning left.
    const PART: [Vec2; 4] = [vec2(-1.0, -0.5), vec2(1.0, -0.5), vec2(1.0, 0.5), vec2(-1.0, 0.5)];

    fn coming(yaw_rate: f64) -> Coming {
        Coming { com: vec2(0.0, 0.0), twist: Twist { velocity: vec2(2.0, 0.0), yaw_rate } }
    }

    /// It stood there a moment ago as well.
    fn met(thing: Thing<'_>, coming: &Coming) -> Option<Touch> {
        touch(&PART, &PART, thing, coming)
    }

    fn wall(gap: f64) -> [Vec2; 4] {
        rectangle(Pose { at: vec2(1.5 + gap, 3.0), heading: 0.0 }, vec2(1.0, 20.0))
    }

    fn corner(gap: f64) -> [Vec2; 4] {
        let turned = core::f64::consts::FRAC_PI_4;
        let half_diagonal = 0.5 * 2.0_f64.sqrt();
        let at = vec2(1.0 + gap + half_diagonal, 0.2);
        rectangle(Pose { at, heading: turned }, vec2(1.0, 1.0))
    }

    #[test]
    fn a_millimetre_of_room_is_no_touch() {
        for gap in [0.001, 0.002, 0.005, 0.02] {
            assert_eq!(met(Thing::Block(&wall(gap)), &coming(0.0)), None, "{gap}");
            assert_eq!(met(Thing::Block(&corner(gap)), &coming(0.0)), None, "{gap}");
            let disc = Thing::Disc(vec2(1.2 + gap, 0.1), 0.2);
            assert_eq!(met(disc, &coming(0.0)), None, "{gap}");
            let past_a_corner = 0.2_f64 * 0.5_f64.sqrt();
            let beside = vec2(1.0 + past_a_corner, 0.5 + past_a_corner + 2.0 * gap);
            assert_eq!(met(Thing::Disc(beside, 0.2), &coming(0.0)), None, "{gap}");
        }
    }

    #[test]
    fn at_nothing_and_within_it_touches_with_the_speed_into_it() {
        for gap in [0.0, -0.002, -0.05] {
            for thing in [Thing::Block(&wall(gap)), Thing::Block(&corner(gap))] {
                let t = met(thing, &coming(0.0)).expect("touches");
                assert!((t.closing - 2.0).abs() < 1e-9, "{gap}: {t:?}");
                assert!((t.into - vec2(1.0, 0.0)).length() < 1e-9);
            }
            let disc = Thing::Disc(vec2(1.2 + gap, 0.1), 0.2);
            let t = met(disc, &coming(0.0)).expect("touches");
            assert!((t.closing - 2.0).abs() < 1e-9 && t.into.x > 0.999, "{gap}: {t:?}");
        }
    }

    #[test]
    fn of_two_corners_at_a_wall_the_faster_counts_and_sliding_along_it_does_not() {
        let t = met(Thing::Block(&wall(0.0)), &coming(0.4)).expect("touches");
        assert!((t.closing - 2.2).abs() < 1e-9, "the right corner swings into it: {t:?}");
        let beside = rectangle(Pose { at: vec2(0.0, 1.0), heading: 0.0 }, vec2(9.0, 1.0));
        let t = met(Thing::Block(&beside), &coming(0.0)).expect("touches");
        assert_eq!(t.closing, 0.0);
        assert!(t.into.y > 0.999);
    }

    #[test]
    fn a_disc_under_the_truck_is_pushed_out_by_the_nearest_edge() {
        let t = met(Thing::Disc(vec2(0.95, 0.0), 0.2), &coming(0.0)).expect("touches");
        assert!((t.into - vec2(1.0, 0.0)).length() < 1e-9 && t.closing == 2.0, "{t:?}");
    }

    #[test]
    fn what_lies_across_touches_too() {
        let across = rectangle(Pose { at: vec2(0.9, 0.0), heading: 0.0 }, vec2(0.4, 9.0));
        let t = met(Thing::Block(&across), &coming(0.0)).expect("touches");
        assert!((t.closing - 2.0).abs() < 1e-9 && t.into.x > 0.999, "{t:?}");
    }

    /// Corner to corner: 8 mm into it, and 3 mm beside.
    #[test]
    fn a_corner_that_comes_straight_on_meets_head_on_however_little_of_it_is_met() {
        let back = PART.map(|p| p - vec2(0.01, 0.0));
        let size = vec2(1.0, 1.0);
        let block = rectangle(Pose { at: vec2(1.492, 0.997), heading: 0.0 }, size);
        let t = touch(&back, &PART, Thing::Block(&block), &coming(0.0)).expect("touches");
        assert!((t.closing - 2.0).abs() < 1e-9 && t.into.x > 0.999 && t.depth == 0.0, "{t:?}");
        assert!(t.grazing < 1e-9, "by a few millimetres it may graze: {t:?}");
        let more = rectangle(Pose { at: vec2(1.492, 0.994), heading: 0.0 }, size);
        let t = touch(&back, &PART, Thing::Block(&more), &coming(0.0)).expect("touches");
        assert_eq!(t.grazing, t.closing);
        let hair = rectangle(Pose { at: vec2(1.492, 0.9995), heading: 0.0 }, size);
        let t = touch(&back, &PART, Thing::Block(&hair), &coming(0.0)).expect("touches");
        assert!(t.grazing < 1e-9 && t.closing > 1.9, "{t:?}");
        assert!((t.at - vec2(1.0, 0.5)).length() < 0.01, "{t:?}");
        // From the side it slides along.
        let beside = PART.map(|p| p - vec2(0.01, 0.004));
        let slides = Coming {
            com: vec2(0.0, 0.0),
            twist: Twist { velocity: vec2(0.0, 0.4), yaw_rate: 0.0 },
        };
        let wide = rectangle(Pose { at: vec2(0.9, 0.997), heading: 0.0 }, size);
        let t = touch(&beside, &PART, Thing::Block(&wide), &slides).expect("touches");
        assert!((t.closing - 0.4).abs() < 1e-9 && t.into.y > 0.999, "{t:?}");
    }

    #[test]
    fn what_lay_under_it_before_lies_as_deep_as_it_does() {
        let under = rectangle(Pose { at: vec2(0.9, 0.0), heading: 0.0 }, vec2(0.4, 0.3));
        let t = met(Thing::Block(&under), &coming(0.0)).expect("touches");
        assert!((t.depth - 0.3).abs() < 1e-9, "{t:?}");
        assert_eq!(met(Thing::Block(&wall(0.0)), &coming(0.0)).expect("touches").depth, 0.0);
    }

    #[test]
    fn extents_tell_what_is_far_apart() {
        let truck = Extent::of(PART.iter());
        assert!(truck.meets(&Extent::of(wall(0.0).iter())));
        assert!(!truck.meets(&Extent::of(wall(0.001).iter())));
        assert!(truck.meets(&Extent::of_disc(vec2(1.2, 0.0), 0.2)));
        assert!(!truck.meets(&Extent::of_disc(vec2(1.2, 0.0), 0.199)));
    }
}
