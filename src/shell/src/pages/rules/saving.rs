//! Saving the draft, and taking it back. It stays in sight while rules are changed.

use coneyard_core::rules::{Edit, Sheet};
use leptos::prelude::*;

use super::Desk;
use crate::parts::press::Press;
use crate::store::{Attempt, StoreDesk, use_store};
use crate::words::{k, number, say, say_with, tr};

/// What there is to save, and the buttons.
#[component]
pub(super) fn Saving(desk: Desk) -> impl IntoView {
    let store = use_store();
    let refused = RwSignal::new(None::<String>);
    let unsaved = Memo::new(move |_| desk.is_unsaved());
    let differing = move || desk.read(|s| Some(s.differing())).unwrap_or_default();
    let state = move || {
        let key = if unsaved.get() { k("rules-unsaved") } else { k("rules-saved") };
        say_with(key, vec![("changed", number(differing() as f64))])
    };
    let save = move |_| {
        leptos::task::spawn_local(async move {
            match saved(desk, store).await {
                Ok(back) => {
                    let news = match back {
                        None => say(k("rules-kept")),
                        Some(0) => say(k("rules-put-back")),
                        Some(drives) => say_with(
                            k("rules-put-back-drives"),
                            vec![("drives", number(drives as f64))],
                        ),
                    };
                    desk.news.try_set(news);
                    refused.try_set(None);
                }
                Err(why) => {
                    refused.try_set(Some(why));
                }
            }
        });
    };
    let undo = move |_| {
        leptos::task::spawn_local(async move {
            let undone = desk.take(desk.held.get_untracked()).await;
            refused.try_set(undone.err());
            desk.news.try_set(String::new());
        });
    };
    let all_back = move |_| {
        desk.edit(Edit::AllBack, refused);
        desk.news.set(String::new());
    };
    let as_shipped = Signal::derive(move || desk.read(|s| Some(is_as_shipped(s))).unwrap_or(true));
    view! {
        <section class="rules-saving" class:unsaved=move || unsaved.get() aria-label=tr("rules-saving")>
            <p>
                <strong>{state}</strong>
            </p>
            <p class="actions">
                <Press
                    name=k("rules-save")
                    id="rules-save"
                    class="primary"
                    disabled=Signal::derive(move || !unsaved.get())
                    act=save
                />
                <Press
                    name=k("rules-undo")
                    id="rules-undo"
                    disabled=Signal::derive(move || !unsaved.get())
                    act=undo
                />
                <Press name=k("rules-all-back") id="rules-all-back" disabled=as_shipped act=all_back />
            </p>
            <p role="status" id="rules-news">
                {desk.news}
            </p>
            <p role="alert" class="refused">
                {refused}
            </p>
        </section>
    }
}

/// Nothing is the site's own.
fn is_as_shipped(sheet: &Sheet) -> bool {
    sheet.differing() == 0 && sheet.site.is_empty()
}

/// Keeps the draft. Where nothing of it is the site's own, the rules are put back: then the drives that were judged again
/// show what was said first, and it is said how many.
async fn saved(desk: Desk, store: StoreDesk) -> Result<Option<usize>, String> {
    let draft = desk.draft.get_untracked();
    let own = untrack(|| desk.read(|s| Some(!is_as_shipped(s)))).unwrap_or_default();
    desk.site.keep_rules(own.then(|| draft.clone())).await?;
    desk.held.try_set(draft);
    if own { Ok(None) } else { Ok(Some(first_again(store).await)) }
}

/// Shows of every drive that was judged again what was said first; how many there were.
pub(super) async fn first_again(store: StoreDesk) -> usize {
    let is_again = |a: &&Attempt| a.judged_again.is_some();
    let again: Vec<Attempt> =
        store.attempts.with_untracked(|all| all.iter().filter(is_again).cloned().collect());
    let count = again.len();
    for attempt in again {
        store.learn(attempt.judged_first()).await;
    }
    if count > 0 {
        store.refresh().await;
    }
    count
}
