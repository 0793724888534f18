//! How far a stop takes: for the helps on the floor, for placing what steps out, and for judging
//! whether one can stop in the distance that one sees.

use crate::math::G;
use crate::truck::loads::RigidBody;
use crate::truck::spec::TruckSpec;

/// Where a stop is made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Footing {
    /// Friction factor under the drive wheel.
    pub friction: f64,
    /// Grade in the direction of +x, rise over way on the level.
    pub grade: f64,
    /// The power unit leads; otherwise the forks do.
    pub ahead: bool,
}

/// Deceleration that the service brake reaches, m/s^2: what the brake is set to, or else what the
/// floor gives; on a steep way up the weight may do more than the brake is set to. Negative where
/// the brake cannot hold the truck on the way down.
///
/// Only the drive wheel brakes; the load wheels roll. So a load behind makes the same stop longer,
/// unless it also presses on the drive wheel. The braking presses the drive wheel on the floor when
/// the power unit leads, and lifts it when the forks do. Moments about the load axle, with the way
/// of travel s = 1 or -1, the place x and height h of the centre of mass, rolling resistance f, and
/// the slope's cosine c, for the brake's force B per mass:
/// N L / m = g c x + s h (B + f g c) and B = mu N / m, so
/// B = mu g c (x + s h f) / (L - s mu h).
pub fn braking_reached(spec: &TruckSpec, body: &RigidBody, on: &Footing) -> f64 {
    let s = if on.ahead { 1.0 } else { -1.0 };
    let way = (1.0 + on.grade * on.grade).sqrt();
    let (press, uphill) = (G / way, s * G * on.grade / way);
    let f = spec.rolling_resistance;
    let by_itself = f * press + uphill;
    let lever = spec.geometry.wheelbase_m - s * on.friction * body.height;
    let most = spec.travel.service_brake_mps2;
    // Where the transfer feeds itself without end, the brake is the limit.
    let by_grip = if lever <= 0.0 {
        most
    } else {
        (on.friction * press * (body.com.x + s * body.height * f) / lever).max(0.0)
    };
    (by_grip + by_itself).min(most).max(by_itself)
}

/// Distance of a stop from a speed, m/s, with a reaction time, s, and a steady deceleration,
/// m/s^2: v t + v^2 / 2a, m (stopping sight distance, AASHTO, A Policy on Geometric Design of
/// Highways and Streets). Infinite when there is no deceleration.
pub fn stopping_distance(speed: f64, reaction_s: f64, deceleration: f64) -> f64 {
    let v = speed.abs();
    if deceleration <= 0.0 && v > 0.0 {
        return f64::INFINITY;
    }
    v * reaction_s + v * v / (2.0 * deceleration)
}

/// Stops driven with the wheels of the truck itself, for tests.
#[cfg(test)]
pub(crate) mod driven {
    use super::*;
    use crate::floor::slope::Slope;
    use crate::math::vec2;
    use crate::time::DT;
    use crate::truck::loads::{Carried, wheel_loads};
    use crate::truck::travel::DriveAsk;
    use crate::truck::wheels::{Twist, WheelCommand, solve};

    pub(crate) fn pallet(mass: f64, x: f64) -> Carried {
        Carried { mass, at: vec2(x, 0.0), height: 0.8, yaw_inertia: mass * 0.2 }
    }

    /// Brakes straight on from a speed; metres to rest.
    pub(crate) fn driven_to_rest(
        spec: &TruckSpec,
        body: &RigidBody,
        on: &Footing,
        from: f64,
    ) -> f64 {
        let sign = if on.ahead { 1.0 } else { -1.0 };
        let slope = Slope::rising(vec2(1.0, 0.0), on.grade);
        let mut twist = Twist { velocity: vec2(sign * from, 0.0), yaw_rate: 0.0 };
        let (mut along, mut way) = (0.0, 0.0);
        while twist.velocity.x.abs() > 1e-6 {
            let speed = twist.velocity.x.abs();
            let wanted = (speed - spec.travel.service_brake_mps2 * DT).max(0.0);
            let cmd = WheelCommand {
                steer_before: 0.0,
                steer: 0.0,
                drive: DriveAsk::brake(sign * wanted, f64::INFINITY),
                friction_drive: on.friction,
                friction_load: on.friction,
                loads: wheel_loads(spec, body, slope.press, along, 0.0).expect("stands"),
                slope,
            };
            let solved = solve(spec, body, &twist, &cmd);
            along = solved.acceleration.x;
            way += sign * solved.mean.velocity.x * DT;
            twist = solved.end;
        }
        way
    }
}

