//! The walk-round in a real browser: a morning by keys alone with a truck that must not run and with a sound one,
//! and practice by touch on a phone. Whoever inspects here knows the list, and judges by nothing but what the
//! page says is seen.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use std::collections::BTreeSet;

use coneyard_core::checks::draw::{Drawn, Found, Mode};
use coneyard_core::checks::list::{CheckList, Defect, Point};
use coneyard_core::controls::thumbs::HORN_PX;
use coneyard_core::finding::Severity;
use coneyard_tests::browser::keyboard::{Keyboard, enter, tab_to, tap};
use coneyard_tests::browser::mirror::Mirror;
use coneyard_tests::browser::thumbs::{Fingers, Screen, middle};
use coneyard_tests::browser::{Size, Yard, places};
use coneyard_tests::drives::setup;
use coneyard_tests::key_rider::Held;
use coneyard_tests::thumb_hands::{TILLER, TWIST};
use fantoccini::key::Key;
use serde_json::json;

const STATUS: &str = "JSON.parse(coneyard.status())";

/// A screen as offices have them, and a phone held upright.
const OFFICE: Size = Size { width: 1366, height: 768 };
const UPRIGHT: Size = Size { width: 390, height: 844 };

/// Forks at this height may travel, m.
const TRAVEL_HEIGHT: f64 = 0.05;

/// The first truck of which this is true.
fn seed(mode: Mode, is_it: impl Fn(&CheckList, &Drawn) -> bool) -> u32 {
    let list = CheckList::shipped();
    let drawn = |seed: &u32| Drawn::new(&list, mode, "single", u64::from(*seed));
    (0..100_000).find(|seed| is_it(&list, &drawn(seed))).unwrap()
}

fn of(list: &CheckList, (point, defect): (usize, usize)) -> (&Point, &Defect) {
    (&list.points[point], &list.points[point].defects[defect])
}

/// One thing is the matter with it: it is found by trying, and it must not run.
fn is_bad_when_tried(list: &CheckList, drawn: &Drawn) -> bool {
    let [only] = drawn.has.as_slice() else { return false };
    let (point, defect) = of(list, *only);
    Found::of(point, defect) == Found::ByTrying && !list.grades[defect.grade].may_run
}

/// Opens a drive with this seed: the page throws its dice as the test has them fall.
async fn open(yard: &Yard, course: &str, seed: u32) -> Mirror {
    yard.open("#/settings").await;
    yard.wait_for(places::SWITCH).await;
    Mirror::listen(yard).await;
    let share = (f64::from(seed) + 0.5) / f64::from(u32::MAX);
    yard.script("Math.random = () => args[0];", vec![json!(share)]).await.unwrap();
    yard.go(&format!("#/drive/{course}/single")).await;
    yard.wait_for(places::WALK).await;
    Mirror::new(&setup(course, "single", seed))
}

/// A text of the page; empty where there is none.
async fn text(yard: &Yard, css: &str) -> String {
    let body = "return document.querySelector(args[0])?.textContent ?? '';";
    let text = yard.script(body, vec![json!(css)]).await.unwrap();
    text.as_str().unwrap().to_owned()
}

/// What to answer to what is seen; None while nothing is told of this point.
fn answer(list: &CheckList, name: &str, told: &str) -> Option<(usize, u8)> {
    let p = list.points.iter().position(|p| p.name["en"] == name)?;
    let point = &list.points[p];
    if told == point.sound["en"] {
        return Some((p, 0));
    }
    let defect = point.defects.iter().find(|d| d.seen["en"] == told)?;
    Some((p, defect.grade as u8 + 1))
}

/// What the page tells of what was just looked at or tried, and the answer to it; None for what is on no list.
async fn shown(yard: &Yard, list: &CheckList) -> Option<(usize, u8)> {
    let shown = format!(
        "document.querySelector({:?})?.textContent || document.querySelector({:?})",
        places::WALK_TOLD,
        places::WALK_BOX
    );
    yard.wait_until(&shown).await;
    if yard.has(places::WALK_BOX).await {
        return None;
    }
    let (name, told) = (text(yard, places::WALK_NAME).await, text(yard, places::WALK_TOLD).await);
    let (point, code) = answer(list, &name, &told)
        .unwrap_or_else(|| panic!("the list does not say what this is: {name}: {told}"));
    Some((point, code))
}

