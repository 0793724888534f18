//! One column of cases on its pallet: slides at every layer, rocks as a whole, and loses cases.
//!
//! Each layer takes the motion of what is under it and does not push back on it (a simplification:
//! exact while one layer of a column slides, and that is the lowest of the weakest).

use crate::load::event::{Happened, Interface, Leaving, LoadEvent, Stop, Towards};
use crate::load::friction::Friction;
use crate::load::motion::Felt;
use crate::load::pallet::PalletLoad;
use crate::load::rock::Block;
use crate::load::slide::Slide;
use crate::load::tilt::Tilt;
use crate::math::{G, Vec2, atan, cos, sin, vec2};
use crate::state;

/// Contacts closer than this are touching, m.
const TOUCHING: f64 = 1e-9;
/// Slower than this it leans on what holds it and does not strike it, m/s.
pub const STRIKES_ABOVE: f64 = 0.01;

/// One case.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Case {
    /// Relative to what is under it.
    pub slide: Slide,
    /// How far it is from its first place on the pallet, m.
    pub shift: Vec2,
    /// Its velocity relative to the pallet, m/s.
    pub velocity: Vec2,
}

/// One column.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// Middle of its first place, pallet frame, m.
    pub home: Vec2,
    /// Cases that stand, from below.
    pub cases: Vec<Case>,
    /// How it rocks.
    pub tilt: Tilt,
    /// Friction factor at rest of its weakest layer.
    pub grip: f64,
    /// A case of it slides.
    pub slides: bool,
}

/// Who reports, and where to.
pub(super) struct Report<'a> {
    pub(super) pallet: usize,
    pub(super) events: &'a mut Vec<LoadEvent>,
}

impl Report<'_> {
    pub(super) fn say(&mut self, what: Happened) {
        self.events.push(LoadEvent { pallet: self.pallet, what });
    }
}

/// The pallet under a column.
pub(super) struct Ground<'a> {
    pub(super) load: &'a PalletLoad,
    pub(super) motion: &'a Felt,
    /// Middle of the pallet, body frame, m.
    pub(super) at: Vec2,
    /// Its velocity relative to the truck, m/s.
    pub(super) velocity: Vec2,
    /// Acceleration of the pallet under this column, m/s^2.
    pub(super) felt: Vec2,
    /// Index of the column.
    pub(super) column: usize,
}

/// What a case would run into.
#[derive(Clone, Copy)]
pub(super) struct Wall {
    /// As far as its shift may go that way, m, counted that way.
    pub(super) reach: f64,
    /// Velocity of what stands there relative to the pallet, m/s, counted that way.
    pub(super) speed: f64,
    /// The backrest itself.
    pub(super) is_backrest: bool,
}

impl Column {
    pub(super) fn new(load: &PalletLoad, home: Vec2, layers: usize) -> Self {
        let upright = Block::rectangle(1.0, 1.0);
        let mut column = Self {
            home,
            cases: vec![Case::default(); layers],
            tilt: Tilt::new(upright, upright),
            grip: 0.0,
            slides: false,
        };
        column.resize(load);
        column
    }

    /// Takes the shape of the cases that are left.
    fn resize(&mut self, load: &PalletLoad) {
        let height = self.height(load).max(load.case.height_m);
        self.tilt.lengthwise = Block::rectangle(load.case.length_m, height);
        self.tilt.across = Block::rectangle(load.case.width_m, height);
        self.grip = if self.cases.len() > 1 {
            load.grip.on_pallet.at_rest.min(load.grip.on_case.at_rest)
        } else {
            load.grip.on_pallet.at_rest
        };
    }

    /// Height of what stands over the pallet's deck, m.
    pub fn height(&self, load: &PalletLoad) -> f64 {
        self.cases.len() as f64 * load.case.height_m
    }

    /// It leans or a case of it slides.
    pub fn is_busy(&self) -> bool {
        self.slides || !self.tilt.lean.is_standing()
    }

    /// The push, m/s^2, below which nothing of it moves.
    pub fn quiet_below(&self) -> f64 {
        G * if self.cases.is_empty() {
            f64::INFINITY
        } else {
            self.grip.min(self.tilt.least_uplift())
        }
    }

