//! Courses of the warehouse that parse and still ask for the impossible.

use crate::course::check::check;
use crate::course::shipped::{ALL, parse};
use crate::course::warehouse::{CHECK_REACH_M, SetsOff};
use crate::course::{Course, Step, StepKind, StructureKind, Travel};
use crate::math::{Pose, Vec2, vec2};
use crate::people::walk::{AtTheEnd, Route, Waypoint};
use crate::sight::polygon::{add_facing, clear_line};
use crate::truck::spec::TruckSpec;
use crate::truck::spec::shipped::{double, single};

fn says_for(course: &Course, truck: &TruckSpec) -> Vec<String> {
    let own = format!("course {}, at ", course.id);
    check(course, truck)
        .iter()
        .map(|p| p.to_string().strip_prefix(&own).expect("its own place").to_owned())
        .collect()
}

fn says(course: &Course) -> Vec<String> {
    says_for(course, &single())
}

fn walk(places: &[Vec2]) -> Route {
    let place = |p: &Vec2| Waypoint { at: *p, wait_s: 0.0, wait_chance: 0.0, crosses: false };
    Route::new(places.iter().map(place).collect(), AtTheEnd::Stay).unwrap()
}

/// A structure that stands at a place with a size of its own.
fn block(c: &mut Course, i: usize, at: Vec2) {
    c.structures[i].pose = Pose { at, heading: 0.0 };
    c.structures[i].size = vec2(0.5, 0.5);
}

#[test]
fn a_step_out_inside_the_stopping_distance_is_refused() {
    let mut c = parse("rack-end");
    let SetsOff::InFront { distance_m, .. } = &mut c.warehouse.people[0].sets_off else { panic!() };
    *distance_m = Some(4.0);
    // 2.7 x 1.5 + 2.7^2 / (2 x 3.0) + 0.5 m.
    assert_eq!(
        says(&c),
        ["people[0].sets_off.in-front.distance_m: someone steps out 4.00 m ahead, but at the \
             limit of 2.70 m/s a stop takes 5.27 m (1.50 s to react, braking at 3.00 m/s^2) and \
             0.50 m to spare; ask for 5.77 m or more, or lower the limit"]
    );
    let SetsOff::InFront { distance_m, .. } = &mut c.warehouse.people[0].sets_off else { panic!() };
    *distance_m = Some(5.8);
    assert!(says(&c).is_empty());
    // The same distance is not enough with the course's load on a wet floor, and is again where a
    // zone holds riders back.
    let wet = parse("wet-stop");
    let mut laden = c.clone();
    (laden.warehouse.loads, laden.warehouse.pallets) =
        (wet.warehouse.loads.clone(), wet.warehouse.pallets.clone());
    laden.surface = crate::floor::Surface::Wet;
    assert!(says(&laden)[0].contains("someone steps out 5.80 m ahead"));
    laden.zones = parse("figure-eight").zones;
    laden.zones[0].limit_mps = 1.2;
    laden.zones[0].area = vec![
        c.floor_min,
        vec2(c.floor_max.x, c.floor_min.y),
        c.floor_max,
        vec2(c.floor_min.x, c.floor_max.y),
    ];
    assert!(says(&laden).is_empty());
}

