//! The shipped list, the draw, and one walk-round from tick to tick.

mod files;

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::acts::Act;
use crate::checks::draw::{Drawn, Found, Mode};
use crate::checks::list::{ASPECTS, Aspect, CheckList, How, Noise};
use crate::checks::walk::{Answer, By, Decision, Truck, Walk};
use crate::state::State;
use crate::state::chain::Chain;

const NEEDED: u32 = 32;
/// Seeds of a sample: what is asked for of shares is asked of so many trucks.
const TRUCKS: u64 = 2000;

/// Half the width of the interval in which a share of so many draws lies 999 times of 1,000 (normal
/// approximation, 3.29 standard errors).
fn width(share: f64, n: f64) -> f64 {
    3.29 * (share * (1.0 - share) / n).sqrt()
}

fn drawn(mode: Mode, truck: &str) -> Vec<Drawn> {
    let list = CheckList::shipped();
    (0..TRUCKS).map(|seed| Drawn::new(&list, mode, truck, seed)).collect()
}

#[test]
fn the_shipped_list_is_long_enough_and_says_all_of_it_in_both_languages() {
    let list = CheckList::shipped();
    let defects = || list.points.iter().flat_map(|p| &p.defects);
    assert!(list.points.len() >= 28 && defects().count() >= 45);
    assert!(list.grades.iter().any(|g| !g.may_run) && list.grades.iter().any(|g| g.may_run));
    let said = list
        .points
        .iter()
        .flat_map(|p| [&p.name, &p.asks, &p.sound])
        .chain(defects().flat_map(|d| [&d.name, &d.seen, &d.why]))
        .chain(list.grades.iter().map(|g| &g.name))
        .chain(list.reasons.iter().map(|r| &r.name));
    for said in said {
        assert!(said.contains_key("en") && said.contains_key("es"), "{said:?}");
    }
    assert!(list.points.iter().all(|p| !p.defects.is_empty()));
}

#[test]
fn shares_of_two_thousand_trucks_are_as_the_list_promises() {
    let list = CheckList::shipped();
    for (mode, share) in [(Mode::Practice, list.practice_share), (Mode::Daily, list.daily_share)] {
        for truck in ["single", "double"] {
            let faulty: Vec<Drawn> =
                drawn(mode, truck).into_iter().filter(|d| !d.has.is_empty()).collect();
            let n = TRUCKS as f64;
            let is = faulty.len() as f64 / n;
            assert!((is - share).abs() < width(share, n), "{mode:?} {truck}: {is}");
            let n = faulty.len() as f64;
            for count in 1..=list.most_defects as usize {
                let share = 1.0 / f64::from(list.most_defects);
                let is = faulty.iter().filter(|d| d.has.len() == count).count() as f64 / n;
                assert!((is - share).abs() < width(share, n), "{mode:?} {truck} {count}: {is}");
            }
        }
    }
}

/// Of all defects each way of finding takes about a quarter, and every defect comes up.
#[test]
fn no_way_of_finding_and_no_defect_is_left_out() {
    let list = CheckList::shipped();
    let (mut ways, mut each) = (BTreeMap::new(), BTreeMap::new());
    for at in drawn(Mode::Practice, "single").iter().flat_map(|d| d.has.clone()) {
        let point = &list.points[at.0];
        *ways.entry(Found::of(point, &point.defects[at.1])).or_insert(0_u32) += 1;
        *each.entry(at).or_insert(0_u32) += 1;
    }
    let all: u32 = ways.values().sum();
    for (way, count) in ways {
        let is = f64::from(count) / f64::from(all);
        // Later defects of a truck are of what is left, so the shares are not quite even.
        assert!((is - 0.25).abs() < 0.03, "{way:?}: {is}");
    }
    assert_eq!(each.len(), list.possible("single").count());
}

