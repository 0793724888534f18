//! The hands: what keyboard, touch and gamepad ask for together, made into one set of Controls.
//! Where two devices ask for different things, keys come before touch before gamepad.

use coneyard_core::acts::Act;
use coneyard_core::controls::{ArmAsk, Controls, Side, TILLER_MAX_HALF_DEGREES, TillerAsk};
use coneyard_core::time::{DT, Tick};

use super::Action;
use super::gamepad::PadAsk;
use super::held::{By, Held};
use super::keys::{Keys, swing};
use super::looks::Looks;
use super::touch::Touch;

/// Who does one of these drives with what was pressed.
const DRIVING: [Action; 4] = [Action::Ahead, Action::Back, Action::TillerLeft, Action::TillerRight];

/// The longest step that the devices are told of, ticks: after a stall a twist must not jump.
const LONGEST_STEP: Tick = 6;

/// The rider's hands, feet and eyes as the devices move them.
#[derive(Debug)]
pub(crate) struct Hands {
    /// All that is pressed.
    held: Held,
    /// Wrist and tiller as keys move them.
    keys: Keys,
    /// The head.
    looks: Looks,
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
    /// Ticks that were over when they were last asked for.
    asked_at: Option<Tick>,
}

impl Hands {
    /// Hands at rest, standing on this side.
    pub(crate) fn new(stance: Side, tiller_returns: bool) -> Self {
        Self {
            held: Held::default(),
            keys: Keys::default(),
            looks: Looks::default(),
            touch: Touch::default(),
            pad: PadAsk::default(),
            stance,
            aboard: true,
            key_on: true,
            acts: Vec::new(),
            tiller_returns,
            asked_at: None,
        }
    }

    /// A key or button of this action goes down.
    pub(crate) fn press(&mut self, action: Action, by: By) {
        match action {
            Action::StandLeft => self.stance = Side::Left,
            Action::StandRight => self.stance = Side::Right,
            Action::StepOff => self.aboard = !self.aboard,
            Action::Key => self.key_on = !self.key_on,
            Action::Report => self.acts.push(Act::Report),
            Action::LetGo => self.touch.let_go(),
            _ => {}
        }
        if by != By::Finger && DRIVING.contains(&action) {
            self.touch.yield_to_others();
        }
        self.keys.press(action);
        self.looks.press(action);
        self.held.press(action, by);
    }

    /// And comes up.
    pub(crate) fn release(&mut self, action: Action, by: By) {
        self.held.release(action, by);
    }

    /// Pressed and let go at once: a button on the page.
    pub(crate) fn tap(&mut self, action: Action, by: By) {
        self.press(action, by);
        self.release(action, by);
    }

    /// What the gamepad asks for from now on.
    pub(crate) fn set_pad(&mut self, pad: PadAsk) {
        let before = std::mem::replace(&mut self.pad, pad);
        for action in before.held.iter().filter(|a| !self.pad.held.contains(a)) {
            self.held.release(*action, By::Pad);
        }
        let new = |a: &&Action| !before.held.contains(a);
        let pressed: Vec<Action> = self.pad.held.iter().filter(new).copied().collect();
        for action in pressed {
            self.press(action, By::Pad);
        }
        if self.pad.tiller != 0.0 || self.pad.twist != 0 {
            self.touch.yield_to_others();
        }
    }

    /// The drive is held still: what is pressed and let go meanwhile is not done afterwards.
    pub(crate) fn hold_still(&mut self) {
        self.held.hold_still();
        self.looks.hold_still(&self.held);
    }

    /// Everything is let go of: the window has lost the focus.
    pub(crate) fn let_all_go(&mut self) -> Controls {
        self.held.release_all();
        self.keys.release_all();
        self.looks.release_all();
        self.touch.release_all();
        self.pad = PadAsk::default();
        self.resting()
    }

    /// Hands off: the rider stands beside the truck, or has let go of everything.
    fn resting(&self) -> Controls {
        let (stance, aboard, key_on) = (self.stance, self.aboard, self.key_on);
        Controls { arm: ArmAsk::LetGo, stance, aboard, key_on, ..Controls::default() }
    }

