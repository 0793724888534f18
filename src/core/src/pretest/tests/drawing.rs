//! The draw and the mirror images.

use crate::course::mirror::{MARK, mirrored};
use crate::course::{Course, StepKind, check::check, shipped};
use crate::pretest::{Part, TRUCKS, class_word, count, course_of, draw, truck_of};
use crate::truck::spec::shipped as trucks;

#[test]
fn the_draw_of_one_class_stays_what_it_was() {
    for (truck, before, after) in [("single", "", ""), ("double", "pretest-", "-double")] {
        let parts: Vec<String> = draw("heron", 1, truck)
            .iter()
            .map(|p| format!("{} {} {} {}", p.course, p.mirrored, p.seed, p.truck))
            .collect();
        let expected: Vec<String> = EXPECTED
            .lines()
            .map(|line| format!("{} {truck}", line.replace('~', before).replace('+', after)))
            .collect();
        assert_eq!(parts, expected);
    }
}

/// Course, side and seed. The double truck has a course of its own where there is a plus; that of a tilde
/// is no part of the pre-test by its name.
const EXPECTED: &str = "\
pretest-walk-round true 2900147071
~straight+ false 2124971373
pretest-stops+ false 1922694110
pretest-laps+ true 1436489380
pretest-laps+ false 1809573911
pretest-eight true 1099399496
pretest-eight false 3313098966
tight-corner-load false 679939370
bays true 240003367
pretest-circuit true 1745838550
pretest-leaving+ true 3971165453
";

/// When this fails because a course or the truck has changed: raise `DRAW`, and write the digest
/// anew.
#[test]
fn the_courses_of_the_parts_are_those_of_this_version_of_the_draw() {
    for (truck, digest) in [("single", "4f2427d0a5dbfbd1"), ("double", "5786cfa89b54600e")] {
        let mut hasher = blake3::Hasher::new();
        for part in [0, 1].into_iter().flat_map(|seat| draw("heron", seat, truck)) {
            hasher.update(part.course_text().unwrap().as_bytes());
            hasher.update(part.truck_text().unwrap().as_bytes());
        }
        assert_eq!(hasher.finalize().to_hex()[..16], *digest, "{truck}");
    }
}

#[test]
fn everybody_drives_the_same_courses_in_the_same_order_and_neighbours_the_other_side() {
    for truck in TRUCKS {
        let drawn = |seat| draw("7", seat, truck);
        let courses = |seat| -> Vec<String> { drawn(seat).into_iter().map(|p| p.course).collect() };
        assert_eq!(courses(0).len(), count());
        let of_parts: Vec<&str> = (0..count()).filter_map(|n| course_of(n, truck)).collect();
        assert_eq!(courses(0), of_parts);
        for seat in 0..40 {
            assert_eq!(courses(seat), courses(0));
            for (mine, next) in drawn(seat).iter().zip(drawn(seat + 1)) {
                assert_ne!(mine.mirrored, next.mirrored, "{} at seat {seat}", mine.course);
                assert_ne!(mine.seed, next.seed, "{} at seat {seat}", mine.course);
            }
            for twice in ["pretest-laps", "pretest-eight"] {
                let of_it = |p: &Part| p.course.trim_end_matches("-double") == twice;
                let sides: Vec<bool> =
                    drawn(seat).iter().filter(|p| of_it(p)).map(|p| p.mirrored).collect();
                assert!(sides == [true, false] || sides == [false, true], "{twice} at {seat}");
            }
        }
    }
}

#[test]
fn every_part_is_laid_out_for_its_truck() {
    for truck in TRUCKS {
        for part in draw("7", 0, truck) {
            let course = Course::parse("c", part.course_text().unwrap().as_bytes()).unwrap();
            let spec = [trucks::single(), trucks::double()].into_iter().find(|t| t.id == truck);
            assert!(course.trucks.iter().any(|t| t == truck), "{truck} on {}", part.course);
            assert_eq!(check(&course, &spec.unwrap()), [], "{truck} on {}", part.course);
        }
    }
}

#[test]
fn it_is_taken_on_one_of_its_trucks() {
    assert_eq!(TRUCKS.map(|t| truck_of(t).unwrap()), TRUCKS);
    for none in ["", "Single", "crane"] {
        let said = truck_of(none).unwrap_err().to_string();
        assert!(said.contains("one of these trucks: single, double"), "{said}");
    }
}

