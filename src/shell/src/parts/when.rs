//! Times and lengths of time: shown in the language's way, told to machines in ISO 8601.

use coneyard_core::time::{TICK_RATE, Tick};
use leptos::prelude::*;
use wasm_bindgen::JsValue;

use crate::words::{self, fine_time_text, k, number, say, say_with, time_text};

/// A date and time as the set language writes it.
pub(crate) fn date_text(rfc3339: &str) -> String {
    let date = js_sys::Date::new(&JsValue::from_str(rfc3339));
    if date.get_time().is_nan() {
        // A scripted ride has no date; what is no date is shown as it is.
        return if rfc3339.is_empty() { say(k("no-date")) } else { rfc3339.to_owned() };
    }
    let options = js_sys::Object::new();
    for (name, value) in [("dateStyle", "medium"), ("timeStyle", "short")] {
        // Setting a plain property of a fresh object cannot fail.
        let _ = js_sys::Reflect::set(&options, &name.into(), &value.into());
    }
    String::from(date.to_locale_string(&locale(), &options))
}

/// A day, "2026-01-31", as the set language writes it.
pub(crate) fn day_text(day: &str) -> String {
    // Noon: no zone makes another day of it.
    let date = js_sys::Date::new(&JsValue::from_str(&format!("{day}T12:00:00")));
    if date.get_time().is_nan() {
        return day.to_owned();
    }
    let options = js_sys::Object::new();
    // Setting a plain property of a fresh object cannot fail.
    let _ = js_sys::Reflect::set(&options, &"dateStyle".into(), &"medium".into());
    String::from(date.to_locale_date_string(&locale(), &options))
}

/// The browser's own regional form of the set language if it has one, else the language.
fn locale() -> String {
    let lang = words::lang();
    match window().navigator().language() {
        Some(code) if words::Lang::from_code(&code) == Some(lang) => code,
        _ => lang.code().to_owned(),
    }
}

/// The length of so many ticks as an ISO 8601 duration, to a thousandth of a second: "PT1M5.25S".
pub(crate) fn iso_length(ticks: Tick) -> String {
    let thousandths = u64::from(ticks) * 1_000 / u64::from(TICK_RATE);
    let (whole, rest) = (thousandths / 1_000, thousandths % 1_000);
    let (hours, minutes, seconds) = (whole / 3_600, whole / 60 % 60, whole % 60);
    let mut text = String::from("PT");
    if hours > 0 {
        text.push_str(&format!("{hours}H"));
    }
    if minutes > 0 {
        text.push_str(&format!("{minutes}M"));
    }
    if rest > 0 {
        let fraction = format!("{rest:03}");
        text.push_str(&format!("{seconds}.{}S", fraction.trim_end_matches('0')));
    } else if seconds > 0 || text == "PT" {
        text.push_str(&format!("{seconds}S"));
    }
    text
}

/// A length of time in words.
pub(crate) fn length_text(ticks: Tick) -> String {
    let seconds = ticks / TICK_RATE;
    let (minutes, seconds) = (seconds / 60, seconds % 60);
    say_with(k("print-length"), vec![("minutes", number(minutes)), ("seconds", number(seconds))])
}

/// The text itself where it is a date and time as ISO 8601 and RFC 3339 both write it, with at
/// most thousandths of a second; a run that came in as a file may hold anything.
fn iso_moment(text: &str) -> Option<&str> {
    let shape = |text: &str, shape: &str| {
        text.len() == shape.len()
            && text.bytes().zip(shape.bytes()).all(|(t, s)| match s {
                b'0' => t.is_ascii_digit(),
                b'+' => matches!(t, b'+' | b'-'),
                _ => t == s,
            })
    };
    let (day, rest) = text.split_at_checked("2026-01-05T08:00:00".len())?;
    let zone_at = rest.find(['Z', '+', '-'])?;
    let (fraction, zone) = rest.split_at(zone_at);
    let fits = shape(day, "0000-00-00T00:00:00")
        && ["", ".0", ".00", ".000"].iter().any(|s| shape(fraction, s))
        && ["Z", "+00:00"].iter().any(|s| shape(zone, s));
    fits.then_some(text)
}

/// When something was, by its RFC 3339 text.
#[component]
pub(crate) fn Moment(at: String) -> impl IntoView {
    let machine = iso_moment(&at).map(str::to_owned);
    view! { <time datetime=machine>{move || date_text(&at)}</time> }
}

/// How long something was, "1:05".
#[component]
pub(crate) fn Length(ticks: Tick) -> impl IntoView {
    view! { <time datetime=iso_length(ticks)>{time_text(ticks)}</time> }
}

/// A place in a run by the time since its start, "1:05.3".
#[component]
pub(crate) fn Since(ticks: Tick) -> impl IntoView {
    view! {
        <time class="at" datetime=iso_length(ticks)>
            {move || fine_time_text(ticks)}
        </time>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_are_iso_durations() {
        for (ticks, text) in [
            (0, "PT0S"),
            (64, "PT1S"),
            (64 * 65 + 16, "PT1M5.25S"),
            (64 * 60, "PT1M"),
            (64 * 3_600, "PT1H"),
            (64 * 3_605 + 1, "PT1H5.015S"),
            (32, "PT0.5S"),
        ] {
            assert_eq!(iso_length(ticks), text);
        }
    }

    #[test]
    fn only_what_is_a_date_is_told_to_machines() {
        for text in
            ["2026-01-05T08:00:00Z", "2026-01-05T08:00:00.125Z", "2026-01-05T08:00:00.5-05:00"]
        {
            assert_eq!(iso_moment(text), Some(text));
        }
        for text in ["", "yesterday", "2026-01-05", "2026-01-05 08:00:00Z", "2026-01-05T08:00:00"] {
            assert_eq!(iso_moment(text), None, "{text}");
        }
        assert_eq!(iso_moment("2026-01-05T08:00:00.1234Z"), None);
        assert_eq!(iso_moment("añññññññññññ-01-05T08:00:00Z"), None);
    }
}