    fn tiller(&self) -> TillerAsk {
        if let Some(swing) = swing(&self.held) {
            return TillerAsk::Swing(swing);
        }
        if let Some(angle) = self.touch.tiller() {
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
        let keys = self.keys.twist(&self.held, dt_s);
        [keys, self.touch.twist(), self.pad.twist].into_iter().find(|t| *t != 0).unwrap_or(0)
    }

    /// The Controls after so many ticks of the drive, from the next one on.
    pub(crate) fn controls(&mut self, ticks: Tick) -> Controls {
        let passed = self.asked_at.map_or(0, |at| ticks.saturating_sub(at)).min(LONGEST_STEP);
        self.asked_at = Some(ticks);
        self.held.pass(ticks);
        let throttle = self.throttle(f64::from(passed) * DT);
        let look = self.looks.look(&self.held, ticks);
        let does = |action| self.held.holds(action);
        let arm = if does(Action::PushDown) {
            ArmAsk::PushDown
        } else if does(Action::LetGo) {
            ArmAsk::LetGo
        } else {
            self.touch.arm()
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
            high_speed: self.touch.high_speed || does(Action::HighSpeed),
            horn: does(Action::Horn) || self.touch.thumbs.horn(),
            forks_up: does(Action::ForksUp),
            forks_down: does(Action::ForksDown),
            aboard: true,
            key_on: self.key_on,
        }
        .clamped()
    }
}

#[cfg(test)]
mod tests {
    use coneyard_core::controls::Look;
    use coneyard_core::controls::thumbs::{Place, TillerThumb, TwistThumb};

    use super::*;

    fn hands() -> Hands {
        Hands::new(Side::Left, true)
    }

    /// Presses a key.
    fn press(h: &mut Hands, action: Action) {
        h.press(action, By::Key);
    }

    /// The controls six ticks after the last ones.
    fn next(h: &mut Hands) -> Controls {
        let ticks = h.asked_at.map_or(0, |at| at + LONGEST_STEP);
        h.controls(ticks)
    }

    #[test]
    fn at_rest_the_tiller_comes_back_or_stays_by_the_setting() {
        let mut h = hands();
        assert_eq!(next(&mut h).tiller, TillerAsk::To(0));
        h.tiller_returns = false;
        assert_eq!(next(&mut h).tiller, TillerAsk::Swing(0));
        press(&mut h, Action::Centre);
        h.release(Action::Centre, By::Key);
        assert_eq!(next(&mut h).tiller, TillerAsk::To(0));
        press(&mut h, Action::TillerLeft);
        assert_eq!(next(&mut h).tiller, TillerAsk::Swing(100));
        h.release(Action::TillerLeft, By::Key);
        assert_eq!(next(&mut h).tiller, TillerAsk::Swing(0));
    }

    #[test]
    fn keys_come_before_touch_before_gamepad() {
        let mut h = hands();
        h.set_pad(PadAsk { tiller: 0.5, twist: 40, held: vec![] });
        assert_eq!(next(&mut h).tiller, TillerAsk::To(85));
        assert_eq!(next(&mut h).throttle, 40);
        h.set_pad(PadAsk::default());
        h.touch.step_tiller(-1);
        h.touch.step_twist(-1);
        assert_eq!(next(&mut h).tiller, TillerAsk::To(-30));
        assert_eq!(next(&mut h).throttle, -25);
        press(&mut h, Action::TillerRight);
        press(&mut h, Action::Ahead);
        assert_eq!(next(&mut h).tiller, TillerAsk::Swing(-100));
        for _ in 0..9 {
            next(&mut h);
        }
        assert_eq!(next(&mut h).throttle, 100);
    }

    /// However few pictures there are, and however many: a tap is seen by a tick.
    #[test]
    fn a_tap_between_two_pictures_reaches_a_tick_and_no_second_picture() {
        for action in [Action::Horn, Action::LetGo, Action::TillerLeft, Action::Ahead] {
            let mut h = hands();
            let rest = h.controls(10);
            h.tap(action, By::Key);
            assert_ne!(h.controls(10), rest, "{action:?}");
            assert_ne!(h.controls(10), rest, "{action:?}: no tick has passed yet");
            assert_eq!(h.controls(11), rest, "{action:?}");
        }
    }

    #[test]
    fn what_is_tapped_in_a_pause_is_not_done_afterwards() {
        let mut h = hands();
        let rest = h.controls(10);
        h.tap(Action::Horn, By::Key);
        h.tap(Action::LookLeft, By::Key);
        press(&mut h, Action::PushDown);
        h.hold_still();
        assert_eq!(h.controls(10), Controls { arm: ArmAsk::PushDown, ..rest });
    }

    #[test]
    fn the_twist_grows_with_the_yards_time() {
        let mut h = hands();
        h.controls(100);
        press(&mut h, Action::Ahead);
        assert_eq!(h.controls(100).throttle, 2);
        assert_eq!(h.controls(100).throttle, 2, "another picture of the same tick");
        assert_eq!(h.controls(105).throttle, 12);
        assert_eq!(h.controls(164).throttle, 23, "a stall does not make it jump");
    }

