//! What walk-rounds came to: each as it is kept with its attempt, and many together, by what they were for
//! and by defect.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use super::detection::{Detection, Trials};
use crate::checks::draw::Mode;
use crate::checks::list::CheckList;
use crate::checks::sheet::{Counts, WalkShown};
use crate::outside::Said;

/// From so many walk-rounds on sensitivity and criterion are told: of fewer, their error is so large that
/// they say nothing (0.4 standard deviations at ten; see `detection`).
pub const WALKS_LEAST: u32 = 10;

/// What a walk-round came to.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct WalkResult {
    /// What it was for.
    pub mode: Mode,
    /// What the answers come to. A point without an answer is one where nothing was reported.
    pub counts: Counts,
    /// What was the matter ("point/defect"), and whether something was reported there.
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub defects: BTreeMap<String, bool>,
}

impl WalkResult {
    /// What this one came to; None where the truck was neither taken nor tagged out.
    pub fn of(walk: &WalkShown) -> Option<Self> {
        let WalkShown { mode, list, sheet, counts } = walk;
        sheet.taken?;
        let points = list.points.iter().zip(&sheet.truth).zip(&sheet.rows);
        let defects = points.filter_map(|((point, truth), row)| {
            let defect = point.defects.get((*truth)?)?;
            Some((name_of(&point.id, &defect.id), row.answer.is_some_and(|code| code != 0)))
        });
        Some(Self { mode: *mode, counts: *counts, defects: defects.collect() })
    }
}

/// The name of a defect of a point.
fn name_of(point: &str, defect: &str) -> String {
    format!("{point}/{defect}")
}

/// The walk-rounds of one mode together.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct OfMode {
    /// What they were for.
    pub mode: Mode,
    /// How many there were.
    pub walks: u32,
    /// What all answers come to.
    pub counts: Counts,
    /// Sensitivity and criterion; None of fewer than [`WALKS_LEAST`], and where nothing was ever the matter.
    pub detection: Option<Detection>,
}

/// How often one defect was found.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct OfDefect {
    /// "point/defect".
    pub id: String,
    /// What it is called; None where the list does not have it any more.
    pub name: Option<Said>,
    /// How often it was there.
    pub there: u32,
    /// How often something was reported where it was.
    pub found: u32,
}

/// Many walk-rounds together.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WalksShown {
    /// By what they were for, practice first; a mode without any is left out.
    pub modes: Vec<OfMode>,
    /// By defect, in the order of the list; one that was never there is left out.
    pub defects: Vec<OfDefect>,
}

/// Adds them up; the list tells what defects are called.
pub fn added_up(walks: &[WalkResult], list: &CheckList) -> WalksShown {
    let modes = [Mode::Practice, Mode::Daily].into_iter().filter_map(|mode| of_mode(mode, walks));
    let mut sums = BTreeMap::<&str, (u32, u32)>::new();
    for (id, found) in walks.iter().flat_map(|w| &w.defects) {
        let sum = sums.entry(id).or_default();
        sum.0 = sum.0.saturating_add(1);
        sum.1 = sum.1.saturating_add(u32::from(*found));
    }
    let mut defects = Vec::new();
    for point in &list.points {
        for defect in &point.defects {
            let id = name_of(&point.id, &defect.id);
            if let Some((there, found)) = sums.remove(id.as_str()) {
                defects.push(OfDefect { id, name: Some(defect.name.clone()), there, found });
            }
        }
    }
    let unknown = |(id, (there, found)): (&str, (u32, u32))| OfDefect {
        id: id.to_owned(),
        name: None,
        there,
        found,
    };
    defects.extend(sums.into_iter().map(unknown));
    WalksShown { modes: modes.collect(), defects }
}

