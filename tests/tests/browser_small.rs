//! However small the page is, down to a desktop zoomed to 400 % (320 by 256): the truck stays in sight, and no
//! two things that are pressed lie over each other. And the yard is looked at from nearer, farther, or whole.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_core::course::shipped;
use coneyard_tests::browser::thumbs::Screen;
use coneyard_tests::browser::{Size, Yard, places};
use serde_json::{Value, json};

const SIZES: [(u32, u32); 5] = [(320, 256), (844, 390), (390, 844), (820, 1180), (1180, 820)];

/// Pairs of buttons that lie over each other, and what lies over places of the yard.
const LOOK: &str = "
    const shown = [...document.querySelectorAll('main.driving button')]
        .filter((b) => b.checkVisibility())
        .map((b) => [b.id || b.textContent.trim(), b.getBoundingClientRect()]);
    const pairs = [];
    shown.forEach(([name, a], i) => shown.slice(i + 1).forEach(([other, b]) => {
        const wide = Math.min(a.right, b.right) - Math.max(a.left, b.left);
        const high = Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top);
        if (wide > 0.5 && high > 0.5) pairs.push(`${name} and ${other}`);
    }));
    const covers = shown.map(([name, box]) => [name, box]).concat(
        [...document.querySelectorAll('.driving .task, .driving .instrument')]
            .map((e) => [e.className, e.getBoundingClientRect()]));
    const over = args[0].flatMap(([x, y]) => covers
        .filter(([, box]) => x > box.left && x < box.right && y > box.top && y < box.bottom)
        .map(([name]) => name));
    const out = args[0].some(([x, y]) => x < 0 || y < 0 || x > innerWidth || y > innerHeight);
    return { pairs, over, out, count: shown.length };";

const WHERE: &str = "
    const address = document.querySelector('meta[name=\"coneyard-canvas\"]').content;
    const module = await import(new URL(address, document.baseURI));
    return args[0].map(([x, y]) => {
        const [right, down, scale] = module.place_in_picture(x, y);
        return [right * innerWidth, down * innerHeight, scale];
    });";

async fn places_of(yard: &Yard, points: &Value) -> Vec<[f64; 3]> {
    let places = yard.script(WHERE, vec![points.clone()]).await.unwrap();
    serde_json::from_value(places).unwrap()
}

/// Where the truck stands at the start: its platform and its nose.
fn truck_at_start(course: &str) -> Value {
    let spawn = shipped::parse(course).spawn;
    let ahead = |m: f64| spawn.to_yard(coneyard_core::math::vec2(m, 0.0));
    json!([ahead(0.9), ahead(1.6)].map(|p| [p.x, p.y]))
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn the_truck_is_in_sight_and_no_button_lies_over_another() {
    let yard = Yard::start(Size::SMALL, "es").await;
    for course in ["rack-end", "figure-eight"] {
        let truck = truck_at_start(course);
        for (width, height) in SIZES {
            Screen::of(&yard, Size { width, height }).await;
            yard.open(&format!("#/drive/{course}/single")).await;
            yard.wait_for(places::DRIVING).await;
            yard.settle().await;
            let on_page = places_of(&yard, &truck).await;
            let looked = yard.script(LOOK, vec![json!(on_page)]).await.unwrap();
            let here = format!("{course} at {width} x {height}: {looked}");
            assert!(looked["count"].as_u64().unwrap() >= 10, "{here}");
            assert_eq!(looked["pairs"], json!([]), "{here}");
            assert_eq!(looked["over"], json!([]), "{here}");
            assert_eq!(looked["out"], json!(false), "{here}");
        }
    }
}

/// CSS pixels a metre.
async fn scale(yard: &Yard) -> f64 {
    places_of(yard, &json!([[0.0, 0.0]])).await[0][2]
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn keys_wheel_and_buttons_look_from_nearer_and_farther_and_at_all_of_the_yard() {
    let yard = Yard::start(Size { width: 1280, height: 800 }, "en").await;
    yard.open("#/drive/rack-end/single").await;
    yard.wait_for(places::DRIVING).await;
    yard.settle().await;
    let press = "window.dispatchEvent(new KeyboardEvent('keydown', { code: args[0] }));";
    let key = async |code: &str| {
        yard.script(press, vec![json!(code)]).await.unwrap();
        yard.settle().await;
    };
    let usual = scale(&yard).await;
    key("Equal").await;
    let near = scale(&yard).await;
    assert!((near / usual - 1.25).abs() < 0.01, "{usual} {near}");
    key("Minus").await;
    assert!((scale(&yard).await / usual - 1.0).abs() < 0.01);
    let turn = "document.querySelector('#yard').dispatchEvent(
        new WheelEvent('wheel', { deltaY: 200, bubbles: true }));";
    yard.script(turn, Vec::new()).await.unwrap();
    yard.settle().await;
    assert!((usual / scale(&yard).await - 1.5625).abs() < 0.02, "two steps of the wheel");

    yard.click("#overview").await;
    yard.settle().await;
    let course = shipped::parse("rack-end");
    let corners =
        json!(
            [[course.floor_min.x, course.floor_min.y], [course.floor_max.x, course.floor_max.y],]
        );
    for [x, y, _] in places_of(&yard, &corners).await {
        assert!((0.0..=1280.0).contains(&x) && (0.0..=800.0).contains(&y), "{x} {y}");
    }
    key("KeyV").await;
    assert!((usual / scale(&yard).await - 1.5625).abs() < 0.02, "the zoom is as it was");
}
