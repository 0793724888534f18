//! The contract of a store, held by both.

use std::collections::BTreeSet;
use std::sync::Arc;

use coneyard_class::clock;
use coneyard_class::events::What;
use coneyard_class::records::{Edited, Handed, NewRun, Note, Role, Session, State};
use coneyard_class::store::Store;
use coneyard_core::run::file::SIMULATION;

use super::stores::{Kept, class, file, id, judged, new_run, on_both, person};

on_both![
    a_name_is_one_person_however_it_is_written,
    sessions_begin_and_end,
    a_run_is_kept_once_and_comes_back_byte_by_byte,
    the_newest_runs_come_in_the_order_of_their_arrival,
    a_board_is_the_same_of_briefs_and_of_records_from_before_there_were_any,
    a_board_that_is_kept_follows_what_is_written_elsewhere,
    two_hundred_deliveries_of_one_run_are_one,
    each_run_is_claimed_by_one_and_marked_once,
    what_is_claimed_and_dropped_is_free_again,
    a_person_who_is_deleted_is_deleted_everywhere,
    nobody_sees_what_is_of_another_class,
    who_writes_at_the_same_time_is_told,
    every_seat_is_handed_out_once,
    what_happens_is_told_to_every_host,
    what_is_kept_is_there_when_it_is_opened_again,
    passphrases_are_exchanged_and_old_sessions_end,
    runs_of_another_simulation_are_marked_and_kept,
];

async fn a_name_is_one_person_however_it_is_written(kept: Kept) {
    let (class, _) = class(&kept.store, "Cedar").await;
    let rowan = person(&kept.store, &class, "Rowan Álamo").await;
    let again = person(&kept.store, &class, "rowan álamo").await;
    assert_eq!(rowan, again);
    assert_ne!(rowan.id, person(&kept.store, &class, "Rowan").await.id);
    let people = kept.store.people(&class.id).await.unwrap();
    let names: Vec<_> = people.iter().map(|p| p.name.as_str()).collect();
    assert_eq!(names, ["Rowan", "Rowan Álamo"]);
}

async fn sessions_begin_and_end(kept: Kept) {
    let (class, _) = class(&kept.store, "Cedar").await;
    let store = &kept.store;
    let trainer = Session { class: class.id.clone(), role: Role::Trainer, person: None };
    store.enter(&trainer, "a", 1000).await.unwrap();
    assert_eq!(store.session("a", 999).await.unwrap(), Some(trainer));
    assert_eq!(store.session("a", 1000).await.unwrap(), None);
    assert_eq!(store.session("b", 0).await.unwrap(), None);
    store.leave("a", 0).await.unwrap();
    assert_eq!(store.session("a", 0).await.unwrap(), None);
    store.leave("a", 0).await.unwrap();
}

async fn a_run_is_kept_once_and_comes_back_byte_by_byte(kept: Kept) {
    let (class, _) = class(&kept.store, "Cedar").await;
    let rowan = person(&kept.store, &class, "Rowan").await;
    let elm = person(&kept.store, &class, "Elm").await;
    let bytes = b"\0 no run \xff".to_vec();
    let run = new_run(&class, &rowan, &bytes);
    let first = kept.store.keep(&run).await.unwrap();
    assert!(first.new && first.state == State::Unreadable);
    let second = kept.store.keep(&run).await.unwrap();
    assert!(!second.new && second.state == State::Unreadable);
    // Whoever delivers it after that does not make it theirs.
    assert!(!kept.store.keep(&new_run(&class, &elm, &bytes)).await.unwrap().new);
    let got = kept.store.run(&class.id, Some(&rowan.id), &run.id).await.unwrap();
    assert_eq!(got.as_deref(), Some(&bytes[..]));
    assert_eq!(kept.store.run(&class.id, Some(&elm.id), &run.id).await.unwrap(), None);
    let runs = kept.store.runs(&class.id, None, None).await.unwrap();
    assert_eq!(runs.len(), 1);
    assert!(runs[0].reason.is_some() && runs[0].name == "Rowan", "{runs:?}");
    assert_eq!(kept.store.check().await.unwrap(), Vec::<String>::new());
}

