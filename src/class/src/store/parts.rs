//! What several calls of a store have in common, within their transaction. Mounted in both, as `rows` is.

use coneyard_core::class::Brief;
use sqlx::Error;

use super::{Conn, Db};
use crate::clock::Millis;
use crate::events::{Event, What};
use crate::records::{About, ClassRules, Handed, Job, NewRun, Session, State};
use crate::store::state_of;

/// Somebody is let in.
pub(super) async fn let_in(
    db: &mut Conn,
    session: &Session,
    token: &str,
    ends: Millis,
) -> Result<(), Error> {
    let insert = "INSERT INTO sessions (token, class, person, role, ends) \
                  VALUES ($1, $2, $3, $4, $5) ON CONFLICT (token) DO NOTHING";
    sqlx::query::<Db>(insert)
        .bind(token)
        .bind(&session.class)
        .bind(session.person.as_ref().map(|person| person.id.clone()))
        .bind(session.role.name())
        .bind(ends)
        .execute(db)
        .await
        .map(|_| ())
}

/// What is known of a run that has just been kept; and its place in the queue, if it can be driven again.
pub(super) async fn keep_about(db: &mut Conn, run: &NewRun) -> Result<(), Error> {
    let state = state_of(&run.about);
    let insert = "INSERT INTO attempts (class, run, course, truck, started, state) \
                  VALUES ($1, $2, '', '', '', $3)";
    let insert = sqlx::query::<Db>(insert).bind(&run.class).bind(&run.id).bind(state.name());
    insert.execute(&mut *db).await?;
    mark(db, &run.class, &run.id, &run.about).await?;
    if let (State::Waiting, Some(simulation)) = (state, run.about.simulation) {
        let ask = "INSERT INTO judgements (class, run, simulation, asked) VALUES ($1, $2, $3, $4)";
        sqlx::query::<Db>(ask)
            .bind(&run.class)
            .bind(&run.id)
            .bind(i64::from(simulation))
            .bind(run.arrived)
            .execute(db)
            .await?;
    }
    Ok(())
}

/// Counts a change of a class.
pub(super) async fn change(db: &mut Conn, class: &str) -> Result<i64, Error> {
    let count = "INSERT INTO changes (class, number, gone) VALUES ($1, 1, 0) \
                 ON CONFLICT (class) DO UPDATE SET number = changes.number + 1 RETURNING number";
    sqlx::query_scalar::<Db, i64>(count).bind(class).fetch_one(db).await
}

/// Writes what is known of a run.
async fn mark(db: &mut Conn, class: &str, run: &str, about: &About) -> Result<(), Error> {
    let set = "UPDATE attempts SET course = $3, truck = $4, started = $5, state = $6, reason = $7, \
               total = $8, ending = $9, findings = $10, critical = $11, sitting = $12, part = $13, \
               record = $14, brief = $15, brief_form = $16, changed = $17 WHERE class = $1 AND run = $2";
    let changed = change(db, class).await?;
    sqlx::query::<Db>(set)
        .bind(class)
        .bind(run)
        .bind(&about.course)
        .bind(&about.truck)
        .bind(&about.started)
        .bind(state_of(about).name())
        .bind(&about.reason)
        .bind(about.total)
        .bind(&about.ending)
        .bind(i64::from(about.findings))
        .bind(i64::from(about.critical))
        .bind(&about.sitting)
        .bind(about.part.map(i64::from))
        .bind(&about.record)
        .bind(&about.brief)
        .bind(about.brief.is_some().then_some(i64::from(Brief::FORM)))
        .bind(changed)
        .execute(db)
        .await
        .map(|_| ())
}

/// Marks a claimed run as judged, and says so. It must not have been marked before.
pub(super) async fn mark_judged(
    db: &mut Conn,
    job: &Job,
    simulation: u32,
    about: &About,
    now: Millis,
) -> Result<Option<Event>, Error> {
    let set = "UPDATE judgements SET judged = $4, marks = marks + 1 \
               WHERE class = $1 AND run = $2 AND simulation = $3";
    let marked = sqlx::query::<Db>(set)
        .bind(&job.class)
        .bind(&job.run)
        .bind(i64::from(simulation))
        .bind(now)
        .execute(&mut *db)
        .await?;
    if marked.rows_affected() == 0 {
        // Deleted, with whoever drove it.
        return Ok(None);
    }
    mark(db, &job.class, &job.run, about).await?;
    let what = What::Judged { run: job.run.clone() };
    Ok(Some(Event { class: job.class.clone(), what }))
}

/// By which rules drives of a class are judged.
pub(super) async fn rules(db: &mut Conn, class: &str) -> Result<ClassRules, Error> {
    let select = "SELECT rules, served FROM classes WHERE id = $1";
    let found = sqlx::query_as::<Db, (Option<String>, Option<String>)>(select).bind(class);
    let (set, served) = found.fetch_optional(db).await?.unwrap_or_default();
    Ok(ClassRules { set: set.is_some(), rules: set.or(served) })
}

/// The rest of a job, once its run is claimed.
pub(super) async fn job(db: &mut Conn, class: String, run: String) -> Result<Option<Job>, Error> {
    let select = "SELECT person, bytes FROM runs WHERE class = $1 AND id = $2";
    let found = sqlx::query_as::<Db, (String, Vec<u8>)>(select).bind(&class).bind(&run);
    let Some((person, bytes)) = found.fetch_optional(&mut *db).await? else {
        return Ok(None);
    };
    let handed = handed(db, &class, Some(&person)).await?;
    let rules = rules(db, &class).await?.rules;
    Ok(Some(Job { class, run, person, bytes, handed, rules }))
}

pub(super) async fn handed(
    db: &mut Conn,
    class: &str,
    person: Option<&str>,
) -> Result<Vec<Handed>, Error> {
    let select = "SELECT id, person, truck, word, seat, made FROM sittings \
                  WHERE class = $1 AND ($2 IS NULL OR person = $2) ORDER BY made, id";
    sqlx::query_as::<Db, Handed>(select).bind(class).bind(person).fetch_all(db).await
}

pub(super) async fn keep_handed(db: &mut Conn, class: &str, handed: &Handed) -> Result<(), Error> {
    let insert = "INSERT INTO sittings (id, class, person, truck, word, seat, made) \
                  VALUES ($1, $2, $3, $4, $5, $6, $7) ON CONFLICT DO NOTHING";
    sqlx::query::<Db>(insert)
        .bind(&handed.id)
        .bind(class)
        .bind(&handed.person)
        .bind(&handed.truck)
        .bind(&handed.word)
        .bind(i64::from(handed.seat))
        .bind(handed.made)
        .execute(db)
        .await
        .map(|_| ())
}
