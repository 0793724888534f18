//! What is looked at: the yard in one tick as it stands there, and what of it never moves.

use coneyard_core::course::{Course, LineKind, StructureKind};
use coneyard_core::math::{Pose, Vec2, vec2};
use coneyard_core::moment::Moment;
use coneyard_core::time::Tick;
use coneyard_core::truck::spec::TruckSpec;
use coneyard_core::yard::frame::Frame;

use crate::shapes::Shape;

/// The yard in one tick: places and outlines, metres and radians in the yard frame.
#[derive(Clone, Debug, PartialEq)]
pub struct Seen {
    /// Number of the tick.
    pub tick: Tick,
    /// Middle of the truck's load axle, and heading.
    pub truck: Pose,
    /// Somebody stands on its platform.
    pub aboard: bool,
    /// The forks are asked to rise.
    pub forks_up: bool,
    /// Height of the forks over lowered, m.
    pub fork_height: f64,
    /// The truck lies on its side.
    pub tipped: bool,
    /// People on foot that are there, by their number in the course, and their middles.
    pub people: Vec<(u32, Vec2)>,
    /// Other trucks that are there, by their number in the course, and their middles.
    pub others: Vec<(u32, Pose)>,
    /// Every pallet of the course, in its order.
    pub pallets: Vec<PalletSeen>,
    /// Cases on the floor, with length and width.
    pub cases: Vec<(Pose, Vec2)>,
    /// Docks at which something is not as it must be.
    pub unsafe_docks: Vec<u32>,
    /// The truck has something that must not run, and that has not been said beside it on the drive.
    pub must_not_run: bool,
}

/// A pallet in one tick.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PalletSeen {
    /// Middle, and direction of its length.
    pub pose: Pose,
    /// Stands on the forks.
    pub carried: bool,
    /// Cases on it.
    pub cases: u32,
}

impl Seen {
    /// As a picture of the yard shows it; what no picture shows (whether the truck lies on its side, what
    /// is the matter with it, and
    /// what the hands ask of the forks) is taken from the moment.
    pub fn of(frame: &Frame, moment: &Moment) -> Self {
        let pallet = |p: &coneyard_core::yard::frame::PalletFrame| PalletSeen {
            pose: p.pose,
            carried: p.carried,
            cases: p.columns.iter().map(|(cases, _)| u32::from(*cases)).sum(),
        };
        let unsafe_docks = frame.docks.iter().filter(|d| d.inspected.wrong != 0);
        Self {
            tick: frame.tick,
            truck: frame.truck,
            aboard: frame.aboard,
            forks_up: moment.controls.forks_up && !moment.controls.forks_down,
            fork_height: frame.fork_height,
            tipped: moment.truck.tipped,
            people: frame.people.iter().map(|p| (p.person, p.at)).collect(),
            others: frame.others.iter().map(|o| (o.other, o.pose)).collect(),
            pallets: frame.pallets.iter().map(pallet).collect(),
            cases: frame.cases.iter().map(|c| (c.pose, c.size)).collect(),
            unsafe_docks: unsafe_docks.map(|d| d.dock).collect(),
            must_not_run: moment.walk.as_ref().is_some_and(|w| {
                let list = &w.truck.list;
                let has = w.truck.drawn.has.iter();
                let mut grades = has.map(|(p, d)| list.points[*p].defects[*d].grade);
                !w.reported && grades.any(|g| !list.grades[g].may_run)
            }),
        }
    }
}

/// A truck as its file measures it, body frame, m.
#[derive(Clone, Debug)]
pub(crate) struct Truck {
    /// Power unit with platform and backrest, and the two forks.
    outline: [Vec<Vec2>; 3],
    /// Where the rider stands, as wide as the truck.
    platform: Vec<Vec2>,
    /// Drive wheel and load wheels.
    pub(crate) wheels: [Vec2; 3],
    /// Middles of the two ends: power unit, and fork tips.
    pub(crate) ends: [Vec2; 2],
    /// Between the fork tips and the backrest, along the truck.
    pub(crate) forks: [f64; 2],
    /// Top of the rider's head over the floor, m.
    pub(crate) rider_top: f64,
    /// Heaviest load, kg.
    pub(crate) capacity: f64,
}

fn box_of(x: [f64; 2], y: [f64; 2]) -> Vec<Vec2> {
    vec![vec2(x[0], y[0]), vec2(x[1], y[0]), vec2(x[1], y[1]), vec2(x[0], y[1])]
}

