//! What happened at the truck and asks for a refresher, with the exercises that train what was seen.

use coneyard_core::class::again::Cause;
use coneyard_core::class::exercises::trained;
use coneyard_core::class::record::Happened;
use leptos::prelude::*;

use super::desk::Desk;
use super::form::{Common, Fields, NoteField, day_by};
use crate::courses::use_library;
use crate::parts::due::cause_key;
use crate::parts::names::truck_name;
use crate::parts::press::{Delete, Press};
use crate::route::Route;
use crate::words::{k, say, title, tr};

/// The section.
#[component]
pub(super) fn Happenings(desk: Desk) -> impl IntoView {
    let library = use_library();
    let rows = move || {
        let one = |happened: Happened| {
            let drop = happened.clone();
            let forget = move |_| desk.drop_one(|r| &mut r.happened, drop.clone());
            let day = day_by(happened.on, &happened.by);
            let seen: Vec<String> = happened.codes.iter().map(|code| title(code)).collect();
            let exercises = happened
                .exercises()
                .into_iter()
                .map(|id| {
                    let href =
                        Route::Drive { course: id.to_owned(), truck: happened.truck.clone() }
                            .href();
                    view! {
                        " "
                        <a href=href>{library.title(id)}</a>
                    }
                })
                .collect_view();
            let trains = (!happened.codes.is_empty())
                .then(|| view! { <small>{tr("happened-trains")} ":" {exercises}</small> });
            view! {
                <li>
                    <strong>{say(cause_key(happened.cause))}</strong>
                    " · "
                    {truck_name(&happened.truck)}
                    " · "
                    {day}
                    <small>{seen.join(" · ")}</small>
                    <small>{happened.note}</small>
                    {trains}
                    <span class="no-print">
                        <Delete act=forget />
                    </span>
                </li>
            }
        };
        let all = desk.with(|r| r.happened.clone());
        (!all.is_empty()).then(|| {
            view! { <ul class="plain entries" id="happened">{all.into_iter().map(one).collect_view()}</ul> }
        })
    };
    view! {
        <section aria-labelledby="happened-title">
            <h3 id="happened-title">{tr("happened-title")}</h3>
            <p class="quiet no-print">{tr("happened-more")}</p>
            {rows}
            <Another desk />
        </section>
    }
}

#[component]
fn Another(desk: Desk) -> impl IntoView {
    let fields = Fields::new();
    let cause = RwSignal::new(Cause::UnsafeSeen);
    let codes = RwSignal::new(Vec::<String>::new());
    // An evaluation that ended with "not yet" says so on its own sheet.
    let causes = Cause::ALL
        .into_iter()
        .filter(|c| *c != Cause::EvaluationUnsafe)
        .map(|c| view! { <option value=format!("{c:?}")>{tr(cause_key(c))}</option> })
        .collect_view();
    let choose = move |ev: leptos::ev::Event| {
        let name = event_target_value(&ev);
        if let Some(chosen) = Cause::ALL.into_iter().find(|c| format!("{c:?}") == name) {
            cause.set(chosen);
        }
    };
    let offered = move || {
        let mut all: Vec<(String, &str)> = trained().map(|code| (title(code), code)).collect();
        all.sort();
        all.into_iter()
            .map(|(name, code)| view! { <option value=code>{name}</option> })
            .collect_view()
    };
    let pick = move |ev: leptos::ev::Event| {
        let code = event_target_value(&ev);
        if !code.is_empty() {
            codes.update(|all| {
                if !all.contains(&code) {
                    all.push(code);
                }
            });
        }
        // The first line stands there again.
        event_target::<web_sys::HtmlSelectElement>(&ev).set_value("");
    };
    let picked = move || {
        let one = |code: String| {
            let drop = code.clone();
            view! {
                <li>
                    {title(&code)}
                    " "
                    <Press
                        name=k("happened-unpick")
                        act=move |_| codes.update(|all| all.retain(|c| *c != drop))
                    />
                </li>
            }
        };
        codes.get().into_iter().map(one).collect_view()
    };
    let add = move |_| {
        let Some(filled) = fields.filled() else { return };
        let happened = Happened {
            on: filled.on,
            cause: cause.get_untracked(),
            truck: filled.truck,
            codes: codes.get_untracked(),
            note: filled.note,
            by: filled.by,
        };
        desk.change(move |r| r.happened.push(happened.clone()));
        codes.set(Vec::new());
        fields.clear();
    };
    view! {
        <details class="no-print" id="another-happening">
            <summary>{tr("happened-add")}</summary>
            <label class="field">
                <span>{tr("happened-cause")}</span>
                <select id="happened-cause" on:change=choose>
                    {causes}
                </select>
            </label>
            <Common fields form="happened" by=k("happened-by") />
            <label class="field">
                <span>{tr("happened-codes")}</span>
                <select id="happened-codes" on:change=pick>
                    <option value="">{tr("happened-pick")}</option>
                    {offered}
                </select>
            </label>
            <ul class="plain" id="picked">
                {picked}
            </ul>
            <NoteField fields form="happened" />
            <Press name=k("training-keep") id="keep-happened" class="primary" act=add />
        </details>
    }
}