async fn two_hundred_deliveries_of_one_run_are_one(kept: Kept) {
    let (class, _) = class(&kept.store, "Cedar").await;
    let rowan = person(&kept.store, &class, "Rowan").await;
    let run = Arc::new(new_run(&class, &rowan, &file(1, "Rowan", 64)));
    let tasks: Vec<_> = (0..200)
        .map(|_| {
            let (store, run) = (kept.store.clone(), run.clone());
            tokio::spawn(async move { store.keep(&run).await.unwrap().new })
        })
        .collect();
    let mut new = 0;
    for task in tasks {
        new += usize::from(task.await.unwrap());
    }
    assert_eq!(new, 1);
    assert_eq!(kept.store.runs(&class.id, None, None).await.unwrap().len(), 1);
    assert_eq!(kept.store.queue(SIMULATION).await.unwrap().waiting, 1);
}

async fn each_run_is_claimed_by_one_and_marked_once(kept: Kept) {
    let (class, _) = class(&kept.store, "Cedar").await;
    let rowan = person(&kept.store, &class, "Rowan").await;
    for seed in 0..40 {
        kept.store.keep(&new_run(&class, &rowan, &file(seed, "Rowan", 8))).await.unwrap();
    }
    // On PostgreSQL the second is another program's.
    let other = match kept.address.starts_with("postgres") {
        true => kept.again().await,
        false => kept.store.clone(),
    };
    let tasks: Vec<_> = [kept.store.clone(), other.clone(), kept.store.clone(), other]
        .into_iter()
        .map(|store| {
            tokio::spawn(async move {
                let mut mine = Vec::new();
                while let Some(claim) = store.claim(SIMULATION).await.unwrap() {
                    mine.push(claim.job().run.clone());
                    claim.done(&judged(), clock::now()).await.unwrap();
                }
                mine
            })
        })
        .collect();
    let mut all = Vec::new();
    for task in tasks {
        all.extend(task.await.unwrap());
    }
    assert_eq!(all.len(), 40);
    assert_eq!(all.iter().collect::<BTreeSet<_>>().len(), 40);
    let queue = kept.store.queue(SIMULATION).await.unwrap();
    assert_eq!((queue.waiting, queue.judged, queue.most_marks), (0, 40, 1));
    let runs = kept.store.runs(&class.id, None, None).await.unwrap();
    assert!(runs.iter().all(|run| run.state == State::Judged && run.total == Some(88.5)));
}

async fn what_is_claimed_and_dropped_is_free_again(kept: Kept) {
    let (class, _) = class(&kept.store, "Cedar").await;
    let rowan = person(&kept.store, &class, "Rowan").await;
    kept.store.keep(&new_run(&class, &rowan, &file(1, "Rowan", 8))).await.unwrap();
    let claim = kept.store.claim(SIMULATION).await.unwrap().unwrap();
    assert!(kept.store.claim(SIMULATION).await.unwrap().is_none(), "it is held");
    assert!(kept.store.claim(SIMULATION + 1).await.unwrap().is_none(), "it is of this simulation");
    drop(claim);
    for _ in 0..100 {
        if let Some(claim) = kept.store.claim(SIMULATION).await.unwrap() {
            assert_eq!(claim.job().person, rowan.id);
            return;
        }
        tokio::time::sleep(std::time::Duration::from_millis(50)).await;
    }
    panic!("it is still held");
}

