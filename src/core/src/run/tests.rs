//! The run file and its head: what is read of old files, and what of those of another simulation.

use serde_json::{Value, json};

use super::file::{FORMAT, SIMULATION};
use super::header::Header;
use super::{Run, coding, record};
use crate::acts::{ACTS_MOST, Act, Done};
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
            checks: String::new(),
            seed: 7,
            who: "Alder".to_owned(),
            started: "2026-01-05T08:00:00Z".to_owned(),
        },
        time_ratio: 0.97,
        pace: 0.5,
        format: FORMAT,
        controls,
        acts: Vec::new(),
        digests: vec![Digest([7; 8])],
        claimed: Debrief {
            ending: Ending::Broken,
            ticks: 32,
            total: Some(64.5),
            did: None,
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
    let other = head(&changed("format", Some(Value::from(3)))).unwrap_err();
    assert!(other.contains("at format"), "{other}");
    let text = run().to_text();
    for end in [0, 1, text.len() / 2] {
        let e = head(&text[..end]).unwrap_err();
        assert!(e.starts_with("the run") && e.lines().count() == 1, "{e}");
    }
    let slow = head(&changed("time_ratio", Some(Value::from(-1.0)))).unwrap_err();
    assert!(slow.contains("at time_ratio"), "{slow}");
}

fn report(tick: u32) -> Done {
    Done { tick, act: Act::Report }
}

#[test]
fn acts_go_through_the_file_and_stand_in_its_ticks() {
    let acted = Run { acts: vec![report(1), report(32)], ..run() };
    assert_eq!(read(&acted.to_text()), Ok(acted.clone()));
    let each: Vec<usize> = acted.each_tick().map(|input| input.acts.len()).collect();
    assert_eq!((each.len(), each[0], each[31]), (32, 1, 1));
    assert_eq!(each.iter().sum::<usize>(), 2);
    for (acts, place) in [
        (vec![report(0)], "acts[0]"),
        (vec![report(33)], "acts[0]"),
        (vec![report(9), report(8)], "acts[1]"),
        (vec![report(1); ACTS_MOST + 1], "acts[14400]"),
    ] {
        let e = read(&Run { acts, ..run() }.to_text()).unwrap_err();
        assert!(e.contains(&format!("at {place}: ")), "{e}");
    }
    let e = read(&changed("acts", None)).unwrap_err();
    assert!(e.contains("at acts: this is missing"), "{e}");
    let e = read(&changed("acts", Some(json!([{"tick": 1, "act": "dance"}])))).unwrap_err();
    assert!(e.contains("acts[0].act"), "{e}");
}

#[test]
fn a_file_of_the_first_format_is_read_and_written_as_it_was() {
    let old = Run { format: 1, acts: vec![report(3), report(4), report(9)], ..run() };
    let text = old.to_text();
    assert!(!text.contains("acts"), "they stand in the controls");
    assert_eq!(read(&text), Ok(old));
    assert_eq!(read(&text).unwrap().to_text(), text);
    assert_eq!(head(&text).unwrap().ticks, 32);
    let mut with_acts: Value = serde_json::from_str(&text).unwrap();
    with_acts["acts"] = json!([]);
    assert!(read(&with_acts.to_string()).unwrap_err().contains("at acts: "));
    for format in [0, 3] {
        let e = read(&changed("format", Some(json!(format)))).unwrap_err();
        assert!(e.contains(&format!("version {format}")) && e.contains("1 and 2"), "{e}");
        assert!(head(&changed("format", Some(json!(format)))).is_err());
    }
}

/// The bit of the first format is none that controls have now.
#[test]
fn no_controls_of_the_second_format_hold_a_report() {
    let bits = Controls::default().to_bits() | 1 << 29;
    assert_eq!(Controls::from_bits(bits), None);
    let text = coding::encode([(bits, 32)].into_iter());
    let e = read(&changed("controls", Some(json!(text)))).unwrap_err();
    assert!(e.contains("no rider can give"), "{e}");
}

/// A small run with every act of a walk-round in it.
fn walked() -> Run {
    let acts = [
        Act::LookCloser { point: 1, view: 2 },
        Act::Try { point: 3 },
        Act::Answer { point: 1, answer: 2, reason: Some(4) },
        Act::Answer { point: 3, answer: 0, reason: None },
        Act::Note { point: 1, text: "Ask & wait \"here\"".to_owned() },
        Act::ReadHours { tenths: 11_874 },
        Act::Shift { number: 2 },
        Act::TouchSettings,
        Act::Take,
        Act::Report,
    ];
    let acts = acts.into_iter().zip(1..).map(|(act, tick)| Done { tick, act }).collect();
    let plain = run();
    let setup = DriveSetup { checks: "{}".to_owned(), course: "{}".to_owned(), ..plain.setup };
    let setup = DriveSetup { truck: "{}".to_owned(), rules: "{}".to_owned(), ..setup };
    Run { setup, acts, ..plain }
}

#[test]
fn every_act_goes_through_the_file() {
    assert_eq!(read(&walked().to_text()), Ok(walked()));
    let note = Act::Note { point: 0, text: "x".repeat(121) };
    let long = Run { acts: vec![Done { tick: 1, act: note.clone() }], ..walked() };
    assert!(read(&long.to_text()).is_err_and(|e| e.contains("acts[0]") && e.contains("note")));
    let Act::Note { text, .. } = note.fitted() else { panic!("a note") };
    assert_eq!(text.chars().count(), 120);
}

proptest::proptest! {
    /// Damage anywhere in a run is refused in one line, or is still a run; nothing panics. More cases:
    /// `PROPTEST_CASES=1000000 cargo test`.
    #[test]
    fn damaged_runs_never_panic(
        bytes in proptest::collection::vec((0_usize..4000, 0_u8..=255), 1..4),
        cut in 0_usize..5000,
    ) {
        let mut text = walked().to_text().into_bytes();
        for (at, byte) in bytes {
            let n = text.len();
            text[at % n] = byte;
        }
        text.truncate(cut.max(1));
        if let Err(e) = Run::parse("the run", &text) {
            proptest::prop_assert!(!e.to_string().contains('\n'));
        }
    }
}
