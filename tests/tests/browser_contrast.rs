//! Contrast inside the yard's picture, measured by its pixels, by day and by night: people, cones and lane
//! edges at least 3:1 against the floor about them (WCAG 2.2, success criterion 1.4.11), what is seen at least
//! 1.6:1 against what is not. Where things are is known from the recorded drive, which is driven again here.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_core::course::{Course, shipped};
use coneyard_core::geometry::in_polygon;
use coneyard_core::math::{Vec2, vec2};
use coneyard_core::run::Run;
use coneyard_core::time::Tick;
use coneyard_core::yard::frame::Frame;
use coneyard_sim::drive_again;
use coneyard_tests::browser::{Size, Yard, places};
use coneyard_tests::drives::ridden;
use coneyard_tests::mishaps::near_miss;
use serde_json::{Value, json};

const SIZE: Size = Size { width: 1366, height: 768 };

/// Directions in which is looked from a thing.
const WAYS: u32 = 32;

/// A picture of the yard, and what is true in it.
struct Picture {
    yard: Yard,
    frame: Frame,
    course: Course,
    /// CSS pixels a metre.
    scale: f64,
}

/// Shows where a place of the yard is on the page: x, y, and pixels a metre.
const WHERE: &str = "
    const address = document.querySelector('meta[name=\"coneyard-canvas\"]').content;
    const module = await import(new URL(address, document.baseURI));
    const box = document.querySelector('#yard').getBoundingClientRect();
    return args[0].map(([x, y]) => {
        const [right, down, scale] = module.place_in_picture(x, y);
        return [box.left + right * box.width, box.top + down * box.height, scale];
    });";

/// Keeps the page's picture as pixels.
const KEEP: &str = "
    // From bytes, not from an address: the site's policy allows none of data.
    const bytes = Uint8Array.from(atob(args[0]), (c) => c.charCodeAt(0));
    const image = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
    const canvas = document.createElement('canvas');
    [canvas.width, canvas.height] = [image.width, image.height];
    const pen = canvas.getContext('2d');
    pen.drawImage(image, 0, 0);
    const { data } = pen.getImageData(0, 0, image.width, image.height);
    const on_yard = document.querySelector('#yard').getBoundingClientRect();
    globalThis.colour_at = ([x, y]) => {
        const [column, row] = [Math.round(x - 0.5), Math.round(y - 0.5)];
        const inside = x > on_yard.left + 4 && x < on_yard.right - 4
            && y > on_yard.top + 4 && y < on_yard.bottom - 4;
        return inside ? [...data.slice(4 * (row * image.width + column)).slice(0, 3)] : null;
    };";

/// Relative luminance of a colour of the screen (WCAG 2.2).
fn luminance(rgb: &Value) -> Option<f64> {
    let light = |i: usize| {
        let c = rgb[i].as_f64()? / 255.0;
        let bent = || coneyard_core::math::pow((c + 0.055) / 1.055, 2.4);
        Some(if c <= 0.04045 { c / 12.92 } else { bent() })
    };
    Some(0.2126 * light(0)? + 0.7152 * light(1)? + 0.0722 * light(2)?)
}

