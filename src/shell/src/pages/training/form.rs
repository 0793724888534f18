//! Fields that the record's forms share. Each keeps its text until the form is sent.

use coneyard_core::class::date::Date;
use leptos::prelude::*;

use crate::browser::today;
use crate::parts::due::day_text;
use crate::parts::names::truck_name;
use crate::settings::use_settings;
use crate::words::{k, say, say_with, text, tr};

/// Longest name and longest note, characters, as the record reads them.
const NAME_MOST: &str = "100";
const NOTE_MOST: &str = "1000";

/// What every entry has: when, by whom, with which truck, where, and a note.
#[derive(Clone, Copy)]
pub(super) struct Fields {
    pub(super) on: RwSignal<String>,
    pub(super) by: RwSignal<String>,
    pub(super) truck: RwSignal<String>,
    pub(super) site: RwSignal<String>,
    pub(super) note: RwSignal<String>,
    /// Why it was not taken, if so.
    pub(super) wrong: RwSignal<Option<String>>,
}

/// What was filled in.
pub(super) struct Filled {
    pub(super) on: Date,
    pub(super) by: String,
    pub(super) truck: String,
    pub(super) site: String,
    pub(super) note: String,
}

impl Fields {
    /// As they stand at first: today, and whoever uses this browser.
    pub(super) fn new() -> Self {
        let settings = use_settings();
        let (by, truck) = settings.with_untracked(|s| (s.who.clone(), s.truck.clone()));
        Self {
            on: RwSignal::new(today()),
            by: RwSignal::new(by),
            truck: RwSignal::new(truck),
            site: RwSignal::new(String::new()),
            note: RwSignal::new(String::new()),
            wrong: RwSignal::new(None),
        }
    }

    /// What was filled in; says what is missing where it is not whole.
    pub(super) fn filled(self) -> Option<Filled> {
        let of = |field: RwSignal<String>| field.get_untracked().trim().to_owned();
        let (on, by) = (Date::read(&of(self.on)), of(self.by));
        let wrong = match on {
            None => Some(k("training-which-day")),
            Some(_) if by.is_empty() => Some(k("training-by-whom")),
            Some(_) => None,
        };
        self.wrong.set(wrong.map(say));
        let on = on.filter(|_| wrong.is_none())?;
        Some(Filled { on, by, truck: of(self.truck), site: of(self.site), note: of(self.note) })
    }

    /// Ready for another entry.
    pub(super) fn clear(self) {
        self.note.set(String::new());
    }
}

/// When something was, and by whom.
pub(super) fn day_by(on: Date, by: &str) -> String {
    let values = vec![("day", text(day_text(on))), ("by", text(by.to_owned()))];
    say_with(k("training-day-by"), values)
}

/// The fields.
#[component]
pub(super) fn Common(
    fields: Fields,
    /// Distinguishes the fields of one form from those of another.
    form: &'static str,
    /// Key of who it is done by.
    by: &'static str,
    /// There is a place to it.
    #[prop(optional)]
    site: bool,
) -> impl IntoView {
    let line = move |id: &'static str, name: &'static str, field: RwSignal<String>| {
        view! {
            <label class="field">
                <span>{tr(name)}</span>
                <input
                    type="text"
                    id=format!("{form}-{id}")
                    maxlength=NAME_MOST
                    autocomplete="off"
                    prop:value=field
                    on:input=move |ev| field.set(event_target_value(&ev))
                />
            </label>
        }
    };
    let trucks = ["single", "double"]
        .into_iter()
        .map(|truck| view! { <option value=truck>{truck_name(truck)}</option> })
        .collect_view();
    view! {
        <div class="fields">
            <label class="field">
                <span>{tr("training-on")}</span>
                <input
                    type="date"
                    id=format!("{form}-on")
                    prop:value=fields.on
                    on:input=move |ev| fields.on.set(event_target_value(&ev))
                />
            </label>
            {line("by", by, fields.by)}
            <label class="field">
                <span>{tr("training-truck")}</span>
                <select
                    id=format!("{form}-truck")
                    prop:value=fields.truck
                    on:change=move |ev| fields.truck.set(event_target_value(&ev))
                >
                    {trucks}
                </select>
            </label>
            {site.then(|| line("site", k("training-site"), fields.site))}
        </div>
    }
}

/// The note of an entry.
#[component]
pub(super) fn NoteField(fields: Fields, form: &'static str) -> impl IntoView {
    view! {
        <label class="field">
            <span>{tr("training-note")}</span>
            <textarea
                id=format!("{form}-note")
                rows="2"
                maxlength=NOTE_MOST
                prop:value=fields.note
                on:input=move |ev| fields.note.set(event_target_value(&ev))
            ></textarea>
        </label>
        <p role="alert">{move || fields.wrong.get()}</p>
    }
}
