//! A body that sticks to or slides on an accelerated support, in the plane (Newmark 1965).
//!
//! It sticks while the push is at most mu_s g, and once it slides the support drags with mu_k g
//! against its relative velocity until it stops. Within a step the push is constant, and then the
//! motion has a closed form, in any direction: with the path parameter sigma, d sigma = dt / s for
//! the relative speed s, the equations dv/dt = push - mu_k g v / s and ds/dt become linear,
//!
//! ```text
//! s + v_e = (s0 + v_e0) exp((A - f) sigma)      A = |push|, e its direction, n to the left of e
//! s - v_e = (s0 - v_e0) exp(-(A + f) sigma)     f = mu_k g
//! v_n     = v_n0 exp(-f sigma)
//! ```
//!
//! time and way are integrals of these, and a stop is sigma without end. So the step is exact, the
//! stop inside it too, whatever its length; a test compares it with a fine integration.

use crate::load::friction::Friction;
use crate::math::{G, Vec2, exp, ln, vec2};
use crate::state;

/// Rounds of the search for sigma at most; far fewer do unless the body is about to turn round.
const ROUNDS: usize = 80;

/// Slower than this is at rest, m/s: rounding leaves such speeds, and sigma would overflow.
const AT_REST: f64 = 1e-12;

/// Where a body is and how it moves, relative to its support.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Slide {
    /// How far it has slid from where it was put, m.
    pub offset: Vec2,
    /// Relative velocity, m/s; exactly zero while it sticks.
    pub velocity: Vec2,
}

/// Velocity along the push and across it as the closed form wants them.
#[derive(Clone, Copy)]
struct Course {
    /// Speed plus the velocity along the push, m/s.
    with: f64,
    /// Speed minus the velocity along the push, m/s.
    against: f64,
    /// Velocity across, m/s.
    across: f64,
    /// Push, m/s^2.
    push: f64,
    /// Drag, m/s^2.
    drag: f64,
}

/// (exp(rate x) - 1) / rate, also where the rate is 0.
fn grown(rate: f64, x: f64) -> f64 {
    let z = rate * x;
    if z.abs() < 1e-3 {
        return x * (1.0 + z / 2.0 * (1.0 + z / 3.0 * (1.0 + z / 4.0)));
    }
    (exp(z) - 1.0) / rate
}

impl Course {
    fn new(velocity: Vec2, direction: Vec2, push: f64, drag: f64) -> Self {
        let (along, across) = (velocity.dot(direction), direction.cross(velocity));
        let larger = velocity.length() + along.abs();
        // The small one of the two from their product: their difference would lose its digits.
        let smaller = across * across / larger;
        let (with, against) = if along >= 0.0 { (larger, smaller) } else { (smaller, larger) };
        Self { with, against, across, push, drag }
    }

    /// Seconds until it stops by itself; None when the push keeps it going.
    fn stops_after(&self) -> Option<f64> {
        let against = 0.5 * self.against / (self.push + self.drag);
        if self.with == 0.0 {
            return Some(against);
        }
        (self.push < self.drag).then(|| 0.5 * self.with / (self.drag - self.push) + against)
    }

    /// Towards along and across until it stops, m.
    fn way_to_stop(&self) -> (f64, f64) {
        let (a, f) = (self.push, self.drag);
        let (p, q) = (self.with, self.against);
        let ahead = if p == 0.0 { 0.0 } else { p * p / (8.0 * (f - a)) };
        let across = if self.across == 0.0 {
            0.0
        } else {
            0.5 * self.across * (p / (2.0 * f - a) + q / (2.0 * f + a))
        };
        (ahead - q * q / (8.0 * (a + f)), across)
    }

    /// Seconds that pass up to sigma, and the speed there.
    fn time(&self, sigma: f64) -> (f64, f64) {
        let (up, down) = (self.push - self.drag, -(self.push + self.drag));
        let t = 0.5 * (self.with * grown(up, sigma) + self.against * grown(down, sigma));
        (t, 0.5 * (self.with * exp(up * sigma) + self.against * exp(down * sigma)))
    }

