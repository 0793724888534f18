//! A trainer's whole hour with one class, by keys on a projector and by touch on a tablet: the lesson, drives that arrive,
//! the worst of them, a note with an arrow, every moment of one kind, a rule changed and judged again, an evaluation at
//! the truck, the record on paper, and the class taken to another computer. Pictures of every station stay in `screens/`.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use std::fs;

use coneyard_tests::browser::delivered::delivered;
use coneyard_tests::browser::keyboard::{enter, tab_to, tap};
use coneyard_tests::browser::paper::page_sizes;
use coneyard_tests::browser::thumbs::{Fingers, Screen, middle};
use coneyard_tests::browser::{Class, Size, Yard, places, target_folder};
use coneyard_tests::drives::ridden;
use fantoccini::key::Key;
use serde_json::json;

/// What the trainer works with.
enum Hand {
    Keys,
    Touch(Screen),
}

/// A trainer at a screen.
struct Trainer {
    yard: Yard,
    hand: Hand,
    /// Names of the pictures begin with it.
    name: &'static str,
}

impl Trainer {
    /// Presses what is there.
    async fn press(&mut self, css: &str) {
        let yard = &self.yard;
        yard.wait_for(css).await;
        match &mut self.hand {
            Hand::Keys => {
                tab_to(yard, css).await;
                enter(yard).await;
            }
            Hand::Touch(screen) => {
                let show = "document.querySelector(args[0]).scrollIntoView({ block: 'center' });";
                yard.script(show, vec![json!(css)]).await.unwrap();
                yard.settle().await;
                let at = middle(yard, css).await;
                screen.touch(yard, &Fingers::from([(0, at)])).await;
                screen.touch(yard, &Fingers::new()).await;
            }
        }
    }

    /// Checks a box or chooses one of several, by what is pressed for it.
    async fn choose(&mut self, css: &str) {
        let yard = &self.yard;
        match self.hand {
            Hand::Keys => {
                yard.wait_for(css).await;
                yard.script("document.querySelector(args[0]).focus();", vec![json!(css)])
                    .await
                    .unwrap();
                tap(yard, ' ').await;
            }
            Hand::Touch(_) => self.press(css).await,
        }
    }

    /// Says of the thing of this number on the sheet that it was done well.
    async fn ticks(&mut self, n: u64) {
        let name = "document.querySelectorAll('.seen-list li')[args[0]].querySelector('input').id = args[1];";
        let id = format!("seen-{n}");
        self.yard.script(name, vec![json!(n), json!(id)]).await.unwrap();
        self.choose(&format!("#{id}")).await;
        // What is drawn anew has lost its name: nothing that was filled in may be.
        self.yard.wait_until(&format!("document.getElementById('{id}').checked")).await;
    }

    /// Writes into a field in place of what stands there, and leaves it.
    async fn types(&mut self, css: &str, words: &str) {
        self.yard.wait_for(css).await;
        match self.hand {
            Hand::Keys => tab_to(&self.yard, css).await,
            Hand::Touch(_) => self.press(css).await,
        }
        let yard = &self.yard;
        yard.wait_until(&format!("document.activeElement?.matches({css:?})")).await;
        yard.script("document.activeElement.select?.();", vec![]).await.unwrap();
        for key in words.chars() {
            tap(yard, key).await;
        }
        tap(yard, char::from(Key::Tab)).await;
    }

    /// Keeps a picture of where it is.
    async fn look(&self, station: &str) {
        self.yard.settle().await;
        let folder = target_folder().join("screens");
        fs::create_dir_all(&folder).unwrap();
        let picture = self.yard.client.screenshot().await.unwrap();
        fs::write(folder.join(format!("hour-{}-{station}.png", self.name)), picture).unwrap();
    }

    async fn text(&self, css: &str) -> String {
        self.yard.wait_for(css).await.text().await.unwrap()
    }

    async fn count(&self, css: &str) -> u64 {
        let body = "return document.querySelectorAll(args[0]).length;";
        self.yard.script(body, vec![json!(css)]).await.unwrap().as_u64().unwrap()
    }

