//! The records themselves, and those of earlier versions.

use super::*;
use crate::controls::Controls;
use crate::run::Driven;
use serde_json::json;

#[test]
fn a_record_comes_back_as_it_was_with_its_version() {
    let place = Some(Place { sitting: "s".into(), part: 2 });
    let (attempt, drive) = (Attempt { place: place.clone(), ..attempt("a") }, begun("a", place));
    assert_eq!(read_record(&write_record(&attempt).unwrap()), Ok(attempt.clone()));
    assert_eq!(read_record(&write_record(&drive).unwrap()), Ok(drive));
    assert_eq!(read_record(&write_record(&piece(3)).unwrap()), Ok(piece(3)));
    assert_eq!(read_record(&write_record(&taken("s")).unwrap()), Ok(taken("s")));
    assert!(write_record(&attempt).unwrap().contains("\"version\":2"));
}

#[test]
fn a_record_of_the_future_is_not_read_as_one_of_today() {
    let newer = |text: String| {
        let newer =
            |text: String, is: u32| text.replace(&format!("\"version\":{is}"), "\"version\":9");
        newer(newer(text, 2), 3)
    };
    let said = read_record::<Attempt>(&newer(write_record(&attempt("a")).unwrap())).unwrap_err();
    assert!(said.contains("version 9") && said.contains("up to 2"), "{said}");
    assert!(read_record::<Drive>(&newer(write_record(&begun("a", None)).unwrap())).is_err());
    assert!(read_record::<Piece>(&newer(write_record(&piece(1)).unwrap())).is_err());
    assert!(read_record::<Taken>(&newer(write_record(&taken("s")).unwrap())).is_err());
}

/// The databases that earlier versions left: every record is read, as of the first form.
#[test]
fn records_of_earlier_versions_are_read() {
    let stored = [
        (2, include_str!("../../../../../tests/stored/version-2.json")),
        (3, include_str!("../../../../../tests/stored/version-3.json")),
    ];
    for (simulation, text) in stored {
        let database: serde_json::Value = serde_json::from_str(text).unwrap();
        let texts = |store: &str| -> Vec<String> {
            let records = database["stores"][store].as_array().unwrap();
            records.iter().filter_map(|r| Some(r[1].as_str()?.to_owned())).collect()
        };
        let attempts = texts("attempts");
        assert!(attempts.len() >= 5);
        for text in attempts {
            let attempt: Attempt = read_record(&text).unwrap();
            assert_eq!((attempt.version, attempt.pace), (FIRST_FORM, 1.0));
            assert!(attempt.simulation.is_none_or(|made| made == simulation));
        }
        for text in texts("drives") {
            let drive: Drive = read_record(&text).unwrap();
            assert_eq!((drive.version, drive.simulation), (FIRST_FORM, simulation));
        }
        for text in texts("sittings") {
            assert_eq!(read_record::<Taken>(&text).unwrap().version, FIRST_FORM);
        }
        for text in texts("controls") {
            assert!(!read_record::<Piece>(&text).unwrap().driven.is_empty());
        }
        for run in texts("runs") {
            assert_eq!(whole::told("a.run.json", &run).unwrap().simulation, simulation);
        }
    }
}

#[test]
fn a_cut_drive_is_all_its_pieces_and_as_slow_as_at_its_end() {
    let of = |pairs: &[u32]| Driven { pairs: pairs.to_vec(), acts: Vec::new() };
    let at = |simulated_s, asked_s| Timing { simulated_s, asked_s, pace: 1.0 };
    let pieces =
        vec![Piece::new(of(&[7, 64]), at(1.0, 2.0)), Piece::new(of(&[9, 10, 8, 1]), at(1.2, 2.4))];
    let cut = CutDrive::of(begun("a", None), pieces);
    assert_eq!((cut.ticks(), cut.pieces), (75, 2));
    assert_eq!(cut.driven.pairs, [7, 64, 9, 10, 8, 1]);
    assert_eq!(cut.timing, at(1.2, 2.4));
}

#[test]
fn a_cut_drive_that_does_not_tell_its_times_cannot_show_that_it_was_fast_enough() {
    let old = Piece::without_times(vec![7, 64]);
    assert_eq!(CutDrive::of(begun("a", None), vec![old]).timing.ratio(), 0.0);
    assert_eq!(CutDrive::of(begun("a", None), vec![]).timing, Timing::START);
}

#[test]
fn a_drive_from_before_the_simulation_was_kept_is_of_the_one_before() {
    let mut old = serde_json::to_value(begun("a", None)).unwrap();
    assert!(old.as_object_mut().unwrap().remove("simulation").is_some());
    let old: Drive = serde_json::from_value(old).unwrap();
    assert_eq!(old.simulation, SIMULATION_UNSAID);
    assert!(begun("a", None).can_go_on());
    for simulation in [SIMULATION - 1, SIMULATION + 1] {
        assert!(!Drive { simulation, ..begun("a", None) }.can_go_on());
    }
}

/// In the second form a held button stood in the controls.
#[test]
fn a_piece_from_before_there_were_acts_has_its_reports_as_acts() {
    let (bits, report) = (Controls::default().to_bits(), 1_u32 << 29);
    let old = |pairs: [u32; 4]| {
        let text = json!({"version": 2, "pairs": pairs, "timing": null}).to_string();
        read_record::<Piece>(&text).unwrap()
    };
    let pieces = vec![old([bits, 20, bits | report, 12]), old([bits | report, 40, bits, 1])];
    let cut = CutDrive::of(begun("a", None), pieces);
    assert_eq!(cut.driven.pairs, [bits, 20, bits, 12, bits, 40, bits, 1]);
    let ticks: Vec<u32> = cut.driven.acts.iter().map(|done| done.tick).collect();
    assert_eq!(ticks, [21, 33, 65]);
    assert!(cut.driven.spans().is_ok());
    let new = Piece::new(Driven { pairs: vec![bits, 1], acts: cut.driven.acts }, Timing::START);
    let again: Piece = read_record(&write_record(&new).unwrap()).unwrap();
    assert_eq!(again, new);
}
