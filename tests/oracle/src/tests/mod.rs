//! The oracle on yards made by hand, on both sides of each limit by a millimetre or a tick.

mod held;

use coneyard_core::course::{Course, Line, LineKind, Structure, StructureKind, shipped};
use coneyard_core::math::{Pose, Vec2, vec2};
use coneyard_core::time::{DT, Tick};
use coneyard_core::truck::spec::TruckSpec;
use coneyard_core::truck::spec::shipped::single;
use coneyard_core::yard::foot::PERSON_RADIUS;

use crate::notes::{Kind, Note};
use crate::oracle::Oracle;
use crate::seen::{PalletSeen, Seen};

/// An empty yard.
fn yard() -> Course {
    let mut course = shipped::parse("straight");
    course.structures.clear();
    course.lines.clear();
    course
}

fn seen(tick: Tick, x: f64) -> Seen {
    Seen {
        tick,
        truck: Pose { at: vec2(x, 0.0), heading: 0.0 },
        aboard: true,
        forks_up: false,
        fork_height: 0.0,
        tipped: false,
        people: Vec::new(),
        others: Vec::new(),
        pallets: Vec::new(),
        cases: Vec::new(),
        unsafe_docks: Vec::new(),
        must_not_run: false,
    }
}

fn nose() -> f64 {
    single().geometry.nose_x_m
}

fn half_width() -> f64 {
    0.5 * single().geometry.chassis_width_m
}

/// The truck drives east along y = 0 from x = 0, with a speed of its own in each tick, m/s; `with` puts
/// into the yard what else is there.
fn drive(course: &Course, speeds: &[f64], mut with: impl FnMut(&mut Seen)) -> Oracle {
    let mut oracle = Oracle::new(course, &single());
    let mut x = 0.0;
    for (tick, speed) in core::iter::once(&0.0).chain(speeds).enumerate() {
        x += speed * DT;
        let mut here = seen(tick as Tick, x);
        with(&mut here);
        oracle.see(here);
    }
    oracle
}

fn sure(oracle: &Oracle, kind: Kind) -> Vec<Note> {
    oracle.notes().into_iter().filter(|n| n.kind == kind && n.sure).collect()
}

fn any(oracle: &Oracle, kind: Kind) -> bool {
    oracle.notes().iter().any(|n| n.kind == kind)
}

fn at(middle: Vec2) -> impl FnMut(&mut Seen) {
    move |here| here.people = vec![(0, middle)]
}

#[test]
fn whoever_is_moved_into_is_touched_and_whoever_walks_up_to_a_truck_is_not() {
    // The nose stops so far inside them, m.
    for (into, touched) in [(0.0, false), (0.015, false), (0.025, true), (0.2, true)] {
        let middle = vec2(nose() + 0.25 + PERSON_RADIUS, 0.0);
        // 0.064 m/s is a millimetre in a tick.
        let mut speeds = vec![0.064; (1000.0_f64 * (0.25 + into)).round() as usize];
        speeds.extend([0.0; 20]);
        let oracle = drive(&yard(), &speeds, at(middle));
        assert_eq!(!sure(&oracle, Kind::PersonTouched).is_empty(), touched, "{into}");
    }
    // A truck that stands is walked into.
    let mut x = nose() + 0.5;
    let oracle = drive(&yard(), &[0.0; 64], |here| {
        x -= 0.01;
        here.people = vec![(0, vec2(x, 0.0))];
    });
    assert!(!any(&oracle, Kind::PersonTouched) && !any(&oracle, Kind::PersonPassed));
}

#[test]
fn a_touch_beside_the_way_is_none_at_a_millimetre() {
    for (gap, touched) in [(0.001, false), (-0.03, true)] {
        // Beside the nose's corner: the truck slides along them, and does not go into them.
        let ahead = vec2(nose() + 1.0, half_width() + PERSON_RADIUS + gap);
        let oracle = drive(&yard(), &[1.0; 128], at(ahead));
        assert_eq!(!sure(&oracle, Kind::PersonTouched).is_empty(), touched, "{gap}");
        assert_eq!(sure(&oracle, Kind::PersonPassed).len(), 1, "{gap}");
    }
}

