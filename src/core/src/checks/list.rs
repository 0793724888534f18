//! The check list of a walk-round: the points of a truck, and for each what may be the matter with it. It is
//! the site's own file (`levels/checks`), so that a point, a defect or a severity is added without code.

use serde::{Deserialize, Serialize};

use crate::checks::POINTS_MOST;
use crate::finding::Severity;
use crate::outside::{BadInput, Said};
use crate::truck::condition::{Condition, LoadWheel};

/// A check list, read and checked.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct CheckList {
    /// Its name.
    pub name: Said,
    /// Share of trucks with something the matter in practice, 0 to 1.
    pub practice_share: f64,
    /// And at the daily start.
    pub daily_share: f64,
    /// The most defects that one truck has.
    pub most_defects: u32,
    /// How grave a defect can be, the mildest first. Never empty.
    pub grades: Vec<Grade>,
    /// The short list of reasons that an answer can give.
    pub reasons: Vec<Reason>,
    /// The points, in the order of the file; [`POINTS_MOST`] at most.
    pub points: Vec<Point>,
}

/// How grave a defect is, and so what is to be answered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Grade {
    /// Its name in the file.
    pub id: String,
    /// A truck with such a defect may run.
    pub may_run: bool,
    /// How grave it is to miss one.
    pub missed: Severity,
    /// What it is called.
    pub name: Said,
}

/// A reason for an answer.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Reason {
    /// Its name in the file.
    pub id: String,
    /// What it is called.
    pub name: Said,
}

/// From where a part of the truck is seen. Left and right are those of somebody who stands on the platform
/// and faces the power unit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Aspect {
    /// From above.
    Above,
    /// The left side.
    Left,
    /// The right side.
    Right,
    /// The end of the power unit.
    Nose,
    /// The end of the forks.
    Tips,
    /// The platform and what is round it.
    Platform,
    /// The head of the tiller, dial and key.
    Desk,
}

/// All views, in the order in which somebody walks round.
pub const ASPECTS: [Aspect; 7] = [
    Aspect::Above,
    Aspect::Left,
    Aspect::Nose,
    Aspect::Right,
    Aspect::Tips,
    Aspect::Platform,
    Aspect::Desk,
];

/// Where on the list a point stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Part {
    /// Seen from outside.
    Outside,
    /// Seen at the desk.
    Desk,
    /// Tried.
    Tried,
}

/// How a point is checked.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum How {
    /// By looking closer.
    Look,
    /// By trying it.
    Try,
}

/// What is heard when a point is tried.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Noise {
    /// The horn.
    Horn,
    /// A click.
    Click,
    /// A buzz.
    Buzz,
    /// A hiss.
    Hiss,
    /// A squeal.
    Squeal,
}

/// One point of the list.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Point {
    /// Its name in the file, and that of its drawing.
    pub id: String,
    /// What it is called.
    pub name: Said,
    /// Where on the list it stands.
    pub part: Part,
    /// What to look for, or how to try it.
    pub asks: Said,
    /// Where the point comes from.
    pub citation: String,
    /// Where it lies in which views, in the drawing's own units (1000 wide, 600 high). Never empty.
    pub places: Vec<(Aspect, [f64; 2])>,
    /// How it is checked.
    pub how: How,
    /// What is seen, or happens, when nothing is the matter.
    pub sound: Said,
    /// What is heard then.
    pub noise: Option<Noise>,
    /// What may be the matter.
    pub defects: Vec<Defect>,
}

/// What may be the matter with a point.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Defect {
    /// Its name in the file.
    pub id: String,
    /// Index into the list's grades.
    pub grade: usize,
    /// Indices into the list's reasons: those that are right.
    pub reasons: Vec<usize>,
    /// What it is called afterwards.
    pub name: Said,
    /// What is seen, or happens.
    pub seen: Said,
    /// Why it is so grave.
    pub why: Said,
    /// Where that comes from.
    pub citation: String,
    /// The views from which it shows.
    pub seen_from: Vec<Aspect>,
    /// It shows without looking closer.
    pub glance: bool,
    /// What is heard when it is tried.
    pub noise: Option<Noise>,
    /// What it changes of the machine.
    pub changes: Changes,
    /// Names of the trucks that can have it; empty for all.
    pub trucks: Vec<String>,
}

