//! What each wheel carries, from a moment balance over wheelbase and track.
//!
//! The drive wheel stands on the centre line, so by itself it cannot hold the truck upright: the
//! load wheels carry the roll moment until the inner one is bare, then the sprung casters beside
//! the drive wheel take the rest, which they take off the drive wheel. When nothing is left to
//! give, the resultant has left the support polygon and the truck tips.

use crate::math::{Vec2, vec2};
use crate::state;
use crate::truck::spec::TruckSpec;

/// A mass that the truck carries, at a place in the body frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Carried {
    /// Mass, kg.
    pub mass: f64,
    /// Middle of the mass seen from above, body frame, m.
    pub at: Vec2,
    /// Height over the floor, m.
    pub height: f64,
    /// Moment of inertia about its own vertical axis, kg m^2.
    pub yaw_inertia: f64,
}

/// Truck, rider and all that is carried as one rigid body.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RigidBody {
    /// Mass, kg.
    pub mass: f64,
    /// Centre of mass, body frame, m.
    pub com: Vec2,
    /// Height of the centre of mass, m.
    pub height: f64,
    /// Moment of inertia about the vertical axis through the centre of mass, kg m^2.
    pub yaw_inertia: f64,
}

impl RigidBody {
    /// Adds up the empty truck, its rider and what else it carries.
    ///
    /// The truck's own yaw inertia is that of a uniform rectangle of its outline about its centre
    /// of mass (an assumption: makers do not publish it).
    pub fn of(spec: &TruckSpec, carried: &[Carried]) -> Self {
        let (g, m) = (&spec.geometry, &spec.mass);
        let length = g.nose_x_m - g.fork_tips_x_m;
        let width = g.chassis_width_m;
        let truck = Carried {
            mass: m.truck_kg,
            at: vec2(m.truck_x_over_wheelbase * g.wheelbase_m, 0.0),
            height: m.truck_height_m,
            yaw_inertia: m.truck_kg * (length * length + width * width) / 12.0,
        };
        let rider = Carried {
            mass: m.rider_kg,
            at: spec.platform(),
            height: m.rider_height_m,
            yaw_inertia: 0.0,
        };
        let parts = || [truck, rider].into_iter().chain(carried.iter().copied());
        let mass: f64 = parts().map(|p| p.mass).sum();
        let com = parts().fold(Vec2::default(), |s, p| s + p.at * (p.mass / mass));
        let height = parts().map(|p| p.height * p.mass / mass).sum();
        let yaw_inertia = parts()
            .map(|p| {
                let r = p.at - com;
                p.yaw_inertia + p.mass * r.dot(r)
            })
            .sum();
        Self { mass, com, height, yaw_inertia }
    }
}

/// Vertical loads, N.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WheelLoads {
    /// Drive wheel.
    pub drive: f64,
    /// Left load wheel.
    pub left: f64,
    /// Right load wheel.
    pub right: f64,
    /// The caster that is pressed down, positive on the right, negative on the left.
    pub caster: f64,
}

/// Wheel loads under quasi-static transfer; None when the truck tips. `press` is what presses the
/// mass on the floor, m/s^2 (see `slope`); `along` and `across` what the wheels give the centre of
/// mass along +x and +y, m/s^2: on the level its acceleration, on a slope also what holds it there.
pub fn wheel_loads(
    spec: &TruckSpec,
    body: &RigidBody,
    press: f64,
    along: f64,
    across: f64,
) -> Option<WheelLoads> {
    let weight = body.mass * press;
    let front = (weight * body.com.x - body.mass * along * body.height) / spec.geometry.wheelbase_m;
    let rear = weight - front;
    if front <= 0.0 || rear <= 0.0 {
        return None;
    }
    // Moment that presses the right side down, N m.
    let roll = body.mass * across * body.height - weight * body.com.y;
    let half_track = 0.5 * spec.geometry.load_wheel_track_m;
    let by_load_wheels = roll.clamp(-rear * half_track, rear * half_track);
    let caster = (roll - by_load_wheels) / (0.5 * spec.geometry.caster_track_m);
    if caster.abs() > front {
        return None;
    }
    let shift = by_load_wheels / (2.0 * half_track);
    Some(WheelLoads {
        drive: front - caster.abs(),
        left: 0.5 * rear - shift,
        right: 0.5 * rear + shift,
        caster,
    })
}

state!(RigidBody { mass, com, height, yaw_inertia });
state!(Carried { mass, at, height, yaw_inertia });

#[cfg(test)]
mod tests {
    use super::*;
    use crate::math::G;
    use crate::truck::spec::shipped;

    #[test]
    fn loads_add_up_to_the_weight() {
        let spec = shipped::single();
        let body = RigidBody::of(&spec, &[]);
        for (press, along, across) in
            [(G, 0.0, 0.0), (G, 0.9, 0.5), (0.99 * G, -3.0, -1.0), (G, 0.0, 1.8)]
        {
            let n = wheel_loads(&spec, &body, press, along, across).expect("stands");
            let sum = n.drive + n.left + n.right + n.caster.abs();
            assert!((sum - body.mass * press).abs() < 1e-9);
            assert!(n.left >= 0.0 && n.right >= 0.0 && n.drive >= 0.0);
        }
    }

    #[test]
    fn turning_left_presses_the_right_wheel_down() {
        let spec = shipped::single();
        let n = wheel_loads(&spec, &RigidBody::of(&spec, &[]), G, 0.0, 0.5).expect("stands");
        assert!(n.right > n.left);
    }

    #[test]
    fn a_truck_tips_when_the_resultant_leaves_its_wheels() {
        let spec = shipped::single();
        let body = RigidBody::of(&spec, &[]);
        assert!(wheel_loads(&spec, &body, G, 0.0, 1.9).is_some());
        assert!(wheel_loads(&spec, &body, G, 0.0, 9.0).is_none());
        assert!(wheel_loads(&spec, &body, G, -40.0, 0.0).is_none());
    }
}
