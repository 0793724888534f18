//! The tiller turns the drive wheel, and how fast depends on who turns it: the rider's body or
//! the rider's arm.
//!
//! The handle points from the drive wheel towards the platform, so it swings to the right when
//! the wheel turns left. A rider on the left side leans into the handle to send it right and draws
//! it close to bring it back: full rate, by body weight. To send it to their own side, past the
//! middle, only the arm is left. So a left turn wants the rider on the left, a right turn on the
//! right; small corrections about the middle are free from either side.

use crate::controls::{Side, TillerAsk};
use crate::math::DEG;
use crate::state;
use crate::time::DT;
use crate::truck::spec::TruckSpec;

/// The tiller's state.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Tiller {
    /// Drive wheel angle, rad, left positive.
    pub angle: f64,
    /// Its rate in the last tick, rad/s.
    pub rate: f64,
    /// The wheel stands in a turn that this stance can only hold by arm strength.
    pub arm_strength: bool,
    /// The angle grew in that turn: the arm works.
    pub arm_works: bool,
}

/// Torque to turn a loaded wheel on the spot, N m: narrow strip of width b under uniform pressure,
/// pure Coulomb sliding, mu W b / 4. (The often published mu W sqrt(b^2/8 + e^2) is an upper bound
/// 1.41 times as large for such a wheel.) It falls as the wheel rolls: 1 / (1 + v / v0), where v0
/// is typical of the trade, no source.
pub fn scrub_torque(load: f64, friction: f64, width: f64, speed: f64, fade_speed: f64) -> f64 {
    friction * load * width / 4.0 / (1.0 + speed.abs() / fade_speed)
}

impl Tiller {
    /// One tick of the hands. `between_sides` while the rider steps across.
    pub fn step(&mut self, ask: TillerAsk, stance: Side, between_sides: bool, spec: &TruckSpec) {
        let t = &spec.tiller;
        let lock = t.lock_deg * DEG;
        let (body_rate, arm_rate) = (t.body_dps * DEG, t.arm_dps * DEG);
        let wanted = match ask {
            TillerAsk::Swing(percent) => f64::from(percent) / 100.0 * body_rate * DT,
            TillerAsk::To(half_degrees) => f64::from(half_degrees) * 0.5 * DEG - self.angle,
        };
        let good_sign = match stance {
            Side::Left => 1.0,
            Side::Right => -1.0,
        };
        let free = t.free_deg * DEG;
        // Into the turn that this stance is wrong for: positive beyond the free range.
        let beyond = |angle: f64| -angle * good_sign - free;
        let deeper = -wanted * good_sign > 0.0;
        let by_arm = between_sides || (deeper && beyond(self.angle + wanted) > 0.0);
        let most = if by_arm { arm_rate } else { body_rate } * DT;
        let before = self.angle;
        self.angle = (before + wanted.clamp(-most, most)).clamp(-lock, lock);
        self.rate = (self.angle - before) / DT;
        self.arm_strength = beyond(self.angle) > 0.0;
        self.arm_works = self.arm_strength && beyond(self.angle) > beyond(before);
    }
}

state!(Tiller { angle, rate, arm_strength, arm_works });

#[cfg(test)]
mod tests {
    use super::*;
    use crate::truck::spec::shipped;

    fn degrees_after_one_second(ask: TillerAsk, stance: Side) -> (f64, bool) {
        let spec = shipped::single();
        let mut tiller = Tiller::default();
        for _ in 0..32 {
            tiller.step(ask, stance, false, &spec);
        }
        (tiller.angle / DEG, tiller.arm_strength)
    }

    #[test]
    fn the_body_turns_faster_than_the_arm() {
        let (body, by_arm) = degrees_after_one_second(TillerAsk::Swing(100), Side::Left);
        assert!((body - 55.0).abs() < 1e-9 && !by_arm);
        let (arm, by_arm) = degrees_after_one_second(TillerAsk::Swing(100), Side::Right);
        assert!(arm < 32.0 && by_arm, "{arm}");
    }

    #[test]
    fn drawing_the_handle_back_is_quick_from_either_side() {
        let spec = shipped::single();
        let mut tiller = Tiller { angle: 60.0 * DEG, ..Tiller::default() };
        tiller.step(TillerAsk::To(0), Side::Right, false, &spec);
        assert!((tiller.rate / DEG + 110.0).abs() < 1e-9);
    }

    #[test]
    fn it_stops_at_the_lock() {
        let spec = shipped::single();
        let mut tiller = Tiller::default();
        for _ in 0..100 {
            tiller.step(TillerAsk::Swing(100), Side::Left, false, &spec);
        }
        assert!((tiller.angle - 85.0 * DEG).abs() < 1e-12);
    }
}
