//! How often something may be tried: wrong codes, wrong passphrases, and requests of one session.
//!
//! A whole classroom has one address, so wrong codes are allowed as many people mistype them; guessing the 7e8
//! codes at that rate takes centuries. A passphrase is counted by its code and the address, so that nobody can lock the
//! trainer out from elsewhere.

use std::collections::HashMap;
use std::sync::Mutex;
use std::time::Instant;

use crate::roles::{Done, Refusal};

/// Wrong codes of one address in `CODES_WITHIN` seconds.
pub const CODES: u32 = 60;
/// Seconds.
pub const CODES_WITHIN: u64 = 600;
/// Wrong passphrases for one code from one address in `PASSPHRASES_WITHIN` seconds.
pub const PASSPHRASES: u32 = 10;
/// Seconds.
pub const PASSPHRASES_WITHIN: u64 = 120;

/// More keys than this are swept of those that are over.
const KEYS: usize = 10_000;

/// What was tried, by key.
#[derive(Default)]
pub struct Tries(Mutex<HashMap<String, Tried>>);

struct Tried {
    since: Instant,
    within: u64,
    times: u32,
}

impl Tried {
    fn left(&self) -> u64 {
        self.within.saturating_sub(self.since.elapsed().as_secs())
    }
}

impl Tries {
    fn held(&self) -> std::sync::MutexGuard<'_, HashMap<String, Tried>> {
        // Whoever panicked while holding it left whole numbers.
        self.0.lock().unwrap_or_else(std::sync::PoisonError::into_inner)
    }

    /// Refuses when the key has been counted so many times within its time.
    ///
    /// # Errors
    /// Tried too often.
    pub fn allow(&self, key: &str, most: u32) -> Done<()> {
        let held = self.held();
        match held.get(key).filter(|tried| tried.times >= most && tried.left() > 0) {
            Some(tried) => Err(Refusal::TooOften(tried.left())),
            None => Ok(()),
        }
    }

    /// Counts one more, within so many seconds from the first on.
    pub fn add(&self, key: &str, within: u64) {
        let mut held = self.held();
        if held.len() > KEYS {
            held.retain(|_, tried| tried.left() > 0);
        }
        let fresh = || Tried { since: Instant::now(), within, times: 0 };
        let tried = held.entry(key.to_owned()).or_insert_with(fresh);
        if tried.left() == 0 {
            *tried = fresh();
        }
        tried.times += 1;
    }

    /// Both: counts one more, or refuses.
    ///
    /// # Errors
    /// Tried too often.
    pub fn count(&self, key: &str, most: u32, within: u64) -> Done<()> {
        self.allow(key, most)?;
        self.add(key, within);
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn so_many_times_and_no_more_and_only_that_key() {
        let tries = Tries::default();
        for _ in 0..3 {
            assert_eq!(tries.count("a", 3, 60), Ok(()));
        }
        assert!(matches!(tries.count("a", 3, 60), Err(Refusal::TooOften(1..=60))));
        assert_eq!(tries.count("b", 3, 60), Ok(()));
    }

    #[test]
    fn after_its_time_it_may_be_tried_again() {
        let tries = Tries::default();
        for _ in 0..5 {
            assert_eq!(tries.count("a", 1, 0), Ok(()));
        }
    }
}