/// What never moves: truck and course as their files have them.
#[derive(Clone, Debug)]
pub(crate) struct Fixed {
    pub(crate) truck: Truck,
    /// What stands in the way, by its number in the course.
    pub(crate) solid: Vec<(u32, Shape)>,
    /// What hangs overhead, and the height of its underside, m.
    pub(crate) beams: Vec<(u32, Shape, f64)>,
    /// Stop lines: left and right end as one comes to them.
    pub(crate) stop_lines: Vec<(u32, [Vec2; 2])>,
    pub(crate) crossings: Vec<Shape>,
    pub(crate) docks: Vec<Shape>,
    /// Length and width of other trucks.
    pub(crate) others: Vec<Vec2>,
    pub(crate) pallets: Vec<PalletFixed>,
}

/// A pallet as its file has it.
#[derive(Clone, Copy, Debug)]
pub(crate) struct PalletFixed {
    /// Length and width.
    pub(crate) size: Vec2,
    /// Without any case, and of one case, kg.
    pub(crate) kg: f64,
    pub(crate) case_kg: f64,
}

impl Fixed {
    pub(crate) fn new(course: &Course, truck: &TruckSpec) -> Self {
        let w = &course.warehouse;
        let numbered = || course.structures.iter().enumerate().map(|(i, s)| (i as u32, s));
        // What a curtain or a beam is made of, trucks drive through or under.
        let stands =
            |kind: StructureKind| !matches!(kind, StructureKind::Curtain | StructureKind::Beam);
        let solid = numbered().filter(|(_, s)| stands(s.kind));
        let beams = numbered().filter_map(|(i, s)| Some((i, s, s.underside?)));
        let stop = course.lines.iter().enumerate().filter(|(_, l)| l.kind == LineKind::Stop);
        let pallets = w.pallets.iter().map(|p| {
            let load = &w.loads[p.load];
            PalletFixed {
                size: vec2(load.pallet.length_m, load.pallet.width_m),
                kg: load.pallet.mass_kg,
                case_kg: load.case.mass_kg,
            }
        });
        Self {
            truck: Truck::new(truck),
            solid: solid.map(|(i, s)| (i, Shape::rectangle(s.pose, s.size))).collect(),
            beams: beams.map(|(i, s, h)| (i, Shape::rectangle(s.pose, s.size), h)).collect(),
            stop_lines: stop.map(|(i, l)| (i as u32, [l.from, l.to])).collect(),
            crossings: w.crossings.iter().map(|c| Shape::new(&c.area)).collect(),
            docks: w.docks.iter().map(|d| Shape::new(&d.area)).collect(),
            others: w.others.iter().map(|o| o.size).collect(),
            pallets: pallets.collect(),
        }
    }

    /// Truck and load as they stand in a tick.
    pub(crate) fn parts(&self, seen: &Seen) -> Vec<Shape> {
        let at = |outline: &Vec<Vec2>| {
            Shape::new(&outline.iter().map(|p| seen.truck.to_yard(*p)).collect::<Vec<_>>())
        };
        let carried = seen.pallets.iter().zip(&self.pallets).filter(|(p, _)| p.carried);
        let load = carried.map(|(p, fixed)| Shape::rectangle(p.pose, fixed.size));
        self.truck.outline.iter().map(at).chain(load).collect()
    }

    /// The place where the rider stands, in a tick.
    pub(crate) fn platform(&self, seen: &Seen) -> Shape {
        let corners = self.truck.platform.iter().map(|p| seen.truck.to_yard(*p));
        Shape::new(&corners.collect::<Vec<_>>())
    }
}

impl Truck {
    fn new(spec: &TruckSpec) -> Self {
        let g = &spec.geometry;
        let (half, outer) = (0.5 * g.chassis_width_m, 0.5 * g.fork_spread_m);
        let (inner, track) = (outer - g.fork_width_m, 0.5 * g.load_wheel_track_m);
        let forks = [g.fork_tips_x_m, g.backrest_x_m];
        Self {
            outline: [
                box_of([g.backrest_x_m, g.nose_x_m], [-half, half]),
                box_of(forks, [inner, outer]),
                box_of(forks, [-outer, -inner]),
            ],
            platform: box_of([g.backrest_x_m, g.power_unit_x_m], [-half, half]),
            wheels: [vec2(g.wheelbase_m, 0.0), vec2(0.0, track), vec2(0.0, -track)],
            ends: [vec2(g.nose_x_m, 0.0), vec2(g.fork_tips_x_m, 0.0)],
            forks,
            rider_top: spec.rider.top_m,
            capacity: spec.mass.capacity_kg,
        }
    }
}
