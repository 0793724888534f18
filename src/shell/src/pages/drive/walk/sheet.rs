//! What stands on the sheet beside the points: the shift, the hours as they are read off the meter, and a note on
//! the whole truck.

use coneyard_core::acts::{Act, WHOLE_TRUCK};
use leptos::prelude::*;

use super::answers::Note;
use super::round::Round;
use crate::words::{Lang, k, lang, say, tr};

/// Shifts of a day.
const SHIFTS: core::ops::RangeInclusive<u8> = 1..=4;

/// More hours than this no meter shows.
const HOURS_MOST: f64 = 999_999.0;

/// All of it.
#[component]
pub(super) fn OnSheet(round: Round) -> impl IntoView {
    let shift = move || round.noted.with(|n| n.shift);
    let choose = move |ev: leptos::ev::Event| {
        if let Ok(number) = event_target_value(&ev).parse() {
            round.act(Act::Shift { number });
        }
    };
    let option = move |number: u8| {
        view! {
            <option value=number.to_string() selected=move || shift() == Some(number)>
                {number}
            </option>
        }
    };
    view! {
        <div class="walk-paper" role="group" aria-label=tr("walk-sheet-label")>
            <h2>{tr("walk-sheet-label")}</h2>
            <label class="field">
                <span>{tr("walk-shift")}</span>
                <select id="walk-shift" on:change=choose>
                    <option value="" selected=move || shift().is_none()>
                        "–"
                    </option>
                    {SHIFTS.map(option).collect_view()}
                </select>
            </label>
            <Hours round id="walk-hours" />
            <Note round point=WHOLE_TRUCK name=k("walk-note-whole") id="walk-note-whole" />
            <p class="quiet">{tr("walk-sheet-kept")}</p>
        </div>
    }
}

/// Tenths of an hour, as somebody types them; None when it is no such number.
fn tenths(typed: &str) -> Option<u32> {
    let hours: f64 = typed.trim().replace(',', ".").parse().ok()?;
    (0.0..=HOURS_MOST).contains(&hours).then(|| (hours * 10.0).round() as u32)
}

/// The same as it is written.
fn written(tenths: u32) -> String {
    let mark = if lang() == Lang::Es { ',' } else { '.' };
    format!("{}{mark}{}", tenths / 10, tenths % 10)
}

/// The hours, read and written down.
#[component]
pub(super) fn Hours(round: Round, id: &'static str) -> impl IntoView {
    let trouble = RwSignal::new(false);
    let kept = move || round.hours_read.get().map(written).unwrap_or_default();
    let change = move |ev: leptos::ev::Event| {
        let typed = event_target_value(&ev);
        let read = tenths(&typed);
        trouble.set(read.is_none() && !typed.trim().is_empty());
        if let Some(tenths) = read {
            round.act(Act::ReadHours { tenths });
        }
    };
    let said = format!("{id}-why");
    view! {
        <div class="field">
            <label for=id>{tr("walk-hours")}</label>
            <input
                type="text"
                inputmode="decimal"
                id=id
                class="hours"
                maxlength="10"
                autocomplete="off"
                aria-describedby=said.clone()
                aria-invalid=move || trouble.get().to_string()
                prop:value=kept
                on:change=change
            />
            <span id=said class="why" aria-live="polite">
                {move || trouble.get().then(|| say(k("walk-hours-bad")))}
            </span>
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hours_are_read_as_people_of_both_languages_write_them() {
        assert_eq!(tenths("1187.4"), Some(11_874));
        assert_eq!(tenths(" 1187,4 "), Some(11_874));
        assert_eq!(tenths("900"), Some(9_000));
        assert_eq!(tenths("0"), Some(0));
        for bad in ["", "-3", "many", "1.187,4", "1e9", "NaN", "inf"] {
            assert_eq!(tenths(bad), None, "{bad}");
        }
    }
}
