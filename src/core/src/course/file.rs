//! The course file as it is written: JSON, lengths in metres, angles in degrees, speeds in m/s.
//! `parse` turns it into a `Course`; levels/course.schema.json says the same for editors.

use serde::Deserialize;

use crate::checks::draw::Mode;
use crate::controls::Side;
use crate::course::warehouse::DockCheck;
use crate::course::{BrakeZone, LineKind, PartOf, StructureKind, Travel};
use crate::finding::Skill;
use crate::floor::Surface;
use crate::load::pallet::LoadFile;
use crate::outside::bounded::{List, Map};
use crate::outside::values::{Outline, Point, SaidFile};

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CourseFile {
    #[serde(rename = "$schema", default)]
    pub(super) _schema: Option<String>,
    #[serde(rename = "format")]
    pub(super) _format: u32,
    pub(super) id: String,
    #[serde(default)]
    pub(super) part_of: Option<PartOf>,
    pub(super) title: SaidFile,
    pub(super) trains: SaidFile,
    pub(super) trucks: List<String, 20>,
    pub(super) floor: FloorFile,
    #[serde(default)]
    pub(super) patches: List<PatchFile, 64>,
    #[serde(default)]
    pub(super) lanes: List<LaneFile, 32>,
    #[serde(default)]
    pub(super) cones_m: List<Point, 500>,
    #[serde(default)]
    pub(super) structures: List<StructureFile, 200>,
    #[serde(default)]
    pub(super) lines: List<LineFile, 100>,
    #[serde(default)]
    pub(super) gates: List<GateFile, 100>,
    #[serde(default)]
    pub(super) boxes: List<BoxFile, 50>,
    #[serde(default)]
    pub(super) zones: List<ZoneFile, 64>,
    #[serde(default)]
    pub(super) loads: List<LoadFile, 20>,
    #[serde(default)]
    pub(super) pallets: List<PalletFile, 60>,
    #[serde(default)]
    pub(super) bays: List<BoxFile, 60>,
    #[serde(default)]
    pub(super) people: List<WalkerFile, 40>,
    #[serde(default)]
    pub(super) other_trucks: List<OtherFile, 20>,
    #[serde(default)]
    pub(super) blind_spots: List<GateFile, 60>,
    #[serde(default)]
    pub(super) crossings: List<CrossingFile, 30>,
    #[serde(default)]
    pub(super) ramps: List<RampFile, 30>,
    #[serde(default)]
    pub(super) docks: List<DockFile, 10>,
    #[serde(default)]
    pub(super) pick_stops: List<PickStopFile, 60>,
    pub(super) spawn: SpawnFile,
    #[serde(default)]
    pub(super) traffic: bool,
    pub(super) steps: List<StepFile, 100>,
    pub(super) time_limit_s: f64,
    #[serde(default)]
    pub(super) par_s: Map<String, f64, 20>,
    #[serde(default)]
    pub(super) weights: Map<Skill, f64, 20>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct FloorFile {
    pub(super) south_west_m: Point,
    pub(super) north_east_m: Point,
    pub(super) surface: Surface,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PatchFile {
    pub(super) surface: Surface,
    pub(super) area_m: Outline,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LaneFile {
    pub(super) area_m: Outline,
    #[serde(default)]
    pub(super) holes_m: List<Outline, 16>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct StructureFile {
    pub(super) kind: StructureKind,
    pub(super) middle_m: Point,
    pub(super) heading_deg: f64,
    pub(super) length_m: f64,
    pub(super) depth_m: f64,
    #[serde(default)]
    pub(super) underside_m: Option<f64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct LineFile {
    pub(super) id: String,
    pub(super) kind: LineKind,
    pub(super) from_m: Point,
    pub(super) to_m: Point,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct GateFile {
    pub(super) id: String,
    pub(super) left_m: Point,
    pub(super) right_m: Point,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct BoxFile {
    pub(super) id: String,
    pub(super) middle_m: Point,
    pub(super) heading_deg: f64,
    pub(super) length_m: f64,
    pub(super) width_m: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ZoneFile {
    pub(super) area_m: Outline,
    pub(super) limit_mps: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct SpawnFile {
    pub(super) load_axle_m: Point,
    pub(super) heading_deg: f64,
    pub(super) stance: SideFile,
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum SideFile {
    Left,
    Right,
}

impl From<SideFile> for Side {
    fn from(s: SideFile) -> Self {
        match s {
            SideFile::Left => Self::Left,
            SideFile::Right => Self::Right,
        }
    }
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct StepFile {
    pub(super) say: SaidFile,
    pub(super) travel: Travel,
    pub(super) what: WhatFile,
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub(super) enum WhatFile {
    Gates {
        in_order: List<String, 100>,
        laps: u32,
    },
    StopAtMark {
        line: String,
        within_m: f64,
    },
    EmergencyStop {
        trigger: String,
        brake: BrakeZone,
        min_speed_mps: f64,
        delay_min_s: f64,
        delay_max_s: f64,
    },
    Park {
        stop_box: String,
        #[serde(default)]
        leave: bool,
    },
    PickUp {
        pallet: String,
    },
    SetDown {
        bay: String,
    },
    Picks {
        in_order: List<String, 60>,
    },
    CheckDock {
        dock: String,
    },
    WalkRound {
        mode: Mode,
    },
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PalletFile {
    pub(super) id: String,
    pub(super) load: String,
    pub(super) stands: StandsFile,
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub(super) enum StandsFile {
    OnForks,
    Floor { middle_m: Point, heading_deg: f64 },
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub(super) enum SetsOffFile {
    After {
        least_s: f64,
        most_s: f64,
    },
    Near {
        at_m: Point,
        within_m: f64,
    },
    InFront {
        at_m: Point,
        heading_deg: f64,
        #[serde(default)]
        distance_m: Option<f64>,
    },
}

#[derive(Clone, Copy, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum AtTheEndFile {
    Stay,
    StartOver,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct WalkerFile {
    pub(super) id: String,
    pub(super) route: List<WaypointFile, 60>,
    pub(super) at_the_end: AtTheEndFile,
    pub(super) sets_off: SetsOffFile,
    #[serde(default)]
    pub(super) hold_back: Option<f64>,
    #[serde(default)]
    pub(super) one_of: Option<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct WaypointFile {
    pub(super) at_m: Point,
    #[serde(default)]
    pub(super) wait_s: f64,
    #[serde(default)]
    pub(super) wait_chance: f64,
    #[serde(default)]
    pub(super) crosses: bool,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct OtherFile {
    pub(super) id: String,
    pub(super) length_m: f64,
    pub(super) width_m: f64,
    pub(super) way_m: List<Point, 100>,
    pub(super) speed_mps: f64,
    pub(super) at_the_end: AtTheEndFile,
    pub(super) sets_off: SetsOffFile,
    #[serde(default)]
    pub(super) one_of: Option<String>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct CrossingFile {
    pub(super) id: String,
    pub(super) area_m: Outline,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct RampFile {
    pub(super) area_m: Outline,
    pub(super) uphill_deg: f64,
    pub(super) grade: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct DockFile {
    pub(super) id: String,
    pub(super) area_m: Outline,
    pub(super) checks: List<DockCheckFile, 3>,
    pub(super) false_chance: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct DockCheckFile {
    pub(super) what: DockCheck,
    pub(super) at_m: Point,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct PickStopFile {
    pub(super) id: String,
    pub(super) at_m: Point,
}
