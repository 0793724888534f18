//! The store in one file: SQLite.
//!
//! One connection writes, and begins each transaction as one that writes: a transaction that reads first and writes
//! later meets an immediate refusal that no waiting covers. Others only read beside it (WAL), and every commit is on
//! the disk before it is acknowledged (`synchronous = FULL`).

use std::path::{Path, PathBuf};
use std::time::Duration;

use sqlx::pool::PoolConnection;
use sqlx::sqlite::{
    SqliteConnectOptions, SqliteJournalMode, SqlitePool, SqlitePoolOptions, SqliteSynchronous,
};
use sqlx::{Error, Transaction};
use tokio::sync::broadcast;

use super::{Away, Claim, Said, tables};
use crate::clock::Millis;
use crate::events::{BEHIND, Event};
use crate::records::{About, Job};

type Db = sqlx::Sqlite;
type Conn = sqlx::SqliteConnection;
type Row = sqlx::sqlite::SqliteRow;
/// This store, as `rows` calls it.
type Here = Sqlite;

#[path = "parts.rs"]
mod parts;
#[path = "rows.rs"]
mod rows;
#[path = "shapes.rs"]
mod shapes;

/// Older ones can damage a WAL when it is begun anew.
pub fn oldest_sqlite() -> (u32, u32, u32) {
    (3, 51, 3)
}

/// Whether a version of SQLite, as it writes it, may keep records.
pub fn is_sound(version: &str) -> bool {
    let mut parts = version.split('.').map(|part| part.parse::<u32>().unwrap_or_default());
    let mut next = || parts.next().unwrap_or_default();
    (next(), next(), next()) >= oldest_sqlite()
}

/// How long a lock of another program is waited for.
const PATIENCE: Duration = Duration::from_secs(4);
/// How long a connection is waited for.
const WAITS: Duration = Duration::from_secs(8);
/// Connections that read.
const READERS: u32 = 4;

/// The store.
pub struct Sqlite {
    file: PathBuf,
    writer: SqlitePool,
    readers: SqlitePool,
    told: broadcast::Sender<Event>,
}

impl Sqlite {
    /// Opens the file, and makes it when there is none.
    ///
    /// # Errors
    /// One sentence when it cannot be opened, is none of ours, or SQLite is too old.
    pub async fn open(file: &Path) -> Said<Self> {
        let options = SqliteConnectOptions::new()
            .filename(file)
            .create_if_missing(true)
            .journal_mode(SqliteJournalMode::Wal)
            .synchronous(SqliteSynchronous::Full)
            .foreign_keys(true)
            .busy_timeout(PATIENCE);
        let pool = || SqlitePoolOptions::new().acquire_timeout(WAITS).idle_timeout(None);
        let writer =
            pool().max_connections(1).max_lifetime(None).connect_with(options.clone()).await?;
        let version = sqlx::query_scalar::<Db, String>("SELECT sqlite_version()");
        let version = version.fetch_one(&writer).await?;
        if !is_sound(&version) {
            let (a, b, c) = oldest_sqlite();
            return Err(Away(format!("SQLite {version} is older than {a}.{b}.{c}")));
        }
        tables(str::to_owned).run(&writer).await?;
        let readers = pool().max_connections(READERS).connect_with(options.read_only(true)).await?;
        let (told, _) = broadcast::channel(BEHIND);
        Ok(Self { file: file.to_owned(), writer, readers, told })
    }

    /// Where it is.
    pub fn file(&self) -> &Path {
        &self.file
    }

    /// Writes a copy of all that is committed into a new file, while others go on writing.
    ///
    /// # Errors
    /// One sentence when the file is there already or cannot be written.
    pub async fn backup(&self, to: &Path) -> Said<()> {
        let path = to.to_str().ok_or_else(|| Away("the name of the copy is no text".to_owned()))?;
        // The name is bound, not written into the statement.
        sqlx::query::<Db>("VACUUM INTO $1").bind(path).execute(&self.readers).await?;
        Ok(())
    }

    async fn reading(&self) -> Result<PoolConnection<Db>, Error> {
        self.readers.acquire().await
    }

