//! Two thumbs on a screen: from where each came down and where it is now to what it asks of the truck.
//!
//! All is relative to where a thumb landed, so that nobody has to aim, and a thumb that lies still keeps
//! its value for as long as it lies. Lengths are in CSS pixels (1/96 in, CSS Values 4, 5.2), across to the
//! right and down; the figures were chosen for the width of a thumb's reach, from trials, no source.

use crate::controls::{ArmAsk, Side, TILLER_MAX_HALF_DEGREES};

/// The tiller is turned all the way after so much, px.
pub const TILLER_FULL_PX: f64 = 110.0;
/// And stays in the middle as long as the thumb has moved no more than this, px.
pub const TILLER_DEAD_PX: f64 = 8.0;
/// Share of an even tiller's turn just beside the middle: small corrections are fine ones.
const TILLER_SOFT: f64 = 0.35;
/// The arm is pushed right down after so much, px downwards.
pub const PUSH_DOWN_PX: f64 = 60.0;
/// The throttle is twisted all the way after so much each way, px.
pub const TWIST_FULL_PX: f64 = 90.0;
/// And in neutral as long as the thumb has moved no more than this, px.
pub const TWIST_NEUTRAL_PX: f64 = 10.0;
/// The horn sounds after so much inwards, px.
pub const HORN_PX: f64 = 48.0;
/// What was reached is given up only so much before, px: a thumb trembles.
const TREMBLE_PX: f64 = 10.0;

/// A place on the screen, px to the right and down.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Place {
    /// To the right, px.
    pub x: f64,
    /// Down, px.
    pub y: f64,
}

/// On from `full` on, off again a little before it.
fn reached(was: bool, way: f64, full: f64) -> bool {
    way >= if was { full - TREMBLE_PX } else { full }
}

/// How far a way goes from the edge of its dead part to its end, -1 to 1.
fn share(way: f64, dead: f64, full: f64) -> f64 {
    let beyond = ((way.abs() - dead) / (full - dead)).clamp(0.0, 1.0);
    if way < 0.0 { -beyond } else { beyond }
}

/// The thumb on the tiller.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TillerThumb {
    from: Place,
    at: Place,
    down: bool,
}

impl TillerThumb {
    /// It lands: the tiller is in the middle there, and the arm is held.
    pub fn land(at: Place) -> Self {
        Self { from: at, at, down: false }
    }

    /// It slides.
    pub fn slide(&mut self, to: Place) {
        self.at = to;
        self.down = reached(self.down, to.y - self.from.y, PUSH_DOWN_PX);
    }

    /// Where it landed: the tiller is drawn there.
    pub fn landed(&self) -> Place {
        self.from
    }

    /// Angle that it asks for, half degrees, left positive.
    pub fn tiller(&self) -> i16 {
        let s = share(self.from.x - self.at.x, TILLER_DEAD_PX, TILLER_FULL_PX);
        let soft = s * (TILLER_SOFT + (1.0 - TILLER_SOFT) * s.abs());
        (soft * f64::from(TILLER_MAX_HALF_DEGREES)).round() as i16
    }

    /// What it does with the arm.
    pub fn arm(&self) -> ArmAsk {
        if self.down { ArmAsk::PushDown } else { ArmAsk::Hold }
    }
}

/// The thumb on the throttle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TwistThumb {
    from: Place,
    at: Place,
    inwards: Side,
    /// The horn sounds, and with it this twist is kept, percent.
    horn: Option<i8>,
}

impl TwistThumb {
    /// It lands, in neutral. `inwards` is the side on which the middle of the screen lies.
    pub fn land(at: Place, inwards: Side) -> Self {
        Self { from: at, at, inwards, horn: None }
    }

    /// It slides.
    pub fn slide(&mut self, to: Place) {
        let twist = self.twist();
        self.at = to;
        let way = match self.inwards {
            Side::Left => self.from.x - to.x,
            Side::Right => to.x - self.from.x,
        };
        self.horn = reached(self.horn.is_some(), way, HORN_PX).then_some(twist);
    }

