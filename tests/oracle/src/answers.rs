//! Which findings answer which harm, what must have been seen for a critical finding, and what is left
//! over when a drive's findings are held against what was seen in it.

use coneyard_core::debrief::{Debrief, Ending};
use coneyard_core::finding::{Finding, Severity};
use coneyard_core::time::{TICK_RATE, Tick};

use crate::notes::{Kind, Note};
use crate::oracle::{NEAR, Oracle};

/// The findings, by their codes in the site rules, that answer a harm, and how grave one must at least be.
pub const ANSWERS: [(Kind, Severity, &[&str]); 13] = [
    (Kind::PersonTouched, Severity::Critical, &["person-struck"]),
    (Kind::PersonPassed, Severity::Critical, &["person-near-miss", "person-struck"]),
    (Kind::Struck, Severity::Minor, &["contact-structure"]),
    (Kind::StruckHard, Severity::Critical, &["contact-structure"]),
    (Kind::Tipped, Severity::Critical, &["tipped-over"]),
    (Kind::CaseRunOver, Severity::Minor, &["loose-object-run-over"]),
    (Kind::LoadFell, Severity::Major, &["load-spilled"]),
    (Kind::StopLineRun, Severity::Critical, &["stop-line-run"]),
    (
        Kind::CrossingTaken,
        Severity::Major,
        &["person-not-given-way", "person-near-miss", "person-struck"],
    ),
    (
        Kind::NoRoom,
        Severity::Minor,
        &[
            "person-struck",
            "person-near-miss",
            "contact-structure",
            "emergency-late",
            "outruns-sight",
            "too-close-behind",
            "meeting-not-stopped",
        ],
    ),
    (Kind::UnderBeam, Severity::Critical, &["headroom"]),
    (Kind::UnsafeDock, Severity::Major, &["unchecked-crossing"]),
    (Kind::BadTruckDriven, Severity::Critical, &["bad-truck-taken"]),
];

/// What must have been seen for a critical finding.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Sight {
    /// A note of this kind of at least so much.
    Of(Kind, f64),
    /// Truck or load came on to a person faster than could be stopped.
    NoStopForSomebody,
    /// A person was touched by a truck that went on along them.
    Graze,
    /// Somebody or something was nearer than this, m.
    Within(f64),
    /// Somebody was nearer than this, m.
    SomebodyWithin(f64),
    /// The forks were asked to lift more than the truck may carry.
    TooHeavy,
}

/// For every code that can be critical one of these must have been seen.
pub const CRITICALS: [(&str, &[Sight]); 13] = [
    ("person-struck", &[Sight::Of(Kind::PersonTouched, 0.0), Sight::Graze]),
    (
        "person-near-miss",
        &[
            Sight::Of(Kind::PersonPassed, 0.0),
            Sight::Of(Kind::PersonTouched, 0.0),
            Sight::NoStopForSomebody,
        ],
    ),
    (
        "person-not-given-way",
        &[Sight::Of(Kind::CrossingTaken, 0.0), Sight::Of(Kind::PersonPassed, 0.0)],
    ),
    // At a corner the gap closes more slowly than the side goes into it.
    ("contact-structure", &[Sight::Of(Kind::StruckHard, 0.0), Sight::Of(Kind::Struck, 0.75)]),
    ("emergency-late", &[Sight::SomebodyWithin(1.005)]),
    ("stop-line-run", &[Sight::Of(Kind::StopLineRun, 0.0)]),
    ("tipped-over", &[Sight::Of(Kind::Tipped, 1.0)]),
    ("wrong-way-command", &[Sight::Within(2.05)]),
    ("headroom", &[Sight::Of(Kind::UnderBeam, 0.0)]),
    ("unchecked-crossing", &[Sight::Of(Kind::UnsafeDock, 1.0)]),
    ("load-spilled", &[Sight::Of(Kind::LoadFell, 4.0)]),
    ("over-capacity", &[Sight::TooHeavy]),
    ("bad-truck-taken", &[Sight::Of(Kind::BadTruckDriven, 0.98)]),
];

