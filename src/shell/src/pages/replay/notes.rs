//! Notes pinned to moments of the drive: the debrief's three questions, and whatever else is to be said. They stay
//! with the attempt, stand in its debrief and on paper, and each has an address.

use coneyard_core::class::note::{ANSWERS, Answers, NOTE_MOST, Note, pin};
use coneyard_core::time::Tick;
use leptos::prelude::*;

use super::Desk;
use crate::browser;
use crate::parts::press::{Choice, Delete, Option1};
use crate::parts::when::Since;
use crate::route::Route;
use crate::store::Attempt;
use crate::words::{fine_time_text, k, say, say_with, text, tr};

/// What is asked.
pub(crate) fn question(answers: Answers) -> &'static str {
    match answers {
        Answers::Meant => k("note-meant"),
        Answers::Happened => k("note-happened"),
        Answers::Next => k("note-next"),
        Answers::Said => k("note-said"),
    }
}

/// The notes, and the field for another one.
#[component]
pub(super) fn Notes(
    desk: Desk,
    /// As it was kept; its notes are read once.
    attempt: Attempt,
) -> impl IntoView {
    let attempt = RwSignal::new(attempt);
    let answers = RwSignal::new(Answers::Meant);
    let words = RwSignal::new(String::new());
    let change = move |change: &dyn Fn(&mut Vec<Note>)| {
        attempt.update(|a| change(&mut a.notes));
        leptos::task::spawn_local(desk.store.learn(attempt.get_untracked()));
    };
    let add = move |_| {
        let note = Note {
            at: desk.now_untracked(),
            answers: answers.get_untracked(),
            text: words.get_untracked(),
            by: desk.settings.with_untracked(|s| s.who.clone()),
            written: browser::now(),
        };
        change(&|notes| {
            pin(notes, note.clone());
        });
        words.set(String::new());
    };
    let list = move || {
        let Attempt { id, notes, .. } = attempt.get();
        let row = |(n, note): (usize, Note)| {
            let href = Route::Replay { id: id.clone(), at: Some(note.at), finding: None }.href();
            let at: Tick = note.at;
            view! {
                <li>
                    <button type="button" class="jump" on:click=move |_| desk.seek(at)>
                        <Since ticks=at />
                        <span>{tr(question(note.answers))}</span>
                    </button>
                    <p>{note.text}</p>
                    <p class="actions">
                        <a class="button" href=href>
                            {tr("note-link")}
                        </a>
                        <Delete act=move |_| change(&|notes| { notes.remove(n); }) />
                    </p>
                </li>
            }
        };
        notes.into_iter().enumerate().map(row).collect_view()
    };
    let options = ANSWERS
        .into_iter()
        .map(|one| {
            Option1::new(question(one), move || answers.get() == one, move || answers.set(one))
        })
        .collect();
    let pin_to = move || say_with(k("note-pin"), vec![("at", text(fine_time_text(desk.now())))]);
    view! {
        <section class="pinned" aria-labelledby="notes-title">
            <h2 id="notes-title">{tr("note-title")}</h2>
            <ol class="note-list">{list}</ol>
            <Choice legend=k("note-question") group="note-question" options />
            <label class="field">
                <span>{move || say(question(answers.get()))}</span>
                <textarea
                    id="note-text"
                    rows="2"
                    maxlength=NOTE_MOST.to_string()
                    prop:value=words
                    on:focus=move |_| desk.play(false)
                    on:input=move |ev| words.set(event_target_value(&ev))
                ></textarea>
            </label>
            <p class="actions">
                <button
                    type="button"
                    id="note-pin"
                    disabled=move || words.with(|w| w.trim().is_empty())
                    on:click=add
                >
                    {pin_to}
                </button>
            </p>
        </section>
    }
}

/// What was noted, for the debrief and for paper; nothing where nothing was.
#[component]
pub(crate) fn Noted(attempt: Attempt) -> impl IntoView {
    if attempt.notes.is_empty() {
        return None;
    }
    let rows = attempt
        .notes
        .iter()
        .map(|note| {
            let href =
                Route::Replay { id: attempt.id.clone(), at: Some(note.at), finding: None }.href();
            let (at, words, by) = (note.at, note.text.clone(), note.by.clone());
            let answers = note.answers;
            view! {
                <li>
                    <a class="look" href=href>
                        <Since ticks=at />
                    </a>
                    " "
                    <strong>{tr(question(answers))}</strong>
                    " "
                    {words}
                    {(!by.is_empty()).then(|| view! { <span class="quiet">" · " {by}</span> })}
                </li>
            }
        })
        .collect_view();
    Some(view! {
        <section class="keep" aria-labelledby="noted-title">
            <h2 id="noted-title">{tr("note-title")}</h2>
            <ol class="noted">{rows}</ol>
        </section>
    })
}