/// What a defect changes of the machine: shares of what the plate says, or what is added to it. What is left
/// out stays as it is.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields, default)]
pub struct Changes {
    /// Deceleration by the brake in the upper zone, share.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub upper_brake: Option<f64>,
    /// And in the lower zone, share.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lower_brake: Option<f64>,
    /// Deceleration by plugging, share.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub plugging: Option<f64>,
    /// Speed with which the arm springs up, share.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub arm_spring: Option<f64>,
    /// Top speeds, share.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub top_speed: Option<f64>,
    /// Speed of the forks going up, share.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub lift_speed: Option<f64>,
    /// Friction of the left load wheel, share.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub left_wheel_grip: Option<f64>,
    /// And of the right one, share.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub right_wheel_grip: Option<f64>,
    /// Rolling resistance over load that the left load wheel has more.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub left_wheel_drag: Option<f64>,
    /// And the right one.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub right_wheel_drag: Option<f64>,
    /// How fast the forks sink by themselves, m/s.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub forks_sink_mps: Option<f64>,
    /// The right fork's tip stands so much lower, m.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub forks_uneven_m: Option<f64>,
    /// The tiller moves so far to either side before the wheel does, degrees.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub steering_play_deg: Option<f64>,
    /// Share of the throttle that stays when it is let go.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub throttle_rest: Option<f64>,
    /// The horn is silent.
    #[serde(skip_serializing_if = "is_false")]
    pub horn_dead: bool,
    /// High speed stays on when the throttle is eased.
    #[serde(skip_serializing_if = "is_false")]
    pub high_speed_stays: bool,
    /// Nothing holds the battery in a hard turn.
    #[serde(skip_serializing_if = "is_false")]
    pub battery_loose: bool,
    /// A load meets no backrest.
    #[serde(skip_serializing_if = "is_false")]
    pub backrest_loose: bool,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde hands in a reference")]
fn is_false(flag: &bool) -> bool {
    !flag
}

impl Changes {
    /// The numbers with their names in the file and what they may be.
    pub(super) fn numbers(&self) -> [(&'static str, Option<f64>, f64); 14] {
        [
            ("upper_brake", self.upper_brake, 1.0),
            ("lower_brake", self.lower_brake, 1.0),
            ("plugging", self.plugging, 1.0),
            ("arm_spring", self.arm_spring, 1.0),
            ("top_speed", self.top_speed, 1.0),
            ("lift_speed", self.lift_speed, 1.0),
            ("left_wheel_grip", self.left_wheel_grip, 1.0),
            ("right_wheel_grip", self.right_wheel_grip, 1.0),
            ("left_wheel_drag", self.left_wheel_drag, 0.2),
            ("right_wheel_drag", self.right_wheel_drag, 0.2),
            ("forks_sink_mps", self.forks_sink_mps, 0.02),
            ("forks_uneven_m", self.forks_uneven_m, 0.03),
            ("steering_play_deg", self.steering_play_deg, 12.0),
            ("throttle_rest", self.throttle_rest, 0.3),
        ]
    }

    /// Nothing of how the truck moves is changed.
    pub fn is_nothing(&self) -> bool {
        *self == Self::default()
    }

    /// The machine with this as well.
    pub fn on(&self, condition: Condition) -> Condition {
        let wheel = |sound: LoadWheel, grip: Option<f64>, drag: Option<f64>| LoadWheel {
            grip: sound.grip * grip.unwrap_or(1.0),
            drag: sound.drag + drag.unwrap_or(0.0),
        };
        let share = |is: f64, by: Option<f64>| is * by.unwrap_or(1.0);
        let [left, right] = condition.load_wheels;
        Condition {
            upper_brake: share(condition.upper_brake, self.upper_brake),
            lower_brake: share(condition.lower_brake, self.lower_brake),
            plugging: share(condition.plugging, self.plugging),
            arm_spring: share(condition.arm_spring, self.arm_spring),
            top_speed: share(condition.top_speed, self.top_speed),
            lift_speed: share(condition.lift_speed, self.lift_speed),
            load_wheels: [
                wheel(left, self.left_wheel_grip, self.left_wheel_drag),
                wheel(right, self.right_wheel_grip, self.right_wheel_drag),
            ],
            forks_sink_mps: condition.forks_sink_mps + self.forks_sink_mps.unwrap_or(0.0),
            forks_uneven_m: condition.forks_uneven_m + self.forks_uneven_m.unwrap_or(0.0),
            steering_play: condition.steering_play
                + self.steering_play_deg.unwrap_or(0.0) * crate::math::DEG,
            throttle_rest: condition.throttle_rest.max(self.throttle_rest.unwrap_or(0.0)),
            horn_works: condition.horn_works && !self.horn_dead,
            high_speed_stays: condition.high_speed_stays || self.high_speed_stays,
            battery_held: condition.battery_held && !self.battery_loose,
            backrest_holds: condition.backrest_holds && !self.backrest_loose,
        }
    }
}

impl CheckList {
    /// The list that is shipped.
    #[expect(clippy::unwrap_used, reason = "the shipped file is tested")]
    pub fn shipped() -> Self {
        Self::parse("the check list", SHIPPED.as_bytes()).unwrap()
    }

    /// Reads a check list.
    ///
    /// # Errors
    /// One sentence with file, place and reason.
    pub fn parse(file: &str, text: &[u8]) -> Result<Self, BadInput> {
        super::file::read(file, text)
    }

    /// What may be the matter with which point of this truck: pairs of indices.
    pub fn possible<'a>(&'a self, truck: &'a str) -> impl Iterator<Item = (usize, usize)> + 'a {
        let can = move |d: &Defect| d.trucks.is_empty() || d.trucks.iter().any(|t| t == truck);
        self.points.iter().take(POINTS_MOST).enumerate().flat_map(move |(p, point)| {
            let defects = point.defects.iter().enumerate();
            defects.filter(move |(_, d)| can(d)).map(move |(d, _)| (p, d))
        })
    }

    /// The defect of a point.
    pub fn defect(&self, (point, defect): (usize, usize)) -> Option<&Defect> {
        self.points.get(point)?.defects.get(defect)
    }
}

impl Point {
    /// The part of the truck can be seen in this view.
    pub fn is_in(&self, view: Aspect) -> bool {
        self.places.iter().any(|(v, _)| *v == view)
    }
}

/// Text of the list that is shipped.
pub const SHIPPED: &str = include_str!("../../../../levels/checks/pallet-trucks.json");
