//! A pallet load and its file.

use proptest::prelude::*;

use super::{FORTY, load};
use crate::load::pallet::{MAX_BYTES, PalletLoad};
use crate::math::vec2;

fn refused(change: &str, by: &str) -> String {
    assert!(FORTY.contains(change), "{change}");
    let text = FORTY.replace(change, by);
    PalletLoad::parse("load.json", text.as_bytes()).expect_err("a refusal").to_string()
}

#[test]
fn forty_cases_add_up() {
    let load = load(FORTY);
    let carried = load.as_carried(vec2(0.4, 0.1), 0.09);
    assert_eq!(load.cases(), 40);
    assert!((load.height() - 1.544).abs() < 1e-12);
    assert!((carried.mass - 505.0).abs() < 1e-9);
    assert!((carried.at - vec2(0.4, 0.1)).length() < 1e-12);
    // (25 x 0.072 + 480 x (0.144 + 0.7)) / 505, over the underside.
    assert!((carried.height - (0.09 + 406.92 / 505.0)).abs() < 1e-12);
    // A pallet and a full block of cases of the same outline: m (l^2 + w^2) / 12.
    assert!((carried.yaw_inertia - 505.0 * (0.64 + 1.44) / 12.0).abs() < 1e-9);
}

#[test]
fn rows_count_from_the_backrest_and_columns_from_the_left() {
    let load = load(FORTY);
    assert!((load.place_of(0, 0) - vec2(0.2, 0.45)).length() < 1e-12);
    assert!((load.place_of(1, 3) - vec2(-0.2, -0.45)).length() < 1e-12);
}

#[test]
fn a_load_that_is_heavier_on_one_side_has_its_middle_there() {
    let load = load(&FORTY.replace("[[5, 5, 5, 5], [5, 5, 5, 5]]", "[[5, 5, 5, 0], [5, 5, 5, 0]]"));
    let carried = load.as_carried(vec2(0.0, 0.0), 0.0);
    // 10 x 12 kg at each of 0.45, 0.15, -0.15 m, and 25 kg of pallet.
    assert!((carried.at.y - 120.0 * 0.45 / 385.0).abs() < 1e-12);
    // Steiner: each column's own inertia and its distance, and back to the middle of mass.
    let own = 360.0 * (0.16 + 0.09) / 12.0 + 25.0 * 2.08 / 12.0;
    let apart = 360.0 * 0.04 + 120.0 * (2.0 * 0.45 * 0.45 - 0.45 * 0.45 + 2.0 * 0.15 * 0.15);
    let expected = own + apart - 385.0 * carried.at.y * carried.at.y;
    assert!((carried.yaw_inertia - expected).abs() < 1e-9);
}

#[test]
fn what_is_wrong_is_said_in_one_sentence_with_its_place() {
    assert_eq!(
        refused("\"format\": 1", "\"format\": 2"),
        "load.json, at format: this is format 2, and this program reads format 1"
    );
    assert_eq!(
        refused("\"mass_kg\": 12", "\"mass_kg\": -12"),
        "load.json, at case.mass_kg: -12 lies outside 0.1 to 2000"
    );
    assert_eq!(
        refused("[5, 5, 5, 5]]", "[5, 5, 5]]"),
        "load.json, at layers[1]: this row has 3 columns and the first has 4; give every row as many"
    );
    assert_eq!(
        refused("[[5, 5, 5, 5], [5, 5, 5, 5]]", "[[0, 0], [0, 0]]"),
        "load.json, at layers: 0 cases; use 1 to 400"
    );
    assert_eq!(
        refused("[[5, 5, 5, 5], [5, 5, 5, 5]]", "[]"),
        "load.json, at layers: give at least one row of columns"
    );
    assert_eq!(
        refused("\"width_m\": 0.3", "\"width_m\": 0.4"),
        "load.json, at case.width_m: the cases take 1.6 m and the pallet has 1.2 m; let them stand \
         out by at most 0.05 m on a side"
    );
    assert!(refused("[5, 5, 5, 5]]", "[5, 5, 5, 90]]").contains("m high; use at most 3 m"));
    assert!(refused("\"mass_kg\": 12", "\"mass_kg\": 150").contains("kg; use at most 5000"));
    assert!(refused("\"wrapped\": false", "\"wraped\": false").contains("unknown field"));
    assert!(refused("cardboard_on_cardboard", "ice_on_ice").contains("surfaces.case_on_case"));
    assert!(refused("[5, 5, 5, 5]]", "[5, 5, 5, 256]]").contains("layers[1][3]"));
    assert!(refused("\"forty\"", "\"Forty!\"").contains("at id: use 1 to 40 lower-case"));
    let huge = " ".repeat(MAX_BYTES + 1);
    let e = PalletLoad::parse("load.json", huge.as_bytes()).expect_err("too large");
    assert!(e.to_string().contains("more than the 65536 allowed"));
}

proptest! {
    #[test]
    fn a_damaged_file_never_panics(at in 0..FORTY.len(), byte in any::<u8>(), cut in any::<bool>()) {
        let mut text = FORTY.as_bytes().to_vec();
        text[at] = byte;
        if cut {
            text.truncate(at);
        }
        if let Err(e) = PalletLoad::parse("load.json", &text) {
            let said = e.to_string();
            prop_assert!(!said.contains('\n') && said.len() < 400);
        }
    }
}
