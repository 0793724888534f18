//! Driving: the yard is the page. Over it lie the task, the instrument, what thumbs need, and one button
//! behind which the rest is; none of them moves while it may be pressed.

mod asked;
mod finish;
mod frames;
mod hints;
mod keyboard;
mod leaving;
mod menu;
mod needs;
mod over;
mod part;
mod screen;
mod session;
mod task;
mod touch;
mod view;
mod walk;

use std::sync::Arc;

use coneyard_core::acts::Act;
use coneyard_core::class::helps_rest;
use coneyard_core::desk::{Covered, Status};
use coneyard_core::finding::Finding;
use coneyard_core::reading::Terms;
use coneyard_core::run::file::SIMULATION;
use coneyard_core::time::Tick;
use leptos::prelude::*;

use crate::canvas;
use crate::courses::{Library, said, use_library};
use crate::files::CourseLabel;
use crate::host::{HostDesk, use_host};
use crate::looking::Looking;
use crate::reader;
use crate::route::Route;
use crate::route::go;
use crate::route::go_instead;
use crate::settings::{Settings, use_settings};
use crate::store::{Attempt, Drive, Keeper, Place, Store, StoreDesk, cut_drive, use_store};
use crate::words::{k, number, say, say_with};
use needs::Step;
pub(crate) use over::FewKeys;
pub(crate) use part::Part;
use session::Session;
use view::DriveView;

/// A report is confirmed for so long.
const TOLD_FOR: std::time::Duration = std::time::Duration::from_secs(3);

/// How far a drive has come.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Phase {
    /// The yard is being loaded.
    Loading,
    /// Being driven, or paused.
    Driving,
    /// Someone was struck: it is over, and that is said before the debrief.
    Struck,
    /// The debrief is being worked out.
    Ending,
    /// It cannot go on, and why.
    Trouble(String),
}

/// What the parts of the drive page share.
#[derive(Clone, Copy)]
pub(crate) struct Desk {
    /// How far it has come.
    pub(crate) phase: RwSignal<Phase>,
    /// The yard's own word, several times a second.
    pub(crate) status: RwSignal<Option<Status>>,
    /// Findings just made, each with the tick until which it is told.
    pub(crate) news: RwSignal<Vec<(Tick, Finding)>>,
    /// Held still.
    pub(crate) paused: RwSignal<bool>,
    /// Held still because it was asked for, not because the page was left.
    pub(crate) asked: RwSignal<bool>,
    /// The helps rest in this drive: they are off every second time once the exercise was driven clean.
    pub(crate) rests: RwSignal<bool>,
    /// The part of a pre-test that is driven: no helps, no starting again, one pause.
    pub(crate) place: RwSignal<Option<Place>>,
    /// Simulated seconds a second.
    pub(crate) pace: RwSignal<f64>,
    /// The truck has been moved: the first hint is no longer needed.
    pub(crate) moved: RwSignal<bool>,
    /// Why the drive cannot be kept while it is driven, if so.
    pub(crate) keep_trouble: RwSignal<Option<String>>,
    /// The question of how to leave is open.
    pub(crate) leaving: RwSignal<bool>,
    /// What is behind the one button is shown.
    pub(crate) more: RwSignal<bool>,
    /// Something was reported just now.
    pub(crate) reported: RwSignal<bool>,
    /// How near the yard is looked at.
    pub(crate) looking: Looking,
    /// What of the yard lies under instrument and controls.
    pub(crate) covered: RwSignal<Covered>,
    /// The course's steps: their sentences, and the keys that they need.
    pub(crate) steps: RwSignal<Vec<Step>>,
    /// What the rules of this drive ask for and allow.
    pub(crate) terms: RwSignal<Option<Terms>>,
    /// What was done before the drive was cut off, where it goes on.
    pub(crate) acts_before: StoredValue<Vec<Act>>,
    /// Begins the same exercise again.
    pub(crate) restart: Callback<()>,
    /// Settings.
    pub(crate) settings: RwSignal<Settings>,
    /// What is kept.
    pub(crate) store: StoreDesk,
    /// The class's host, which is told what is driven.
    pub(crate) host: HostDesk,
    /// Devices and the record; None until the yard is there.
    pub(crate) session: StoredValue<Option<Session>, LocalStorage>,
}

