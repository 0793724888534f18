//! The path: the exercises in teaching order and in groups, each with its plan and the person's best line
//! on it; what was cut off, and runs that come in as files.

use coneyard_core::class::{Standing, standing};
use coneyard_core::reading::Terms;
use leptos::prelude::*;

use crate::courses::{Library, Listed, said, use_library};
use crate::parts::names::{ending_word, truck_name};
use crate::parts::notes::marks_text;
use crate::parts::prepare::prepare;
use crate::parts::sketch::sketch;
use crate::parts::skillbar::points_word;
use crate::parts::when::{Length, Moment};
use crate::route::Route;
use crate::settings::use_settings;
use crate::store::{Attempt, use_store};
use crate::words::{k, say, say_with, steady_number, text, tr};

/// Each group begins with this exercise, and goes on to where the next one begins: what a site puts in
/// between belongs where it stands.
const GROUPS: [(&str, &str); 5] = [
    ("straight", k("group-alone")),
    ("bays", k("group-loads")),
    ("cross-aisles", k("group-traffic")),
    ("walk-round", k("group-walk-round")),
    ("pick-run", k("group-whole")),
];

/// Keys of the groups, each with the places of its exercises in the list.
fn groups(ids: &[&str]) -> Vec<(&'static str, std::ops::Range<usize>)> {
    let starts: Vec<(usize, &str)> = GROUPS
        .iter()
        .filter_map(|(first, name)| Some((ids.iter().position(|id| id == first)?, *name)))
        .collect();
    let mut groups: Vec<(&str, std::ops::Range<usize>)> = Vec::new();
    for (n, (start, name)) in starts.iter().enumerate() {
        let end = starts.get(n + 1).map_or(ids.len(), |next| next.0);
        // What stands before the first one belongs to it.
        let start = if n == 0 { 0 } else { *start };
        groups.push((name, start..end.max(start)));
    }
    if groups.is_empty() && !ids.is_empty() {
        groups.push((GROUPS[0].1, 0..ids.len()));
    }
    groups
}

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
                let ids: Vec<&str> = library.courses.iter().map(|c| c.course.id.as_str()).collect();
                let exercise = |place: usize| {
                    let listed = library.courses.get(place)?.clone();
                    let is_next = next.as_deref() == Some(listed.course.id.as_str());
                    let standing = standing(&attempts, &listed.course.id, &who);
                    let wished = wished.clone();
                    Some(view! { <Exercise number=place + 1 listed standing is_next wished /> })
                };
                let groups = groups(&ids)
                    .into_iter()
                    .map(|(name, places)| {
                        view! {
                            <section class="group">
                                <h2>{say(name)}</h2>
                                <ol class="exercises">{places.map(exercise).collect_view()}</ol>
                            </section>
                        }
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
                    {groups}
                    {refused}
                }
                .into_any()
            }
        })
    };
    view! {
        <p class="lead">
            {tr("path-lead")} " " <a id="to-pre-test" href=Route::PreTest.href()>
                {tr("pretest-to")}
            </a> " " <a id="to-lesson" href=Route::Lesson.href()>
                {tr("lesson-to")}
            </a> " " <a id="to-moments" href=Route::Kinds.href()>
                {tr("moments-to")}
            </a>
        </p>
        <super::pretest::OpenSittings />
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
    /// From 1, in teaching order.
    number: usize,
    listed: Listed,
    standing: Standing,
    is_next: bool,
    wished: String,
) -> impl IntoView {
    let course = listed.course;
    let title = said(&course.title);
    let first = Library::truck_for(&course, &wished);
    let way =
        |truck: &str| Route::Drive { course: course.id.clone(), truck: truck.to_owned() }.href();
    let drives = course
        .trucks
        .iter()
        .map(|truck| {
            let class = if *truck == first && is_next { "button primary" } else { "button" };
            let shown = if course.trucks.len() > 1 {
                format!("{} · {}", say(k("path-drive")), truck_name(truck))
            } else {
                say(k("path-drive"))
            };
            let label = format!("{shown}: {title}");
            view! {
                <a class=class href=way(truck) aria-label=label>
                    {shown}
                </a>
            }
        })
        .collect_view();
    let line = standing.best.as_ref().map(|a| a.line.clone()).unwrap_or_default();
    let best = standing.best.as_ref().map(|a| {
        let result = result(a, use_library().terms());
        view! {
            <div>
                <dt>{say(k("path-best"))}</dt>
                <dd>{result}</dd>
            </div>
        }
    });
    let tries = standing.tries;
    let last = standing.last.as_ref().map(|a| {
        let href = Route::Debrief(a.id.clone()).href();
        let at = a.started.clone();
        let how = say(ending_word(a.verdict.debrief.ending));
        let marks = marks_text(a);
        view! {
            <div>
                <dt>
                    {say_with(k("path-last"), vec![("tries", crate::words::number(tries as f64))])}
                </dt>
                <dd>
                    <a href=href>
                        <Moment at />
                        {format!(" · {how}{marks}")}
                    </a>
                </dd>
            </div>
        }
    });
    view! {
        <li class="exercise" class:next=is_next>
            // The same as the first button, for who points; keys and ears have that one.
            <a class="sketch" href=way(&first) tabindex="-1" aria-hidden="true">
                {sketch(listed.text, line)}
            </a>
            <h3>{format!("{number}. {title}")}</h3>
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
            {(tries > 0)
                .then(|| {
                    view! {
                        <dl class="so-far">{best} {last}</dl>
                    }
                })}
            <p class="actions">{drives}</p>
        </li>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_exercise_is_in_one_group_in_its_order() {
        let index: Vec<String> =
            serde_json::from_str(include_str!("../../../../levels/index.json")).unwrap();
        let shipped: Vec<&str> = index
            .iter()
            .map(|file| file.trim_end_matches(".json"))
            .filter(|id| !id.starts_with("pretest-"))
            .collect();
        let of_shipped = groups(&shipped);
        assert_eq!(of_shipped.len(), GROUPS.len());
        for ids in [shipped.as_slice(), &["own", "straight", "more", "bays"], &["own", "other"]] {
            let places: Vec<usize> =
                groups(ids).into_iter().flat_map(|(_, places)| places).collect();
            assert_eq!(places, (0..ids.len()).collect::<Vec<_>>(), "{ids:?}");
        }
        assert_eq!(groups(&[]), []);
    }
}