/// Looks at what has the focus, or tries it, and answers; None for what is on no list.
async fn look_and_answer(
    yard: &Yard,
    list: &CheckList,
    bad: &mut BTreeSet<usize>,
) -> Option<usize> {
    enter(yard).await;
    let (point, code) = shown(yard, list).await?;
    if code > 0 {
        bad.insert(point);
    }
    if code > 0 || !bad.contains(&point) {
        tap(yard, char::from(b'1' + code)).await;
        let pressed = format!("document.querySelector('#walk-answer-{code}[aria-pressed=true]')");
        yard.wait_until(&pressed).await;
    }
    // A glance does not count: it is looked at until the page no longer says that.
    yard.wait_until(&format!("!document.querySelector({:?})", places::WALK_UNSEEN)).await;
    Some(point)
}

/// Goes round by the arrows alone, over every place once; the points at which something was the matter.
async fn go_round(yard: &Yard, list: &CheckList) -> BTreeSet<usize> {
    let mut bad = BTreeSet::new();
    let places_of_all: usize = list.points.iter().map(|p| p.places.len()).sum();
    for _ in 0..=places_of_all {
        yard.wait_until("document.activeElement.matches('.spot')").await;
        let point = look_and_answer(yard, list, &mut bad).await;
        let meter = point.is_some_and(|p| list.points[p].id == "hour-meter");
        if meter {
            read_hours(yard).await;
        }
        tap(yard, char::from(Key::Right)).await;
    }
    bad
}

/// Reads the hours in the window and writes them down.
async fn read_hours(yard: &Yard) {
    let hours = text(yard, ".walk-closer text").await;
    tab_to(yard, places::WALK_HOURS).await;
    for letter in hours.chars() {
        tap(yard, letter).await;
    }
    tap(yard, char::from(Key::Tab)).await;
    let read = format!("{STATUS}.walk.hours_read === {STATUS}.walk.hours");
    yard.wait_until(&read).await;
}

