//! Fingers on the screen: two thumbs, one on the tiller and one on the throttle, or one finger that steps
//! both. What a thumb's place means is told in `core::controls::thumbs`.

use coneyard_core::controls::thumbs::Thumbs;
use coneyard_core::controls::{ArmAsk, TILLER_MAX_HALF_DEGREES};

/// A step of the tiller, half degrees.
const TILLER_STEP: i16 = 30;
/// A step of the twist, percent.
const TWIST_STEP: i8 = 25;

/// What the fingers ask for now.
#[derive(Debug, Default)]
pub(crate) struct Touch {
    /// The thumbs that lie on the screen.
    pub(crate) thumbs: Thumbs,
    /// The truck is driven with thumbs: then nobody holds the arm while none lies on the tiller.
    drives: bool,
    /// Angle that was stepped to, half degrees, left positive; None is the middle.
    stepped: Option<i16>,
    /// Twist that was stepped to, percent.
    stepped_twist: i8,
    /// The high-speed button is on.
    pub(crate) high_speed: bool,
}

impl Touch {
    /// All fingers come off.
    pub(crate) fn release_all(&mut self) {
        *self = Self { drives: self.drives, ..Self::default() };
    }

    /// Thumbs land, slide or lift.
    pub(crate) fn with_thumbs(&mut self, change: impl FnOnce(&mut Thumbs)) {
        self.drives = true;
        (self.stepped, self.stepped_twist) = (None, 0);
        change(&mut self.thumbs);
    }

    /// Something else drives: keys, a gamepad.
    pub(crate) fn yield_to_others(&mut self) {
        self.drives = false;
    }

    /// One step of the tiller, left positive; 0 brings it to the middle.
    pub(crate) fn step_tiller(&mut self, way: i16) {
        self.drives = false;
        let most = TILLER_MAX_HALF_DEGREES;
        let from = self.stepped.unwrap_or(0);
        let to = (from + way.signum() * TILLER_STEP).clamp(-most, most);
        self.stepped = (way != 0 && to != 0).then_some(to);
    }

    /// One step of the twist, power unit first positive; 0 is neutral.
    pub(crate) fn step_twist(&mut self, way: i8) {
        self.drives = false;
        let to = (self.stepped_twist + way.signum() * TWIST_STEP).clamp(-100, 100);
        self.stepped_twist = if way == 0 { 0 } else { to };
    }

    /// The arm is let go: who takes it again begins in neutral.
    pub(crate) fn let_go(&mut self) {
        self.stepped_twist = 0;
    }

    /// What is asked of the tiller, half degrees; None when nothing is.
    pub(crate) fn tiller(&self) -> Option<i16> {
        self.thumbs.tiller().or(self.stepped)
    }

    /// What is asked of the throttle, percent.
    pub(crate) fn twist(&self) -> i8 {
        if self.drives { self.thumbs.twist() } else { self.stepped_twist }
    }

    /// What becomes of the arm without a button that says otherwise.
    pub(crate) fn arm(&self) -> ArmAsk {
        if self.drives { self.thumbs.arm() } else { ArmAsk::Hold }
    }
}

#[cfg(test)]
mod tests {
    use coneyard_core::controls::thumbs::{Place, TillerThumb};

    use super::*;

    #[test]
    fn without_thumbs_the_arm_is_held_until_thumbs_have_driven() {
        let mut touch = Touch::default();
        assert_eq!(touch.arm(), ArmAsk::Hold, "keys may be driving");
        touch.with_thumbs(|t| t.tiller = Some(TillerThumb::land(Place::default())));
        assert_eq!(touch.arm(), ArmAsk::Hold);
        touch.with_thumbs(|t| t.tiller = None);
        assert_eq!(touch.arm(), ArmAsk::LetGo);
        touch.release_all();
        assert_eq!(touch.arm(), ArmAsk::LetGo, "also after a pause");
        touch.yield_to_others();
        assert_eq!(touch.arm(), ArmAsk::Hold);
    }

    #[test]
    fn one_finger_steps_both_and_letting_go_ends_in_neutral() {
        let mut touch = Touch::default();
        for _ in 0..3 {
            touch.step_twist(1);
            touch.step_tiller(-1);
        }
        assert_eq!((touch.twist(), touch.tiller(), touch.arm()), (75, Some(-90), ArmAsk::Hold));
        for _ in 0..9 {
            touch.step_twist(1);
            touch.step_tiller(-1);
        }
        assert_eq!((touch.twist(), touch.tiller()), (100, Some(-170)));
        touch.step_tiller(0);
        touch.let_go();
        assert_eq!((touch.twist(), touch.tiller()), (0, None));
        touch.step_twist(-1);
        assert_eq!(touch.twist(), -25);
        touch.step_twist(0);
        assert_eq!(touch.twist(), 0);
    }
}
