//! Pages that nobody needs at once. Each group of them is cut out of the pages' module when a site is
//! built, and fetched when one of them is first opened.

// The macro writes the unsafe calls into the part that was cut out.
#![allow(unsafe_code)]

use futures_util::FutureExt;
use leptos::prelude::*;
use leptos::wasm_split::{SplitLoaderError, wasm_split};

use crate::canvas;
use crate::pages::{
    class, controls, debrief, drive, lesson, moments, pretest, print, progress, replay, rules,
    settings, training, two,
};
use crate::plan::{Ground, Sketch};
use crate::route::Route;
use crate::words::{k, say_with, text};

/// What fetching a group comes to, and what a page of it does.
type Fetched = Result<(), SplitLoaderError>;
type Shown = Result<AnyView, SplitLoaderError>;

/// A page of a group; None where the address leads to a page that is always there.
pub(crate) fn page(route: &Route) -> Option<AnyView> {
    Some(match route {
        Route::Drive { .. } | Route::DriveOn(_) | Route::Part { .. } => {
            open(route, "driving", || fetch_driving().boxed_local(), |r| driving(r).now_or_never())
        }
        Route::Settings | Route::Controls | Route::Rules => {
            open(route, "setting", || fetch_setting().boxed_local(), |r| setting(r).now_or_never())
        }
        Route::PreTest | Route::Sitting(_) | Route::Print(_) | Route::DaySheet(_) => {
            open(route, "papers", || fetch_papers().boxed_local(), |r| papers(r).now_or_never())
        }
        Route::Debrief(_)
        | Route::Replay { .. }
        | Route::Progress
        | Route::Person(_)
        | Route::Kinds
        | Route::Moments(_)
        | Route::Tour { .. }
        | Route::Two(_) => {
            open(route, "looking", || fetch_looking().boxed_local(), |r| looking(r).now_or_never())
        }
        Route::Class | Route::ClassRun(_) | Route::InFigures | Route::Training(_) => open(
            route,
            "classing",
            || fetch_classing().boxed_local(),
            |r| classing(r).now_or_never(),
        ),
        Route::Lesson | Route::Topic(_) | Route::LessonRecord(_) => open(
            route,
            "teaching",
            || fetch_teaching().boxed_local(),
            |r| teaching(r).now_or_never(),
        ),
        Route::Home | Route::DriveNow | Route::Path | Route::Unknown => return None,
    })
}

/// Loads the yard and the pages for driving while nothing else happens, so that they are there and
/// warm when they are wanted. Trouble is left for the drive itself to tell; somebody who saves data is
/// not made to load it.
pub(crate) fn prepare_driving() {
    if canvas::saves_data() {
        return;
    }
    request_idle_callback(|| {
        leptos::task::spawn_local(async {
            let _ = fetch_driving().await;
            let _ = canvas::load().await;
        });
    });
}

/// The small picture of a course, as soon as what draws it is there. A list without its pictures is still
/// one, so nothing is said where it does not come.
pub(crate) fn sketch(course: String, line: Vec<[f32; 2]>) -> AnyView {
    let is_there = RwSignal::new(false);
    leptos::task::spawn_local(async move {
        is_there.try_set(fetch_sketches().await.is_ok());
    });
    let view = move || {
        let drawn = is_there.get().then(|| sketches(course.clone(), line.clone()).now_or_never());
        drawn.flatten().and_then(Result::ok)
    };
    view.into_any()
}

/// Shows the page as soon as its group is there.
fn open(
    route: &Route,
    group: &'static str,
    fetch: fn() -> futures_util::future::LocalBoxFuture<'static, Fetched>,
    show: fn(Route) -> Option<Shown>,
) -> AnyView {
    let fetched = RwSignal::new(None::<bool>);
    leptos::task::spawn_local(async move {
        let is_there = fetch().await.is_ok();
        fetched.try_set(Some(is_there));
    });
    let route = route.clone();
    let view = move || match fetched.get() {
        None => ().into_any(),
        Some(is_there) => match show(route.clone()) {
            Some(Ok(page)) if is_there => page,
            _ => {
                let why = say_with(k("reader-trouble"), vec![("why", text(group))]);
                view! { <p class="note warn" role="alert">{why}</p> }.into_any()
            }
        },
    };
    view.into_any()
}

