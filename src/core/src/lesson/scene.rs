//! A scene: two drives side by side as a page plays them, without an engine. Where everything is every eighth of
//! a second, in whole centimetres and degrees, so that a lesson with all its scenes stays small.

use serde::{Deserialize, Serialize};

use crate::controls::Side;
use crate::course::{CONE_RADIUS, Course};
use crate::finding::Finding;
use crate::math::{DEG, Pose, Vec2, vec2};
use crate::time::{TICK_RATE, Tick};
use crate::truck::arm::ArmZone;
use crate::truck::spec::TruckSpec;
use crate::yard::frame::Frame;

/// From one place to the next, ticks.
pub const EVERY: Tick = 8;
/// As many of them in a second.
pub const A_SECOND: f64 = TICK_RATE as f64 / EVERY as f64;
/// What moves less than this stands, m.
const STANDS: f64 = 0.03;
/// Left free round what is to be seen, m.
const AROUND: f64 = 1.6;
/// The least that is shown, m.
const LEAST: f64 = 9.0;
/// A person from above, m.
const PERSON: Vec2 = Vec2 { x: 0.36, y: 0.62 };

/// A drive that is asked for.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Asked {
    /// Name of the course.
    pub course: String,
    /// Name of the truck.
    pub truck: String,
    /// Name of the scripted rider.
    pub rider: String,
    /// Seed of the drive.
    pub seed: u32,
    /// Shown from here on, s.
    pub from_s: f64,
    /// For so long, s.
    pub for_s: f64,
}

impl Asked {
    /// The first tick that is shown.
    pub fn from(&self) -> Tick {
        (self.from_s * f64::from(TICK_RATE)) as Tick
    }

    /// The last one.
    pub fn to(&self) -> Tick {
        self.from() + (self.for_s * f64::from(TICK_RATE)) as Tick
    }
}

/// Two drives side by side.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Scene {
    /// South-west and north-east corner of what is shown of both yards, m.
    pub region: [Vec2; 2],
    /// The two.
    pub sides: [Drawn; 2],
}

/// One of them.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Drawn {
    /// Of which drive it was made.
    pub of: Asked,
    /// The truck from above.
    pub shape: Shape,
    /// The truck, every eighth of a second.
    pub truck: Vec<At>,
    /// Everything else that is not painted or bolted down.
    pub others: Vec<Mover>,
    /// What was found meanwhile, faults and good deeds.
    pub found: Vec<Finding>,
}

/// The truck from above, body frame, m: places along it, and how wide it is.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Shape {
    /// Fork tips.
    pub tips: f64,
    /// Where the forks begin.
    pub back: f64,
    /// Middle of the platform.
    pub platform: f64,
    /// Where the power unit begins.
    pub unit: f64,
    /// The nose.
    pub nose: f64,
    /// The drive wheel, about which the tiller swings.
    pub wheel: f64,
    /// Width.
    pub width: f64,
    /// Width over both forks, and of one.
    pub forks: [f64; 2],
    /// Length of the tiller.
    pub tiller: f64,
}

impl Shape {
    fn of(truck: &TruckSpec) -> Self {
        let g = &truck.geometry;
        Self {
            tips: g.fork_tips_x_m,
            back: g.backrest_x_m,
            platform: g.platform_x_m,
            unit: g.power_unit_x_m,
            nose: g.nose_x_m,
            wheel: g.wheelbase_m,
            width: g.chassis_width_m,
            forks: [g.fork_spread_m, g.fork_width_m],
            tiller: g.tiller_length_m,
        }
    }
}

/// The truck at one moment: a row of whole numbers in a file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct At(
    /// x, cm; y, cm; heading, degrees, never a whole turn from one to the next.
    pub [i32; 3],
    /// Speed, cm/s; throttle, percent; forks, mm; head from the truck's front, degrees, left positive; drive
    /// wheel, degrees, left positive.
    pub [i32; 5],
    /// [`HORN`] and the other bits.
    pub u16,
);

/// The horn sounds.
pub const HORN: u16 = 1;
/// The brake is on.
pub const BRAKES: u16 = 2;
/// The motor brakes against the motion.
pub const PLUGS: u16 = 4;
/// The rider stands on the right.
pub const RIGHT: u16 = 8;
/// The rider is stepping across.
pub const STEPS: u16 = 16;
/// The rider is on the truck.
pub const ABOARD: u16 = 32;
/// The key is on.
pub const KEY: u16 = 64;
/// The arm is near upright, where it brakes.
pub const ARM_UP: u16 = 128;
/// The arm is near level, where it brakes.
pub const ARM_DOWN: u16 = 256;

