//! The replay as a room to talk in: a ring and an arrow drawn into the yard by keys and by pointer, the three questions,
//! moments of one kind one after another, and two drives side by side.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_tests::browser::keyboard::{enter, tap};
use coneyard_tests::browser::{Size, Yard, places, stored};
use coneyard_tests::drives::ridden;
use fantoccini::key::Key;
use serde_json::{Value, json};

const DESK: Size = Size { width: 1280, height: 800 };
const PROJECTOR: Size = Size { width: 1920, height: 1080 };

/// Takes in a drive in which somebody steps across at speed, three times; gives its id.
async fn take_in(yard: &Yard, seed: u32) -> String {
    let path = yard.downloads.join(format!("{seed}.run.json"));
    std::fs::write(&path, ridden("figure-eight", "single", "step-across-moving", seed)).unwrap();
    yard.open("#/path").await;
    yard.wait_for(places::IMPORT).await.send_keys(&path.to_string_lossy()).await.unwrap();
    yard.wait_until("location.hash.startsWith('#/debrief/')").await;
    yard.wait_for(".verdict").await;
    text_of(yard, "location.hash").await.replace("#/debrief/", "")
}

async fn text_of(yard: &Yard, expression: &str) -> String {
    let text = yard.script(&format!("return {expression};"), vec![]).await.unwrap();
    text.as_str().unwrap_or_default().to_owned()
}

async fn number_of(yard: &Yard, expression: &str) -> f64 {
    yard.script(&format!("return {expression};"), vec![]).await.unwrap().as_f64().unwrap()
}

/// The marks of an attempt, as the browser keeps them.
async fn kept(yard: &Yard, id: &str) -> Vec<Value> {
    let database = stored::dump(yard).await;
    let records = stored::records(&database, "attempts");
    let (_, record) = records.into_iter().find(|(key, _)| *key == id).unwrap();
    let attempt: Value = match record {
        Value::String(text) => serde_json::from_str(text).unwrap(),
        other => (*other).clone(),
    };
    attempt["notes"].as_array().cloned().unwrap_or_default()
}

/// Where a place of the yard is on the screen.
const ON_SCREEN: &str = "(([x, y]) => {
    const box = document.querySelector('#yard').getBoundingClientRect();
    const [right, down] = coneyard.place_in_picture(x, y);
    return [box.left + right * box.width, box.top + down * box.height];
})";

async fn mouse(yard: &Yard, kind: &str, x: f64, y: f64) {
    let buttons = if kind == "mouseReleased" { 0 } else { 1 };
    let params = json!({ "type": kind, "x": x, "y": y, "button": "left", "buttons": buttons,
        "clickCount": 1 });
    yard.devtools("Input.dispatchMouseEvent", params).await;
}

