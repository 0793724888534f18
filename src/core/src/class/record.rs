//! The training record of one person: what 29 CFR 1910.178(l)(6) asks an employer to certify (name of the operator, date of
//! training, date of evaluation, identity of whoever trained or evaluated; from memory), the sheets that were filled in at the
//! real truck, and what happened.
//!
//! **It certifies nobody.** The employer does, by people who know the trade and have seen the person on the truck. A result of
//! the simulator stands beside it and in no place of it: that what is learned here carries over to the truck is likely,
//! and proof of it is thin.
//!
//! A record is bounded while it is read: every list and every text.

use std::collections::BTreeSet;

use serde::{Deserialize, Deserializer, Serialize, de::Error};

use super::again::{Cause, Past};
use super::date::Date;
use super::exercises::that_train_all;
use super::form::{Form, first};
use super::results::same_person;
use super::workplace::{ITEMS_MOST, Item, List};
use crate::outside::bounded::List as Bounded;
use crate::outside::{BadInput, read_json};

/// Largest record that is read, bytes.
const MAX_BYTES: usize = 2 * 1024 * 1024;
/// Most trainings, sheets and happenings of one person.
const MOST: usize = 500;
/// Longest name, characters; as a class has it.
const LONGEST_NAME: usize = 100;
/// Longest note, characters.
const LONGEST_NOTE: usize = 1000;

fn bounded<'de, D: Deserializer<'de>, T: Deserialize<'de>, const MAX: usize>(
    d: D,
) -> Result<Vec<T>, D::Error> {
    Ok(Bounded::<T, MAX>::deserialize(d)?.0)
}

/// A name: on one line, not empty.
fn name<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    let text = String::deserialize(d)?;
    let is_one = !text.trim().is_empty() && !text.chars().any(char::is_control);
    if is_one && text.chars().count() <= LONGEST_NAME {
        return Ok(text.trim().to_owned());
    }
    Err(D::Error::custom(format_args!("a name has 1 to {LONGEST_NAME} letters on one line")))
}

/// A note: empty, or a few lines.
fn note<'de, D: Deserializer<'de>>(d: D) -> Result<String, D::Error> {
    let text = String::deserialize(d)?;
    let plain = !text.chars().any(|c| c.is_control() && c != '\n');
    if plain && text.chars().count() <= LONGEST_NOTE {
        return Ok(text);
    }
    Err(D::Error::custom(format_args!("a note has at most {LONGEST_NOTE} letters")))
}

/// What a training was.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Kind {
    /// Before somebody drives.
    First,
    /// Again, after something happened.
    Refresher,
}

/// A training, as its trainer has it: formal instruction and practical training.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Training {
    /// On which day.
    pub on: Date,
    /// First or again.
    pub kind: Kind,
    /// Who trained.
    #[serde(deserialize_with = "name")]
    pub by: String,
    /// On which truck: its id, or what it is called.
    #[serde(deserialize_with = "name")]
    pub truck: String,
    /// Where; may be empty.
    #[serde(default, deserialize_with = "note", skip_serializing_if = "String::is_empty")]
    pub site: String,
    /// What was covered and what was left out.
    #[serde(default, deserialize_with = "note", skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// The version of the simulation that judged the practice that went before; None without any.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub simulation: Option<u32>,
}

/// How something was seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Seen {
    /// It was done as it should be.
    Ok,
    /// It was not, yet.
    NotYet,
}

/// What was seen of one item. Of several entries on one item the last counts.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Entry {
    /// Id of the item in the list.
    #[serde(deserialize_with = "name")]
    pub item: String,
    /// How; None where there is a note only.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub seen: Option<Seen>,
    /// What there is to say.
    #[serde(default, deserialize_with = "note", skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// Who saw it.
    #[serde(deserialize_with = "name")]
    pub by: String,
    /// On which day.
    pub on: Date,
}

/// What a sheet is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Purpose {
    /// Supervised practice.
    Practice,
    /// The evaluation in the workplace.
    Evaluation,
}

/// What an evaluator decided.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Decided {
    /// The person operates the truck safely.
    Safe,
    /// Not yet.
    NotYet,
}

