//! The truck specification file: every dimension and every number of a truck, with no number of
//! a truck anywhere in code. The shipped files are under levels/trucks/. Values there marked
//! "typical" are typical of the trade, from memory, with no source.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::floor::Surface;
use crate::math::{DEG, Vec2, vec2};
use crate::outside::{BadInput, read_json};

/// Largest truck file that is read, bytes.
pub const MAX_BYTES: usize = 64 * 1024;

/// A truck as its file describes it. The names carry the units.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct TruckFile {
    /// The schema this file follows.
    #[serde(rename = "$schema", default, skip_serializing_if = "Option::is_none")]
    pub schema: Option<String>,
    /// Version of the file format: 1.
    pub format: u32,
    /// Short name: "single", "double".
    pub id: String,
    /// Where the numbers come from, in a sentence.
    pub source: String,
    /// Dimensions in m.
    pub geometry: GeometryFile,
    /// Masses in kg, places in m.
    pub mass: MassFile,
    /// Friction factor of drive and load wheels by floor.
    pub friction: BTreeMap<Surface, f64>,
    /// Rolling resistance over wheel load.
    pub rolling_resistance: f64,
    /// Speeds and accelerations.
    pub travel: TravelFile,
    /// The arm's arc.
    pub arm: ArmFile,
    /// The tiller's swing.
    pub tiller: TillerFile,
    /// The forks.
    pub forks: ForksFile,
    /// How the rider stands.
    pub rider: RiderFile,
}

/// The rider on the platform, over the floor.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)] // the names say what and in which unit
pub struct RiderFile {
    pub eye_height_m: f64,
    pub top_m: f64,
}

/// Dimensions, m, x from the load axle towards the power unit.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)] // the names say what and in which unit
pub struct GeometryFile {
    pub wheelbase_m: f64,
    pub fork_tips_x_m: f64,
    pub backrest_x_m: f64,
    pub platform_x_m: f64,
    pub power_unit_x_m: f64,
    pub nose_x_m: f64,
    pub chassis_width_m: f64,
    pub fork_spread_m: f64,
    pub fork_width_m: f64,
    pub load_wheel_track_m: f64,
    pub caster_track_m: f64,
    pub drive_wheel_width_m: f64,
    pub tiller_length_m: f64,
}

/// Masses.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)]
pub struct MassFile {
    pub truck_kg: f64,
    pub truck_x_over_wheelbase: f64,
    pub truck_height_m: f64,
    pub rider_kg: f64,
    pub rider_height_m: f64,
    pub capacity_kg: f64,
}

/// Speeds and accelerations.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)]
pub struct TravelFile {
    pub top_speed_empty_mps: f64,
    pub top_speed_laden_mps: f64,
    pub high_speed_mps: f64,
    pub high_speed_laden_mps: f64,
    pub top_speed_forks_first_mps: f64,
    pub acceleration_mps2: f64,
    pub lag_s: f64,
    pub speed_response_s: f64,
    pub coasting_mps2: f64,
    pub coasting_force_most_n: f64,
    pub plugging_least_mps2: f64,
    pub plugging_most_mps2: f64,
    pub service_brake_mps2: f64,
    pub tractive_force_most_n: f64,
    pub throttle_dead_band: f64,
}

/// The arm's arc.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)]
pub struct ArmFile {
    pub upper_brake_below_deg: f64,
    pub lower_brake_above_deg: f64,
    pub hysteresis_deg: f64,
    pub hold_deg: f64,
    pub lowest_deg: f64,
    pub spring_dps: f64,
    pub push_dps: f64,
}

/// The tiller's swing.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)]
pub struct TillerFile {
    pub lock_deg: f64,
    pub body_dps: f64,
    pub arm_dps: f64,
    pub free_deg: f64,
    pub scrub_fade_mps: f64,
    pub step_across_s: f64,
}

/// The forks.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
#[allow(missing_docs)]
pub struct ForksFile {
    pub lift_m: f64,
    pub raise_empty_mps: f64,
    pub raise_laden_mps: f64,
    pub lower_mps: f64,
    pub at_start_m: f64,
    pub backrest_top_m: f64,
    pub sway_per_m: f64,
    pub pallets: u32,
}

