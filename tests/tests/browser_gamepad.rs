//! A gamepad in the standard mapping of the Gamepad API (W3C, section 11): its sticks and buttons drive, and
//! when it goes the drive is held still. The browser has none here, so the page is given one to read.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_core::truck::arm::ArmZone;
use coneyard_tests::browser::{Size, Yard, places};
use serde_json::json;

const STATUS: &str = "JSON.parse(coneyard.status())";

/// What the page reads is of the browser's own kinds, as far as it looks.
const PLUG_IN: &str = "
    const own = (kind, values) => Object.create(kind.prototype,
        Object.fromEntries(Object.entries(values).map(([name, value]) => [name, { value }])));
    globalThis.pad = { axes: [0, 0, 0, 0], buttons: Array(17).fill(0), there: true };
    navigator.getGamepads = () => !pad.there ? [null] : [null, own(Gamepad, {
        id: 'a stick', connected: true, mapping: 'standard', axes: pad.axes,
        buttons: pad.buttons.map((value) => own(GamepadButton, { value, pressed: value > 0.5 })),
    })];";

async fn set(yard: &Yard, axes: [f64; 4], pressed: &[usize]) {
    let mut buttons = [0.0; 17];
    for n in pressed {
        buttons[*n] = 1.0;
    }
    let body = "Object.assign(pad, args[0]);";
    yard.script(body, vec![json!({ "axes": axes, "buttons": buttons })]).await.unwrap();
}

async fn until(yard: &Yard, what: &str) {
    yard.wait_until(&format!("(() => {{ const s = {STATUS}; return {what}; }})()")).await;
}

async fn driving(course: &str) -> Yard {
    let yard = Yard::start(Size::SMALL, "en").await;
    yard.open("#/path").await;
    yard.wait_for(places::EXERCISE).await;
    yard.script(PLUG_IN, Vec::new()).await.unwrap();
    yard.go(&format!("#/drive/{course}/single")).await;
    yard.wait_for(places::DRIVING).await;
    until(&yard, "s.mode === 'drive' && !s.paused").await;
    yard
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn sticks_and_buttons_drive() {
    let yard = driving("straight").await;
    // A stick that rests beside its middle asks for nothing.
    set(&yard, [0.1, 0.1, -0.1, 0.1], &[]).await;
    yard.settle().await;
    until(&yard, "s.truck.throttle === 0 && s.truck.speed === 0").await;
    // The right stick up is power unit first, the left one to the left turns left, the lower button sounds.
    set(&yard, [-0.6, 0.0, 0.0, -0.8], &[0]).await;
    until(&yard, "s.truck.horn && s.truck.throttle > 70 && s.truck.steer > 0.2").await;
    until(&yard, "s.truck.speed > 0.4").await;
    // The left trigger plugs.
    set(&yard, [0.0; 4], &[6]).await;
    until(&yard, "s.truck.throttle === -100 && !s.truck.horn").await;
    set(&yard, [0.0; 4], &[7]).await;
    until(&yard, "s.truck.throttle === 100 && s.truck.speed > 0.4").await;
    // Letting go brakes whatever the trigger asks for, and so does pushing down.
    for (button, zone) in [(1, ArmZone::UpperBrake), (2, ArmZone::LowerBrake)] {
        set(&yard, [0.0; 4], &[7, button]).await;
        let zone = serde_json::to_value(zone).unwrap();
        let stands =
            format!("s.truck.arm_zone === {zone} && s.truck.braking && s.truck.speed < 0.01");
        until(&yard, &stands).await;
        set(&yard, [0.0; 4], &[7]).await;
        until(&yard, "s.truck.speed > 0.4").await;
    }
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_gamepad_that_goes_holds_the_drive_still() {
    let yard = driving("straight").await;
    // One that has done nothing is somebody else's.
    yard.script("pad.there = false;", Vec::new()).await.unwrap();
    yard.settle().await;
    until(&yard, "!s.paused").await;
    yard.script("pad.there = true;", Vec::new()).await.unwrap();
    set(&yard, [0.0, 0.0, 0.0, -0.8], &[]).await;
    until(&yard, "s.truck.speed > 0.4").await;
    yard.script("pad.there = false;", Vec::new()).await.unwrap();
    until(&yard, "s.paused").await;
    // Its pause button goes on, and the stick drives as before.
    yard.script("pad.there = true;", Vec::new()).await.unwrap();
    set(&yard, [0.0; 4], &[9]).await;
    until(&yard, "!s.paused").await;
    set(&yard, [0.0, 0.0, 0.0, -0.8], &[]).await;
    until(&yard, "s.truck.throttle > 70").await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}
