//! Where records are kept: one trait, two stores, and the contract that both hold (`tests/suite/contract.rs`).
//!
//! What is said to both in the same words stands in `rows`, `parts` and `shapes`, which are mounted once in each; `sqlite` and
//! `postgres` hold what differs: how a transaction begins, how a run is claimed, how others are told.

mod open;
mod postgres;
mod sqlite;

use async_trait::async_trait;
use sqlx::migrate::{Migration, MigrationType, Migrator};
use sqlx::{AssertSqlSafe, SqlSafeStr};
use tokio::sync::broadcast;

pub use open::{Opened, alone, beside, is_database, open};
pub use postgres::{JUDGES, Postgres};
pub use sqlite::{Sqlite, is_sound, look_at, oldest_sqlite};

use crate::clock::Millis;
use crate::events::Event;
use crate::records::{
    About, AttemptRow, Class, ClassRules, Delivered, Edited, Handed, Job, Listed, Live, Member,
    NewRun, Note, Person, Queue, Session, Since, State,
};

/// The store does not answer, or not with sense. Nothing that was asked for has been acknowledged.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Away(pub String);

impl core::fmt::Display for Away {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "the records cannot be reached now ({}): try again in a moment", self.0)
    }
}

impl std::error::Error for Away {}

impl From<sqlx::Error> for Away {
    fn from(error: sqlx::Error) -> Self {
        Self(error.to_string().lines().next().unwrap_or_default().to_owned())
    }
}

impl From<sqlx::migrate::MigrateError> for Away {
    fn from(error: sqlx::migrate::MigrateError) -> Self {
        Self(error.to_string())
    }
}

/// What a store says.
pub type Said<T> = Result<T, Away>;

/// A keeper of a host's records. What a call writes is written as a whole or not at all, and counts as written when
/// the call has come back. Whoever calls again because an answer was lost does no harm.
#[async_trait]
pub trait Store: Send + Sync {
    /// The owner's passphrase as it is kept; None before one was made.
    async fn owner(&self) -> Said<Option<String>>;

    /// Keeps the owner's passphrase in place of another.
    async fn set_owner(&self, passphrase: &str) -> Said<()>;

    /// Opens a class.
    async fn open_class(&self, class: &Class) -> Said<()>;

    /// All classes, the last opened one first.
    async fn classes(&self) -> Said<Vec<Class>>;

    /// The class of this id.
    async fn class(&self, id: &str) -> Said<Option<Class>>;

    /// The class with this code.
    async fn class_of_code(&self, code: &str) -> Said<Option<Class>>;

    /// Keeps a trainer's passphrase in place of another, and ends all sessions of trainers.
    async fn set_passphrase(&self, class: &str, passphrase: &str) -> Said<()>;

    /// Somebody joins: the person of this name, or the one that is given when there is none yet; and their
    /// session until `ends`.
    async fn join(&self, class: &str, new: &Person, token: &str, ends: Millis) -> Said<Person>;

    /// Takes a person in who joined elsewhere: the person of this name, or this one, under the id `fresh` when
    /// theirs is taken.
    async fn keep_person(&self, class: &str, person: &Person, fresh: &str) -> Said<Person>;

    /// Somebody who is no person of the class is let in.
    async fn enter(&self, session: &Session, token: &str, ends: Millis) -> Said<()>;

    /// Whose session this is, if it has not ended.
    async fn session(&self, token: &str, now: Millis) -> Said<Option<Session>>;

    /// Ends a session, and drops those that are over.
    async fn leave(&self, token: &str, now: Millis) -> Said<()>;

    /// By which rules drives of a class are judged.
    async fn rules(&self, class: &str) -> Said<ClassRules>;

    /// Sets those of a trainer, or takes them back.
    async fn set_rules(&self, class: &str, rules: Option<&str>) -> Said<()>;

    /// Notes those of the site that is served.
    async fn serve_rules(&self, class: &str, rules: &str) -> Said<()>;

    /// The people of a class, by their names.
    async fn people(&self, class: &str) -> Said<Vec<Member>>;

    /// Deletes a person with all that is theirs. False when there is none.
    async fn forget(&self, class: &str, person: &str) -> Said<bool>;

    /// Keeps a run, once: one that is there already stays as it is.
    async fn keep(&self, run: &NewRun) -> Said<Delivered>;

    /// The runs of a class or of one person in it, in the order of their arrival; so many of the newest, or all.
    async fn runs(
        &self,
        class: &str,
        person: Option<&str>,
        newest: Option<u32>,
    ) -> Said<Vec<Listed>>;

    /// One of them.
    async fn listed(&self, class: &str, person: Option<&str>, run: &str) -> Said<Option<Listed>>;

    /// The file of one of them.
    async fn run(&self, class: &str, person: Option<&str>, run: &str) -> Said<Option<Vec<u8>>>;

