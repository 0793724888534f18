//! The floor of the living yard: lanes, crossings, cones and walls, in metres with y downwards; one picture for
//! the day and one for the night. Colours are attributes: a style in a picture is refused where styles are.

use std::fmt::Write;

use coneyard_core::course::{CONE_RADIUS, Course};
use coneyard_core::geometry::rectangle;
use coneyard_core::math::Vec2;

/// Attributes of what is drawn.
struct Colours {
    ground: &'static str,
    joint: &'static str,
    lane: &'static str,
    edge: &'static str,
    stripe: &'static str,
    wall: &'static str,
}

const DAY: Colours = Colours {
    ground: "fill=\"#d9d8d2\"",
    joint: "stroke=\"#c9c8c2\" stroke-width=\".04\"",
    lane: "fill=\"#e9e8e3\" fill-rule=\"evenodd\"",
    edge: "fill=\"none\" stroke=\"#d9a300\" stroke-width=\".12\"",
    stripe: "fill=\"#fbfaf6\"",
    wall: "fill=\"#5a6265\"",
};

const NIGHT: Colours = Colours {
    ground: "fill=\"#24292a\"",
    joint: "stroke=\"#1c2021\" stroke-width=\".04\"",
    lane: "fill=\"#2f3637\" fill-rule=\"evenodd\"",
    edge: "fill=\"none\" stroke=\"#c99a14\" stroke-width=\".12\"",
    stripe: "fill=\"#777f80\"",
    wall: "fill=\"#0d1011\"",
};

/// Cones are the same by day and by night: foot, body, ring.
const FOOT: &str = "fill=\"#8a3106\"";
const CONE: &str = "fill=\"#f0641e\"";
const RING: &str = "fill=\"#fff\"";

/// Floor joints are so far apart, m.
const JOINTS: f64 = 6.5;

fn outline(points: &[Vec2]) -> String {
    let mut data = String::new();
    for (n, p) in points.iter().enumerate() {
        // Writing to a string cannot fail.
        let _ = write!(data, "{}{:.2} {:.2}", if n == 0 { 'M' } else { 'L' }, p.x, -p.y);
    }
    data.push('Z');
    data
}

/// The floor as pictures as large as the course's floor: by day, and by night.
pub(super) fn pictures(course: &Course) -> [String; 2] {
    [DAY, NIGHT].map(|colours| svg(course, &colours))
}

fn svg(course: &Course, colours: &Colours) -> String {
    let (low, high) = (course.floor_min, course.floor_max);
    let size = high - low;
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"{:.2} {:.2} {:.2} {:.2}\">",
        low.x, -high.y, size.x, size.y
    );
    let mut path = |how: &str, data: &str| {
        if !data.is_empty() {
            let _ = writeln!(svg, "<path {how} d=\"{data}\"/>");
        }
    };
    path(
        colours.ground,
        &outline(&[low, Vec2 { x: high.x, ..low }, high, Vec2 { x: low.x, ..high }]),
    );
    let joints = (1..).map(|n| low.x + JOINTS * f64::from(n)).take_while(|x| *x < high.x);
    let joints: String = joints.map(|x| format!("M{x:.2} {:.2}V{:.2}", -high.y, -low.y)).collect();
    path(colours.joint, &joints);
    for lane in &course.lanes {
        let holes = lane.holes.iter().map(Vec::as_slice);
        let data: String =
            core::iter::once(lane.area.as_slice()).chain(holes).map(outline).collect();
        path(colours.lane, &data);
        path(colours.edge, &data);
    }
    for crossing in &course.warehouse.crossings {
        path(colours.stripe, &stripes(&crossing.area));
    }
    let walls: String =
        course.structures.iter().map(|s| outline(&rectangle(s.pose, s.size))).collect();
    path(colours.wall, &walls);
    for cone in &course.cones {
        let (x, y, half) = (cone.x, -cone.y, CONE_RADIUS * 1.3);
        let square = format!("M{:.2} {:.2}h{2:.2}v{2:.2}h-{2:.2}Z", x - half, y - half, 2.0 * half);
        path(FOOT, &square);
        let disc = |r: f64| {
            format!(
                "M{:.2} {y:.2}a{r:.2} {r:.2} 0 1 0 {1:.2} 0a{r:.2} {r:.2} 0 1 0 -{1:.2} 0Z",
                x - r,
                2.0 * r
            )
        };
        for (how, share) in [(CONE, 0.85), (RING, 0.5), (CONE, 0.28)] {
            path(how, &disc(half * share));
        }
    }
    svg.push_str("</svg>\n");
    svg
}

/// Stripes across a crossing, along x.
fn stripes(area: &[Vec2]) -> String {
    const WIDE: f64 = 0.35;
    let xs = || area.iter().map(|p| p.x);
    let ys = || area.iter().map(|p| p.y);
    let (west, east) = (xs().fold(f64::MAX, f64::min), xs().fold(f64::MIN, f64::max));
    let (south, north) = (ys().fold(f64::MAX, f64::min), ys().fold(f64::MIN, f64::max));
    let count = ((north - south) / (2.0 * WIDE)) as u32;
    let stripe = |n: u32| {
        let y = -(south + WIDE * (0.5 + 2.0 * f64::from(n)));
        format!("M{west:.2} {y:.2}H{east:.2}V{:.2}H{west:.2}Z", y - WIDE)
    };
    (0..count).map(stripe).collect()
}
