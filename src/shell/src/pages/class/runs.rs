//! Runs that have arrived, as a table.

use leptos::prelude::*;
use serde::Deserialize;

use crate::courses::use_library;
use crate::host::get;
use crate::parts::names::truck_name;
use crate::parts::press::Press;
use crate::parts::when::Moment;
use crate::route::Route;
use crate::words::{k, say, steady_number, tr};

/// How far a run has come.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(super) enum State {
    Waiting,
    Judged,
    Differs,
    Unreadable,
}

impl State {
    fn word(self) -> &'static str {
        match self {
            Self::Waiting => k("run-waiting"),
            Self::Judged => k("run-judged"),
            Self::Differs => k("run-differs"),
            Self::Unreadable => k("run-unreadable"),
        }
    }
}

/// A run as the host lists it.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub(super) struct Run {
    pub(super) run: String,
    pub(super) person: String,
    pub(super) name: String,
    pub(super) course: String,
    pub(super) truck: String,
    pub(super) started: String,
    pub(super) arrived: String,
    pub(super) state: State,
    pub(super) total: Option<f64>,
    pub(super) findings: u32,
    pub(super) critical: u32,
}

/// All that whoever asks may see, or so many of the newest; newest first.
///
/// # Errors
/// A sentence when they cannot be had.
pub(super) async fn fetch(newest: Option<u32>) -> Result<Vec<Run>, String> {
    let path = newest.map_or_else(|| "runs".to_owned(), |newest| format!("runs?newest={newest}"));
    let mut runs: Vec<Run> = get(&path).await.map_err(crate::host::Trouble::sentence)?;
    runs.sort_by(|a, b| b.arrived.cmp(&a.arrived));
    Ok(runs)
}

/// The table; with names for who sees others'.
#[component]
pub(super) fn Runs(
    runs: RwSignal<Option<Result<Vec<Run>, String>>>,
    names: bool,
    /// How many there are that were driven again, where not all are listed.
    #[prop(optional, into)]
    all: Signal<usize>,
    /// Lists older ones too.
    #[prop(optional, into)]
    older: Option<Callback<()>>,
) -> impl IntoView {
    let library = use_library();
    let row = move |run: Run| {
        let href = Route::ClassRun(run.run.clone()).href();
        let number = |count: u32| if count == 0 { "0".to_owned() } else { format!("▲ {count}") };
        view! {
            <tr data-run=run.run.clone() data-state=format!("{:?}", run.state).to_lowercase()>
                <th scope="row">
                    <a href=href>
                        <Moment at=run.started.clone() />
                    </a>
                </th>
                {names.then(|| view! { <td>{run.name.clone()}</td> })}
                <td>{library.title(&run.course)} " · " {truck_name(&run.truck)}</td>
                <td>{say(run.state.word())}</td>
                <td class="num">{run.total.map(|total| steady_number(total, 0))}</td>
                <td class="num">{run.findings.to_string()}</td>
                <td class="num">{number(run.critical)}</td>
            </tr>
        }
    };
    let body = move || match runs.get() {
        None => view! { <p role="status">{say(k("class-loading"))}</p> }.into_any(),
        Some(Err(why)) => view! {
            <p class="note warn" role="alert">
                {why}
            </p>
        }
        .into_any(),
        Some(Ok(all)) if all.is_empty() => view! { <p>{say(k("class-no-runs"))}</p> }.into_any(),
        Some(Ok(all)) => {
            let rows = all.into_iter().map(row).collect_view();
            view! {
                <div class="table-wrap" tabindex="0" role="region" aria-label=tr("class-runs")>
                    <table id="class-runs">
                        <caption>{tr("class-runs")}</caption>
                        <thead>
                            <tr>
                                <th scope="col">{tr("progress-when")}</th>
                                {names.then(|| view! { <th scope="col">{tr("class-person")}</th> })}
                                <th scope="col">{tr("progress-exercise")}</th>
                                <th scope="col">{tr("class-state")}</th>
                                <th scope="col" class="num">
                                    {tr("progress-total")}
                                </th>
                                <th scope="col" class="num">
                                    {tr("class-findings")}
                                </th>
                                <th scope="col" class="num">
                                    {tr("class-critical")}
                                </th>
                            </tr>
                        </thead>
                        <tbody>{rows}</tbody>
                    </table>
                </div>
            }
            .into_any()
        }
    };
    let is_more = move || {
        let listed = runs.with(|r| r.as_ref().and_then(|r| r.as_ref().ok()).map_or(0, Vec::len));
        all.get() > listed
    };
    let more = older.map(|older| {
        view! {
            <Show when=is_more>
                <p class="actions">
                    <Press name=k("class-older") id="older-runs" act=move |_| older.run(()) />
                </p>
            </Show>
        }
    });
    view! { <section>{body} {more}</section> }
}
