//! Loads on the forks: sliding, the backrest, two pallets.

use super::{FORTY, at_backrest, forks, load, wrapped};
use crate::load::event::{Happened, Interface, LoadEvent, Stop};
use crate::load::motion::Felt;
use crate::load::stack::Stack;
use crate::load::standing::Standing;
use crate::math::{G, Vec2, vec2};
use crate::time::DT;

fn straight(along: f64) -> Felt {
    Felt { acceleration: vec2(along, 0.0), ..Felt::default() }
}

fn with(load: crate::load::pallet::PalletLoad, at: Vec2) -> Stack {
    let mut stack = Stack::new(forks());
    stack.take_up(Standing::new(load, at, &forks()));
    stack
}

/// A low load, which slides long before it rocks.
fn low() -> String {
    FORTY.replace("[[5, 5, 5, 5], [5, 5, 5, 5]]", "[[1, 1, 1, 1], [1, 1, 1, 1]]")
}

#[test]
fn a_pallet_slides_to_the_tips_by_newmarks_displacement() {
    // Wood on fork steel, 0.30 at rest and 0.225 sliding; 3.0 m/s^2 for 0.5 s: the first row of
    // the table in the test of sliding, and its sum of both frictions.
    let load = load(&low());
    let home = at_backrest(&load);
    let mut stack = with(load, home);
    let mut slid = None;
    for tick in 0..96 {
        let a = if tick < 32 { 3.0 } else { 0.0 };
        for e in stack.step(&straight(a)) {
            match e.what {
                Happened::SlideEnded { interface: Interface::Forks, by } => slid = Some(by),
                Happened::SlideBegan { interface: Interface::Forks } => assert_eq!(tick, 0),
                other => panic!("{other:?}"),
            }
        }
    }
    let by = slid.expect("it slid and stopped");
    assert!((by.x + 0.134858106).abs() < 1e-9, "{by:?}");
    assert_eq!(stack.pallets[0].at(), home + by);
    assert!((stack.farthest_slide() - 0.134858106).abs() < 1e-9);
    let carried = stack.carried(0.0).next().expect("it is there");
    assert!((carried.at - (home + by)).length() < 1e-12);
}

#[test]
fn the_backrest_holds_a_load_that_stands_against_it() {
    for load in [load(FORTY), wrapped(FORTY)] {
        let home = at_backrest(&load);
        let mut stack = with(load, home);
        for _ in 0..64 {
            assert_eq!(stack.step(&straight(-3.2)), &[]);
        }
        assert_eq!(stack.farthest_slide(), 0.0);
    }
}

#[test]
fn a_load_that_stands_off_strikes_the_backrest_with_the_speed_it_gathered() {
    // 0.10 m at 3.2 - 0.225 g: v^2 = 2 (3.2 - 0.225 g) 0.10; within what a tick brings.
    let load = wrapped(&low());
    let home = at_backrest(&load) - vec2(0.10, 0.0);
    let mut stack = with(load, home);
    let gain = 3.2 - 0.225 * G;
    let mut struck = Vec::new();
    for _ in 0..64 {
        for e in stack.step(&straight(-3.2)) {
            if let Happened::Struck { stop, speed, case } = e.what {
                assert_eq!((stop, case), (Stop::Backrest, None));
                struck.push(speed);
            }
        }
    }
    assert_eq!(struck.len(), 1);
    let expected = (2.0 * gain * 0.10_f64).sqrt();
    assert!(struck[0] >= expected && struck[0] < expected + gain * DT, "{struck:?}");
    assert!((stack.pallets[0].at().x - at_backrest(&stack.pallets[0].load).x).abs() < 1e-12);
}

