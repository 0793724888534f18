//! What holds one thing on another: pairs of surfaces with their friction factors, as published
//! for securing cargo, each with its source beside it.

use serde::{Deserialize, Serialize};

/// Sliding over resting friction by the CTU Code, Annex 7, Appendix 2.
const CTU_SLIDING: f64 = 0.75;
/// The same by the older European guideline, for what the CTU Code does not list.
const OLDER_SLIDING: f64 = 0.70;

/// IMO/ILO/UNECE Code of Practice for Packing of Cargo Transport Units, Annex 7, Appendix 2.
const CTU: &str = "CTU Code 2014, Annex 7, Appendix 2";
const CTU_FROM_MEMORY: &str = "CTU Code 2014, Annex 7, Appendix 2, from memory";
const CTU_WET_FROM_MEMORY: &str = "CTU Code 2014, Annex 7, Appendix 2; the wet value from memory";
const WOOD_ON_FORKS: &str = "no table has painted fork steel; the nearest row is taken, wooden \
    pallet on stainless steel sheet, CTU Code 2014, Annex 7, Appendix 2";
const PLASTIC_ON_FORKS: &str = "no table has painted fork steel; the nearest row is taken, plastic \
    pallet on stainless steel sheet, CTU Code 2014, Annex 7, Appendix 2";
const OLDER: &str = "European Best Practice Guidelines on Cargo Securing for Road Transport, \
    8.2.1; sliding by its rule of 0.7; not in the CTU Code";

/// Two surfaces, swept clean.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[allow(missing_docs)] // the names say what lies on what
pub enum Pair {
    WoodenPalletOnForks,
    PlasticPalletOnForks,
    WoodenPalletOnLaminate,
    WoodenPalletOnGroovedAluminium,
    WoodenPalletOnStainlessSheet,
    WoodenPalletOnShrinkFilm,
    PlanedWoodOnLaminate,
    PlanedWoodOnGroovedAluminium,
    PlanedWoodOnStainlessSheet,
    PlasticPalletOnLaminate,
    PlasticPalletOnGroovedAluminium,
    PlasticPalletOnStainlessSheet,
    CardboardOnCardboard,
    CardboardOnWoodenPallet,
    BigBagOnWoodenPallet,
    RoughMetalOnRoughMetal,
    PaintedRoughMetalOnPaintedRoughMetal,
    PaintedSmoothMetalOnPaintedSmoothMetal,
    SmoothMetalOnSmoothMetal,
    SteelCrateOnLaminate,
    SteelCrateOnGroovedAluminium,
    SteelCrateOnStainlessSheet,
    RoughConcreteOnSawnWood,
    SmoothConcreteOnSawnWood,
    AntiSlipMat,
    ShrinkFilmOnShrinkFilm,
}

/// One row of the table.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// What lies on what.
    pub pair: Pair,
    /// Friction factor at rest, dry.
    pub dry: f64,
    /// And wet; None where the source gives none.
    pub wet: Option<f64>,
    /// Friction while sliding over friction at rest.
    pub sliding_over_rest: f64,
    /// Where the numbers come from.
    pub source: &'static str,
}

/// Friction factors of one pair in one state.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Friction {
    /// At rest: it sticks up to this times the weight.
    pub at_rest: f64,
    /// While it slides. Never above `at_rest`.
    pub sliding: f64,
}

const fn ctu(pair: Pair, dry: f64, wet: Option<f64>) -> Row {
    Row { pair, dry, wet, sliding_over_rest: CTU_SLIDING, source: CTU }
}

/// Every pair, in the order of `Pair`.
pub const TABLE: [Row; 26] = {
    use Pair::*;
    [
        Row { source: WOOD_ON_FORKS, ..ctu(WoodenPalletOnForks, 0.30, Some(0.30)) },
        Row { source: PLASTIC_ON_FORKS, ..ctu(PlasticPalletOnForks, 0.15, Some(0.15)) },
        ctu(WoodenPalletOnLaminate, 0.45, Some(0.45)),
        ctu(WoodenPalletOnGroovedAluminium, 0.40, Some(0.40)),
        ctu(WoodenPalletOnStainlessSheet, 0.30, Some(0.30)),
        ctu(WoodenPalletOnShrinkFilm, 0.30, Some(0.30)),
        ctu(PlanedWoodOnLaminate, 0.30, Some(0.30)),
        ctu(PlanedWoodOnGroovedAluminium, 0.25, Some(0.25)),
        ctu(PlanedWoodOnStainlessSheet, 0.20, Some(0.20)),
        ctu(PlasticPalletOnLaminate, 0.20, Some(0.20)),
        ctu(PlasticPalletOnGroovedAluminium, 0.15, Some(0.15)),
        ctu(PlasticPalletOnStainlessSheet, 0.15, Some(0.15)),
        ctu(CardboardOnCardboard, 0.50, None),
        ctu(CardboardOnWoodenPallet, 0.50, None),
        ctu(BigBagOnWoodenPallet, 0.40, None),
        ctu(RoughMetalOnRoughMetal, 0.40, None),
        ctu(PaintedRoughMetalOnPaintedRoughMetal, 0.30, None),
        ctu(PaintedSmoothMetalOnPaintedSmoothMetal, 0.20, None),
        ctu(SmoothMetalOnSmoothMetal, 0.20, None),
        ctu(SteelCrateOnLaminate, 0.45, Some(0.45)),
        ctu(SteelCrateOnGroovedAluminium, 0.30, Some(0.30)),
        ctu(SteelCrateOnStainlessSheet, 0.20, Some(0.20)),
        ctu(RoughConcreteOnSawnWood, 0.70, Some(0.70)),
        Row { source: CTU_FROM_MEMORY, ..ctu(SmoothConcreteOnSawnWood, 0.55, Some(0.55)) },
        Row { source: CTU_WET_FROM_MEMORY, ..ctu(AntiSlipMat, 0.60, Some(0.60)) },
        Row {
            pair: ShrinkFilmOnShrinkFilm,
            dry: 0.30,
            wet: None,
            sliding_over_rest: OLDER_SLIDING,
            source: OLDER,
        },
    ]
};

impl Pair {
    /// Its row of the table.
    pub fn row(self) -> &'static Row {
        &TABLE[self as usize]
    }

    /// Friction of the dry pair.
    pub fn dry(self) -> Friction {
        self.row().friction(self.row().dry)
    }

    /// Friction of the wet pair; None where the source gives none.
    pub fn wet(self) -> Option<Friction> {
        self.row().wet.map(|mu| self.row().friction(mu))
    }
}

impl Row {
    fn friction(&self, at_rest: f64) -> Friction {
        Friction { at_rest, sliding: self.sliding_over_rest * at_rest }
    }
}
