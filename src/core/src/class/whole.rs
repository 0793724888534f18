//! What needs whole runs and whole rules: the drive of a part, the joined judgement, and the file of
//! a pre-test.

use super::attempt::{Attempt, Told};
use super::drive::{Drive, Place};
use super::sitting::Taken;
use super::walks::WalkResult;
use crate::checks::draw::Drawn;
use crate::checks::list::CheckList;
use crate::checks::sheet::{Sheet, WalkShown};
use crate::course::Course;
use crate::outside::{BadInput, read_json};
use crate::pretest::{Joined, Sitting, draw, join};
use crate::rules::SiteRules;
use crate::run::Run;
use crate::run::papers::Papers;
use serde::Deserialize;

/// Largest course or truck file that is read here, bytes.
const TEXT_MOST: usize = 1024 * 1024;

/// The `id` of a course or truck file.
fn id_of(file: &str, text: &str) -> Result<String, BadInput> {
    #[derive(Deserialize)]
    struct Named {
        id: String,
    }
    read_json::<Named>(file, text.as_bytes(), TEXT_MOST).map(|named| named.id)
}

/// What a run file tells of itself, whichever simulation made it.
///
/// # Errors
/// One sentence when the file is not a run.
pub fn told(file: &str, run: &str) -> Result<Told, BadInput> {
    let papers = Papers::parse(file, run.as_bytes())?;
    let walk = walked(file, &papers)?.as_ref().and_then(WalkResult::of);
    Ok(Told {
        course: id_of(file, &papers.course)?,
        truck: id_of(file, &papers.truck)?,
        who: papers.head.who,
        started: papers.head.started,
        time_ratio: papers.head.time_ratio,
        pace: papers.head.pace,
        simulation: papers.head.simulation,
        walk,
    })
}

/// The walk-round of a run file, as it was and as it was answered; None where its course has none. It is made of
/// the set-up and the acts alone, whichever simulation made the run.
///
/// # Errors
/// One sentence when course, truck or check list in it cannot be read.
pub fn walked(file: &str, papers: &Papers) -> Result<Option<WalkShown>, BadInput> {
    // Runs from before there were check lists are not read further: their courses may be older than this.
    if papers.checks.is_empty() {
        return Ok(None);
    }
    let Some(mode) = Course::parse(file, papers.course.as_bytes())?.walk_round() else {
        return Ok(None);
    };
    let list = CheckList::parse(file, papers.checks.as_bytes())?;
    let truck = id_of(file, &papers.truck)?;
    let drawn = Drawn::new(&list, mode, &truck, u64::from(papers.head.seed));
    let sheet = Sheet::of(&list, &drawn, &papers.acts);
    let counts = sheet.counts(&list);
    Ok(Some(WalkShown { mode, list, sheet, counts }))
}

/// The drive of a part, from its start at `now` (RFC 3339), with a name for its record.
///
/// # Errors
/// One sentence when there is no such part.
pub fn begun(sitting: &Taken, part: usize, id: String, now: &str) -> Result<Drive, BadInput> {
    let drawn =
        draw(&sitting.class_word, sitting.seat, &sitting.truck).into_iter().nth(part).ok_or_else(
            || BadInput::new(&sitting.id, format!("part {}", part + 1), "there is no such part"),
        )?;
    let setup = drawn.setup(&sitting.who, now, &sitting.rules)?;
    let course = id_of(&drawn.course, &setup.course)?;
    let place = Place { sitting: sitting.id.clone(), part };
    Ok(Drive::new(id, course, drawn.truck, Some(place), setup))
}

/// The judgement over the parts that are driven.
///
/// # Errors
/// One sentence when the sitting's rules cannot be read.
pub fn joined(sitting: &Taken, driven: &[Attempt]) -> Result<Joined, BadInput> {
    let rules = SiteRules::parse("site-rules.json", sitting.rules.as_bytes())?;
    // A run that does not tell how fast time went by cannot show that it was fast enough.
    let share = |a: &Attempt| a.share_of_real_time().unwrap_or_default();
    let parts: Vec<_> = driven.iter().map(|a| (&a.verdict.debrief, share(a))).collect();
    Ok(join(&parts, sitting.pauses, &rules))
}

/// The text of its file, with the run files of the parts that are driven.
///
/// # Errors
/// One sentence when a run is none of these parts.
pub fn file(sitting: &Taken, runs: &[String]) -> Result<String, BadInput> {
    let Taken { class_word, seat, truck, who, started, rules, .. } = sitting;
    let mut whole = Sitting::new(class_word, *seat, truck, who, started, rules)?;
    whole.pauses = sitting.pauses;
    for (part, run) in runs.iter().enumerate() {
        let name = format!("part {}", part + 1);
        whole.done(part, Run::parse(&name, run.as_bytes())?)?;
    }
    Ok(whole.to_text())
}

/// Reads a file that came in: its record under this name, and the text of each run in it.
///
/// # Errors
/// One sentence with file and place.
pub fn read(file: &str, text: &str, id: String) -> Result<(Taken, Vec<String>), BadInput> {
    let whole = Sitting::parse(file, text.as_bytes())?;
    let runs = whole.runs().iter().map(Run::to_text).collect();
    let taken = Taken {
        version: Taken::FORM,
        id,
        class_word: whole.class_word,
        seat: whole.seat,
        truck: whole.truck.to_owned(),
        who: whole.who,
        started: whole.started,
        rules: whole.rules,
        pauses: whole.pauses,
        given_up: false,
        imported: true,
    };
    Ok((taken, runs))
}
