//! The edges of judging: ends, beginnings, repeats, causes. Each test says by its name what holds.
//! Values at exactly the limit are in `at_the_limit`.

use super::judging::{course, judged, plain_drive};
use crate::controls::Side;
use crate::course::place::place;
use crate::course::shipped as courses;
use crate::debrief::{Debrief, Ending};
use crate::finding::{Finding, Severity, Skill};
use crate::floor::Surface;
use crate::math::{G, vec2};
use crate::moment::{BodyGap, Moment, PersonMoment, Touched, WayKind};
use crate::rules::SiteRules;
use crate::score::Judge;
use crate::truck::arm::ArmZone;
use crate::truck::spec::shipped as trucks;
use crate::watch::test_support::{Drive, contact, crossing, other, person, still, watch, way};

fn judge(drive: &Drive) -> Debrief {
    judged(&course(), &SiteRules::shipped(), drive, Ending::Broken)
}

fn faults(debrief: &Debrief) -> Vec<&str> {
    let faults = debrief.findings.iter().filter(|f| f.severity != Severity::Good);
    faults.map(|f| f.code.as_str()).collect()
}

#[test]
fn a_fault_that_spans_the_end_lasts_until_the_end() {
    let outside =
        |ticks| judge(&Drive::new().still(10).with(ticks, |m| m.place.outside_lane = true));
    let d = outside(90);
    assert_eq!(faults(&d), ["left-the-lane"]);
    assert_eq!((d.findings[0].from, d.findings[0].to, d.ticks), (10, 99, 99));
    // Not yet long enough when the end cuts it off: 0.3 s are 19.2 ticks.
    assert!(outside(19).findings.is_empty());
    assert_eq!(faults(&outside(20)), ["left-the-lane"]);
}

#[test]
fn two_at_once_are_both_found_and_each_costs_its_own_skill() {
    let d = judge(&Drive::new().rolling(5, 1.0).with(60, |m| {
        m.truck.speed = 1.0;
        (m.place.outside_lane, m.place.zone_limit) = (true, Some(0.5));
        m.contacts.push(contact(Touched::Cone(0), 0.3));
        m.contacts.push(contact(Touched::Cone(1), 0.4));
    }));
    let mut codes = faults(&d);
    codes.sort_unstable();
    let horn = "no-horn-moving-off";
    assert_eq!(codes, ["contact-cone", "contact-cone", "left-the-lane", horn, "over-speed"]);
    // Three minor ones; a major one, at twice the limit.
    assert_eq!(d.skills[3].points, Some(88.0));
    assert_eq!(d.skills[6].points, Some(85.0));
}