#[wasm_split(driving, wasm_split_path = leptos::wasm_split, fallible, preload(fetch_driving))]
fn driving(route: Route) -> Shown {
    Ok(match route {
        Route::Drive { course, truck } => view! { <drive::Fresh course truck /> }.into_any(),
        Route::DriveOn(id) => view! { <drive::CutOff id /> }.into_any(),
        Route::Part { sitting, part } => view! { <drive::Part sitting part /> }.into_any(),
        _ => ().into_any(),
    })
}

#[wasm_split(looking, wasm_split_path = leptos::wasm_split, fallible, preload(fetch_looking))]
fn looking(route: Route) -> Shown {
    Ok(match route {
        Route::Debrief(id) => view! { <debrief::Debrief id /> }.into_any(),
        Route::Replay { id, at, finding } => view! { <replay::Replay id at finding /> }.into_any(),
        Route::Progress => view! { <progress::Progress /> }.into_any(),
        Route::Person(name) => view! { <progress::Person name /> }.into_any(),
        Route::Kinds => view! { <moments::Kinds /> }.into_any(),
        Route::Moments(code) => view! { <moments::Moments code /> }.into_any(),
        Route::Tour { code, number } => view! { <replay::tour::TourPage code number /> }.into_any(),
        Route::Two(ids) => view! { <two::Two ids /> }.into_any(),
        _ => ().into_any(),
    })
}

#[wasm_split(classing, wasm_split_path = leptos::wasm_split, fallible, preload(fetch_classing))]
fn classing(route: Route) -> Shown {
    Ok(match route {
        Route::Class => view! { <class::Class /> }.into_any(),
        Route::ClassRun(run) => view! { <class::ClassRun run /> }.into_any(),
        Route::InFigures => view! { <class::InFigures /> }.into_any(),
        Route::Training(name) => view! { <training::Training name /> }.into_any(),
        _ => ().into_any(),
    })
}

#[wasm_split(teaching, wasm_split_path = leptos::wasm_split, fallible, preload(fetch_teaching))]
fn teaching(route: Route) -> Shown {
    Ok(match route {
        Route::Lesson => view! { <lesson::Lesson /> }.into_any(),
        Route::Topic(id) => view! { <lesson::Topic id /> }.into_any(),
        Route::LessonRecord(id) => view! { <lesson::Record id /> }.into_any(),
        _ => ().into_any(),
    })
}

#[wasm_split(papers, wasm_split_path = leptos::wasm_split, fallible, preload(fetch_papers))]
fn papers(route: Route) -> Shown {
    Ok(match route {
        Route::PreTest => view! { <pretest::PreTest /> }.into_any(),
        Route::Sitting(id) => view! { <pretest::Sitting id /> }.into_any(),
        Route::Print(id) => view! { <print::Print id /> }.into_any(),
        Route::DaySheet(id) => view! { <print::day::DaySheet id /> }.into_any(),
        _ => ().into_any(),
    })
}

#[wasm_split(setting, wasm_split_path = leptos::wasm_split, fallible, preload(fetch_setting))]
fn setting(route: Route) -> Shown {
    Ok(match route {
        Route::Controls => view! { <controls::Controls /> }.into_any(),
        Route::Settings => view! { <settings::SettingsPage /> }.into_any(),
        Route::Rules => view! { <rules::RulesPage /> }.into_any(),
        _ => ().into_any(),
    })
}

#[wasm_split(sketches, wasm_split_path = leptos::wasm_split, fallible, preload(fetch_sketches))]
fn sketches(course: String, line: Vec<[f32; 2]>) -> Shown {
    Ok(match Ground::read("", &course) {
        Ok(ground) => view! { <Sketch ground line /> }.into_any(),
        // It is among the exercises, so it can be read.
        Err(_) => ().into_any(),
    })
}
