//! What a site adds of its own: speed zones in courses, and sentences beside findings.

use std::collections::BTreeMap;

use crate::finding::Unit;
use crate::outside::values::{Wrong, name, outline, said};
use crate::outside::{BadInput, Said};
use crate::rules::file::{NotesFile, ZonesFile};
use crate::rules::needs::{DUTIES, Need, duty};
use crate::rules::reader::Reader;
use crate::rules::site::SiteZone;

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
