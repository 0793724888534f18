//! The lesson as browsers fetch it: its file, the drives that it shows and the courses they are on, all in one.

use std::collections::BTreeMap;
use std::fs;
use std::path::Path;

use coneyard_core::checks::list::CheckList;
use coneyard_core::course::{Course, shipped};
use coneyard_core::lesson::scene::Scene;
use coneyard_core::lesson::{Known, Lesson, Show, scene_name};
use coneyard_core::outside::read_json;
use coneyard_core::reading::{PartShown, Teaching, Written};
use coneyard_core::rider;

use super::SiteFile;
use coneyard::names::with_digest;
use coneyard::trouble::Trouble;

/// Largest scene that is read, bytes.
const SCENE_BYTES: usize = 512 * 1024;
/// Name of the lesson's file without its ending.
const ID: &str = "pallet-trucks";

/// Makes `lesson-DIGEST.json` of the folder of levels.
///
/// # Errors
/// One sentence naming what cannot be read, what the lesson names that there is not, or a scene that was made of
/// something else than what it asks for now.
pub(crate) fn bundle(levels: &Path) -> Result<SiteFile, Trouble> {
    let path = levels.join(format!("lessons/{ID}.json"));
    let name = format!("levels/lessons/{ID}.json");
    let lesson = Lesson::parse(&name, &read(&path)?)?;
    let checks = read(&levels.join("checks/pallet-trucks.json"))?;
    let checks = CheckList::parse("levels/checks/pallet-trucks.json", &checks)?;
    let (mut exercises, mut yards) = (Vec::new(), Vec::new());
    for (name, text) in shipped::ALL.iter().chain(shipped::CORPUS) {
        let course = Course::parse(name, text.as_bytes())?;
        if course.part_of.is_none() && shipped::text(name).is_some() {
            exercises.push((course.id, course.trucks.clone()));
        }
        yards.push(((*name).to_owned(), course.trucks));
    }
    let riders: Vec<String> = rider::names().collect();
    let known = Known { exercises: &exercises, yards: &yards, riders: &riders, checks: &checks };
    lesson.names_what_there_is(&name, &known)?;
    let mut scenes = BTreeMap::new();
    let mut courses = BTreeMap::new();
    for (scene, asked) in lesson.scenes() {
        let name = format!("levels/lessons/scenes/{scene}.json");
        let path = levels.join(format!("lessons/scenes/{scene}.json"));
        let drawn: Scene = read_json(&name, &read(&path)?, SCENE_BYTES)?;
        if drawn.sides.iter().zip(&asked).any(|(side, asked)| side.of != *asked) {
            return Err(Trouble::Input(format!(
                "{name} was made of another drive than the lesson asks for: run coneyard-workshop lesson"
            )));
        }
        for asked in &asked {
            let text = shipped::text_of_any(&asked.course).unwrap_or_default();
            courses.insert(asked.course.clone(), text.to_owned());
        }
        scenes.insert(scene, drawn);
    }
    let mut parts = BTreeMap::new();
    for topic in &lesson.topics {
        for (n, show) in topic.shows.iter().enumerate() {
            parts.extend(part(show, &checks).map(|part| (scene_name(&topic.id, n), part)));
        }
    }
    let courses = courses.into_iter().map(|(name, text)| Written { name, text }).collect();
    let content =
        serde_json::to_vec(&Teaching { id: ID.to_owned(), lesson, scenes, parts, courses })
            .map_err(|e| Trouble::Here(format!("the lesson cannot be written: {e}")))?;
    Ok(SiteFile { path: with_digest("lesson.json", &content), content })
}

/// What is said beside a part of the truck.
fn part(show: &Show, checks: &CheckList) -> Option<PartShown> {
    let Show::Part { point, defect } = show else { return None };
    let point = checks.points.iter().find(|p| p.id == *point)?;
    let defect = point.defects.iter().find(|d| d.id == *defect)?;
    let grade = checks.grades.get(defect.grade)?;
    Some(PartShown {
        name: point.name.clone(),
        sound: point.sound.clone(),
        defect: defect.name.clone(),
        seen: defect.seen.clone(),
        grade: grade.name.clone(),
        may_run: grade.may_run,
        why: defect.why.clone(),
    })
}

fn read(path: &Path) -> Result<Vec<u8>, Trouble> {
    fs::read(path).map_err(|e| Trouble::with_path("cannot read", path, &e))
}

#[cfg(test)]
mod tests {
    use coneyard_core::lesson;

    use super::*;

    fn levels() -> std::path::PathBuf {
        Path::new(env!("CARGO_MANIFEST_DIR")).join("../../levels")
    }

    #[test]
    fn the_lesson_is_in_it_with_every_scene_and_every_course() {
        let file = bundle(&levels()).unwrap();
        assert!(file.path.starts_with("lesson-") && file.path.ends_with(".json"));
        let teaching: Teaching = serde_json::from_slice(&file.content).unwrap();
        assert_eq!(teaching.lesson, lesson::shipped());
        assert_eq!(teaching.scenes.len(), teaching.lesson.scenes().count());
        let shows = teaching.lesson.topics.iter().map(|t| t.shows.len()).sum::<usize>();
        assert_eq!(teaching.scenes.len() + teaching.parts.len(), shows);
        for side in teaching.scenes.values().flat_map(|scene| &scene.sides) {
            assert!(
                teaching.courses.iter().any(|c| c.name == side.of.course),
                "{}",
                side.of.course
            );
        }
    }

    #[test]
    fn a_scene_of_another_drive_is_refused_with_what_to_do() {
        let folder = tempfile::tempdir().unwrap();
        let copy = |from: &str| {
            let to = folder.path().join(from);
            fs::create_dir_all(to.parent().unwrap()).unwrap();
            fs::copy(levels().join(from), to).unwrap();
        };
        copy("lessons/pallet-trucks.json");
        copy("checks/pallet-trucks.json");
        let missing = bundle(folder.path()).err().unwrap().to_string();
        assert!(missing.contains("scenes") && !missing.contains('\n'), "{missing}");
        for (scene, _) in lesson::shipped().scenes() {
            copy(&format!("lessons/scenes/{scene}.json"));
        }
        assert!(bundle(folder.path()).is_ok());
        let path = folder.path().join("lessons/pallet-trucks.json");
        let text = fs::read_to_string(&path).unwrap();
        fs::write(&path, text.replacen("\"seed\": 1", "\"seed\": 2", 1)).unwrap();
        let other = bundle(folder.path()).err().unwrap().to_string();
        assert!(other.contains("coneyard-workshop lesson") && !other.contains('\n'), "{other}");
    }
}