fn contrast(a: f64, b: f64) -> f64 {
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

fn middle(mut values: Vec<f64>) -> f64 {
    assert!(!values.is_empty());
    values.sort_by(f64::total_cmp);
    values[values.len() / 2]
}

impl Picture {
    /// The replay of a run, still at this tick.
    async fn of(run: &str, at: Tick, night: bool) -> Self {
        let yard = Yard::start(SIZE, "en").await;
        let scheme = if night { "dark" } else { "light" };
        let features = json!({ "features": [
            { "name": "prefers-color-scheme", "value": scheme },
            { "name": "prefers-reduced-motion", "value": "reduce" },
        ] });
        yard.devtools("Emulation.setEmulatedMedia", features).await;
        let file = yard.downloads.join("given.json");
        std::fs::write(&file, run).unwrap();
        yard.open("#/path").await;
        yard.wait_for(places::IMPORT).await.send_keys(&file.to_string_lossy()).await.unwrap();
        yard.wait_until("location.hash.startsWith('#/debrief/')").await;
        let debrief = yard.script("return location.hash;", Vec::new()).await.unwrap();
        let replay = debrief.as_str().unwrap().replace("debrief", "replay");
        yard.open(&format!("{replay}/{at}")).await;
        yard.wait_for(places::PLAY).await;
        // What is written over the yard is none of it.
        let hide = "document.querySelector('.over').style.visibility = 'hidden';";
        yard.script(hide, Vec::new()).await.unwrap();
        yard.settle().await;
        let text = json!(base64_of(&yard.client.screenshot().await.unwrap()));
        yard.script(KEEP, vec![text]).await.unwrap();

        let run = Run::parse("the run", run.as_bytes()).unwrap();
        let mut frames = Vec::new();
        let mut id = String::new();
        drive_again(&run, |session| {
            frames.push(session.frame());
            id.clone_from(&session.setting().course.id);
        })
        .unwrap();
        let course = shipped::parse(&id);
        let mut picture = Self { yard, frame: frames[at as usize].clone(), course, scale: 1.0 };
        picture.scale = picture.places(&[picture.frame.eye]).await[0].1;
        picture
    }

    async fn places(&self, points: &[Vec2]) -> Vec<((f64, f64), f64)> {
        let points: Vec<_> = points.iter().map(|p| [p.x, p.y]).collect();
        let places = self.yard.script(WHERE, vec![json!(points)]).await.unwrap();
        let places = places.as_array().unwrap().iter();
        let number = |v: &Value, i: usize| v[i].as_f64().unwrap();
        places.map(|v| ((number(v, 0), number(v, 1)), number(v, 2))).collect()
    }

    /// Luminance at each place of the yard; None for what is not in the picture.
    async fn light_at(&self, points: &[Vec2]) -> Vec<Option<f64>> {
        let places: Vec<_> = self.places(points).await.into_iter().map(|(at, _)| at).collect();
        let body = "return args[0].map((place) => colour_at(place));";
        let colours = self.yard.script(body, vec![json!(places)]).await.unwrap();
        colours.as_array().unwrap().iter().map(luminance).collect()
    }

    /// Share of the directions from a thing in which something stands out from the floor about it.
    async fn stands_out(&self, at: Vec2, nearest: f64, farthest: f64) -> f64 {
        let step = 0.5 / self.scale;
        let count = ((farthest - nearest) / step) as u32;
        let ray = |way: u32| {
            let way = Vec2::from_angle(f64::from(way) * core::f64::consts::TAU / f64::from(WAYS));
            (0..=count).map(move |i| at + way * (nearest + step * f64::from(i)))
        };
        let all: Vec<Vec2> = (0..WAYS).flat_map(ray).collect();
        let light = self.light_at(&all).await;
        let rays: Vec<&[Option<f64>]> = light.chunks(count as usize + 1).collect();
        let floor = middle(rays.iter().filter_map(|ray| *ray.last()?).collect());
        let out = |ray: &&&[Option<f64>]| ray.iter().flatten().any(|l| contrast(*l, floor) >= 3.0);
        rays.iter().filter(out).count() as f64 / f64::from(WAYS)
    }

    /// What the rider sees, with its corner at the eye.
    fn seen(&self) -> Vec<Vec2> {
        let far = self.frame.view.iter().map(|[x, y]| vec2(f64::from(*x), f64::from(*y)));
        core::iter::once(self.frame.eye).chain(far).collect()
    }

    /// All places about this one are so, within a distance.
    fn all_about(at: Vec2, near: f64, is: impl Fn(Vec2) -> bool) -> bool {
        let about = |way: u32| at + Vec2::from_angle(f64::from(way) * 0.785) * near;
        is(at) && (0..8).all(|way| is(about(way)))
    }

    fn on_lane(&self, at: Vec2) -> bool {
        let holds = |lane: &coneyard_core::course::Lane| {
            in_polygon(at, &lane.area) && !lane.holes.iter().any(|h| in_polygon(at, h))
        };
        self.course.lanes.iter().any(holds)
    }

    /// Nothing but floor is here: no structure, cone, person or truck.
    fn is_bare(&self, at: Vec2) -> bool {
        let f = &self.frame;
        let far = |p: Vec2, from: f64| (p - at).length() > from;
        let structure = |s: &coneyard_core::course::Structure| {
            let in_it = s.pose.to_body(at);
            in_it.x.abs() > 0.5 * s.size.x + 0.4 || in_it.y.abs() > 0.5 * s.size.y + 0.4
        };
        far(f.truck.at, 4.0)
            && f.people.iter().all(|p| far(p.at, 1.2))
            && f.cones.iter().all(|c| far(c.at, 1.0))
            && self.course.structures.iter().all(structure)
    }

    /// Bare floor in the picture that is so, on a grid.
    async fn floor(&self, is: impl Fn(Vec2) -> bool) -> Vec<f64> {
        let (lo, hi) = (self.course.floor_min, self.course.floor_max);
        let every = 0.19;
        let count = |of: f64| (of / every) as u32;
        let row = |j: u32| {
            (0..count(hi.x - lo.x))
                .map(move |i| lo + vec2(f64::from(i) * every + 0.07, f64::from(j) * every + 0.07))
        };
        let all: Vec<Vec2> = (0..count(hi.y - lo.y))
            .flat_map(row)
            .filter(|at| self.is_bare(*at) && Self::all_about(*at, 0.25, &is))
            .collect();
        self.light_at(&all).await.into_iter().flatten().collect()
    }
}

fn base64_of(bytes: &[u8]) -> String {
    use base64::Engine;
    base64::prelude::BASE64_STANDARD.encode(bytes)
}

/// Mean without what is painted or cast on the floor here and there.
fn mean(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    let off = values.len() / 20;
    let kept = &values[off..values.len() - off];
    kept.iter().sum::<f64>() / kept.len() as f64
}

async fn people(night: bool) {
    let mishap = near_miss();
    let picture = Picture::of(&mishap.run.to_text(), mishap.at, night).await;
    let seen: Vec<_> = picture.frame.people.iter().filter(|p| p.seen).collect();
    assert!(!seen.is_empty());
    for person in seen {
        let share = picture.stands_out(person.at, 0.1, 0.75).await;
        println!("somebody, night {night}: {:.0} % of all directions", 100.0 * share);
        assert!(share >= 0.9, "somebody at {:?}, night {night}: {share}", person.at);
    }
}

async fn cones_lanes_and_sight(night: bool) {
    let run = ridden("figure-eight", "single", "model", 3);
    let picture = Picture::of(&run, 700, night).await;
    let sight = picture.seen();
    let sees = |p: Vec2| in_polygon(p, &sight);
    let mut cones = 0;
    for cone in picture.frame.cones.iter() {
        let at = picture.light_at(&[cone.at]).await[0];
        // Beside the truck there is no bare floor to stand out from.
        let near = (cone.at - picture.frame.eye).length() < 2.5;
        if at.is_none() || near || !Picture::all_about(cone.at, 0.6, sees) {
            continue;
        }
        let share = picture.stands_out(cone.at, 0.05, 0.5).await;
        println!("a cone, night {night}: {:.0} % of all directions", 100.0 * share);
        assert!(share >= 0.9, "a cone at {:?}, night {night}: {share}", cone.at);
        cones += 1;
    }
    assert!(cones >= 2, "{cones} cones in the picture");

    lane_edges(&picture, sees, night).await;

    let unseen = |p: Vec2| !sees(p);
    let (mut told, lanes) = (0, [(true, "the lane"), (false, "the rest")]);
    let on = |lane: bool, p: Vec2| picture.on_lane(p) == lane;
    for (lane, name) in lanes {
        let bright = picture.floor(|p| sees(p) && on(lane, p)).await;
        let dim = picture.floor(|p| unseen(p) && on(lane, p)).await;
        if bright.len() < 100 || dim.len() < 100 {
            continue;
        }
        let c = contrast(middle(bright), mean(dim));
        println!("{name}, night {night}: seen against unseen {c:.2}:1");
        assert!(c >= 1.6, "{name}, night {night}: {c}");
        told += 1;
    }
    assert!(told >= 1, "some floor is seen, and some is not");
    let beside = picture.floor(|p| sees(p) && on(false, p)).await;
    let behind = picture.floor(|p| unseen(p) && on(true, p)).await;
    if beside.len() >= 100 && behind.len() >= 100 {
        let c = contrast(middle(beside), mean(behind));
        println!("night {night}: seen floor off the lane against unseen lane {c:.2}:1");
        assert!(c >= 1.3, "night {night}: {c}");
    }
    edge_of_sight(&picture, &sight, night).await;
}

/// Across each seen piece of a lane's edge there is something that stands out from the lane.
async fn lane_edges(picture: &Picture, sees: impl Fn(Vec2) -> bool, night: bool) {
    let (mut out, mut all) = (0, 0);
    for outline in
        picture.course.lanes.iter().flat_map(|l| core::iter::once(&l.area).chain(&l.holes))
    {
        for (a, b) in outline.iter().zip(outline.iter().cycle().skip(1)) {
            let along = *b - *a;
            let count = (along.length() / 0.5).ceil() as u32;
            for i in 0..count {
                let at = *a + along * ((f64::from(i) + 0.5) / f64::from(count));
                let aside = along.normalized().left();
                // Where two lanes overlap no edge is painted.
                let is_edge =
                    picture.on_lane(at + aside * 0.3) != picture.on_lane(at - aside * 0.3);
                if !is_edge || !picture.is_bare(at) || !Picture::all_about(at, 0.4, &sees) {
                    continue;
                }
                let inwards = if picture.on_lane(at + aside * 0.3) { aside } else { aside * -1.0 };
                let across: Vec<Vec2> =
                    (-10..=10).map(|k| at + inwards * (f64::from(k) * 0.02)).collect();
                let light = picture.light_at(&across).await;
                let floor = picture.light_at(&[at + inwards * 0.3]).await[0];
                let (Some(floor), true) = (floor, light.iter().all(Option::is_some)) else {
                    continue;
                };
                all += 1;
                out += u32::from(light.iter().flatten().any(|l| contrast(*l, floor) >= 3.0));
            }
        }
    }
    println!("lane edges, night {night}: {out} of {all} places");
    assert!(all >= 5 && out * 10 >= all * 9, "lane edges, night {night}: {out} of {all} places");
}

/// Along the boundary of what is seen there is a line that stands out from what is seen.
async fn edge_of_sight(picture: &Picture, sight: &[Vec2], night: bool) {
    let (mut out, mut all) = (0, 0);
    for (a, b) in sight.iter().zip(sight.iter().cycle().skip(1)) {
        let along = *b - *a;
        if along.length() < 0.8 {
            continue;
        }
        let aside = along.normalized().left();
        for i in 1..(along.length() / 0.4) as u32 {
            let at = *a + along.normalized() * (0.4 * f64::from(i));
            if !picture.is_bare(at) {
                continue;
            }
            let pixel = 1.0 / picture.scale;
            let across: Vec<Vec2> =
                (-6..=6).map(|k| at + aside * (f64::from(k) * 0.5 * pixel)).collect();
            let light = picture.light_at(&across).await;
            let floor = picture.light_at(&[at + aside * 0.3]).await[0];
            let (Some(floor), true) = (floor, light.iter().all(Option::is_some)) else {
                continue;
            };
            all += 1;
            out += u32::from(light.iter().flatten().any(|l| contrast(*l, floor) >= 3.0));
        }
    }
    println!("edge of sight, night {night}: {out} of {all} places");
    assert!(all >= 2 && out * 10 >= all * 9, "edge of sight, night {night}: {out} of {all} places");
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn people_stand_out_by_day() {
    people(false).await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn people_stand_out_by_night() {
    people(true).await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn cones_lanes_and_what_is_seen_stand_out_by_day() {
    cones_lanes_and_sight(false).await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn cones_lanes_and_what_is_seen_stand_out_by_night() {
    cones_lanes_and_sight(true).await;
}
