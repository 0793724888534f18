//! The sections of the result: facts, the joined judgement with its reasons, and each part with
//! its findings.

use std::collections::BTreeSet;

use coneyard_core::finding::{Finding, Severity};
use coneyard_core::pretest::{Outcome, count};
use coneyard_core::reading::SittingShown;
use coneyard_core::words::pretest::{Because, MISSING, outcome_key};
use coneyard_core::words::{severity_key, skill_key};
use leptos::prelude::*;

use super::parts::{part_title, slow_text};
use super::who_text;
use crate::courses::use_library;
use crate::pages::debrief::findings::{by_code, look_link, measured_text, together};
use crate::pages::print::rules_text;
use crate::parts::finding;
use crate::parts::names::{ending_word, truck_name};
use crate::parts::when::{Length, Moment, iso_length, length_text};
use crate::route::Route;
use crate::settings::use_settings;
use crate::store::{Attempt, Taken};
use crate::words::{changed, k, number, reason, say, say_with, steady_number, tell, text, tr};

/// Who took it, where and when, by whose rules.
#[component]
pub(super) fn Facts(taken: Taken, driven: Vec<Attempt>, shown: SittingShown) -> impl IntoView {
    let site = shown.site;
    let started = taken.started.clone();
    let (class, seat) = (taken.class_word.clone(), taken.seat.to_string());
    let pauses = taken.pauses.to_string();
    let truck = taken.truck.clone();
    let changed = driven.iter().any(|a| !a.verdict.debrief.changed_rules.is_empty());
    let ticks = shown.ticks;
    let so_far = format!("{} / {}", driven.len(), count());
    view! {
        <dl class="facts">
            <div>
                <dt>{tr("print-trainee")}</dt>
                <dd>{move || who_text(&taken)}</dd>
            </div>
            <div>
                <dt>{tr("pretest-class-word")}</dt>
                <dd>{class}</dd>
            </div>
            <div>
                <dt>{tr("pretest-seat")}</dt>
                <dd>{seat}</dd>
            </div>
            {(!started.is_empty())
                .then(|| {
                    view! {
                        <div>
                            <dt>{tr("pretest-begun")}</dt>
                            <dd>
                                <Moment at=started />
                            </dd>
                        </div>
                    }
                })}
            <div>
                <dt>{tr("pretest-duration")}</dt>
                <dd>
                    <time datetime=iso_length(ticks)>{move || length_text(ticks)}</time>
                </dd>
            </div>
            <div>
                <dt>{tr("pretest-parts-driven")}</dt>
                <dd>{so_far}</dd>
            </div>
            <div>
                <dt>{tr("pretest-pauses-taken")}</dt>
                <dd>{pauses}</dd>
            </div>
            <div>
                <dt>{tr("print-truck")}</dt>
                <dd>{move || truck_name(&truck)}</dd>
            </div>
            <div>
                <dt>{tr("print-rules")}</dt>
                <dd>
                    {move || rules_text(site.as_deref(), changed)}
                </dd>
            </div>
        </dl>
    }
}

/// The reasons in words; parts that are left are only counted when they are many.
fn told(reasons: &[Because]) -> Vec<String> {
    let is_missing = |r: &&Because| r.key == MISSING;
    let missing = reasons.iter().filter(is_missing).count();
    let single = reasons.iter().filter(|r| missing < 2 || !is_missing(r)).map(reason);
    let many = (missing > 1)
        .then(|| say_with(k("pretest-missing"), vec![("parts", number(missing as f64))]));
    single.chain(many).collect()
}

/// How it came out, in points and in words, and why.
#[component]
pub(super) fn Verdict(taken: Taken, driven: Vec<Attempt>, shown: SittingShown) -> impl IntoView {
    let outcome = shown.result;
    let mark = match outcome {
        Outcome::Passed => "✓",
        Outcome::NotPassed => "▲",
        Outcome::Incomplete => "○",
    };
    let total = shown.total;
    let points = move || {
        total.map(|points| {
            format!(" · {} {}", steady_number(points, 1), say(k("debrief-of-hundred")))
        })
    };
    let reasons = move || {
        let items = told(&shown.reasons).into_iter().map(|r| view! { <li>{r}</li> }).collect_view();
        (!shown.reasons.is_empty()).then(|| view! { <ul class="changes reasons">{items}</ul> })
    };
    let forged: Vec<usize> =
        (0..driven.len()).filter(|n| !driven[*n].verdict.reproduces).map(|n| n + 1).collect();
    let forged = move || {
        let parts = forged.iter().map(usize::to_string).collect::<Vec<_>>().join(", ");
        (!forged.is_empty()).then(|| {
            view! {
                <p class="forged">
                    <strong>
                        "▲ " {say_with(k("pretest-differs"), vec![("parts", text(parts))])}
                    </strong>
                </p>
            }
        })
    };
    let rules: BTreeSet<String> =
        driven.iter().flat_map(|a| a.verdict.debrief.changed_rules.clone()).collect();
    let rules = move || {
        let names = rules.iter().map(|what| changed(what)).collect::<Vec<_>>().join(", ");
        (!rules.is_empty()).then(|| {
            view! { <p class="small">{say(k("print-rules-changed"))} ": " {names} "."</p> }
        })
    };
    view! {
        <section class="keep verdict-joined" data-result=format!("{outcome:?}")>
            <h2>{tr("debrief-total")}</h2>
            <p>
                <strong class="outcome">
                    <span aria-hidden="true">{mark} " "</span>
                    {tr(outcome_key(outcome))}
                </strong>
                {points}
            </p>
            {taken.given_up.then(|| view! { <p>{tr("pretest-was-given-up")}</p> })}
            {forged}
            {reasons}
            {rules}
        </section>
    }
}

