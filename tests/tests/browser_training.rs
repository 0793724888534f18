//! The trainer's papers with real browsers: a training record from the first training to an evaluation that says "drives
//! safely", with a class's host and without one, and the class in figures.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_core::class::record::{Decided, Purpose, Seen};
use coneyard_core::class::{Record, read_record};
use coneyard_tests::browser::{Class, Size, Yard, places};
use coneyard_tests::drives::ridden;

const TABLET: Size = Size { width: 820, height: 1180 };

/// Opens what is folded.
async fn unfolds(yard: &Yard, id: &str) {
    yard.wait_for(id).await;
    yard.script(&format!("document.querySelector('{id}').open = true"), vec![]).await.unwrap();
}

/// Chooses a day in a field for days, as a person's choice comes to the page.
async fn on(yard: &Yard, id: &str, day: &str) {
    let script = format!(
        "const f = document.querySelector('{id}'); f.value = '{day}'; f.dispatchEvent(new Event('input'));"
    );
    yard.script(&script, vec![]).await.unwrap();
}

async fn text(yard: &Yard, css: &str) -> String {
    yard.wait_for(css).await.text().await.unwrap()
}

async fn count(yard: &Yard, css: &str) -> u64 {
    let script = format!("return document.querySelectorAll('{css}').length");
    yard.script(&script, vec![]).await.unwrap().as_u64().unwrap()
}

/// Trains, evaluates, sees something unsafe; each time the page says what is still to be done.
async fn fills_in(yard: &Yard) {
    let standing = "[data-standing=standing-single]";
    yard.wait_for(standing).await;
    assert_eq!(count(yard, ".lacks li").await, 2, "training and evaluation");
    unfolds(yard, "#another-training").await;
    on(yard, "#training-on", "2026-03-02").await;
    yard.writes("#training-by", "Hazel Ash").await;
    yard.writes("#training-site", "Cold store").await;
    yard.click("#keep-training").await;
    yard.wait_until("document.querySelectorAll('#trainings > li').length === 1").await;
    yard.wait_until("document.querySelectorAll('.lacks li').length === 1").await;
    // Nobody evaluates without saying who they are.
    unfolds(yard, "#another-sheet").await;
    yard.script("document.querySelectorAll('[name=sheet-purpose]')[1].click()", vec![])
        .await
        .unwrap();
    on(yard, "#sheet-on", "2026-03-05").await;
    yard.wait_for("#sheet-by").await.clear().await.unwrap();
    yard.script("document.querySelector('#sheet-by').dispatchEvent(new Event('input'))", vec![])
        .await
        .unwrap();
    yard.click("#begin-sheet").await;
    yard.wait_until("document.querySelector('#another-sheet [role=alert]').textContent !== ''")
        .await;
    yard.writes("#sheet-by", "Birch").await;
    yard.click("#begin-sheet").await;
    yard.wait_for(".workplace-sheet").await;
    // Not before everything that must be seen was seen.
    yard.wait_until("document.querySelector('.decide-safe')?.disabled").await;
    let ticks = "document.querySelectorAll('.seen-list li')";
    let all = count(yard, ".seen-list li").await;
    assert!(all > 10);
    yard.script(&format!("{ticks}.forEach(li => li.querySelector('input').click())"), vec![])
        .await
        .unwrap();
    yard.wait_until("!document.querySelector('.decide-safe').disabled").await;
    // One word more, and it is open again; the last word holds.
    yard.script(&format!("{ticks}[0].querySelectorAll('input')[1].click()"), vec![]).await.unwrap();
    yard.wait_until("document.querySelector('.decide-safe').disabled").await;
    yard.script(&format!("{ticks}[0].querySelectorAll('input')[0].click()"), vec![]).await.unwrap();
    yard.wait_until("!document.querySelector('.decide-safe').disabled").await;
    yard.click(".decide-safe").await;
    yard.wait_for(&format!("{standing} .whole")).await;
    assert_eq!(count(yard, ".lacks li").await, 0);
    // Something unsafe is seen: a refresher is due, and which exercises train it is said.
    unfolds(yard, "#another-happening").await;
    on(yard, "#happened-on", "2026-03-10").await;
    yard.writes("#happened-by", "Birch").await;
    // A word more on the sheet meanwhile: what is filled in here stays, and so does the line that was touched.
    let marks = "document.querySelector('#happened-by').seen = 1;";
    yard.script(&format!("{marks} {ticks}[1].seen = 1;"), vec![]).await.unwrap();
    yard.script(&format!("{ticks}[1].querySelectorAll('input')[1].click()"), vec![]).await.unwrap();
    yard.wait_until(&format!("{ticks}[1].querySelectorAll('input')[1].checked")).await;
    yard.settle().await;
    let stays = "const by = document.querySelector('#happened-by'); return [by.seen, by.value, \
                 document.querySelector('#happened-on').value];";
    let stands = yard.script(stays, vec![]).await.unwrap();
    assert_eq!(stands, serde_json::json!([1, "Birch", "2026-03-10"]));
    yard.script(&format!("{ticks}[1].querySelectorAll('input')[0].click()"), vec![]).await.unwrap();
    yard.wait_until(&format!("{ticks}[1].querySelectorAll('input')[0].checked && {ticks}[1].seen"))
        .await;
    let pick = "const s = document.querySelector('#happened-codes'); s.value = 'stop-line-run'; \
                s.dispatchEvent(new Event('change'));";
    yard.script(pick, vec![]).await.unwrap();
    yard.wait_for("#picked li").await;
    yard.click("#keep-happened").await;
    yard.wait_until("document.querySelectorAll('#happened > li').length === 1").await;
    let row = text(yard, "#happened > li").await;
    assert!(row.contains("Cross aisles") || row.to_lowercase().contains("aisles"), "{row}");
    assert!(text(yard, standing).await.contains("1910.178(l)(4)(ii)(A)"));
    yard.settle().await;
}

