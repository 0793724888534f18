//! Courses that parse and still cannot be driven.

use crate::course::check::check;
use crate::course::shipped::parse;
use crate::course::{Course, StepKind};
use crate::math::vec2;
use crate::truck::spec::shipped::{double, single};

fn says(course: &Course) -> Vec<String> {
    check(course, &single()).iter().map(ToString::to_string).collect()
}

#[test]
fn a_start_in_something_is_named() {
    let mut c = parse("straight");
    c.structures[0].pose.at = c.spawn.at;
    assert!(says(&c).contains(
        &"course straight, at spawn: the truck would stand in structures[0]; move one".to_owned()
    ));
    let mut c = parse("straight");
    c.cones.push(c.spawn.to_yard(vec2(2.0, 0.3)));
    assert_eq!(
        says(&c),
        ["course straight, at spawn: the truck would stand in the cone cones_m[6]; move one"]
    );
    // The same cone between the forks is no obstacle: the outline has a gap there.
    let mut c = parse("straight");
    c.cones.push(c.spawn.to_yard(vec2(0.3, 0.7)));
    assert!(says(&c).is_empty());
    let mut c = parse("straight");
    c.spawn.at.y = c.floor_max.y;
    assert!(says(&c).iter().any(|s| s.contains("at spawn") && s.contains("outside the floor")));
    let mut c = parse("straight");
    c.spawn.at.y = 1.4;
    assert_eq!(
        says(&c),
        [
            "course straight, at spawn: a wheel would stand outside the lanes; move the start or the lane"
        ]
    );
}

#[test]
fn a_truck_that_is_not_listed_is_named() {
    let problems = check(&parse("straight"), &double());
    assert_eq!(
        problems[0].to_string(),
        "course straight, at trucks: the truck double is not among single"
    );
}

#[test]
fn a_gate_in_the_wrong_order_or_the_wrong_way_round_is_named() {
    let mut c = parse("laps-clockwise");
    let StepKind::Gates { gates, .. } = &mut c.steps[0].what else { panic!() };
    gates.swap(1, 2);
    assert!(says(&c).iter().any(|s| s.contains("at steps[0].what.gates.in_order[2]: from gate")));
    for name in ["laps-counter-clockwise", "figure-eight", "slalom", "emergency-stops"] {
        let whole = parse(name);
        for i in 0..whole.gates.len() {
            let mut c = whole.clone();
            let gate = &mut c.gates[i];
            core::mem::swap(&mut gate.left, &mut gate.right);
            let alone =
                matches!(&c.steps[1].what, StepKind::Gates { gates, .. } if gates.len() == 1);
            assert_eq!(says(&c).is_empty(), alone, "{name}, gate {i}");
        }
    }
    let mut c = parse("laps-clockwise");
    let StepKind::Gates { gates, .. } = &mut c.steps[0].what else { panic!() };
    gates[1] = gates[0];
    assert!(says(&c).iter().any(|s| s.contains("follows itself")));
}

#[test]
fn gates_and_boxes_without_room_are_named() {
    let mut c = parse("laps-clockwise");
    c.gates[0].left = c.gates[0].right + vec2(1.0, 0.0);
    assert!(says(&c).iter().any(|s| s.contains("at gates[0]: the gate is 1.00 m wide")));
    let mut c = parse("laps-clockwise");
    let middle = c.gates[0].middle();
    c.cones.extend([middle + vec2(0.3, 0.0), middle - vec2(0.3, 0.0)]);
    assert!(says(&c).iter().any(|s| s.contains("at gates[0]: the cones leave")));
    let mut c = parse("laps-clockwise");
    c.structures[4].pose.at = c.gates[0].middle();
    assert!(says(&c).iter().any(|s| s.contains("at gates[0]: structures[4] stands in the gate")));
    let mut c = parse("laps-clockwise");
    c.gates[0].left = vec2(c.floor_max.x + 1.0, 0.0);
    assert!(says(&c).iter().any(|s| s.contains("at gates[0]") && s.contains("outside the floor")));
    let mut c = parse("laps-clockwise");
    c.boxes[0].size.x = 2.9;
    assert!(says(&c).iter().any(|s| s.contains("at boxes[0]: the box is 2.90 m by 1.90 m")));
    let mut c = parse("laps-clockwise");
    c.cones.push(c.boxes[0].pose.at);
    assert!(says(&c).iter().any(|s| s.contains("stands in the box")));
}

#[test]
fn a_cone_in_a_rack_or_in_a_cone_is_named() {
    let mut c = parse("straight");
    c.cones[1] = c.cones[0] + vec2(0.3, 0.0);
    assert!(says(&c).iter().any(|s| s.contains("cones_m[1]: it stands in the cone cones_m[0]")));
    let mut c = parse("straight");
    c.cones[0] = c.structures[4].pose.at;
    assert!(says(&c).iter().any(|s| s.contains("cones_m[0]: it stands in structures[4]")));
}

#[test]
fn a_trigger_without_room_to_stop_is_named() {
    let mut c = parse("emergency-stops");
    c.lines[0].from.x = c.floor_max.x - 4.0;
    c.lines[0].to.x = c.floor_max.x - 4.0;
    assert!(says(&c).iter().any(|s| {
        s.contains("steps[0].what.emergency-stop.trigger: behind the line south-trigger")
    }));
    let mut c = parse("emergency-stops");
    let StepKind::EmergencyStop { min_speed_mps, .. } = &mut c.steps[0].what else { panic!() };
    *min_speed_mps = 4.0;
    assert!(says(&c).iter().any(|s| s.contains("more than this truck's top speed")));
}

#[test]
fn two_stops_at_one_mark_in_a_row_are_named() {
    let mut c = parse("straight");
    c.steps[1].what = c.steps[0].what.clone();
    assert!(says(&c)[0].contains("steps[1].what.stop-at-mark.line"));
}
