//! The path: the exercises in teaching order, what was cut off, and runs that come in as files.

use coneyard_core::class::{Standing, standing};
use coneyard_core::reading::Terms;
use leptos::prelude::*;

use crate::courses::{Library, said, use_library};
use crate::files::CourseLabel;
use crate::parts::names::{ending_word, truck_name};
use crate::parts::notes::marks_text;
use crate::parts::prepare::prepare;
use crate::parts::skillbar::points_word;
use crate::parts::when::{Length, Moment};
use crate::route::Route;
use crate::settings::use_settings;
use crate::store::{Attempt, use_store};
use crate::words::{k, number, say, say_with, steady_number, text, tr};

/// The exercises.
#[component]
pub(crate) fn Path() -> impl IntoView {
    let library = use_library();
    let settings = use_settings();
    let store = use_store();
    leptos::task::spawn_local(store.refresh());
    prepare();
    let list = move || {
        library.0.with(|l| match l {
            None => view! { <p role="status">{say(k("courses-loading"))}</p> }.into_any(),
            Some(Err(why)) => view! {
                <p class="note warn" role="alert">
                    {say_with(k("courses-trouble"), vec![("why", text(why.clone()))])}
                </p>
            }
            .into_any(),
            Some(Ok(library)) => {
                let who = settings.with(|s| s.who.clone());
                let wished = settings.with(|s| s.truck.clone());
                let attempts = store.attempts.get();
                let next = library.next(&attempts, &who);
                let cards = library
                    .courses
                    .iter()
                    .map(|listed| {
                        let course = listed.course.clone();
                        let is_next = next.as_deref() == Some(course.id.as_str());
                        let standing = standing(&attempts, &course.id, &who);
                        view! { <Exercise course standing is_next wished=wished.clone() /> }
                    })
                    .collect_view();
                let refused = library
                    .refused
                    .iter()
                    .map(|why| {
                        view! {
                            <p class="note warn">
                                {say_with(k("course-refused"), vec![("why", text(why.clone()))])}
                            </p>
                        }
                    })
                    .collect_view();
                view! {
                    <ol class="exercises">{cards}</ol>
                    {refused}
                }
                .into_any()
            }
        })
    };
    view! {
        <p class="lead">{tr("path-lead")}</p>
        <super::pretest::OpenSittings />
        <p class="actions">
            <a class="button" id="to-pre-test" href=Route::PreTest.href()>
                {tr("pretest-to")}
            </a>
        </p>
        <super::cut_off::CutOffRuns />
        {list}
        <super::import::Import />
    }
}

fn result(attempt: &Attempt, terms: Option<Terms>) -> impl IntoView + use<> {
    let debrief = &attempt.verdict.debrief;
    let points = debrief.total.map_or_else(
        || say(k("points-not-shown")),
        |p| {
            say_with(
                k("path-points"),
                vec![
                    ("points", text(steady_number(p, 0))),
                    ("word", text(terms.map_or_else(String::new, |t| say(points_word(p, t))))),
                ],
            )
        },
    );
    view! {
        {points}
        " · "
        <Length ticks=debrief.ticks />
    }
}

#[component]
fn Exercise(
    course: CourseLabel,
    standing: Standing,
    is_next: bool,
    wished: String,
) -> impl IntoView {
    let title = said(&course.title);
    let first = Library::truck_for(&course, &wished);
    let drives = course
        .trucks
        .iter()
        .map(|truck| {
            let href = Route::Drive { course: course.id.clone(), truck: truck.clone() }.href();
            let class = if *truck == first && is_next { "button primary" } else { "button" };
            let shown = if course.trucks.len() > 1 {
                format!("{} · {}", say(k("path-drive")), truck_name(truck))
            } else {
                say(k("path-drive"))
            };
            let label = format!("{shown}: {title}");
            view! {
                <a class=class href=href aria-label=label>
                    {shown}
                </a>
            }
        })
        .collect_view();
    let best = standing.best.as_ref().map(|a| result(a, use_library().terms()));
    let last = standing.last.as_ref().map(|a| {
        let href = Route::Debrief(a.id.clone()).href();
        let at = a.started.clone();
        let how = say(ending_word(a.verdict.debrief.ending));
        let marks = marks_text(a);
        view! {
            <a href=href>
                <Moment at />
                {format!(" · {how}{marks}")}
            </a>
        }
    });
    let tries = standing.tries;
    view! {
        <li class="exercise" class:next=is_next>
            <div class="what">
                <h2>{title.clone()}</h2>
                {is_next
                    .then(|| {
                        view! {
                            <p class="next-mark">
                                <span aria-hidden="true">"▶ "</span>
                                {say(k("path-next"))}
                            </p>
                        }
                    })}
                <p>{said(&course.trains)}</p>
            </div>
            <dl class="so-far">
                <div>
                    <dt>{say(k("path-best"))}</dt>
                    <dd>{best.ok_or_else(|| say(k("path-none-yet"))).map_or_else(IntoAny::into_any, IntoAny::into_any)}</dd>
                </div>
                {last
                    .map(|last| {
                        view! {
                            <div>
                                <dt>
                                    {say_with(
                                        k("path-last"),
                                        vec![("tries", number(tries as f64))],
                                    )}
                                </dt>
                                <dd>{last}</dd>
                            </div>
                        }
                    })}
            </dl>
            <p class="actions">{drives}</p>
        </li>
    }
}
