//! Drives of the class's host in which something was found, fetched to this device: then they can be played one after
//! another, shown side by side and noted on like those that were driven here.

use std::collections::BTreeSet;

use coneyard_core::class::found::Found;
use leptos::prelude::*;

use super::run::fetch;
use crate::host::{Trouble, get, use_host};
use crate::parts::press::Press;
use crate::store::{Store, use_store};
use crate::words::{k, number, say, say_with, text};

/// How far it is.
#[derive(Clone, PartialEq)]
enum Bringing {
    Idle,
    /// This one of so many.
    At(usize, usize),
    /// So many could not be brought, and why not the last of them.
    Lacks(usize, String),
}

/// What the host has with it, and this device has not. Both as they are now.
async fn elsewhere(code: &str) -> Result<(usize, Vec<Found>), String> {
    let found: Vec<Found> = get(&format!("found/{code}")).await.map_err(Trouble::sentence)?;
    let here = Store::open().await?.sent_as().await?;
    let here: BTreeSet<String> = here.into_iter().map(|(_, run)| run).collect();
    let all = found.len();
    Ok((all, found.into_iter().filter(|f| !here.contains(&f.attempt)).collect()))
}

/// For a trainer of a class with a host; nobody else sees anything of it.
#[component]
pub(crate) fn Bring(
    /// What was found.
    code: String,
) -> impl IntoView {
    let (host, store) = (use_host(), use_store());
    let teaches = Memo::new(move |_| host.teaches());
    let lacks = RwSignal::new(None::<Result<(usize, Vec<Found>), String>>);
    let bringing = RwSignal::new(Bringing::Idle);
    let code = StoredValue::new(code);
    let ask = move || {
        let code = code.get_value();
        async move {
            let asked = elsewhere(&code).await;
            lacks.try_set(Some(asked));
        }
    };
    Effect::new(move |_| {
        if teaches.get() {
            leptos::task::spawn_local(ask());
        }
    });
    let bring = move |_| {
        let Some(Ok((_, runs))) = lacks.get_untracked() else { return };
        let after = ask();
        leptos::task::spawn_local(async move {
            let (count, mut not) = (runs.len(), (0, String::new()));
            for (n, found) in runs.into_iter().enumerate() {
                if bringing.try_set(Bringing::At(n + 1, count)).is_some() {
                    // The page was left.
                    return;
                }
                // One that cannot be taken holds up none of the others.
                if let Err(why) = fetch(store, &found.attempt).await {
                    not = (not.0 + 1, why);
                }
            }
            let (lack, why) = not;
            bringing.try_set(if lack == 0 { Bringing::Idle } else { Bringing::Lacks(lack, why) });
            after.await;
        });
    };
    let at_work = Signal::derive(move || matches!(bringing.get(), Bringing::At(..)));
    let told = move || {
        let (all, not_here) = match lacks.get()? {
            Ok((all, runs)) => (all, runs.len()),
            Err(why) => {
                return Some(view! { <p class="note warn">{why}</p> }.into_any());
            }
        };
        let count = |n: usize| number(n as f64);
        let values = vec![("all", count(all)), ("here", count(all - not_here))];
        let button = (not_here > 0).then(|| {
            view! {
                <p class="actions">
                    <Press name=k("bring") id="bring" disabled=at_work act=bring />
                </p>
            }
        });
        Some(
            view! {
                <p id="bring-told" data-lacks=not_here>
                    {say_with(k("bring-told"), values)}
                </p>
                {button}
            }
            .into_any(),
        )
    };
    let state = move || match bringing.get() {
        Bringing::Idle => None,
        Bringing::At(n, count) => {
            let values = vec![("n", number(n as f64)), ("count", number(count as f64))];
            Some(say_with(k("bring-at"), values))
        }
        Bringing::Lacks(n, why) => {
            Some(say_with(k("bring-lacks"), vec![("count", number(n as f64)), ("why", text(why))]))
        }
    };
    view! {
        <Show when=move || teaches.get()>
            <section id="bringing" aria-label=say(k("bring"))>
                {told}
                <p role="status">{state}</p>
            </section>
        </Show>
    }
}