async fn a_person_who_is_deleted_is_deleted_everywhere(kept: Kept) {
    let (class, _) = class(&kept.store, "Cedar").await;
    let store = &kept.store;
    let rowan = person(store, &class, "Rowan").await;
    let elm = person(store, &class, "Elm").await;
    let session =
        Session { class: class.id.clone(), role: Role::Trainee, person: Some(rowan.clone()) };
    store.enter(&session, "rowans", clock::now() + 100_000).await.unwrap();
    for (who, seed) in [(&rowan, 1), (&rowan, 2), (&elm, 3)] {
        store.keep(&new_run(&class, who, &file(seed, "Rowan", 8))).await.unwrap();
    }
    let note =
        Note { course: "bays".into(), truck: "single".into(), seconds: 1.0, step: 0, findings: 0 };
    store.note(&class.id, &rowan.id, &note, clock::now()).await.unwrap();
    let new = Handed {
        id: "sitting".into(),
        person: rowan.id.clone(),
        truck: "single".into(),
        word: String::new(),
        seat: 0,
        made: 1,
    };
    store.hand_out(&class.id, &new).await.unwrap();
    let text = Edited { edition: 0, text: "{}".to_owned() };
    assert_eq!(store.keep_training(&class.id, &rowan.id, &text).await.unwrap(), Some(1));
    let first = new_run(&class, &rowan, &file(1, "Rowan", 8)).id;
    assert_eq!(store.keep_remarks(&class.id, None, &first, &text).await.unwrap(), Some(1));
    // One of theirs is being judged meanwhile.
    let claim = store.claim(SIMULATION).await.unwrap().unwrap();
    let forgetting = {
        let (store, class, rowan) = (store.clone(), class.id.clone(), rowan.id.clone());
        tokio::spawn(async move { store.forget(&class, &rowan).await })
    };
    tokio::time::sleep(std::time::Duration::from_millis(300)).await;
    claim.done(&judged(), clock::now()).await.unwrap();
    assert!(forgetting.await.unwrap().unwrap());
    assert!(!store.forget(&class.id, &rowan.id).await.unwrap(), "there is nobody more");
    assert_eq!(store.session("rowans", clock::now()).await.unwrap(), None);
    assert_eq!(store.runs(&class.id, Some(&rowan.id), None).await.unwrap(), []);
    assert_eq!(store.runs(&class.id, None, None).await.unwrap().len(), 1);
    assert_eq!(store.handed(&class.id, None).await.unwrap(), []);
    assert_eq!(store.live(&class.id, 0).await.unwrap(), []);
    assert_eq!(store.trainings(&class.id).await.unwrap(), []);
    assert_eq!(store.remarks(&class.id, None, &first).await.unwrap(), None);
    let queue = store.queue(SIMULATION).await.unwrap();
    assert_eq!((queue.waiting, queue.judged), (1, 0));
    assert_eq!(store.check().await.unwrap(), Vec::<String>::new());
}

async fn nobody_sees_what_is_of_another_class(kept: Kept) {
    let store = &kept.store;
    let (cedar, _) = class(store, "Cedar").await;
    let (birch, _) = class(store, "Birch").await;
    let rowan = person(store, &cedar, "Rowan").await;
    let other = person(store, &birch, "Rowan").await;
    assert_ne!(rowan.id, other.id);
    let run = new_run(&cedar, &rowan, &file(1, "Rowan", 8));
    store.keep(&run).await.unwrap();
    assert_eq!(store.runs(&birch.id, None, None).await.unwrap(), []);
    assert_eq!(store.run(&birch.id, None, &run.id).await.unwrap(), None);
    assert_eq!(store.listed(&birch.id, None, &run.id).await.unwrap(), None);
    assert!(!store.forget(&birch.id, &rowan.id).await.unwrap());
    // The same file in the other class is another delivery.
    let there = new_run(&birch, &other, &run.bytes);
    assert!(store.keep(&there).await.unwrap().new);
    assert_eq!(store.class_of_code(&birch.code).await.unwrap().map(|c| c.id), Some(birch.id));
    assert_eq!(store.class_of_code("none").await.unwrap(), None);
}