    /// Core's record of one of them; None as well until it was driven again.
    async fn attempt(&self, class: &str, person: Option<&str>, run: &str) -> Said<Option<String>>;

    /// What is known of all of them that were driven again, in the order of their arrival; of so many of the newest,
    /// or of all.
    async fn attempts(
        &self,
        class: &str,
        person: Option<&str>,
        newest: Option<u32>,
    ) -> Said<Vec<AttemptRow>>;

    /// What is kept in brief of those runs of a class that have changed since this change of it; of all of them
    /// without one, and when somebody was deleted since.
    async fn briefs(&self, class: &str, since: Option<i64>) -> Said<Since>;

    /// What was said of a run, core's remarks as text.
    async fn remarks(&self, class: &str, person: Option<&str>, run: &str) -> Said<Option<Edited>>;

    /// All that was said in a class, or of the runs of this person: by run, each as text.
    async fn said(&self, class: &str, person: Option<&str>) -> Said<Vec<(String, String)>>;

    /// Keeps what is said of a run in place of this edition, 0 where there is none; the new one. None when there is
    /// no such run, or another edition.
    async fn keep_remarks(
        &self,
        class: &str,
        person: Option<&str>,
        run: &str,
        said: &Edited,
    ) -> Said<Option<i64>>;

    /// The training record of a person, core's as text.
    async fn training(&self, class: &str, person: &str) -> Said<Option<Edited>>;

    /// Those of a class, each with the person's id, by the people's names.
    async fn trainings(&self, class: &str) -> Said<Vec<(String, Edited)>>;

    /// Keeps a training record, likewise.
    async fn keep_training(&self, class: &str, person: &str, record: &Edited) -> Said<Option<i64>>;

    /// Hands out a pre-test on the next seat of the class, and says which.
    async fn hand_out(&self, class: &str, new: &Handed) -> Said<Handed>;

    /// The pre-tests that were handed out in a class or to one person in it.
    async fn handed(&self, class: &str, person: Option<&str>) -> Said<Vec<Handed>>;

    /// Keeps one that was handed out elsewhere. One that is there, or whose seat is taken, stays.
    async fn keep_handed(&self, class: &str, handed: &Handed) -> Said<()>;

    /// Notes what somebody drives.
    async fn note(&self, class: &str, person: &str, note: &Note, now: Millis) -> Said<()>;

    /// What is driven in a class, noted since then.
    async fn live(&self, class: &str, since: Millis) -> Said<Vec<Live>>;

    /// What this person drives.
    async fn live_of(&self, class: &str, person: &str) -> Said<Option<Live>>;

    /// Begins to judge with this simulation: what other judges that are no more had claimed is free again, and
    /// what waits for another simulation is marked so, with this reason.
    async fn begin_judging(&self, simulation: u32, reason: &str) -> Said<()>;

    /// Claims the run that has waited longest; None when none waits.
    async fn claim(&self, simulation: u32) -> Said<Option<Box<dyn Claim>>>;

    /// How much there is to judge.
    async fn queue(&self, simulation: u32) -> Said<Queue>;

    /// What happens from now on.
    fn events(&self) -> broadcast::Receiver<Event>;

    /// Whether all that is kept holds together: sentences about what does not.
    async fn check(&self) -> Said<Vec<String>>;

    /// Lets go of the store.
    async fn close(&self);
}

/// A run that is claimed. When it is dropped, it is free again.
#[async_trait]
pub trait Claim: Send {
    /// What is to be judged.
    fn job(&self) -> &Job;

    /// Marks it: this is what came of it. What was deleted meanwhile stays so.
    async fn done(self: Box<Self>, about: &About, now: Millis) -> Said<()>;
}

/// The tables, in the words of this store.
fn tables(in_its_words: impl Fn(&str) -> String) -> Migrator {
    let step = |(i, (name, text)): (usize, &(&'static str, &str))| {
        let sql = AssertSqlSafe(in_its_words(text)).into_sql_str();
        let number = i64::try_from(i).unwrap_or(i64::MAX - 1) + 1;
        Migration::new(number, (*name).into(), MigrationType::Simple, sql, false)
    };
    Migrator::with_migrations(SCHEMAS.iter().enumerate().map(step).collect())
}

/// The tables as the files have them, step by step: one that was ever in use stays as it is.
const SCHEMAS: [(&str, &str); 5] = [
    ("records", include_str!("schema.sql")),
    ("briefs", include_str!("schema-2.sql")),
    ("trainings", include_str!("schema-3.sql")),
    ("changes", include_str!("schema-4.sql")),
    ("rules", include_str!("schema-5.sql")),
];

/// The state of a run that arrives, when nothing was said of it.
fn state_of(about: &About) -> State {
    about.state.unwrap_or(State::Waiting)
}
