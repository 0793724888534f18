//! What is told quickly, against the whole view that it stands for.

use super::*;
use crate::sight::cover::{Block, Blocks, Cover};
use crate::sight::looking::{Leg, clear_distance, clear_distance_at_once};
use crate::sight::outlook::Outlook;
use crate::sight::polygon::Buffers;

/// A yard in which corners lie behind corners in the same direction, and things touch.
fn in_line(seed: u64) -> (ChaCha8Rng, Vec<[Vec2; 4]>, Vec2, Vec2) {
    let (mut dice, _, _, look) = yard(seed);
    let whole = |dice: &mut ChaCha8Rng, most: u32| f64::from(dice.next_u32() % most);
    let outlines: Vec<[Vec2; 4]> = (0..60)
        .map(|_| {
            let at = vec2(whole(&mut dice, 30), whole(&mut dice, 20));
            rectangle(Pose { at, heading: 0.0 }, vec2(1.0, 1.0))
        })
        .collect();
    let eye = vec2(whole(&mut dice, 30) + 0.5, whole(&mut dice, 20) + 0.5);
    (dice, outlines, eye, look)
}

/// What is told by the few sides in a direction is what the whole view says, whatever is asked; and
/// nearly all is told so.
#[test]
fn what_is_told_without_the_whole_view_is_what_it_says() {
    let (mut answers, mut close) = ([0; 2], 0);
    let (mut ways_at_once, mut ways) = (0, 0);
    for seed in 0..600 {
        for (mut dice, outlines, eye, look) in [yard(seed), in_line(seed)] {
            let mut outlook = Outlook::new(Blocks::new(outlines.iter().map(|o| Block::new(*o))));
            outlook.look(eye, &Field { look, half: HALF_FIELD }, FLOOR, &[]);
            let whole = outlook.whole();
            for _ in 0..30 {
                let (p, radius) = (somewhere(&mut dice), between(&mut dice, 0.1, 0.4));
                let point = (outlook.tell_point(p), whole.holds(p));
                let disc = (outlook.tell_disc(p, radius), whole.reaches_disc(p, radius));
                for (told, expected) in [point, disc] {
                    match told {
                        Some(told) => {
                            assert_eq!(told, expected, "yard {seed}: {p:?}, {radius}");
                            answers[usize::from(told)] += 1;
                        }
                        None => close += 1,
                    }
                }
                let legs: Vec<Leg> =
                    Leg::new(p, p + somewhere(&mut dice) * 0.2, radius).into_iter().collect();
                let expected = clear_distance(&whole, &legs, radius, &[]);
                let at_once = clear_distance_at_once(&mut outlook, &legs, radius, &[]);
                assert!(at_once.is_none_or(|told| told == expected), "yard {seed}: {legs:?}");
                ways_at_once += usize::from(at_once.is_some());
                ways += 1;
            }
        }
    }
    let [no, yes] = answers;
    assert!(yes > 5_000 && no > 5_000, "{yes} seen, {no} hidden");
    assert!(close * 50 < yes + no, "{close} too close to call");
    assert!(ways_at_once * 50 > ways, "{ways_at_once} of {ways}");
}

/// What is hidden for certain is left out before the sweep: it finds the same view, and much less to
/// sweep.
#[test]
fn leaving_out_what_is_hidden_changes_nothing_that_is_seen() {
    let (mut left_out, mut taken) = (0, 0);
    let mut cover = Cover::default();
    for (seed, all_round) in (0..800).map(|i| (i / 2, i % 16 == 0)) {
        for (mut dice, outlines, eye, look) in [yard(seed), in_line(seed)] {
            let half = if all_round { vec2(-1.0, 0.0) } else { HALF_FIELD };
            let (field, opaque) = (Field { look, half }, facing(&outlines, eye));
            let mut blocks = Blocks::new(outlines.iter().map(|o| Block::new(*o)));
            let mut some = Vec::new();
            cover.look((eye, &field), &mut blocks, &[], &mut some);
            left_out += opaque.len() - some.len();
            taken += some.len();
            let all = view(eye, &field, FLOOR, &opaque);
            let (sides, mut some) = (some.into_iter(), View::default());
            some.look_from(eye, &field, FLOOR, sides, &mut Buffers::default());
            let area = |v: &View| signed_area(&v.polygon());
            assert!((area(&all) - area(&some)).abs() < 1e-9, "yard {seed}");
            for _ in 0..20 {
                let p = somewhere(&mut dice);
                if distance_to_outline(p, &all.polygon()) > 1e-9 {
                    assert_eq!(all.holds(p), some.holds(p), "yard {seed}, {p:?}");
                }
            }
        }
    }
    assert!(left_out > taken, "{left_out} left out, {taken} taken in");
}

/// What is told of many points at once is what is told of each of them.
#[test]
fn a_hull_that_is_seen_is_seen_point_by_point() {
    let (mut seen, mut not_told) = (0, 0);
    for seed in 0..600 {
        let (mut dice, outlines, eye, look) = yard(seed);
        let v = view(eye, &Field { look, half: HALF_FIELD }, FLOOR, &facing(&outlines, eye));
        for _ in 0..10 {
            let heading = between(&mut dice, 0.0, 360.0) * DEG;
            let size = vec2(between(&mut dice, 0.1, 2.0), between(&mut dice, 0.1, 2.0));
            let outline = rectangle(Pose { at: somewhere(&mut dice), heading }, size);
            let steps = || (0..=20).map(|i| f64::from(i) / 20.0);
            let [a, b, _, d] = outline;
            let inside = |(s, t): (f64, f64)| a + (b - a) * s + (d - a) * t;
            let mut points = steps().flat_map(|s| steps().map(move |t| (s, t))).map(inside);
            let each = points.all(|p| v.holds(p));
            if v.holds_hull(outline.into_iter()) {
                assert!(each, "yard {seed}: {outline:?}");
                seen += 1;
            } else {
                not_told += usize::from(each);
            }
        }
    }
    // Where all of it is seen that is mostly told.
    assert!(seen > 500 && not_told * 10 < seen, "{seen} seen, {not_told} not told");
}
