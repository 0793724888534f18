//! Copies of the records, and whether they hold together.

use std::fs::{self, File};
use std::io;
use std::path::Path;

use coneyard::files::say;
use coneyard::trouble::Trouble;
use coneyard_class::clock;
use coneyard_class::store::{Opened, Store, alone, beside, is_database, look_at};

use super::{Place, away, running};

/// Files that SQLite keeps beside its own.
const BESIDE: [&str; 2] = ["wal", "shm"];

fn is_file_only() -> Trouble {
    Trouble::Input(
        "this is for records in a file: a database is copied and put back with its own tools, pg_dump and \
         pg_restore"
            .to_owned(),
    )
}

/// Copies the records into a new file.
///
/// # Errors
/// One sentence when it is there already or cannot be written.
pub(super) async fn backup(opened: &Opened, to: &Path) -> Result<(), Trouble> {
    let file = opened.file.as_ref().ok_or_else(is_file_only)?;
    if to.exists() {
        return Err(Trouble::Input(format!(
            "{}: there is such a file already: name a new one",
            to.display()
        )));
    }
    file.backup(to).await.map_err(|e| Trouble::with_path("cannot copy the records to", to, &e))?;
    // What is copied is on the disk before it is said.
    File::open(to)
        .and_then(|copy| copy.sync_all())
        .map_err(|e| Trouble::with_path("cannot copy the records to", to, &e))?;
    whole(to).await?;
    say(format_args!("The records are copied to {}, and the copy holds together.", to.display()));
    Ok(())
}

async fn whole(copy: &Path) -> Result<(), Trouble> {
    let name = copy.display();
    let found = look_at(copy)
        .await
        .map_err(|_| Trouble::Input(format!("{name}: this is no copy of a class's records")))?;
    match found.as_slice() {
        [] => Ok(()),
        [first, ..] => {
            Err(Trouble::Input(format!("{name}: this copy does not hold together: {first}")))
        }
    }
}

/// Puts a copy in the place of the records.
///
/// # Errors
/// One sentence when it is none, or a host has the records open.
pub(super) fn restore(place: &Place, from: &Path) -> Result<(), Trouble> {
    let address = place.address()?;
    if is_database(&address) {
        return Err(is_file_only());
    }
    if !from.is_file() {
        return Err(Trouble::Input(format!("{}: there is no such file", from.display())));
    }
    running(whole(from))?;
    let file = Path::new(&address);
    let _held = alone(file).map_err(away)?;
    let trouble =
        |e: io::Error| Trouble::with_path("cannot put the copy in the place of", file, &e);
    // First the copy, whole and on the disk, under another name; then names are exchanged.
    let coming = beside(file, "coming");
    fs::copy(from, &coming).map_err(trouble)?;
    File::open(&coming).and_then(|copy| copy.sync_all()).map_err(trouble)?;
    let aside = beside(file, &format!("before-{}", clock::now()));
    if file.exists() {
        fs::rename(file, &aside).map_err(trouble)?;
        for part in BESIDE {
            let own = beside(file, part);
            if own.exists() {
                fs::rename(&own, beside(&aside, part)).map_err(trouble)?;
            }
        }
        say(format_args!("What was there is now {}.", aside.display()));
    }
    fs::rename(&coming, file).map_err(trouble)?;
    say(format_args!("The records in {} are those of {}.", file.display(), from.display()));
    Ok(())
}

/// Says whether all that is kept holds together.
///
/// # Errors
/// One sentence when something does not.
pub(super) async fn check(store: &dyn Store) -> Result<(), Trouble> {
    let found = store.check().await.map_err(away)?;
    found.iter().for_each(say);
    match found.len() {
        0 => {
            say("All that is kept holds together.");
            Ok(())
        }
        some => Err(Trouble::Here(format!(
            "{some} of what is kept does not hold together: put back a copy with `coneyard class restore`"
        ))),
    }
}
