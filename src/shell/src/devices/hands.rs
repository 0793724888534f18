//! The hands: what keyboard, touch and gamepad ask for together, made into one set of Controls.
//! Where two devices ask for different things, keys come before touch before gamepad.

use coneyard_core::acts::Act;
use coneyard_core::controls::{ArmAsk, Controls, Look, Side, TILLER_MAX_HALF_DEGREES, TillerAsk};

use super::Action;
use super::gamepad::PadAsk;
use super::keys::Keys;
use super::touch::Touch;

/// The rider's hands, feet and eyes as the devices move them.
#[derive(Debug)]
pub(crate) struct Hands {
    /// Keyboard.
    pub(crate) keys: Keys,
    /// Touch.
    pub(crate) touch: Touch,
    /// Gamepad.
    pub(crate) pad: PadAsk,
    /// The side to stand on; stays until another is asked for.
    pub(crate) stance: Side,
    /// On the platform; stays until the other is asked for.
    pub(crate) aboard: bool,
    /// The key is on.
    pub(crate) key_on: bool,
    /// What was done since they were last asked for.
    pub(crate) acts: Vec<Act>,
    /// Let go, the tiller comes back to the middle; otherwise it stays where it is.
    pub(crate) tiller_returns: bool,
}

impl Hands {
    /// Hands at rest, standing on this side.
    pub(crate) fn new(stance: Side, tiller_returns: bool) -> Self {
        Self {
            keys: Keys::default(),
            touch: Touch::default(),
            pad: PadAsk::default(),
            stance,
            aboard: true,
            key_on: true,
            acts: Vec::new(),
            tiller_returns,
        }
    }

    /// A key or button of this action goes down.
    pub(crate) fn press(&mut self, action: Action) {
        match action {
            Action::StandLeft => self.stance = Side::Left,
            Action::StandRight => self.stance = Side::Right,
            Action::StepOff => self.aboard = !self.aboard,
            Action::Key => self.key_on = !self.key_on,
            Action::Report => self.acts.push(Act::Report),
            _ => {}
        }
        self.keys.press(action);
    }

    /// What the gamepad asks for from now on.
    pub(crate) fn set_pad(&mut self, pad: PadAsk) {
        if pad.held.contains(&Action::StandLeft) {
            self.stance = Side::Left;
        }
        if pad.held.contains(&Action::StandRight) {
            self.stance = Side::Right;
        }
        let goes_down = |action| pad.held.contains(&action) && !self.pad.held.contains(&action);
        self.aboard ^= goes_down(Action::StepOff);
        self.key_on ^= goes_down(Action::Key);
        if goes_down(Action::Report) {
            self.acts.push(Act::Report);
        }
        self.pad = pad;
    }

    /// Everything is let go of: the window has lost the focus.
    pub(crate) fn let_all_go(&mut self) -> Controls {
        self.keys.release_all();
        self.touch.release_all();
        self.pad = PadAsk::default();
        self.resting()
    }

    /// Hands off: the rider stands beside the truck, or has let go of everything.
    fn resting(&self) -> Controls {
        let (stance, aboard, key_on) = (self.stance, self.aboard, self.key_on);
        Controls { arm: ArmAsk::LetGo, stance, aboard, key_on, ..Controls::default() }
    }

    fn does(&self, action: Action) -> bool {
        self.keys.holds(action) || self.pad.held.contains(&action)
    }

    fn tiller(&self) -> TillerAsk {
        if let Some(swing) = self.keys.swing() {
            return TillerAsk::Swing(swing);
        }
        if let Some(angle) = self.touch.tiller {
            return TillerAsk::To(angle);
        }
        if self.pad.tiller != 0.0 {
            let angle = self.pad.tiller * f64::from(TILLER_MAX_HALF_DEGREES);
            return TillerAsk::To(angle.round() as i16);
        }
        if self.tiller_returns || self.keys.centring {
            return TillerAsk::To(0);
        }
        TillerAsk::Swing(0)
    }

    fn throttle(&mut self, dt_s: f64) -> i8 {
        let keys = self.keys.twist(dt_s);
        [keys, self.touch.twist, self.pad.twist].into_iter().find(|t| *t != 0).unwrap_or(0)
    }

