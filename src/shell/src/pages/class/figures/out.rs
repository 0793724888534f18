//! What goes out to other programs: the tables of drives and of findings, and statements for a record store.

use coneyard_core::class::csv;
use coneyard_core::reading::{Question, StatementsOut};
use leptos::prelude::*;

use crate::browser::{self, save_file};
use crate::canvas::sentence;
use crate::courses::use_library;
use crate::host::{Trouble, get};
use crate::parts::press::Press;
use crate::reader;
use crate::store::{Attempt, use_store};
use crate::words::{k, number, say_with, tr};

type Table = fn(&[Attempt]) -> Result<String, String>;

/// What is kept here, or else what the class's host has.
async fn all(kept: Option<Vec<Attempt>>) -> Result<Vec<Attempt>, String> {
    match kept {
        Some(all) => Ok(all),
        None => get("attempts").await.map_err(Trouble::sentence),
    }
}

/// The section.
#[component]
pub(super) fn Out(
    /// From what is in this browser.
    here: Memo<bool>,
) -> impl IntoView {
    let (store, library) = (use_store(), use_library());
    // What came of the last thing that was asked for.
    let came = RwSignal::new(None::<Result<Option<(usize, usize)>, String>>);
    let save = move |name: &'static str, table: Table| {
        let kept = here.get_untracked().then(|| store.attempts.get_untracked());
        leptos::task::spawn_local(async move {
            let saved = async {
                // With the mark by which spreadsheets know that it is UTF-8.
                let text = format!("\u{feff}{}", table(&all(kept).await?)?);
                save_file(name, &text).map_err(sentence)
            };
            came.try_set(Some(saved.await.map(|()| None)));
        });
    };
    let statements = move |_| {
        let kept = here.get_untracked().then(|| store.attempts.get_untracked());
        let sittings = store.sittings.get_untracked();
        let titles = library.find(|l| Some(l.titles())).unwrap_or_default();
        leptos::task::spawn_local(async move {
            let saved = async {
                let asked = Question::Statements {
                    attempts: all(kept).await?,
                    sittings,
                    address: location().origin().map_err(sentence)?,
                    now: browser::now(),
                    titles,
                };
                let out: StatementsOut = reader::ask(&asked).await?;
                save_file("statements.xapi.json", &out.text).map_err(sentence)?;
                Ok(Some((out.statements, out.left_out)))
            };
            came.try_set(Some(saved.await));
        });
    };
    let told = move || {
        let (statements, left_out) = match came.get()? {
            Ok(counts) => counts?,
            Err(why) => return Some(why),
        };
        let count = |n: usize| number(n as f64);
        let values = vec![("count", count(statements)), ("left", count(left_out))];
        Some(say_with(k("figures-out-told"), values))
    };
    view! {
        <section aria-labelledby="out-title" class="no-print">
            <h2 id="out-title">{tr("figures-out")}</h2>
            <p class="quiet">{tr("figures-out-more")}</p>
            <p class="actions">
                <Press
                    name=k("figures-out-attempts")
                    id="save-attempts"
                    act=move |_| save("drives.csv", csv::attempts)
                />
                <Press
                    name=k("figures-out-findings")
                    id="save-findings"
                    act=move |_| save("findings.csv", csv::findings)
                />
                <Press name=k("figures-out-statements") id="save-statements" act=statements />
            </p>
            <p role="status">{told}</p>
        </section>
    }
}
