//! The canvas, as the pages see it: the few functions that the yard module exports, handed on by
//! `web/glue.js`, with JSON read and written here. Every call may be refused with one sentence.

// The binding macro writes the unsafe calls across the border between wasm and JavaScript.
#![allow(unsafe_code)]

use coneyard_core::acts::Act;
use coneyard_core::class::Told;
use coneyard_core::desk::{Opened, Status, View};
use coneyard_core::lesson::scene::Drawn;
use coneyard_core::outside::to_json;
use coneyard_core::run::{DriveSetup, Driven, JudgedBy, Timing, Verdict};
use coneyard_core::time::Tick;
use serde::de::DeserializeOwned;
use wasm_bindgen::prelude::*;

use crate::browser;

mod js {
    use super::*;

    #[wasm_bindgen(js_namespace = coneyard)]
    extern "C" {
        #[wasm_bindgen(catch)]
        pub(super) async fn load() -> Result<JsValue, JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn drive(setup: &str) -> Result<(), JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn drive_on(setup: &str, driven: &str, timing: &str) -> Result<(), JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn act(act: &str) -> Result<(), JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn set_controls(bits: u32) -> Result<(), JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn ticks() -> Result<u32, JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn set_paused(paused: bool) -> Result<(), JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn set_pace(pace: f64) -> Result<(), JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn status() -> Result<String, JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn take_driven() -> Result<String, JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn timing() -> Result<String, JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn finish() -> Result<String, JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn set_view(view: &str) -> Result<(), JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn set_sound(volume: f64) -> Result<(), JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn open_replay(run: &str) -> Result<String, JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn replay_to(tick: u32) -> Result<(), JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn replay_play(playing: bool, pace: f64) -> Result<(), JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn open_companion(run: &str) -> Result<(), JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn close_companion() -> Result<(), JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn judge(run: &str) -> Result<String, JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn drawn(run: &str) -> Result<String, JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn place_in_picture(x: f64, y: f64) -> Result<JsValue, JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn judge_by(run: &str, rules: &str) -> Result<(), JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn judge_on(ticks: u32) -> Result<String, JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn told(file: &str, run: &str) -> Result<String, JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn ride_again(run: &str, rider: &str) -> Result<String, JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) fn close() -> Result<(), JsValue>;
        pub(super) fn saves_data() -> bool;
        #[wasm_bindgen(catch)]
        pub(super) async fn words(language: &str) -> Result<JsValue, JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) async fn exercises() -> Result<JsValue, JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) async fn drawings() -> Result<JsValue, JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) async fn lesson() -> Result<JsValue, JsValue>;
        pub(super) fn arrived() -> f64;
        pub(super) fn arriving() -> f64;
        pub(super) fn started();
        pub(super) fn trouble(why: &str);
        pub(super) fn print_by(rule: &str);
        pub(super) fn show_address(hash: &str);
        #[wasm_bindgen(catch)]
        pub(super) async fn copy(text: &str) -> Result<JsValue, JsValue>;
        pub(super) fn is_kept() -> bool;
        pub(super) fn is_newer() -> bool;
        #[wasm_bindgen(catch)]
        pub(super) async fn take_newer() -> Result<JsValue, JsValue>;
        #[wasm_bindgen(catch)]
        pub(super) async fn hold(name: &str) -> Result<JsValue, JsValue>;
        pub(super) fn let_go(name: &str);
        #[wasm_bindgen(catch)]
        pub(super) async fn held() -> Result<JsValue, JsValue>;
        pub(super) fn stay_awake(on: bool);
        #[wasm_bindgen(catch)]
        pub(super) async fn key_names() -> Result<JsValue, JsValue>;
    }
}

/// What a call gives: its result, or one sentence that says why not.
pub(crate) type Asked<T> = Result<T, String>;

/// Makes one sentence of whatever JavaScript throws.
pub(crate) fn sentence(thrown: JsValue) -> String {
    if let Some(text) = thrown.as_string() {
        return text;
    }
    match thrown.dyn_ref::<js_sys::Error>() {
        Some(error) => String::from(error.message()),
        None => format!("{thrown:?}"),
    }
}

fn read<T: DeserializeOwned>(text: Result<String, JsValue>) -> Asked<T> {
    let text = text.map_err(sentence)?;
    serde_json::from_str(&text).map_err(|e| e.to_string())
}

fn write<T: serde::Serialize>(value: &T) -> Asked<String> {
    to_json(value)
}

/// Loads the yard if it is not there yet, and mounts it on its canvas.
pub(crate) async fn load() -> Asked<()> {
    js::load().await.map(drop).map_err(sentence)
}

