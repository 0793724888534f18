//! Results kept by the content that they were made from, so that what did not change is not done
//! again. It lies in cargo's target folder and may be deleted at any time.

use std::cell::RefCell;
use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use coneyard::trouble::Trouble;

/// A folder of results, one file each, named by a digest of what went in.
pub(crate) struct Store {
    folder: PathBuf,
    used: RefCell<BTreeSet<String>>,
}

impl Store {
    /// Opens the store of this profile beside the compiled module.
    ///
    /// # Errors
    /// One sentence when its folder cannot be made.
    pub(crate) fn open(module: &Path, profile: &str) -> Result<Self, Trouble> {
        let beside = module.parent().unwrap_or(Path::new("."));
        let folder = beside.join(format!("coneyard-site-{profile}"));
        fs::create_dir_all(&folder)
            .map_err(|e| Trouble::with_path("cannot make the folder", &folder, &e))?;
        Ok(Self { folder, used: RefCell::default() })
    }

    /// The key of a result: a digest of the name of the work and of everything that goes in.
    pub(crate) fn key(work: &str, input: &[u8]) -> String {
        let mut hasher = blake3::Hasher::new();
        hasher.update(&(work.len() as u64).to_le_bytes());
        hasher.update(work.as_bytes());
        hasher.update(input);
        hasher.finalize().to_hex().as_str()[..32].to_owned()
    }

    /// The kept result, if there is one.
    pub(crate) fn get(&self, key: &str) -> Option<Vec<u8>> {
        self.used.borrow_mut().insert(key.to_owned());
        fs::read(self.folder.join(key)).ok()
    }

    /// Keeps a result. It is renamed into place, so that a broken write is never taken for one;
    /// that it could not be kept only costs time later.
    pub(crate) fn put(&self, key: &str, result: &[u8]) {
        let unfinished = self.folder.join(format!("{key}.{}.part", std::process::id()));
        if fs::write(&unfinished, result).is_ok() {
            let _ = fs::rename(&unfinished, self.folder.join(key));
        }
    }

    /// Deletes what this build did not ask for.
    pub(crate) fn sweep(&self) {
        let Ok(entries) = fs::read_dir(&self.folder) else {
            return;
        };
        for entry in entries.flatten() {
            let name = entry.file_name().to_string_lossy().into_owned();
            if !self.used.borrow().contains(&name) {
                let _ = fs::remove_file(entry.path());
            }
        }
    }
}
