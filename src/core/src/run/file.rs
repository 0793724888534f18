//! The run file, format 2: JSON with this header.
//!
//! | field | what |
//! | --- | --- |
//! | `format` | 2; files of format 1 are read, and written again as they were |
//! | `simulation` | version of the simulation that made it; another one gives other digests |
//! | `who`, `started` | who drove and when (RFC 3339); kept, never computed with |
//! | `seed` | of everything random |
//! | `time_ratio` | simulated time over the time that should have been simulated |
//! | `pace` | slowest pace at which any of it was driven, 1 is real time; 1 where it is left out, as in files from before it was kept |
//! | `ticks` | length, 64 to a second |
//! | `course`, `truck`, `site_rules` | `blake3` of each text, and the `text` itself, packed |
//! | `check_list` | the same of the check list, where the course begins with a walk-round |
//! | `controls` | what was held, see `coding` |
//! | `acts` | what was done once, each with its `tick`; none in format 1, see `format_1` |
//! | `digests` | one after every full second, one after the last tick; see `digest` |
//! | `debrief` | what is claimed; checked against what is computed |
//!
//! The texts travel inside, so that a run can be driven again when the course has changed since.

use serde::{Deserialize, Serialize};

use crate::acts::{self, Done};
use crate::controls::Controls;
use crate::debrief::Debrief;
use crate::outside::{BadInput, read_json};
use crate::run::DriveSetup;
use crate::run::coding::{decode, encode, pack, unpack};
use crate::run::{FULL_PACE, Run, Span, TICKS_MOST, format_1};
use crate::state::chain::{of_text, read_all};
use crate::time::{TICK_RATE, Tick};

/// Under which name a class's host takes in a run: the BLAKE3 of its file, hexadecimal. Whoever sends it twice,
/// or two who send the same, send one run.
pub fn name_of(file: &[u8]) -> String {
    blake3::hash(file).to_hex().to_string()
}

/// Version of the file format.
pub const FORMAT: u32 = 2;

/// Version of the simulation: raised whenever the same controls give other digests.
pub const SIMULATION: u32 = 7;

/// Largest run file that is read, bytes.
pub const MAX_BYTES: usize = 8 * 1024 * 1024;

