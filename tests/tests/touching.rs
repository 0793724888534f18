//! Touching is a gap of nothing: what stands a millimetre beside the truck's way is not touched, and
//! what reaches two millimetres into it is. In the whole simulation.

use coneyard_core::controls::{ArmAsk, Controls};
use coneyard_core::course::CONE_RADIUS;
use coneyard_core::math::vec2;
use coneyard_core::moment::{Moment, Touched};
use coneyard_core::truck::spec::shipped;
use coneyard_core::yard::foot::PERSON_RADIUS;
use coneyard_sim::Session;
use coneyard_tests::yards::Floor;
use serde_json::json;

/// Room beside the truck's way, mm, and whether it is touched.
const GAPS: [(i32, bool); 5] = [(-2, true), (1, false), (2, false), (5, false), (20, false)];

/// Drives past what stands beside the way and gives every moment to `see`.
fn drive_past(floor: &Floor, mut see: impl FnMut(&Moment)) -> Session {
    let mut session = Session::new(&floor.setup()).expect("the floor is valid");
    for _ in 0..64 * 8 {
        see(session.step(Controls { throttle: 70, ..Controls::default() }));
    }
    // What it hits may hold it.
    let past = session.moment().truck.pose.at.x > 8.0;
    assert!(past || session.ending().is_some() || session.moment().truck.speed < 0.01);
    session
}

fn half_width() -> f64 {
    0.5 * shipped::single().geometry.chassis_width_m
}

#[test]
fn a_cone_beside_the_way_is_touched_at_nothing_and_not_at_a_millimetre() {
    println!("cone, mm of room: touched, moved, fallen");
    for (mm, touched) in GAPS {
        let at = [6.0, half_width() + CONE_RADIUS + f64::from(mm) / 1000.0];
        let mut contacts = 0;
        let floor = Floor::new("dry").with("cones_m", json!([at]));
        let session = drive_past(&floor, |m| contacts += m.contacts.len());
        let cone = session.frame().cones[0];
        let moved = (cone.at - vec2(at[0], at[1])).length();
        println!("{mm:+3}: {}, {moved:.4} m, {:?}", contacts > 0, cone.fallen_towards);
        assert_eq!(contacts > 0, touched, "{mm} mm");
        assert_eq!(moved > 1e-5, touched, "{mm} mm: moved {moved}");
        assert!(touched || cone.fallen_towards.is_none(), "{mm} mm");
        let found = session.findings().iter().any(|f| f.code == "contact-cone");
        assert_eq!(found, touched, "{mm} mm");
    }
}

#[test]
fn a_wall_beside_the_way_is_touched_at_nothing_and_not_at_a_millimetre() {
    for (mm, touched) in GAPS {
        let middle = half_width() + 0.5 + f64::from(mm) / 1000.0;
        let wall = json!([{ "kind": "wall", "middle_m": [10, middle], "heading_deg": 0, "length_m": 4, "depth_m": 1 }]);
        let mut contacts = 0;
        drive_past(&Floor::new("dry").with("structures", wall), |m| {
            assert!(m.contacts.iter().all(|c| c.with == Touched::Structure(0)));
            contacts += m.contacts.len();
        });
        assert_eq!(contacts > 0, touched, "{mm} mm");
    }
}

/// The load is wider than the truck: what it passes at a millimetre stands beside the load.
#[test]
fn a_load_touches_at_nothing_and_not_at_a_millimetre() {
    for (mm, touched) in GAPS {
        let at = [6.0, 0.5 + CONE_RADIUS + f64::from(mm) / 1000.0];
        let floor = Floor::new("dry").laden(1, 12.0).with("cones_m", json!([at]));
        let mut contacts = 0;
        drive_past(&floor, |m| contacts += m.contacts.len());
        assert_eq!(contacts > 0, touched, "{mm} mm");
    }
}

#[test]
fn another_truck_is_touched_at_nothing_and_not_at_a_millimetre() {
    for (mm, touched) in GAPS {
        let y = half_width() + 0.4 + f64::from(mm) / 1000.0;
        let other = json!([{
            "id": "waits", "length_m": 2.4, "width_m": 0.8, "at_the_end": "stay", "way_m": [[8, y], [30, y]], "speed_mps": 1.0,
            "sets_off": { "after": { "least_s": 500, "most_s": 500 } }
        }]);
        let mut contacts = 0;
        drive_past(&Floor::new("dry").with("other_trucks", other), |m| {
            contacts += m.contacts.iter().filter(|c| c.with == Touched::Other(0)).count();
        });
        assert_eq!(contacts > 0, touched, "{mm} mm");
    }
}

#[test]
fn a_person_is_struck_at_nothing_and_not_at_a_millimetre() {
    for (mm, touched) in GAPS {
        let y = half_width() + PERSON_RADIUS + f64::from(mm) / 1000.0;
        let person = json!([{
            "id": "stands", "route": [{ "at_m": [8, y] }], "at_the_end": "stay",
            "sets_off": { "after": { "least_s": 500, "most_s": 500 } }
        }]);
        let mut closest = f64::INFINITY;
        let session = drive_past(&Floor::new("dry").with("people", person), |m| {
            closest = m.people.iter().map(|p| p.gap).fold(closest, f64::min);
        });
        println!("person, {mm:+3} mm of room: {:.4} m at the closest", closest);
        let struck = session.findings().iter().any(|f| f.code == "person-struck");
        assert_eq!(struck, touched, "{mm} mm, {closest} m");
        assert_eq!(closest <= 0.0, touched, "{mm} mm, {closest} m");
    }
}

/// Brought to rest short of a wall: no contact, however near; at the wall: one.
#[test]
fn a_stop_before_a_wall_is_no_contact() {
    let nose = shipped::single().geometry.nose_x_m;
    for (mm, touched) in [(0, true), (1, false), (2, false), (5, false), (20, false)] {
        let x = nose + f64::from(mm) / 1000.0 + 0.5;
        let wall = json!([{ "kind": "wall", "middle_m": [x, 0], "heading_deg": 0, "length_m": 1, "depth_m": 6 }]);
        let floor = Floor::new("dry").with("structures", wall);
        let mut session = Session::new(&floor.setup()).expect("the floor is valid");
        let mut contacts = 0;
        for _ in 0..64 {
            contacts +=
                session.step(Controls { arm: ArmAsk::LetGo, ..Controls::default() }).contacts.len();
        }
        assert_eq!(contacts > 0, touched, "{mm} mm");
        assert!(session.findings().iter().all(|f| f.code != "contact-structure"), "{mm} mm");
    }
}

/// Driven into a wall the speed is told with which it was met, wherever in the tick it was met.
#[test]
fn a_wall_is_met_with_the_speed_that_was_driven() {
    let nose = shipped::single().geometry.nose_x_m;
    for i in 0..20 {
        let x = nose + 6.0 + f64::from(i) * 0.003 + 0.5;
        let wall = json!([{ "kind": "wall", "middle_m": [x, 0], "heading_deg": 0, "length_m": 1, "depth_m": 6 }]);
        let floor = Floor::new("dry").with("structures", wall);
        let mut session = Session::new(&floor.setup()).expect("the floor is valid");
        let (mut before, mut met) = (0.0, None);
        for _ in 0..64 * 10 {
            let m = session.step(Controls { throttle: 100, ..Controls::default() });
            if let Some(c) = m.contacts.first() {
                met = Some(c.closing_speed);
                break;
            }
            before = m.truck.speed;
        }
        let met = met.expect("it meets the wall");
        assert!(before > 2.3 && (met - before).abs() < 0.02, "{i}: {before} {met}");
    }
}
