//! What each role can do, as objects: a handler is given the one of its role, and so cannot call what the role lacks.
//!
//! `door` is for whoever comes, `Drives` for trainees, `Teaches` for trainers and the owner, `Opens` for the owner
//! alone; `Reads` is what trainees and trainers share, the one over their own runs and the other over the class's.

mod door;
mod own;
mod whole;

use std::sync::Arc;

use async_trait::async_trait;
use coneyard_core::class::board::Board;
use coneyard_core::class::{Attempt, Brief, read_record};
use tokio::sync::{Semaphore, broadcast, watch};

pub use door::{Door, LetIn};

use crate::clock;
use crate::events::Event;
use crate::http::limits::Tries;
use crate::records::{
    BriefRow, Class, Delivered, Handed, Listed, Live, Member, Note, Person, Role, Session,
};
use crate::secret::{self, NoChance};
use crate::store::{Away, Store};

/// Why something is not done. Each is one sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Refusal {
    /// The store is away.
    Away(String),
    /// Nobody knows who asks.
    NotIn(String),
    /// Whoever asks may not.
    NotAllowed(String),
    /// There is no such thing, or it is not for whoever asks.
    NotThere(String),
    /// What was given is not what it should be.
    Wrong(String),
    /// More is given than is read.
    TooLarge(String),
    /// Of another kind than is read.
    OtherKind(String),
    /// Tried too often; again after so many seconds.
    TooOften(u64),
    /// It took too long to come.
    TooSlow(String),
}

impl From<Away> for Refusal {
    fn from(away: Away) -> Self {
        Self::Away(away.to_string())
    }
}

impl From<NoChance> for Refusal {
    fn from(none: NoChance) -> Self {
        Self::Away(none.to_string())
    }
}

/// What is done, or why not.
pub type Done<T> = Result<T, Refusal>;

/// What trainees and trainers may see: the ones their own runs, the others the class's.
#[async_trait]
pub trait Reads: Send + Sync {
    /// Runs, in the order of their arrival; so many of the newest, or all.
    async fn runs(&self, newest: Option<u32>) -> Done<Vec<Listed>>;
    /// The file of one.
    async fn run(&self, run: &str) -> Done<Vec<u8>>;
    /// Core's record of one that was driven again, as text.
    async fn attempt(&self, run: &str) -> Done<String>;
    /// Those of all, in the order of their arrival: each is called as its run is, and belongs to whoever
    /// delivered it, whatever its file says. Of one person, where one is named.
    async fn attempts(&self, person: Option<&str>) -> Done<Vec<Attempt>>;
}

/// What trainees may do.
#[async_trait]
pub trait Drives: Send + Sync {
    /// Delivers a run.
    async fn deliver(&self, run: &str, bytes: Vec<u8>) -> Done<Delivered>;
    /// Is handed a pre-test.
    async fn begin_sitting(&self, truck: &str) -> Done<Handed>;
    /// Notes what is driven now.
    async fn note(&self, note: &Note) -> Done<()>;
}

/// What trainers may do.
#[async_trait]
pub trait Teaches: Send + Sync {
    /// The class.
    async fn class(&self) -> Done<Class>;
    /// What people have shown lately, and what the class misses.
    async fn board(&self) -> Done<Board>;
    /// Its people.
    async fn people(&self) -> Done<Vec<Member>>;
    /// Deletes one of them, with all that is theirs.
    async fn forget(&self, person: &str) -> Done<()>;
    /// What is driven now.
    async fn live(&self) -> Done<Vec<Live>>;
    /// What this person drives.
    async fn live_of(&self, person: &str) -> Done<Option<Live>>;
    /// One run as lists show it.
    async fn listed(&self, run: &str) -> Done<Option<Listed>>;
    /// What happens in the class from now on; what happens elsewhere too, which is none of theirs.
    fn events(&self) -> broadcast::Receiver<Event>;
    /// The class's id, to tell its events from others'.
    fn class_id(&self) -> &str;
    /// Runs waiting to be driven again.
    async fn waiting(&self) -> Done<i64>;
    /// Pre-tests that were handed out.
    async fn handed(&self) -> Done<Vec<Handed>>;
    /// Takes a person in, with their id if it is free.
    async fn take_person(&self, person: &Person) -> Done<Person>;
    /// Takes a pre-test in.
    async fn take_handed(&self, handed: &Handed) -> Done<()>;
    /// Takes a run in.
    async fn take_run(&self, run: crate::file::RunIn) -> Done<Delivered>;
    /// All runs, as `Reads` has them.
    fn reads(&self) -> Box<dyn Reads>;
}

/// What the owner may do besides.
#[async_trait]
pub trait Opens: Send + Sync {
    /// All classes of this store.
    async fn classes(&self) -> Done<Vec<Class>>;
    /// Opens a class, and tells its trainer's passphrase, once.
    async fn open(&self, name: &str) -> Done<(Class, String)>;
}