/// Of twenty who have seen the same edition one is kept, and the others hear of it; what they say is of their class,
/// and theirs.
async fn who_writes_at_the_same_time_is_told(kept: Kept) {
    let (class_, _) = class(&kept.store, "Cedar").await;
    let (other, _) = class(&kept.store, "Birch").await;
    let rowan = person(&kept.store, &class_, "Rowan").await;
    let elm = person(&kept.store, &class_, "Elm").await;
    let run = new_run(&class_, &rowan, &file(1, "Rowan", 8));
    kept.store.keep(&run).await.unwrap();
    let edited = |edition, text: &str| Edited { edition, text: text.to_owned() };
    for round in 0..3 {
        let tasks: Vec<_> = (0..20)
            .map(|n| {
                let (store, class, rowan, run) =
                    (kept.store.clone(), class_.id.clone(), rowan.id.clone(), run.id.clone());
                tokio::spawn(async move {
                    let text = Edited { edition: round, text: format!("{round}/{n}") };
                    let training = store.keep_training(&class, &rowan, &text).await.unwrap();
                    (training, store.keep_remarks(&class, Some(&rowan), &run, &text).await.unwrap())
                })
            })
            .collect();
        let (mut trainings, mut remarks) = (Vec::new(), Vec::new());
        for task in tasks {
            let (training, said) = task.await.unwrap();
            trainings.extend(training);
            remarks.extend(said);
        }
        assert_eq!((trainings, remarks), (vec![round + 1], vec![round + 1]));
    }
    let store = &kept.store;
    let is = store.training(&class_.id, &rowan.id).await.unwrap().unwrap();
    assert!(is.edition == 3 && is.text.starts_with("2/"), "{is:?}");
    assert_eq!(store.trainings(&class_.id).await.unwrap(), [(rowan.id.clone(), is)]);
    let said = store.remarks(&class_.id, Some(&rowan.id), &run.id).await.unwrap().unwrap();
    assert!(said.edition == 3 && said.text.starts_with("2/"), "{said:?}");
    // Another's run, another class's run and person, and one that is not there.
    let keep = edited(0, "x");
    assert_eq!(
        store.keep_remarks(&class_.id, Some(&elm.id), &run.id, &edited(3, "x")).await.unwrap(),
        None
    );
    assert_eq!(store.keep_remarks(&other.id, None, &run.id, &keep).await.unwrap(), None);
    assert_eq!(store.keep_remarks(&class_.id, None, "none", &keep).await.unwrap(), None);
    assert_eq!(store.keep_training(&other.id, &rowan.id, &edited(3, "x")).await.unwrap(), None);
    assert_eq!(store.keep_training(&class_.id, "none", &keep).await.unwrap(), None);
    assert_eq!(store.training(&other.id, &rowan.id).await.unwrap(), None);
    assert_eq!(store.remarks(&class_.id, Some(&elm.id), &run.id).await.unwrap(), None);
    assert_eq!(store.check().await.unwrap(), Vec::<String>::new());
}

async fn every_seat_is_handed_out_once(kept: Kept) {
    let (class, _) = class(&kept.store, "Cedar").await;
    let rowan = person(&kept.store, &class, "Rowan").await;
    let tasks: Vec<_> = (0..60)
        .map(|i| {
            let (store, class, person) = (kept.store.clone(), class.id.clone(), rowan.id.clone());
            let new = Handed {
                id: format!("{i}"),
                person,
                truck: "single".into(),
                word: String::new(),
                seat: 0,
                made: i,
            };
            tokio::spawn(async move { store.hand_out(&class, &new).await.unwrap() })
        })
        .collect();
    let mut seats = BTreeSet::new();
    for task in tasks {
        let handed = task.await.unwrap();
        assert_eq!(handed.word, class.word);
        seats.insert(handed.seat);
    }
    assert_eq!(seats, (0..60).collect());
    assert_eq!(kept.store.handed(&class.id, Some(&rowan.id)).await.unwrap().len(), 60);
}

