//! Right-angle stacking against the aisle width of a VDI 2198 type sheet, for powered pallet
//! trucks: Ast = Wa + sqrt((l6 - x)^2 + (b12 / 2)^2) + a, with a = 200 mm (the formula for pallet
//! trucks from a truck maker's aisle-width guide; the symbols and a from memory). Wa is the radius
//! of the outermost point about the load axle's middle, x the load axle's distance to the fork face.

use coneyard_core::controls::{Controls, TillerAsk};
use coneyard_core::math::vec2;
use coneyard_core::moment::Touched;
use coneyard_core::rules::SHIPPED;
use coneyard_core::run::DriveSetup;
use coneyard_core::truck::spec::shipped;
use coneyard_sim::Session;

/// Operating clearance, m.
const CLEARANCE: f64 = 0.2;
/// Load on the forks: a pallet of 1.2 m along and 1.0 m across them.
const L6: f64 = 1.2;
const B12: f64 = 1.0;

/// How far the shipped single truck's drive wheel turns, rad.
const LOCK: f64 = 85.0 * coneyard_core::math::DEG;

/// The published formula with the dimensions of the shipped single truck, m, without clearance.
fn turning_needs() -> f64 {
    let g = shipped::single().geometry;
    let wa = vec2(g.nose_x_m, 0.5 * g.chassis_width_m).length();
    wa + vec2(L6 - g.backrest_x_m, 0.5 * B12).length()
}

/// An aisle of this width along x with its middle at y = 0, and a bay in its north side at x = 0;
/// the truck stands parallel to it, its load axle at `spawn`.
fn aisle(width: f64, spawn: [f64; 2]) -> DriveSetup {
    let wall = |x: f64, y: f64, length: f64| {
        format!(
            r#"{{ "kind": "rack", "middle_m": [{x}, {y}], "heading_deg": 0, "length_m": {length}, "depth_m": 1.2 }}"#
        )
    };
    let edge = 0.5 * width + 0.6;
    let racks = [wall(0.0, -edge, 20.0), wall(-5.35, edge, 9.3), wall(5.35, edge, 9.3)].join(", ");
    let course = format!(
        r#"{{ "format": 1, "id": "aisle", "title": {{ "en": "Aisle" }}, "trains": {{ "en": "Aisle" }},
          "trucks": ["single"],
          "floor": {{ "south_west_m": [-12, -6], "north_east_m": [12, 6], "surface": "dry" }},
          "structures": [{racks}],
          "loads": [{{ "id": "stack", "source": "Invented.",
            "pallet": {{ "length_m": {L6}, "width_m": {B12}, "height_m": 0.14, "mass_kg": 25 }},
            "case": {{ "length_m": 0.4, "width_m": 0.33, "height_m": 0.3, "mass_kg": 12 }},
            "layers": [[3, 3, 3], [3, 3, 3], [3, 3, 3]], "wrapped": true,
            "surfaces": {{ "pallet_on_forks": "wooden_pallet_on_forks",
              "case_on_pallet": "cardboard_on_wooden_pallet", "case_on_case": "cardboard_on_cardboard" }} }}],
          "pallets": [{{ "id": "stack", "load": "stack", "stands": "on-forks" }}],
          "gates": [{{ "id": "far", "left_m": [9, 0.7], "right_m": [9, -0.7] }}],
          "spawn": {{ "load_axle_m": [{}, {}], "heading_deg": 0, "stance": "right" }},
          "steps": [{{ "say": {{ "en": "Turn into the bay." }}, "travel": "power-unit-first",
            "what": {{ "gates": {{ "in_order": ["far"], "laps": 1 }} }} }}],
          "time_limit_s": 600 }}"#,
        spawn[0], spawn[1]
    );
    DriveSetup {
        course,
        truck: coneyard_core::truck::spec::shipped::SINGLE.to_owned(),
        rules: SHIPPED.to_owned(),
        checks: String::new(),
        seed: 1,
        who: "Alder".to_owned(),
        started: "2026-01-05T08:00:00Z".to_owned(),
    }
}

/// Turns on the spot as far as the lock allows, then backs straight into the bay. True when the
/// load is a metre deep in the bay and nothing was touched.
fn turns_in(width: f64, aside: f64) -> bool {
    let g = shipped::single().geometry;
    // The truck turns about a point abreast of its load axle, this far to the right.
    let pivot = g.wheelbase_m / coneyard_core::math::tan(LOCK);
    // With the pivot where the load axle comes to stand in the middle of the bay.
    let Ok(mut session) = Session::new(&aisle(width, [-pivot, aside])) else { return false };
    let half_turn = core::f64::consts::FRAC_PI_2;
    let hold = Controls { stance: coneyard_core::controls::Side::Right, ..Controls::default() };
    let touched =
        |s: &Session| s.moment().contacts.iter().any(|c| matches!(c.with, Touched::Structure(_)));
    let drive = |session: &mut Session, controls: Controls, until: &dyn Fn(&Session) -> bool| {
        for _ in 0..64 * 60 {
            if until(session) {
                return true;
            }
            session.step(controls);
            if touched(session) {
                return false;
            }
        }
        false
    };
    let steer = |s: &Session| s.moment().truck.steer;
    let full = Controls { tiller: TillerAsk::To(-170), ..hold };
    drive(&mut session, full, &|s| steer(s) < -LOCK + 0.01)
        && drive(&mut session, Controls { throttle: 12, ..full }, &|s| {
            s.moment().truck.pose.heading < -half_turn + 0.03
        })
        && drive(&mut session, full, &|s| s.moment().truck.speed.abs() < 0.01)
        && drive(&mut session, Controls { tiller: TillerAsk::To(0), ..hold }, &|s| {
            steer(s).abs() < 0.01
        })
        && drive(&mut session, Controls { throttle: -15, ..hold }, &|s| {
            s.moment().truck.tips_in_yard.y > 0.5 * width + 1.0
        })
}

/// Places across the aisle from which the turn may be tried, every 2 cm.
fn any_place(width: f64) -> bool {
    (-60..=60).any(|i| turns_in(width, f64::from(i) * 0.02))
}

#[test]
fn the_turn_is_made_at_the_formulas_width_and_not_at_nine_tenths_of_it() {
    let needs = turning_needs();
    assert!((needs - 3.239).abs() < 1e-3, "{needs}");
    assert!(any_place(needs + CLEARANCE), "{} m is wide enough", needs + CLEARANCE);
    assert!(!any_place(0.9 * needs), "{} m is too narrow", 0.9 * needs);
}
