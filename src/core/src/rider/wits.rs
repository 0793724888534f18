//! A rider's wits: what stop lines, blind spots, crossings, people, other trucks and the view ask
//! for, from what a Moment shows. The answer is a highest speed, where to look, whether to sound
//! the horn, and whether only the arm can stop the truck in time.

use super::habits::Habits;
use super::route::{Met, Plan};
use crate::controls::Look;
use crate::course::Course;
use crate::geometry::distance_to_polygon;
use crate::math::{Vec2, vec2};
use crate::moment::{Moment, OtherMoment, PersonMoment, WayKind};
use crate::time::{DT, TICK_RATE, Tick};

/// Slowing down for what is seen ahead, m/s^2.
const SLOWING: f64 = 0.6;
/// Near enough to where one wanted to have stopped at a line, m.
const AT_LINE: f64 = 0.7;
/// Lines are minded from so far, m.
const SEEN_AT: f64 = 10.0;
/// Time in which hands and motor follow, s.
const LAG: f64 = 0.6;
/// Distance before a line at which to look both ways, m, or time, s, whichever is more; and for how many
/// ticks to each side.
const LOOKS_AT: f64 = 1.9;
const LOOKS_AT_S: f64 = 2.2;
const LOOKS_FOR: u32 = TICK_RATE * 5 / 8;
/// Having looked both ways counts for so many ticks.
const FRESH: u32 = TICK_RATE;
/// The horn is sounded before a blind spot for so many ticks.
const HORN_FOR: u32 = TICK_RATE / 2;
/// Room kept before people at least, and before other trucks, m.
const ROOM_FOR_PEOPLE: f64 = 2.1;
const ROOM_FOR_TRUCKS: f64 = 3.4;
/// Someone nearer to the planned path than this is in the way, m.
const IN_THE_WAY: f64 = 1.3;
const TRUCK_IN_THE_WAY: f64 = 1.7;
/// How far along the path, m, and ahead in time, s, the rider thinks.
const THINKS: f64 = 9.0;
const THINKS_S: f64 = 4.0;
/// Needing to slow down by more than this calls for the arm, m/s^2.
const URGENT: f64 = 1.35;

/// Someone who steps out nearer than this, m, is slowed for at once, for so long, s.
const STARTLES: f64 = 12.0;
const STARTLED_S: f64 = 1.0;

/// Nobody moves off with someone so near, m.
const BESIDE: f64 = 0.9;

/// What the rider keeps in mind.
#[derive(Clone, Debug, Default)]
pub(super) struct Wits {
    stopped_at: Option<u32>,
    /// Lines before which those who stop twice have stopped the first time.
    stopped_early: Vec<(WayKind, u32)>,
    /// The line at which the rider has stood and looked both ways.
    looked_at: Option<u32>,
    glance_since: Option<Tick>,
    glanced_at: Option<Tick>,
    horn_since: Option<(u32, Tick)>,
    urgent_since: Option<Tick>,
}

/// What comes of it in one tick.
#[derive(Clone, Copy, Debug)]
pub(super) struct Mind {
    /// Highest speed, m/s.
    pub(super) speed_most: f64,
    /// Where to look.
    pub(super) look: Look,
    /// Sound the horn.
    pub(super) horn: bool,
    /// Use the arm.
    pub(super) brake: bool,
}

impl Wits {
    /// One tick on a plan, `s` metres along it.
    pub(super) fn mind(
        &mut self,
        m: &Moment,
        course: &Course,
        (plan, s): (&Plan, f64),
        habits: &Habits,
        still: bool,
    ) -> Mind {
        let along = if plan.direction < 0.0 { Look::Behind } else { Look::Ahead };
        let mut mind = Mind { speed_most: f64::INFINITY, look: along, horn: false, brake: false };
        if self.glance_since.is_some_and(|t| m.tick.saturating_sub(t) > 2 * LOOKS_FOR + 8) {
            (self.glance_since, self.glanced_at) = (None, Some(m.tick));
        }
        for met in &plan.lines {
            self.line(m, met, met.s - s, habits, still, &mut mind);
        }
        let fresh = self.glanced_at.is_some_and(|t| m.tick.saturating_sub(t) < FRESH);
        if !fresh
            && plan.walks.iter().any(|(_, at)| (0.0..looks_at(m.truck.speed)).contains(&(at - s)))
        {
            self.glance(m.tick);
        }
        if habits.gives_way {
            crossings(m, course, (plan, s), &mut mind);
            if still && m.people.iter().any(|p| p.gap < BESIDE) {
                mind.slow_to(0.0);
            }
            self.people(m, (plan, s), habits, &mut mind);
        }
        if habits.minds_trucks {
            for other in &m.others {
                truck(m, other, (plan, s), (course, habits), &mut mind);
            }
        }
        // At rest nobody has looked yet where a new plan leads.
        if habits.minds_sight && !still {
            mind.slow_to(in_sight(m, habits.sight_reaction));
        }
        if let Some(since) = self.glance_since
            && habits.looks
        {
            match m.tick.saturating_sub(since) / LOOKS_FOR {
                0 => mind.look = Look::Left,
                1 => mind.look = Look::Right,
                _ => {}
            }
        }
        mind
    }