/// The record that the page hands out.
async fn saved(yard: &Yard) -> Record {
    yard.click("#save-training").await;
    read_record(&yard.downloaded(".training.json").await).unwrap()
}

fn assert_whole(record: &Record) {
    assert_eq!(record.operator, "Rowan Ash");
    assert_eq!((record.trainings.len(), record.sheets.len(), record.happened.len()), (1, 1, 1));
    let sheet = &record.sheets[0];
    assert_eq!((sheet.purpose, sheet.decided), (Purpose::Evaluation, Some(Decided::Safe)));
    // Every tap is in it, the one that was taken back too.
    assert!(sheet.entries.iter().any(|e| e.seen == Some(Seen::NotYet)));
    assert_eq!(record.happened[0].codes, ["stop-line-run"]);
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_record_is_filled_in_at_the_truck_and_stays_in_the_browser() {
    let yard = Yard::start(TABLET, "en").await;
    yard.open("#/training/Rowan%20Ash").await;
    fills_in(&yard).await;
    yard.reload().await;
    yard.wait_for(".whole").await;
    assert_whole(&saved(&yard).await);
    // Under the same name however it is written, and under no other.
    yard.open("#/training/rowan%20ash%20").await;
    yard.wait_for(".whole").await;
    yard.open("#/training/Rowan").await;
    yard.wait_for(".lacks").await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_class_keeps_records_and_shows_itself_in_figures() {
    let class = Class::open();
    let trainee = Yard::start_for(Size::SMALL, "en", &class).await;
    trainee.joins(&class, "Rowan Ash").await;
    // A trainee sees nobody's record.
    trainee.open("#/training/Rowan%20Ash").await;
    trainee.wait_for("[role=alert]").await;

    let trainer = Yard::start_for(Size { width: 1280, height: 800 }, "en", &class).await;
    trainer.enters(&class).await;
    trainer.open("#/training/Rowan%20Ash").await;
    fills_in(&trainer).await;
    trainer.reload().await;
    trainer.wait_for(".whole").await;
    assert_whole(&saved(&trainer).await);

    // It stands in the class's figures that a refresher is due.
    trainer.open("#/class-in-figures").await;
    trainer.wait_for("#due tbody tr").await;
    let row = text(&trainer, "#due tbody tr").await;
    assert!(row.contains("Rowan Ash") && row.contains("(A)"), "{row}");
    for yard in [&trainer, &trainee] {
        assert_eq!(yard.console_errors().await, Vec::<String>::new());
    }
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn drives_that_came_in_as_files_make_a_class_in_figures() {
    let yard = Yard::start(Size { width: 1280, height: 800 }, "en").await;
    for (rider, seed) in [("looks-straight-on", 1), ("model", 2)] {
        let file = yard.downloads.join(format!("{rider}.json"));
        std::fs::write(&file, ridden("cross-aisles", "single", rider, seed)).unwrap();
        yard.open("#/path").await;
        yard.wait_for(places::IMPORT).await.send_keys(&file.to_string_lossy()).await.unwrap();
        yard.debrief_opens().await;
    }
    yard.open("#/class-in-figures").await;
    yard.wait_for("#looked li").await;
    let headline = text(&yard, "#looked-mean").await;
    assert!(headline.contains('%'), "{headline}");
    assert!(count(&yard, "#teach > li").await > 0);
    assert!(text(&yard, "#items-people").await.contains("Nobody"));
    yard.click("#save-attempts").await;
    let table = yard.downloaded("drives.csv").await;
    assert_eq!(table.lines().count(), 3, "{table}");
    yard.click("#save-statements").await;
    let statements = yard.downloaded("statements.xapi.json").await;
    let statements: serde_json::Value = serde_json::from_str(&statements).unwrap();
    let statements = statements.as_array().unwrap();
    assert_eq!(statements.len(), 2);
    for statement in statements {
        let home = &statement["actor"]["account"]["homePage"];
        assert!(home.as_str().unwrap().starts_with(&yard.address), "{statement}");
        let name = &statement["object"]["definition"]["name"]["en"];
        assert!(name.as_str().unwrap().starts_with("Cross aisles"), "{statement}");
    }
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}
