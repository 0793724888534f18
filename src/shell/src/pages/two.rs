//! Two drives of a course side by side, in two yards of the same drawing: by time, as they went from their start, or by
//! place, the second always where it had come as far along the first one's line.

use std::sync::Arc;

use coneyard_core::finding::{Severity, Unit};
use coneyard_core::geometry::abreast;
use coneyard_core::lesson::scene::{A_SECOND, At, Drawn, EVERY, region};
use coneyard_core::math::{DEG, Pose, Vec2, vec2};
use coneyard_core::reading::{Question, RunShown};
use coneyard_core::time::Tick;
use leptos::ev::{KeyboardEvent, keydown};
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use crate::browser;
use crate::canvas;
use crate::courses::use_library;
use crate::files;
use crate::pages::debrief::who_text;
use crate::parts::arriving::Arriving;
use crate::parts::finding;
use crate::parts::names::truck_name;
use crate::parts::press::{Choice, Option1, Press};
use crate::parts::when::date_text;
use crate::plan::clock::{Clock, Transport};
use crate::plan::{Ground, Playing};
use crate::reader;
use crate::route::Route;
use crate::settings::use_settings;
use crate::store::{Attempt, StoreDesk, use_store};
use crate::words::{
    fine_time_text, k, quantity, say, say_with, steady_number, tell, text, time_text, tr,
};

/// What is seen of each yard, in the drawing's own units: two of them fill three quarters of a projector's picture.
const WINDOW: Vec2 = vec2(900.0, 800.0);
/// A finding is told for so long after it began, ticks.
const TOLD_FOR: Tick = 3 * coneyard_core::time::TICK_RATE;
/// Less than this is neither earlier nor later, s.
const SAME: f64 = 0.25;

/// A drive as it is shown.
struct Side {
    attempt: Attempt,
    drawn: Drawn,
    ground: Ground,
}

/// How far it has come.
#[derive(Clone)]
enum Phase {
    Working,
    Trouble(String),
    Open(Arc<[Side; 2]>),
}

/// The two drives of these ids.
#[component]
pub(crate) fn Two(ids: [String; 2]) -> impl IntoView {
    let store = use_store();
    let phase = RwSignal::new(Phase::Working);
    let back = Route::Replay { id: ids[0].clone(), at: None, finding: None }.href();
    let begun = StoredValue::new(false);
    Effect::new(move |_| {
        if !store.ready.get() || begun.get_value() {
            return;
        }
        begun.set_value(true);
        let ids = ids.clone();
        // The page shows first that it is working: driving holds it up.
        set_timeout(
            move || {
                leptos::task::spawn_local(async move {
                    phase.try_set(match open(store, &ids).await {
                        Ok(sides) => Phase::Open(Arc::new(sides)),
                        Err(why) => Phase::Trouble(why),
                    });
                });
            },
            std::time::Duration::from_millis(60),
        );
    });
    view! {
        {move || match phase.get() {
            Phase::Working => {
                view! {
                    <p role="status">
                        {say(k("companion-working"))} " " <Arriving />
                    </p>
                }
                    .into_any()
            }
            Phase::Trouble(why) => {
                view! {
                    <p class="note warn" role="alert">
                        {say_with(k("companion-trouble"), vec![("why", text(why))])}
                    </p>
                }
                    .into_any()
            }
            Phase::Open(sides) => view! { <Open sides back=back.clone() /> }.into_any(),
        }}
    }
}

async fn open(store: StoreDesk, [a, b]: &[String; 2]) -> Result<[Side; 2], String> {
    let course = |id: &str| untrack(move || store.attempt(id)).map(|a| a.course);
    if course(a) != course(b) {
        return Err(say(k("two-other-course")));
    }
    canvas::load().await?;
    let first = side(store, a).await?;
    // What is driven holds the page up: in between it may be drawn.
    browser::wait(std::time::Duration::from_millis(20)).await;
    let second = side(store, b).await?;
    Ok([first, second])
}

async fn side(store: StoreDesk, id: &str) -> Result<Side, String> {
    let missing = || say(k("run-not-there"));
    let attempt = untrack(move || store.attempt(id)).ok_or_else(missing)?;
    let run = store.run(id).await?.ok_or_else(missing)?;
    files::can_be_driven_again(files::simulation_of(id, &run)?)?;
    let shown: RunShown =
        reader::ask(&Question::Run(id.to_owned(), run.clone(), Vec::new())).await?;
    let ground = Ground::read(id, &shown.course)?;
    let drawn = canvas::drawn(&run).map_err(reader::in_english)?;
    Ok(Side { attempt, drawn, ground })
}

