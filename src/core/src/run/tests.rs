//! The run file and its head: what is read of old files, and what of those of another simulation.

use serde_json::Value;

use super::file::SIMULATION;
use super::header::Header;
use super::{Run, record};
use crate::controls::Controls;
use crate::debrief::{Debrief, Ending};
use crate::rules::SHIPPED;
use crate::run::DriveSetup;
use crate::state::chain::Digest;

/// Half a second of standing still.
fn run() -> Run {
    let mut controls = Vec::new();
    for _ in 0..32 {
        record(&mut controls, Controls::default());
    }
    Run {
        setup: DriveSetup {
            course: crate::course::shipped::text("straight").unwrap().to_owned(),
            truck: crate::truck::spec::shipped::SINGLE.to_owned(),
            rules: SHIPPED.to_owned(),
            seed: 7,
            who: "Alder".to_owned(),
            started: "2026-01-05T08:00:00Z".to_owned(),
        },
        time_ratio: 0.97,
        pace: 0.5,
        controls,
        digests: vec![Digest([7; 8])],
        claimed: Debrief {
            ending: Ending::Broken,
            ticks: 32,
            total: Some(64.5),
            skills: Vec::new(),
            findings: Vec::new(),
            practise: None,
            changed_rules: Vec::new(),
        },
    }
}

/// The run's file with one value replaced, or taken away.
fn changed(place: &str, value: Option<Value>) -> String {
    let mut file: Value = serde_json::from_str(&run().to_text()).unwrap();
    match value {
        Some(value) => file[place] = value,
        None => drop(file.as_object_mut().unwrap().remove(place)),
    }
    file.to_string()
}

fn read(text: &str) -> Result<Run, String> {
    Run::parse("the run", text.as_bytes()).map_err(|e| e.to_string())
}

fn head(text: &str) -> Result<Header, String> {
    Header::parse("the run", text.as_bytes()).map_err(|e| e.to_string())
}

#[test]
fn the_pace_goes_through_the_file() {
    assert_eq!(read(&run().to_text()), Ok(run()));
    assert!(run().is_slowed() && !Run { pace: 1.0, ..run() }.is_slowed());
    assert!(Run { pace: 1.0 - f64::EPSILON, ..run() }.is_slowed());
    assert_eq!(run().share_of_real_time(), 0.97 * 0.5);
}

#[test]
fn a_file_from_before_the_pace_was_kept_is_of_full_pace() {
    let old = changed("pace", None);
    assert_eq!(read(&old).unwrap().pace, 1.0);
    assert_eq!(head(&old).unwrap().pace, 1.0);
}

#[test]
fn a_pace_that_nobody_can_drive_at_is_refused_in_a_sentence() {
    for pace in [0.0, -0.5, 1.0 + 1e-9, 2.0] {
        let text = changed("pace", Some(Value::from(pace)));
        for e in [read(&text).unwrap_err(), head(&text).unwrap_err()] {
            assert!(e.contains("at pace") && e.lines().count() == 1, "{pace}: {e}");
        }
    }
    for pace in [f64::MIN_POSITIVE, 0.05, 1.0] {
        let text = changed("pace", Some(Value::from(pace)));
        assert_eq!(read(&text).unwrap().pace, pace);
    }
    assert!(read(&changed("pace", Some(Value::Null))).is_err());
}

#[test]
fn the_head_of_another_simulation_is_read_although_its_drive_is_not() {
    for simulation in [SIMULATION - 1, SIMULATION + 1] {
        let text = changed("simulation", Some(Value::from(simulation)));
        let refused = read(&text).unwrap_err();
        assert!(refused.contains("at simulation"), "{refused}");
        let head = head(&text).unwrap();
        assert_eq!(head.simulation, simulation);
        assert!(!head.can_be_driven_again());
        assert_eq!((head.who.as_str(), head.seed, head.ticks), ("Alder", 7, 32));
        assert_eq!((head.time_ratio, head.pace), (0.97, 0.5));
        assert_eq!(head.claimed, run().claimed);
    }
    let head = head(&run().to_text()).unwrap();
    assert_eq!(head.simulation, SIMULATION);
    assert!(head.can_be_driven_again());
}

#[test]
fn a_head_of_another_format_or_cut_off_is_refused_in_a_sentence() {
    let other = head(&changed("format", Some(Value::from(2)))).unwrap_err();
    assert!(other.contains("at format"), "{other}");
    let text = run().to_text();
    for end in [0, 1, text.len() / 2] {
        let e = head(&text[..end]).unwrap_err();
        assert!(e.starts_with("the run") && e.lines().count() == 1, "{e}");
    }
    let slow = head(&changed("time_ratio", Some(Value::from(-1.0)))).unwrap_err();
    assert!(slow.contains("at time_ratio"), "{slow}");
}
