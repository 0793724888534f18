//! One pallet on the forks, with all that is still on it.

use crate::load::column::{Column, Ground, Report, STRIKES_ABOVE, Wall};
use crate::load::event::{Happened, Interface, Leaving, Stop, Towards};
use crate::load::grid::{along, neighbour};
use crate::load::motion::{Felt, Forks};
use crate::load::pallet::PalletLoad;
use crate::load::rock::Block;
use crate::load::slide::Slide;
use crate::load::tilt::Tilt;
use crate::math::{G, Vec2, vec2};
use crate::state;
use crate::truck::loads::Carried;

/// A column this near to the backrest leans on it, m.
const LEANS_WITHIN: f64 = 0.02;

/// A pallet on the forks.
#[derive(Clone, Debug, PartialEq)]
pub struct Standing {
    /// The load as its file describes it, untouched.
    pub load: PalletLoad,
    /// Middle of the pallet when it was taken up, body frame, m.
    pub home: Vec2,
    /// How the pallet slid on the forks.
    pub slide: Slide,
    /// Columns, row by row from the backrest, in a row from left to right.
    pub columns: Vec<Column>,
    /// How the whole load rocks on the forks; a wrapped load only.
    pub tilt: Tilt,
    /// It fell off the forks.
    pub is_off: bool,
    /// Push below which nothing on the pallet moves, m/s^2.
    quiet_below: f64,
    /// Farthest middle of a case or corner of the pallet from the pallet's middle, m.
    reach: f64,
    /// Something on the pallet moves.
    busy: bool,
    /// What it is for the truck, with its underside on the floor.
    carried: Carried,
}

/// What stands before a pallet on the forks.
#[derive(Clone, Copy)]
pub(super) struct Ahead {
    /// Its face at x, m.
    pub(super) x: f64,
    /// Its velocity along x relative to the truck, m/s.
    pub(super) speed: f64,
    pub(super) what: Stop,
}

impl Standing {
    /// A load as its file describes it, with the middle of its pallet at `home`, body frame, m.
    pub fn new(load: PalletLoad, home: Vec2, forks: &Forks) -> Self {
        let columns = (0..load.layers.len())
            .map(|c| {
                let place = load.place_of(c / load.across, c % load.across);
                Column::new(&load, place, usize::from(load.layers[c]))
            })
            .collect();
        let upright = Block::rectangle(1.0, 1.0);
        let carried = load.as_carried(home, 0.0);
        let mut standing = Self {
            reach: 0.5 * vec2(load.pallet.length_m, load.pallet.width_m).length(),
            load,
            home,
            slide: Slide::default(),
            columns,
            tilt: Tilt::new(upright, upright),
            is_off: false,
            quiet_below: 0.0,
            busy: false,
            carried,
        };
        standing.refresh(forks);
        standing
    }

    /// The same load, taken up with the middle of its pallet elsewhere, body frame, m. Cases stay
    /// where they have slid to.
    pub fn moved_to(mut self, home: Vec2, forks: &Forks) -> Self {
        self.home = home;
        self.slide = Slide::default();
        self.refresh(forks);
        self
    }

    /// Middle of the pallet, body frame, m.
    pub fn at(&self) -> Vec2 {
        self.home + self.slide.offset
    }

    /// How far it leans, as a share of the angle from which it does not come back, along x and y:
    /// the wrapped load as a whole, or else the column that leans most.
    pub fn lean(&self) -> Vec2 {
        let leans = self.columns.iter().map(|c| c.tilt.leans()).chain([self.tilt.leans()]);
        leans.fold(Vec2::default(), |most, l| if l.length() > most.length() { l } else { most })
    }

    /// Cases that are still on it.
    pub fn cases_left(&self) -> usize {
        self.columns.iter().map(|c| c.cases.len()).sum()
    }

    /// Mass, place and yaw inertia as the load now stands, its underside `underside` m over the
    /// floor; None when it fell off.
    pub fn carried(&self, underside: f64) -> Option<Carried> {
        let height = self.carried.height + underside;
        (!self.is_off).then_some(Carried { height, ..self.carried })
    }

