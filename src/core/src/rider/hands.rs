//! A rider's hands: they turn a wanted acceleration and a wanted drive wheel angle into throttle
//! and tiller, move gently, and leave alone what is nearly right.

use crate::controls::{Controls, TillerAsk};
use crate::math::{DEG, cos};
use crate::moment::Moment;
use crate::truck::spec::TruckSpec;

/// The hands think again after so many ticks.
pub(super) const BEAT: u32 = 4;
/// Throttle changes smaller than this wait, percent.
const THROTTLE_STEP: f64 = 3.0;
/// Nearer than this the tiller is left alone, rad.
const TILLER_NEAR: f64 = 0.6 * DEG;
/// Time in which the hands would bring the tiller where it should be, s. They swing it rather
/// than jerk it: what jerks the tiller jerks the load.
const TILLER_TIME: f64 = 0.16;
/// The swing is chosen in steps of this, percent, and is at most that.
const SWING_STEP: f64 = 4.0;
const SWING_MOST: f64 = 60.0;
/// Plugging begins when slowing down by this is wanted, m/s^2, and goes on down to that.
const PLUG_FROM: f64 = 0.55;
const PLUG_DOWN_TO: f64 = 0.3;

/// What the hands hold.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Hands {
    /// Percent, positive power unit first.
    pub(super) throttle: f64,
    plugging: bool,
    swing: i8,
}

impl Hands {
    /// The throttle for an acceleration along the direction of motion, m/s^2, at a speed along it,
    /// m/s. `rise` is the most that the throttle may grow by, percent a tick.
    pub(super) fn accelerate(
        &mut self,
        wanted: f64,
        speed: f64,
        direction: f64,
        rise: f64,
        m: &Moment,
        truck: &TruckSpec,
    ) {
        let t = &truck.travel;
        self.plugging =
            speed > 0.05 && wanted < if self.plugging { -PLUG_DOWN_TO } else { -PLUG_FROM };
        let dead = 100.0 * t.throttle_dead_band;
        let twist = if self.plugging {
            let share =
                (-wanted - t.plugging_least_mps2) / (t.plugging_most_mps2 - t.plugging_least_mps2);
            -share.clamp(0.02, 1.0)
        } else {
            let top =
                if direction > 0.0 { t.top_speed_empty_mps } else { t.top_speed_forks_first_mps };
            // The controller works on the drive wheel, which runs faster than the axle in a turn.
            let faster = 1.0 / cos(m.truck.steer).max(0.3);
            ((speed + wanted * t.speed_response_s) * faster / top).clamp(0.0, 1.0)
        };
        let goal = if twist == 0.0 {
            0.0
        } else {
            direction * twist.signum() * (dead + (100.0 - dead) * twist.abs())
        };
        self.throttle_to(goal, rise);
    }

    /// Brings the throttle nearer to a goal: at once towards neutral, gently away from it.
    pub(super) fn throttle_to(&mut self, goal: f64, rise: f64) {
        let now = self.throttle;
        let nearly = (goal - now).abs() < THROTTLE_STEP && goal != 0.0 && goal.abs() < 100.0;
        if goal == now || (nearly && now != 0.0) {
            return;
        }
        let same_side = now * goal > 0.0;
        self.throttle = if same_side && goal.abs() < now.abs() {
            goal
        } else if same_side || now == 0.0 {
            let grown = now.abs() + rise * f64::from(BEAT);
            goal.signum() * grown.min(goal.abs())
        } else {
            0.0
        };
    }

    /// Lets the throttle spring to neutral.
    pub(super) fn neutral(&mut self) {
        self.throttle = 0.0;
        self.plugging = false;
    }

    /// Holds the tiller where it is.
    pub(super) fn hold_tiller(&mut self) {
        self.swing = 0;
    }

    /// Swings the tiller towards a drive wheel angle, rad.
    pub(super) fn steer(&mut self, angle: f64, m: &Moment, truck: &TruckSpec) {
        let off = angle - m.truck.steer;
        if off.abs() < TILLER_NEAR {
            self.swing = 0;
            return;
        }
        let percent = 100.0 * off / TILLER_TIME / (truck.tiller.body_dps * DEG);
        let steps = (percent.abs() / SWING_STEP).round().max(1.0);
        self.swing = (percent.signum() * (steps * SWING_STEP).min(SWING_MOST)) as i8;
    }

    /// Throttle and tiller as the hands hold them.
    pub(super) fn put_on(&self, controls: &mut Controls) {
        controls.throttle = self.throttle.round().clamp(-100.0, 100.0) as i8;
        controls.tiller = TillerAsk::Swing(self.swing);
    }
}
