//! A class with real browsers: what one drives arrives at the trainer's page by itself, and whatever happens to
//! the network meanwhile, it arrives once.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use std::time::{Duration, Instant};

use coneyard_tests::browser::keyboard::Keyboard;

use coneyard_tests::browser::{Class, Size, Yard, places};
use coneyard_tests::key_rider::Held;
use serde_json::json;

const STATUS: &str = "JSON.parse(coneyard.status())";

/// From the end of a drive to the trainer's page, on a machine that draws two yards without a graphics card; on one
/// that does nothing else it is two seconds.
const LONGEST_WAY: Duration = Duration::from_secs(15);

async fn joins(class: &Class, name: &str) -> Yard {
    let yard = Yard::start_for(Size::SMALL, "en", class).await;
    yard.joins(class, name).await;
    yard
}

async fn watches(class: &Class) -> Yard {
    let yard = Yard::start_for(Size { width: 1280, height: 800 }, "en", class).await;
    yard.enters(class).await;
    yard
}

/// Drives off, and says when it is under way.
async fn drives_off(yard: &Yard) {
    yard.open("#/drive/straight/single").await;
    yard.wait_for(places::DRIVING).await;
    Keyboard::default().hold(yard, &Held::from(['w'])).await;
    yard.wait_until(&format!("{STATUS}.truck.speed > 0.4")).await;
}

/// Ends the drive and sees its debrief.
async fn ends(yard: &Yard) {
    yard.ask_to_leave().await;
    yard.click(places::LEAVE_TO_DEBRIEF).await;
    yard.debrief_opens().await;
}

const ROWS: &str = "document.querySelectorAll('#class-runs tbody tr').length";

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn what_is_driven_arrives_at_the_trainers_page_by_itself() {
    let class = Class::open();
    let trainer = watches(&class).await;
    let trainee = joins(&class, "Rowan").await;
    drives_off(&trainee).await;
    trainer.wait_for("#live li").await;
    ends(&trainee).await;
    let ended = Instant::now();
    trainer.wait_until(&format!("{ROWS} === 1")).await;
    let took = ended.elapsed();
    println!("from the end of the drive to the trainer's page: {took:.1?}");
    assert!(took < LONGEST_WAY, "{took:?}");
    // It is driven again there, and comes out the same.
    trainer.wait_until("document.querySelector('#class-runs tr[data-state=judged]')").await;
    trainee.go("#/class").await;
    trainee.wait_for("#all-sent").await;

    // The trainer looks at it.
    trainer.click("#class-runs tbody a").await;
    trainer.wait_until("location.hash.startsWith('#/debrief/')").await;
    trainer.wait_for(places::REPRODUCES).await;

    // What the trainer notes on it comes to whoever drove it.
    let hash = trainer.script("return location.hash;", vec![]).await.unwrap();
    let replay = hash.as_str().unwrap().replace("debrief", "replay") + "/64";
    trainer.go(&replay).await;
    trainer.wait_for("#note-text").await.send_keys("Look left first.").await.unwrap();
    trainer.click("#note-pin").await;
    trainer.wait_until("document.querySelectorAll('.note-list > li').length === 1").await;
    trainer.settle().await;
    let own = "document.querySelector('a[href^=\"#/debrief/\"]')";
    trainee.go("#/progress").await;
    let asked = Instant::now();
    loop {
        // Opened anew each page asks for what others said; the debrief shows it.
        trainee.go("#/class").await;
        trainee.settle().await;
        trainee.go("#/progress").await;
        trainee.wait_until(own).await;
        trainee.script(&format!("{own}.click()"), vec![]).await.unwrap();
        trainee.debrief_opens().await;
        let noted = "document.querySelector('.noted')?.textContent.includes('Look left first.')";
        if trainee.is(noted).await {
            break;
        }
        assert!(asked.elapsed() < Duration::from_secs(60), "the note has not come");
    }
    for yard in [&trainer, &trainee] {
        assert_eq!(yard.console_errors().await, Vec::<String>::new());
    }
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_network_that_is_cut_in_the_middle_loses_nothing() {
    let class = Class::open();
    let trainer = watches(&class).await;
    let trainee = joins(&class, "Hazel").await;
    let network = async |offline: bool| {
        let rate = json!({ "offline": offline, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1 });
        trainee.devtools("Network.emulateNetworkConditions", rate).await;
    };
    trainee.devtools("Network.enable", json!({})).await;
    drives_off(&trainee).await;
    network(true).await;
    ends(&trainee).await;
    trainee.wait_for("#not-sent").await;
    assert!(trainer.is(&format!("{ROWS} === 0")).await, "nothing has arrived");
    network(false).await;
    trainer.wait_until(&format!("{ROWS} === 1")).await;
    trainee.wait_until("!document.querySelector('#not-sent')").await;
    // Opened anew it is not sent anew.
    trainee.open("#/class").await;
    trainee.wait_for("#all-sent").await;
    trainer.wait_until("document.querySelector('#class-runs tr[data-state=judged]')").await;
    assert!(trainer.is(&format!("{ROWS} === 1")).await, "it arrived once");
}