async fn what_happens_is_told_to_every_host(kept: Kept) {
    let other = match kept.address.starts_with("postgres") {
        true => kept.again().await,
        false => kept.store.clone(),
    };
    let mut events = other.events();
    // The other's ear is open a moment after it is.
    tokio::time::sleep(std::time::Duration::from_millis(400)).await;
    let (class, _) = class(&kept.store, "Cedar").await;
    let rowan = person(&kept.store, &class, "Rowan").await;
    person(&kept.store, &class, "ROWAN").await;
    let run = new_run(&class, &rowan, &file(1, "Rowan", 8));
    kept.store.keep(&run).await.unwrap();
    kept.store.keep(&run).await.unwrap();
    kept.store.claim(SIMULATION).await.unwrap().unwrap().done(&judged(), 5).await.unwrap();
    let expected = [
        What::Joined { person: rowan.id.clone() },
        What::Arrived { run: run.id.clone() },
        What::Judged { run: run.id.clone() },
    ];
    for what in expected {
        let said = tokio::time::timeout(std::time::Duration::from_secs(5), events.recv()).await;
        let said = said.unwrap().unwrap();
        assert_eq!((said.class, said.what), (class.id.clone(), what));
    }
    assert!(events.try_recv().is_err(), "nothing else happened");
}

async fn what_is_kept_is_there_when_it_is_opened_again(kept: Kept) {
    let (class, _) = class(&kept.store, "Cedar").await;
    let rowan = person(&kept.store, &class, "Rowan").await;
    let run = new_run(&class, &rowan, &file(1, "Rowan", 8));
    kept.store.keep(&run).await.unwrap();
    let on_file = !kept.address.starts_with("postgres");
    if on_file {
        // As if the host had been killed while it judged; on PostgreSQL a claim is a connection, and falls with it.
        std::mem::forget(kept.store.claim(SIMULATION).await.unwrap().unwrap());
    }
    kept.store.close().await;
    let store: Arc<dyn Store> = kept.again().await;
    assert_eq!(store.runs(&class.id, None, None).await.unwrap().len(), 1);
    assert_eq!(store.claim(SIMULATION).await.unwrap().is_none(), on_file);
    store.begin_judging(SIMULATION, "stale").await.unwrap();
    assert_eq!(store.claim(SIMULATION).await.unwrap().unwrap().job().run, id(&run.bytes));
}

async fn passphrases_are_exchanged_and_old_sessions_end(kept: Kept) {
    let store = &kept.store;
    let (class, _) = class(store, "Cedar").await;
    let session = |role| Session { class: class.id.clone(), role, person: None };
    store.enter(&session(Role::Trainer), "trainer", 100).await.unwrap();
    store.enter(&session(Role::Owner), "owner", 100).await.unwrap();
    store.set_passphrase(&class.id, "other").await.unwrap();
    assert_eq!(store.class(&class.id).await.unwrap().unwrap().passphrase, "other");
    assert_eq!(store.session("trainer", 0).await.unwrap(), None);
    assert!(store.session("owner", 0).await.unwrap().is_some());
    assert_eq!(store.owner().await.unwrap(), None);
    for said in ["one", "two"] {
        store.set_owner(said).await.unwrap();
        assert_eq!(store.owner().await.unwrap().as_deref(), Some(said));
    }
    assert_eq!(store.session("owner", 0).await.unwrap(), None);
}

async fn runs_of_another_simulation_are_marked_and_kept(kept: Kept) {
    let (class, _) = class(&kept.store, "Cedar").await;
    let rowan = person(&kept.store, &class, "Rowan").await;
    let run = new_run(&class, &rowan, &file(1, "Rowan", 8));
    kept.store.keep(&run).await.unwrap();
    kept.store.begin_judging(SIMULATION + 1, "another made it").await.unwrap();
    let listed = kept.store.listed(&class.id, None, &run.id).await.unwrap().unwrap();
    assert_eq!(
        (listed.state, listed.reason.as_deref()),
        (State::Unreadable, Some("another made it"))
    );
    assert_eq!(listed.course, "straight");
    assert!(kept.store.run(&class.id, None, &run.id).await.unwrap().is_some());
}