#[test]
fn loose_cases_go_on_when_their_pallet_strikes() {
    // The cases take half of the pallet: 0.4 m of deck lie free before them.
    let text = low().replace("[[1, 1, 1, 1], [1, 1, 1, 1]]", "[[1, 1, 1, 1]]");
    let load = load(&text);
    let home = at_backrest(&load) - vec2(0.10, 0.0);
    let mut stack = with(load, home);
    let (mut speed, mut began) = (0.0, 0);
    for tick in 0..128 {
        for e in stack.step(&straight(if tick < 32 { -3.2 } else { 0.0 })) {
            match e.what {
                Happened::Struck { stop: Stop::Backrest, speed: s, case: None } => speed = s,
                Happened::SlideBegan { interface: Interface::Layer { .. } } => began += 1,
                _ => {}
            }
        }
    }
    // While the truck still slows down at 3.2 they feel it, less 0.375 g of their deck.
    assert!(speed > 0.4);
    for column in &stack.pallets[0].columns {
        let way = column.cases[0].slide.offset.x;
        let least = speed * speed / (2.0 * 0.375 * G);
        assert!(way > least && way < 10.0 * least, "{way}");
        assert!(!column.slides);
    }
    assert_eq!(began, 0, "a jump is no beginning of its own");
}

#[test]
fn a_wrapped_load_keeps_its_cases_together() {
    let load = wrapped(&low().replace("[[1, 1, 1, 1], [1, 1, 1, 1]]", "[[1, 1, 1, 1]]"));
    let home = at_backrest(&load) - vec2(0.10, 0.0);
    let mut stack = with(load, home);
    for _ in 0..64 {
        stack.step(&straight(-3.2));
    }
    assert!(stack.pallets[0].columns.iter().all(|c| c.cases[0].slide.offset == Vec2::default()));
}

#[test]
fn cases_slide_where_the_friction_is_least() {
    // On film a layer slides on the one under it; on a mat the pallet does not.
    let text = FORTY
        .replace("[[5, 5, 5, 5], [5, 5, 5, 5]]", "[[2, 2, 2, 2], [2, 2, 2, 2]]")
        .replace("wooden_pallet_on_forks", "anti_slip_mat")
        .replace("cardboard_on_cardboard", "shrink_film_on_shrink_film");
    let load = load(&text);
    let home = at_backrest(&load);
    let mut stack = with(load, home);
    for tick in 0..64 {
        stack.step(&straight(if tick < 16 { 3.5 } else { 0.0 }));
    }
    // Newmark with 0.21: (1/2)(a - mu g) t1^2 a / (mu g).
    let f = 0.21 * G;
    let d = 0.5 * (3.5 - f) * 0.25 * 0.25 * 3.5 / f;
    for column in &stack.pallets[0].columns {
        assert_eq!(column.cases[0].slide.offset, Vec2::default());
        assert!((column.cases[1].slide.offset.x + d).abs() < 1e-9);
    }
}

#[test]
fn two_pallets_meet_end_to_end_and_share_their_momentum() {
    let front = wrapped(&low());
    let rear = front.clone();
    let mut wide = forks();
    wide.backrest_x = 2.19;
    let mut stack = Stack::new(wide);
    let x = 2.19 - 0.3 - 0.4;
    stack.take_up(Standing::new(front, vec2(x, 0.0), &wide));
    stack.take_up(Standing::new(rear, vec2(x - 0.9, 0.0), &wide));
    // The rear one is given a speed of its own: 0.8 m/s, and 0.10 m of gap.
    stack.pallets[1].slide.velocity = vec2(0.8, 0.0);
    let mut met = None;
    for _ in 0..128 {
        let hits: Vec<LoadEvent> = stack.step(&straight(0.0)).to_vec();
        for e in hits {
            if let Happened::Struck { stop: Stop::Pallet, speed, .. } = e.what {
                assert_eq!(e.pallet, 1);
                if met.is_none() {
                    met = Some(speed);
                    let v = stack.pallets[0].slide.velocity.x;
                    assert!((v - 0.5 * speed).abs() < 1e-12, "{v}");
                    assert_eq!(v, stack.pallets[1].slide.velocity.x);
                }
            }
        }
    }
    // 0.8^2 - 2 x 0.225 g x 0.10, within a tick of friction.
    let expected = (0.64 - 0.45 * G * 0.10_f64).sqrt();
    let speed = met.expect("they met");
    assert!(speed <= expected && speed > expected - 0.225 * G * DT, "{speed}");
    let gap = stack.pallets[0].at().x - stack.pallets[1].at().x - 0.8;
    assert!((0.0..0.01).contains(&(gap + 1e-12)), "{gap}");
}

