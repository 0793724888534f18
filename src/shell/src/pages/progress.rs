//! Attempts over time: a small plot for each skill, and the same numbers as a table.

mod person;
mod walks;

use coneyard_core::class::board::{Lately, lately};
use coneyard_core::class::detection::Estimate;
use coneyard_core::class::own::knowing;
use coneyard_core::class::{Brief, same_person};
use coneyard_core::finding::Skill;
use coneyard_core::score::points::SKILLS;
use coneyard_core::words::{ending_key, readiness_key, skill_key};
use leptos::prelude::*;

use crate::courses::use_library;
use crate::parts::names::truck_name;
use crate::parts::notes::marks_text;
use crate::parts::noticed::Noticed;
use crate::parts::share::{EstimateBar, clean_text, estimate_text};
use crate::parts::when::Moment;
use crate::route::Route;
use crate::settings::use_settings;
use crate::store::{Attempt, use_store};
use crate::words::{k, number, say, say_with, steady_number, text, tr};
pub(crate) use person::Person;
use walks::Walks;

/// Width and height of a plot's drawing, with room for its labels.
const WIDTH: f64 = 320.0;
const HEIGHT: f64 = 120.0;
const LEFT: f64 = 30.0;
const BOTTOM: f64 = 8.0;

/// What a plot shows: a skill, or the total.
fn points_of(attempt: &Attempt, skill: Option<Skill>) -> Option<f64> {
    match skill {
        None => attempt.total(),
        Some(skill) => {
            attempt.verdict.debrief.skills.iter().find(|s| s.skill == skill).and_then(|s| s.points)
        }
    }
}

/// Places of the points in the drawing: attempts along, 0 to 100 upwards.
fn places(points: &[f64]) -> Vec<(f64, f64)> {
    let gaps = points.len().saturating_sub(1).max(1) as f64;
    points
        .iter()
        .enumerate()
        .map(|(n, p)| {
            let along = if points.len() == 1 { 0.5 } else { n as f64 / gaps };
            let x = LEFT + 8.0 + along * (WIDTH - LEFT - 16.0);
            (x, y_of(*p))
        })
        .collect()
}

fn y_of(points: f64) -> f64 {
    let top = 8.0;
    top + (100.0 - points.clamp(0.0, 100.0)) / 100.0 * (HEIGHT - top - BOTTOM)
}

/// The page.
#[component]
pub(crate) fn Progress() -> impl IntoView {
    let store = use_store();
    let settings = use_settings();
    let course = RwSignal::new(String::new());
    let mine = Memo::new(move |_| {
        let who = settings.with(|s| s.who.clone());
        let course = course.get();
        store.attempts.with(|all| {
            all.iter()
                .filter(|a| same_person(&a.who, &who) && (course.is_empty() || a.course == course))
                .cloned()
                .collect::<Vec<_>>()
        })
    });
    let lead = move || {
        let who = settings.with(|s| s.who.clone());
        let who = if who.is_empty() { say(k("who-nobody")) } else { who };
        say_with(
            k("progress-lead"),
            vec![("who", text(who)), ("count", number(mine.with(Vec::len) as f64))],
        )
    };
    view! {
        <p class="lead">{lead}</p>
        <CourseChoice course />
        <Show
            when=move || mine.with(|m| !m.is_empty())
            fallback=move || {
                view! {
                    <p>{tr("progress-none")}</p>
                    <p>
                        <a class="button" href="#/path">
                            {tr("to-path")}
                        </a>
                    </p>
                }
            }
        >
            <Looks attempts=mine page=Route::Debrief />
        </Show>
    }
}