    /// Chooses a day, as a person's choice comes to the page.
    async fn on(&self, id: &str, day: &str) {
        let body = "const f = document.querySelector(args[0]); f.value = args[1];
            f.dispatchEvent(new Event('input'));";
        self.yard.wait_for(id).await;
        self.yard.script(body, vec![json!(id), json!(day)]).await.unwrap();
    }

    async fn enters(&mut self, class: &Class) {
        self.yard.open("#/class").await;
        self.types("#passphrase", &class.passphrase).await;
        self.press("#enter-class").await;
        self.yard.wait_for("#live-title").await;
    }
}

/// Teaches from the projector: on by the remote's key or by the button, and ticks what was covered.
async fn teaches(trainer: &mut Trainer) {
    trainer.yard.open("#/lesson").await;
    trainer.press(places::LESSON_BEGIN).await;
    trainer.yard.wait_for(places::LESSON_TOPIC).await;
    let first = trainer.yard.script("return location.hash;", vec![]).await.unwrap();
    match trainer.hand {
        Hand::Keys => tap(&trainer.yard, char::from(Key::PageDown)).await,
        Hand::Touch(_) => trainer.press("#lesson-on").await,
    }
    trainer.yard.wait_until(&format!("location.hash !== {first}")).await;
    trainer.yard.wait_for(places::LESSON_SHOWN).await;
    trainer.press(places::LESSON_COVERED).await;
    trainer.yard.wait_for("#covered[aria-pressed=true]").await;
    trainer.look("1-lesson").await;
}

/// Drives arrive while the page is open, and are driven again.
async fn watches(trainer: &mut Trainer, class: &Class) {
    trainer.enters(class).await;
    let across = |seed| ridden("figure-eight", "single", "step-across-moving", seed);
    let runs = [across(3), across(4), ridden("straight", "single", "model", 5)];
    delivered(class, "Rowan", &runs).await;
    delivered(class, "Hazel", &[ridden("straight", "single", "run-back", 3)]).await;
    let judged = "document.querySelectorAll('#class-runs tr[data-state=judged]').length === 4";
    trainer.yard.wait_until(judged).await;
    trainer.yard.wait_for("#missed li").await;
    assert_eq!(trainer.count("#board tbody tr").await, 2);
    trainer.look("2-class").await;
}

/// The drive with the most faults is opened, looked at, and noted on with an arrow.
async fn points(trainer: &mut Trainer) {
    let worst = "const rows = [...document.querySelectorAll('#class-runs tbody tr')];
        const faults = (row) => Number(row.children[5].textContent);
        rows.sort((a, b) => faults(b) - faults(a))[0].querySelector('a').id = 'worst';";
    trainer.yard.script(worst, vec![]).await.unwrap();
    trainer.press("#worst").await;
    trainer.yard.wait_until("location.hash.startsWith('#/debrief/')").await;
    trainer.yard.wait_for(places::REPRODUCES).await;
    trainer.look("3-debrief").await;
    trainer.press(places::TO_REPLAY).await;
    trainer.yard.wait_for(places::PLAY).await;
    trainer.press("section.jumps button").await;
    trainer.press("#draw-arrow").await;
    trainer.yard.wait_for(".draw-pad").await;
    match &mut trainer.hand {
        Hand::Keys => {
            trainer.yard.wait_until("document.activeElement?.matches('.draw-pad')").await;
            for _ in 0..6 {
                tap(&trainer.yard, char::from(Key::Right)).await;
            }
            enter(&trainer.yard).await;
        }
        Hand::Touch(screen) => {
            let pad = "document.querySelector('.draw-pad').scrollIntoView({ block: 'center' });
                const box = document.querySelector('.draw-pad').getBoundingClientRect();
                return [box.left + 0.3 * box.width, box.top + 0.7 * box.height,
                        box.left + 0.6 * box.width, box.top + 0.4 * box.height];";
            let at = trainer.yard.script(pad, vec![]).await.unwrap();
            let at = |n: usize| at[n].as_f64().unwrap();
            for share in [0.0, 0.5, 1.0] {
                let x = at(0) + share * (at(2) - at(0));
                let y = at(1) + share * (at(3) - at(1));
                screen.touch(&trainer.yard, &Fingers::from([(0, (x, y))])).await;
            }
            screen.touch(&trainer.yard, &Fingers::new()).await;
        }
    }
    trainer.yard.wait_for(".yard-marks .drawn").await;
    trainer.types("#note-text", "Both feet inside first.").await;
    trainer.press("#note-pin").await;
    trainer
        .yard
        .wait_until("document.querySelector('.note-list .letter')?.textContent === 'A'")
        .await;
    trainer.look("4-replay").await;
}