/// A sheet that was filled in at the truck.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Sheet {
    /// What it is for.
    pub purpose: Purpose,
    /// On which day.
    pub on: Date,
    /// Who supervised or evaluated.
    #[serde(deserialize_with = "name")]
    pub by: String,
    /// The truck: its id, or what it is called.
    #[serde(deserialize_with = "name")]
    pub truck: String,
    /// The site; may be empty.
    #[serde(default, deserialize_with = "note", skip_serializing_if = "String::is_empty")]
    pub site: String,
    /// Id of the list.
    #[serde(deserialize_with = "name")]
    pub list: String,
    /// What was seen, in order.
    #[serde(deserialize_with = "bounded::<_, _, { 4 * ITEMS_MOST }>")]
    pub entries: Vec<Entry>,
    /// What an evaluator decided; None as long as nobody has.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub decided: Option<Decided>,
}

impl Sheet {
    /// Items that must be seen and were not seen done as they should be, by this list.
    pub fn open<'a>(&self, list: &'a List) -> Vec<&'a Item> {
        let last = |item: &Item| {
            let mut of_it = self.entries.iter().rev().filter(|e| e.item == item.id);
            of_it.find_map(|e| e.seen)
        };
        list.items.iter().filter(|i| i.must && last(i) != Some(Seen::Ok)).collect()
    }
}

/// Something that makes training due again.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Happened {
    /// On which day.
    pub on: Date,
    /// What it was.
    pub cause: Cause,
    /// With which truck.
    #[serde(deserialize_with = "name")]
    pub truck: String,
    /// Codes of the faults that it shows, as in the site rules.
    #[serde(default, deserialize_with = "bounded::<_, _, 40>")]
    pub codes: Vec<String>,
    /// What was seen.
    #[serde(default, deserialize_with = "note", skip_serializing_if = "String::is_empty")]
    pub note: String,
    /// Who saw it or heard of it.
    #[serde(deserialize_with = "name")]
    pub by: String,
}

impl Happened {
    /// Ids of the exercises of the refresher that is made for it.
    pub fn exercises(&self) -> Vec<&'static str> {
        that_train_all(self.codes.iter().map(String::as_str))
    }
}

/// The record of one person.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Record {
    /// Version of this form.
    #[serde(default = "first")]
    pub version: u32,
    /// Id of the person in the class: whoever is deleted there is deleted here.
    #[serde(deserialize_with = "name")]
    pub person: String,
    /// Name of the operator.
    #[serde(deserialize_with = "name")]
    pub operator: String,
    /// Trainings, in any order.
    #[serde(default, deserialize_with = "bounded::<_, _, MOST>")]
    pub trainings: Vec<Training>,
    /// Sheets, in any order.
    #[serde(default, deserialize_with = "bounded::<_, _, MOST>")]
    pub sheets: Vec<Sheet>,
    /// What happened, in any order.
    #[serde(default, deserialize_with = "bounded::<_, _, MOST>")]
    pub happened: Vec<Happened>,
}

impl Form for Record {
    const NEWEST: u32 = Self::FORM;

    fn version(&self) -> u32 {
        self.version
    }
}

/// What a record lacks of what the employer certifies.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", tag = "lacks")]
pub enum Lacks {
    /// A training.
    Training,
    /// An evaluation that ended with "safe".
    Evaluation,
    /// The evaluation was before the training; it belongs to another one.
    EvaluatedBefore,
    /// Items that must be seen are open on the evaluation's sheet.
    Items {
        /// Their ids.
        open: Vec<String>,
    },
    /// The list of the evaluation's sheet is not here, so nobody can tell what is open.
    List {
        /// Its id.
        id: String,
    },
    /// Somebody trained or evaluated themselves.
    OwnWord,
    /// A day that is yet to come.
    YetToCome,
}

/// What stands in the record for one truck, and what of it is not there.
#[derive(Clone, Debug, PartialEq)]
pub struct Certified<'a> {
    /// Name of the operator.
    pub operator: &'a str,
    /// The last training.
    pub training: Option<&'a Training>,
    /// The last evaluation that was decided.
    pub evaluation: Option<&'a Sheet>,
    /// What is lacking; empty when all is there that an employer certifies. Whether it is true is theirs to say.
    pub lacks: Vec<Lacks>,
}

