//! The record of a lesson as a page to print: when, by whom, with whom present, what was covered and when, and what
//! was left out.

use coneyard_core::class::Taught;
use leptos::prelude::*;

use super::desk::use_desk;
use crate::courses::said;
use crate::pages::print::sheet::PageStyle;
use crate::pages::print::tools::{PaperChoice, PrintNow, Signatures};
use crate::parts::when::Moment;
use crate::words::{k, number, say, say_with, tr};

/// The record of this id.
#[component]
pub(crate) fn Record(id: String) -> impl IntoView {
    let desk = use_desk();
    let found = Memo::new(move |_| desk.all.with(|all| all.iter().find(|t| t.id == id).cloned()));
    let read = move || desk.teaching().is_some();
    move || match found.get() {
        Some(taught) => view! { <Sheet taught /> }.into_any(),
        None if read() => {
            view! { <p class="note warn">{say(k("lesson-record-none"))}</p> }.into_any()
        }
        None => view! { <p role="status">{say(k("lesson-loading"))}</p> }.into_any(),
    }
}

#[component]
fn Sheet(taught: Taught) -> impl IntoView {
    let foot = {
        let name = taught.name.clone();
        move || format!("{} · {}", say(k("lesson-record-title")), said(&name))
    };
    let (name, at) = (taught.name.clone(), taught.started.clone());
    let open =
        |text: &str| if text.is_empty() { "…………".to_owned() } else { text.to_owned() };
    let trainer = open(&taught.trainer);
    let counts = vec![
        ("covered", number(taught.covered() as f64)),
        ("count", number(taught.topics.len() as f64)),
    ];
    let covered = move || say_with(k("lesson-covered-of"), counts.clone());
    let rows = taught
        .topics
        .iter()
        .enumerate()
        .map(|(n, topic)| {
            let (title, when) = (topic.title.clone(), topic.covered.clone());
            let is_left_out = when.is_none();
            view! {
                <tr class:reported=is_left_out data-topic=topic.id.clone()>
                    <th scope="row">{n + 1} " " {move || said(&title)}</th>
                    <td>
                        {match when {
                            Some(at) => view! { <Moment at /> }.into_any(),
                            None => view! { <strong>{tr("lesson-left-out")}</strong> }.into_any(),
                        }}
                    </td>
                </tr>
            }
        })
        .collect_view();
    let present = taught
        .present
        .iter()
        .map(|name| {
            let name = name.clone();
            view! { <li>{name}</li> }
        })
        .collect_view();
    let nobody = taught.present.is_empty();
    let note = taught.note.clone();
    view! {
        <PageStyle foot=Signal::derive(foot) />
        <div class="print-tools no-print">
            <PaperChoice />
            <p class="actions">
                <PrintNow />
                <a class="button" href="#/lesson">
                    {tr("lesson-to-topics")}
                </a>
            </p>
        </div>
        <article class="sheet day-sheet lesson-sheet">
            <dl class="facts">
                <div>
                    <dt>{tr("print-date")}</dt>
                    <dd>
                        <Moment at />
                    </dd>
                </div>
                <div>
                    <dt>{tr("lesson-title")}</dt>
                    <dd>{move || said(&name)}</dd>
                </div>
                <div>
                    <dt>{tr("lesson-trainer")}</dt>
                    <dd>{trainer}</dd>
                </div>
                <div>
                    <dt>{tr("lesson-covered")}</dt>
                    <dd>{covered}</dd>
                </div>
            </dl>
            <table>
                <thead>
                    <tr>
                        <th scope="col">{tr("lesson-topic")}</th>
                        <th scope="col">{tr("lesson-covered")}</th>
                    </tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
            <section class="keep">
                <h2>{tr("lesson-present-title")}</h2>
                {nobody.then(|| view! { <p>"…………"</p> })}
                <ul class="present-list">{present}</ul>
                {(!note.is_empty())
                    .then(|| {
                        view! {
                            <p>
                                {tr("lesson-note")} ": " {note}
                            </p>
                        }
                    })}
            </section>
            <section class="keep sheet-end">
                <Signatures lines=vec![k("print-trainer"), k("print-date")] />
                <p class="small">
                    <strong>{tr("caution-title")}</strong>
                    ". "
                    {tr("lesson-record-caution")}
                    " "
                    {tr("caution-short")}
                </p>
            </section>
        </article>
    }
}
