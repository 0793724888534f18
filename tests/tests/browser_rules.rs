//! The rules of a site: changed with keys, refused where they make no sense, looked at beside the drives that are kept,
//! saved, judged by, and put back; and what the class goes by on this computer.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_core::rules::SiteRules;
use coneyard_tests::browser::keyboard::{enter, tab_to, tap};
use coneyard_tests::browser::{Class, Size, Yard, places};
use coneyard_tests::drives::ridden;
use fantoccini::key::Key;
use serde_json::{Value, json};

/// Unchanged as it is published; see the README beside it.
const AXE: &str = include_str!("../vendor/axe-core/axe.min.js");

/// The field of the distance that a truck may run back.
const RAN_BACK: &str = "[data-code=plugging-ran-back] .rule-value input";

/// Takes a run in; the address of its debrief.
async fn take_in(yard: &Yard, run: &str) -> String {
    let path = yard.downloads.join("a.run.json");
    std::fs::write(&path, run).unwrap();
    yard.open("#/path").await;
    yard.wait_for(places::IMPORT).await.send_keys(&path.to_string_lossy()).await.unwrap();
    yard.wait_until("location.hash.startsWith('#/debrief/')").await;
    yard.wait_for(places::REPRODUCES).await;
    let debrief = yard.script("return location.hash;", vec![]).await.unwrap();
    debrief.as_str().unwrap().to_owned()
}

/// Reaches a field by Tab, writes into it in place of what stands there, and leaves it by Tab.
async fn write(yard: &Yard, css: &str, typed: &str) {
    tab_to(yard, css).await;
    yard.script("document.activeElement.select();", vec![]).await.unwrap();
    for key in typed.chars() {
        tap(yard, key).await;
    }
    tap(yard, char::from(Key::Tab)).await;
}

/// All records of a store of the browser's database.
async fn records(yard: &Yard, store: &str) -> Vec<String> {
    let body = "
        const database = await new Promise((done, failed) => {
            const asked = indexedDB.open('coneyard');
            asked.onsuccess = () => done(asked.result);
            asked.onerror = () => failed(asked.error);
        });
        const all = await new Promise((done, failed) => {
            const asked = database.transaction([args[0]]).objectStore(args[0]).getAll();
            asked.onsuccess = () => done(asked.result);
            asked.onerror = () => failed(asked.error);
        });
        database.close();
        return all;";
    let all = yard.script(body, vec![json!(store)]).await.unwrap();
    all.as_array().unwrap().iter().map(|r| r.as_str().unwrap().to_owned()).collect()
}

/// Begins a drive, and gives the rules that it begins under.
async fn rules_of_a_drive(yard: &Yard) -> SiteRules {
    yard.open("#/drive/straight/single").await;
    yard.wait_for(places::DRIVING).await;
    let drives = records(yard, "drives").await;
    let drive: Value = serde_json::from_str(drives.last().unwrap()).unwrap();
    let rules = drive["setup"]["rules"].as_str().unwrap();
    SiteRules::parse("rules", rules.as_bytes()).unwrap()
}

async fn text_of(yard: &Yard, css: &str) -> String {
    let body = "return document.querySelector(args[0])?.textContent ?? '';";
    yard.script(body, vec![json!(css)]).await.unwrap().as_str().unwrap().to_owned()
}

/// Presses what Tab reaches.
async fn press(yard: &Yard, css: &str) {
    tab_to(yard, css).await;
    enter(yard).await;
}