#[test]
fn passing_is_near_within_200_mm_and_fast_above_half_a_metre_a_second() {
    for (gap, speed, near) in
        [(0.198, 1.0, true), (0.202, 1.0, false), (0.1, 0.44, false), (0.1, 0.56, true)]
    {
        let beside = vec2(nose() + 0.5, half_width() + PERSON_RADIUS + gap);
        let oracle = drive(&yard(), &vec![speed; (64.0 / speed) as usize], at(beside));
        assert_eq!(!sure(&oracle, Kind::PersonPassed).is_empty(), near, "{gap} at {speed}");
        assert_eq!(any(&oracle, Kind::PersonPassed), near, "{gap} at {speed}");
    }
    // Within the error of measuring it is written down, and not held against anybody.
    let beside = vec2(nose() + 0.5, half_width() + PERSON_RADIUS + 0.2);
    let oracle = drive(&yard(), &[1.0; 64], at(beside));
    assert!(any(&oracle, Kind::PersonPassed) && sure(&oracle, Kind::PersonPassed).is_empty());
}

#[test]
fn driving_away_from_somebody_is_not_passing_them() {
    let behind = vec2(single().geometry.fork_tips_x_m - PERSON_RADIUS - 0.1, 0.0);
    assert!(!any(&drive(&yard(), &[1.0; 32], at(behind)), Kind::PersonPassed));
    assert!(!sure(&drive(&yard(), &[-0.6; 4], at(behind)), Kind::PersonPassed).is_empty());
}

#[test]
fn a_part_that_slides_along_a_wall_does_not_hide_the_blow_of_another() {
    // One outline round which the truck goes: its forks slide along the end of it, its nose runs into it.
    let mut course = yard();
    let fork = 0.5 * single().geometry.fork_spread_m;
    let mut beside = wall(0.0);
    beside.size = vec2(1.0, 6.0);
    beside.pose.at = vec2(nose() + 0.5 + 0.3, fork + 3.0);
    course.structures.push(beside);
    let ticks = (0.3 / DT) as usize + 1;
    let oracle = drive(&course, &vec![1.0; ticks], |_| ());
    assert_eq!(sure(&oracle, Kind::Struck).is_empty(), half_width() <= fork);
}

fn wall(near_face: f64) -> Structure {
    Structure {
        kind: StructureKind::Wall,
        pose: Pose { at: vec2(near_face + 0.5, 0.0), heading: 0.0 },
        size: vec2(1.0, 6.0),
        underside: None,
    }
}

/// Drives into a wall at a speed, and is held there.
fn into_a_wall(speed: f64) -> Oracle {
    let mut course = yard();
    course.structures.push(wall(nose() + 1.0));
    let ticks = (1.0 / (speed * DT)).floor() as usize;
    let mut speeds = vec![speed; ticks];
    // What is left up to the wall is driven in the tick of the contact.
    speeds.push((1.0 - speed * DT * ticks as f64) / DT);
    speeds.extend([0.0; 32]);
    drive(&course, &speeds, |_| ())
}

#[test]
fn a_wall_is_struck_with_the_speed_that_it_was_come_at_with() {
    for (speed, struck, hard) in
        [(0.03, false, false), (0.17, true, false), (0.93, true, false), (1.07, true, true)]
    {
        let oracle = into_a_wall(speed);
        let notes = sure(&oracle, Kind::Struck);
        assert_eq!(!notes.is_empty(), struck, "{speed}");
        assert_eq!(!sure(&oracle, Kind::StruckHard).is_empty(), hard, "{speed}");
        if let Some(note) = notes.first() {
            assert!((note.measure - speed).abs() < 0.01, "{speed}: {note:?}");
        }
        assert_eq!(notes.len(), usize::from(struck), "once: {notes:?}");
    }
}

