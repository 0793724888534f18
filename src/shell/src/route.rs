//! Addresses: every page has its own, behind the `#`, so that any plain file server can serve them
//! and a page can be kept as a bookmark or sent to someone.

use coneyard_core::time::Tick;
use leptos::prelude::location;
use percent_encoding::{NON_ALPHANUMERIC, percent_decode_str, utf8_percent_encode};

/// A page and what it shows.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Route {
    /// Who and where.
    Home,
    /// The drive that comes next, once it is known which.
    DriveNow,
    /// The exercises.
    Path,
    /// A drive on a course with a truck.
    Drive {
        /// Course id.
        course: String,
        /// Truck id.
        truck: String,
    },
    /// A drive that was cut off, driven on.
    DriveOn(String),
    /// The pre-test: what it is, and its start.
    PreTest,
    /// A pre-test that was begun.
    Sitting(String),
    /// A part of it, being driven.
    Part {
        /// Which pre-test.
        sitting: String,
        /// From 0; people count from 1, and so does the address.
        part: usize,
    },
    /// What is said after a drive.
    Debrief(String),
    /// The same as a page to print.
    Print(String),
    /// The sheet of its walk-round, to print.
    DaySheet(String),
    /// A recorded drive.
    Replay {
        /// Which.
        id: String,
        /// Where to begin to play; None waits at the start.
        at: Option<Tick>,
        /// The finding to tell of there, by its number on the plan.
        finding: Option<usize>,
    },
    /// Attempts over time.
    Progress,
    /// The class: joining it, and what has arrived.
    Class,
    /// A run that arrived there, as this device takes it over to look at.
    ClassRun(String),
    /// The class in figures.
    InFigures,
    /// Somebody of the class, by their name.
    Person(String),
    /// Somebody's training record, by their name.
    Training(String),
    /// What was found at fault in all drives, by kind.
    Kinds,
    /// Every moment of one kind.
    Moments(String),
    /// The same, played one after another.
    Tour {
        /// Of which kind.
        code: String,
        /// With which it begins, from 1.
        number: usize,
    },
    /// Two drives side by side.
    Two([String; 2]),
    /// The lesson: its topics, and the record of them.
    Lesson,
    /// One topic of it.
    Topic(String),
    /// The record of a lesson that was given, to print.
    LessonRecord(String),
    /// The controls, drawn.
    Controls,
    /// Settings.
    Settings,
    /// The rules of this site, and what its class goes by.
    Rules,
    /// An address that leads nowhere.
    Unknown,
}

impl Route {
    /// Reads what stands behind the `#`.
    pub(crate) fn parse(hash: &str) -> Self {
        let path = hash.trim_start_matches('#').trim_matches('/');
        let parts: Vec<&str> = path.split('/').collect();
        match parts.as_slice() {
            [""] => Self::Home,
            ["drive-now"] => Self::DriveNow,
            ["path"] => Self::Path,
            ["drive", course, truck] => {
                Self::Drive { course: (*course).to_owned(), truck: (*truck).to_owned() }
            }
            ["drive-on", id] => Self::DriveOn((*id).to_owned()),
            ["pre-test"] => Self::PreTest,
            ["pre-test", id] => Self::Sitting((*id).to_owned()),
            ["pre-test", id, part] => {
                match part.parse::<usize>().ok().and_then(|n| n.checked_sub(1)) {
                    Some(part) => Self::Part { sitting: (*id).to_owned(), part },
                    None => Self::Unknown,
                }
            }
            ["debrief", id] => Self::Debrief((*id).to_owned()),
            ["print", id] => Self::Print((*id).to_owned()),
            ["day-sheet", id] => Self::DaySheet((*id).to_owned()),
            ["replay", id] => Self::Replay { id: (*id).to_owned(), at: None, finding: None },
            ["replay", id, at, finding @ ..] if finding.len() < 2 => {
                let finding = finding.first().map(|n| n.parse()).transpose();
                match (at.parse(), finding) {
                    (Ok(at), Ok(finding)) => {
                        Self::Replay { id: (*id).to_owned(), at: Some(at), finding }
                    }
                    _ => Self::Unknown,
                }
            }
            ["progress"] => Self::Progress,
            ["class"] => Self::Class,
            ["class-in-figures"] => Self::InFigures,
            ["person", name] => named(name, Self::Person),
            ["training", name] => named(name, Self::Training),
            ["class", run] => Self::ClassRun((*run).to_owned()),
            ["moments"] => Self::Kinds,
            ["moments", code] => Self::Moments((*code).to_owned()),
            ["moments", code, number] => match number.parse() {
                Ok(number) if number > 0 => Self::Tour { code: (*code).to_owned(), number },
                _ => Self::Unknown,
            },
            ["two", a, b] => Self::Two([(*a).to_owned(), (*b).to_owned()]),
            ["lesson"] => Self::Lesson,
            ["lesson", topic] => Self::Topic((*topic).to_owned()),
            ["lesson-record", id] => Self::LessonRecord((*id).to_owned()),
            ["controls"] => Self::Controls,
            ["settings"] => Self::Settings,
            ["rules"] => Self::Rules,
            _ => Self::Unknown,
        }
    }

