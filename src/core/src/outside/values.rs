//! What readers of files share: numbers within bounds, names, points, areas, sentences. Each refusal
//! says the place; the reader adds the file.

use crate::geometry::{edges, self_crossing, signed_area};
use crate::math::{DEG, Pose, Vec2};
use crate::outside::Said;
use crate::outside::bounded::{List, Map};

/// A point, m, east then north.
pub(crate) type Point = [f64; 2];
/// A polygon's corners.
pub(crate) type Outline = List<Point, 256>;
/// A sentence by language code.
pub(crate) type SaidFile = Map<String, String, 12>;

/// Coordinates lie within this distance of the origin along each axis, m.
const FARTHEST_M: f64 = 500.0;
/// Most characters of a sentence.
const LONGEST_SENTENCE: usize = 400;

/// A refusal without its file, which its reader adds.
pub(crate) struct Wrong {
    pub(crate) place: String,
    pub(crate) reason: String,
}

pub(crate) fn wrong<T>(place: impl Into<String>, reason: impl Into<String>) -> Result<T, Wrong> {
    Err(Wrong { place: place.into(), reason: reason.into() })
}

pub(crate) fn find(at: &str, id: &str, what: &str, found: Option<usize>) -> Result<usize, Wrong> {
    match found {
        Some(i) => Ok(i),
        None => wrong(at, format!("the course has no {what} named \"{}\"", short(id))),
    }
}

pub(crate) fn each<T, U, const MAX: usize>(
    place: &str,
    list: List<T, MAX>,
    mut read: impl FnMut(&str, T) -> Result<U, Wrong>,
) -> Result<Vec<U>, Wrong> {
    list.0.into_iter().enumerate().map(|(i, entry)| read(&format!("{place}[{i}]"), entry)).collect()
}

pub(crate) fn point(at: &str, [x, y]: Point) -> Result<Vec2, Wrong> {
    for v in [x, y] {
        if !(-FARTHEST_M..=FARTHEST_M).contains(&v) {
            return wrong(
                at,
                format!("{} lies more than {FARTHEST_M} m from the origin", number(v)),
            );
        }
    }
    Ok(Vec2 { x, y })
}

pub(crate) fn pose(at: &str, field: &str, middle: Point, heading_deg: f64) -> Result<Pose, Wrong> {
    Ok(Pose {
        at: point(&format!("{at}.{field}"), middle)?,
        heading: DEG * within(&format!("{at}.heading_deg"), heading_deg, -360.0, 360.0)?,
    })
}

pub(crate) fn ends(
    at: &str,
    (a_name, a): (&str, Point),
    (b_name, b): (&str, Point),
    least_m: f64,
) -> Result<(Vec2, Vec2), Wrong> {
    let a = point(&format!("{at}.{a_name}"), a)?;
    let b = point(&format!("{at}.{b_name}"), b)?;
    let length = (b - a).length();
    if !(least_m..=200.0).contains(&length) {
        return wrong(at, format!("its ends are {length:.2} m apart; use {least_m} m to 200 m"));
    }
    Ok((a, b))
}

/// An area's corners, in order.
pub(crate) fn outline(at: &str, corners: &Outline) -> Result<Vec<Vec2>, Wrong> {
    if corners.0.len() < 3 {
        return wrong(at, "an area needs at least 3 corners");
    }
    let area: Vec<Vec2> = corners
        .0
        .iter()
        .enumerate()
        .map(|(i, c)| point(&format!("{at}[{i}]"), *c))
        .collect::<Result<_, _>>()?;
    if let Some(i) = edges(&area).position(|(a, b)| (b - a).length() < 1e-3) {
        return wrong(
            format!("{at}[{i}]"),
            "this corner is the same as the next one; leave one out",
        );
    }
    if let Some(i) = self_crossing(&area) {
        return wrong(
            format!("{at}[{i}]"),
            "the edge that starts here crosses another edge of the same area",
        );
    }
    if signed_area(&area).abs() < 0.01 {
        return wrong(at, "the area is smaller than 0.01 square metres");
    }
    Ok(area)
}

pub(crate) fn within(at: &str, value: f64, least: f64, most: f64) -> Result<f64, Wrong> {
    if (least..=most).contains(&value) {
        return Ok(value);
    }
    wrong(at, format!("{} lies outside {least} to {most}", number(value)))
}

/// A short name.
pub(crate) fn name(at: &str, id: &str) -> Result<(), Wrong> {
    let plain = |b: u8| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-';
    if (1..=40).contains(&id.len()) && id.bytes().all(plain) {
        return Ok(());
    }
    wrong(at, "use 1 to 40 lower-case letters, digits and dashes")
}

pub(crate) fn no_twins<'a>(list: &str, ids: impl Iterator<Item = &'a str>) -> Result<(), Wrong> {
    let mut seen = std::collections::BTreeSet::new();
    for (i, id) in ids.enumerate() {
        if !seen.insert(id) {
            return wrong(
                format!("{list}[{i}].id"),
                format!("the name \"{id}\" is used twice; rename one"),
            );
        }
    }
    Ok(())
}

/// A sentence in at least one language.
pub(crate) fn said(at: &str, texts: SaidFile) -> Result<Said, Wrong> {
    if texts.0.is_empty() {
        return wrong(at, "give the text in at least one language");
    }
    for (language, text) in &texts.0 {
        let letters = language.bytes().all(|b| b.is_ascii_lowercase());
        if !(2..=3).contains(&language.len()) || !letters {
            return wrong(
                at,
                format!(
                    "\"{}\" is no language code; use two or three lower-case letters, like \"en\"",
                    short(language)
                ),
            );
        }
        let length = text.chars().count();
        if text.trim().is_empty() || length > LONGEST_SENTENCE || text.chars().any(char::is_control)
        {
            return wrong(
                format!("{at}.{language}"),
                format!("use 1 to {LONGEST_SENTENCE} characters on one line"),
            );
        }
    }
    Ok(texts.0)
}

/// A number from the file, short whatever it is.
fn number(v: f64) -> String {
    if v.abs() < 1e6 { format!("{v}") } else { format!("{v:e}") }
}

/// A name from the file as far as a message may show it.
pub(crate) fn short(text: &str) -> String {
    text.chars().filter(|c| !c.is_control()).take(40).collect()
}