/// Two halves of the seeds ask for as much: as many points to find, of each way of finding.
#[test]
fn trucks_of_all_seeds_are_about_as_hard() {
    let list = CheckList::shipped();
    let all = drawn(Mode::Practice, "single");
    let mean = |which: u64, of: &dyn Fn(&Drawn) -> f64| {
        let half = all.iter().zip(0_u64..).filter(|(_, seed)| seed % 2 == which);
        let of: Vec<f64> = half.map(|(d, _)| of(d)).collect();
        let mean = of.iter().sum::<f64>() / of.len() as f64;
        let spread = of.iter().map(|x| (x - mean) * (x - mean)).sum::<f64>() / of.len() as f64;
        (mean, spread / of.len() as f64)
    };
    let hidden = |d: &Drawn| {
        let by_effort = |at: &&(usize, usize)| {
            let point = &list.points[at.0];
            Found::of(point, &point.defects[at.1]) > Found::AtAGlance
        };
        d.has.iter().filter(by_effort).count() as f64
    };
    for of in [&|d: &Drawn| d.has.len() as f64, &hidden as &dyn Fn(&Drawn) -> f64] {
        let ((a, var_a), (b, var_b)) = (mean(0, of), mean(1, of));
        assert!((a - b).abs() < 3.29 * (var_a + var_b).sqrt(), "{a} {b}");
    }
}

/// Everything that a truck can have is seen by somebody who looks from every side and tries what can be
/// tried.
#[test]
fn every_defect_shows_to_somebody_who_looks_and_tries() {
    let list = Arc::new(CheckList::shipped());
    for truck in ["single", "double"] {
        for at in list.possible(truck).collect::<Vec<_>>() {
            let mut walk = walk(&list, &[at]);
            let mut seen = false;
            for act in looks(&list, at.0) {
                walk.tick(&[act], false, NEEDED);
                seen |= walk.shown.is_some_and(|s| s.defect == Some(at.1));
            }
            assert!(seen, "{at:?}");
        }
    }
}

fn walk(list: &Arc<CheckList>, has: &[(usize, usize)]) -> Walk {
    let drawn = Drawn { has: has.to_vec(), hours: 11_874 };
    Walk::new(Truck { list: list.clone(), mode: Mode::Daily, drawn })
}

fn number(aspect: Aspect) -> u8 {
    ASPECTS.iter().position(|a| *a == aspect).expect("one of all") as u8
}

/// All that can be done to look at a point.
fn looks(list: &CheckList, point: usize) -> Vec<Act> {
    let p = &list.points[point];
    let number_of_point = point as u8;
    match p.how {
        How::Try => vec![Act::Try { point: number_of_point }],
        How::Look => p
            .places
            .iter()
            .map(|(a, _)| Act::LookCloser { point: number_of_point, view: number(*a) })
            .collect(),
    }
}

fn find(list: &CheckList, point: &str, defect: &str) -> (usize, usize) {
    let p = list.points.iter().position(|p| p.id == point).expect("a point");
    (p, list.points[p].defects.iter().position(|d| d.id == defect).expect("a defect"))
}

#[test]
fn what_hides_on_one_side_does_not_show_from_the_other() {
    let list = Arc::new(CheckList::shipped());
    let bent = find(&list, "fork-left", "bent");
    let from = |aspect| {
        let mut walk = walk(&list, &[bent]);
        walk.tick(&[Act::LookCloser { point: bent.0 as u8, view: number(aspect) }], false, NEEDED);
        walk.shown.map(|s| s.defect)
    };
    assert_eq!(from(Aspect::Tips), Some(Some(bent.1)));
    assert_eq!(from(Aspect::Left), Some(None));
    // It does not lie in this view: nothing is looked at.
    assert_eq!(from(Aspect::Right), None);
}

#[test]
fn a_look_counts_after_its_time_and_not_a_tick_sooner() {
    let list = Arc::new(CheckList::shipped());
    let (point, _) = find(&list, "fork-left", "bent");
    let done_after = |ticks: u32| {
        let mut walk = walk(&list, &[]);
        walk.tick(&looks(&list, point)[..1], false, NEEDED);
        (0..ticks).for_each(|_| walk.tick(&[], false, NEEDED));
        walk.done >> point & 1 == 1
    };
    assert_eq!((done_after(NEEDED - 1), done_after(NEEDED)), (false, true));
}