/// Somebody who saves data is not made to load what may never be wanted.
pub(crate) fn saves_data() -> bool {
    js::saves_data()
}

/// Opens a live drive.
pub(crate) fn drive(setup: &DriveSetup) -> Asked<()> {
    js::drive(&write(setup)?).map_err(sentence)
}

/// Opens a live drive and feeds it first with recorded controls (bits, ticks, bits, ticks ...), with
/// how real time went by in them.
pub(crate) fn drive_on(setup: &DriveSetup, driven: &Driven, timing: &Timing) -> Asked<()> {
    js::drive_on(&write(setup)?, &write(driven)?, &write(timing)?).map_err(sentence)
}

/// What the rider does once, in the next tick.
pub(crate) fn act(act: Act) -> Asked<()> {
    js::act(&write(&act)?).map_err(sentence)
}

/// Sets what the rider does from now on.
pub(crate) fn set_controls(bits: u32) -> Asked<()> {
    js::set_controls(bits).map_err(sentence)
}

/// Ticks of the live drive that are over.
pub(crate) fn ticks() -> Asked<Tick> {
    js::ticks().map_err(sentence)
}

/// Holds the live drive, or lets it go on.
pub(crate) fn set_paused(paused: bool) -> Asked<()> {
    js::set_paused(paused).map_err(sentence)
}

/// Simulated seconds a second of the live drive, at most 1.
pub(crate) fn set_pace(pace: f64) -> Asked<()> {
    js::set_pace(pace).map_err(sentence)
}

/// What is open and how it stands.
pub(crate) fn status() -> Asked<Status> {
    read(js::status())
}

/// What was driven since the last call.
pub(crate) fn take_driven() -> Asked<Driven> {
    read(js::take_driven())
}

/// How real time went by in the live drive so far.
pub(crate) fn timing() -> Asked<Timing> {
    read(js::timing())
}

/// Ends the live drive; gives the run file.
pub(crate) fn finish() -> Asked<String> {
    js::finish().map_err(sentence)
}

/// Sets how the yard is shown.
pub(crate) fn set_view(view: &View) -> Asked<()> {
    js::set_view(&write(view)?).map_err(sentence)
}

/// Switches the sound on at this volume, 0 to 1, or off at 0.
pub(crate) fn set_sound(volume: f64) -> Asked<()> {
    js::set_sound(volume).map_err(sentence)
}

/// Opens a recorded run.
pub(crate) fn open_replay(run: &str) -> Asked<Opened> {
    read(js::open_replay(run))
}

/// Shows this tick of the recorded run.
pub(crate) fn replay_to(tick: u32) -> Asked<()> {
    js::replay_to(tick).map_err(sentence)
}

/// Plays the recorded run, or stops it.
pub(crate) fn replay_play(playing: bool, pace: f64) -> Asked<()> {
    js::replay_play(playing, pace).map_err(sentence)
}

/// Shows a second run beside the recorded one.
pub(crate) fn open_companion(run: &str) -> Asked<()> {
    js::open_companion(run).map_err(sentence)
}

/// Takes the second run away.
pub(crate) fn close_companion() -> Asked<()> {
    js::close_companion().map_err(sentence)
}

/// Judges a run file, without showing it.
pub(crate) fn judge(run: &str) -> Asked<Verdict> {
    read(js::judge(run))
}

/// Drives a run again and gives all of it as a drawing.
pub(crate) fn drawn(run: &str) -> Asked<Drawn> {
    read(js::drawn(run))
}

/// Where a place of the yard, m, is in the picture that was drawn last: shares of its width from the left and of its
/// height from above. None before there is a picture.
pub(crate) fn place_in_picture(x: f64, y: f64) -> Option<[f64; 2]> {
    let place = js::place_in_picture(x, y).ok().filter(JsValue::is_object)?;
    let place = js_sys::Array::from(&place);
    Some([place.get(0).as_f64()?, place.get(1).as_f64()?])
}

/// Begins to judge a run file by other rules than its own.
pub(crate) fn judge_by(run: &str, rules: &str) -> Asked<()> {
    js::judge_by(run, rules).map_err(sentence)
}

/// Goes on with it for so many ticks.
pub(crate) fn judge_on(ticks: u32) -> Asked<JudgedBy> {
    read(js::judge_on(ticks))
}

/// What a run file tells of itself.
pub(crate) fn told(file: &str, run: &str) -> Asked<Told> {
    read(js::told(file, run))
}

/// A scripted rider drives what was driven in a run, without being shown; gives the run file.
pub(crate) fn ride_again(run: &str, rider: &str) -> Asked<String> {
    js::ride_again(run, rider).map_err(sentence)
}

