//! A run of the class, taken over to this device to be looked at.

use leptos::prelude::*;
use serde_json::value::RawValue;

use crate::host::{Trouble, get};
use crate::pages::import::take_run;
use crate::route::go_instead;
use crate::store::use_store;
use crate::words::{k, say, say_with, text, tr};

/// Fetches it, drives it again here, and goes on to its debrief.
#[component]
pub(crate) fn ClassRun(run: String) -> impl IntoView {
    let store = use_store();
    let trouble = RwSignal::new(None::<String>);
    leptos::task::spawn_local(async move {
        let taken = async {
            let file: Box<RawValue> =
                get(&format!("runs/{run}")).await.map_err(Trouble::sentence)?;
            take_run(store, &run, file.get().to_owned()).await
        };
        match taken.await {
            Ok(page) => go_instead(&page),
            Err(why) => {
                trouble.try_set(Some(why));
            }
        }
    });
    move || match trouble.get() {
        None => view! { <p role="status">{say(k("class-run-opening"))}</p> }.into_any(),
        Some(why) => view! {
            <p class="note warn" role="alert">
                {say_with(k("import-trouble"), vec![("why", text(why))])}
            </p>
            <p>
                <a class="button" href="#/class">
                    {tr("class-to")}
                </a>
            </p>
        }
        .into_any(),
    }
}