    /// The farthest that anything of it has slid on what is under it, m.
    pub fn farthest_slide(&self) -> f64 {
        let cases = self.columns.iter().flat_map(|c| c.cases.iter().map(|k| k.slide.offset));
        cases.chain([self.slide.offset]).map(Vec2::length).fold(0.0, f64::max)
    }

    /// The side push, m/s^2 as felt at the load (sway counted), from which something slides or
    /// rocks sideways.
    pub fn holds_sideways(&self) -> f64 {
        let tips = |t: &Tilt| t.across.edges[0].uplift.min(t.across.edges[1].uplift);
        let mut least = self.load.grip.on_forks.at_rest;
        if self.load.wrapped {
            return G * least.min(tips(&self.tilt));
        }
        for c in self.columns.iter().filter(|c| !c.cases.is_empty()) {
            least = least.min(c.grip).min(tips(&c.tilt));
        }
        G * least
    }

    /// Recomputes what follows from where things stand.
    fn refresh(&mut self, forks: &Forks) {
        let Self { load, columns, .. } = &*self;
        let cases = columns.iter().flat_map(|c| {
            c.cases
                .iter()
                .enumerate()
                .map(move |(layer, case)| (c.home + case.shift, load.height_of(layer)))
        });
        self.carried = load.carried_with(cases, self.home + self.slide.offset, 0.0);
        self.quiet_below = self.columns.iter().map(Column::quiet_below).fold(f64::MAX, f64::min);
        if self.load.wrapped {
            (self.tilt.lengthwise, self.tilt.across) = self.whole(forks);
            self.quiet_below = 0.0;
        }
    }

    /// The wrapped load as one block on the forks: across, its base ends where pallet or forks do.
    fn whole(&self, forks: &Forks) -> (Block, Block) {
        let (at, com, height) = (self.at(), self.carried.at, self.carried.height);
        let (length, width) = (self.load.pallet.length_m, self.load.pallet.width_m);
        let top = self.load.height();
        let block = |plus: f64, minus: f64, com: f64, size: f64| {
            // A middle of mass beyond the base is no block: it is taken as just inside, and lifts
            // off at the least push.
            let arm = |x: f64| x.max(1e-3);
            let gyration2 = (size * size + top * top) / 12.0;
            Block::new([arm(plus - com), arm(com - minus)], height, gyration2)
        };
        let (front, rear) = (at.x + 0.5 * length, at.x - 0.5 * length);
        let (left, right) = (at.y + 0.5 * width, at.y - 0.5 * width);
        let half = 0.5 * forks.spread;
        (
            block(front, rear.max(forks.tips_x), com.x, length),
            block(left.min(half), right.max(-half), com.y, width),
        )
    }

    /// Gives the pallet another velocity along x at once; unwrapped cases go on as they did.
    pub(super) fn bump(&mut self, speed: f64) {
        let change = vec2(speed - self.slide.velocity.x, 0.0);
        self.slide.velocity.x = speed;
        if self.load.wrapped {
            return;
        }
        for column in &mut self.columns {
            column.jump(change);
        }
        self.busy = true;
    }