    /// The Controls after so many seconds.
    pub(crate) fn controls(&mut self, dt_s: f64) -> Controls {
        let throttle = self.throttle(dt_s);
        let arm = if self.touch.push_down || self.does(Action::PushDown) {
            ArmAsk::PushDown
        } else if self.touch.let_go || self.does(Action::LetGo) {
            ArmAsk::LetGo
        } else {
            ArmAsk::Hold
        };
        let look = if let Some(look) = self.touch.look {
            look
        } else if self.does(Action::LookLeft) {
            Look::Left
        } else if self.does(Action::LookRight) {
            Look::Right
        } else if self.does(Action::LookBehind) {
            Look::Behind
        } else {
            Look::Ahead
        };
        if !self.aboard {
            return Controls { look, ..self.resting() };
        }
        Controls {
            throttle,
            tiller: self.tiller(),
            arm,
            stance: self.stance,
            look,
            high_speed: self.touch.high_speed || self.does(Action::HighSpeed),
            horn: self.touch.horn || self.does(Action::Horn),
            forks_up: self.touch.forks_up || self.does(Action::ForksUp),
            forks_down: self.touch.forks_down || self.does(Action::ForksDown),
            aboard: true,
            key_on: self.key_on,
        }
        .clamped()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hands() -> Hands {
        Hands::new(Side::Left, true)
    }

    #[test]
    fn at_rest_the_tiller_comes_back_or_stays_by_the_setting() {
        let mut h = hands();
        assert_eq!(h.controls(0.1).tiller, TillerAsk::To(0));
        h.tiller_returns = false;
        assert_eq!(h.controls(0.1).tiller, TillerAsk::Swing(0));
        h.press(Action::Centre);
        h.keys.release(Action::Centre);
        assert_eq!(h.controls(0.1).tiller, TillerAsk::To(0));
        h.press(Action::TillerLeft);
        assert_eq!(h.controls(0.1).tiller, TillerAsk::Swing(100));
        h.keys.release(Action::TillerLeft);
        assert_eq!(h.controls(0.1).tiller, TillerAsk::Swing(0));
    }

    #[test]
    fn keys_come_before_touch_before_gamepad() {
        let mut h = hands();
        h.set_pad(PadAsk { tiller: 0.5, twist: 40, held: vec![] });
        assert_eq!(h.controls(0.1).tiller, TillerAsk::To(85));
        assert_eq!(h.controls(0.1).throttle, 40);
        h.touch.tiller = Some(-20);
        h.touch.twist = -30;
        assert_eq!(h.controls(0.1).tiller, TillerAsk::To(-20));
        assert_eq!(h.controls(0.1).throttle, -30);
        h.press(Action::TillerRight);
        h.press(Action::Ahead);
        assert_eq!(h.controls(0.8).tiller, TillerAsk::Swing(-100));
        assert_eq!(h.controls(0.8).throttle, 100);
    }

    #[test]
    fn losing_the_focus_lets_go_of_arm_and_throttle_but_keeps_the_stance() {
        let mut h = hands();
        h.press(Action::StandRight);
        h.press(Action::Ahead);
        h.press(Action::Horn);
        h.touch.high_speed = true;
        let c = h.let_all_go();
        assert_eq!((c.throttle, c.arm, c.stance), (0, ArmAsk::LetGo, Side::Right));
        let after = h.controls(1.0);
        assert_eq!((after.throttle, after.arm), (0, ArmAsk::Hold));
        assert!(!after.horn && !after.high_speed);
    }

    #[test]
    fn off_the_platform_the_hands_do_nothing_but_eyes_and_voice_work() {
        let mut h = hands();
        h.press(Action::StepOff);
        h.keys.release(Action::StepOff);
        h.press(Action::Ahead);
        h.press(Action::Horn);
        h.press(Action::LookLeft);
        h.press(Action::Report);
        let c = h.controls(1.0);
        assert!(!c.aboard && !c.horn);
        assert_eq!(h.acts, [Act::Report]);
        assert_eq!((c.throttle, c.arm, c.look), (0, ArmAsk::LetGo, Look::Left));
        assert!(!h.let_all_go().aboard, "losing the focus does not put anybody back on");
        h.press(Action::StepOff);
        assert!(h.controls(0.1).aboard);
    }

    #[test]
    fn the_key_stays_as_it_was_turned_aboard_and_beside_the_truck() {
        let mut h = hands();
        assert!(h.controls(0.1).key_on);
        h.press(Action::Key);
        assert!(!h.controls(0.1).key_on);
        h.press(Action::StepOff);
        assert!(!h.controls(0.1).key_on && !h.let_all_go().key_on);
        h.set_pad(PadAsk { held: vec![Action::Key], ..PadAsk::default() });
        assert!(h.controls(0.1).key_on);
    }

    #[test]
    fn every_look_reaches_the_controls() {
        for (action, look) in [
            (Action::LookLeft, Look::Left),
            (Action::LookRight, Look::Right),
            (Action::LookBehind, Look::Behind),
        ] {
            let mut h = hands();
            h.press(action);
            assert_eq!(h.controls(0.1).look, look);
            h.keys.release(action);
            assert_eq!(h.controls(0.1).look, Look::Ahead);
            h.set_pad(PadAsk { held: vec![action], ..PadAsk::default() });
            assert_eq!(h.controls(0.1).look, look);
            h.set_pad(PadAsk::default());
            h.touch.look = Some(look);
            assert_eq!(h.controls(0.1).look, look);
        }
    }

    #[test]
    fn a_gamepad_button_steps_off_once_however_long_it_is_held() {
        let mut h = hands();
        let held = PadAsk { held: vec![Action::StepOff], ..PadAsk::default() };
        for _ in 0..3 {
            h.set_pad(held.clone());
            assert!(!h.controls(0.1).aboard);
        }
        h.set_pad(PadAsk::default());
        h.set_pad(held);
        assert!(h.controls(0.1).aboard);
    }

    #[test]
    fn pushing_down_wins_over_letting_go() {
        let mut h = hands();
        h.press(Action::LetGo);
        assert_eq!(h.controls(0.1).arm, ArmAsk::LetGo);
        h.press(Action::PushDown);
        assert_eq!(h.controls(0.1).arm, ArmAsk::PushDown);
    }
}
