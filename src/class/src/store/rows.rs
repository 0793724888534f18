//! What is said to both stores in the same words. This file is mounted in `sqlite` and in `postgres`, so that every
//! statement stands once; `Db`, `Row` and the functions of `Here` are the mounting module's own.

use async_trait::async_trait;
use coneyard_core::class::{Brief, plain_name};
use tokio::sync::broadcast;

use super::parts::{change, handed, keep_about, keep_handed, let_in, rules};
use super::{Db, Here};
use crate::clock::Millis;
use crate::events::{Event, What};
use crate::records::{
    AttemptRow, BriefRow, Class, ClassRules, Delivered, Edited, Handed, Listed, Live, Member,
    NewRun, Note, Person, Queue, Role, Session, Since, State,
};
use crate::store::{Claim, Said, Store};

/// Highest seat of a pre-test, as core reads it.
const SEATS: i64 = 9999;

#[async_trait]
impl Store for Here {
    async fn owner(&self) -> Said<Option<String>> {
        let mut db = self.reading().await?;
        let found = sqlx::query_scalar::<Db, String>("SELECT owner FROM host");
        Ok(found.fetch_optional(&mut *db).await?)
    }

    async fn set_owner(&self, passphrase: &str) -> Said<()> {
        let mut tx = self.writing().await?;
        let set = "INSERT INTO host (id, owner) VALUES (1, $1) \
                   ON CONFLICT (id) DO UPDATE SET owner = excluded.owner";
        sqlx::query::<Db>(set).bind(passphrase).execute(&mut *tx).await?;
        let end = "DELETE FROM sessions WHERE role = 'owner'";
        sqlx::query::<Db>(end).execute(&mut *tx).await?;
        self.written(tx, None).await
    }

    async fn open_class(&self, class: &Class) -> Said<()> {
        let mut tx = self.writing().await?;
        let insert = "INSERT INTO classes (id, name, code, passphrase, word, opened) \
                      VALUES ($1, $2, $3, $4, $5, $6) ON CONFLICT (id) DO NOTHING";
        sqlx::query::<Db>(insert)
            .bind(&class.id)
            .bind(&class.name)
            .bind(&class.code)
            .bind(&class.passphrase)
            .bind(&class.word)
            .bind(class.opened)
            .execute(&mut *tx)
            .await?;
        self.written(tx, None).await
    }

    async fn classes(&self) -> Said<Vec<Class>> {
        let mut db = self.reading().await?;
        let found = sqlx::query_as::<Db, Class>("SELECT * FROM classes ORDER BY opened DESC, id");
        Ok(found.fetch_all(&mut *db).await?)
    }

    async fn class(&self, id: &str) -> Said<Option<Class>> {
        let mut db = self.reading().await?;
        let found = sqlx::query_as::<Db, Class>("SELECT * FROM classes WHERE id = $1").bind(id);
        Ok(found.fetch_optional(&mut *db).await?)
    }

    async fn class_of_code(&self, code: &str) -> Said<Option<Class>> {
        let mut db = self.reading().await?;
        let found = sqlx::query_as::<Db, Class>("SELECT * FROM classes WHERE code = $1").bind(code);
        Ok(found.fetch_optional(&mut *db).await?)
    }

    async fn set_passphrase(&self, class: &str, passphrase: &str) -> Said<()> {
        let mut tx = self.writing().await?;
        let set = "UPDATE classes SET passphrase = $2 WHERE id = $1";
        sqlx::query::<Db>(set).bind(class).bind(passphrase).execute(&mut *tx).await?;
        let end = "DELETE FROM sessions WHERE class = $1 AND role = 'trainer'";
        sqlx::query::<Db>(end).bind(class).execute(&mut *tx).await?;
        self.written(tx, None).await
    }

    async fn rules(&self, class: &str) -> Said<ClassRules> {
        let mut db = self.reading().await?;
        Ok(rules(&mut db, class).await?)
    }

    async fn set_rules(&self, class: &str, rules: Option<&str>) -> Said<()> {
        let mut tx = self.writing().await?;
        let set = "UPDATE classes SET rules = $2 WHERE id = $1";
        sqlx::query::<Db>(set).bind(class).bind(rules).execute(&mut *tx).await?;
        self.written(tx, None).await
    }

