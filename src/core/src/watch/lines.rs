//! The way up to a line: what a watcher notes on it until the line is crossed.

use std::collections::BTreeMap;

use crate::moment::{Moment, WayKind};
use crate::time::{DT, Tick};

/// A line that is no longer told of is forgotten after so many metres: a truck that stands has no
/// leading end, one that drives away has left it.
const FORGOTTEN_M: f64 = 0.5;

struct Approach<T> {
    note: T,
    ahead: f64,
    looked: [bool; 2],
    unseen_m: f64,
}

/// Lines of one kind that are being driven up to.
pub(super) struct Lines<T> {
    kind: WayKind,
    near: BTreeMap<u32, Approach<T>>,
    crossed: BTreeMap<u32, Tick>,
}

impl<T: Default> Lines<T> {
    /// None yet.
    pub(super) fn new(kind: WayKind) -> Self {
        Self { kind, near: BTreeMap::new(), crossed: BTreeMap::new() }
    }

    /// Looks at one tick: `note` is asked for every line on the way, with the distance to it, m, and
    /// whether the rider looks to either side of it.
    /// What was noted comes back for each line crossed in this tick; crossing one again within
    /// `again_after` ticks is the same crossing.
    pub(super) fn see(
        &mut self,
        m: &Moment,
        again_after: Tick,
        note: impl Fn(&mut T, f64, [bool; 2]),
    ) -> Vec<T> {
        let driven = m.truck.speed.abs() * DT;
        let told = |index: u32| m.ways.iter().find(|w| w.kind == self.kind && w.index == index);
        self.near.retain(|index, a| {
            a.unseen_m = if told(*index).is_some() { 0.0 } else { a.unseen_m + driven };
            a.looked = [false; 2];
            a.unseen_m <= FORGOTTEN_M
        });
        for way in m.ways.iter().filter(|w| w.kind == self.kind) {
            let (ahead, looked) = (way.ahead, way.looked);
            let fresh = || Approach { note: T::default(), ahead, looked, unseen_m: 0.0 };
            let a = self.near.entry(way.index).or_insert_with(fresh);
            (a.ahead, a.looked) = (ahead, looked);
        }
        for a in self.near.values_mut() {
            note(&mut a.note, a.ahead, a.looked);
        }
        let mut done = Vec::new();
        for way in m.ways.iter().filter(|w| w.kind == self.kind && w.crossed) {
            let noted = self.near.remove(&way.index).map(|a| a.note).unwrap_or_default();
            let before = self.crossed.insert(way.index, m.tick);
            if before.is_none_or(|t| m.tick - t > again_after) {
                done.push(noted);
            }
        }
        done
    }
}
