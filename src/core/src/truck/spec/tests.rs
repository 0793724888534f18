//! The shipped trucks are valid for their schema and their reader; broken ones are refused by both.

use serde_json::{Value, json};

use super::*;

fn schema() -> Value {
    serde_json::from_str(include_str!("../../../../../levels/truck.schema.json")).unwrap()
}

fn validator() -> jsonschema::Validator {
    jsonschema::draft202012::meta::validate(&schema()).expect("the schema is a schema");
    jsonschema::draft202012::new(&schema()).unwrap()
}

fn single() -> Value {
    serde_json::from_str(shipped::SINGLE).unwrap()
}

fn read(truck: &Value) -> Result<TruckSpec, BadInput> {
    TruckSpec::parse("t.json", truck.to_string().as_bytes())
}

/// JSON pointer, least and most of every number that the schema bounds.
fn bounded(of: &Value, place: &str, into: &mut Vec<(String, f64, f64)>) {
    for (name, inner) in of["properties"].as_object().into_iter().flatten() {
        let place = format!("{place}/{name}");
        if let (Some(least), Some(most)) = (inner["minimum"].as_f64(), inner["maximum"].as_f64()) {
            into.push((place.clone(), least, most));
        }
        bounded(inner, &place, into);
    }
}

#[test]
fn the_shipped_trucks_are_valid() {
    let validator = validator();
    for (name, text) in shipped::ALL {
        let truck: Value = serde_json::from_str(text).unwrap();
        if let Err(e) = validator.validate(&truck) {
            panic!("{name}: {e} at {}", e.instance_path());
        }
        assert_eq!(TruckSpec::parse(name, text.as_bytes()).unwrap().id, name);
        assert_eq!(shipped::text(name), Some(text));
    }
    assert_eq!(shipped::text("triple"), None);
    assert_eq!((shipped::single().id, shipped::double().id), ("single".into(), "double".into()));
}

#[test]
fn every_shipped_truck_is_listed_and_names_its_schema() {
    let folder = concat!(env!("CARGO_MANIFEST_DIR"), "/../../levels/trucks");
    let mut files = Vec::new();
    for file in std::fs::read_dir(folder).unwrap() {
        let path = file.unwrap().path();
        let truck: Value = serde_json::from_str(&std::fs::read_to_string(&path).unwrap()).unwrap();
        let named = path.parent().unwrap().join(truck["$schema"].as_str().unwrap());
        assert!(named.is_file(), "{} is not there", named.display());
        files.push(path.file_stem().unwrap().to_str().unwrap().to_owned());
    }
    files.sort();
    let mut listed = shipped::ALL.map(|(name, _)| name);
    listed.sort_unstable();
    assert_eq!(files, listed);
}

#[test]
fn a_value_out_of_range_is_named_with_its_place() {
    let text = shipped::SINGLE.replace("\"wheelbase_m\": 2.05", "\"wheelbase_m\": -2.05");
    let e = TruckSpec::parse("t.json", text.as_bytes()).expect_err("negative wheelbase");
    assert_eq!(e.to_string(), "t.json, at geometry.wheelbase_m: -2.05 lies outside 0.8 to 6");
}

/// The schema says the widest range of each number; where the reader compares it with another one,
/// the reader's may be narrower, never wider.
#[test]
fn what_the_schema_refuses_the_reader_refuses() {
    let (validator, mut numbers) = (validator(), Vec::new());
    bounded(&schema(), "", &mut numbers);
    assert_eq!(numbers.len(), 62, "every number of a truck has its range");
    for (place, least, most) in numbers {
        let step = if place == "/forks/pallets" { 1.0 } else { 1e-6 };
        for value in [least - step, most + step, -1e300, 1e300] {
            let mut truck = single();
            *truck.pointer_mut(&place).expect("the shipped truck has it") = json!(value);
            assert!(!validator.is_valid(&truck), "the schema takes {value} at {place}");
            assert!(read(&truck).is_err(), "the reader takes {value} at {place}");
        }
    }
}

/// Each field is taken out, and one that nobody knows is put beside it.
#[test]
fn what_is_missing_or_unknown_both_refuse() {
    let validator = validator();
    let groups = ["", "/geometry", "/mass", "/friction", "/travel", "/arm", "/tiller", "/forks"];
    for group in groups.into_iter().chain(["/rider"]) {
        let names: Vec<String> =
            single().pointer(group).unwrap().as_object().unwrap().keys().cloned().collect();
        for name in names.iter().filter(|n| *n != "$schema") {
            let mut truck = single();
            truck.pointer_mut(group).unwrap().as_object_mut().unwrap().remove(name);
            assert!(!validator.is_valid(&truck), "the schema does without {group}/{name}");
            assert!(read(&truck).is_err(), "the reader does without {group}/{name}");
        }
        let mut truck = single();
        truck.pointer_mut(group).unwrap()["colour"] = json!(1);
        assert!(!validator.is_valid(&truck), "the schema takes a field in {group}");
        assert!(read(&truck).is_err(), "the reader takes a field in {group}");
    }
    for (place, value) in
        [("/format", json!(2)), ("/id", json!("A b")), ("/id", json!("")), ("/source", json!(1))]
    {
        let mut truck = single();
        *truck.pointer_mut(place).unwrap() = value;
        assert!(!validator.is_valid(&truck) && read(&truck).is_err(), "{place}");
    }
}