#[test]
fn a_pallet_or_a_bay_that_no_truck_can_reach_is_refused() {
    let mut c = parse("bays");
    block(&mut c, 4, vec2(10.0, 15.8));
    // From the other end the wall is too near.
    assert_eq!(
        says(&c),
        ["pallets[0]: this truck cannot reach the pallet from either end: it needs 4.40 m of \
             free way straight before it, and structures[4] stands there"]
    );
    // From the other end there would be room now.
    let mut open = c.clone();
    open.floor_max.y += 10.0;
    open.structures[1].pose.at.y += 10.0;
    assert!(says(&open).is_empty());
    // The double needs more way.
    let mut c = parse("bays");
    block(&mut c, 4, vec2(22.0, 14.4));
    assert!(says(&c).is_empty());
    assert_eq!(
        says_for(&c, &double()),
        ["bays[0]: this truck cannot reach the bay along its heading: it needs 5.62 m of free \
             way straight before it, and structures[4] stands there"]
    );
    let mut c = parse("bays");
    c.warehouse.bays[0].pose.heading = 0.0;
    assert!(says(&c)[0].ends_with("and structures[8] stands there"));
    let mut c = parse("bays");
    c.warehouse.bays[0].pose.heading += core::f64::consts::PI;
    assert!(says(&c)[0].ends_with("and the floor ends there"));
    let mut c = parse("bays");
    c.cones.push(vec2(22.3, 16.0));
    assert!(says(&c)[0].ends_with("and the cone cones_m[0] stands there"));
    let mut c = parse("bays");
    c.warehouse.pallets.push(c.warehouse.pallets[0].clone());
    c.warehouse.pallets[1].floor = Some(Pose { at: vec2(22.0, 16.0), heading: 0.0 });
    assert!(says(&c)[0].ends_with("and pallets[1] stands there"));
    c.warehouse.pallets[1].floor = Some(c.warehouse.bays[0].pose);
    assert_eq!(says(&c), ["bays[0]: pallets[1] stands in the bay and nobody takes it away"]);
    c.warehouse.pallets[1].floor = c.warehouse.pallets[0].floor;
    assert!(says(&c)[0].contains("pallets[1]: the pallet stands in pallets[0]; move one"));
    let mut c = parse("bays");
    let at = c.warehouse.bays[0].pose.at;
    block(&mut c, 4, at);
    assert!(says(&c)[0].contains("bays[0]: structures[4] stands in the bay; move one"));
    let mut c = parse("bays");
    let at = c.warehouse.pallets[0].floor.unwrap().at;
    block(&mut c, 4, at);
    assert!(says(&c)[0].contains("pallets[0]: the pallet stands in structures[4]; move one"));
}

#[test]
fn what_does_not_fit_the_forks_is_refused() {
    let mut c = parse("bays");
    c.warehouse.loads[0].pallet.length_m = 1.4;
    assert_eq!(
        says(&c)[0],
        "pallets[0]: the pallet is 1.40 m long, and this truck's forks take 1.32 m"
    );
    assert!(says_for(&c, &double()).is_empty());
    for (wide, said) in [(1.45, "1.45 m wide"), (0.6, "0.60 m wide")] {
        let mut c = parse("bays");
        c.warehouse.loads[0].pallet.width_m = wide;
        let said = format!(
            "pallets[0]: the pallet is {said}, and this truck's forks take 0.69 m to 1.38 m"
        );
        assert!(says(&c).contains(&said), "{:?}", says(&c));
    }
    let mut c = parse("long-truck-turn");
    c.trucks.push("single".into());
    assert_eq!(
        says(&c)[0],
        "pallets: 2 pallets stand on the forks, and this truck takes 1; put some on the floor"
    );
    let mut c = parse("bays");
    c.warehouse.loads[0].case.mass_kg = 80.0;
    assert_eq!(
        says(&c),
        ["steps[1].what.pick-up.pallet: 2905 kg are on the forks, and this truck lifts 2700 kg"]
    );
    c.warehouse.pallets[0].floor = None;
    assert!(
        says(&c).contains(
            &"pallets: 2905 kg are on the forks, and this truck lifts 2700 kg".to_owned()
        )
    );
    let mut c = parse("bays");
    c.warehouse.bays[0].size.x = 1.1;
    assert_eq!(
        says(&c),
        [
            "steps[3].what.set-down.bay: the bay is 1.10 m by 1.20 m, and pallets[0] takes 1.20 m by 1.00 m"
        ]
    );
}