/// What most needs practice.
#[component]
pub(super) fn Practise(shown: SittingShown) -> impl IntoView {
    let skill = shown.practise?;
    Some(view! {
        <section class="keep">
            <h2>{tr("print-practise")}</h2>
            <p>
                {move || {
                    let skill = text(say(skill_key(skill)));
                    say_with(k("debrief-practise-skill"), vec![("skill", skill)])
                }}
            </p>
        </section>
    })
}

/// Each part with its faults.
#[component]
pub(super) fn Parts(
    truck: String,
    driven: Vec<Attempt>,
    /// The least share of the time on the wall that a computer may simulate.
    least: f64,
) -> impl IntoView {
    let library = use_library();
    let rows = (0..count())
        .map(|n| {
            let (attempt, truck) = (driven.get(n).cloned(), truck.clone());
            view! {
                <li class="found">
                    <h3>{format!("{}. ", n + 1)} {move || part_title(library, n, &truck)}</h3>
                    {match attempt {
                        Some(attempt) => view! { <Driven attempt least /> }.into_any(),
                        None => view! { <p>{tr("pretest-part-not-driven")}</p> }.into_any(),
                    }}
                </li>
            }
        })
        .collect_view();
    view! {
        <section>
            <h2>{tr("pretest-parts")}</h2>
            <ol class="driven-parts">{rows}</ol>
        </section>
    }
}

#[component]
fn Driven(attempt: Attempt, least: f64) -> impl IntoView {
    let debrief = attempt.verdict.debrief.clone();
    let (ticks, ending) = (debrief.ticks, debrief.ending);
    let href = Route::Debrief(attempt.id.clone()).href();
    let (good, faults): (Vec<_>, Vec<_>) =
        debrief.findings.into_iter().partition(|f| f.severity == Severity::Good);
    let good = good.len();
    let clean = faults.is_empty();
    let id = attempt.id.clone();
    // What is about many points of the truck is told once: which ones the part's own debrief names.
    let faults = by_code(faults, |f| f)
        .into_iter()
        .flat_map(|group| together(group.into_iter().map(|f| (0, f)).collect()))
        .filter_map(|group| {
            let (times, (_, f)) = (group.len(), group.into_iter().next()?);
            Some(view! { <Fault f times id=id.clone() /> })
        })
        .collect_view();
    view! {
        <p>
            {move || say(ending_word(ending))} " · " <Length ticks />
            {move || slow_text(&attempt, least).map(|slow| format!(" · ▲ {slow}"))}
            " · "
            {move || say_with(k("pretest-good-deeds"), vec![("count", number(good as f64))])}
            <a class="look" href=href>
                {tr("pretest-part-debrief")}
            </a>
        </p>
        {if clean {
            view! { <p>{tr("debrief-no-faults")}</p> }.into_any()
        } else {
            view! { <ul class="part-faults">{faults}</ul> }.into_any()
        }}
    }
}

/// One finding: how grave, what happened, measured against allowed, and the way to it.
#[component]
fn Fault(f: Finding, times: usize, id: String) -> impl IntoView {
    let settings = use_settings();
    let look = look_link(&id, &f, None);
    let severity = f.severity;
    let code = f.code.clone();
    let words = Memo::new(move |_| {
        let units = settings.with(|s| s.units);
        (tell(&f, units).title, tell(&f, units).what, measured_text(&f, units))
    });
    view! {
        <li data-code=code>
            <span aria-hidden="true">{finding::mark(severity)} " "</span>
            <strong>{move || words.with(|w| w.0.clone())}</strong>
            {move || {
                let said = || say_with(k("debrief-times"), vec![("times", number(times as f64))]);
                (times > 1).then(|| format!(", {}", said()))
            }}
            " ("
            {move || say(severity_key(severity))}
            "). "
            {move || words.with(|w| w.1.clone())}
            {move || words.with(|w| w.2.clone()).map(|measured| format!(" {measured}."))}
            " "
            {look}
        </li>
    }
}
