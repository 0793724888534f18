//! A step-out is placed so that a rider who keeps the rules can stop for it: shown over 200 seeds
//! with each truck, by the model rider in the whole simulation.

use coneyard_core::debrief::Ending;
use coneyard_core::finding::Severity;
use coneyard_core::rider::{self, MODEL};
use coneyard_core::rules::SiteRules;
use coneyard_sim::Session;
use coneyard_tests::drives::setup;

/// How one drive past the end of the racks went.
struct Passed {
    /// Speed at which the person who stepped out was first seen, m/s.
    seen_at: f64,
    /// Least distance to whoever stepped out, m.
    closest: f64,
    faults: Vec<String>,
    ending: Ending,
}

fn past_the_rack_end(truck: &str, seed: u32) -> Passed {
    let mut session = Session::new(&setup("rack-end", truck, seed)).expect("shipped files");
    let setting = session.setting().clone();
    let rules: &SiteRules = &setting.rules;
    let mut rider = rider::by_name(MODEL, &setting.course, &setting.truck, rules, u64::from(seed))
        .expect("the model rider");
    let (mut seen_at, mut closest) = (None, f64::INFINITY);
    while session.ending().is_none() {
        let controls = rider.ride(session.moment());
        let m = session.step(controls);
        for person in m.people.iter().filter(|p| p.stepped_out.is_some()) {
            closest = closest.min(person.gap);
            if person.seen_since.is_some() {
                seen_at = seen_at.or(Some(m.truck.speed.abs()));
            }
        }
    }
    let debrief = session.finish(1.0).claimed;
    let faults = debrief.findings.iter().filter(|f| f.severity != Severity::Good);
    Passed {
        seen_at: seen_at.expect("whoever steps out is seen"),
        closest,
        faults: faults.map(|f| f.code.clone()).collect(),
        ending: debrief.ending,
    }
}

#[test]
fn a_rider_who_keeps_the_rules_can_always_stop_for_a_step_out() {
    for truck in ["single", "double"] {
        let (mut closest, mut seen_at) = (f64::INFINITY, Vec::new());
        for seed in 1..=200 {
            let passed = past_the_rack_end(truck, seed);
            assert_eq!(passed.faults, Vec::<String>::new(), "{truck} {seed}");
            assert_eq!(passed.ending, Ending::Done, "{truck} {seed}");
            assert!(passed.closest > 0.0, "{truck} {seed}: somebody was touched");
            closest = closest.min(passed.closest);
            seen_at.push(passed.seen_at);
        }
        seen_at.sort_by(f64::total_cmp);
        let (slowest, middle, fastest) = (seen_at[0], seen_at[100], seen_at[199]);
        println!(
            "{truck}: {closest:.2} m at the closest; first seen at {slowest:.2} to {fastest:.2} m/s, \
             half of them at {middle:.2} m/s or more"
        );
        // A truck that stands or crawls shows nothing about stopping for somebody.
        assert!(slowest > 1.8 && middle > 1.9, "{truck}: {seen_at:?}");
    }
}
