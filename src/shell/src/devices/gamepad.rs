//! A gamepad in the browser's standard mapping: the left stick is the tiller as an angle, the
//! right stick or the triggers are the twist, buttons do the rest. Axes, buttons and the dead zone
//! can be changed on the settings page.

use serde::{Deserialize, Serialize};

use super::Action;
use crate::browser::Snapshot;

/// Which part of a gamepad does what.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct PadMap {
    /// Axis of the tiller.
    pub(crate) tiller_axis: usize,
    /// It is the other way round.
    pub(crate) tiller_flipped: bool,
    /// Axis of the twist; up is power unit first.
    pub(crate) twist_axis: usize,
    /// It is the other way round.
    pub(crate) twist_flipped: bool,
    /// Button that twists power unit first by how far it is pressed.
    pub(crate) ahead_trigger: usize,
    /// Button that twists forks first.
    pub(crate) back_trigger: usize,
    /// Share of a stick's way around its rest that counts as rest, 0 to 0.5.
    pub(crate) dead_zone: f64,
    /// Which button does what.
    pub(crate) buttons: Vec<(Action, usize)>,
}

impl Default for PadMap {
    /// The browser's standard mapping: axes 0 and 3 are left stick sideways and right stick up and
    /// down; buttons 6 and 7 the triggers.
    fn default() -> Self {
        Self {
            tiller_axis: 0,
            tiller_flipped: false,
            twist_axis: 3,
            twist_flipped: false,
            ahead_trigger: 7,
            back_trigger: 6,
            dead_zone: 0.12,
            buttons: vec![
                (Action::Horn, 0),
                (Action::LetGo, 1),
                (Action::PushDown, 2),
                (Action::HighSpeed, 3),
                (Action::StandLeft, 4),
                (Action::StandRight, 5),
                (Action::Pause, 9),
                (Action::Key, 16),
                (Action::Report, 8),
                (Action::StepOff, 10),
                (Action::ForksUp, 12),
                (Action::ForksDown, 13),
                (Action::LookLeft, 14),
                (Action::LookRight, 15),
                (Action::LookBehind, 11),
            ],
        }
    }
}

impl PadMap {
    /// The button of this action.
    pub(crate) fn button(&self, action: Action) -> Option<usize> {
        self.buttons.iter().find(|(a, _)| *a == action).map(|(_, n)| *n)
    }

    /// Gives a button to this action and takes it from any other.
    pub(crate) fn give(&mut self, button: usize, action: Action) {
        self.buttons.retain(|(a, n)| *a != action && *n != button);
        self.buttons.push((action, button));
    }
}

/// What the gamepad asks for now.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct PadAsk {
    /// Tiller, -1 to 1, left positive; 0 in the dead zone.
    pub(crate) tiller: f64,
    /// Twist, percent, power unit first positive.
    pub(crate) twist: i8,
    /// Buttons that are down.
    pub(crate) held: Vec<Action>,
}

/// From here on a stick counts as pushed right over: worn ones never quite get there, and high speed
/// drops out on any easing.
const FULL_FROM: f64 = 0.97;

/// A stick's way outside its dead zone, stretched so that it begins at nothing and still reaches 1.
pub(crate) fn beyond_dead_zone(value: f64, dead_zone: f64) -> f64 {
    if !value.is_finite() {
        return 0.0;
    }
    let dead_zone = dead_zone.clamp(0.0, 0.5);
    let beyond = ((value.abs() - dead_zone) / (FULL_FROM - dead_zone)).clamp(0.0, 1.0);
    if value < 0.0 { -beyond } else { beyond }
}

/// Reads a gamepad by its map.
pub(crate) fn read(pad: &Snapshot, map: &PadMap) -> PadAsk {
    let axis = |n: usize| beyond_dead_zone(pad.axes.get(n).copied().unwrap_or(0.0), map.dead_zone);
    let button = |n: usize| pad.buttons.get(n).copied().unwrap_or(0.0);
    let sign = |flipped: bool| if flipped { 1.0 } else { -1.0 };
    let stick = axis(map.twist_axis) * sign(map.twist_flipped);
    let triggers =
        beyond_dead_zone(button(map.ahead_trigger) - button(map.back_trigger), map.dead_zone);
    let twist = if triggers.abs() > stick.abs() { triggers } else { stick };
    PadAsk {
        tiller: axis(map.tiller_axis) * sign(map.tiller_flipped),
        twist: (twist * 100.0).round() as i8,
        held: map
            .buttons
            .iter()
            .filter(|(_, n)| button(*n) > 0.5)
            .map(|(action, _)| *action)
            .collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pad(axes: [f64; 4], pressed: &[usize]) -> Snapshot {
        let mut buttons = vec![0.0; 17];
        for n in pressed {
            buttons[*n] = 1.0;
        }
        Snapshot { name: String::new(), axes: axes.to_vec(), buttons }
    }

    #[test]
    fn a_resting_stick_asks_for_nothing_and_a_full_one_for_all() {
        let map = PadMap::default();
        assert_eq!(read(&pad([0.1, 0.0, 0.0, -0.1], &[]), &map), PadAsk::default());
        let full = read(&pad([-1.0, 0.0, 0.0, -1.0], &[]), &map);
        assert_eq!((full.tiller, full.twist), (1.0, 100));
        let worn = read(&pad([0.0, 0.0, 0.0, -0.97], &[]), &map);
        let not_quite = read(&pad([0.0, 0.0, 0.0, -0.95], &[]), &map);
        assert_eq!((worn.twist, not_quite.twist), (100, 98));
    }

    #[test]
    fn triggers_and_buttons() {
        let ask = read(&pad([0.0; 4], &[6, 0]), &PadMap::default());
        assert_eq!(ask.twist, -100);
        assert_eq!(ask.held, [Action::Horn]);
    }

    #[test]
    fn a_pad_without_the_mapped_parts_is_at_rest() {
        let bare = Snapshot::default();
        assert_eq!(read(&bare, &PadMap::default()), PadAsk::default());
        assert_eq!(beyond_dead_zone(f64::NAN, 0.1), 0.0);
    }
}
