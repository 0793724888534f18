//! The database goes away under load and comes back: 503 while it is away, nothing acknowledged lost, and all goes on by
//! itself, the judge too.
//!
//! `CONEYARD_RESTARTS` is the number of times (3).

use std::collections::BTreeSet;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use coneyard_class::work::work;
use tokio::sync::watch;

use super::asking::Asked;
use super::postgres::Server;
use super::stores::{Kept, file, id};

/// Browsers that deliver.
const BROWSERS: usize = 12;

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn a_database_that_is_restarted_under_load_loses_nothing() {
    let restarts = std::env::var("CONEYARD_RESTARTS").ok().and_then(|n| n.parse().ok());
    let server = Arc::new(tokio::task::spawn_blocking(Server::start).await.unwrap());
    let kept = Kept::at(server.database(1).await, None).await;
    let asked = Arc::new(Asked::host(kept.store.clone()).await);
    let (ends, ending) = watch::channel(false);
    tokio::spawn(work(kept.store.clone(), 1, Arc::default(), ending));
    let goes_on = Arc::new(AtomicBool::new(true));
    let mut browsers = Vec::new();
    for browser in 0..BROWSERS {
        let cookie = asked.join(&asked.class.code, &format!("Tree {browser}")).await;
        let (asked, goes_on) = (asked.clone(), goes_on.clone());
        browsers.push(tokio::spawn(async move {
            let (mut kept, mut away) = (BTreeSet::new(), 0);
            let mut run = 0;
            while goes_on.load(Ordering::Relaxed) {
                run += 1;
                let bytes = match run % 8 {
                    0 => file(run * 100 + browser as u32, "Rowan", 4),
                    _ => format!("{{\"browser\":{browser},\"run\":{run}}}").into_bytes(),
                };
                // As a browser does: again, until it is acknowledged.
                while goes_on.load(Ordering::Relaxed) {
                    let answer = asked.deliver(&cookie, &bytes).await;
                    match answer.status {
                        200 | 201 => {
                            kept.insert(id(&bytes));
                            break;
                        }
                        503 => {
                            answer.sentence();
                            away += 1;
                            tokio::time::sleep(Duration::from_millis(50)).await;
                        }
                        429 => tokio::time::sleep(Duration::from_millis(300)).await,
                        other => panic!("{other}: {answer:?}"),
                    }
                }
                tokio::time::sleep(Duration::from_millis(10)).await;
            }
            (kept, away)
        }));
    }
    for _ in 0..restarts.unwrap_or(3) {
        tokio::time::sleep(Duration::from_millis(600)).await;
        let server = server.clone();
        let restart = move || {
            server.down();
            std::thread::sleep(Duration::from_millis(400));
            server.up();
        };
        tokio::task::spawn_blocking(restart).await.unwrap();
    }
    tokio::time::sleep(Duration::from_secs(1)).await;
    goes_on.store(false, Ordering::Relaxed);
    let (mut kept_by_all, mut away) = (BTreeSet::new(), 0);
    for browser in browsers {
        let (kept, refused) = browser.await.unwrap();
        kept_by_all.extend(kept);
        away += refused;
    }
    assert!(away > 0, "it was noticed");
    let trainer = asked.enter(&asked.passphrase).await;
    for _ in 0..600 {
        let runs = asked.get("/api/runs", &trainer).await.json();
        let runs = runs.as_array().unwrap();
        let there: BTreeSet<_> =
            runs.iter().map(|run| run["run"].as_str().unwrap().to_owned()).collect();
        assert_eq!(there.len(), runs.len());
        let lost: Vec<_> = kept_by_all.difference(&there).collect();
        assert!(lost.is_empty(), "{lost:?}");
        if runs.iter().all(|run| run["state"] != "waiting") {
            println!("{} kept, {away} times away", there.len());
            assert!(runs.iter().any(|run| run["state"] == "judged"));
            let _ = ends.send(true);
            assert_eq!(kept.store.check().await.unwrap(), Vec::<String>::new());
            return;
        }
        tokio::time::sleep(Duration::from_millis(100)).await;
    }
    panic!("the judge does not go on");
}