impl At {
    /// One of the bits above.
    pub fn is(&self, bit: u16) -> bool {
        self.2 & bit != 0
    }
}

/// What else moves, or may be met.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// Somebody on foot.
    Person,
    /// Another truck.
    Truck,
    /// A pallet with its load.
    Pallet,
    /// A case on the floor.
    Case,
    /// A cone that is not where it was put.
    Cone,
}

/// Something with its places.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Mover {
    /// What it is.
    pub kind: Kind,
    /// Length and width, cm.
    pub size: [i32; 2],
    /// x, cm; y, cm; heading, degrees: one for each place of the truck, or a single one where it stands. None
    /// while it is not there.
    pub at: Vec<Option<[i32; 3]>>,
}

impl Mover {
    /// Where it is at this place of the truck's.
    pub fn place(&self, n: usize) -> Option<[i32; 3]> {
        let last = self.at.len().checked_sub(1)?;
        *self.at.get(n.min(last))?
    }
}

fn cm(m: f64) -> i32 {
    (m * 100.0).round() as i32
}

/// A heading in whole degrees that is less than half a turn from the last one.
fn turned(heading: f64, last: Option<i32>) -> i32 {
    let mut degrees = (heading / DEG).round() as i32;
    if let Some(last) = last {
        while degrees - last > 180 {
            degrees -= 360;
        }
        while degrees - last < -180 {
            degrees += 360;
        }
    }
    degrees
}

/// Draws what is asked for of a drive.
///
/// # Errors
/// One sentence when the drive is over before it begins to be shown.
pub fn drawn(
    of: &Asked,
    course: &Course,
    truck: &TruckSpec,
    frames: &[Frame],
    found: &[Finding],
) -> Result<Drawn, String> {
    let (from, to) = (of.from() as usize, of.to() as usize);
    let shown: Vec<&Frame> = frames
        .get(from..(to + 1).min(frames.len()))
        .unwrap_or_default()
        .iter()
        .step_by(EVERY as usize)
        .collect();
    if shown.len() < 2 {
        let seconds = frames.len() as f64 / f64::from(TICK_RATE);
        return Err(format!(
            "the drive of {} on {} is over after {seconds:.1} s, before it is to be shown",
            of.rider, of.course
        ));
    }
    let mut last = None;
    let places = shown.iter().map(|frame| {
        let at = at(frame, last);
        last = Some(at.0[2]);
        at
    });
    let within = |f: &&Finding| (from..=to).contains(&(f.from as usize));
    Ok(Drawn {
        of: of.clone(),
        shape: Shape::of(truck),
        truck: places.collect(),
        others: movers(course, &shown),
        found: found.iter().filter(within).cloned().collect(),
    })
}

fn at(frame: &Frame, last: Option<i32>) -> At {
    let bit = |on: bool, bit: u16| if on { bit } else { 0 };
    let bits = bit(frame.horn, HORN)
        | bit(frame.braking, BRAKES)
        | bit(frame.plugging, PLUGS)
        | bit(frame.stance == Side::Right, RIGHT)
        | bit(frame.step_phase < 1.0, STEPS)
        | bit(frame.aboard, ABOARD)
        | bit(frame.key_on, KEY)
        | bit(frame.arm_zone == ArmZone::UpperBrake, ARM_UP)
        | bit(frame.arm_zone == ArmZone::LowerBrake, ARM_DOWN);
    let Pose { at, heading } = frame.truck;
    At(
        [cm(at.x), cm(at.y), turned(heading, last)],
        [
            cm(frame.speed),
            i32::from(frame.throttle),
            (frame.fork_height * 1000.0).round() as i32,
            (frame.head / DEG).round() as i32,
            (frame.steer / DEG).round() as i32,
        ],
        bits,
    )
}

