//! What a site adds of its own: speed zones in courses, and sentences beside findings.

use std::collections::BTreeMap;

use serde::Deserialize;

use crate::course::bounded::List;
use crate::course::file::{Outline, SaidFile};
use crate::course::parse::{Wrong, name, outline, said};
use crate::course::{Course, Said, Zone};
use crate::finding::Unit;
use crate::outside::BadInput;
use crate::score::file::{LimitFile, Reader};
use crate::score::names::Unique;
use crate::score::rules::{Limit, SiteRules};
use crate::watch::{DUTIES, Need, duty};

/// Speed zones as they are written.
pub(super) type ZonesFile = List<ZoneFile, 64>;

/// Sentences as they are written, by code.
pub(super) type NotesFile = Unique<SaidFile>;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct ZoneFile {
    course: String,
    area_m: Outline,
    limit: LimitFile,
}

/// A speed zone that a site adds to a course.
#[derive(Clone, Debug, PartialEq)]
pub struct SiteZone {
    /// The course by its id; a zone for one that there is not holds nowhere.
    pub course: String,
    /// The zone's corners, yard frame, m.
    pub area: Vec<crate::math::Vec2>,
    /// Its limit, m/s, and where that comes from.
    pub limit: Limit,
}

/// Limits as in a course's own zones.
const ZONE_LIMIT: Need = Need { name: "limit", unit: Unit::MetrePerSecond, least: 0.1, most: 6.0 };

impl Reader<'_> {
    pub(super) fn zones(&self, given: ZonesFile) -> Result<Vec<SiteZone>, BadInput> {
        let zones = given.0.into_iter().enumerate().map(|(i, z)| {
            let at = format!("zones[{i}]");
            name(&format!("{at}.course"), &z.course).map_err(|w| self.wrong(w))?;
            Ok(SiteZone {
                course: z.course,
                area: outline(&format!("{at}.area_m"), &z.area_m).map_err(|w| self.wrong(w))?,
                limit: self.limit(&format!("{at}.limit"), z.limit, &ZONE_LIMIT)?,
            })
        });
        zones.collect()
    }

    pub(super) fn notes(&self, given: NotesFile) -> Result<BTreeMap<String, Said>, BadInput> {
        let notes = given.0.into_iter().map(|(code, texts)| {
            if duty(&code).is_none() {
                return Err(self.unknown("notes", &code, DUTIES.iter().map(|d| d.code)));
            }
            let texts = said(&format!("notes.{code}"), texts).map_err(|w| self.wrong(w))?;
            Ok((code, texts))
        });
        notes.collect()
    }

    fn wrong(&self, w: Wrong) -> BadInput {
        self.bad(&w.place, w.reason)
    }
}

impl SiteRules {
    /// The course with the zones that this site adds to it. They hold like its own: where several
    /// overlap the lowest limit counts, and it is drawn and shown to the rider as well.
    pub fn add_zones(&self, mut course: Course) -> Course {
        let added = self
            .zones
            .iter()
            .filter(|z| z.course == course.id)
            .map(|z| Zone { area: z.area.clone(), limit_mps: z.limit.value });
        course.zones.extend(added);
        course
    }

    /// What the site wants said beside findings of a code, in a language by its code: else in
    /// English, else in whichever language there is, else the rule's own note.
    pub fn note(&self, code: &str, lang: &str) -> Option<&str> {
        let said = self.notes.get(code).and_then(|texts| {
            texts.get(lang).or_else(|| texts.get("en")).or_else(|| texts.values().next())
        });
        said.or_else(|| self.rules.get(code)?.note.as_ref()).map(String::as_str)
    }
}
