//! The truck as the rest of the yard meets it: its parts, and how it goes on.

use crate::geometry::rectangle;
use crate::math::{Pose, Vec2, tan, vec2};
use crate::moment::{Moment, TruckMoment};
use crate::yard::TruckNow;
use crate::yard::eye::Onward;
use crate::yard::loads::Loads;
use crate::yard::motion::Motion;
use crate::yard::setting::Setting;

/// Truck and load as convex outlines, yard frame.
pub(super) fn parts(
    scene: &Setting,
    truck: Pose,
    loads: &Loads,
) -> impl Iterator<Item = [Vec2; 4]> {
    let place = truck.placer();
    let own = scene.truck.outline().map(|part| part.map(&place));
    let load = loads.stack.pallets.iter().filter(|p| !p.is_off).map(move |p| {
        let slab = &p.load.pallet;
        let pose = Pose { at: truck.to_yard(p.at()), ..truck };
        rectangle(pose, vec2(slab.length_m, slab.width_m))
    });
    own.into_iter().chain(load)
}

/// As of this motion and this Moment; `ahead` when the power unit leads.
pub(super) fn truck_now<'a>(
    parts: &'a [[Vec2; 4]],
    truck: &TruckMoment,
    motion: &Motion,
    ahead: bool,
    moment: &Moment,
) -> TruckNow<'a> {
    let axle = motion.twist.at(Vec2::default(), motion.body.com);
    let heading = Vec2::from_angle(truck.pose.heading);
    TruckNow {
        tick: moment.tick,
        pose: truck.pose,
        velocity: axle.rotated(truck.pose.heading),
        speed: truck.speed,
        yaw_rate: truck.yaw_rate,
        platform: truck.platform_in_yard,
        ends: [truck.nose_in_yard, truck.tips_in_yard],
        leading: if ahead { truck.nose_in_yard } else { truck.tips_in_yard },
        along: if ahead { heading } else { -heading },
        parts,
        horn: truck.horn_sounds,
    }
}

/// How the leading end goes on with the present steer angle.
pub(super) fn onward(scene: &Setting, truck: &TruckMoment, ahead: bool, braking: f64) -> Onward {
    let g = &scene.truck.geometry;
    let steer = truck.steer.clamp(-1.4, 1.4);
    let axle = tan(steer) / g.wheelbase_m;
    let end = if ahead { g.nose_x_m } else { g.fork_tips_x_m };
    // The leading end moves across as well as along when the truck turns about a point abreast of
    // the axle.
    let body = vec2(1.0, axle * end);
    let (along, curvature) = (body.normalized(), axle / body.length());
    let along = along.rotated(truck.pose.heading);
    Onward {
        along: if ahead { along } else { -along },
        curvature: if ahead { curvature } else { -curvature },
        speed: truck.speed,
        braking,
        half_width: 0.5 * g.chassis_width_m,
    }
}