/// The texts of a language, as the file of a table.
pub(crate) async fn words(language: &str) -> Asked<String> {
    let texts = js::words(language).await.map_err(sentence)?;
    Ok(texts.as_string().unwrap_or_default())
}

/// All exercises, as the file of them.
pub(crate) async fn exercises() -> Asked<String> {
    let text = js::exercises().await.map_err(sentence)?;
    Ok(text.as_string().unwrap_or_default())
}

/// The drawings of the walk-round, as the file of them: SVG texts by their names.
pub(crate) async fn drawings() -> Asked<String> {
    let text = js::drawings().await.map_err(sentence)?;
    Ok(text.as_string().unwrap_or_default())
}

/// The lesson, as the file of it.
pub(crate) async fn lesson() -> Asked<String> {
    let text = js::lesson().await.map_err(sentence)?;
    Ok(text.as_string().unwrap_or_default())
}

/// How much of the yard has been fetched and how much there is to fetch, bytes as they are when unpacked;
/// None while nothing of it is on its way.
pub(crate) fn arrived() -> Option<(f64, f64)> {
    let (arrived, arriving) = (js::arrived(), js::arriving());
    (arrived < arriving).then_some((arrived, arriving))
}

/// Takes away what the bare page shows until there are pages.
pub(crate) fn started() {
    js::started();
}

/// Says on the bare page that the pages cannot be shown, and why.
pub(crate) fn trouble(why: &str) {
    js::trouble(why);
}

/// Sets the rule of a style sheet by which pages are printed; an empty one takes it away.
pub(crate) fn print_by(rule: &str) {
    js::print_by(rule);
}

/// Changes what stands behind the `#` of the address; no page hears of it.
pub(crate) fn show_address(hash: &str) {
    js::show_address(hash);
}

/// Puts a text where it can be pasted from; false where the browser does not let a page do so.
pub(crate) async fn copy(text: &str) -> bool {
    js::copy(text).await.ok().and_then(|done| done.as_bool()) == Some(true)
}

/// The browser keeps all that a drive takes: it works without network.
pub(crate) fn is_kept() -> bool {
    js::is_kept()
}

/// A newer version of the site is ready.
pub(crate) fn is_newer() -> bool {
    js::is_newer()
}

/// Loads the page again in the newer version; false when something is being driven in any tab.
pub(crate) async fn take_newer() -> bool {
    js::take_newer().await.ok().and_then(|taken| taken.as_bool()) == Some(true)
}

/// Closes what is open.
pub(crate) fn close() -> Asked<()> {
    js::close().map_err(sentence)
}

/// A tab that was closed or left a moment ago may not have given its lock back yet: it is asked so
/// often.
const ASKED: u32 = 8;
/// With this time between.
const ASK_AGAIN: std::time::Duration = std::time::Duration::from_millis(500);

/// Marks a drive as being driven in this tab, so that no other tab can; false when one has it.
pub(crate) async fn hold(drive: &str) -> bool {
    for n in 0..ASKED {
        if n > 0 {
            browser::wait(ASK_AGAIN).await;
        }
        // A browser that cannot tell cannot be asked; a piece is never written over anyway.
        if js::hold(drive).await.ok().and_then(|held| held.as_bool()) != Some(false) {
            return true;
        }
    }
    false
}

/// Takes the mark away.
pub(crate) fn let_go(drive: &str) {
    js::let_go(drive);
}

/// Drives that are being driven in any tab; none where the browser cannot tell.
pub(crate) async fn held() -> Vec<String> {
    let Ok(names) = js::held().await else {
        return Vec::new();
    };
    js_sys::Array::from(&names).iter().filter_map(|n| n.as_string()).collect()
}

/// Keeps the screen from going dark, where the browser can, or lets it.
pub(crate) fn stay_awake(on: bool) {
    js::stay_awake(on);
}

/// What is printed on a key, by its code, where the browser can tell.
pub(crate) async fn key_names() -> Vec<(String, String)> {
    let Ok(names) = js::key_names().await else {
        return Vec::new();
    };
    js_sys::Object::entries(&js_sys::Object::from(names))
        .iter()
        .filter_map(|pair| {
            let pair = js_sys::Array::from(&pair);
            Some((pair.get(0).as_string()?, pair.get(1).as_string()?))
        })
        .collect()
}

/// Gives the keyboard back to the canvas after a button was pressed by pointer.
pub(crate) fn focus_yard() {
    let canvas = leptos::prelude::document()
        .get_element_by_id("yard")
        .and_then(|e| e.dyn_into::<web_sys::HtmlElement>().ok());
    if let Some(canvas) = canvas {
        // A canvas that cannot take the focus leaves it where it is; keys are heard anywhere.
        let _ = canvas.focus();
    }
}
