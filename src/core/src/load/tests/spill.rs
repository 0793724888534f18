//! Columns that rock and cases that fall.

use proptest::prelude::*;

use super::{FORTY, at_backrest, forks, load, wrapped};
use crate::load::event::{Happened, LoadEvent, Towards};
use crate::load::motion::Felt;
use crate::load::pallet::PalletLoad;
use crate::load::rock::{Block, Lean};
use crate::load::stack::Stack;
use crate::load::standing::Standing;
use crate::math::{G, vec2};
use crate::time::DT;

fn side(a: f64, fork_height: f64) -> Felt {
    Felt { acceleration: vec2(0.0, a), fork_height, ..Felt::default() }
}

fn with(load: PalletLoad) -> Stack {
    let home = at_backrest(&load);
    let mut stack = Stack::new(forks());
    stack.take_up(Standing::new(load, home, &forks()));
    stack
}

/// Everything that happens under a side acceleration for a while and then none.
fn corner(stack: &mut Stack, a: f64, fork_height: f64, ticks: u32, rest: u32) -> Vec<LoadEvent> {
    let mut all = Vec::new();
    for tick in 0..ticks + rest {
        let a = if tick < ticks { a } else { 0.0 };
        all.extend_from_slice(stack.step(&side(a, fork_height)));
    }
    all
}

fn fallen(events: &[LoadEvent]) -> usize {
    events.iter().filter(|e| matches!(e.what, Happened::CaseFell { .. })).count()
}

#[test]
fn columns_lift_off_at_b_over_h() {
    // 0.30 m wide and 1.40 m high: b / h = 0.214286, below every friction here.
    let at = G * 0.30 / 1.40;
    assert_eq!(corner(&mut with(load(FORTY)), at - 1e-6, 0.0, 32, 0), vec![]);
    let events = corner(&mut with(load(FORTY)), at + 1e-6, 0.0, 32, 0);
    let began: Vec<_> = events
        .iter()
        .filter_map(|e| match e.what {
            Happened::RockBegan { column, way } => Some((column, way)),
            _ => None,
        })
        .collect();
    assert_eq!(began.len(), 8);
    // A turn to the left throws them to the right.
    assert!(began.iter().all(|(_, way)| *way == Towards::Right));
    let holds = with(load(FORTY)).holds_sideways(0.0).expect("a load");
    assert!((holds - at).abs() < 1e-9);
}

#[test]
fn raised_forks_make_them_lift_off_sooner() {
    // At 0.20 m the side acceleration counts 2.5 times.
    let at = G * 0.30 / 1.40 / 2.5;
    assert_eq!(corner(&mut with(load(FORTY)), at - 1e-6, 0.20, 32, 0), vec![]);
    assert!(!corner(&mut with(load(FORTY)), at + 1e-6, 0.20, 32, 0).is_empty());
    let holds = with(load(FORTY)).holds_sideways(0.20).expect("a load");
    assert!((holds - at).abs() < 1e-9);
}

#[test]
fn a_column_that_is_wide_for_its_height_slides_and_does_not_rock() {
    // One layer: b / h = 0.3 / 0.28 is above every friction. On a mat, so that the pallet stays.
    let text = FORTY
        .replace("[[5, 5, 5, 5], [5, 5, 5, 5]]", "[[1, 1, 1, 1], [1, 1, 1, 1]]")
        .replace("wooden_pallet_on_forks", "anti_slip_mat");
    let events = corner(&mut with(load(&text)), 5.5, 0.0, 8, 64);
    assert!(events.iter().any(|e| matches!(e.what, Happened::SlideBegan { .. })));
    assert!(!events.iter().any(|e| matches!(e.what, Happened::RockBegan { .. })));
}

