//! Whether a drive was on an exercise, with a truck and round by a check list that this host knows. Whoever takes a
//! person out of the way in a file of their own, or a defect off the list, has driven something else, whatever it is
//! called.

use coneyard_core::course::mirror::{MARK, mirrored};
use coneyard_core::course::shipped::{checks_of, text_of_any};
use coneyard_core::run::DriveSetup;
use coneyard_core::truck::spec::shipped::text as truck_text;
use serde_json::Value;

/// Why a drive on this course, or with this truck, counts for nothing; None where all of it is known here. A sentence may
/// be another one: it changes nothing of what is driven.
pub(crate) fn unknown(setup: &DriveSetup, course: &str, truck: &str) -> Option<String> {
    let drives = |text: &str| serde_json::from_str(text).ok().map(without_words);
    let name = course.strip_suffix(MARK).unwrap_or(course);
    let of_course = text_of_any(name).is_some_and(|known| {
        let other_way = (name != course).then(|| mirrored(name, known).ok()).flatten();
        drives(&setup.course) == drives(other_way.as_deref().unwrap_or(known))
    });
    let of_truck = truck_text(truck).is_some_and(|known| drives(&setup.truck) == drives(known));
    let what = if !of_course {
        "its exercise is another one than the one of that name here"
    } else if !of_truck {
        "its truck is another one than the one of that name here"
    } else if drives(&setup.checks) != drives(&checks_of(&setup.course)) {
        "its check list is another one than the one here"
    } else {
        return None;
    };
    Some(format!("{what}: it is kept, and counts for nothing"))
}

/// What is left when nothing is said in words: texts by language, and where a number comes from.
fn without_words(value: Value) -> Value {
    match value {
        Value::Object(fields) => {
            let says = |v: &Value| v.get("en").is_some_and(Value::is_string);
            let fields = fields.into_iter().filter(|(name, v)| name != "source" && !says(v));
            Value::Object(fields.map(|(name, v)| (name, without_words(v))).collect())
        }
        Value::Array(all) => Value::Array(all.into_iter().map(without_words).collect()),
        other => other,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn setup(course: String, truck: String) -> DriveSetup {
        let (rules, checks) = (String::new(), checks_of(&course));
        let (who, started) = (String::new(), String::new());
        DriveSetup { course, truck, rules, checks, seed: 1, who, started }
    }

    fn said(course: impl Fn(String) -> String, truck: impl Fn(String) -> String) -> Option<String> {
        let courses = course(text_of_any("cross-aisles").unwrap().to_owned());
        let trucks = truck(truck_text("single").unwrap().to_owned());
        let name = serde_json::from_str::<Value>(&courses).unwrap()["id"].clone();
        unknown(&setup(courses, trucks), name.as_str().unwrap(), "single")
    }

    fn same(text: String) -> String {
        text
    }

    #[test]
    fn what_is_here_is_known_either_way_round_and_in_other_words() {
        assert_eq!(said(same, same), None);
        assert_eq!(said(|c| mirrored("c", &c).unwrap(), same), None);
        let in_words = |c: String| c.replacen("\"en\": \"", "\"en\": \"Now: ", 3);
        assert_eq!(said(in_words, same), None);
    }

    #[test]
    fn what_drives_otherwise_is_not() {
        let exercise = |c: Option<String>| c.unwrap().starts_with("its exercise");
        assert!(exercise(said(|c| c.replacen("\"traffic\": true", "\"traffic\": false", 1), same)));
        let nobody = |c: String| {
            let mut course: Value = serde_json::from_str(&c).unwrap();
            course.as_object_mut().unwrap().remove("people").expect("somebody walks there");
            course.to_string()
        };
        assert!(exercise(said(nobody, same)));
        let easy = text_of_any("straight").unwrap();
        let renamed = easy.replacen("\"id\": \"straight\"", "\"id\": \"cross-aisles\"", 1);
        assert!(exercise(said(|_| renamed.clone(), same)));
        let wide = |t: String| t.replacen("\"wheelbase_m\": 2.05", "\"wheelbase_m\": 2.051", 1);
        assert!(said(same, wide).unwrap().starts_with("its truck"));
        let walk = text_of_any("walk-round").unwrap().to_owned();
        let mut round = setup(walk, truck_text("single").unwrap().to_owned());
        let said = |setup: &DriveSetup| unknown(setup, "walk-round", "single");
        assert_eq!(said(&round), None);
        let mut list: Value = serde_json::from_str(&round.checks).unwrap();
        list["points"].as_array_mut().unwrap().pop().expect("there are points");
        round.checks = list.to_string();
        assert!(said(&round).unwrap().starts_with("its check list"));
        round.checks = String::new();
        assert!(said(&round).unwrap().starts_with("its check list"));
        let own = unknown(&setup("{}".to_owned(), "{}".to_owned()), "a-yard-of-mine", "single");
        assert!(exercise(own));
    }
}
