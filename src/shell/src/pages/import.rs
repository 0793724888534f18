//! Runs and whole pre-tests that come in as files, one, many, or a folder of them: read at the border,
//! judged, and kept with the others.

use coneyard_core::pretest;
use coneyard_core::reading::{CameIn, Question};
use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::JsFuture;

use crate::browser::new_id;
use crate::canvas;
use crate::reader;
use crate::route::Route;
use crate::route::go;
use crate::store::{Attempt, Place, StoreDesk, Taken, use_store};
use crate::words::{k, number, say, say_with, text, tr};

/// What became of a file.
#[derive(Clone, Debug, PartialEq)]
enum Became {
    /// It was kept, or was there already; the page tells of it.
    Kept(Route),
    Known(Route),
    /// Why it was not taken.
    Refused(String),
}

/// A file by its name, and what became of it.
type Row = (String, Became);

/// How many of them were kept, were there already, and were not taken.
fn counts(rows: &[Row]) -> [usize; 3] {
    let count = |is: fn(&Became) -> bool| rows.iter().filter(|(_, b)| is(b)).count();
    [
        count(|b| matches!(b, Became::Kept(_))),
        count(|b| matches!(b, Became::Known(_))),
        count(|b| matches!(b, Became::Refused(_))),
    ]
}

/// The fields for files.
#[component]
pub(crate) fn Import() -> impl IntoView {
    let store = use_store();
    let working = RwSignal::new(None::<(usize, usize)>);
    let rows = RwSignal::new(Vec::<Row>::new());
    let take = move |ev: leptos::ev::Event| {
        let input = event_target::<web_sys::HtmlInputElement>(&ev);
        let Some(list) = input.files() else { return };
        // A folder has other files too.
        let is_ours = |file: &web_sys::File| list.length() == 1 || file.name().ends_with(".json");
        let files: Vec<_> =
            (0..list.length()).filter_map(|n| list.get(n)).filter(is_ours).collect();
        rows.set(Vec::new());
        leptos::task::spawn_local(async move {
            let count = files.len();
            for (n, file) in files.into_iter().enumerate() {
                if working.try_set(Some((n + 1, count))).is_some() {
                    // The page was left.
                    return;
                }
                // The page shows first how far it is: judging holds it up.
                pause().await;
                let became = taken_in(store, &file).await.unwrap_or_else(Became::Refused);
                match became {
                    Became::Kept(page) | Became::Known(page) if count == 1 => go(&page),
                    became => {
                        rows.try_update(|rows| rows.push((file.name(), became)));
                    }
                }
            }
            working.try_set(None);
            // The same files may be chosen again.
            input.set_value("");
        });
    };
    let progress = move || {
        working.get().map(|(n, count)| {
            let values = vec![("n", number(n as f64)), ("count", number(count as f64))];
            say_with(k("import-judging"), values)
        })
    };
    view! {
        <section class="import" aria-labelledby="import-title">
            <h2 id="import-title">{tr("import-title")}</h2>
            <div class="fields">
                <label class="field">
                    <span>{tr("import-label")}</span>
                    <input type="file" multiple accept=".json,application/json" on:change=take />
                </label>
                <label class="field">
                    <span>{tr("import-folder")}</span>
                    <input type="file" id="import-folder" prop:webkitdirectory=true on:change=take />
                </label>
            </div>
            <div role="status">
                {progress} {move || rows.with(|rows| (!rows.is_empty()).then(|| summary(rows)))}
            </div>
        </section>
    }
}

/// Lets the browser draw.
async fn pause() {
    let drawn = js_sys::Promise::new(&mut |done, _| {
        set_timeout(
            move || {
                let _ = done.call0(&wasm_bindgen::JsValue::NULL);
            },
            std::time::Duration::from_millis(30),
        );
    });
    // It is kept in any case.
    let _ = JsFuture::from(drawn).await;
}

/// How many of what; then each file with its page, or why it was not taken.
fn summary(rows: &[Row]) -> impl IntoView + use<> {
    let refused = |why: &String| say_with(k("import-trouble"), vec![("why", text(why.clone()))]);
    if let [(_, Became::Refused(why))] = rows {
        return view! { <p class="note warn">{refused(why)}</p> }.into_any();
    }
    let [kept, known, not] = counts(rows).map(|n| number(n as f64));
    let items = rows
        .iter()
        .map(|(name, became)| match became {
            Became::Kept(page) | Became::Known(page) => {
                let known = matches!(became, Became::Known(_)).then(|| say(k("import-known")));
                view! {
                    <li>
                        <a href=page.href()>{name.clone()}</a>
                        " "
                        {known}
                    </li>
                }
                .into_any()
            }
            Became::Refused(why) => view! {
                <li>
                    <span aria-hidden="true">"▲ "</span>
                    {name.clone()}
                    ": "
                    {refused(why)}
                </li>
            }
            .into_any(),
        })
        .collect_view();
    view! {
        <p id="import-summary">
            {say_with(k("import-summary"), vec![("kept", kept), ("known", known), ("refused", not)])}
        </p>
        <ul class="plain">{items}</ul>
    }
    .into_any()
}

