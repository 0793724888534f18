//! How fast along a track: limits, turns, stepping across, and room to slow down for each.

use super::habits::{Habits, Stepping};
use super::route::{Crossing, End, Ground, Met};
use super::track::{Sample, steer_for};
use crate::controls::Side;
use crate::course::StepKind;
use crate::course::place::{grade_at, limit_at, surface_at};
use crate::floor::Surface;
use crate::geometry::in_polygon;
use crate::math::{DEG, vec2};
use crate::moment::WayKind;
use crate::truck::spec::TruckSpec;

/// Getting faster, m/s^2.
const STARTING: f64 = 0.5;
/// Getting slower between stops, m/s^2: hardly more than coasting.
const EASING: f64 = 0.42;
/// Getting slower to a stop, m/s^2: by plugging.
pub(super) const STOPPING: f64 = 0.75;
/// Speed for stepping across, m/s, and how far before and behind its place it is held, m.
pub(super) const CRAWL: f64 = 0.18;
const CRAWL_ROOM: f64 = 0.15;
/// Speed of those who step across while rolling, m/s.
const ROLLING: f64 = 0.7;
/// How fast the drive wheel is turned at most, by weight and by arm strength, rad/s.
const TURNING: f64 = 75.0 * DEG;
const TURNING_BY_ARM: f64 = 20.0 * DEG;
/// A turn beyond what is free from either side wants the rider on its side when it is at least so
/// long, m; the hands can hold a shorter one for a moment.
const TURN_LENGTH: f64 = 1.0;
/// Speed with which the forks go under a pallet, m/s, and from how far before the end, m.
const SLOWLY: f64 = 0.45;
const SLOW_IN: f64 = 2.0;
/// A zone's limit is kept from so far before it, m.
const BEFORE_ZONE: f64 = 0.5;
/// Speed over a stop line after the stop, m/s, and from how far before lines the speed is kept, m.
const AT_STOP: f64 = 0.6;
const NEAR_LINE: f64 = 0.6;
const NEAR_BLIND: f64 = 2.0;
/// Fastest driven forks first, m/s.
const FORKS_FIRST: f64 = 1.2;

/// Where the rider steps across: half-way between a turn to one side and a turn to the other.
pub(super) fn crossings(samples: &[Sample], direction: f64, truck: &TruckSpec) -> Vec<Crossing> {
    let mut list: Vec<Crossing> = Vec::new();
    let mut last_turn = 0.0;
    for (to, from, until) in turns(samples, direction, truck) {
        if until - from < TURN_LENGTH {
            continue;
        }
        if list.last().is_none_or(|c| c.to != to) {
            let s = if list.is_empty() { 0.0 } else { 0.5 * (last_turn + from) };
            list.push(Crossing { s, to });
        }
        last_turn = until;
    }
    list
}

/// The stretches on which the drive wheel stands beyond what is free from either side: the side
/// that is wanted, from and to along the track, m.
fn turns(samples: &[Sample], direction: f64, truck: &TruckSpec) -> Vec<(Side, f64, f64)> {
    let free = (truck.tiller.free_deg - 1.0) * DEG;
    let mut list: Vec<(Side, f64, f64)> = Vec::new();
    let mut going_on = false;
    for sample in samples {
        let steer = steer_for(sample.curvature, direction, truck);
        let side = if steer > 0.0 { Side::Left } else { Side::Right };
        match list.last_mut() {
            _ if steer.abs() < free => going_on = false,
            Some(last) if going_on && last.0 == side => last.2 = sample.s,
            _ => {
                list.push((side, sample.s, sample.s));
                going_on = true;
            }
        }
    }
    list
}

/// Fills in the speeds.
pub(super) fn fill(
    samples: &mut [Sample],
    (direction, end): (f64, End),
    crossings: &[Crossing],
    lines: &[Met],
    ground: &Ground<'_>,
) {
    for i in 0..samples.len() {
        let at_lines = lines.iter().filter_map(|l| over_line(l, samples[i].s, ground.habits));
        samples[i].speed = fastest(samples, i, (direction, end), crossings, ground)
            .min(at_lines.fold(f64::INFINITY, f64::min))
            * hurries(ground, &samples[i]);
    }
    let Some(last) = samples.len().checked_sub(1) else { return };
    samples[last].speed = 0.0;
    // What lies ahead must be reached by slowing down, what lies behind by getting faster.
    for i in (0..last).rev() {
        let rate = if samples[last].s - samples[i].s < 4.0 { STOPPING } else { EASING };
        let v = reach(samples[i + 1].speed, rate, samples[i + 1].s - samples[i].s);
        samples[i].speed = samples[i].speed.min(v);
    }
    let mut v: f64 = 0.0;
    for i in 1..samples.len() {
        v = reach(v, STARTING, samples[i].s - samples[i - 1].s).min(samples[i].speed);
        samples[i].speed = v;
    }
    if let Some(first) = samples.first_mut() {
        first.speed = first.speed.min(0.3);
    }
}

/// Speed after changing it at a rate over a distance, m/s.
fn reach(v: f64, rate: f64, distance: f64) -> f64 {
    (v * v + 2.0 * rate * distance).sqrt()
}