    async fn serve_rules(&self, class: &str, rules: &str) -> Said<()> {
        let mut tx = self.writing().await?;
        let set = "UPDATE classes SET served = $2 WHERE id = $1";
        sqlx::query::<Db>(set).bind(class).bind(rules).execute(&mut *tx).await?;
        self.written(tx, None).await
    }

    async fn join(&self, class: &str, new: &Person, token: &str, ends: Millis) -> Said<Person> {
        let mut tx = self.writing().await?;
        let insert = "INSERT INTO people (id, class, name, plain, joined) \
                      VALUES ($1, $2, $3, $4, $5) ON CONFLICT (class, plain) DO NOTHING";
        let plain = plain_name(&new.name);
        let inserted = sqlx::query::<Db>(insert)
            .bind(&new.id)
            .bind(class)
            .bind(&new.name)
            .bind(&plain)
            .bind(new.joined)
            .execute(&mut *tx)
            .await?;
        let select = "SELECT id, name, joined FROM people WHERE class = $1 AND plain = $2";
        let person = sqlx::query_as::<Db, Person>(select).bind(class).bind(&plain);
        let person = person.fetch_one(&mut *tx).await?;
        let session =
            Session { class: class.to_owned(), role: Role::Trainee, person: Some(person.clone()) };
        let_in(&mut tx, &session, token, ends).await?;
        let what = What::Joined { person: person.id.clone() };
        let new = inserted.rows_affected() == 1;
        self.written(tx, new.then(|| Event { class: class.to_owned(), what })).await?;
        Ok(person)
    }

    async fn keep_person(&self, class: &str, person: &Person, fresh: &str) -> Said<Person> {
        let mut tx = self.writing().await?;
        let plain = plain_name(&person.name);
        for id in [&person.id, fresh] {
            let insert = "INSERT INTO people (id, class, name, plain, joined) \
                          VALUES ($1, $2, $3, $4, $5) ON CONFLICT DO NOTHING";
            sqlx::query::<Db>(insert)
                .bind(id)
                .bind(class)
                .bind(&person.name)
                .bind(&plain)
                .bind(person.joined)
                .execute(&mut *tx)
                .await?;
        }
        let select = "SELECT id, name, joined FROM people WHERE class = $1 AND plain = $2";
        let kept = sqlx::query_as::<Db, Person>(select).bind(class).bind(&plain);
        let kept = kept.fetch_one(&mut *tx).await?;
        self.written(tx, None).await?;
        Ok(kept)
    }

    async fn enter(&self, session: &Session, token: &str, ends: Millis) -> Said<()> {
        let mut tx = self.writing().await?;
        let_in(&mut tx, session, token, ends).await?;
        self.written(tx, None).await
    }

    async fn session(&self, token: &str, now: Millis) -> Said<Option<Session>> {
        let mut db = self.reading().await?;
        let select = "SELECT s.class, s.role, p.id, p.name, p.joined FROM sessions s \
                      LEFT JOIN people p ON p.id = s.person WHERE s.token = $1 AND s.ends > $2";
        type Found = (String, String, Option<String>, Option<String>, Option<Millis>);
        let found = sqlx::query_as::<Db, Found>(select).bind(token).bind(now);
        let Some((class, role, id, name, joined)) = found.fetch_optional(&mut *db).await? else {
            return Ok(None);
        };
        let person =
            id.zip(name).zip(joined).map(|((id, name), joined)| Person { id, name, joined });
        // A trainee without a person is nobody: the person was deleted.
        Ok(Role::named(&role)
            .filter(|role| *role != Role::Trainee || person.is_some())
            .map(|role| Session { class, role, person }))
    }

    async fn leave(&self, token: &str, now: Millis) -> Said<()> {
        let mut tx = self.writing().await?;
        let delete = "DELETE FROM sessions WHERE token = $1 OR ends <= $2";
        sqlx::query::<Db>(delete).bind(token).bind(now).execute(&mut *tx).await?;
        self.written(tx, None).await
    }

    async fn people(&self, class: &str) -> Said<Vec<Member>> {
        let mut db = self.reading().await?;
        let select = "SELECT p.id, p.name, p.joined, \
                      (SELECT COUNT(*) FROM runs r WHERE r.person = p.id) AS runs \
                      FROM people p WHERE p.class = $1 ORDER BY p.plain, p.id";
        Ok(sqlx::query_as::<Db, Member>(select).bind(class).fetch_all(&mut *db).await?)
    }

