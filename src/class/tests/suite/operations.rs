//! Random lists of operations on a store, with whatever can go wrong between; after each list the invariants are looked
//! at, and as often in between as the store is there.
//!
//! Operations: a person joins; a new run is delivered; one is delivered again; a request is lost (nothing comes to the
//! host); an answer is lost (the host is dropped in the middle of it, at a random moment); the database is gone for a while;
//! the host is killed and begins again; a judge judges; a judge is killed with its claim; time passes; a person is deleted.
//!
//! Invariants:
//! 1. Every run that was acknowledged is there, byte by byte, unless its person was deleted.
//! 2. No run is there twice, and none that was never sent.
//! 3. None is marked twice; what is marked stays marked as it was.
//! 4. Nothing of a deleted person is there.
//! 5. Nothing waits for ever: at the end a judge that goes on judges all that waits, each once.
//! 6. Names and people are one to one.
//! 7. The store's own check finds nothing.
//!
//! `CONEYARD_OPERATIONS` is the number for each store (300), `CONEYARD_SEED` the seed, which is printed.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;
use std::time::Duration;

use coneyard_class::clock;
use coneyard_class::judging::judge;
use coneyard_class::records::{Class, Person, State};
use coneyard_class::store::{Claim, Store, open};
use coneyard_core::run::file::SIMULATION;

use super::postgres::Server;
use super::stores::{Kept, altered, class, file, id, new_run, person};

/// Chance that goes the same way for the same seed.
struct Dice(u64);

impl Dice {
    fn next(&mut self, below: usize) -> usize {
        // Splitmix64 (Steele, Lea and Flood 2014).
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((z ^ (z >> 31)) % below as u64) as usize
    }
}

/// What takes a database away for a while.
enum Gone {
    /// Another program holds the file.
    Held(String),
    /// The server is down.
    Down(Server),
}

struct World {
    dice: Dice,
    store: Arc<dyn Store>,
    address: String,
    gone: Gone,
    class: Class,
    people: Vec<Person>,
    deleted: BTreeSet<String>,
    /// Whatever was ever sent, by id: whose, and the bytes.
    sent: BTreeMap<String, (String, Vec<u8>)>,
    acknowledged: BTreeSet<String>,
    /// As it was marked.
    marked: BTreeMap<String, State>,
    claims: Vec<Box<dyn Claim>>,
    next: u32,
    /// How often each kind was done.
    counts: BTreeMap<&'static str, u32>,
}

impl World {
    async fn new(seed: u64, kept: &Kept, gone: Gone) -> Self {
        let (class, _) = class(&kept.store, "Cedar").await;
        Self {
            dice: Dice(seed),
            store: kept.store.clone(),
            address: kept.address.clone(),
            gone,
            class,
            people: Vec::new(),
            deleted: BTreeSet::new(),
            sent: BTreeMap::new(),
            acknowledged: BTreeSet::new(),
            marked: BTreeMap::new(),
            claims: Vec::new(),
            next: 0,
            counts: BTreeMap::new(),
        }
    }

    async fn step(&mut self) {
        let kinds = [
            (6, "join"),
            (30, "deliver"),
            (12, "again"),
            (6, "request lost"),
            (10, "answer lost"),
            (2, "database gone"),
            (3, "host killed"),
            (18, "judge"),
            (4, "judge killed"),
            (6, "time"),
            (1, "delete"),
        ];
        let all: usize = kinds.iter().map(|(share, _)| share).sum();
        let mut at = self.dice.next(all);
        let kind = kinds.iter().find(|(share, _)| {
            let is = at < *share;
            at = at.saturating_sub(*share);
            is
        });
        let kind = kind.unwrap().1;
        *self.counts.entry(kind).or_default() += 1;
        match kind {
            "join" => self.join().await,
            "deliver" => self.deliver(true).await,
            "again" => self.again().await,
            "request lost" => drop(self.fresh()),
            "answer lost" => self.answer_lost().await,
            "database gone" => self.database_gone().await,
            "host killed" => self.host_killed().await,
            "judge" => self.judge().await,
            "judge killed" => self.judge_killed().await,
            "time" => tokio::time::sleep(Duration::from_millis(self.dice.next(20) as u64)).await,
            _ => self.delete().await,
        }
    }

