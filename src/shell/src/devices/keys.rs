//! The keyboard, by the place of a key (`KeyboardEvent.code`), so that it is the same on every
//! layout. A key is either down or up, a wrist is not: the twist grows while the key is held, and
//! is gone when it is let go.

use coneyard_core::time::DT;
use serde::{Deserialize, Serialize};

use super::Action;
use super::held::Held;

/// Which keys do what. An action without a key is switched off.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(from = "Vec<(Action, Vec<String>)>")]
pub(crate) struct KeyMap(Vec<(Action, Vec<String>)>);

impl Default for KeyMap {
    fn default() -> Self {
        let keys: [(Action, &[&str]); 29] = [
            (Action::Ahead, &["KeyW", "ArrowUp"]),
            (Action::Back, &["KeyS", "ArrowDown"]),
            (Action::TillerLeft, &["KeyA", "ArrowLeft"]),
            (Action::TillerRight, &["KeyD", "ArrowRight"]),
            (Action::Centre, &["KeyC"]),
            (Action::LetGo, &["Space"]),
            (Action::PushDown, &["KeyX"]),
            (Action::StandLeft, &["KeyQ"]),
            (Action::StandRight, &["KeyE"]),
            (Action::ForksUp, &["KeyR"]),
            (Action::ForksDown, &["KeyF"]),
            (Action::Horn, &["KeyH"]),
            (Action::HighSpeed, &["ShiftLeft", "ShiftRight"]),
            (Action::Twist25, &["Digit1"]),
            (Action::Twist50, &["Digit2"]),
            (Action::Twist75, &["Digit3"]),
            (Action::Twist100, &["Digit4"]),
            (Action::TwistAtOnce, &["KeyT"]),
            (Action::LookLeft, &["KeyJ"]),
            (Action::LookRight, &["KeyL"]),
            (Action::LookBehind, &["KeyK"]),
            (Action::StepOff, &["KeyG"]),
            (Action::Key, &["KeyO"]),
            (Action::Report, &["KeyB"]),
            (Action::Pause, &["KeyP"]),
            (Action::Sound, &["KeyM"]),
            (Action::Overview, &["KeyV"]),
            (Action::ZoomIn, &["Equal", "NumpadAdd"]),
            (Action::ZoomOut, &["Minus", "NumpadSubtract"]),
        ];
        Self(
            keys.into_iter()
                .map(|(action, codes)| (action, codes.iter().map(|c| (*c).to_owned()).collect()))
                .collect(),
        )
    }
}

impl From<Vec<(Action, Vec<String>)>> for KeyMap {
    /// A map that was kept before an action existed gets that action's keys, where they are free.
    fn from(kept: Vec<(Action, Vec<String>)>) -> Self {
        let mut map = Self(kept);
        for (action, codes) in Self::default().0 {
            if map.0.iter().any(|(known, _)| *known == action) {
                continue;
            }
            let free = codes.into_iter().filter(|code| map.action(code).is_none()).collect();
            map.0.push((action, free));
        }
        map
    }
}

impl KeyMap {
    /// What this key does.
    pub(crate) fn action(&self, code: &str) -> Option<Action> {
        self.0.iter().find(|(_, codes)| codes.iter().any(|c| c == code)).map(|(action, _)| *action)
    }

    /// Keys of this action.
    pub(crate) fn codes(&self, action: Action) -> &[String] {
        self.0.iter().find(|(a, _)| *a == action).map_or(&[], |(_, codes)| codes.as_slice())
    }

    fn codes_mut(&mut self, action: Action) -> &mut Vec<String> {
        let at = self.0.iter().position(|(a, _)| *a == action).unwrap_or_else(|| {
            self.0.push((action, Vec::new()));
            self.0.len() - 1
        });
        &mut self.0[at].1
    }

    /// Gives the key to this action and takes it from any other.
    pub(crate) fn give(&mut self, code: &str, action: Action) {
        for (_, codes) in &mut self.0 {
            codes.retain(|c| c != code);
        }
        self.codes_mut(action).push(code.to_owned());
    }

    /// Takes all keys from this action.
    pub(crate) fn clear(&mut self, action: Action) {
        self.codes_mut(action).clear();
    }
}

/// What is printed on most keyboards at the place of this code, where the browser cannot tell.
pub(crate) fn plain_name(code: &str) -> String {
    match code {
        "ArrowUp" => "↑".to_owned(),
        "ArrowDown" => "↓".to_owned(),
        "ArrowLeft" => "←".to_owned(),
        "ArrowRight" => "→".to_owned(),
        "ShiftLeft" | "ShiftRight" => "⇧".to_owned(),
        "Space" => "␣".to_owned(),
        "Equal" => "=".to_owned(),
        "Minus" => "-".to_owned(),
        "NumpadAdd" => "+".to_owned(),
        "NumpadSubtract" => "−".to_owned(),
        _ => code.trim_start_matches("Key").trim_start_matches("Digit").to_owned(),
    }
}

/// Seconds in which the twist grows from nothing to all the way.
const FULL_TWIST_S: f64 = 0.8;

/// The wrist and the tiller as keys move them: what a key cannot hold by itself.
#[derive(Debug)]
pub(crate) struct Keys {
    /// Twist as it has grown, -1 to 1.
    twist: f64,
    /// How far the wrist turns, percent.
    pub(crate) reach: u8,
    /// The tiller was asked to the middle and has not been swung since.
    pub(crate) centring: bool,
}

impl Default for Keys {
    fn default() -> Self {
        Self { twist: 0.0, reach: 100, centring: false }
    }
}