impl Desk {
    fn new(restart: Callback<()>, place: Option<Place>) -> Self {
        Self {
            phase: RwSignal::new(Phase::Loading),
            status: RwSignal::new(None),
            news: RwSignal::new(Vec::new()),
            paused: RwSignal::new(false),
            asked: RwSignal::new(false),
            rests: RwSignal::new(false),
            place: RwSignal::new(place),
            pace: RwSignal::new(1.0),
            moved: RwSignal::new(false),
            keep_trouble: RwSignal::new(None),
            leaving: RwSignal::new(false),
            more: RwSignal::new(false),
            reported: RwSignal::new(false),
            looking: Looking::new(),
            covered: RwSignal::new(Covered::default()),
            steps: RwSignal::new(Vec::new()),
            terms: RwSignal::new(None),
            acts_before: StoredValue::new(Vec::new()),
            restart,
            settings: use_settings(),
            store: use_store(),
            host: use_host(),
            session: StoredValue::new_local(None),
        }
    }

    /// The sentence of this step in the set language.
    pub(crate) fn step_text(self, step: u32) -> String {
        self.steps.with(|steps| steps.get(step as usize).map(|s| said(&s.say)).unwrap_or_default())
    }

    /// The step that is due; None when all are done, and before the yard is there.
    pub(crate) fn step(self) -> Option<u32> {
        let step = |s: &Status| (!s.task.done).then_some(s.task.step);
        self.status.with(|s| s.as_ref().and_then(step))
    }

    /// The walk-round is the step that is due: keys and buttons are not the truck's.
    pub(crate) fn walks(self) -> bool {
        self.status.with(|s| s.as_ref().is_some_and(|s| s.walk.is_some()))
    }

    /// Says for a moment that a report was heard.
    pub(crate) fn tell_reported(self) {
        self.reported.set(true);
        let hush = move || {
            self.reported.try_set(false);
        };
        set_timeout(hush, TOLD_FOR);
    }

    /// Holds the drive still because the keyboard or the picture is elsewhere, or the gamepad gone.
    pub(crate) fn hold_for_elsewhere(self) {
        if !self.paused.get_untracked() {
            self.pause(true);
        }
    }

    /// Holds the drive still, or lets it go on.
    pub(crate) fn pause(self, paused: bool) {
        if self.phase.get_untracked() != Phase::Driving {
            return;
        }
        if paused {
            session::let_go(self);
        }
        match canvas::set_paused(paused) {
            Ok(()) => {
                self.paused.set(paused);
                if !paused {
                    self.asked.set(false);
                }
            }
            Err(e) => self.phase.set(Phase::Trouble(e)),
        }
    }
}

/// A drive from the start of a course, as often as it is begun again.
#[component]
pub(crate) fn Fresh(course: String, truck: String) -> impl IntoView {
    let round = RwSignal::new(0u32);
    let again = Callback::new(move |()| {
        round.try_update(|n| *n += 1);
    });
    move || {
        round.track();
        let (course, truck) = (course.clone(), truck.clone());
        view! { <FreshOnce course truck again /> }
    }
}

#[component]
fn FreshOnce(course: String, truck: String, again: Callback<()>) -> impl IntoView {
    let desk = Desk::new(again, None);
    let library = use_library();
    let settings = desk.settings;
    let started = StoredValue::new(false);
    let (course, truck) = (StoredValue::new(course), StoredValue::new(truck));
    // The exercises may still be on their way when the page is opened by its address.
    Effect::new(move |_| {
        let found = library.0.get();
        let (Some(found), false) = (found, started.get_value()) else {
            return;
        };
        started.set_value(true);
        match found.and_then(|library| prepare(&library, course, truck, settings)) {
            Ok(drive) => {
                let who = settings.with_untracked(|s| s.who.clone());
                let rest = |all: &Vec<Attempt>| helps_rest(all, &drive.course, &who);
                desk.rests.set(desk.store.attempts.with_untracked(rest));
                leptos::task::spawn_local(begin(desk, Begin::Fresh(drive)));
            }
            Err(e) => desk.phase.set(Phase::Trouble(e)),
        }
    });
    view! { <DriveView desk /> }
}

fn prepare(
    library: &Arc<Library>,
    course: StoredValue<String>,
    truck: StoredValue<String>,
    settings: RwSignal<Settings>,
) -> Result<Drive, String> {
    let (course, truck) = (course.get_value(), truck.get_value());
    let who = settings.with_untracked(|s| s.who.clone());
    let setup =
        library.setup(&course, &truck, &who).ok_or_else(|| say(k("drive-no-such-course")))?;
    settings.update(|s| s.truck.clone_from(&truck));
    Ok(Drive::new(crate::browser::new_id(), course, truck, None, setup))
}

