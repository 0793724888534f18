//! The golden runs hold what they are there to hold: each of these constants of truck and load,
//! changed by 1 %, makes at least one of them come out otherwise. Constants that stand in code (people,
//! sight, friction) are tried by `constants_in_code`, which builds the program once for each.

use std::fs;
use std::path::Path;
use std::process::Command;

use coneyard_core::run::DriveSetup;
use coneyard_core::run::Run;
use coneyard_sim::Session;
use coneyard_tests::golden::{folders, name};
use coneyard_tests::yards::repo_file;
use serde_json::Value;

/// Fields of the truck file.
const OF_THE_TRUCK: [&str; 28] = [
    "/geometry/wheelbase_m",
    "/geometry/chassis_width_m",
    "/geometry/platform_x_m",
    "/geometry/nose_x_m",
    "/geometry/drive_wheel_width_m",
    "/mass/truck_kg",
    "/mass/truck_x_over_wheelbase",
    "/mass/truck_height_m",
    "/mass/rider_kg",
    "/friction/dry",
    "/friction/wet",
    "/rolling_resistance",
    "/travel/top_speed_empty_mps",
    "/travel/top_speed_laden_mps",
    "/travel/top_speed_forks_first_mps",
    "/travel/acceleration_mps2",
    "/travel/lag_s",
    "/travel/speed_response_s",
    "/travel/coasting_mps2",
    "/travel/coasting_force_most_n",
    "/travel/plugging_least_mps2",
    "/travel/plugging_most_mps2",
    "/travel/service_brake_mps2",
    "/travel/tractive_force_most_n",
    "/arm/spring_dps",
    "/tiller/body_dps",
    "/forks/lower_mps",
    "/forks/sway_per_m",
];

/// Fields of the first load in a course file.
const OF_THE_LOAD: [&str; 4] = [
    "/loads/0/case/mass_kg",
    "/loads/0/case/height_m",
    "/loads/0/case/width_m",
    "/loads/0/pallet/mass_kg",
];

fn runs() -> Vec<(String, Run)> {
    let mut all: Vec<(String, Run)> = folders()
        .iter()
        .map(|folder| {
            let (name, text) = (name(folder), fs::read(folder.join("run.json")));
            let run = Run::parse(&name, &text.expect("a golden run"));
            (name, run.expect("a run of this simulation"))
        })
        .collect();
    // The richest drives first: they are the likeliest to tell.
    all.sort_by_key(|(name, run)| {
        (!name.contains("circuit") && !name.contains("ramp"), run.ticks())
    });
    all
}

/// What comes of these hands in this set-up, bit by bit, four times a second; None when it cannot be
/// driven.
fn course_of(run: &Run, setup: &DriveSetup, mut see: impl FnMut([u64; 9]) -> bool) -> Option<()> {
    let mut session = Session::new(setup).ok()?;
    for (tick, controls) in run.each_tick().enumerate() {
        let m = session.step(controls);
        if tick % 16 != 0 {
            continue;
        }
        let people: f64 = m.people.iter().map(|p| p.at.x + p.gap).sum();
        let numbers = [
            m.truck.pose.at.x,
            m.truck.pose.at.y,
            m.truck.pose.heading,
            m.truck.arm_torque,
            m.sight.clear_ahead,
            m.sight.braking,
            m.load.slid,
            m.load.holds_sideways.unwrap_or(-1.0),
            people,
        ];
        if !see(numbers.map(f64::to_bits)) {
            break;
        }
    }
    Some(())
}

/// Whether the drive comes out otherwise with another set-up.
fn differs(run: &Run, changed: &DriveSetup) -> bool {
    let mut as_kept = Vec::new();
    course_of(run, &run.setup, |numbers| {
        as_kept.push(numbers);
        true
    })
    .expect("a golden run can be driven");
    let (mut i, mut same) = (0, true);
    let driven = course_of(run, changed, |numbers| {
        same = as_kept.get(i) == Some(&numbers);
        i += 1;
        same
    });
    driven.is_none() || !same || i != as_kept.len()
}

/// The text of a file with the number at a place made 1 % larger, if it is there.
fn one_per_cent_more(text: &str, place: &str) -> Option<String> {
    let mut value: Value = serde_json::from_str(text).ok()?;
    let number = value.pointer_mut(place)?;
    *number = (number.as_f64()? * 1.01).into();
    Some(value.to_string())
}

