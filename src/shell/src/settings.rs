//! What a person has set, kept in the browser's small store. A setting that cannot be read falls
//! back to its default; the others stay.

use std::collections::BTreeMap;

use coneyard_core::desk::{Covered, Sight, View};
use coneyard_core::outside::to_json;
use coneyard_core::words::Units;
use leptos::prelude::*;
use serde::{Deserialize, Serialize};
use serde_json::value::RawValue;

use crate::browser;
use crate::devices::gamepad::PadMap;
use crate::devices::keys::KeyMap;
use crate::words::Lang;

const NAME: &str = "coneyard-settings";

/// All settings.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Settings {
    /// Language code.
    pub(crate) lang: String,
    /// Units on the screen.
    pub(crate) units: Units,
    /// Who drives; may be empty.
    pub(crate) who: String,
    /// Truck chosen last.
    pub(crate) truck: String,
    /// Predicted paths and lane edges are shown.
    pub(crate) helps: bool,
    /// North stays up on the canvas.
    pub(crate) north_up: bool,
    /// Let go, the tiller comes back to the middle.
    pub(crate) tiller_returns: bool,
    /// Touch controls are shown; None: when the device has a coarse pointer.
    pub(crate) touch: Option<bool>,
    /// Touch controls are stepped with one finger instead of held with two thumbs.
    pub(crate) one_finger: bool,
    /// The throttle is on the left and the tiller on the right.
    pub(crate) swapped: bool,
    /// Sound is on.
    pub(crate) sound: bool,
    /// How loud, percent.
    pub(crate) volume: u8,
    /// What debriefs are printed on.
    pub(crate) paper: Paper,
    /// Keys.
    pub(crate) keys: KeyMap,
    /// Gamepad.
    pub(crate) pad: PadMap,
}

impl Default for Settings {
    fn default() -> Self {
        let language = browser::preferred_language();
        Self {
            lang: Lang::from_code(&language).unwrap_or(Lang::En).code().to_owned(),
            units: likely_units(&language),
            who: String::new(),
            truck: "single".to_owned(),
            helps: true,
            north_up: true,
            // One that comes back by itself breeds corners that are cut and taken too fast.
            tiller_returns: false,
            touch: None,
            one_finger: false,
            swapped: false,
            sound: false,
            volume: 60,
            paper: likely_paper(&language),
            keys: KeyMap::default(),
            pad: PadMap::default(),
        }
    }
}

impl Settings {
    /// The settings kept in this browser.
    pub(crate) fn recall() -> Self {
        browser::recall(NAME).map(|text| Self::from_text(&text)).unwrap_or_default()
    }

    /// Field by field, so that one that no longer fits does not take the others with it.
    fn from_text(text: &str) -> Self {
        if let Ok(settings) = serde_json::from_str(text) {
            return settings;
        }
        let Ok(kept) = serde_json::from_str::<BTreeMap<String, &RawValue>>(text) else {
            return Self::default();
        };
        let mut fitting = Vec::new();
        let mut settings = Self::default();
        for (name, value) in kept {
            let Ok(name) = to_json(&name) else { continue };
            fitting.push(format!("{name}:{value}"));
            match serde_json::from_str(&format!("{{{}}}", fitting.join(","))) {
                Ok(read) => settings = read,
                Err(_) => drop(fitting.pop()),
            }
        }
        settings
    }

    /// The language that is set; English for one that there is not.
    pub(crate) fn language(&self) -> Lang {
        Lang::from_code(&self.lang).unwrap_or(Lang::En)
    }

    /// Keeps them in this browser.
    pub(crate) fn remember(&self) {
        if let Ok(text) = to_json(self) {
            browser::remember(NAME, &text);
        }
    }

    /// How the yard is to be shown.
    pub(crate) fn view(&self) -> View {
        View {
            north_up: self.north_up,
            helps: self.helps,
            dark: browser::media("(prefers-color-scheme: dark)"),
            sight: Sight::WhatTheRiderSees,
            covered: Covered::default(),
            zoom: 1.0,
            overview: false,
        }
    }

    /// How loud it is, 0 to 1; 0 while the sound is off.
    pub(crate) fn loudness(&self) -> f64 {
        loudness(self.sound, self.volume)
    }

    /// Touch controls are wanted.
    pub(crate) fn shows_touch(&self) -> bool {
        self.touch.unwrap_or_else(|| browser::media("(pointer: coarse)"))
    }
}

/// How loud a volume in percent is, 0 to 1; 0 while the sound is off.
fn loudness(is_on: bool, percent: u8) -> f64 {
    if is_on { f64::from(percent.min(100)) / 100.0 } else { 0.0 }
}

/// Sizes of paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Paper {
    /// 210 mm by 297 mm (ISO 216).
    A4,
    /// 8.5 in by 11 in (ANSI/ASME Y14.1, size A).
    Letter,
}

impl Paper {
    /// Its name in a style sheet.
    pub(crate) fn css(self) -> &'static str {
        match self {
            Self::A4 => "A4",
            Self::Letter => "letter",
        }
    }
}

/// Regions that print on Letter (Unicode CLDR, supplemental data, paperSize US-Letter).
const LETTER: [&str; 14] =
    ["BZ", "CA", "CL", "CO", "CR", "GT", "MX", "NI", "PA", "PH", "PR", "SV", "US", "VE"];

/// What a person with this language setting of the browser most likely has in the printer.
fn likely_paper(language: &str) -> Paper {
    let region = language.split(['-', '_']).next_back().unwrap_or_default();
    if language == "en" || LETTER.contains(&region) { Paper::Letter } else { Paper::A4 }
}

/// What a person with this language setting of the browser most likely reads.
fn likely_units(language: &str) -> Units {
    if language == "en" || language.ends_with("-US") { Units::Imperial } else { Units::Metric }
}

/// Where all pages find the settings.
#[derive(Clone, Copy)]
pub(crate) struct SettingsDesk(pub(crate) RwSignal<Settings>);

/// The settings as a signal.
pub(crate) fn use_settings() -> RwSignal<Settings> {
    expect_context::<SettingsDesk>().0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_is_silent_until_it_is_asked_for() {
        assert_eq!(loudness(false, 60), 0.0);
        assert_eq!(loudness(true, 60), 0.6);
        assert_eq!(loudness(true, 250), 1.0, "no text that was kept makes it louder than loud");
    }

    #[test]
    fn paper_goes_by_the_region() {
        for (language, paper) in [
            ("en-US", Paper::Letter),
            ("es-MX", Paper::Letter),
            ("en", Paper::Letter),
            ("en-GB", Paper::A4),
            ("es", Paper::A4),
            ("es-ES", Paper::A4),
        ] {
            assert_eq!(likely_paper(language), paper, "{language}");
        }
    }
}