    /// The pallet under it changed its velocity at once: what stands on it goes on.
    pub(super) fn jump(&mut self, change: Vec2) {
        if let Some(lowest) = self.cases.first_mut()
            && self.tilt.lean.is_standing()
        {
            lowest.slide.velocity = lowest.slide.velocity - change;
            self.slides = true;
        }
    }

    /// One tick. Cases run into what `wall` says stands in their way, layer by layer.
    pub(super) fn step(
        &mut self,
        ground: &Ground<'_>,
        is_free: impl Fn(Towards) -> bool,
        is_walled: impl Fn(Towards) -> bool,
        wall: impl Fn(usize, Towards) -> Option<Wall>,
        dt: f64,
        report: &mut Report<'_>,
    ) {
        if self.cases.is_empty() {
            return;
        }
        if !self.slides {
            self.rock(ground, is_free, is_walled, dt, report);
        }
        if self.tilt.lean.is_standing() {
            self.slide(ground, wall, dt, report);
        }
    }

    fn rock(
        &mut self,
        ground: &Ground<'_>,
        is_free: impl Fn(Towards) -> bool,
        is_walled: impl Fn(Towards) -> bool,
        dt: f64,
        report: &mut Report<'_>,
    ) {
        let tilted = self.tilt.step(-ground.felt, self.grip, is_free, is_walled, dt);
        let (column, way) = (ground.column, self.tilt.way());
        if tilted.began {
            report.say(Happened::RockBegan { column, way });
        }
        if let Some(peak) = tilted.ended {
            report.say(Happened::RockEnded { column, peak });
        }
        if tilted.lost {
            report.say(Happened::RockLost { column, way });
        }
        // Leaning so, the cases slide down off each other.
        if self.tilt.lean.angle > atan(self.grip) {
            self.break_up(ground, way, report);
        }
    }

    /// The cases whose middles are beyond the edge fall; those that are left drop back.
    fn break_up(&mut self, ground: &Ground<'_>, way: Towards, report: &mut Report<'_>) {
        let load = ground.load;
        let (outwards, arm) = match way {
            Towards::Backrest => (vec2(1.0, 0.0), 0.5 * load.case.length_m),
            Towards::Tips => (vec2(-1.0, 0.0), 0.5 * load.case.length_m),
            Towards::Left => (vec2(0.0, 1.0), 0.5 * load.case.width_m),
            Towards::Right => (vec2(0.0, -1.0), 0.5 * load.case.width_m),
        };
        let (s, c) = (sin(self.tilt.lean.angle), cos(self.tilt.lean.angle));
        let rate = self.tilt.lean.rate;
        // How far beyond the edge, and how high over the deck, is a case's middle.
        let turned = |layer: usize| {
            let z = (layer as f64 + 0.5) * load.case.height_m;
            (z * s - arm * c, z * c + arm * s)
        };
        let stay = (0..self.cases.len()).take_while(|&i| turned(i).0 <= 0.0).count();
        for layer in stay..self.cases.len() {
            let (beyond, height) = turned(layer);
            let case = self.cases[layer];
            report.say(Happened::CaseFell {
                column: ground.column,
                layer,
                leaving: Leaving {
                    at: ground.at + self.home + case.shift + outwards * (arm + beyond),
                    height: load.pallet.height_m + height,
                    velocity: ground.velocity + outwards * (rate * height),
                },
            });
        }
        let peak = self.tilt.peak;
        self.cases.truncate(stay);
        self.tilt.stand();
        self.resize(load);
        report.say(Happened::RockEnded { column: ground.column, peak });
    }