/// Somebody's attempts, as plots, shares and tables.
#[component]
fn Looks(
    attempts: Memo<Vec<Attempt>>,
    /// Where one of them is opened.
    page: fn(String) -> Route,
) -> impl IntoView {
    let plots = move || {
        let attempts = attempts.get();
        std::iter::once(None)
            .chain(SKILLS.into_iter().map(Some))
            .filter_map(|skill| {
                // Slowed practice is in the table, but it is no point of a line to read skill from.
                let real = attempts.iter().filter(|a| !a.is_slowed());
                let points: Vec<f64> = real.filter_map(|a| points_of(a, skill)).collect();
                (!points.is_empty()).then(|| view! { <Plot skill points /> })
            })
            .collect_view()
    };
    view! {
        <div class="plots">{plots}</div>
        <Shares attempts />
        {move || view! { <Noticed all=attempts.with(|all| knowing(all)) /> }}
        <Walks attempts />
        <Table attempts page />
    }
}

/// How sure each skill is with each truck, by what was shown of it lately, as on a class's board. Who is ready for one
/// truck has not shown it with the other.
#[component]
fn Shares(attempts: Memo<Vec<Attempt>>) -> impl IntoView {
    let library = use_library();
    let trucks = Memo::new(move |_| {
        let mut trucks: Vec<String> =
            attempts.with(|all| all.iter().map(|a| a.truck.clone()).collect());
        trucks.sort_by(|a, b| b.cmp(a));
        trucks.dedup();
        trucks
    });
    let rows = move |truck: &str| {
        let ready_from = library.terms().map_or(1.0, |t| t.ready_from);
        let mut on_it: Vec<Brief> =
            attempts.with(|all| all.iter().filter(|a| a.truck == truck).map(Brief::of).collect());
        on_it.sort_by(|a, b| a.started.cmp(&b.started));
        lately(&on_it.iter().collect::<Vec<_>>())
            .into_iter()
            .map(|of| {
                let Lately { skill, clean, all, least, most, .. } = of;
                let value = f64::from(clean) / f64::from(all);
                let is = Estimate { value, low: least, high: most };
                view! {
                    <li class="skill sure">
                        <span class="name">{say(skill_key(skill))}</span>
                        <EstimateBar is />
                        <span class="word">
                            <strong>{say(readiness_key(of.readiness(ready_from)))}</strong>
                            " · "
                            {estimate_text(is)}
                            " · "
                            {clean_text(clean, all)}
                        </span>
                    </li>
                }
            })
            .collect_view()
    };
    view! {
        <section class="card" aria-labelledby="shares-title">
            <h2 id="shares-title">{tr("progress-shares")}</h2>
            <p class="quiet">{tr("progress-shares-more")}</p>
            {move || {
                trucks
                    .get()
                    .into_iter()
                    .map(|truck| {
                        view! {
                            <h3>{truck_name(&truck)}</h3>
                            <ul class="skills">{rows(&truck)}</ul>
                        }
                    })
                    .collect_view()
            }}
        </section>
    }
}

#[component]
fn CourseChoice(course: RwSignal<String>) -> impl IntoView {
    let library = use_library();
    let options = move || {
        let ids = library
            .find(|l| Some(l.courses.iter().map(|c| c.course.id.clone()).collect::<Vec<_>>()))
            .unwrap_or_default();
        ids.into_iter()
            .map(|id| {
                let title = library.title(&id);
                view! { <option value=id>{title}</option> }
            })
            .collect_view()
    };
    view! {
        <label class="field inline">
            <span>{tr("progress-course")}</span>
            <select on:change=move |ev| course.set(event_target_value(&ev))>
                <option value="">{tr("progress-all-courses")}</option>
                {options}
            </select>
        </label>
    }
}

