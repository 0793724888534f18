//! A drive of a lesson in its yard from above, as it plays: the plan of the course, and on it everything that
//! moves. It is a drawing whose parts are moved; no engine is loaded for it.

use coneyard_core::finding::Severity;
use coneyard_core::lesson::scene::{
    ABOARD, At, BRAKES, Drawn, HORN, Kind, Mover, PLUGS, RIGHT, STEPS, Shape as Truck,
};
use coneyard_core::math::{DEG, Vec2, vec2};
use coneyard_core::time::Tick;
use leptos::prelude::*;

use super::frame::Frame;
use super::ground::Ground;
use super::marker::Shape;
use super::view::{hatching, layers};
use crate::parts::finding;

/// What is seen at a time, in the drawing's own units, where a page does not say otherwise.
const SEEN: Vec2 = vec2(900.0, 620.0);
/// At most so much of the yard is seen at a time, m: where more is driven through, the picture goes along.
const WIDEST: f64 = 17.0;
/// It looks so far ahead of the truck, m.
const AHEAD: f64 = 3.5;
/// A mark stands so far above its place, that what it is about is seen.
const ABOVE: f64 = 62.0;
/// How far a look reaches in the drawing, m, and how wide it is to either side.
const LOOK: (f64, f64) = (5.0, 24.0 * DEG);
/// Where the rider stands, aside of the platform's middle, m.
const ASIDE: f64 = 0.19;

/// A place between two others, as a share of the way.
fn between(a: i32, b: i32, share: f64) -> f64 {
    f64::from(a) + (f64::from(b) - f64::from(a)) * share
}

/// Whole steps of a time that is counted in them, and the share of the next one.
fn split(now: f64, last: usize) -> (usize, f64) {
    let n = (now.max(0.0) as usize).min(last);
    (n, if n == last { 0.0 } else { (now - n as f64).clamp(0.0, 1.0) })
}

/// Where the truck is at this time: x and y, m, and heading, degrees.
fn place(drawn: &Drawn, now: f64) -> Option<(f64, f64, f64)> {
    let last = drawn.truck.len().checked_sub(1)?;
    let (n, share) = split(now, last);
    let (At(a, ..), At(b, ..)) = (drawn.truck.get(n)?, drawn.truck.get((n + 1).min(last))?);
    let at = |i: usize| between(a[i], b[i], share);
    Some((at(0) / 100.0, at(1) / 100.0, at(2)))
}

/// The part of the drawing that is seen: its corner, for a truck that is here in it.
fn corner(frame: &Frame, seen: Vec2, (x, y, heading): (f64, f64, f64)) -> Vec2 {
    let ahead = Vec2::from_angle(heading * DEG) * (1.0 + AHEAD);
    let at = frame.at(vec2(x, y) + ahead);
    let along = |middle: f64, seen: f64, whole: f64| {
        if seen >= whole {
            0.5 * (whole - seen)
        } else {
            (middle - 0.5 * seen).clamp(0.0, whole - seen)
        }
    };
    vec2(along(at.x, seen.x, frame.width()), along(at.y, seen.y, frame.height()))
}

/// The frame of what is driven through, at one scale whatever its size.
fn frame_of([low, high]: [Vec2; 2], seen: Vec2) -> Frame {
    let size = high - low;
    let needed = size.x.max(size.y * seen.x / seen.y).clamp(1.0, WIDEST);
    let scale = seen.x / needed;
    Frame::within(low, high, size.x * scale, size.y * scale)
}

/// And what else is at this time.
fn mover_at(mover: &Mover, now: f64) -> Option<(f64, f64, f64)> {
    let (n, share) = split(now, usize::MAX);
    let a = mover.place(n)?;
    let b = mover.place(n + 1).unwrap_or(a);
    let at = |i: usize| between(a[i], b[i], share);
    Some((at(0) / 100.0, at(1) / 100.0, at(2)))
}

