//! Texts in the language that is set. Reading one inside a view or an effect makes it follow the
//! language, so that a change shows at once.

use std::cell::RefCell;

use fluent_bundle::FluentValue;
use leptos::prelude::*;

use crate::words_local::Words;

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

    /// Its own name for itself.
    pub(crate) fn name_key(self) -> &'static str {
        match self {
            Self::En => k("lang-en"),
            Self::Es => k("lang-es"),
        }
    }

    /// The language of a code like "es-MX".
    pub(crate) fn from_code(code: &str) -> Option<Self> {
        let base = code.split('-').next().unwrap_or(code).to_lowercase();
        Self::ALL.into_iter().find(|l| l.code() == base)
    }
}

struct Voice {
    lang: ArcRwSignal<Lang>,
    words: RefCell<(Lang, Words)>,
}

/// Text as a value.
pub(crate) fn text(value: impl Into<String>) -> Arg {
    Arg::Text(value.into())
}

/// A number as a value.
pub(crate) fn number(value: impl Into<f64>) -> Arg {
    Arg::Number(value.into())
}

thread_local! {
    static VOICE: Voice = Voice {
        lang: ArcRwSignal::new(Lang::En),
        words: RefCell::new((Lang::En, Words::new(Lang::En.code()))),
    };
}

/// Sets the language of every text.
pub(crate) fn set_lang(lang: Lang) {
    VOICE.with(|v| v.lang.set(lang));
}

/// The language that is set; followed by the view that reads it.
pub(crate) fn lang() -> Lang {
    VOICE.with(|v| v.lang.get())
}

/// Marks a literal as a Fluent key, so that the test of keys finds it.
pub(crate) const fn k(key: &'static str) -> &'static str {
    key
}

/// The text of a key.
pub(crate) fn say(key: &str) -> String {
    say_with(key, Vec::new())
}

/// A value to be put into a text.
pub(crate) enum Arg {
    /// As it is.
    Text(String),
    /// A number, which may choose the plural.
    Number(f64),
}

/// The text of a key with values put in.
pub(crate) fn say_with(key: &str, values: Vec<(&str, Arg)>) -> String {
    let lang = lang();
    let values: Vec<(&str, FluentValue<'_>)> = values
        .into_iter()
        .map(|(name, value)| {
            let value = match value {
                Arg::Text(text) => FluentValue::from(text),
                Arg::Number(number) => FluentValue::from(number),
            };
            (name, value)
        })
        .collect();
    VOICE.with(|v| {
        let mut held = v.words.borrow_mut();
        if held.0 != lang {
            *held = (lang, Words::new(lang.code()));
        }
        held.1.say(key, &values)
    })
}

/// The text of a key as something a view shows and keeps in the set language.
pub(crate) fn tr(key: &'static str) -> impl Fn() -> String + Copy + Send + 'static {
    move || say(key)
}
