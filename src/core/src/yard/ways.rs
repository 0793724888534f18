//! Lines across the way, crossings and docks: what lies before the truck and what is driven over.

use crate::checks::Inspection;
use crate::course::warehouse::Dock;
use crate::course::{Course, LineKind};
use crate::dice::{Stream, dice};
use crate::geometry::{
    crossing, distance_to_polygon, distance_to_segment, in_polygon, segment_meets,
};
use crate::math::{DEG, Vec2, cos, wrap_angle};
use crate::moment::reach::LINES_AHEAD;
use crate::moment::{CrossingMoment, DockMoment, WayKind, WayMoment};
use crate::people::walk::Doing;
use crate::rules::SiteRules;
use crate::rules::ticks;
use crate::sight::outlook::Outlook;
use crate::state;
use crate::time::{DT, Tick};
use crate::yard::TruckNow;
use crate::yard::draws::share;
use crate::yard::foot::{Foot, PERSON_RADIUS, Someone};

/// A line is looked at until so far behind, m.
const BEHIND: f64 = 0.5;
/// How far beside the ends of a line it still lies before the truck, m.
const BESIDE: f64 = 0.5;
/// Driven within 60 degrees of square, a line counts as ahead.
const SQUARE: f64 = 0.5;
/// Driven along a line a truck may still turn over it: the least share of its way that leads there.
const ASIDE: f64 = -0.2;

/// Who comes from a side goes so far beyond a line, m.
const BEYOND: f64 = 1.0;
/// Someone is in a truck's way as far as this before its leading end, m.
const IN_THE_WAY: f64 = 8.0;

/// State from tick to tick.
#[derive(Clone, Debug)]
pub struct Ways {
    /// Both ends of the truck in the tick before: at rest the end that leads may be the other one
    /// from one tick to the next, and nothing has moved.
    before: Option<[Vec2; 2]>,
    docks: Vec<Inspection>,
    /// For each crossing the last tick in which someone on it was in the truck's way.
    in_the_way: Vec<Option<Tick>>,
    asked: Asked,
}

/// What the site rules ask at crossings and docks.
#[derive(Clone, Copy, Debug)]
struct Asked {
    /// Someone this near to a crossing is about to step on it, m.
    steps_on: f64,
    /// A check is made from at most this far, m,
    reach: f64,
    /// by looking for so many ticks
    time: u32,
    /// no farther beside it than this, rad.
    aside: f64,
    /// Who comes from a side is looked for so far aside of the way, m,
    approach: f64,
    /// and seen within the angle of the look that has this cosine.
    cosine: f64,
}

impl Asked {
    /// Whether the rider looks to the left and to the right of a place; `left` is a unit vector to that
    /// side.
    fn looked(&self, view: &mut Outlook, place: Vec2, left: Vec2) -> [bool; 2] {
        [left, -left].map(|side| {
            let at = place + side * self.approach;
            view.is_before_the_eyes(at, self.cosine) && view.holds(at)
        })
    }
}

/// Half of what the truck and its load take up across its way, m.
fn half_width(truck: &TruckNow<'_>) -> f64 {
    let aside = |p: &Vec2| truck.along.cross(*p - truck.leading).abs();
    truck.parts.iter().flatten().map(aside).fold(0.0, f64::max)
}

fn is_in_the_way(truck: &TruckNow<'_>, half_width: f64, at: Vec2) -> bool {
    let d = at - truck.leading;
    (0.0..=IN_THE_WAY).contains(&truck.along.dot(d))
        && truck.along.cross(d).abs() <= half_width + PERSON_RADIUS
}