    /// One tick; the speed with which it ran into what is ahead.
    pub(super) fn step(
        &mut self,
        forks: &Forks,
        motion: &Felt,
        ahead: Ahead,
        dt: f64,
        report: &mut Report<'_>,
    ) -> Option<f64> {
        if self.is_off {
            return None;
        }
        let before = self.slide.velocity;
        let front = self.at().x + 0.5 * self.load.pallet.length_m;
        let touches = front >= ahead.x - 1e-9 && before.x <= ahead.speed.max(0.0);
        let home = self.home;
        let push_on = |slide: &Slide| {
            let felt = motion.felt_at(home + slide.offset, forks);
            let push = -felt - motion.turning(slide.velocity);
            vec2(if touches { push.x.min(0.0) } else { push.x }, push.y)
        };
        // In a turn the push hangs on where the pallet is and how it moves: take it half-way.
        let mut middle = self.slide;
        let grip = self.load.grip.on_forks;
        if self.tilt.lean.is_standing() {
            if self.slide.is_moving() && motion.yaw_rate != 0.0 {
                middle.step(push_on(&self.slide), grip, 0.5 * dt);
            }
            self.slide.step(push_on(&middle), grip, dt);
        }
        let felt = motion.felt_at(home + middle.offset, forks);
        let turning = motion.turning(middle.velocity);
        // What the pallet does beyond the forks under it.
        let more = turning + (self.slide.velocity - before) * (1.0 / dt);
        let slides = self.slide.is_moving();
        let was_moving = before != Vec2::default();
        let mut struck = None;
        if slides || was_moving {
            struck = self.stop_at(ahead, report);
            match (was_moving, self.slide.is_moving()) {
                (false, true) => report.say(Happened::SlideBegan { interface: Interface::Forks }),
                (true, false) => report.say(Happened::SlideEnded {
                    interface: Interface::Forks,
                    by: self.slide.offset,
                }),
                _ => {}
            }
        }
        let mut changed = slides || was_moving;
        if self.load.wrapped {
            self.rock(forks, felt + more, dt, report);
        } else if self.must_look_at_columns(felt + more, motion, forks) {
            let was_busy = self.busy;
            self.step_columns(forks, motion, more, dt, report);
            changed |= was_busy || self.busy;
        }
        if changed {
            self.refresh(forks);
            self.slide_off(forks, report);
        }
        struck
    }

    /// Nothing on the pallet moves while the push stays below what the weakest column takes.
    fn must_look_at_columns(&self, felt: Vec2, motion: &Felt, forks: &Forks) -> bool {
        let turn = motion.yaw_rate * motion.yaw_rate + motion.yaw_acceleration.abs();
        let sway = 1.0 + forks.sway_per_m * motion.fork_height;
        self.busy || felt.length() + turn * self.reach * sway > self.quiet_below
    }

    /// Holds the pallet at what is ahead.
    fn stop_at(&mut self, ahead: Ahead, report: &mut Report<'_>) -> Option<f64> {
        let excess = self.at().x + 0.5 * self.load.pallet.length_m - ahead.x;
        let speed = self.slide.velocity.x - ahead.speed;
        if excess <= 0.0 {
            return None;
        }
        // What came to rest or turned back within the tick does not stay inside it either.
        self.slide.offset.x -= excess;
        if speed <= 0.0 {
            return None;
        }
        self.bump(ahead.speed);
        if speed > STRIKES_ABOVE {
            report.say(Happened::Struck { stop: ahead.what, speed, case: None });
        }
        Some(speed)
    }

    /// The wrapped load rocks as one block.
    fn rock(&mut self, forks: &Forks, felt: Vec2, dt: f64, report: &mut Report<'_>) {
        let front = self.at().x + 0.5 * self.load.pallet.length_m;
        let held = front >= forks.backrest_x + forks.gives - LEANS_WITHIN
            && self.carried.height < forks.backrest_top;
        let is_walled = |way: Towards| held && way == Towards::Backrest;
        let is_free = |way: Towards| !is_walled(way);
        let grip = if self.slide.is_moving() { 0.0 } else { self.load.grip.on_forks.at_rest };
        let tilted = self.tilt.step(-felt, grip, is_free, is_walled, dt);
        let (column, way) = (0, self.tilt.way());
        if tilted.began {
            report.say(Happened::RockBegan { column, way });
        }
        if let Some(peak) = tilted.ended {
            report.say(Happened::RockEnded { column, peak });
        }
        if tilted.lost {
            report.say(Happened::RockLost { column, way });
        }
        if self.tilt.lean.is_over() {
            self.fall_over(way, report);
        }
    }

    fn fall_over(&mut self, way: Towards, report: &mut Report<'_>) {
        self.is_off = true;
        let (out, block) = match way {
            Towards::Backrest => (vec2(1.0, 0.0), &self.tilt.lengthwise.edges[0]),
            Towards::Tips => (vec2(-1.0, 0.0), &self.tilt.lengthwise.edges[1]),
            Towards::Left => (vec2(0.0, 1.0), &self.tilt.across.edges[0]),
            Towards::Right => (vec2(0.0, -1.0), &self.tilt.across.edges[1]),
        };
        let height = self.carried.height;
        let arm = block.uplift * height;
        report.say(Happened::LoadFell {
            leaving: Leaving {
                // On its side: the middle of mass as far out as it was high, as high as the edge
                // was away.
                at: self.carried.at + out * (arm + height),
                height: arm,
                velocity: self.slide.velocity + out * (self.tilt.lean.rate * arm),
            },
            over: Some(way),
        });
    }