const TICK: &str = "JSON.parse(coneyard.status()).tick";
const PAUSED: &str = "JSON.parse(coneyard.status()).paused";

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_ring_by_keys_and_an_arrow_by_pointer_go_with_their_notes() {
    let yard = Yard::start(DESK, "en").await;
    let id = take_in(&yard, 3).await;
    yard.open(&format!("#/replay/{id}/640")).await;
    yard.wait_for(places::PLAY).await;
    yard.wait_until(&format!("{TICK} >= 640")).await;

    // By keys alone: it begins at the truck, and time stands still for it.
    let focus = "document.querySelector('#draw-ring').focus()";
    yard.script(focus, vec![]).await.unwrap();
    enter(&yard).await;
    yard.wait_until("document.activeElement?.matches('.draw-pad')").await;
    assert!(yard.is(PAUSED).await);
    yard.wait_for(".yard-marks .drawn").await;
    let at = number_of(&yard, TICK).await;
    let path = |axis: &str| {
        format!("document.querySelector('.yard-marks .drawn-line').getBoundingClientRect().{axis}")
    };
    let before = number_of(&yard, &path("x")).await;
    for _ in 0..4 {
        tap(&yard, char::from(Key::Right)).await;
    }
    tap(&yard, '+').await;
    tap(&yard, '+').await;
    tap(&yard, '-').await;
    yard.settle().await;
    let after = number_of(&yard, &path("x")).await;
    let metre = "(() => { const a = coneyard.place_in_picture(0, 0); return a[2]; })()";
    let metre = number_of(&yard, metre).await;
    // A metre to the right, and a quarter of one more in radius.
    let moved = (after - before) / metre;
    assert!((moved - 0.75).abs() < 0.1, "{moved} m");
    enter(&yard).await;
    yard.wait_until("document.activeElement?.id === 'note-text'").await;
    yard.wait_for("#note-text").await.send_keys("Not here.").await.unwrap();
    yard.click("#note-pin").await;
    yard.wait_until("document.querySelector('.note-list .letter')?.textContent === 'A'").await;
    yard.settle().await;
    let notes = kept(&yard, &id).await;
    assert_eq!(notes.len(), 1);
    assert_eq!((notes[0]["at"].as_f64(), notes[0]["text"].as_str()), (Some(at), Some("Not here.")));
    let ring = &notes[0]["mark"]["ring"];
    assert_eq!(ring["radius"], 1.75);

    // What is given up is gone.
    yard.click("#draw-arrow").await;
    yard.wait_for(".draw-pad").await;
    tap(&yard, char::from(Key::Escape)).await;
    yard.wait_until("!document.querySelector('.draw-pad, .drawn.new, .draw-bar')").await;

    // By pointer: what is under it when it is pressed and let go.
    yard.click("#draw-arrow").await;
    yard.wait_for(".draw-pad").await;
    yard.settle().await;
    let pad = "const box = document.querySelector('.draw-pad').getBoundingClientRect();
        return [box.left + 0.3 * box.width, box.top + 0.7 * box.height,
                box.left + 0.55 * box.width, box.top + 0.4 * box.height];";
    let points = yard.script(pad, vec![]).await.unwrap();
    let [x0, y0, x1, y1] = [0, 1, 2, 3].map(|n| points[n].as_f64().unwrap());
    mouse(&yard, "mousePressed", x0, y0).await;
    mouse(&yard, "mouseMoved", 0.5 * (x0 + x1), 0.5 * (y0 + y1)).await;
    mouse(&yard, "mouseMoved", x1, y1).await;
    mouse(&yard, "mouseReleased", x1, y1).await;
    yard.wait_for("#draw-pin").await;
    yard.click("#draw-pin").await;
    yard.wait_until("document.querySelectorAll('.note-list .letter').length === 2").await;
    yard.settle().await;
    let notes = kept(&yard, &id).await;
    let arrow = &notes[1]["mark"]["arrow"];
    let drawn = yard
        .script(
            &format!("return [{ON_SCREEN}(args[0]), {ON_SCREEN}(args[1])];"),
            vec![arrow["from"].clone(), arrow["to"].clone()],
        )
        .await
        .unwrap();
    for (n, (x, y)) in [(x0, y0), (x1, y1)].into_iter().enumerate() {
        let (is_x, is_y) = (drawn[n][0].as_f64().unwrap(), drawn[n][1].as_f64().unwrap());
        assert!((is_x - x).abs() < 1.5 && (is_y - y).abs() < 1.5, "{drawn} for {points}");
    }

    // They are there around their moment, and on every paper.
    let shown = "document.querySelectorAll('.yard-marks .drawn').length";
    yard.wait_until(&format!("{shown} === 2")).await;
    yard.script("coneyard.replay_to(args[0])", vec![json!(at + 5.0 * 64.0)]).await.unwrap();
    yard.wait_until(&format!("{shown} === 0")).await;
    yard.click(".note-list li:first-child .jump").await;
    yard.wait_until(&format!("{shown} === 2")).await;
    yard.open(&format!("#/debrief/{id}")).await;
    yard.wait_until("document.querySelectorAll('section.ground-plan .drawn').length === 2").await;
    yard.wait_until("document.querySelectorAll('.noted .piece .drawn').length === 2").await;
    yard.go(&format!("#/print/{id}")).await;
    yard.wait_until("document.querySelectorAll('.sheet .noted .piece .drawn').length === 2").await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn the_three_questions_fold_away_and_their_answers_are_notes() {
    let yard = Yard::start(PROJECTOR, "en").await;
    let id = take_in(&yard, 3).await;
    yard.open(&format!("#/replay/{id}/640")).await;
    yard.wait_for(places::PLAY).await;
    // There is room for them here.
    yard.wait_for("#happened-text").await.send_keys("The arm came late.").await.unwrap();
    yard.click("#happened-pin").await;
    yard.wait_for(".note-list li").await;
    yard.settle().await;
    let notes = kept(&yard, &id).await;
    assert_eq!((notes.len(), notes[0]["answers"].as_str()), (1, Some("happened")));
    assert!(yard.is("document.querySelector('#happened-text').value === ''").await);
    // In full screen they are folded away, so that the yard has three quarters of the picture, and come when asked for.
    let folded = "document.querySelector('.asks').getBoundingClientRect().height === 0";
    assert!(!yard.is(folded).await);
    yard.click("#full-screen").await;
    yard.wait_until("document.fullscreenElement !== null").await;
    yard.wait_until(folded).await;
    yard.settle().await;
    let share = number_of(
        &yard,
        "(() => { const box = document.querySelector('.stage').getBoundingClientRect();
            return box.width * box.height / (innerWidth * innerHeight); })()",
    )
    .await;
    assert!(share >= 0.75, "the yard has {share} of the screen");
    yard.click("#asks-fold").await;
    yard.wait_until(&format!("!({folded})")).await;
    // The address of this moment is copied, or stands there to be copied.
    yard.script("document.exitFullscreen()", vec![]).await.unwrap();
    yard.wait_until("document.fullscreenElement === null").await;
    yard.click("#copy-link").await;
    let link = format!(
        "document.querySelector('.copied span')?.textContent
            === `${{location.origin}}/#/replay/{id}/${{{TICK}}}`"
    );
    yard.wait_until(&link).await;
    // It stays as it was left on the page.
    assert!(!yard.is(folded).await);
    yard.click("#asks-fold").await;
    yard.wait_until(folded).await;
    yard.open(&format!("#/replay/{id}/640")).await;
    yard.wait_for(places::PLAY).await;
    assert!(yard.is("document.querySelector('#asks-fold').ariaPressed === 'false'").await);
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn moments_of_one_kind_play_one_after_another_over_all_drives() {
    let yard = Yard::start(DESK, "en").await;
    let first = take_in(&yard, 3).await;
    let second = take_in(&yard, 4).await;
    yard.go("#/moments/stepped-across-moving").await;
    yard.wait_for(".moment-list li").await;
    let count = number_of(&yard, "document.querySelectorAll('.moment-list li').length").await;
    assert!(count >= 4.0, "{count}");
    yard.click("#play-moments").await;
    yard.wait_for(places::PLAY).await;
    let of = |n: f64| format!("location.hash === '#/moments/stepped-across-moving/{n}'");
    let place = "Number(location.hash.split('/').at(-1))";
    let open =
        |id: &str| format!("document.querySelector('.replay-head a')?.hash === '#/debrief/{id}'");
    yard.wait_until(&open(&second)).await;
    assert!(number_of(&yard, place).await < count, "it begins with the latest drive");
    // It plays, and the next one opens by itself.
    yard.wait_until(&format!("{place} >= 2")).await;
    yard.wait_until(&open(&second)).await;
    // The keys of a remote lead on, also into another drive, and back. It plays on meanwhile: a slow machine may find
    // it further on than the key led.
    while !yard.is(&open(&first)).await {
        let n = number_of(&yard, place).await;
        assert!(n < count, "the first drive comes");
        tap(&yard, char::from(Key::PageDown)).await;
        yard.wait_until(&format!("{place} > {n}")).await;
        yard.wait_for(places::PLAY).await;
    }
    while !yard.is(&open(&second)).await {
        tap(&yard, char::from(Key::PageUp)).await;
        yard.wait_for(places::PLAY).await;
    }
    // Its address is a link; after the last one it stands.
    yard.open(&format!("#/moments/stepped-across-moving/{count}")).await;
    yard.wait_for(places::PLAY).await;
    assert!(yard.is("document.querySelector('#tour-on').disabled").await);
    yard.wait_until("document.querySelectorAll('.tour p span').length === 3").await;
    assert!(yard.is(PAUSED).await);
    assert!(yard.is(&of(count)).await);
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn two_drives_stand_side_by_side_by_place_and_by_time() {
    let yard = Yard::start(PROJECTOR, "en").await;
    let first = take_in(&yard, 3).await;
    let second = take_in(&yard, 4).await;
    yard.open(&format!("#/replay/{first}")).await;
    yard.wait_for(places::PLAY).await;
    yard.click("#two-open").await;
    yard.wait_until(&format!("location.hash === '#/two/{first}/{second}'")).await;
    yard.wait_until("document.querySelectorAll('.two .playing .truck').length === 2").await;
    // By place both trucks are where the first one is, whatever the time.
    let seek = "const s = document.querySelector('#seek'); s.value = args[0];
        s.dispatchEvent(new Event('input', { bubbles: true }));";
    let apart = "(() => {
        const at = [...document.querySelectorAll('.two .playing > .truck')].map((g) =>
            g.getAttribute('transform').match(/translate\\(([-\\d.]+) ([-\\d.]+)\\)/).slice(1).map(Number));
        const scale = Number(document.querySelector('.two .playing > .truck')
            .getAttribute('transform').match(/scale\\(([\\d.]+)/)[1]);
        return Math.hypot(at[0][0] - at[1][0], at[0][1] - at[1][1]) / scale;
    })()";
    for place in [80, 160, 240] {
        yard.script(seek, vec![json!(place)]).await.unwrap();
        let metres = number_of(&yard, apart).await;
        assert!(metres < 1.5, "{metres} m apart at {place}");
        assert!(yard.is("document.querySelector('.two-gap').textContent !== ''").await);
    }
    yard.click(".two-foot .segments label:nth-of-type(2)").await;
    yard.wait_until("document.querySelector('.two-gap').textContent === ''").await;
    // By time both clocks show the same.
    let same = "(() => { const [a, b] = [...document.querySelectorAll('.two-now .clock')]
        .map((c) => c.textContent.split(' / ')[0]); return a === b && a !== ''; })()";
    yard.wait_until(same).await;
    // Keys: a step on, and play.
    let at = "Number(document.querySelector('#seek').value)";
    let before = number_of(&yard, at).await;
    yard.script("document.activeElement.blur()", vec![]).await.unwrap();
    tap(&yard, char::from(Key::Right)).await;
    yard.wait_until(&format!("{at} === {}", before + 1.0)).await;
    tap(&yard, ' ').await;
    yard.wait_until(&format!("{at} > {}", before + 8.0)).await;
    tap(&yard, ' ').await;
    yard.click("#full-screen").await;
    yard.wait_until("document.fullscreenElement !== null").await;
    yard.settle().await;
    let share = number_of(
        &yard,
        "[...document.querySelectorAll('.two .playing')].map((s) => s.getBoundingClientRect())
            .reduce((sum, b) => sum + b.width * b.height, 0) / (innerWidth * innerHeight)",
    )
    .await;
    assert!(share >= 0.75, "both yards have {share} of the screen");
    assert!(yard.is("document.documentElement.scrollHeight <= innerHeight").await);
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}