    async fn forget(&self, class: &str, person: &str) -> Said<bool> {
        let mut tx = self.writing().await?;
        // First what a judge may hold, and nothing else: else the two could wait for each other.
        let waiting = "DELETE FROM judgements WHERE class = $1 AND run IN \
                       (SELECT id FROM runs WHERE class = $1 AND person = $2)";
        sqlx::query::<Db>(waiting).bind(class).bind(person).execute(&mut *tx).await?;
        let delete = "DELETE FROM people WHERE class = $1 AND id = $2";
        let gone = sqlx::query::<Db>(delete).bind(class).bind(person).execute(&mut *tx).await?;
        let gone = gone.rows_affected() == 1;
        if gone {
            let change = change(&mut tx, class).await?;
            let note = "UPDATE changes SET gone = $2 WHERE class = $1";
            sqlx::query::<Db>(note).bind(class).bind(change).execute(&mut *tx).await?;
        }
        let what = What::Gone { person: person.to_owned() };
        self.written(tx, gone.then(|| Event { class: class.to_owned(), what })).await?;
        Ok(gone)
    }

    async fn keep(&self, run: &NewRun) -> Said<Delivered> {
        let mut tx = self.writing().await?;
        let insert = "INSERT INTO runs (class, id, person, arrived, bytes) \
                      VALUES ($1, $2, $3, $4, $5) ON CONFLICT (class, id) DO NOTHING";
        let inserted = sqlx::query::<Db>(insert)
            .bind(&run.class)
            .bind(&run.id)
            .bind(&run.person)
            .bind(run.arrived)
            .bind(&run.bytes)
            .execute(&mut *tx)
            .await?;
        let new = inserted.rows_affected() == 1;
        if new {
            keep_about(&mut tx, run).await?;
        }
        let select = "SELECT state FROM attempts WHERE class = $1 AND run = $2";
        let state = sqlx::query_scalar::<Db, String>(select).bind(&run.class).bind(&run.id);
        let state = State::named(&state.fetch_one(&mut *tx).await?);
        let what = What::Arrived { run: run.id.clone() };
        self.written(tx, new.then(|| Event { class: run.class.clone(), what })).await?;
        Ok(Delivered { new, state })
    }

    async fn runs(
        &self,
        class: &str,
        person: Option<&str>,
        newest: Option<u32>,
    ) -> Said<Vec<Listed>> {
        let mut db = self.reading().await?;
        let select = "SELECT a.*, r.person, r.arrived, p.name FROM runs r \
                      JOIN attempts a ON a.class = r.class AND a.run = r.id \
                      JOIN people p ON p.id = r.person \
                      WHERE r.class = $1 AND ($2 IS NULL OR r.person = $2) \
                      ORDER BY r.arrived DESC, r.id DESC LIMIT $3";
        let most = newest.map_or(i64::MAX, i64::from);
        let found = sqlx::query_as::<Db, Listed>(select).bind(class).bind(person).bind(most);
        let mut found = found.fetch_all(&mut *db).await?;
        found.reverse();
        Ok(found)
    }

    async fn listed(&self, class: &str, person: Option<&str>, run: &str) -> Said<Option<Listed>> {
        let mut db = self.reading().await?;
        let select = "SELECT a.*, r.person, r.arrived, p.name FROM runs r \
                      JOIN attempts a ON a.class = r.class AND a.run = r.id \
                      JOIN people p ON p.id = r.person \
                      WHERE r.class = $1 AND ($2 IS NULL OR r.person = $2) AND r.id = $3";
        let found = sqlx::query_as::<Db, Listed>(select).bind(class).bind(person).bind(run);
        Ok(found.fetch_optional(&mut *db).await?)
    }

    async fn run(&self, class: &str, person: Option<&str>, run: &str) -> Said<Option<Vec<u8>>> {
        let mut db = self.reading().await?;
        let select = "SELECT bytes FROM runs \
                      WHERE class = $1 AND ($2 IS NULL OR person = $2) AND id = $3";
        let found = sqlx::query_scalar::<Db, Vec<u8>>(select).bind(class).bind(person).bind(run);
        Ok(found.fetch_optional(&mut *db).await?)
    }

