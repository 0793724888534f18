//! Two thumbs on a phone, held either way: the straight is driven, the horn sounds while both are busy,
//! lifting the one on the tiller brakes, and a thumb that lies still keeps its value.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use std::time::{Duration, Instant};

use coneyard_core::desk::Mode;
use coneyard_core::finding::{Finding, Severity};
use coneyard_core::truck::arm::ArmZone;
use coneyard_tests::browser::mirror::Mirror;
use coneyard_tests::browser::thumbs::{Fingers, Screen, middle};
use coneyard_tests::browser::{Size, Yard, places};
use coneyard_tests::drives::setup;
use coneyard_tests::thumb_hands::{Layout, TILLER, TWIST, ThumbHands};
use serde_json::json;

const STATUS: &str = "JSON.parse(coneyard.status())";

/// Far longer than the drive takes on a slow machine.
const LONGEST_DRIVE: Duration = Duration::from_secs(1200);
/// A still thumb keeps its value for so long.
const STILL: Duration = Duration::from_secs(60);

/// A phone on its side, and the same held upright.
const WIDE: Size = Size { width: 844, height: 390 };
const UPRIGHT: Size = Size { width: 390, height: 844 };

/// Opens a drive on a phone; where its thumbs land.
async fn open(yard: &Yard, screen: &mut Screen, size: Size, course: &str) -> Layout {
    *screen = Screen::of(yard, size).await;
    yard.open("#/path").await;
    Mirror::listen(yard).await;
    yard.go(&format!("#/drive/{course}/single")).await;
    yard.wait_for(places::DRIVING).await;
    yard.wait_until(&format!("{STATUS}.mode === 'drive'")).await;
    Layout {
        tiller: middle(yard, places::TILLER_ZONE).await,
        twist: middle(yard, places::TWIST_ZONE).await,
        forks_down: middle(yard, places::TOUCH_FORKS_DOWN).await,
        stance: middle(yard, places::TOUCH_STANCE).await,
    }
}

/// Nothing that is pressed is small, near the edge, or near to something else that is pressed.
async fn targets_are_large_and_apart(yard: &Yard) {
    let body = "const seen = [...document.querySelectorAll('main button')]
            .map((b) => [b.id || b.textContent, b.getBoundingClientRect()])
            .filter(([, r]) => r.width > 0);
        const wrong = [];
        for (const [name, r] of seen) {
            if (r.width < 48 || r.height < 48) wrong.push(`${name} is small: ${r.width} x ${r.height}`);
            if (r.left < 0 || r.top < 0 || r.right > innerWidth || r.bottom > innerHeight)
                wrong.push(`${name} is not in sight`);
            if (r.top > innerHeight / 3 && (r.left < 24 || innerWidth - r.right < 24
                || innerHeight - r.bottom < 34)) wrong.push(`${name} is near the edge`);
            for (const [other, o] of seen) {
                const apart = Math.max(o.left - r.right, r.left - o.right, o.top - r.bottom,
                    r.top - o.bottom);
                if (other !== name && apart < 7.9) wrong.push(`${name} is ${apart} from ${other}`);
            }
        }
        return wrong;";
    let wrong = yard.script(body, Vec::new()).await.unwrap();
    assert_eq!(wrong, json!([]));
}

