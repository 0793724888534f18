//! A round of a drive as movements of a style sheet: where truck and people are every half second. Places are
//! shares of the floor's width (`cqw`), so that the yard has any size.

use core::ops::Range;
use std::fmt::Write;

use coneyard_core::course::Course;
use coneyard_core::math::{DEG, Pose};
use coneyard_core::yard::frame::Frame;

/// From one place to the next, ticks.
const EVERY: usize = 32;
/// The round begins so long after the start, when the truck has its speed, ticks.
const UP_TO_SPEED: usize = 8 * 64;
/// It ends where the truck is as near as this to where it began, m.
const NEAR: f64 = 0.6;

/// The ticks of one round.
pub(super) fn round(frames: &[Frame]) -> Option<Range<usize>> {
    let began = frames.get(UP_TO_SPEED)?.truck;
    let off = |frame: &Frame| (frame.truck.at - began.at).length();
    // It has to go away first.
    let away = (UP_TO_SPEED..frames.len()).find(|n| off(&frames[*n]) > 10.0)?;
    let back = (away..frames.len()).find(|n| off(&frames[*n]) < NEAR)?;
    let nearer = (back..frames.len()).take_while(|n| off(&frames[*n]) < NEAR);
    let end = nearer.min_by(|a, b| off(&frames[*a]).total_cmp(&off(&frames[*b])))?;
    Some(UP_TO_SPEED..end)
}

/// The style sheet.
pub(super) fn css(course: &Course, round: &[Frame]) -> String {
    let (low, high) = (course.floor_min, course.floor_max);
    let width = high.x - low.x;
    let share = |m: f64| 100.0 * m / width;
    let mut css = String::from("/* Made by `coneyard-workshop living`. */\n");
    let people = round.first().map_or(0, |frame| frame.people.len());
    let mut movers = vec![("truck".to_owned(), round.iter().map(|f| f.truck).collect::<Vec<_>>())];
    for n in 0..people {
        let pose = |f: &Frame| Pose { at: f.people[n].at, heading: f.people[n].heading };
        movers.push((format!("person-{n}"), round.iter().map(pose).collect()));
    }
    let seconds = round.len() as f64 / 64.0;
    for (name, poses) in movers {
        let place = |pose: Pose, turned: f64| {
            let (x, y) = (share(pose.at.x - low.x), share(high.y - pose.at.y));
            format!("translate({x:.2}cqw,{y:.2}cqw) rotate({:.0}deg)", -turned)
        };
        let turned = unwound(&poses);
        let at = |n: usize| place(poses[n], turned[n]);
        let mut ticks: Vec<usize> = (0..poses.len()).step_by(EVERY).collect();
        ticks.extend(poses.len().checked_sub(1));
        ticks.dedup();
        // Who stands needs no place in between.
        let needed = |n: &usize| {
            let (before, after) = (n.saturating_sub(EVERY), (n + EVERY).min(poses.len() - 1));
            *n == 0 || *n + 1 == poses.len() || at(before) != at(*n) || at(*n) != at(after)
        };
        let _ = writeln!(css, ".living .{name}{{transform:{};--round:{seconds:.1}s}}", at(0));
        let _ = write!(css, "@keyframes living-{name}{{");
        for n in ticks.iter().filter(|n| needed(n)) {
            let along = 100.0 * *n as f64 / (poses.len() - 1) as f64;
            let _ = write!(css, "{along:.2}%{{transform:{}}}", at(*n));
        }
        css.push_str("}\n");
        let _ = writeln!(
            css,
            "@media(prefers-reduced-motion:no-preference){{.living .{name}{{animation:living-{name} var(--round) linear infinite}}}}"
        );
    }
    css
}

/// Headings in degrees that never jump by a whole turn.
fn unwound(poses: &[Pose]) -> Vec<f64> {
    let mut turned = Vec::with_capacity(poses.len());
    let mut last = 0.0;
    for pose in poses {
        let mut heading = pose.heading / DEG;
        while heading - last > 180.0 {
            heading -= 360.0;
        }
        while heading - last < -180.0 {
            heading += 360.0;
        }
        last = heading;
        turned.push(heading);
    }
    turned
}

#[cfg(test)]
mod tests {
    use coneyard_core::math::vec2;

    use super::*;

    #[test]
    fn a_turn_goes_on_over_the_half() {
        let pose = |deg: f64| Pose { at: vec2(0.0, 0.0), heading: deg * DEG };
        let turned = unwound(&[170.0, -170.0, -90.0, 0.0, 10.0].map(pose));
        assert!(turned.windows(2).all(|w| (w[1] - w[0]).abs() < 100.0), "{turned:?}");
        assert!((turned[4] - 370.0).abs() < 1e-9, "{turned:?}");
    }
}