#[test]
fn one_per_cent_of_any_constant_of_truck_and_load_shows() {
    let runs = runs();
    let mut silent = Vec::new();
    let truck = OF_THE_TRUCK.map(|place| (place, true));
    let load = OF_THE_LOAD.map(|place| (place, false));
    for (place, in_truck) in truck.into_iter().chain(load) {
        let shown_by = runs.iter().find(|(_, run)| {
            let text = if in_truck { &run.setup.truck } else { &run.setup.course };
            let Some(changed) = one_per_cent_more(text, place) else { return false };
            let mut setup = run.setup.clone();
            if in_truck {
                setup.truck = changed;
            } else {
                setup.course = changed;
            }
            differs(run, &setup)
        });
        match shown_by {
            Some((name, _)) => println!("{place}: {name}"),
            None => silent.push(place),
        }
    }
    assert!(silent.is_empty(), "no golden run shows 1 % more of {silent:?}");
}

/// File, a constant as it stands there, and the same with 1 % more.
const IN_CODE: [(&str, &str, &str); 8] = [
    ("people/pace.rs", "mean: 1.34,", "mean: 1.3534,"),
    ("people/pace.rs", "deviation: 0.26,", "deviation: 0.2626,"),
    ("course/step_out.rs", "REACTION_S: f64 = 1.5;", "REACTION_S: f64 = 1.515;"),
    ("yard/foot.rs", "PERSON_RADIUS: f64 = 0.25;", "PERSON_RADIUS: f64 = 0.2525;"),
    ("yard/trucks.rs", "SPEEDING: f64 = 0.8;", "SPEEDING: f64 = 0.808;"),
    ("load/friction.rs", "CTU_SLIDING: f64 = 0.75;", "CTU_SLIDING: f64 = 0.7575;"),
    // Cosine and sine of 95 degrees, and of 95.95.
    (
        "sight/polygon.rs",
        "vec2(-0.087_155_742_747_658_17, 0.996_194_698_091_745_5)",
        "vec2(-0.103_658_0, 0.994_613_0)",
    ),
    ("yard/eye.rs", "ROOM: f64 = 0.02;", "ROOM: f64 = 0.0202;"),
];

/// Copies what git knows of the repository.
fn copy_to(place: &Path) {
    let listed = Command::new("git").args(["ls-files", "-z"]).current_dir(repo_file("")).output();
    let listed = String::from_utf8(listed.expect("git runs").stdout).expect("names are UTF-8");
    for name in listed.split_terminator('\0') {
        let to = place.join(name);
        fs::create_dir_all(to.parent().expect("a file is in a folder")).expect("made");
        fs::copy(repo_file(name), to).expect("copied");
    }
}

/// Whether the golden runs come out there; what was said.
fn golden_runs_pass(place: &Path) -> (bool, String) {
    let out = Command::new(env!("CARGO"))
        .args(["test", "--release", "--offline", "--test", "golden"])
        .current_dir(place)
        .env("CARGO_TARGET_DIR", repo_file("target/constants"))
        .output()
        .expect("cargo runs");
    let said = String::from_utf8_lossy(&out.stdout).into_owned();
    (out.status.success(), said + &String::from_utf8_lossy(&out.stderr))
}

#[test]
#[ignore = "builds the program once for each constant, some minutes; run it by its name"]
fn one_per_cent_of_any_constant_in_code_shows() {
    let place = tempfile::tempdir().expect("a folder for temporary files can be made");
    copy_to(place.path());
    let (passes, said) = golden_runs_pass(place.path());
    assert!(passes, "unchanged they come out: {said}");
    let mut silent = Vec::new();
    for (file, as_it_is, more) in IN_CODE {
        let file = place.path().join("src/core/src").join(file);
        let text = fs::read_to_string(&file).expect("the file is there");
        assert_eq!(text.matches(as_it_is).count(), 1, "{as_it_is} stands there once");
        fs::write(&file, text.replace(as_it_is, more)).expect("written");
        let (passes, said) = golden_runs_pass(place.path());
        fs::write(&file, text).expect("written");
        println!("{more} {}", if passes { "does not show" } else { "shows" });
        assert!(passes || said.contains("what comes of a drive has changed"), "{said}");
        if passes {
            silent.push(more);
        }
    }
    assert!(silent.is_empty(), "no golden run shows {silent:?}");
}
