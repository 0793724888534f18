//! Who and where: a truck that can be driven within ten seconds, and the few choices before it.

use leptos::prelude::*;

use crate::courses::{Library, said, use_library};
use crate::pages::drive::FewKeys;
use crate::parts::people::{LanguageField, UnitsField, WhoField};
use crate::parts::prepare::prepare;
use crate::route::Route;
use crate::route::go_instead;
use crate::settings::use_settings;
use crate::store::use_store;
use crate::words::{k, say, say_with, text, tr};

/// Where "drive now" leads, with the exercise's name; None as long as the exercises, or what was
/// driven before, are still on their way.
fn next_drive() -> Memo<Option<(Route, String)>> {
    let library = use_library();
    let settings = use_settings();
    let store = use_store();
    Memo::new(move |_| {
        let (who, wished) = settings.with(|s| (s.who.clone(), s.truck.clone()));
        if !store.ready.get() {
            return None;
        }
        library.find(|library| {
            let id = store.attempts.with(|all| library.next(all, &who))?;
            let course = &library.course(&id)?.course;
            let truck = Library::truck_for(course, &wished);
            let title = said(&course.title);
            Some((Route::Drive { course: id, truck }, title))
        })
    })
}

/// Says so when the exercises could not be fetched.
#[component]
fn NoExercises() -> impl IntoView {
    let library = use_library();
    move || {
        library.0.with(|l| match l {
            Some(Err(why)) => Some(view! {
                <p class="note warn" role="alert">
                    {say_with(k("courses-trouble"), vec![("why", text(why.clone()))])}
                </p>
            }),
            _ => None,
        })
    }
}

/// "Drive now" was pressed before it was known where it leads: the drive opens as soon as it is.
#[component]
pub(crate) fn DriveNow() -> impl IntoView {
    let library = use_library();
    let next = next_drive();
    Effect::new(move |_| {
        if let Some((route, _)) = next.get() {
            go_instead(&route);
        }
    });
    let waiting = move || library.0.with(Option::is_none).then(|| say(k("courses-loading")));
    view! {
        <NoExercises />
        <p role="status">{waiting}</p>
    }
}

/// A yard in which somebody drives and people cross, over the whole width. It is a picture: what moves is moved
/// by the browser, and stands still for who wants less motion.
#[component]
fn Living() -> impl IntoView {
    view! {
        <div class="yard-picture" aria-hidden="true">
            <link rel="stylesheet" href="assets/living/moves.css" />
            <div class="living">
                <picture>
                    <source
                        srcset="assets/living/floor-dark.svg"
                        media="(prefers-color-scheme: dark)"
                    />
                    <img src="assets/living/floor.svg" alt="" />
                </picture>
                <img class="person-0" src="assets/living/person.svg" alt="" />
                <img class="person-1" src="assets/living/person.svg" alt="" />
                <img class="truck" src="assets/living/truck.svg" alt="" />
            </div>
        </div>
    }
}

/// The first page.
#[component]
pub(crate) fn Home() -> impl IntoView {
    let settings = use_settings();
    prepare();
    let next = next_drive();
    let touch = move || settings.with(|s| s.shows_touch());
    view! {
        <section class="first-yard" aria-label=tr("home-drive-now")>
            <Living />
            <a
                id="drive-now"
                class="button primary huge"
                href=move || next.get().map_or(Route::DriveNow, |n| n.0).href()
            >
                <span>{tr("home-drive-now")}</span>
                <small>
                    {move || next.get().map(|(_, title)| title)}
                </small>
            </a>
        </section>
        <p class="lead">
            {tr("home-lead")} " " <a href="#/path">
                {tr("home-to-path")}
            </a>
        </p>
        <NoExercises />
        <super::pretest::OpenSittings />
        <Show when=touch fallback=move || view! { <FewKeys /> }>
            <p class="hint">{tr("hint-touch")}</p>
        </Show>
        <section class="who" aria-labelledby="who-title">
            <h2 id="who-title">{tr("home-who-title")}</h2>
            <div class="fields">
                <WhoField />
                <LanguageField />
                <UnitsField />
            </div>
            <p class="quiet">{tr("home-private")}</p>
        </section>
        <p class="quiet caution">
            <strong>{tr("caution-title")}</strong>
            ". "
            {tr("caution")}
        </p>
    }
}