/// Every moment of one kind of the class: fetched, and played one after another.
async fn plays(trainer: &mut Trainer) {
    trainer.yard.go("#/class").await;
    let across = "#missed .play-all[href='#/moments/stepped-across-moving']";
    trainer.press(across).await;
    trainer.yard.wait_for("#bring-told").await;
    let lacks = trainer.count("#bring").await;
    assert_eq!(lacks, 1, "one of the two drives is still with the host only");
    trainer.press("#bring").await;
    trainer.yard.wait_until("document.querySelector('#bring-told')?.dataset.lacks === '0'").await;
    assert!(trainer.count(".moment-list li").await >= 2);
    trainer.press("#play-moments").await;
    trainer.yard.wait_for(places::PLAY).await;
    match trainer.hand {
        Hand::Keys => tap(&trainer.yard, char::from(Key::PageDown)).await,
        Hand::Touch(_) => trainer.press("#tour-on").await,
    }
    trainer.yard.wait_until("Number(location.hash.split('/').at(-1)) >= 2").await;
    trainer.look("5-moments").await;
}

/// A rule is changed for the site, and what was driven is judged again by it.
async fn changes_a_rule(trainer: &mut Trainer) {
    let yard = &trainer.yard;
    yard.go("#/class").await;
    yard.wait_for("#class-runs tbody a").await;
    let hers = "const rows = [...document.querySelectorAll('#class-runs tbody tr')];
        rows.find((row) => row.textContent.includes('Hazel')).querySelector('a').id = 'hers';";
    yard.script(hers, vec![]).await.unwrap();
    trainer.press("#hers").await;
    let fault = "[data-code=plugging-ran-back]";
    trainer.yard.wait_for(fault).await;
    let debrief = trainer.yard.script("return location.hash;", vec![]).await.unwrap();
    let replay = debrief.as_str().unwrap().replace("debrief", "replay");
    trainer.yard.go(&replay).await;
    trainer.yard.wait_for(places::PLAY).await;
    trainer.yard.wait_for("section.jumps button").await;
    let (jumps, marks) =
        (trainer.count("section.jumps button").await, trainer.count(".timeline .at-finding").await);
    trainer.yard.go("#/rules").await;
    trainer.types("#rules-find", "plugging-ran-back").await;
    trainer.yard.wait_until("document.querySelectorAll('.rule:not([hidden])').length === 1").await;
    trainer.choose(&format!("{fault} .switch input")).await;
    trainer.yard.wait_for(".rule.off").await;
    trainer.press("#rules-look").await;
    trainer.yard.wait_for(".rules-compared tbody tr").await;
    trainer.look("6-rules").await;
    trainer.press("#rules-save").await;
    trainer.press("#rules-judge-again:enabled").await;
    trainer.yard.wait_until("document.querySelector('#rules-news').textContent !== ''").await;
    trainer.yard.go(debrief.as_str().unwrap()).await;
    trainer.yard.wait_for("#judged-again").await;
    assert!(!trainer.yard.has(fault).await);
    // The replay tells what is said now, too.
    trainer.yard.go(&replay).await;
    trainer.yard.wait_for(places::PLAY).await;
    trainer.yard.settle().await;
    assert_eq!(trainer.count("section.jumps button").await, jumps - 1);
    assert_eq!(trainer.count(".timeline .at-finding").await, marks - 1);
}

