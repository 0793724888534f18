//! A class as one file: the rules that it goes by, people, their training records, pre-tests, runs as they came, what
//! was found in them and what was said of them. Its schema stands beside this file (`class-file.schema.json`).
//!
//! It goes out piece by piece, since a class can be large. It comes in as a whole: everything is read and looked at
//! before anything is kept; what is there already stays as it is, so that a file that came half in can come again.

use std::collections::{BTreeMap, VecDeque};

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use coneyard_core::class::{Attempt, Record, Remarks, read_record};
use coneyard_core::rules::SiteRules;
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;
use utoipa::ToSchema;

use crate::clock::{self, Millis};
use crate::records::{Handed, Listed, Member, Person};
use crate::roles::{Done, Reads, Refusal, Seen, Teaches};

/// Version of the file that is written; those before are read as well. The second has training records and remarks, the
/// third rules.
pub const VERSION: u32 = 3;

/// A run that comes in.
pub struct RunIn {
    /// Whose it is, by the id here.
    pub person: String,
    /// The file.
    pub bytes: Vec<u8>,
    /// When it arrived where it came from.
    pub arrived: Millis,
    /// What was found in it there.
    pub record: Option<Attempt>,
}

#[derive(Serialize)]
struct Head<'a> {
    coneyard_class: u32,
    name: &'a str,
    written: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    rules: Option<String>,
    people: Vec<Member>,
    sittings: Vec<Handed>,
    trainings: Vec<Record>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct RunFile {
    run: String,
    person: String,
    arrived: String,
    /// The file, when it is text.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    text: Option<String>,
    /// The file, when it is none.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    base64: Option<String>,
    /// Core's record, when it was driven again.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    record: Option<Box<RawValue>>,
    /// What was said of it.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    remarks: Option<Remarks>,
}

/// A class that goes out, piece by piece.
pub struct Out {
    reads: Box<dyn Reads>,
    runs: VecDeque<Listed>,
    head: Option<String>,
    first: bool,
    open: bool,
}

impl Out {
    /// Begins it.
    ///
    /// # Errors
    /// The store is away.
    pub async fn of(trainer: &dyn Teaches) -> Done<Self> {
        let reads = trainer.reads();
        let class = trainer.class().await?;
        let rules = reads.rules().await?;
        let head = Head {
            coneyard_class: VERSION,
            name: &class.name,
            written: clock::text(clock::now()),
            // Those of the site stay there: another host serves its own.
            rules: rules.rules.filter(|_| rules.set),
            people: trainer.people().await?,
            sittings: trainer.handed().await?,
            trainings: trainer.trainings().await?.into_iter().map(|(_, seen)| seen.is).collect(),
        };
        let head = serde_json::to_string(&head).map_err(unwritten)?;
        let runs = reads.runs(None).await?.into();
        // What follows is the last field of the same object.
        let head = format!("{},\"runs\":[", head.trim_end_matches('}'));
        Ok(Self { reads, runs, head: Some(head), first: true, open: true })
    }

    /// The next piece; None at the end.
    ///
    /// # Errors
    /// The store is away: then the file is not whole.
    pub async fn next(&mut self) -> Done<Option<String>> {
        if let Some(head) = self.head.take() {
            return Ok(Some(head));
        }
        while let Some(run) = self.runs.pop_front() {
            // Whoever was deleted meanwhile is left out.
            let bytes = match self.reads.run(&run.run).await {
                Err(Refusal::NotThere(_)) => continue,
                bytes => bytes?,
            };
            let record = match self.reads.attempt(&run.run).await {
                Err(Refusal::NotThere(_)) => None,
                record => Some(RawValue::from_string(record?).map_err(unwritten)?),
            };
            let (text, base64) = match String::from_utf8(bytes) {
                Ok(text) => (Some(text), None),
                Err(bytes) => (None, Some(STANDARD.encode(bytes.as_bytes()))),
            };
            let remarks = match self.reads.remarks(&run.run).await {
                Err(Refusal::NotThere(_)) => None,
                remarks => Some(remarks?.is).filter(|said| !said.is_empty()),
            };
            let (person, arrived) = (run.person, run.arrived);
            let run = RunFile { run: run.run, person, arrived, text, base64, record, remarks };
            let comma = if std::mem::take(&mut self.first) { "\n" } else { ",\n" };
            return Ok(Some(comma.to_owned() + &serde_json::to_string(&run).map_err(unwritten)?));
        }
        Ok(std::mem::take(&mut self.open).then(|| "\n]}\n".to_owned()))
    }
}

