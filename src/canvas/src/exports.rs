//! What the pages may call. Each function reads its text, hands it on, and writes the answer.

use core::cell::RefCell;

use coneyard_core::controls::Controls;
use coneyard_core::run::JudgedBy;
use coneyard_sim::JudgingBy;
use serde::Serialize;
use serde::de::DeserializeOwned;
use wasm_bindgen::prelude::*;

use crate::canvas::{Canvas, with_canvas};
use crate::playback::Playback;
use crate::sound::{rendered, speaker};
use crate::{headless, stage};

/// Larger texts are refused before they are read, bytes: a setup holds three files.
const TEXT_MOST: usize = 4 * 1024 * 1024;

fn thrown(sentence: String) -> JsError {
    JsError::new(&sentence)
}

/// Works on what is open, then has it drawn again.
fn on_canvas<T>(work: impl FnOnce(&mut Canvas) -> Result<T, String>) -> Result<T, JsError> {
    let done = with_canvas(|yard| {
        let done = work(yard);
        // A page that is hidden draws no more pictures, which would say so.
        if !yard.moving() {
            speaker::hush();
        }
        done
    });
    let done = done.and_then(|r| r).map_err(thrown)?;
    stage::wake();
    Ok(done)
}

fn read<T: DeserializeOwned>(what: &str, text: &str) -> Result<T, JsError> {
    coneyard_core::outside::read_json(what, text.as_bytes(), TEXT_MOST)
        .map_err(|e| thrown(e.to_string()))
}

fn write<T: Serialize>(value: &T) -> Result<String, JsError> {
    serde_json::to_string(value).map_err(|e| thrown(e.to_string()))
}

/// Runs when the module is loaded: a panic writes its message and place to the console.
#[wasm_bindgen(start)]
pub fn begin() {
    console_error_panic_hook::set_once();
}

/// Starts the engine on this canvas, once per page load; the canvas stays in the page.
#[wasm_bindgen]
pub fn mount(selector: &str) -> Result<(), JsError> {
    stage::start(selector).map_err(thrown)
}

/// Opens a live drive (`DriveSetup`), which starts at once.
#[wasm_bindgen]
pub fn drive(setup_json: &str) -> Result<(), JsError> {
    let setup = read("the set-up", setup_json)?;
    on_canvas(|yard| yard.drive(&setup, None))
}

/// The same, first fed with what was recorded (`Driven`), then paused; with how real time went by in it
/// (`Timing`).
#[wasm_bindgen]
pub fn drive_on(setup_json: &str, driven_json: &str, timing_json: &str) -> Result<(), JsError> {
    let setup = read("the set-up", setup_json)?;
    let driven = read("what was driven", driven_json)?;
    let timing = read("the times", timing_json)?;
    on_canvas(|yard| yard.drive(&setup, Some((&driven, &timing))))
}

/// What the rider does once, in the next tick (`Act`).
#[wasm_bindgen]
pub fn act(act_json: &str) -> Result<(), JsError> {
    let act = read("the act", act_json)?;
    with_canvas(|yard| yard.act(act)).and_then(|r| r).map_err(thrown)
}

/// What the rider holds from now on, as `Controls::to_bits`.
#[wasm_bindgen]
pub fn set_controls(bits: u32) -> Result<(), JsError> {
    let controls = Controls::from_bits(bits)
        .ok_or_else(|| thrown(format!("The controls {bits:#x} hold a value out of range.")))?;
    with_canvas(|yard| yard.set_controls(controls)).and_then(|r| r).map_err(thrown)
}

/// Ticks of the live drive that are over.
#[wasm_bindgen]
pub fn ticks() -> Result<u32, JsError> {
    with_canvas(Canvas::ticks).and_then(|r| r).map_err(thrown)
}

/// Holds the live drive, or lets it go on.
#[wasm_bindgen]
pub fn set_paused(paused: bool) -> Result<(), JsError> {
    on_canvas(|yard| yard.set_paused(paused))
}

/// Simulated seconds for one second of the live drive, at most 1.
#[wasm_bindgen]
pub fn set_pace(pace: f64) -> Result<(), JsError> {
    on_canvas(|yard| yard.set_pace(pace))
}

/// What is open and how it stands (`Status`).
#[wasm_bindgen]
pub fn status() -> Result<String, JsError> {
    write(&with_canvas(|yard| yard.status()).map_err(thrown)?)
}

/// What was driven since the last call (`Driven`).
#[wasm_bindgen]
pub fn take_driven() -> Result<String, JsError> {
    write(&with_canvas(Canvas::take_driven).and_then(|r| r).map_err(thrown)?)
}

/// How real time went by in the live drive so far (`Timing`).
#[wasm_bindgen]
pub fn timing() -> Result<String, JsError> {
    write(&with_canvas(Canvas::timing).and_then(|r| r).map_err(thrown)?)
}

/// Ends the live drive and claims its debrief; gives the run file.
#[wasm_bindgen]
pub fn finish() -> Result<String, JsError> {
    on_canvas(Canvas::finish)
}