#[test]
fn trying_what_is_looked_at_and_looking_at_what_is_tried_shows_nothing() {
    let list = Arc::new(CheckList::shipped());
    let (horn, dead) = find(&list, "horn", "dead");
    let mut walk = walk(&list, &[(horn, dead)]);
    walk.tick(&[Act::LookCloser { point: horn as u8, view: number(Aspect::Desk) }], false, NEEDED);
    assert_eq!(walk.shown, None);
    walk.tick(&[Act::Try { point: find(&list, "fork-left", "bent").0 as u8 }], false, NEEDED);
    assert_eq!(walk.shown, None);
    walk.tick(&[Act::Try { point: horn as u8 }], false, NEEDED);
    let shown = walk.shown.expect("the horn");
    assert_eq!((shown.by, shown.defect), (By::Trying, Some(dead)));
    assert_eq!(walk.tried(), None, "a dead horn is silent");
}

#[test]
fn what_is_tried_sounds_in_the_tick_in_which_it_is() {
    let list = Arc::new(CheckList::shipped());
    let horn = list.points.iter().position(|p| p.id == "horn").expect("a point") as u8;
    let mut walk = walk(&list, &[]);
    walk.tick(&[Act::Try { point: horn }], false, NEEDED);
    assert_eq!(walk.tried(), Some(Noise::Horn));
    walk.tick(&[], false, NEEDED);
    assert_eq!(walk.tried(), None);
    walk.tick(&[Act::Try { point: horn }], false, NEEDED);
    assert_eq!(walk.tried(), Some(Noise::Horn), "tried again");
}

#[test]
fn answers_can_be_changed_until_it_is_decided_and_no_longer() {
    let list = Arc::new(CheckList::shipped());
    let mut walk = walk(&list, &[]);
    let say = |answer| Act::Answer { point: 3, answer, reason: None };
    walk.tick(&[say(0)], false, NEEDED);
    assert_eq!(walk.said[3], Some(Answer::Fine));
    walk.tick(&[say(2), say(99)], false, NEEDED);
    assert_eq!(walk.said[3], Some(Answer::Grade(1)), "there is no answer 99");
    walk.tick(&[Act::Take, say(0), Act::TagOut], false, NEEDED);
    let at_last = walk;
    assert_eq!((at_last.said[3], at_last.decided), (Some(Answer::Grade(1)), Some(Decision::Taken)));
}

#[test]
fn a_report_on_the_drive_counts_beside_the_truck_that_was_taken() {
    let list = Arc::new(CheckList::shipped());
    let reported = |acts: &[Act], beside| {
        let mut walk = walk(&list, &[find(&list, "horn", "dead")]);
        walk.tick(acts, false, NEEDED);
        walk.tick(&[Act::Report], beside, NEEDED);
        walk.is_rightly_reported()
    };
    assert!(reported(&[Act::Take], true));
    assert!(!reported(&[Act::Take], false) && !reported(&[], true));
}

#[test]
fn every_act_of_a_walk_round_is_in_the_digest() {
    let list = Arc::new(CheckList::shipped());
    let digest = |acts: &[Act]| {
        let mut walk = walk(&list, &[]);
        walk.tick(acts, false, NEEDED);
        let mut chain = Chain::new(b"test");
        walk.digest(&mut chain);
        acts.iter().for_each(|a| a.digest(&mut chain));
        chain.close_second().to_hex()
    };
    let note = |text: &str| Act::Note { point: 1, text: text.to_owned() };
    let all = [
        vec![],
        vec![Act::Report],
        vec![Act::LookCloser { point: 0, view: 1 }],
        vec![Act::LookCloser { point: 0, view: 4 }],
        vec![Act::Try { point: 30 }],
        vec![Act::Answer { point: 1, answer: 0, reason: None }],
        vec![Act::Answer { point: 1, answer: 1, reason: None }],
        vec![Act::Answer { point: 1, answer: 1, reason: Some(0) }],
        vec![note("a")],
        vec![note("b")],
        vec![Act::ReadHours { tenths: 1 }],
        vec![Act::Shift { number: 1 }],
        vec![Act::TouchSettings],
        vec![Act::Take],
        vec![Act::TagOut],
    ];
    let mut digests: Vec<String> = all.iter().map(|acts| digest(acts)).collect();
    digests.sort_unstable();
    digests.dedup();
    assert_eq!(digests.len(), all.len());
}
