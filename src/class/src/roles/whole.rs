//! A trainer's class as a whole, and the owner's keys.

use std::sync::Arc;

use async_trait::async_trait;
use coneyard_core::class::board::Board;
use coneyard_core::class::due::{self, OfPerson};
use coneyard_core::class::figures::{Figures, RUNS_MOST};
use coneyard_core::class::found::{Found, found};
use coneyard_core::class::{Attempt, Record, Remarks};
use coneyard_core::rules::SiteRules;
use coneyard_core::run::file::SIMULATION;
use tokio::sync::broadcast;

use super::briefs::{Briefs, listed};
use super::own::{look_at, no_run};
use super::{Done, Opens, Reads, Refusal, Seen, Teaches, called, edited, reckoned};
use crate::clock::{self, Millis};
use crate::events::Event;
use crate::file::RunIn;
use crate::judging::of_attempt;
use crate::records::{
    Class, ClassRules, Delivered, Handed, Listed, Live, Member, NewRun, Person, State, name,
};
use crate::secret;
use crate::store::Store;

/// Whoever has not said what they drive for so long has stopped, ms.
const STOPPED: Millis = 30_000;

/// The class.
pub(super) struct Whole {
    store: Arc<dyn Store>,
    briefs: Arc<Briefs>,
    class: String,
}

impl Whole {
    pub(super) fn new(store: Arc<dyn Store>, briefs: Arc<Briefs>, class: &str) -> Self {
        Self { store, briefs, class: class.to_owned() }
    }
}

fn nobody() -> Refusal {
    Refusal::NotThere("there is no such person in this class".to_owned())
}

#[async_trait]
impl Reads for Whole {
    async fn runs(&self, newest: Option<u32>) -> Done<Vec<Listed>> {
        Ok(self.store.runs(&self.class, None, newest).await?)
    }

    async fn run(&self, run: &str) -> Done<Vec<u8>> {
        self.store.run(&self.class, None, run).await?.ok_or_else(no_run)
    }

    async fn attempt(&self, run: &str) -> Done<String> {
        self.store.attempt(&self.class, None, run).await?.ok_or_else(no_run)
    }

    async fn attempts(&self, person: Option<&str>) -> Done<Vec<Attempt>> {
        Ok(called(self.store.attempts(&self.class, person, None).await?))
    }

    async fn rules(&self) -> Done<ClassRules> {
        Ok(self.store.rules(&self.class).await?)
    }

    async fn remarks(&self, run: &str) -> Done<Seen<Remarks>> {
        edited::remarks(&*self.store, &self.class, None, run).await
    }

    async fn all_remarks(&self) -> Done<Vec<(String, Remarks)>> {
        edited::all_remarks(&*self.store, &self.class, None).await
    }

    async fn say(&self, run: &str, said: Seen<Remarks>) -> Done<i64> {
        let merge = |said: Remarks, there| said.by_a_trainer(there);
        edited::say(&*self.store, &self.class, None, run, said, merge).await
    }
}

#[async_trait]
impl Teaches for Whole {
    async fn class(&self) -> Done<Class> {
        let class = self.store.class(&self.class).await?;
        class.ok_or_else(|| Refusal::NotThere("this class is no longer here".to_owned()))
    }

    async fn set_rules(&self, rules: Option<String>) -> Done<()> {
        if let Some(text) = &rules {
            SiteRules::parse("the rules", text.as_bytes())
                .map_err(|bad| Refusal::Wrong(bad.to_string()))?;
        }
        Ok(self.store.set_rules(&self.class, rules.as_deref()).await?)
    }

    async fn board(&self) -> Done<Board> {
        let all = self.briefs.of(&*self.store, &self.class).await?;
        reckoned(move || Board::of(&listed(&all))).await
    }

    async fn figures(&self, clean_from: f64) -> Done<Figures> {
        let rows = self.store.attempts(&self.class, None, Some(RUNS_MOST)).await?;
        reckoned(move || Figures::of(&called(rows), clean_from)).await
    }

    async fn found(&self, code: &str) -> Done<Vec<Found>> {
        let (all, code) = (self.briefs.of(&*self.store, &self.class).await?, code.to_owned());
        reckoned(move || found(&listed(&all), &code)).await
    }

    async fn due(&self) -> Done<Vec<OfPerson>> {
        let all = self.briefs.of(&*self.store, &self.class).await?;
        let records = self.trainings().await?;
        reckoned(move || {
            let records: Vec<Record> = records.into_iter().map(|(_, seen)| seen.is).collect();
            due::of_class(&listed(&all), &records)
        })
        .await
    }

