//! What the reader hands to the pages, and nothing else: plain data, as `desk` is for the canvas.
//! Reading whole files takes a module of its own, which is loaded when it is first wanted.

use std::collections::BTreeMap;

use serde::{Deserialize, Serialize};

use crate::checks::sheet::WalkShown;
use crate::class::walks::WalkResult;
use crate::class::{Attempt, Drive, Taken};
use crate::debrief::SkillResult;
use crate::finding::{Severity, Skill, Unit};
use crate::lesson::Lesson;
use crate::lesson::scene::Scene;
use crate::outside::Said;
use crate::pretest::Outcome;
use crate::rules::Edit;
use crate::time::Tick;
use crate::words::pretest::Because;

/// All exercises of a site in one file, which it is built with: a slow line brings one file sooner than many.
/// Every text is as it stands in its own file, since a run carries it as it was.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Exercises {
    /// Courses in teaching order, then those that are only driven as parts of a pre-test.
    pub courses: Vec<Written>,
    /// Trucks by their ids.
    pub trucks: Vec<Written>,
    /// The site rules.
    pub rules: String,
    /// The check list of the walk-round.
    pub checks: String,
}

/// A lesson with all that is shown in it, as one file of the site. It was read and checked when the site was built.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Teaching {
    /// Name of its file without its ending.
    pub id: String,
    /// The lesson.
    pub lesson: Lesson,
    /// Every two drives that are shown, by `lesson::scene_name`.
    pub scenes: BTreeMap<String, Scene>,
    /// Every part of the truck that is shown, likewise.
    pub parts: BTreeMap<String, PartShown>,
    /// The courses that are driven on, by their names.
    pub courses: Vec<Written>,
}

/// A part of the truck as it should be, and with a defect: what stands beside its two drawings.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct PartShown {
    /// What the part is called.
    pub name: Said,
    /// What is seen, or happens, when nothing is the matter.
    pub sound: Said,
    /// What the defect is called.
    pub defect: Said,
    /// What is seen, or happens, then.
    pub seen: Said,
    /// How grave it is.
    pub grade: Said,
    /// A truck with it may run.
    pub may_run: bool,
    /// Why it is so grave.
    pub why: Said,
}

/// A file of a site, or what stands in one.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Written {
    /// Name of the file without its ending.
    pub name: String,
    /// Its text.
    pub text: String,
}

/// What a site asks for and allows, as far as pages go by it.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Terms {
    /// Points that a pre-test asks for in every skill shown.
    pub pass_skill: f64,
    /// Points that it asks for in total.
    pub pass_total: f64,
    /// What the lower end of an interval must reach to be called ready, share of one.
    pub ready_from: f64,
    /// The least share of the time on the wall that a computer may simulate in a pre-test.
    pub time_ratio_least: f64,
    /// How often a pre-test may be paused.
    pub pauses_most: u32,
}

impl Terms {
    /// Reads them from a site-rules file that says all of them, as the shipped one does. None when
    /// it leaves one out, or cannot be read: then the reader says what holds instead.
    pub fn stated(rules: &str) -> Option<Self> {
        #[derive(Deserialize)]
        struct Stated {
            pass: Pass,
            terms: Own,
        }
        #[derive(Deserialize)]
        struct Pass {
            skill: Number,
            total: Number,
        }
        #[derive(Deserialize)]
        #[serde(rename_all = "kebab-case")]
        struct Own {
            ready_from: Number,
            time_ratio: Number,
            pauses: Number,
        }
        #[derive(Deserialize)]
        struct Number {
            value: f64,
        }
        let Stated { pass, terms } = serde_json::from_str(rules).ok()?;
        Some(Self {
            pass_skill: pass.skill.value,
            pass_total: pass.total.value,
            ready_from: terms.ready_from.value,
            time_ratio_least: terms.time_ratio.value,
            pauses_most: terms.pauses.value as u32,
        })
    }
}

/// A value of the rules.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum RuleValue {
    /// Watched or switched off.
    On(bool),
    /// How grave.
    Severity(Severity),
    /// Whose points it takes.
    Skill(Skill),
    /// A number with its unit.
    Limit(f64, Unit),
    /// Points.
    Points(f64),
}

/// One changed value.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Change {
    /// Its name in the file, dashed.
    pub name: String,
    /// Here; None when it was taken out.
    pub here: Option<RuleValue>,
    /// As it ships; None when it was put in.
    pub usual: Option<RuleValue>,
}

/// Where a rule comes from, and what the site wants said beside it.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct Citation {
    /// The rule's source, as it stands in the file.
    pub source: String,
    /// The rule's own note.
    pub note: Option<String>,
    /// What the site wants said beside findings of it, by language; empty where it does not say.
    pub said: Said,
    /// Which skill it tells of; None where the rules do not say.
    pub skill: Option<Skill>,
}

impl Citation {
    /// What the site wants said, in this language: else in English, else in whichever there is, else
    /// the rule's own note.
    pub fn note(&self, language: &str) -> Option<&str> {
        let said = self.said.get(language).or_else(|| self.said.get("en"));
        said.or_else(|| self.said.values().next()).or(self.note.as_ref()).map(String::as_str)
    }
}

