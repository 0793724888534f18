//! Where the rider's head is turned, who has come into sight, and how far the way ahead is clear.

use core::f64::consts::{FRAC_PI_2, PI};

use crate::controls::{Look, Side};
use crate::math::{Vec2, vec2};
use crate::sight::outlook::Outlook;
use crate::sight::polygon::{Field, HALF_FIELD, View};
use crate::state;
use crate::time::Tick;

/// Ticks that a turn of the head takes: 0.25 s (typical of people, from memory, no source).
pub const GLANCE_TICKS: u32 = 16;

/// The rider's head. It turns about the truck's own axis by way of straight ahead, as necks do, and
/// each glance takes the same time however far it goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Head {
    /// Where it points, radians from the truck's +x axis, left positive, -pi to pi.
    pub angle: f64,
    asked: Look,
    from: f64,
    to: f64,
    left: u32,
}

impl Default for Head {
    fn default() -> Self {
        Self { angle: 0.0, asked: Look::Ahead, from: 0.0, to: 0.0, left: 0 }
    }
}

impl Head {
    /// One tick. To look behind from straight ahead the rider turns over the shoulder on the side
    /// that he or she stands on, which is free of the truck.
    pub fn tick(&mut self, asked: Look, stance: Side) {
        if asked != self.asked {
            self.asked = asked;
            self.from = self.angle;
            self.left = GLANCE_TICKS;
            let over_left = if self.angle == 0.0 { stance == Side::Left } else { self.angle > 0.0 };
            self.to = match asked {
                Look::Ahead => 0.0,
                Look::Left => FRAC_PI_2,
                Look::Right => -FRAC_PI_2,
                Look::Behind if over_left => PI,
                Look::Behind => -PI,
            };
        }
        self.left = self.left.saturating_sub(1);
        let share = f64::from(self.left) / f64::from(GLANCE_TICKS);
        self.angle = self.to + (self.from - self.to) * share;
    }

    /// The head is still turning.
    pub fn turning(&self) -> bool {
        self.left > 0
    }

    /// The field of view of a rider on a truck with this heading, radians in the yard frame.
    pub fn field(&self, heading: f64) -> Field {
        Field { look: Vec2::from_angle(heading + self.angle), half: HALF_FIELD }
    }
}

/// Someone or something round, seen from above, yard frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Disc {
    /// Middle, m.
    pub at: Vec2,
    /// Radius, m.
    pub radius: f64,
}

/// What the rider has seen of one person.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Sighting {
    /// First tick of the present time in sight; None while hidden.
    pub since: Option<Tick>,
    /// First tick in sight of the whole drive.
    pub first: Option<Tick>,
}

impl Sighting {
    /// One tick: whether they are in sight.
    pub fn tick(&mut self, in_sight: bool, now: Tick) {
        if in_sight {
            self.since = self.since.or(Some(now));
            self.first = self.first.or(Some(now));
        } else {
            self.since = None;
        }
    }
}

/// How people are noticed: those that stand only near the middle of the view, farther aside only who
/// moves, and later (the useful field of view and what is left of it outside: K. Ball and C. Owsley,
/// and its critique by B. Wolfe and others, Applied Ergonomics 65, 2017; both from memory).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Noticing {
    /// Cosine of the angle to the look within which one who stands is noticed at once.
    pub cosine: f64,
    /// Farther aside, who moves faster than this, m/s,
    pub moving: f64,
    /// after so many ticks in the view.
    pub after: u32,
}

/// How finely a way is looked along, m. A shadow narrower than this on the way is passed over:
/// nobody stands in it unseen.
const STRIDE: f64 = 0.1;

/// And how exactly the end of the clear part is found, m.
const FINE: f64 = 1e-3;

/// A straight part of a way with the room that the truck needs on either side.
#[derive(Clone, Copy, Debug)]
pub struct Leg {
    from: Vec2,
    /// Unit vector.
    direction: Vec2,
    length: f64,
    /// From the middle to the left edge, m.
    side: Vec2,
}

