//! The plan as a drawing: floor, lanes and areas below, then structures, lines and cones, then the
//! path driven, and the findings on top.

use coneyard_core::course::{CONE_RADIUS, LineKind, StructureKind};
use coneyard_core::finding::{Severity, Unit};
use coneyard_core::floor::Surface;
use coneyard_core::math::{Vec2, vec2};
use coneyard_core::words::Units;
use leptos::prelude::*;

use super::arrows;
use super::frame::Frame;
use super::ground::{Area, Ground, Lane};
use super::labels::{Numbered, RADIUS, spread};
use super::mark::{self, Lettered};
use super::marker::Shape;
use crate::parts::finding;
use crate::settings::use_settings;
use crate::words::{k, number, quantity, say_with, tr};

/// Height of the strip with scale and north under the drawing, 0.1 mm.
const STRIP: f64 = 70.0;
/// A cone is drawn at least this large: a radius, 0.1 mm.
const SEEN: f64 = 6.0;
/// Twenty feet, m.
const TWENTY_FEET: f64 = 6.096;

/// The one class of the drawing that the key leaves out: it is part of the lanes.
const LANE_EDGE: &str = "lane-edge";

/// A class of the drawing and the path data that are drawn with it.
type Layer = (&'static str, String);

/// All of the course, from below to the top. Classes tell how each is drawn.
pub(super) fn layers(ground: &Ground, frame: &Frame) -> Vec<Layer> {
    let patch = |kind: Surface| {
        frame.outlines(
            ground.patches.iter().filter(|p| p.surface == kind).map(|p| p.area_m.as_slice()),
        )
    };
    let structure = |kinds: &[StructureKind]| {
        let outlines: Vec<[Vec2; 4]> = ground
            .structures
            .iter()
            .filter(|s| kinds.contains(&s.kind))
            .map(|s| s.outline())
            .collect();
        frame.outlines(outlines.iter().map(|o| o.as_slice()))
    };
    let line = |kind: LineKind| -> String {
        let of_kind = ground.lines.iter().filter(|l| l.kind == kind);
        of_kind.map(|l| frame.line(&[l.from_m, l.to_m], false)).collect()
    };
    // Lanes overlap: the edge of all is drawn below, and each is filled over it on its own.
    let lane = |l: &Lane| {
        let holes = l.holes_m.iter().map(Vec::as_slice);
        frame.outlines(core::iter::once(l.area_m.as_slice()).chain(holes))
    };
    let lanes: Vec<String> = ground.lanes.iter().map(lane).collect();
    let bays: Vec<[Vec2; 4]> = ground.bays.iter().map(|b| b.outline()).collect();
    let boxes: Vec<[Vec2; 4]> = ground.boxes.iter().map(|b| b.outline()).collect();
    let areas =
        |list: &[Area]| -> String { list.iter().map(|a| frame.line(&a.area_m, true)).collect() };
    let on_lanes = vec![
        ("wet", patch(Surface::Wet)),
        ("dusty", patch(Surface::Dusty)),
        ("plate", patch(Surface::Plate)),
        ("ramp", areas(&ground.ramps)),
        ("dock", areas(&ground.docks)),
        ("crossing", areas(&ground.crossings)),
        ("zone", frame.outlines(ground.zones.iter().map(|z| z.area_m.as_slice()))),
        ("bay", frame.outlines(bays.iter().map(|b| b.as_slice()))),
        ("box", frame.outlines(boxes.iter().map(|b| b.as_slice()))),
        ("gate", ground.gates.iter().map(|g| frame.line(&[g.left_m, g.right_m], false)).collect()),
        ("paint", line(LineKind::Paint)),
        ("trigger", line(LineKind::Trigger)),
        ("yield", line(LineKind::Yield)),
        ("mark-line", line(LineKind::Mark)),
        ("stop-line", line(LineKind::Stop)),
        ("overhead", structure(&[StructureKind::Beam, StructureKind::Curtain])),
        ("rail", structure(&[StructureKind::Rail, StructureKind::Panel])),
        ("rack", structure(&[StructureKind::Rack, StructureKind::Load])),
        ("wall", structure(&[StructureKind::Wall])),
        ("cone", frame.discs(&ground.cones, (CONE_RADIUS * frame.scale).max(SEEN))),
    ];
    core::iter::once((LANE_EDGE, lanes.concat()))
        .chain(lanes.into_iter().map(|data| ("lane", data)))
        .chain(on_lanes)
        .filter(|(_, data)| !data.is_empty())
        .collect()
}

/// Hatchings by their names, used as `url(#plan-...)`.
fn hatchings() -> impl IntoView {
    view! {
        <defs>
            <pattern id="plan-rack" width="12" height="12" patternUnits="userSpaceOnUse">
                <path class="ground" d="M0 0H12V12H0Z" />
                <path class="hatch" d="M-3 3L3 -3M0 12L12 0M9 15L15 9" />
            </pattern>
            <pattern id="plan-wet" width="24" height="12" patternUnits="userSpaceOnUse">
                <path class="hatch" d="M0 6q6 -8 12 0t12 0" />
            </pattern>
            <pattern id="plan-dusty" width="14" height="14" patternUnits="userSpaceOnUse">
                <path class="dots" d="M3 3h3v3h-3zM10 10h3v3h-3z" />
            </pattern>
            <pattern id="plan-plate" width="16" height="16" patternUnits="userSpaceOnUse">
                <path class="hatch" d="M0 0L16 16M16 0L0 16" />
            </pattern>
            <pattern id="plan-ramp" width="20" height="20" patternUnits="userSpaceOnUse">
                <path class="hatch" d="M0 14L10 6L20 14" />
            </pattern>
            <pattern id="plan-crossing" width="26" height="26" patternUnits="userSpaceOnUse">
                <path class="stripe" d="M0 0H13V26H0Z" />
            </pattern>
        </defs>
    }
}

/// The hatching of a class, for the few that have one.
pub(super) fn hatching(class: &str) -> Option<&'static str> {
    match class {
        "rack" => Some("url(#plan-rack)"),
        "wet" => Some("url(#plan-wet)"),
        "dusty" => Some("url(#plan-dusty)"),
        "plate" => Some("url(#plan-plate)"),
        "ramp" => Some("url(#plan-ramp)"),
        "crossing" => Some("url(#plan-crossing)"),
        _ => None,
    }
}

