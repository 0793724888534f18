//! Rest and motion: when the truck moves off from rest, and when it comes to rest.

use crate::moment::Moment;
use crate::rules::Common;
use crate::time::Tick;

/// What a tick did to rest.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Change {
    /// Nothing.
    None,
    /// It stood, and now moves.
    MovedOff,
    /// It has now stood for long enough to be at rest.
    CameToRest,
}

/// Follows rest. A drive begins at rest. Passing through zero speed, as when plugging over into
/// the other direction, is no rest: it takes time.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Rest {
    speed: f64,
    hold: Tick,
    still_since: Option<Tick>,
    at_rest: bool,
}

impl Rest {
    /// At rest.
    pub(crate) fn new(common: &Common) -> Self {
        Self { speed: common.rest_speed, hold: common.rest_for, still_since: None, at_rest: true }
    }

    /// Whether it is at rest after the last tick seen.
    pub(crate) fn at_rest(&self) -> bool {
        self.at_rest
    }

    /// Looks at one tick.
    pub(crate) fn see(&mut self, m: &Moment) -> Change {
        if m.truck.speed.abs() > self.speed {
            self.still_since = None;
            if self.at_rest {
                self.at_rest = false;
                return Change::MovedOff;
            }
            return Change::None;
        }
        let since = *self.still_since.get_or_insert(m.tick);
        if !self.at_rest && m.tick - since >= self.hold {
            self.at_rest = true;
            return Change::CameToRest;
        }
        Change::None
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::rules::SiteRules;
    use crate::watch::test_support::Drive;

    fn changes(drive: &Drive) -> Vec<(Tick, Change)> {
        let mut rest = Rest::new(&SiteRules::shipped().common(0.05));
        let seen = drive.0.iter().map(|m| (m.tick, rest.see(m)));
        seen.filter(|(_, change)| *change != Change::None).collect()
    }

    #[test]
    fn rest_takes_a_second_and_motion_none() {
        let d = Drive::new().still(200).rolling(10, -0.06).rolling(64, 0.05).rolling(5, 0.06);
        assert_eq!(changes(&d), [(200, Change::MovedOff)]);
        let d = Drive::new().still(200).rolling(10, 0.06).rolling(65, -0.05).rolling(5, -0.06);
        assert_eq!(
            changes(&d),
            [(200, Change::MovedOff), (274, Change::CameToRest), (275, Change::MovedOff)]
        );
    }

    #[test]
    fn a_standstill_is_counted_anew_after_a_twitch() {
        let d = Drive::new().rolling(9, 1.0).still(60).rolling(1, 0.1).still(60);
        assert_eq!(changes(&d), [(0, Change::MovedOff)]);
    }
}
