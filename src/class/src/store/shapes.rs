//! How a row of either store becomes a record. Mounted in both, as `rows` is.

use sqlx::{Error, FromRow, Row as _};

use super::Row;
use crate::clock;
use crate::records::{Class, Edited, Handed, Listed, Live, Member, Person, State};

impl FromRow<'_, Row> for Class {
    fn from_row(row: &Row) -> Result<Self, Error> {
        Ok(Self {
            id: row.try_get("id")?,
            name: row.try_get("name")?,
            code: row.try_get("code")?,
            passphrase: row.try_get("passphrase")?,
            word: row.try_get("word")?,
            opened: row.try_get("opened")?,
        })
    }
}

impl FromRow<'_, Row> for Person {
    fn from_row(row: &Row) -> Result<Self, Error> {
        Ok(Self {
            id: row.try_get("id")?,
            name: row.try_get("name")?,
            joined: row.try_get("joined")?,
        })
    }
}

impl FromRow<'_, Row> for Edited {
    fn from_row(row: &Row) -> Result<Self, Error> {
        // The text is called as what it is of.
        Ok(Self { edition: row.try_get(0)?, text: row.try_get(1)? })
    }
}

impl FromRow<'_, Row> for Listed {
    fn from_row(row: &Row) -> Result<Self, Error> {
        Ok(Self {
            run: row.try_get("run")?,
            person: row.try_get("person")?,
            name: row.try_get("name")?,
            course: row.try_get("course")?,
            truck: row.try_get("truck")?,
            started: row.try_get("started")?,
            arrived: clock::text(row.try_get("arrived")?),
            state: State::named(row.try_get("state")?),
            reason: row.try_get("reason")?,
            total: row.try_get("total")?,
            ending: row.try_get("ending")?,
            findings: row.try_get("findings")?,
            critical: row.try_get("critical")?,
            sitting: row.try_get("sitting")?,
            part: row.try_get("part")?,
        })
    }
}

impl FromRow<'_, Row> for Handed {
    fn from_row(row: &Row) -> Result<Self, Error> {
        let seat: i64 = row.try_get("seat")?;
        Ok(Self {
            id: row.try_get("id")?,
            person: row.try_get("person")?,
            truck: row.try_get("truck")?,
            word: row.try_get("word")?,
            seat: u32::try_from(seat).map_err(|e| Error::Decode(e.into()))?,
            made: row.try_get("made")?,
        })
    }
}

impl FromRow<'_, Row> for Live {
    fn from_row(row: &Row) -> Result<Self, Error> {
        let note: String = row.try_get("note")?;
        Ok(Self {
            person: row.try_get("person")?,
            name: row.try_get("name")?,
            at: clock::text(row.try_get("noted")?),
            note: serde_json::from_str(&note).map_err(|e| Error::Decode(e.into()))?,
        })
    }
}

impl FromRow<'_, Row> for Member {
    fn from_row(row: &Row) -> Result<Self, Error> {
        Ok(Self {
            person: row.try_get("id")?,
            name: row.try_get("name")?,
            joined: clock::text(row.try_get("joined")?),
            runs: row.try_get("runs")?,
        })
    }
}
