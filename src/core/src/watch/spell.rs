//! A spell: something wrong that lasts. It becomes a finding when it has lasted longer than it
//! may, and what comes again soon after belongs to the same finding. What goes on for long counts again
//! and again: one long look aside must not cost less than several short ones.

use crate::finding::{Finding, Severity, Unit};
use crate::math::Vec2;
use crate::moment::Moment;
use crate::rules::{Common, Yardstick, over};
use crate::time::{DT, Tick};
use crate::watch::{Handle, Report};

/// What is wrong in this tick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Seen {
    /// The value, in the spell's unit.
    pub(super) measured: f64,
    /// The limit, in the spell's unit.
    pub(super) limit: f64,
    /// How bad it is: the finding keeps the values of its worst tick.
    pub(super) badness: f64,
    /// How grave it is.
    pub(super) severity: Severity,
}

impl Seen {
    /// A value whose badness is itself.
    pub(super) fn of(measured: f64, limit: f64, severity: Severity) -> Self {
        Self { measured, limit, badness: measured, severity }
    }
}

/// Tells when what goes on counts again.
#[derive(Clone, Copy, Debug)]
pub(super) struct Again {
    since: Tick,
    metres: f64,
}

impl Again {
    /// It counts from this tick on.
    pub(super) fn new(since: Tick) -> Self {
        Self { since, metres: 0.0 }
    }

    /// Looks at one tick in which it goes on: whether it counts anew from here.
    pub(super) fn counts(&mut self, m: &Moment, common: &Common) -> bool {
        self.metres += m.truck.speed.abs() * DT;
        let long = m.tick.saturating_sub(self.since) >= common.spell_ticks;
        let counts = long || over(self.metres, common.spell_metres);
        if counts {
            *self = Self::new(m.tick);
        }
        counts
    }
}

#[derive(Clone, Copy, Debug)]
struct Lasting {
    from: Tick,
    at: Vec2,
    last: Tick,
    bad_ticks: Tick,
    worst: Seen,
    handle: Option<(Handle, Again)>,
}

/// Follows one thing that can be wrong for a while.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spell {
    unit: Unit,
    may_last_s: f64,
    lasting: Option<Lasting>,
}

impl Spell {
    /// Nothing wrong yet; it may last for this many seconds.
    pub(super) fn new(unit: Unit, may_last_s: f64) -> Self {
        Self { unit, may_last_s, lasting: None }
    }

    /// Seconds of wrong so far, counting this tick.
    pub(super) fn seconds_with_this(&self) -> f64 {
        f64::from(1 + self.lasting.map_or(0, |l| l.bad_ticks)) * DT
    }

    /// Looks at one tick: what is wrong in it, if anything.
    pub(super) fn see(&mut self, m: &Moment, y: &Yardstick, seen: Option<Seen>, out: &mut Report) {
        let Some(seen) = seen else {
            // A spell that was never long enough is forgotten at once, a finding a little later.
            self.lasting = self.lasting.filter(|l| {
                l.handle.is_some() && m.tick.saturating_sub(l.last) < y.common.again_after
            });
            return;
        };
        let l = self.lasting.get_or_insert(Lasting {
            from: m.tick,
            at: m.truck.platform_in_yard,
            last: m.tick,
            bad_ticks: 0,
            worst: seen,
            handle: None,
        });
        l.last = m.tick;
        l.bad_ticks += 1;
        if seen.badness > l.worst.badness {
            let severity = seen.severity.max(l.worst.severity);
            l.worst = Seen { severity, ..seen };
        }
        if let Some((_, again)) = &mut l.handle
            && again.counts(m, &y.common)
        {
            (l.from, l.at, l.worst) = (m.tick, m.truck.platform_in_yard, seen);
            l.handle = Some((open(self.unit, y, l, m.tick, out), Again::new(m.tick)));
        }
        match l.handle {
            Some((h, _)) => {
                out.worsen(h, m.tick, l.worst.measured, l.worst.limit, l.worst.severity);
            }
            None if f64::from(l.bad_ticks) * DT > self.may_last_s => {
                l.handle = Some((open(self.unit, y, l, m.tick, out), Again::new(m.tick)));
            }
            None => {}
        }
    }
}

fn open(unit: Unit, y: &Yardstick, l: &Lasting, now: Tick, out: &mut Report) -> Handle {
    out.open(Finding {
        code: y.code.to_owned(),
        severity: l.worst.severity,
        from: l.from,
        to: now,
        measured: l.worst.measured,
        limit: l.worst.limit,
        unit,
        at: l.at,
        before: None,
        cause: None,
        point: None,
    })
}
