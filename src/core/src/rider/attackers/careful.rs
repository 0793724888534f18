//! The careful: they do more than is asked. Nothing may be found, and the time must be enough.

use super::*;
use crate::acts::Input;
use crate::controls::{Controls, Look};
use crate::math::Vec2;
use crate::moment::Moment;
use crate::time::{DT, TICK_RATE, Tick};

/// Everywhere but where a task asks for speed.
const EVERYWHERE: &[(&str, &str)] = &[
    ("straight", "single"),
    ("laps-clockwise", "single"),
    ("figure-eight", "double"),
    ("slalom", "single"),
    ("laps-forks-first", "single"),
    ("bays", "single"),
    ("bays", "double"),
    ("tight-corner-load", "single"),
    ("cross-aisles", "single"),
    ("cross-aisles", "double"),
    ("rack-end", "single"),
    ("rack-end", "double"),
    ("wet-stop", "single"),
    ("wet-stop", "double"),
    ("dock", "single"),
    ("long-truck-turn", "double"),
    ("doorway", "single"),
    ("surprise", "single"),
    ("head-on", "single"),
    ("pick-run", "single"),
    ("charging-bay", "single"),
    ("tall-load", "single"),
    ("full-circuit", "single"),
    ("pretest-circuit", "single"),
    ("pretest-leaving", "single"),
];
/// Where there are lines to stop at, or somebody to stop for.
const LINES: &[(&str, &str)] = &[
    ("cross-aisles", "single"),
    ("cross-aisles", "double"),
    ("rack-end", "single"),
    ("rack-end", "double"),
    ("wet-stop", "single"),
    ("wet-stop", "double"),
    ("doorway", "single"),
    ("doorway", "double"),
    ("pretest-circuit", "single"),
    ("crossing-busy", "single"),
    ("full-circuit", "double"),
];
/// Where there is room behind the truck at the start.
const OPEN: &[(&str, &str)] = &[
    ("open-floor", "single"),
    ("open-floor", "double"),
    ("open-traffic", "single"),
    ("open-traffic", "double"),
];
const BACKWARDS: &[(&str, &str)] = &[
    ("bays", "single"),
    ("bays", "double"),
    ("charging-bay", "single"),
    ("charging-bay", "double"),
];

pub(super) const ATTACKERS: &[Attacker] = &[
    good("creeps", EVERYWHERE, |h, _, _| (h.cruise, h.pace) = (0.35, 1.0)).slow(),
    good("stops-early", LINES, |h, _, share| {
        (h.short_of_line, h.room_for_people) = (0.8 + 0.2 * share, 4.0);
    }),
    good("stops-twice", LINES, |h, _, share| h.also_stops_before = Some(2.5 + share)),
    good("waits-long", EVERYWHERE, |h, _, share| h.ponders_s = 4.0 + 4.0 * share).slow(),
    good("slows-for-all", LINES, |h, _, _| h.beside_people = (5.0, 0.35)),
    good("sounds-twice", EVERYWHERE, as_the_model).with(Trick::always(sounds_again)),
    good("backs-up-to-correct", OPEN, as_the_model).with(Trick::first(to_and_fro)),
    good("looks-over-the-shoulder", BACKWARDS, |h, _, _| (h.cruise, h.pace) = (0.35, 1.0))
        .with(Trick::always(over_the_shoulder))
        .slow(),
];

/// Sounds the horn a second time a quarter of a second after the first.
fn sounds_again(memory: &mut Memory, m: &Moment, input: &mut Input) {
    const PAUSE: Tick = TICK_RATE / 4;
    const SECOND: Tick = TICK_RATE * 3 / 8;
    if memory.was && !input.controls.horn {
        memory.since = m.tick;
        memory.parts = 1;
    }
    memory.was = input.controls.horn;
    if memory.parts == 1 && m.tick >= memory.since + PAUSE {
        input.controls.horn |= m.tick < memory.since + PAUSE + SECOND;
    }
}

/// Before the drive: horn, half a metre back, horn, half a metre on, three times over.
fn to_and_fro(memory: &mut Memory, m: &Moment) -> Option<Controls> {
    const TIMES: u32 = 6;
    const THROTTLE: i8 = 16;
    const WAY: f64 = 0.4;
    const HORN: Tick = TICK_RATE * 3 / 8;
    const STANDS: Tick = TICK_RATE * 3 / 2;
    if memory.parts >= TIMES {
        return None;
    }
    let back = memory.parts.is_multiple_of(2);
    let sign = if back { -1 } else { 1 };
    let look = if back { Look::Behind } else { Look::Ahead };
    let stance = m.truck.stance;
    let mut controls = Controls { stance, look, ..Controls::default() };
    let along = m.truck.pose.at.dot(Vec2::from_angle(m.truck.pose.heading));
    let lasts = m.tick - memory.since;
    if lasts <= STANDS {
        controls.horn = lasts < HORN;
        memory.mark = along;
        return Some(controls);
    }
    if !memory.was && (along - memory.mark).abs() < WAY {
        controls.throttle = sign * THROTTLE;
        return Some(controls);
    }
    // Far enough: rolls out.
    memory.was = true;
    if m.truck.speed.abs() < 0.02 {
        *memory = Memory { since: m.tick, parts: memory.parts + 1, mark: along, was: false };
    }
    Some(controls)
}

/// Going back, creeps for two and a half seconds of every four, and looks over one shoulder and then the
/// other in them.
fn over_the_shoulder(_: &mut Memory, m: &Moment, input: &mut Input) {
    const CREEPS: i8 = 18;
    let within = f64::from(m.tick) * DT % 8.0;
    let look = match within {
        w if w < 2.5 => Look::Left,
        w if (4.0..6.5).contains(&w) => Look::Right,
        _ => return,
    };
    if m.truck.speed < -0.02 {
        input.controls.throttle = input.controls.throttle.max(-CREEPS);
        if m.truck.speed > -0.29 {
            input.controls.look = look;
        }
    }
}