#[test]
fn steps_out_of_order_are_refused() {
    let mut c = parse("bays");
    let take: Step = c.steps.remove(1);
    assert_eq!(
        says(&c),
        ["steps[2].what.set-down.bay: nothing is on the forks here; put a pick-up before"]
    );
    c.steps.insert(1, take.clone());
    c.steps.insert(2, take.clone());
    assert_eq!(
        says(&c),
        ["steps[2].what.pick-up.pallet: this pallet is on the forks already; set it down before"]
    );
    let mut c = parse("bays");
    c.warehouse.pallets.push(c.warehouse.pallets[0].clone());
    c.warehouse.pallets[1].floor = None;
    assert_eq!(
        says(&c),
        [
            "steps[1].what.pick-up.pallet: this truck takes 1 on its forks and they are full here; set down before"
        ]
    );
    assert!(says_for(&c, &double()).is_empty());
    for i in [1, 3] {
        let mut c = parse("bays");
        c.steps[i].travel = Travel::PowerUnitFirst;
        let what = if i == 1 { "pick-up" } else { "set-down" };
        assert_eq!(
            says(&c),
            [format!("steps[{i}].travel: a {what} is driven forks first; write \"forks-first\"")]
        );
    }
    let mut c = parse("dock");
    let check = c.steps.remove(1);
    assert!(matches!(check.what, StepKind::CheckDock { .. }));
    c.steps.insert(3, check);
    assert_eq!(
        says(&c),
        ["steps[2]: it leads over the dock dock before its checks; check the dock first"]
    );
}

#[test]
fn ways_through_solid_things_are_refused() {
    let mut c = parse("rack-end");
    c.warehouse.people[0].route = walk(&[vec2(22.0, 6.0), vec2(22.0, 4.0), vec2(10.0, 0.0)]);
    assert_eq!(
        says(&c),
        ["people[0].route[1]: the way from here goes through structures[4]; lead it round"]
    );
    c.warehouse.people[0].route = walk(&[vec2(10.0, 2.5)]);
    assert_eq!(says(&c), ["people[0].route[0]: it lies in structures[4]; move one"]);
    c.warehouse.people[0].route = walk(&[vec2(10.0, 9.0)]);
    assert_eq!(says(&c), ["people[0].route: (10.00, 9.00) lies outside the floor"]);
    // A strip curtain is walked through.
    c.warehouse.people[0].route = walk(&[vec2(10.0, 0.0), vec2(10.0, 5.0)]);
    assert!(!says(&c).is_empty());
    c.structures[4].kind = StructureKind::Curtain;
    assert!(says(&c).is_empty());
    let mut c = parse("wet-stop");
    c.warehouse.others[0].way[1] = vec2(20.3, 2.5);
    assert_eq!(
        says(&c),
        ["other_trucks[0].way_m[0]: the way from here goes through structures[4]; lead it round"]
    );
    c.warehouse.others[0].way = vec![vec2(22.5, 6.0), vec2(22.5, 12.0)];
    assert_eq!(says(&c)[0], "other_trucks[0].way_m: (22.50, 12.00) lies outside the floor");
    // Its tail at the first place stands in the wall, then its nose at the last one.
    for way in [[8.9, -8.6], [8.6, -8.9]] {
        let mut c = parse("wet-stop");
        c.warehouse.others[0].way = way.map(|y| vec2(22.5, y)).to_vec();
        assert!(says(&c).is_empty());
        c.warehouse.others[0].size.x = 4.0;
        assert!(says(&c)[0].contains("goes through structures["), "{:?}", says(&c));
    }
    // From the last place back to the first.
    let mut c = parse("wet-stop");
    c.warehouse.others[0].way = vec![vec2(22.5, 5.0), vec2(22.5, 0.0), vec2(10.0, 0.0)];
    assert!(says(&c).is_empty());
    c.warehouse.others[0].starts_over = true;
    assert!(says(&c)[0].starts_with("other_trucks[0].way_m[2]: "));
}

#[test]
fn a_choice_of_one_is_refused() {
    let mut c = parse("rack-end");
    c.warehouse.people.pop();
    assert_eq!(
        says(&c),
        [
            "people[0].one_of: nobody else here is one of \"steps-out\"; add another one or leave it out"
        ]
    );
    let mut c = parse("head-on");
    c.warehouse.others[1].one_of = Some("another".into());
    assert_eq!(
        says(&c),
        [
            "other_trucks[1].one_of: nobody else here is one of \"another\"; add another one or leave it out"
        ]
    );
}

#[test]
fn a_crossing_without_a_walk_is_refused() {
    let mut c = parse("cross-aisles");
    c.warehouse.people.drain(..2);
    assert_eq!(
        says(&c),
        ["crossings[0]: nobody's route goes over the crossing south; lead one over it"]
    );
}

