//! Stores to try: each test runs on both, under two names.

use std::sync::Arc;

use coneyard_class::clock;
use coneyard_class::records::{About, Class, NewRun, Person, State};
use coneyard_class::roles;
use coneyard_class::secret;
use coneyard_class::store::{Store, open};
use coneyard_core::course::shipped;
use coneyard_core::rules::SHIPPED;
use coneyard_core::run::DriveSetup;
use coneyard_core::truck::spec::shipped as trucks;
use sqlx::Executor;
use tempfile::TempDir;

use super::postgres;

/// A store, where it is, and what must live as long.
pub(crate) struct Kept {
    pub(crate) store: Arc<dyn Store>,
    pub(crate) address: String,
    _folder: Option<TempDir>,
}

impl Kept {
    pub(crate) async fn sqlite() -> Self {
        let folder = TempDir::new().unwrap();
        let address = folder.path().join("class.db").to_str().unwrap().to_owned();
        Self::at(address, Some(folder)).await
    }

    pub(crate) async fn postgres() -> Self {
        Self::at(postgres::database().await, None).await
    }

    pub(crate) async fn at(address: String, folder: Option<TempDir>) -> Self {
        let store = open(&address).await.unwrap().store;
        Self { store, address, _folder: folder }
    }

    /// Says a statement to the store behind our back.
    pub(crate) async fn raw(&self, statement: &'static str) {
        match self.address.starts_with("postgres") {
            true => {
                _ = sqlx::PgPool::connect(&self.address)
                    .await
                    .unwrap()
                    .execute(statement)
                    .await
                    .unwrap()
            }
            false => {
                _ = sqlx::SqlitePool::connect(&self.address)
                    .await
                    .unwrap()
                    .execute(statement)
                    .await
                    .unwrap()
            }
        }
    }

    /// The same records as another program opens them.
    pub(crate) async fn again(&self) -> Arc<dyn Store> {
        open(&self.address).await.unwrap().store
    }
}

/// Declares a test on each store.
macro_rules! on_both {
    ($($name:ident),* $(,)?) => {
        mod on_sqlite {
            $(#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
            async fn $name() {
                super::$name(crate::stores::Kept::sqlite().await).await;
            })*
        }
        mod on_postgres {
            $(#[tokio::test(flavor = "multi_thread", worker_threads = 2)]
            async fn $name() {
                super::$name(crate::stores::Kept::postgres().await).await;
            })*
        }
    };
}
pub(crate) use on_both;

pub(crate) async fn class(store: &Arc<dyn Store>, name: &str) -> (Class, String) {
    roles::opens(store.clone()).open(name).await.unwrap()
}

pub(crate) async fn person(store: &Arc<dyn Store>, class: &Class, name: &str) -> Person {
    let new = Person { id: secret::id().unwrap(), name: name.to_owned(), joined: clock::now() };
    let token = secret::of_token(&secret::token().unwrap());
    store.join(&class.id, &new, &token, clock::now() + 1_000_000).await.unwrap()
}

/// A drive on the first exercise by this seed.
pub(crate) fn setup(seed: u32) -> DriveSetup {
    let course = shipped::text("straight").unwrap();
    DriveSetup {
        course: course.to_owned(),
        truck: trucks::text("single").unwrap().to_owned(),
        rules: SHIPPED.to_owned(),
        checks: shipped::checks_of(course),
        seed,
        who: "Rowan".to_owned(),
        started: "2026-03-02T08:00:00.000Z".to_owned(),
    }
}

/// A short real run: as many ticks of random controls on the first exercise, by this seed.
pub(crate) fn file(seed: u32, who: &str, ticks: u32) -> Vec<u8> {
    let setup = DriveSetup { who: who.to_owned(), ..setup(seed) };
    coneyard_sim::random_run(&setup, ticks).unwrap().to_text().into_bytes()
}

/// A short run whose claimed end is another than the one that was driven.
pub(crate) fn altered(seed: u32) -> Vec<u8> {
    let text = String::from_utf8(file(seed, "Rowan", 80)).unwrap();
    let mut run: serde_json::Value = serde_json::from_str(&text).unwrap();
    run["seed"] = serde_json::json!(seed + 1);
    serde_json::to_vec(&run).unwrap()
}

pub(crate) fn id(bytes: &[u8]) -> String {
    blake3::hash(bytes).to_hex().to_string()
}

pub(crate) fn new_run(class: &Class, person: &Person, bytes: &[u8]) -> NewRun {
    NewRun {
        class: class.id.clone(),
        person: person.id.clone(),
        id: id(bytes),
        bytes: bytes.to_vec(),
        arrived: clock::now(),
        about: coneyard_class::judging::at_arrival(bytes),
    }
}

/// Something that counts as judged, for those who do not care what it is.
pub(crate) fn judged() -> About {
    About { state: Some(State::Judged), total: Some(88.5), ..About::default() }
}
