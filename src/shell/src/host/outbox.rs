//! What was driven goes to the host: at once, or as soon as it can be reached. What is not marked as sent is
//! sent, again and again until the host has said that it is stored; there it counts once, whatever arrives
//! twice. So nothing has to be kept right but one mark, and a mark that is lost does no harm.

use std::time::Duration;

use coneyard_core::class::same_person;
use coneyard_core::reading::Question;
use leptos::prelude::*;
use serde::Deserialize;

use super::{HostDesk, Trouble, call};
use crate::canvas;
use crate::reader;
use crate::store::{Attempt, Store, StoreDesk};

/// One tab sends at a time.
const LOCK: &str = "coneyard-outbox";
/// After trouble it is tried again after this time, and each time after twice as long,
const FIRST_WAIT: Duration = Duration::from_secs(2);
/// at the most.
const LONGEST_WAIT: Duration = Duration::from_secs(60);

/// What the host says of a run that it has.
#[derive(Deserialize)]
struct Stored {
    run: String,
}

/// What has to be sent: this person's own drives that are not marked, oldest first.
fn due<'a>(
    attempts: &'a [Attempt],
    who: &'a str,
    sent: &'a [String],
) -> impl Iterator<Item = &'a Attempt> {
    attempts
        .iter()
        .filter(move |a| !a.imported && same_person(&a.who, who) && !sent.contains(&a.id))
}

/// Sends whenever something is finished, the network comes back, the page is looked at again, or a while
/// after trouble.
pub(crate) fn follow(host: HostDesk, store: StoreDesk) {
    let wakes = RwSignal::new(0_u32);
    let wait = StoredValue::new(FIRST_WAIT);
    let wake = move || {
        wakes.try_update(|n| *n = n.wrapping_add(1));
    };
    let back = window_event_listener(leptos::ev::online, move |_| {
        wait.set_value(FIRST_WAIT);
        wake();
    });
    let seen = window_event_listener_untyped("visibilitychange", move |_| wake());
    on_cleanup(move || {
        back.remove();
        seen.remove();
    });
    Effect::new(move |_| {
        wakes.track();
        let Some(who) = host.trainee() else {
            host.waiting.set(0);
            return;
        };
        if !store.ready.get() {
            return;
        }
        let attempts = store.attempts.get();
        leptos::task::spawn_local(async move {
            if flush(host, store, &who, &attempts).await {
                wait.set_value(FIRST_WAIT);
            } else {
                let again = wait.get_value();
                wait.set_value((again * 2).min(LONGEST_WAIT));
                set_timeout(wake, again);
            }
        });
    });
}

/// Sends what is due; false when it is worth trying again.
async fn flush(host: HostDesk, store: StoreDesk, who: &str, attempts: &[Attempt]) -> bool {
    if !canvas::hold(LOCK).await {
        // Another tab is at it, or this one still is.
        return false;
    }
    let done = send_all(host, store, who, attempts).await;
    canvas::let_go(LOCK);
    match done {
        Ok(refused) => {
            host.trouble.set(refused);
            true
        }
        Err(trouble) => {
            if matches!(trouble, Trouble::Refused(401 | 403, _)) {
                // The host no longer knows this browser: it says so, and whoever drives joins anew.
                host.ask().await;
            }
            host.trouble.set(Some(trouble.sentence()));
            false
        }
    }
}

/// Sends one after another; a sentence about one that the host does not take, which is left where it is.
async fn send_all(
    host: HostDesk,
    store: StoreDesk,
    who: &str,
    attempts: &[Attempt],
) -> Result<Option<String>, Trouble> {
    let away = Trouble::Away;
    let marks = Store::open().await.map_err(away)?;
    let sent = marks.sent().await.map_err(away)?;
    let all: Vec<&Attempt> = due(attempts, who, &sent).collect();
    let mut left = all.len();
    host.waiting.set(left);
    let mut refused = None;
    for attempt in all {
        let Some(run) = store.run(&attempt.id).await.map_err(away)? else { continue };
        let name: String = reader::ask(&Question::RunName(run.clone())).await.map_err(away)?;
        match call::<Stored>("PUT", &format!("runs/{name}"), Some(run)).await {
            Ok(Stored { run }) => {
                marks.mark_sent(&attempt.id, &run).await.map_err(away)?;
                left -= 1;
                host.waiting.set(left);
            }
            // Not this one; the others are none the worse.
            Err(Trouble::Refused(413 | 422, why)) => refused = Some(reader::in_english(why)),
            Err(trouble) => return Err(trouble),
        }
    }
    Ok(refused)
}

#[cfg(test)]
mod tests {
    use super::*;
    use coneyard_core::class::contract;

    #[test]
    fn ones_own_unsent_drives_are_due() {
        let of = |id: &str, who: &str, imported| Attempt {
            who: who.to_owned(),
            imported,
            ..contract::attempt(id)
        };
        let all = [
            of("a", "Rowan", false),
            of("b", "Hazel", false),
            of("c", " rowan", false),
            of("d", "Rowan", true),
            of("e", "Rowan", false),
        ];
        let sent = ["a".to_owned()];
        let ids: Vec<&str> = due(&all, "Rowan", &sent).map(|a| a.id.as_str()).collect();
        assert_eq!(ids, ["c", "e"]);
    }
}
