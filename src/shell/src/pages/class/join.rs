//! Joining: with the class's code and a name, or with the trainer's passphrase.

use coneyard_core::outside::to_json;
use leptos::prelude::*;
use serde::{Deserialize, Serialize};

use crate::host::{Role, You, call, use_host};
use crate::parts::press::Press;
use crate::settings::use_settings;
use crate::words::{k, tr};

#[derive(Serialize)]
struct Joining {
    code: String,
    name: String,
}

#[derive(Serialize)]
struct Entering {
    passphrase: String,
}

#[derive(Deserialize)]
struct LetIn {
    you: Option<You>,
}

/// Both ways in.
#[component]
pub(super) fn Join() -> impl IntoView {
    let host = use_host();
    let settings = use_settings();
    let who = settings.with_untracked(|s| s.who.clone());
    let (code, name) = (RwSignal::new(String::new()), RwSignal::new(who));
    let passphrase = RwSignal::new(String::new());
    let refused = RwSignal::new(None::<String>);
    let ask = move |path: &'static str, body: Result<String, String>| {
        refused.set(None);
        leptos::task::spawn_local(async move {
            let asked = match body {
                Ok(body) => call::<LetIn>("POST", path, Some(body)).await,
                Err(why) => {
                    refused.try_set(Some(why));
                    return;
                }
            };
            match asked {
                Ok(LetIn { you }) => {
                    // Whoever joins drives under the name that they joined with.
                    let trainee = you.as_ref().filter(|you| you.role == Role::Trainee);
                    if let Some(name) = trainee.and_then(|you| you.name.clone()) {
                        settings.update(|s| s.who = name);
                    }
                    host.is_now(you);
                }
                Err(trouble) => {
                    refused.try_set(Some(trouble.sentence()));
                }
            }
        });
    };
    let join = move || {
        let joining = Joining { code: code.get_untracked(), name: name.get_untracked() };
        ask("join", to_json(&joining));
    };
    let enter = move || ask("enter", to_json(&Entering { passphrase: passphrase.get_untracked() }));
    let field = move |label: &'static str, id, value: RwSignal<String>, kind, autocomplete| {
        view! {
            <label class="field">
                <span>{tr(label)}</span>
                <input
                    type=kind
                    id=id
                    autocomplete=autocomplete
                    autocapitalize="off"
                    prop:value=value
                    on:input=move |ev| value.set(event_target_value(&ev))
                />
            </label>
        }
    };
    view! {
        <section class="card" aria-labelledby="join-title">
            <h2 id="join-title">{tr("class-join-title")}</h2>
            <p>{tr("class-join-more")}</p>
            <form
                class="begin"
                on:submit=move |ev| {
                    ev.prevent_default();
                    join();
                }
            >
                <div class="fields">
                    {field(k("class-code"), "class-code", code, "text", "off")}
                    {field(k("class-your-name"), "class-who", name, "text", "nickname")}
                </div>
                <p class="actions">
                    <Press name=k("class-join") id="join-class" class="primary" act=move |_| join() />
                </p>
            </form>
            <p role="alert">{move || refused.get()}</p>
        </section>
        <section class="card" aria-labelledby="enter-title">
            <h2 id="enter-title">{tr("class-enter-title")}</h2>
            <form
                class="begin"
                on:submit=move |ev| {
                    ev.prevent_default();
                    enter();
                }
            >
                <div class="fields">
                    {field(k("class-passphrase"), "passphrase", passphrase, "password", "current-password")}
                </div>
                <p class="actions">
                    <Press name=k("class-enter") id="enter-class" act=move |_| enter() />
                </p>
            </form>
        </section>
    }
}
