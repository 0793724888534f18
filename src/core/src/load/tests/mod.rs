//! The load against published values. Where a value was not seen in its source, the check says
//! "from memory".

mod friction;
mod motion;
mod pallet;
mod rock;
mod slide;
mod spill;
mod stack;

use crate::load::motion::Forks;
use crate::load::pallet::PalletLoad;
use crate::math::{Vec2, vec2};
use crate::truck::spec::shipped;

/// Forks of the shipped single truck; a backrest of 1.2 m and the sway are typical of the trade,
/// from memory.
fn forks() -> Forks {
    let g = shipped::single().geometry;
    Forks {
        tips_x: g.fork_tips_x_m,
        gives: 0.0,
        backrest_x: g.backrest_x_m,
        backrest_top: 1.2,
        spread: g.fork_spread_m,
        sway_per_m: 1.5 / 0.20,
    }
}

/// 40 cases of 0.4 x 0.3 x 0.28 m and 12 kg, 5 layers of 2 x 4, on a wooden pallet of 0.8 x 1.2 m
/// taken up from its long side. Invented.
const FORTY: &str = r#"{
  "format": 1, "id": "forty", "source": "Invented.",
  "pallet": { "length_m": 0.8, "width_m": 1.2, "height_m": 0.144, "mass_kg": 25 },
  "case": { "length_m": 0.4, "width_m": 0.3, "height_m": 0.28, "mass_kg": 12 },
  "layers": [[5, 5, 5, 5], [5, 5, 5, 5]],
  "wrapped": false,
  "surfaces": {
    "pallet_on_forks": "wooden_pallet_on_forks",
    "case_on_pallet": "cardboard_on_wooden_pallet",
    "case_on_case": "cardboard_on_cardboard"
  }
}"#;

fn load(text: &str) -> PalletLoad {
    PalletLoad::parse("load.json", text.as_bytes()).expect("a valid load")
}

fn wrapped(text: &str) -> PalletLoad {
    load(&text.replace("\"wrapped\": false", "\"wrapped\": true"))
}

/// Against the backrest, in the middle.
fn at_backrest(load: &PalletLoad) -> Vec2 {
    vec2(forks().backrest_x - 0.5 * load.pallet.length_m, 0.0)
}