    async fn join(&mut self) {
        // Eight names, in either case: most come again.
        let name = format!("Tree {}", self.dice.next(8));
        let name = if self.dice.next(2) == 0 { name.to_uppercase() } else { name };
        let joined = person(&self.store, &self.class, &name).await;
        let known = self.people.iter().find(|p| p.name.to_lowercase() == name.to_lowercase());
        match known {
            Some(known) => assert_eq!(*known, joined, "one name, one person"),
            None => self.people.push(joined),
        }
    }

    fn fresh(&mut self) -> Option<(Person, Vec<u8>)> {
        let who = self.people.len().checked_sub(1).map(|_| self.dice.next(self.people.len()))?;
        self.next += 1;
        let bytes = match self.dice.next(8) {
            0 => altered(self.next),
            1 => format!("{{\"no run\":{}}}", self.next).into_bytes(),
            _ => file(self.next, &self.people[who].name, 8),
        };
        Some((self.people[who].clone(), bytes))
    }

    async fn deliver(&mut self, there: bool) {
        let Some((person, bytes)) = self.fresh() else { return };
        let run = new_run(&self.class, &person, &bytes);
        self.sent.insert(run.id.clone(), (person.id.clone(), bytes));
        match self.store.keep(&run).await {
            Ok(kept) => {
                assert!(there && kept.new, "{kept:?}");
                self.acknowledged.insert(run.id);
            }
            // What was not acknowledged may be there or not; it is sent again some time.
            Err(away) => assert!(!there, "{away}"),
        }
    }

    /// One that was sent before is sent again, acknowledged or not.
    async fn again(&mut self) {
        let left: Vec<_> =
            self.sent.iter().filter(|(_, (who, _))| !self.deleted.contains(who)).collect();
        if left.is_empty() {
            return;
        }
        let (run, (who, bytes)) = left[self.dice.next(left.len())];
        let person = self.people.iter().find(|p| p.id == *who).unwrap();
        let kept = self.store.keep(&new_run(&self.class, person, bytes)).await.unwrap();
        assert!(
            !(kept.new && self.acknowledged.contains(run)),
            "an acknowledged run was lost: {run}"
        );
        if let Some(state) = self.marked.get(run) {
            assert_eq!(kept.state, *state);
        }
        self.acknowledged.insert(run.clone());
    }

    /// The request is dropped in its middle, wherever that is.
    async fn answer_lost(&mut self) {
        let Some((person, bytes)) = self.fresh() else { return };
        let run = new_run(&self.class, &person, &bytes);
        self.sent.insert(run.id.clone(), (person.id, bytes));
        let patience = Duration::from_micros(self.dice.next(3000) as u64);
        let _ = tokio::time::timeout(patience, self.store.keep(&run)).await;
    }

    async fn database_gone(&mut self) {
        self.claims.clear();
        match &self.gone {
            Gone::Down(server) => {
                server.down();
                self.deliver(false).await;
                assert!(self.store.runs(&self.class.id, None, None).await.is_err());
                if let Gone::Down(server) = &self.gone {
                    server.up();
                }
            }
            Gone::Held(address) => {
                let file = format!("sqlite://{address}");
                let other = sqlx::SqlitePool::connect(&file).await.unwrap();
                let held = other.begin_with("BEGIN IMMEDIATE").await.unwrap();
                self.deliver(false).await;
                // Whoever only reads is let through.
                assert!(self.store.runs(&self.class.id, None, None).await.is_ok());
                held.rollback().await.unwrap();
                other.close().await;
            }
        }
        // It comes back by itself.
        let mut tries = 0;
        while self.store.queue(SIMULATION).await.is_err() {
            tries += 1;
            assert!(tries < 50, "the store does not come back");
            tokio::time::sleep(Duration::from_millis(100)).await;
        }
    }

    /// All that the host held in its hands is gone; another begins.
    async fn host_killed(&mut self) {
        for claim in std::mem::take(&mut self.claims) {
            match self.gone {
                Gone::Held(_) => std::mem::forget(claim),
                Gone::Down(_) => drop(claim),
            }
        }
        self.store = open(&self.address).await.unwrap().store;
        self.store.begin_judging(SIMULATION, "stale").await.unwrap();
    }

