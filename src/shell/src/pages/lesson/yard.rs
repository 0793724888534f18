//! Two drives side by side: one clock for both, a yard each, what is watched, and what was found, measured beside
//! its limit.

use coneyard_core::finding::{Finding, Severity};
use coneyard_core::lesson::Show;
use coneyard_core::lesson::scene::{A_SECOND, Drawn, EVERY, Scene};
use coneyard_core::outside::Said;
use leptos::prelude::*;

use super::gauges::Gauges;
use crate::browser;
use crate::courses::said;
use crate::pages::debrief::findings::measured_text;
use crate::parts::finding;
use crate::parts::names::truck_name;
use crate::plan::clock::{Clock, Transport};
use crate::plan::{Ground, Playing};
use crate::settings::use_settings;
use crate::words::{k, say, tell};

/// Who wants less motion sees how it stands so long after the first fault, s.
const AFTER: f64 = 0.5;

/// When a finding is made, in places of the drive.
fn place_of(drawn: &Drawn, found: &Finding) -> f64 {
    f64::from(found.from.saturating_sub(drawn.of.from())) / f64::from(EVERY)
}

/// How a side is headed.
enum Head {
    Right,
    Wrong,
    Truck(String),
}

/// The two.
#[component]
pub(super) fn Yard(
    /// What is shown.
    show: Show,
    /// As it was driven.
    scene: Scene,
    /// The courses, both of them where they differ.
    grounds: [Ground; 2],
    /// Called once with the clock, for the keys.
    #[prop(into)]
    keys: Callback<Clock>,
) -> impl IntoView {
    let places = scene.sides.iter().map(|s| s.truck.len()).max().unwrap_or(1);
    let clock = Clock::new(places);
    keys.run(clock);
    let heads: [(Head, Said); 2] = match &show {
        Show::Ways(ways) => {
            [(Head::Right, ways.right.says.clone()), (Head::Wrong, ways.wrong.says.clone())]
        }
        Show::Trucks(both) => [0, 1].map(|n| {
            let one = &both.trucks[n];
            (Head::Truck(one.truck.clone()), one.says.clone())
        }),
        Show::Part { .. } => return ().into_any(),
    };
    let faults = scene.sides.iter().flat_map(|side| {
        let bad = side.found.iter().filter(|f| f.severity != Severity::Good);
        bad.map(|f| place_of(side, f))
    });
    let first_fault = faults.fold(f64::MAX, f64::min);
    let still = browser::media("(prefers-reduced-motion: reduce)");
    if still {
        clock.seek(if first_fault < f64::MAX {
            first_fault + AFTER * A_SECOND
        } else {
            clock.last()
        });
    } else {
        clock.play(true);
    }
    let region = scene.region;
    let watch = show.watch().to_vec();
    let sides = heads
        .into_iter()
        .zip(grounds)
        .enumerate()
        .map(|(side, ((head, says), ground))| {
            let drawn = scene.sides[side].clone();
            let first = drawn.of.from();
            let name = says.clone();
            let (class, mark, title) = match head {
                Head::Right => ("right", "✓", Signal::derive(|| say(k("lesson-right")))),
                Head::Wrong => ("wrong", "✗", Signal::derive(|| say(k("lesson-wrong")))),
                Head::Truck(truck) => {
                    ("truck-side", "", Signal::derive(move || truck_name(&truck)))
                }
            };
            view! {
                <section class=format!("way-side {class}")>
                    <h3>
                        <span class="way-mark" aria-hidden="true">
                            {mark}
                        </span>
                        {title}
                        <span class="says">{move || said(&says)}</span>
                    </h3>
                    <div class="yard-box">
                        <Playing
                            ground
                            region
                            drawn=drawn.clone()
                            now=clock.now()
                            first
                            name=Signal::derive(move || said(&name))
                        />
                    </div>
                    <Gauges watch=watch.clone() sides=scene.sides.clone() side now=clock.now() />
                    <Found drawn now=clock.now() />
                </section>
            }
        })
        .collect_view();
    view! {
        <Transport clock />
        <div class="ways">{sides}</div>
    }
    .into_any()
}

/// What was found up to now. Its room is there from the start.
#[component]
fn Found(drawn: Drawn, #[prop(into)] now: Signal<f64>) -> impl IntoView {
    let settings = use_settings();
    // What goes on is found again and again, and told once.
    let mut told: Vec<&Finding> = Vec::new();
    let bad = |f: &&Finding| f.severity != Severity::Good;
    // Beside a fault it is the fault that is to be seen.
    let only_bad = drawn.found.iter().any(|f| bad(&f));
    for found in drawn.found.iter().filter(|f| !only_bad || bad(f)) {
        if told.iter().all(|f| f.code != found.code) {
            told.push(found);
        }
    }
    let items = told
        .into_iter()
        .map(|found| {
            let from = place_of(&drawn, found);
            let shown = Memo::new(move |_| now.get() >= from);
            let severity = found.severity;
            let (told, measured) = (found.clone(), found.clone());
            let title = move || tell(&told, settings.with(|s| s.units)).title;
            // What went well is no less well for a number.
            let limit = move || {
                let units = settings.with(|s| s.units);
                (severity != Severity::Good).then(|| measured_text(&measured, units)).flatten()
            };
            view! {
                <li class=finding::class(severity) class:gone=move || !shown.get()>
                    <span class="mark" aria-hidden="true">
                        {finding::mark(severity)}
                    </span>
                    <span>
                        <strong>{title}</strong>
                        " "
                        {limit}
                    </span>
                </li>
            }
        })
        .collect_view();
    view! { <ul class="way-found">{items}</ul> }
}