async fn the_newest_runs_come_in_the_order_of_their_arrival(kept: Kept) {
    let (class, _) = class(&kept.store, "Cedar").await;
    let rowan = person(&kept.store, &class, "Rowan").await;
    let elm = person(&kept.store, &class, "Elm").await;
    let mut all = Vec::new();
    for (i, who) in [&rowan, &elm, &rowan, &elm, &rowan].into_iter().enumerate() {
        let run = new_run(&class, who, format!("run {i}").as_bytes());
        // Delivered in another order than they arrived in, and two of them at the same time.
        let arrived = [50, 10, 30, 30, 20][i];
        kept.store.keep(&NewRun { arrived, ..run.clone() }).await.unwrap();
        all.push((arrived, run.id, who.id.clone()));
    }
    all.sort();
    let ids = async |who: Option<&str>, newest| -> Vec<String> {
        let runs = kept.store.runs(&class.id, who, newest).await.unwrap();
        runs.into_iter().map(|run| run.run).collect()
    };
    let meant = |who: Option<&str>, newest: usize| -> Vec<String> {
        let theirs = all.iter().filter(|(_, _, person)| who.is_none_or(|who| who == person));
        let mut ids: Vec<String> = theirs.map(|(_, id, _)| id.clone()).collect();
        ids.drain(..ids.len().saturating_sub(newest));
        ids
    };
    for who in [None, Some(rowan.id.as_str())] {
        assert_eq!(ids(who, None).await, meant(who, usize::MAX));
        for newest in [0, 1, 2, 3, 9] {
            assert_eq!(
                ids(who, Some(newest)).await,
                meant(who, newest as usize),
                "{who:?} {newest}"
            );
        }
    }
}

/// What was judged before there were briefs, or with another version of them, counts all the same; what cannot be read
/// is left out and spoils nothing.
async fn a_board_is_the_same_of_briefs_and_of_records_from_before_there_were_any(kept: Kept) {
    let (class, _) = class(&kept.store, "Cedar").await;
    let (other, _) = super::stores::class(&kept.store, "Elder").await;
    let rowan = person(&kept.store, &class, "Rowan").await;
    let elm = person(&kept.store, &class, "Elm").await;
    let stranger = person(&kept.store, &other, "Stranger").await;
    let mut seed = 0;
    let mut runs = Vec::new();
    for who in [&rowan, &elm, &rowan, &stranger] {
        seed += 1;
        let bytes = file(seed, "a name in the file", 400);
        let of = if who.id == stranger.id { &other } else { &class };
        runs.push(new_run(of, who, &bytes));
    }
    for run in &runs {
        kept.store.keep(run).await.unwrap();
    }
    while let Some(claim) = kept.store.claim(SIMULATION).await.unwrap() {
        let about = coneyard_class::judging::judge(claim.job());
        assert!(about.brief.is_some());
        claim.done(&about, clock::now()).await.unwrap();
    }
    let teaches = coneyard_class::roles::teaches(kept.store.clone(), &class.id);
    let board = teaches.board().await.unwrap();
    let rows: Vec<_> = board.rows.iter().map(|r| (r.who.as_str(), r.drives)).collect();
    assert_eq!((board.drives, rows), (3, vec![("Elm", 1), ("Rowan", 2)]));
    assert!(board.missed.iter().all(|m| runs[..3].iter().any(|run| run.id == m.attempt)));
    assert!(!board.missed.is_empty() || !board.rows[0].skills.is_empty(), "something is shown");

    // As a host finds it that has just been started.
    let anew = async || {
        let teaches = coneyard_class::roles::teaches(kept.store.clone(), &class.id);
        teaches.board().await.unwrap()
    };
    for older in [
        "UPDATE attempts SET brief = NULL, brief_form = NULL",
        "UPDATE attempts SET brief_form = 0",
    ] {
        kept.raw(older).await;
        assert_eq!(anew().await, board, "{older}");
    }
    kept.raw("UPDATE attempts SET brief = 'nonsense', brief_form = 1 WHERE run = (SELECT MIN(run) FROM attempts)").await;
    assert!(anew().await.drives >= 2, "the others are there");
}