impl Record {
    /// Version of the form that is written.
    pub const FORM: u32 = 1;

    /// An empty record.
    pub fn new(person: &str, operator: &str) -> Self {
        Self {
            version: Self::FORM,
            person: person.to_owned(),
            operator: operator.to_owned(),
            trainings: Vec::new(),
            sheets: Vec::new(),
            happened: Vec::new(),
        }
    }

    /// Reads a record from outside.
    ///
    /// # Errors
    /// One sentence with file and place.
    pub fn parse(file: &str, text: &[u8]) -> Result<Self, BadInput> {
        let record: Self = read_json(file, text, MAX_BYTES)?;
        if record.version > Self::FORM {
            let (is, reads) = (record.version, Self::FORM);
            let reason = format!("this is version {is}, and this program reads up to {reads}");
            return Err(BadInput::new(file, "version", reason));
        }
        Ok(record)
    }

    /// Trucks of which it says anything, by their ids.
    pub fn trucks(&self) -> BTreeSet<&str> {
        let trained = self.trainings.iter().map(|t| t.truck.as_str());
        let seen = self.sheets.iter().map(|s| s.truck.as_str());
        trained.chain(seen).chain(self.happened.iter().map(|h| h.truck.as_str())).collect()
    }

    fn trained(&self, truck: &str) -> Option<&Training> {
        self.trainings.iter().filter(|t| t.truck == truck).max_by_key(|t| t.on)
    }

    fn evaluations(&self, truck: &str) -> impl Iterator<Item = &Sheet> {
        let of = move |s: &&Sheet| s.purpose == Purpose::Evaluation && s.truck == truck;
        self.sheets.iter().filter(of).filter(|s| s.decided.is_some())
    }

