//! A store by its address: `postgres://...`, or a file.

use std::fs::File;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use super::{Away, Postgres, Said, Sqlite, Store};

/// A store that is open, and what can be done with its file if it is one.
pub struct Opened {
    /// The store.
    pub store: Arc<dyn Store>,
    /// The same as a file.
    pub file: Option<Arc<Sqlite>>,
}

/// Opens the store at this address.
///
/// # Errors
/// One sentence when it cannot be opened.
pub async fn open(address: &str) -> Said<Opened> {
    if is_database(address) {
        let store = Arc::new(Postgres::open(address).await?);
        return Ok(Opened { store, file: None });
    }
    let file = Arc::new(Sqlite::open(Path::new(address)).await?);
    Ok(Opened { store: file.clone(), file: Some(file) })
}

/// Whether an address is that of a database that others may use as well.
pub fn is_database(address: &str) -> bool {
    address.starts_with("postgres://") || address.starts_with("postgresql://")
}

/// Holds a file for one host alone, as long as what is given back lives: two would judge the same runs.
///
/// # Errors
/// One sentence when another has it.
pub fn alone(file: &Path) -> Said<File> {
    let lock = beside(file, "lock");
    let held = File::create(&lock).map_err(|e| Away(format!("{}: {e}", lock.display())))?;
    held.try_lock()
        .map_err(|_| Away(format!("another host has the class in {} open", file.display())))?;
    Ok(held)
}

/// The file of this ending beside a store's.
pub fn beside(file: &Path, ending: &str) -> PathBuf {
    let mut name = file.as_os_str().to_owned();
    name.push("-");
    name.push(ending);
    PathBuf::from(name)
}