/// The findings with their lines to where they were made.
fn findings(numbered: &[Numbered], frame: &Frame) -> impl IntoView + use<> {
    let places: Vec<Vec2> = numbered.iter().map(|(_, f)| frame.at(f.at)).collect();
    let middles = spread(&places, vec2(frame.width(), frame.height()));
    let ties: String = places
        .iter()
        .zip(&middles)
        .filter(|(place, middle)| (**place - **middle).length() > RADIUS * 0.5)
        .map(|(p, m)| format!("M{:.1} {:.1}L{:.1} {:.1}", m.x, m.y, p.x, p.y))
        .collect();
    let markers = numbered
        .iter()
        .zip(middles)
        .map(|((n, f), m)| {
            view! {
                <g
                    class=format!("marker {}", finding::class(f.severity))
                    data-number=*n
                    transform=format!("translate({:.1} {:.1})", m.x, m.y)
                >
                    <Shape number=Some(*n) severity=f.severity />
                </g>
            }
        })
        .collect_view();
    view! {
        <path class="tie" d=ties />
        {markers}
    }
}

/// The path driven with its start and its heads.
pub(super) fn driven(path: &[[f32; 2]], frame: &Frame) -> impl IntoView + use<> {
    let points = path.iter().map(|[x, y]| frame.at(vec2(f64::from(*x), f64::from(*y))));
    let points = arrows::thinned(points);
    let start = points.first().copied();
    view! {
        <path class="way" d=arrows::line(&points) />
        <path class="heads" d=arrows::heads(&points) />
        {start.map(|p| view! { <circle class="start" cx=p.x cy=p.y r="12" /> })}
    }
}

/// The plan of a drive.
#[component]
pub(crate) fn Plan(
    /// The course.
    ground: Ground,
    /// Path of the platform's middle, yard frame, m; empty until it is known.
    path: Signal<Vec<[f32; 2]>>,
    /// The findings with their numbers.
    numbered: Vec<Numbered>,
    /// What was drawn beside notes, with its letters.
    marks: Vec<Lettered>,
) -> impl IntoView {
    let settings = use_settings();
    let frame = Frame::of(ground.floor.south_west_m, ground.floor.north_east_m);
    let (width, height) = (frame.width(), frame.height());
    let drawn = layers(&ground, &frame)
        .into_iter()
        .map(|(class, data)| view! { <path class=class fill=hatching(class) d=data /> })
        .collect_view();
    let label = {
        let count = numbered.len() as f64;
        move || say_with(k("print-plan-label"), vec![("count", number(count))])
    };
    let bar = move || {
        let units = settings.with(|s| s.units);
        let length = if units == Units::Metric { 5.0 } else { TWENTY_FEET };
        let (right, y) = (20.0 + length * frame.scale, height + 40.0);
        view! {
            <path
                class="scale"
                d=format!("M20 {:.1}v20M20 {y:.1}H{right:.1}M{right:.1} {:.1}v20", y - 10.0, y - 10.0)
            />
            <text class="scale-text" x=right + 15.0 y=y + 10.0>
                {quantity(length, Unit::Metre, units)}
            </text>
        }
    };
    let north = width - 30.0;
    view! {
        <svg
            class="plan"
            role="img"
            aria-label=label
            viewBox=format!("0 0 {width:.1} {:.1}", height + STRIP)
            style:width=format!("{:.1}mm", width / 10.0)
        >
            {hatchings()}
            <path class="floor" d=format!("M0 0H{width:.1}V{height:.1}H0Z") />
            {drawn}
            {move || path.with(|path| driven(path, &frame))}
            {findings(&numbered, &frame)}
            {mark::drawn(&marks, &frame)}
            {bar}
            <path
                class="north"
                d=format!("M{north:.1} {:.1}v-42l-9 16h18l-9 -16", height + 58.0)
            />
            <text class="scale-text" text-anchor="end" x=north - 18.0 y=height + 50.0>
                {tr("print-north")}
            </text>
        </svg>
    }
}