    async fn training(&self, person: &str) -> Done<Seen<Record>> {
        if let Some(kept) = self.store.training(&self.class, person).await? {
            return Seen::read(kept);
        }
        let people = self.store.people(&self.class).await?;
        let member = people.iter().find(|m| m.person == person).ok_or_else(nobody)?;
        Ok(Seen { edition: 0, is: Record::new(person, &member.name) })
    }

    async fn trainings(&self) -> Done<Vec<(String, Seen<Record>)>> {
        let kept = self.store.trainings(&self.class).await?;
        kept.into_iter().map(|(person, kept)| Ok((person, Seen::read(kept)?))).collect()
    }

    async fn keep_training(&self, person: &str, record: Seen<Record>) -> Done<i64> {
        // It is of whoever it is kept for, whatever it says.
        let is = Record { person: person.to_owned(), ..record.is };
        let text = Seen { edition: record.edition, is }.written()?;
        match self.store.keep_training(&self.class, person, &text).await? {
            Some(edition) => Ok(edition),
            None if self.store.training(&self.class, person).await?.is_some() => {
                Err(edited::since())
            }
            None => Err(nobody()),
        }
    }

    async fn people(&self) -> Done<Vec<Member>> {
        Ok(self.store.people(&self.class).await?)
    }

    async fn forget(&self, person: &str) -> Done<()> {
        match self.store.forget(&self.class, person).await? {
            true => Ok(()),
            false => Err(nobody()),
        }
    }

    async fn live(&self) -> Done<Vec<Live>> {
        Ok(self.store.live(&self.class, clock::now() - STOPPED).await?)
    }

    async fn live_of(&self, person: &str) -> Done<Option<Live>> {
        Ok(self.store.live_of(&self.class, person).await?)
    }

    async fn listed(&self, run: &str) -> Done<Option<Listed>> {
        Ok(self.store.listed(&self.class, None, run).await?)
    }

    fn events(&self) -> broadcast::Receiver<Event> {
        self.store.events()
    }

    fn class_id(&self) -> &str {
        &self.class
    }

    async fn waiting(&self) -> Done<i64> {
        Ok(self.store.queue(SIMULATION).await?.waiting)
    }

    async fn handed(&self) -> Done<Vec<Handed>> {
        Ok(self.store.handed(&self.class, None).await?)
    }

    async fn take_person(&self, person: &Person) -> Done<Person> {
        let name = name(&person.name).map_err(Refusal::Wrong)?;
        let asked = Person { name, ..person.clone() };
        let fresh = secret::id()?;
        Ok(self.store.keep_person(&self.class, &asked, &fresh).await?)
    }

    async fn take_handed(&self, handed: &Handed) -> Done<()> {
        Ok(self.store.keep_handed(&self.class, handed).await?)
    }

    async fn take_run(&self, run: RunIn) -> Done<Delivered> {
        let id = blake3::hash(&run.bytes).to_hex().to_string();
        let (mut about, bytes) = look_at(run.bytes).await;
        // What can be driven again is; of the rest, what was said of it once is all that there is.
        if about.state == Some(State::Unreadable)
            && let Some(attempt) = run.record.filter(|attempt| attempt.id == id)
        {
            about = of_attempt(&attempt);
        }
        let run = NewRun {
            class: self.class.clone(),
            person: run.person,
            id,
            bytes,
            arrived: run.arrived,
            about,
        };
        Ok(self.store.keep(&run).await?)
    }

    async fn take_remarks(&self, run: &str, said: Remarks) -> Done<i64> {
        let said = Seen { edition: 0, is: said };
        edited::say(&*self.store, &self.class, None, run, said, |said, _| said).await
    }

    fn reads(&self) -> Box<dyn Reads> {
        Box::new(Self::new(self.store.clone(), self.briefs.clone(), &self.class))
    }
}

/// The owner's keys.
pub(super) struct Keys {
    store: Arc<dyn Store>,
}

impl Keys {
    pub(super) fn new(store: Arc<dyn Store>) -> Self {
        Self { store }
    }
}

#[async_trait]
impl Opens for Keys {
    async fn classes(&self) -> Done<Vec<Class>> {
        Ok(self.store.classes().await?)
    }

    async fn open(&self, typed: &str) -> Done<(Class, String)> {
        let name = name(typed).map_err(Refusal::Wrong)?;
        let code = secret::code()?;
        let said = secret::passphrase(&code)?;
        let class = Class {
            id: secret::id()?,
            name,
            passphrase: secret::of_passphrase(&said)?,
            // Nobody can draw a pre-test beforehand who does not know the word.
            word: format!("class-{}", secret::code()?.to_lowercase()),
            code,
            opened: clock::now(),
        };
        self.store.open_class(&class).await?;
        Ok((class, said))
    }
}
