//! Reads a lesson. Each refusal names the place and what would do.

use serde::Deserialize;

use super::{Gauge, Lesson, OneTruck, Question, Show, Topic, Trucks, Way, Ways};
use crate::outside::bounded::List;
use crate::outside::values::{SaidFile, Wrong, each, name, no_twins, said, within, wrong};
use crate::outside::{BadInput, Said, read_json};

/// Version of the file format.
const FORMAT: u32 = 1;
/// Largest file that is read, bytes.
const MAX_BYTES: usize = 512 * 1024;
/// So many points are said of each topic: what people keep of what they hear once.
const POINTS: usize = 3;
/// A drive is shown for so long at the least and at the most, s.
const SHOWN_S: (f64, f64) = (2.0, 60.0);
/// And from so late on, s.
const LATEST_S: f64 = 900.0;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct LessonFile {
    #[serde(rename = "$schema", default)]
    _schema: Option<String>,
    format: u32,
    name: SaidFile,
    caution: SaidFile,
    topics: List<TopicFile, 64>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TopicFile {
    id: String,
    title: SaidFile,
    say: List<SaidFile, 8>,
    #[serde(default)]
    caution: Option<SaidFile>,
    show: List<ShowFile, 4>,
    ask: List<QuestionFile, 8>,
    drive: List<String, 8>,
    at_truck: List<SaidFile, 8>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct QuestionFile {
    ask: SaidFile,
    hear: SaidFile,
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
enum ShowFile {
    Ways(WaysFile),
    Trucks(TrucksFile),
    Part(PartFile),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WaysFile {
    course: String,
    truck: String,
    seed: u32,
    for_s: f64,
    watch: List<Gauge, 7>,
    right: WayFile,
    wrong: WayFile,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct WayFile {
    rider: String,
    #[serde(default)]
    course: Option<String>,
    from_s: f64,
    says: SaidFile,
    #[serde(default)]
    finds: List<String, 6>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct TrucksFile {
    course: String,
    rider: String,
    seed: u32,
    for_s: f64,
    watch: List<Gauge, 7>,
    trucks: [OneTruckFile; 2],
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct OneTruckFile {
    truck: String,
    from_s: f64,
    says: SaidFile,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct PartFile {
    point: String,
    defect: String,
}

pub(super) fn read(file: &str, text: &[u8]) -> Result<Lesson, BadInput> {
    let f: LessonFile = read_json(file, text, MAX_BYTES)?;
    lesson(f).map_err(|w| BadInput::new(file, w.place, w.reason))
}

fn lesson(f: LessonFile) -> Result<Lesson, Wrong> {
    if f.format != FORMAT {
        let reason = format!("this is format {}, and this program reads {FORMAT}", f.format);
        return wrong("format", reason);
    }
    let topics = each("topics", f.topics, topic)?;
    if topics.is_empty() {
        return wrong("topics", "a lesson has at least one topic");
    }
    no_twins("topics", topics.iter().map(|t| t.id.as_str()))?;
    Ok(Lesson { name: said("name", f.name)?, caution: said("caution", f.caution)?, topics })
}

fn topic(at: &str, t: TopicFile) -> Result<Topic, Wrong> {
    name(&format!("{at}.id"), &t.id)?;
    let say = some(&format!("{at}.say"), t.say, (POINTS, POINTS), said)?;
    let shows = some(&format!("{at}.show"), t.show, (1, 4), show)?;
    let ask = some(&format!("{at}.ask"), t.ask, (2, 3), |at, q| {
        let (ask, hear) =
            (said(&format!("{at}.ask"), q.ask)?, said(&format!("{at}.hear"), q.hear)?);
        Ok(Question { ask, hear })
    })?;
    let drive = some(&format!("{at}.drive"), t.drive, (1, 8), |at, id| {
        name(at, &id)?;
        Ok(id)
    })?;
    Ok(Topic {
        title: said(&format!("{at}.title"), t.title)?,
        caution: t.caution.map(|c| said(&format!("{at}.caution"), c)).transpose()?,
        at_truck: some(&format!("{at}.at_truck"), t.at_truck, (1, 5), said)?,
        id: t.id,
        say,
        shows,
        ask,
        drive,
    })
}

/// A list with so many entries at the least and at the most.
fn some<T, U, const MAX: usize>(
    at: &str,
    list: List<T, MAX>,
    (least, most): (usize, usize),
    read: impl FnMut(&str, T) -> Result<U, Wrong>,
) -> Result<Vec<U>, Wrong> {
    let count = list.0.len();
    if !(least..=most).contains(&count) {
        let many = if least == most { format!("{least}") } else { format!("{least} to {most}") };
        return wrong(at, format!("there are {count} of these; give {many}"));
    }
    each(at, list, read)
}

fn show(at: &str, s: ShowFile) -> Result<Show, Wrong> {
    Ok(match s {
        ShowFile::Ways(w) => Show::Ways(ways(&format!("{at}.ways"), w)?),
        ShowFile::Trucks(t) => Show::Trucks(trucks(&format!("{at}.trucks"), t)?),
        ShowFile::Part(p) => {
            name(&format!("{at}.part.point"), &p.point)?;
            name(&format!("{at}.part.defect"), &p.defect)?;
            Show::Part { point: p.point, defect: p.defect }
        }
    })
}

fn ways(at: &str, w: WaysFile) -> Result<Ways, Wrong> {
    names(at, &[("course", &w.course), ("truck", &w.truck)])?;
    let right = way(&format!("{at}.right"), w.right)?;
    let wrong_way = way(&format!("{at}.wrong"), w.wrong)?;
    if !right.finds.is_empty() {
        return wrong(
            format!("{at}.right.finds"),
            "nothing is found on the right way; leave it out",
        );
    }
    if wrong_way.finds.is_empty() {
        return wrong(
            format!("{at}.wrong.finds"),
            "name the code of at least one fault that shows",
        );
    }
    Ok(Ways {
        for_s: within(&format!("{at}.for_s"), w.for_s, SHOWN_S.0, SHOWN_S.1)?,
        watch: watch(at, w.watch)?,
        course: w.course,
        truck: w.truck,
        seed: w.seed,
        right,
        wrong: wrong_way,
    })
}

fn way(at: &str, w: WayFile) -> Result<Way, Wrong> {
    names(at, &[("rider", &w.rider)])?;
    if let Some(course) = &w.course {
        names(at, &[("course", course)])?;
    }
    Ok(Way {
        course: w.course,
        from_s: within(&format!("{at}.from_s"), w.from_s, 0.0, LATEST_S)?,
        says: short(&format!("{at}.says"), w.says)?,
        finds: each(&format!("{at}.finds"), w.finds, |at, code| {
            name(at, &code)?;
            Ok(code)
        })?,
        rider: w.rider,
    })
}

fn trucks(at: &str, t: TrucksFile) -> Result<Trucks, Wrong> {
    names(at, &[("course", &t.course), ("rider", &t.rider)])?;
    let [a, b] = t.trucks;
    let one = |n: u32, t: OneTruckFile| {
        let at = format!("{at}.trucks[{n}]");
        names(&at, &[("truck", &t.truck)])?;
        Ok(OneTruck {
            from_s: within(&format!("{at}.from_s"), t.from_s, 0.0, LATEST_S)?,
            says: short(&format!("{at}.says"), t.says)?,
            truck: t.truck,
        })
    };
    Ok(Trucks {
        for_s: within(&format!("{at}.for_s"), t.for_s, SHOWN_S.0, SHOWN_S.1)?,
        watch: watch(at, t.watch)?,
        trucks: [one(0, a)?, one(1, b)?],
        course: t.course,
        rider: t.rider,
        seed: t.seed,
    })
}

fn names(at: &str, all: &[(&str, &str)]) -> Result<(), Wrong> {
    all.iter().try_for_each(|(field, id)| name(&format!("{at}.{field}"), id))
}

/// Most characters of what stands under a picture.
const CAPTION: usize = 120;

fn short(at: &str, texts: SaidFile) -> Result<Said, Wrong> {
    let texts = said(at, texts)?;
    match texts.iter().find(|(_, text)| text.chars().count() > CAPTION) {
        Some((language, _)) => {
            wrong(format!("{at}.{language}"), format!("use at most {CAPTION} characters"))
        }
        None => Ok(texts),
    }
}

fn watch(at: &str, gauges: List<Gauge, 7>) -> Result<Vec<Gauge>, Wrong> {
    let at = format!("{at}.watch");
    let mut once = gauges.0.clone();
    once.sort_unstable();
    once.dedup();
    if once.len() != gauges.0.len() || !(1..=3).contains(&once.len()) {
        return wrong(at, "name 1 to 3 things to watch, each once");
    }
    Ok(gauges.0)
}
