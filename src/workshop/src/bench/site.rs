//! What the built site weighs.

use std::fs;
use std::path::Path;

use super::table::Row;
use crate::build::sizes::{PARTS, Weight, part_of};

/// The lines about the site, measured if there is one.
pub(super) fn rows(dist: Option<&Path>) -> Vec<Row> {
    let weights = dist.and_then(weigh);
    let weight = |part: &str| {
        let at = PARTS.iter().position(|name| *name == part)?;
        weights.as_ref().map(|weights| weights[at].brotli as f64 / 1e3)
    };
    let note = match dist {
        Some(dist) if weights.is_some() => format!("the site in {}", dist.display()),
        _ => "not measured: there is no built site; run `coneyard-workshop build`".to_owned(),
    };
    [
        ("site as brotli: shell", "shell", Some(300.0), Some(200.0)),
        ("site as brotli: later pages", "later", None, None),
        ("site as brotli: reader", "reader", None, None),
        ("site as brotli: canvas", "canvas", Some(4200.0), Some(3500.0)),
    ]
    .map(|(what, part, must_reach, aim)| Row {
        what,
        measured: weight(part),
        unit: "kB",
        must_reach,
        aim,
        note: note.clone(),
    })
    .into()
}

/// Adds up the sizes of the files at the root of a built site, where both modules lie, by part.
fn weigh(dist: &Path) -> Option<[Weight; PARTS.len()]> {
    let size = |path: &Path| fs::metadata(path).ok().map(|about| about.len());
    let mut weights = [Weight::default(); PARTS.len()];
    for entry in fs::read_dir(dist).ok()?.flatten() {
        let name = entry.file_name().to_string_lossy().into_owned();
        if name.ends_with(".br") || name.ends_with(".gz") || !entry.path().is_file() {
            continue;
        }
        let beside = |ending: &str| size(&dist.join(format!("{name}{ending}")));
        weights[part_of(&name)].add(size(&entry.path())?, beside(".gz"), beside(".br"));
    }
    (weights[0].raw > 0).then_some(weights)
}
