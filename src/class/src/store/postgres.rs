//! The store for several programs at a time: PostgreSQL.
//!
//! A run is claimed, judged and marked in one transaction, so that a claim falls with the connection of whoever held
//! it. What happens is said by NOTIFY within the transaction, and every host hears it; whoever missed it looks again
//! after a while.

use std::time::Duration;

use sqlx::pool::PoolConnection;
use sqlx::postgres::{PgConnectOptions, PgListener, PgPool, PgPoolOptions};
use sqlx::{Error, Transaction};
use tokio::sync::broadcast;
use tokio::task::JoinHandle;

use super::{Claim, Said, tables};
use crate::clock::Millis;
use crate::events::{BEHIND, Event};
use crate::records::{About, Job};

type Db = sqlx::Postgres;
type Conn = sqlx::PgConnection;
type Row = sqlx::postgres::PgRow;
/// This store, as `rows` calls it.
type Here = Postgres;

#[path = "parts.rs"]
mod parts;
#[path = "rows.rs"]
mod rows;
#[path = "shapes.rs"]
mod shapes;

/// How long a connection is waited for: a database that is away is said soon.
const WAITS: Duration = Duration::from_secs(3);
/// Connections beside those that judge.
const CONNECTIONS: u32 = 12;
/// Rest before a lost connection for events is made anew.
const REST: Duration = Duration::from_millis(500);
/// The channel that events go through.
const CHANNEL: &str = "coneyard";

/// The store.
pub struct Postgres {
    pool: PgPool,
    /// Judging holds a connection for as long as it takes, and must not take others' places.
    judges: PgPool,
    told: broadcast::Sender<Event>,
    listening: JoinHandle<()>,
}

impl Postgres {
    /// Opens the database at this address, `postgres://...`, and makes the tables when there are none.
    ///
    /// # Errors
    /// One sentence when it cannot be reached.
    pub async fn open(address: &str) -> Said<Self> {
        let options: PgConnectOptions = address.parse()?;
        let options = options.application_name("coneyard");
        let pool = |most: u32| {
            PgPoolOptions::new().acquire_timeout(WAITS).max_connections(most).min_connections(0)
        };
        let (shared, judges) = (pool(CONNECTIONS), pool(JUDGES));
        let shared = shared.connect_with(options.clone()).await?;
        // PostgreSQL calls bytes by another name.
        tables(|text| text.replace(" BLOB ", " BYTEA ")).run(&shared).await?;
        let (told, _) = broadcast::channel(BEHIND);
        let listening = tokio::spawn(listen(shared.clone(), told.clone()));
        Ok(Self { pool: shared, judges: judges.connect_lazy_with(options), told, listening })
    }

    async fn reading(&self) -> Result<PoolConnection<Db>, Error> {
        self.pool.acquire().await
    }

    async fn writing(&self) -> Result<Transaction<'static, Db>, Error> {
        self.pool.begin().await
    }

    async fn written(&self, mut tx: Transaction<'static, Db>, event: Option<Event>) -> Said<()> {
        if let Some(event) = event {
            tell(&mut tx, &event).await?;
        }
        Ok(tx.commit().await?)
    }

    async fn next(&self, simulation: u32) -> Said<Option<Claimed>> {
        let mut tx = self.judges.begin().await?;
        let claim = "SELECT class, run FROM judgements WHERE judged IS NULL AND simulation = $1 \
                     ORDER BY asked LIMIT 1 FOR UPDATE SKIP LOCKED";
        let found = sqlx::query_as::<Db, (String, String)>(claim).bind(i64::from(simulation));
        let Some((class, run)) = found.fetch_optional(&mut *tx).await? else {
            return Ok(None);
        };
        let job = parts::job(&mut tx, class, run).await?;
        Ok(job.map(|job| Claimed { tx, simulation, job }))
    }

    async fn own_check(&self) -> Said<Vec<String>> {
        // PostgreSQL holds its constraints itself; what it cannot know is in the part that both share.
        Ok(Vec::new())
    }

    async fn let_go(&self) {
        self.listening.abort();
        self.judges.close().await;
        self.pool.close().await;
    }
}

impl Drop for Postgres {
    fn drop(&mut self) {
        self.listening.abort();
    }
}

/// Most runs that one program judges at a time.
pub const JUDGES: u32 = 64;

async fn tell(db: &mut Conn, event: &Event) -> Result<(), Error> {
    let text = serde_json::to_string(event).unwrap_or_default();
    let notify = sqlx::query::<Db>("SELECT pg_notify($1, $2)").bind(CHANNEL).bind(text);
    notify.execute(db).await.map(|_| ())
}

/// Hands on what any host has said, for ever.
async fn listen(pool: PgPool, told: broadcast::Sender<Event>) {
    while !pool.is_closed() {
        let Ok(mut listener) = PgListener::connect_with(&pool).await else {
            tokio::time::sleep(REST).await;
            continue;
        };
        if listener.listen(CHANNEL).await.is_err() {
            continue;
        }
        // None, when the connection was lost: then from the start.
        while let Ok(Some(said)) = listener.try_recv().await {
            if let Ok(event) = serde_json::from_str(said.payload()) {
                let _ = told.send(event);
            }
        }
        tokio::time::sleep(REST).await;
    }
}

/// A claimed run: the transaction that holds it.
struct Claimed {
    tx: Transaction<'static, Db>,
    simulation: u32,
    job: Job,
}

#[async_trait::async_trait]
impl Claim for Claimed {
    fn job(&self) -> &Job {
        &self.job
    }

    async fn done(mut self: Box<Self>, about: &About, now: Millis) -> Said<()> {
        let event =
            parts::mark_judged(&mut self.tx, &self.job, self.simulation, about, now).await?;
        if let Some(event) = event {
            tell(&mut self.tx, &event).await?;
        }
        Ok(self.tx.commit().await?)
    }
}
