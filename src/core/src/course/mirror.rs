//! The mirror image of a course: what was on the left is on the right, and as hard as before.
//!
//! Works on the file's JSON, so that the image is a course file like any other: north becomes
//! south about the east-west line through the origin, headings turn the other way round, and left
//! and right change places wherever the format names them (posts of gates and blind spots, ends of
//! lines, the rider's stance, the columns of a load). Titles and sentences stay: a course that is
//! to be mirrored says neither left nor right in them.

use serde_json::{Map, Number, Value};

use crate::course::parse::MAX_BYTES;
use crate::outside::{BadInput, read_json};

/// What the id of a mirror image ends with.
pub const MARK: &str = "-mirrored";

/// The text of the mirror image of a course. The mirror image of a mirror image is the course
/// itself, written in one fixed way: names in the order of the alphabet and no blanks, so that the
/// same course gives the same text in every program.
///
/// # Errors
/// One sentence when the text is not JSON.
pub fn mirrored(file: &str, text: &str) -> Result<String, BadInput> {
    let course: Value = read_json(file, text.as_bytes(), MAX_BYTES)?;
    Ok(written(&image("", course)))
}

/// The mirror image of what stands in the file under this name.
fn image(name: &str, value: Value) -> Value {
    match value {
        Value::Object(map) => Value::Object(object(map)),
        Value::Array(list) if name.ends_with("_m") && is_point(&list) => Value::Array(point(list)),
        // Rows of columns, each counted from left to right.
        Value::Array(list) if name == "layers" => {
            Value::Array(list.into_iter().map(reversed).collect())
        }
        Value::Array(list) => Value::Array(list.into_iter().map(|v| image(name, v)).collect()),
        Value::Number(n) if matches!(name, "heading_deg" | "uphill_deg") => {
            Value::Number(negated(n))
        }
        Value::String(side) if name == "stance" => Value::String(match side.as_str() {
            "left" => "right".to_owned(),
            "right" => "left".to_owned(),
            _ => side,
        }),
        other => other,
    }
}

fn object(map: Map<String, Value>) -> Map<String, Value> {
    let is_course = map.contains_key("steps") && map.contains_key("floor");
    let mut out = Map::new();
    for (name, value) in map {
        let value = match value {
            Value::String(id) if is_course && name == "id" => Value::String(marked(&id)),
            // What people read and what is only a name stays as it is.
            words if matches!(name.as_str(), "title" | "trains" | "say" | "id") => words,
            other => image(&name, other),
        };
        out.insert(name, value);
    }
    for (a, b) in [("left_m", "right_m"), ("from_m", "to_m")] {
        if let (Some(left), Some(right)) = (out.get(a).cloned(), out.get(b).cloned()) {
            out.insert(a.to_owned(), right);
            out.insert(b.to_owned(), left);
        }
    }
    floor_corners(&mut out);
    out
}

/// The corners of the floor are its least and greatest coordinates.
fn floor_corners(map: &mut Map<String, Value>) {
    const CORNERS: [&str; 2] = ["south_west_m", "north_east_m"];
    let y = |name: &str| map.get(name).and_then(|corner| corner.get(1)).cloned();
    let [Some(was_south), Some(was_north)] = CORNERS.map(y) else { return };
    for (name, y) in CORNERS.iter().zip([was_north, was_south]) {
        if let Some(corner) = map.get_mut(*name).and_then(Value::as_array_mut) {
            corner[1] = y;
        }
    }
}

fn is_point(list: &[Value]) -> bool {
    list.len() == 2 && list.iter().all(Value::is_number)
}

fn point(mut list: Vec<Value>) -> Vec<Value> {
    if let Some(Value::Number(y)) = list.pop() {
        list.push(Value::Number(negated(y)));
    }
    list
}

fn reversed(row: Value) -> Value {
    match row {
        Value::Array(mut columns) => {
            columns.reverse();
            Value::Array(columns)
        }
        other => other,
    }
}

/// Minus the number, without a minus before a zero.
fn negated(n: Number) -> Number {
    if let Some(whole) = n.as_i64() {
        return whole.checked_neg().map_or(n, Number::from);
    }
    match n.as_f64() {
        Some(x) if x != 0.0 => Number::from_f64(-x).unwrap_or(n),
        Some(_) => Number::from(0),
        None => n,
    }
}

fn marked(id: &str) -> String {
    match id.strip_suffix(MARK) {
        Some(bare) => bare.to_owned(),
        None => format!("{id}{MARK}"),
    }
}

/// Names in the order of the alphabet, whatever order a map keeps in this build.
fn written(value: &Value) -> String {
    match value {
        Value::Object(map) => {
            let mut names: Vec<&String> = map.keys().collect();
            names.sort_unstable();
            let fields = names
                .iter()
                .map(|name| format!("{}:{}", Value::from(name.as_str()), written(&map[*name])));
            format!("{{{}}}", fields.collect::<Vec<_>>().join(","))
        }
        Value::Array(list) => {
            format!("[{}]", list.iter().map(written).collect::<Vec<_>>().join(","))
        }
        plain => plain.to_string(),
    }
}