#[test]
fn stopping_a_millimetre_before_a_wall_and_passing_it_at_one_is_no_contact() {
    let mut course = yard();
    course.structures.push(wall(nose() + 1.0));
    // From 1 m/s with 2 m/s^2 it stops within 0.25 m.
    let braked: Vec<f64> = (0..=32).map(|i| 1.0 - f64::from(i) / 32.0).collect();
    let way: f64 = braked.iter().sum::<f64>() * DT;
    for (gap, sure_of_it) in [(0.001, false), (0.0001, false)] {
        let ticks = 48;
        let first = (1.0 - gap - way) / (f64::from(ticks) * DT);
        let mut speeds = vec![first; ticks as usize];
        speeds.extend(&braked);
        speeds.extend([0.0; 32]);
        let oracle = drive(&course, &speeds, |_| ());
        assert_eq!(!sure(&oracle, Kind::Struck).is_empty(), sure_of_it, "{gap}");
    }
    let mut beside = wall(0.0);
    beside.pose.at = vec2(2.0 + nose(), half_width() + 0.001 + 3.0);
    let mut course = yard();
    course.structures.push(beside);
    let oracle = drive(&course, &[2.0; 128], |_| ());
    assert!(!any(&oracle, Kind::Struck));
    // Two millimetres into it, its corner is driven into.
    course.structures[0].pose.at.y -= 0.003;
    let oracle = drive(&course, &[2.0; 128], |_| ());
    assert!(!sure(&oracle, Kind::Struck).is_empty());
}

#[test]
fn sliding_along_a_wall_is_no_blow_and_a_curtain_is_no_wall() {
    let mut course = yard();
    let mut beside = wall(0.0);
    beside.pose.at = vec2(0.0, half_width() + 3.0);
    beside.size = vec2(40.0, 6.0);
    course.structures.push(beside);
    assert!(!any(&drive(&course, &[1.5; 128], |_| ()), Kind::Struck));
    let mut course = yard();
    course.structures.push(Structure { kind: StructureKind::Curtain, ..wall(nose() + 1.0) });
    assert!(!any(&drive(&course, &[2.0; 64], |_| ()), Kind::Struck));
}

#[test]
fn another_truck_that_runs_into_one_that_stands_is_not_struck() {
    let course = shipped::parse("head-on");
    let size = course.warehouse.others[0].size;
    let mut bare = course.clone();
    bare.structures.clear();
    let gap = 1.0;
    // It comes on at 1 m/s and is not stopped by anything.
    let come = |own: f64, theirs: f64| {
        let mut x = nose() + gap + 0.5 * size.x;
        let ticks = (0.95 * gap / ((own + theirs) * DT)) as usize + 8;
        drive(&bare, &vec![own; ticks], |here| {
            x -= theirs * DT;
            here.others = vec![(0, Pose { at: vec2(x, 0.0), heading: core::f64::consts::PI })];
        })
    };
    assert!(sure(&come(0.0, 1.0), Kind::Struck).is_empty());
    assert!(!sure(&come(1.2, 0.5), Kind::StruckHard).is_empty());
    assert!(sure(&come(0.5, 1.2), Kind::StruckHard).is_empty(), "only its own speed counts");
    assert!(!sure(&come(0.5, 1.2), Kind::Struck).is_empty());
}

#[test]
fn a_case_on_the_floor_is_run_over_from_its_face_on() {
    for (clear, over) in [(0.002, false), (-0.03, true)] {
        let y = half_width() + 0.15 + clear;
        let case = (Pose { at: vec2(nose() + 1.0, y), heading: 0.0 }, vec2(0.4, 0.3));
        let oracle = drive(&yard(), &[1.0; 96], |here| here.cases = vec![case]);
        assert_eq!(!sure(&oracle, Kind::CaseRunOver).is_empty(), over, "{clear}");
    }
}

