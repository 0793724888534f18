//! Pallets: on the floor, on the forks, or fallen; and how forks enter them.
//!
//! Forks that come low, straight and in the middle go into a pallet; otherwise they push it. It is
//! taken up when the forks rise under it, and stands on the floor again when they come down.

use crate::course::warehouse::Warehouse;
use crate::load::event::{Happened, Leaving, LoadEvent};
use crate::load::motion::{Felt, Forks};
use crate::load::stack::Stack;
use crate::load::standing::Standing;
use crate::math::{DEG, Pose, Vec2, vec2, wrap_angle};
use crate::state;
use crate::state::State;
use crate::state::chain::Chain;
use crate::truck::loads::Carried;
use crate::truck::spec::TruckSpec;

/// Forks higher over lowered than this do not go in under a pallet, m (typical, no source).
pub const ENTRY_LOW_M: f64 = 0.015;
/// Forks more askew than this push the pallet (truck.md: common practice, no source).
pub const ENTRY_STRAIGHT: f64 = 3.0 * DEG;
/// Forks farther beside its middle than this push the pallet, m (common practice, no source).
pub const ENTRY_CENTRED_M: f64 = 0.060;
/// Forks raised higher over lowered than this carry the pallet, m (typical, no source).
pub const CARRIES_ABOVE_M: f64 = 0.020;
/// How far the middle of a pallet must lie inside the fork tips to be carried, m.
const SUPPORTED_M: f64 = 0.10;
/// A pallet that moves slower than this lies still, m/s.
const STILL: f64 = 0.02;

/// Where a pallet is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Where {
    /// On the floor: the engine moves it.
    Floor(Pose),
    /// On the forks.
    Forks,
    /// Fallen off the forks; it lies in the way.
    Fallen(Pose),
}

/// One pallet of the course.
#[derive(Clone, Debug, PartialEq)]
pub struct PalletNow {
    /// Where it is.
    pub at: Where,
    /// What is left of its load, while it is not on the forks.
    standing: Option<Standing>,
    /// Fork tips may go into it.
    pub admitted: bool,
    /// How far it was pushed since it last lay still, m.
    pub pushed: f64,
}

/// A thing for the engine to put on the floor.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fallen {
    /// Where it lands, and its heading.
    pub pose: Pose,
    /// Length and width, m.
    pub size: Vec2,
    /// Mass, kg.
    pub mass: f64,
    /// Velocity with which it lands, yard frame, m/s.
    pub velocity: Vec2,
    /// The pallet that fell whole; None for a case.
    pub pallet: Option<u32>,
}

/// All pallets of a course, and the load on the forks.
#[derive(Clone, Debug, PartialEq)]
pub struct Loads {
    /// On the forks.
    pub stack: Stack,
    /// Pallets on the forks, from the backrest, by their index in the course.
    pub carried: Vec<u32>,
    /// Every pallet of the course.
    pub pallets: Vec<PalletNow>,
    /// Cases that have fallen so far.
    pub cases_off: u32,
    /// The forks are asked to lift more than the truck may carry: so much, kg.
    pub refused: Option<f64>,
    /// What happened to the load in this tick.
    pub events: Vec<LoadEvent>,
    /// What has to be put on the floor after this tick.
    pub fallen: Vec<Fallen>,
    capacity: f64,
}

/// The forks of a truck as a load meets them.
pub fn forks_of(spec: &TruckSpec) -> Forks {
    let (g, f) = (&spec.geometry, &spec.forks);
    Forks {
        tips_x: g.fork_tips_x_m,
        backrest_x: g.backrest_x_m,
        gives: 0.0,
        backrest_top: f.backrest_top_m,
        spread: g.fork_spread_m,
        sway_per_m: f.sway_per_m,
    }
}

/// How high the underside of a carried pallet is over the floor, m.
pub fn underside(fork_height: f64) -> f64 {
    (fork_height - CARRIES_ABOVE_M).max(0.0)
}

impl Loads {
    /// As the course says at the start.
    pub fn new(warehouse: &Warehouse, spec: &TruckSpec) -> Self {
        let forks = forks_of(spec);
        let mut stack = Stack::new(forks);
        let mut carried = Vec::new();
        let mut behind = forks.backrest_x;
        let pallets = warehouse.pallets.iter().enumerate().map(|(i, p)| {
            let load = &warehouse.loads[p.load];
            let length = load.pallet.length_m;
            let at = vec2(behind - 0.5 * length, 0.0);
            let standing = Standing::new(load.clone(), at, &forks);
            let Some(pose) = p.floor else {
                behind -= length;
                stack.take_up(standing);
                carried.push(i as u32);
                return PalletNow { at: Where::Forks, standing: None, admitted: true, pushed: 0.0 };
            };
            PalletNow {
                at: Where::Floor(pose),
                standing: Some(standing),
                admitted: false,
                pushed: 0.0,
            }
        });
        let pallets = pallets.collect();
        Self {
            stack,
            carried,
            pallets,
            cases_off: 0,
            refused: None,
            events: Vec::new(),
            fallen: Vec::new(),
            capacity: spec.mass.capacity_kg,
        }
    }

