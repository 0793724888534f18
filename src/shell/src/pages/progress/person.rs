//! Somebody of the class, for a trainer: what they have driven, what comes back, how sure each skill is. From the host
//! where there is one; else from the drives that came in as files.

use coneyard_core::class::board::missed;
use coneyard_core::class::{Brief, same_person};
use leptos::prelude::*;
use serde::Deserialize;

use super::Looks;
use crate::host::{Role, Trouble, get, use_host};
use crate::parts::finding;
use crate::route::Route;
use crate::store::{Attempt, use_store};
use crate::words::{k, number, say, say_with, title, tr};

/// So much of what comes back is listed.
const AGAIN_MOST: usize = 5;

/// Somebody, as the host lists them.
#[derive(Deserialize)]
struct Member {
    person: String,
    name: String,
}

/// Their attempts, as the host has them.
async fn fetch(name: &str) -> Result<Vec<Attempt>, Trouble> {
    let all: Vec<Member> = get("people").await?;
    match all.into_iter().find(|member| same_person(&member.name, name)) {
        None => Ok(Vec::new()),
        Some(member) => get(&format!("attempts?person={}", member.person)).await,
    }
}

/// The page.
#[component]
pub(crate) fn Person(
    /// As the class calls them.
    name: String,
) -> impl IntoView {
    let (host, store) = (use_host(), use_store());
    let here = host.role().is_none();
    let fetched = RwSignal::new(None::<Result<Vec<Attempt>, String>>);
    let attempts = {
        let name = name.clone();
        Memo::new(move |_| {
            let mut all: Vec<Attempt> = if here {
                let theirs = |all: &Vec<Attempt>| {
                    all.iter().filter(|a| same_person(&a.who, &name)).cloned().collect()
                };
                store.attempts.with(theirs)
            } else {
                fetched
                    .with(|f| f.as_ref().and_then(|f| f.as_ref().ok()).cloned().unwrap_or_default())
            };
            all.sort_by(|a, b| a.started.cmp(&b.started));
            all
        })
    };
    if !here {
        let name = name.clone();
        leptos::task::spawn_local(async move {
            fetched.try_set(Some(fetch(&name).await.map_err(Trouble::sentence)));
        });
    }
    let page: fn(String) -> Route = if here { Route::Debrief } else { Route::ClassRun };
    let trouble = move || {
        let why = fetched.with(|f| f.as_ref()?.as_ref().err().cloned())?;
        Some(view! {
            <p class="note warn" role="alert">
                {why}
            </p>
        })
    };
    let nothing = move || {
        if !here && fetched.with(Option::is_none) {
            say(k("class-loading"))
        } else {
            say(k("person-none"))
        }
    };
    // A trainee sees nobody's record; where there is no host, whoever has the computer is the trainer.
    let record = Route::Training(name.clone()).href();
    let to_record = (host.role() != Some(Role::Trainee)).then(|| {
        view! {
            <p>
                <a id="to-training" href=record>
                    {tr("training-to")}
                </a>
            </p>
        }
    });
    view! {
        <p>
            <a href="#/class">{tr("class-to")}</a>
        </p>
        <h2 id="person-name">{name}</h2>
        {to_record}
        {trouble}
        <Show
            when=move || attempts.with(|all| !all.is_empty())
            fallback=move || view! { <p role="status">{nothing}</p> }
        >
            <Again attempts page />
            <Looks attempts page />
        </Show>
        <p class="quiet">{tr("class-certifies-nobody")}</p>
    }
}

/// What is found again and again.
#[component]
fn Again(attempts: Memo<Vec<Attempt>>, page: fn(String) -> Route) -> impl IntoView {
    let rows = move || {
        let briefs: Vec<Brief> = attempts.with(|all| all.iter().map(Brief::of).collect());
        let mut all = missed(&briefs);
        all.sort_by_key(|m| core::cmp::Reverse((m.severity, m.times)));
        all.truncate(AGAIN_MOST);
        all
    };
    let row = move |missed: coneyard_core::class::board::Missed| {
        view! {
            <li>
                <span aria-hidden="true">{finding::mark(missed.severity)} " "</span>
                <a href=page(missed.attempt).href()>{title(&missed.code)}</a>
                " · "
                {say_with(k("person-times"), vec![("times", number(missed.times as f64))])}
            </li>
        }
    };
    move || {
        let all = rows();
        (!all.is_empty()).then(|| {
            view! {
                <section aria-labelledby="again-title">
                    <h3 id="again-title">{tr("person-again")}</h3>
                    <ul class="plain" id="again">
                        {all.into_iter().map(row).collect_view()}
                    </ul>
                </section>
            }
        })
    }
}
