//! Somebody's training record: what 29 CFR 1910.178(l)(6) asks for and what of it is not there yet, sheets for practice
//! and evaluation at the real truck, what happened, and what is due. It prints as it stands.

mod desk;
mod form;
mod happened;
mod sheets;
mod standing;
mod trainings;

use coneyard_core::class::workplace::List;
use coneyard_core::reading::Question;
use coneyard_core::run::file::SIMULATION;
use leptos::prelude::*;

use crate::browser::save_file;
use crate::canvas::sentence;
use crate::pages::print::sheet::PageStyle;
use crate::pages::print::tools::{PaperChoice, PrintNow, Signatures};
use crate::parts::press::{Delete, Press};
use crate::reader;
use crate::route::Route;
use crate::site::own_list;
use crate::words::{k, number, say, say_with, tr};
use desk::{Desk, use_desk};

/// The lists that there are: the site's own first, if it has one.
async fn lists() -> Result<Vec<List>, String> {
    let mut all = Vec::new();
    // Where the database cannot be opened the shipped list does.
    if let Ok(Some(text)) = own_list().await {
        all.push(reader::ask(&Question::Workplace(text)).await?);
    }
    all.push(reader::ask(&Question::Workplace(String::new())).await?);
    Ok(all)
}

/// The page.
#[component]
pub(crate) fn Training(
    /// As the class calls them.
    name: String,
) -> impl IntoView {
    let desk = use_desk(&name);
    let lists_there = RwSignal::new(None::<Result<Vec<List>, String>>);
    leptos::task::spawn_local(async move {
        lists_there.try_set(Some(lists().await));
    });
    let back = Route::Person(name).href();
    // Every change of the record, and every answer of the host, comes by here: the page is drawn once, or what is half
    // filled in would be empty again.
    let is_there = Memo::new(move |_| desk.is_there());
    let body = move || match (is_there.get(), lists_there.get()) {
        (Err(why), _) | (_, Some(Err(why))) => view! {
            <p class="note warn" role="alert">
                {why}
            </p>
        }
        .into_any(),
        (Ok(true), Some(Ok(lists))) => view! { <Record desk lists /> }.into_any(),
        _ => view! { <p role="status">{say(k("class-loading"))}</p> }.into_any(),
    };
    view! {
        <p class="no-print">
            <a href=back>{tr("training-to-person")}</a>
        </p>
        {body}
    }
}

#[component]
fn Record(desk: Desk, lists: Vec<List>) -> impl IntoView {
    let operator = move || desk.with(|r| r.operator.clone());
    let foot = move || format!("{} · {}", say(k("training-title")), operator());
    let trouble = RwSignal::new(None::<String>);
    let save = move |_| {
        let name = desk.with_untracked(|r| r.operator.replace(['/', '\\'], " "));
        let text = desk.text();
        let saved =
            text.and_then(|t| save_file(&format!("{name}.training.json"), &t).map_err(sentence));
        trouble.set(saved.err());
    };
    let simulator = vec![("version", number(SIMULATION))];
    let not_kept = move || {
        desk.trouble.get().map(|why| {
            view! {
                <p class="note warn" role="alert">
                    {why}
                </p>
            }
        })
    };
    let lists = StoredValue::new(lists);
    view! {
        <PageStyle foot=Signal::derive(foot) />
        {not_kept}
        <div class="print-tools no-print">
            <PaperChoice />
            <p class="actions">
                <PrintNow />
                <Press name=k("training-save") id="save-training" act=save />
            </p>
            <p role="status">{move || trouble.get()}</p>
        </div>
        <article class="training">
            <h2 id="training-name">{operator}</h2>
            <standing::Operator desk />
            <standing::Standing desk lists />
            <trainings::Trainings desk />
            <sheets::Sheets desk lists />
            <happened::Happenings desk />
            <section class="keep sheet-end">
                <p class="small">
                    {move || {
                        lists.with_value(|all| all.first().map(|l| crate::courses::said(&l.simulator)))
                    }} " " {move || say_with(k("training-simulation"), simulator.clone())}
                </p>
                <p class="small">
                    <strong>{tr("caution-title")}</strong>
                    ". "
                    {tr("training-caution")}
                    " "
                    {tr("caution-short")}
                </p>
                <Signatures lines=vec![k("print-trainer"), k("print-date")] />
            </section>
        </article>
        <p class="actions no-print" id="forget-training">
            <Show when=move || desk.is_kept_here()>
                <Delete act=move |_| desk.forget() />
            </Show>
        </p>
        <p class="quiet no-print">{move || desk.where_kept()}</p>
    }
}