    async fn attempt(&self, class: &str, person: Option<&str>, run: &str) -> Said<Option<String>> {
        let mut db = self.reading().await?;
        let select = "SELECT a.record FROM attempts a \
                      JOIN runs r ON r.class = a.class AND r.id = a.run \
                      WHERE a.class = $1 AND ($2 IS NULL OR r.person = $2) AND a.run = $3";
        let found = sqlx::query_scalar::<Db, Option<String>>(select).bind(class).bind(person);
        Ok(found.bind(run).fetch_optional(&mut *db).await?.flatten())
    }

    async fn attempts(
        &self,
        class: &str,
        person: Option<&str>,
        newest: Option<u32>,
    ) -> Said<Vec<AttemptRow>> {
        let mut db = self.reading().await?;
        let select = "SELECT r.id, p.name, a.record, s.said FROM attempts a \
                      JOIN runs r ON r.class = a.class AND r.id = a.run \
                      JOIN people p ON p.class = r.class AND p.id = r.person \
                      LEFT JOIN remarks s ON s.class = r.class AND s.run = r.id \
                      WHERE a.class = $1 AND ($2 IS NULL OR r.person = $2) AND a.record IS NOT NULL \
                      ORDER BY r.arrived DESC, r.id DESC LIMIT $3";
        let most = newest.map_or(i64::MAX, i64::from);
        let found = sqlx::query_as::<Db, (String, String, String, Option<String>)>(select);
        let found = found.bind(class).bind(person).bind(most).fetch_all(&mut *db).await?;
        let row = |(run, who, record, remarks)| AttemptRow { run, who, record, remarks };
        Ok(found.into_iter().rev().map(row).collect())
    }

    async fn remarks(&self, class: &str, person: Option<&str>, run: &str) -> Said<Option<Edited>> {
        let mut db = self.reading().await?;
        let select = "SELECT s.edition, s.said FROM remarks s \
                      JOIN runs r ON r.class = s.class AND r.id = s.run \
                      WHERE s.class = $1 AND ($2 IS NULL OR r.person = $2) AND s.run = $3";
        let found = sqlx::query_as::<Db, Edited>(select).bind(class).bind(person).bind(run);
        Ok(found.fetch_optional(&mut *db).await?)
    }

    async fn said(&self, class: &str, person: Option<&str>) -> Said<Vec<(String, String)>> {
        let mut db = self.reading().await?;
        let select = "SELECT s.run, s.said FROM remarks s \
                      JOIN runs r ON r.class = s.class AND r.id = s.run \
                      WHERE s.class = $1 AND ($2 IS NULL OR r.person = $2) ORDER BY s.run";
        let found = sqlx::query_as::<Db, (String, String)>(select).bind(class).bind(person);
        Ok(found.fetch_all(&mut *db).await?)
    }

    async fn keep_remarks(
        &self,
        class: &str,
        person: Option<&str>,
        run: &str,
        said: &Edited,
    ) -> Said<Option<i64>> {
        let mut tx = self.writing().await?;
        // One statement, so that of two who write at once one is told.
        let keep = "INSERT INTO remarks (class, run, edition, said) \
                    SELECT class, id, 1, $5 FROM runs \
                    WHERE class = $1 AND ($2 IS NULL OR person = $2) AND id = $3 \
                    ON CONFLICT (class, run) DO UPDATE \
                    SET edition = remarks.edition + 1, said = excluded.said \
                    WHERE remarks.edition = $4 RETURNING edition";
        let keep = sqlx::query_scalar::<Db, i64>(keep).bind(class).bind(person).bind(run);
        let kept = keep.bind(said.edition).bind(&said.text).fetch_optional(&mut *tx).await?;
        self.written(tx, None).await?;
        Ok(kept)
    }

    async fn training(&self, class: &str, person: &str) -> Said<Option<Edited>> {
        let mut db = self.reading().await?;
        let select = "SELECT edition, record FROM trainings WHERE class = $1 AND person = $2";
        let found = sqlx::query_as::<Db, Edited>(select).bind(class).bind(person);
        Ok(found.fetch_optional(&mut *db).await?)
    }

