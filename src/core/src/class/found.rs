//! The drives of a class in which something was found: what a trainer plays one after another.

use std::borrow::Borrow;

use serde::{Deserialize, Serialize};

use super::brief::Brief;

/// So many drives are told of: more than anybody watches.
pub const FOUND_MOST: usize = 30;

/// A drive in which it was found.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Found {
    /// Name of the attempt; on a host the run's.
    pub attempt: String,
    /// Who drove.
    pub who: String,
    /// When it began, RFC 3339.
    pub started: String,
    /// How often.
    pub times: u32,
}

/// The newest drives that show it, newest first; attempts in any order. Only drives that tell of somebody's skill, as in
/// what the class misses.
pub fn found<B: Borrow<Brief>>(attempts: &[B], code: &str) -> Vec<Found> {
    let times = |brief: &Brief| brief.faults.iter().find(|(is, ..)| is == code).map(|f| f.2);
    let all = attempts.iter().map(Borrow::borrow).filter(|brief: &&Brief| brief.shows);
    let mut with: Vec<(&Brief, u32)> = all.filter_map(|b| Some((b, times(b)?))).collect();
    with.sort_by(|(a, _), (b, _)| (&b.started, &b.id).cmp(&(&a.started, &a.id)));
    let told = |(brief, times): (&Brief, u32)| Found {
        attempt: brief.id.clone(),
        who: brief.who.clone(),
        started: brief.started.clone(),
        times,
    };
    with.into_iter().take(FOUND_MOST).map(told).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::finding::Severity;

    fn brief(id: &str, started: &str, shows: bool, faults: &[(&str, u32)]) -> Brief {
        let fault = |(code, n): &(&str, u32)| ((*code).to_owned(), Severity::Minor, *n);
        Brief {
            id: id.to_owned(),
            who: "Rowan".to_owned(),
            course: "straight".to_owned(),
            truck: "single".to_owned(),
            started: started.to_owned(),
            total: None,
            shows,
            skills: Vec::new(),
            faults: faults.iter().map(fault).collect(),
        }
    }

    #[test]
    fn the_newest_come_first_and_only_those_that_have_it_and_count() {
        let all = [
            brief("a", "2026-01-01", true, &[("horn", 1)]),
            brief("b", "2026-01-03", true, &[("horn", 2), ("look", 1)]),
            brief("c", "2026-01-04", true, &[("look", 1)]),
            brief("d", "2026-01-05", false, &[("horn", 9)]),
        ];
        let told = |code| -> Vec<(String, u32)> {
            found(&all, code).into_iter().map(|f| (f.attempt, f.times)).collect()
        };
        assert_eq!(told("horn"), [("b".to_owned(), 2), ("a".to_owned(), 1)]);
        assert_eq!(told("look").len(), 2);
        assert_eq!(told("nothing"), []);
    }

    #[test]
    fn no_more_are_told_of_than_anybody_watches() {
        let all: Vec<Brief> = (0..FOUND_MOST + 5)
            .map(|n| brief(&n.to_string(), &format!("2026-01-{n:03}"), true, &[("horn", 1)]))
            .collect();
        let told = found(&all, "horn");
        assert_eq!(told.len(), FOUND_MOST);
        assert_eq!(told[0].attempt, (FOUND_MOST + 4).to_string());
    }
}
