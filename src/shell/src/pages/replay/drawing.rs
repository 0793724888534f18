//! Drawing into the yard: a ring or an arrow, by pointer or by keys, that goes with a note. What was drawn is shown
//! over the yard round the moment of its note.

use coneyard_core::class::mark::{Kind, Mark};
use coneyard_core::class::note::Answers;
use coneyard_core::math::{DEG, Vec2, vec2};
use coneyard_core::time::Tick;
use leptos::ev::{KeyboardEvent, PointerEvent};
use leptos::prelude::*;

use super::lie::Lie;
use super::{Desk, Phase};
use crate::parts::press::Press;
use crate::plan::mark::{letter_at, letters, outline};
use crate::words::{fine_time_text, k, say, say_with, text, tr};

/// A key moves it so far, m; with Shift as far as the other.
const STEP: f64 = 0.25;
const LONG_STEP: f64 = 1.0;
/// A key turns an arrow by so much, rad.
const TURN: f64 = 15.0 * DEG;
/// Length of an arrow's head, CSS pixels.
const HEAD_PX: f64 = 20.0;

/// What is being drawn on a page.
#[derive(Clone, Copy)]
pub(super) struct Drawing {
    /// As it is so far; None while nobody draws.
    doing: RwSignal<Option<Mark>>,
    /// By which pointer it is drawn, and where in the yard that was pressed, m.
    pressed: RwSignal<Option<(i32, Vec2)>>,
    /// Drawn, at this moment, and waiting for the note that it goes with.
    done: RwSignal<Option<(Tick, Mark)>>,
    /// How the yard lies under it; kept up as long as something is shown.
    lie: RwSignal<Option<Lie>>,
    /// Something is shown.
    shows: RwSignal<bool>,
    /// The part of the page that lies over the yard.
    over: NodeRef<leptos::html::Div>,
    /// The part that takes pointer and keys.
    pad: NodeRef<leptos::html::Div>,
}

impl Drawing {
    pub(super) fn new() -> Self {
        Self {
            doing: RwSignal::new(None),
            pressed: RwSignal::new(None),
            done: RwSignal::new(None),
            lie: RwSignal::new(None),
            shows: RwSignal::new(false),
            over: NodeRef::new(),
            pad: NodeRef::new(),
        }
    }

    /// Somebody draws.
    pub(super) fn is_on(self) -> bool {
        self.doing.with(Option::is_some)
    }

    /// Something is drawn and waits for its note.
    pub(super) fn waits(self) -> bool {
        self.done.with(Option::is_some)
    }

    /// The moment that the next note is pinned to: that of what was drawn for it, else this one.
    pub(super) fn moment(self, now: Tick) -> Tick {
        self.done.with(|done| done.map_or(now, |(at, _)| at))
    }

    /// What was drawn, for the note that is pinned now.
    pub(super) fn take(self) -> Option<(Tick, Mark)> {
        let done = self.done.get_untracked();
        self.done.set(None);
        done
    }

    /// Begins to draw, at the truck; the same again gives it up.
    pub(super) fn begin(self, desk: Desk, kind: Kind) {
        if self.doing.get_untracked().is_some_and(|mark| mark.kind() == kind) {
            self.give_up();
            return;
        }
        desk.play(false);
        let Some(truck) = untrack(move || desk.truck_at()) else {
            return;
        };
        self.done.set(None);
        self.pressed.set(None);
        self.doing.set(Some(Mark::put(kind, truck)));
        // It is there only once it was asked for.
        request_animation_frame(move || {
            if let Some(Some(pad)) = self.pad.try_get_untracked() {
                let _ = pad.focus();
            }
        });
    }

    /// Nothing is drawn.
    fn give_up(self) {
        self.doing.set(None);
        self.pressed.set(None);
        self.done.set(None);
    }

    /// It is as it should be.
    fn keep(self, desk: Desk) {
        if let Some(mark) = self.doing.get_untracked() {
            self.doing.set(None);
            self.pressed.set(None);
            self.done.set(Some((desk.now_untracked(), mark)));
            // What had the focus is gone: keys go on where words are written, where that is seen.
            request_animation_frame(|| {
                let seen = |id: &str| {
                    let element = document().get_element_by_id(id)?;
                    (element.get_bounding_client_rect().width() > 0.0).then_some(element)
                };
                let next = seen("note-text").or_else(|| seen("draw-pin"));
                if let Some(next) = next
                    .and_then(|e| wasm_bindgen::JsCast::dyn_into::<web_sys::HtmlElement>(e).ok())
                {
                    let _ = next.focus();
                }
            });
        }
    }

