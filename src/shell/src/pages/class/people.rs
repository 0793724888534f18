//! The people of the class: how much of each has arrived, and deleting somebody with all that is theirs.

use leptos::prelude::*;
use serde::Deserialize;

use crate::host::{Trouble, call, get};
use crate::parts::press::Delete;
use crate::parts::when::Moment;
use crate::words::{k, say, tr};

/// Somebody, as the host lists them.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(super) struct Person {
    person: String,
    name: String,
    joined: String,
    runs: u32,
}

/// All of them, by their names.
///
/// # Errors
/// A sentence when they cannot be had.
pub(super) async fn fetch() -> Result<Vec<Person>, String> {
    get("people").await.map_err(Trouble::sentence)
}

/// The table; `changed` is called when somebody was deleted.
#[component]
pub(super) fn People(
    people: RwSignal<Option<Result<Vec<Person>, String>>>,
    #[prop(into)] changed: Callback<()>,
) -> impl IntoView {
    let trouble = RwSignal::new(None::<String>);
    let forget = move |person: String| {
        leptos::task::spawn_local(async move {
            let path = format!("people/{person}");
            let done = call::<serde::de::IgnoredAny>("DELETE", &path, None).await;
            trouble.try_set(done.err().map(Trouble::sentence));
            changed.run(());
        });
    };
    let row = move |Person { person, name, joined, runs }: Person| {
        let id = person.clone();
        view! {
            <tr data-person=id>
                <th scope="row">{name}</th>
                <td>
                    <Moment at=joined />
                </td>
                <td class="num">{runs.to_string()}</td>
                <td class="actions">
                    <Delete act=move |_| forget(person.clone()) />
                </td>
            </tr>
        }
    };
    let body = move || match people.get() {
        None => ().into_any(),
        Some(Err(why)) => view! {
            <p class="note warn" role="alert">
                {why}
            </p>
        }
        .into_any(),
        Some(Ok(all)) if all.is_empty() => view! { <p>{say(k("class-nobody-yet"))}</p> }.into_any(),
        Some(Ok(all)) => view! {
            <div class="table-wrap" tabindex="0" role="region" aria-label=tr("class-people")>
                <table id="class-people">
                    <thead>
                        <tr>
                            <th scope="col">{tr("class-person")}</th>
                            <th scope="col">{tr("class-joined")}</th>
                            <th scope="col" class="num">
                                {tr("class-count")}
                            </th>
                            <th scope="col">
                                <span class="sr">{tr("delete")}</span>
                            </th>
                        </tr>
                    </thead>
                    <tbody>{all.into_iter().map(row).collect_view()}</tbody>
                </table>
            </div>
        }
        .into_any(),
    };
    view! {
        <section>
            <h2 id="people-title">{tr("class-people")}</h2>
            {body}
            <p class="quiet">{tr("class-delete-more")}</p>
            <p role="alert">{move || trouble.get()}</p>
        </section>
    }
}