    /// What the truck carries now.
    pub fn weights(&self, fork_height: f64) -> impl Iterator<Item = Carried> {
        self.stack.carried(underside(fork_height))
    }

    /// Mass on the forks, kg.
    pub fn mass(&self) -> f64 {
        self.stack.carried(0.0).map(|c| c.mass).sum()
    }

    /// Top of the load on the forks over the floor, m; 0 with empty forks.
    pub fn top(&self, fork_height: f64) -> f64 {
        let heights = self.stack.pallets.iter().filter(|p| !p.is_off).map(|p| p.load.height());
        heights.map(|h| h + underside(fork_height)).fold(0.0, f64::max)
    }

    /// Size of a pallet of the course, length and width, m.
    pub fn size(&self, pallet: u32, warehouse: &Warehouse) -> Vec2 {
        let slab = &warehouse.loads[warehouse.pallets[pallet as usize].load].pallet;
        vec2(slab.length_m, slab.width_m)
    }

    /// Pallets on the floor that forks can go into, with their place.
    pub fn on_floor(&self) -> impl Iterator<Item = (u32, Pose)> {
        self.pallets.iter().enumerate().filter_map(|(i, p)| match p.at {
            Where::Floor(pose) => Some((i as u32, pose)),
            _ => None,
        })
    }

    /// What is left on a pallet, wherever it is.
    pub fn standing(&self, pallet: u32) -> Option<&Standing> {
        if let Some(i) = self.carried.iter().position(|c| *c == pallet) {
            return self.stack.pallets.get(i);
        }
        self.pallets[pallet as usize].standing.as_ref()
    }

    /// For each pallet whether it is on the forks or has fallen, and whether forks may go in: what
    /// the engine has to follow.
    pub fn places(&self) -> impl Iterator<Item = (bool, bool, bool)> {
        let place =
            |p: &PalletNow| (p.at == Where::Forks, matches!(p.at, Where::Fallen(_)), p.admitted);
        self.pallets.iter().map(place)
    }

    /// The engine has moved a pallet on the floor.
    pub fn moved(&mut self, pallet: u32, pose: Pose, speed: f64) {
        let p = &mut self.pallets[pallet as usize];
        match &mut p.at {
            Where::Floor(at) => {
                if speed < STILL {
                    p.pushed = 0.0;
                } else {
                    p.pushed += (pose.at - at.at).length();
                }
                *at = pose;
            }
            Where::Fallen(at) => *at = pose,
            Where::Forks => {}
        }
    }

    /// The pallet that is pushed farthest now, and how far, m.
    pub fn pushed(&self) -> Option<(u32, f64)> {
        let pushed = self.pallets.iter().enumerate().filter(|(_, p)| p.pushed > 0.0);
        pushed.map(|(i, p)| (i as u32, p.pushed)).max_by(|a, b| a.1.total_cmp(&b.1))
    }

    /// Before the engine's step: whether forks may enter, and what rising or lowering forks do.
    /// `asks_up` while the rider raises them. Returns the height that the forks may have at most.
    pub fn forks(&mut self, truck: Pose, fork_height: f64, asks_up: bool, w: &Warehouse) -> f64 {
        self.refused = None;
        self.admit(truck, fork_height, w);
        if !self.carried.is_empty() && fork_height <= ENTRY_LOW_M {
            self.set_down(truck);
        }
        let within = self.within_reach(truck, w);
        if within.is_empty() {
            return f64::INFINITY;
        }
        if fork_height <= CARRIES_ABOVE_M {
            return f64::INFINITY;
        }
        let mass: f64 = self.mass() + within.iter().map(|(i, _)| self.floor_mass(*i)).sum::<f64>();
        if mass > self.capacity {
            self.refused = asks_up.then_some(mass);
            return CARRIES_ABOVE_M;
        }
        for (i, at) in within {
            let p = &mut self.pallets[i as usize];
            if let Some(standing) = p.standing.take() {
                p.at = Where::Forks;
                p.pushed = 0.0;
                let forks = self.stack.forks;
                self.stack.take_up(standing.moved_to(at, &forks));
                self.carried.push(i);
            }
        }
        f64::INFINITY
    }

    fn floor_mass(&self, pallet: u32) -> f64 {
        let standing = self.pallets[pallet as usize].standing.as_ref();
        standing.and_then(|s| s.carried(0.0)).map_or(0.0, |c| c.mass)
    }

    /// Decides for each pallet, as long as the tips are outside, whether they may go in.
    fn admit(&mut self, truck: Pose, fork_height: f64, w: &Warehouse) {
        let (tips, backrest) = (self.stack.forks.tips_x, self.stack.forks.backrest_x);
        let to_body = truck.finder();
        for (p, file) in self.pallets.iter_mut().zip(&w.pallets) {
            let Where::Floor(pose) = p.at else { continue };
            let slab = &w.loads[file.load].pallet;
            let at = to_body(pose.at);
            let face = at.x + 0.5 * slab.length_m;
            // What is nowhere near is not looked at further.
            if face < tips - 0.5 || at.x > backrest || at.y.abs() > slab.width_m {
                p.admitted = false;
                continue;
            }
            let outside = face < tips - 0.005;
            if outside {
                p.admitted = fork_height <= ENTRY_LOW_M
                    && askew(pose.heading - truck.heading) <= ENTRY_STRAIGHT
                    && at.y.abs() <= ENTRY_CENTRED_M;
            }
        }
    }

