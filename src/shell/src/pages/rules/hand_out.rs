//! The rules of the class's host: a trainer hands out those of this page, or takes them back. From then on who drives for
//! the class drives by them, and what arrives is judged by them.

use coneyard_core::outside::to_json;
use leptos::prelude::*;
use serde::Serialize;

use super::Desk;
use crate::host::{ClassRules, Trouble, call, get, use_host};
use crate::parts::press::Press;
use crate::words::{k, say, tr};

/// What is set.
#[derive(Serialize)]
struct Setting {
    rules: Option<String>,
}

async fn set(rules: Option<String>) -> Result<(), String> {
    let body = to_json(&Setting { rules })?;
    match call::<serde::de::IgnoredAny>("PUT", "class/rules", Some(body)).await {
        Ok(_) => Ok(()),
        Err(trouble) => Err(trouble.sentence()),
    }
}

/// The card, for a trainer; nobody else sees anything of it.
#[component]
pub(super) fn HandOut(desk: Desk) -> impl IntoView {
    let host = use_host();
    let teaches = Memo::new(move |_| host.teaches());
    let are = RwSignal::new(None::<Result<ClassRules, String>>);
    let trouble = RwSignal::new(None::<String>);
    let look = move || async move {
        let now = get::<ClassRules>("class/rules").await.map_err(Trouble::sentence);
        are.try_set(Some(now));
    };
    Effect::new(move |_| {
        if teaches.get() {
            leptos::task::spawn_local(look());
        }
    });
    let send = move |rules: Option<String>| {
        leptos::task::spawn_local(async move {
            trouble.try_set(set(rules).await.err());
            look().await;
        });
    };
    let is_set = Signal::derive(move || are.with(|a| matches!(a, Some(Ok(rules)) if rules.set)));
    let told = move || match are.get()? {
        Ok(rules) => Some(say(if rules.set { k("hand-out-own") } else { k("hand-out-site") })),
        Err(why) => Some(why),
    };
    let unsaved = Signal::derive(move || desk.is_unsaved());
    view! {
        <Show when=move || teaches.get()>
            <section class="card" aria-labelledby="hand-out-title">
                <h2 id="hand-out-title">{tr("hand-out")}</h2>
                <p>{tr("hand-out-lead")}</p>
                <p role="status" id="hand-out-are" data-set=move || is_set.get().to_string()>
                    {told}
                </p>
                <p class="actions">
                    <Press
                        name=k("hand-out-set")
                        id="hand-out-set"
                        disabled=unsaved
                        act=move |_| send(Some(desk.held.get_untracked()))
                    />
                    <Show when=move || is_set.get()>
                        <Press name=k("hand-out-back") id="hand-out-back" act=move |_| send(None) />
                    </Show>
                </p>
                <p role="alert">{trouble}</p>
            </section>
        </Show>
    }
}