/// Where the platform's middle goes, m.
fn way(drawn: &Drawn) -> Vec<Vec2> {
    let middle = |At([x, y, heading], ..): &At| {
        let at = vec2(f64::from(*x) / 100.0, f64::from(*y) / 100.0);
        Pose { at, heading: f64::from(*heading) * DEG }.to_yard(vec2(drawn.shape.platform, 0.0))
    };
    drawn.truck.iter().map(middle).collect()
}

/// A place between two of a list, by its fraction; the last where it is beyond.
fn between(places: &[f64], now: f64) -> f64 {
    let Some(last) = places.len().checked_sub(1) else {
        return 0.0;
    };
    let n = (now.max(0.0) as usize).min(last);
    let (a, b) = (places[n], places[(n + 1).min(last)]);
    a + (b - a) * (now - n as f64).clamp(0.0, 1.0)
}

/// The second drive's place for each of the first one's; where it never comes so far it stands at its last one.
fn abreast_of(first: &Drawn, second: &Drawn) -> (Vec<f64>, usize) {
    let places = abreast::places(&way(first), &way(second));
    let reached = places.iter().take_while(|p| p.is_some()).count();
    let last = second.truck.len().saturating_sub(1) as f64;
    (places.into_iter().map(|p| p.unwrap_or(last)).collect(), reached)
}

fn key_down(clock: Clock, ev: &KeyboardEvent) {
    if ev.ctrl_key() || ev.meta_key() || ev.alt_key() {
        return;
    }
    let element = ev.target().and_then(|t| t.dyn_into::<web_sys::Element>().ok());
    let tag = element.map(|e| e.tag_name()).unwrap_or_default();
    if matches!(tag.as_str(), "INPUT" | "TEXTAREA" | "SELECT" | "BUTTON" | "A") {
        return;
    }
    let by = if ev.shift_key() { A_SECOND } else { 1.0 };
    let now = clock.now().get_untracked();
    match ev.code().as_str() {
        "Space" => clock.toggle(),
        "ArrowLeft" => clock.seek((now - by).ceil()),
        "ArrowRight" => clock.seek((now + by).floor()),
        "Home" => clock.seek(0.0),
        "End" => clock.seek(clock.last()),
        _ => return,
    }
    ev.prevent_default();
}

/// Fills the screen with the page's main part, or gives it back.
fn toggle_full_screen() {
    if document().fullscreen_element().is_some() {
        document().exit_fullscreen();
    } else if let Some(main) = document().get_element_by_id("main") {
        // A browser that does not allow it leaves the page as it is.
        let _ = main.request_fullscreen();
    }
}

#[component]
fn Open(
    sides: Arc<[Side; 2]>,
    /// Where one came from.
    back: String,
) -> impl IntoView {
    let [first, second] = &*sides;
    let by_place = RwSignal::new(true);
    let (places, reached) = abreast_of(&first.drawn, &second.drawn);
    let places = StoredValue::new(places);
    let length = [&first.drawn, &second.drawn].map(|d| d.truck.len());
    let clock = RwSignal::new(Clock::new(length[0]));
    let heard = window_event_listener(keydown, move |ev| key_down(clock.get_untracked(), &ev));
    on_cleanup(move || {
        heard.remove();
        if let Some(clock) = clock.try_get_untracked() {
            clock.play(false);
        }
    });
    // By place there is as much to see as the first drives; by time as much as the longer one.
    let sync = move |place: bool| {
        if by_place.get_untracked() == place {
            return;
        }
        let before = clock.get_untracked();
        before.play(false);
        let now = before.now().get_untracked();
        let next = Clock::new(if place { length[0] } else { length[0].max(length[1]) });
        next.seek(now);
        by_place.set(place);
        clock.set(next);
    };
    let now = Signal::derive(move || clock.get().now().get());
    let now_of_second = Signal::derive(move || {
        let now = now.get();
        if by_place.get() { places.with_value(|p| between(p, now)) } else { now }
    });
    let region = region(&[first.drawn.clone(), second.drawn.clone()]);
    let gap = move || {
        if !by_place.get() {
            return None;
        }
        let here = now.get();
        if here.floor() as usize >= reached {
            return Some(say(k("two-never")));
        }
        let seconds = (now_of_second.get() - here) / A_SECOND;
        let by = || vec![("seconds", text(steady_number(seconds.abs(), 1)))];
        Some(match seconds {
            s if s > SAME => say_with(k("two-later"), by()),
            s if s < -SAME => say_with(k("two-earlier"), by()),
            _ => say(k("two-same")),
        })
    };
    let options = vec![
        Option1::new(k("two-by-place"), move || by_place.get(), move || sync(true)),
        Option1::new(k("two-by-time"), move || !by_place.get(), move || sync(false)),
    ];
    let course = first.attempt.course.clone();
    let library = use_library();
    let one = |n: usize| {
        let side = &sides[n];
        let now = if n == 0 { now } else { now_of_second };
        let (drawn, ground) = (side.drawn.clone(), side.ground.clone());
        view! { <Yard attempt=side.attempt.clone() drawn ground region now /> }
    };
    let both = [one(0), one(1)].collect_view();
    view! {
        <div class="two">
            <p class="two-course">
                {move || library.title(&course)} " · " <a href=back>{tr("two-back")}</a>
            </p>
            <div class="two-yards">{both}</div>
            <div class="two-foot">
                {move || view! { <Transport clock=clock.get() /> }}
                <Choice legend=k("two-sync") group="two-sync" options />
                <Press
                    name=k("replay-full-screen")
                    id="full-screen"
                    mark="⤢"
                    act=|_| toggle_full_screen()
                />
                <p class="two-gap">{gap}</p>
            </div>
        </div>
    }
}

