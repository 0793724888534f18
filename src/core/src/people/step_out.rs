//! Where someone may step out: never so near that a rider who keeps the rules could not stop.
//!
//! The trigger distance is v t + v^2 / 2a and half a metre, with the speed limit that holds there
//! and the braking that the truck with its load really reaches on that floor. It is computed, not
//! typed; a course may ask for more, never for less.

use crate::math::G;
use crate::truck::loads::Body;
use crate::truck::spec::TruckSpec;
use crate::truck::stopping::stopping_distance;

/// Time that a rider is given from the first sight of the person until the brake bites, s (typical,
/// from memory, no source). It holds the way of the arm into its brake zone.
pub const REACTION_S: f64 = 1.5;

/// Room that is left when all of that is used up, m.
pub const TO_SPARE_M: f64 = 0.5;

/// Deceleration that the service brake reaches on the level, m/s^2: what the brake is set to, or
/// else what the floor gives. Only the drive wheel brakes; the load wheels roll. So a load behind
/// makes the same stop longer, unless it also presses on the drive wheel.
///
/// From the moment balance with the transfer that the braking itself brings:
/// a = mu N / m + c g with N = m (g x + a h) / L.
pub fn braking_reached(spec: &TruckSpec, body: &Body, friction: f64) -> f64 {
    let wheelbase = spec.geometry.wheelbase_m;
    let from_grip = friction * G * body.com.x / wheelbase + spec.rolling_resistance * G;
    let transfer = 1.0 - friction * body.height / wheelbase;
    let most = spec.travel.service_brake_mps2;
    // Where the transfer feeds itself without end, the brake is the limit.
    if transfer <= 0.0 { most } else { (from_grip / transfer).min(most) }
}

/// How a step-out is placed, and what that rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Trigger {
    /// Speed limit on the way to it, m/s.
    pub limit: f64,
    /// Time until the brake bites, s.
    pub reaction_s: f64,
    /// Deceleration reached, m/s^2.
    pub braking: f64,
}

impl Trigger {
    /// Distance from the truck's leading end along its way to the near edge of the person's way at
    /// which the person steps out, m.
    pub fn distance(&self) -> f64 {
        stopping_distance(self.limit, self.reaction_s, self.braking) + TO_SPARE_M
    }

