//! Trainings that were given, and the form for another.

use coneyard_core::class::record::{Kind, Training};
use coneyard_core::run::file::SIMULATION;
use leptos::prelude::*;

use super::desk::Desk;
use super::form::{Common, Fields, NoteField, day_by};
use crate::parts::names::truck_name;
use crate::parts::press::{Choice, Delete, Option1, Press};
use crate::words::{k, say, tr};

fn kind_key(kind: Kind) -> &'static str {
    match kind {
        Kind::First => k("training-first"),
        Kind::Refresher => k("training-refresher"),
    }
}

/// The section.
#[component]
pub(super) fn Trainings(desk: Desk) -> impl IntoView {
    let rows = move || {
        let all = desk.with(|r| r.trainings.clone());
        if all.is_empty() {
            return view! { <p>{say(k("training-none"))}</p> }.into_any();
        }
        let one = |training: Training| {
            let drop = training.clone();
            let forget = move |_| desk.drop_one(|r| &mut r.trainings, drop.clone());
            let day = day_by(training.on, &training.by);
            let more: Vec<String> =
                [training.site, training.note].into_iter().filter(|t| !t.is_empty()).collect();
            view! {
                <li>
                    <strong>{say(kind_key(training.kind))}</strong>
                    " · "
                    {truck_name(&training.truck)}
                    " · "
                    {day}
                    <small>{more.join(" · ")}</small>
                    <span class="no-print">
                        <Delete act=forget />
                    </span>
                </li>
            }
        };
        view! { <ul class="plain entries" id="trainings">{all.into_iter().map(one).collect_view()}</ul> }
            .into_any()
    };
    view! {
        <section aria-labelledby="trainings-title">
            <h3 id="trainings-title">{tr("training-given")}</h3>
            {rows}
            <Another desk />
        </section>
    }
}

#[component]
fn Another(desk: Desk) -> impl IntoView {
    let fields = Fields::new();
    let kind = RwSignal::new(Kind::First);
    let option =
        |of: Kind| Option1::new(kind_key(of), move || kind.get() == of, move || kind.set(of));
    let options = vec![option(Kind::First), option(Kind::Refresher)];
    let add = move |_| {
        let Some(filled) = fields.filled() else { return };
        let training = Training {
            on: filled.on,
            kind: kind.get_untracked(),
            by: filled.by,
            truck: filled.truck,
            site: filled.site,
            note: filled.note,
            simulation: Some(SIMULATION),
        };
        desk.change(move |r| r.trainings.push(training.clone()));
        fields.clear();
    };
    view! {
        <details class="no-print" id="another-training">
            <summary>{tr("training-add")}</summary>
            <Choice legend=k("training-kind") group="training-kind" options />
            <Common fields form="training" by=k("training-by") site=true />
            <NoteField fields form="training" />
            <Press name=k("training-keep") id="keep-training" class="primary" act=add />
        </details>
    }
}