#[test]
fn a_short_corner_rocks_and_a_long_one_spills() {
    // A block of 0.30 x 1.40 m by the full equation, found by the test of rocking's own means.
    let a = 2.6;
    let block = Block::rectangle(0.30, 1.40);
    let overturns = |ticks: u32| {
        let mut lean = Lean::default();
        for tick in 0..600 {
            lean.step(&block, if tick < ticks { -a } else { 0.0 }, DT);
        }
        lean.is_over()
    };
    let critical = (1..64).find(|&n| overturns(n)).expect("some pulse overturns it");
    let before = corner(&mut with(load(FORTY)), a, 0.0, critical - 1, 2000);
    assert_eq!(fallen(&before), 0);
    let peaks: Vec<f64> = before
        .iter()
        .filter_map(
            |e| if let Happened::RockEnded { peak, .. } = e.what { Some(peak) } else { None },
        )
        .collect();
    assert_eq!(peaks.len(), 8);
    assert!(peaks.iter().all(|p| (0.3..1.0).contains(p)), "{peaks:?}");

    let mut stack = with(load(FORTY));
    let after = corner(&mut stack, a, 0.0, critical, 600);
    assert!(fallen(&after) >= 8);
    let lost = after.iter().filter(|e| matches!(e.what, Happened::RockLost { .. })).count();
    assert_eq!(lost, 8);
    for e in &after {
        if let Happened::CaseFell { layer, leaving, .. } = e.what {
            assert!(leaving.velocity.y < -0.1, "{leaving:?}");
            // The higher it stood, the farther out it comes down.
            assert!(layer > 0, "the lowest case stays on the pallet");
            let t = leaving.fall_seconds(0.09, 0.14);
            assert!((0.1..0.7).contains(&t), "{t}");
        }
    }
    // Nothing is lost: what fell and what is left are the whole load.
    let left = stack.pallets[0].cases_left();
    assert_eq!(left + fallen(&after), 40);
    let carried = stack.carried(0.0).next().expect("the pallet is still there");
    assert!((carried.mass - (25.0 + 12.0 * left as f64)).abs() < 1e-9);
}

#[test]
fn wrap_holds_what_falls_without_it() {
    // 3.0 would slide the pallet; 2.9 does not, and topples loose columns in a second.
    let loose = corner(&mut with(load(FORTY)), 2.9, 0.0, 64, 200);
    assert!(fallen(&loose) > 8);
    let held = corner(&mut with(wrapped(FORTY)), 2.9, 0.0, 64, 200);
    assert_eq!(held, vec![]);
}

#[test]
fn a_pallet_that_slides_spares_its_columns() {
    // 4 layers lift off at 0.30 / 1.12 g = 2.63. Under 5.0 the pallet slides, and hands on no more
    // than 0.225 g = 2.21; on a mat it stays, and they lift off.
    let four = FORTY.replace("[[5, 5, 5, 5], [5, 5, 5, 5]]", "[[4, 4, 4, 4], [4, 4, 4, 4]]");
    let on_mat = four.replace("wooden_pallet_on_forks", "anti_slip_mat");
    for (text, rocks) in [(&four, false), (&on_mat, true)] {
        let events = corner(&mut with(load(text)), 5.0, 0.0, 6, 64);
        let began = events.iter().any(|e| matches!(e.what, Happened::RockBegan { .. }));
        assert_eq!(began, rocks);
        let slid = events.iter().any(|e| matches!(e.what, Happened::SlideEnded { .. }));
        assert_eq!(slid, !rocks);
    }
}

#[test]
fn on_a_pallet_that_slides_columns_rock_by_what_it_hands_on() {
    // 5 layers lift off at 2.10; a sliding pallet hands on 0.225 g = 2.21 until it stops again,
    // 5.0 / (0.225 g) times as long as the push.
    let (push, ticks) = (5.0, 10);
    let block = Block::rectangle(0.30, 1.40);
    let (handed_on, lasts) = (0.225 * G, push * f64::from(ticks) * DT / (0.225 * G));
    let mut lean = Lean::default();
    let mut expected = 0.0_f64;
    for tick in 0..48 {
        let inside = (lasts - f64::from(tick) * DT).clamp(0.0, DT);
        lean.step(&block, handed_on, inside);
        lean.step(&block, 0.0, DT - inside);
        if !lean.over_minus {
            expected = expected.max(lean.angle / block.edges[0].alpha);
        }
    }
    assert!(expected > 0.02);
    let mut stack = with(load(FORTY));
    let mut peak = 0.0_f64;
    for tick in 0..48 {
        stack.step(&side(if tick < ticks { push } else { 0.0 }, 0.0));
        for column in &stack.pallets[0].columns {
            if column.tilt.way() == Towards::Right {
                peak = peak.max(column.tilt.lean.angle / block.edges[0].alpha);
            }
        }
    }
    // In the tick in which the pallet stops, columns feel the mean of it.
    assert!((peak - expected).abs() < 5e-4, "{peak} {expected}");
}

