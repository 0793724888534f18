//! What several may write: whoever writes names the edition that they have seen, and is told when somebody else has
//! written since, so that they look at both.

use coneyard_core::class::{Form, Remarks, read_record, write_record};
use serde::{Deserialize, Serialize};

use super::{Done, Refusal};
use crate::records::Edited;
use crate::store::Store;

/// A record with the edition that was seen of it, 0 when there is none yet.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Seen<T> {
    /// Edition.
    pub edition: i64,
    /// The record.
    pub is: T,
}

impl<T> Seen<T> {
    /// Reads one from the store.
    pub(super) fn read(kept: Edited) -> Done<Self>
    where
        T: serde::de::DeserializeOwned + Form,
    {
        let is = read_record(&kept.text).map_err(|why| {
            Refusal::Away(format!("what is kept of this cannot be read here ({why})"))
        })?;
        Ok(Self { edition: kept.edition, is })
    }

    /// As it is kept.
    pub(super) fn written(&self) -> Done<Edited>
    where
        T: Serialize + Form,
    {
        let text = write_record(&self.is).map_err(Refusal::Away)?;
        Ok(Edited { edition: self.edition, text })
    }
}

/// Somebody else has written since.
pub(super) fn since() -> Refusal {
    Refusal::Since(
        "somebody else has written this since: look at it again, then say it again".to_owned(),
    )
}

/// What was said of a run of this person, or of anybody.
pub(super) async fn remarks(
    store: &dyn Store,
    class: &str,
    person: Option<&str>,
    run: &str,
) -> Done<Seen<Remarks>> {
    if let Some(kept) = store.remarks(class, person, run).await? {
        return Seen::read(kept);
    }
    match store.listed(class, person, run).await? {
        Some(_) => Ok(Seen { edition: 0, is: Remarks::default() }),
        None => Err(super::own::no_run()),
    }
}

/// What was said of all runs of this person, or of anybody. What cannot be read is as if nothing had been said.
pub(super) async fn all_remarks(
    store: &dyn Store,
    class: &str,
    person: Option<&str>,
) -> Done<Vec<(String, Remarks)>> {
    let all = store.said(class, person).await?;
    Ok(all.into_iter().filter_map(|(run, text)| Some((run, read_record(&text).ok()?))).collect())
}

/// Keeps what `merge` makes of what is sent and of what is there.
pub(super) async fn say(
    store: &dyn Store,
    class: &str,
    person: Option<&str>,
    run: &str,
    said: Seen<Remarks>,
    merge: impl FnOnce(Remarks, Remarks) -> Remarks + Send,
) -> Done<i64> {
    said.is.is_within_bounds().map_err(Refusal::Wrong)?;
    let there = remarks(store, class, person, run).await?;
    if there.edition != said.edition {
        return Err(since());
    }
    let kept = Seen { edition: said.edition, is: merge(said.is, there.is) };
    store.keep_remarks(class, person, run, &kept.written()?).await?.ok_or_else(since)
}
