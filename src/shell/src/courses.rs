//! The exercises: courses, trucks and site rules, fetched as one file of the site.

use std::collections::BTreeMap;
use std::sync::Arc;

use coneyard_core::class;
use coneyard_core::course::checks_for;
use coneyard_core::course::mirror::MARK;
use coneyard_core::outside::Said;
use coneyard_core::reading::{Exercises, Terms, Written};
use coneyard_core::run::DriveSetup;
use leptos::prelude::*;

use crate::browser;
use crate::canvas;
use crate::files::CourseLabel;
use crate::reader;
use crate::site::SiteDesk;
use crate::store::Attempt;
use crate::words;

/// A course as the pages need it: what they show of it, and its text as it was.
#[derive(Clone, Debug)]
pub(crate) struct Listed {
    /// What is shown.
    pub(crate) course: CourseLabel,
    /// The file's text.
    pub(crate) text: String,
}

/// All that can be driven.
#[derive(Clone, Debug)]
pub(crate) struct Library {
    /// In teaching order.
    pub(crate) courses: Vec<Listed>,
    /// Courses that are only driven as parts of a pre-test.
    pub(crate) parts: Vec<CourseLabel>,
    /// Truck files by id.
    pub(crate) trucks: Vec<(String, String)>,
    /// The site-rules file that drives begin under: the site's own, where it has set some.
    pub(crate) rules: String,
    /// The one that came with the site.
    pub(crate) served: String,
    /// The check list of the walk-round.
    pub(crate) checks: String,
    /// What these rules ask for.
    pub(crate) terms: Terms,
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
    /// What all courses are called, by their ids.
    pub(crate) fn titles(&self) -> BTreeMap<String, Said> {
        let courses = self.courses.iter().map(|l| &l.course).chain(&self.parts);
        courses.map(|c| (c.id.clone(), c.title.clone())).collect()
    }

    /// The course of this id.
    pub(crate) fn course(&self, id: &str) -> Option<&Listed> {
        self.courses.iter().find(|c| c.course.id == id)
    }

    /// The exercise for this person to practise next.
    pub(crate) fn next(&self, attempts: &[Attempt], who: &str) -> Option<String> {
        let set = use_context::<SiteDesk>().map(|site| site.class.get()).unwrap_or_default();
        let ids = self.courses.iter().map(|c| c.course.id.as_str());
        let counting: Vec<&str> = ids.clone().filter(|id| set.counts(id)).collect();
        // A site that leaves all of them out still has something to drive.
        let ids = if counting.is_empty() { ids.collect() } else { counting };
        class::next_course(&ids, self.terms.pass_total, attempts, who)
    }

    /// The truck to drive on this course when this one is wished for.
    pub(crate) fn truck_for(course: &CourseLabel, wished: &str) -> String {
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
        if !listed.course.trucks.iter().any(|t| t == truck) {
            return None;
        }
        let truck = self.trucks.iter().find(|(id, _)| id == truck)?;
        Some(DriveSetup {
            course: listed.text.clone(),
            truck: truck.1.clone(),
            rules: self.rules.clone(),
            checks: checks_for(&listed.text, &self.checks).to_owned(),
            seed: browser::seed(),
            who: who.to_owned(),
            started: browser::now(),
        })
    }
}

/// Fetches all exercises. A course that cannot be used is left out and named.
pub(crate) async fn fetch() -> Result<Library, String> {
    let Exercises { courses, trucks, rules, checks } =
        serde_json::from_str(&canvas::exercises().await?).map_err(|e| e.to_string())?;
    let terms = reader::terms(&rules).await?;
    let mut library = Library {
        courses: Vec::new(),
        parts: Vec::new(),
        trucks: trucks.into_iter().map(|truck| (truck.name, truck.text)).collect(),
        served: rules.clone(),
        rules,
        checks,
        terms,
        refused: Vec::new(),
    };
    for Written { name, text } in courses {
        match CourseLabel::read(&format!("levels/{name}.json"), &text) {
            Ok(course) if course.is_part() => library.parts.push(course),
            Ok(course) => library.courses.push(Listed { course, text }),
            Err(e) => library.refused.push(e),
        }
    }
    Ok(library)
}

/// The exercises: None while they are being fetched.
pub(crate) type Fetched = Option<Result<Arc<Library>, String>>;

/// Where all pages find the exercises.
#[derive(Clone, Copy)]
pub(crate) struct LibraryDesk(pub(crate) RwSignal<Fetched>);

impl LibraryDesk {
    /// Something of the exercises, once they are there.
    pub(crate) fn find<T>(self, find: impl FnOnce(&Library) -> Option<T>) -> Option<T> {
        self.0.with(|l| find(l.as_ref()?.as_ref().ok()?))
    }

    /// Title of a course in the set language; its id where it is not known.
    pub(crate) fn title(self, id: &str) -> String {
        // The mirror image of a course goes by the same title.
        let plain = id.strip_suffix(MARK).unwrap_or(id);
        self.find(|l| {
            let exercise = l.course(plain).map(|c| &c.course);
            exercise.or_else(|| l.parts.iter().find(|c| c.id == plain)).map(|c| said(&c.title))
        })
        .unwrap_or_else(|| id.to_owned())
    }

    /// What the site's rules ask for; None until they are there.
    pub(crate) fn terms(self) -> Option<Terms> {
        self.find(|l| Some(l.terms))
    }
}

/// The exercises.
pub(crate) fn use_library() -> LibraryDesk {
    expect_context::<LibraryDesk>()
}
