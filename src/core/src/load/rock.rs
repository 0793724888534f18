//! A rigid block that rocks about its edges (Housner 1963), in one upright plane.
//!
//! It lifts off when push / g > b / h, the tangent. Leaning by theta about an edge it obeys the
//! full equation theta'' = -p^2 (sin(alpha - theta) - (push / g) cos(alpha - theta)), and every
//! time it comes back down it goes on about its other edge with a share of its angular speed. For
//! a uniform rectangle p^2 = 3 g / 4 R and the share is 1 - 1.5 sin^2 alpha; the forms used here,
//! p^2 = g R / (k^2 + R^2) and the angular momentum about the new edge, also hold for a load whose
//! middle of mass stands off its base's middle, and are the same for the rectangle.

use core::f64::consts::FRAC_PI_2;

use crate::math::{G, atan, atan2, sin};
use crate::state;

/// Runge-Kutta steps in each step; at 64 Hz, twice as many change no angle by 1e-7 rad.
const SUBSTEPS: usize = 2;
/// Below this angular speed after an impact it stands, rad/s: the next swing would be under
/// 1e-6 rad.
const STANDS_BELOW: f64 = 1e-3;
/// Impacts in one step after which it stands.
const MOST_IMPACTS: usize = 16;
/// Rounds of the search for the instant of an impact.
const MOST_ROUNDS: usize = 10;

/// One of the two edges.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Edge {
    /// Tangent of alpha: the push over g at which it lifts off.
    pub uplift: f64,
    /// Angle of the line from the edge to the middle of mass, from upright, rad.
    pub alpha: f64,
    /// p^2, 1/s^2.
    pub p2: f64,
    /// Share of the angular speed that is left when it comes down on this edge from the other.
    pub keeps: f64,
}

/// A block in one upright plane.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Block {
    /// The edge on the plus side, then the one on the minus side.
    pub edges: [Edge; 2],
}

impl Block {
    /// A uniform rectangle, m.
    pub fn rectangle(width: f64, height: f64) -> Self {
        let b = 0.5 * width;
        Self::new([b, b], 0.5 * height, (width * width + height * height) / 12.0)
    }

    /// Any block: how far its edges are from under its middle of mass on the plus and on the minus
    /// side, m, how high that is, m, and the square of its radius of gyration, m^2.
    pub fn new(arms: [f64; 2], height: f64, gyration2: f64) -> Self {
        let edge = |new: f64, old: f64| {
            let r2 = new * new + height * height;
            let about_edge = gyration2 + r2;
            Edge {
                uplift: new / height,
                alpha: atan2(new, height),
                p2: G * r2.sqrt() / about_edge,
                // A block much wider than high comes to rest instead of turning round.
                keeps: ((gyration2 + height * height - old * new) / about_edge).max(0.0),
            }
        };
        Self { edges: [edge(arms[0], arms[1]), edge(arms[1], arms[0])] }
    }
}

/// How a block stands.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Lean {
    /// Leans over the edge on the minus side.
    pub over_minus: bool,
    /// How far, rad, 0 or more.
    pub angle: f64,
    /// How fast further over, rad/s.
    pub rate: f64,
}

impl Lean {
    /// It stands on its whole base.
    pub fn is_standing(&self) -> bool {
        self.angle == 0.0 && self.rate == 0.0
    }

    /// It lies on its side.
    pub fn is_over(&self) -> bool {
        self.angle >= FRAC_PI_2
    }

    /// Past the point from which it comes back, with nothing that pushes it back: `push` as for
    /// `step`.
    pub fn is_lost(&self, block: &Block, push: f64) -> bool {
        self.angle > block.edges[usize::from(self.over_minus)].alpha
            && self.rate >= 0.0
            && self.outwards(push) >= 0.0
    }

    fn outwards(&self, push: f64) -> f64 {
        if self.over_minus { -push } else { push }
    }

    /// One step of `dt` seconds under a constant push towards the plus side, m/s^2. What lies on
    /// its side stays there.
    pub fn step(&mut self, block: &Block, push: f64, dt: f64) {
        for _ in 0..SUBSTEPS {
            let mut left = dt / SUBSTEPS as f64;
            for _ in 0..MOST_IMPACTS {
                if self.is_over() || !self.sets_out(block, push) {
                    break;
                }
                match self.swing(block, push, left) {
                    Some(used) => left -= used,
                    None => {
                        left = 0.0;
                        break;
                    }
                }
            }
            if left > 0.0 && !self.is_over() && !self.is_standing() {
                // It rattles: so many impacts in one step leave nothing to swing with.
                self.stand();
            }
        }
    }

    fn stand(&mut self) {
        (self.angle, self.rate) = (0.0, 0.0);
    }

    /// A standing block picks the edge that the push lifts it about; false when it stays.
    fn sets_out(&mut self, block: &Block, push: f64) -> bool {
        if !self.is_standing() {
            return true;
        }
        self.over_minus = push < 0.0;
        push.abs() > G * block.edges[usize::from(self.over_minus)].uplift
    }

    /// Swings about one edge for `h` seconds, or until it comes down: then the seconds used.
    fn swing(&mut self, block: &Block, push: f64, h: f64) -> Option<f64> {
        let edge = &block.edges[usize::from(self.over_minus)];
        // A push tilts gravity: sin x - d cos x = sqrt(1 + d^2) sin(x - atan d).
        let d = self.outwards(push) / G;
        let strength = edge.p2 * (1.0 + d * d).sqrt();
        let balance = edge.alpha - atan(d);
        let acceleration = |angle: f64| -strength * sin(balance - angle);
        let go = |h: f64| {
            let (q0, v0) = (self.angle, self.rate);
            let a0 = acceleration(q0);
            let a1 = acceleration(q0 + 0.5 * h * v0);
            let a2 = acceleration(q0 + 0.5 * h * (v0 + 0.5 * h * a0));
            let a3 = acceleration(q0 + h * (v0 + 0.5 * h * a1));
            (q0 + h * (v0 + h * (a0 + a1 + a2) / 6.0), v0 + h * (a0 + 2.0 * (a1 + a2) + a3) / 6.0)
        };
        let (angle, rate) = go(h);
        if angle > 0.0 {
            (self.angle, self.rate) = (angle.min(FRAC_PI_2), rate);
            return None;
        }
        // When it came down: Newton's steps from the far side, which fall short of no root.
        let (mut down, mut at) = (h, (angle, rate));
        for _ in 0..MOST_ROUNDS {
            if at.0.abs() < 1e-13 || at.1 >= 0.0 {
                break;
            }
            down = (down - at.0 / at.1).clamp(0.0, h);
            at = go(down);
        }
        let fallen_at = (-at.1).max(0.0);
        self.over_minus = !self.over_minus;
        self.angle = 0.0;
        self.rate = block.edges[usize::from(self.over_minus)].keeps * fallen_at;
        if self.rate < STANDS_BELOW {
            self.stand();
        }
        Some(down)
    }
}

state!(Edge { uplift, alpha, p2, keeps });
state!(Block { edges });
state!(Lean { over_minus, angle, rate });
