//! Plans the way through the task up to the next stop.

use core::f64::consts::PI;

use super::habits::Swerve;
use super::route::{End, Ground, Met, Plan};
use super::speed;
use super::track::{STEP, Sample, follow, guide_points};
use crate::course::place::in_lanes;
use crate::course::{Line, LineKind, StepKind, Travel};
use crate::geometry::dubins::{Curve, shortest, widest};
use crate::geometry::{crossing, distance_to_segment, in_polygon};
use crate::math::{DEG, Pose, Vec2, atan, cos, sin, tan, vec2, wrap_angle};
use crate::moment::{TaskMoment, WayKind};

/// Widest arc that is looked for, m.
const WIDEST: f64 = 14.0;
/// Steer angle that the tightest planned arc asks for.
const TIGHTEST_STEER: f64 = 50.0 * DEG;
/// Curve past the last gate before a stop that nothing else asks for, m.
const PAST_GATE: f64 = 2.5;

/// Room to both sides of the guide inside the lanes, m, looked at every so many metres.
const ROOM: f64 = 0.5;
const LOOK: f64 = 0.3;
/// Air between backrest and pallet, m.
const AIR: f64 = 0.03;
/// How long to drive straight before the forks go in, m: the longest for which there is room.
const STRAIGHT_IN: [f64; 4] = [3.2, 2.6, 2.0, 1.5];
/// How far to the side a place to pick from may be, m.
const REACH: f64 = 1.6;
/// Driving within this angle of the aisle is driving along it, rad.
const ALONG_AISLE: f64 = 20.0 * DEG;
/// Farther than this nobody plans ahead, m.
const FAR: f64 = 1500.0;

