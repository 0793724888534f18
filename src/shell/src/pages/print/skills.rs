//! Points by skill with how often each was shown, and how sure that is.

use coneyard_core::debrief::SkillResult;
use coneyard_core::words::skill_key;
use leptos::prelude::*;

use crate::courses::use_library;
use crate::parts::share::{ShareBar, share_text};
use crate::parts::skillbar::skill_word;
use crate::words::{k, say, say_with, steady_number, text, tr};

/// The table; skills that were not shown are named under it.
#[component]
pub(crate) fn Skills(
    skills: Vec<SkillResult>,
    /// Key of the sentence that names the skills not shown.
    not_shown: &'static str,
) -> impl IntoView {
    let key = not_shown;
    let (shown, unshown): (Vec<_>, Vec<_>) = skills.into_iter().partition(|s| s.points.is_some());
    let any = !shown.is_empty();
    let any_none = shown.iter().any(|s| s.points == Some(0.0));
    let rows = shown.into_iter().map(|result| view! { <Row result /> }).collect_view();
    let not_shown = move || {
        let names: Vec<String> = unshown.iter().map(|s| say(skill_key(s.skill))).collect();
        (!names.is_empty()).then(|| say_with(key, vec![("skills", text(names.join(", ")))]))
    };
    view! {
        <section class="keep">
            <h2>{tr("debrief-skills")}</h2>
            {any
                .then(|| {
                    view! {
                        <table>
                            <thead>
                                <tr>
                                    <th scope="col">{tr("print-skill")}</th>
                                    <th scope="col" class="num">
                                        {tr("print-points")}
                                    </th>
                                    <th scope="col" class="word-cell">
                                        {tr("print-word")}
                                    </th>
                                    <th scope="col">{tr("print-opportunities")}</th>
                                    <th scope="col" colspan="2">
                                        {tr("print-share")}
                                    </th>
                                </tr>
                            </thead>
                            <tbody>{rows}</tbody>
                        </table>
                    }
                })}
            <p class="small">
                {any.then(|| tr("print-share-more"))} " " {any_none.then(|| tr("print-all-points"))} " "
                {not_shown}
            </p>
        </section>
    }
}

#[component]
fn Row(result: SkillResult) -> impl IntoView {
    let library = use_library();
    let (clean, opportunities) = (result.clean, result.opportunities);
    let points = result.points?;
    let skill = result.skill;
    let word = move || library.terms().map(|terms| say(skill_word(&result, points, terms)));
    Some(view! {
        <tr>
            <th scope="row">{tr(skill_key(skill))}</th>
            <td class="num">{move || steady_number(points, 0)}</td>
            <td class="word-cell">{word}</td>
            <td>
                {move || {
                    let count = |n: u32| text(n.to_string());
                    say_with(
                        k("print-clean-of"),
                        vec![("clean", count(clean)), ("opportunities", count(opportunities))],
                    )
                }}
            </td>
            <td>{move || share_text(clean, opportunities)}</td>
            <td class="bar-cell">
                <ShareBar clean opportunities />
            </td>
        </tr>
    })
}