    /// Where it landed: neutral is drawn there.
    pub fn landed(&self) -> Place {
        self.from
    }

    /// Twist that it asks for, percent; up asks for power unit first, which is positive.
    pub fn twist(&self) -> i8 {
        let way = self.from.y - self.at.y;
        let now = (share(way, TWIST_NEUTRAL_PX, TWIST_FULL_PX) * 100.0).round() as i8;
        self.horn.unwrap_or(now)
    }

    /// It sounds the horn.
    pub fn horn(&self) -> bool {
        self.horn.is_some()
    }
}

/// Both thumbs, as far as they lie on the screen.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Thumbs {
    /// On the tiller.
    pub tiller: Option<TillerThumb>,
    /// On the throttle.
    pub twist: Option<TwistThumb>,
}

impl Thumbs {
    /// What they do with the arm: nobody holds what no thumb lies on, and it springs up and brakes.
    pub fn arm(&self) -> ArmAsk {
        self.tiller.map_or(ArmAsk::LetGo, |thumb| thumb.arm())
    }

    /// Angle asked of the tiller, half degrees, left positive; None while no thumb is on it.
    pub fn tiller(&self) -> Option<i16> {
        self.tiller.map(|thumb| thumb.tiller())
    }

    /// Twist of the throttle, percent; none while no thumb is on it.
    pub fn twist(&self) -> i8 {
        self.twist.map_or(0, |thumb| thumb.twist())
    }

