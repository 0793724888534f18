//! A class to look at: invented people of an invented cold store, who drive while somebody looks. Nothing of it is kept.

use std::sync::Arc;

use coneyard::files::say;
use coneyard::trouble::Trouble;
use coneyard_class::clock::{self, DAY};
use coneyard_class::simulate::{Plan, simulate};
use coneyard_class::store::Store;
use coneyard_class::work;
use tempfile::TempDir;
use tokio::task::JoinHandle;

/// What the class is called.
pub(super) const NAME: &str = "Invented cold store";

/// So many people on so many days: a board that is full, and soon.
const PEOPLE: u32 = 24;
const DAYS: u32 = 8;
/// Of all chance in it.
const SEED: u64 = 7;

/// A class that is made up, and the folder that goes with it.
pub(super) struct Demo {
    folder: TempDir,
    driving: Option<JoinHandle<()>>,
}

impl Demo {
    /// A place for it.
    ///
    /// # Errors
    /// One sentence when this computer has none.
    pub(super) fn new() -> Result<Self, Trouble> {
        let folder = tempfile::Builder::new().prefix("coneyard-demo-").tempdir();
        let folder = folder
            .map_err(|e| Trouble::Here(format!("there is no room for a class to look at: {e}")))?;
        Ok(Self { folder, driving: None })
    }

    /// Where its records are.
    pub(super) fn store(&self) -> String {
        self.folder.path().join("class.db").display().to_string()
    }

    /// Lets its people drive, beside whatever else happens.
    pub(super) fn drive(&mut self, store: Arc<dyn Store>, class: String) {
        let until = clock::now() / DAY * DAY;
        let plan = Plan { people: PEOPLE, days: DAYS, seed: SEED, until };
        say(format_args!(
            "{PEOPLE} invented people drive on {DAYS} days, and fill the board while you look. Nothing of it is kept."
        ));
        self.driving = Some(tokio::spawn(async move {
            if let Err(why) = simulate(&*store, &class, &plan, work::cores(), |_, _| {}).await {
                eprintln!("coneyard: the class to look at could not be driven to its end: {why}");
            }
        }));
    }

    /// Ends the driving.
    pub(super) fn end(&self) {
        if let Some(driving) = &self.driving {
            driving.abort();
        }
    }
}
