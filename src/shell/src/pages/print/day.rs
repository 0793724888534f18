//! The sheet of a walk-round as it is filled in and signed: every point with its answer, reason and note, and
//! the decision. It says what was answered, not what was right.

use std::sync::Arc;

use coneyard_core::checks::list::Part;
use coneyard_core::checks::sheet::WalkShown;
use leptos::prelude::*;

use super::sheet::PageStyle;
use super::tools::{Signatures, Tools};
use crate::courses::said;
use crate::pages::debrief::who_text;
use crate::parts::names::truck_name;
use crate::parts::papers::{self, Papers, Phase};
use crate::parts::round::{answer_word, hours_text, reason_word};
use crate::parts::when::Moment;
use crate::store::{Attempt, use_store};
use crate::words::{k, say, say_with, text, tr};

/// The sheet of an attempt's walk-round.
#[component]
pub(crate) fn DaySheet(id: String) -> impl IntoView {
    let store = use_store();
    let found = Memo::new(move |_| store.attempt(&id));
    move || match (found.get(), store.ready.get()) {
        (Some(attempt), _) => view! { <Whole attempt /> }.into_any(),
        (None, false) => view! { <p role="status">{say(k("debrief-loading"))}</p> }.into_any(),
        (None, true) => view! { <p class="note warn">{say(k("run-not-there"))}</p> }.into_any(),
    }
}

#[component]
fn Whole(attempt: Attempt) -> impl IntoView {
    let papers = papers::only_read(&attempt);
    let foot = {
        let attempt = attempt.clone();
        move || format!("{} · {}", say(k("sheet-title")), who_text(&attempt))
    };
    let id = attempt.id.clone();
    let sheet = move || {
        let walk = papers.walk.get()?;
        Some(view! { <Sheet attempt=attempt.clone() walk /> })
    };
    view! {
        <PageStyle foot=Signal::derive(foot) />
        <Tools id papers says=trouble />
        {sheet}
    }
}

/// Why there is no sheet.
fn trouble(papers: Papers) -> Option<String> {
    match papers.phase.get() {
        Phase::Working => Some(say(k("debrief-loading"))),
        Phase::Trouble(why) => Some(say_with(k("print-trouble"), vec![("why", text(why))])),
        Phase::Ready if papers.walk.with(Option::is_none) => Some(say(k("sheet-none"))),
        Phase::Ready => None,
    }
}

#[component]
fn Sheet(attempt: Attempt, walk: Arc<WalkShown>) -> impl IntoView {
    let parts = [
        (Part::Outside, k("sheet-outside")),
        (Part::Desk, k("sheet-desk")),
        (Part::Tried, k("sheet-tried")),
    ];
    let bodies = {
        let walk = walk.clone();
        move || {
            let body = |(part, title)| view! { <Body walk=walk.clone() part title /> };
            parts.into_iter().map(body).collect_view()
        }
    };
    let note = walk.sheet.note.clone();
    let decided = decision_key(&walk);
    view! {
        <article class="sheet day-sheet">
            <Facts attempt walk />
            <table>
                <thead>
                    <tr>
                        <th scope="col">{tr("sheet-point")}</th>
                        <th scope="col">{tr("sheet-answer")}</th>
                        <th scope="col">{tr("sheet-reason")}</th>
                        <th scope="col" class="note-cell">
                            {tr("sheet-note")}
                        </th>
                    </tr>
                </thead>
                {bodies}
            </table>
            <section class="keep sheet-end">
                <p class="outcome">
                    {tr("sheet-decision")} ": " <strong>{tr(decided)}</strong>
                </p>
                {(!note.is_empty())
                    .then(|| {
                        view! {
                            <p>
                                {tr("sheet-note")} ": " {note}
                            </p>
                        }
                    })}
                <Signatures lines=vec![k("sheet-signed-by"), k("sheet-received-by"), k("print-date")] />
            </section>
            <section class="keep">
                <p class="small">
                    <strong>{tr("caution-title")}</strong>
                    ". "
                    {tr("sheet-caution")}
                    " "
                    {tr("caution-short")}
                </p>
            </section>
        </article>
    }
}

/// What was decided.
fn decision_key(walk: &WalkShown) -> &'static str {
    match walk.sheet.taken {
        Some(true) => k("sheet-taken"),
        Some(false) => k("sheet-tagged"),
        None => k("sheet-undecided"),
    }
}

#[component]
fn Facts(attempt: Attempt, walk: Arc<WalkShown>) -> impl IntoView {
    let (started, truck) = (attempt.started.clone(), attempt.truck.clone());
    let (shift, hours) = (walk.sheet.shift, walk.sheet.hours_read);
    // What was not written down stays open for a pen.
    let open = || "…………".to_owned();
    view! {
        <dl class="facts">
            <div>
                <dt>{tr("print-date")}</dt>
                <dd>
                    <Moment at=started />
                </dd>
            </div>
            <div>
                <dt>{tr("sheet-shift")}</dt>
                <dd>{shift.map_or_else(open, |n| n.to_string())}</dd>
            </div>
            <div>
                <dt>{tr("print-truck")}</dt>
                <dd>{move || truck_name(&truck)}</dd>
            </div>
            <div>
                <dt>{tr("sheet-hours")}</dt>
                <dd>{move || hours.map_or_else(open, hours_text)}</dd>
            </div>
            <div>
                <dt>{tr("sheet-by")}</dt>
                <dd>{move || who_text(&attempt)}</dd>
            </div>
            <div>
                <dt>{tr("sheet-list")}</dt>
                <dd>{move || said(&walk.list.name)}</dd>
            </div>
        </dl>
    }
}

/// The points of one part of the list.
#[component]
fn Body(walk: Arc<WalkShown>, part: Part, title: &'static str) -> impl IntoView {
    let row = |(point, row): (&coneyard_core::checks::list::Point, _)| {
        let row: &coneyard_core::checks::sheet::Row = row;
        let is_report = row.answer.is_some_and(|code| code != 0);
        let answer = answer_word(&walk.list, row.answer);
        view! {
            <tr class:reported=is_report data-point=point.id.clone()>
                <th scope="row">{said(&point.name)}</th>
                <td class="answer-cell">{answer.unwrap_or_else(|| say(k("round-no-answer")))}</td>
                <td>{reason_word(&walk.list, row)}</td>
                <td class="note-cell">{row.note.clone()}</td>
            </tr>
        }
    };
    let rows = walk.list.points.iter().zip(&walk.sheet.rows);
    let rows: Vec<_> = rows.filter(|(p, _)| p.part == part).map(row).collect();
    (!rows.is_empty()).then(|| {
        view! {
            <tbody>
                <tr>
                    <th scope="rowgroup" colspan="4" class="part">
                        {say(title)}
                    </th>
                </tr>
                {rows}
            </tbody>
        }
    })
}