/// One of them.
#[component]
fn Yard(
    attempt: Attempt,
    drawn: Drawn,
    ground: Ground,
    region: [Vec2; 2],
    now: Signal<f64>,
) -> impl IntoView {
    let settings = use_settings();
    let name = {
        let attempt = attempt.clone();
        move || format!("{} · {}", who_text(&attempt), truck_name(&attempt.truck))
    };
    let rest = {
        let points = attempt.total().map(|p| format!(" · {}", steady_number(p, 0)));
        let points = points.unwrap_or_default();
        let started = attempt.started.clone();
        move || format!("{}{points}", date_text(&started))
    };
    let found = StoredValue::new(drawn.found.clone());
    let tick = Memo::new(move |_| (now.get().max(0.0) * f64::from(EVERY)) as Tick);
    let told = Memo::new(move |_| {
        let now = tick.get();
        found.with_value(|all| {
            let mut of_now = all.iter().filter(|f| f.severity != Severity::Good);
            of_now.rfind(|f| f.from <= now && now <= f.to.max(f.from + TOLD_FOR)).cloned()
        })
    });
    let last = drawn.truck.len().saturating_sub(1);
    let speeds: StoredValue<Vec<i32>> =
        StoredValue::new(drawn.truck.iter().map(|at| at.1[0]).collect());
    let speed = move || {
        let n = (now.get().max(0.0) as usize).min(last);
        let cm = speeds.with_value(|s| s.get(n).copied().unwrap_or(0));
        quantity(f64::from(cm.abs()) / 100.0, Unit::MetrePerSecond, settings.with(|s| s.units))
    };
    let whole = time_text(last as Tick * EVERY);
    let time = move || format!("{} / {whole}", fine_time_text(tick.get()));
    let label = name.clone();
    view! {
        <section class="two-side">
            <h2 class="two-who">{name} " " <span class="quiet">{rest}</span></h2>
            <div class="yard-box">
                <Playing
                    ground
                    region
                    drawn
                    now
                    first=0
                    name=Signal::derive(label)
                    window=WINDOW
                />
            </div>
            <p class="two-now">
                <span class="clock">{time}</span>
                <span>{speed}</span>
                {move || {
                    told.get()
                        .map(|f| {
                            let title = tell(&f, settings.with(|s| s.units)).title;
                            view! {
                                <span class=format!("two-found {}", finding::class(f.severity))>
                                    <span aria-hidden="true">{finding::mark(f.severity)}</span>
                                    " "
                                    {title}
                                </span>
                            }
                        })
                }}
            </p>
        </section>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_lies_between_its_neighbours_and_ends_with_the_last() {
        let places = [0.0, 2.0, 2.0, 8.0];
        assert_eq!(between(&places, -1.0), 0.0);
        assert_eq!(between(&places, 0.25), 0.5);
        assert_eq!(between(&places, 1.5), 2.0);
        assert_eq!(between(&places, 2.5), 5.0);
        assert_eq!((between(&places, 3.0), between(&places, 99.0)), (8.0, 8.0));
        assert_eq!(between(&[], 1.0), 0.0);
    }
}
