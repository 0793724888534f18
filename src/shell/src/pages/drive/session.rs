//! A drive under way: what is driven, the hands on it, and the record of it that is kept while it is made.

use std::rc::Rc;

use coneyard_core::desk::{Status, View};
use coneyard_core::run::Driven;
use coneyard_core::time::Tick;
use leptos::prelude::*;

use super::{Desk, Phase};
use crate::browser;
use crate::canvas;
use crate::devices::hands::Hands;
use crate::store::{Drive, Keeper, Piece, Store};

/// Milliseconds from one piece of the record to the next.
const KEEP_MS: f64 = 500.0;

/// A drive under way.
pub(crate) struct Session {
    /// What is driven.
    pub(crate) drive: Drive,
    /// The devices.
    pub(crate) hands: Hands,
    /// The browser's database, if there is one.
    pub(super) store: Option<Rc<Store>>,
    /// Next piece of the record.
    pub(super) piece: u32,
    /// Driven, and not yet kept.
    pub(super) pending: Driven,
    /// A piece is being written.
    pub(super) writing: bool,
    pub(super) last_status_ms: f64,
    pub(super) last_keep_ms: f64,
    pub(super) last_live_ms: f64,
    pub(super) last_bits: Option<u32>,
    pub(super) last_view: Option<View>,
    pub(super) pad_paused: bool,
    /// A gamepad has driven, and was still there when last looked at.
    pub(super) pad_drives: bool,
    /// Findings that were told: their code and first tick.
    pub(super) told: Vec<(String, Tick)>,
}

impl Session {
    /// A drive that has just been opened.
    pub(crate) fn new(drive: Drive, status: &Status, store: Option<Store>, piece: u32) -> Self {
        let mut hands = Hands::new(status.truck.stance, true);
        // In a drive that was cut off both may be otherwise than at its start.
        hands.aboard = status.truck.aboard;
        hands.key_on = status.truck.key_on;
        Self {
            drive,
            hands,
            store: store.map(Rc::new),
            piece,
            pending: Driven::default(),
            writing: false,
            last_status_ms: 0.0,
            last_keep_ms: browser::clock_ms(),
            last_live_ms: 0.0,
            last_bits: None,
            last_view: None,
            pad_paused: false,
            pad_drives: false,
            told: Vec::new(),
        }
    }
}

/// Works with the session, if there is one.
pub(crate) fn with<T>(desk: Desk, work: impl FnOnce(&mut Session) -> T) -> Option<T> {
    desk.session.try_update_value(|session| session.as_mut().map(work)).flatten()
}

/// Keeps what was driven, every half second.
pub(super) fn keep(desk: Desk, now: f64) {
    let due = with(desk, |s| {
        let due = now - s.last_keep_ms >= KEEP_MS;
        if due {
            s.last_keep_ms = now;
        }
        due
    });
    if due == Some(true) {
        keep_now(desk);
    }
}

/// Keeps what was driven since the last time. What cannot be written stays pending for the next.
pub(crate) fn keep_now(desk: Desk) {
    let (Ok(fresh), Ok(timing)) = (canvas::take_driven(), canvas::timing()) else {
        return;
    };
    let job = with(desk, |s| {
        s.pending.extend(fresh);
        if s.writing || s.pending.is_empty() {
            return None;
        }
        let store = s.store.clone()?;
        s.writing = true;
        let driven = std::mem::take(&mut s.pending);
        Some((store, s.drive.id.clone(), s.piece, Piece::new(driven, timing)))
    });
    let Some(Some((store, id, n, piece))) = job else {
        return;
    };
    leptos::task::spawn_local(async move {
        let kept = store.add(&id, n, &piece).await;
        let trouble = kept.as_ref().err().cloned();
        with(desk, |s| {
            s.writing = false;
            match kept {
                Ok(()) => s.piece += 1,
                Err(_) => {
                    let later = std::mem::replace(&mut s.pending, piece.driven);
                    s.pending.extend(later);
                }
            }
        });
        if desk.keep_trouble.try_get_untracked().is_some_and(|t| t != trouble) {
            desk.keep_trouble.set(trouble);
        }
    });
}

/// Lets go of throttle and arm: the keyboard has gone elsewhere.
pub(crate) fn let_go(desk: Desk) {
    let bits = with(desk, |s| {
        let bits = s.hands.let_all_go().to_bits();
        s.last_bits = Some(bits);
        bits
    });
    if let Some(bits) = bits
        && let Err(e) = canvas::set_controls(bits)
    {
        desk.phase.set(Phase::Trouble(e));
    }
}
