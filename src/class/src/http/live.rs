//! What is driven now: trainees note it, trainers watch it as it comes (server-sent events).

use std::collections::VecDeque;
use std::convert::Infallible;

use axum::extract::State;
use axum::http::StatusCode;
use axum::response::sse::{Event as Sse, KeepAlive, Sse as Stream};
use futures_util::stream;
use serde::Serialize;
use tokio::sync::broadcast::Receiver;
use tokio::sync::broadcast::error::RecvError;
use tokio::sync::watch;

use super::asked::Sent;
use super::refused::Sentence;
use super::session::{ForTrainee, ForTrainer};
use crate::events::{Event, What};
use crate::records::Note;
use crate::roles::{Done, Host, Teaches};

/// Note what is driven now
#[utoipa::path(put, path = "/api/live", security(("session" = ["trainee"])), request_body = Note,
    responses((status = 204), (status = 401, body = Sentence), (status = 403, body = Sentence),
    (status = 415, body = Sentence), (status = 422, body = Sentence),
    (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn note(
    ForTrainee(trainee): ForTrainee,
    Sent(note): Sent<Note>,
) -> Done<StatusCode> {
    trainee.note(&note).await?;
    Ok(StatusCode::NO_CONTENT)
}

/// Watch the class: `run-arrived` and `run-judged` with the run as lists show it, `live` with who drives what, `joined`
/// and `gone` with who, `look-again` when something was missed
#[utoipa::path(get, path = "/api/live",
    security(("session" = ["trainer"]), ("session" = ["owner"])),
    responses((status = 200, body = String, content_type = "text/event-stream"),
        (status = 401, body = Sentence), (status = 403, body = Sentence),
        (status = 429, body = Sentence), (status = 503, body = Sentence)))]
pub(super) async fn watch(
    State(host): State<Host>,
    ForTrainer(trainer): ForTrainer,
) -> Done<Stream<impl stream::Stream<Item = Result<Sse, Infallible>>>> {
    // First listen, then look: nothing falls between.
    let events = trainer.events();
    let now = trainer.live().await?;
    let first = now.iter().filter_map(|live| event("live", live)).collect();
    let watching = Watching { trainer, events, ends: host.ends.clone(), first };
    let stream = stream::unfold(watching, |mut watching| async move {
        watching.next().await.map(|event| (Ok(event), watching))
    });
    Ok(Stream::new(stream).keep_alive(KeepAlive::default()))
}

fn event(name: &str, data: &impl Serialize) -> Option<Sse> {
    Sse::default().event(name).json_data(data).ok()
}

/// One trainer's page that watches.
struct Watching {
    trainer: Box<dyn Teaches>,
    events: Receiver<Event>,
    ends: watch::Receiver<bool>,
    first: VecDeque<Sse>,
}

/// A run that was judged, and how many wait.
#[derive(Serialize)]
struct Judged {
    #[serde(flatten)]
    run: crate::records::Listed,
    waiting: i64,
}

#[derive(Serialize)]
struct Who {
    person: String,
    name: String,
}

impl Watching {
    /// What happens next; None at the end.
    async fn next(&mut self) -> Option<Sse> {
        if let Some(first) = self.first.pop_front() {
            return Some(first);
        }
        loop {
            let said = tokio::select! {
                said = self.events.recv() => said,
                // Whoever could say so is gone: the same.
                _ = self.ends.wait_for(|ends| *ends) => return None,
            };
            let look_again = || event("look-again", &());
            match said {
                Ok(said) if said.class == self.trainer.class_id() => {
                    // What cannot be looked up now is looked up by the page.
                    match self.told(said.what).await {
                        Ok(Some(event)) => return Some(event),
                        Ok(None) => {}
                        Err(_) => return look_again(),
                    }
                }
                Ok(_) => {}
                Err(RecvError::Lagged(_)) => return look_again(),
                Err(RecvError::Closed) => return None,
            }
        }
    }

    async fn told(&self, what: What) -> Done<Option<Sse>> {
        Ok(match what {
            What::Arrived { run } => {
                let run = self.trainer.listed(&run).await?;
                run.and_then(|run| event("run-arrived", &run))
            }
            What::Judged { run } => {
                let waiting = self.trainer.waiting().await?;
                let run = self.trainer.listed(&run).await?;
                run.and_then(|run| event("run-judged", &Judged { run, waiting }))
            }
            What::Live { person } => {
                let live = self.trainer.live_of(&person).await?;
                live.and_then(|live| event("live", &live))
            }
            What::Joined { person } => {
                let people = self.trainer.people().await?;
                let who = people.into_iter().find(|member| member.person == person);
                who.and_then(|who| event("joined", &Who { person, name: who.name }))
            }
            What::Gone { person } => event("gone", &Who { person, name: String::new() }),
        })
    }
}