impl Ways {
    /// At the start; the seed says what is false at docks.
    pub fn new(course: &Course, rules: &SiteRules, seed: u64) -> Self {
        let mut dice = dice(seed, Stream::Docks);
        let state = |d: &Dock| {
            let (is_false, which) = (share(&mut dice), share(&mut dice));
            let n = d.checks.len();
            let wrong =
                (is_false < d.false_chance).then(|| ((which * n as f64) as usize).min(n - 1));
            Inspection::new(n, wrong)
        };
        let asked = Asked {
            steps_on: rules.term("steps-on"),
            reach: rules.term("check-reach"),
            time: ticks(rules.term("check-time")),
            aside: rules.term("check-aside") * DEG,
            approach: rules.term("approach"),
            cosine: cos(rules.term("notices") * DEG),
        };
        Self {
            before: None,
            docks: course.warehouse.docks.iter().map(state).collect(),
            in_the_way: vec![None; course.warehouse.crossings.len()],
            asked,
        }
    }

    /// Lines that matter now.
    pub fn lines(
        &mut self,
        course: &Course,
        truck: &TruckNow<'_>,
        view: &mut Outlook,
        into: &mut Vec<WayMoment>,
    ) {
        let before = self.before.replace(truck.ends).unwrap_or(truck.ends);
        let moved = |end: usize| (truck.ends[end] - before[end]).length() / DT;
        let speed = moved(usize::from(truck.leading != truck.ends[0]));
        let lines = course.lines.iter().enumerate().filter_map(|(i, l)| {
            let kind = match l.kind {
                LineKind::Stop => WayKind::Stop,
                LineKind::Yield => WayKind::Yield,
                LineKind::Mark | LineKind::Trigger | LineKind::Paint => return None,
            };
            Some((kind, i, l.from, l.to))
        });
        let blind = course.warehouse.blind_spots.iter().enumerate();
        let all = lines.chain(blind.map(|(i, b)| (WayKind::Blind, i, b.left, b.right)));
        into.clear();
        into.extend(all.filter_map(|(kind, index, left, right)| {
            let (ahead, crossed) = lies(truck, before, left, right)?;
            let side = (left - right).normalized();
            let beyond = (left + right) * 0.5 - side.left() * BEYOND;
            let looked = self.asked.looked(view, beyond, side);
            Some(WayMoment { kind, index: index as u32, ahead, crossed, speed, looked })
        }));
    }

    /// Every crossing.
    pub fn crossings(
        &mut self,
        course: &Course,
        truck: &TruckNow<'_>,
        (foot, view): (&Foot, &mut Outlook),
        into: &mut Vec<CrossingMoment>,
    ) {
        let Asked { steps_on, .. } = self.asked;
        let asked = &self.asked;
        let half_width = half_width(truck);
        let in_the_way = &mut self.in_the_way;
        let moment = |(i, c): (usize, &crate::course::warehouse::Crossing)| {
            let in_it = |s: &&Someone| in_polygon(s.person.at, &c.area);
            let people = foot.people.iter().filter(in_it);
            if people.map(|s| s.person.at).any(|at| is_in_the_way(truck, half_width, at)) {
                in_the_way[i] = Some(truck.tick);
            }
            let middle = c.area.iter().fold(Vec2::default(), |sum, p| sum + *p);
            let middle = middle * (1.0 / c.area.len().max(1) as f64);
            CrossingMoment {
                crossing: i as u32,
                truck_on: truck.parts.iter().any(|p| overlap(p, &c.area)),
                wanted: foot.people.iter().any(|s| wants(s, course, &c.area, steps_on)),
                in_the_way: in_the_way[i],
                looked: asked.looked(view, middle, truck.along.left()),
            }
        };
        into.clear();
        into.extend(course.warehouse.crossings.iter().enumerate().map(moment));
    }

