//! Hands that drive: any hands at all, people's, and cunning ones.

use coneyard_core::acts::{Act, Input};
use coneyard_core::controls::{ArmAsk, Controls, Look, Side, TillerAsk};
use coneyard_core::moment::Moment;
use coneyard_core::rider::human::HUMAN;
use coneyard_core::rider::{MODEL, Rider, by_name, names};
use coneyard_core::time::{TICK_RATE, Tick};
use coneyard_core::yard::Setting;
use rand::{RngExt as _, SeedableRng as _};
use rand_chacha::ChaCha8Rng;

/// Whose hands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Hands {
    /// They do anything, smoothly; half of them after they have driven well for a while.
    Random,
    /// A person's: late, hasty or slow, trembling, forgetful.
    Human,
    /// The model rider's, or those of anybody with a fault, with a bad deed now and then.
    Cunning,
}

impl Hands {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Random, Self::Human, Self::Cunning];

    /// What they are called.
    pub fn name(self) -> &'static str {
        match self {
            Self::Random => "random",
            Self::Human => HUMAN,
            Self::Cunning => "cunning",
        }
    }

    /// A rider with such hands, drawn from the seed. None for a course that the model rider does not
    /// know how to drive.
    pub fn rider(self, setting: &Setting, seed: u64) -> Option<Box<dyn Rider>> {
        let named = |name| by_name(name, &setting.course, &setting.truck, &setting.rules, seed);
        let rng = ChaCha8Rng::seed_from_u64(seed);
        Some(match self {
            Self::Human => named(HUMAN)?,
            Self::Random => Box::new(Random::new(named(MODEL)?, rng)),
            Self::Cunning => {
                let mut rng = rng;
                // Half of them are at fault in some way of their own as well.
                let all: Vec<String> = names().collect();
                let faulty = rng.random_bool(0.5).then(|| rng.random_range(0..all.len()));
                let name = faulty.map_or(MODEL, |i| all[i].as_str());
                Box::new(Cunning { rider: named(name)?, rng, spell: None, next: TICK_RATE })
            }
        })
    }
}

/// Ticks in so many seconds.
fn ticks(seconds: f64) -> Tick {
    (seconds * f64::from(TICK_RATE)) as Tick
}

/// A value that goes to one goal after another, at its own pace.
#[derive(Clone, Copy, Debug, Default)]
struct Wandering {
    now: f64,
    goal: f64,
    /// A tick.
    rate: f64,
    until: Tick,
}

impl Wandering {
    fn next(&mut self, tick: Tick, draw: impl FnOnce() -> (f64, f64, f64)) -> f64 {
        if tick >= self.until {
            let (goal, rate, holds_s) = draw();
            *self = Self { now: self.now, goal, rate, until: tick + ticks(holds_s).max(1) };
        }
        self.now += (self.goal - self.now).clamp(-self.rate, self.rate);
        self.now
    }
}

/// Any hands at all.
struct Random {
    /// Drives until then.
    rider: Box<dyn Rider>,
    from: Tick,
    rng: ChaCha8Rng,
    throttle: Wandering,
    tiller: Wandering,
    /// Everything that is held or not, with when it changes.
    rest: Controls,
    until: Tick,
}

impl Random {
    fn new(rider: Box<dyn Rider>, mut rng: ChaCha8Rng) -> Self {
        let after_s = if rng.random_bool(0.5) { 0.0 } else { rng.random_range(4.0..60.0) };
        let (throttle, tiller) = (Wandering::default(), Wandering::default());
        let rest = Controls::default();
        Self { rider, from: ticks(after_s), rng, throttle, tiller, rest, until: 0 }
    }

