//! A part of the pre-test and its mirror image are judged alike: neighbours drive one each. Without a
//! contact the two are the same to the bit. After one they may drift apart by millimetres, since the
//! engine takes up its bodies in the same order on both sides (28 mm in 40 s of crashing was measured);
//! what is found must not hang on that.

use coneyard_core::acts::Input;
use coneyard_core::controls::{Controls, Look, Side, TillerAsk};
use coneyard_core::debrief::{Debrief, Ending};
use coneyard_core::finding::Severity;
use coneyard_core::pretest::{Part, TRUCKS, draw};
use coneyard_core::rules::SHIPPED;
use coneyard_core::rules::SiteRules;
use coneyard_core::run::Run;
use coneyard_sim::{Session, random_run, ride};
use rayon::prelude::*;

/// What the same hands do on the other side.
fn mirrored(c: Controls) -> Controls {
    Controls {
        tiller: match c.tiller {
            TillerAsk::Swing(rate) => TillerAsk::Swing(-rate),
            TillerAsk::To(angle) => TillerAsk::To(-angle),
        },
        stance: match c.stance {
            Side::Left => Side::Right,
            Side::Right => Side::Left,
        },
        look: match c.look {
            Look::Left => Look::Right,
            Look::Right => Look::Left,
            ahead_or_behind => ahead_or_behind,
        },
        ..c
    }
}

/// The parts of the pre-test, each course once with each truck.
fn parts() -> Vec<Part> {
    let mut parts: Vec<Part> = TRUCKS.into_iter().flat_map(|truck| draw("1", 1, truck)).collect();
    let of = |p: &Part| (p.truck.clone(), p.course.clone());
    parts.sort_by_key(of);
    parts.dedup_by_key(|p| of(p));
    parts
}

fn setup(part: &Part, seed: u32, mirrored: bool) -> coneyard_core::run::DriveSetup {
    Part { mirrored, seed, ..part.clone() }.setup("", "", SHIPPED).expect("a part")
}

/// The same hands on the mirror image, and how far apart the two ended, m.
fn on_the_other_side(run: &Run, part: &Part, seed: u32) -> (Debrief, f64) {
    let mut here = Session::new(&run.setup).expect("a part");
    let mut there = Session::new(&setup(part, seed, true)).expect("a part");
    for Input { controls, acts } in run.each_tick() {
        there.step(Input { controls: mirrored(controls), acts: acts.clone() });
        here.step(Input { controls, acts });
    }
    let (a, b) = (here.moment().truck.pose.at, there.moment().truck.pose.at);
    let apart = ((a.x - b.x) * (a.x - b.x) + (a.y + b.y) * (a.y + b.y)).sqrt();
    (there.finish(1.0).claimed, apart)
}

/// Codes, severities and points, and how it ended.
fn verdict(d: &Debrief) -> (Ending, Option<f64>, Vec<(&str, Severity)>) {
    let mut found: Vec<_> = d.findings.iter().map(|f| (f.code.as_str(), f.severity)).collect();
    found.sort_by(|a, b| a.0.cmp(b.0).then((a.1 as u8).cmp(&(b.1 as u8))));
    (d.ending, d.total, found)
}

/// Whether the pre-test is failed with this part: something critical, or a skill below its mark.
fn fails(d: &Debrief, rules: &SiteRules) -> bool {
    let low = |points: Option<f64>| points.is_some_and(|p| p < rules.pass.skill.value);
    d.findings.iter().any(|f| f.severity == Severity::Critical)
        || d.skills.iter().any(|s| low(s.points))
}

/// How a part and its mirror image compare.
struct Pair {
    what: String,
    apart: f64,
    alike: bool,
    hit: bool,
    fails: [bool; 2],
}

fn pair(part: &Part, seed: u32, run: &Run, rules: &SiteRules) -> Pair {
    let (there, apart) = on_the_other_side(run, part, run.setup.seed);
    let here = &run.claimed;
    Pair {
        what: format!("{} {seed}: {:?} and {:?}", part.course, verdict(here), verdict(&there)),
        apart,
        alike: verdict(&there) == verdict(here),
        hit: here.findings.iter().any(|f| f.code == "contact-structure"),
        fails: [fails(here, rules), fails(&there, rules)],
    }
}

/// So many pairs of every part, driven on all cores.
fn pairs(each: u32, drive: impl Fn(&Part, u32) -> Run + Sync) -> Vec<Pair> {
    let (parts, rules) = (parts(), SiteRules::shipped());
    let all: Vec<_> = parts.iter().flat_map(|p| (1..=each).map(move |seed| (p, seed))).collect();
    all.par_iter().map(|(p, seed)| pair(p, *seed, &drive(p, *seed), &rules)).collect()
}

/// Riders who keep the rules and riders who break one: cones are hit and walls touched.
#[test]
fn mirrored_pairs_are_judged_alike() {
    const RIDERS: [&str; 7] = [
        "model",
        "hit-a-cone",
        "touches-a-wall",
        "over-speed",
        "no-horn",
        "forks-high",
        "forks-first",
    ];
    // A sample; the thousand that the design asks for with CONEYARD_MIRRORED=1000.
    let asked = std::env::var("CONEYARD_MIRRORED").map_or(400, |n| n.parse().expect("a number"));
    let each = usize::div_ceil(asked, parts().len()) as u32;
    let all = pairs(each, |part, seed| {
        let rider = RIDERS[seed as usize % RIDERS.len()];
        ride(&setup(part, seed, false), rider).expect("a part can be driven")
    });
    assert!(all.len() >= asked, "{} pairs", all.len());
    let farthest = all.iter().map(|p| p.apart).fold(0.0, f64::max);
    println!("{} pairs, {:.1} mm apart at the most", all.len(), farthest * 1000.0);
    let unlike: Vec<&String> = all.iter().filter(|p| !p.alike).map(|p| &p.what).collect();
    assert!(unlike.is_empty(), "{} of {}: {unlike:#?}", unlike.len(), all.len());
}

/// Random hands crash, and after a crash go on crashing: then not every finding is the same on both
/// sides. Without a crash each is, and with one the pre-test is failed on both sides.
#[test]
fn after_a_crash_both_sides_fail() {
    let all = pairs(20, |part, seed| {
        random_run(&setup(part, 60 + seed, false), 64 * 40).expect("a part can be driven")
    });
    let unlike = all.iter().filter(|p| !p.alike).count();
    let hit = all.iter().filter(|p| p.hit).count();
    println!("{} pairs by random hands, {hit} with a crash, {unlike} of them unlike", all.len());
    for p in all {
        assert!(p.alike || p.hit, "without a crash: {}", p.what);
        assert!(p.alike || p.fails == [true, true], "not failed on both sides: {}", p.what);
    }
}