impl Ground<'_> {
    fn drawbar(&self) -> f64 {
        self.truck.geometry.platform_x_m
    }

    /// Straight back, forks first.
    pub(super) fn back_up(&self, truck: Pose, metres: f64) -> Plan {
        let from = self.guide(truck, -1.0);
        let way = Curve { parts: [(0.0, metres), (0.0, 0.0), (0.0, 0.0)] };
        self.finish(&guide_points(from, &[way]), -1.0, End::BackedUp)
    }

    /// From rest at a pose of the load axle through what is left of the task, up to the next stop.
    /// `carried` pallets are on the forks.
    pub(super) fn plan(&self, truck: Pose, task: &TaskMoment, carried: u32) -> Option<Plan> {
        let step = task.step as usize;
        let travel = self.course.steps.get(step)?.travel;
        let direction = if travel == Travel::ForksFirst { -1.0 } else { 1.0 };
        let start = self.guide(truck, direction);
        let mut at = start;
        let mut ways = Vec::new();
        if direction > 0.0 && self.among_pallets(truck) {
            // Straight out, until the tips are free.
            let to = Pose { at: at.at + Vec2::from_angle(at.heading) * self.fork_length(), ..at };
            self.on(&mut ways, &mut at, to);
        }
        let mut swerve_from = None;
        let mut end = End::Gate;
        for (i, step) in self.course.steps.iter().enumerate().skip(step) {
            if step.travel != travel || length(&ways) > FAR {
                break;
            }
            if self.habits.swerve.is_some_and(|s| s.step == i) {
                swerve_from = Some(length(&ways));
            }
            let stop = match &step.what {
                StepKind::Gates { gates, laps } => {
                    let done = if i == task.step as usize { gates_done(gates, task) } else { 0 };
                    for gate in (0..*laps).flat_map(|_| gates).skip(done) {
                        if length(&ways) > FAR {
                            break;
                        }
                        let gate = &self.course.gates[*gate];
                        let to = Pose { at: gate.middle(), heading: gate.direction().angle() };
                        self.on(&mut ways, &mut at, to);
                    }
                    None
                }
                StepKind::StopAtMark { line, .. } => {
                    let to = self.over(&self.course.lines[*line], at, direction);
                    self.on(&mut ways, &mut at, to);
                    Some(End::Mark)
                }
                StepKind::EmergencyStop { trigger, .. } => {
                    let to = self.over(&self.course.lines[*trigger], at, direction);
                    self.on(&mut ways, &mut at, to);
                    let out = self.run_out(&step.what);
                    let to = Pose { at: at.at + Vec2::from_angle(at.heading) * out, ..at };
                    self.on(&mut ways, &mut at, to);
                    Some(End::Signal)
                }
                StepKind::Park { stop_box, .. } => {
                    let to = self.box_pose(self.course.boxes[*stop_box].pose, at, direction);
                    self.on(&mut ways, &mut at, to);
                    Some(End::Box)
                }
                StepKind::PickUp { pallet } => {
                    let pallet = self.course.warehouse.pallets[*pallet].floor?;
                    let to_it = pallet.at - at.at;
                    let turned = Vec2::from_angle(pallet.heading).dot(to_it) < 0.0;
                    let heading = if turned { pallet.heading + PI } else { pallet.heading };
                    let slab = self.slab_of(&step.what);
                    self.back_in(&mut ways, &mut at, Pose { heading, ..pallet }, slab, carried);
                    Some(End::Handling)
                }
                StepKind::SetDown { bay } => {
                    let bay = self.course.warehouse.bays[*bay].pose;
                    let aside = vec2(0.0, self.habits.sets_down_aside);
                    let bay = Pose { at: bay.to_yard(aside), ..bay };
                    let slab = self.slab_of(&step.what);
                    self.back_in(&mut ways, &mut at, bay, slab, 0);
                    Some(End::Handling)
                }
                StepKind::Picks { .. } => {
                    let to = self.beside(task.pick_at?, at);
                    self.on(&mut ways, &mut at, to);
                    Some(End::Handling)
                }
                StepKind::WalkRound { .. } => None,
                StepKind::CheckDock { .. } if !self.habits.checks_docks => None,
                StepKind::CheckDock { .. } => Some(End::Gate),
            };
            if let Some(stop) = stop {
                end = stop;
                break;
            }
        }
        if end == End::Gate {
            let to = Pose { at: at.at + Vec2::from_angle(at.heading) * PAST_GATE, ..at };
            self.on(&mut ways, &mut at, to);
        }
        let mut guide = guide_points(start, &ways);
        if let (Some(swerve), Some(from)) = (&self.habits.swerve, swerve_from) {
            swerve_aside(&mut guide, swerve, from);
        }
        Some(self.finish(&guide, direction, end))
    }

    fn finish(&self, guide: &[Pose], direction: f64, end: End) -> Plan {
        let mut guide = guide.to_vec();
        if let [only] = guide[..] {
            // Already there: a way of no length is still a way.
            guide.push(Pose { at: only.at + Vec2::from_angle(only.heading) * STEP, ..only });
        }
        let mut samples = follow(&guide, self.drawbar());
        let crossings = speed::crossings(&samples, direction, self.truck);
        let lines = self.lines(&samples, direction);
        speed::fill(&mut samples, (direction, end), &crossings, &lines, self);
        let walks = self.walks(&samples, direction);
        Plan { samples, direction, end, crossings, lines, walks }
    }

    /// Where the leading end comes onto people's crossings, each time that it does.
    fn walks(&self, samples: &[Sample], direction: f64) -> Vec<(u32, f64)> {
        let g = &self.truck.geometry;
        let end = if direction > 0.0 { g.nose_x_m } else { -g.fork_tips_x_m };
        let half = 0.5 * g.chassis_width_m;
        let corners = [vec2(end, half), vec2(end, -half)];
        let mut walks = Vec::new();
        for (i, c) in self.course.warehouse.crossings.iter().enumerate() {
            let is_on =
                |s: &Sample| corners.iter().any(|p| in_polygon(s.axle.to_yard(*p), &c.area));
            for pair in samples.windows(2) {
                if !is_on(&pair[0]) && is_on(&pair[1]) {
                    walks.push((i as u32, pair[1].s));
                }
            }
        }
        walks
    }

    /// The lines that the leading end goes over the way that counts.
    fn lines(&self, samples: &[Sample], direction: f64) -> Vec<Met> {
        let g = &self.truck.geometry;
        let end = vec2(if direction > 0.0 { g.nose_x_m } else { -g.fork_tips_x_m }, 0.0);
        let painted = self.course.lines.iter().enumerate().filter_map(|(i, l)| match l.kind {
            LineKind::Stop => Some((WayKind::Stop, i, l.from, l.to)),
            LineKind::Yield => Some((WayKind::Yield, i, l.from, l.to)),
            LineKind::Mark | LineKind::Trigger | LineKind::Paint => None,
        });
        let blind = self.course.warehouse.blind_spots.iter().enumerate();
        let mut met = Vec::new();
        for (kind, index, left, right) in
            painted.chain(blind.map(|(i, b)| (WayKind::Blind, i, b.left, b.right)))
        {
            let through = (right - left).left();
            for pair in samples.windows(2) {
                let (a, b) = (pair[0].axle.to_yard(end), pair[1].axle.to_yard(end));
                if (b - a).dot(through) > 0.0 && crossing(a, b, left, right).is_some() {
                    met.push(Met { kind, index: index as u32, s: pair[1].s });
                }
            }
        }
        met.sort_by(|a, b| a.s.total_cmp(&b.s));
        met
    }

    /// The guide of a truck, heading in the direction of motion.
    fn guide(&self, truck: Pose, direction: f64) -> Pose {
        Pose {
            at: truck.to_yard(vec2(direction * self.drawbar(), 0.0)),
            heading: if direction < 0.0 { truck.heading + PI } else { truck.heading },
        }
    }

    /// Forks first into a place for a pallet, whose heading is the way the forks point, so that
    /// the pallet stands behind those that are `carried`.
    fn back_in(&self, ways: &mut Vec<Curve>, at: &mut Pose, place: Pose, slab: f64, carried: u32) {
        let g = &self.truck.geometry;
        // Body x of the pallet's middle, with a little air to the backrest.
        let middle = g.backrest_x_m - slab * (f64::from(carried) + 0.5) - AIR;
        let ahead = Vec2::from_angle(place.heading);
        let to = Pose { at: place.at + ahead * (middle + self.drawbar()), ..place };
        let from = *at;
        // In line with it as early as there is room for.
        let before = STRAIGHT_IN.iter().map(|d| Pose { at: to.at - ahead * *d, ..to });
        let fits = |staging: &Pose| {
            let mut trial = (Vec::new(), from);
            self.on(&mut trial.0, &mut trial.1, *staging);
            trial.0.iter().all(|w| self.in_lanes(from, w))
        };
        let last = Pose { at: to.at - ahead * STRAIGHT_IN[STRAIGHT_IN.len() - 1], ..to };
        let staging = before.clone().find(fits).unwrap_or(last);
        self.on(ways, at, staging);
        self.on(ways, at, to);
    }

    /// Length of the pallet of a step, m.
    fn slab_of(&self, what: &StepKind) -> f64 {
        let w = &self.course.warehouse;
        let pallet = match what {
            StepKind::PickUp { pallet } => w.pallets.get(*pallet),
            _ => w.pallets.first(),
        };
        pallet.map_or(1.2, |p| w.loads[p.load].pallet.length_m)
    }

    /// Beside a place to pick from, near enough to reach it, going on along the aisle.
    fn beside(&self, pick: Vec2, from: Pose) -> Pose {
        let aisle = self.course.spawn.heading;
        let askew = wrap_angle(from.heading - aisle).abs();
        let heading = if askew < ALONG_AISLE { aisle } else { from.heading };
        let ahead = Vec2::from_angle(heading);
        let to = pick - from.at;
        let (s, beside) = (to.dot(ahead).max(STEP), ahead.cross(to));
        let nearer = (beside.abs() - REACH).max(0.0) * beside.signum();
        Pose { at: from.at + ahead * s + ahead.left() * nearer, heading }
    }

    fn fork_length(&self) -> f64 {
        let g = &self.truck.geometry;
        g.backrest_x_m - g.fork_tips_x_m + 0.3
    }

    /// The forks reach to where a pallet stood or a bay is.
    fn among_pallets(&self, truck: Pose) -> bool {
        let w = &self.course.warehouse;
        let g = &self.truck.geometry;
        let forks = truck.to_yard(vec2(0.5 * (g.backrest_x_m + g.fork_tips_x_m), 0.0));
        let near = |p: Vec2| (p - forks).length() < 1.0;
        w.bays.iter().any(|b| near(b.pose.at))
            || w.pallets.iter().filter_map(|p| p.floor).any(|p| near(p.at))
    }

    fn on(&self, ways: &mut Vec<Curve>, at: &mut Pose, to: Pose) {
        let least = vec2(self.truck.geometry.wheelbase_m / tan(TIGHTEST_STEER), self.drawbar());
        let least = least.length();
        let from = *at;
        let way = if (to.at - from.at).length() < 1e-3 {
            shortest(from, to, least)
        } else {
            widest(from, to, least, WIDEST, |w| self.in_lanes(from, w))
        };
        ways.push(way);
        *at = to;
    }

    /// Whether the guide keeps inside the lanes and clear of what stands there, with some room to
    /// both sides.
    fn in_lanes(&self, from: Pose, way: &Curve) -> bool {
        let count = (way.length() / LOOK).ceil();
        (0..=count as u32).all(|i| {
            let p = way.pose_at(from, f64::from(i) * LOOK);
            [ROOM, 0.0, -ROOM].iter().all(|y| {
                let q = p.to_yard(vec2(0.0, *y));
                in_lanes(self.course, q) && !self.stands_at(q)
            })
        })
    }

    fn stands_at(&self, p: Vec2) -> bool {
        self.course.structures.iter().filter(|s| s.kind.is_solid()).any(|s| {
            let q = s.pose.to_body(p);
            q.x.abs() < 0.5 * s.size.x && q.y.abs() < 0.5 * s.size.y
        })
    }

    /// Where the guide is when the leading end is over a line, driven square.
    fn over(&self, line: &Line, from: Pose, direction: f64) -> Pose {
        let along = (line.to - line.from).normalized();
        let length = (line.to - line.from).length();
        // Straight on where that leads over the line, and over its middle otherwise.
        let reach = (from.at - line.from).dot(along);
        let side = 0.25 * length;
        let at = line.from + along * reach.clamp(side, length - side);
        let square = along.left();
        let ahead = if square.dot(at - from.at) < 0.0 { -square } else { square };
        let g = &self.truck.geometry;
        let end = if direction > 0.0 { g.nose_x_m } else { -g.fork_tips_x_m };
        Pose { at: at - ahead * (end - self.drawbar()), heading: ahead.angle() }
    }

    fn box_pose(&self, stop_box: Pose, from: Pose, direction: f64) -> Pose {
        let g = &self.truck.geometry;
        let to_box = stop_box.at - from.at;
        // Driven the way that leads there; from close by, the way that the truck points.
        let long = g.nose_x_m - g.fork_tips_x_m;
        let way = if to_box.length() > long { to_box } else { Vec2::from_angle(from.heading) };
        let turned = Vec2::from_angle(stop_box.heading).dot(way) < 0.0;
        let motion = if turned { stop_box.heading + PI } else { stop_box.heading };
        // Middle of the outline ahead of the load axle, seen in the direction of motion.
        let middle = direction * 0.5 * (g.nose_x_m + g.fork_tips_x_m);
        let at = stop_box.at + Vec2::from_angle(motion) * (self.drawbar() - middle);
        Pose { at, heading: motion }
    }

    /// Curve behind the trigger line on which the signal must have come, m.
    fn run_out(&self, step: &StepKind) -> f64 {
        let StepKind::EmergencyStop { delay_max_s, .. } = step else { return 0.0 };
        let v = self.trigger_speed(step).unwrap_or(0.0);
        // The signal is answered before the planned stop begins to slow the truck.
        v * (delay_max_s + self.habits.reaction_s.max(0.6)) + v * v / (2.0 * speed::STOPPING)
    }
}