/// As an attribute of a group that is drawn in metres, x to the front and y to the left.
fn moved(frame: &Frame, (x, y, heading): (f64, f64, f64)) -> String {
    let at = frame.at(vec2(x, y));
    let scale = frame.scale;
    format!(
        "translate({:.1} {:.1}) rotate({:.1}) scale({scale:.2} -{scale:.2})",
        at.x, at.y, -heading
    )
}

fn box_at(x0: f64, x1: f64, y0: f64, y1: f64) -> String {
    format!("M{x0:.2} {y0:.2}H{x1:.2}V{y1:.2}H{x0:.2}Z")
}

/// Forks, platform and power unit of a truck.
fn truck_paths(truck: &Truck) -> [(&'static str, String); 4] {
    let half = 0.5 * truck.width;
    let [spread, fork] = truck.forks;
    let (out, inner) = (0.5 * spread, 0.5 * spread - fork);
    let forks =
        box_at(truck.tips, truck.back, inner, out) + &box_at(truck.tips, truck.back, -out, -inner);
    let round = 0.18;
    let hull = format!(
        "M{:.2} {half:.2}H{:.2}q{round} 0 {round} -{round}V{:.2}q0 -{round} -{round} -{round}H{:.2}Z",
        truck.unit,
        truck.nose - round,
        round - half,
        truck.unit
    );
    [
        ("forks", forks),
        ("deck", box_at(truck.back, truck.unit, -half, half)),
        ("rest", box_at(truck.back, truck.back + 0.08, -half, half)),
        ("hull", hull),
    ]
}

fn tiller(truck: &Truck, steer: f64) -> String {
    let swing = Vec2::from_angle(steer * DEG) * truck.tiller;
    let (x, y) = (truck.wheel - swing.x, -swing.y);
    let bar = Vec2::from_angle(steer * DEG).left() * 0.17;
    format!(
        "M{:.2} 0L{x:.2} {y:.2}M{:.2} {:.2}L{:.2} {:.2}",
        truck.wheel,
        x + bar.x,
        y + bar.y,
        x - bar.x,
        y - bar.y
    )
}

/// What is seen of a look, from the rider, in metres.
fn wedge(head: f64) -> String {
    let (far, half) = LOOK;
    let edge = |side: f64| Vec2::from_angle(head * DEG + side * half) * far;
    let (a, b) = (edge(1.0), edge(-1.0));
    format!("M0 0L{:.2} {:.2}A{far} {far} 0 0 0 {:.2} {:.2}Z", a.x, a.y, b.x, b.y)
}

fn mover_paths(mover: &Mover) -> [(&'static str, String); 2] {
    let [length, width] = mover.size.map(|cm| f64::from(cm) / 200.0);
    let whole = box_at(-length, length, -width, width);
    let disc = |r: f64| {
        format!("M{:.2} 0a{r:.2} {r:.2} 0 1 0 {1:.2} 0a{r:.2} {r:.2} 0 1 0 -{1:.2} 0Z", -r, 2.0 * r)
    };
    match mover.kind {
        Kind::Person => {
            // A Bézier curve that comes near to an ellipse.
            let (x, y) = (1.33 * length, width);
            let round = format!(
                "M0 {y:.2}C{x:.2} {y:.2} {x:.2} -{y:.2} 0 -{y:.2}C-{x:.2} -{y:.2} -{x:.2} {y:.2} 0 {y:.2}Z"
            );
            [("person", round), ("head", disc(0.13))]
        }
        Kind::Truck => {
            let front = box_at(0.35 * length, length, -width, width);
            [("other", whole), ("other-front", front)]
        }
        Kind::Pallet => {
            let slats = format!(
                "M-{length:.2} {0:.2}H{length:.2}M-{length:.2} 0H{length:.2}M-{length:.2} -{0:.2}H{length:.2}",
                0.5 * width
            );
            [("pallet", whole), ("slats", slats)]
        }
        Kind::Case => [("case", whole), ("slats", format!("M-{length:.2} 0H{length:.2}"))],
        Kind::Cone => [("cone", disc(length)), ("ring", disc(0.5 * length))],
    }
}

/// The yard with a drive in it.
#[component]
pub(crate) fn Playing(
    /// The course.
    ground: Ground,
    /// Corners of what is shown, m.
    region: [Vec2; 2],
    /// The drive.
    drawn: Drawn,
    /// The time, in places of the drive.
    #[prop(into)]
    now: Signal<f64>,
    /// The first tick that is shown.
    first: Tick,
    /// What it is called for who does not see it.
    #[prop(into)]
    name: Signal<String>,
    /// Width and height of what is seen at a time, in the drawing's own units.
    #[prop(default = SEEN)]
    window: Vec2,
) -> impl IntoView {
    let frame = frame_of(region, window);
    let drawn = StoredValue::new(drawn);
    let seen = Memo::new(move |_| {
        let place = drawn.with_value(|d| place(d, now.get()));
        let corner = place.map_or(Vec2::default(), |at| corner(&frame, window, at));
        format!("{:.1} {:.1} {:.0} {:.0}", corner.x, corner.y, window.x, window.y)
    });
    let under = layers(&ground, &frame)
        .into_iter()
        .map(|(class, data)| view! { <path class=class fill=hatching(class) d=data /> })
        .collect_view();
    let way = drawn.with_value(|d| {
        let middle = |at: &At| {
            let pose = coneyard_core::math::Pose {
                at: vec2(f64::from(at.0[0]) / 100.0, f64::from(at.0[1]) / 100.0),
                heading: f64::from(at.0[2]) * DEG,
            };
            pose.to_yard(vec2(d.shape.platform, 0.0))
        };
        frame.line(&d.truck.iter().step_by(2).map(middle).collect::<Vec<_>>(), false)
    });
    let count = drawn.with_value(|d| d.others.len());
    let others = (0..count)
        .map(|n| {
            let paths = drawn.with_value(|d| d.others.get(n).map(mover_paths));
            let parts = paths.into_iter().flatten();
            let parts = parts.map(|(class, d)| view! { <path class=class d=d /> }).collect_view();
            let pose = move || {
                drawn.with_value(|d| {
                    mover_at(d.others.get(n)?, now.get()).map(|at| moved(&frame, at))
                })
            };
            let hidden = Memo::new(move |_| pose().is_none());
            view! {
                <g class="mover" class:gone=hidden transform=pose>
                    {parts}
                </g>
            }
        })
        .collect_view();
    let state = Memo::new(move |_| {
        drawn.with_value(|d| {
            let last = d.truck.len().saturating_sub(1);
            d.truck.get((now.get() as usize).min(last)).copied()
        })
    });
    let is = move |bit: u16| state.get().is_some_and(|at: At| at.is(bit));
    let shape = drawn.with_value(|d| d.shape);
    let body = truck_paths(&shape)
        .into_iter()
        .map(|(class, d)| view! { <path class=class d=d /> })
        .collect_view();
    let rider = move || {
        // Beside the truck, on the rider's own side.
        let aside = match (is(ABOARD), is(STEPS)) {
            (false, _) => 0.5 * shape.width + 0.45,
            (true, true) => 0.0,
            (true, false) => ASIDE,
        };
        let side = if is(RIGHT) { -aside } else { aside };
        format!("translate({:.2} {side:.2})", shape.platform)
    };
    let head = move || state.get().map_or(0.0, |at| f64::from(at.1[3]));
    let steer = move || state.get().map_or(0.0, |at| f64::from(at.1[4]));
    let found = drawn.with_value(|d| {
        let faults = d.found.iter().filter(|f| f.severity != Severity::Good);
        let every = f64::from(coneyard_core::lesson::scene::EVERY);
        let mark = |f: &coneyard_core::finding::Finding| {
            let at = frame.at(f.at);
            let from = f64::from(f.from.saturating_sub(first)) / every;
            let gone = move || now.get() < from;
            let severity = f.severity;
            view! {
                <g
                    class=format!("marker {}", finding::class(severity))
                    class:gone=gone
                    transform=format!("translate({:.1} {:.1})", at.x, at.y - ABOVE)
                >
                    <path class="tie" d=format!("M0 {ABOVE}V20") />
                    <Shape number=None severity />
                </g>
            }
        };
        faults.map(mark).collect_view()
    });
    view! {
        <svg
            class="plan playing"
            viewBox=seen
            role="img"
            aria-label=name
        >
            {under}
            <path class="way" d=way />
            <g
                class="truck"
                class:brakes=move || is(BRAKES)
                class:plugs=move || is(PLUGS)
                transform=move || {
                    drawn.with_value(|d| place(d, now.get()).map(|at| moved(&frame, at)))
                }
            >
                <g transform=rider class:gone=move || !is(ABOARD)>
                    <path class="look" d=move || wedge(head()) />
                </g>
                {body}
                <path class="tiller" d=move || tiller(&shape, steer()) />
                <g transform=rider>
                    <ellipse class="rider" rx="0.17" ry="0.25" />
                    <circle class="head" r="0.11" />
                </g>
                <path
                    class="horn"
                    class:gone=move || !is(HORN)
                    d=format!(
                        "M{0:.2} 0.5q0.35 -0.5 0 -1M{1:.2} 0.8q0.55 -0.8 0 -1.6M{2:.2} 1.1q0.75 -1.1 0 -2.2",
                        shape.nose + 0.25,
                        shape.nose + 0.55,
                        shape.nose + 0.85,
                    )
                />
            </g>
            {others}
            {found}
        </svg>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn time_is_split_into_steps_and_shares_and_never_goes_beyond_the_last() {
        assert_eq!(split(0.0, 4), (0, 0.0));
        assert_eq!(split(2.25, 4), (2, 0.25));
        assert_eq!(split(9.0, 4), (4, 0.0));
        assert_eq!(split(-1.0, 4), (0, 0.0));
    }

    #[test]
    fn who_stands_has_one_place_and_who_is_not_there_has_none() {
        let mover = |at| Mover { kind: Kind::Person, size: [36, 62], at };
        let still = mover(vec![Some([100, 200, 90])]);
        assert_eq!(mover_at(&still, 7.5), Some((1.0, 2.0, 90.0)));
        let walks = mover(vec![None, Some([0, 0, 0]), Some([100, 0, 0])]);
        assert_eq!(mover_at(&walks, 0.5), None);
        assert_eq!(mover_at(&walks, 1.5), Some((0.5, 0.0, 0.0)));
    }

    #[test]
    fn a_group_is_turned_as_the_yard_is_and_not_as_screens_are() {
        let frame = frame_of([vec2(0.0, 0.0), vec2(9.0, 6.2)], SEEN);
        let said = moved(&frame, (1.0, 1.0, 90.0));
        assert_eq!(said, "translate(100.0 520.0) rotate(-90.0) scale(100.00 -100.00)");
    }

    #[test]
    fn the_picture_goes_along_and_never_beyond_what_is_driven_through() {
        let frame = frame_of([vec2(0.0, 0.0), vec2(100.0, 10.0)], SEEN);
        assert!((frame.scale - SEEN.x / WIDEST).abs() < 1e-9);
        let at = |x: f64| corner(&frame, SEEN, (x, 5.0, 0.0)).x;
        assert_eq!(at(-5.0), 0.0);
        assert!(at(50.0) > at(40.0));
        assert_eq!(at(120.0), frame.width() - SEEN.x);
        // What is less high than the picture stands in its middle.
        let low = corner(&frame, SEEN, (50.0, 5.0, 0.0)).y;
        assert!((low - 0.5 * (frame.height() - SEEN.y)).abs() < 1e-9);
    }
}