    /// A load whose middle of mass is no longer over the forks falls.
    fn slide_off(&mut self, forks: &Forks, report: &mut Report<'_>) {
        let at = self.carried.at;
        if at.x >= forks.tips_x && at.y.abs() <= 0.5 * forks.spread {
            return;
        }
        self.is_off = true;
        let leaving = Leaving { at, height: self.carried.height, velocity: self.slide.velocity };
        report.say(Happened::LoadFell { leaving, over: None });
    }

    /// Each column, those first towards which the push goes: they make room for the others.
    fn step_columns(
        &mut self,
        forks: &Forks,
        motion: &Felt,
        more: Vec2,
        dt: f64,
        report: &mut Report<'_>,
    ) {
        let (at, velocity) = (self.at(), self.slide.velocity);
        let Self { load, columns, .. } = self;
        let load = &*load;
        let (rows, across) = (load.rows, load.across);
        let push = -(motion.felt_at(at, forks) + more);
        let front = at.x + 0.5 * load.case.length_m;
        for i in 0..rows {
            let row = if push.x > 0.0 { i } else { rows - 1 - i };
            for j in 0..across {
                let place = if push.y > 0.0 { j } else { across - 1 - j };
                let column = row * across + place;
                let home = columns[column].home;
                let ground = Ground {
                    load,
                    motion,
                    at,
                    velocity,
                    felt: motion.felt_at(at + home, forks) + more,
                    column,
                };
                let mut this = core::mem::replace(&mut columns[column], empty());
                let columns_now = &*columns;
                let next = |way: Towards| {
                    neighbour(row, place, rows, across, way).map(|n| &columns_now[n])
                };
                let half = 0.5 * this.height(load);
                let middle = load.pallet.height_m + half;
                let gap = forks.backrest_x + forks.gives - front - home.x;
                let shift = this.cases.first().map_or(0.0, |c| c.shift.x);
                let is_walled = |way: Towards| {
                    way == Towards::Backrest
                        && gap - shift <= LEANS_WITHIN
                        && middle < forks.backrest_top
                };
                let is_free = |way: Towards| match next(way) {
                    Some(n) if n.height(load) > half => {
                        !n.tilt.lean.is_standing() && n.tilt.way() == way
                    }
                    _ => !is_walled(way),
                };
                let wall = |layer: usize, way: Towards| {
                    // The next case that way in this layer, beyond places that are empty.
                    let pitch =
                        if way.is_lengthwise() { load.case.length_m } else { load.case.width_m };
                    let (mut row, mut place, mut room) = (row, place, 0.0);
                    while let Some(n) = neighbour(row, place, rows, across, way) {
                        if let Some(case) = columns_now[n].cases.get(layer) {
                            return Some(Wall {
                                reach: room + along(way, case.shift),
                                speed: along(way, case.velocity),
                                is_backrest: false,
                            });
                        }
                        (row, place, room) = (n / across, n % across, room + pitch);
                    }
                    (way == Towards::Backrest && load.height_of(layer) < forks.backrest_top)
                        .then_some(Wall { reach: gap, speed: -velocity.x, is_backrest: true })
                };
                this.step(&ground, is_free, is_walled, wall, dt, report);
                columns[column] = this;
            }
        }
        self.busy = self.columns.iter().any(Column::is_busy);
    }
}

/// Stands in for the column at work; it holds no memory of its own.
fn empty() -> Column {
    let none = crate::load::rock::Edge { uplift: 1.0, alpha: 1.0, p2: 1.0, keeps: 0.0 };
    let block = Block { edges: [none; 2] };
    Column {
        home: Vec2::default(),
        cases: Vec::new(),
        tilt: Tilt::new(block, block),
        grip: 0.0,
        slides: false,
    }
}

state!(Standing { home, slide, columns, tilt, is_off, quiet_below, reach, busy, carried }
    left out { load });
