//! What somebody draws into the yard beside a note: a ring round a place, or an arrow to one. Metres, yard frame.

use serde::{Deserialize, Deserializer, Serialize};

use crate::math::{DEG, Vec2, vec2};

/// A mark lies within so far of the yard's origin, either way, m: farther than any floor reaches.
pub const REACH_MOST: f64 = 1_000.0;
/// Least and largest radius of a ring, m: a cone is seen in the one, a dock in the other.
pub const RADIUS: [f64; 2] = [0.3, 15.0];
/// Least and largest length of an arrow, m.
pub const LENGTH: [f64; 2] = [0.5, 30.0];
/// As large is a ring that was only put somewhere, m.
const RING_AT_FIRST: f64 = 1.5;
/// And as long an arrow, m. It comes from the south-west, where it lies on no axis of a yard.
const ARROW_AT_FIRST: f64 = 2.5;
/// Nearer than this to where it was pressed nothing was drawn, but put, m.
const PUT: f64 = 0.2;
/// Room for rounding, when a mark is read that was kept at its bound, m.
const ROUNDING: f64 = 0.01;

/// A mark.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub enum Mark {
    /// Round a place.
    Ring {
        /// Its middle, m.
        at: Vec2,
        /// Its radius, m.
        radius: f64,
    },
    /// To a place.
    Arrow {
        /// Where it begins, m.
        from: Vec2,
        /// Where its head is, m.
        to: Vec2,
    },
}

/// Which kind of mark.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// Round a place.
    Ring,
    /// To a place.
    Arrow,
}

fn bounded(v: f64, [least, most]: [f64; 2]) -> f64 {
    v.clamp(least, most)
}

/// To whole centimetres, within reach.
fn placed(p: Vec2) -> Vec2 {
    let round = |v: f64| (v.clamp(-REACH_MOST, REACH_MOST) * 100.0).round() / 100.0;
    vec2(round(p.x), round(p.y))
}

/// From this place into the direction of that one, so long.
fn towards(from: Vec2, to: Vec2, length: f64) -> Vec2 {
    from + (to - from).normalized() * length
}

impl Mark {
    /// Put at a place, m.
    pub fn put(kind: Kind, at: Vec2) -> Self {
        match kind {
            Kind::Ring => Self::Ring { at: placed(at), radius: RING_AT_FIRST },
            Kind::Arrow => {
                let back = Vec2::from_angle(-135.0 * DEG) * ARROW_AT_FIRST;
                Self::Arrow { from: placed(at + back), to: placed(at) }
            }
        }
    }

    /// Drawn from one place to another, m: a ring from its middle to its edge, an arrow to its head. Both the same
    /// puts it there.
    pub fn drawn(kind: Kind, from: Vec2, to: Vec2) -> Self {
        let long = (to - from).length();
        if long.is_nan() || long <= PUT {
            return Self::put(kind, from);
        }
        match kind {
            Kind::Ring => Self::Ring { at: placed(from), radius: bounded(long, RADIUS) },
            Kind::Arrow => Self::Arrow {
                from: placed(from),
                to: placed(towards(from, to, bounded(long, LENGTH))),
            },
        }
    }

    /// Which kind it is.
    pub fn kind(&self) -> Kind {
        match self {
            Self::Ring { .. } => Kind::Ring,
            Self::Arrow { .. } => Kind::Arrow,
        }
    }

    /// Moved by so much, m.
    pub fn moved(self, by: Vec2) -> Self {
        match self {
            Self::Ring { at, radius } => Self::Ring { at: placed(at + by), radius },
            Self::Arrow { from, to } => {
                Self::Arrow { from: placed(from + by), to: placed(to + by) }
            }
        }
    }

    /// So much larger, m; below nothing smaller. An arrow grows at its beginning: what it points at stays.
    pub fn larger(self, by: f64) -> Self {
        match self {
            Self::Ring { at, radius } => Self::Ring { at, radius: bounded(radius + by, RADIUS) },
            Self::Arrow { from, to } => {
                let long = bounded((to - from).length() + by, LENGTH);
                Self::Arrow { from: placed(towards(to, from, long)), to }
            }
        }
    }

    /// Turned about what it points at, rad, left positive. A ring stays as it is.
    pub fn turned(self, by: f64) -> Self {
        match self {
            Self::Ring { .. } => self,
            Self::Arrow { from, to } => {
                Self::Arrow { from: placed(to + (from - to).rotated(by)), to }
            }
        }
    }

    /// The middle of it, m.
    pub fn middle(&self) -> Vec2 {
        match self {
            Self::Ring { at, .. } => *at,
            Self::Arrow { from, to } => (*from + *to) * 0.5,
        }
    }

    /// From its middle to where it ends, m.
    pub fn reach(&self) -> f64 {
        match self {
            Self::Ring { radius, .. } => *radius,
            Self::Arrow { from, to } => 0.5 * (*to - *from).length(),
        }
    }

