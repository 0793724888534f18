//! Texts in the language that is set, of which only the one in use is fetched. Reading one inside a
//! view or an effect makes it follow the language, so that a change shows at once.

use std::cell::RefCell;

use coneyard_core::finding::{Finding, Unit};
use coneyard_core::time::{TICK_RATE, Tick};
use coneyard_core::words::pretest::Because;
use coneyard_core::words::{Table, Told, Units, Value, Words};
use leptos::prelude::*;

use crate::canvas;

/// A language the pages are written in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Lang {
    /// English.
    En,
    /// Spanish.
    Es,
}

impl Lang {
    /// All, in the order they are offered.
    pub(crate) const ALL: [Self; 2] = [Self::En, Self::Es];

    /// BCP 47 code.
    pub(crate) fn code(self) -> &'static str {
        match self {
            Self::En => "en",
            Self::Es => "es",
        }
    }

    /// Key of its own name for itself.
    pub(crate) fn name_key(self) -> &'static str {
        match self {
            Self::En => k("lang-en"),
            Self::Es => k("lang-es"),
        }
    }

    /// The language of a code like "es-MX".
    pub(crate) fn from_code(code: &str) -> Option<Self> {
        let base = code.split('-').next().unwrap_or(code).to_ascii_lowercase();
        Self::ALL.into_iter().find(|l| l.code() == base)
    }
}

/// A value to be put into a text.
pub(crate) type Arg = Value;

/// Text as a value.
pub(crate) fn text(value: impl Into<String>) -> Arg {
    Value::Text(value.into())
}

/// A number as a value.
pub(crate) fn number(value: impl Into<f64>) -> Arg {
    Value::Number(value.into())
}

struct Voice {
    lang: ArcRwSignal<Lang>,
    words: RefCell<Words>,
}

thread_local! {
    static VOICE: Voice = Voice {
        lang: ArcRwSignal::new(Lang::En),
        words: RefCell::new(Words::of(Lang::En.code(), Table::default())),
    };
}

/// Fetches the texts of a language.
///
/// # Errors
/// Why they are not there.
pub(crate) async fn fetch(lang: Lang) -> Result<Table, String> {
    Table::read(&canvas::words(lang.code()).await?)
}

/// Sets the language of every text, with its texts.
pub(crate) fn set_lang(lang: Lang, texts: Table) {
    VOICE.with(|v| {
        *v.words.borrow_mut() = Words::of(lang.code(), texts);
        v.lang.set(lang);
    });
}

/// The language that is set; followed by the view that reads it.
pub(crate) fn lang() -> Lang {
    VOICE.with(|v| v.lang.get())
}

/// The language that is set at this moment; nothing follows it.
pub(crate) fn lang_now() -> Lang {
    VOICE.with(|v| v.lang.get_untracked())
}

fn with_words<T>(work: impl FnOnce(&Words) -> T) -> T {
    // Read so that whoever says something follows the language.
    lang();
    VOICE.with(|v| work(&v.words.borrow()))
}

/// Marks a literal as a Fluent key, so that the test of keys finds it.
pub(crate) const fn k(key: &'static str) -> &'static str {
    key
}

/// The text of a key.
pub(crate) fn say(key: &str) -> String {
    with_words(|w| w.say(key, &[]))
}

/// The text of a key with values put in.
pub(crate) fn say_with(key: &str, values: Vec<(&str, Arg)>) -> String {
    with_words(|w| w.say(key, &values))
}

/// The text of a key as something a view shows and keeps in the set language.
pub(crate) fn tr(key: &'static str) -> impl Fn() -> String + Copy + Send + 'static {
    move || say(key)
}

/// A measured value with its unit.
pub(crate) fn quantity(value: f64, unit: Unit, units: Units) -> String {
    with_words(|w| w.quantity(value, unit, units))
}

/// What was measured in a finding, and its limit.
pub(crate) fn measured_and_limit(finding: &Finding, units: Units) -> [String; 2] {
    with_words(|w| w.measured_and_limit(finding, units))
}

/// A number with exactly so many decimals, so that it keeps its width while it changes.
pub(crate) fn steady_number(value: f64, decimals: usize) -> String {
    let plain = format!("{value:.decimals$}");
    // No "-0.0": a truck at rest would seem to roll.
    let is_zero = plain.chars().all(|c| matches!(c, '-' | '0' | '.'));
    let shown = if is_zero { plain.trim_start_matches('-') } else { &plain };
    match lang() {
        Lang::En => shown.to_owned(),
        Lang::Es => shown.replace('.', ","),
    }
}

/// All that is said about a finding.
pub(crate) fn tell(finding: &Finding, units: Units) -> Told {
    with_words(|w| w.tell(finding, units))
}

/// What a finding of this code is called.
pub(crate) fn title(code: &str) -> String {
    with_words(|w| w.say(code, &[]))
}

/// Why a pre-test is not passed, in a sentence.
pub(crate) fn reason(reason: &Because) -> String {
    with_words(|w| w.because(reason))
}

/// Where a rule comes from, in words.
pub(crate) fn source(source: &str) -> String {
    with_words(|w| w.source(source))
}

/// What a site changed in its rules, in words: a rule goes by its own title, anything else has a
/// text of its own. (`Words::changed` says the same, but brings all watchers with it.)
pub(crate) fn changed(what: &str) -> String {
    with_words(
        |w| if w.has(what) { w.say(what, &[]) } else { w.say(&format!("changed-{what}"), &[]) },
    )
}

/// Minutes and seconds of so many ticks, "1:05".
pub(crate) fn time_text(ticks: Tick) -> String {
    let seconds = ticks / TICK_RATE;
    format!("{}:{:02}", seconds / 60, seconds % 60)
}

/// The same with tenths, "1:05.3".
pub(crate) fn fine_time_text(ticks: Tick) -> String {
    let tenths = u64::from(ticks) * 10 / u64::from(TICK_RATE);
    let mark = if lang() == Lang::Es { ',' } else { '.' };
    format!("{}{mark}{}", time_text(ticks), tenths % 10)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn time_counts_whole_seconds() {
        assert_eq!(time_text(64 * 65 + 63), "1:05");
        assert_eq!(fine_time_text(64 * 65 + 32), "1:05.5");
    }

    #[test]
    fn a_steady_number_keeps_its_decimals_and_has_no_minus_nought() {
        assert_eq!(steady_number(2.0, 1), "2.0");
        assert_eq!(steady_number(-0.04, 1), "0.0");
        assert_eq!(steady_number(-1.25, 2), "-1.25");
    }

    #[test]
    fn the_region_does_not_matter_for_the_language() {
        assert_eq!(Lang::from_code("es-MX"), Some(Lang::Es));
        assert_eq!(Lang::from_code("EN"), Some(Lang::En));
        assert_eq!(Lang::from_code("fi"), None);
    }
}