    /// The distance that a course asks for, when a rider can still stop within it; the computed one
    /// when the course asks for none.
    ///
    /// # Errors
    /// One sentence when someone would step out where nobody could stop.
    pub fn placed(&self, asked: Option<f64>) -> Result<f64, String> {
        let needed = self.distance();
        if !needed.is_finite() {
            return Err(format!(
                "nobody can step out here: with a limit of {:.2} m/s and braking at {:.2} m/s^2 \
                 no distance is enough to stop; set a limit or another floor",
                self.limit, self.braking
            ));
        }
        match asked {
            None => Ok(needed),
            Some(d) if d.is_finite() && d >= needed => Ok(d),
            Some(d) => Err(format!(
                "someone steps out {d:.2} m ahead, but at the limit of {:.2} m/s a stop takes \
                 {:.2} m ({:.2} s to react, braking at {:.2} m/s^2) and {TO_SPARE_M:.2} m to spare; \
                 ask for {needed:.2} m or more, or lower the limit",
                self.limit,
                needed - TO_SPARE_M,
                self.reaction_s,
                self.braking
            )),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::course::Surface;
    use crate::finding::DT;
    use crate::math::vec2;
    use crate::truck::loads::{Carried, wheel_loads};
    use crate::truck::spec::shipped;
    use crate::truck::travel::DriveAsk;
    use crate::truck::wheels::{Twist, WheelCommand, solve};

    fn pallet(mass: f64, x: f64) -> Carried {
        Carried { mass, at: vec2(x, 0.0), height: 0.8, yaw_inertia: mass * 0.2 }
    }

    /// Brakes straight on from a speed with the wheels of the truck itself; metres to rest.
    fn driven_to_rest(spec: &TruckSpec, body: &Body, friction: f64, from: f64) -> f64 {
        let mut twist = Twist { velocity: vec2(from, 0.0), yaw_rate: 0.0 };
        let (mut along, mut way) = (0.0, 0.0);
        while twist.velocity.x > 1e-6 {
            let wanted = (twist.velocity.x - spec.travel.service_brake_mps2 * DT).max(0.0);
            let cmd = WheelCommand {
                steer_before: 0.0,
                steer: 0.0,
                drive: DriveAsk { speed: wanted, force_most: f64::INFINITY },
                friction_drive: friction,
                friction_load: friction,
                loads: wheel_loads(spec, body, along, 0.0).expect("stands"),
            };
            let solved = solve(spec, body, &twist, &cmd);
            along = solved.acceleration.x;
            way += solved.mean.velocity.x * DT;
            twist = solved.end;
        }
        way
    }

    #[test]
    fn the_braking_reached_is_what_the_wheels_do() {
        for spec in [shipped::single(), shipped::double()] {
            for carried in [vec![], vec![pallet(800.0, 0.3)], vec![pallet(2500.0, 0.35)]] {
                let body = Body::of(&spec, &carried);
                for surface in [Surface::Dry, Surface::Wet, Surface::Dusty] {
                    let friction = spec.friction_on(surface);
                    let a = braking_reached(&spec, &body, friction);
                    let way = driven_to_rest(&spec, &body, friction, 2.4);
                    // The transfer follows the braking by a tick, so the first tick brakes less.
                    let expected = 2.4 * 2.4 / (2.0 * a);
                    assert!(
                        (way - expected).abs() < 0.03 * expected,
                        "{} {surface:?} {}: {way} against {expected}",
                        spec.id,
                        carried.len()
                    );
                }
            }
        }
    }

    #[test]
    fn a_load_makes_the_stop_longer_and_so_does_water() {
        let spec = shipped::single();
        let (empty, laden) = (Body::of(&spec, &[]), Body::of(&spec, &[pallet(2500.0, 0.35)]));
        let (dry, wet) = (spec.friction_on(Surface::Dry), spec.friction_on(Surface::Wet));
        assert_eq!(braking_reached(&spec, &empty, dry), 3.0, "the brake's own limit");
        let laden_dry = braking_reached(&spec, &laden, dry);
        let laden_wet = braking_reached(&spec, &laden, wet);
        assert!(laden_dry < 3.0 && laden_wet < laden_dry, "{laden_dry}, {laden_wet}");
    }

    /// 2 m/s, 1.5 s, 2 m/s^2, worked by hand: 3 + 1 + 0.5 m. The stopping distance itself is held
    /// against AASHTO's tables in tests/.
    #[test]
    fn the_trigger_distance_is_computed() {
        let t = Trigger { limit: 2.0, reaction_s: REACTION_S, braking: 2.0 };
        assert!((t.distance() - 4.5).abs() < 1e-12);
        assert_eq!(t.placed(None), Ok(t.distance()));
        assert_eq!(t.placed(Some(6.0)), Ok(6.0));
    }

    #[test]
    fn a_step_out_inside_the_stopping_distance_is_refused_with_the_reason() {
        let t = Trigger { limit: 2.0, reaction_s: 1.5, braking: 2.0 };
        assert_eq!(
            t.placed(Some(3.2)).expect_err("too near"),
            "someone steps out 3.20 m ahead, but at the limit of 2.00 m/s a stop takes 4.00 m \
             (1.50 s to react, braking at 2.00 m/s^2) and 0.50 m to spare; ask for 4.50 m or more, \
             or lower the limit"
        );
        assert!(t.placed(Some(4.499)).is_err() && t.placed(Some(f64::NAN)).is_err());
        let no_brake = Trigger { braking: 0.0, ..t };
        assert!(no_brake.placed(Some(100.0)).expect_err("never").contains("no distance is enough"));
    }

    #[test]
    fn who_keeps_the_limit_and_reacts_in_time_always_stops_with_room_to_spare() {
        let spec = shipped::single();
        for load in [0.0, 1000.0, 2700.0] {
            for surface in [Surface::Dry, Surface::Wet] {
                let body = Body::of(&spec, &[pallet(load, 0.35)]);
                let friction = spec.friction_on(surface);
                for limit in [1.0, 2.0, 2.4] {
                    let braking = braking_reached(&spec, &body, friction);
                    let t = Trigger { limit, reaction_s: REACTION_S, braking };
                    let way = limit * REACTION_S + driven_to_rest(&spec, &body, friction, limit);
                    let left = t.distance() - way;
                    assert!((0.45..0.56).contains(&left), "{load} {surface:?} {limit}: {left}");
                }
            }
        }
    }
}
