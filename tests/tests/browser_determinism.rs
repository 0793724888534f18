//! The same drive gives the same bits natively and in the browser, in both directions.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_core::rider::{MODEL, by_name};
use coneyard_core::run::Run;
use coneyard_core::run::{DriveSetup, Verdict};
use coneyard_sim::{Session, random_run};
use coneyard_tests::browser::{Size, Yard};
use coneyard_tests::drives::{offered, setup};
use serde_json::{Value, json};

/// Drives with random controls, over all courses and trucks in turn.
const RANDOM_RUNS: u32 = 200;
/// Length of each at most: twelve seconds.
const TICKS: u32 = 12 * 64;

/// A time ratio as a live drive may have it: a careless reader of numbers reads its text one bit
/// off, and an honest run would seem forged.
const ODD_RATIO: f64 = 0.9856906946328695;

/// Loads the yard's module without its canvas: what is asked of it here needs none.
const LOAD: &str = "
    const address = document.querySelector('meta[name=\"coneyard-canvas\"]').content;
    const module = await import(new URL(address, document.baseURI));
    await module.default();
    globalThis.headless = module;";

async fn start() -> Yard {
    let yard = Yard::start(Size::SMALL, "en").await;
    yard.open("#/").await;
    yard.wait_for("main h1").await;
    yard.script(LOAD, Vec::new()).await.expect("the yard's module loads");
    yard
}

async fn ask(yard: &Yard, call: &str, args: Vec<Value>) -> String {
    let body = format!("return headless.{call}(...args);");
    let answer = yard.script(&body, args).await;
    let answer = answer.unwrap_or_else(|e| panic!("{call}: {e}"));
    answer.as_str().expect("the yard answers with text").to_owned()
}

async fn judged_in_browser(yard: &Yard, run: &Run) -> Verdict {
    let verdict = ask(yard, "judge", vec![json!(run.to_text())]).await;
    serde_json::from_str(&verdict).expect("a verdict of the shared type")
}

fn as_json(setup: &DriveSetup) -> Value {
    json!(serde_json::to_string(setup).expect("a set-up is plain data"))
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn random_drives_are_the_same_to_the_last_bit() {
    let yard = start().await;
    let offered = offered();
    for seed in 0..RANDOM_RUNS {
        let (course, truck) = &offered[seed as usize % offered.len()];
        let setup = setup(course, truck, seed);
        let here = random_run(&setup, TICKS).unwrap();
        let there = ask(&yard, "random_run", vec![as_json(&setup), json!(TICKS)]).await;
        let there = Run::parse("the browser's run", there.as_bytes()).unwrap();
        assert_eq!(here.digests, there.digests, "{course}, {truck}, seed {seed}");
        assert_eq!(here, there, "{course}, {truck}, seed {seed}");
        // And each side judges what the other has driven: the text alone must do.
        let verdict = coneyard_sim::judge(&there).unwrap();
        assert!(verdict.reproduces, "{course}, {truck}, seed {seed}: {verdict:?}");
        let verdict = judged_in_browser(&yard, &here).await;
        assert!(verdict.reproduces, "{course}, {truck}, seed {seed}: {verdict:?}");
    }
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn the_model_rides_of_the_native_program_replay_in_the_browser() {
    let yard = start().await;
    for (course, truck) in offered() {
        let setup = setup(course, &truck, 1);
        let run = ridden(&setup);
        let verdict = judged_in_browser(&yard, &run).await;
        assert!(verdict.reproduces, "{course}, {truck}: {verdict:?}");
        let text = |debrief| serde_json::to_string(debrief).unwrap();
        assert_eq!(text(&verdict.debrief), text(&run.claimed), "{course}, {truck}: byte for byte");
        let last = run.digests.last().map(|digest| digest.to_hex());
        assert_eq!(Some(verdict.final_digest), last, "{course}, {truck}");
    }
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_changed_run_is_not_taken_for_a_good_one_in_the_browser() {
    let yard = start().await;
    let mut run = random_run(&setup("slalom", "single", 7), TICKS).unwrap();
    run.controls[1].controls.horn ^= true;
    let verdict = judged_in_browser(&yard, &run).await;
    assert!(!verdict.reproduces);
    assert!(verdict.first_difference_s.is_some());
    let refused = yard.script("return headless.judge('{}');", Vec::new()).await.unwrap_err();
    assert!(refused.contains("the run"), "{refused}");
}

fn ridden(setup: &DriveSetup) -> Run {
    let mut session = Session::new(setup).unwrap();
    let setting = session.setting().clone();
    let seed = u64::from(setup.seed);
    let mut rider = by_name(MODEL, &setting.course, &setting.truck, &setting.rules, seed).unwrap();
    while session.ending().is_none() {
        let controls = rider.ride(session.moment());
        session.step(controls);
    }
    session.finish(ODD_RATIO)
}
