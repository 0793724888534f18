//! Where someone may step out: never so near that a rider who keeps the rules could not stop.
//!
//! The trigger distance is v t + v^2 / 2a and half a metre, with the speed limit that holds there
//! and the braking that the truck with its load really reaches on that floor. It is computed, not
//! typed; a course may ask for more, never for less.

use crate::course::Course;
use crate::course::place::footing;
use crate::math::Pose;
use crate::truck::loads::RigidBody;
use crate::truck::spec::TruckSpec;
use crate::truck::stopping::{braking_reached, stopping_distance};

/// Time that a rider is given from the first sight of the person until the brake bites, s (typical,
/// from memory, no source). It holds the way of the arm into its brake zone.
pub const REACTION_S: f64 = 1.5;

/// Room that is left when all of that is used up, m.
pub const TO_SPARE_M: f64 = 0.5;

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
    /// For a truck that comes to a place, driven in the direction of the heading there with the
    /// power unit or the forks ahead.
    pub fn at(
        course: &Course,
        (truck, body): (&TruckSpec, &RigidBody),
        place: Pose,
        limit: f64,
        ahead: bool,
    ) -> Self {
        let heading = if ahead { place.heading } else { place.heading + core::f64::consts::PI };
        let on = footing(course, truck, (place.at, place.at), heading, ahead);
        Self { limit, reaction_s: REACTION_S, braking: braking_reached(truck, body, &on) }
    }

    /// The same for whichever end leads: the one that needs the longer way.
    pub fn either_way(
        course: &Course,
        (truck, body): (&TruckSpec, &RigidBody),
        place: Pose,
        limit: f64,
    ) -> Self {
        let [a, b] =
            [true, false].map(|ahead| Self::at(course, (truck, body), place, limit, ahead));
        if a.braking <= b.braking { a } else { b }
    }

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
    use crate::floor::Surface;
    use crate::truck::spec::shipped;
    use crate::truck::stopping::Footing;
    use crate::truck::stopping::driven::{driven_to_rest, pallet};

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
            for (surface, grade, ahead) in [
                (Surface::Dry, 0.0, true),
                (Surface::Wet, 0.0, true),
                (Surface::Wet, 0.0, false),
                (Surface::Wet, -0.05, true),
                (Surface::Dry, 0.05, false),
            ] {
                let body = RigidBody::of(&spec, &[pallet(load, 0.35)]);
                let on = Footing { friction: spec.friction_on(surface), grade, ahead };
                for limit in [1.0, 2.0, 2.4] {
                    let braking = braking_reached(&spec, &body, &on);
                    let t = Trigger { limit, reaction_s: REACTION_S, braking };
                    let way = limit * REACTION_S + driven_to_rest(&spec, &body, &on, limit);
                    let left = t.distance() - way;
                    assert!((0.45..0.56).contains(&left), "{load} {surface:?} {limit}: {left}");
                }
            }
        }
    }
}