async fn open_rules(yard: &Yard) {
    yard.open("#/rules").await;
    yard.wait_for("#rules-save").await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_limit_is_changed_with_keys_looked_at_judged_by_and_put_back() {
    let yard = Yard::start(Size { width: 1280, height: 800 }, "en").await;
    let run = ridden("straight", "single", "run-back", 3);
    let debrief = take_in(&yard, &run).await;
    let fault = "[data-code=plugging-ran-back]";
    yard.wait_for(fault).await;

    // From the settings to the rule, by what is looked for.
    yard.open("#/settings").await;
    press(&yard, "#to-rules").await;
    yard.wait_for("#rules-save").await;
    write(&yard, "#rules-find", "after plugging").await;
    yard.wait_until("document.querySelectorAll('.rule:not([hidden])').length === 1").await;

    // What makes no sense is refused at its field, in inches as it was typed, and nothing changes.
    for (typed, says) in [("500", "from 0 to 196.9"), ("-1", "from 0 to"), ("far", "no number")] {
        write(&yard, RAN_BACK, typed).await;
        let refused = format!("document.querySelector('{fault} .refused').textContent");
        yard.wait_until(&format!("{refused}.includes({says:?})")).await;
        assert!(
            yard.is(&format!("document.querySelector({RAN_BACK:?}).ariaInvalid === 'true'")).await
        );
        assert!(!yard.has(".rule.differs").await && yard.has("#rules-save:disabled").await);
    }
    // 30 inches are 0.762 m, exactly.
    write(&yard, RAN_BACK, "30").await;
    yard.wait_for(".rule.differs").await;
    yard.wait_for("#rules-save:enabled").await;
    let focus = "document.activeElement.closest('.rule') !== null";
    assert!(yard.is(focus).await, "the focus stays at the rule that was changed");

    // Stopped at once, then looked at to the end: the run comes out without the fault.
    let stopped = "document.querySelector('#rules-look').click();
        await new Promise((drawn) => requestAnimationFrame(drawn));
        document.querySelector('#rules-stop').click();";
    yard.script(stopped, vec![]).await.unwrap();
    yard.wait_until("document.querySelector('#rules-look-state').textContent.includes('Stopped')")
        .await;
    press(&yard, "#rules-look").await;
    yard.wait_for(".rules-compared tbody tr").await;
    let state = text_of(&yard, "#rules-look-state").await;
    assert!(state.contains("1 driven again: 1 would come out otherwise"), "{state}");
    assert!(yard.is("document.querySelectorAll('.rules-compared td strong').length >= 2").await);
    assert!(yard.has("#rules-judge-again:disabled").await, "what is not saved judges nobody");

    // Saved, it judges: the debrief says by what, and what was said first.
    press(&yard, "#rules-save").await;
    yard.wait_for("#rules-judge-again:enabled").await;
    press(&yard, "#rules-judge-again").await;
    yard.wait_until("document.querySelector('#rules-news').textContent.includes('One drive')")
        .await;
    yard.open(&debrief).await;
    yard.wait_for("#judged-again").await;
    yard.wait_for(places::REPRODUCES).await;
    assert!(!yard.has(fault).await);
    yard.wait_until("document.querySelector('#changed-rules').textContent.includes('30')").await;
    assert_eq!(records(&yard, "runs").await[0], run, "the run stays as it is");

    // What begins now begins under these rules.
    let rules = rules_of_a_drive(&yard).await;
    assert_eq!(rules.limit("plugging-ran-back", "distance"), 0.762);

    // After a reload they still hold, and go out as a file that says only what is not as usual.
    open_rules(&yard).await;
    assert!(yard.has("#rules-save:disabled").await);
    yard.click("#rules-out").await;
    let file = yard.downloads.join("site-rules.json");
    for _ in 0..100 {
        if file.exists() {
            break;
        }
        tokio::time::sleep(std::time::Duration::from_millis(100)).await;
    }
    let out = std::fs::read_to_string(&file).unwrap();
    assert_eq!(SiteRules::parse("out", out.as_bytes()).unwrap(), rules);
    assert!(!out.contains("contact-cone"), "{out}");

    // A file with a limit that makes no sense is refused whole; one that does comes in, and holds when it is saved.
    let odd = r#"{"format": 1, "speed_limit": {"value": 60, "unit": "m/s", "source": "board 3"}}"#;
    let given = yard.downloads.join("given.json");
    std::fs::write(&given, odd).unwrap();
    yard.wait_for("#rules-in").await.send_keys(&given.to_string_lossy()).await.unwrap();
    let refused = "document.querySelector('#rules-file-refused').textContent";
    yard.wait_until(&format!("{refused}.includes('speed_limit.value: 60 lies outside 0.2 to 6')"))
        .await;
    assert!(yard.has("#rules-save:disabled").await);
    std::fs::write(&given, odd.replace("60", "2")).unwrap();
    yard.wait_for("#rules-in").await.send_keys(&given.to_string_lossy()).await.unwrap();
    yard.wait_for("#rules-save:enabled").await;
    assert!(yard.is(&format!("{refused} === ''")).await);
    yard.click("#rules-undo").await;
    yard.wait_for("#rules-save:disabled").await;

    // Put back and saved, the first judgement is shown again.
    yard.click("#rules-all-back").await;
    yard.wait_for("#rules-save:enabled").await;
    yard.click("#rules-save").await;
    yard.wait_until("document.querySelector('#rules-news').textContent.includes('One drive')")
        .await;
    yard.open(&debrief).await;
    yard.wait_for(fault).await;
    assert!(!yard.has("#judged-again").await && !yard.has("#changed-rules").await);
    assert_eq!(records(&yard, "site").await, Vec::<String>::new());
    assert_eq!(records(&yard, "runs").await, [run]);
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_rule_is_switched_off_and_says_what_the_site_wants() {
    let yard = Yard::start(Size { width: 1280, height: 800 }, "es").await;
    let debrief = take_in(&yard, &ridden("straight", "single", "run-back", 3)).await;
    open_rules(&yard).await;
    write(&yard, "#rules-find", "plugging-ran-back").await;
    yard.wait_until("document.querySelectorAll('.rule:not([hidden])').length === 1").await;
    yard.click("[data-code=plugging-ran-back] summary").await;
    write(&yard, "[data-code=plugging-ran-back] .own-sentence", "Regla 7.").await;
    yard.wait_for(".rule.differs").await;
    for (saved, says, found) in [(true, "Regla 7.", true), (false, "Regla 7.", false)] {
        if !saved {
            yard.click("[data-code=plugging-ran-back] .switch input").await;
            yard.wait_for(".rule.off").await;
        }
        yard.click("#rules-save").await;
        yard.wait_for("#rules-save:disabled").await;
        yard.click("#rules-look").await;
        yard.wait_for("#rules-judge-again:enabled").await;
        yard.click("#rules-judge-again").await;
        yard.wait_until(
            "document.querySelector('#rules-news').textContent.includes('Un recorrido')",
        )
        .await;
        yard.go(&debrief).await;
        yard.wait_for("#judged-again").await;
        yard.wait_for(places::REPRODUCES).await;
        assert_eq!(
            yard.has(".fault").await && yard.has("li[data-code=plugging-ran-back]").await,
            found
        );
        if found {
            yard.wait_until(&format!(
                "document.querySelector('main').textContent.includes({says:?})"
            ))
            .await;
        } else {
            yard.wait_until(
                "document.querySelector('#changed-rules').textContent.includes('no en vez de')",
            )
            .await;
        }
        open_rules(&yard).await;
        write(&yard, "#rules-find", "plugging-ran-back").await;
    }
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_newcomer_begins_with_what_the_class_goes_by_and_what_does_not_count_shows_no_skill() {
    let yard = Yard::start(Size { width: 1280, height: 800 }, "en").await;
    take_in(&yard, &ridden("straight", "single", "run-back", 3)).await;
    open_rules(&yard).await;
    let set = "
        const last = (name) => [...document.querySelectorAll(`input[name=${name}]`)].at(-1);
        last('class-language').click();
        await new Promise((done) => setTimeout(done, 300));
        last('class-units').click();";
    yard.script(set, vec![]).await.unwrap();
    yard.wait_until("document.querySelectorAll('input[name=class-units]:checked').length === 1")
        .await;
    yard.script("document.querySelector('details:has(#counted)').open = true;", vec![])
        .await
        .unwrap();
    let straight = "[...document.querySelectorAll('#counted label')]
        .find((label) => label.textContent.includes('straight') || label.textContent.includes('plug'))";
    let rows = "document.querySelectorAll('#counted input').length";
    assert!(yard.is(&format!("{rows} === 25")).await);
    let out = format!(
        "({straight} ?? document.querySelectorAll('#counted label')[1]).querySelector('input').click();"
    );
    yard.script(&out, vec![]).await.unwrap();
    let kept = async |what: &str| records(&yard, "site").await.iter().any(|r| r.contains(what));
    for _ in 0..100 {
        if kept("left_out\":[\"").await && kept("metric").await && kept("es").await {
            break;
        }
        tokio::time::sleep(std::time::Duration::from_millis(100)).await;
    }
    assert!(kept("left_out\":[\"").await, "{:?}", records(&yard, "site").await);

    // Who has driven here keeps what is set; who has not begins with what the class goes by.
    yard.open("#/settings").await;
    let who = "input[autocomplete=nickname]";
    write(&yard, who, "Alder").await;
    yard.settle().await;
    assert!(yard.is("document.documentElement.lang === 'en'").await);
    yard.open("#/settings").await;
    write(&yard, who, "Birch").await;
    yard.wait_until("document.documentElement.lang === 'es'").await;
    let settings =
        yard.script("return localStorage.getItem('coneyard-settings');", vec![]).await.unwrap();
    assert!(settings.as_str().unwrap().contains("metric"), "{settings}");
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

/// Rules of another version, or damaged ones, stop nobody for good: the page says why and leads back.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn rules_that_cannot_be_read_can_be_put_back() {
    let yard = Yard::start(Size { width: 1280, height: 800 }, "en").await;
    open_rules(&yard).await;
    let body = "
        const database = await new Promise((done) => {
            const asked = indexedDB.open('coneyard');
            asked.onsuccess = () => done(asked.result);
        });
        const kept = database.transaction(['site'], 'readwrite');
        kept.objectStore('site').put(args[0], 'rules');
        await new Promise((done) => { kept.oncomplete = done; });
        database.close();";
    for odd in ["{\"format\": 9}", "damage"] {
        yard.script(body, vec![json!(odd)]).await.unwrap();
        yard.open("#/rules").await;
        yard.click("#rules-give-up").await;
        yard.wait_for("#rules-save").await;
        assert_eq!(records(&yard, "site").await, Vec::<String>::new());
        assert_eq!(rules_of_a_drive(&yard).await, SiteRules::shipped());
    }
}

/// A class's host hands out what holds there: rules of this browser's own rest as long as somebody drives for it.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn who_drives_for_a_class_drives_by_its_rules() {
    let class = Class::open();
    let yard = Yard::start_for(Size { width: 1280, height: 800 }, "en", &class).await;
    open_rules(&yard).await;
    write(&yard, "#rules-find", "plugging-ran-back").await;
    write(&yard, RAN_BACK, "30").await;
    yard.wait_for("#rules-save:enabled").await;
    yard.click("#rules-save").await;
    yard.wait_for("#rules-save:disabled").await;
    let limit = |rules: &SiteRules| rules.limit("plugging-ran-back", "distance");
    assert_eq!(limit(&rules_of_a_drive(&yard).await), 0.762);

    yard.joins(&class, "Rowan").await;
    assert_eq!(rules_of_a_drive(&yard).await, SiteRules::shipped());
    yard.open("#/pre-test").await;
    yard.click("#start-pre-test:enabled").await;
    yard.wait_until("location.hash.startsWith('#/pre-test/')").await;
    yard.wait_for("#more").await;
    let sitting: Value = serde_json::from_str(&records(&yard, "sittings").await[0]).unwrap();
    let rules = sitting["rules"].as_str().unwrap();
    assert_eq!(SiteRules::parse("rules", rules.as_bytes()).unwrap(), SiteRules::shipped());
    // They are kept, and the page says that they rest.
    open_rules(&yard).await;
    yard.wait_for("main > .note").await;
    assert!(records(&yard, "site").await.iter().any(|text| text.contains("0.762")));
}

/// Everything of the page is opened, and axe finds nothing to complain of.
async fn nothing_to_complain_of(lang: &str) {
    let yard = Yard::start(Size { width: 1280, height: 800 }, lang).await;
    take_in(&yard, &ridden("straight", "single", "run-back", 3)).await;
    open_rules(&yard).await;
    write(&yard, "#rules-find", "plugging-ran-back").await;
    write(&yard, RAN_BACK, "20").await;
    yard.wait_for(".rule.differs").await;
    write(&yard, RAN_BACK, "x").await;
    yard.click("#rules-look").await;
    yard.wait_for(".rules-compared tbody tr").await;
    let open = "const find = document.querySelector('#rules-find');
        find.value = '';
        find.dispatchEvent(new Event('input'));
        await new Promise((done) => setTimeout(done, 200));
        document.querySelectorAll('main details').forEach((d) => { d.open = true; });";
    yard.script(open, vec![]).await.unwrap();
    let mut found = Vec::new();
    for scheme in ["light", "dark"] {
        let features = json!([{ "name": "prefers-color-scheme", "value": scheme }]);
        yard.devtools("Emulation.setEmulatedMedia", json!({ "features": features })).await;
        yard.settle().await;
        yard.devtools("Runtime.evaluate", json!({ "expression": AXE })).await;
        let body = "const found = await axe.run(document, { resultTypes: ['violations'] });
            return found.violations.map((v) => `${v.id}: ${v.nodes.slice(0, 3)
                .map((n) => `${n.target} ${n.any.concat(n.all).map((c) => c.message).join(' ')}`).join('; ')}`);";
        let complaints = yard.script(body, vec![]).await.unwrap();
        found.extend(complaints.as_array().unwrap().iter().map(|c| format!("{scheme}: {c}")));
    }
    assert!(found.is_empty(), "{found:#?}");
    // What is pressed is large enough for a finger, also on a phone.
    for width in [1280, 390] {
        yard.resize(Size { width, height: 844 }).await;
        yard.settle().await;
        let wide = "return document.documentElement.scrollWidth;";
        let wide = yard.script(wide, vec![]).await.unwrap().as_u64().unwrap();
        assert!(wide <= u64::from(width), "{wide} at {width}");
    }
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn nothing_to_complain_of_in_english() {
    nothing_to_complain_of("en").await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn nothing_to_complain_of_in_spanish() {
    nothing_to_complain_of("es").await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_list_for_sheets_goes_out_comes_in_changed_and_goes_back() {
    let yard = Yard::start(Size { width: 1280, height: 800 }, "en").await;
    open_rules(&yard).await;
    yard.wait_for("#rules-sheets-holds[data-own=false]").await;
    yard.click("#rules-sheets-out").await;
    let out = yard.downloaded("workplace.json").await;
    let mut list: Value = serde_json::from_str(&out).unwrap();

    // What is no list is refused in one sentence, and nothing changes.
    let given = yard.downloads.join("given.json");
    let take = async |text: String| {
        std::fs::write(&given, text).unwrap();
        yard.wait_for("#rules-sheets-in").await.send_keys(&given.to_string_lossy()).await.unwrap();
    };
    let refused = "document.querySelector('#rules-sheets-refused').textContent";
    take(out.replace("\"items\"", "\"things\"")).await;
    yard.wait_until(&format!("{refused}.includes('things')")).await;
    yard.wait_for("#rules-sheets-holds[data-own=false]").await;

    list["id"] = json!("cold-store");
    list["name"] = json!({ "en": "Cold store", "es": "Cámara fría" });
    let first = list["items"][0].clone();
    list["items"] = json!([first]);
    take(list.to_string()).await;
    yard.wait_for("#rules-sheets-holds[data-own=true]").await;
    yard.wait_until(&format!("{refused} === ''")).await;
    let holds = "document.querySelector('#rules-sheets-holds').textContent";
    yard.wait_until(&format!("{holds}.includes('Cold store')")).await;

    // Sheets go by it.
    yard.open("#/training/Rowan").await;
    yard.wait_for("#another-sheet").await;
    yard.script("document.querySelector('#another-sheet').open = true", vec![]).await.unwrap();
    yard.wait_for("#sheet-by").await.send_keys("Elm").await.unwrap();
    yard.click("#begin-sheet").await;
    yard.wait_for(".workplace-sheet").await;
    yard.wait_until("document.querySelectorAll('.seen-list li').length === 1").await;
    yard.settle().await;

    open_rules(&yard).await;
    yard.click("#rules-sheets-back").await;
    yard.wait_for("#rules-sheets-holds[data-own=false]").await;
    assert_eq!(yard.console_errors().await, Vec::<String>::new());
}

/// A trainer hands the rules of this page out; who drives for the class drives by them, and by the site's when they are
/// taken back.
#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn a_trainer_hands_rules_out_and_who_drives_for_the_class_drives_by_them() {
    let class = Class::open();
    let trainer = Yard::start_for(Size { width: 1280, height: 800 }, "en", &class).await;
    trainer.enters(&class).await;
    open_rules(&trainer).await;
    trainer.wait_for("#hand-out-are[data-set=false]").await;
    write(&trainer, "#rules-find", "after plugging").await;
    write(&trainer, RAN_BACK, "30").await;
    trainer.wait_for("#rules-save:enabled").await;
    // What is not saved is not handed out.
    assert!(trainer.has("#hand-out-set:disabled").await);
    trainer.click("#rules-save").await;
    trainer.click("#hand-out-set:enabled").await;
    trainer.wait_for("#hand-out-are[data-set=true]").await;

    let trainee = Yard::start_for(Size::SMALL, "en", &class).await;
    trainee.joins(&class, "Rowan").await;
    let heard = async |says: &str| {
        for _ in 0..600 {
            let kept = records(&trainee, "site").await;
            if kept.iter().any(|text| text.contains(says)) {
                return;
            }
            tokio::time::sleep(std::time::Duration::from_millis(100)).await;
        }
        panic!("the rules of the class have not come");
    };
    heard("0.762").await;
    assert_eq!(rules_of_a_drive(&trainee).await.limit("plugging-ran-back", "distance"), 0.762);
    // The trainee sees no card, and their own rules rest.
    open_rules(&trainee).await;
    assert!(!trainee.has("#hand-out-are").await);

    trainer.click("#hand-out-back").await;
    trainer.wait_for("#hand-out-are[data-set=false]").await;
    let usual = SiteRules::shipped().limit("plugging-ran-back", "distance");
    trainee.open("#/class").await;
    trainee.wait_for("#class-you").await;
    for _ in 0..20 {
        trainee.settle().await;
        if !records(&trainee, "site").await.iter().any(|text| text.contains("0.762")) {
            break;
        }
    }
    assert_eq!(rules_of_a_drive(&trainee).await.limit("plugging-ran-back", "distance"), usual);
    for yard in [&trainer, &trainee] {
        assert_eq!(yard.console_errors().await, Vec::<String>::new());
    }
}
