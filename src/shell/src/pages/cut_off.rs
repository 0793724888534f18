//! Drives that were cut off, offered again: go on, judge as it is, or delete. A part of a pre-test
//! is offered with its pre-test instead.

use leptos::prelude::*;

use crate::canvas;
use crate::courses::said;
use crate::files::CourseLabel;
use crate::pages::drive::other_simulation;
use crate::parts::press::{Delete, Press};
use crate::parts::when::{Length, Moment};
use crate::route::Route;
use crate::route::go;
use crate::store::{Attempt, CutDrive, Drive, Store, cut_drive, use_store};
use crate::words::{k, say, say_with, text};

/// All of them; nothing when there is none.
#[component]
pub(crate) fn CutOffRuns() -> impl IntoView {
    let store = use_store();
    let working = RwSignal::new(false);
    let trouble = RwSignal::new(None::<String>);
    move || {
        let mut cut = store.cut.get();
        cut.retain(|c| c.drive.place.is_none());
        if cut.is_empty() && trouble.with(Option::is_none) {
            return None;
        }
        let rows = cut
            .into_iter()
            .map(|drive| view! { <CutOffRun drive working trouble /> })
            .collect_view();
        Some(view! {
            <section class="card cut-off" aria-labelledby="cut-off-title">
                <h2 id="cut-off-title">{say(k("cut-off-title"))}</h2>
                <p>{say(k("cut-off-lead"))}</p>
                <ul>{rows}</ul>
                <p role="status">
                    {move || working.get().then(|| say(k("drive-ending")))}
                    {move || {
                        trouble
                            .get()
                            .map(|why| say_with(k("cut-off-trouble"), vec![("why", text(why))]))
                    }}
                </p>
            </section>
        })
    }
}

#[component]
fn CutOffRun(
    drive: CutDrive,
    working: RwSignal<bool>,
    trouble: RwSignal<Option<String>>,
) -> impl IntoView {
    let store = use_store();
    let title = CourseLabel::read(&drive.drive.course, &drive.drive.setup.course)
        .map_or_else(|_| drive.drive.course.clone(), |c| said(&c.title));
    let at = drive.drive.setup.started.clone();
    let ticks = drive.ticks();
    let href = Route::DriveOn(drive.drive.id.clone()).href();
    let made = drive.drive.simulation;
    let goes_on = drive.drive.can_go_on();
    let id = StoredValue::new(drive.drive.id.clone());
    let drive = StoredValue::new(drive.drive);
    let judge = move |_| {
        working.set(true);
        trouble.set(None);
        leptos::task::spawn_local(async move {
            match judge_as_it_is(drive.get_value()).await {
                Ok((attempt, run)) => {
                    let id = attempt.id.clone();
                    store.keep(attempt, run).await;
                    canvas::let_go(&id);
                    go(&Route::Debrief(id));
                }
                Err(why) => {
                    trouble.try_set(Some(why));
                }
            }
            working.try_set(false);
        });
    };
    let delete = move |_| {
        trouble.set(None);
        leptos::task::spawn_local(async move {
            let id = id.get_value();
            if canvas::hold(&id).await {
                store.drop_drive(&id).await;
                canvas::let_go(&id);
            } else {
                trouble.try_set(Some(say(k("drive-elsewhere"))));
            }
        });
    };
    view! {
        <li>
            <p>
                <strong>{title}</strong>
                " · "
                <Moment at />
                " · "
                <Length ticks />
            </p>
            {(!goes_on).then(|| view! { <p class="note">{other_simulation(made)}</p> })}
            <p class="actions">
                {goes_on
                    .then(|| {
                        view! {
                            <a class="button" href=href>
                                {say(k("cut-off-go-on"))}
                            </a>
                            <Press name=k("cut-off-judge") disabled=working act=judge />
                        }
                    })}
                <Delete act=delete />
            </p>
        </li>
    }
}

/// Drives what was driven once more, without more, and ends it there. No other page can drive it on
/// meanwhile; the drive is this page's until it is kept.
async fn judge_as_it_is(drive: Drive) -> Result<(Attempt, String), String> {
    if !drive.can_go_on() {
        return Err(other_simulation(drive.simulation));
    }
    if !canvas::hold(&drive.id).await {
        return Err(say(k("drive-elsewhere")));
    }
    let id = drive.id.clone();
    let judged = judge_held(drive).await;
    if judged.is_err() {
        canvas::let_go(&id);
    }
    judged
}

async fn judge_held(drive: Drive) -> Result<(Attempt, String), String> {
    // It may have been driven on since the list was read.
    let store = Store::open().await?;
    let cut = cut_drive(&store, &drive.id).await?.ok_or_else(|| say(k("drive-not-kept")))?;
    canvas::load().await?;
    canvas::drive_on(&cut.drive.setup, &cut.driven, &cut.timing)?;
    let run = canvas::finish()?;
    let verdict = canvas::judge(&run)?;
    canvas::close()?;
    let told = canvas::told(&cut.drive.course, &run)?;
    let attempt = Attempt::new(cut.drive.id, told, verdict, false);
    Ok((attempt, run))
}