    /// Whether it could have been drawn here.
    pub fn is_sound(&self) -> bool {
        let within = |p: &Vec2| p.x.abs() <= REACH_MOST && p.y.abs() <= REACH_MOST;
        let fits =
            |v: f64, [least, most]: [f64; 2]| (least - ROUNDING..=most + ROUNDING).contains(&v);
        match self {
            Self::Ring { at, radius } => within(at) && fits(*radius, RADIUS),
            Self::Arrow { from, to } => {
                within(from) && within(to) && fits((*to - *from).length(), LENGTH)
            }
        }
    }
}

/// Reads a mark; one that could not have been drawn here is left out, and its note is kept for its words.
///
/// # Errors
/// When it is no mark at all.
pub(super) fn read<'de, D: Deserializer<'de>>(from: D) -> Result<Option<Mark>, D::Error> {
    Ok(Option::<Mark>::deserialize(from)?.filter(Mark::is_sound))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn ring(radius: f64) -> Mark {
        Mark::Ring { at: vec2(1.0, 2.0), radius }
    }

    #[test]
    fn what_is_drawn_is_bounded_and_what_is_only_put_has_a_size() {
        let at = vec2(3.0, 4.0);
        let across = |m: f64| Mark::drawn(Kind::Ring, at, at + vec2(m, 0.0));
        assert_eq!(across(2.0), Mark::Ring { at, radius: 2.0 });
        assert_eq!(across(PUT + 0.001), Mark::Ring { at, radius: RADIUS[0] });
        assert_eq!(across(PUT - 0.001), Mark::put(Kind::Ring, at), "a tap");
        assert_eq!(across(15.1), Mark::Ring { at, radius: 15.0 });
        assert_eq!(across(f64::NAN), Mark::put(Kind::Ring, at));
        let along = |m: f64| Mark::drawn(Kind::Arrow, at, at + vec2(0.0, m));
        assert_eq!(along(2.0), Mark::Arrow { from: at, to: vec2(3.0, 6.0) });
        assert_eq!(along(0.4), Mark::Arrow { from: at, to: vec2(3.0, 4.5) });
        assert_eq!(along(31.0), Mark::Arrow { from: at, to: vec2(3.0, 34.0) });
        let Mark::Arrow { to, .. } = Mark::put(Kind::Arrow, at) else { panic!("an arrow") };
        assert_eq!(to, at, "an arrow that is put somewhere points there");
        let far = Mark::put(Kind::Ring, vec2(5_000.0, -5_000.0));
        assert!(far.is_sound() && far.middle() == vec2(REACH_MOST, -REACH_MOST));
    }

    #[test]
    fn keys_move_size_and_turn_it_and_end_somewhere() {
        let arrow = Mark::Arrow { from: vec2(0.0, 0.0), to: vec2(2.0, 0.0) };
        assert_eq!(
            arrow.moved(vec2(0.25, -1.0)),
            Mark::Arrow { from: vec2(0.25, -1.0), to: vec2(2.25, -1.0) }
        );
        let longer = Mark::Arrow { from: vec2(-0.5, 0.0), to: vec2(2.0, 0.0) };
        assert_eq!(arrow.larger(0.5), longer, "what it points at stays");
        assert_eq!(
            arrow.turned(90.0 * DEG),
            Mark::Arrow { from: vec2(2.0, -2.0), to: vec2(2.0, 0.0) }
        );
        let (mut small, mut large) = (arrow, arrow);
        for _ in 0..200 {
            (small, large) = (small.larger(-0.25), large.larger(0.25));
            assert!(small.is_sound() && large.is_sound());
        }
        assert_eq!((2.0 * small.reach(), 2.0 * large.reach()), (LENGTH[0], LENGTH[1]));
        assert_eq!(ring(1.0).larger(-5.0), ring(RADIUS[0]));
        assert_eq!(ring(1.0).larger(50.0), ring(RADIUS[1]));
        assert_eq!(ring(1.0).turned(1.0), ring(1.0));
    }

    #[test]
    fn what_could_not_have_been_drawn_is_not_sound_on_either_side_of_each_bound() {
        for (radius, sound) in [(0.28, false), (0.3, true), (15.0, true), (15.02, false)] {
            assert_eq!(ring(radius).is_sound(), sound, "{radius}");
        }
        for (long, sound) in [(0.48, false), (0.5, true), (30.0, true), (30.02, false)] {
            let arrow = Mark::Arrow { from: vec2(0.0, 0.0), to: vec2(long, 0.0) };
            assert_eq!(arrow.is_sound(), sound, "{long}");
        }
        for (x, sound) in [(1_000.0, true), (1_000.1, false), (-1_000.1, false), (f64::NAN, false)]
        {
            assert_eq!(Mark::Ring { at: vec2(x, 0.0), radius: 1.0 }.is_sound(), sound, "{x}");
        }
        assert!(!ring(f64::NAN).is_sound() && !ring(f64::INFINITY).is_sound());
    }
}