    /// The horn sounds.
    pub fn horn(&self) -> bool {
        self.twist.is_some_and(|thumb| thumb.horn())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const LANDED: Place = Place { x: 120.0, y: 600.0 };

    fn beside(x: f64, y: f64) -> Place {
        Place { x: LANDED.x + x, y: LANDED.y + y }
    }

    fn tiller(x: f64, y: f64) -> TillerThumb {
        let mut thumb = TillerThumb::land(LANDED);
        thumb.slide(beside(x, y));
        thumb
    }

    fn twist(inwards: Side, x: f64, y: f64) -> TwistThumb {
        let mut thumb = TwistThumb::land(LANDED, inwards);
        thumb.slide(beside(x, y));
        thumb
    }

    #[test]
    fn wherever_it_lands_the_tiller_is_in_the_middle_and_the_arm_is_held() {
        for at in [Place::default(), LANDED, Place { x: 9000.0, y: -3.0 }] {
            let thumb = TillerThumb::land(at);
            assert_eq!((thumb.tiller(), thumb.arm(), thumb.landed()), (0, ArmAsk::Hold, at));
        }
    }

    #[test]
    fn the_tiller_turns_85_degrees_within_110_px_to_either_side_beyond_8_px_of_nothing() {
        for (side, sign) in [(-1.0, 1), (1.0, -1)] {
            let at = |px: f64| tiller(side * px, 0.0).tiller() * sign;
            assert_eq!([at(0.0), at(8.0)], [0, 0], "dead band");
            assert!(at(12.0) > 0, "and something right behind it: {}", at(12.0));
            assert!((164..170).contains(&at(109.0)), "{}", at(109.0));
            assert_eq!([at(110.0), at(400.0)], [170, 170], "85 degrees are 170 halves");
        }
    }

    #[test]
    fn its_middle_is_soft_and_it_never_turns_back() {
        // 34 px are a third of the way, but much less than a third of the turn.
        assert!((20..34).contains(&tiller(-(8.0 + 34.0), 0.0).tiller()));
        let all: Vec<i16> = (0..=120).map(|px| tiller(-f64::from(px), 0.0).tiller()).collect();
        assert!(all.windows(2).all(|w| w[1] >= w[0] && w[1] - w[0] <= 4), "{all:?}");
    }

    #[test]
    fn sliding_60_px_down_pushes_the_arm_down_and_keeps_the_tiller() {
        assert_eq!(tiller(0.0, 59.0).arm(), ArmAsk::Hold);
        assert_eq!(tiller(0.0, 60.0).arm(), ArmAsk::PushDown);
        assert_eq!(tiller(-110.0, 60.0).tiller(), 170);
        assert_eq!(tiller(0.0, -200.0).arm(), ArmAsk::Hold);
        let mut thumb = tiller(0.0, 60.0);
        thumb.slide(beside(0.0, 52.0));
        assert_eq!(thumb.arm(), ArmAsk::PushDown, "a thumb trembles");
        thumb.slide(beside(0.0, 49.0));
        assert_eq!(thumb.arm(), ArmAsk::Hold);
    }

    #[test]
    fn the_twist_is_full_after_90_px_each_way_beyond_10_px_of_neutral() {
        for inwards in [Side::Left, Side::Right] {
            for (up, sign) in [(-1.0, 1), (1.0, -1)] {
                let at = |px: f64| twist(inwards, 0.0, up * px).twist() * sign;
                assert_eq!([at(0.0), at(10.0)], [0, 0], "neutral");
                assert_eq!([at(11.0), at(50.0)], [1, 50]);
                assert_eq!([at(90.0), at(300.0)], [100, 100]);
            }
        }
    }

    #[test]
    fn sliding_48_px_inwards_sounds_the_horn_with_the_twist_kept() {
        for (inwards, side) in [(Side::Left, -1.0), (Side::Right, 1.0)] {
            let mut thumb = twist(inwards, 0.0, -66.0);
            assert_eq!((thumb.twist(), thumb.horn()), (70, false));
            thumb.slide(beside(side * 47.0, -66.0));
            assert_eq!((thumb.twist(), thumb.horn()), (70, false));
            thumb.slide(beside(side * 48.0, -40.0));
            assert_eq!((thumb.twist(), thumb.horn()), (70, true), "kept as it was");
            thumb.slide(beside(side * 80.0, 30.0));
            assert_eq!((thumb.twist(), thumb.horn()), (70, true));
            thumb.slide(beside(side * 39.0, -66.0));
            assert!(thumb.horn(), "a thumb trembles");
            thumb.slide(beside(side * 37.0, -66.0));
            assert!(!thumb.horn());
            thumb.slide(beside(side * 37.0, -90.0));
            assert_eq!(thumb.twist(), 100);
            thumb.slide(beside(side * -200.0, -90.0));
            assert!(!thumb.horn(), "outwards there is no horn");
        }
    }

    #[test]
    fn lifting_the_tillers_thumb_lets_the_arm_go_and_lifting_the_other_only_coasts() {
        let both =
            Thumbs { tiller: Some(tiller(-50.0, 0.0)), twist: Some(twist(Side::Left, 0.0, -90.0)) };
        assert_eq!((both.arm(), both.twist()), (ArmAsk::Hold, 100));
        let left = Thumbs { twist: None, ..both };
        assert_eq!((left.arm(), left.twist(), left.horn()), (ArmAsk::Hold, 0, false));
        assert_eq!(left.tiller(), both.tiller());
        let right = Thumbs { tiller: None, ..both };
        assert_eq!((right.arm(), right.tiller()), (ArmAsk::LetGo, None));
        assert_eq!(Thumbs::default().arm(), ArmAsk::LetGo);
    }

    /// Nothing here knows a clock: what does not move does not change.
    #[test]
    fn a_still_thumb_keeps_its_value() {
        let (tiller, mut throttle) = (tiller(40.0, 20.0), twist(Side::Left, -60.0, -50.0));
        let before = (tiller.tiller(), throttle.twist(), throttle.horn());
        for _ in 0..60 * 64 {
            throttle.slide(beside(-60.0, -50.0));
        }
        assert_eq!((tiller.tiller(), throttle.twist(), throttle.horn()), before);
    }
}