#[test]
fn a_stop_line_is_run_by_the_end_that_leads_and_the_way_that_counts() {
    let line = |from: Vec2, to: Vec2| {
        let mut course = yard();
        course.lines.push(Line { id: "stop".into(), kind: LineKind::Stop, from, to });
        course
    };
    let ahead = nose() + 1.0;
    let (left, right) = (vec2(ahead, 2.0), vec2(ahead, -2.0));
    for (speed, run) in [(0.94, false), (1.06, true)] {
        let oracle = drive(&line(left, right), &vec![speed; 96], |_| ());
        assert_eq!(!sure(&oracle, Kind::StopLineRun).is_empty(), run, "{speed}");
    }
    // Who stood within a metre and a half of it has stopped, however fast they then go.
    for (before, run) in [(1.4, false), (1.6, true)] {
        let up_to_it = ((2.0 - before) / DT).round() as usize;
        let farther = line(vec2(nose() + 2.0, 2.0), vec2(nose() + 2.0, -2.0));
        let speeds = [vec![1.0; up_to_it], vec![0.0; 9], vec![2.0; 96]].concat();
        let oracle = drive(&farther, &speeds, |_| ());
        assert_eq!(!sure(&oracle, Kind::StopLineRun).is_empty(), run, "{before}");
    }
    let oracle = drive(&line(right, left), &[2.0; 96], |_| ());
    assert!(!any(&oracle, Kind::StopLineRun), "it is for those who come the other way");
    // The forks follow over a line that the power unit was led over before the drive.
    let behind = vec2(0.5, 0.0);
    let oracle = drive(&line(behind + vec2(0.0, 2.0), behind - vec2(0.0, 2.0)), &[2.0; 96], |_| ());
    assert!(!any(&oracle, Kind::StopLineRun));
    // A tick before the line is not over it.
    let ticks = (1.0 / (2.0 * DT)).floor() as usize;
    let before = drive(&line(left, right), &vec![2.0; ticks - 1], |_| ());
    assert!(!any(&before, Kind::StopLineRun));
    assert!(any(&drive(&line(left, right), &vec![2.0; ticks + 1], |_| ()), Kind::StopLineRun));
}

#[test]
fn a_crossing_is_taken_from_whoever_is_on_it_when_it_is_driven_onto() {
    let mut course = shipped::parse("cross-aisles");
    course.structures.clear();
    let (near, far) = (nose() + 1.0, nose() + 3.0);
    course.warehouse.crossings[0].area =
        vec![vec2(near, -3.0), vec2(far, -3.0), vec2(far, 3.0), vec2(near, 3.0)];
    for (y, taken) in [(2.999, true), (3.001, false)] {
        let oracle = drive(&course, &[1.0; 96], at(vec2(near + 1.0, y)));
        assert_eq!(!sure(&oracle, Kind::CrossingTaken).is_empty(), taken, "{y}");
    }
    // Who steps onto it when the truck is on it already was not there.
    let oracle = drive(&course, &[1.0; 96], |here| {
        if here.truck.at.x > 1.1 {
            here.people = vec![(0, vec2(near + 1.0, 2.9))];
        }
    });
    assert!(!any(&oracle, Kind::CrossingTaken));
}

#[test]
fn what_falls_is_counted_over_three_seconds_and_what_is_set_down_does_not_fall() {
    let course = shipped::parse("tight-corner-load");
    let case = (Pose { at: vec2(-9.0, 0.0), heading: 0.0 }, vec2(0.4, 0.3));
    for (apart, together) in [(3 * 64, 3.0), (3 * 64 + 1, 2.0)] {
        let oracle = drive(&course, &[0.0; 320], |here| {
            let cases = match here.tick {
                0..10 => 0,
                t if t < 10 + apart => 1,
                _ => 3,
            };
            here.cases = vec![case; cases];
        });
        let most = sure(&oracle, Kind::LoadFell).iter().map(|n| n.measure).fold(0.0, f64::max);
        assert_eq!(most, together, "{apart}");
    }
    for (height, keeps, fell) in [(0.0, true, false), (0.05, true, true), (0.017, false, true)] {
        let oracle = drive(&course, &[0.0; 32], |here| {
            here.fork_height = height;
            let carried = here.tick < 16;
            let cases = if carried || keeps { 12 } else { 0 };
            here.pallets = vec![PalletSeen { pose: here.truck, carried, cases }];
        });
        let notes = sure(&oracle, Kind::LoadFell);
        assert_eq!(notes.first().map(|n| n.measure), fell.then_some(12.0));
    }
}