    #[test]
    fn losing_the_focus_lets_go_of_arm_and_throttle_but_keeps_the_stance() {
        let mut h = hands();
        press(&mut h, Action::StandRight);
        press(&mut h, Action::Ahead);
        press(&mut h, Action::Horn);
        press(&mut h, Action::LookLeft);
        h.touch.high_speed = true;
        let c = h.let_all_go();
        assert_eq!((c.throttle, c.arm, c.stance), (0, ArmAsk::LetGo, Side::Right));
        let after = h.controls(64);
        assert_eq!((after.throttle, after.arm, after.look), (0, ArmAsk::Hold, Look::Ahead));
        assert!(!after.horn && !after.high_speed);
    }

    #[test]
    fn off_the_platform_the_hands_do_nothing_but_eyes_and_voice_work() {
        let mut h = hands();
        h.tap(Action::StepOff, By::Key);
        press(&mut h, Action::Ahead);
        press(&mut h, Action::Horn);
        press(&mut h, Action::LookLeft);
        press(&mut h, Action::Report);
        let c = h.controls(64);
        assert!(!c.aboard && !c.horn);
        assert_eq!(h.acts, [Act::Report]);
        assert_eq!((c.throttle, c.arm, c.look), (0, ArmAsk::LetGo, Look::Left));
        assert!(!h.let_all_go().aboard, "losing the focus does not put anybody back on");
        press(&mut h, Action::StepOff);
        assert!(next(&mut h).aboard);
    }

    #[test]
    fn the_key_stays_as_it_was_turned_aboard_and_beside_the_truck() {
        let mut h = hands();
        assert!(next(&mut h).key_on);
        press(&mut h, Action::Key);
        assert!(!next(&mut h).key_on);
        press(&mut h, Action::StepOff);
        assert!(!next(&mut h).key_on && !h.let_all_go().key_on);
        h.set_pad(PadAsk { held: vec![Action::Key], ..PadAsk::default() });
        assert!(next(&mut h).key_on);
    }

    #[test]
    fn every_look_reaches_the_controls_from_every_device() {
        for (action, look) in [
            (Action::LookLeft, Look::Left),
            (Action::LookRight, Look::Right),
            (Action::LookBehind, Look::Behind),
        ] {
            for by in [By::Key, By::Finger] {
                let mut h = hands();
                h.tap(action, by);
                assert_eq!(h.controls(0).look, look);
                assert_eq!(h.controls(27).look, look);
                assert_eq!(h.controls(28).look, Look::Ahead);
            }
            let mut h = hands();
            h.set_pad(PadAsk { held: vec![action], ..PadAsk::default() });
            assert_eq!(h.controls(0).look, look);
            h.set_pad(PadAsk::default());
            assert_eq!(h.controls(10).look, look, "a glance lasts");
            assert_eq!(h.controls(30).look, Look::Ahead);
        }
    }

    #[test]
    fn a_gamepad_button_steps_off_once_however_long_it_is_held() {
        let mut h = hands();
        let held = PadAsk { held: vec![Action::StepOff], ..PadAsk::default() };
        for _ in 0..3 {
            h.set_pad(held.clone());
            assert!(!next(&mut h).aboard);
        }
        h.set_pad(PadAsk::default());
        h.set_pad(held);
        assert!(next(&mut h).aboard);
    }

    #[test]
    fn hands_off_brakes_under_thumbs_and_keys_hold_the_arm() {
        let mut h = hands();
        let at = Place { x: 60.0, y: 300.0 };
        h.touch.with_thumbs(|t| {
            t.tiller = Some(TillerThumb::land(at));
            t.twist = Some(TwistThumb::land(at, Side::Left));
        });
        let up = Place { y: at.y - 90.0, ..at };
        h.touch.with_thumbs(|t| t.twist.as_mut().unwrap().slide(up));
        let drives = next(&mut h);
        assert_eq!((drives.throttle, drives.arm), (100, ArmAsk::Hold));
        let in_and_up = Place { x: at.x - 48.0, ..up };
        h.touch.with_thumbs(|t| t.twist.as_mut().unwrap().slide(in_and_up));
        let sounds = next(&mut h);
        assert!(sounds.horn);
        assert_eq!(
            (sounds.throttle, sounds.arm, sounds.tiller),
            (100, ArmAsk::Hold, drives.tiller)
        );
        h.touch.with_thumbs(|t| t.tiller = None);
        assert_eq!(next(&mut h).arm, ArmAsk::LetGo);
        press(&mut h, Action::Ahead);
        assert_eq!(next(&mut h).arm, ArmAsk::Hold);
    }

    #[test]
    fn pushing_down_wins_over_letting_go() {
        let mut h = hands();
        press(&mut h, Action::LetGo);
        assert_eq!(next(&mut h).arm, ArmAsk::LetGo);
        press(&mut h, Action::PushDown);
        assert_eq!(next(&mut h).arm, ArmAsk::PushDown);
    }
}
