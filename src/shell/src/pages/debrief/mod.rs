//! The debrief opens with the plan of the drive and the worst that was found; then the other faults, what
//! went well, and points by skill. [`super::print`] has the same for paper.

mod actions;
pub(crate) mod findings;
mod next;
pub(crate) mod own;
mod skills;
mod walk;

use coneyard_core::debrief::{Debrief as Words, Ending};
use coneyard_core::finding::Severity;
use leptos::prelude::*;

use crate::courses::use_library;
use crate::pages::print::rules::changes_text;
use crate::pages::replay::notes::Noted;
use crate::parts::ended::how_it_ended;
use crate::parts::names::truck_name;
use crate::parts::notes::{Notes, verdict_text};
use crate::parts::papers::{self, Papers, Phase};
use crate::parts::round::is_practice_walk;
use crate::parts::skillbar::points_word;
use crate::parts::when::{Length, Moment, date_text};
use crate::plan::mark::lettered;
use crate::plan::{Key, Plan, numbered, on_the_plan};
use crate::settings::use_settings;
use crate::store::{Attempt, use_store};
use crate::words::{changed, k, say, say_with, steady_number, text, tr};
use actions::{Actions, TopActions};
use findings::{Good, fault, worst_first};
use skills::Skills;
use walk::WalkRound;

/// The debrief of an attempt.
#[component]
pub(crate) fn Debrief(id: String) -> impl IntoView {
    let store = use_store();
    let found = Memo::new(move |_| store.attempt(&id));
    // As it is once the rider has said something of it.
    let given = RwSignal::new(None);
    move || match (given.get().or_else(|| found.get()), store.ready.get()) {
        (Some(attempt), _) if own::is_open(&attempt) => {
            let then = Callback::new(move |attempt| given.set(Some(attempt)));
            view! { <own::Before attempt then /> }.into_any()
        }
        (Some(attempt), _) => view! { <Told attempt /> }.into_any(),
        (None, false) => view! { <p role="status">{say(k("debrief-loading"))}</p> }.into_any(),
        (None, true) => view! { <p class="note warn">{say(k("run-not-there"))}</p> }.into_any(),
    }
}

/// Who drove, as shown: the name, or that there is none.
pub(crate) fn who_text(attempt: &Attempt) -> String {
    if attempt.who.is_empty() { say(k("who-nobody")) } else { attempt.who.clone() }
}

/// Course, truck, person, day and length in a line.
#[component]
pub(crate) fn Headline(attempt: Attempt) -> impl IntoView {
    let library = use_library();
    let (started, ticks) = (attempt.started.clone(), attempt.verdict.debrief.ticks);
    let what = move || {
        let title = library.title(&attempt.course);
        format!("{title} · {} · {} · ", truck_name(&attempt.truck), who_text(&attempt))
    };
    view! {
        {what}
        <Moment at=started />
        " · "
        <Length ticks />
    }
}

#[component]
fn Told(attempt: Attempt) -> impl IntoView {
    let papers = papers::of(&attempt);
    let debrief = attempt.verdict.debrief.clone();
    let (good, faults): (Vec<_>, Vec<_>) =
        numbered(&debrief.findings).into_iter().partition(|(_, f)| f.severity == Severity::Good);
    let id = attempt.id.clone();
    // After a practice walk-round what was overlooked comes first; elsewhere the drive does.
    let practice = is_practice_walk(&attempt);
    let mut groups = worst_first(faults).into_iter();
    let worst = groups.next().and_then(|group| fault(group, &id, papers));
    let others = groups
        .filter_map(|group| fault(group, &id, papers))
        .map(|fault| view! { <li>{fault}</li> })
        .collect::<Vec<_>>();
    let worst = match worst {
        Some(worst) => view! {
            <h2 id="worst-title">{tr("debrief-worst")}</h2>
            {worst}
        }
        .into_any(),
        None => view! {
            <h2 id="worst-title">{tr("debrief-faults")}</h2>
            <p>{tr("debrief-no-faults")}</p>
        }
        .into_any(),
    };
    let others = (!others.is_empty()).then(|| {
        view! {
            <section aria-labelledby="faults-title">
                <h2 id="faults-title">{tr("debrief-other-faults")}</h2>
                <ol class="faults">{others}</ol>
            </section>
        }
    });
    view! {
        <p class="lead">
            <Headline attempt=attempt.clone() />
        </p>
        <Notes attempt=attempt.clone() />
        <JudgedAgain attempt=attempt.clone() papers />
        <Total debrief=debrief.clone() />
        <TopActions attempt=attempt.clone() />
        {practice.then(|| view! { <WalkRound id=id.clone() papers /> })}
        <div class:first-look=!practice>
            {(!practice).then(|| view! { <Drawing attempt=attempt.clone() papers /> })}
            <section class="worst" aria-labelledby="worst-title">
                {worst}
            </section>
        </div>
        {others}
        {(!practice).then(|| view! { <WalkRound id=id.clone() papers /> })}
        <Noted attempt=attempt.clone() papers />
        <own::Beside attempt=attempt.clone() />
        <section aria-labelledby="good-title">
            <h2 id="good-title">{tr("debrief-good")}</h2>
            <Good good id=id.clone() papers />
        </section>
        <Skills
            skills=debrief.skills.clone()
            findings=debrief.findings.clone()
            rules=papers.rules
        />
        <ChangedRules debrief papers />
        <Word attempt=attempt.clone() />
        <Actions attempt />
        <p class="quiet caution">
            <strong>{tr("caution-title")}</strong>
            ". "
            {tr("caution")}
        </p>
    }
}