/// A drive that was cut off, driven on from where it was.
#[component]
pub(crate) fn CutOff(id: String) -> impl IntoView {
    let exercise = RwSignal::new(None::<Route>);
    let again = Callback::new(move |()| {
        if let Some(Some(route)) = exercise.try_get_untracked() {
            go(&route);
        }
    });
    let desk = Desk::new(again, None);
    leptos::task::spawn_local(async move {
        let found = match Store::open().await {
            Ok(store) => cut_drive(&store, &id).await,
            Err(e) => Err(e),
        };
        match found {
            Ok(Some(cut)) if cut.drive.place.is_some() => {
                if let Some(Place { sitting, part }) = cut.drive.place {
                    go_instead(&Route::Part { sitting, part });
                }
            }
            Ok(Some(cut)) => {
                let (course, truck) = (cut.drive.course.clone(), cut.drive.truck.clone());
                exercise.try_set(Some(Route::Drive { course, truck }));
                begin(desk, Begin::On(cut.drive)).await;
            }
            Ok(None) => desk.phase.set(Phase::Trouble(say(k("drive-not-kept")))),
            Err(e) => desk.phase.set(Phase::Trouble(e)),
        }
    });
    view! { <DriveView desk /> }
}

/// How a drive is opened.
enum Begin {
    /// From the start of its course.
    Fresh(Drive),
    /// From where it was cut off.
    On(Drive),
}

/// Loads the yard and opens the drive. What was driven before is driven again first.
async fn begin(desk: Desk, how: Begin) {
    let (drive, go_on) = match how {
        Begin::Fresh(drive) => (drive, false),
        Begin::On(drive) => (drive, true),
    };
    if let Err(e) = try_begin(desk, drive, go_on).await {
        desk.phase.try_set(Phase::Trouble(e));
    }
}

async fn try_begin(desk: Desk, drive: Drive, go_on: bool) -> Result<(), String> {
    let course = CourseLabel::read(&drive.course, &drive.setup.course)?;
    let steps = needs::steps(course);
    let terms = reader::terms(&drive.setup.rules).await?;
    if desk.steps.try_set(steps).is_some() || desk.terms.try_set(Some(terms)).is_some() {
        // The person has left the page meanwhile.
        return Ok(());
    }
    if !drive.can_go_on() {
        return Err(other_simulation(drive.simulation));
    }
    // Before anything is read: what is read now stays as it is until this page has driven on.
    if !canvas::hold(&drive.id).await {
        return Err(say(k("drive-elsewhere")));
    }
    let id = drive.id.clone();
    let opened = open(desk, drive, go_on).await;
    if !matches!(opened, Ok(true)) {
        canvas::let_go(&id);
    }
    opened.map(drop)
}

/// Opens a drive that nobody else can; false when the person has left the page meanwhile.
async fn open(desk: Desk, drive: Drive, go_on: bool) -> Result<bool, String> {
    let store = Store::open().await;
    let driven = match (&store, go_on) {
        (Ok(store), true) => {
            let found = cut_drive(store, &drive.id).await?;
            Some(found.ok_or_else(|| say(k("drive-not-kept")))?)
        }
        (Err(e), true) => return Err(e.clone()),
        (_, false) => None,
    };
    canvas::load().await?;
    if desk.phase.is_disposed() {
        return Ok(false);
    }
    match &driven {
        Some(driven) => {
            canvas::drive_on(&drive.setup, &driven.driven, &driven.timing)?;
            // What was fed is kept already.
            canvas::take_driven()?;
        }
        None => canvas::drive(&drive.setup)?,
    }
    let status = canvas::status()?;
    let store = match store {
        Ok(store) => {
            if !go_on && let Err(e) = store.begin(&drive).await {
                desk.keep_trouble.set(Some(e));
            }
            Some(store)
        }
        Err(e) => {
            desk.keep_trouble.set(Some(e));
            None
        }
    };
    desk.paused.set(status.paused);
    desk.moved.set(go_on);
    if let Some(driven) = &driven {
        desk.acts_before.set_value(driven.driven.acts.iter().map(|d| d.act.clone()).collect());
    }
    let session = Session::new(drive, &status, store, driven.map_or(0, |d| d.pieces));
    desk.status.set(Some(status));
    desk.session.set_value(Some(session));
    desk.phase.set(Phase::Driving);
    crate::canvas::focus_yard();
    frames::run(desk);
    Ok(true)
}

/// Says that what was driven under another simulation cannot be gone on with or judged.
pub(crate) fn other_simulation(made: u32) -> String {
    let versions = vec![("made", number(made)), ("here", number(SIMULATION))];
    say_with(k("drive-other-simulation"), versions)
}