/// The arm's arc, radians.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ArmSpec {
    /// The upper brake zone ends here.
    pub upper_end: f64,
    /// The lower brake zone starts here.
    pub lower_start: f64,
    /// A zone is left only this far beyond its edge.
    pub hysteresis: f64,
    /// Where a rider holds it while driving.
    pub hold: f64,
    /// As far down as it goes.
    pub lowest: f64,
    /// The spring's speed, rad/s.
    pub spring_rate: f64,
    /// Speed of the hands downwards, rad/s.
    pub push_rate: f64,
}

/// A truck with every value checked. SI units, radians.
#[derive(Clone, Debug, PartialEq)]
pub struct TruckSpec {
    /// Short name.
    pub id: String,
    /// Dimensions.
    pub geometry: GeometryFile,
    /// Masses.
    pub mass: MassFile,
    /// Friction factor by floor, in the order dry, wet, dusty, plate.
    pub friction: [f64; 4],
    /// Rolling resistance over wheel load.
    pub rolling_resistance: f64,
    /// Speeds and accelerations.
    pub travel: TravelFile,
    /// The arm.
    pub arm: ArmSpec,
    /// The tiller.
    pub tiller: TillerFile,
    /// The forks.
    pub forks: ForksFile,
    /// The rider on the platform.
    pub rider: RiderFile,
}

impl TruckSpec {
    /// Reads a truck specification file.
    ///
    /// # Errors
    /// One sentence with the place when anything in it is missing, unknown or out of range.
    pub fn parse(file: &str, text: &[u8]) -> Result<Self, BadInput> {
        let f: TruckFile = read_json(file, text, MAX_BYTES)?;
        check(file, &f)?;
        let by_floor = |s: Surface| {
            f.friction.get(&s).copied().ok_or_else(|| {
                BadInput::new(
                    file,
                    "friction",
                    format!("no friction factor for {s:?} floor; add one"),
                )
            })
        };
        Ok(Self {
            friction: [
                by_floor(Surface::Dry)?,
                by_floor(Surface::Wet)?,
                by_floor(Surface::Dusty)?,
                by_floor(Surface::Plate)?,
            ],
            arm: ArmSpec {
                upper_end: f.arm.upper_brake_below_deg * DEG,
                lower_start: f.arm.lower_brake_above_deg * DEG,
                hysteresis: f.arm.hysteresis_deg * DEG,
                hold: f.arm.hold_deg * DEG,
                lowest: f.arm.lowest_deg * DEG,
                spring_rate: f.arm.spring_dps * DEG,
                push_rate: f.arm.push_dps * DEG,
            },
            id: f.id,
            geometry: f.geometry,
            mass: f.mass,
            rolling_resistance: f.rolling_resistance,
            travel: f.travel,
            tiller: f.tiller,
            forks: f.forks,
            rider: f.rider,
        })
    }

    /// Friction factor on a floor.
    pub fn friction_on(&self, surface: Surface) -> f64 {
        self.friction[surface as usize]
    }

    /// The outline seen from above as convex parts, body frame, m: power unit with platform and
    /// backrest, then the two forks.
    pub fn outline(&self) -> [[Vec2; 4]; 3] {
        let g = &self.geometry;
        let rect = |x0: f64, x1: f64, y0: f64, y1: f64| {
            [vec2(x0, y0), vec2(x1, y0), vec2(x1, y1), vec2(x0, y1)]
        };
        let (w, s) = (0.5 * g.chassis_width_m, 0.5 * g.fork_spread_m);
        [
            rect(g.backrest_x_m, g.nose_x_m, -w, w),
            rect(g.fork_tips_x_m, g.backrest_x_m, s - g.fork_width_m, s),
            rect(g.fork_tips_x_m, g.backrest_x_m, -s, -s + g.fork_width_m),
        ]
    }

    /// Middle of the rider's platform, body frame, m.
    pub fn platform(&self) -> Vec2 {
        vec2(self.geometry.platform_x_m, 0.0)
    }
}

