//! A spell: something wrong that lasts. It becomes a finding when it has lasted longer than it
//! may, and what comes again soon after belongs to the same finding. What goes on for long counts again
//! and again: one long look aside must not cost less than several short ones. Where it is a matter of how
//! one drives along, what comes and goes counts no more often than what goes on: to be now and then
//! over a limit must not cost more than to be over it all the time.

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
        let counts = self.is_over(m, common);
        if counts {
            *self = Self::new(m.tick);
        }
        counts
    }

    /// Looks at one tick: whether so much way or time has passed that what is wrong counts anew.
    fn is_over(&mut self, m: &Moment, common: &Common) -> bool {
        self.metres += m.truck.speed.abs() * DT;
        let long = m.tick.saturating_sub(self.since) >= common.spell_ticks;
        long || over(self.metres, common.spell_metres)
    }
}

#[derive(Clone, Copy, Debug)]
struct Lasting {
    from: Tick,
    at: Vec2,
    last: Tick,
    bad_ticks: Tick,
    worst: Seen,
    /// It has lasted longer than it may.
    is_told: bool,
}

/// The last finding of a spell.
#[derive(Clone, Copy, Debug)]
struct Told {
    handle: Handle,
    again: Again,
    worst: Seen,
}

/// Follows one thing that can be wrong for a while.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spell {
    unit: Unit,
    may_last_s: f64,
    /// What comes again before it would count again is the same.
    is_of_way: bool,
    lasting: Option<Lasting>,
    told: Option<Told>,
}

impl Spell {
    /// Nothing wrong yet; it may last for this many seconds. Each time is one by itself.
    pub(super) fn new(unit: Unit, may_last_s: f64) -> Self {
        Self { unit, may_last_s, is_of_way: false, lasting: None, told: None }
    }

    /// The same for how one drives along: what comes and goes on the way on which it counts once is the
    /// same.
    pub(super) fn of_way(unit: Unit, may_last_s: f64) -> Self {
        Self { is_of_way: true, ..Self::new(unit, may_last_s) }
    }

    /// Seconds of wrong so far, counting this tick.
    pub(super) fn seconds_with_this(&self) -> f64 {
        f64::from(1 + self.lasting.map_or(0, |l| l.bad_ticks)) * DT
    }

    /// Looks at one tick: what is wrong in it, if anything.
    pub(super) fn see(&mut self, m: &Moment, y: &Yardstick, seen: Option<Seen>, out: &mut Report) {
        if self.told.as_mut().is_some_and(|t| t.again.is_over(m, &y.common)) {
            self.told = None;
        }
        let Some(seen) = seen else {
            // A spell that was never long enough is forgotten at once, a finding a little later.
            self.lasting = self
                .lasting
                .filter(|l| l.is_told && m.tick.saturating_sub(l.last) < y.common.again_after);
            self.told = self.told.filter(|_| self.is_of_way || self.lasting.is_some());
            return;
        };
        let here = m.truck.platform_in_yard;
        let fresh = Lasting {
            from: m.tick,
            at: here,
            last: m.tick,
            bad_ticks: 0,
            worst: seen,
            is_told: false,
        };
        let l = self.lasting.get_or_insert(fresh);
        l.last = m.tick;
        l.bad_ticks += 1;
        l.worst = worse(l.worst, seen);
        if l.is_told && self.told.is_none() {
            (l.from, l.at, l.worst) = (m.tick, here, seen);
        }
        l.is_told |= f64::from(l.bad_ticks) * DT > self.may_last_s;
        if !l.is_told {
            return;
        }
        let told = self.told.get_or_insert_with(|| Told {
            handle: open(self.unit, y, l, m.tick, out),
            again: Again::new(m.tick),
            worst: l.worst,
        });
        told.worst = worse(told.worst, l.worst);
        let Seen { measured, limit, severity, .. } = told.worst;
        out.worsen(told.handle, m.tick, measured, limit, severity);
    }
}

/// The worse of both, as grave as the graver.
fn worse(so_far: Seen, seen: Seen) -> Seen {
    if seen.badness > so_far.badness {
        Seen { severity: seen.severity.max(so_far.severity), ..seen }
    } else {
        so_far
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