/// Everything beside the truck. What stands has one place.
fn movers(course: &Course, shown: &[&Frame]) -> Vec<Mover> {
    let mut all = Vec::new();
    let mut add = |kind, size: Vec2, at: Vec<Option<Pose>>| {
        if at.iter().all(Option::is_none) {
            return;
        }
        let first = at.first().copied().flatten();
        let stands = |p: &Option<Pose>| match (p, &first) {
            (Some(p), Some(first)) => {
                (p.at - first.at).length() < STANDS && (p.heading - first.heading).abs() < DEG
            }
            _ => false,
        };
        let still = at.iter().all(stands);
        let mut last = None;
        let places = at.into_iter().take(if still { 1 } else { usize::MAX }).map(|pose| {
            let Pose { at, heading } = pose?;
            let degrees = turned(heading, last);
            last = Some(degrees);
            Some([cm(at.x), cm(at.y), degrees])
        });
        all.push(Mover { kind, size: [cm(size.x), cm(size.y)], at: places.collect() });
    };
    let count = |of: &dyn Fn(&Frame) -> usize| shown.iter().map(|f| of(f)).max().unwrap_or(0);
    let most = |index: &dyn Fn(&Frame) -> Option<u32>| {
        shown.iter().filter_map(|f| index(f)).max().map_or(0, |n| n + 1)
    };
    for n in 0..most(&|f| f.people.iter().map(|p| p.person).max()) {
        let one =
            |f: &&Frame| f.people.iter().find(|p| p.person == n).map(|p| pose(p.at, p.heading));
        add(Kind::Person, PERSON, shown.iter().map(one).collect());
    }
    for n in 0..most(&|f| f.others.iter().map(|o| o.other).max()) {
        let size = course.warehouse.others.get(n as usize).map_or(Vec2::default(), |o| o.size);
        let one = |f: &&Frame| f.others.iter().find(|o| o.other == n).map(|o| o.pose);
        add(Kind::Truck, size, shown.iter().map(one).collect());
    }
    for n in 0..most(&|f| f.pallets.iter().map(|p| p.pallet).max()) {
        let load = course.warehouse.pallets.get(n as usize).map(|p| p.load);
        let load = load.and_then(|l| course.warehouse.loads.get(l));
        let size = load.map_or(Vec2::default(), |l| vec2(l.pallet.length_m, l.pallet.width_m));
        let one = |f: &&Frame| f.pallets.iter().find(|p| p.pallet == n).map(|p| p.pose);
        add(Kind::Pallet, size, shown.iter().map(one).collect());
    }
    for n in 0..count(&|f| f.cases.len()) {
        let size = shown.iter().find_map(|f| f.cases.get(n)).map_or(Vec2::default(), |c| c.size);
        let one = |f: &&Frame| f.cases.get(n).map(|c| c.pose);
        add(Kind::Case, size, shown.iter().map(one).collect());
    }
    for (n, home) in course.cones.iter().enumerate() {
        let one = |f: &&Frame| f.cones.get(n).map(|c| pose(c.at, 0.0));
        let at: Vec<Option<Pose>> = shown.iter().map(one).collect();
        // Those that stand where they were put are on the plan.
        if at.iter().flatten().any(|p| (p.at - *home).length() > STANDS) {
            add(Kind::Cone, vec2(2.0 * CONE_RADIUS, 2.0 * CONE_RADIUS), at);
        }
    }
    all
}

fn pose(at: Vec2, heading: f64) -> Pose {
    Pose { at, heading }
}

/// What is to be seen of these drives: the ways of the trucks and of whoever comes near.
pub fn region(sides: &[Drawn; 2]) -> [Vec2; 2] {
    let mut points: Vec<Vec2> = Vec::new();
    for side in sides {
        for At([x, y, heading], ..) in &side.truck {
            let at = vec2(f64::from(*x) / 100.0, f64::from(*y) / 100.0);
            let place = pose(at, f64::from(*heading) * DEG).placer();
            points.extend([side.shape.tips, side.shape.nose].map(|along| place(vec2(along, 0.0))));
        }
        points.extend(side.found.iter().map(|f| f.at));
    }
    let over = |of: fn(&Vec2) -> f64| {
        let all = points.iter().map(of);
        let (low, high) = all.fold((f64::MAX, f64::MIN), |(l, h), v| (l.min(v), h.max(v)));
        let (middle, half) = (0.5 * (low + high), (0.5 * (high - low) + AROUND).max(0.5 * LEAST));
        // To whole centimetres: the file is read by people as well.
        let round = |m: f64| (m * 100.0).round() / 100.0;
        (round(middle - half), round(middle + half))
    };
    let ((west, east), (south, north)) = (over(|p| p.x), over(|p| p.y));
    [vec2(west, south), vec2(east, north)]
}
