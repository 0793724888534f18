//! The shipped lesson: everything that it shows is driven here, the wrong way shows the fault that it names while it
//! is shown, the right way shows none, and what is kept of the drives is what comes of them.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_core::debrief::Debrief;
use coneyard_core::finding::Severity;
use coneyard_core::lesson::scene::{ABOARD, Drawn, EVERY, HORN, Kind, Scene};
use coneyard_core::lesson::{self, Show, scene_name};
use coneyard_core::outside::to_json;
use coneyard_sim::scenes::side_by_side;
use coneyard_tests::yards::repo_file;

fn faults(debrief: &Debrief) -> Vec<&str> {
    let bad = debrief.findings.iter().filter(|f| f.severity != Severity::Good);
    bad.map(|f| f.code.as_str()).collect()
}

fn shown(drawn: &Drawn, code: &str) -> bool {
    drawn.found.iter().any(|f| f.code == code && f.severity != Severity::Good)
}

/// Everything that is shown of driving, driven: the name of its scene, the show, the scene and both debriefs.
fn driven() -> Vec<(String, Show, Scene, [Debrief; 2])> {
    let lesson = lesson::shipped();
    let mut all = Vec::new();
    for topic in &lesson.topics {
        for (n, show) in topic.shows.iter().enumerate() {
            let Some(asked) = show.asks() else { continue };
            let (scene, debriefs) = side_by_side(&asked).unwrap();
            all.push((scene_name(&topic.id, n), show.clone(), scene, debriefs));
        }
    }
    assert!(all.len() > 20, "{}", all.len());
    all
}

#[test]
fn the_wrong_way_shows_its_fault_and_the_right_way_none() {
    for (name, show, scene, debriefs) in driven() {
        let [first, second] = &debriefs;
        assert_eq!(faults(first), [""; 0], "{name}: the first");
        match show {
            Show::Ways(ways) => {
                for code in &ways.wrong.finds {
                    assert!(shown(&scene.sides[1], code), "{name}: {code} does not show");
                }
                // And it is told of by no other fault than by those that come with it.
                let others = faults(second);
                assert!(!others.is_empty(), "{name}");
            }
            Show::Trucks(_) => assert_eq!(faults(second), [""; 0], "{name}: the second"),
            Show::Part { .. } => {}
        }
    }
}

#[test]
fn what_is_kept_is_what_is_driven() {
    for (name, _, scene, _) in driven() {
        let path = repo_file(&format!("levels/lessons/scenes/{name}.json"));
        let kept = std::fs::read_to_string(&path).unwrap();
        assert_eq!(kept, to_json(&scene).unwrap(), "{name}: coneyard-workshop lesson");
        let read: Scene = serde_json::from_str(&kept).unwrap();
        assert_eq!(read, scene, "{name}: it comes back as it was written");
    }
    // And nothing is kept that nobody shows.
    let lesson = lesson::shipped();
    let names: Vec<String> = lesson.scenes().map(|(name, _)| format!("{name}.json")).collect();
    for entry in std::fs::read_dir(repo_file("levels/lessons/scenes")).unwrap() {
        let file = entry.unwrap().file_name().to_string_lossy().into_owned();
        assert!(names.contains(&file), "{file} belongs to nothing");
    }
}

/// All of it is fetched at once when the lesson is opened, over whatever line a classroom has.
#[test]
fn the_scenes_are_small() {
    let mut all = 0;
    for entry in std::fs::read_dir(repo_file("levels/lessons/scenes")).unwrap() {
        let bytes = entry.unwrap().metadata().unwrap().len();
        assert!(bytes < 64 * 1024, "{bytes}");
        all += bytes;
    }
    assert!((50_000..600_000).contains(&all), "{all}");
}

#[test]
fn the_truck_stays_in_the_picture_and_never_leaps() {
    for (name, show, scene, _) in driven() {
        let [low, high] = scene.region;
        for drawn in &scene.sides {
            for pair in drawn.truck.windows(2) {
                let [a, b] = pair else { continue };
                let step = |i: usize| f64::from(b.0[i] - a.0[i]) / 100.0;
                let metres = coneyard_core::math::hypot(step(0), step(1));
                // 3.4 m/s, the truck's most, for an eighth of a second, and rounding.
                assert!(metres < 3.4 / 8.0 + 0.03, "{name}: {metres} m");
                assert!((b.0[2] - a.0[2]).abs() < 45, "{name}: turns at once");
            }
            for at in &drawn.truck {
                let (x, y) = (f64::from(at.0[0]) / 100.0, f64::from(at.0[1]) / 100.0);
                let is_in = (low.x..=high.x).contains(&x) && (low.y..=high.y).contains(&y);
                assert!(is_in, "{name}: {x} {y}");
            }
            let long = drawn.truck.len() as f64 * f64::from(EVERY) / 64.0;
            assert!(long > 2.0, "{name}: {long} s");
        }
        // Both sides are to be told apart by an eye: they are not the same drive.
        assert!(scene.sides[0].truck != scene.sides[1].truck, "{name}: both sides are the same");
        assert!(!show.watch().is_empty(), "{name}");
    }
}

/// What is watched is what differs: a few of the pictures, by what can be counted in them.
#[test]
fn the_pictures_show_what_they_are_about() {
    let all = driven();
    let sides = |name: &str| {
        let found = all.iter().find(|(n, ..)| n == name);
        found.map(|(_, _, scene, _)| &scene.sides).unwrap()
    };
    let any = |drawn: &Drawn, bit: u16| drawn.truck.iter().any(|at| at.is(bit));
    let [right, wrong] = sides("horn-2");
    assert!(any(right, HORN) && !any(wrong, HORN), "one sounds the horn, one does not");
    let [right, wrong] = sides("forks-1");
    let highest = |d: &Drawn| d.truck.iter().map(|at| at.1[2]).max().unwrap();
    assert!(highest(right) < 60 && highest(wrong) > 60, "forks, mm");
    let [_, wrong] = sides("plugging-1");
    assert!(wrong.truck.iter().any(|at| at.1[0] < -5), "it runs back");
    let [_, wrong] = sides("parking-1");
    assert!(wrong.truck.iter().any(|at| !at.is(ABOARD)), "the rider is off the truck");
    let [right, wrong] = sides("people-1");
    let slowest = |d: &Drawn| d.truck.iter().map(|at| at.1[0]).min().unwrap();
    assert!(slowest(right) < 3 && slowest(wrong) > 100, "one stands, one drives on");
    let people = |d: &Drawn| d.others.iter().filter(|m| m.kind == Kind::Person).count();
    assert!(people(right) > 0 && people(wrong) > 0, "somebody is there");
    let walks = right.others.iter().any(|m| m.kind == Kind::Person && m.at.len() > 1);
    assert!(walks, "and is waited for until they have gone");
}
