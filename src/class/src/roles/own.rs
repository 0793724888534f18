//! A trainee's own: what they drove, and what they deliver.

use std::sync::Arc;

use async_trait::async_trait;
use coneyard_core::class::{Attempt, Remarks};
use coneyard_core::pretest::{TRUCKS, truck_of};

use super::{Done, Drives, Reads, Refusal, Seen, called, edited};
use crate::clock;
use crate::judging::at_arrival;
use crate::records::{ClassRules, Delivered, Handed, LONGEST_NAME, Listed, NewRun, Note, Person};
use crate::secret;
use crate::store::Store;

/// The trainee's own.
pub(super) struct Own {
    store: Arc<dyn Store>,
    class: String,
    person: String,
    name: String,
}

impl Own {
    pub(super) fn new(store: Arc<dyn Store>, class: &str, person: &Person) -> Self {
        let Person { id, name, .. } = person.clone();
        Self { store, class: class.to_owned(), person: id, name }
    }
}

/// There is no such run, or it is not theirs: which of the two, nobody is told.
pub(super) fn no_run() -> Refusal {
    Refusal::NotThere("there is no such run here".to_owned())
}

/// Reads what a run tells of itself, on a thread that may take its time.
pub(super) async fn look_at(bytes: Vec<u8>) -> (crate::records::About, Vec<u8>) {
    let look = move || (at_arrival(&bytes), bytes);
    // A task that panics has read something that it should not have: the run is kept as it is.
    tokio::task::spawn_blocking(look).await.unwrap_or_default()
}

#[async_trait]
impl Reads for Own {
    async fn runs(&self, newest: Option<u32>) -> Done<Vec<Listed>> {
        Ok(self.store.runs(&self.class, Some(&self.person), newest).await?)
    }

    async fn run(&self, run: &str) -> Done<Vec<u8>> {
        self.store.run(&self.class, Some(&self.person), run).await?.ok_or_else(no_run)
    }

    async fn attempt(&self, run: &str) -> Done<String> {
        self.store.attempt(&self.class, Some(&self.person), run).await?.ok_or_else(no_run)
    }

    async fn attempts(&self, _person: Option<&str>) -> Done<Vec<Attempt>> {
        // Whoever is named: one's own, and nobody else's.
        Ok(called(self.store.attempts(&self.class, Some(&self.person), None).await?))
    }

    async fn rules(&self) -> Done<ClassRules> {
        Ok(self.store.rules(&self.class).await?)
    }

    async fn remarks(&self, run: &str) -> Done<Seen<Remarks>> {
        edited::remarks(&*self.store, &self.class, Some(&self.person), run).await
    }

    async fn all_remarks(&self) -> Done<Vec<(String, Remarks)>> {
        edited::all_remarks(&*self.store, &self.class, Some(&self.person)).await
    }

    async fn say(&self, run: &str, said: Seen<Remarks>) -> Done<i64> {
        let merge = |said: Remarks, there| said.by_the_rider(&self.name, there);
        edited::say(&*self.store, &self.class, Some(&self.person), run, said, merge).await
    }
}

#[async_trait]
impl Drives for Own {
    async fn deliver(&self, run: &str, bytes: Vec<u8>) -> Done<Delivered> {
        if blake3::hash(&bytes).to_hex().as_str() != run {
            return Err(Refusal::Wrong(
                "these bytes are not the run of this id, which is their BLAKE3 in small hexadecimal \
                 digits: send the file again as it is"
                    .to_owned(),
            ));
        }
        let (about, bytes) = look_at(bytes).await;
        if blake3::hash(&bytes).to_hex().as_str() != run {
            return Err(Refusal::Away("the run could not be read now: send it again".to_owned()));
        }
        let run = NewRun {
            class: self.class.clone(),
            person: self.person.clone(),
            id: run.to_owned(),
            bytes,
            arrived: clock::now(),
            about,
        };
        Ok(self.store.keep(&run).await?)
    }

    async fn begin_sitting(&self, truck: &str) -> Done<Handed> {
        let truck = truck_of(truck).map_err(|_| {
            let known = TRUCKS.join(", ");
            Refusal::Wrong(format!("a pre-test is taken on one of these trucks: {known}"))
        })?;
        let new = Handed {
            id: secret::id()?,
            person: self.person.clone(),
            truck: truck.to_owned(),
            word: String::new(),
            seat: 0,
            made: clock::now(),
        };
        Ok(self.store.hand_out(&self.class, &new).await?)
    }

    async fn note(&self, note: &Note) -> Done<()> {
        let long = [&note.course, &note.truck].iter().any(|id| id.len() > LONGEST_NAME);
        if long || !note.seconds.is_finite() || note.seconds < 0.0 {
            return Err(Refusal::Wrong(
                "a note has the ids of course and truck, and seconds from 0 on".to_owned(),
            ));
        }
        Ok(self.store.note(&self.class, &self.person, note, clock::now()).await?)
    }
}
