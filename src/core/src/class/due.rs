//! What is due, of everybody in a class: from the training records, and from when each person practised last.

use std::borrow::Borrow;
use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::again::{Due, due};
use super::brief::Brief;
use super::date::Date;
use super::record::Record;
use super::results::plain_name;

/// What is due of one person with one truck.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct OfPerson {
    /// Who, as their record calls them; without one as it was typed last.
    pub who: String,
    /// Truck id.
    pub truck: String,
    /// They have a training record; without one only practice is known.
    pub recorded: bool,
    /// What is due and why, the earliest first; what is due at once first of all.
    pub due: Vec<Due>,
}

/// Of everybody who drove here or has a record, by name and truck.
pub fn of_class<B: Borrow<Brief>>(attempts: &[B], records: &[Record]) -> Vec<OfPerson> {
    let mut practised = BTreeMap::<(String, String), (String, Option<Date>)>::new();
    let all = attempts.iter().map(Borrow::borrow);
    let mut oldest_first: Vec<&Brief> = all.filter(|a: &&Brief| a.shows).collect();
    oldest_first.sort_by(|a, b| a.started.cmp(&b.started));
    for attempt in oldest_first {
        let on = attempt.started.get(..10).and_then(Date::read);
        let key = (plain_name(&attempt.who), attempt.truck.clone());
        practised.insert(key, (attempt.who.trim().to_owned(), on));
    }
    let named = |who: &str| records.iter().find(|r| plain_name(&r.operator) == plain_name(who));
    let mut all: BTreeMap<(String, String), OfPerson> = BTreeMap::new();
    for record in records {
        for truck in record.trucks() {
            let key = (plain_name(&record.operator), truck.to_owned());
            let last = practised.get(&key).and_then(|(_, on)| *on);
            let due = due(&record.past(truck, last));
            let who = record.operator.clone();
            all.insert(key, OfPerson { who, truck: truck.to_owned(), recorded: true, due });
        }
    }
    for (key, (who, on)) in practised {
        let truck = key.1.clone();
        all.entry(key).or_insert_with(|| {
            let record = named(&who);
            let nothing = Record::new("", &who);
            let past = record.unwrap_or(&nothing).past(&truck, on);
            let who = record.map_or(who, |r| r.operator.clone());
            OfPerson { who, truck, recorded: record.is_some(), due: due(&past) }
        });
    }
    all.into_values().collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::class::again::{Cause, Why};
    use crate::class::contract;
    use crate::class::record::{Happened, Kind, Training};

    fn day(text: &str) -> Date {
        Date::read(text).unwrap()
    }

    fn drove(who: &str, truck: &str, on: &str) -> Brief {
        let mut attempt = contract::attempt(&format!("{who}-{on}"));
        (attempt.who, attempt.truck) = (who.to_owned(), truck.to_owned());
        attempt.started = format!("{on}T08:00:00Z");
        Brief::of(&attempt)
    }

    fn trained(who: &str, truck: &str, on: &str) -> Record {
        let mut record = Record::new(who, who);
        record.trainings.push(Training {
            on: day(on),
            kind: Kind::First,
            by: "Hazel".to_owned(),
            truck: truck.to_owned(),
            site: String::new(),
            note: String::new(),
            simulation: None,
        });
        record
    }

    fn told(all: &[OfPerson]) -> Vec<(&str, &str, bool, Vec<Why>)> {
        let whys = |p: &OfPerson| p.due.iter().map(|d| d.why).collect();
        all.iter().map(|p| (p.who.as_str(), p.truck.as_str(), p.recorded, whys(p))).collect()
    }

    #[test]
    fn who_only_practised_was_never_evaluated() {
        let is = of_class(&[drove("Rowan", "single", "2026-03-01")], &[]);
        let whys = vec![Why::NeverEvaluated, Why::HalfAYear];
        assert_eq!(told(&is), [("Rowan", "single", false, whys)]);
        assert_eq!(is[0].due[1].on, Some(day("2026-09-01")));
    }

    #[test]
    fn the_last_drive_counts_under_any_spelling_and_for_its_truck() {
        let drives = [
            drove("rowan ", "single", "2026-05-01"),
            drove("Rowan", "single", "2026-03-01"),
            drove("Rowan", "double", "2026-06-01"),
        ];
        let is = of_class(&drives, &[trained("Rowan", "single", "2026-02-01")]);
        assert_eq!(is.len(), 2);
        let half = |p: &OfPerson| p.due.iter().find(|d| d.why == Why::HalfAYear).unwrap().on;
        assert_eq!((is[0].truck.as_str(), half(&is[0])), ("double", Some(day("2026-12-01"))));
        assert_eq!((is[1].truck.as_str(), half(&is[1])), ("single", Some(day("2026-11-01"))));
        assert!(is.iter().all(|p| p.who == "Rowan" && p.recorded));
    }

    #[test]
    fn what_happened_with_a_truck_that_nobody_drove_here_is_due_as_well() {
        let mut record = trained("Birch", "single", "2026-02-01");
        record.happened.push(Happened {
            on: day("2026-03-01"),
            cause: Cause::UnsafeSeen,
            truck: "double".to_owned(),
            codes: Vec::new(),
            note: String::new(),
            by: "Hazel".to_owned(),
        });
        let is = of_class::<Brief>(&[], &[record]);
        assert_eq!(is.iter().map(|p| p.truck.as_str()).collect::<Vec<_>>(), ["double", "single"]);
        assert!(told(&is)[0].3.contains(&Why::Refresher(Cause::UnsafeSeen)));
        assert!(!told(&is)[1].3.contains(&Why::Refresher(Cause::UnsafeSeen)));
    }
}