    async fn trainings(&self, class: &str) -> Said<Vec<(String, Edited)>> {
        let mut db = self.reading().await?;
        let select = "SELECT t.person, t.edition, t.record FROM trainings t \
                      JOIN people p ON p.id = t.person WHERE t.class = $1 ORDER BY p.plain";
        let found = sqlx::query_as::<Db, (String, i64, String)>(select).bind(class);
        let row = |(person, edition, text)| (person, Edited { edition, text });
        Ok(found.fetch_all(&mut *db).await?.into_iter().map(row).collect())
    }

    async fn keep_training(&self, class: &str, person: &str, record: &Edited) -> Said<Option<i64>> {
        let mut tx = self.writing().await?;
        let keep = "INSERT INTO trainings (class, person, edition, record) \
                    SELECT class, id, 1, $4 FROM people WHERE class = $1 AND id = $2 \
                    ON CONFLICT (person) DO UPDATE \
                    SET edition = trainings.edition + 1, record = excluded.record \
                    WHERE trainings.edition = $3 RETURNING edition";
        let keep = sqlx::query_scalar::<Db, i64>(keep).bind(class).bind(person);
        let kept = keep.bind(record.edition).bind(&record.text).fetch_optional(&mut *tx).await?;
        self.written(tx, None).await?;
        Ok(kept)
    }

    async fn briefs(&self, class: &str, since: Option<i64>) -> Said<Since> {
        let mut db = self.reading().await?;
        // First the count: what changes between the two is only read once more.
        let count = "SELECT number, gone FROM changes WHERE class = $1";
        let count = sqlx::query_as::<Db, (i64, i64)>(count).bind(class);
        let (change, gone) = count.fetch_optional(&mut *db).await?.unwrap_or_default();
        let since = since.filter(|since| *since >= gone);
        if since == Some(change) {
            return Ok(Since { change, all: false, rows: Vec::new() });
        }
        let select = "SELECT r.id, p.name, CASE WHEN a.brief_form = $2 THEN a.brief ELSE NULL END, \
                      CASE WHEN a.brief_form = $2 THEN NULL ELSE a.record END FROM attempts a \
                      JOIN runs r ON r.class = a.class AND r.id = a.run \
                      JOIN people p ON p.id = r.person \
                      WHERE a.class = $1 AND a.changed > $3 ORDER BY r.arrived, r.id";
        let found = sqlx::query_as::<Db, (String, String, Option<String>, Option<String>)>(select);
        let found = found.bind(class).bind(i64::from(Brief::FORM)).bind(since.unwrap_or(-1));
        let row = |(run, who, brief, record)| BriefRow { run, who, brief, record };
        let rows = found.fetch_all(&mut *db).await?.into_iter().map(row).collect();
        Ok(Since { change, all: since.is_none(), rows })
    }

    async fn hand_out(&self, class: &str, new: &Handed) -> Said<Handed> {
        let mut tx = self.writing().await?;
        // The class's row is held until this is written, so that no seat is handed out twice.
        let next = "UPDATE classes SET seats = seats + 1 WHERE id = $1 RETURNING word, seats";
        let next = sqlx::query_as::<Db, (String, i64)>(next).bind(class);
        let (word, seats) = next.fetch_one(&mut *tx).await?;
        // When all seats of a word are used up, the word is drawn anew.
        let (round, seat) = ((seats - 1) / (SEATS + 1), (seats - 1) % (SEATS + 1));
        let word = if round == 0 { word } else { format!("{word}-{round}") };
        let seat = u32::try_from(seat).unwrap_or_default();
        let handed = Handed { word, seat, ..new.clone() };
        keep_handed(&mut tx, class, &handed).await?;
        self.written(tx, None).await?;
        Ok(handed)
    }

    async fn handed(&self, class: &str, person: Option<&str>) -> Said<Vec<Handed>> {
        let mut db = self.reading().await?;
        Ok(handed(&mut db, class, person).await?)
    }

    async fn keep_handed(&self, class: &str, handed: &Handed) -> Said<()> {
        let mut tx = self.writing().await?;
        keep_handed(&mut tx, class, handed).await?;
        self.written(tx, None).await
    }

