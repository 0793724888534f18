//! Walk-rounds over time: what was found of what was there, by what they were for and by defect; sensitivity
//! and criterion as soon as there are enough to tell them.

use coneyard_core::class::detection::{Detection, Estimate};
use coneyard_core::class::walks::{OfDefect, OfMode, WALKS_LEAST, WalkResult, WalksShown};
use coneyard_core::reading::Question;
use leptos::prelude::*;

use crate::canvas::Asked;
use crate::courses::{said, use_library};
use crate::parts::round::mode_key;
use crate::parts::share::{ShareBar, share_text};
use crate::reader;
use crate::store::Attempt;
use crate::words::{k, number, say, say_with, steady_number, text, tr};

/// The walk-rounds of these attempts. A run that does not come out the same again tells nothing; slowed time
/// does, since time is not scored.
fn walks_of(attempts: &[Attempt]) -> Vec<WalkResult> {
    let honest = attempts.iter().filter(|a| a.verdict.reproduces);
    honest.filter_map(|a| a.walk.clone()).collect()
}

/// The section; nothing where none of these attempts began with a walk-round.
#[component]
pub(super) fn Walks(attempts: Memo<Vec<Attempt>>) -> impl IntoView {
    let library = use_library();
    let walks = Memo::new(move |_| attempts.with(|all| walks_of(all)));
    let shown = RwSignal::new(None::<Asked<WalksShown>>);
    Effect::new(move |_| {
        let asked = walks.get();
        let list = library.find(|l| Some(l.checks.clone()));
        let Some(list) = list.filter(|_| !asked.is_empty()) else {
            shown.set(None);
            return;
        };
        leptos::task::spawn_local(async move {
            let answer = reader::ask(&Question::Walks(asked.clone(), list)).await;
            // Another choice may have been made in the meantime, or the page left.
            if walks.try_get_untracked().is_some_and(|now| now == asked) {
                shown.try_set(Some(answer));
            }
        });
    });
    move || {
        let told = match shown.get()? {
            Ok(told) => told,
            Err(why) => return Some(view! { <p class="note warn">{why}</p> }.into_any()),
        };
        let modes = told.modes.into_iter().map(|of| view! { <Mode of /> }).collect_view();
        Some(
            view! {
                <section class="card" aria-labelledby="walks-title">
                    <h2 id="walks-title">{tr("progress-walks")}</h2>
                    <p class="quiet">{tr("progress-walks-more")}</p>
                    {modes}
                    <Defects defects=told.defects />
                </section>
            }
            .into_any(),
        )
    }
}

/// The walk-rounds of one mode.
#[component]
fn Mode(of: OfMode) -> impl IntoView {
    let c = of.counts;
    let rows = [
        (k("progress-walks-hits"), c.hits, c.defects),
        (k("progress-walks-grades"), c.right_grade, c.hits),
        (k("progress-walks-further"), c.further_hits, c.further),
        (k("progress-walks-false"), c.false_reports, c.without),
    ];
    let rows = rows
        .into_iter()
        .filter(|(.., all)| *all > 0)
        .map(|(name, is, all)| {
            let counted = move || {
                say_with(k("progress-walks-of"), vec![("is", number(is)), ("of", number(all))])
            };
            view! {
                <li class="skill sure">
                    <span class="name">{tr(name)}</span>
                    <ShareBar clean=is opportunities=all />
                    <span class="word">
                        <strong>{counted}</strong>
                        " · "
                        {move || share_text(is, all)}
                    </span>
                </li>
            }
        })
        .collect_view();
    let count = move || say_with(k("progress-walks-count"), vec![("count", number(of.walks))]);
    let measured = move || match of.detection {
        Some(is) => detection(is).into_any(),
        None if of.walks < WALKS_LEAST => {
            let values = vec![("least", number(WALKS_LEAST))];
            view! { <p class="quiet">{say_with(k("progress-walks-few"), values)}</p> }.into_any()
        }
        None => view! { <p class="quiet">{say(k("progress-walks-sound"))}</p> }.into_any(),
    };
    view! {
        <h3>{tr(mode_key(of.mode))} " · " {count}</h3>
        <ul class="skills">{rows}</ul>
        {measured}
    }
}

/// "2.1 (1.3 to 2.9)".
fn estimate_text(e: Estimate) -> String {
    let shown = |value| text(steady_number(value, 1));
    let values = vec![("share", shown(e.value)), ("low", shown(e.low)), ("high", shown(e.high))];
    say_with(k("share-interval"), values)
}

fn detection(is: Detection) -> impl IntoView {
    view! {
        <dl class="facts detection">
            <div>
                <dt>{say(k("progress-walks-d"))}</dt>
                <dd>{estimate_text(is.d)}</dd>
            </div>
            <div>
                <dt>{say(k("progress-walks-c"))}</dt>
                <dd>{estimate_text(is.c)}</dd>
            </div>
        </dl>
        <p class="quiet">{say(k("progress-walks-measures"))}</p>
    }
}

/// By defect, how often it was found of how often it was there.
#[component]
fn Defects(defects: Vec<OfDefect>) -> impl IntoView {
    if defects.is_empty() {
        return ().into_any();
    }
    let rows = move || {
        let row = |d: &OfDefect| {
            let name = d.name.as_ref().map_or_else(|| d.id.clone(), said);
            let values = vec![("is", number(d.found)), ("of", number(d.there))];
            view! {
                <tr data-defect=d.id.clone()>
                    <th scope="row">{name}</th>
                    <td class="num">{say_with(k("progress-walks-of"), values)}</td>
                </tr>
            }
        };
        defects.iter().map(row).collect_view()
    };
    view! {
        <details class="by-defect">
            <summary>{tr("progress-walks-defects")}</summary>
            <table>
                <thead>
                    <tr>
                        <th scope="col">{tr("progress-walks-defect")}</th>
                        <th scope="col" class="num">
                            {tr("progress-walks-found")}
                        </th>
                    </tr>
                </thead>
                <tbody>{rows}</tbody>
            </table>
        </details>
    }
    .into_any()
}

#[cfg(test)]
mod tests {
    use coneyard_core::checks::draw;
    use coneyard_core::checks::sheet::Counts;
    use coneyard_core::class::contract::attempt;

    use super::*;

    #[test]
    fn only_runs_that_come_out_the_same_tell_of_walk_rounds_and_slow_ones_do() {
        let walk = |hits| WalkResult {
            mode: draw::Mode::Practice,
            counts: Counts { defects: 2, hits, ..Counts::default() },
            defects: Default::default(),
        };
        let with = |hits| Attempt { walk: Some(walk(hits)), ..attempt("a") };
        let mut odd = with(2);
        odd.verdict.reproduces = false;
        let slow = Attempt { pace: 0.5, ..with(1) };
        assert_eq!(walks_of(&[with(0), odd, attempt("b"), slow]), [walk(0), walk(1)]);
    }
}
