//! Where records are kept, and how they are opened.

use std::future::Future;
use std::path::PathBuf;

use coneyard::own_folder::{make_private, own_folder};
use coneyard::trouble::Trouble;
use coneyard_class::store::{self, Opened, is_database};

/// Where records are.
#[derive(clap::Args, Clone)]
pub(crate) struct Place {
    /// File of the class's records, or the database postgres://... [default: in this account's folder for data]
    #[arg(long, value_name = "FILE|ADDRESS")]
    pub(crate) store: Option<String>,
}

impl Place {
    /// The address, and the folder of it made when it is a file.
    ///
    /// # Errors
    /// One sentence when there is no folder for it.
    pub(crate) fn address(&self) -> Result<String, Trouble> {
        let address = match &self.store {
            Some(address) if is_database(address) => return Ok(address.clone()),
            Some(file) => PathBuf::from(file),
            None => own_folder("--store")?.join("class.db"),
        };
        if let Some(folder) = address.parent().filter(|folder| !folder.as_os_str().is_empty()) {
            // Records of people are for this account alone.
            make_private(folder)
                .map_err(|e| Trouble::with_path("cannot make the folder", folder, &e))?;
        }
        address.to_str().map(str::to_owned).ok_or_else(|| {
            Trouble::Input(format!("--store: {} is no text: name another file", address.display()))
        })
    }
}

/// Opens the records.
///
/// # Errors
/// One sentence when they cannot be reached.
pub(crate) async fn opened(place: &Place) -> Result<Opened, Trouble> {
    let address = place.address()?;
    store::open(&address).await.map_err(|away| {
        // An address may hold a password.
        let at = if is_database(&address) { "the database" } else { &address };
        Trouble::Here(format!("{at}: {away}"))
    })
}

/// Runs what waits for others.
///
/// # Errors
/// What it says.
pub(crate) fn running(what: impl Future<Output = Result<(), Trouble>>) -> Result<(), Trouble> {
    tokio::runtime::Builder::new_multi_thread()
        .enable_all()
        .build()
        .map_err(|e| Trouble::Here(format!("the program could not be started: {e}")))?
        .block_on(what)
}