    async fn note(&self, class: &str, person: &str, note: &Note, now: Millis) -> Said<()> {
        let text = serde_json::to_string(note).unwrap_or_default();
        let mut tx = self.writing().await?;
        let set = "INSERT INTO live (person, class, noted, note) VALUES ($1, $2, $3, $4) \
                   ON CONFLICT (person) DO UPDATE SET noted = excluded.noted, note = excluded.note";
        sqlx::query::<Db>(set)
            .bind(person)
            .bind(class)
            .bind(now)
            .bind(text)
            .execute(&mut *tx)
            .await?;
        let what = What::Live { person: person.to_owned() };
        self.written(tx, Some(Event { class: class.to_owned(), what })).await
    }

    async fn live(&self, class: &str, since: Millis) -> Said<Vec<Live>> {
        let mut db = self.reading().await?;
        let select = "SELECT l.person, l.noted, l.note, p.name FROM live l \
                      JOIN people p ON p.id = l.person \
                      WHERE l.class = $1 AND l.noted >= $2 ORDER BY p.plain";
        let found = sqlx::query_as::<Db, Live>(select).bind(class).bind(since);
        Ok(found.fetch_all(&mut *db).await?)
    }

    async fn live_of(&self, class: &str, person: &str) -> Said<Option<Live>> {
        let mut db = self.reading().await?;
        let select = "SELECT l.person, l.noted, l.note, p.name FROM live l \
                      JOIN people p ON p.id = l.person WHERE l.class = $1 AND l.person = $2";
        let found = sqlx::query_as::<Db, Live>(select).bind(class).bind(person);
        Ok(found.fetch_optional(&mut *db).await?)
    }

    async fn begin_judging(&self, simulation: u32, reason: &str) -> Said<()> {
        let mut tx = self.writing().await?;
        let free = "UPDATE judgements SET claimed = 0 WHERE claimed <> 0 AND judged IS NULL";
        sqlx::query::<Db>(free).execute(&mut *tx).await?;
        let stale = "UPDATE attempts SET state = 'unreadable', reason = $2 WHERE state = 'waiting' \
                     AND NOT EXISTS (SELECT 1 FROM judgements j WHERE j.class = attempts.class \
                     AND j.run = attempts.run AND j.simulation = $1)";
        let stale = sqlx::query::<Db>(stale).bind(i64::from(simulation)).bind(reason);
        stale.execute(&mut *tx).await?;
        self.written(tx, None).await
    }

    async fn claim(&self, simulation: u32) -> Said<Option<Box<dyn Claim>>> {
        Ok(self.next(simulation).await?.map(|claim| Box::new(claim) as Box<dyn Claim>))
    }

    async fn queue(&self, simulation: u32) -> Said<Queue> {
        let mut db = self.reading().await?;
        let select = "SELECT COUNT(*), COUNT(judged), COALESCE(MAX(marks), 0) FROM judgements \
                      WHERE simulation = $1";
        let found = sqlx::query_as::<Db, (i64, i64, i64)>(select).bind(i64::from(simulation));
        let (all, judged, most_marks) = found.fetch_one(&mut *db).await?;
        Ok(Queue { waiting: all - judged, judged, most_marks })
    }

    fn events(&self) -> broadcast::Receiver<Event> {
        self.told.subscribe()
    }

    async fn check(&self) -> Said<Vec<String>> {
        let mut found = self.own_check().await?;
        let mut db = self.reading().await?;
        let runs = sqlx::query_as::<Db, (String, String)>("SELECT class, id FROM runs");
        for (class, id) in runs.fetch_all(&mut *db).await? {
            let bytes = "SELECT bytes FROM runs WHERE class = $1 AND id = $2";
            let bytes = sqlx::query_scalar::<Db, Vec<u8>>(bytes).bind(&class).bind(&id);
            let bytes = bytes.fetch_optional(&mut *db).await?;
            if bytes.is_some_and(|bytes| blake3::hash(&bytes).to_hex().as_str() != id) {
                found.push(format!("run {id}: its file is no longer what it was"));
            }
        }
        let bare = "SELECT r.id FROM runs r LEFT JOIN attempts a \
                    ON a.class = r.class AND a.run = r.id WHERE a.run IS NULL";
        let bare = sqlx::query_scalar::<Db, String>(bare).fetch_all(&mut *db).await?;
        found.extend(bare.into_iter().map(|id| format!("run {id}: nothing is known of it")));
        Ok(found)
    }

    async fn close(&self) {
        self.let_go().await;
    }
}