    /// What an employer certifies for this truck, and what of it is lacking on this day.
    pub fn certified(&self, truck: &str, lists: &[List], today: Date) -> Certified<'_> {
        let (training, evaluation) =
            (self.trained(truck), self.evaluations(truck).max_by_key(|s| s.on));
        let mut lacks = Vec::new();
        if training.is_none() {
            lacks.push(Lacks::Training);
        }
        let safe = evaluation.filter(|s| s.decided == Some(Decided::Safe));
        if safe.is_none() {
            lacks.push(Lacks::Evaluation);
        }
        if let Some(sheet) = safe {
            match lists.iter().find(|l| l.id == sheet.list) {
                None => lacks.push(Lacks::List { id: sheet.list.clone() }),
                Some(list) => {
                    let open: Vec<String> = sheet.open(list).iter().map(|i| i.id.clone()).collect();
                    if !open.is_empty() {
                        lacks.push(Lacks::Items { open });
                    }
                }
            }
            if training.is_some_and(|t| t.on > sheet.on) {
                lacks.push(Lacks::EvaluatedBefore);
            }
        }
        let by = [training.map(|t| (&t.by, t.on)), evaluation.map(|s| (&s.by, s.on))];
        let by = || by.into_iter().flatten();
        if by().any(|(by, _)| same_person(by, &self.operator)) {
            lacks.push(Lacks::OwnWord);
        }
        if by().any(|(_, on)| on > today) {
            lacks.push(Lacks::YetToCome);
        }
        Certified { operator: &self.operator, training, evaluation, lacks }
    }

    /// What is known for this truck, to tell what is due (`again`); `practised` is the day of the last drive here.
    /// An evaluation that ended with "not yet" is a cause.
    pub fn past(&self, truck: &str, practised: Option<Date>) -> Past {
        let decided =
            |as_: Decided| self.evaluations(truck).filter(move |s| s.decided == Some(as_));
        let here = self.happened.iter().filter(|h| h.truck == truck).map(|h| (h.on, h.cause));
        let unsafe_ = decided(Decided::NotYet).map(|s| (s.on, Cause::EvaluationUnsafe));
        Past {
            practised,
            trained: self.trained(truck).map(|t| t.on),
            evaluated: decided(Decided::Safe).map(|s| s.on).max(),
            happened: here.chain(unsafe_).collect(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::class::again::{Why, due};
    use crate::class::{read_record, write_record};

    fn day(text: &str) -> Date {
        Date::read(text).unwrap()
    }

    fn training(on: &str) -> Training {
        Training {
            on: day(on),
            kind: Kind::First,
            by: "Hazel Ash".to_owned(),
            truck: "single".to_owned(),
            site: "Cold store".to_owned(),
            note: String::new(),
            simulation: Some(5),
        }
    }

    /// An evaluation with all items seen.
    fn evaluation(on: &str) -> Sheet {
        let seen = |item: &Item| Entry {
            item: item.id.clone(),
            seen: Some(Seen::Ok),
            note: String::new(),
            by: "Birch".to_owned(),
            on: day(on),
        };
        let list = List::shipped();
        Sheet {
            purpose: Purpose::Evaluation,
            on: day(on),
            by: "Birch".to_owned(),
            truck: "single".to_owned(),
            site: "Cold store".to_owned(),
            entries: list.items.iter().map(seen).collect(),
            list: list.id,
            decided: Some(Decided::Safe),
        }
    }

    fn whole() -> Record {
        let mut record = Record::new("p-7", "Rowan");
        record.trainings = vec![training("2026-03-02")];
        record.sheets = vec![evaluation("2026-03-05")];
        record
    }

    fn lacks(record: &Record) -> Vec<Lacks> {
        record.certified("single", &[List::shipped()], day("2026-04-01")).lacks
    }

    #[test]
    fn a_whole_record_has_all_that_is_certified() {
        let record = whole();
        let is = record.certified("single", &[List::shipped()], day("2026-04-01"));
        assert_eq!(is.lacks, []);
        assert_eq!(is.operator, "Rowan");
        let (training, evaluation) = (is.training.unwrap(), is.evaluation.unwrap());
        assert_eq!((training.on, training.by.as_str()), (day("2026-03-02"), "Hazel Ash"));
        assert_eq!((evaluation.on, evaluation.by.as_str()), (day("2026-03-05"), "Birch"));
        let other = record.certified("double", &[List::shipped()], day("2026-04-01"));
        assert_eq!(other.lacks, [Lacks::Training, Lacks::Evaluation], "each truck by itself");
    }

    #[test]
    fn who_would_have_it_whole_without_doing_it_is_told_what_lacks() {
        assert_eq!(lacks(&Record::new("p", "Rowan")), [Lacks::Training, Lacks::Evaluation]);
        let with = |change: &dyn Fn(&mut Record)| {
            let mut record = whole();
            change(&mut record);
            lacks(&record)
        };
        let open = with(&|r| {
            r.sheets[0].entries.remove(0);
        });
        assert_eq!(open, [Lacks::Items { open: vec![List::shipped().items[0].id.clone()] }]);
        // What was seen last counts, and a note alone changes nothing.
        let again = |seen| {
            with(&move |r: &mut Record| {
                let last = Entry { seen, ..r.sheets[0].entries[0].clone() };
                r.sheets[0].entries.push(last);
            })
        };
        assert_eq!(again(Some(Seen::NotYet)).len(), 1);
        assert_eq!(again(None), []);
        let unknown = with(&|r| r.sheets[0].list = "ours".to_owned());
        assert_eq!(unknown, [Lacks::List { id: "ours".to_owned() }]);
        assert_eq!(with(&|r| r.sheets[0].by = " ROWAN".to_owned()), [Lacks::OwnWord]);
        assert_eq!(with(&|r| r.trainings[0].by = "rowan".to_owned()), [Lacks::OwnWord]);
        assert_eq!(with(&|r| r.sheets[0].on = day("2026-03-01")), [Lacks::EvaluatedBefore]);
        assert_eq!(with(&|r| r.sheets[0].on = day("2026-03-02")), []);
        assert_eq!(with(&|r| r.sheets[0].on = day("2026-04-02")), [Lacks::YetToCome]);
        assert_eq!(with(&|r| r.sheets[0].on = day("2026-04-01")), []);
        assert_eq!(with(&|r| r.sheets[0].purpose = Purpose::Practice), [Lacks::Evaluation]);
        assert_eq!(with(&|r| r.sheets[0].decided = None), [Lacks::Evaluation]);
        // The last evaluation counts, not the best.
        let worse = with(&|r| {
            let decided = Some(Decided::NotYet);
            r.sheets.push(Sheet { decided, ..evaluation("2026-03-20") });
        });
        assert_eq!(worse, [Lacks::Evaluation]);
    }

    #[test]
    fn what_happened_makes_a_refresher_due_and_says_which_exercises() {
        let mut record = whole();
        let seen = Happened {
            on: day("2026-03-10"),
            cause: Cause::AccidentOrNearMiss,
            truck: "single".to_owned(),
            codes: vec!["stop-line-run".to_owned(), "wet-not-slowed".to_owned()],
            note: "Slid over the line at the door.".to_owned(),
            by: "Birch".to_owned(),
        };
        assert_eq!(seen.exercises(), ["cross-aisles", "wet-stop"]);
        record.happened = vec![Happened { truck: "double".to_owned(), ..seen.clone() }, seen];
        let whys = |record: &Record| -> Vec<Why> {
            due(&record.past("single", None)).iter().map(|d| d.why).collect()
        };
        let near_miss = Why::Refresher(Cause::AccidentOrNearMiss);
        assert_eq!(whys(&record).iter().filter(|w| **w == near_miss).count(), 1);
        record.trainings.push(Training { kind: Kind::Refresher, ..training("2026-03-12") });
        assert!(!whys(&record).contains(&near_miss));
        assert!(whys(&record).contains(&Why::TrainedSince));
        let decided = Some(Decided::NotYet);
        record.sheets.push(Sheet { decided, ..evaluation("2026-03-13") });
        assert!(whys(&record).contains(&Why::Refresher(Cause::EvaluationUnsafe)));
    }

    #[test]
    fn a_record_comes_back_as_it_was_kept() {
        let record = whole();
        let text = write_record(&record).unwrap();
        assert_eq!(read_record::<Record>(&text).unwrap(), record);
        assert_eq!(Record::parse("record.json", text.as_bytes()).unwrap(), record);
        let least = r#"{"person": "p", "operator": "Rowan"}"#;
        assert_eq!(Record::parse("a", least.as_bytes()).unwrap(), Record::new("p", "Rowan"));
    }

    #[test]
    fn a_record_from_outside_is_bounded() {
        let whole = serde_json::to_value(whole()).unwrap();
        let refused = |place: &str, change: &dyn Fn(&mut serde_json::Value)| {
            let mut record = whole.clone();
            change(&mut record);
            let said = Record::parse("a", record.to_string().as_bytes()).unwrap_err().to_string();
            assert!(said.contains(place) && !said.contains('\n'), "{place}: {said}");
        };
        refused("version", &|r| r["version"] = 2.into());
        refused("operator", &|r| r["operator"] = " ".into());
        refused("operator", &|r| r["operator"] = "x".repeat(101).into());
        refused("trainings[0].by", &|r| r["trainings"][0]["by"] = "a\nb".into());
        refused("trainings[0].on", &|r| r["trainings"][0]["on"] = "2026-02-30".into());
        refused("trainings[0].note", &|r| r["trainings"][0]["note"] = "x".repeat(1001).into());
        refused("trainings", &|r| {
            r["trainings"] = vec![r["trainings"][0].clone(); MOST + 1].into();
        });
        refused("sheets[0].decided", &|r| r["sheets"][0]["decided"] = "licensed".into());
        refused("sheets[0].entries", &|r| {
            let entry = r["sheets"][0]["entries"][0].clone();
            r["sheets"][0]["entries"] = vec![entry; 4 * ITEMS_MOST + 1].into();
        });
        refused("points", &|r| r["points"] = 1.into());
        let large = format!(r#"{{"person": "{}"}}"#, "p".repeat(MAX_BYTES));
        assert!(Record::parse("a", large.as_bytes()).unwrap_err().to_string().contains("bytes"));
    }
}
