//! What a debrief needs beside the attempt, on the screen and on paper: the rules and the course, which
//! travel in the run file, and the path, which only driving the run again gives. It is kept with the
//! attempt then, so that lists can draw it too.

use std::sync::Arc;

use coneyard_core::checks::sheet::WalkShown;
use coneyard_core::class::thinned;
use coneyard_core::reading::{Question, RulesShown, RunShown};
use leptos::prelude::*;

use crate::canvas;
use crate::files;
use crate::parts::round::is_practice_walk;
use crate::plan::Ground;
use crate::reader;
use crate::store::{Attempt, StoreDesk, use_store};
use crate::words::{k, say};

/// The page is shown before the run is driven again, which nothing else can come between.
const SHOW_FIRST: std::time::Duration = std::time::Duration::from_millis(50);

/// How far it has come.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum Phase {
    /// The run is being driven again.
    Working,
    /// All is there.
    Ready,
    /// What is missing, and why; the rest can be printed.
    Trouble(String),
}

/// What was in the run file, and the path.
#[derive(Clone, Copy)]
pub(crate) struct Papers {
    /// How far it has come.
    pub(crate) phase: RwSignal<Phase>,
    /// The rules the run was judged by.
    pub(crate) rules: RwSignal<Option<RulesShown>>,
    /// The course it was driven on.
    pub(crate) ground: RwSignal<Option<Ground>>,
    /// The path of the platform's middle, yard frame, m.
    pub(crate) path: RwSignal<Vec<[f32; 2]>>,
    /// The walk-round with which it began.
    pub(crate) walk: RwSignal<Option<Arc<WalkShown>>>,
    /// It is judged by the rules that it was driven under: its findings have the numbers that a replay gives them.
    pub(crate) as_driven: bool,
}

/// Begins to fetch all of it. The yard is loaded for the path only where there is one that is not known yet.
pub(crate) fn of(attempt: &Attempt) -> Papers {
    if is_practice_walk(attempt) {
        return only_read(attempt);
    }
    let papers = Papers::of(attempt);
    let store = use_store();
    let attempt = attempt.clone();
    leptos::task::spawn_local(async move {
        match read(papers, store, &attempt).await {
            Ok(_) if !attempt.line.is_empty() => papers.finish(Ok(())),
            Ok((run, simulation)) => set_timeout(
                move || {
                    leptos::task::spawn_local(async move {
                        papers.finish(drive(papers, store, attempt, &run, simulation).await);
                    });
                },
                SHOW_FIRST,
            ),
            Err(why) => papers.finish(Err(why)),
        }
    });
    papers
}

/// The same without the path: nothing is driven for it.
pub(crate) fn only_read(attempt: &Attempt) -> Papers {
    let papers = Papers::of(attempt);
    let store = use_store();
    let attempt = attempt.clone();
    leptos::task::spawn_local(async move {
        papers.finish(read(papers, store, &attempt).await.map(drop));
    });
    papers
}

impl Papers {
    fn of(attempt: &Attempt) -> Self {
        Self {
            phase: RwSignal::new(Phase::Working),
            rules: RwSignal::new(None),
            ground: RwSignal::new(None),
            path: RwSignal::new(attempt.line.clone()),
            walk: RwSignal::new(None),
            as_driven: attempt.judged_again.is_none(),
        }
    }

    /// The page may have been left in the meantime; then nothing is set.
    fn finish(self, done: Result<(), String>) {
        self.phase.try_set(match done {
            Ok(()) => Phase::Ready,
            Err(why) => Phase::Trouble(why),
        });
    }
}

/// Reads what stands in the run file, with the rules that the attempt is judged by; gives its text, and the simulation
/// that made it.
async fn read(
    papers: Papers,
    store: StoreDesk,
    attempt: &Attempt,
) -> Result<(String, u32), String> {
    let id = &attempt.id;
    let run = store.run(id).await?.ok_or_else(|| say(k("run-not-there")))?;
    let changed = attempt.verdict.debrief.changed_rules.clone();
    let question = match &attempt.judged_again {
        None => Question::Run(id.clone(), run.clone(), changed),
        Some(again) => Question::RunBy(id.clone(), run.clone(), changed, again.rules.clone()),
    };
    let shown: RunShown = reader::ask(&question).await?;
    papers.rules.try_set(Some(shown.rules));
    papers.walk.try_set(shown.walk.map(Arc::new));
    papers.ground.try_set(Some(Ground::read(id, &shown.course)?));
    Ok((run, shown.simulation))
}

/// Has the yard drive the run again, as a replay does, and keeps the path.
async fn drive(
    papers: Papers,
    store: StoreDesk,
    mut attempt: Attempt,
    run: &str,
    simulation: u32,
) -> Result<(), String> {
    files::can_be_driven_again(simulation)?;
    canvas::load().await?;
    // Left in the meantime: what another page has opened stays open.
    if papers.phase.is_disposed() {
        return Ok(());
    }
    let opened = canvas::open_replay(run).map_err(reader::in_english)?;
    canvas::close()?;
    attempt.line = thinned(&opened.traces.path);
    papers.path.set(attempt.line.clone());
    store.learn(attempt).await;
    Ok(())
}
