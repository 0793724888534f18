//! What every keeper must do, tried on one that is empty. It leaves nothing behind.

use std::collections::BTreeMap;

use super::attempt::{Attempt, Told};
use super::cut::{Found, PartSoFar, cut_drives, drive, part};
use super::drive::{CutDrive, Drive, Piece, Place};
use super::keeper::Keeper;
use super::record::Record;
use super::sitting::Taken;
use super::taught::Taught;
use crate::acts::{Act, Done};
use crate::debrief::{Debrief, Ending};
use crate::run::Driven;
use crate::run::{DriveSetup, Timing, Verdict};

fn must(holds: bool, what: &str) -> Result<(), String> {
    if holds { Ok(()) } else { Err(format!("a keeper must do this: {what}")) }
}

/// An attempt of this name, of which nothing was driven.
pub fn attempt(id: &str) -> Attempt {
    let told = Told {
        course: "straight".to_owned(),
        truck: "single".to_owned(),
        who: "Alder".to_owned(),
        started: "2026-01-05T08:00:00Z".to_owned(),
        time_ratio: 1.0,
        pace: 1.0,
        simulation: crate::run::file::SIMULATION,
        walk: None,
    };
    let debrief = Debrief {
        ending: Ending::Done,
        ticks: 64,
        total: Some(100.0),
        did: None,
        skills: Vec::new(),
        findings: Vec::new(),
        practise: None,
        changed_rules: Vec::new(),
    };
    let verdict = Verdict {
        reproduces: true,
        first_difference_s: None,
        debrief_agrees: true,
        debrief,
        final_digest: String::new(),
    };
    Attempt::new(id.to_owned(), told, verdict, false)
}

/// A drive of this name that was just begun.
pub fn begun(id: &str, place: Option<Place>) -> Drive {
    let setup = DriveSetup {
        course: "{}".to_owned(),
        truck: "{}".to_owned(),
        rules: "{}".to_owned(),
        checks: String::new(),
        seed: 1,
        who: String::new(),
        started: String::new(),
    };
    Drive::new(id.to_owned(), "straight".to_owned(), "single".to_owned(), place, setup)
}

/// A pre-test of this name that was just begun.
pub fn taken(id: &str) -> Taken {
    Taken {
        version: Taken::FORM,
        id: id.to_owned(),
        class_word: "grey-heron".to_owned(),
        seat: 4,
        truck: "single".to_owned(),
        who: "Alder / B".to_owned(),
        started: "2026-01-05T08:00:00Z".to_owned(),
        rules: "{}".to_owned(),
        pauses: 0,
        given_up: false,
        imported: false,
    }
}

/// A lesson of this name that was just begun.
pub fn taught(id: &str) -> Taught {
    Taught {
        version: Taught::FORM,
        id: id.to_owned(),
        lesson: "pallet-trucks".to_owned(),
        name: BTreeMap::from([("en".to_owned(), "The trade".to_owned())]),
        started: "2026-01-05T08:00:00Z".to_owned(),
        trainer: "Elm".to_owned(),
        present: vec!["Alder".to_owned()],
        topics: Vec::new(),
        note: String::new(),
    }
}

/// A piece of so many ticks.
pub fn piece(ticks: u32) -> Piece {
    let driven = Driven { pairs: vec![7, ticks], acts: vec![Done { tick: 1, act: Act::Report }] };
    Piece::new(driven, Timing { simulated_s: 1.0, asked_s: 1.25, pace: 0.5 })
}

/// Tries all of it.
///
/// # Errors
/// One sentence: what the keeper does not do, or its own refusal.
pub async fn holds(keeper: &impl Keeper) -> Result<(), String> {
    let nothing = keeper.attempts().await?.all.is_empty() && keeper.drives().await?.all.is_empty();
    must(nothing && keeper.sittings().await?.all.is_empty(), "be empty when this begins")?;
    drives(keeper).await?;
    attempts(keeper).await?;
    sittings(keeper).await?;
    lessons(keeper).await?;
    trainings(keeper).await?;
    site(keeper).await?;
    let nothing = keeper.attempts().await?.all.is_empty() && keeper.drives().await?.all.is_empty();
    must(nothing && keeper.sittings().await?.all.is_empty(), "forget what is to be forgotten")
}

