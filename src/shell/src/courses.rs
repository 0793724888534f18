//! The exercises: courses, trucks and site rules, fetched as plain files of the site.

use std::sync::Arc;

use coneyard_core::controls::Side;
use coneyard_core::desk::DriveSetup;
use leptos::prelude::*;
use serde::Deserialize;

use crate::browser::{self, fetch_text};
use crate::words;

/// A sentence in every language a file has.
pub(crate) type Said = std::collections::BTreeMap<String, String>;

/// The parts of a course that the pages show.
#[derive(Clone, Debug, Deserialize)]
pub(crate) struct Course {
    pub(crate) id: String,
    pub(crate) title: Said,
    pub(crate) trains: Said,
    pub(crate) trucks: Vec<String>,
    #[serde(default)]
    pub(crate) steps: Vec<CourseStep>,
}

/// One step's sentence.
#[derive(Clone, Debug, Deserialize)]
pub(crate) struct CourseStep {
    pub(crate) say: Said,
}

/// A course as the pages need it: parsed, and its text as it was.
#[derive(Clone, Debug)]
pub(crate) struct Listed {
    /// Parsed.
    pub(crate) course: Course,
    /// The file's text.
    pub(crate) text: String,
}

/// All that can be driven.
#[derive(Clone, Debug, Default)]
pub(crate) struct Library {
    /// In teaching order.
    pub(crate) courses: Vec<Listed>,
    /// Truck files by id.
    pub(crate) trucks: Vec<(String, String)>,
    /// The site-rules file.
    pub(crate) rules: String,
    /// Files that could not be used, one sentence each.
    pub(crate) refused: Vec<String>,
}

/// A sentence in the set language, else in English, else in any.
pub(crate) fn said(sentence: &Said) -> String {
    sentence
        .get(words::lang().code())
        .or_else(|| sentence.get("en"))
        .or_else(|| sentence.values().next())
        .cloned()
        .unwrap_or_default()
}

impl Library {
    /// The course of this id.
    pub(crate) fn course(&self, id: &str) -> Option<&Listed> {
        self.courses.iter().find(|c| c.course.id == id)
    }

    /// The truck to drive on this course when this one is wished for.
    pub(crate) fn truck_for(course: &Course, wished: &str) -> String {
        course
            .trucks
            .iter()
            .find(|t| *t == wished)
            .or(course.trucks.first())
            .cloned()
            .unwrap_or_default()
    }

    /// Everything a drive needs, with a fresh seed; None when course or truck is not there.
    pub(crate) fn setup(&self, course: &str, truck: &str, who: &str) -> Option<DriveSetup> {
        let listed = self.course(course)?;
        let truck = self.trucks.iter().find(|(id, _)| id == truck)?;
        Some(DriveSetup {
            course: listed.text.clone(),
            truck: truck.1.clone(),
            rules: self.rules.clone(),
            seed: browser::seed(),
            who: who.to_owned(),
            started: browser::now(),
        })
    }
}

/// Reads a course file's text.
pub(crate) fn parse(file: &str, text: &str) -> Result<Course, String> {
    serde_json::from_str(text).map_err(|e| format!("{file}: {e}"))
}

/// The side the rider stands on at the start of this course.
pub(crate) fn spawn_stance(_course: &Course) -> Side {
    Side::Left
}

/// Fetches all exercises. A course that cannot be used is left out and named.
pub(crate) async fn fetch() -> Result<Library, String> {
    let index = fetch_text("levels/index.json").await?;
    let files: Vec<String> =
        serde_json::from_str(&index).map_err(|e| format!("levels/index.json: {e}"))?;
    let mut library =
        Library { rules: fetch_text("levels/site-rules.json").await?, ..Library::default() };
    for file in files {
        let path = format!("levels/{file}");
        let parsed = match fetch_text(&path).await {
            Ok(text) => parse(&path, &text).map(|course| Listed { course, text }),
            Err(e) => Err(e),
        };
        match parsed {
            Ok(listed) => library.courses.push(listed),
            Err(e) => library.refused.push(e),
        }
    }
    let mut trucks: Vec<String> =
        library.courses.iter().flat_map(|c| c.course.trucks.clone()).collect();
    trucks.sort();
    trucks.dedup();
    for id in trucks {
        match fetch_text(&format!("levels/trucks/{id}.json")).await {
            Ok(text) => library.trucks.push((id, text)),
            Err(e) => library.refused.push(e),
        }
    }
    Ok(library)
}

/// Where all pages find the exercises: None while they are being fetched.
#[derive(Clone, Copy)]
pub(crate) struct LibraryDesk(pub(crate) RwSignal<Option<Result<Arc<Library>, String>>>);

/// The exercises as a signal.
pub(crate) fn use_library() -> RwSignal<Option<Result<Arc<Library>, String>>> {
    expect_context::<LibraryDesk>().0
}