/// The plan of the drive with the places of the findings. Its room is there from the start, so that what
/// stands below does not move when it comes.
#[component]
fn Drawing(attempt: Attempt, papers: Papers) -> impl IntoView {
    let plan = move || {
        let ground = papers.ground.get()?;
        let numbered = on_the_plan(&attempt.verdict.debrief.findings);
        let marks = lettered(&attempt.notes);
        let mut severities: Vec<Severity> = numbered.iter().map(|(_, f)| f.severity).collect();
        severities.sort();
        severities.dedup();
        Some(view! {
            <Plan ground=ground.clone() path=papers.path.into() numbered marks />
            <details>
                <summary>{tr("debrief-plan-key")}</summary>
                <Key ground severities />
            </details>
        })
    };
    let state = move || match papers.phase.get() {
        Phase::Working => Some(say(k("print-working"))),
        Phase::Ready => None,
        Phase::Trouble(why) => Some(say_with(k("debrief-plan-trouble"), vec![("why", text(why))])),
    };
    view! {
        <section class="ground-plan" aria-label=tr("print-plan")>
            {plan} <p class="quiet" role="status">
                {state}
            </p>
        </section>
    }
}

#[component]
fn Total(debrief: Words) -> impl IntoView {
    let library = use_library();
    let done = debrief.ending == Ending::Done;
    move || {
        let total = debrief.total.map(|p| {
            // Points of a part say little of the whole: no word of praise for it.
            let terms = library.terms().filter(|_| done);
            let word = terms.map(|terms| say(points_word(p, terms)));
            view! {
                <p class="total">
                    <span class="big">{steady_number(p, 0)}</span>
                    <span>{say(k("debrief-of-hundred"))}</span>
                    <strong>{word}</strong>
                </p>
            }
        });
        let how = how_it_ended(&debrief);
        view! {
            <section class="verdict" aria-label=say(k("debrief-total"))>
                {total} <p class="ending">{how}</p>
            </section>
        }
    }
}

/// That it was judged again by other rules than those it was driven under, and what was said by those.
#[component]
pub(crate) fn JudgedAgain(attempt: Attempt, papers: Papers) -> impl IntoView {
    let again = attempt.judged_again?;
    let said = move || {
        let points = match again.first.total {
            Some(points) => {
                let points = text(steady_number(points, 0));
                say_with(k("debrief-judged-points"), vec![("points", points)])
            }
            None => say(k("debrief-judged-no-points")),
        };
        let site = papers.rules.with(|rules| rules.as_ref()?.site.clone());
        let rules = match site {
            Some(site) => say_with(k("debrief-judged-site"), vec![("site", text(site))]),
            None => say(k("debrief-judged-unnamed")),
        };
        let values = vec![
            ("day", text(date_text(&again.at))),
            ("rules", text(rules)),
            ("points", text(points)),
        ];
        say_with(k("debrief-judged-again"), values)
    };
    Some(view! { <p class="note" id="judged-again">{said}</p> })
}

/// Rules that this site changed from the defaults, with what is otherwise: a result is read by them.
#[component]
fn ChangedRules(debrief: Words, papers: Papers) -> impl IntoView {
    let settings = use_settings();
    move || {
        if debrief.changed_rules.is_empty() {
            return None;
        }
        let units = settings.with(|s| s.units);
        let items = debrief
            .changed_rules
            .iter()
            .map(|code| {
                let values = changes_text(papers, code, units);
                let values = (!values.is_empty()).then(|| format!(": {values}"));
                view! {
                    <li>
                        {changed(code)} <span class="quiet">{values}</span>
                    </li>
                }
            })
            .collect_view();
        Some(view! {
            <section class="note" id="changed-rules">
                <p>{say(k("debrief-changed-rules"))}</p>
                <ul class="plain">{items}</ul>
            </section>
        })
    }
}

/// Whether the run is what it says it is.
#[component]
fn Word(attempt: Attempt) -> impl IntoView {
    move || {
        let reproduces = attempt.verdict.reproduces;
        let said = verdict_text(&attempt);
        let digest: String = attempt.verdict.final_digest.chars().take(16).collect();
        view! {
            <section class="truth" class:bad=!reproduces>
                <h2>{say(k("verdict-title"))}</h2>
                <p>
                    <span class="mark" aria-hidden="true">
                        {if reproduces { "✓" } else { "▲" }}
                    </span>
                    " "
                    {said}
                    " "
                    <span class="quiet">
                        {say_with(k("verdict-digest"), vec![("digest", text(digest))])}
                    </span>
                </p>
            </section>
        }
    }
}