    /// Mostly all is held as it must be to drive.
    fn draw_rest(&mut self) {
        let rng = &mut self.rng;
        let mut seldom = |chance: f64| rng.random_bool(chance);
        self.rest = Controls {
            arm: match (seldom(0.1), seldom(0.05)) {
                (true, _) => ArmAsk::LetGo,
                (_, true) => ArmAsk::PushDown,
                _ => ArmAsk::Hold,
            },
            stance: if seldom(0.3) { Side::Right } else { Side::Left },
            look: match (seldom(0.15), seldom(0.15), seldom(0.15)) {
                (true, ..) => Look::Left,
                (_, true, _) => Look::Right,
                (.., true) => Look::Behind,
                _ => Look::Ahead,
            },
            high_speed: seldom(0.3),
            horn: seldom(0.15),
            forks_up: seldom(0.15),
            forks_down: seldom(0.15),
            aboard: !seldom(0.03),
            key_on: !seldom(0.02),
            ..Controls::default()
        };
    }
}

impl Rider for Random {
    fn ride(&mut self, m: &Moment) -> Input {
        let meant = self.rider.ride(m);
        if m.tick < self.from {
            return meant;
        }
        if m.tick >= self.until {
            self.draw_rest();
            self.until = m.tick + ticks(self.rng.random_range(0.2..3.0));
        }
        let Self { rng, throttle, tiller, .. } = self;
        let throttle = throttle.next(m.tick, || {
            let goal = match rng.random_range(0..20) {
                0..3 => 0.0,
                3..8 => rng.random_range(-100.0..0.0),
                8..12 => 100.0,
                _ => rng.random_range(0.0..100.0),
            };
            (goal, rng.random_range(0.5..8.0), rng.random_range(0.3..6.0))
        });
        // Half degrees of the drive wheel.
        let tiller = tiller.next(m.tick, || {
            let wide = if rng.random_bool(0.4) { 12.0 } else { 120.0 };
            let goal = rng.random_range(-wide..wide);
            (goal, rng.random_range(0.5..4.0), rng.random_range(0.3..4.0))
        });
        let acts = if rng.random_bool(0.001) { vec![Act::Report] } else { Vec::new() };
        let controls = Controls {
            throttle: throttle as i8,
            tiller: TillerAsk::To(tiller as i16),
            ..self.rest
        };
        Input { controls, acts }
    }
}

/// A bad deed, done for a spell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Deed {
    HoldsTheHorn,
    LooksAside(Look),
    FullThrottle,
    LetsTheArmGo,
    StepsOff,
    ForksUp,
    Reports,
}

/// Drives as another would, and for a spell now and then badly.
struct Cunning {
    rider: Box<dyn Rider>,
    rng: ChaCha8Rng,
    spell: Option<(Deed, Tick)>,
    next: Tick,
}

impl Cunning {
    fn begin(&mut self, now: Tick) {
        let rng = &mut self.rng;
        let deed = match rng.random_range(0..12) {
            0 => Deed::HoldsTheHorn,
            1 => Deed::LooksAside(Look::Left),
            2 => Deed::LooksAside(Look::Right),
            3 => Deed::LooksAside(Look::Behind),
            4..8 => Deed::FullThrottle,
            8 => Deed::LetsTheArmGo,
            9 => Deed::StepsOff,
            10 => Deed::ForksUp,
            _ => Deed::Reports,
        };
        self.spell = Some((deed, now + ticks(rng.random_range(0.3..5.0))));
    }
}

impl Rider for Cunning {
    fn ride(&mut self, m: &Moment) -> Input {
        let mut input = self.rider.ride(m);
        if self.spell.is_none() && m.tick >= self.next {
            self.begin(m.tick);
        }
        let Some((deed, until)) = self.spell else { return input };
        if m.tick >= until {
            self.spell = None;
            self.next = m.tick + ticks(self.rng.random_range(1.0..12.0));
            return input;
        }
        let c = &mut input.controls;
        match deed {
            Deed::HoldsTheHorn => c.horn = true,
            Deed::LooksAside(look) => c.look = look,
            Deed::FullThrottle => {
                c.throttle = if m.truck.speed < -0.05 { -100 } else { 100 };
                c.arm = ArmAsk::Hold;
            }
            Deed::LetsTheArmGo => c.arm = ArmAsk::LetGo,
            Deed::StepsOff => c.aboard = false,
            Deed::ForksUp => c.forks_up = true,
            Deed::Reports => {
                if m.tick.is_multiple_of(TICK_RATE / 2) {
                    input.acts.push(Act::Report);
                }
            }
        }
        input
    }
}