#[test]
fn a_tall_wrapped_load_rocks_on_the_forks_as_one_block() {
    // 10 layers, 2.944 m high, on 0.69 m of forks: the base is what is narrower.
    let text =
        FORTY.replace("[[5, 5, 5, 5], [5, 5, 5, 5]]", "[[10, 10, 10, 10], [10, 10, 10, 10]]");
    let tall = wrapped(&text);
    let com = tall.as_carried(vec2(0.0, 0.0), 0.0).height;
    let at = G * 0.345 / com;
    assert!(at < 0.30 * G);
    assert_eq!(corner(&mut with(tall.clone()), at - 1e-6, 0.0, 64, 0), vec![]);
    let mut stack = with(tall);
    let events = corner(&mut stack, 2.9, 0.0, 128, 300);
    let names: Vec<_> = events.iter().map(|e| e.what).collect();
    assert!(matches!(names[0], Happened::RockBegan { column: 0, way: Towards::Right }));
    assert!(matches!(names[1], Happened::RockLost { column: 0, way: Towards::Right }));
    let Happened::LoadFell { leaving, over: Some(Towards::Right) } = names[2] else {
        panic!("{names:?}");
    };
    assert!((leaving.at.y + 0.345 + com).abs() < 1e-6);
    assert_eq!(stack.carried(0.0).count(), 0);
}

#[test]
fn columns_by_the_backrest_lean_on_it() {
    // 0.40 m along and 2.24 m high: b / h = 0.18, and the middle of a column is below 1.2 m...
    let text = FORTY.replace("[[5, 5, 5, 5], [5, 5, 5, 5]]", "[[7, 7, 7, 7], [7, 7, 7, 7]]");
    let mut stack = with(load(&text));
    for _ in 0..64 {
        assert_eq!(stack.step(&Felt { acceleration: vec2(-2.5, 0.0), ..Felt::default() }), &[]);
    }
    // ... but towards the tips nothing holds them.
    let mut spilled = Vec::new();
    for _ in 0..128 {
        let m = Felt { acceleration: vec2(2.5, 0.0), ..Felt::default() };
        spilled.extend_from_slice(stack.step(&m));
    }
    assert!(fallen(&spilled) > 0);
    assert!(spilled.iter().all(|e| !matches!(
        e.what,
        Happened::RockBegan { way: Towards::Left | Towards::Right | Towards::Backrest, .. }
    )));
}

#[test]
fn the_same_motion_spills_the_same_bits() {
    let run = || {
        let mut stack = with(load(FORTY));
        let mut all = Vec::new();
        for tick in 0..400 {
            let t = f64::from(tick) * DT;
            let m = Felt {
                acceleration: vec2(
                    1.5 * crate::math::sin(5.0 * t),
                    2.6 * crate::math::sin(3.0 * t),
                ),
                about: vec2(1.2, 0.0),
                yaw_rate: crate::math::sin(3.0 * t),
                yaw_acceleration: 3.0 * crate::math::cos(3.0 * t),
                fork_height: 0.05,
            };
            all.extend_from_slice(stack.step(&m));
        }
        (stack, all)
    };
    let (a, b) = (run(), run());
    assert_eq!(a, b);
    assert!(fallen(&a.1) > 0);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]

    /// However wild the motion: no case is lost or doubled, nothing becomes not-a-number, and
    /// nothing passes the backrest.
    #[test]
    fn whatever_the_truck_does_cases_are_kept_or_reported(
        motions in prop::collection::vec((-9.0..9.0, -9.0..9.0, -2.0..2.0, -8.0..8.0, 0.0..0.2), 1..40),
        is_wrapped in any::<bool>(),
        gap in 0.0..0.2,
    ) {
        let load = if is_wrapped { wrapped(FORTY) } else { load(FORTY) };
        let mut stack = Stack::new(forks());
        let home = at_backrest(&load) - vec2(gap, 0.0);
        stack.take_up(Standing::new(load, home, &forks()));
        let mut fell = 0;
        for (x, y, yaw_rate, yaw_acceleration, fork_height) in motions {
            let m = Felt {
                acceleration: vec2(x, y),
                about: vec2(1.2, 0.0),
                yaw_rate,
                yaw_acceleration,
                fork_height,
            };
            for _ in 0..8 {
                fell += fallen(stack.step(&m));
                let p = &stack.pallets[0];
                prop_assert_eq!(p.cases_left() + fell, 40);
                prop_assert!(p.farthest_slide().is_finite());
                prop_assert!(p.is_off || p.at().x + 0.4 <= forks().backrest_x + 1e-9);
                for c in &p.columns {
                    prop_assert!(c.tilt.lean.angle.is_finite() && c.tilt.lean.rate.is_finite());
                }
            }
        }
    }
}
