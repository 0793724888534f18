//! What is drawn of a course. Like all that the pages read of a file it is only what they show:
//! the yard has driven the course, so it has checked it in full.

use coneyard_core::course::{LineKind, StructureKind};
use coneyard_core::floor::Surface;
use coneyard_core::math::{DEG, Pose, Vec2};
use serde::Deserialize;

/// The course from above, m. What a file leaves out is empty.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(crate) struct Ground {
    pub(super) floor: Floor,
    #[serde(default)]
    pub(super) patches: Vec<Patch>,
    #[serde(default)]
    pub(super) lanes: Vec<Lane>,
    #[serde(default, rename = "cones_m")]
    pub(super) cones: Vec<Vec2>,
    #[serde(default)]
    pub(super) structures: Vec<Structure>,
    #[serde(default)]
    pub(super) lines: Vec<Line>,
    #[serde(default)]
    pub(super) gates: Vec<Gate>,
    #[serde(default)]
    pub(super) boxes: Vec<Bay>,
    #[serde(default)]
    pub(super) bays: Vec<Bay>,
    #[serde(default)]
    pub(super) zones: Vec<Zone>,
    #[serde(default)]
    pub(super) crossings: Vec<Area>,
    #[serde(default)]
    pub(super) ramps: Vec<Area>,
    #[serde(default)]
    pub(super) docks: Vec<Area>,
}

#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(super) struct Floor {
    pub(super) south_west_m: Vec2,
    pub(super) north_east_m: Vec2,
}

#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(super) struct Patch {
    pub(super) surface: Surface,
    pub(super) area_m: Vec<Vec2>,
}

#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(super) struct Lane {
    pub(super) area_m: Vec<Vec2>,
    #[serde(default)]
    pub(super) holes_m: Vec<Vec<Vec2>>,
}

#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(super) struct Structure {
    pub(super) kind: StructureKind,
    middle_m: Vec2,
    heading_deg: f64,
    length_m: f64,
    depth_m: f64,
}

#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(super) struct Line {
    pub(super) kind: LineKind,
    pub(super) from_m: Vec2,
    pub(super) to_m: Vec2,
}

#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(super) struct Gate {
    pub(super) left_m: Vec2,
    pub(super) right_m: Vec2,
}

#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(super) struct Bay {
    middle_m: Vec2,
    heading_deg: f64,
    length_m: f64,
    width_m: f64,
}

#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(super) struct Zone {
    pub(super) area_m: Vec<Vec2>,
}

#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(super) struct Area {
    pub(super) area_m: Vec<Vec2>,
}

fn corners(middle: Vec2, heading_deg: f64, length: f64, width: f64) -> [Vec2; 4] {
    let pose = Pose { at: middle, heading: heading_deg * DEG };
    coneyard_core::geometry::rectangle(pose, Vec2 { x: length, y: width })
}

impl Structure {
    /// Its corners.
    pub(super) fn outline(&self) -> [Vec2; 4] {
        corners(self.middle_m, self.heading_deg, self.length_m, self.depth_m)
    }
}

impl Bay {
    /// Its corners.
    pub(super) fn outline(&self) -> [Vec2; 4] {
        corners(self.middle_m, self.heading_deg, self.length_m, self.width_m)
    }
}

impl Ground {
    /// Reads a course file.
    ///
    /// # Errors
    /// One sentence with the file's name when it is not a course.
    pub(crate) fn read(file: &str, text: &str) -> Result<Self, String> {
        serde_json::from_str(text).map_err(|e| format!("{file}: {e}"))
    }
}

#[cfg(test)]
mod tests {
    use coneyard_core::course::{Course, shipped};
    use coneyard_core::geometry::rectangle;

    use super::*;

    fn near(a: &[Vec2], b: &[Vec2]) {
        assert_eq!(a.len(), b.len());
        for (a, b) in a.iter().zip(b) {
            assert!((*a - *b).length() < 1e-9, "{a:?} is not {b:?}");
        }
    }

    #[test]
    fn what_is_drawn_is_what_the_course_is() {
        for (file, text) in shipped::ALL {
            let drawn = Ground::read(file, text).unwrap();
            let whole = Course::parse(file, text.as_bytes()).unwrap();
            near(
                &[drawn.floor.south_west_m, drawn.floor.north_east_m],
                &[whole.floor_min, whole.floor_max],
            );
            near(&drawn.cones, &whole.cones);
            assert_eq!(drawn.structures.len(), whole.structures.len(), "{file}");
            for (d, w) in drawn.structures.iter().zip(&whole.structures) {
                assert_eq!(d.kind, w.kind);
                near(&d.outline(), &rectangle(w.pose, w.size));
            }
            assert_eq!(drawn.lines.len(), whole.lines.len(), "{file}");
            for (d, w) in drawn.lines.iter().zip(&whole.lines) {
                assert_eq!(d.kind, w.kind);
                near(&[d.from_m, d.to_m], &[w.from, w.to]);
            }
            assert_eq!(drawn.lanes.len(), whole.lanes.len(), "{file}");
            for (d, w) in drawn.lanes.iter().zip(&whole.lanes) {
                near(&d.area_m, &w.area);
                assert_eq!(d.holes_m, w.holes);
            }
            for (d, w) in drawn.bays.iter().zip(&whole.warehouse.bays) {
                near(&d.outline(), &rectangle(w.pose, w.size));
            }
            for (d, w) in drawn.boxes.iter().zip(&whole.boxes) {
                near(&d.outline(), &rectangle(w.pose, w.size));
            }
            let counts = |lists: [usize; 8]| lists;
            assert_eq!(
                counts([
                    drawn.bays.len(),
                    drawn.boxes.len(),
                    drawn.patches.len(),
                    drawn.gates.len(),
                    drawn.zones.len(),
                    drawn.crossings.len(),
                    drawn.ramps.len(),
                    drawn.docks.len(),
                ]),
                counts([
                    whole.warehouse.bays.len(),
                    whole.boxes.len(),
                    whole.patches.len(),
                    whole.gates.len(),
                    whole.zones.len(),
                    whole.warehouse.crossings.len(),
                    whole.warehouse.ramps.len(),
                    whole.warehouse.docks.len(),
                ]),
                "{file}"
            );
        }
    }

    #[test]
    fn damage_gets_a_sentence_with_the_files_name() {
        for text in ["", "{}", "[1, 2]", r#"{"floor": 3}"#] {
            assert!(Ground::read("odd.json", text).unwrap_err().starts_with("odd.json"));
        }
    }
}