async fn holds_both_ways(size: Size) {
    let yard = Yard::start(size, "en").await;
    let mut screen = Screen::default();
    let at = open(&yard, &mut screen, size, "straight").await;
    targets_are_large_and_apart(&yard).await;
    let (tiller, twist) = (at.tiller, at.twist);

    // Both land, and nothing is asked for.
    screen.touch(&yard, &Fingers::from([(TILLER, tiller), (TWIST, twist)])).await;
    // Up: it drives.
    let up = (twist.0, twist.1 - 70.0);
    screen.touch(&yard, &Fingers::from([(TILLER, tiller), (TWIST, up)])).await;
    yard.wait_until(&format!("{STATUS}.truck.speed > 0.4")).await;
    // Inwards: the horn, and it drives on as it did, while the other thumb turns.
    let turning = (tiller.0 - 40.0, tiller.1);
    let inwards = (up.0 - 56.0, up.1);
    screen.touch(&yard, &Fingers::from([(TILLER, turning), (TWIST, inwards)])).await;
    let all = "truck.horn && s.truck.throttle === 75 && s.truck.steer > 0.1";
    yard.wait_until(&format!("(() => {{ const s = {STATUS}; return s.{all}; }})()")).await;
    screen.touch(&yard, &Fingers::from([(TILLER, tiller), (TWIST, up)])).await;
    yard.wait_until(&format!("!{STATUS}.truck.horn && {STATUS}.truck.throttle === 75")).await;
    // Lifting the thumb of the tiller lets the arm spring up, which brakes, whatever the other asks for.
    screen.touch(&yard, &Fingers::from([(TWIST, up)])).await;
    let upper = serde_json::to_value(ArmZone::UpperBrake).unwrap();
    yard.wait_until(&format!("{STATUS}.truck.arm_zone === {upper}")).await;
    yard.wait_until(&format!("{STATUS}.truck.braking && {STATUS}.truck.speed < 0.01")).await;
    // Down it goes, and on.
    screen.touch(&yard, &Fingers::from([(TILLER, tiller), (TWIST, up)])).await;
    yard.wait_until(&format!("{STATUS}.truck.speed > 0.4")).await;
    let down = (tiller.0, tiller.1 + 66.0);
    screen.touch(&yard, &Fingers::from([(TILLER, down), (TWIST, up)])).await;
    let lower = serde_json::to_value(ArmZone::LowerBrake).unwrap();
    yard.wait_until(&format!("{STATUS}.truck.arm_zone === {lower}")).await;
    yard.wait_until(&format!("{STATUS}.truck.braking && {STATUS}.truck.speed < 0.01")).await;
    screen.touch(&yard, &Fingers::new()).await;
    yard.wait_until(&format!("{STATUS}.truck.throttle === 0")).await;

    // Turned round, it is held still.
    yard.resize(Size { width: size.height, height: size.width }).await;
    yard.wait_until(&format!("{STATUS}.paused")).await;
    targets_are_large_and_apart(&yard).await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn two_thumbs_drive_a_phone_on_its_side() {
    holds_both_ways(WIDE).await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn two_thumbs_drive_a_phone_held_upright() {
    holds_both_ways(UPRIGHT).await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn the_throttle_lies_under_the_left_thumb_if_that_is_set() {
    let yard = Yard::start(WIDE, "en").await;
    let mut screen = Screen::of(&yard, WIDE).await;
    yard.open("#/settings").await;
    yard.click(places::SWAP_THUMBS).await;
    yard.go("#/drive/straight/single").await;
    yard.wait_for(places::DRIVING).await;
    yard.wait_until(&format!("{STATUS}.mode === 'drive'")).await;
    targets_are_large_and_apart(&yard).await;
    let [twist, tiller] = [places::TILLER_ZONE, places::TWIST_ZONE].map(|zone| middle(&yard, zone));
    let (twist, tiller) = (twist.await, tiller.await);
    screen.touch(&yard, &Fingers::from([(TILLER, tiller), (TWIST, twist)])).await;
    let up = (twist.0, twist.1 - 70.0);
    screen.touch(&yard, &Fingers::from([(TILLER, tiller), (TWIST, up)])).await;
    yard.wait_until(&format!("{STATUS}.truck.speed > 0.4")).await;
    // Outwards is no horn, inwards is.
    screen.touch(&yard, &Fingers::from([(TILLER, tiller), (TWIST, (up.0 - 56.0, up.1))])).await;
    yard.settle().await;
    yard.wait_until(&format!("!{STATUS}.truck.horn && {STATUS}.truck.throttle === 75")).await;
    screen.touch(&yard, &Fingers::from([(TILLER, tiller), (TWIST, (up.0 + 56.0, up.1))])).await;
    yard.wait_until(&format!("{STATUS}.truck.horn && {STATUS}.truck.throttle === 75")).await;
    screen.touch(&yard, &Fingers::from([(TWIST, up)])).await;
    yard.wait_until(&format!("{STATUS}.truck.braking && {STATUS}.truck.speed < 0.01")).await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn thumbs_that_lie_still_keep_their_values() {
    let yard = Yard::start(WIDE, "en").await;
    let mut screen = Screen::default();
    let Layout { tiller, twist, .. } = open(&yard, &mut screen, WIDE, "straight").await;
    // The key is off, so that nothing drives away meanwhile.
    yard.open_more().await;
    yard.click("#key").await;
    yard.click(places::MORE).await;
    screen.touch(&yard, &Fingers::from([(TILLER, tiller), (TWIST, twist)])).await;
    let (right, down) = ((tiller.0 + 60.0, tiller.1), (twist.0, twist.1 + 50.0));
    screen.touch(&yard, &Fingers::from([(TILLER, right), (TWIST, down)])).await;
    yard.wait_until(&format!("{STATUS}.truck.throttle === -50 && {STATUS}.truck.steer < -0.5"))
        .await;
    let steer = yard.script(&format!("return {STATUS}.truck.steer;"), Vec::new()).await.unwrap();
    let begun = Instant::now();
    while begun.elapsed() < STILL {
        let now = format!("return {STATUS}.truck;");
        let now = yard.script(&now, Vec::new()).await.unwrap();
        assert_eq!(now["throttle"], -50, "after {:?}", begun.elapsed());
        assert_eq!(now["arm_zone"], serde_json::to_value(ArmZone::Driving).unwrap());
        tokio::time::sleep(Duration::from_millis(500)).await;
    }
    let after = yard.script(&format!("return {STATUS}.truck.steer;"), Vec::new()).await.unwrap();
    assert!((after.as_f64().unwrap() - steer.as_f64().unwrap()).abs() < 0.2, "{steer} {after}");
}

/// A whole course by the model rider's two thumbs, at half of real time; the faults that were found. How late
/// a thumb is goes by how busy the machine is.
async fn is_driven(size: Size, course: &'static str) -> Vec<Finding> {
    let yard = Yard::start(size, "en").await;
    let mut screen = Screen::default();
    let layout = open(&yard, &mut screen, size, course).await;
    targets_are_large_and_apart(&yard).await;
    yard.halve_pace().await;
    let setup = setup(course, "single", 1);
    let mut mirror = Mirror::new(&setup);
    let mut hands = ThumbHands::new(&setup, layout, 7);
    hands.see(mirror.moment());
    let begun = Instant::now();
    loop {
        let status = mirror.catch_up_seeing(&yard, |moment| hands.see(moment)).await;
        if status.mode != Mode::Drive || status.ending.is_some() {
            break;
        }
        assert!(begun.elapsed() < LONGEST_DRIVE, "still driving: {status:?}");
        let fingers = hands.fingers(mirror.moment());
        screen.touch(&yard, &fingers).await;
    }
    screen.touch(&yard, &Fingers::new()).await;
    mirror.catch_up(&yard).await;
    assert!(mirror.moment().task.done, "{:?}", mirror.moment().task);
    let faults = mirror.findings().iter().filter(|f| f.severity != Severity::Good);
    let faults: Vec<Finding> = faults.cloned().collect();
    yard.debrief_opens().await;
    yard.wait_for(places::REPRODUCES).await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
    faults
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn the_straight_is_driven_with_two_thumbs() {
    is_driven(WIDE, "straight").await;
}

/// Every course by thumbs on every size takes 40 minutes: it is driven when that is asked for, by
/// `CONEYARD_WHOLE_TOUCH=1`, or some of it by a part of what it is called.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn all_sizes_drive_all_of_it_clean() {
    let Ok(asked) = std::env::var("CONEYARD_WHOLE_TOUCH") else { return };
    let tablet = Size { width: 1180, height: 820 };
    let upright = Size { width: 820, height: 1180 };
    let mut faulty = Vec::new();
    let mut driven = 0;
    for size in [WIDE, UPRIGHT, tablet, upright] {
        for course in ["straight", "emergency-stops", "figure-eight"] {
            let what = format!("{course} at {} x {}", size.width, size.height);
            if asked != "1" && !what.contains(&asked) {
                continue;
            }
            driven += 1;
            let begun = Instant::now();
            let faults = is_driven(size, course).await;
            let codes: Vec<&str> = faults.iter().map(|f| f.code.as_str()).collect();
            eprintln!("{what}: {codes:?}, {:?}", begun.elapsed());
            if !faults.is_empty() {
                faulty.push(format!("{what}: {faults:#?}"));
            }
        }
    }
    assert!(driven > 0, "nothing is called {asked}");
    assert!(faulty.is_empty(), "{}", faulty.join("\n"));
}

/// Whoever has one finger steps what others slide, and brakes by holding a button.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn one_finger_is_enough() {
    let yard = Yard::start(UPRIGHT, "en").await;
    let mut screen = Screen::default();
    open(&yard, &mut screen, UPRIGHT, "slalom").await;
    yard.open_more().await;
    yard.click(places::ONE_FINGER).await;
    yard.click(places::MORE).await;
    let ahead = middle(&yard, places::STEP_AHEAD).await;
    let right = middle(&yard, places::STEP_RIGHT).await;
    let let_go = middle(&yard, places::TOUCH_LET_GO).await;
    targets_are_large_and_apart(&yard).await;
    for place in [ahead, ahead, right] {
        screen.touch(&yard, &Fingers::from([(TWIST, place)])).await;
        screen.touch(&yard, &Fingers::new()).await;
    }
    yard.wait_until(&format!("{STATUS}.truck.throttle === 50 && {STATUS}.truck.steer < -0.2"))
        .await;
    yard.wait_until(&format!("{STATUS}.truck.speed > 0.4")).await;
    screen.touch(&yard, &Fingers::from([(TWIST, let_go)])).await;
    yard.wait_until(&format!("{STATUS}.truck.braking && {STATUS}.truck.speed < 0.01")).await;
    screen.touch(&yard, &Fingers::new()).await;
    yard.wait_until(&format!("!{STATUS}.truck.braking")).await;
    assert!(
        yard.is(&format!("{STATUS}.truck.throttle === 0")).await,
        "in neutral it is taken again"
    );
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}
