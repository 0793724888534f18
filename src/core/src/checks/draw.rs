//! What is the matter with a truck this morning: drawn from the seed, by the shares of the site's list.
//!
//! How hard a truck is to inspect must not hang on the draw more than it has to. So first the way in which
//! a defect is found is drawn, each as likely as the others, then a point of that way, then one of its
//! defects: a list with many points that are tried does not make most defects of that kind.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::Rng;
use serde::{Deserialize, Serialize};

use crate::checks::list::{CheckList, Defect, How, Point};
use crate::dice::{Stream, dice};
use crate::truck::condition::Condition;

/// What a walk-round is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Mode {
    /// Most trucks have something, and after each it is told what.
    Practice,
    /// Few trucks have something, as in life; it is told after the whole drive.
    Daily,
}

/// How a defect is found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Found {
    /// It shows in the view of the whole truck.
    AtAGlance,
    /// By looking closer, from wherever the part is seen.
    Closer,
    /// By looking closer from the right side.
    FromOneSide,
    /// By trying.
    ByTrying,
}

/// Every way.
const WAYS: [Found; 4] = [Found::AtAGlance, Found::Closer, Found::FromOneSide, Found::ByTrying];

impl Found {
    /// How this defect of this point is found.
    pub fn of(point: &Point, defect: &Defect) -> Self {
        if point.how == How::Try {
            Self::ByTrying
        } else if defect.glance {
            Self::AtAGlance
        } else if defect.seen_from.len() < point.places.len() {
            Self::FromOneSide
        } else {
            Self::Closer
        }
    }
}

/// A truck as it stands there in the morning.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Drawn {
    /// What is the matter: point and defect, by their indices in the list, in the order of points.
    pub has: Vec<(usize, usize)>,
    /// What its hour meter shows, tenths of an hour.
    pub hours: u32,
}

impl Drawn {
    /// Draws a truck of this name.
    pub fn new(list: &CheckList, mode: Mode, truck: &str, seed: u64) -> Self {
        let mut dice = dice(seed, Stream::Truck);
        // Drawn first and always, so that it tells nothing of the rest.
        let hours = 4_000 + below(&mut dice, 46_000) as u32;
        let share = match mode {
            Mode::Practice => list.practice_share,
            Mode::Daily => list.daily_share,
        };
        let has_any = f64::from(dice.next_u32()) / 4_294_967_296.0 < share;
        let count = 1 + below(&mut dice, list.most_defects as usize);
        let mut has: Vec<(usize, usize)> = Vec::new();
        for _ in 0..if has_any { count } else { 0 } {
            let left: Vec<(usize, usize)> = list
                .possible(truck)
                .filter(|(p, _)| has.iter().all(|(taken, _)| taken != p))
                .collect();
            if let Some(drawn) = one_of(list, &left, &mut dice) {
                has.push(drawn);
            }
        }
        has.sort_unstable();
        Self { has, hours }
    }

    /// What has become of a sound machine.
    pub fn condition(&self, list: &CheckList) -> Condition {
        let defects = self.has.iter().filter_map(|at| list.defect(*at));
        defects.fold(Condition::SOUND, |condition, d| d.changes.on(condition))
    }
}

fn one_of(
    list: &CheckList,
    left: &[(usize, usize)],
    dice: &mut ChaCha8Rng,
) -> Option<(usize, usize)> {
    let way = |(p, d): &(usize, usize)| {
        let point = &list.points[*p];
        Found::of(point, &point.defects[*d])
    };
    let ways: Vec<Found> =
        WAYS.into_iter().filter(|w| left.iter().any(|at| way(at) == *w)).collect();
    let drawn = *ways.get(below(dice, ways.len()))?;
    let mut points: Vec<usize> = left.iter().filter(|at| way(at) == drawn).map(|at| at.0).collect();
    points.dedup();
    let point = *points.get(below(dice, points.len()))?;
    let here: Vec<(usize, usize)> =
        left.iter().copied().filter(|at| at.0 == point && way(at) == drawn).collect();
    here.get(below(dice, here.len())).copied()
}

/// A whole number below `n`, each as likely as the others to one part in a hundred million.
fn below(dice: &mut ChaCha8Rng, n: usize) -> usize {
    ((u64::from(dice.next_u32()) * n as u64) >> 32) as usize
}