    /// Pallets that rising forks take up now, from the backrest, with their middles in the body
    /// frame.
    fn within_reach(&self, truck: Pose, w: &Warehouse) -> Vec<(u32, Vec2)> {
        let forks = &self.stack.forks;
        let mut within: Vec<(u32, Vec2)> = Vec::new();
        for (i, p) in self.pallets.iter().enumerate() {
            let Where::Floor(pose) = p.at else { continue };
            if !p.admitted {
                continue;
            }
            let at = truck.to_body(pose.at);
            let half = 0.5 * w.loads[w.pallets[i].load].pallet.length_m;
            let inside = at.x >= forks.tips_x + SUPPORTED_M && at.x - half < forks.backrest_x;
            if inside {
                within.push((i as u32, at));
            }
        }
        within.sort_by(|a, b| b.1.x.total_cmp(&a.1.x));
        within
    }

    fn set_down(&mut self, truck: Pose) {
        let carried = core::mem::take(&mut self.carried);
        for (i, standing) in carried.into_iter().zip(self.stack.set_down()) {
            let p = &mut self.pallets[i as usize];
            if standing.is_off {
                continue;
            }
            let at = truck.to_yard(standing.at());
            p.at = Where::Floor(Pose { at, heading: truck.heading });
            p.admitted = true;
            p.standing = Some(standing);
        }
    }

    /// One tick of the load on the forks. `velocity` of the load axle's middle in the yard, m/s.
    pub fn step(&mut self, felt: &Felt, truck: Pose, velocity: Vec2, fork_height: f64) {
        self.events.clear();
        self.fallen.clear();
        if self.stack.pallets.is_empty() {
            return;
        }
        self.events.extend_from_slice(self.stack.step(felt));
        for event in &self.events {
            let standing = &self.stack.pallets[event.pallet];
            let (leaving, size, mass, pallet) = match event.what {
                Happened::CaseFell { leaving, .. } => {
                    self.cases_off += 1;
                    let case = &standing.load.case;
                    (leaving, vec2(case.length_m, case.width_m), case.mass_kg, None)
                }
                Happened::LoadFell { leaving, .. } => {
                    self.cases_off += standing.cases_left() as u32;
                    let slab = &standing.load.pallet;
                    let mass = standing.load.as_carried(Vec2::default(), 0.0).mass;
                    let pallet = self.carried.get(event.pallet).copied();
                    (leaving, vec2(slab.length_m, slab.width_m), mass, pallet)
                }
                _ => continue,
            };
            let fallen = lands(&leaving, truck, velocity, felt.yaw_rate, underside(fork_height));
            let (at, velocity) = fallen;
            let pose = Pose { at, heading: truck.heading };
            self.fallen.push(Fallen { pose, size, mass, velocity, pallet });
            if let Some(i) = pallet {
                self.pallets[i as usize].at = Where::Fallen(pose);
            }
        }
        self.clear_fallen();
    }

    /// Pallets that fell off are no longer on the forks.
    fn clear_fallen(&mut self) {
        if self.stack.pallets.iter().all(|p| !p.is_off) {
            return;
        }
        let keep: Vec<bool> = self.stack.pallets.iter().map(|p| !p.is_off).collect();
        let mut kept = keep.iter();
        self.carried.retain(|_| kept.next().copied().unwrap_or(false));
        self.stack.pallets.retain(|p| !p.is_off);
    }
}

/// Where a thing lands that leaves the forks, and with which velocity.
fn lands(
    leaving: &Leaving,
    truck: Pose,
    velocity: Vec2,
    yaw_rate: f64,
    underside: f64,
) -> (Vec2, Vec2) {
    let from = truck.to_yard(leaving.at);
    let carried = velocity + (from - truck.at).left() * yaw_rate;
    let v = carried + leaving.velocity.rotated(truck.heading);
    (from + v * leaving.fall_seconds(underside, 0.15), v)
}

/// The angle between two things whose either end may be the front, rad, 0 to pi/2.
pub fn askew(angle: f64) -> f64 {
    let a = wrap_angle(angle).abs();
    a.min(core::f64::consts::PI - a)
}

impl State for Where {
    fn digest(&self, chain: &mut Chain) {
        let (kind, pose) = match self {
            Self::Floor(pose) => (0_u32, Some(*pose)),
            Self::Forks => (1, None),
            Self::Fallen(pose) => (2, Some(*pose)),
        };
        kind.digest(chain);
        pose.digest(chain);
    }
}

state!(PalletNow { at, standing, admitted, pushed });
// Events and what fell are handed on within the tick.
state!(Loads { stack, carried, pallets, cases_off, refused } left out { events, fallen, capacity });

#[cfg(test)]
mod tests;