fn check(file: &str, f: &TruckFile) -> Result<(), BadInput> {
    let bad = |place: &str, reason: String| Err(BadInput::new(file, place, reason));
    if f.format != 1 {
        return bad(
            "format",
            format!("this is format {}, and this program reads format 1", f.format),
        );
    }
    if f.id.is_empty()
        || f.id.len() > 40
        || !f.id.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-')
    {
        return bad("id", "use 1 to 40 lower-case letters, digits and dashes".into());
    }
    let (g, m, t, a, s, k) = (&f.geometry, &f.mass, &f.travel, &f.arm, &f.tiller, &f.forks);
    // Place, value, least, most: wide enough for any rider pallet truck, tight enough that nothing
    // downstream divides by zero or runs away.
    let ranges = [
        ("geometry.wheelbase_m", g.wheelbase_m, 0.8, 6.0),
        ("geometry.fork_tips_x_m", g.fork_tips_x_m, -2.0, 0.0),
        ("geometry.backrest_x_m", g.backrest_x_m, 0.2, g.wheelbase_m),
        ("geometry.platform_x_m", g.platform_x_m, g.backrest_x_m, g.nose_x_m),
        ("geometry.power_unit_x_m", g.power_unit_x_m, g.platform_x_m, g.nose_x_m),
        ("geometry.nose_x_m", g.nose_x_m, g.wheelbase_m, 8.0),
        ("geometry.chassis_width_m", g.chassis_width_m, 0.4, 2.0),
        ("geometry.fork_spread_m", g.fork_spread_m, 0.3, 2.0),
        ("geometry.fork_width_m", g.fork_width_m, 0.05, 0.45 * g.fork_spread_m),
        ("geometry.load_wheel_track_m", g.load_wheel_track_m, 0.2, g.fork_spread_m),
        ("geometry.caster_track_m", g.caster_track_m, 0.2, g.chassis_width_m),
        ("geometry.drive_wheel_width_m", g.drive_wheel_width_m, 0.03, 0.3),
        ("geometry.tiller_length_m", g.tiller_length_m, 0.3, 2.0),
        ("mass.truck_kg", m.truck_kg, 200.0, 10_000.0),
        ("mass.truck_x_over_wheelbase", m.truck_x_over_wheelbase, 0.3, 0.95),
        ("mass.truck_height_m", m.truck_height_m, 0.1, 2.0),
        ("mass.rider_kg", m.rider_kg, 30.0, 250.0),
        ("mass.rider_height_m", m.rider_height_m, 0.3, 2.0),
        ("mass.capacity_kg", m.capacity_kg, 100.0, 10_000.0),
        ("rolling_resistance", f.rolling_resistance, 0.0, 0.1),
        ("travel.top_speed_empty_mps", t.top_speed_empty_mps, 0.5, 6.0),
        ("travel.top_speed_laden_mps", t.top_speed_laden_mps, 0.3, t.top_speed_empty_mps),
        ("travel.high_speed_mps", t.high_speed_mps, t.top_speed_empty_mps, 6.0),
        ("travel.high_speed_laden_mps", t.high_speed_laden_mps, 0.3, t.high_speed_mps),
        ("travel.top_speed_forks_first_mps", t.top_speed_forks_first_mps, 0.3, 6.0),
        ("travel.acceleration_mps2", t.acceleration_mps2, 0.1, 4.0),
        ("travel.lag_s", t.lag_s, 0.02, 2.0),
        ("travel.speed_response_s", t.speed_response_s, 0.1, 5.0),
        ("travel.coasting_mps2", t.coasting_mps2, 0.05, 4.0),
        ("travel.coasting_force_most_n", t.coasting_force_most_n, 0.0, t.tractive_force_most_n),
        ("travel.plugging_least_mps2", t.plugging_least_mps2, 0.05, 4.0),
        ("travel.plugging_most_mps2", t.plugging_most_mps2, t.plugging_least_mps2, 6.0),
        ("travel.service_brake_mps2", t.service_brake_mps2, 0.5, 9.0),
        ("travel.tractive_force_most_n", t.tractive_force_most_n, 200.0, 50_000.0),
        ("travel.throttle_dead_band", t.throttle_dead_band, 0.0, 0.3),
        ("arm.upper_brake_below_deg", a.upper_brake_below_deg, 1.0, 44.0),
        ("arm.lower_brake_above_deg", a.lower_brake_above_deg, 46.0, 89.0),
        ("arm.hysteresis_deg", a.hysteresis_deg, 0.0, 5.0),
        (
            "arm.hold_deg",
            a.hold_deg,
            a.upper_brake_below_deg + a.hysteresis_deg,
            a.lower_brake_above_deg - a.hysteresis_deg,
        ),
        ("arm.lowest_deg", a.lowest_deg, a.lower_brake_above_deg, 90.0),
        ("arm.spring_dps", a.spring_dps, 10.0, 1000.0),
        ("arm.push_dps", a.push_dps, 10.0, 1000.0),
        ("tiller.lock_deg", s.lock_deg, 20.0, 89.0),
        ("tiller.body_dps", s.body_dps, 5.0, 720.0),
        ("tiller.arm_dps", s.arm_dps, 5.0, s.body_dps),
        ("tiller.free_deg", s.free_deg, 0.0, s.lock_deg),
        ("tiller.scrub_fade_mps", s.scrub_fade_mps, 0.01, 5.0),
        ("tiller.step_across_s", s.step_across_s, 0.1, 5.0),
        ("forks.lift_m", k.lift_m, 0.05, 1.0),
        ("forks.raise_empty_mps", k.raise_empty_mps, 0.005, 1.0),
        ("forks.raise_laden_mps", k.raise_laden_mps, 0.005, k.raise_empty_mps),
        ("forks.lower_mps", k.lower_mps, 0.005, 1.0),
        ("forks.at_start_m", k.at_start_m, 0.0, k.lift_m),
        ("forks.backrest_top_m", k.backrest_top_m, 0.1, 3.0),
        ("forks.sway_per_m", k.sway_per_m, 0.0, 50.0),
        ("forks.pallets", f64::from(k.pallets), 1.0, 3.0),
        ("rider.eye_height_m", f.rider.eye_height_m, 0.8, 3.0),
        ("rider.top_m", f.rider.top_m, f.rider.eye_height_m, 3.5),
    ];
    for (place, value, least, most) in ranges {
        if !(least..=most).contains(&value) {
            return bad(place, format!("{value} lies outside {least} to {most}"));
        }
    }
    for (surface, mu) in &f.friction {
        if !(0.02..=1.5).contains(mu) {
            return bad("friction", format!("{mu} for {surface:?} floor lies outside 0.02 to 1.5"));
        }
    }
    Ok(())
}

