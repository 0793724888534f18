//! What goes out to other programs: the tables of drives and of findings.

use coneyard_core::class::csv;
use leptos::prelude::*;

use crate::browser::save_file;
use crate::canvas::sentence;
use crate::host::{Trouble, get};
use crate::parts::press::Press;
use crate::store::{Attempt, use_store};
use crate::words::{k, tr};

type Table = fn(&[Attempt]) -> Result<String, String>;

/// The section.
#[component]
pub(super) fn Out(
    /// From what is in this browser.
    here: Memo<bool>,
) -> impl IntoView {
    let store = use_store();
    let trouble = RwSignal::new(None::<String>);
    let save = move |name: &'static str, table: Table| {
        let kept = here.get_untracked().then(|| store.attempts.get_untracked());
        leptos::task::spawn_local(async move {
            let saved = async {
                let all = match kept {
                    Some(all) => all,
                    None => get::<Vec<Attempt>>("attempts").await.map_err(Trouble::sentence)?,
                };
                // With the mark by which spreadsheets know that it is UTF-8.
                let text = format!("\u{feff}{}", table(&all)?);
                save_file(name, &text).map_err(sentence)
            };
            trouble.try_set(saved.await.err());
        });
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
            </p>
            <p role="status">{move || trouble.get()}</p>
        </section>
    }
}