    async fn judge(&mut self) {
        let Some(claim) = self.store.claim(SIMULATION).await.unwrap() else { return };
        let job = claim.job().clone();
        assert!(!self.marked.contains_key(&job.run), "judged twice: {}", job.run);
        assert!(self.sent.contains_key(&job.run));
        let about = judge(&job);
        claim.done(&about, clock::now()).await.unwrap();
        self.marked.insert(job.run, about.state.unwrap());
    }

    async fn judge_killed(&mut self) {
        if let Some(claim) = self.store.claim(SIMULATION).await.unwrap() {
            assert!(!self.marked.contains_key(&claim.job().run));
            self.claims.push(claim);
        }
        if self.claims.len() > 2 {
            self.claims.clear();
        }
    }

    async fn delete(&mut self) {
        // What is claimed holds a deletion up.
        self.claims.clear();
        if self.people.is_empty() {
            return;
        }
        let gone = self.people.swap_remove(self.dice.next(self.people.len()));
        assert!(self.store.forget(&self.class.id, &gone.id).await.unwrap());
        self.deleted.insert(gone.id);
    }

    async fn look(&self) {
        let runs = self.store.runs(&self.class.id, None, None).await.unwrap();
        let there: BTreeMap<_, _> = runs.iter().map(|run| (run.run.clone(), run)).collect();
        assert_eq!(there.len(), runs.len(), "no run is there twice");
        for (run, listed) in &there {
            let (who, _) = self.sent.get(run).expect("it was sent");
            assert_eq!(*who, listed.person);
            assert!(!self.deleted.contains(who), "something of a deleted person is there");
        }
        for run in &self.acknowledged {
            let (who, bytes) = &self.sent[run];
            if self.deleted.contains(who) {
                continue;
            }
            let listed =
                there.get(run).unwrap_or_else(|| panic!("an acknowledged run is lost: {run}"));
            if let Some(state) = self.marked.get(run) {
                assert_eq!(listed.state, *state, "what is marked stays so");
            }
            let got = self.store.run(&self.class.id, None, run).await.unwrap().unwrap();
            assert_eq!((id(&got), got.len()), (run.clone(), bytes.len()));
        }
        assert!(self.store.queue(SIMULATION).await.unwrap().most_marks <= 1);
        let members = self.store.people(&self.class.id).await.unwrap();
        let is: BTreeSet<_> = members.iter().map(|m| m.person.clone()).collect();
        assert_eq!(is, self.people.iter().map(|p| p.id.clone()).collect());
        assert_eq!(self.store.check().await.unwrap(), Vec::<String>::new());
    }
}

fn number(name: &str, otherwise: u64) -> u64 {
    std::env::var(name).ok().and_then(|n| n.parse().ok()).unwrap_or(otherwise)
}

async fn operations(kept: Kept, gone: Gone, which: &str) {
    let (count, seed) = (number("CONEYARD_OPERATIONS", 300), number("CONEYARD_SEED", 14));
    println!("{count} operations on {which} by the seed {seed}");
    let mut world = World::new(seed, &kept, gone).await;
    for done in 1..=count {
        world.step().await;
        if done % 100 == 0 {
            world.look().await;
        }
    }
    world.host_killed().await;
    for _ in 0..=world.sent.len() {
        world.judge().await;
    }
    world.look().await;
    assert_eq!(world.store.queue(SIMULATION).await.unwrap().waiting, 0, "nothing waits for ever");
    println!(
        "{:?}; {} acknowledged, {} judged",
        world.counts,
        world.acknowledged.len(),
        world.marked.len()
    );
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn random_operations_on_sqlite() {
    let kept = Kept::sqlite().await;
    let gone = Gone::Held(kept.address.clone());
    operations(kept, gone, "SQLite").await;
}

#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
async fn random_operations_on_postgres() {
    let server = tokio::task::spawn_blocking(Server::start).await.unwrap();
    let kept = Kept::at(server.database(1).await, None).await;
    operations(kept, Gone::Down(server), "PostgreSQL").await;
}
