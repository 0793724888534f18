//! What a pre-test came to, on the screen as it is printed.

use coneyard_core::class::is_open;
use coneyard_core::reading::{Question, SittingShown};
use leptos::prelude::*;

use super::actions::{Forget, Save};
use super::{KeepTrouble, part_text, sheet, who_text};
use crate::canvas::Asked;
use crate::pages::print::Signed;
use crate::pages::print::sheet::PageStyle;
use crate::pages::print::skills::Skills;
use crate::pages::print::tools::{PaperChoice, PrintNow};
use crate::reader;
use crate::route::Route;
use crate::store::{Attempt, Taken};
use crate::words::{k, say, say_with, text, tr};

/// The page.
#[component]
pub(super) fn Result(taken: Taken, driven: Vec<Attempt>) -> impl IntoView {
    let foot = {
        let taken = taken.clone();
        Signal::derive(move || format!("{} · {}", say(k("pretest-title")), who_text(&taken)))
    };
    let shown = RwSignal::new(None::<Asked<SittingShown>>);
    let asked = Question::Sitting(taken.clone(), driven.clone());
    leptos::task::spawn_local(async move {
        shown.try_set(Some(reader::ask(&asked).await));
    });
    let sheet = {
        let (taken, driven) = (taken.clone(), driven.clone());
        move || match shown.get() {
            None => view! { <p role="status">{say(k("debrief-loading"))}</p> }.into_any(),
            Some(Ok(shown)) => {
                view! { <Whole taken=taken.clone() driven=driven.clone() shown /> }.into_any()
            }
            Some(Err(why)) => {
                let said = say_with(k("pretest-result-trouble"), vec![("why", text(why))]);
                view! { <p class="note warn">{said}</p> }.into_any()
            }
        }
    };
    view! {
        <PageStyle foot />
        <KeepTrouble />
        <Tools taken driven />
        {sheet}
    }
}

/// What can be done here; none of it is on paper.
#[component]
fn Tools(taken: Taken, driven: Vec<Attempt>) -> impl IntoView {
    // A file that came in may have been saved on the way; it goes on here.
    let open = is_open(&taken, driven.len());
    let next = driven.len();
    let go_on = Route::Part { sitting: taken.id.clone(), part: next }.href();
    let id = taken.id.clone();
    view! {
        <div class="print-tools no-print">
            <PaperChoice />
            <div class="actions">
                <PrintNow />
                <Save taken driven />
                {open
                    .then(|| {
                        view! {
                            <a class="button" id="next-part" href=go_on>
                                {tr("pretest-go-on")}
                                " · "
                                {move || part_text(next)}
                            </a>
                        }
                    })}
                <a class="button" href=Route::PreTest.href()>
                    {tr("pretest-to")}
                </a>
                <Forget id />
            </div>
        </div>
    }
}

#[component]
fn Whole(taken: Taken, driven: Vec<Attempt>, shown: SittingShown) -> impl IntoView {
    let least = shown.time_ratio_least;
    view! {
        <article class="sheet sitting">
            <sheet::Facts taken=taken.clone() driven=driven.clone() shown=shown.clone() />
            <sheet::Verdict taken=taken.clone() driven=driven.clone() shown=shown.clone() />
            <Skills skills=shown.skills.clone() not_shown=k("pretest-not-shown") />
            <sheet::Practise shown />
            <sheet::Parts truck=taken.truck.clone() driven least />
            <section class="keep">
                <h2>{tr("caution-title")}</h2>
                <p>{tr("pretest-certifies-nobody")} " " {tr("caution")}</p>
            </section>
            <Signed />
        </article>
    }
}
