//! Who judges: some tasks that each claim a run, drive it again and mark it, until they are told to end.

use std::sync::Arc;
use std::sync::atomic::{AtomicU64, Ordering};
use std::time::{Duration, Instant};

use coneyard_core::run::file::SIMULATION;
use coneyard_core::time::TICK_RATE;
use tokio::sync::{broadcast, watch};
use tokio::task::JoinSet;

use crate::clock;
use crate::events::What;
use crate::judging::{judge, stale};
use crate::records::State;
use crate::store::{Claim, Store};

/// Whoever was not told that a run arrived looks after this time.
const LOOKS: Duration = Duration::from_secs(2);
/// A store that is away is asked again after this time.
const AGAIN: Duration = Duration::from_millis(500);

/// What was done so far.
#[derive(Debug, Default)]
pub struct Progress {
    judged: AtomicU64,
    not_as_said: AtomicU64,
    ticks: AtomicU64,
    millis: AtomicU64,
}

/// The same as numbers.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SoFar {
    /// Runs driven again.
    pub judged: u64,
    /// Those of them that did not come out as they say.
    pub not_as_said: u64,
    /// Simulated time over time that a core took; 0 before there was any.
    pub times_real_time: f64,
}

impl Progress {
    /// As it stands.
    pub fn so_far(&self) -> SoFar {
        let of = |count: &AtomicU64| count.load(Ordering::Relaxed);
        let seconds = of(&self.ticks) as f64 / f64::from(TICK_RATE);
        let took = of(&self.millis) as f64 / 1000.0;
        SoFar {
            judged: of(&self.judged),
            not_as_said: of(&self.not_as_said),
            times_real_time: if took > 0.0 { seconds / took } else { 0.0 },
        }
    }
}

/// Cores that may judge: all but one, which is left to whoever asks for something.
pub fn cores() -> usize {
    std::thread::available_parallelism().map_or(1, |cores| cores.get().saturating_sub(1).max(1))
}

/// Judges with so many tasks until `ends` says so. What is claimed then is free again.
pub async fn work(
    store: Arc<dyn Store>,
    judges: usize,
    progress: Arc<Progress>,
    mut ends: watch::Receiver<bool>,
) {
    let begin = async {
        while store.begin_judging(SIMULATION, &stale()).await.is_err() {
            tokio::time::sleep(AGAIN).await;
        }
        let mut tasks = JoinSet::new();
        for _ in 0..judges {
            let events = store.events();
            tasks.spawn(one(store.clone(), progress.clone(), events));
        }
        while tasks.join_next().await.is_some() {}
    };
    tokio::select! {
        () = begin => {}
        // Dropped, the tasks drop their claims.
        _ = ends.wait_for(|ends| *ends) => {}
    }
}

async fn one(
    store: Arc<dyn Store>,
    progress: Arc<Progress>,
    mut events: broadcast::Receiver<crate::events::Event>,
) {
    loop {
        match store.claim(SIMULATION).await {
            Ok(Some(claim)) => {
                if let Err(away) = judge_one(claim, &progress).await {
                    eprintln!(
                        "coneyard: a run was driven again and could not be marked; it will be once more: {away}"
                    );
                    tokio::time::sleep(AGAIN).await;
                }
            }
            Ok(None) => arrived(&mut events).await,
            Err(_) => tokio::time::sleep(AGAIN).await,
        }
    }
}

/// Waits until a run arrives, or it is time to look.
async fn arrived(events: &mut broadcast::Receiver<crate::events::Event>) {
    let arrives = async {
        loop {
            match events.recv().await {
                Ok(event) if !matches!(event.what, What::Arrived { .. }) => {}
                Ok(_) | Err(broadcast::error::RecvError::Lagged(_)) => return,
                Err(broadcast::error::RecvError::Closed) => std::future::pending().await,
            }
        }
    };
    let _ = tokio::time::timeout(LOOKS, arrives).await;
}

async fn judge_one(claim: Box<dyn Claim>, progress: &Progress) -> Result<(), crate::store::Away> {
    let job = claim.job().clone();
    let began = Instant::now();
    // A task that is ended leaves the thread to finish for nothing: judging changes nothing but what is marked.
    let judged = tokio::task::spawn_blocking(move || judge(&job)).await;
    let Ok(about) = judged else { return Ok(()) };
    let took = began.elapsed();
    claim.done(&about, clock::now()).await?;
    let add = |count: &AtomicU64, more: u64| count.fetch_add(more, Ordering::Relaxed);
    add(&progress.judged, 1);
    add(&progress.ticks, u64::from(about.ticks));
    add(&progress.millis, u64::try_from(took.as_millis()).unwrap_or_default());
    if about.state != Some(State::Judged) {
        add(&progress.not_as_said, 1);
    }
    Ok(())
}