    fn slide(
        &mut self,
        ground: &Ground<'_>,
        wall: impl Fn(usize, Towards) -> Option<Wall>,
        dt: f64,
        report: &mut Report<'_>,
    ) {
        let load = ground.load;
        let (mut felt, mut shift, mut velocity) = (ground.felt, Vec2::default(), Vec2::default());
        self.slides = false;
        let mut falls_from = None;
        for (layer, case) in self.cases.iter_mut().enumerate() {
            let grip = if layer == 0 { load.grip.on_pallet } else { load.grip.on_case };
            let under = shift;
            let interface = Interface::Layer { column: ground.column, layer };
            let moved = case.slide.is_moving();
            if moved || felt.dot(felt) > sticks_at(grip) {
                let before = case.slide.velocity;
                let turning = ground.motion.turning(before);
                let push =
                    against_walls(-felt - turning, under + case.slide.offset, before, layer, &wall);
                case.slide.step(push, grip, dt);
                felt = felt + turning + (case.slide.velocity - before) * (1.0 / dt);
                if let Some(speed) = stop_at_walls(case, under, layer, &wall) {
                    report.say(Happened::Struck {
                        stop: Stop::Backrest,
                        speed,
                        case: Some(interface),
                    });
                }
                match (moved, case.slide.is_moving()) {
                    (false, true) => report.say(Happened::SlideBegan { interface }),
                    (true, false) => {
                        report.say(Happened::SlideEnded { interface, by: case.slide.offset });
                    }
                    _ => {}
                }
                self.slides |= case.slide.is_moving();
            }
            shift = shift + case.slide.offset;
            velocity = velocity + case.slide.velocity;
            (case.shift, case.velocity) = (shift, velocity);
            let beyond = |p: Vec2, length: f64, width: f64| {
                p.x.abs() > 0.5 * length || p.y.abs() > 0.5 * width
            };
            let off = if layer == 0 {
                beyond(self.home + shift, load.pallet.length_m, load.pallet.width_m)
            } else {
                beyond(case.slide.offset, load.case.length_m, load.case.width_m)
            };
            if off && falls_from.is_none() {
                falls_from = Some(layer);
            }
        }
        let Some(from) = falls_from else { return };
        for (layer, case) in self.cases.iter().enumerate().skip(from) {
            report.say(Happened::CaseFell {
                column: ground.column,
                layer,
                leaving: Leaving {
                    at: ground.at + self.home + case.shift,
                    height: load.height_of(layer),
                    velocity: ground.velocity + case.velocity,
                },
            });
        }
        self.cases.truncate(from);
        self.slides = self.cases.iter().any(|c| c.slide.is_moving());
        self.resize(load);
    }
}

/// Square of the push up to which it sticks.
fn sticks_at(grip: Friction) -> f64 {
    let a = grip.at_rest * G;
    a * a
}

const WAYS: [(Towards, Vec2); 4] = [
    (Towards::Backrest, vec2(1.0, 0.0)),
    (Towards::Tips, vec2(-1.0, 0.0)),
    (Towards::Left, vec2(0.0, 1.0)),
    (Towards::Right, vec2(0.0, -1.0)),
];

/// The push without what a wall takes that the case already rests against.
fn against_walls(
    push: Vec2,
    shift: Vec2,
    velocity: Vec2,
    layer: usize,
    wall: impl Fn(usize, Towards) -> Option<Wall>,
) -> Vec2 {
    let mut left = push;
    for (way, out) in WAYS {
        if push.dot(out) <= 0.0 || velocity.dot(out) > 0.0 {
            continue;
        }
        if let Some(w) = wall(layer, way)
            && shift.dot(out) >= w.reach - TOUCHING
            && w.speed <= 0.0
        {
            left = left - out * push.dot(out);
        }
    }
    left
}

/// Brings a case back that went through a wall; the speed when it struck the backrest.
fn stop_at_walls(
    case: &mut Case,
    under: Vec2,
    layer: usize,
    wall: impl Fn(usize, Towards) -> Option<Wall>,
) -> Option<f64> {
    let mut struck = None;
    for (way, out) in WAYS {
        if case.slide.velocity.dot(out) <= 0.0 {
            continue;
        }
        let Some(w) = wall(layer, way) else { continue };
        let excess = (under + case.slide.offset).dot(out) - w.reach;
        let speed = case.slide.velocity.dot(out) - w.speed;
        if excess <= 0.0 || speed <= 0.0 {
            continue;
        }
        case.slide.offset = case.slide.offset - out * excess;
        case.slide.velocity = case.slide.velocity - out * speed;
        if w.is_backrest && speed > STRIKES_ABOVE {
            struck = Some(speed);
        }
    }
    struck
}

state!(Case { slide, shift, velocity });
state!(Column { home, cases, tilt, grip, slides });