fn fastest(
    samples: &[Sample],
    i: usize,
    (direction, end): (f64, End),
    crossings: &[Crossing],
    ground: &Ground<'_>,
) -> f64 {
    let (truck, habits) = (ground.truck, ground.habits);
    let here = &samples[i];
    let platform = here.axle.to_yard(vec2(direction * truck.geometry.platform_x_m, 0.0));
    // Slower already a little before a zone begins.
    let soon = here.axle.to_yard(vec2(direction * truck.geometry.platform_x_m + BEFORE_ZONE, 0.0));
    let limit_at = |p| limit_at(ground.course, p).unwrap_or(ground.speed_limit);
    let limit = limit_at(platform).min(limit_at(soon));
    let mut v = (habits.cruise * habits.pace).min(limit * habits.share_of_limit);
    if !habits.high_speed {
        v = v.min(truck.travel.top_speed_empty_mps);
    }
    if direction < 0.0 {
        v = v.min(FORKS_FIRST).min(0.8 * truck.travel.top_speed_forks_first_mps);
    }
    if end == End::Handling && samples[samples.len() - 1].s - here.s < SLOW_IN && direction < 0.0 {
        v = v.min(SLOWLY);
    }
    if on_wet(ground, here, direction) {
        v = v.min(habits.on_wet);
    }
    if on_grade(ground, here, direction) {
        v = v.min(habits.on_grade.0);
    }
    if on_dock(ground, here, direction) {
        v = v.min(habits.on_dock);
    }
    if let Some(speed) = near_trigger(ground, here) {
        v = v.min(speed);
    }
    v = v.min((habits.side_acceleration / here.curvature.abs().max(1e-6)).sqrt());
    if let (Some(before), Some(after)) = (i.checked_sub(2).map(|b| &samples[b]), samples.get(i + 2))
    {
        let steer = |s: &Sample| steer_for(s.curvature, direction, truck);
        let per_metre = (steer(after) - steer(before)).abs() / (after.s - before.s).max(1e-3);
        let rate = if habits.stepping == Stepping::Never { TURNING_BY_ARM } else { TURNING };
        v = v.min((rate / per_metre.max(1e-6)).max(0.25));
    }
    let crawls = match habits.stepping {
        Stepping::AtCrawl => CRAWL,
        Stepping::Rolling => ROLLING,
        Stepping::Never => f64::INFINITY,
    };
    if crossings.iter().any(|c| c.s > 0.0 && (here.s - c.s).abs() < CRAWL_ROOM) {
        v = v.min(crawls);
    }
    v
}

/// Speed near a line that is met, m/s.
fn over_line(line: &Met, s: f64, habits: &Habits) -> Option<f64> {
    let from = if line.kind == WayKind::Blind { NEAR_BLIND } else { NEAR_LINE };
    let near = (line.s - from..=line.s + 0.1).contains(&s);
    let speed = match line.kind {
        WayKind::Stop => habits.rolls_over_lines.unwrap_or(AT_STOP),
        WayKind::Yield => habits.at_yields,
        WayKind::Blind => habits.at_blind_spots,
    };
    near.then_some(speed)
}

/// How many times as fast as without hurry: nobody goes slower where a task asks for speed.
fn hurries(ground: &Ground<'_>, here: &Sample) -> f64 {
    let own = ground.habits.hurries;
    if own < 1.0 && near_trigger(ground, here).is_some() { 1.0 } else { own }
}

/// The truck is on a dock plate or behind it, or is about to be.
fn on_dock(ground: &Ground<'_>, here: &Sample, direction: f64) -> bool {
    let g = &ground.truck.geometry;
    let (front, rear) = if direction > 0.0 {
        (g.nose_x_m, g.fork_tips_x_m)
    } else {
        (-g.fork_tips_x_m, -g.nose_x_m)
    };
    let points = [front + 0.6, front, 0.5 * (front + rear), rear];
    ground
        .course
        .warehouse
        .docks
        .iter()
        .any(|d| points.iter().any(|x| in_polygon(here.axle.to_yard(vec2(*x, 0.0)), &d.area)))
}

/// The drive wheel is on wet floor, or is about to be.
fn on_wet(ground: &Ground<'_>, here: &Sample, direction: f64) -> bool {
    let wheel = direction * ground.truck.geometry.wheelbase_m;
    [wheel, wheel + 0.6]
        .iter()
        .any(|x| surface_at(ground.course, here.axle.to_yard(vec2(*x, 0.0))) == Surface::Wet)
}

/// The truck is on a slope that is driven slowly, or is about to be.
fn on_grade(ground: &Ground<'_>, here: &Sample, direction: f64) -> bool {
    let wheel = direction * ground.truck.geometry.wheelbase_m;
    let heading = here.axle.heading;
    [0.0, wheel, wheel + BEFORE_ZONE].iter().any(|x| {
        let at = here.axle.to_yard(vec2(*x, 0.0));
        grade_at(ground.course, at, heading).abs() > ground.habits.on_grade.1
    })
}

/// Speed for an emergency stop, on the way up to its trigger line and behind it.
fn near_trigger(ground: &Ground<'_>, here: &Sample) -> Option<f64> {
    ground.course.steps.iter().find_map(|step| {
        let StepKind::EmergencyStop { trigger, .. } = step.what else { return None };
        let line = &ground.course.lines[trigger];
        let away = ((line.from + line.to) * 0.5 - here.guide).length();
        (away < 9.0).then(|| ground.trigger_speed(&step.what)).flatten()
    })
}
