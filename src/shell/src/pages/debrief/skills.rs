//! Points by skill: a bar, the number, a word, and what took points.

use std::collections::BTreeMap;

use coneyard_core::debrief::SkillResult;
use coneyard_core::finding::{Finding, Severity, Skill};
use coneyard_core::reading::{RulesShown, Terms};
use coneyard_core::words::{severity_key, skill_key};
use leptos::prelude::*;

use crate::courses::use_library;
use crate::parts::skillbar::skill_word;
use crate::words::{k, number, say, say_with, steady_number, text, tr};

/// What was found at fault, by skill: code, how grave at the most, and how often. Empty as long as the rules
/// that tell whose points it takes are on their way.
type Taken = BTreeMap<Skill, Vec<(String, Severity, usize)>>;

fn taken(findings: &[Finding], rules: &RulesShown) -> Taken {
    let mut all = Taken::new();
    for f in findings.iter().filter(|f| f.severity != Severity::Good) {
        let Some(skill) = rules.citations.get(&f.code).and_then(|c| c.skill) else { continue };
        let of_skill = all.entry(skill).or_default();
        match of_skill.iter_mut().find(|(code, ..)| *code == f.code) {
            Some((_, gravest, times)) => {
                *gravest = f.severity.max(*gravest);
                *times += 1;
            }
            None => of_skill.push((f.code.clone(), f.severity, 1)),
        }
    }
    all
}

/// How the bar is drawn.
fn class(word: &str) -> &'static str {
    match word {
        "points-well" => "well",
        "points-enough" => "enough",
        _ => "practise",
    }
}

/// All skills; those that were not shown are named under them.
#[component]
pub(super) fn Skills(
    skills: Vec<SkillResult>,
    findings: Vec<Finding>,
    rules: RwSignal<Option<RulesShown>>,
) -> impl IntoView {
    let library = use_library();
    let took = Memo::new(move |_| {
        rules.with(|rules| rules.as_ref().map(|r| taken(&findings, r)).unwrap_or_default())
    });
    let (shown, unshown): (Vec<_>, Vec<_>) = skills.into_iter().partition(|s| s.points.is_some());
    let rows = move || {
        let terms = library.terms();
        shown.iter().filter_map(|result| row(result, terms, took)).collect_view()
    };
    let not_shown = move || {
        let names: Vec<String> = unshown.iter().map(|s| say(skill_key(s.skill))).collect();
        (!names.is_empty())
            .then(|| say_with(k("debrief-not-shown"), vec![("skills", text(names.join(", ")))]))
    };
    view! {
        <section aria-labelledby="skills-title">
            <h2 id="skills-title">{tr("debrief-skills")}</h2>
            <ul class="skills">{rows}</ul>
            <p class="quiet">{not_shown}</p>
        </section>
    }
}

fn row(
    result: &SkillResult,
    terms: Option<Terms>,
    took: Memo<Taken>,
) -> Option<impl IntoView + use<>> {
    let points = result.points?;
    let skill = result.skill;
    let (clean, of) = (number(result.clean), number(result.opportunities));
    let word = terms.map(|terms| skill_word(result, points, terms));
    let fill = format!("fill {}", word.map_or("", class));
    // What took points says more than how often nothing did.
    let why = move || {
        let of_skill = took.with(|took| took.get(&skill).cloned().unwrap_or_default());
        if of_skill.is_empty() {
            let values = vec![("clean", clean.clone()), ("opportunities", of.clone())];
            return say_with(k("debrief-clean-of"), values);
        }
        let said = |(code, severity, times): (String, Severity, usize)| {
            let values = vec![
                ("title", text(say(&code))),
                ("severity", text(say(severity_key(severity)))),
                ("times", number(times as f64)),
            ];
            say_with(k("debrief-took"), values)
        };
        of_skill.into_iter().map(said).collect::<Vec<_>>().join("; ")
    };
    Some(view! {
        <li class="skill">
            <span class="name">{tr(skill_key(skill))}</span>
            <span class="points">{move || steady_number(points, 0)}</span>
            <span class="bar" aria-hidden="true">
                <span class=fill style:width=format!("{points:.0}%")></span>
            </span>
            <span class="word">
                <strong>{word.map(say)}</strong>
                " · "
                {why}
            </span>
        </li>
    })
}

#[cfg(test)]
mod tests {
    use coneyard_core::reading::Citation;

    use super::*;
    use crate::test_support::found;

    #[test]
    fn what_took_points_is_told_once_by_skill_and_as_grave_as_it_ever_was() {
        let cited = |skill| Citation {
            source: String::new(),
            note: None,
            said: Default::default(),
            skill: Some(skill),
        };
        let rules = RulesShown {
            site: None,
            citations: [
                ("a".to_owned(), cited(Skill::Steering)),
                ("good".to_owned(), Citation { skill: None, ..cited(Skill::Steering) }),
            ]
            .into(),
            changes: BTreeMap::new(),
        };
        let findings = [
            found("a", Severity::Minor, 1),
            found("good", Severity::Good, 1),
            found("a", Severity::Critical, 1),
            found("unknown", Severity::Major, 1),
        ];
        let expected = [(Skill::Steering, vec![("a".to_owned(), Severity::Critical, 2)])];
        assert_eq!(taken(&findings, &rules), Taken::from(expected));
    }
}
