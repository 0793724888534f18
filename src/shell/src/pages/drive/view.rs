//! How the drive page looks.

use leptos::prelude::*;

use super::leaving::LeaveDialog;
use super::menu::{Menu, More, Overview, Pause};
use super::over::Over;
use super::task::TaskLine;
use super::touch::Touch;
use super::walk::WalkRound;
use super::{Desk, Phase, keyboard, screen, session};
use crate::canvas;
use crate::parts::instrument::Instrument;
use crate::sound;
use crate::words::{k, number, say, say_with, text, tr};

/// The first seconds do not count: the browser is still warming up. Ticks.
const SLOW_AFTER: u32 = 5 * 64;
/// Time for the last piece to be written and the lock to be given back, before the list is read.
const SETTLE: std::time::Duration = std::time::Duration::from_millis(200);

/// What lies over the yard.
#[component]
pub(crate) fn DriveView(desk: Desk) -> impl IntoView {
    keyboard::listen(desk);
    let is_there = Signal::derive(move || desk.phase.get() == Phase::Driving);
    let mute = sound::listen(desk.settings, is_there);
    screen::listen(desk);
    desk.looking.listen(move || {
        desk.paused.get_untracked() || desk.phase.get_untracked() != Phase::Driving
    });
    on_cleanup(move || {
        session::keep_now(desk);
        let left = session::with(desk, |s| s.drive.id.clone());
        if let Some(id) = &left {
            canvas::let_go(id);
            // Nothing is open any more when the drive was finished: then there is nothing to close.
            let _ = canvas::close();
        }
        let store = desk.store;
        // What was only looked at leaves nothing to go on with.
        let unmoved = !desk.moved.get_untracked() && desk.place.get_untracked().is_none();
        let dropped = left.filter(|_| unmoved);
        let settled = move || {
            leptos::task::spawn_local(async move {
                match dropped {
                    Some(id) => store.drop_drive(&id).await,
                    None => store.refresh().await,
                }
            });
        };
        set_timeout(settled, SETTLE);
    });
    let walks = Memo::new(move |_| desk.walks());
    // Keys go to the truck again, which nobody had in hand until now.
    Effect::new(move |walked: Option<bool>| {
        let walks = walks.get();
        if walked == Some(true) && !walks {
            canvas::focus_yard();
        }
        walks
    });
    let shows_touch = move || desk.settings.with(|s| s.shows_touch()) && !walks.get();
    view! {
        <Pause desk />
        <Show when=move || !walks.get()>
            <Overview desk />
            <TaskLine desk />
        </Show>
        <More desk />
        <Menu desk />
        <Over desk />
        <Show when=shows_touch>
            <Touch desk />
        </Show>
        <Show when=move || walks.get() fallback=move || view! { <Instrument status=desk.status /> }>
            <WalkRound desk />
        </Show>
        <div class="notes">
            <Show when=move || !walks.get()>
                <TooSlow desk />
            </Show>
            <KeepTrouble desk />
            {move || mute.get().then(|| view! { <p class="note">{tr("sound-trouble")}</p> })}
        </div>
        <LeaveDialog desk />
    }
}

/// Says so when this computer cannot keep up with real time: what is driven in slowed time is not
/// what a truck asks of a person.
#[component]
fn TooSlow(desk: Desk) -> impl IntoView {
    let least = Memo::new(move |_| desk.time_ratio_least());
    let percent = Memo::new(move |_| {
        desk.status.with(|s| {
            s.as_ref()
                .filter(|s| s.tick > SLOW_AFTER && s.time_ratio < least.get())
                .map(|s| (s.time_ratio * 20.0).round() * 5.0)
        })
    });
    move || {
        percent.get().map(|percent| {
            view! {
                <p class="note">
                    {say_with(k("drive-too-slow"), vec![("percent", number(percent))])} " "
                    {desk.is_part().then(|| say(k("pretest-too-slow")))}
                </p>
            }
        })
    }
}

#[component]
fn KeepTrouble(desk: Desk) -> impl IntoView {
    move || {
        desk.keep_trouble.get().map(|why| {
            view! {
                <p class="note warn" role="status">
                    <span aria-hidden="true">"▲ "</span>
                    {say_with(k("drive-not-being-kept"), vec![("why", text(why))])}
                </p>
            }
        })
    }
}