#[test]
fn a_beam_is_low_by_a_millimetre_for_who_stands_under_it() {
    let top = single().rider.top_m;
    for (underside, aboard, under) in
        [(top - 0.001, true, true), (top + 0.001, true, false), (top - 0.1, false, false)]
    {
        let mut course = yard();
        let beam =
            Structure { kind: StructureKind::Beam, underside: Some(underside), ..wall(nose()) };
        course.structures.push(beam);
        let oracle = drive(&course, &[1.0; 96], |here| here.aboard = aboard);
        assert_eq!(any(&oracle, Kind::UnderBeam), under, "{underside} {aboard}");
        assert!(!any(&oracle, Kind::Struck));
    }
}

#[test]
fn an_unsafe_dock_is_driven_onto_by_a_wheel() {
    let mut course = shipped::parse("dock");
    course.structures.clear();
    let edge = single().geometry.wheelbase_m + 1.0;
    course.warehouse.docks[0].area =
        vec![vec2(edge, -3.0), vec2(edge + 4.0, -3.0), vec2(edge + 4.0, 3.0), vec2(edge, 3.0)];
    for (way, wrong, on) in [(0.999, true, false), (1.001, true, true), (2.0, false, false)] {
        let oracle = drive(&course, &vec![way; 64], |here| {
            here.unsafe_docks = if wrong { vec![0] } else { Vec::new() };
        });
        assert_eq!(!sure(&oracle, Kind::UnsafeDock).is_empty(), on, "{way} {wrong}");
    }
}

#[test]
fn before_a_contact_it_went_faster_than_the_free_way_allows() {
    // At 2 m/s a stop takes 0.667 m with 3 m/s^2.
    let oracle = into_a_wall(2.0);
    let notes = sure(&oracle, Kind::NoRoom);
    assert_eq!(notes.len(), 1, "{notes:?}");
    let contact = sure(&oracle, Kind::Struck)[0].from;
    let before = f64::from(contact - notes[0].from) * 2.0 * DT;
    assert!((before - 0.667).abs() < 2.0 * 2.0 * DT, "{before} m before");
    assert!(sure(&into_a_wall(0.25), Kind::NoRoom).is_empty());
}

#[test]
fn a_truck_on_its_side_is_seen() {
    let oracle = drive(&yard(), &[0.0; 8], |here| here.tipped = here.tick == 8);
    assert_eq!(sure(&oracle, Kind::Tipped).len(), 1);
}

#[test]
fn a_corner_that_is_just_caught_is_struck_but_not_hard_for_sure() {
    for (into, hard) in [(0.003, false), (0.007, true)] {
        let mut course = yard();
        let mut corner = wall(nose() + 1.0);
        corner.pose.at.y = half_width() + 3.0 - into;
        course.structures.push(corner);
        let oracle = drive(&course, &[2.0; 40], |_| ());
        assert!(!sure(&oracle, Kind::Struck).is_empty(), "{into}");
        assert!(any(&oracle, Kind::StruckHard), "{into}");
        assert_eq!(!sure(&oracle, Kind::StruckHard).is_empty(), hard, "{into}");
    }
}

/// The outline of the oracle is that of the file, read by nobody else.
#[test]
fn the_truck_is_as_long_and_wide_as_its_file_says() {
    let spec: TruckSpec = single();
    let g = &spec.geometry;
    let oracle = drive(&yard(), &[0.0], |_| ());
    let far = [vec2(g.nose_x_m, half_width()), vec2(g.fork_tips_x_m, 0.5 * g.fork_spread_m)];
    for (corner, out) in far.into_iter().zip([vec2(0.001, 0.0), vec2(-0.001, 0.0)]) {
        assert!(oracle.parts_hold(corner - out), "{corner:?}");
        assert!(!oracle.parts_hold(corner + out), "{corner:?}");
    }
    assert!(!oracle.parts_hold(vec2(0.0, 0.0)), "between the forks is nothing");
}