/// At the real truck: the training that was given, and an evaluation; then the record on paper.
async fn evaluates(trainer: &mut Trainer) {
    trainer.yard.go("#/training/Rowan").await;
    trainer.press("#another-training summary").await;
    trainer.on("#training-on", "2026-03-02").await;
    trainer.types("#training-by", "Elm").await;
    trainer.types("#training-site", "Cold store").await;
    trainer.press("#keep-training").await;
    trainer.yard.wait_for("#trainings > li").await;
    trainer.press("#another-sheet summary").await;
    trainer
        .yard
        .script("document.querySelectorAll('[name=sheet-purpose]')[1].id = 'evaluation'", vec![])
        .await
        .unwrap();
    trainer.choose("#evaluation").await;
    trainer.on("#sheet-on", "2026-03-05").await;
    trainer.types("#sheet-by", "Elm").await;
    trainer.press("#begin-sheet").await;
    trainer.yard.wait_for(".workplace-sheet").await;
    let all = trainer.count(".seen-list li").await;
    for n in 0..all {
        trainer.ticks(n).await;
    }
    trainer.yard.wait_until("!document.querySelector('.decide-safe').disabled").await;
    trainer.look("7-evaluation").await;
    trainer.press(".decide-safe").await;
    trainer.yard.wait_for("[data-standing=standing-single] .whole").await;
    let pdf = trainer.yard.print().await;
    fs::write(
        target_folder().join("screens").join(format!("hour-{}-record.pdf", trainer.name)),
        &pdf,
    )
    .unwrap();
    // The record with all that was seen at the truck: no page is empty, and nothing folded away is left out.
    assert_eq!(page_sizes(&pdf).len(), 3);
    trainer.look("8-record").await;
}

/// The class as a file, out of this host and into another, where everything is.
async fn takes_it_elsewhere(trainer: &mut Trainer, lang: &str) {
    trainer.yard.go("#/class").await;
    trainer.press("#save-class").await;
    trainer.yard.downloaded("class.coneyard.json").await;
    let file = trainer.yard.downloads.join("class.coneyard.json");
    let class = Class::open();
    let mut other = Trainer {
        yard: Yard::start_for(Size { width: 1280, height: 800 }, lang, &class).await,
        hand: Hand::Keys,
        name: "elsewhere",
    };
    other.enters(&class).await;
    other.yard.wait_for("#take-class").await.send_keys(&file.to_string_lossy()).await.unwrap();
    let judged = "document.querySelectorAll('#class-runs tr[data-state=judged]').length === 4";
    other.yard.wait_until(judged).await;
    other.yard.go("#/training/Rowan").await;
    other.yard.wait_for("[data-standing=standing-single] .whole").await;
    // The note with its arrow came along.
    other.yard.go("#/class").await;
    other.yard.wait_for("#class-runs tbody a").await;
    let worst = "const rows = [...document.querySelectorAll('#class-runs tbody tr')];
        const faults = (row) => Number(row.children[5].textContent);
        rows.sort((a, b) => faults(b) - faults(a))[0].querySelector('a').click();";
    other.yard.script(worst, vec![]).await.unwrap();
    other
        .yard
        .wait_until("document.querySelector('.noted')?.textContent.includes('Both feet')")
        .await;
    assert_eq!(other.yard.console_errors().await, Vec::<String>::new());
}

async fn the_whole_hour(mut trainer: Trainer, class: &Class, lang: &str) {
    teaches(&mut trainer).await;
    watches(&mut trainer, class).await;
    points(&mut trainer).await;
    plays(&mut trainer).await;
    changes_a_rule(&mut trainer).await;
    evaluates(&mut trainer).await;
    takes_it_elsewhere(&mut trainer, lang).await;
    assert_eq!(trainer.text("#class-name").await, "Class");
    assert_eq!(trainer.yard.console_errors().await, Vec::<String>::new());
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn by_keys_on_a_projector() {
    let class = Class::open();
    let yard = Yard::start_for(Size { width: 1920, height: 1080 }, "en", &class).await;
    let trainer = Trainer { yard, hand: Hand::Keys, name: "projector-en" };
    the_whole_hour(trainer, &class, "en").await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn by_touch_on_a_tablet() {
    let class = Class::open();
    let size = Size { width: 820, height: 1180 };
    let yard = Yard::start_for(size, "es", &class).await;
    let screen = Screen::of(&yard, size).await;
    let trainer = Trainer { yard, hand: Hand::Touch(screen), name: "tablet-es" };
    the_whole_hour(trainer, &class, "es").await;
}
