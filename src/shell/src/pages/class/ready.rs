//! Who has shown what, and what the class misses: from attempts, wherever they are kept.

use coneyard_core::class::board::{Board, Lately, Missed, Row};
use coneyard_core::class::csv::people;
use coneyard_core::class::exercises::that_train;
use coneyard_core::finding::Unit;
use coneyard_core::score::certainty::Readiness;
use coneyard_core::score::points::SKILLS;
use coneyard_core::words::{readiness_key, skill_key};
use leptos::prelude::*;

use crate::browser::save_file;
use crate::canvas::sentence;
use crate::courses::{LibraryDesk, use_library};
use crate::parts::finding;
use crate::parts::names::truck_name;
use crate::parts::press::Press;
use crate::parts::when::Moment;
use crate::route::Route;
use crate::settings::use_settings;
use crate::words::{k, number, quantity, say, say_with, text, title, tr};

/// The table as a file.
const TABLE: &str = "people.csv";
/// So many exercises are named for each.
const TRAINS_MOST: usize = 3;
/// So many of what a class misses are listed.
const MISSED_MOST: usize = 8;

fn mark(readiness: Readiness) -> &'static str {
    match readiness {
        Readiness::Ready => "●",
        Readiness::PractiseMore => "▲",
        Readiness::NotEnoughShown => "○",
    }
}

/// "17 of 18 clean, last 4 runs, at least 74 %".
fn lately_text(lately: &Lately) -> String {
    let units = use_settings().with(|s| s.units);
    let values = vec![
        ("clean", number(lately.clean)),
        ("all", number(lately.all)),
        ("runs", number(lately.runs as f64)),
        ("least", text(quantity(lately.least, Unit::Share, units))),
    ];
    say_with(k("board-lately"), values)
}

/// Both tables.
#[component]
pub(super) fn Ready(
    /// What the class has shown.
    #[prop(into)]
    board: Signal<Board>,
    /// Where an attempt is opened.
    page: fn(String) -> Route,
) -> impl IntoView {
    let library = use_library();
    let ready_from = move || library.terms().map_or(1.0, |t| t.ready_from);
    let table = Memo::new(move |_| board.with(|board| board.rows.clone()));
    let faults = Memo::new(move |_| {
        board.with(|board| board.missed.iter().take(MISSED_MOST).cloned().collect::<Vec<_>>())
    });
    let trouble = RwSignal::new(None::<String>);
    let save = move |_| {
        // With the mark by which spreadsheets know that it is UTF-8.
        let text =
            people(&table.get_untracked(), untrack(ready_from)).map(|t| format!("\u{feff}{t}"));
        let saved = text.and_then(|text| save_file(TABLE, &text).map_err(sentence));
        trouble.set(saved.err());
    };
    let skills = move || {
        let shown = table.get();
        let is_shown = |skill| shown.iter().any(|r| r.skills.iter().any(|s| s.skill == skill));
        SKILLS.into_iter().filter(|s| is_shown(*s)).collect::<Vec<_>>()
    };
    view! {
        <Show when=move || table.with(|t| !t.is_empty())>
            <section>
                <h2 id="board-title">{tr("board-title")}</h2>
                <p class="quiet">{tr("board-more")}</p>
                <div class="table-wrap broad" tabindex="0" role="region" aria-label=tr("board-title")>
                    <table id="board" class="board">
                        <thead>
                            <tr>
                                <th scope="col">{tr("class-person")}</th>
                                <th scope="col" class="num">
                                    {tr("class-count")}
                                </th>
                                {move || skills().into_iter().map(head).collect_view()}
                                <th scope="col">{tr("board-last")}</th>
                            </tr>
                        </thead>
                        <tbody>
                            {move || {
                                let (skills, ready_from) = (skills(), ready_from());
                                table
                                    .get()
                                    .into_iter()
                                    .map(|r| row(r, &skills, ready_from))
                                    .collect_view()
                            }}
                        </tbody>
                    </table>
                </div>
                <p class="actions">
                    <Press name=k("board-save") id="save-board" act=save />
                </p>
                <p role="status">{move || trouble.get()}</p>
            </section>
        </Show>
        <Show when=move || faults.with(|f| !f.is_empty())>
            <section aria-labelledby="missed-title">
                <h2 id="missed-title">{tr("board-missed")}</h2>
                <ul class="plain" id="missed">
                    {move || {
                        let row = |m| fault(library, m, page);
                        faults.get().into_iter().map(row).collect_view()
                    }}
                </ul>
            </section>
        </Show>
    }
}

fn head(skill: coneyard_core::finding::Skill) -> impl IntoView {
    view! { <th scope="col">{say(skill_key(skill))}</th> }
}

fn row(
    row: Row,
    skills: &[coneyard_core::finding::Skill],
    ready_from: f64,
) -> impl IntoView + use<> {
    let cells = skills
        .iter()
        .map(|skill| match row.skills.iter().find(|s| s.skill == *skill) {
            None => view! {
                <td>
                    <span aria-hidden="true">"–"</span>
                    <span class="sr">{say(k("points-not-shown"))}</span>
                </td>
            }
            .into_any(),
            Some(lately) => {
                let (words, readiness) = (lately_text(lately), lately.readiness(ready_from));
                view! {
                    <td data-ready=format!("{readiness:?}")>
                        <span aria-hidden="true">{mark(readiness)} " "</span>
                        {say(readiness_key(readiness))}
                        <small>{words}</small>
                    </td>
                }
                .into_any()
            }
        })
        .collect_view();
    view! {
        <tr data-who=row.who.clone()>
            <th scope="row">
                <a href=Route::Person(row.who.clone()).href()>{row.who.clone()}</a>
                " · "
                {truck_name(&row.truck)}
            </th>
            <td class="num">{row.drives}</td>
            {cells}
            <td>
                <Moment at=row.last />
            </td>
        </tr>
    }
}

/// What is missed, the run that shows it, and what trains it.
fn fault(library: LibraryDesk, missed: Missed, page: fn(String) -> Route) -> impl IntoView {
    let href = page(missed.attempt).href();
    let all = Route::Moments(missed.code.clone()).href();
    let values =
        vec![("people", number(missed.people as f64)), ("times", number(missed.times as f64))];
    let exercises: Vec<String> =
        that_train(&missed.code).iter().take(TRAINS_MOST).map(|id| library.title(id)).collect();
    let trains = (!exercises.is_empty()).then(|| {
        let exercises = vec![("exercises", text(exercises.join(", ")))];
        view! {
            <br />
            <small>{say_with(k("board-trains"), exercises)}</small>
        }
    });
    view! {
        <li>
            <span aria-hidden="true">{finding::mark(missed.severity)} " "</span>
            <a href=href>{title(&missed.code)}</a>
            " · "
            {say_with(k("board-missed-by"), values)}
            " · "
            <a class="play-all" href=all>{tr("board-play-all")}</a>
            {trains}
        </li>
    }
}