    /// The sigma at which `dt` has passed: Newton's steps kept between what is known to be too
    /// little and too much.
    fn sigma_at(&self, dt: f64) -> f64 {
        let (mut low, mut high) = (0.0, f64::INFINITY);
        // From the left where it slows down; where it speeds up from the right, and there from what
        // the growing part alone would take: far to the right its exponential would overflow.
        let up = self.push - self.drag;
        let growth = 2.0 * up * dt / self.with;
        // Straight against the push nothing grows.
        let mut sigma = if growth > 1e-3 && self.with > 0.0 {
            ln(1.0 + growth) / up
        } else {
            2.0 * dt / (self.with + self.against)
        };
        for _ in 0..ROUNDS {
            let (t, speed) = self.time(sigma);
            let miss = t - dt;
            if miss.abs() <= 1e-15 * dt {
                break;
            }
            if miss > 0.0 {
                high = sigma;
            } else {
                low = sigma;
            }
            let newton = sigma - miss / speed;
            let next = if newton > low && newton < high {
                newton
            } else if high.is_finite() {
                0.5 * (low + high)
            } else {
                2.0 * sigma
            };
            if next == sigma {
                break;
            }
            sigma = next;
        }
        sigma
    }

    /// Velocity and way, each along and across, at sigma.
    fn at(&self, sigma: f64) -> (Vec2, Vec2) {
        let (a, f) = (self.push, self.drag);
        let (p, q, n) = (self.with, self.against, self.across);
        let (p1, q1) = (p * exp((a - f) * sigma), q * exp(-(a + f) * sigma));
        let velocity = vec2(0.5 * (p1 - q1), n * exp(-f * sigma));
        let ahead =
            0.25 * (p * p * grown(2.0 * (a - f), sigma) - q * q * grown(-2.0 * (a + f), sigma));
        let across = 0.5 * n * (p * grown(a - 2.0 * f, sigma) + q * grown(-(a + 2.0 * f), sigma));
        (velocity, vec2(ahead, across))
    }
}

impl Slide {
    /// It moves on its support.
    pub fn is_moving(&self) -> bool {
        self.velocity != Vec2::default()
    }

    /// One step of `dt` seconds under a constant push, m/s^2: minus the support's acceleration.
    pub fn step(&mut self, push: Vec2, friction: Friction, dt: f64) {
        let size = push.length();
        let drag = friction.sliding * G;
        if self.velocity.length() < AT_REST {
            self.velocity = Vec2::default();
            self.set_out(push, size, friction, dt);
            return;
        }
        let direction = if size > 0.0 { push * (1.0 / size) } else { self.velocity.normalized() };
        let to_body = |v: Vec2| direction * v.x + direction.left() * v.y;
        let course = Course::new(self.velocity, direction, size, drag);
        if let Some(stop) = course.stops_after()
            && stop <= dt * (1.0 + 1e-12)
        {
            let (ahead, across) = course.way_to_stop();
            self.offset = self.offset + to_body(vec2(ahead, across));
            self.velocity = Vec2::default();
            self.set_out(push, size, friction, (dt - stop).max(0.0));
            return;
        }
        let (velocity, way) = course.at(course.sigma_at(dt));
        self.offset = self.offset + to_body(way);
        self.velocity = to_body(velocity);
    }

    /// From rest: it stays, or goes straight with the push.
    fn set_out(&mut self, push: Vec2, size: f64, friction: Friction, dt: f64) {
        if size <= friction.at_rest * G {
            return;
        }
        let relative = push * ((size - friction.sliding * G) / size);
        self.velocity = relative * dt;
        self.offset = self.offset + relative * (0.5 * dt * dt);
    }
}

state!(Slide { offset, velocity });