    /// A line that lies so many metres ahead on the plan.
    fn line(
        &mut self,
        m: &Moment,
        met: &Met,
        ahead: f64,
        habits: &Habits,
        still: bool,
        mind: &mut Mind,
    ) {
        let speed = m.truck.speed.abs();
        if !(0.0..SEEN_AT).contains(&ahead) {
            return;
        }
        // Hands and motor take a moment to follow.
        let soon = ahead - LAG * speed;
        if let Some(far) = habits.also_stops_before {
            let line = (met.kind, met.index);
            if still && ahead < far + AT_LINE && !self.stopped_early.contains(&line) {
                self.stopped_early.push(line);
            }
            if ahead > habits.short_of_line && !self.stopped_early.contains(&line) {
                mind.slow_to(approach(0.0, soon - far));
            }
        }
        let looks_at = looks_at(speed);
        let mut fresh = self.glanced_at.is_some_and(|t| m.tick.saturating_sub(t) < FRESH);
        match met.kind {
            WayKind::Stop => {
                if still && ahead < habits.short_of_line + AT_LINE {
                    if self.stopped_at != Some(met.index) {
                        // What was seen on the way up is not what comes now.
                        (self.looked_at, self.glanced_at, fresh) = (None, None, false);
                    }
                    self.stopped_at = Some(met.index);
                }
                let stopped = self.stopped_at == Some(met.index);
                let rolls = habits.rolls_over_lines.is_some() && ahead < looks_at;
                if (stopped || rolls) && !fresh {
                    self.glance(m.tick);
                }
                if stopped && fresh {
                    self.looked_at = Some(met.index);
                }
                let looked = self.looked_at == Some(met.index);
                let waits = !stopped || (habits.looks && !looked);
                if habits.rolls_over_lines.is_none() && waits {
                    mind.slow_to(approach(0.0, soon - habits.short_of_line));
                }
            }
            WayKind::Yield => {
                if !fresh && ahead < looks_at {
                    self.glance(m.tick);
                }
            }
            WayKind::Blind => {
                if let Some(from) = habits.horn_from
                    && ahead < from
                    && ahead > 0.25 * from
                {
                    let begun = self.horn_since.filter(|(i, _)| *i == met.index);
                    let (_, since) = begun.unwrap_or((met.index, m.tick));
                    self.horn_since = Some((met.index, since));
                    mind.horn |= m.tick.saturating_sub(since) < HORN_FOR;
                }
                if !fresh && ahead < looks_at {
                    self.glance(m.tick);
                }
            }
        }
    }

    /// Begins to look both ways, unless that is under way.
    fn glance(&mut self, now: Tick) {
        self.glance_since.get_or_insert(now);
    }

    /// People on foot that are seen and will be in the way.
    fn people(&mut self, m: &Moment, on: (&Plan, f64), habits: &Habits, mind: &mut Mind) {
        let speed = m.truck.speed.abs();
        let mut urgent = false;
        // Who was seen is still there when they are beside or behind.
        let (near, most) = habits.beside_people;
        for person in m.people.iter().filter(|p| near > 0.0 && p.first_seen.is_some()) {
            mind.slow_to(approach(most, person.gap - near));
        }
        for person in m.people.iter().filter(|p| p.seen_since.is_some()) {
            if let (Some(_), Some(first)) = (person.stepped_out, person.first_seen)
                && person.gap < STARTLES
                && speed > 0.2
            {
                // Whoever steps out is stopped for first and thought about then.
                let since = f64::from(m.tick.saturating_sub(first)) * DT - habits.reaction_s;
                if (0.0..STARTLED_S).contains(&since) {
                    mind.slow_to(0.0);
                }
            }
            let Some(room) = meets(m, on, person.at, person.velocity, IN_THE_WAY) else { continue };
            mind.slow_to(approach(0.0, room - habits.room_for_people));
            let left = room - ROOM_FOR_PEOPLE;
            urgent |= speed * speed / (2.0 * left.max(0.05)) > URGENT && speed > 0.3;
        }
        self.urgent_since = if urgent { self.urgent_since.or(Some(m.tick)) } else { None };
        if let Some(since) = self.urgent_since {
            let waited = f64::from(m.tick.saturating_sub(since)) * DT;
            mind.brake = waited >= habits.reaction_s;
        }
    }
}

impl Mind {
    fn slow_to(&mut self, speed: f64) {
        self.speed_most = self.speed_most.min(speed);
    }
}

/// Distance before a place at which to begin to look both ways, m: the faster the sooner.
fn looks_at(speed: f64) -> f64 {
    LOOKS_AT.max(LOOKS_AT_S * speed.abs())
}