    /// The place of the yard under a pointer.
    fn under(self, ev: &PointerEvent) -> Option<Vec2> {
        let over = self.over.get_untracked()?.get_bounding_client_rect();
        let point =
            vec2(f64::from(ev.client_x()) - over.left(), f64::from(ev.client_y()) - over.top());
        Some(self.lie.get_untracked()?.in_yard(point))
    }

    fn down(self, ev: &PointerEvent) {
        // A second finger draws nothing, and neither does the button for menus.
        if self.pressed.with_untracked(Option::is_some) || ev.button() != 0 {
            return;
        }
        let (Some(at), Some(mark)) = (self.under(ev), self.doing.get_untracked()) else {
            return;
        };
        if let Some(pad) = self.pad.get_untracked() {
            // Without capture the drag ends at the yard's edge.
            let _ = pad.set_pointer_capture(ev.pointer_id());
        }
        self.pressed.set(Some((ev.pointer_id(), at)));
        self.doing.set(Some(Mark::put(mark.kind(), at)));
    }

    fn dragged(self, ev: &PointerEvent) {
        let (Some((id, from)), Some(mark)) =
            (self.pressed.get_untracked(), self.doing.get_untracked())
        else {
            return;
        };
        if let Some(to) = self.under(ev).filter(|_| id == ev.pointer_id()) {
            self.doing.set(Some(Mark::drawn(mark.kind(), from, to)));
        }
    }

    fn lifted(self, desk: Desk, ev: &PointerEvent) {
        self.dragged(ev);
        if self.pressed.get_untracked().is_some_and(|(id, _)| id == ev.pointer_id()) {
            self.keep(desk);
        }
    }

    /// Takes a key while somebody draws. True when it was one of its own.
    pub(super) fn key(self, desk: Desk, ev: &KeyboardEvent, on_control: bool) -> bool {
        // None, too, when the page is gone.
        let Some(mark) = self.doing.try_get_untracked().flatten() else {
            let drops = !on_control && untrack(move || self.waits()) && ev.key() == "Escape";
            if drops {
                self.give_up();
            }
            return drops;
        };
        let key = ev.key();
        if matches!(key.as_str(), "Escape" | "Delete") {
            self.give_up();
            return true;
        }
        if on_control {
            return false;
        }
        if key == "Enter" {
            self.keep(desk);
            return true;
        }
        let by = if ev.shift_key() { LONG_STEP } else { STEP };
        let Some(mark) = changed(mark, &key, by, self.lie.get_untracked()) else {
            return false;
        };
        self.doing.set(Some(mark));
        true
    }

    /// Keeps up with how the yard lies, while something is shown.
    pub(super) fn follow(self) {
        if self.shows.try_get_untracked() != Some(true) {
            return;
        }
        let Some(over) = self.over.try_get_untracked() else { return };
        let lie = over.and_then(|over| Lie::on(&over));
        if self.lie.try_get_untracked().is_some_and(|was| was != lie) {
            self.lie.try_set(lie);
        }
    }
}

/// A mark after a key: arrow keys go by the screen, whichever way the yard is turned.
fn changed(mark: Mark, key: &str, by: f64, lie: Option<Lie>) -> Option<Mark> {
    let towards = match key {
        "ArrowLeft" => vec2(-1.0, 0.0),
        "ArrowRight" => vec2(1.0, 0.0),
        "ArrowUp" => vec2(0.0, -1.0),
        "ArrowDown" => vec2(0.0, 1.0),
        // The same key without Shift, on keyboards that have it so.
        "+" | "=" => return Some(mark.larger(STEP)),
        "-" | "_" => return Some(mark.larger(-STEP)),
        "PageUp" => return Some(mark.turned(TURN)),
        "PageDown" => return Some(mark.turned(-TURN)),
        _ => return None,
    };
    Some(mark.moved(lie?.step(towards, by)))
}

/// Something that is shown over the yard.
#[derive(Clone, Debug, PartialEq)]
struct Shown {
    letter: Option<String>,
    mark: Mark,
}

