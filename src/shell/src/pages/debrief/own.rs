//! What somebody says of their own drive before its debrief opens, in a tap for each question; and afterwards what was
//! said beside what was found. Nobody has to: one press opens the debrief.

use coneyard_core::class::own::{Asked, Compared, Own, Word, asked_of, compared};
use leptos::prelude::*;

use crate::parts::noticed::question;
use crate::parts::press::{Choice, Option1, Press};
use crate::store::{Attempt, use_store};
use crate::words::{k, number, say, say_with, tr};

fn group(asked: Asked) -> &'static str {
    match asked {
        Asked::People => "own-of-people",
        Asked::Looking => "own-of-looking",
        Asked::Stopping => "own-of-stopping",
        Asked::Tidy => "own-of-tidy",
    }
}

/// The rider has been asked and has not answered: the debrief stays closed.
pub(super) fn is_open(attempt: &Attempt) -> bool {
    attempt.own.as_ref().is_some_and(|own| !own.closed)
}

/// The questions. `then` is called with the attempt as it is kept when the debrief may open.
#[component]
pub(super) fn Before(attempt: Attempt, #[prop(into)] then: Callback<Attempt>) -> impl IntoView {
    let store = use_store();
    let own = RwSignal::new(Own::default());
    let questions = asked_of(&attempt.verdict.debrief);
    let count = questions.len();
    let left = Memo::new(move |_| count.saturating_sub(own.with(|o| o.fine.len())));
    let close = move |said: Own| {
        let attempt = Attempt { own: Some(Own { closed: true, ..said }), ..attempt.clone() };
        leptos::task::spawn_local(store.learn(attempt.clone()));
        then.run(attempt);
    };
    let skip = close.clone();
    let rows = questions
        .into_iter()
        .map(|asked| {
            let is = move |fine: bool| own.with(|o| o.fine.get(&asked) == Some(&fine));
            let set = move |fine: bool| {
                own.update(|o| {
                    o.fine.insert(asked, fine);
                });
            };
            let options = vec![
                Option1::new(k("own-fine"), move || is(true), move || set(true)),
                Option1::new(k("own-wrong"), move || is(false), move || set(false)),
            ];
            view! {
                <li>
                    <Choice legend=question(asked) group=group(asked) options />
                </li>
            }
        })
        .collect_view();
    view! {
        <section class="own-before" aria-labelledby="own-title">
            <h2 id="own-title">{tr("own-title")}</h2>
            <p>{tr("own-more")}</p>
            <ul class="own-questions">{rows}</ul>
            <p class="actions">
                <Press
                    name=k("own-open")
                    id="own-open"
                    class="primary"
                    disabled=Signal::derive(move || left.get() > 0)
                    act=move |_| close(own.get_untracked())
                />
                <Press name=k("own-skip") id="own-skip" act=move |_| skip(Own::default()) />
            </p>
        </section>
    }
}

fn word(word: Option<Word>) -> &'static str {
    match word {
        None => k("own-word-none"),
        Some(Word::Fine) => k("own-word-fine"),
        Some(Word::Noticed) => k("own-word-noticed"),
        Some(Word::Missed) => k("own-word-missed"),
        Some(Word::TooHard) => k("own-word-too-hard"),
    }
}

/// Both answers beside each other; nothing where nothing was said.
#[component]
pub(super) fn Beside(attempt: Attempt) -> impl IntoView {
    let own = attempt.own.clone().filter(|own| !own.fine.is_empty())?;
    let rows = compared(&own, &attempt.verdict.debrief)
        .into_iter()
        .map(|Compared { asked, found, word: said, .. }| {
            let fine = own.fine.get(&asked).copied();
            let yours = move || match fine {
                Some(true) => say(k("own-fine")),
                Some(false) => say(k("own-wrong")),
                None => "–".to_owned(),
            };
            let found = move || say_with(k("own-found"), vec![("count", number(found as f64))]);
            let class = if said == Some(Word::Missed) { "missed" } else { "" };
            view! {
                <tr class=class>
                    <th scope="row">{tr(question(asked))}</th>
                    <td>{yours}</td>
                    <td>{found}</td>
                    <td>{tr(word(said))}</td>
                </tr>
            }
        })
        .collect_view();
    Some(view! {
        <section aria-labelledby="own-beside-title">
            <h2 id="own-beside-title">{tr("own-beside-title")}</h2>
            <div class="table-wrap" tabindex="0" role="region" aria-label=tr("own-beside-title")>
                <table id="own-beside">
                    <thead>
                        <tr>
                            <th scope="col">{tr("own-question")}</th>
                            <th scope="col">{tr("own-said")}</th>
                            <th scope="col">{tr("own-was-found")}</th>
                            <th scope="col">{tr("own-word")}</th>
                        </tr>
                    </thead>
                    <tbody>{rows}</tbody>
                </table>
            </div>
        </section>
    })
}