/// What the pages show of the rules that something was judged by.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RulesShown {
    /// What the site calls itself; None when it does not say.
    pub site: Option<String>,
    /// By code.
    pub citations: BTreeMap<String, Citation>,
    /// The changed values of what a debrief lists as changed, by the name that it has there.
    pub changes: BTreeMap<String, Vec<Change>>,
}

/// What is shown of a run beside its debrief.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct RunShown {
    /// Version of the simulation that made it.
    pub simulation: u32,
    /// Text of the course file.
    pub course: String,
    /// The rules by which it was judged.
    pub rules: RulesShown,
    /// The walk-round with which it began.
    pub walk: Option<WalkShown>,
}

/// What is shown of a pre-test beside its parts.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct SittingShown {
    /// What the site calls itself; None when it does not say.
    pub site: Option<String>,
    /// The least share of the time on the wall that a computer may simulate.
    pub time_ratio_least: f64,
    /// How it came out.
    pub result: Outcome,
    /// Why it is not passed; empty when it is.
    pub reasons: Vec<Because>,
    /// Mean of the skills shown, 0 to 100; None when none was shown.
    pub total: Option<f64>,
    /// By skill, in the order of the skills.
    pub skills: Vec<SkillResult>,
    /// Length of all drives together, ticks.
    pub ticks: Tick,
    /// The skill that most needs practice; None when nothing was at fault.
    pub practise: Option<Skill>,
}

/// What comes back of [`Question::Statements`].
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub struct StatementsOut {
    /// The statements, one JSON array.
    pub text: String,
    /// How many they are.
    pub statements: usize,
    /// So many records are left out, since they are not what they say they are, or have no time or nobody.
    pub left_out: usize,
}

/// A file that came in.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum CameIn {
    /// A run, as far as can be seen. Only driving it again can judge it.
    Run,
    /// A pre-test, with the run file of each part that is driven.
    Sitting(Taken, Vec<String>),
}

/// What the reader is asked. Every answer is JSON of the type named, or one sentence.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub enum Question {
    /// What a text of site rules asks for: [`Terms`].
    Terms(String),
    /// What is shown of a run file, with what its debrief lists as changed: [`RunShown`].
    Run(String, String, Vec<String>),
    /// The same by other rules than those in the file, whose text is the last.
    RunBy(String, String, Vec<String>, String),
    /// A text of site rules as a page shows it: the text of a file that says all of them, and the
    /// [`Sheet`](crate::rules::Sheet).
    Sheet(String),
    /// The text of a file that says only what of these rules is not as shipped.
    RulesFile(String),
    /// A [`Question::Sheet`] with one change made.
    Edit(String, Edit),
    /// What a file that came in is: [`CameIn`].
    CameIn {
        /// Name of the file.
        file: String,
        /// What is in it.
        text: String,
        /// Name for the record of a pre-test.
        id: String,
    },
    /// The drive of a part of a pre-test: [`Drive`].
    Part {
        /// The pre-test.
        sitting: Taken,
        /// From 0.
        part: usize,
        /// Name for the record of the drive.
        id: String,
        /// When it begins, RFC 3339.
        now: String,
    },
    /// What is shown of a pre-test with the parts that are driven: [`SittingShown`].
    Sitting(Taken, Vec<Attempt>),
    /// The file of a pre-test, from the run files of its parts: its name and its text.
    SittingFile(Taken, Vec<String>),
    /// A check list, by its text: [`CheckList`](crate::checks::list::CheckList).
    Checks(String),
    /// What these walk-rounds come to together, with the names of the check list that has this text:
    /// [`WalksShown`](crate::class::walks::WalksShown).
    Walks(Vec<WalkResult>, String),
    /// The figures of these attempts, an item of the pre-test being right from this share of clean opportunities on:
    /// [`Figures`](crate::class::figures::Figures).
    Figures(Vec<Attempt>, f64),
    /// These attempts and pre-tests as statements for a record store: [`StatementsOut`].
    Statements {
        /// Attempts, the parts of the pre-tests among them.
        attempts: Vec<Attempt>,
        /// Pre-tests.
        sittings: Vec<Taken>,
        /// Where the class is at home: an address that begins with http:// or https://.
        address: String,
        /// What time it is, RFC 3339.
        now: String,
        /// What exercises are called, by course id.
        titles: BTreeMap<String, Said>,
    },
    /// The list of what is seen at the real truck, by its text; the shipped one when that is empty:
    /// [`List`](crate::class::workplace::List).
    Workplace(String),
    /// The text of the file of such a list, likewise: a text, to be changed in an editor.
    WorkplaceFile(String),
    /// Under which name the class's host takes in a run, by its file: a text.
    RunName(String),
    /// The word of a class in its one form, as somebody typed it: a text, or null when it is none.
    ClassWord(String),
}

/// What comes back of [`Question::Part`].
pub type Begun = Drive;