/// Records as they are kept, under the names that they have here. One that cannot be read is left out: its run is
/// listed, and says so.
fn called(records: Vec<(String, String, String)>) -> Vec<Attempt> {
    let read = |(id, who, record): (String, String, String)| {
        let attempt: Attempt = read_record(&record).ok()?;
        Some(Attempt { id, who, ..attempt })
    };
    records.into_iter().filter_map(read).collect()
}

/// What is kept in brief, under the names that the runs have here. One that cannot be read is left out.
fn in_brief(rows: Vec<BriefRow>) -> Vec<Brief> {
    let read = |BriefRow { run, who, brief, record }: BriefRow| {
        let brief = match brief {
            Some(brief) => serde_json::from_str(&brief).ok()?,
            None => Brief::of(&read_record(&record?).ok()?),
        };
        Some(Brief { id: run, who, ..brief })
    };
    rows.into_iter().filter_map(read).collect()
}

/// Who asks.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct You {
    /// What they may do.
    pub role: Role,
    /// Who they are; None for trainers and the owner.
    pub person: Option<Person>,
}

/// What all requests share. The store is not to be had from it but through the object of a role.
#[derive(Clone)]
pub struct Host {
    store: Arc<dyn Store>,
    /// The class that is told to whoever is not in one.
    served: Arc<str>,
    /// Passphrases are costly to compare: so many at a time.
    comparing: Arc<Semaphore>,
    pub(crate) tries: Arc<Tries>,
    pub(crate) ends: watch::Receiver<bool>,
    pub(crate) secure: bool,
}

impl Host {
    /// A host of this store that serves a class. Streams end when `ends` says so; `secure` when it is reached by
    /// https only.
    pub fn new(
        store: Arc<dyn Store>,
        served: &str,
        ends: watch::Receiver<bool>,
        secure: bool,
    ) -> Self {
        let comparing = Arc::new(Semaphore::new(2));
        Self { store, served: served.into(), comparing, tries: Arc::default(), ends, secure }
    }

    /// For whoever comes.
    pub(crate) fn door(&self) -> Door {
        Door::new(self.store.clone(), self.served.clone(), self.comparing.clone())
    }

    /// Whose token this is.
    pub(crate) async fn session(&self, token: Option<&str>) -> Done<Option<Session>> {
        let Some(token) = token else { return Ok(None) };
        Ok(self.store.session(&secret::of_token(token), clock::now()).await?)
    }

    /// The objects of this session's role.
    pub(crate) fn reads(&self, session: &Session) -> Box<dyn Reads> {
        match &session.person {
            Some(person) => Box::new(own::Own::new(self.store.clone(), &session.class, person)),
            None => Box::new(whole::Whole::new(self.store.clone(), &session.class)),
        }
    }

    pub(crate) fn drives(&self, session: &Session) -> Option<Box<dyn Drives>> {
        let person = session.person.as_ref().filter(|_| session.role == Role::Trainee)?;
        Some(Box::new(own::Own::new(self.store.clone(), &session.class, person)))
    }

    pub(crate) fn teaches(&self, session: &Session) -> Option<Box<dyn Teaches>> {
        (session.role != Role::Trainee)
            .then(|| Box::new(whole::Whole::new(self.store.clone(), &session.class)) as _)
    }

    pub(crate) fn opens(&self, session: &Session) -> Option<Box<dyn Opens>> {
        (session.role == Role::Owner).then(|| Box::new(whole::Keys::new(self.store.clone())) as _)
    }
}

/// The class with everything of a trainer, for commands on the host's own computer.
pub fn teaches(store: Arc<dyn Store>, class: &str) -> Box<dyn Teaches> {
    Box::new(whole::Whole::new(store, class))
}

/// The keys of a store, for commands on the host's own computer.
pub fn opens(store: Arc<dyn Store>) -> Box<dyn Opens> {
    Box::new(whole::Keys::new(store))
}

/// Makes a new passphrase for a trainer, tells it once, and ends their sessions.
///
/// # Errors
/// The store is away.
pub async fn new_passphrase(store: &dyn Store, class: &Class) -> Done<String> {
    let said = secret::passphrase(&class.code)?;
    store.set_passphrase(&class.id, &secret::of_passphrase(&said)?).await?;
    Ok(said)
}

/// Makes a new passphrase for the owner, tells it once, and ends their sessions.
///
/// # Errors
/// The store is away.
pub async fn new_owner_passphrase(store: &dyn Store) -> Done<String> {
    let said = secret::owner_passphrase()?;
    store.set_owner(&secret::of_passphrase(&said)?).await?;
    Ok(said)
}
