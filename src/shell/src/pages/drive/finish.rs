//! The end of a drive: the run file is made, judged and kept, then the debrief opens. Until the
//! run is kept, the drive itself stays kept, so that nothing is lost on the way.

use std::time::Duration;

use coneyard_core::class::own::{Own, asked_of};
use leptos::prelude::*;

use super::{Desk, Phase, session};
use crate::canvas;
use crate::route::Route;
use crate::route::go;
use crate::route::go_instead;
use crate::store::Attempt;
use crate::words::{k, say};

/// Time for the browser to show that the debrief is being worked out, since judging holds it up.
const SHOW_FIRST: Duration = Duration::from_millis(60);

/// Ends the drive and opens its debrief; after a part of a pre-test comes the next one instead.
pub(crate) fn finish(desk: Desk) {
    end(desk, move |id| match desk.place.get_untracked() {
        Some(place) => go_instead(&Route::Sitting(place.sitting)),
        None => go(&Route::Debrief(id)),
    });
}

/// Begins the same exercise again. What was driven is kept as an attempt that was broken off; a
/// truck that has not moved leaves nothing to keep.
pub(crate) fn again(desk: Desk) {
    let restart = desk.restart;
    if desk.moved.get_untracked() {
        end(desk, move |_| restart.run(()));
        return;
    }
    let Some(id) = session::with(desk, |s| s.drive.id.clone()) else {
        return;
    };
    desk.phase.set(Phase::Ending);
    leptos::task::spawn_local(async move {
        drop_drive(desk, &id).await;
        restart.run(());
    });
}

fn end(desk: Desk, then: impl FnOnce(String) + 'static) {
    if !matches!(desk.phase.get_untracked(), Phase::Driving | Phase::Struck) {
        return;
    }
    session::keep_now(desk);
    desk.phase.set(Phase::Ending);
    set_timeout(
        move || {
            leptos::task::spawn_local(async move {
                match judged(desk).await {
                    Ok(id) => then(id),
                    Err(e) => {
                        desk.phase.try_set(Phase::Trouble(e));
                    }
                }
            });
        },
        SHOW_FIRST,
    );
}

async fn judged(desk: Desk) -> Result<String, String> {
    let drive = session::with(desk, |s| s.drive.clone()).ok_or_else(|| say(k("drive-not-kept")))?;
    let run = canvas::finish()?;
    let verdict = canvas::judge(&run)?;
    let told = canvas::told(&drive.course, &run)?;
    let mut attempt = Attempt::new(drive.id.clone(), told, verdict, false);
    attempt.place = drive.place;
    // A pre-test is not interrupted by questions.
    if attempt.place.is_none() && attempt.shows_skill() {
        let asked = asked_of(&attempt.verdict.debrief);
        attempt.own = (!asked.is_empty()).then(Own::default);
    }
    desk.store.keep(attempt, run).await;
    canvas::let_go(&drive.id);
    canvas::close()?;
    Ok(drive.id)
}

/// Leaves the drive as it is; it can be driven on later.
pub(crate) fn keep_for_later(desk: Desk) {
    session::keep_now(desk);
    match desk.place.get_untracked() {
        Some(place) => go_instead(&Route::Sitting(place.sitting)),
        None => go(&Route::Path),
    }
}

/// Throws the drive away.
pub(crate) fn throw_away(desk: Desk) {
    let Some(id) = session::with(desk, |s| s.drive.id.clone()) else {
        return;
    };
    desk.phase.set(Phase::Ending);
    leptos::task::spawn_local(async move {
        drop_drive(desk, &id).await;
        go(&Route::Path);
    });
}

async fn drop_drive(desk: Desk, id: &str) {
    // Closed first, or leaving the page would keep the rest of what is dropped here.
    if let Err(e) = canvas::close() {
        desk.phase.set(Phase::Trouble(e));
    }
    canvas::let_go(id);
    desk.store.drop_drive(id).await;
}
