//! The drawings of the walk-round as browsers fetch them: all in one file, by their names.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use super::SiteFile;
use coneyard::names::with_digest;
use coneyard::trouble::Trouble;

/// Makes `drawings-DIGEST.json` of a folder of SVG files.
///
/// # Errors
/// One sentence naming the file that cannot be read.
pub(crate) fn bundle(folder: &Path) -> Result<SiteFile, Trouble> {
    let cannot = |e: std::io::Error| Trouble::with_path("cannot read", folder, &e);
    let mut drawings = BTreeMap::new();
    for entry in fs::read_dir(folder).map_err(cannot)? {
        let path = entry.map_err(cannot)?.path();
        if path.extension().is_none_or(|e| e != "svg") {
            continue;
        }
        let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
        let text =
            fs::read_to_string(&path).map_err(|e| Trouble::with_path("cannot read", &path, &e))?;
        drawings.insert(name, text);
    }
    let content = serde_json::to_vec(&drawings)
        .map_err(|e| Trouble::Here(format!("the drawings cannot be written: {e}")))?;
    Ok(SiteFile { path: with_digest("drawings.json", &content), content })
}

#[cfg(test)]
mod tests {
    use coneyard_core::checks::list::{ASPECTS, CheckList};

    use super::*;

    fn drawings() -> BTreeMap<String, String> {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../levels/checks/drawings");
        serde_json::from_slice(&bundle(&folder).unwrap().content).unwrap()
    }

    fn states(drawing: &str) -> Vec<&str> {
        let groups = drawing.split("data-state=\"").skip(1);
        groups.filter_map(|g| g.split('"').next()).flat_map(str::split_whitespace).collect()
    }

    #[test]
    fn every_view_and_every_point_in_every_state_is_drawn() {
        let (all, list) = (drawings(), CheckList::shipped());
        for aspect in ASPECTS {
            let name = serde_json::to_value(aspect).unwrap();
            let name = format!("view-{}", name.as_str().unwrap());
            assert!(all.contains_key(&name), "{name}");
        }
        for point in &list.points {
            let drawn = states(&all[&point.id]);
            assert!(drawn.contains(&"sound"), "{}", point.id);
            for defect in &point.defects {
                assert!(drawn.contains(&defect.id.as_str()), "{} {}", point.id, defect.id);
            }
        }
    }

    #[test]
    fn what_shows_at_a_glance_is_drawn_in_a_view_of_its_point() {
        let (all, list) = (drawings(), CheckList::shipped());
        for point in &list.points {
            for defect in point.defects.iter().filter(|d| d.glance) {
                let group = format!("{}/{}", point.id, defect.id);
                let shown = all.iter().any(|(name, drawing)| {
                    name.starts_with("view-") && states(drawing).contains(&group.as_str())
                });
                assert!(shown, "{group}");
            }
        }
    }

    /// Else the part would not be drawn at all, which tells more than the defect itself.
    #[test]
    fn a_part_is_gone_from_a_view_only_when_it_is_missing() {
        let (all, list) = (drawings(), CheckList::shipped());
        for (name, drawing) in all.iter().filter(|(name, _)| name.starts_with("view-")) {
            let drawn = states(drawing);
            for point in &list.points {
                if !drawn.contains(&format!("{}/sound", point.id).as_str()) {
                    continue;
                }
                for defect in point.defects.iter().filter(|d| d.id != "missing") {
                    let state = format!("{}/{}", point.id, defect.id);
                    assert!(drawn.contains(&state.as_str()), "{name}: {state}");
                }
            }
        }
    }

    #[test]
    fn no_drawing_runs_or_styles_anything_or_says_which_state_it_is() {
        for (name, drawing) in drawings() {
            for bad in ["<script", "<style", "style=", " id=", "<title", "<desc", "href", " on"] {
                assert!(!drawing.contains(bad), "{name}: {bad}");
            }
        }
    }
}