fn unwritten(error: serde_json::Error) -> Refusal {
    Refusal::Away(format!("the class cannot be written as a file: {error}"))
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct ClassFile {
    coneyard_class: u32,
    #[serde(rename = "name")]
    _name: String,
    #[serde(rename = "written")]
    _written: String,
    #[serde(default)]
    rules: Option<String>,
    people: Vec<MemberFile>,
    sittings: Vec<Handed>,
    #[serde(default)]
    trainings: Vec<Box<RawValue>>,
    runs: Vec<RunFile>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct MemberFile {
    person: String,
    name: String,
    joined: String,
    #[serde(rename = "runs")]
    _runs: i64,
}

/// What came in.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct Taken {
    /// People in the file.
    pub people: usize,
    /// Runs in the file.
    pub runs: usize,
    /// Those that were not here yet.
    pub new: usize,
}

/// A class file that was read and found to be whole.
pub struct In {
    rules: Option<String>,
    people: Vec<Person>,
    sittings: Vec<Handed>,
    trainings: Vec<Record>,
    runs: Vec<(RunIn, Option<Remarks>)>,
}

impl In {
    /// Reads a class file.
    ///
    /// # Errors
    /// One sentence with the place of what is wrong.
    pub fn read(text: &[u8]) -> Result<Self, String> {
        #[derive(Deserialize)]
        struct Version {
            coneyard_class: u32,
        }
        let version: Version =
            serde_json::from_slice(text).map_err(|e| format!("this is no class file: {e}"))?;
        if !(1..=VERSION).contains(&version.coneyard_class) {
            let is = version.coneyard_class;
            return Err(format!(
                "this class file has version {is}, and up to {VERSION} is read here"
            ));
        }
        let file: ClassFile = serde_json::from_slice(text)
            .map_err(|e| format!("this class file cannot be read: {e}"))?;
        debug_assert_eq!(file.coneyard_class, version.coneyard_class);
        let time = |place: &str, text: &str| {
            clock::read(text).ok_or_else(|| {
                format!("{place}: {text:.40} is no time as in 2026-01-31T08:00:00.000Z")
            })
        };
        if let Some(rules) = &file.rules {
            SiteRules::parse("rules", rules.as_bytes()).map_err(|e| e.to_string())?;
        }
        let mut people = Vec::new();
        for MemberFile { person, name, joined, .. } in file.people {
            let joined = time("people", &joined)?;
            let name = crate::records::name(&name).map_err(|e| format!("people: {e}"))?;
            people.push(Person { id: person, name, joined });
        }
        let known = |place: &str, id: &str| match people.iter().any(|p: &Person| p.id == id) {
            true => Ok(()),
            false => Err(format!("{place}: nobody in this file has the id {id:.40}")),
        };
        for sitting in &file.sittings {
            known("sittings", &sitting.person)?;
        }
        let mut trainings = Vec::new();
        for (i, record) in file.trainings.into_iter().enumerate() {
            let place = format!("trainings[{i}]");
            let record: Record = read_record(record.get()).map_err(|e| format!("{place}: {e}"))?;
            known(&place, &record.person)?;
            trainings.push(record);
        }
        let mut runs = Vec::new();
        for (i, run) in file.runs.into_iter().enumerate() {
            let place = format!("runs[{i}]");
            known(&place, &run.person)?;
            let bytes = match (run.text, run.base64) {
                (Some(text), None) => text.into_bytes(),
                (None, Some(text)) => {
                    STANDARD.decode(text).map_err(|e| format!("{place}: base64: {e}"))?
                }
                _ => return Err(format!("{place}: a run has either text or base64")),
            };
            if blake3::hash(&bytes).to_hex().as_str() != run.run {
                return Err(format!(
                    "{place}: its file is not the one of its id: the class file was damaged"
                ));
            }
            let record = run.record.map(|record| read_record(record.get())).transpose();
            let record = record.map_err(|e| format!("{place}: {e}"))?;
            let arrived = time(&place, &run.arrived)?;
            if let Some(said) = &run.remarks {
                said.is_within_bounds().map_err(|e| format!("{place}: {e}"))?;
            }
            runs.push((RunIn { person: run.person, bytes, arrived, record }, run.remarks));
        }
        Ok(Self { rules: file.rules, people, sittings: file.sittings, trainings, runs })
    }

    /// Keeps all of it. People of the same name are the same; a training record, remarks or rules that were handed out
    /// here stay.
    ///
    /// # Errors
    /// The store is away: the same file can come again.
    pub async fn take(self, trainer: &dyn Teaches) -> Done<Taken> {
        let mut taken = Taken { people: self.people.len(), runs: self.runs.len(), new: 0 };
        // Before there is anything to be judged by them.
        if self.rules.is_some() && !trainer.reads().rules().await?.set {
            trainer.set_rules(self.rules).await?;
        }
        let mut here = BTreeMap::new();
        for person in self.people {
            let id = trainer.take_person(&person).await?.id;
            here.insert(person.id, id);
        }
        let here = |id: String| here.get(&id).cloned().unwrap_or(id);
        for sitting in self.sittings {
            let person = here(sitting.person.clone());
            trainer.take_handed(&Handed { person, ..sitting }).await?;
        }
        for record in self.trainings {
            let person = here(record.person.clone());
            stays_if_there(trainer.keep_training(&person, Seen { edition: 0, is: record }).await)?;
        }
        for (run, said) in self.runs {
            let person = here(run.person.clone());
            let id = blake3::hash(&run.bytes).to_hex().to_string();
            let kept = trainer.take_run(RunIn { person, ..run }).await?;
            taken.new += usize::from(kept.new);
            if let Some(said) = said {
                stays_if_there(trainer.take_remarks(&id, said).await)?;
            }
        }
        Ok(taken)
    }
}

/// What is here already stays as it is.
fn stays_if_there(kept: Done<i64>) -> Done<()> {
    match kept {
        Err(Refusal::Since(_)) => Ok(()),
        kept => kept.map(|_| ()),
    }
}
