//! Lines under a truck that stands: whatever the hands do at rest, a line is crossed by one end of
//! the truck driving over it, and by nothing else.

use coneyard_core::controls::{ArmAsk, Controls};
use coneyard_core::finding::Skill;
use coneyard_core::math::Vec2;
use coneyard_core::run::DriveSetup;
use coneyard_core::time::TICK_RATE;
use coneyard_sim::Session;
use coneyard_tests::yards::Floor;
use serde_json::{Value, json};

/// An empty floor with a stop line, a yield line and a hidden place across y = 0 at each of these
/// places, for travel east (true) or west.
fn yard(places: &[f64], directions: &[bool]) -> Session {
    let (mut lines, mut blind) = (Vec::<Value>::new(), Vec::new());
    for (i, x) in places.iter().enumerate() {
        for ahead in directions {
            let side = if *ahead { 2.2 } else { -2.2 };
            let (from, to) = ([*x, side], [*x, -side]);
            lines.extend(["stop", "yield"].map(|kind| {
                json!({ "id": format!("{kind}-{i}-{ahead}"), "kind": kind, "from_m": from, "to_m": to })
            }));
            blind.push(json!({ "id": format!("{i}-{ahead}"), "left_m": from, "right_m": to }));
        }
    }
    // It hides what comes from the north.
    let wall = json!({
        "kind": "wall", "middle_m": [0, 2.6], "heading_deg": 0, "length_m": 180, "depth_m": 0.2
    });
    let floor = Floor::new("dry")
        .with("structures", json!([wall]))
        .with("lines", json!(lines))
        .with("blind_spots", json!(blind))
        .with("traffic", json!(true));
    // Short drives that are broken off count here as well.
    let rules = json!({
        "format": 1,
        "terms": { "counts-from": { "value": 0, "unit": "m", "source": "site rule" } }
    });
    let setup = DriveSetup { rules: rules.to_string(), ..floor.setup() };
    Session::new(&setup).expect("the floor is valid")
}

/// Opportunities of the right of way, and codes of all findings, of a drive that ends here.
fn judged(session: Session) -> (u32, Vec<String>) {
    let debrief = session.finish(1.0).claimed;
    let way = debrief.skills.iter().find(|s| s.skill == Skill::RightOfWay);
    let codes = debrief.findings.into_iter().map(|f| f.code).collect();
    (way.expect("every skill has a result").opportunities, codes)
}

/// The truck stands across lines of both directions, and for 20 s the throttle changes sides with
/// every tick: within its dead band, and fully with the brake on.
#[test]
fn nothing_is_crossed_by_a_truck_that_stands() {
    for (throttle, arm) in [(4, ArmAsk::Hold), (4, ArmAsk::LetGo), (100, ArmAsk::LetGo)] {
        let mut session = yard(&[0.0, 1.3, 2.4], &[true, false]);
        // The arm comes up before anything is asked for.
        for _ in 0..TICK_RATE {
            session.step(Controls { arm, ..Controls::default() });
        }
        for tick in 0..20 * TICK_RATE {
            let throttle = if tick.is_multiple_of(2) { throttle } else { -throttle };
            let m = session.step(Controls { throttle, arm, ..Controls::default() });
            assert!(m.truck.speed.abs() < 0.001, "it stands: {} m/s", m.truck.speed);
            let crossed = m.ways.iter().filter(|w| w.crossed).count();
            assert_eq!(crossed, 0, "tick {tick}, {throttle} % and {arm:?}");
        }
        assert_eq!(judged(session), (0, vec![]), "{throttle} % and {arm:?}");
    }
}

/// Drives one way from rest for a while, and stands again.
fn drive(session: &mut Session, ahead: bool) -> [Vec2; 2] {
    let most = if ahead { 40 } else { -40 };
    for tick in 0..12 * TICK_RATE {
        let brakes = tick > 6 * TICK_RATE;
        let throttle = if brakes { 0 } else { most };
        let arm = if brakes { ArmAsk::LetGo } else { ArmAsk::Hold };
        session.step(Controls { throttle, arm, ..Controls::default() });
    }
    let truck = &session.moment().truck;
    [truck.nose_in_yard, truck.tips_in_yard]
}

/// The end that leads has come to rest 1 mm behind a line, or 1 mm before it.
#[test]
fn a_line_that_is_driven_over_by_a_millimetre_counts_in_both_directions() {
    for ahead in [true, false] {
        let [nose, tips] = drive(&mut yard(&[-80.0], &[true]), ahead);
        let (end, way) = if ahead { (nose, 1.0) } else { (tips, -1.0) };
        let lines = |short: f64, directions: &[bool]| {
            let mut session = yard(&[end.x + way * short], directions);
            drive(&mut session, ahead);
            judged(session)
        };
        let (before, found) = lines(0.001, &[ahead]);
        assert_eq!(found.iter().filter(|c| *c == "stop-line-run").count(), 0, "{found:?}");
        let (over, found) = lines(-0.001, &[ahead]);
        assert_eq!(found.iter().filter(|c| *c == "stop-line-run").count(), 1, "{found:?}");
        assert!(found.iter().any(|c| c == "no-horn-at-blind-spot"), "{found:?}");
        assert_eq!(over - before, 3, "a stop line, a yield line and a hidden place");
        // Meant for the other direction it is none.
        let (against, found) = lines(-0.001, &[!ahead]);
        assert_eq!((against, found.iter().any(|c| c == "stop-line-run")), (before, false));
    }
}

/// The truck starts astride a line: the end that follows goes over it, and that is no crossing.
#[test]
fn an_end_that_follows_crosses_nothing() {
    for ahead in [true, false] {
        let way = if ahead { 1.0 } else { -1.0 };
        let under = |x: f64| {
            let mut session = yard(&[x], &[true, false]);
            let [nose, tips] = drive(&mut session, ahead);
            let follows = if ahead { tips } else { nose };
            assert!((follows.x - x) * way > 0.5, "it has gone over: {follows:?}");
            judged(session)
        };
        let (none, _) = under(if ahead { -0.3 } else { 2.7 });
        let (astride, found) = under(1.2);
        assert_eq!(astride, none, "{found:?}");
        assert!(found.iter().all(|c| c != "stop-line-run"), "{found:?}");
    }
}
