//! The sitting file, format 1: JSON with this header.
//!
//! | field | what |
//! | --- | --- |
//! | `format` | 1 |
//! | `draw` | version of the draw that the parts come from |
//! | `class_word`, `seat` | what the parts are drawn from |
//! | `truck` | id of the truck that all parts are driven on |
//! | `who`, `started` | who takes it and since when (RFC 3339) |
//! | `site_rules` | text of the site-rules file for all parts |
//! | `pauses` | how often it was paused |
//! | `parts` | each `part` as it is drawn, and its `run`: the text of a run file, or null as long as it is not driven |
//!
//! The runs travel inside, so that a sitting can be judged from its file alone.

use serde::de::IgnoredAny;
use serde::{Deserialize, Serialize};

use crate::outside::{BadInput, read_json};
use crate::pretest::draw::{DRAW, Part, count};
use crate::pretest::sitting::Sitting;
use crate::run::Run;

/// Version of the file format.
pub const FORMAT: u32 = 1;

/// Largest sitting file that is read, bytes.
pub const MAX_BYTES: usize = 32 * 1024 * 1024;

/// Most pauses that a file may tell of.
const PAUSES_MOST: u32 = 10_000;

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct SittingFile {
    format: u32,
    draw: u32,
    class_word: String,
    seat: u32,
    truck: String,
    who: String,
    started: String,
    pauses: u32,
    site_rules: String,
    parts: Vec<PartFile>,
}

#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct PartFile {
    part: Part,
    run: Option<String>,
}

/// Versions are read first, so that a file of the future is told from a damaged one.
#[derive(Deserialize)]
struct Versions {
    format: u32,
    draw: u32,
}

/// Whether a file is a sitting and not a run: only a sitting has a class.
pub fn is_sitting(text: &[u8]) -> bool {
    #[derive(Deserialize)]
    struct Peek {
        #[serde(rename = "class_word")]
        _class_word: IgnoredAny,
    }
    serde_json::from_slice::<Peek>(text).is_ok()
}

impl Sitting {
    /// The sitting as the text of a file.
    pub fn to_text(&self) -> String {
        let runs = self.runs().iter().map(|run| Some(run.to_text()));
        let parts = self.parts().into_iter().zip(runs.chain(core::iter::repeat(None)));
        let file = SittingFile {
            format: FORMAT,
            draw: DRAW,
            class_word: self.class_word.clone(),
            seat: self.seat,
            truck: self.truck.to_owned(),
            who: self.who.clone(),
            started: self.started.clone(),
            pauses: self.pauses,
            site_rules: self.rules.clone(),
            parts: parts.map(|(part, run)| PartFile { part, run }).collect(),
        };
        // A struct of numbers, strings and lists always serialises.
        let mut text = serde_json::to_string(&file).unwrap_or_default();
        text.push('\n');
        text
    }

    /// Reads a sitting file. Every run in it must be a drive of its part.
    ///
    /// # Errors
    /// One sentence with file, place and reason.
    pub fn parse(file: &str, text: &[u8]) -> Result<Self, BadInput> {
        let versions: Versions = read_json(file, text, MAX_BYTES)?;
        for (place, is, reads) in
            [("format", versions.format, FORMAT), ("draw", versions.draw, DRAW)]
        {
            if is != reads {
                let reason = format!(
                    "this sitting has {place} version {is}, and this program reads {reads}; use \
                     the program that made it"
                );
                return Err(BadInput::new(file, place, reason));
            }
        }
        let f: SittingFile = read_json(file, text, MAX_BYTES)?;
        let mut sitting =
            Self::new(&f.class_word, f.seat, &f.truck, &f.who, &f.started, &f.site_rules).map_err(
                |bad| {
                    let place = match (bad.file.as_str(), bad.place.as_str()) {
                        ("the site rules", "") => "site_rules".to_owned(),
                        ("the site rules", place) => format!("site_rules, {place}"),
                        (_, place) => place.to_owned(),
                    };
                    BadInput::new(file, place, bad.reason)
                },
            )?;
        if sitting.class_word != f.class_word {
            let reason = format!("write this word as {:?}", sitting.class_word);
            return Err(BadInput::new(file, "class_word", reason));
        }
        if f.pauses > PAUSES_MOST {
            let reason = format!("{} lies outside 0 to {PAUSES_MOST}", f.pauses);
            return Err(BadInput::new(file, "pauses", reason));
        }
        sitting.pauses = f.pauses;
        if f.parts.len() != count() {
            let reason = format!("a sitting has {} parts, not {}", count(), f.parts.len());
            return Err(BadInput::new(file, "parts", reason));
        }
        for (i, (drawn, given)) in sitting.parts().into_iter().zip(f.parts).enumerate() {
            if drawn != given.part {
                let reason = "this is not what is drawn for this class and seat; it was changed";
                return Err(BadInput::new(file, format!("parts[{i}].part"), reason));
            }
            let Some(run) = given.run else { continue };
            let place = format!("parts[{i}].run");
            let within = |bad: BadInput| {
                let inner =
                    if bad.place.is_empty() { String::new() } else { format!(", {}", bad.place) };
                BadInput::new(file, format!("{place}{inner}"), bad.reason)
            };
            let run = Run::parse(&place, run.as_bytes()).map_err(within)?;
            sitting.done(i, run).map_err(within)?;
        }
        Ok(sitting)
    }
}