/// What lies over the yard: the marks, and what takes pointer and keys while somebody draws.
#[component]
pub(super) fn Marks(desk: Desk) -> impl IntoView {
    let drawing = desk.drawing;
    let shown = Memo::new(move |_| {
        let now = desk.now();
        let mut shown = desk.kept.with(|kept| {
            let notes = kept.as_ref().map(|a| a.notes.as_slice()).unwrap_or_default();
            let drawn = letters(notes).into_iter().zip(notes);
            let drawn = drawn.filter(|(_, note)| note.is_drawn_at(now));
            drawn
                .filter_map(|(letter, note)| Some(Shown { letter, mark: note.mark? }))
                .collect::<Vec<_>>()
        });
        let own = drawing.doing.get().or_else(|| drawing.done.get().map(|(_, mark)| mark));
        shown.extend(own.map(|mark| Shown { letter: None, mark }));
        shown
    });
    Effect::new(move |_| drawing.shows.set(shown.with(|s| !s.is_empty()) || drawing.is_on()));
    let marks = move || {
        let lie = drawing.lie.get()?;
        let one = |Shown { letter, mark }: Shown| {
            let at = |p| lie.on_screen(p);
            let (data, place) = (outline(&mark, at, HEAD_PX), letter_at(&mark, at));
            let new = letter.is_none();
            let letter = letter.map(|letter| {
                view! {
                    <g transform=format!("translate({:.1} {:.1})", place.x, place.y)>
                        <circle class="drawn-disc" r="12" />
                        <text class="drawn-letter" dy="0.35em">
                            {letter}
                        </text>
                    </g>
                }
            });
            view! {
                <g class="drawn" class:new=new>
                    <path class="drawn-halo" d=data.clone() />
                    <path class="drawn-line" d=data />
                    {letter}
                </g>
            }
        };
        Some(shown.get().into_iter().map(one).collect_view())
    };
    view! {
        <div class="yard-marks" node_ref=drawing.over>
            <svg aria-hidden="true">{marks}</svg>
            <Show when=move || drawing.is_on()>
                <div
                    class="draw-pad"
                    tabindex="0"
                    role="application"
                    aria-label=tr("draw-pad")
                    aria-describedby="draw-help"
                    node_ref=drawing.pad
                    on:pointerdown=move |ev| {
                        ev.prevent_default();
                        drawing.down(&ev);
                    }
                    on:pointermove=move |ev| drawing.dragged(&ev)
                    on:pointerup=move |ev| drawing.lifted(desk, &ev)
                    on:pointercancel=move |_| drawing.pressed.set(None)
                ></div>
            </Show>
        </div>
    }
}

/// How to draw, and what to do with what was drawn.
#[component]
pub(super) fn Bar(desk: Desk) -> impl IntoView {
    let drawing = desk.drawing;
    let kind = Memo::new(move |_| drawing.doing.get().map(|mark| mark.kind()));
    let waits = Memo::new(move |_| drawing.done.get().map(|(at, _)| at));
    move || {
        if let Some(kind) = kind.get() {
            let help = if kind == Kind::Ring { k("draw-help-ring") } else { k("draw-help-arrow") };
            return view! {
                <div class="draw-bar">
                    <p id="draw-help">{tr(help)}</p>
                    <Press
                        name=k("draw-keep")
                        id="draw-keep"
                        act=move |_| drawing.keep(desk)
                    />
                    <Press name=k("draw-give-up") act=move |_| drawing.give_up() />
                </div>
            }
            .into_any();
        }
        let Some(at) = waits.get() else {
            return ().into_any();
        };
        view! {
            <div class="draw-bar">
                <p>{move || say_with(k("draw-done"), vec![("at", text(fine_time_text(at)))])}</p>
                <Press
                    name=k("draw-pin")
                    id="draw-pin"
                    disabled=Signal::derive(move || desk.is_full())
                    act=move |_| desk.pin(Answers::Said, String::new())
                />
                <Press name=k("draw-away") act=move |_| drawing.give_up() />
            </div>
        }
        .into_any()
    }
}

/// The two buttons that begin it.
#[component]
pub(super) fn Begin(desk: Desk) -> impl IntoView {
    let idle = Signal::derive(move || desk.phase.get() != Phase::Open);
    let one = move |kind: Kind, name: &'static str, mark: &'static str, id: &'static str| {
        let pressed =
            Signal::derive(move || desk.drawing.doing.get().is_some_and(|m| m.kind() == kind));
        view! {
            <Press
                name
                mark
                id
                mark_only=true
                disabled=idle
                pressed
                act=move |_| desk.drawing.begin(desk, kind)
            />
        }
    };
    view! {
        {one(Kind::Ring, k("draw-ring"), "◯", "draw-ring")}
        {one(Kind::Arrow, k("draw-arrow"), "➚", "draw-arrow")}
    }
}

/// What a note without words is called.
pub(crate) fn mark_text(mark: &Mark) -> String {
    say(if mark.kind() == Kind::Ring { k("draw-a-ring") } else { k("draw-an-arrow") })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_that_are_not_its_own_change_nothing() {
        let ring = Mark::put(Kind::Ring, vec2(1.0, 2.0));
        assert_eq!(changed(ring, "a", STEP, None), None);
        assert_eq!(changed(ring, "ArrowLeft", STEP, None), None, "before there is a picture");
        assert_eq!(changed(ring, "+", STEP, None), Some(ring.larger(STEP)));
        assert_eq!(changed(ring, "-", LONG_STEP, None), Some(ring.larger(-STEP)));
    }
}