async fn drives(keeper: &impl Keeper) -> Result<(), String> {
    must(drive(keeper, "a").await? == Found::Nothing, "tell that there is no such drive")?;
    let first = begun("a", None);
    keeper.begin(&first).await?;
    keeper.add("a", 0, &piece(10)).await?;
    keeper.add("a", 1, &piece(5)).await?;
    must(keeper.add("a", 1, &piece(9)).await.is_err(), "never write over a piece")?;
    let whole = CutDrive::of(first.clone(), vec![piece(10), piece(5)]);
    must(drive(keeper, "a").await? == Found::Cut(whole.clone()), "give a drive back as it was")?;
    // A name that begins like another, and one that comes after it in the order of characters.
    for name in ["a/", "a0", "ab"] {
        keeper.begin(&begun(name, None)).await?;
        keeper.add(name, 0, &piece(1)).await?;
    }
    keeper.drop_drive("ab").await?;
    keeper.drop_drive("a0").await?;
    keeper.drop_drive("a/").await?;
    must(drive(keeper, "a").await? == Found::Cut(whole.clone()), "drop one drive and no other")?;
    keeper.begin(&begun("b", None)).await?;
    keeper.add("b", 1, &piece(1)).await?;
    must(drive(keeper, "b").await? == Found::Unreadable, "tell that a piece is missing")?;
    let cut = cut_drives(keeper, &[], &[]).await?;
    must(cut.drives == [whole] && cut.unreadable == 1, "list what was cut off")?;
    let held = cut_drives(keeper, &[], &["a".to_owned()]).await?;
    must(held.drives.is_empty() && held.others, "leave out what somebody is driving")?;
    keeper.drop_drive("a").await?;
    keeper.drop_drive("b").await?;
    keeper.begin(&first).await?;
    must(drive(keeper, "a").await? == Found::Cut(CutDrive::of(first, vec![])), "drop all pieces")?;
    keeper.drop_drive("a").await
}

async fn attempts(keeper: &impl Keeper) -> Result<(), String> {
    keeper.begin(&begun("a", None)).await?;
    keeper.add("a", 0, &piece(10)).await?;
    keeper.keep(&attempt("a"), "run a").await?;
    must(drive(keeper, "a").await? == Found::Nothing, "put an attempt in place of its drive")?;
    keeper.keep(&attempt("b"), "run b").await?;
    must(keeper.attempts().await?.all == [attempt("a"), attempt("b")], "list attempts by name")?;
    must(keeper.run("b").await?.as_deref() == Some("run b"), "give a run back as it was")?;
    must(keeper.run("c").await?.is_none(), "tell that there is no such run")?;
    let learned = Attempt { simulation: Some(1), ..attempt("b") };
    keeper.amend(&learned).await?;
    must(keeper.attempts().await?.all.get(1) == Some(&learned), "write what was learned")?;
    must(keeper.run("b").await?.as_deref() == Some("run b"), "leave the run of what it amends")?;
    keeper.forget("b").await?;
    keeper.forget("none").await?;
    must(keeper.run("b").await?.is_none(), "forget a run with its attempt")?;
    must(keeper.attempts().await?.all == [attempt("a")], "forget one attempt and no other")?;
    keeper.forget("a").await
}