    /// Every dock. `head` is the angle of the head, `report` that the rider says something is wrong.
    pub fn docks(
        &mut self,
        course: &Course,
        truck: &TruckNow<'_>,
        (view, head): (&mut Outlook, f64),
        report: bool,
        into: &mut Vec<DockMoment>,
    ) {
        let Asked { reach, time: needed, aside: at_it, .. } = self.asked;
        let docks = self.docks.iter_mut().zip(&course.warehouse.docks).enumerate();
        let moment = |(i, (inspection, dock)): (usize, (&mut Inspection, &Dock))| {
            inspection.look(needed, |check| {
                let (_, at) = dock.checks[check];
                let to = at - truck.platform;
                let aside = wrap_angle(to.angle() - truck.pose.heading - head).abs();
                to.length() <= reach && aside <= at_it && view.holds(at)
            });
            if report && distance_to_polygon(truck.platform, &dock.area) <= reach {
                inspection.report();
            }
            DockMoment {
                dock: i as u32,
                truck_on: truck.parts.iter().any(|p| overlap(p, &dock.area)),
                inspected: inspection.now(needed),
            }
        };
        into.clear();
        into.extend(docks.map(moment));
    }
}

/// How far ahead a line lies, m, and whether it is crossed in this tick; None when it does not lie
/// before the truck or is meant for the other direction. Driven square it is the way straight on;
/// from the side, out of a turn, the distance to the line.
fn lies(truck: &TruckNow<'_>, before: [Vec2; 2], left: Vec2, right: Vec2) -> Option<(f64, bool)> {
    let across = right - left;
    let (length, side) = (across.length(), across.normalized());
    let through = side.left();
    let from_left = truck.leading - left;
    let straight = -from_left.dot(through);
    let beside = from_left.dot(side);
    let crossed = led_over(truck, before, left, right);
    let square = (-BESIDE..=length + BESIDE).contains(&beside) && truck.along.dot(through) > SQUARE;
    let ahead = if square || straight < 0.0 {
        straight
    } else {
        distance_to_segment(truck.leading, left, right)
    };
    let before_it = ((-BEHIND..=LINES_AHEAD).contains(&ahead) && square)
        || (straight >= 0.0 && ahead <= LINES_AHEAD && truck.along.dot(through) > ASIDE);
    (before_it || crossed).then_some((ahead, crossed))
}

/// Whether an end of the truck has gone over a line in this tick, the way that counts and outwards:
/// the end that follows goes over every line that the other one has crossed.
fn led_over(truck: &TruckNow<'_>, before: [Vec2; 2], left: Vec2, right: Vec2) -> bool {
    let heading = Vec2::from_angle(truck.pose.heading);
    let through = (right - left).left();
    let ends = before.into_iter().zip(truck.ends).zip([heading, -heading]);
    ends.into_iter().any(|((from, to), outwards)| {
        let moved = to - from;
        moved.dot(outwards) > 0.0
            && moved.dot(through) > 0.0
            && crossing(from, to, left, right).is_some()
    })
}

/// Whether a convex part and an area share a point: enough for areas larger than a part is thin.
fn overlap(part: &[Vec2; 4], area: &[Vec2]) -> bool {
    part.iter().any(|p| in_polygon(*p, area))
        || area.iter().any(|p| in_polygon(*p, part))
        || crate::geometry::edges(area).any(|(a, b)| segment_meets(a, b, part))
}

/// On the crossing, or about to step on it.
fn wants(someone: &Someone, course: &Course, area: &[Vec2], steps_on: f64) -> bool {
    let at = someone.person.at;
    if in_polygon(at, area) {
        return true;
    }
    let walker = &course.warehouse.people[someone.index];
    if matches!(someone.doing(walker), Doing::Standing | Doing::Arrived) {
        return false;
    }
    let Some(next) = someone.person.bound_for(&walker.route) else { return false };
    distance_to_polygon(at, area) <= steps_on && meets(at, next, area)
}

fn meets(a: Vec2, b: Vec2, area: &[Vec2]) -> bool {
    in_polygon(b, area) || crate::geometry::edges(area).any(|(p, q)| crossing(a, b, p, q).is_some())
}

state!(Ways { before, docks, in_the_way } left out { asked });
