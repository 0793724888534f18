//! What each role can do, as objects: a handler is given the one of its role, and so cannot call what the role lacks.
//!
//! `door` is for whoever comes, `Drives` for trainees, `Teaches` for trainers and the owner, `Opens` for the owner
//! alone; `Reads` is what trainees and trainers share, the one over their own runs and the other over the class's.

mod briefs;
mod door;
mod edited;
mod own;
mod whole;

use std::sync::Arc;

use async_trait::async_trait;
use coneyard_core::class::board::Board;
use coneyard_core::class::due::OfPerson;
use coneyard_core::class::figures::Figures;
use coneyard_core::class::found::Found;
use coneyard_core::class::{Attempt, Record, Remarks, read_record};
use tokio::sync::{Semaphore, broadcast, watch};

pub use door::{Door, LetIn};
pub use edited::Seen;

use crate::clock;
use crate::events::Event;
use crate::http::limits::Tries;
use crate::records::{
    AttemptRow, Class, ClassRules, Delivered, Handed, Listed, Live, Member, Note, Person, Role,
    Session,
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
    /// Somebody else has written since.
    Since(String),
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
    /// By which rules drives of the class are judged.
    async fn rules(&self) -> Done<ClassRules>;
    /// What was said of a run.
    async fn remarks(&self, run: &str) -> Done<Seen<Remarks>>;
    /// What was said of all of them, by run; nothing of a run of which nothing was.
    async fn all_remarks(&self) -> Done<Vec<(String, Remarks)>>;
    /// Says something of a run, in place of what was seen: whoever says it can only say what is theirs to say.
    /// The new edition.
    async fn say(&self, run: &str, said: Seen<Remarks>) -> Done<i64>;
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
    /// Sets the rules by which drives of the class are judged from now on; None for those of the site.
    async fn set_rules(&self, rules: Option<String>) -> Done<()>;
    /// What people have shown lately, and what the class misses.
    async fn board(&self) -> Done<Board>;
    /// The class in figures. An item of the pre-test is right from this share of clean opportunities on.
    async fn figures(&self, clean_from: f64) -> Done<Figures>;
    /// The newest drives in which this was found.
    async fn found(&self, code: &str) -> Done<Vec<Found>>;
    /// What is due of everybody.
    async fn due(&self) -> Done<Vec<OfPerson>>;
    /// Somebody's training record; a new one when there is none yet.
    async fn training(&self, person: &str) -> Done<Seen<Record>>;
    /// All of them, each with the person's id.
    async fn trainings(&self) -> Done<Vec<(String, Seen<Record>)>>;
    /// Keeps somebody's training record, in place of what was seen. The new edition.
    async fn keep_training(&self, person: &str, record: Seen<Record>) -> Done<i64>;
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
    /// Takes in what was said of a run, its rider's own word too, where nothing is here yet.
    async fn take_remarks(&self, run: &str, said: Remarks) -> Done<i64>;
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
fn called(rows: Vec<AttemptRow>) -> Vec<Attempt> {
    let read = |AttemptRow { run, who, record, remarks }: AttemptRow| {
        let attempt: Attempt = read_record(&record).ok()?;
        // What cannot be read of what was said is as if nothing had been.
        let said: Option<Remarks> = remarks.and_then(|text| read_record(&text).ok());
        let Remarks { own, notes, .. } = said.unwrap_or_default();
        Some(Attempt { id: run, who, own, notes, ..attempt })
    };
    rows.into_iter().filter_map(read).collect()
}

/// Reckons on a thread that may take its time.
async fn reckoned<T: Send + 'static>(what: impl FnOnce() -> T + Send + 'static) -> Done<T> {
    let done = tokio::task::spawn_blocking(what).await;
    done.map_err(|e| Refusal::Away(format!("this could not be reckoned now ({e}): ask again")))
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
    briefs: Arc<briefs::Briefs>,
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
        let (briefs, tries) = (Arc::default(), Arc::default());
        Self { store, briefs, served: served.into(), comparing, tries, ends, secure }
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

    fn whole(&self, class: &str) -> whole::Whole {
        whole::Whole::new(self.store.clone(), self.briefs.clone(), class)
    }

    /// Reads beforehand what views of the served class are made of, so that nobody waits for it.
    ///
    /// # Errors
    /// The store is away.
    pub async fn look_ahead(&self) -> Done<()> {
        self.briefs.of(&*self.store, &self.served).await.map(|_| ())
    }

    /// The objects of this session's role.
    pub(crate) fn reads(&self, session: &Session) -> Box<dyn Reads> {
        match &session.person {
            Some(person) => Box::new(own::Own::new(self.store.clone(), &session.class, person)),
            None => Box::new(self.whole(&session.class)),
        }
    }

    pub(crate) fn drives(&self, session: &Session) -> Option<Box<dyn Drives>> {
        let person = session.person.as_ref().filter(|_| session.role == Role::Trainee)?;
        Some(Box::new(own::Own::new(self.store.clone(), &session.class, person)))
    }

    pub(crate) fn teaches(&self, session: &Session) -> Option<Box<dyn Teaches>> {
        (session.role != Role::Trainee).then(|| Box::new(self.whole(&session.class)) as _)
    }

    pub(crate) fn opens(&self, session: &Session) -> Option<Box<dyn Opens>> {
        (session.role == Role::Owner).then(|| Box::new(whole::Keys::new(self.store.clone())) as _)
    }
}

/// The class with everything of a trainer, for commands on the host's own computer.
pub fn teaches(store: Arc<dyn Store>, class: &str) -> Box<dyn Teaches> {
    Box::new(whole::Whole::new(store, Arc::default(), class))
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
