//! The drive's own clock: once a frame the devices become Controls, several times a second the
//! dashboard is read and what was driven is kept.

use coneyard_core::debrief::Ending;
use coneyard_core::desk::Status;
use coneyard_core::finding::Finding;
use coneyard_core::time::{TICK_RATE, Tick};
use leptos::prelude::*;

use super::session::{self, Session, keep, with};
use super::{Desk, Phase, finish};
use crate::browser;
use crate::canvas;
use crate::devices::Action;
use crate::devices::gamepad::{self, PadAsk};
use crate::host::live;
use crate::parts::face::STANDING_MPS;
use crate::settings::Settings;

/// Milliseconds from one look at the yard's status to the next.
const STATUS_MS: f64 = 60.0;
/// A finding stands on the canvas for so long, ticks.
const TOLD_FOR: Tick = 6 * TICK_RATE;
/// And so many at once.
const NEWS_MOST: usize = 3;

/// Runs the drive's clock until the drive is over or the page is left.
pub(crate) fn run(desk: Desk) {
    request_animation_frame(move || frame(desk));
}

fn frame(desk: Desk) {
    match desk.phase.try_get_untracked() {
        Some(Phase::Driving) => {}
        _ => return,
    }
    if let Err(e) = one_frame(desk) {
        desk.phase.set(Phase::Trouble(e));
        return;
    }
    request_animation_frame(move || frame(desk));
}

fn one_frame(desk: Desk) -> Result<(), String> {
    let now = browser::clock_ms();
    let paused = desk.paused.get_untracked();
    let pad = browser::gamepad();
    let settings = desk.settings;
    let walks = untrack(|| desk.walks());
    let ticks = canvas::ticks()?;
    let bits = with(desk, |s| {
        let ask = settings.with_untracked(|settings| {
            s.hands.tiller_returns = settings.tiller_returns;
            pad.map(|p| gamepad::read(&p, &settings.pad))
        });
        let pad_holds = pad_pause(s, ask.as_ref());
        let pad_gone = pad_gone(s, ask.as_ref());
        s.hands.set_pad(ask.filter(|_| !walks).unwrap_or_default());
        let acts = std::mem::take(&mut s.hands.acts);
        if paused {
            s.hands.hold_still();
            return (None, Vec::new(), pad_holds, false);
        }
        let bits = s.hands.controls(ticks).to_bits();
        let changed = s.last_bits != Some(bits);
        s.last_bits = Some(bits);
        (changed.then_some(bits), acts, pad_holds, pad_gone)
    });
    let Some((bits, acts, pad_holds, pad_gone)) = bits else {
        return Ok(());
    };
    if let Some(bits) = bits {
        canvas::set_controls(bits)?;
    }
    for act in acts {
        canvas::act(act)?;
        desk.tell_reported();
    }
    if pad_holds {
        desk.ask_pause(!paused);
    }
    if pad_gone {
        desk.hold_for_elsewhere();
    }
    look(desk, now)?;
    keep(desk, now);
    Ok(())
}

/// The gamepad's pause button has just gone down.
fn pad_pause(session: &mut Session, ask: Option<&PadAsk>) -> bool {
    let down = ask.is_some_and(|a| a.held.contains(&Action::Pause));
    let pressed = down && !session.pad_paused;
    session.pad_paused = down;
    pressed
}

/// The gamepad that drives has just gone: its cable is out, or it is flat. Nobody is left who holds the arm.
fn pad_gone(session: &mut Session, ask: Option<&PadAsk>) -> bool {
    let gone = session.pad_drives && ask.is_none();
    let drives = session.pad_drives;
    session.pad_drives = ask.is_some_and(|asks| drives || *asks != PadAsk::default());
    gone
}

/// Reads the dashboard's data, and tells the yard how to show itself when that has changed.
fn look(desk: Desk, now: f64) -> Result<(), String> {
    let mut view = desk.settings.with_untracked(Settings::view);
    view.helps &= desk.place.with_untracked(Option::is_none) && !desk.rests.get_untracked();
    view.covered = desk.covered.get_untracked();
    let view = untrack(|| desk.looking.on(view));
    let due = with(desk, |s| {
        let due = now - s.last_status_ms >= STATUS_MS;
        if due {
            s.last_status_ms = now;
        }
        let changed = due && s.last_view != Some(view);
        if changed {
            s.last_view = Some(view);
        }
        (due, changed)
    });
    let Some((true, changed)) = due else {
        return Ok(());
    };
    if changed {
        canvas::set_view(&view)?;
    }
    let status = canvas::status()?;
    let ending = status.ending;
    if status.truck.speed.abs() > STANDING_MPS && !desk.moved.get_untracked() {
        desk.moved.set(true);
    }
    tell_news(desk, &status);
    with(desk, |s| {
        let what = (s.drive.course.as_str(), s.drive.truck.as_str());
        live::tell(desk.host, what, &status, now, &mut s.last_live_ms);
    });
    desk.status.set(Some(status));
    match ending {
        // What has happened is said, and stays in sight, before anything else is.
        Some(Ending::Struck) => {
            session::keep_now(desk);
            desk.phase.set(Phase::Struck);
        }
        Some(_) => finish::finish(desk),
        None => {}
    }
    Ok(())
}

/// What became of the walk-round is told after the drive: whoever drives with something overlooked is to notice
/// it by the truck.
const TOLD_LATER: [&str; 4] =
    ["bad-truck-taken", "bad-truck-refused", "tagged-out-sound", "speed-settings-touched"];

fn is_told_later(finding: &Finding) -> bool {
    finding.point.is_some() || TOLD_LATER.contains(&finding.code.as_str())
}

/// Puts findings that are new on the canvas, and takes off those that stood there long enough.
fn tell_news(desk: Desk, status: &Status) {
    let tick = status.tick;
    let fresh = with(desk, |s| {
        let new = |f: &&Finding| {
            let told = s.told.iter().any(|(code, from)| *code == f.code && *from == f.from);
            !told && !is_told_later(f)
        };
        let fresh: Vec<Finding> = status.findings.iter().filter(new).cloned().collect();
        s.told.extend(fresh.iter().map(|f| (f.code.clone(), f.from)));
        fresh
    })
    .unwrap_or_default();
    let old = |until: &Tick| *until < tick;
    if fresh.is_empty()
        && !desk.news.with_untracked(|news| news.iter().any(|(until, _)| old(until)))
    {
        return;
    }
    desk.news.update(|news| {
        news.retain(|(until, _)| !old(until));
        news.extend(fresh.into_iter().map(|f| (tick + TOLD_FOR, f)));
        let surplus = news.len().saturating_sub(NEWS_MOST);
        news.drain(..surplus);
    });
}
