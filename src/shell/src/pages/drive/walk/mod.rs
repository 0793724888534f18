//! The walk-round: a truck that stands there in the morning is looked at from all sides and tried, every point of
//! the list gets an answer, and then the truck is taken or tagged out. It lies over the yard as long as it is the
//! step that is due.

mod answers;
mod decide;
mod drawing;
mod keys;
mod list;
mod names;
mod noted;
mod places;
mod point;
mod round;
mod scene;
mod sheet;

use std::collections::BTreeMap;

use coneyard_core::checks::list::CheckList;
use coneyard_core::reading::Question;
use leptos::prelude::*;

use super::{Desk, session};
use crate::canvas;
use crate::reader;
use crate::words::{k, number, say, say_with, text, tr};
use round::{Page, Round};

/// What there is to look at, and by which list.
type Things = (CheckList, BTreeMap<String, String>);

/// Fetches it.
async fn fetch(desk: Desk) -> Result<Things, String> {
    let checks = session::with(desk, |s| s.drive.setup.checks.clone()).unwrap_or_default();
    let list = reader::ask(&Question::Checks(checks)).await?;
    let drawings = serde_json::from_str(&canvas::drawings().await?).map_err(|e| e.to_string())?;
    Ok((list, drawings))
}

/// The walk-round while it goes on.
#[component]
pub(super) fn WalkRound(desk: Desk) -> impl IntoView {
    let found = RwSignal::new(None::<Result<Round, String>>);
    let owner = Owner::current();
    leptos::task::spawn_local(async move {
        let fetched = fetch(desk).await;
        let round = fetched.map(|(list, drawings)| {
            let make = || Round::new(desk, list, drawings);
            match &owner {
                Some(owner) => owner.with(make),
                None => make(),
            }
        });
        found.try_set(Some(round));
    });
    // What holds the drive still, or asks something, lies over it.
    let still = move || desk.paused.get() || desk.leaving.get();
    view! {
        <div class="walk-over" inert=still>
            {move || match found.get() {
                None => view! { <p class="walk-wait" role="status">{say(k("walk-loading"))}</p> }.into_any(),
                Some(Err(why)) => {
                    view! {
                        <p class="note warn" role="alert">
                            {say_with(k("walk-trouble"), vec![("why", text(why))])}
                        </p>
                    }
                        .into_any()
                }
                Some(Ok(round)) => view! { <Whole round /> }.into_any(),
            }}
        </div>
    }
}

/// All of it.
#[component]
fn Whole(round: Round) -> impl IntoView {
    keys::listen(round);
    let on_truck = move || round.page.get() == Page::Truck;
    let touch = move || round.desk.settings.with(|s| s.shows_touch());
    let closer = Memo::new(move |_| round.closer().is_some());
    // What had the keys is gone with the truck: reading goes on where it is said what is seen.
    Effect::new(move |was: Option<bool>| {
        let is = closer.get();
        if is && was == Some(false) {
            round::focus_soon(|| {
                round::focus_on(round::TITLE);
            });
        }
        is
    });
    let most = round.list.with_value(|list| list.grades.len() + 1);
    let hint = move || {
        if touch() {
            return say(k("walk-hint-touch"));
        }
        say_with(k("walk-hint-keys"), vec![("most", number(most as u32))])
    };
    let large = move || match round.page.get() {
        Page::Truck if closer.get() => view! { <point::Closer round /> }.into_any(),
        Page::Truck => view! { <scene::Scene round /> }.into_any(),
        Page::List => view! { <list::AllPoints round /> }.into_any(),
        Page::Sheet => view! { <sheet::OnSheet round /> }.into_any(),
    };
    view! {
        <div class="walk" class:touched=touch>
            <Head round />
            <div class="walk-rest" aria-live="polite">
                <list::Left round />
            </div>
            <scene::Ways round />
            <div class="walk-large">
                {large}
                <Show when=move || on_truck() && !closer.get()>
                    <p class="walk-hint">
                        {hint}
                    </p>
                </Show>
            </div>
            <Show when=on_truck>
                <point::AtPoint round />
            </Show>
            <decide::Decide round />
        </div>
    }
}

/// How far one is.
#[component]
fn Head(round: Round) -> impl IntoView {
    let all = Memo::new(move |_| round.said.with(Vec::len));
    let answered = Memo::new(move |_| all.get() - round.left());
    let steps = Memo::new(move |_| {
        round.desk.status.with(|s| s.as_ref().map_or((0, 0), |s| (s.task.step, s.task.steps)))
    });
    let step = move || {
        let (step, steps) = steps.get();
        (steps > 1).then(|| {
            let values = vec![("step", number(step + 1)), ("steps", number(steps))];
            say_with(k("drive-step-of"), values)
        })
    };
    let count = move || {
        let values =
            vec![("answered", number(answered.get() as u32)), ("all", number(all.get() as u32))];
        say_with(k("walk-answered-of"), values)
    };
    view! {
        <header class="walk-head">
            <p class="walk-count">
                <strong>{tr("walk-title")}</strong>
                <span>{step}</span>
                <span>{count}</span>
            </p>
            <progress
                max=move || all.get().to_string()
                value=move || answered.get().to_string()
                aria-label=tr("walk-progress")
            ></progress>
        </header>
    }
}
