//! One walk round the truck as the page has it: where one stands, what is looked at, and everything that can be
//! done there. What is judged is the yard's; here is only what is shown.

use std::collections::BTreeMap;
use std::sync::Arc;

use coneyard_core::acts::Act;
use coneyard_core::checks::list::{ASPECTS, Aspect, CheckList, How, Point};
use coneyard_core::desk::ShownStatus;
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::noted::Noted;
use super::places::{self, Place, Stop};
use crate::canvas;
use crate::pages::drive::{Desk, Phase};

/// What the large part of the page shows.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Page {
    /// A view of the truck.
    Truck,
    /// All points.
    List,
    /// What else stands on the sheet.
    Sheet,
}

/// The walk-round.
#[derive(Clone, Copy)]
pub(super) struct Round {
    /// The drive.
    pub(super) desk: Desk,
    /// The check list.
    pub(super) list: StoredValue<Arc<CheckList>>,
    /// All drawings, by their names.
    pub(super) drawings: StoredValue<Arc<BTreeMap<String, String>>>,
    /// The places in their order.
    pub(super) places: StoredValue<Vec<Place>>,
    /// What is shown.
    pub(super) page: RwSignal<Page>,
    /// Where one stands, by its number among the places.
    pub(super) here: RwSignal<usize>,
    /// What is there is looked at closer.
    pub(super) open: RwSignal<bool>,
    /// It is asked whether the truck is to be taken (true) or tagged out.
    pub(super) deciding: RwSignal<Option<bool>>,
    /// What the yard does not tell.
    pub(super) noted: RwSignal<Noted>,
    /// For each point the defect as whose it is drawn.
    pub(super) looks: Memo<Vec<Option<u8>>>,
    /// For each point whether it was looked at or tried for long enough.
    pub(super) done: Memo<Vec<bool>>,
    /// For each point the code of its answer.
    pub(super) said: Memo<Vec<Option<u8>>>,
    /// What is looked at closer.
    pub(super) shown: Memo<Option<ShownStatus>>,
    /// What the hour meter shows, tenths of an hour.
    pub(super) hours: Memo<u32>,
    /// What was written down of it.
    pub(super) hours_read: Memo<Option<u32>>,
}

impl Round {
    /// Before the first step, or where a walk-round that was cut off stood.
    pub(super) fn new(desk: Desk, list: CheckList, drawings: BTreeMap<String, String>) -> Self {
        let status =
            Memo::new(move |_| desk.status.with(|s| s.as_ref().and_then(|s| s.walk.clone())));
        let walk = move || status.get();
        let places = places::places(&list);
        let noted = desk.acts_before.with_value(|acts| Noted::of(acts));
        Self {
            desk,
            places: StoredValue::new(places),
            list: StoredValue::new(Arc::new(list)),
            drawings: StoredValue::new(Arc::new(drawings)),
            page: RwSignal::new(Page::Truck),
            here: RwSignal::new(0),
            open: RwSignal::new(false),
            deciding: RwSignal::new(None),
            noted: RwSignal::new(noted),
            looks: Memo::new(move |_| walk().map(|w| w.looks).unwrap_or_default()),
            done: Memo::new(move |_| walk().map(|w| w.done).unwrap_or_default()),
            said: Memo::new(move |_| walk().map(|w| w.said).unwrap_or_default()),
            // How long it is looked at is the yard's business.
            shown: Memo::new(move |_| {
                walk().and_then(|w| w.shown).map(|s| ShownStatus { ticks: 0, ..s })
            }),
            hours: Memo::new(move |_| walk().map_or(0, |w| w.hours)),
            hours_read: Memo::new(move |_| walk().and_then(|w| w.hours_read)),
        }
    }

    /// Something of a point.
    pub(super) fn of<T>(self, point: usize, read: impl FnOnce(&Point) -> T) -> Option<T> {
        self.list.with_value(|list| list.points.get(point).map(read))
    }

    /// The place where one stands.
    pub(super) fn place(self) -> Option<Place> {
        let here = self.here.get();
        self.places.with_value(|all| all.get(here).copied())
    }

    /// The answer of a point.
    pub(super) fn answer(self, point: usize) -> Option<u8> {
        self.said.with(|said| said.get(point).copied().flatten())
    }

    /// It was looked at or tried for long enough.
    pub(super) fn is_done(self, point: usize) -> bool {
        self.done.with(|done| done.get(point).copied().unwrap_or(false))
    }

    /// It was looked at from this side, or tried.
    pub(super) fn is_seen(self, place: &Place) -> bool {
        let view = view_number(place.view);
        self.noted.with(|noted| match place.stop {
            Stop::Point(p) => {
                let p = p as u8;
                noted.looked.contains(&(p, view)) || noted.tried.contains(&p)
            }
            Stop::Settings => noted.touched > 0,
        })
    }

    /// How many points have no answer.
    pub(super) fn left(self) -> usize {
        self.said.with(|said| said.iter().filter(|s| s.is_none()).count())
    }

    /// Something was said not to be fine.
    pub(super) fn has_found(self) -> bool {
        self.said.with(|said| said.iter().any(|s| s.is_some_and(|code| code > 0)))
    }

