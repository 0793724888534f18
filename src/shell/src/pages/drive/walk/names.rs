//! What things are called in the walk-round.

use coneyard_core::checks::list::{Aspect, Noise, Part};

use leptos::prelude::*;

use super::places::{Place, Stop};
use super::round::Round;
use crate::courses::said;
use crate::words::{k, say, say_with, text};

/// Key of a view's short name.
pub(super) fn view_name(view: Aspect) -> &'static str {
    match view {
        Aspect::Above => k("walk-view-above"),
        Aspect::Left => k("walk-view-left"),
        Aspect::Nose => k("walk-view-nose"),
        Aspect::Right => k("walk-view-right"),
        Aspect::Tips => k("walk-view-tips"),
        Aspect::Platform => k("walk-view-platform"),
        Aspect::Desk => k("walk-view-desk"),
    }
}

/// Key of what is seen of the whole truck from there.
pub(super) fn view_text(view: Aspect) -> &'static str {
    match view {
        Aspect::Above => k("walk-from-above"),
        Aspect::Left => k("walk-from-left"),
        Aspect::Nose => k("walk-from-nose"),
        Aspect::Right => k("walk-from-right"),
        Aspect::Tips => k("walk-from-tips"),
        Aspect::Platform => k("walk-from-platform"),
        Aspect::Desk => k("walk-from-desk"),
    }
}

/// The file of a view's drawing.
pub(super) fn view_drawing(view: Aspect) -> &'static str {
    match view {
        Aspect::Above => "view-above",
        Aspect::Left => "view-left",
        Aspect::Nose => "view-nose",
        Aspect::Right => "view-right",
        Aspect::Tips => "view-tips",
        Aspect::Platform => "view-platform",
        Aspect::Desk => "view-desk",
    }
}

/// Key of a part's name.
pub(super) fn part_name(part: Part) -> &'static str {
    match part {
        Part::Outside => k("walk-part-outside"),
        Part::Desk => k("walk-part-desk"),
        Part::Tried => k("walk-part-tried"),
    }
}

/// Key of what is heard.
pub(super) fn noise_text(noise: Option<Noise>) -> &'static str {
    match noise {
        Some(Noise::Horn) => k("walk-heard-horn"),
        Some(Noise::Click) => k("walk-heard-click"),
        Some(Noise::Buzz) => k("walk-heard-buzz"),
        Some(Noise::Hiss) => k("walk-heard-hiss"),
        Some(Noise::Squeal) => k("walk-heard-squeal"),
        None => k("walk-heard-nothing"),
    }
}

/// What lies at a place.
pub(super) fn stop_name(round: Round, stop: Stop) -> String {
    match stop {
        Stop::Point(p) => round.of(p, |point| said(&point.name)).unwrap_or_default(),
        Stop::Settings => say(k("walk-settings")),
    }
}

/// An answer by its code.
pub(super) fn answer_name(round: Round, code: u8) -> String {
    match usize::from(code).checked_sub(1) {
        None => say(k("walk-fine")),
        Some(grade) => round
            .list
            .with_value(|list| list.grades.get(grade).map(|g| said(&g.name)).unwrap_or_default()),
    }
}

/// How far one is with a point, in words.
pub(super) fn point_state(round: Round, point: usize) -> String {
    match (round.answer(point), round.is_done(point)) {
        (Some(code), true) => answer_name(round, code),
        (Some(code), false) => {
            say_with(k("walk-said-unseen"), vec![("answer", text(answer_name(round, code)))])
        }
        (None, true) => say(k("walk-seen-only")),
        (None, false) => say(k("walk-open")),
    }
}

/// How far one is with what lies at a place, in words.
pub(super) fn place_state(round: Round, place: &Place) -> String {
    let Some(point) = place.point() else {
        return String::new();
    };
    let state = point_state(round, point);
    if round.is_done(point) && !round.is_seen(place) {
        say_with(k("walk-not-from-here"), vec![("state", text(state))])
    } else {
        state
    }
}

/// The sign of how far one is with a point.
pub(super) fn mark(round: Round, point: usize) -> &'static str {
    match (round.answer(point), round.is_done(point)) {
        (Some(0), _) => "✓",
        (Some(_), _) => "▲",
        (None, true) => "•",
        (None, false) => "",
    }
}