/// The trucks that Coneyard ships, for tests and for programs without a file system.
pub mod shipped {
    use super::TruckSpec;

    /// Text of levels/trucks/single.json.
    pub const SINGLE: &str = include_str!("../../../../levels/trucks/single.json");
    /// Text of levels/trucks/double.json.
    pub const DOUBLE: &str = include_str!("../../../../levels/trucks/double.json");

    /// Name and text of every truck.
    pub const ALL: [(&str, &str); 2] = [("single", SINGLE), ("double", DOUBLE)];

    /// The text of the truck of this name; None when no such truck is shipped.
    pub fn text(name: &str) -> Option<&'static str> {
        ALL.iter().find(|(shipped, _)| *shipped == name).map(|(_, text)| *text)
    }

    /// The truck that carries one pallet.
    ///
    /// # Panics
    /// Never: a test reads the shipped file.
    #[allow(clippy::expect_used)]
    pub fn single() -> TruckSpec {
        TruckSpec::parse("single.json", SINGLE.as_bytes()).expect("a shipped file is valid")
    }

    /// The truck that carries two pallets end to end.
    ///
    /// # Panics
    /// Never: a test reads the shipped file.
    #[allow(clippy::expect_used)]
    pub fn double() -> TruckSpec {
        TruckSpec::parse("double.json", DOUBLE.as_bytes()).expect("a shipped file is valid")
    }
}

#[cfg(test)]
mod tests;
