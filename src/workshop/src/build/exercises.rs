//! The exercises as browsers fetch them: courses, trucks and site rules in one file, since on a slow line
//! every file costs its way there and back.

use std::fs;
use std::path::Path;

use coneyard_core::reading::{Exercises, Written};

use super::SiteFile;
use coneyard::names::with_digest;
use coneyard::trouble::Trouble;

/// Makes `exercises-DIGEST.json` of the folder of levels. Whether a course can be driven is said where it is
/// to be driven, and by `coneyard course`.
///
/// # Errors
/// One sentence naming the file that is not there or cannot be read.
pub(crate) fn bundle(levels: &Path) -> Result<SiteFile, Trouble> {
    let index = levels.join("index.json");
    let names: Vec<String> = serde_json::from_str(&text(&index)?)
        .map_err(|e| Trouble::with_path("cannot read the list of courses in", &index, &e))?;
    let mut courses = Vec::new();
    for name in &names {
        courses.push(written(&levels.join(name))?);
    }
    let folder = levels.join("trucks");
    let cannot = |e: std::io::Error| Trouble::with_path("cannot read", &folder, &e);
    let mut trucks = Vec::new();
    for entry in fs::read_dir(&folder).map_err(cannot)? {
        trucks.push(written(&entry.map_err(cannot)?.path())?);
    }
    trucks.sort_by(|a, b| a.name.cmp(&b.name));
    let rules = text(&levels.join("site-rules.json"))?;
    let checks = text(&levels.join("checks/pallet-trucks.json"))?;
    let content = serde_json::to_vec(&Exercises { courses, trucks, rules, checks })
        .map_err(|e| Trouble::Here(format!("the exercises cannot be written: {e}")))?;
    Ok(SiteFile { path: with_digest("exercises.json", &content), content })
}

fn text(path: &Path) -> Result<String, Trouble> {
    fs::read_to_string(path).map_err(|e| Trouble::with_path("cannot read", path, &e))
}

fn written(path: &Path) -> Result<Written, Trouble> {
    let name = path.file_stem().unwrap_or_default().to_string_lossy().into_owned();
    Ok(Written { name, text: text(path)? })
}

#[cfg(test)]
mod tests {
    use coneyard_core::checks::list::SHIPPED;
    use coneyard_core::course::shipped;
    use coneyard_core::rules;
    use coneyard_core::truck::spec;

    use super::*;

    #[test]
    fn all_exercises_are_in_it_as_they_stand_in_their_files() {
        let levels = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../levels");
        let file = bundle(&levels).unwrap();
        assert!(file.path.starts_with("exercises-") && file.path.ends_with(".json"));
        let Exercises { courses, trucks, rules, checks } =
            serde_json::from_slice(&file.content).unwrap();
        let courses: Vec<_> = courses.iter().map(|c| (c.name.as_str(), c.text.as_str())).collect();
        assert_eq!(courses, shipped::ALL);
        assert_eq!(rules, rules::SHIPPED);
        assert_eq!(checks, SHIPPED);
        let trucks: Vec<_> = trucks.iter().map(|t| (t.name.as_str(), t.text.as_str())).collect();
        let both = [("double", spec::shipped::DOUBLE), ("single", spec::shipped::SINGLE)];
        assert_eq!(trucks, both);
    }

    #[test]
    fn a_course_that_is_not_there_is_named() {
        let levels = tempfile::tempdir().unwrap();
        fs::write(levels.path().join("index.json"), r#"["gone.json"]"#).unwrap();
        let sentence = bundle(levels.path()).err().unwrap().to_string();
        assert!(sentence.contains("gone.json") && !sentence.contains('\n'), "{sentence}");
        fs::write(levels.path().join("index.json"), "{}").unwrap();
        let sentence = bundle(levels.path()).err().unwrap().to_string();
        assert!(sentence.contains("index.json") && !sentence.contains('\n'), "{sentence}");
    }
}
