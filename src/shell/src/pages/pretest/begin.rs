//! What the pre-test is, and its start: who, the class's word, the seat.

use coneyard_core::outside::to_json;
use coneyard_core::pretest::{LONGEST_WORD, TRUCKS, count};
use coneyard_core::reading::{Question, Terms};
use leptos::prelude::*;
use serde::{Deserialize, Serialize};

use super::offered::{OpenSittings, PastSittings};
use super::{KeepTrouble, parts};
use crate::browser;
use crate::courses::{Library, use_library};
use crate::host::{Trouble, call, use_host};
use crate::pages::import::Import;
use crate::parts::names::chosen_truck;
use crate::parts::people::WhoField;
use crate::parts::prepare::prepare;
use crate::parts::press::{Choice, Option1, Press};
use crate::reader;
use crate::route::Route;
use crate::route::go;
use crate::settings::use_settings;
use crate::store::{Attempt, Taken, use_store};
use crate::words::{k, number, say, say_with, tr};

/// About how long the drives of a sitting take together, minutes: the mean of the model rider over
/// 200 draws is near this (`coneyard-workshop spread`).
const MINUTES: u32 = 12;
/// Highest number of a seat that is taken.
const SEATS: u32 = 9_999;

fn seat_of(text: &str) -> Option<u32> {
    text.trim().parse().ok().filter(|seat| *seat <= SEATS)
}

/// Which truck.
#[component]
fn TruckField() -> impl IntoView {
    let settings = use_settings();
    let option = |truck: &'static str, name| {
        Option1::new(
            name,
            move || settings.with(chosen_truck) == truck,
            move || settings.update(|s| truck.clone_into(&mut s.truck)),
        )
    };
    let [single, double] = TRUCKS;
    let options = vec![option(single, k("truck-single")), option(double, k("truck-double"))];
    view! { <Choice legend=k("print-truck") group="truck" options /> }
}

/// The page.
#[component]
pub(crate) fn PreTest() -> impl IntoView {
    prepare();
    view! {
        <p class="lead">{tr("pretest-lead")}</p>
        <KeepTrouble />
        <OpenSittings />
        <WhatItIs />
        <Start />
        <PastSittings />
        <Import />
        <section class="card caution">
            <h2>{tr("caution-title")}</h2>
            <p>{tr("pretest-certifies-nobody")}</p>
            <p>{tr("caution")}</p>
        </section>
    }
}

#[component]
fn WhatItIs() -> impl IntoView {
    let library = use_library();
    let how = move || {
        let (minutes, parts) = (number(MINUTES), number(count() as f64));
        say_with(k("pretest-how"), vec![("minutes", minutes), ("parts", parts)])
    };
    // What the site's rules say, once they are there.
    let line = move |said: fn(Terms) -> String| {
        move || library.terms().map(|terms| view! { <li>{said(terms)}</li> })
    };
    let pauses =
        line(|terms| say_with(k("pretest-pauses"), vec![("pauses", number(terms.pauses_most))]));
    let passes = line(|terms| {
        let (skill, total) = (number(terms.pass_skill), number(terms.pass_total));
        say_with(k("pretest-passes"), vec![("skill", skill), ("total", total)])
    });
    let slow = line(|terms| {
        let percent = number(100.0 * terms.time_ratio_least);
        say_with(k("pretest-slow"), vec![("percent", percent)])
    });
    view! {
        <section class="card" aria-labelledby="what-title">
            <h2 id="what-title">{tr("pretest-what")}</h2>
            <ul class="plain">
                <li>{how}</li>
                <li>{tr("pretest-once")}</li>
                <li>{tr("pretest-no-helps")}</li>
                {pauses}
                {passes}
                <li>{tr("pretest-cut-off")}</li>
                {slow}
            </ul>
            <details>
                <summary>{tr("pretest-parts")}</summary>
                <parts::Names />
            </details>
        </section>
    }
}