    /// The address, with its `#`.
    pub(crate) fn href(&self) -> String {
        match self {
            Self::Home | Self::Unknown => "#/".to_owned(),
            Self::DriveNow => "#/drive-now".to_owned(),
            Self::Path => "#/path".to_owned(),
            Self::Drive { course, truck } => format!("#/drive/{course}/{truck}"),
            Self::DriveOn(id) => format!("#/drive-on/{id}"),
            Self::PreTest => "#/pre-test".to_owned(),
            Self::Sitting(id) => format!("#/pre-test/{id}"),
            Self::Part { sitting, part } => format!("#/pre-test/{sitting}/{}", part + 1),
            Self::Debrief(id) => format!("#/debrief/{id}"),
            Self::Print(id) => format!("#/print/{id}"),
            Self::DaySheet(id) => format!("#/day-sheet/{id}"),
            Self::Replay { id, at: None, .. } => format!("#/replay/{id}"),
            Self::Replay { id, at: Some(at), finding: None } => format!("#/replay/{id}/{at}"),
            Self::Replay { id, at: Some(at), finding: Some(n) } => {
                format!("#/replay/{id}/{at}/{n}")
            }
            Self::Progress => "#/progress".to_owned(),
            Self::Class => "#/class".to_owned(),
            Self::ClassRun(run) => format!("#/class/{run}"),
            Self::InFigures => "#/class-in-figures".to_owned(),
            Self::Person(name) => {
                format!("#/person/{}", utf8_percent_encode(name, NON_ALPHANUMERIC))
            }
            Self::Training(name) => {
                format!("#/training/{}", utf8_percent_encode(name, NON_ALPHANUMERIC))
            }
            Self::Kinds => "#/moments".to_owned(),
            Self::Moments(code) => format!("#/moments/{code}"),
            Self::Tour { code, number } => format!("#/moments/{code}/{number}"),
            Self::Two([a, b]) => format!("#/two/{a}/{b}"),
            Self::Lesson => "#/lesson".to_owned(),
            Self::Topic(topic) => format!("#/lesson/{topic}"),
            Self::LessonRecord(id) => format!("#/lesson-record/{id}"),
            Self::Controls => "#/controls".to_owned(),
            Self::Settings => "#/settings".to_owned(),
            Self::Rules => "#/rules".to_owned(),
        }
    }

    /// Something is driven on this page: the yard is all of it.
    pub(crate) fn drives(&self) -> bool {
        matches!(self, Self::Drive { .. } | Self::DriveOn(_) | Self::Part { .. })
    }

    /// The canvas is on this page.
    pub(crate) fn shows_yard(&self) -> bool {
        self.drives() || matches!(self, Self::Replay { .. } | Self::Tour { .. })
    }
}

/// The page of somebody of this name, as it stands in an address.
fn named(name: &str, page: fn(String) -> Route) -> Route {
    let name = percent_decode_str(name).decode_utf8();
    name.map_or(Route::Unknown, |name| page(name.into_owned()))
}

/// Goes to a page.
pub(crate) fn go(route: &Route) {
    // Setting the hash of one's own address cannot be refused.
    let _ = location().set_hash(&route.href());
}

/// Goes to a page in place of this one, so that "back" does not lead here again.
pub(crate) fn go_instead(route: &Route) {
    // Changing the hash of one's own address cannot be refused.
    let _ = location().replace(&route.href());
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_address_leads_back_to_its_page() {
        let pages = [
            Route::Home,
            Route::DriveNow,
            Route::Path,
            Route::Drive { course: "figure-eight".into(), truck: "double".into() },
            Route::DriveOn("a1".into()),
            Route::PreTest,
            Route::Sitting("a1".into()),
            Route::Part { sitting: "a1".into(), part: 0 },
            Route::Part { sitting: "a1".into(), part: 9 },
            Route::Debrief("a1".into()),
            Route::Print("a1".into()),
            Route::DaySheet("a1".into()),
            Route::Replay { id: "a1".into(), at: Some(0), finding: None },
            Route::Replay { id: "a1".into(), at: Some(640), finding: Some(3) },
            Route::Replay { id: "a1".into(), at: None, finding: None },
            Route::Progress,
            Route::Class,
            Route::ClassRun("a1".into()),
            Route::InFigures,
            Route::Person("Álamo / Rowan %".into()),
            Route::Training("Álamo / Rowan %".into()),
            Route::Kinds,
            Route::Moments("no-horn".into()),
            Route::Tour { code: "no-horn".into(), number: 3 },
            Route::Two(["a1".into(), "b2".into()]),
            Route::Lesson,
            Route::Topic("plugging".into()),
            Route::LessonRecord("a1".into()),
            Route::Controls,
            Route::Settings,
            Route::Rules,
        ];
        for page in pages {
            assert_eq!(Route::parse(&page.href()), page);
        }
        assert_eq!(Route::parse(""), Route::Home);
        assert_eq!(Route::parse("#/replay/a1/soon"), Route::Unknown);
        assert_eq!(Route::parse("#/replay/a1/1/first"), Route::Unknown);
        assert_eq!(Route::parse("#/replay/a1/1/2/3"), Route::Unknown);
        assert_eq!(Route::parse("#/drive/figure-eight"), Route::Unknown);
        assert_eq!(Route::parse("#/pre-test/a1/0"), Route::Unknown);
        assert_eq!(Route::parse("#/moments/no-horn/0"), Route::Unknown);
        assert_eq!(Route::parse("#/moments/no-horn/last"), Route::Unknown);
        assert_eq!(Route::parse("#/two/a1"), Route::Unknown);
    }
}
