//! What is known of the point where one stands: what to look for, how it looks closer or what happens when it is
//! tried, told without saying whether that is as it should be, and the answer to it.

use coneyard_core::checks::list::{Aspect, How};
use leptos::prelude::*;

use super::answers::Answers;
use super::drawing::{Drawing, Drawn};
use super::names;
use super::places::Stop;
use super::round::{Round, TITLE, view_number};
use super::sheet::Hours;
use crate::courses::said;
use crate::parts::press::Press;
use crate::words::{k, say, say_with, text, tr};

/// What is seen, in words.
const TOLD: &str = "walk-told";

/// The point whose window shows the hours.
const HOUR_METER: &str = "hour-meter";

/// All of it.
#[component]
pub(super) fn AtPoint(round: Round) -> impl IntoView {
    let stop = Memo::new(move |_| round.place().map(|p| p.stop));
    let title = move || stop.get().map(|stop| names::stop_name(round, stop));
    view! {
        <section class="walk-point" aria-labelledby=TITLE>
            <div class="walk-name">
                <h2 id=TITLE tabindex="-1">
                    {title}
                </h2>
                <Press
                    name=k("walk-before")
                    id="walk-before"
                    mark="‹"
                    mark_only=true
                    act=move |_| round.step(-1)
                />
                <Press
                    name=k("walk-next")
                    id="walk-next"
                    mark="›"
                    mark_only=true
                    act=move |_| round.step(1)
                />
            </div>
            {move || match stop.get()? {
                Stop::Point(point) => Some(view! { <OfList round point /> }.into_any()),
                Stop::Settings => Some(view! { <OfBox round /> }.into_any()),
            }}
        </section>
    }
}

/// The defect that shows at this point; None where none does, or where it is not looked at.
fn shown_defect(round: Round, point: usize) -> Option<usize> {
    let shown = round.closer().filter(|s| usize::from(s.point) == point)?;
    shown.defect.map(usize::from)
}

/// What is looked at closer, large.
#[component]
pub(super) fn Closer(round: Round) -> impl IntoView {
    let point = Memo::new(move |_| round.closer().map(|s| usize::from(s.point)));
    let drawn = Signal::derive(move || {
        let point = point.get()?;
        let defect = shown_defect(round, point);
        round.of(point, |p| {
            let state = defect.and_then(|d| p.defects.get(d)).map_or("sound", |d| &d.id);
            Drawn { name: p.id.clone(), present: vec![state.to_owned()] }
        })
    });
    let name = move || round.of(point.get()?, |p| said(&p.name));
    view! {
        <div class="walk-scene">
            <div class="walk-closer" role="img" aria-label=name aria-describedby=TOLD>
                <Drawing round what=drawn />
            </div>
        </div>
    }
}

/// A point of the list.
#[component]
fn OfList(round: Round, point: usize) -> impl IntoView {
    let how = round.of(point, |p| p.how).unwrap_or(How::Look);
    let asks = move || round.of(point, |p| said(&p.asks));
    let is_open = Memo::new(move |_| round.closer().is_some_and(|s| usize::from(s.point) == point));
    let defect = Memo::new(move |_| shown_defect(round, point));
    let seen = move || {
        is_open.get().then_some(())?;
        round.of(point, |p| {
            let defect = defect.get().and_then(|d| p.defects.get(d));
            said(defect.map_or(&p.sound, |d| &d.seen))
        })
    };
    let heard = move || {
        (is_open.get() && how == How::Try).then_some(())?;
        let noise = round.of(point, |p| match defect.get().and_then(|d| p.defects.get(d)) {
            Some(defect) => defect.noise,
            None => p.noise,
        })?;
        Some(say_with(k("walk-heard"), vec![("noise", text(say(names::noise_text(noise))))]))
    };
    let look = move || match (how, is_open.get()) {
        (How::Look, false) => view! {
            <Press name=k("walk-look") id="walk-look" class="primary" act=move |_| round.look() />
        }
        .into_any(),
        (How::Try, false) => view! {
            <Press name=k("walk-try") id="walk-look" class="primary" act=move |_| round.look() />
        }
        .into_any(),
        (_, true) => view! {
            <Press name=k("walk-close") id="walk-close" act=move |_| round.close() />
            {(how == How::Try)
                .then(|| {
                    view! {
                        <Press
                            name=k("walk-try-again")
                            id="walk-again"
                            act=move |_| round.look()
                        />
                    }
                })}
        }
        .into_any(),
    };
    let is_meter = round.of(point, |p| p.id == HOUR_METER).unwrap_or(false);
    view! {
        <p class="asks">{asks}</p>
        <div class="walk-told" aria-live="polite">
            <p id=TOLD>{seen}</p>
            <p class="heard">{heard}</p>
        </div>
        <div class="walk-looks">{look} <Sides round point /></div>
        {is_meter.then(|| view! { <Hours round id="walk-hours-here" /> })}
        <Answers round point />
    }
}

/// From where else the point is seen.
#[component]
fn Sides(round: Round, point: usize) -> impl IntoView {
    let others = Memo::new(move |_| {
        let here = round.place().map(|p| p.view);
        let views = round.of(point, |p| p.places.iter().map(|(v, _)| *v).collect::<Vec<Aspect>>());
        let mut views = views.unwrap_or_default();
        views.retain(|v| Some(*v) != here);
        views
    });
    let other = move |view: Aspect| {
        let looked =
            move || round.noted.with(|n| n.looked.contains(&(point as u8, view_number(view))));
        let look = move |_| {
            let place = round.places.with_value(|all| {
                all.iter().position(|p| p.view == view && p.stop == Stop::Point(point))
            });
            if let Some(place) = place {
                round.go(place);
                round.look();
            }
        };
        view! {
            <button type="button" class="walk-side" on:click=look>
                {move || {
                    let from = text(say(names::view_name(view)));
                    say_with(k("walk-look-from"), vec![("view", from)])
                }}
                <span aria-hidden="true">{move || if looked() { " ✓" } else { "" }}</span>
            </button>
        }
    };
    move || {
        let others = others.get();
        others.into_iter().map(other).collect_view()
    }
}

/// The box that sets how fast the truck drives.
#[component]
fn OfBox(round: Round) -> impl IntoView {
    let touched = move || round.noted.with(|n| n.touched > 0);
    view! {
        <p class="asks">{tr("walk-settings-asks")}</p>
        <div class="walk-told" aria-live="polite">
            <p>{move || touched().then(|| say(k("walk-settings-touched")))}</p>
        </div>
        <p>
            <Press
                name=k("walk-try")
                id="walk-settings-try"
                act=move |_| round.act(coneyard_core::acts::Act::TouchSettings)
            />
        </p>
    }
}
