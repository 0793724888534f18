//! Reads a check list. Each refusal names the place and what would do.

use serde::Deserialize;

use crate::checks::POINTS_MOST;
use crate::checks::list::{
    Aspect, Changes, CheckList, Defect, Grade, How, Noise, Part, Point, Reason,
};
use crate::finding::Severity;
use crate::outside::bounded::List;
use crate::outside::values::{SaidFile, Wrong, each, name, no_twins, said, short, within, wrong};
use crate::outside::{BadInput, read_json};

/// Version of the file format.
const FORMAT: u32 = 1;
/// Largest file that is read, bytes.
const MAX_BYTES: usize = 512 * 1024;
/// Most grades: an answer is one of them or "fine", each with a key of its own.
const GRADES_MOST: usize = 6;
/// Width and height of a drawing of the truck, in its own units.
const DRAWING: [f64; 2] = [1000.0, 600.0];

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ListFile {
    #[serde(rename = "$schema", default)]
    _schema: Option<String>,
    format: u32,
    name: SaidFile,
    shares: SharesFile,
    most_defects: u32,
    severities: List<GradeFile, GRADES_MOST>,
    reasons: List<ReasonFile, 40>,
    points: List<PointFile, POINTS_MOST>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct SharesFile {
    practice: f64,
    daily: f64,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct GradeFile {
    id: String,
    may_run: bool,
    missed: Severity,
    name: SaidFile,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ReasonFile {
    id: String,
    name: SaidFile,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PointFile {
    id: String,
    name: SaidFile,
    part: Part,
    asks: SaidFile,
    citation: String,
    views: List<PlaceFile, 7>,
    how: How,
    sound: SaidFile,
    #[serde(default)]
    noise: Option<Noise>,
    defects: List<DefectFile, 12>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PlaceFile {
    view: Aspect,
    at: [f64; 2],
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct DefectFile {
    id: String,
    severity: String,
    reasons: List<String, 6>,
    name: SaidFile,
    seen: SaidFile,
    why: SaidFile,
    citation: String,
    #[serde(default)]
    seen_from: List<Aspect, 7>,
    #[serde(default)]
    glance: bool,
    #[serde(default)]
    noise: Option<Noise>,
    #[serde(default)]
    changes: Changes,
    #[serde(default)]
    trucks: List<String, 20>,
}

/// Names that points refer to.
struct Names {
    grades: Vec<Grade>,
    reasons: Vec<Reason>,
}

pub(super) fn read(file: &str, text: &[u8]) -> Result<CheckList, BadInput> {
    let f: ListFile = read_json(file, text, MAX_BYTES)?;
    list(f).map_err(|w| BadInput::new(file, w.place, w.reason))
}

fn list(f: ListFile) -> Result<CheckList, Wrong> {
    if f.format != FORMAT {
        let reason = format!("this is format {}, and this program reads {FORMAT}", f.format);
        return wrong("format", reason);
    }
    if f.severities.0.is_empty() || f.points.0.is_empty() {
        return wrong("points", "a check list has at least one severity and one point");
    }
    let grades = each("severities", f.severities, grade)?;
    let reasons = each("reasons", f.reasons, |at, r| {
        name(&format!("{at}.id"), &r.id)?;
        Ok(Reason { id: r.id, name: said(&format!("{at}.name"), r.name)? })
    })?;
    no_twins("severities", grades.iter().map(|g| g.id.as_str()))?;
    no_twins("reasons", reasons.iter().map(|r| r.id.as_str()))?;
    let names = Names { grades, reasons };
    let points = each("points", f.points, |at, p| point(at, p, &names))?;
    no_twins("points", points.iter().map(|p| p.id.as_str()))?;
    let faulty = points.iter().filter(|p| !p.defects.is_empty()).count();
    if f.most_defects == 0 || f.most_defects as usize > faulty {
        let reason = format!("use 1 to {faulty}, the number of points with a defect");
        return wrong("most_defects", reason);
    }
    Ok(CheckList {
        name: said("name", f.name)?,
        practice_share: within("shares.practice", f.shares.practice, 0.0, 1.0)?,
        daily_share: within("shares.daily", f.shares.daily, 0.0, 1.0)?,
        most_defects: f.most_defects,
        grades: names.grades,
        reasons: names.reasons,
        points,
    })
}

fn grade(at: &str, g: GradeFile) -> Result<Grade, Wrong> {
    name(&format!("{at}.id"), &g.id)?;
    if !matches!(g.missed, Severity::Minor | Severity::Major) {
        return wrong(format!("{at}.missed"), "to miss one is \"minor\" or \"major\"");
    }
    Ok(Grade {
        id: g.id,
        may_run: g.may_run,
        missed: g.missed,
        name: said(&format!("{at}.name"), g.name)?,
    })
}

fn point(at: &str, p: PointFile, names: &Names) -> Result<Point, Wrong> {
    name(&format!("{at}.id"), &p.id)?;
    let places = each(&format!("{at}.views"), p.views, |at, place| {
        for (x, most) in place.at.into_iter().zip(DRAWING) {
            within(&format!("{at}.at"), x, 0.0, most)?;
        }
        Ok((place.view, place.at))
    })?;
    if places.is_empty() {
        return wrong(format!("{at}.views"), "name at least one view that shows the point");
    }
    let mut views: Vec<Aspect> = places.iter().map(|(v, _)| *v).collect();
    views.sort_unstable();
    views.dedup();
    if views.len() != places.len() {
        return wrong(format!("{at}.views"), "each view is named once");
    }
    let defects =
        each(&format!("{at}.defects"), p.defects, |at, d| defect(at, d, p.how, &views, names))?;
    no_twins(&format!("{at}.defects"), defects.iter().map(|d| d.id.as_str()))?;
    Ok(Point {
        name: said(&format!("{at}.name"), p.name)?,
        part: p.part,
        asks: said(&format!("{at}.asks"), p.asks)?,
        citation: cited(&format!("{at}.citation"), p.citation)?,
        places,
        how: p.how,
        sound: said(&format!("{at}.sound"), p.sound)?,
        noise: p.noise,
        defects,
        id: p.id,
    })
}

fn defect(
    at: &str,
    d: DefectFile,
    how: How,
    views: &[Aspect],
    names: &Names,
) -> Result<Defect, Wrong> {
    name(&format!("{at}.id"), &d.id)?;
    let known = |at: String, id: &str, what: &str, found: Option<usize>| match found {
        Some(i) => Ok(i),
        None => wrong(at, format!("the list has no {what} named \"{}\"", short(id))),
    };
    let grade = names.grades.iter().position(|g| g.id == d.severity);
    let grade = known(format!("{at}.severity"), &d.severity, "severity", grade)?;
    let reasons = each(&format!("{at}.reasons"), d.reasons, |at, id| {
        let found = names.reasons.iter().position(|r| r.id == id);
        known(at.to_owned(), &id, "reason", found)
    })?;
    if reasons.is_empty() {
        return wrong(format!("{at}.reasons"), "name at least one reason of the list's");
    }
    let seen_from = d.seen_from.0;
    if how == How::Try && (!seen_from.is_empty() || d.glance) {
        return wrong(at, "what is tried is found by trying; leave seen_from and glance out");
    }
    if let Some(i) = seen_from.iter().position(|v| !views.contains(v)) {
        return wrong(format!("{at}.seen_from[{i}]"), "the point does not lie in this view");
    }
    for (key, value, most) in d.changes.numbers() {
        if let Some(value) = value {
            within(&format!("{at}.changes.{key}"), value, 0.0, most)?;
        }
    }
    Ok(Defect {
        grade,
        reasons,
        name: said(&format!("{at}.name"), d.name)?,
        seen: said(&format!("{at}.seen"), d.seen)?,
        why: said(&format!("{at}.why"), d.why)?,
        citation: cited(&format!("{at}.citation"), d.citation)?,
        seen_from: if seen_from.is_empty() { views.to_vec() } else { seen_from },
        glance: d.glance,
        noise: d.noise,
        changes: d.changes,
        trucks: d.trucks.0,
        id: d.id,
    })
}

fn cited(at: &str, text: String) -> Result<String, Wrong> {
    let length = text.chars().count();
    if text.trim().is_empty() || length > 200 || text.chars().any(char::is_control) {
        return wrong(at, "say where this comes from, such as \"common practice\", in one line");
    }
    Ok(text)
}