#[cfg(test)]
mod tests {
    use super::driven::{driven_to_rest, pallet};
    use super::*;
    use crate::floor::Surface;
    use crate::truck::spec::shipped;

    const SURFACES: [Surface; 3] = [Surface::Dry, Surface::Wet, Surface::Dusty];

    /// In the whole simulation the same stands in tests/tests/outside_stopping.rs.
    #[test]
    fn the_braking_reached_is_what_the_wheels_do() {
        for spec in [shipped::single(), shipped::double()] {
            for carried in [vec![], vec![pallet(800.0, 0.3)], vec![pallet(2500.0, 0.35)]] {
                let body = RigidBody::of(&spec, &carried);
                for (surface, ahead, grade) in SURFACES
                    .into_iter()
                    .flat_map(|s| [true, false].map(|a| (s, a)))
                    .flat_map(|(s, a)| [-0.05, 0.0, 0.05, 0.12].map(|g| (s, a, g)))
                {
                    let on = Footing { friction: spec.friction_on(surface), grade, ahead };
                    let a = braking_reached(&spec, &body, &on);
                    if a < 0.2 {
                        // Not what anybody would call a stop.
                        continue;
                    }
                    let way = driven_to_rest(&spec, &body, &on, 2.4);
                    // The transfer follows the braking by a tick, so the first tick brakes less.
                    let said = stopping_distance(2.4, 0.0, a);
                    assert!((way / said - 1.0).abs() < 0.015, "{} {on:?}: {way} {said}", spec.id);
                }
            }
        }
    }

    #[test]
    fn a_load_makes_the_stop_longer_and_so_do_water_and_a_way_down() {
        let spec = shipped::single();
        let (empty, laden) =
            (RigidBody::of(&spec, &[]), RigidBody::of(&spec, &[pallet(2500.0, 0.35)]));
        let dry = Footing { friction: spec.friction_on(Surface::Dry), grade: 0.0, ahead: true };
        let wet = Footing { friction: spec.friction_on(Surface::Wet), ..dry };
        assert_eq!(braking_reached(&spec, &empty, &dry), 3.0, "the brake's own limit");
        let laden_dry = braking_reached(&spec, &laden, &dry);
        let laden_wet = braking_reached(&spec, &laden, &wet);
        assert!(laden_dry < 3.0 && laden_wet < laden_dry, "{laden_dry}, {laden_wet}");
        let forks_first = braking_reached(&spec, &laden, &Footing { ahead: false, ..wet });
        assert!(forks_first < laden_wet, "{forks_first}");
        let down = braking_reached(&spec, &laden, &Footing { grade: -0.1, ..wet });
        assert!(down < laden_wet - 0.9, "{down}");
        // Forks first, up is where the forks point.
        let up = braking_reached(&spec, &laden, &Footing { grade: -0.1, ahead: false, ..wet });
        assert!(up > forks_first + 0.9, "{up}");
    }

    #[test]
    fn what_the_brake_cannot_hold_never_stops() {
        let spec = shipped::single();
        let laden = RigidBody::of(&spec, &[pallet(2700.0, 0.3)]);
        let ice = Footing { friction: 0.05, grade: -0.15, ahead: true };
        let a = braking_reached(&spec, &laden, &ice);
        assert!(a < 0.0, "{a}");
        assert_eq!(stopping_distance(1.0, 0.0, a), f64::INFINITY);
        assert_eq!(stopping_distance(0.0, 1.0, a), 0.0);
    }

    #[test]
    fn a_steep_way_up_stops_harder_than_the_brake_is_set_to() {
        let spec = shipped::single();
        let steep = Footing { friction: 0.55, grade: 0.4, ahead: true };
        let way = (1.0_f64 + 0.16).sqrt();
        let by_weight = G * (0.4 + spec.rolling_resistance) / way;
        assert!(
            (braking_reached(&spec, &RigidBody::of(&spec, &[]), &steep) - by_weight).abs() < 1e-12
        );
    }
}