    /// What is before the eyes is what lies here, looked at from here.
    pub(super) fn closer(self) -> Option<ShownStatus> {
        let (place, shown) = (self.place()?, self.shown.get()?);
        let is_it = self.open.get()
            && place.point() == Some(usize::from(shown.point))
            && shown.view.is_none_or(|view| view == place.view);
        is_it.then_some(shown)
    }

    /// Does something, and remembers it.
    pub(super) fn act(self, act: Act) {
        self.noted.update(|noted| noted.hear(&act));
        // What was begun is kept when the page is left.
        self.desk.moved.set(true);
        if let Err(e) = canvas::act(act) {
            self.desk.phase.set(Phase::Trouble(e));
        }
    }

    /// Goes to a place.
    pub(super) fn go(self, place: usize) {
        self.page.set(Page::Truck);
        if self.here.get_untracked() != place {
            self.here.set(place);
            self.open.set(false);
        }
    }

    /// Goes so many places on, and takes the keys there.
    pub(super) fn step(self, by: isize) {
        let count = self.places.with_value(Vec::len);
        // From a closer view that hides the truck the way leads back to it first.
        self.open.set(false);
        self.go(places::onward(count, self.here.get_untracked(), by));
        self.focus();
    }

    /// Goes so many views on.
    pub(super) fn step_view(self, by: isize) {
        let here = self.here.get_untracked();
        self.open.set(false);
        self.go(self.places.with_value(|all| places::view_onward(all, here, by)));
    }

    /// Goes to the first place of a view, and takes the keys there.
    pub(super) fn go_to_view(self, view: Aspect) {
        let first = self.places.with_value(|all| all.iter().position(|p| p.view == view));
        let is_here = untrack(|| self.place()).is_some_and(|p| p.view == view);
        self.page.set(Page::Truck);
        self.open.set(false);
        if let Some(first) = first.filter(|_| !is_here) {
            self.go(first);
        }
        self.focus();
    }

    /// Goes to a point, in the view that is shown where it lies there.
    pub(super) fn go_to_point(self, point: usize) {
        let view = untrack(|| self.place()).map(|p| p.view);
        let found = self.places.with_value(|all| {
            let lies = |p: &&Place| p.point() == Some(point);
            let here = all.iter().position(|p| lies(&p) && Some(p.view) == view);
            here.or_else(|| all.iter().position(|p| lies(&p)))
        });
        if let Some(place) = found {
            self.open.set(false);
            self.go(place);
            self.focus();
        }
    }

    /// Goes to the next point that has no answer.
    pub(super) fn go_to_open(self) {
        let here = self.here.get_untracked();
        let is_open = |p: usize| untrack(|| self.answer(p)).is_none();
        if let Some(next) = self.places.with_value(|all| places::next_open(all, here, is_open)) {
            self.open.set(false);
            self.go(next);
            self.focus();
        }
    }

    /// Looks closer at what lies here, or tries it. The box is not tried before it was read what it is.
    pub(super) fn look(self) {
        let Some(place) = untrack(|| self.place()) else {
            return;
        };
        if let Some(point) = place.point() {
            let view = view_number(place.view);
            let how = self.of(point, |p| p.how);
            let point = point as u8;
            self.act(match how {
                Some(How::Try) => Act::Try { point },
                _ => Act::LookCloser { point, view },
            });
        }
        self.open.set(true);
    }

    /// Puts the closer view away.
    pub(super) fn close(self) {
        self.open.set(false);
        self.focus();
    }

    /// Answers the point that lies here.
    pub(super) fn say(self, answer: u8, reason: Option<u8>) {
        let point = untrack(|| self.place()).and_then(|p| p.point());
        let grades = self.list.with_value(|list| list.grades.len());
        if let Some(point) = point.filter(|_| usize::from(answer) <= grades) {
            let reason = reason.filter(|_| answer > 0);
            self.act(Act::Answer { point: point as u8, answer, reason });
        }
    }

    /// Takes the keys to where one stands; where the truck is hidden, to the head of what hides it.
    pub(super) fn focus(self) {
        let here = self.here.get_untracked();
        focus_soon(move || {
            if !focus_on(&spot_id(here)) {
                focus_on(TITLE);
            }
        });
    }
}

/// The heading of what is known of a point.
pub(super) const TITLE: &str = "walk-point-title";

/// Where a place stands in the page.
pub(super) fn spot_id(place: usize) -> String {
    format!("spot-{place}")
}

/// The number of a view in acts.
pub(super) fn view_number(view: Aspect) -> u8 {
    ASPECTS.iter().position(|a| *a == view).unwrap_or(0) as u8
}

/// After what has changed stands in the page.
pub(super) fn focus_soon(work: impl FnOnce() + 'static) {
    request_animation_frame(work);
}

/// Gives the keys to an element; false where it is not there or not seen.
pub(super) fn focus_on(id: &str) -> bool {
    let found = document().get_element_by_id(id);
    let Some(element) = found.and_then(|e| e.dyn_into::<web_sys::HtmlElement>().ok()) else {
        return false;
    };
    element.offset_parent().is_some() && element.focus().is_ok()
}