/// Reads, judges and keeps what came in.
async fn taken_in(store: StoreDesk, file: &web_sys::File) -> Result<Became, String> {
    let name = file.name();
    // Before it is read into memory: no run and no pre-test is as large as this.
    if file.size() > pretest::MAX_BYTES as f64 {
        let bytes = text(format!("{:.0}", file.size()));
        return Err(say_with(k("import-too-large"), vec![("file", text(name)), ("bytes", bytes)]));
    }
    let blob: &web_sys::Blob = file.unchecked_ref();
    let whole = JsFuture::from(blob.text()).await.map_err(canvas::sentence)?;
    let whole = whole.as_string().unwrap_or_default();
    canvas::load().await?;
    let came = Question::CameIn { file: name.clone(), text: whole.clone(), id: new_id() };
    if let CameIn::Sitting(taken, runs) = reader::ask(&came).await? {
        return sitting(store, &name, taken, runs).await;
    }
    run(store, &name, whole).await
}

/// Judges and keeps a run, unless it is here already.
async fn run(store: StoreDesk, name: &str, whole: String) -> Result<Became, String> {
    let attempt = judged(name, &whole)?;
    let known = store
        .attempts
        .with_untracked(|all| all.iter().find(|a| a.is_same_run(&attempt)).map(|a| a.id.clone()));
    if let Some(id) = known {
        return Ok(Became::Known(Route::Debrief(id)));
    }
    let page = Route::Debrief(attempt.id.clone());
    store.keep(attempt, whole).await;
    Ok(Became::Kept(page))
}

/// Takes a run in by its text; the page that tells of it.
///
/// # Errors
/// One sentence when it cannot be read.
pub(crate) async fn take_run(store: StoreDesk, name: &str, whole: String) -> Result<Route, String> {
    canvas::load().await?;
    match run(store, name, whole).await? {
        Became::Kept(page) | Became::Known(page) => Ok(page),
        Became::Refused(why) => Err(why),
    }
}

/// The attempt that a run comes to.
fn judged(name: &str, run: &str) -> Result<Attempt, String> {
    let verdict = canvas::judge(run).map_err(reader::in_english)?;
    let told = canvas::told(name, run).map_err(reader::in_english)?;
    Ok(Attempt::new(new_id(), told, verdict, true))
}

/// Keeps a pre-test with its parts; all of them are judged before the first is kept.
async fn sitting(
    store: StoreDesk,
    name: &str,
    taken: Taken,
    runs: Vec<String>,
) -> Result<Became, String> {
    let mut parts = Vec::new();
    for (part, run) in runs.into_iter().enumerate() {
        let mut attempt = judged(&format!("{name}, part {}", part + 1), &run)?;
        attempt.place = Some(Place { sitting: taken.id.clone(), part });
        parts.push((attempt, run));
    }
    let same = |known: &Taken| {
        let driven = untrack(|| store.driven(&known.id));
        let is_same = |t: &Taken| (t.class_word.clone(), t.seat, t.who.clone(), t.started.clone());
        is_same(known) == is_same(&taken)
            && known.pauses == taken.pauses
            && driven.len() == parts.len()
            && driven.iter().zip(&parts).all(|(a, (b, _))| a.is_same_run(b))
    };
    let known =
        store.sittings.with_untracked(|all| all.iter().find(|t| same(t)).map(|t| t.id.clone()));
    if let Some(id) = known {
        return Ok(Became::Known(Route::Sitting(id)));
    }
    let page = Route::Sitting(taken.id.clone());
    for (attempt, run) in parts {
        store.keep(attempt, run).await;
    }
    store.keep_sitting(taken).await;
    Ok(Became::Kept(page))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn files_are_counted_by_what_became_of_them() {
        let kept = |n: &str| (n.to_owned(), Became::Kept(Route::Debrief(n.to_owned())));
        let rows = [
            kept("a"),
            ("b".to_owned(), Became::Refused("why".to_owned())),
            kept("c"),
            ("d".to_owned(), Became::Known(Route::Path)),
        ];
        assert_eq!(counts(&rows), [2, 1, 1]);
    }
}