/// What makes a moment wrong, by the code that is found of it.
type Wrong = (&'static str, fn(&mut Moment));

/// Faults that last and may come again, each time by itself. The truck moves in every tick.
const LASTING: &[Wrong] = &[
    ("contact-cone", |m| touch(m, Touched::Cone(0))),
    ("contact-structure", |m| touch(m, Touched::Structure(0))),
    ("left-the-lane", |m| m.place.outside_lane = true),
    ("corner-speed", |m| m.truck.accel_side = 0.3 * G),
    ("person-struck", |m| m.people.push(PersonMoment { pushed: 0.03, ..person(0.0) })),
    ("person-near-miss", |m| {
        m.people.push(PersonMoment { time_to_collision: Some(1.0), ..person(2.0) });
    }),
    ("not-looking", |m| m.rider.off_path = 2.0),
    ("outruns-sight", |m| (m.sight.clear_ahead, m.sight.braking) = (0.5, 0.4)),
    ("wet-not-slowed", |m| (m.place.surface, m.truck.speed) = (Surface::Wet, 1.6)),
    ("too-close-behind", |m| m.others.push(other(4.0))),
    ("body-gap-closing", |m| m.rider.body_gap = Some(BodyGap { gap: 0.3, closing: 1.0 })),
    ("headroom", |m| m.rider.headroom = Some(-0.1)),
    ("stepped-across-moving", |m| m.truck.stepping = true),
    ("over-capacity", |m| (m.load.mass, m.load.capacity) = (2000.0, 1000.0)),
    ("loose-object-run-over", |m| m.load.ran_over = true),
    ("pallet-pushed", |m| m.load.pushed = Some((0, 0.2))),
    ("load-not-upgrade", |m| (m.load.pallets, m.load.grade) = (1, 0.2)),
    ("brake-arm-as-service", |m| m.truck.arm_zone = ArmZone::UpperBrake),
];

/// Faults of how one drives along: they count again after 10 m or 5 s, however often they come and go.
const OF_WAY: &[Wrong] = &[
    ("over-speed", |m| m.place.zone_limit = Some(0.5)),
    ("high-speed-in-traffic", |m| m.truck.high_speed_on = true),
];

fn touch(m: &mut Moment, with: Touched) {
    m.contacts.push(contact(with, 0.3));
}

/// So many ticks wrong, so many right, and wrong again; of what rubs along, too short for two metres.
fn twice(wrong: fn(&mut Moment), apart: u32) -> Drive {
    let bad = |m: &mut Moment| {
        m.truck.speed = 1.0;
        wrong(m);
    };
    let mut touches = still(0);
    wrong(&mut touches);
    let long = if touches.contacts.is_empty() { 140 } else { 50 };
    Drive::new().rolling(5, 1.0).with(long, bad).rolling(apart, 1.0).with(long, bad).rolling(5, 1.0)
}

#[test]
fn the_same_again_within_half_a_second_is_the_same_finding() {
    for (code, wrong) in LASTING {
        // Half a second is 32 ticks apart.
        assert_eq!(watch(code, &twice(*wrong, 31)).len(), 1, "{code}");
        assert_eq!(watch(code, &twice(*wrong, 32)).len(), 2, "{code}");
    }
}

#[test]
fn what_comes_and_goes_on_one_way_is_the_same_finding() {
    for (code, wrong) in OF_WAY {
        assert_eq!(watch(code, &twice(*wrong, 32)).len(), 1, "{code}");
        assert_eq!(watch(code, &twice(*wrong, 320)).len(), 2, "{code}");
    }
}

#[test]
fn a_site_may_say_how_soon_the_same_counts_again() {
    let mut rules = SiteRules::shipped();
    rules.terms.get_mut("again-after").expect("a term").value = 1.0;
    let found = |apart| {
        let drive = twice(|m| touch(m, Touched::Cone(0)), apart);
        let d = judged(&course(), &rules, &drive, Ending::Broken);
        d.findings.iter().filter(|f| f.code == "contact-cone").count()
    };
    assert_eq!((found(63), found(64)), (1, 2));
}

/// A pause makes no moments. Whoever looks at the findings meanwhile sees the same, however often,
/// and what goes on does not grow longer.
#[test]
fn while_paused_nothing_is_counted_and_nothing_grows() {
    let outside = |m: &mut Moment| m.place.outside_lane = true;
    let drive = Drive::new().rolling(5, 1.0).with(19, outside).still(10).with(40, outside);
    let mut paused = Judge::new(&course(), &SiteRules::shipped(), &trucks::single());
    for m in &drive.0 {
        paused.see(m);
        let seen = paused.findings().to_vec();
        for _ in 0..100 {
            assert_eq!(paused.findings(), seen);
        }
    }
    let last = drive.0.last().expect("some").tick;
    assert_eq!(paused.finish(Ending::Broken, last), judge(&drive));
    // 19 ticks and 40 ticks: only the second was too long.
    let found = watch("left-the-lane", &drive);
    assert_eq!((found.len(), found[0].from, found[0].to), (1, 34, 73));
}

/// Left as it must be left, the truck stands there; what others do round it is not the rider's.
#[test]
fn after_the_truck_was_left_nothing_more_is_found() {
    let drive = plain_drive().with(3000, |m| {
        m.rider.aboard = false;
        (m.controls.aboard, m.controls.key_on, m.truck.fork_height) = (false, false, 0.0);
        m.truck.braking = true;
        m.rider.off_path = 3.0;
        m.rider.body_gap = Some(BodyGap { gap: 0.1, closing: 1.0 });
        m.rider.headroom = Some(-0.3);
        m.people.push(PersonMoment {
            time_to_collision: Some(0.3),
            passing_speed: 1.4,
            stepped_out: Some(1400),
            ..person(if m.tick % 300 < 9 { 0.0 } else { 0.2 })
        });
        m.others.push(other(1.0));
    });
    let d = judge(&drive);
    assert_eq!(faults(&d), [""; 0]);
    assert_eq!(d.findings, judge(&plain_drive()).findings);
}

#[test]
fn a_fault_that_goes_on_when_the_truck_is_left_ends_there() {
    let away = |m: &mut Moment| (m.truck.speed, m.rider.off_path) = (1.0, 2.0);
    let d = Drive::new().rolling(5, 1.0).with(70, away).with(70, |m| {
        away(m);
        m.rider.aboard = false;
    });
    let found = watch("not-looking", &d);
    assert_eq!((found.len(), found[0].from, found[0].to), (1, 5, 74));
    assert_eq!(watch("stepped-off-rolling", &d).len(), 1);
    assert!(watch("walked-the-truck", &d).is_empty());
}

/// On every course the truck stands as it was put: nothing is found of it, at once or after a
/// minute.
#[test]
fn at_spawn_nothing_is_found() {
    for (name, _) in courses::ALL {
        let course = courses::parse(name);
        let spec = if course.trucks.iter().any(|t| t == "single") {
            trucks::single()
        } else {
            trucks::double()
        };
        let put = |m: &mut Moment| {
            m.truck.pose = course.spawn;
            m.truck.fork_height = spec.forks.at_start_m;
            m.truck.stance = course.spawn_stance;
            m.truck.platform_in_yard = course.spawn.to_yard(spec.platform());
            m.place = place(&course, &course.spawn, &spec);
            m.crossings.push(crossing(true, true));
        };
        for ticks in [1, 3840] {
            let drive = Drive::new().with(ticks, put);
            let mut judge = Judge::new(&course, &SiteRules::shipped(), &spec);
            drive.0.iter().for_each(|m| judge.see(m));
            let d = judge.finish(Ending::Broken, ticks - 1);
            assert_eq!(d.findings, [], "{name}");
            assert_eq!(d.total, None, "{name}: nothing was shown either");
        }
    }
}

/// A drive of no tick at all.
#[test]
fn before_the_first_tick_there_is_nothing() {
    let d = judge(&Drive::new());
    assert_eq!((d.findings.len(), d.total, d.practise), (0, None, None));
}

/// Whatever is wrong around it: a truck at rest does nothing, whichever way its zero is signed.
#[test]
fn at_no_speed_only_what_needs_no_motion_is_found() {
    for zero in [0.0, -0.0] {
        let d = judge(&Drive::new().with(700, |m| {
            m.truck.speed = zero;
            m.truck.fork_height = 0.15;
            m.truck.stance = if m.tick % 90 < 45 { Side::Left } else { Side::Right };
            m.truck.stepping = m.tick % 45 < 30;
            m.truck.high_speed_on = true;
            (m.place.zone_limit, m.place.surface) = (Some(0.1), Surface::Wet);
            m.rider.off_path = 3.0;
            (m.sight.clear_ahead, m.sight.load_hides) = (0.0, true);
            (m.load.pallets, m.load.grade) = (1, 0.2);
            m.people.push(PersonMoment {
                time_to_collision: Some(0.2),
                passing_speed: 2.0,
                stepped_out: Some(10),
                ..person(0.0)
            });
            m.others.push(other(0.5));
            m.ways.push(way(WayKind::Stop, 0.2, false));
            m.crossings.push(crossing(true, true));
            if m.tick % 100 == 50 {
                m.truck.arm_zone = ArmZone::UpperBrake;
            }
        }));
        assert_eq!(faults(&d), [""; 0]);
    }
    // Standing over the lane's edge needs none.
    let d = judge(&Drive::new().with(64, |m| m.place.outside_lane = true));
    assert_eq!(faults(&d), ["left-the-lane"]);
}

/// A fast turn, and the case that falls a moment later.
fn spill(after: u32, cases: u32) -> Drive {
    Drive::new()
        .with(5, |m| m.truck.horn_sounds = true)
        .rolling(60, 1.0)
        .with(20, |m| (m.truck.speed, m.truck.accel_side) = (1.5, 0.3 * G))
        .rolling(after, 1.0)
        .with(64, move |m| (m.truck.speed, m.load.cases_off) = (1.0, cases))
        .all(|m| m.load.pallets = 1)
}

/// Findings with a cause, each with it.
fn causes(d: &Debrief) -> Vec<(&str, &str)> {
    d.findings.iter().filter_map(|f| Some((f.code.as_str(), f.cause.as_deref()?))).collect()
}

#[test]
fn a_consequence_names_its_cause_and_the_two_are_counted_once() {
    let d = judge(&spill(30, 2));
    assert_eq!(faults(&d), ["corner-speed", "load-spilled"]);
    assert_eq!(causes(&d), [("load-spilled", "corner-speed")]);
    let of = |d: &Debrief, skill| d.skills.iter().find(|s| s.skill == skill).cloned().expect("all");
    assert_eq!(of(&d, Skill::ForksAndLoad).points, Some(85.0));
    // The turn costs nothing more, but it was no clean one.
    let speed = of(&d, Skill::SpeedAndRoom);
    assert_eq!((speed.points, speed.clean), (Some(100.0), 0));
    assert_eq!(d.practise, Some(Skill::ForksAndLoad));
    // 20 ticks of the turn, then two seconds and a tick: each for itself.
    let apart = judge(&spill(128, 2));
    assert_eq!(causes(&apart), []);
    assert_eq!(of(&apart, Skill::SpeedAndRoom).points, Some(96.0));
    assert_eq!(of(&apart, Skill::ForksAndLoad).points, Some(85.0));
    assert_eq!(causes(&judge(&spill(127, 2))).len(), 1);
}

/// A crash costs what a crash costs, though a case slid in it.
#[test]
fn a_grave_cause_is_not_made_cheap_by_what_came_of_it() {
    let drive = Drive::new()
        .with(5, |m| m.truck.horn_sounds = true)
        .rolling(60, 1.2)
        .with(5, |m| m.contacts.push(contact(Touched::Structure(0), 1.2)))
        .with(64, |m| m.load.slid = 0.1)
        .all(|m| m.load.pallets = 1);
    let d = judge(&drive);
    assert_eq!(faults(&d), ["contact-structure", "load-shifted"]);
    assert_eq!(causes(&d), [("load-shifted", "contact-structure")]);
    assert_eq!((d.skills[3].points, d.skills[4].points), (Some(0.0), Some(100.0)));
}

#[test]
fn a_site_may_say_how_long_something_may_come_of_a_fault() {
    let mut rules = SiteRules::shipped();
    rules.terms.get_mut("cause-within").expect("a term").value = 0.0;
    let d = judged(&course(), &rules, &spill(1, 2), Ending::Broken);
    assert_eq!(causes(&d), []);
}

/// Files from before a finding could name its cause still read, and one without is written as
/// before.
#[test]
fn a_finding_without_a_cause_reads_and_is_written_as_before() {
    let old = r#"{"code":"contact-cone","severity":"minor","from":1,"to":2,"measured":0.3,"limit":0.0,"unit":"m/s","at":[1.0,2.0]}"#;
    let read: Finding = serde_json::from_str(old).expect("an old file");
    assert_eq!((read.cause.as_ref(), read.at), (None, vec2(1.0, 2.0)));
    assert_eq!(serde_json::to_string(&read).expect("plain data"), old);
    let named = Finding { cause: Some("corner-speed".to_owned()), ..read };
    let text = serde_json::to_string(&named).expect("plain data");
    assert!(text.contains(r#""cause":"corner-speed""#));
    assert_eq!(serde_json::from_str::<Finding>(&text).expect("own text"), named);
}

#[test]
fn the_first_moment_of_all_is_no_special_one() {
    // Wrong from the first tick on is found as from any other.
    let from_zero = watch("left-the-lane", &Drive::new().with(30, |m| m.place.outside_lane = true));
    assert_eq!((from_zero[0].from, from_zero[0].to), (0, 29));
}