impl Keys {
    /// Something of this action goes down.
    pub(crate) fn press(&mut self, action: Action) {
        match action {
            Action::Twist25 => self.reach = 25,
            Action::Twist50 => self.reach = 50,
            Action::Twist75 => self.reach = 75,
            Action::Twist100 => self.reach = 100,
            Action::Centre => self.centring = true,
            Action::TillerLeft | Action::TillerRight => self.centring = false,
            _ => {}
        }
    }

    /// The wrist is back in neutral: the window has lost the keyboard.
    pub(crate) fn release_all(&mut self) {
        self.twist = 0.0;
    }

    /// Lets the twist grow by so many seconds of the yard's time; gives percent, power unit first
    /// positive. However short it was pressed, it grows for a tick.
    pub(crate) fn twist(&mut self, held: &Held, dt_s: f64) -> i8 {
        let way = match (held.holds(Action::Ahead), held.holds(Action::Back)) {
            (true, false) => 1.0,
            (false, true) => -1.0,
            _ => 0.0,
        };
        if way == 0.0 {
            self.twist = 0.0;
            return 0;
        }
        let reach = f64::from(self.reach) / 100.0;
        let from = if self.twist * way < 0.0 { 0.0 } else { self.twist.abs() };
        let dt_s = if from == 0.0 { dt_s.max(DT) } else { dt_s };
        let grown = if held.holds(Action::TwistAtOnce) {
            reach
        } else {
            (from + dt_s / FULL_TWIST_S).min(reach)
        };
        self.twist = way * grown;
        (self.twist * 100.0).round() as i8
    }
}

/// Swing of the tiller that is asked for, percent, left positive; None when none is held.
pub(crate) fn swing(held: &Held) -> Option<i8> {
    match (held.holds(Action::TillerLeft), held.holds(Action::TillerRight)) {
        (true, false) => Some(100),
        (false, true) => Some(-100),
        (true, true) => Some(0),
        (false, false) => None,
    }
}

#[cfg(test)]
mod tests {
    use super::super::held::By;
    use super::*;

    #[test]
    fn a_map_of_older_days_gets_the_keys_of_new_actions_where_they_are_free() {
        let mut old = KeyMap::default();
        old.0.retain(|(action, _)| !matches!(action, Action::StepOff | Action::Report));
        old.give("KeyB", Action::Horn);
        old.clear(Action::Pause);
        let text = serde_json::to_string(&old).unwrap();
        let map: KeyMap = serde_json::from_str(&text).unwrap();
        assert_eq!(map.action("KeyG"), Some(Action::StepOff));
        assert_eq!(map.action("KeyB"), Some(Action::Horn), "a key that was given stays");
        assert!(map.codes(Action::Report).is_empty());
        assert!(map.codes(Action::Pause).is_empty(), "what was switched off stays off");
    }

    #[test]
    fn no_key_does_two_things() {
        let map = KeyMap::default();
        for (action, codes) in &map.0 {
            assert!(codes.iter().all(|code| map.action(code) == Some(*action)), "{action:?}");
        }
    }

    /// Keys that hold exactly these actions, for so many ticks each.
    fn twist(keys: &mut Keys, actions: &[Action], dt_s: f64) -> i8 {
        let mut held = Held::default();
        for action in actions {
            keys.press(*action);
            held.press(*action, By::Key);
        }
        keys.twist(&held, dt_s)
    }

    #[test]
    fn the_twist_grows_and_is_gone_at_once() {
        let mut keys = Keys::default();
        assert_eq!(twist(&mut keys, &[Action::Ahead], 0.4), 50);
        assert_eq!(twist(&mut keys, &[Action::Ahead], 0.4), 100);
        assert_eq!(twist(&mut keys, &[Action::Ahead], 0.4), 100);
        assert_eq!(twist(&mut keys, &[], 0.016), 0);
        assert_eq!(twist(&mut keys, &[Action::Ahead], 0.08), 10, "it grows from nothing again");
    }

    #[test]
    fn a_tap_twists_for_a_tick_and_no_picture_without_one_adds_to_it() {
        let mut keys = Keys::default();
        assert_eq!(twist(&mut keys, &[Action::Ahead], 0.0), 2);
        assert_eq!(twist(&mut keys, &[Action::Ahead], 0.0), 2);
    }

    #[test]
    fn plugging_starts_from_neutral() {
        let mut keys = Keys::default();
        twist(&mut keys, &[Action::Ahead], 1.0);
        assert_eq!(twist(&mut keys, &[Action::Back], 0.2), -25);
    }

    #[test]
    fn reach_limits_the_twist_and_the_snatch_is_possible() {
        let mut keys = Keys::default();
        assert_eq!(twist(&mut keys, &[Action::Twist25, Action::Ahead], 2.0), 25);
        let snatch = [Action::Twist100, Action::TwistAtOnce, Action::Ahead];
        assert_eq!(twist(&mut keys, &snatch, 0.016), 100);
    }

    #[test]
    fn a_key_belongs_to_one_action() {
        let mut map = KeyMap::default();
        assert_eq!(map.action("KeyW"), Some(Action::Ahead));
        map.give("KeyW", Action::Horn);
        assert_eq!(map.action("KeyW"), Some(Action::Horn));
        assert_eq!(map.codes(Action::Ahead), ["ArrowUp"]);
        map.clear(Action::Horn);
        assert_eq!(map.action("KeyW"), None);
    }

    #[test]
    fn no_default_key_does_two_things() {
        let map = KeyMap::default();
        let mut seen = std::collections::BTreeSet::new();
        for action in Action::ALL {
            assert!(!map.codes(action).is_empty(), "{action:?} has no key");
            for code in map.codes(action) {
                assert!(seen.insert(code.clone()), "{code} twice");
            }
        }
    }
}