    async fn writing(&self) -> Result<Transaction<'static, Db>, Error> {
        self.writer.begin_with("BEGIN IMMEDIATE").await
    }

    async fn written(&self, tx: Transaction<'static, Db>, event: Option<Event>) -> Said<()> {
        tx.commit().await?;
        if let Some(event) = event {
            // Nobody may be listening.
            let _ = self.told.send(event);
        }
        Ok(())
    }

    /// Claims the next run. A claim is written down, since judging takes long and there is one writer; those
    /// of a host that was killed are freed when the next one begins.
    async fn next(&self, simulation: u32) -> Said<Option<Claimed>> {
        // Looking needs no writer, and mostly there is nothing.
        let look =
            "SELECT 1 FROM judgements WHERE judged IS NULL AND claimed = 0 AND simulation = $1";
        let look = sqlx::query_scalar::<Db, i64>(look).bind(i64::from(simulation));
        if look.fetch_optional(&self.readers).await?.is_none() {
            return Ok(None);
        }
        let mut tx = self.writing().await?;
        let claim = "UPDATE judgements SET claimed = 1 WHERE rowid = (SELECT rowid FROM judgements \
                     WHERE judged IS NULL AND claimed = 0 AND simulation = $1 ORDER BY asked LIMIT 1) \
                     RETURNING class, run";
        let found = sqlx::query_as::<Db, (String, String)>(claim).bind(i64::from(simulation));
        let Some((class, run)) = found.fetch_optional(&mut *tx).await? else {
            return Ok(None);
        };
        let Some(job) = parts::job(&mut tx, class, run).await? else {
            return Ok(None);
        };
        self.written(tx, None).await?;
        let (writer, told) = (self.writer.clone(), self.told.clone());
        Ok(Some(Claimed { writer, told, simulation, job, open: true }))
    }

    async fn own_check(&self) -> Said<Vec<String>> {
        let mut db = self.reading().await?;
        let whole = sqlx::query_scalar::<Db, String>("PRAGMA integrity_check").fetch_all(&mut *db);
        let mut found: Vec<String> = whole.await?.into_iter().filter(|line| line != "ok").collect();
        let keys = sqlx::query("PRAGMA foreign_key_check").fetch_all(&mut *db).await?;
        if !keys.is_empty() {
            found.push(format!("{} records point to records that are not there", keys.len()));
        }
        Ok(found)
    }

    async fn let_go(&self) {
        self.readers.close().await;
        self.writer.close().await;
    }
}

/// A claimed run.
struct Claimed {
    writer: SqlitePool,
    told: broadcast::Sender<Event>,
    simulation: u32,
    job: Job,
    /// Not marked yet.
    open: bool,
}

#[async_trait::async_trait]
impl Claim for Claimed {
    fn job(&self) -> &Job {
        &self.job
    }

    async fn done(mut self: Box<Self>, about: &About, now: Millis) -> Said<()> {
        let mut tx = self.writer.begin_with("BEGIN IMMEDIATE").await?;
        let event = parts::mark_judged(&mut tx, &self.job, self.simulation, about, now).await?;
        tx.commit().await?;
        self.open = false;
        if let Some(event) = event {
            let _ = self.told.send(event);
        }
        Ok(())
    }
}

impl Drop for Claimed {
    /// Frees what was not marked; if the store is away then, the next host frees it.
    fn drop(&mut self) {
        let Ok(runtime) = tokio::runtime::Handle::try_current() else { return };
        if !self.open {
            return;
        }
        let (writer, class, run) =
            (self.writer.clone(), self.job.class.clone(), self.job.run.clone());
        let simulation = i64::from(self.simulation);
        runtime.spawn(async move {
            let free = "UPDATE judgements SET claimed = 0 \
                        WHERE class = $1 AND run = $2 AND simulation = $3 AND judged IS NULL";
            loop {
                let free = sqlx::query::<Db>(free).bind(&class).bind(&run).bind(simulation);
                match free.execute(&writer).await {
                    Err(_) if !writer.is_closed() => tokio::time::sleep(PATIENCE / 4).await,
                    _ => return,
                }
            }
        });
    }
}

/// Whether a file is a store of ours that holds together: sentences about what does not. It is opened for reading
/// only.
///
/// # Errors
/// One sentence when it cannot be opened.
pub async fn look_at(file: &Path) -> Said<Vec<String>> {
    let options = SqliteConnectOptions::new().filename(file).read_only(true).immutable(true);
    let pool = SqlitePoolOptions::new().max_connections(1).connect_with(options).await?;
    let mut found: Vec<String> = sqlx::query_scalar::<Db, String>("PRAGMA integrity_check")
        .fetch_all(&pool)
        .await?
        .into_iter()
        .filter(|line| line != "ok")
        .collect();
    let ours = "SELECT COUNT(*) FROM runs JOIN classes ON runs.class = classes.id";
    if sqlx::query_scalar::<Db, i64>(ours).fetch_one(&pool).await.is_err() {
        found.push("it has no records of classes".to_owned());
    }
    pool.close().await;
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_sqlite_that_may_damage_records_is_refused() {
        for sound in ["3.51.3", "3.51.10", "3.52.0", "4.0.0"] {
            assert!(is_sound(sound), "{sound}");
        }
        for old in ["3.51.2", "3.46.1", "3.7", "", "nonsense"] {
            assert!(!is_sound(old), "{old}");
        }
    }
}