fn of_mode(mode: Mode, walks: &[WalkResult]) -> Option<OfMode> {
    let (mut number, mut counts) = (0_u32, Counts::default());
    for walk in walks.iter().filter(|w| w.mode == mode) {
        number = number.saturating_add(1);
        counts = counts.with(walk.counts);
    }
    let trials = Trials {
        signals: counts.defects,
        hits: counts.hits,
        noises: counts.without,
        false_alarms: counts.false_reports,
    };
    let detection = (number >= WALKS_LEAST).then(|| Detection::of(trials)).flatten();
    (number > 0).then_some(OfMode { mode, walks: number, counts, detection })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::acts::{Act, Done};
    use crate::checks::draw::Drawn;
    use crate::checks::sheet::Sheet;

    fn point(list: &CheckList, id: &str) -> usize {
        list.points.iter().position(|p| p.id == id).unwrap()
    }

    /// A truck with a dead horn and a crack in the left fork; only the horn is reported, as too mild, and so
    /// are the sound covers.
    fn walk(decided: bool) -> WalkShown {
        let list = CheckList::shipped();
        let (fork, horn) = (point(&list, "fork-left"), point(&list, "horn"));
        let drawn = Drawn { has: vec![(fork, 0), (horn, 0)], hours: 12_345 };
        let at = |tick, act| Done { tick, act };
        let said = |point: usize, answer| Act::Answer { point: point as u8, answer, reason: None };
        let mut acts = vec![
            at(1, said(horn, 1)),
            at(2, said(fork, 0)),
            at(3, said(point(&list, "covers"), 2)),
            at(90, Act::Take),
        ];
        acts.truncate(if decided { 4 } else { 3 });
        let sheet = Sheet::of(&list, &drawn, &acts);
        let counts = sheet.counts(&list);
        WalkShown { mode: Mode::Practice, list, sheet, counts }
    }

    #[test]
    fn a_walk_round_comes_to_what_was_there_and_what_of_it_was_reported() {
        let shown = walk(true);
        let is = WalkResult::of(&shown).unwrap();
        let names: Vec<(&str, bool)> = is.defects.iter().map(|(id, f)| (id.as_str(), *f)).collect();
        let fork = format!(
            "fork-left/{}",
            shown.list.points[point(&shown.list, "fork-left")].defects[0].id
        );
        assert_eq!(names, [(fork.as_str(), false), ("horn/dead", true)]);
        assert_eq!((is.counts.defects, is.counts.hits, is.counts.right_grade), (2, 1, 0));
        assert_eq!((is.counts.false_reports, is.counts.further, is.counts.further_hits), (1, 1, 0));
        let text = serde_json::to_string(&is).unwrap();
        assert_eq!(serde_json::from_str::<WalkResult>(&text).unwrap(), is);
        assert_eq!(WalkResult::of(&walk(false)), None, "nothing was decided");
    }

    #[test]
    fn many_are_added_up_by_mode_and_by_defect() {
        let list = CheckList::shipped();
        let one = WalkResult::of(&walk(true)).unwrap();
        let daily = WalkResult { mode: Mode::Daily, ..one.clone() };
        let mut gone = one.clone();
        gone.defects = BTreeMap::from([("horn/dead".into(), false), ("hook/bent".into(), true)]);
        let shown = added_up(&[one.clone(), daily, gone], &list);
        let modes: Vec<(Mode, u32)> = shown.modes.iter().map(|m| (m.mode, m.walks)).collect();
        assert_eq!(modes, [(Mode::Practice, 2), (Mode::Daily, 1)]);
        assert_eq!((shown.modes[0].counts.hits, shown.modes[1].counts.hits), (2, 1));
        let counts: Vec<(&str, u32, u32, bool)> = shown
            .defects
            .iter()
            .map(|d| (d.id.as_str(), d.there, d.found, d.name.is_some()))
            .collect();
        // In the order of the list, and what it does not have at the end.
        assert_eq!(counts[0].1, 2);
        assert!(counts[0].0.starts_with("fork-left/"));
        assert_eq!(counts[1], ("horn/dead", 3, 2, true));
        assert_eq!(counts[2], ("hook/bent", 1, 1, false));
        let none = added_up(&[], &list);
        assert!(none.modes.is_empty() && none.defects.is_empty());
    }

    #[test]
    fn sensitivity_is_told_from_ten_of_a_mode_on() {
        let list = CheckList::shipped();
        let one = WalkResult::of(&walk(true)).unwrap();
        let of = |n: usize| added_up(&vec![one.clone(); n], &list).modes[0].detection;
        assert_eq!(of(9), None);
        let ten = of(10).unwrap();
        // Ten hits of twenty; ten false reports among the rest.
        let rest = 10 * (list.points.len() as u32 - 2);
        let trials = Trials { signals: 20, hits: 10, noises: rest, false_alarms: 10 };
        assert_eq!(Some(ten), Detection::of(trials));
        let sound = WalkResult {
            counts: Counts { without: 36, ..Counts::default() },
            defects: BTreeMap::new(),
            ..one.clone()
        };
        let all_sound = added_up(&vec![sound; 12], &list);
        assert_eq!(all_sound.modes[0].detection, None, "nothing was ever the matter");
    }
}
