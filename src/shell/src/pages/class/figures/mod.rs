//! The class in figures: what its people have shown, seen together. From the host where there is one; else from the
//! drives that came in as files, reckoned by the reader.

mod curves;
mod due;
mod items;
mod looked;
mod out;
mod shares;
mod teach;

use coneyard_core::class::Brief;
use coneyard_core::class::Keeper;
use coneyard_core::class::due::{OfPerson, of_class};
use coneyard_core::class::figures::Figures;
use coneyard_core::reading::Question;
use leptos::prelude::*;

use crate::courses::use_library;
use crate::host::{Trouble, get, use_host};
use crate::parts::noticed::Noticed;
use crate::reader;
use crate::route::Route;
use crate::store::{Attempt, Store, use_store};
use crate::words::{k, number, say, say_with, tr};

/// Both, as they were asked for.
type Asked = Result<(Figures, Vec<OfPerson>), String>;

async fn from_host(clean_from: f64) -> Asked {
    let figures = get(&format!("figures?clean={clean_from}")).await.map_err(Trouble::sentence)?;
    let due = get("due").await.map_err(Trouble::sentence)?;
    Ok((figures, due))
}

async fn from_files(attempts: Vec<Attempt>, clean_from: f64) -> Asked {
    let records = Store::open().await?.trainings().await?.all;
    let briefs: Vec<Brief> = attempts.iter().map(Brief::of).collect();
    let due = of_class(&briefs, &records);
    Ok((reader::ask(&Question::Figures(attempts, clean_from)).await?, due))
}

/// The page.
#[component]
pub(crate) fn InFigures() -> impl IntoView {
    let (host, store, library) = (use_host(), use_store(), use_library());
    let asked = RwSignal::new(None::<Asked>);
    let here = Memo::new(move |_| host.role().is_none());
    Effect::new(move |_| {
        // Both are known a moment after the page is opened.
        let Some(clean_from) = library.terms().map(|t| t.ready_from) else { return };
        let here = here.get();
        let attempts = if here { store.attempts.get() } else { Vec::new() };
        if here && !store.ready.get() {
            return;
        }
        leptos::task::spawn_local(async move {
            let answer = match here {
                true => from_files(attempts, clean_from).await,
                false => from_host(clean_from).await,
            };
            asked.try_set(Some(answer));
        });
    });
    let page: Memo<bool> = here;
    let body = move || match asked.get() {
        None => view! { <p role="status">{say(k("class-loading"))}</p> }.into_any(),
        Some(Err(why)) => view! {
            <p class="note warn" role="alert">
                {why}
            </p>
        }
        .into_any(),
        Some(Ok((figures, due))) => {
            let page: fn(String) -> Route =
                if page.get_untracked() { Route::Debrief } else { Route::ClassRun };
            shown(figures, due, page)
        }
    };
    view! {
        <p>
            <a href=Route::Class.href()>{tr("class-to")}</a>
        </p>
        {body}
        <out::Out here />
        <p class="quiet">{tr("class-certifies-nobody")}</p>
    }
}

fn shown(figures: Figures, due: Vec<OfPerson>, page: fn(String) -> Route) -> AnyView {
    if figures.runs == 0 && due.is_empty() {
        return view! { <p>{say(k("class-no-runs"))}</p> }.into_any();
    }
    let of = vec![("runs", number(figures.runs as f64))];
    view! {
        <p class="quiet" id="figures-of">
            {say_with(k("figures-of"), of)}
        </p>
        <looked::Looked glance=figures.glance />
        <teach::Teach again=figures.again page />
        <due::DueNow due />
        <curves::Curves curves=figures.curves />
        <shares::Shares skills=figures.skills />
        <items::Told items=figures.items />
        <Noticed all=figures.knowing />
    }
    .into_any()
}
