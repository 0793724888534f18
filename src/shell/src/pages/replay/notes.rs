//! Notes pinned to moments of the drive: the debrief's three questions, and whatever else is to be said. They stay
//! with the attempt, stand in its debrief and on paper, and each has an address.

use coneyard_core::class::note::{Answers, NOTE_MOST, NOTES_MOST, Note, pin};
use coneyard_core::time::Tick;
use leptos::prelude::*;

use super::Desk;
use super::drawing::mark_text;
use crate::browser;
use crate::canvas;
use crate::parts::papers::Papers;
use crate::parts::press::{Delete, Press};
use crate::parts::when::Since;
use crate::plan::mark::{Piece, letters};
use crate::route::Route;
use crate::store::Attempt;
use crate::words::{fine_time_text, k, number, say_with, text, tr};

/// What is asked.
pub(crate) fn question(answers: Answers) -> &'static str {
    match answers {
        Answers::Meant => k("note-meant"),
        Answers::Happened => k("note-happened"),
        Answers::Next => k("note-next"),
        Answers::Said => k("note-said"),
    }
}

impl Desk {
    /// Changes the notes, and keeps them.
    fn change_notes(self, change: impl FnOnce(&mut Vec<Note>)) {
        self.kept.update(|kept| {
            if let Some(attempt) = kept {
                change(&mut attempt.notes);
            }
        });
        if let Some(attempt) = self.kept.get_untracked() {
            leptos::task::spawn_local(self.store.learn(attempt));
        }
    }

    /// Pins a note to this moment, or to that of what was drawn for it.
    pub(super) fn pin(self, answers: Answers, text: String) {
        let drawn = self.drawing.take();
        let note = Note {
            at: drawn.map_or_else(|| self.now_untracked(), |(at, _)| at),
            answers,
            text,
            by: self.settings.with_untracked(|s| s.who.clone()),
            written: browser::now(),
            mark: drawn.map(|(_, mark)| mark),
        };
        self.change_notes(|notes| {
            pin(notes, note);
        });
    }

    /// A note without words is one only when something is drawn.
    fn can_pin(self, words: RwSignal<String>) -> bool {
        !self.is_full() && (self.drawing.waits() || words.with(|w| !w.trim().is_empty()))
    }

    /// There are as many notes as there may be.
    pub(super) fn is_full(self) -> bool {
        self.kept.with(|kept| kept.as_ref().is_some_and(|a| a.notes.len() >= NOTES_MOST))
    }
}

/// A question, the field for its answer, and the button that pins it.
#[component]
pub(super) fn Field(
    desk: Desk,
    /// What is answered.
    answers: Answers,
    /// Its place in the page.
    id: &'static str,
) -> impl IntoView {
    let words = RwSignal::new(String::new());
    let add = move |_| {
        desk.pin(answers, words.get_untracked());
        words.set(String::new());
    };
    let pin_to = move || {
        let at = desk.drawing.moment(desk.now());
        say_with(k("note-pin"), vec![("at", text(fine_time_text(at)))])
    };
    view! {
        <div class="note-field">
            <label class="field">
                <span>{tr(question(answers))}</span>
                <textarea
                    id=format!("{id}-text")
                    rows="2"
                    maxlength=NOTE_MOST.to_string()
                    prop:value=words
                    on:focus=move |_| desk.play(false)
                    on:input=move |ev| words.set(event_target_value(&ev))
                ></textarea>
            </label>
            <button
                type="button"
                id=format!("{id}-pin")
                disabled=move || !desk.can_pin(words)
                on:click=add
            >
                {pin_to}
            </button>
        </div>
    }
}