/// How the yard is shown (`View`).
#[wasm_bindgen]
pub fn set_view(view_json: &str) -> Result<(), JsError> {
    let view = read("the view", view_json)?;
    on_canvas(|yard| {
        yard.set_view(view);
        Ok(())
    })
}

/// Where a place of the yard, m, is in the picture that was drawn last: shares of its width from the left and
/// of its height from above, and how many CSS pixels a metre has; nothing before there is a picture.
#[wasm_bindgen]
pub fn place_in_picture(x: f64, y: f64) -> Option<Vec<f64>> {
    crate::draw::camera::place_in_picture(x, y).map(Vec::from)
}

/// Switches the sound on at this volume, 0 to 1, or off at 0. Browsers let something sound only after it was
/// asked for while a person pressed something.
#[wasm_bindgen]
pub fn set_sound(volume: f64) -> Result<(), JsError> {
    speaker::set_volume(volume).map_err(thrown)
}

/// The wave of what is heard in a recorded run, at so many samples a second: the promise of an `AudioBuffer`;
/// needs no canvas.
#[wasm_bindgen]
pub fn render_sound(run_text: &str, rate: f32) -> Result<js_sys::Promise, JsError> {
    let (playback, _) = Playback::open(run_text).map_err(thrown)?;
    rendered::render(playback.frames(), rate).map_err(thrown)
}

/// Opens a recorded run at its start (`Opened`).
#[wasm_bindgen]
pub fn open_replay(run_text: &str) -> Result<String, JsError> {
    write(&on_canvas(|yard| yard.open_replay(run_text))?)
}

/// Shows this tick of the recorded run and stops there.
#[wasm_bindgen]
pub fn replay_to(tick: u32) -> Result<(), JsError> {
    on_canvas(|yard| yard.replay_to(tick))
}

/// Plays the recorded run at this pace, or stops it.
#[wasm_bindgen]
pub fn replay_play(playing: bool, pace: f64) -> Result<(), JsError> {
    on_canvas(|yard| yard.replay_play(playing, pace))
}

/// Shows a second run of the same course beside it.
#[wasm_bindgen]
pub fn open_companion(run_text: &str) -> Result<(), JsError> {
    on_canvas(|yard| yard.open_companion(run_text))
}

/// Takes the second run away.
#[wasm_bindgen]
pub fn close_companion() -> Result<(), JsError> {
    on_canvas(Canvas::close_companion)
}

/// Drives a run again and says whether it reproduces (`Verdict`); needs no canvas.
#[wasm_bindgen]
pub fn judge(run_text: &str) -> Result<String, JsError> {
    write(&headless::judge(run_text).map_err(thrown)?)
}

/// Drives a run again and gives all of it as pages draw it without an engine (`Drawn`); needs no canvas.
#[wasm_bindgen]
pub fn drawn(run_text: &str) -> Result<String, JsError> {
    write(&headless::drawn(run_text).map_err(thrown)?)
}

thread_local! {
    /// The run that is being judged by other rules.
    static JUDGING: RefCell<Option<JudgingBy>> = const { RefCell::new(None) };
}

/// Begins to judge a run by other rules than its own, in place of one that was begun; needs no canvas.
#[wasm_bindgen]
pub fn judge_by(run_text: &str, rules_text: &str) -> Result<(), JsError> {
    let judging = headless::judge_by(run_text, rules_text).map_err(thrown)?;
    JUDGING.with(|now| *now.borrow_mut() = Some(judging));
    Ok(())
}

/// Drives so many ticks of it; says how far it is, or what came of it (`JudgedBy`).
#[wasm_bindgen]
pub fn judge_on(ticks: u32) -> Result<String, JsError> {
    let judged = JUDGING.with(|now| Some(now.borrow_mut().as_mut()?.go_on(ticks)));
    let judged = judged.ok_or_else(|| thrown("Nothing is being judged.".to_owned()))?;
    if !matches!(judged, JudgedBy::Working(_)) {
        JUDGING.with(|now| *now.borrow_mut() = None);
    }
    write(&judged)
}

/// What a run file tells of itself, whichever simulation made it (`Told`); needs no canvas.
#[wasm_bindgen]
pub fn told(file: &str, run_text: &str) -> Result<String, JsError> {
    let told = coneyard_core::class::whole::told(file, run_text);
    write(&told.map_err(|e| thrown(e.to_string()))?)
}

/// A scripted rider drives what was driven in a run: the same course, truck, rules and seed; gives
/// the run file; needs no canvas.
#[wasm_bindgen]
pub fn ride_again(run_text: &str, rider: &str) -> Result<String, JsError> {
    headless::ride_again(run_text, rider).map_err(thrown)
}

/// Random controls drawn from the seed; gives the run file; needs no canvas.
#[wasm_bindgen]
pub fn random_run(setup_json: &str, ticks: u32) -> Result<String, JsError> {
    headless::random_run(&read("the set-up", setup_json)?, ticks).map_err(thrown)
}

/// Back to nothing.
#[wasm_bindgen]
pub fn close() -> Result<(), JsError> {
    on_canvas(|yard| {
        yard.close();
        Ok(())
    })
}