/// What a host keeps of a class between two questions follows whatever others write: after every step, and after many
/// at the same time, it is what is read anew.
async fn a_board_that_is_kept_follows_what_is_written_elsewhere(kept: Kept) {
    let (class, _) = class(&kept.store, "Cedar").await;
    // Another program, on PostgreSQL another computer's.
    let elsewhere = kept.again().await;
    let held = coneyard_class::roles::teaches(kept.store.clone(), &class.id);
    let follows = async |drives: usize, what: &str| {
        let board = held.board().await.unwrap();
        assert_eq!(board.drives, drives, "{what}");
        let anew = coneyard_class::roles::teaches(kept.store.clone(), &class.id);
        assert_eq!(board, anew.board().await.unwrap(), "{what}");
    };
    let judge = async |store: &Arc<dyn Store>| {
        while let Some(claim) = store.claim(SIMULATION).await.unwrap() {
            let about = coneyard_class::judging::judge(claim.job());
            claim.done(&about, clock::now()).await.unwrap();
        }
    };
    follows(0, "nothing").await;
    let rowan = person(&elsewhere, &class, "Rowan").await;
    let elm = person(&elsewhere, &class, "Elm").await;
    elsewhere.keep(&new_run(&class, &rowan, &file(1, "Rowan", 300))).await.unwrap();
    follows(0, "arrived").await;
    judge(&elsewhere).await;
    follows(1, "judged").await;
    let at = kept.store.briefs(&class.id, None).await.unwrap();
    assert!(at.all && at.rows.len() == 1);
    let since = kept.store.briefs(&class.id, Some(at.change)).await.unwrap();
    assert_eq!((since.all, since.change, since.rows.len()), (false, at.change, 0), "unchanged");
    for seed in 2..5 {
        elsewhere.keep(&new_run(&class, &elm, &file(seed, "Elm", 300))).await.unwrap();
    }
    judge(&elsewhere).await;
    let since = kept.store.briefs(&class.id, Some(at.change)).await.unwrap();
    assert_eq!((since.all, since.rows.len()), (false, 3), "only what is new");
    follows(4, "three more").await;
    elsewhere.forget(&class.id, &elm.id).await.unwrap();
    follows(1, "somebody deleted").await;
    elsewhere.keep(&new_run(&class, &rowan, &file(9, "Rowan", 300))).await.unwrap();
    judge(&elsewhere).await;
    follows(2, "after that").await;

    // Four deliver and judge, one deletes, and the board is asked for all the while.
    let writers: Vec<_> = (0..4_u32)
        .map(|n| {
            let (store, class) =
                (if n % 2 == 0 { &kept.store } else { &elsewhere }.clone(), class.clone());
            tokio::spawn(async move {
                let birch = person(&store, &class, &format!("Birch {n}")).await;
                for seed in 0..6 {
                    let bytes = file(100 * (n + 1) + seed, "Birch", 60);
                    store.keep(&new_run(&class, &birch, &bytes)).await.unwrap();
                    if let Some(claim) = store.claim(SIMULATION).await.unwrap() {
                        let about = coneyard_class::judging::judge(claim.job());
                        claim.done(&about, clock::now()).await.unwrap();
                    }
                    if n == 3 && seed == 3 {
                        store.forget(&class.id, &birch.id).await.unwrap();
                        return;
                    }
                }
            })
        })
        .collect();
    while writers.iter().any(|writer| !writer.is_finished()) {
        held.board().await.unwrap();
    }
    for writer in writers {
        writer.await.unwrap();
    }
    judge(&kept.store).await;
    follows(2 + 3 * 6, "many at the same time").await;
    elsewhere.close().await;
}