/// The notes, and the field for another one.
#[component]
pub(super) fn Notes(desk: Desk) -> impl IntoView {
    let list = move || {
        let Attempt { id, notes, .. } = desk.kept.get()?;
        let letters = letters(&notes);
        let row = |(n, (note, letter)): (usize, (Note, Option<String>))| {
            let href = Route::Replay { id: id.clone(), at: Some(note.at), finding: None }.href();
            let at: Tick = note.at;
            let drawn = letter.zip(note.mark).map(|(letter, mark)| {
                view! {
                    <span class="letter">{letter}</span>
                    " "
                    {note.text.is_empty().then_some(move || mark_text(&mark))}
                }
            });
            view! {
                <li>
                    <button type="button" class="jump" on:click=move |_| desk.seek(at)>
                        <Since ticks=at />
                        <span>{tr(question(note.answers))}</span>
                    </button>
                    <p>{drawn} {note.text}</p>
                    <p class="actions">
                        <a class="button" href=href>
                            {tr("note-link")}
                        </a>
                        <Delete act=move |_| desk.change_notes(|notes| { notes.remove(n); }) />
                    </p>
                </li>
            }
        };
        Some(notes.into_iter().zip(letters).enumerate().map(row).collect_view())
    };
    view! {
        <section class="pinned" aria-labelledby="notes-title">
            <h2 id="notes-title">{tr("note-title")}</h2>
            <ol class="note-list">{list}</ol>
            <Field desk answers=Answers::Said id="note" />
            <p role="status" class="quiet">
                {move || {
                    let most = vec![("most", number(NOTES_MOST as f64))];
                    desk.is_full().then(|| say_with(k("note-full"), most))
                }}
            </p>
            <Link desk />
        </section>
    }
}

/// Copies the address of this moment, or shows it where a page may not copy.
#[component]
fn Link(desk: Desk) -> impl IntoView {
    let copied = RwSignal::new(None::<(bool, String)>);
    let copy = move |_| {
        let Some(id) = desk.kept.with_untracked(|kept| kept.as_ref().map(|a| a.id.clone())) else {
            return;
        };
        let route = Route::Replay { id, at: Some(desk.now_untracked()), finding: None };
        let page = location().href().unwrap_or_default();
        let page = page.split('#').next().unwrap_or_default();
        let address = format!("{page}{}", route.href());
        leptos::task::spawn_local(async move {
            let done = canvas::copy(&address).await;
            copied.try_set(Some((done, address)));
        });
    };
    view! {
        <p class="actions">
            <Press name=k("note-copy") id="copy-link" act=copy />
        </p>
        <p role="status" class="quiet copied">
            {move || {
                copied
                    .get()
                    .map(|(done, address)| {
                        view! {
                            {tr(if done { k("note-copied") } else { k("note-not-copied") })}
                            " "
                            <span>{address}</span>
                        }
                    })
            }}
        </p>
    }
}

/// What was noted, for the debrief and for paper; nothing where nothing was. What was drawn beside a note stands beside
/// it on a piece of the plan.
#[component]
pub(crate) fn Noted(
    attempt: Attempt,
    papers: Papers,
    /// As it is printed.
    #[prop(optional)]
    on_paper: bool,
) -> impl IntoView {
    if attempt.notes.is_empty() {
        return None;
    }
    let letters = letters(&attempt.notes);
    let rows = attempt
        .notes
        .iter()
        .zip(letters)
        .map(|(note, letter)| {
            let href =
                Route::Replay { id: attempt.id.clone(), at: Some(note.at), finding: None }.href();
            let (at, words, by) = (note.at, note.text.clone(), note.by.clone());
            let answers = note.answers;
            let drawn = letter.zip(note.mark);
            let head = drawn.clone().map(|(letter, mark)| {
                view! {
                    <span class="letter">{letter}</span>
                    " "
                    {words.is_empty().then_some(move || mark_text(&mark))}
                }
            });
            let piece = move || {
                let (lettered, ground) = (drawn.clone()?, papers.ground.get()?);
                Some(view! {
                    <div class="piece-box" class:ground-plan=!on_paper>
                        <Piece ground path=papers.path.into() lettered />
                    </div>
                })
            };
            view! {
                <li>
                    <div class="said">
                        <a class="look" href=href>
                            <Since ticks=at />
                        </a>
                        " "
                        <strong>{tr(question(answers))}</strong>
                        " "
                        {head}
                        {words}
                        {(!by.is_empty()).then(|| view! { <span class="quiet">" · " {by}</span> })}
                    </div>
                    {piece}
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