#[component]
fn Start() -> impl IntoView {
    let settings = use_settings();
    let store = use_store();
    let library = use_library();
    let word = RwSignal::new(String::new());
    let seat = RwSignal::new(String::new());
    let refused = RwSignal::new(None::<String>);
    let not_there = Signal::derive(move || !library.0.with(|l| matches!(l, Some(Ok(_)))));
    let host = use_host();
    // Somebody of a class is given word and seat by its host: nobody can drive for another.
    let is_handed = Memo::new(move |_| host.trainee().is_some());
    let begin = move || {
        let handed = is_handed.get_untracked();
        // What a class's host hands out goes by the rules that came with its site, never by those of a browser.
        let rules = |l: &Library| if handed { l.served.clone() } else { l.rules.clone() };
        let Some(rules) = untrack(|| library.find(|l| Some(rules(l)))) else {
            return;
        };
        let truck = settings.with_untracked(chosen_truck);
        let (typed, seat) = (word.get_untracked(), seat.get_untracked());
        leptos::task::spawn_local(async move {
            let drawn = if handed { handed_out(truck).await } else { chosen(typed, &seat).await };
            let (class_word, seat) = match drawn {
                Ok(drawn) => drawn,
                Err(why) => {
                    refused.try_set(Some(why));
                    return;
                }
            };
            let taken = Taken {
                version: Taken::FORM,
                id: browser::new_id(),
                class_word,
                seat,
                truck: truck.to_owned(),
                who: settings.with_untracked(|s| s.who.clone()),
                started: browser::now(),
                rules,
                pauses: 0,
                given_up: false,
                imported: false,
            };
            let first = Route::Part { sitting: taken.id.clone(), part: 0 };
            store.keep_sitting(taken).await;
            go(&first);
        });
    };
    let field = move |name: &'static str, id, value: RwSignal<String>, mode, longest: usize| {
        view! {
            <label class="field">
                <span>{tr(name)}</span>
                <input
                    type="text"
                    id=id
                    autocomplete="off"
                    inputmode=mode
                    maxlength=longest.to_string()
                    prop:value=value
                    on:input=move |ev| value.set(event_target_value(&ev))
                />
            </label>
        }
    };
    view! {
        <section class="card" aria-labelledby="start-title">
            <h2 id="start-title">{tr("pretest-start-title")}</h2>
            <form
                class="begin"
                on:submit=move |ev| {
                    ev.prevent_default();
                    begin();
                }
            >
                <div class="fields">
                    <WhoField />
                    <TruckField />
                    <Show when=move || !is_handed.get()>
                        {field(k("pretest-class-word"), "class-word", word, "text", LONGEST_WORD)}
                        {field(k("pretest-seat"), "seat", seat, "numeric", 4)}
                    </Show>
                </div>
                <p class="quiet">
                    {move || {
                        say(if is_handed.get() {
                            k("pretest-handed-out")
                        } else {
                            k("pretest-class-word-more")
                        })
                    }}
                </p>
                <Quickness />
                <p class="actions">
                    <Press
                        name=k("pretest-start")
                        id="start-pre-test"
                        class="primary"
                        disabled=not_there
                        act=move |_| begin()
                    />
                </p>
                <p role="alert">{move || refused.get()}</p>
            </form>
        </section>
    }
}

/// The word and the seat that were typed, the word in its one form.
async fn chosen(word: String, seat: &str) -> Result<(String, u32), String> {
    let word: Option<String> = reader::ask(&Question::ClassWord(word)).await?;
    let word = word.ok_or_else(|| say(k("pretest-word-wrong")))?;
    Ok((word, seat_of(seat).ok_or_else(|| say(k("pretest-seat-wrong")))?))
}

/// What the class's host hands out: a word, and a seat that nobody else of the class has.
async fn handed_out(truck: &str) -> Result<(String, u32), String> {
    #[derive(Serialize)]
    struct Beginning<'a> {
        truck: &'a str,
    }
    #[derive(Deserialize)]
    struct Handed {
        class_word: String,
        seed: u32,
    }
    let beginning = to_json(&Beginning { truck })?;
    let handed: Handed =
        call("POST", "sittings", Some(beginning)).await.map_err(Trouble::sentence)?;
    Ok((handed.class_word, handed.seed))
}

/// Whether this computer is quick enough, by the last drive that was driven on it: it is too late to learn
/// that from a result that stays open.
#[component]
fn Quickness() -> impl IntoView {
    let (store, library) = (use_store(), use_library());
    let last = move || {
        let here = |a: &&Attempt| !a.imported;
        store.attempts.with(|all| all.iter().rev().find(here).map(Attempt::share_of_real_time))
    };
    move || {
        let least = library.terms()?.time_ratio_least;
        let percent = |share: f64| vec![("percent", number((100.0 * share).floor()))];
        let (class, says) = match last().flatten() {
            None => ("note", say(k("pretest-quickness-unknown"))),
            Some(share) if share < least => {
                ("note warn", say_with(k("pretest-quickness-low"), percent(share)))
            }
            Some(share) => ("quiet", say_with(k("pretest-quickness-good"), percent(share))),
        };
        Some(view! {
            <p id="quickness" class=class>
                {says}
            </p>
        })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_seat_is_a_number_that_there_is() {
        assert_eq!(seat_of(" 4 "), Some(4));
        for seat in ["", "-1", "four", "10000"] {
            assert_eq!(seat_of(seat), None, "{seat}");
        }
    }
}