#[test]
fn a_load_that_slides_past_the_tips_falls() {
    let load = wrapped(&low());
    let home = at_backrest(&load);
    let mut stack = with(load, home);
    let mut fell = None;
    for _ in 0..256 {
        for e in stack.step(&straight(5.0)) {
            if let Happened::LoadFell { leaving, over } = e.what {
                fell = Some((leaving, over));
            }
        }
    }
    let (leaving, over) = fell.expect("it fell");
    assert_eq!(over, None);
    assert!(leaving.at.x < forks().tips_x && leaving.at.x > forks().tips_x - 0.05);
    assert!(leaving.velocity.x < -1.0);
    assert_eq!(stack.carried(0.0).count(), 0);
}

#[test]
fn in_a_turn_a_pallet_slides_as_seen_from_the_yard() {
    // A truck turns about a point 2 m to its left, ever faster. In the yard's frame nothing but
    // friction acts on the pallet: mu_k g against its velocity over the turning forks. The forks
    // are without end here.
    let mut wide = forks();
    (wide.tips_x, wide.backrest_x, wide.spread) = (-9.0, 9.0, 9.0);
    let load = load(&low());
    let (home, centre) = (vec2(0.57, 0.0), vec2(0.0, 2.0));
    let (w0, gain, mu, seconds) = (1.3, 0.4, 0.225, 0.75);
    let rate = |t: f64| w0 + gain * t;

    // It slides from the first instant: w^2 r = 3.5 m/s^2 is above 0.30 g.
    let (mut p, mut v) = (home - centre, (home - centre).left() * w0);
    let n = 75_000;
    let h = seconds / f64::from(n);
    for i in 0..n {
        let t = (f64::from(i) + 0.5) * h;
        let over = v - p.left() * rate(t);
        v = v - over.normalized() * (mu * G * h);
        p = p + v * h;
    }
    let turned = w0 * seconds + 0.5 * gain * seconds * seconds;
    let expected = p.rotated(-turned) + centre - home;

    let mut stack = Stack::new(wide);
    stack.take_up(Standing::new(load, home, &wide));
    let about = vec2(1.2, 0.0);
    for tick in 0..48 {
        let w = rate((f64::from(tick) + 0.5) * DT);
        let r = about - centre;
        let acceleration = r.left() * gain - r * (w * w);
        stack.step(&Felt {
            acceleration,
            about,
            yaw_rate: w,
            yaw_acceleration: gain,
            fork_height: 0.0,
        });
    }
    let ours = stack.pallets[0].slide.offset;
    assert!(expected.length() > 0.5, "{expected:?}");
    assert!((ours - expected).length() < 1e-3, "{ours:?} {expected:?}");
}

#[test]
fn a_case_that_slides_over_free_deck_meets_the_backrest() {
    // The front row is empty: 0.4 m at 5.5 - 0.375 g. On a mat, so that the pallet stays.
    let text = FORTY
        .replace("[[5, 5, 5, 5], [5, 5, 5, 5]]", "[[0, 0, 0, 0], [1, 1, 1, 1]]")
        .replace("wooden_pallet_on_forks", "anti_slip_mat");
    let load = load(&text);
    let home = at_backrest(&load);
    let mut stack = with(load, home);
    let mut struck = Vec::new();
    for _ in 0..64 {
        for e in stack.step(&straight(-5.5)) {
            if let Happened::Struck { stop: Stop::Backrest, speed, case } = e.what {
                assert!(matches!(case, Some(Interface::Layer { layer: 0, column: 4..8 })));
                struck.push(speed);
            }
        }
    }
    let gain = 5.5 - 0.375 * G;
    let expected = (2.0 * gain * 0.4_f64).sqrt();
    assert_eq!(struck.len(), 4);
    for speed in struck {
        assert!(speed >= expected && speed < expected + gain * DT, "{speed} {expected}");
    }
    for column in &stack.pallets[0].columns[4..] {
        assert!((column.cases[0].shift.x - 0.4).abs() < 1e-9);
        assert!(!column.is_busy());
    }
}