/// What the drawing's lines and shapes mean, as far as they are in it.
#[component]
pub(crate) fn Key(ground: Ground, severities: Vec<Severity>) -> impl IntoView {
    let frame = Frame::of(ground.floor.south_west_m, ground.floor.north_east_m);
    let mut there: Vec<&'static str> = layers(&ground, &frame).into_iter().map(|l| l.0).collect();
    there.dedup();
    let lines = core::iter::once("way")
        .chain(there)
        .filter_map(|class| Some((class, meaning(class)?)))
        .map(|(class, name)| view! { <Meaning class name /> })
        .collect_view();
    let marks = severities
        .into_iter()
        .map(|severity| {
            let name = coneyard_core::words::severity_key(severity);
            view! {
                <li>
                    <super::Marker number=None severity />
                    {tr(name)}
                </li>
            }
        })
        .collect_view();
    view! { <ul class="plan-key">{marks} {lines}</ul> }
}

/// Key of what a class of the drawing means.
fn meaning(class: &str) -> Option<&'static str> {
    Some(match class {
        "way" => k("plan-way"),
        "lane" => k("plan-lane"),
        "wet" => k("plan-wet"),
        "dusty" => k("plan-dusty"),
        "plate" => k("plan-plate"),
        "ramp" => k("plan-ramp"),
        "dock" => k("plan-dock"),
        "crossing" => k("plan-crossing"),
        "zone" => k("plan-zone"),
        "bay" => k("plan-bay"),
        "box" => k("plan-box"),
        "gate" => k("plan-gate"),
        "paint" => k("plan-paint"),
        "trigger" => k("plan-trigger"),
        "yield" => k("plan-yield"),
        "mark-line" => k("plan-mark"),
        "stop-line" => k("plan-stop"),
        "overhead" => k("plan-overhead"),
        "rail" => k("plan-rail"),
        "rack" => k("plan-rack"),
        "wall" => k("plan-wall"),
        "cone" => k("plan-cone"),
        _ => return None,
    })
}

/// One line of the key: a small piece of the drawing and its name.
#[component]
fn Meaning(class: &'static str, name: &'static str) -> impl IntoView {
    let line =
        matches!(class, "way" | "gate" | "paint" | "trigger" | "yield" | "mark-line" | "stop-line");
    let piece = match class {
        _ if line => "M4 20H76",
        "cone" => "M34 20a6 6 0 1 0 12 0a6 6 0 1 0 -12 0Z",
        _ => "M6 5H74V35H6Z",
    };
    view! {
        <li>
            <svg class="plan swatch" viewBox="0 0 80 40" aria-hidden="true">
                <path class=class fill=hatching(class) d=piece />
                {(class == "way").then(|| view! { <path class="heads" d="M52 20L30 11L30 29Z" /> })}
            </svg>
            {tr(name)}
        </li>
    }
}

#[cfg(test)]
mod tests {
    use coneyard_core::course::shipped;

    use super::*;

    #[test]
    fn everything_drawn_of_a_shipped_course_is_in_its_key() {
        for (file, text) in shipped::ALL {
            let ground = Ground::read(file, text).unwrap();
            let frame = Frame::of(ground.floor.south_west_m, ground.floor.north_east_m);
            let drawn = layers(&ground, &frame);
            assert!(!drawn.is_empty(), "{file} draws nothing");
            for (class, data) in drawn {
                assert!(meaning(class).is_some() || class == LANE_EDGE, "{class} has no meaning");
                assert!(data.starts_with('M'), "{file}: {class}: {data}");
            }
        }
    }

    #[test]
    fn nothing_on_the_floor_is_drawn_outside_the_drawing() {
        for (file, text) in shipped::ALL {
            let ground = Ground::read(file, text).unwrap();
            let frame = Frame::of(ground.floor.south_west_m, ground.floor.north_east_m);
            for p in ground.cones.iter().chain(ground.lines.iter().map(|l| &l.from_m)) {
                let p = frame.at(*p);
                assert!((0.0..=frame.width()).contains(&p.x), "{file}: {p:?}");
                assert!((0.0..=frame.height()).contains(&p.y), "{file}: {p:?}");
            }
        }
    }
}
