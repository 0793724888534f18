//! The sheet that a walk-round leaves: every point with its answer, reason and note, and the decision. It
//! is made of the list and the acts alone, so that whoever has the run can print it again.

use serde::{Deserialize, Serialize};

use crate::acts::{Act, Done, WHOLE_TRUCK};
use crate::checks::draw::{Drawn, Mode};
use crate::checks::list::CheckList;
use crate::checks::walk::Answer;
use crate::time::Tick;

/// What stands on the sheet.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Sheet {
    /// The shift, where it was entered.
    pub shift: Option<u8>,
    /// What was read off the hour meter, tenths of an hour.
    pub hours_read: Option<u32>,
    /// For each point of the list, in its order.
    pub rows: Vec<Row>,
    /// A note on the whole truck.
    pub note: String,
    /// Whether the truck was taken (true) or tagged out; None where nothing was decided.
    pub taken: Option<bool>,
    /// When that was, from the start of the drive.
    pub decided_at: Option<Tick>,
    /// How it was: for each point the index of its defect; told once the drive is over.
    pub truth: Vec<Option<usize>>,
    /// What the hour meter showed, tenths of an hour.
    pub hours: u32,
}

/// One point on the sheet.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
pub struct Row {
    /// The answer's code, see [`Answer::code`]; None where none was given.
    pub answer: Option<u8>,
    /// Index of the reason.
    pub reason: Option<usize>,
    /// What was noted.
    pub note: String,
}

impl Sheet {
    /// The sheet of a truck that was drawn, after these acts.
    pub fn of(list: &CheckList, drawn: &Drawn, acts: &[Done]) -> Self {
        let mut sheet = Self {
            rows: vec![Row::default(); list.points.len()],
            truth: vec![None; list.points.len()],
            hours: drawn.hours,
            ..Self::default()
        };
        for (point, defect) in &drawn.has {
            sheet.truth[*point] = Some(*defect);
        }
        for done in acts {
            if sheet.taken.is_none() {
                sheet.add(list, &done.act);
                sheet.decided_at = sheet.taken.map(|_| done.tick);
            }
        }
        sheet
    }

    fn add(&mut self, list: &CheckList, act: &Act) {
        match act {
            Act::Answer { point, answer, reason } => {
                let right = Answer::of(*answer, list).map(Answer::code);
                if let (Some(row), Some(code)) = (self.rows.get_mut(usize::from(*point)), right) {
                    row.answer = Some(code);
                    row.reason =
                        reason.map(usize::from).filter(|r| *r < list.reasons.len() && code != 0);
                }
            }
            Act::Note { point: WHOLE_TRUCK, text } => self.note.clone_from(text),
            Act::Note { point, text } => {
                if let Some(row) = self.rows.get_mut(usize::from(*point)) {
                    row.note.clone_from(text);
                }
            }
            Act::ReadHours { tenths } => self.hours_read = Some(*tenths),
            Act::Shift { number } => self.shift = Some(*number),
            Act::Take => self.taken = Some(true),
            Act::TagOut => self.taken = Some(false),
            Act::Report | Act::LookCloser { .. } | Act::Try { .. } | Act::TouchSettings => {}
        }
    }

    /// What the answers come to.
    pub fn counts(&self, list: &CheckList) -> Counts {
        let mut counts = Counts::default();
        for (row, truth) in self
            .rows
            .iter()
            .zip(&self.truth)
            .zip(&list.points)
            .map(|((r, t), p)| (r, t.and_then(|d| p.defects.get(d))))
        {
            let said = row.answer.is_some_and(|code| code != 0);
            counts.left_out += u32::from(row.answer.is_none());
            match truth {
                Some(defect) => {
                    counts.defects += 1;
                    counts.hits += u32::from(said);
                    counts.right_grade +=
                        u32::from(row.answer == Some(Answer::Grade(defect.grade).code()));
                }
                None => {
                    counts.without += 1;
                    counts.false_reports += u32::from(said);
                }
            }
        }
        if counts.defects > 1 && counts.hits > 0 {
            counts.further = counts.defects - 1;
            counts.further_hits = counts.hits - 1;
        }
        counts
    }
}

/// A walk-round once it is over, as it was and as it was answered.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct WalkShown {
    /// What it was for.
    pub mode: Mode,
    /// The list.
    pub list: CheckList,
    /// The sheet.
    pub sheet: Sheet,
    /// What the answers come to.
    pub counts: Counts,
}

/// A walk-round in numbers.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Counts {
    /// Points with something the matter.
    pub defects: u32,
    /// Of these, points where something was reported.
    pub hits: u32,
    /// And with the right severity.
    pub right_grade: u32,
    /// Points without anything the matter.
    pub without: u32,
    /// Of these, points where something was reported.
    pub false_reports: u32,
    /// Points without an answer.
    pub left_out: u32,
    /// Where one was found: how many further ones there were,
    pub further: u32,
    /// and how many of those were found too.
    pub further_hits: u32,
}

impl Counts {
    /// Several walk-rounds together.
    pub fn with(self, other: Self) -> Self {
        Self {
            defects: self.defects.saturating_add(other.defects),
            hits: self.hits.saturating_add(other.hits),
            right_grade: self.right_grade.saturating_add(other.right_grade),
            without: self.without.saturating_add(other.without),
            false_reports: self.false_reports.saturating_add(other.false_reports),
            left_out: self.left_out.saturating_add(other.left_out),
            further: self.further.saturating_add(other.further),
            further_hits: self.further_hits.saturating_add(other.further_hits),
        }
    }
}