#[test]
fn classes_differ_in_sides_and_all_sides_come_up() {
    let mut mirrored = vec![0; count()];
    for class in 0..200 {
        let parts = draw(&class.to_string(), 3, "single");
        mirrored.iter_mut().zip(&parts).for_each(|(n, p)| *n += u32::from(p.mirrored));
    }
    assert!(mirrored.iter().all(|n| (70..=130).contains(n)), "{mirrored:?}");
}

#[test]
fn a_word_is_the_same_however_it_is_typed() {
    assert_eq!(class_word("  Grey  Heron ").unwrap(), "grey-heron");
    assert_eq!(class_word("grey-heron").unwrap(), "grey-heron");
    for bad in ["", "  ", &"x".repeat(41), "a\u{7}b"] {
        let sentence = class_word(bad).unwrap_err().to_string();
        assert!(sentence.contains("use a word or a number of 1 to 40 letters"), "{sentence}");
    }
}

#[test]
fn a_mirror_image_of_a_mirror_image_is_the_course() {
    for (name, text) in shipped::ALL {
        let once = mirrored(name, text).unwrap();
        let twice = mirrored(name, &once).unwrap();
        let course = |text: &str| Course::parse(name, text.as_bytes()).unwrap();
        assert_eq!(course(&twice), course(text), "{name}");
        assert_eq!(mirrored(name, &twice).unwrap(), once, "{name}");
        assert_ne!(course(&once), course(text), "{name}");
        assert_eq!(course(&once).id, format!("{name}{MARK}"));
        assert!(!once.contains("-0,") && !once.contains("-0.0,"), "{name}");
    }
}

#[test]
fn every_mirror_image_passes_the_checker() {
    for (name, text) in shipped::ALL {
        let course = Course::parse(name, mirrored(name, text).unwrap().as_bytes()).unwrap();
        for truck in [trucks::single(), trucks::double()] {
            if course.trucks.contains(&truck.id) {
                assert_eq!(check(&course, &truck), [], "{name} {}", truck.id);
            }
        }
    }
}

/// Both posts of a gate and the way through it, the stance, the floor and a row of columns.
#[test]
fn what_was_left_is_right() {
    let mut file: serde_json::Value = serde_json::from_str(shipped::text("bays").unwrap()).unwrap();
    file["loads"][0]["layers"][0] = serde_json::json!([4, 3, 0]);
    let text = file.to_string();
    let plain = Course::parse("c", text.as_bytes()).unwrap();
    let image = Course::parse("c", mirrored("c", &text).unwrap().as_bytes()).unwrap();
    for (a, b) in plain.gates.iter().zip(&image.gates) {
        assert_eq!((a.left.x, a.left.y), (b.right.x, -b.right.y));
        let (to, back) = (a.direction(), b.direction());
        assert!((to.x - back.x).abs() < 1e-12 && (to.y + back.y).abs() < 1e-12, "{}", a.id);
    }
    assert_ne!(plain.spawn_stance, image.spawn_stance);
    assert_eq!((image.floor_min.y, image.floor_max.y), (-24.0, 0.0));
    assert_eq!(plain.spawn.heading, -image.spawn.heading);
    let image: serde_json::Value = serde_json::from_str(&mirrored("c", &text).unwrap()).unwrap();
    assert_eq!(image["loads"][0]["layers"][0], serde_json::json!([0, 3, 4]));
    assert_eq!(image["title"], file["title"]);
}

/// A sentence that names a side would be wrong in the mirror image.
#[test]
fn no_sentence_of_a_part_names_a_side() {
    const SIDES: [&str; 17] = [
        "left",
        "right",
        "clockwise",
        "north",
        "south",
        "east",
        "west",
        "izquierda",
        "izquierdo",
        "derecha",
        "derecho",
        "norte",
        "sur",
        "este",
        "oeste",
        "horario",
        "antihorario",
    ];
    for part in TRUCKS.into_iter().flat_map(|truck| draw("7", 0, truck)) {
        let course = Course::parse("c", part.course_text().unwrap().as_bytes()).unwrap();
        let said = course.steps.iter().map(|s| &s.say).chain([&course.title, &course.trains]);
        for sentence in said.flat_map(|s| s.values()) {
            let lower = sentence.to_lowercase();
            let words = lower.split(|c: char| !c.is_alphabetic());
            for word in words {
                assert!(!SIDES.contains(&word), "{}: {sentence}", part.course);
            }
        }
    }
}

#[test]
fn the_last_step_of_the_sitting_is_to_leave_the_truck() {
    let last = draw("7", 0, "double").pop().unwrap();
    let course = Course::parse("c", last.course_text().unwrap().as_bytes()).unwrap();
    assert!(matches!(course.steps.last().unwrap().what, StepKind::Park { leave: true, .. }));
}