/// Speed from which another speed is reached by gentle slowing over a distance, m/s.
fn approach(speed: f64, distance: f64) -> f64 {
    (speed * speed + 2.0 * SLOWING * distance.max(0.0)).sqrt()
}

/// Room before the leading end, m, to where someone who walks on as now comes into the way of the
/// plan at about the time when the truck is there; None when nobody does.
fn meets(m: &Moment, (plan, s): (&Plan, f64), at: Vec2, velocity: Vec2, near: f64) -> Option<f64> {
    const STRIDE: f64 = 0.25;
    let last = plan.samples.last().map_or(0.0, |p| p.s);
    let leads = leading(m, plan.direction);
    let speed = m.truck.speed.abs().max(0.6);
    let steps = (THINKS / STRIDE) as u32;
    // Where one stands now counts as well as where one will be.
    let is_near =
        |p: Vec2, t: f64| (at + velocity * t - p).length() < near || (at - p).length() < near;
    for i in 0..=steps {
        let ds = f64::from(i) * STRIDE;
        if s + ds > last + leads {
            break;
        }
        let sample = plan.sample_at((s + ds).min(last));
        let beyond = (s + ds - last).max(0.0);
        let p = sample.guide + Vec2::from_angle(sample.axle.heading) * beyond;
        let t = ((ds - leads) / speed).clamp(0.0, THINKS_S);
        if is_near(p, t) {
            return Some((ds - leads).max(0.0));
        }
    }
    None
}

/// How far the leading end is ahead of the guide of the plan, m.
fn leading(m: &Moment, direction: f64) -> f64 {
    let (platform, end) = if direction < 0.0 {
        // The guide lies as far behind the load axle as the platform ahead of it.
        let axle = m.truck.pose.at;
        (axle + (axle - m.truck.platform_in_yard), m.truck.tips_in_yard)
    } else {
        (m.truck.platform_in_yard, m.truck.nose_in_yard)
    };
    let along = Vec2::from_angle(m.truck.pose.heading) * direction;
    (end - platform).dot(along)
}

/// A crossing ahead is stopped before while someone is on it, steps on it or comes near it.
fn crossings(m: &Moment, course: &Course, (plan, s): (&Plan, f64), mind: &mut Mind) {
    for (index, at) in &plan.walks {
        let ahead = at - s;
        let state = m.crossings.iter().find(|c| c.crossing == *index);
        let Some(state) = state.filter(|c| !c.truck_on && (0.0..THINKS).contains(&ahead)) else {
            continue;
        };
        let area = &course.warehouse.crossings[*index as usize].area;
        let comes = |p: &PersonMoment| {
            let away = distance_to_polygon(p.at, area);
            let soon = distance_to_polygon(p.at + p.velocity * 1.5, area);
            p.seen_since.is_some() && away < 6.0 && soon < away
        };
        // Slow enough to stop for someone who comes into sight late.
        let soon = ahead - LAG * m.truck.speed.abs();
        mind.slow_to(approach(0.7, soon - 1.2));
        if state.wanted || m.people.iter().any(comes) {
            mind.slow_to(approach(0.0, soon - 1.0));
        }
    }
}

fn truck(
    m: &Moment,
    other: &OtherMoment,
    on: (&Plan, f64),
    (course, habits): (&Course, &Habits),
    mind: &mut Mind,
) {
    if other.seen_since.is_none() {
        return;
    }
    if let Some(ahead) = other.ahead {
        if other.oncoming && ahead < habits.waits_from {
            mind.slow_to(0.0);
        } else if !other.oncoming && other.speed > 0.1 && ahead < habits.behind {
            mind.slow_to(if ahead < habits.behind - 1.0 { 0.5 } else { 0.85 } * other.speed);
            if ahead < habits.stands_behind {
                mind.slow_to(0.0);
            }
        }
    }
    let velocity = Vec2::from_angle(other.pose.heading) * other.speed;
    let half = 0.5 * course.warehouse.others[other.other as usize].size.x;
    for along in [-half, 0.0, half] {
        let at = other.pose.to_yard(vec2(along, 0.0));
        if let Some(room) = meets(m, on, at, velocity, TRUCK_IN_THE_WAY) {
            mind.slow_to(approach(0.0, room - ROOM_FOR_TRUCKS));
        }
    }
}

/// The speed from which one stops within what is seen to be clear, with so much time to react, s.
fn in_sight(m: &Moment, reaction: f64) -> f64 {
    let speed = m.truck.speed.abs();
    let braking = if m.sight.braking > 0.0 {
        (speed * speed / (2.0 * m.sight.braking)).min(2.5)
    } else {
        2.0
    };
    let clear = (m.sight.clear_ahead - 0.2).max(0.0);
    // v t + v^2 / 2a = clear, solved for v.
    let at = braking * reaction;
    (at * at + 2.0 * braking * clear).sqrt() - at
}
