//! The texts that travel in a run file, whichever simulation made it: course, truck and rules.

use serde::Deserialize;

use crate::acts::Done;
use crate::outside::{BadInput, read_json};
use crate::run::coding::unpack;
use crate::run::file::{MAX_BYTES, TEXT_MOST};
use crate::run::header::Header;

/// What a run file holds beside what was driven.
#[derive(Clone, Debug, PartialEq)]
pub struct Papers {
    /// Its head.
    pub head: Header,
    /// Text of the course file.
    pub course: String,
    /// Text of the truck file.
    pub truck: String,
    /// Text of the site-rules file.
    pub rules: String,
    /// Text of the check list; empty where there is none.
    pub checks: String,
    /// What was done once.
    pub acts: Vec<Done>,
}

/// What of the file is read here.
#[derive(Deserialize)]
struct PapersFile {
    course: Packed,
    truck: Packed,
    site_rules: Packed,
    #[serde(default)]
    check_list: Option<Packed>,
    #[serde(default)]
    acts: Vec<Done>,
}

#[derive(Deserialize)]
struct Packed {
    text: String,
}

impl Packed {
    fn read(&self, file: &str, place: &str) -> Result<String, BadInput> {
        let place = format!("{place}.text");
        let bytes = unpack(file, &place, &self.text, TEXT_MOST)?;
        String::from_utf8(bytes).map_err(|_| BadInput::new(file, place, "this is not UTF-8 text"))
    }
}

impl Papers {
    /// Reads the texts of a run file. Nothing is driven or judged by them here, so nothing in them
    /// is checked.
    ///
    /// # Errors
    /// One sentence with file, place and reason.
    pub fn parse(file: &str, text: &[u8]) -> Result<Self, BadInput> {
        let head = Header::parse(file, text)?;
        let f: PapersFile = read_json(file, text, MAX_BYTES)?;
        Ok(Self {
            head,
            course: f.course.read(file, "course")?,
            truck: f.truck.read(file, "truck")?,
            rules: f.site_rules.read(file, "site_rules")?,
            checks: match f.check_list {
                Some(list) => list.read(file, "check_list")?,
                None => String::new(),
            },
            acts: f.acts,
        })
    }
}