fn length(ways: &[Curve]) -> f64 {
    ways.iter().map(Curve::length).sum()
}

/// How many gates of the present step are behind.
fn gates_done(order: &[usize], task: &TaskMoment) -> usize {
    let due = order.iter().position(|g| task.next_gate == Some(*g as u32));
    task.laps_done as usize * order.len() + due.unwrap_or(0)
}

/// Moves the guide aside in a smooth hump, and turns its heading with it.
fn swerve_aside(guide: &mut [Pose], swerve: &Swerve, from: f64) {
    let mut s = Vec::with_capacity(guide.len());
    let mut sum = 0.0;
    for (i, p) in guide.iter().enumerate() {
        if i > 0 {
            sum += (p.at - guide[i - 1].at).length();
        }
        s.push(sum);
    }
    let nearest = (1..guide.len())
        .filter(|i| s[*i] >= from)
        .min_by(|a, b| {
            let d = |i: usize| distance_to_segment(swerve.near, guide[i - 1].at, guide[i].at);
            d(*a).total_cmp(&d(*b))
        })
        .map(|i| s[i]);
    let Some(nearest) = nearest else { return };
    for (p, s) in guide.iter_mut().zip(&s) {
        let x = (s - nearest) / swerve.half_length;
        if x.abs() < 1.0 {
            let hump = swerve.aside * 0.5 * (1.0 + cos(PI * x));
            let slope = -swerve.aside * 0.5 * PI / swerve.half_length * sin(PI * x);
            p.at = p.at + Vec2::from_angle(p.heading).left() * hump;
            p.heading += atan(slope);
        }
    }
}
