//! A sitting: who takes it, and the parts that were driven. A part cannot be lost, repeated or
//! exchanged: runs are kept in the order of the parts, and each must be a drive of its part.

use crate::outside::BadInput;
use crate::pretest::draw::{Part, class_word, draw, truck_of};
use crate::pretest::joined::{Joined, join};
use crate::rules::SiteRules;
use crate::run::DriveSetup;
use crate::run::Run;

/// Longest name of a person, characters.
const LONGEST_NAME: usize = 100;
/// Longest time as text, characters.
const LONGEST_TIME: usize = 40;
/// Highest number of a seat.
const SEATS: u32 = 9999;

/// One person's sitting.
#[derive(Clone, Debug, PartialEq)]
pub struct Sitting {
    /// Word of the class, as [`class_word`] gives it.
    pub class_word: String,
    /// Number of the seat.
    pub seat: u32,
    /// Id of the truck that all parts are driven on, one of [`TRUCKS`](crate::pretest::TRUCKS).
    pub truck: &'static str,
    /// Who takes it, as they want to be called; may be empty.
    pub who: String,
    /// When it began, RFC 3339; kept, never computed with.
    pub started: String,
    /// Text of the site-rules file by which all parts are judged.
    pub rules: String,
    /// How often it was paused.
    pub pauses: u32,
    /// Runs of the first parts, in the order of the parts.
    runs: Vec<Run>,
}

impl Sitting {
    /// A sitting of which nothing is driven yet.
    ///
    /// # Errors
    /// One sentence when word, seat, truck, name, time or rules cannot be used.
    pub fn new(
        word: &str,
        seat: u32,
        truck: &str,
        who: &str,
        started: &str,
        rules: &str,
    ) -> Result<Self, BadInput> {
        let bad = |place: &str, reason: String| Err(BadInput::new("the sitting", place, reason));
        if seat > SEATS {
            return bad("seat", format!("{seat} lies outside 0 to {SEATS}"));
        }
        if who.chars().count() > LONGEST_NAME || who.chars().any(char::is_control) {
            let reason = format!("a name has at most {LONGEST_NAME} letters and stays on one line");
            return bad("who", reason);
        }
        if started.chars().count() > LONGEST_TIME || started.chars().any(char::is_control) {
            return bad("started", format!("a time has at most {LONGEST_TIME} characters"));
        }
        SiteRules::parse("the site rules", rules.as_bytes())?;
        Ok(Self {
            class_word: class_word(word)?,
            seat,
            truck: truck_of(truck)?,
            who: who.to_owned(),
            started: started.to_owned(),
            rules: rules.to_owned(),
            pauses: 0,
            runs: Vec::new(),
        })
    }

    /// All parts, in order.
    pub fn parts(&self) -> Vec<Part> {
        draw(&self.class_word, self.seat, self.truck)
    }

    /// The runs so far, in the order of the parts.
    pub fn runs(&self) -> &[Run] {
        &self.runs
    }

    /// The part that is due, with its place from 0; None when all are driven.
    pub fn next_part(&self) -> Option<(usize, Part)> {
        let next = self.runs.len();
        self.parts().into_iter().nth(next).map(|part| (next, part))
    }

    /// What is needed to drive the part that is due; None when all are driven. `started` is when
    /// the part begins, RFC 3339.
    pub fn next_setup(&self, started: &str) -> Option<DriveSetup> {
        let (_, part) = self.next_part()?;
        part.setup(&self.who, started, &self.rules).ok()
    }

    /// Takes the run of a part, numbered from 0.
    ///
    /// # Errors
    /// One sentence when another part is due or the run is not a drive of this one; the sitting
    /// stays as it was.
    pub fn done(&mut self, part: usize, run: Run) -> Result<(), BadInput> {
        let bad = |place: &str, reason: String| Err(BadInput::new("the run", place, reason));
        let Some((due, asked)) = self.next_part() else {
            return bad("", "all parts of this sitting are driven already".to_owned());
        };
        if part != due {
            let reason = if part < due {
                format!("part {} is driven already; part {} is due", part + 1, due + 1)
            } else {
                format!("part {} cannot come before part {}, which is due", part + 1, due + 1)
            };
            return bad("", reason);
        }
        if let Some(what) = self.differs(&asked, &run)? {
            let reason = format!(
                "this is not the {what} of part {} ({}); drive the part that is due",
                due + 1,
                asked.course
            );
            return bad(what, reason);
        }
        self.runs.push(run);
        Ok(())
    }

    /// What of a run is not as the part asks for.
    fn differs(&self, part: &Part, run: &Run) -> Result<Option<&'static str>, BadInput> {
        let asked = part.setup(&self.who, &run.setup.started, &self.rules)?;
        let is = &run.setup;
        Ok([
            ("course", asked.course == is.course),
            ("truck", asked.truck == is.truck),
            ("site_rules", asked.rules == is.rules),
            ("seed", asked.seed == is.seed),
            ("who", asked.who == is.who),
        ]
        .into_iter()
        .find(|(_, same)| !same)
        .map(|(what, _)| what))
    }

    /// The judgement over all parts, from what their runs claim.
    ///
    /// # Errors
    /// One sentence when the site rules cannot be read.
    pub fn joined(&self) -> Result<Joined, BadInput> {
        let rules = SiteRules::parse("the site rules", self.rules.as_bytes())?;
        let debriefs: Vec<_> =
            self.runs.iter().map(|r| (&r.claimed, r.share_of_real_time())).collect();
        Ok(join(&debriefs, self.pauses, &rules))
    }
}