impl Leg {
    /// From one point to another, m; `half_width` is half of what the truck needs. None between points
    /// that are the same.
    pub fn new(from: Vec2, to: Vec2, half_width: f64) -> Option<Self> {
        let along = to - from;
        let length = along.length();
        if length == 0.0 {
            return None;
        }
        let direction = along * (1.0 / length);
        Some(Self { from, direction, length, side: direction.left() * half_width })
    }

    fn corners(&self) -> [Vec2; 4] {
        let to = self.from + self.direction * self.length;
        [self.from - self.side, to - self.side, to + self.side, self.from + self.side]
    }
}

/// How far ahead a way is seen to be clear, m: to the first place along it where its middle or
/// either edge is not seen, or where a disc that is seen reaches into it. `way` starts at the
/// truck's leading end; `half_width` is that of its legs. The way's own length when all of it is
/// clear.
pub fn clear_distance(view: &View, way: &[Leg], half_width: f64, seen: &[Disc]) -> f64 {
    // Many ways are seen leg by leg; only where the view ends it is looked point by point.
    clear_of(way, half_width, seen, |leg| {
        let Leg { from, direction, length, side } = *leg;
        let clear = |s: f64| {
            let p = from + direction * s;
            view.holds(p) && view.holds(p + side) && view.holds(p - side)
        };
        let is_clear = view.holds_hull(leg.corners().into_iter());
        if is_clear { None } else { first_unseen(length, clear) }
    })
}

/// The same of what can be seen at once to be in view as a whole, as most ways are.
pub fn clear_distance_at_once(
    outlook: &mut Outlook,
    way: &[Leg],
    half_width: f64,
    seen: &[Disc],
) -> Option<f64> {
    let all = outlook.holds_hull(way.iter().flat_map(Leg::corners));
    all.then(|| clear_of(way, half_width, seen, |_| None))
}

/// How far a way is clear, m, where each leg says how far it is seen if not to its end.
fn clear_of(
    way: &[Leg],
    half_width: f64,
    seen: &[Disc],
    seen_to: impl Fn(&Leg) -> Option<f64>,
) -> f64 {
    let mut before = 0.0;
    for leg in way {
        let Leg { from, direction, length, .. } = *leg;
        let seen_to = seen_to(leg);
        let taken = seen
            .iter()
            .filter_map(|d| entry(d, from, direction, length, half_width))
            .fold(f64::INFINITY, f64::min);
        if seen_to.is_some() || taken.is_finite() {
            return before + seen_to.unwrap_or(length).min(taken);
        }
        before += length;
    }
    before
}

fn first_unseen(length: f64, clear: impl Fn(f64) -> bool) -> Option<f64> {
    if !clear(0.0) {
        return Some(0.0);
    }
    let mut good = 0.0;
    while good < length {
        let next = (good + STRIDE).min(length);
        if !clear(next) {
            let mut bad = next;
            while bad - good > FINE {
                let middle = 0.5 * (good + bad);
                if clear(middle) { good = middle } else { bad = middle }
            }
            return Some(good);
        }
        good = next;
    }
    None
}

/// Where along a straight band a disc first reaches into it, m; None when it does not. A disc that
/// covers the start counts from 0; one that lies wholly behind it does not count.
fn entry(disc: &Disc, from: Vec2, direction: Vec2, length: f64, half_width: f64) -> Option<f64> {
    let d = disc.at - from;
    let at = vec2(d.dot(direction), direction.cross(d));
    let beside = (at.y.abs() - half_width).max(0.0);
    if beside >= disc.radius {
        return None;
    }
    let reach = (disc.radius * disc.radius - beside * beside).sqrt();
    (at.x + reach > 0.0 && at.x - reach < length).then_some((at.x - reach).max(0.0))
}

state!(Head { angle, asked, from, to, left });
state!(Sighting { since, first });