/// Whether a harm was found.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Answer {
    /// No finding answers it.
    None,
    /// A finding does that is not grave enough.
    TooMild,
    /// A finding does.
    Found,
}

/// A drive's findings held against what was seen.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Held {
    /// Harms, and whether a finding answers each.
    pub harms: Vec<(Note, Answer)>,
    /// Critical findings, and whether anything of the kind was seen.
    pub criticals: Vec<(Finding, bool)>,
}

impl Held {
    /// Harms without a finding that is grave enough.
    pub fn unfound(&self) -> impl Iterator<Item = &Note> {
        self.harms.iter().filter(|(_, answer)| *answer < Answer::Found).map(|(note, _)| note)
    }

    /// Critical findings without harm.
    pub fn harmless(&self) -> impl Iterator<Item = &Finding> {
        self.criticals.iter().filter(|(_, seen)| !seen).map(|(finding, _)| finding)
    }

    /// Nothing is left over.
    pub fn is_right(&self) -> bool {
        self.unfound().next().is_none() && self.harmless().next().is_none()
    }
}

/// Whoever is struck was nearly struck so long before, ticks: 3 s, and told of only once.
const STANDS_FOR: Tick = 3 * TICK_RATE;

/// What begins so shortly before a ride is broken off, ticks, had no time to be found: a quarter second.
const CUT_SHORT: Tick = TICK_RATE / 4;

fn near((from, to): (Tick, Tick), note: (Tick, Tick)) -> bool {
    from <= note.1.saturating_add(NEAR) && note.0 <= to.saturating_add(NEAR)
}

fn answer(note: &Note, finding: &Finding) -> Answer {
    let row = ANSWERS.iter().find(|(kind, ..)| *kind == note.kind);
    let before = if finding.code == "person-struck" { STANDS_FOR } else { 0 };
    let from = finding.from.saturating_sub(before);
    let row = row.filter(|(.., codes)| {
        codes.contains(&finding.code.as_str()) && near((from, finding.to), (note.from, note.to))
    });
    match row {
        Some((_, least, _)) if finding.severity >= *least => Answer::Found,
        Some(_) if finding.severity > Severity::Good => Answer::TooMild,
        _ => Answer::None,
    }
}

/// Holds a drive's findings against what the oracle saw in it.
pub fn hold(oracle: &Oracle, debrief: &Debrief) -> Held {
    let findings = &debrief.findings;
    let notes = oracle.notes();
    let cut = matches!(debrief.ending, Ending::Broken | Ending::TimeOut);
    let known = debrief.ticks.saturating_sub(if cut { CUT_SHORT } else { 0 });
    let harms = notes.iter().filter(|n| n.sure && n.from <= known);
    let best = |n: &Note| findings.iter().map(|f| answer(n, f)).max().unwrap_or(Answer::None);
    let harms = harms.map(|n| (*n, best(n))).collect();
    let criticals = findings.iter().filter(|f| f.severity == Severity::Critical);
    let seen = |f: &Finding| {
        let sights = CRITICALS.iter().filter(|(code, _)| *code == f.code);
        sights.flat_map(|(_, sights)| sights.iter()).any(|sight| match *sight {
            Sight::Of(kind, least) => notes.iter().any(|n| {
                n.kind == kind && n.measure >= least && near((f.from, f.to), (n.from, n.to))
            }),
            Sight::NoStopForSomebody => oracle.cannot_stop_for_somebody(f.from, f.to),
            Sight::Graze => oracle.grazes_somebody(f.from, f.to),
            Sight::Within(metres) => oracle.something_within(metres, f.from, f.to),
            Sight::SomebodyWithin(metres) => oracle.somebody_within(metres, f.from, f.to),
            Sight::TooHeavy => oracle.lifts_too_much(f.from, f.to),
        })
    };
    Held { harms, criticals: criticals.map(|f| (f.clone(), seen(f))).collect() }
}