/// Points of one skill over the attempts. The table under it tells the same.
#[component]
fn Plot(skill: Option<Skill>, points: Vec<f64>) -> impl IntoView {
    let name = skill.map_or(k("progress-total"), skill_key);
    let asked = use_library().terms().map(|terms| {
        let y = y_of(if skill.is_some() { terms.pass_skill } else { terms.pass_total });
        view! { <line class="asked" x1=LEFT x2=WIDTH y1=y y2=y /> }
    });
    let places = places(&points);
    let path: String = places
        .iter()
        .enumerate()
        .map(|(n, (x, y))| format!("{}{x:.1} {y:.1}", if n == 0 { 'M' } else { 'L' }))
        .collect();
    let dots = places
        .into_iter()
        .map(|(x, y)| view! { <circle class="dot" cx=x cy=y r="4" /> })
        .collect_view();
    let last = points.last().copied().unwrap_or(0.0);
    view! {
        <figure class="plot-card">
            <figcaption>
                <span>{tr(name)}</span>
                <strong>{move || steady_number(last, 0)}</strong>
            </figcaption>
            <svg viewBox=format!("0 0 {WIDTH} {HEIGHT}") aria-hidden="true">
                {[0.0, 50.0, 100.0]
                    .into_iter()
                    .map(|p| {
                        view! {
                            <line class="grid" x1=LEFT x2=WIDTH y1=y_of(p) y2=y_of(p) />
                            <text class="label" x=LEFT - 5.0 y=y_of(p) + 4.0>
                                {p}
                            </text>
                        }
                    })
                    .collect_view()}
                {asked}
                <path class="line" d=path />
                {dots}
            </svg>
        </figure>
    }
}

#[component]
fn Table(attempts: Memo<Vec<Attempt>>, page: fn(String) -> Route) -> impl IntoView {
    let library = use_library();
    let shown = Memo::new(move |_| {
        attempts.with(|all| {
            SKILLS
                .into_iter()
                .filter(|s| all.iter().any(|a| points_of(a, Some(*s)).is_some()))
                .collect::<Vec<_>>()
        })
    });
    let cell = |points: Option<f64>| match points {
        Some(points) => view! { <td class="num">{steady_number(points, 0)}</td> }.into_any(),
        None => view! {
            <td class="num">
                <span aria-hidden="true">"–"</span>
                <span class="sr">{say(k("points-not-shown"))}</span>
            </td>
        }
        .into_any(),
    };
    let rows = move || {
        attempts
            .get()
            .into_iter()
            .rev()
            .map(|a| {
                let href = page(a.id.clone()).href();
                let skills =
                    shown.get().into_iter().map(|s| cell(points_of(&a, Some(s)))).collect_view();
                view! {
                    <tr>
                        <th scope="row">
                            <a href=href>
                                <Moment at=a.started.clone() />
                            </a>
                        </th>
                        <td>{library.title(&a.course)} " · " {truck_name(&a.truck)}</td>
                        <td>{say(ending_key(a.verdict.debrief.ending))} {marks_text(&a)}</td>
                        {cell(a.total())}
                        {skills}
                    </tr>
                }
            })
            .collect_view()
    };
    let heads = move || {
        shown
            .get()
            .into_iter()
            .map(|s| {
                view! {
                    <th scope="col" class="num">
                        {say(skill_key(s))}
                    </th>
                }
            })
            .collect_view()
    };
    view! {
        <div class="table-wrap" tabindex="0" role="region" aria-label=tr("progress-table")>
            <table>
                <caption>{tr("progress-table")}</caption>
                <thead>
                    <tr>
                        <th scope="col">{tr("progress-when")}</th>
                        <th scope="col">{tr("progress-exercise")}</th>
                        <th scope="col">{tr("progress-ending")}</th>
                        <th scope="col" class="num">
                            {tr("progress-total")}
                        </th>
                        {heads}
                    </tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn points_lie_from_left_to_right_and_higher_is_higher() {
        let p = places(&[0.0, 100.0]);
        assert!(p[0].0 < p[1].0 && p[0].1 > p[1].1);
        assert!(p.iter().all(|(x, y)| *x > LEFT && *x < WIDTH && *y > 0.0 && *y < HEIGHT));
        let one = places(&[50.0]);
        assert!(one[0].0 > LEFT && one[0].0 < WIDTH);
    }
}
