//! What is pressed, by whichever device. A key can go down and come up again between two looks at it,
//! and a screen may show more pictures than the yard makes ticks: whatever was pressed stays held
//! until a tick has seen it.

use coneyard_core::time::Tick;

use super::Action;

/// What presses.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum By {
    /// A key.
    Key,
    /// A button of the gamepad.
    Pad,
    /// A finger, or a button on the page.
    Finger,
}

#[derive(Debug)]
struct Hold {
    action: Action,
    by: By,
    /// It has not come up yet.
    down: bool,
    /// Ticks that were over when it was first handed on.
    since: Option<Tick>,
}

/// All that is pressed.
#[derive(Debug, Default)]
pub(crate) struct Held(Vec<Hold>);

impl Held {
    /// It goes down.
    pub(crate) fn press(&mut self, action: Action, by: By) {
        match self.0.iter_mut().find(|h| h.action == action && h.by == by) {
            Some(hold) => hold.down = true,
            None => self.0.push(Hold { action, by, down: true, since: None }),
        }
    }

    /// It comes up.
    pub(crate) fn release(&mut self, action: Action, by: By) {
        for hold in self.0.iter_mut().filter(|h| h.action == action && h.by == by) {
            hold.down = false;
        }
    }

    /// All comes up at once, seen by a tick or not.
    pub(crate) fn release_all(&mut self) {
        self.0.clear();
    }

    /// So many ticks are over: what has come up, and was seen by one of them, is no longer held.
    pub(crate) fn pass(&mut self, ticks: Tick) {
        self.0.retain(|h| h.down || h.since.is_none_or(|since| ticks <= since));
        for hold in &mut self.0 {
            hold.since.get_or_insert(ticks);
        }
    }

    /// The drive is held still: what comes up meanwhile waits for no tick.
    pub(crate) fn hold_still(&mut self) {
        self.0.retain(|h| h.down);
    }

    /// It counts as held.
    pub(crate) fn holds(&self, action: Action) -> bool {
        self.0.iter().any(|h| h.action == action)
    }

    /// The device still has it down.
    pub(crate) fn is_down(&self, action: Action) -> bool {
        self.0.iter().any(|h| h.action == action && h.down)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_tap_between_two_pictures_is_held_until_a_tick_has_seen_it() {
        let mut held = Held::default();
        held.press(Action::Horn, By::Key);
        held.release(Action::Horn, By::Key);
        for _ in 0..3 {
            held.pass(100);
            assert!(held.holds(Action::Horn), "no tick has passed yet");
        }
        held.pass(101);
        assert!(!held.holds(Action::Horn));
    }

    #[test]
    fn what_is_down_stays_held_and_two_devices_do_not_let_go_of_each_other() {
        let mut held = Held::default();
        held.press(Action::Horn, By::Key);
        held.press(Action::Horn, By::Finger);
        held.pass(1);
        held.release(Action::Horn, By::Finger);
        held.pass(900);
        assert!(held.holds(Action::Horn) && held.is_down(Action::Horn));
        held.release(Action::Horn, By::Key);
        assert!(!held.is_down(Action::Horn));
        held.pass(901);
        assert!(!held.holds(Action::Horn));
    }

    #[test]
    fn a_key_that_goes_down_again_at_once_stays_down() {
        let mut held = Held::default();
        held.press(Action::Horn, By::Key);
        held.release(Action::Horn, By::Key);
        held.press(Action::Horn, By::Key);
        held.pass(1);
        held.pass(50);
        assert!(held.holds(Action::Horn));
    }
}
