//! A walk-round afterwards: the debrief shows what was there beside how it looks when it is sound, the sheet
//! comes out on paper as it was filled in, and the progress page adds walk-rounds up.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

use coneyard_core::checks::list::CheckList;
use coneyard_tests::browser::paper::{PAPERS, page_sizes};
use coneyard_tests::browser::{Size, Yard, places, target_folder};
use coneyard_tests::hasty::{NOTE, drawn, hasty, sound, truck_with};
use serde_json::{Value, json};

/// Takes files in by the field for them.
async fn take_in(yard: &Yard, runs: &[String]) {
    let paths: Vec<String> = runs
        .iter()
        .enumerate()
        .map(|(n, run)| {
            let path = yard.downloads.join(format!("{n}.run.json"));
            std::fs::write(&path, run).unwrap();
            path.to_string_lossy().into_owned()
        })
        .collect();
    yard.open("#/path").await;
    yard.wait_for(places::IMPORT).await.send_keys(&paths.join("\n")).await.unwrap();
}

async fn count(yard: &Yard, css: &str) -> u64 {
    let body = "return document.querySelectorAll(args[0]).length;";
    yard.script(body, vec![json!(css)]).await.unwrap().as_u64().unwrap()
}

async fn what_was_overlooked_is_shown_and_the_sheet_prints(lang: &str) {
    let list = CheckList::shipped();
    let seed = truck_with(&list, 3, 1);
    let yard = Yard::start(Size { width: 1280, height: 800 }, lang).await;
    take_in(&yard, &[hasty(&list, seed)]).await;
    yard.wait_for(places::REPRODUCES).await;
    yard.wait_until("document.querySelectorAll('.check-picture svg').length === 6").await;
    assert_eq!(count(&yard, places::MISSED).await, 3);
    assert_eq!(count(&yard, places::MADE_UP).await, 1);
    // Each pair of drawings differs, and says nowhere which is which.
    let body = "const all = [...document.querySelectorAll(args[0])].map((svg) => svg.outerHTML);
        return all.every((svg, n) => !svg.includes('data-state') && svg !== all[n ^ 1]);";
    let differ = yard.script(body, vec![json!(places::DRAWN)]).await;
    assert_eq!(differ, Ok(Value::Bool(true)));

    yard.click(places::TO_SHEET).await;
    yard.wait_for(places::PRINT).await;
    let rows = "return [...document.querySelectorAll('.day-sheet tr[data-point]')]
        .map((row) => [row.dataset.point, row.classList.contains('reported'), row.cells[3].innerText]);";
    let rows = yard.script(rows, Vec::new()).await.unwrap();
    let first = sound(&list, seed)[0];
    assert_eq!(rows.as_array().unwrap().len(), list.points.len());
    for (row, point) in rows.as_array().unwrap().iter().zip(&list.points) {
        let is_first = point.id == list.points[first].id;
        let note = if is_first { NOTE } else { "" };
        assert_eq!(*row, json!([point.id, is_first, note]));
    }
    let folder = target_folder().join("screens");
    std::fs::create_dir_all(&folder).unwrap();
    for (n, (paper, width, height)) in PAPERS.into_iter().enumerate() {
        let choose = "document.querySelectorAll(args[0])[args[1]].click();";
        yard.script(choose, vec![json!(places::PAPERS), json!(n)]).await.unwrap();
        yard.settle().await;
        let pdf = yard.print().await;
        std::fs::write(folder.join(format!("sheet-{paper}-{lang}.pdf")), &pdf).unwrap();
        let sizes = page_sizes(&pdf);
        assert!((1..=2).contains(&sizes.len()), "{paper} in {lang}: {} pages", sizes.len());
        for (w, h) in sizes {
            let fits = (w - width).abs() < 1.0 && (h - height).abs() < 1.0;
            assert!(fits, "{paper} in {lang}: a page has {w} by {h} points");
        }
    }
    let errors = yard.console_errors().await;
    assert!(errors.is_empty(), "{lang}: {errors:#?}");
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn what_was_overlooked_is_shown_and_the_sheet_prints_in_english() {
    what_was_overlooked_is_shown_and_the_sheet_prints("en").await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn what_was_overlooked_is_shown_and_the_sheet_prints_in_spanish() {
    what_was_overlooked_is_shown_and_the_sheet_prints("es").await;
}

#[tokio::test(flavor = "multi_thread")]
#[ignore = "needs Chromium and the built site: ./check runs it"]
async fn ten_walk_rounds_tell_how_well_defects_are_told() {
    let list = CheckList::shipped();
    let mut seeds: Vec<u32> = Vec::new();
    for _ in 0..10 {
        seeds.push(truck_with(&list, 1, seeds.last().map_or(1, |last| last + 1)));
    }
    let runs: Vec<String> = seeds.iter().map(|seed| hasty(&list, *seed)).collect();
    let yard = Yard::start(Size { width: 1280, height: 800 }, "en").await;
    take_in(&yard, &runs[..9]).await;
    // It counts while it still takes files in.
    yard.wait_until("document.querySelectorAll('.import li').length === 9").await;
    let who = "localStorage.setItem('coneyard-settings', JSON.stringify({
        ...JSON.parse(localStorage.getItem('coneyard-settings')), who: 'Alder' }));";
    yard.script(who, Vec::new()).await.unwrap();
    yard.open("#/progress").await;
    yard.wait_for("#walks-title").await;
    assert_eq!(count(&yard, places::DETECTION).await, 0, "nine say nothing yet");
    take_in(&yard, &runs[9..]).await;
    yard.wait_for(places::REPRODUCES).await;
    yard.open("#/progress").await;
    yard.wait_for(places::DETECTION).await;
    assert_eq!(count(&yard, places::DETECTION).await, 2);
    let mut there: Vec<(usize, usize)> =
        seeds.iter().flat_map(|seed| drawn(&list, *seed).has).collect();
    there.sort_unstable();
    there.dedup();
    assert_eq!(count(&yard, places::BY_DEFECT).await, there.len() as u64);
}