async fn sittings(keeper: &impl Keeper) -> Result<(), String> {
    let place = |part| Place { sitting: "s".to_owned(), part };
    keeper.keep_sitting(&taken("s")).await?;
    keeper.keep_sitting(&taken("t")).await?;
    let paused = Taken { pauses: 1, ..taken("s") };
    keeper.keep_sitting(&paused).await?;
    let kept = keeper.sittings().await?.all;
    must(kept == [paused, taken("t")], "keep a pre-test as it stands now")?;
    must(part(keeper, &place(0), &[]).await? == PartSoFar::Nothing, "tell that none is begun")?;
    let of_it = begun("p", Some(place(0)));
    keeper.begin(&of_it).await?;
    keeper.begin(&begun("q", Some(Place { sitting: "t".to_owned(), part: 0 }))).await?;
    let held = ["p".to_owned()];
    must(part(keeper, &place(0), &held).await? == PartSoFar::Elsewhere, "tell who drives a part")?;
    keeper.add("p", 0, &piece(3)).await?;
    let cut = PartSoFar::Cut(CutDrive::of(of_it, vec![piece(3)]));
    must(part(keeper, &place(0), &[]).await? == cut, "find the drive of a part")?;
    keeper.keep(&Attempt { place: Some(place(1)), ..attempt("a") }, "run a").await?;
    keeper.forget_sitting("s", &["a".to_owned()], &["p".to_owned()]).await?;
    let left = (keeper.sittings().await?.all, keeper.drives().await?.all.len());
    must(left == (vec![taken("t")], 1), "forget one pre-test with its parts and no other")?;
    let gone = keeper.run("a").await?.is_none() && drive(keeper, "p").await? == Found::Nothing;
    must(gone, "forget the parts with their pre-test")?;
    keeper.forget_sitting("t", &[], &["q".to_owned()]).await
}

async fn lessons(keeper: &impl Keeper) -> Result<(), String> {
    must(keeper.lessons().await?.all.is_empty(), "begin without lessons")?;
    keeper.keep_lesson(&taught("a")).await?;
    keeper.keep_lesson(&taught("b")).await?;
    let noted = Taught { note: "by the dock".to_owned(), ..taught("a") };
    keeper.keep_lesson(&noted).await?;
    must(keeper.lessons().await?.all == [noted, taught("b")], "keep a lesson as it stands now")?;
    keeper.forget_lesson("a").await?;
    keeper.forget_lesson("none").await?;
    must(keeper.lessons().await?.all == [taught("b")], "forget one lesson and no other")?;
    keeper.forget_lesson("b").await?;
    must(keeper.lessons().await?.all.is_empty(), "forget every lesson that is to be forgotten")
}

async fn trainings(keeper: &impl Keeper) -> Result<(), String> {
    must(keeper.trainings().await?.all.is_empty(), "begin without training records")?;
    let (a, b) = (Record::new("a", "Alder"), Record::new("b", "Birch"));
    keeper.keep_training(&a).await?;
    keeper.keep_training(&b).await?;
    let renamed = Record { operator: "Alder of the dock".to_owned(), ..a };
    keeper.keep_training(&renamed).await?;
    let kept = keeper.trainings().await?.all;
    must(kept == [renamed, b.clone()], "keep a training record as it stands now")?;
    keeper.forget_training("a").await?;
    keeper.forget_training("none").await?;
    must(keeper.trainings().await?.all == [b], "forget one training record and no other")?;
    keeper.forget_training("b").await
}

async fn site(keeper: &impl Keeper) -> Result<(), String> {
    must(keeper.site("rules").await?.is_none(), "tell that nothing is set")?;
    keeper.keep_site("rules", Some("{}")).await?;
    keeper.keep_site("other", Some("1")).await?;
    keeper.keep_site("rules", Some("{\"a\": 1}")).await?;
    let set = keeper.site("rules").await?;
    must(set.as_deref() == Some("{\"a\": 1}"), "keep what was set last")?;
    keeper.keep_site("rules", None).await?;
    keeper.keep_site("none", None).await?;
    must(keeper.site("rules").await?.is_none(), "take back what was set")?;
    must(keeper.site("other").await?.as_deref() == Some("1"), "take back one thing and no other")?;
    keeper.keep_site("other", None).await
}
