//! The debrief as pages to print: who drove what, the plan with the findings by their numbers,
//! points by skill, each finding with what to do instead, what to practise, the caution, and lines
//! to sign. It is seen on the screen as it comes out on paper.

pub(crate) mod day;
mod facts;
mod findings;
pub(crate) mod rules;
pub(crate) mod sheet;
pub(crate) mod skills;
pub(crate) mod tools;

use coneyard_core::finding::Severity;
use coneyard_core::words::skill_key;
use leptos::prelude::*;

use super::debrief::who_text;
use crate::courses::use_library;
use crate::pages::debrief::JudgedAgain;
use crate::pages::replay::notes::Noted;
use crate::parts::notes::Notes;
use crate::parts::papers::{self, Papers, Phase};
use crate::parts::round::is_practice_walk;
use crate::plan::mark::lettered;
use crate::plan::{Key, Plan, on_the_plan};
use crate::store::{Attempt, use_store};
use crate::words::{k, say, say_with, text, tr};
pub(crate) use facts::rules_text;
use facts::{Facts, Truth};
use findings::{Faults, Good};
use rules::Rules;
use sheet::PageStyle;
use skills::Skills;
use tools::{Signatures, Tools};

/// The debrief of an attempt, for paper.
#[component]
pub(crate) fn Print(id: String) -> impl IntoView {
    let store = use_store();
    let found = Memo::new(move |_| store.attempt(&id));
    move || match (found.get(), store.ready.get()) {
        (Some(attempt), _) => view! { <Whole attempt /> }.into_any(),
        (None, false) => view! { <p role="status">{say(k("debrief-loading"))}</p> }.into_any(),
        (None, true) => view! { <p class="note warn">{say(k("run-not-there"))}</p> }.into_any(),
    }
}

#[component]
fn Whole(attempt: Attempt) -> impl IntoView {
    let papers = papers::of(&attempt);
    let practice = is_practice_walk(&attempt);
    let foot = {
        let attempt = attempt.clone();
        let library = use_library();
        move || format!("{} · {}", who_text(&attempt), library.title(&attempt.course))
    };
    view! {
        <PageStyle foot=Signal::derive(foot) />
        <Tools id=attempt.id.clone() papers says=trouble />
        <article class="sheet">
            <Notes attempt=attempt.clone() />
            <Facts attempt=attempt.clone() papers />
            <JudgedAgain attempt=attempt.clone() papers />
            {(!practice).then(|| view! { <Drawing attempt=attempt.clone() papers /> })}
            <Faults attempt=attempt.clone() papers />
            <Good attempt=attempt.clone() papers />
            <Skills
                skills=attempt.verdict.debrief.skills.clone()
                not_shown=k("debrief-not-shown")
            />
            <Noted attempt=attempt.clone() papers on_paper=true />
            <Practise attempt=attempt.clone() />
            <Rules debrief=attempt.verdict.debrief.clone() papers />
            <Truth attempt />
            <section class="keep">
                <h2>{tr("caution-title")}</h2>
                <p>{tr("caution")}</p>
            </section>
            <Signed />
        </article>
    }
}

/// Why it is not on paper yet.
fn trouble(papers: Papers) -> Option<String> {
    match papers.phase.get() {
        Phase::Working => Some(say(k("print-working"))),
        Phase::Ready => None,
        Phase::Trouble(why) => Some(say_with(k("print-trouble"), vec![("why", text(why))])),
    }
}

/// The plan of the run with its key.
#[component]
fn Drawing(attempt: Attempt, papers: Papers) -> impl IntoView {
    move || {
        let ground = papers.ground.get()?;
        let numbered = on_the_plan(&attempt.verdict.debrief.findings);
        let marks = lettered(&attempt.notes);
        let mut severities: Vec<Severity> = numbered.iter().map(|(_, f)| f.severity).collect();
        severities.sort();
        severities.dedup();
        Some(view! {
            <section class="keep">
                <h2>{tr("print-plan")}</h2>
                <div class="plan-view" tabindex="0" role="region" aria-label=tr("print-plan")>
                    <Plan ground=ground.clone() path=papers.path.into() numbered marks />
                </div>
                <Key ground severities />
            </section>
        })
    }
}

#[component]
fn Practise(attempt: Attempt) -> impl IntoView {
    let practise = attempt.verdict.debrief.practise;
    view! {
        <section class="keep">
            <h2>{tr("print-practise")}</h2>
            <p>
                {move || match practise {
                    Some(skill) => {
                        let skill = text(say(skill_key(skill)));
                        say_with(k("debrief-practise-skill"), vec![("skill", skill)])
                    }
                    None => say(k("debrief-nothing-at-fault")),
                }}
            </p>
        </section>
    }
}

/// Where the drive is signed.
#[component]
pub(crate) fn Signed() -> impl IntoView {
    view! {
        <section class="keep" aria-label=tr("print-signatures")>
            <Signatures lines=vec![k("print-trainee"), k("print-trainer"), k("print-date")] />
        </section>
    }
}
