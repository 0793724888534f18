//! Looking aside: a tap looks there and comes back by itself, after a glance that is long enough to see
//! something; what is held looks there for as long as it is held.

use coneyard_core::controls::Look;
use coneyard_core::time::Tick;

use super::Action;
use super::held::Held;

/// A look that nobody holds lasts so many ticks, 0.44 s: the head needs 0.25 s to get there
/// (`core::sight::looking`), and the site rules ask for 0.25 s with the head turned aside.
pub(crate) const GLANCE: Tick = 28;

/// Looks and what asks for them.
const ASIDE: [(Action, Look); 3] = [
    (Action::LookLeft, Look::Left),
    (Action::LookRight, Look::Right),
    (Action::LookBehind, Look::Behind),
];

/// Where the rider looks, glance by glance.
#[derive(Debug, Default)]
pub(crate) struct Looks {
    now: Option<Glance>,
    /// Asked for while another glance was under way.
    next: Option<Action>,
    /// What is held, the last one pressed at the end.
    held: Vec<Action>,
}

#[derive(Debug)]
struct Glance {
    action: Action,
    /// It lasts at least until so many ticks are over; None before the first of them.
    until: Option<Tick>,
}

impl Looks {
    /// A look was asked for; other actions are none of it.
    pub(crate) fn press(&mut self, action: Action) {
        if !ASIDE.iter().any(|(aside, _)| *aside == action) {
            return;
        }
        self.held.retain(|held| *held != action);
        self.held.push(action);
        match &self.now {
            None => self.now = Some(Glance { action, until: None }),
            Some(now) if now.action == action => self.next = None,
            Some(_) => self.next = Some(action),
        }
    }

    /// The drive is held still: what comes up meanwhile is no glance.
    pub(crate) fn hold_still(&mut self, held: &Held) {
        if self.now.as_ref().is_some_and(|glance| !held.is_down(glance.action)) {
            self.release_all();
        }
    }

    /// Straight ahead at once.
    pub(crate) fn release_all(&mut self) {
        *self = Self::default();
    }

    /// Where to look now that so many ticks are over.
    pub(crate) fn look(&mut self, held: &Held, ticks: Tick) -> Look {
        self.held.retain(|action| held.is_down(*action));
        let Some(now) = &mut self.now else {
            return Look::Ahead;
        };
        let until = *now.until.get_or_insert(ticks + GLANCE);
        if ticks >= until {
            let glance = |action| Glance { action, until: Some(ticks + GLANCE) };
            if let Some(next) = self.next.take() {
                self.now = Some(glance(next));
            } else if !self.held.contains(&now.action) {
                // Back to what has been held all along: that is no new glance.
                let back = |action: &Action| Glance { action: *action, until: Some(ticks) };
                self.now = self.held.last().map(back);
            }
        }
        let now = self.now.as_ref().map(|glance| glance.action);
        ASIDE.iter().find(|(a, _)| Some(*a) == now).map_or(Look::Ahead, |(_, look)| *look)
    }
}

#[cfg(test)]
mod tests {
    use coneyard_core::controls::Side;
    use coneyard_core::math::DEG;
    use coneyard_core::rules::{SHIPPED, SiteRules};
    use coneyard_core::sight::looking::Head;
    use coneyard_core::time::TICK_RATE;

    use super::super::held::By;
    use super::*;

    /// Hands that press and release so at these ticks; where they look in each tick.
    fn looks(ticks: Tick, does: impl Fn(Tick, &mut dyn FnMut(Action, bool))) -> Vec<Look> {
        let (mut held, mut looks) = (Held::default(), Looks::default());
        let mut all = Vec::new();
        for tick in 0..ticks {
            does(tick, &mut |action, down| {
                if down {
                    held.press(action, By::Key);
                    looks.press(action);
                } else {
                    held.release(action, By::Key);
                }
            });
            held.pass(tick);
            all.push(looks.look(&held, tick));
        }
        all
    }

    fn count(looks: &[Look], of: Look) -> usize {
        looks.iter().filter(|look| **look == of).count()
    }

    fn tap(action: Action, hand: &mut dyn FnMut(Action, bool)) {
        hand(action, true);
        hand(action, false);
    }

    #[test]
    fn a_tap_glances_and_comes_back() {
        let seen = looks(100, |tick, hand| {
            if tick == 10 {
                tap(Action::LookLeft, hand);
            }
        });
        assert_eq!(count(&seen, Look::Left), GLANCE as usize);
        assert_eq!((seen[9], seen[10], seen[99]), (Look::Ahead, Look::Left, Look::Ahead));
    }

    #[test]
    fn what_is_held_looks_as_long_as_it_is_held() {
        let seen = looks(200, |tick, hand| match tick {
            10 => hand(Action::LookRight, true),
            110 => hand(Action::LookRight, false),
            _ => {}
        });
        assert_eq!(count(&seen, Look::Right), 100);
    }

    #[test]
    fn two_taps_at_once_look_both_ways_one_after_the_other() {
        let seen = looks(100, |tick, hand| {
            if tick == 0 {
                tap(Action::LookLeft, hand);
                tap(Action::LookRight, hand);
            }
        });
        let glance = GLANCE as usize;
        assert_eq!(seen[..glance], [Look::Left; GLANCE as usize]);
        assert_eq!(seen[glance..2 * glance], [Look::Right; GLANCE as usize]);
        assert_eq!(seen[2 * glance], Look::Ahead);
    }

    #[test]
    fn a_glance_aside_comes_back_to_the_forks_that_are_looked_at() {
        let seen = looks(200, |tick, hand| match tick {
            10 => hand(Action::LookBehind, true),
            60 => tap(Action::LookLeft, hand),
            150 => hand(Action::LookBehind, false),
            _ => {}
        });
        assert_eq!(count(&seen, Look::Left), GLANCE as usize);
        assert_eq!((seen[59], seen[60], seen[88]), (Look::Behind, Look::Left, Look::Behind));
        assert_eq!((seen[149], seen[150]), (Look::Behind, Look::Ahead));
    }

    /// The head turns so that a tap counts as a look to that side, and is no driving blind.
    #[test]
    fn a_glance_is_long_enough_for_the_site_rules_and_not_too_long() {
        let rules = SiteRules::parse("rules", SHIPPED.as_bytes()).unwrap();
        let aside = rules.limit("not-looked-before-entry", "look") * DEG;
        let least = rules.limit("not-looked-before-entry", "glance") * f64::from(TICK_RATE);
        let blind = rules.limit("not-looking", "off-path") * DEG;
        let most = rules.limit("not-looking", "for") * f64::from(TICK_RATE);
        let seen = looks(150, |tick, hand| {
            if tick == 10 {
                tap(Action::LookLeft, hand);
                tap(Action::LookRight, hand);
            }
        });
        let mut head = Head::default();
        let mut angles = Vec::new();
        for look in seen {
            head.tick(look, Side::Left);
            angles.push(head.angle);
        }
        let ticks = |is: &dyn Fn(f64) -> bool| angles.iter().filter(|a| is(**a)).count() as f64;
        for side in [1.0, -1.0] {
            assert!(ticks(&|a| a * side >= aside) >= least, "side {side}");
        }
        assert!(ticks(&|a| a.abs() > blind) < most);
    }
}
