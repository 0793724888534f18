//! What the database did not take. Nothing of it is lost as long as the page is open, and nothing
//! that is there twice is shown twice.

use super::{Attempt, Taken};

/// A record that is not kept.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Loose<T> {
    /// The record.
    pub(crate) record: T,
    /// Why the database did not take it.
    pub(crate) why: String,
}

/// After a try to keep a record: it is loose, with the reason, or no longer.
pub(super) fn settle<T>(
    all: &mut Vec<Loose<T>>,
    record: T,
    kept: Result<(), String>,
    id: impl Fn(&T) -> String,
) {
    all.retain(|l| id(&l.record) != id(&record));
    if let Err(why) = kept {
        all.push(Loose { record, why });
    }
}

/// Attempts that are stored and attempts that are loose, oldest first, each once.
pub(super) fn listed(stored: Vec<Attempt>, loose: Vec<Attempt>) -> Vec<Attempt> {
    let mut all = stored;
    for attempt in loose {
        if all.iter().all(|a| a.id != attempt.id) {
            all.push(attempt);
        }
    }
    oldest_first(&mut all);
    all
}

/// Sorts attempts by their beginning.
pub(super) fn oldest_first(all: &mut [Attempt]) {
    all.sort_unstable_by(|a, b| (&a.started, &a.id).cmp(&(&b.started, &b.id)));
}

/// Pre-tests that are stored, with those that are loose in their place: these are newer.
pub(super) fn newer(stored: Vec<Taken>, loose: &[Loose<Taken>]) -> Vec<Taken> {
    let mut all = stored;
    all.retain(|s| loose.iter().all(|l| l.record.id != s.id));
    all.extend(loose.iter().map(|l| l.record.clone()));
    all.sort_unstable_by(|a, b| (&a.started, &a.id).cmp(&(&b.started, &b.id)));
    all
}

#[cfg(test)]
mod tests {
    use coneyard_core::class::contract;

    use super::*;

    fn attempt(id: &str, started: &str) -> Attempt {
        Attempt { started: started.into(), ..contract::attempt(id) }
    }

    fn taken(id: &str, pauses: u32) -> Taken {
        Taken { pauses, ..contract::taken(id) }
    }

    #[test]
    fn what_is_stored_and_loose_is_listed_once_and_in_its_place() {
        let stored = vec![attempt("a", "1"), attempt("c", "3")];
        let loose = vec![attempt("c", "3"), attempt("b", "2")];
        let ids: Vec<String> = listed(stored, loose).into_iter().map(|a| a.id).collect();
        assert_eq!(ids, ["a", "b", "c"]);
    }

    #[test]
    fn a_loose_pre_test_stands_in_place_of_the_stored_one() {
        let loose = [Loose { record: taken("a", 1), why: String::new() }];
        assert_eq!(
            newer(vec![taken("a", 0), taken("b", 0)], &loose),
            [taken("a", 1), taken("b", 0)]
        );
    }

    #[test]
    fn a_record_is_loose_until_it_is_kept() {
        let id = |s: &Taken| s.id.clone();
        let mut all = Vec::new();
        settle(&mut all, taken("a", 0), Err("full".into()), id);
        settle(&mut all, taken("b", 0), Err("full".into()), id);
        settle(&mut all, taken("a", 1), Err("still full".into()), id);
        assert_eq!(all.len(), 2);
        assert_eq!((all[1].record.pauses, all[1].why.as_str()), (1, "still full"));
        settle(&mut all, taken("b", 0), Ok(()), id);
        settle(&mut all, taken("c", 0), Ok(()), id);
        assert_eq!(all.len(), 1);
        assert_eq!(all[0].record.id, "a");
    }
}