#[test]
fn a_blind_spot_that_hides_nothing_is_refused() {
    let said = "blind_spots[0]: nothing is hidden here: from 3 m before it the rider sees all of \
                the 4 m to both sides; move it to a corner or leave it out";
    // Behind the racks, in the open.
    let mut c = parse("rack-end");
    c.warehouse.blind_spots[0].left.x = 31.0;
    c.warehouse.blind_spots[0].right.x = 31.0;
    assert!(says(&c).is_empty(), "the racks' ends still hide what is beside them");
    c.warehouse.blind_spots[0].left.x = 42.5;
    c.warehouse.blind_spots[0].right.x = 42.5;
    assert_eq!(says(&c), [said]);
    // Racks on both sides that one sees over.
    let mut c = parse("rack-end");
    for s in &mut c.structures[4..8] {
        s.kind = StructureKind::Rail;
    }
    assert_eq!(says(&c), [said]);
    // One side hidden is enough.
    c.structures[4].kind = StructureKind::Rack;
    assert!(says(&c).is_empty());
}

#[test]
fn what_cannot_be_reached_on_foot_or_seen_is_refused() {
    let mut c = parse("pick-run");
    c.warehouse.stops[2].at = vec2(18.0, 3.9);
    c.structures[4].size.y = 3.0;
    c.structures[4].pose.at.y = 3.25;
    c.structures[6].pose.at.y = 5.3;
    assert_eq!(
        says(&c),
        ["pick_stops[2]: no truck can stand within 2 m of it; move it to the edge of an aisle"]
    );
    let mut c = parse("dock");
    c.warehouse.docks[0].checks[1].1 = vec2(20.0, -3.0);
    assert_eq!(
        says(&c),
        [
            "docks[0].checks[1].at_m: it lies 10.20 m from the dock's area; checks are made from at most 6 m"
        ]
    );
    let mut c = parse("dock");
    let beam = c.structures.iter().position(|s| s.kind == StructureKind::Beam).unwrap();
    c.structures[beam].pose.at = vec2(43.5, 8.0);
    assert_eq!(says(&c), [format!("structures[{beam}]: (44.60, 7.80) lies outside the floor")]);
}

/// A step-out is no surprise when the person can be seen all the while.
#[test]
fn who_steps_out_in_a_shipped_course_is_hidden_before() {
    let mut steps_out = 0;
    for (name, _) in ALL {
        let c = parse(name);
        for (i, walker) in c.warehouse.people.iter().enumerate() {
            let SetsOff::InFront { at, .. } = walker.sets_off else { continue };
            steps_out += 1;
            let stands = walker.route.places()[0].at;
            for metres in [4.0, 5.0, 6.0, 7.0, 9.0, 12.0] {
                let eye = at.to_yard(vec2(-metres, 0.0));
                if eye.y > c.floor_max.y - 0.2 {
                    continue;
                }
                let mut opaque = Vec::new();
                for s in c.structures.iter().filter(|s| s.kind.is_opaque()) {
                    let outline = crate::geometry::rectangle(s.pose, s.size);
                    add_facing(&outline, eye, &mut opaque);
                }
                assert!(!clear_line(eye, stands, &opaque), "{name}, people[{i}], {metres} m");
            }
        }
    }
    assert!(steps_out >= 6, "{steps_out}");
}

/// From where the task leads before the checks, all of them can be made.
#[test]
fn the_checks_of_the_shipped_dock_are_in_sight_from_the_way() {
    let c = parse("dock");
    let gate = c.gates.iter().find(|g| g.id == "dock-front").unwrap();
    for past in [2.0, 2.5, 3.0] {
        let eye = gate.middle() + gate.direction() * past;
        let mut opaque = Vec::new();
        for s in c.structures.iter().filter(|s| s.kind.is_opaque()) {
            add_facing(&crate::geometry::rectangle(s.pose, s.size), eye, &mut opaque);
        }
        for (what, at) in &c.warehouse.docks[0].checks {
            let away = (*at - eye).length();
            assert!(away < CHECK_REACH_M && clear_line(eye, *at, &opaque), "{what:?}, {away} m");
        }
    }
}
