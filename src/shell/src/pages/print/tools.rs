//! What can be done with a page to print; none of it is on paper.

use leptos::prelude::*;

use crate::parts::papers::{Papers, Phase};
use crate::parts::press::{Choice, Option1, Press};
use crate::route::Route;
use crate::settings::{Paper, use_settings};
use crate::words::{k, tr};

/// What is printed on.
#[component]
pub(crate) fn PaperChoice() -> impl IntoView {
    let settings = use_settings();
    let option = |paper: Paper, name| {
        Option1::new(
            name,
            move || settings.with(|s| s.paper == paper),
            move || settings.update(|s| s.paper = paper),
        )
    };
    let options = vec![option(Paper::A4, k("paper-a4")), option(Paper::Letter, k("paper-letter"))];
    view! { <Choice legend=k("paper-label") group="paper" options /> }
}

/// The button that prints.
#[component]
pub(crate) fn PrintNow(
    /// It cannot be printed yet.
    #[prop(optional, into)]
    disabled: Signal<bool>,
) -> impl IntoView {
    let print = |_| {
        // A browser that cannot print says so itself.
        let _ = window().print();
    };
    view! { <Press name=k("print-now") id="print-now" class="primary" disabled act=print /> }
}

/// Lines for pens, each with what is written there.
#[component]
pub(crate) fn Signatures(
    /// Keys of it.
    lines: Vec<&'static str>,
) -> impl IntoView {
    let line = |name: &'static str| {
        view! {
            <div>
                <span>{tr(name)}</span>
            </div>
        }
    };
    view! { <div class="signatures">{lines.into_iter().map(line).collect_view()}</div> }
}

/// Paper, the button that prints, and the way back.
#[component]
pub(super) fn Tools(
    /// The attempt that it is about.
    id: String,
    /// What is read for it.
    papers: Papers,
    /// What is said as long as there is nothing to print.
    says: fn(Papers) -> Option<String>,
) -> impl IntoView {
    let back = Route::Debrief(id).href();
    let working = Signal::derive(move || papers.phase.with(|p| *p == Phase::Working));
    view! {
        <div class="print-tools no-print">
            <PaperChoice />
            <p class="actions">
                <PrintNow disabled=working />
                <a class="button" href=back>
                    {tr("replay-to-debrief")}
                </a>
            </p>
            <p role="status">{move || says(papers)}</p>
        </div>
    }
}