/// Decides by keys, and says yes when asked.
async fn decide(yard: &Yard, button: &str) {
    tab_to(yard, button).await;
    enter(yard).await;
    yard.wait_for(places::WALK_SURE).await;
    tab_to(yard, places::WALK_SURE).await;
    enter(yard).await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_truck_that_must_not_run_is_found_and_tagged_out_by_keys_alone() {
    let list = CheckList::shipped();
    let yard = Yard::start(OFFICE, "en").await;
    let seed = seed(Mode::Daily, is_bad_when_tried);
    let mut mirror = open(&yard, "morning", seed).await;

    let bad = go_round(&yard, &list).await;
    assert_eq!(bad.len(), 1, "{bad:?}");
    // After one find the way leads back to what is left; here nothing is.
    assert!(yard.has(places::WALK_LEFT).await);
    assert!(!yard.has(places::WALK_TO_OPEN).await);
    decide(&yard, places::WALK_TAG_OUT).await;

    yard.debrief_opens().await;
    yard.wait_for(places::REPRODUCES).await;
    mirror.catch_up(&yard).await;
    let found: Vec<(&str, Severity)> =
        mirror.findings().iter().map(|f| (f.code.as_str(), f.severity)).collect();
    assert!(found.iter().all(|(_, severity)| *severity == Severity::Good), "{found:?}");
    assert!(found.iter().any(|(code, _)| *code == "bad-truck-refused"), "{found:?}");
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_sound_truck_is_taken_and_driven_off_by_keys_alone() {
    let list = CheckList::shipped();
    let yard = Yard::start(OFFICE, "en").await;
    let seed = seed(Mode::Daily, |_, drawn| drawn.has.is_empty());
    let mut mirror = open(&yard, "morning", seed).await;
    assert_eq!(go_round(&yard, &list).await, BTreeSet::new());
    decide(&yard, places::WALK_TAKE).await;

    // On foot beside a truck that is off, and the keys are the truck's again.
    yard.wait_until(&format!("!document.querySelector({:?})", places::WALK)).await;
    yard.wait_until("document.activeElement.id === 'yard'").await;
    assert!(yard.is(&format!("!{STATUS}.truck.aboard && !{STATUS}.truck.key_on")).await);
    tap(&yard, 'g').await;
    yard.wait_until(&format!("{STATUS}.truck.aboard")).await;
    tap(&yard, 'o').await;
    yard.wait_until(&format!("{STATUS}.truck.key_on")).await;
    let on = mirror.catch_up(&yard).await.tick;
    yard.wait_until(&format!("{STATUS}.tick > {on} + 192")).await;
    let mut keyboard = Keyboard::default();
    keyboard.hold(&yard, &Held::from(['r'])).await;
    yard.wait_until(&format!("{STATUS}.truck.forks > {TRAVEL_HEIGHT}")).await;
    keyboard.hold(&yard, &Held::from(['h'])).await;
    yard.wait_until(&format!("{STATUS}.truck.horn")).await;
    keyboard.hold(&yard, &Held::from(['w', '2'])).await;
    let from = mirror.moment().truck.pose.at.x;
    while mirror.moment().truck.pose.at.x < from + 3.0 {
        mirror.catch_up(&yard).await;
    }
    keyboard.hold(&yard, &Held::from([' '])).await;
    yard.wait_until(&format!("{STATUS}.truck.speed < 0.01")).await;
    keyboard.hold(&yard, &Held::new()).await;
    mirror.catch_up(&yard).await;
    let faults: Vec<&str> = mirror
        .findings()
        .iter()
        .filter(|f| f.point.is_some() && f.severity != Severity::Good)
        .map(|f| f.code.as_str())
        .collect();
    assert_eq!(faults, [""; 0], "nothing was the matter, and nothing was left out");

    yard.ask_to_leave().await;
    yard.click(places::LEAVE_TO_DEBRIEF).await;
    yard.debrief_opens().await;
    yard.wait_for(places::REPRODUCES).await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

/// Taps with a finger.
async fn touch(yard: &Yard, screen: &mut Screen, css: &str) {
    let into_sight = "document.querySelector(args[0]).scrollIntoView({ block: 'center' });";
    yard.wait_for(css).await;
    yard.script(into_sight, vec![json!(css)]).await.unwrap();
    yard.settle().await;
    let at = middle(yard, css).await;
    screen.touch(yard, &Fingers::from([(1, at)])).await;
    screen.touch(yard, &Fingers::new()).await;
}

/// All that is pressed can be hit, and nothing is wider than the screen.
async fn fits_a_thumb(yard: &Yard) {
    let body = "const wrong = [];
        for (const b of document.querySelectorAll('.walk-over :is(button, select, input)')) {
            const r = b.getBoundingClientRect();
            if (r.width === 0 || b.closest('dialog')) continue;
            const least = b.matches('.spot') ? 24 : 36;
            if (r.width < least || r.height < least)
                wrong.push(`${b.id || b.textContent} is small: ${r.width} x ${r.height}`);
            if (r.left < 0 || r.right > innerWidth) wrong.push(`${b.id} is cut off`);
        }
        const over = document.querySelector('.walk-over');
        if (over.scrollWidth > over.clientWidth) wrong.push('it is scrolled sideways');
        return wrong;";
    assert_eq!(yard.script(body, Vec::new()).await.unwrap(), json!([]));
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn practice_works_by_touch_on_a_phone() {
    let list = CheckList::shipped();
    let yard = Yard::start(UPRIGHT, "en").await;
    let mut screen = Screen::of(&yard, UPRIGHT).await;
    let seed = seed(Mode::Practice, is_bad_when_tried);
    let drawn = Drawn::new(&list, Mode::Practice, "single", u64::from(seed));
    let (point, defect) = of(&list, drawn.has[0]);
    let mut mirror = open(&yard, "walk-round", seed).await;
    fits_a_thumb(&yard).await;

    // Round the truck to where that point lies; it is tried, and told as it is.
    let name = &point.name["en"];
    turn_to(&yard, &mut screen, &format!("document.querySelector('.spot[title={name:?}]')")).await;
    touch(&yard, &mut screen, &format!(".spot[title={name:?}]")).await;
    let told = format!("document.querySelector({:?})?.textContent", places::WALK_TOLD);
    yard.wait_until(&format!("{told} === {:?}", defect.seen["en"])).await;
    fits_a_thumb(&yard).await;
    let code = defect.grade + 1;
    touch(&yard, &mut screen, &format!("#walk-answer-{code}")).await;
    yard.wait_until(&format!("document.querySelector('#walk-answer-{code}[aria-pressed=true]')"))
        .await;
    yard.wait_until(&format!("!document.querySelector({:?})", places::WALK_UNSEEN)).await;
    let reason = yard.wait_for(places::WALK_REASON).await;
    reason.select_by_value(&defect.reasons[0].to_string()).await.unwrap();
    fits_a_thumb(&yard).await;
    // One find leads back to the rest.
    touch(&yard, &mut screen, places::WALK_TO_OPEN).await;
    yard.wait_for(places::WALK_LOOK).await;

    touch(&yard, &mut screen, places::WALK_TAG_OUT).await;
    touch(&yard, &mut screen, places::WALK_SURE).await;
    yard.debrief_opens().await;
    yard.wait_for(places::REPRODUCES).await;
    mirror.catch_up(&yard).await;
    let codes: Vec<&str> = mirror.findings().iter().map(|f| f.code.as_str()).collect();
    assert!(codes.contains(&"defect-found"), "{codes:?}");
    assert!(codes.contains(&"bad-truck-refused"), "{codes:?}");
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

/// Turns from view to view by the arrow beside the picture until this is there; the views are nine.
async fn turn_to(yard: &Yard, screen: &mut Screen, there: &str) {
    for _ in 0..9 {
        if yard.is(there).await {
            return;
        }
        touch(yard, screen, ".way[aria-current] + .way").await;
        yard.settle().await;
    }
    assert!(yard.is(there).await, "no view has it: {there}");
}

/// Touches every place of every view once, and answers by what is told; the points at which something was
/// the matter.
async fn go_round_by_touch(yard: &Yard, screen: &mut Screen, list: &CheckList) -> BTreeSet<usize> {
    let mut bad = BTreeSet::new();
    let views = "return document.querySelectorAll('.way:not(.paper)').length;";
    let views = yard.script(views, Vec::new()).await.unwrap().as_u64().unwrap();
    for view in 1..=views {
        let way = format!(".way:nth-of-type({view})");
        touch(yard, screen, &way).await;
        yard.wait_until(&format!("document.querySelector('{way}[aria-current]')")).await;
        let spots = "return [...document.querySelectorAll('.spot')].map((s) => s.title);";
        let spots = yard.script(spots, Vec::new()).await.unwrap();
        for name in spots.as_array().unwrap() {
            // From what is looked at closer the way leads back to the truck first.
            touch(yard, screen, &way).await;
            touch(yard, screen, &format!(".spot[title={name}]")).await;
            if let Some(point) = answer_by_touch(yard, screen, list, &mut bad).await
                && list.points[point].id == "hour-meter"
            {
                let hours = text(yard, ".walk-closer text").await;
                yard.wait_for(places::WALK_HOURS).await.send_keys(&hours).await.unwrap();
                // A finger elsewhere takes the focus from the field.
                touch(yard, screen, "#walk-answer-0").await;
                let read = format!("{STATUS}.walk.hours_read === {STATUS}.walk.hours");
                yard.wait_until(&read).await;
            }
        }
    }
    bad
}

/// Answers for what was just touched, by what the page tells of it; None for what is on no list.
async fn answer_by_touch(
    yard: &Yard,
    screen: &mut Screen,
    list: &CheckList,
    bad: &mut BTreeSet<usize>,
) -> Option<usize> {
    let (point, code) = shown(yard, list).await?;
    if code > 0 {
        bad.insert(point);
    }
    if code > 0 || !bad.contains(&point) {
        touch(yard, screen, &format!("#walk-answer-{code}")).await;
        let pressed = format!("document.querySelector('#walk-answer-{code}[aria-pressed=true]')");
        yard.wait_until(&pressed).await;
    }
    yard.wait_until(&format!("!document.querySelector({:?})", places::WALK_UNSEEN)).await;
    Some(point)
}

/// Presses something behind the one button.
async fn press_behind(yard: &Yard, screen: &mut Screen, css: &str) {
    touch(yard, screen, places::MORE).await;
    touch(yard, screen, css).await;
    touch(yard, screen, places::MORE).await;
}

/// Holds a button down until this is so.
async fn hold_until(yard: &Yard, screen: &mut Screen, css: &str, so: &str) {
    let at = middle(yard, css).await;
    screen.touch(yard, &Fingers::from([(TWIST, at)])).await;
    yard.wait_until(so).await;
    screen.touch(yard, &Fingers::new()).await;
}

/// A truck that must not run is tagged out; the next one is sound, is taken, driven off and left.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_whole_morning_works_by_touch_on_a_phone() {
    let list = CheckList::shipped();
    let yard = Yard::start(UPRIGHT, "en").await;
    let mut screen = Screen::of(&yard, UPRIGHT).await;
    let first = seed(Mode::Daily, is_bad_when_tried);
    let drawn = Drawn::new(&list, Mode::Daily, "single", u64::from(first));
    let (point, defect) = of(&list, drawn.has[0]);
    open(&yard, "morning", first).await;
    let name = &point.name["en"];
    turn_to(&yard, &mut screen, &format!("document.querySelector('.spot[title={name:?}]')")).await;
    touch(&yard, &mut screen, &format!(".spot[title={name:?}]")).await;
    let told = format!("document.querySelector({:?})?.textContent", places::WALK_TOLD);
    yard.wait_until(&format!("{told} === {:?}", defect.seen["en"])).await;
    let mut bad = BTreeSet::new();
    answer_by_touch(&yard, &mut screen, &list, &mut bad).await;
    assert_eq!(bad.len(), 1);
    touch(&yard, &mut screen, places::WALK_TAG_OUT).await;
    touch(&yard, &mut screen, places::WALK_SURE).await;
    yard.debrief_opens().await;
    yard.wait_for(places::REPRODUCES).await;

    let second = seed(Mode::Daily, |_, drawn| drawn.has.is_empty());
    let mut mirror = open(&yard, "morning", second).await;
    assert_eq!(go_round_by_touch(&yard, &mut screen, &list).await, BTreeSet::new());
    touch(&yard, &mut screen, places::WALK_TAKE).await;
    touch(&yard, &mut screen, places::WALK_SURE).await;
    yard.wait_until(&format!("!document.querySelector({:?})", places::WALK)).await;

    press_behind(&yard, &mut screen, "#step-off").await;
    yard.wait_until(&format!("{STATUS}.truck.aboard")).await;
    press_behind(&yard, &mut screen, "#key").await;
    yard.wait_until(&format!("{STATUS}.truck.key_on")).await;
    let on = mirror.catch_up(&yard).await.tick;
    yard.wait_until(&format!("{STATUS}.tick > {on} + 192")).await;
    let up = format!("{STATUS}.truck.forks > {TRAVEL_HEIGHT}");
    hold_until(&yard, &mut screen, places::TOUCH_FORKS_UP, &up).await;
    let (tiller, twist) =
        (middle(&yard, places::TILLER_ZONE).await, middle(&yard, places::TWIST_ZONE).await);
    let thumbs = |twist| Fingers::from([(TILLER, tiller), (TWIST, twist)]);
    screen.touch(&yard, &thumbs(twist)).await;
    screen.touch(&yard, &thumbs((twist.0 - HORN_PX - 8.0, twist.1))).await;
    yard.wait_until(&format!("{STATUS}.truck.horn")).await;
    let from = mirror.moment().truck.pose.at.x;
    screen.touch(&yard, &thumbs((twist.0, twist.1 - 45.0))).await;
    while mirror.moment().truck.pose.at.x < from + 2.0 {
        mirror.catch_up(&yard).await;
    }
    // Asking for the other direction stops it.
    screen.touch(&yard, &thumbs((twist.0, twist.1 + 45.0))).await;
    yard.wait_until(&format!("{STATUS}.truck.speed < 0.15")).await;
    screen.touch(&yard, &thumbs(twist)).await;
    yard.wait_until(&format!("Math.abs({STATUS}.truck.speed) < 0.01")).await;
    screen.touch(&yard, &Fingers::new()).await;
    let down = format!("{STATUS}.truck.forks < 0.002");
    hold_until(&yard, &mut screen, places::TOUCH_FORKS_DOWN, &down).await;
    press_behind(&yard, &mut screen, "#key").await;
    yard.wait_until(&format!("!{STATUS}.truck.key_on")).await;
    press_behind(&yard, &mut screen, "#step-off").await;
    yard.wait_until(&format!("!{STATUS}.truck.aboard")).await;
    mirror.catch_up(&yard).await;
    let grave: Vec<&str> = mirror
        .findings()
        .iter()
        .filter(|f| f.severity == Severity::Critical || f.point.is_some())
        .filter(|f| f.severity != Severity::Good)
        .map(|f| f.code.as_str())
        .collect();
    assert_eq!(grave, [""; 0], "nothing was the matter, and nothing was left out");
    touch(&yard, &mut screen, places::MORE).await;
    touch(&yard, &mut screen, places::LEAVE).await;
    touch(&yard, &mut screen, places::LEAVE_TO_DEBRIEF).await;
    yard.debrief_opens().await;
    yard.wait_for(places::REPRODUCES).await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

/// What was looked at, answered and written before the tab was closed is there when it goes on.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_walk_round_that_was_cut_off_goes_on_where_it_was() {
    let list = CheckList::shipped();
    let yard = Yard::start(OFFICE, "en").await;
    open(&yard, "morning", 1).await;
    yard.wait_until("document.activeElement.matches('.spot')").await;
    let mut bad = BTreeSet::new();
    look_and_answer(&yard, &list, &mut bad).await;
    let name = text(&yard, places::WALK_NAME).await;
    tap(&yard, '3').await;
    yard.wait_for(places::WALK_REASON).await;
    tab_to(&yard, places::WALK_NOTE).await;
    for letter in "at the edge".chars() {
        tap(&yard, letter).await;
    }
    tap(&yard, char::from(Key::Escape)).await;
    yard.wait_until("!document.activeElement.matches('input')").await;
    yard.wait_until(&format!("{STATUS}.walk.said.some((code) => code === 2)")).await;

    // A pause holds all of it still: keys do nothing until it goes on.
    tap(&yard, 'p').await;
    yard.wait_until(&format!("{STATUS}.paused")).await;
    assert!(yard.is("document.querySelector('.walk-over').inert").await);
    yard.ask_to_leave().await;
    yard.click(places::LEAVE_FOR_LATER).await;
    yard.wait_until("location.hash === '#/path'").await;
    yard.click(places::GO_ON).await;
    yard.wait_for(places::WALK).await;
    yard.wait_until(&format!("{STATUS}.walk.said.some((code) => code === 2)")).await;
    tap(&yard, 'p').await;
    yard.wait_until(&format!("!{STATUS}.paused")).await;
    assert_eq!(text(&yard, places::WALK_NAME).await, name);
    let note = format!("document.querySelector({:?})?.value === 'at the edge'", places::WALK_NOTE);
    yard.wait_until(&note).await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}