/// Largest text inside, bytes.
pub(super) const TEXT_MOST: usize = 1024 * 1024;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct RunFile {
    format: u32,
    simulation: u32,
    who: String,
    started: String,
    seed: u32,
    time_ratio: f64,
    #[serde(default = "full_pace")]
    pace: f64,
    ticks: Tick,
    course: TextFile,
    truck: TextFile,
    site_rules: TextFile,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    check_list: Option<TextFile>,
    controls: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    acts: Option<Vec<Done>>,
    digests: Vec<String>,
    debrief: Debrief,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct TextFile {
    blake3: String,
    text: String,
}

impl TextFile {
    fn new(text: &str) -> Self {
        Self { blake3: of_text(text), text: pack(text.as_bytes()) }
    }

    fn read(&self, file: &str, place: &str) -> Result<String, BadInput> {
        let bytes = unpack(file, &format!("{place}.text"), &self.text, TEXT_MOST)?;
        let text = String::from_utf8(bytes)
            .map_err(|_| BadInput::new(file, format!("{place}.text"), "this is not UTF-8 text"))?;
        if of_text(&text) != self.blake3 {
            return Err(BadInput::new(
                file,
                format!("{place}.blake3"),
                "this is not the digest of the text beside it; one of them was changed",
            ));
        }
        Ok(text)
    }
}

/// The pace of a run from before it was recorded.
pub(super) fn full_pace() -> f64 {
    FULL_PACE
}

/// Versions are read first, so that a file of the future is told from a damaged one.
#[derive(Deserialize)]
pub(super) struct Versions {
    pub(super) format: u32,
    pub(super) simulation: u32,
}

/// Refuses a format that this program does not read.
pub(super) fn format(file: &str, is: u32) -> Result<(), BadInput> {
    if (format_1::FORMAT..=FORMAT).contains(&is) {
        return Ok(());
    }
    Err(other_version(file, "format", is, &format!("{} and {FORMAT}", format_1::FORMAT)))
}

fn other_version(file: &str, place: &str, is: u32, reads: &str) -> BadInput {
    let reason = format!(
        "this run has {place} version {is}, and this program reads {reads}; use the program that made it"
    );
    BadInput::new(file, place, reason)
}

/// Refuses times that no drive can have.
pub(super) fn times(file: &str, time_ratio: f64, pace: f64) -> Result<(), BadInput> {
    if !(0.0..=1.0).contains(&time_ratio) {
        let reason = format!("{time_ratio} lies outside 0 to 1");
        return Err(BadInput::new(file, "time_ratio", reason));
    }
    if !(pace > 0.0 && pace <= FULL_PACE) {
        let reason =
            format!("{pace} is no pace: it lies above 0 and is at most 1, which is real time");
        return Err(BadInput::new(file, "pace", reason));
    }
    Ok(())
}

impl Run {
    /// The run as the text of a file.
    pub fn to_text(&self) -> String {
        let (controls, acts) = if self.format == format_1::FORMAT {
            (encode(format_1::codes(&self.controls, &self.acts).into_iter()), None)
        } else {
            let codes = self.controls.iter().map(|s| (s.controls.to_bits(), s.ticks));
            (encode(codes), Some(self.acts.clone()))
        };
        let file = RunFile {
            format: self.format,
            simulation: SIMULATION,
            who: self.setup.who.clone(),
            started: self.setup.started.clone(),
            seed: self.setup.seed,
            time_ratio: self.time_ratio,
            pace: self.pace,
            ticks: self.ticks(),
            course: TextFile::new(&self.setup.course),
            truck: TextFile::new(&self.setup.truck),
            site_rules: TextFile::new(&self.setup.rules),
            check_list: (!self.setup.checks.is_empty()).then(|| TextFile::new(&self.setup.checks)),
            controls,
            acts,
            digests: self.digests.iter().map(|d| d.to_hex()).collect(),
            debrief: self.claimed.clone(),
        };
        // A struct of numbers, strings and lists always serialises.
        let mut text = serde_json::to_string(&file).unwrap_or_default();
        text.push('\n');
        text
    }

    /// Reads a run file.
    ///
    /// # Errors
    /// One sentence with file, place and reason.
    pub fn parse(file: &str, text: &[u8]) -> Result<Self, BadInput> {
        let versions: Versions = read_json(file, text, MAX_BYTES)?;
        format(file, versions.format)?;
        if versions.simulation != SIMULATION {
            let reads = SIMULATION.to_string();
            return Err(other_version(file, "simulation", versions.simulation, &reads));
        }

        let f: RunFile = read_json(file, text, MAX_BYTES)?;
        let bad = |place: &str, reason: String| Err(BadInput::new(file, place, reason));
        times(file, f.time_ratio, f.pace)?;
        if f.who.chars().count() > 100 || f.started.chars().count() > 40 {
            return bad("who", "a name has at most 100 letters, a time at most 40".into());
        }
        if f.ticks > TICKS_MOST {
            return bad("ticks", format!("{} is longer than two hours", f.ticks));
        }
        let driven = read_driven(file, f.format, &f.controls, f.acts)?;
        let run = Self {
            setup: DriveSetup {
                course: f.course.read(file, "course")?,
                truck: f.truck.read(file, "truck")?,
                rules: f.site_rules.read(file, "site_rules")?,
                checks: match f.check_list {
                    Some(list) => list.read(file, "check_list")?,
                    None => String::new(),
                },
                seed: f.seed,
                who: f.who,
                started: f.started,
            },
            time_ratio: f.time_ratio,
            pace: f.pace,
            format: f.format,
            controls: driven.0,
            acts: driven.1,
            digests: read_all(file, "digests", &f.digests)?,
            claimed: f.debrief,
        };
        if run.ticks() != f.ticks {
            let reason = format!("the controls last {} ticks, not {}", run.ticks(), f.ticks);
            return bad("ticks", reason);
        }
        let due = (f.ticks / TICK_RATE) as usize + 1;
        if run.digests.len() != due {
            let reason =
                format!("{} digests for {} ticks; there must be {due}", run.digests.len(), f.ticks);
            return bad("digests", reason);
        }
        Ok(run)
    }
}

/// Controls and acts, whichever way the format has them.
fn read_driven(
    file: &str,
    format: u32,
    controls: &str,
    given: Option<Vec<Done>>,
) -> Result<(Vec<Span>, Vec<Done>), BadInput> {
    let bad = |place: &str, reason: String| BadInput::new(file, place, reason);
    let (mut spans, mut held_acts, mut ticks) = (Vec::<Span>::new(), Vec::new(), 0);
    for (i, (bits, n)) in decode(file, "controls", controls)?.into_iter().enumerate() {
        let (held, bits) =
            if format == format_1::FORMAT { format_1::split(bits) } else { (false, bits) };
        let controls = Controls::from_bits(bits).ok_or_else(|| {
            bad("controls", format!("span {i} holds controls that no rider can give"))
        })?;
        held_acts.extend(format_1::acts(held, ticks, n));
        ticks += n;
        match spans.last_mut() {
            Some(last) if last.controls == controls => last.ticks += n,
            _ => spans.push(Span { controls, ticks: n }),
        }
    }
    match (format == format_1::FORMAT, given) {
        (true, None) => Ok((spans, held_acts)),
        (true, Some(_)) => Err(bad("acts", "format 1 has no acts; leave this out".into())),
        (false, None) => {
            Err(bad("acts", "this is missing; a drive without acts has an empty list".into()))
        }
        (false, Some(given)) => {
            acts::check(&given, ticks).map_err(|(i, why)| bad(&format!("acts[{i}]"), why))?;
            Ok((spans, given))
        }
    }
}
