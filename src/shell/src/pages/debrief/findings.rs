//! The findings of a debrief: each fault with what was measured, why it matters, what to do instead, and
//! the rule it comes from, the worst first; and in a line each what went well.

use coneyard_core::finding::{Finding, Severity, Unit};
use coneyard_core::reading::RulesShown;
use coneyard_core::time::TICK_RATE;
use coneyard_core::words::{Units, severity_key};
use leptos::prelude::*;

use crate::parts::finding;
use crate::parts::papers::Papers;
use crate::parts::round::point_name;
use crate::parts::when::iso_length;
use crate::plan::Marker;
use crate::route::Route;
use crate::settings::use_settings;
use crate::words::{
    fine_time_text, k, lang, measured_and_limit, number, say, say_with, source, tell, text, tr,
};

/// A finding with its number on the plan.
pub(crate) type Numbered = (usize, Finding);

/// "Look at it" opens the replay this much before, ticks.
pub(crate) const LEAD_IN: u32 = 2 * TICK_RATE;

/// The way to a finding in the replay; `number` is its number on the plan.
pub(crate) fn look_link(
    id: &str,
    finding: &Finding,
    number: Option<usize>,
) -> impl IntoView + use<> {
    let at = finding.from.saturating_sub(LEAD_IN);
    let href = Route::Replay { id: id.to_owned(), at: Some(at), finding: number }.href();
    let from = finding.from;
    view! {
        <a class="look" href=href>
            <time datetime=iso_length(from)>
                {move || say_with(k("debrief-look"), vec![("at", text(fine_time_text(from)))])}
            </time>
        </a>
    }
}

/// The good deeds: one line each, however often it was.
#[component]
pub(super) fn Good(good: Vec<Numbered>, id: String, papers: Papers) -> impl IntoView {
    if good.is_empty() {
        return view! { <p>{tr("debrief-no-good")}</p> }.into_any();
    }
    let items = by_code(good, |(_, f)| f)
        .into_iter()
        .filter_map(|group| deed(group, &id, papers))
        .collect_view();
    view! { <ul class="deeds">{items}</ul> }.into_any()
}

/// One good deed with all the times that it came up; None for an empty group.
fn deed(group: Vec<Numbered>, id: &str, papers: Papers) -> Option<impl IntoView + use<>> {
    let settings = use_settings();
    let first = group.first()?.1.clone();
    let (code, times) = (first.code.clone(), group.len());
    let looks = group
        .iter()
        .map(|(n, f)| view! { " " {look_link(id, f, papers.as_driven.then_some(*n))} })
        .collect_view();
    // What is about points of the truck names all of them.
    let points: Vec<Finding> =
        group.into_iter().map(|(_, f)| f).filter(|f| f.point.is_some()).collect();
    let names = Memo::new(move |_| point_names(points.iter(), papers));
    let told = Memo::new(move |_| tell(&first, settings.with(|s| s.units)));
    let title = move || {
        let title = text(told.with(|t| t.title.clone()));
        say_with(k("debrief-deed"), vec![("title", title), ("times", number(times as f64))])
    };
    Some(view! {
        <li class="deed" data-code=code>
            <span class="mark good" aria-hidden="true">
                {finding::mark(Severity::Good)}
            </span>
            <strong>{title}</strong>
            <span>
                {move || {
                    let names = names.get();
                    let what = (times == 1).then(|| told.with(|t| t.what.clone()));
                    if names.is_empty() { what } else { Some(format!("{names}.")) }
                }}
            </span>
            <span class="looks">{looks}</span>
        </li>
    })
}

/// Puts findings of the same code together, in the order in which each code first came up: what
/// to do instead is said once.
pub(crate) fn by_code<T>(all: Vec<T>, finding: fn(&T) -> &Finding) -> Vec<Vec<T>> {
    let mut groups: Vec<Vec<T>> = Vec::new();
    for one in all {
        let code = &finding(&one).code;
        match groups.iter_mut().find(|g| g.first().is_some_and(|f| finding(f).code == *code)) {
            Some(group) => group.push(one),
            None => groups.push(vec![one]),
        }
    }
    groups
}

/// The same with the worst first: the gravest, of these what came up most often, then what came up first.
pub(crate) fn worst_first(faults: Vec<Numbered>) -> Vec<Vec<Numbered>> {
    let mut groups = by_code(faults, |(_, f)| f);
    let gravest = |group: &Vec<Numbered>| group.iter().map(|(_, f)| f.severity).max();
    groups.sort_by_key(|g| std::cmp::Reverse((gravest(g), g.len())));
    groups
}

/// What was measured beside its limit, most or least. A count says nothing that the sentence does not, a
/// limit of nothing is none, and a stretch of time to do something in is no limit of what was measured.
pub(crate) fn measured_text(f: &Finding, units: Units) -> Option<String> {
    let is_within = matches!(f.code.as_str(), "no-horn-moving-off" | "wrong-first-reaction")
        && f.measured <= f.limit;
    if f.unit == Unit::Count || is_within {
        return None;
    }
    let [measured, limit] = measured_and_limit(f, units).map(text);
    if f.limit == 0.0 {
        return Some(say_with(k("debrief-measured-alone"), vec![("measured", measured)]));
    }
    let is_least = f.measured < f.limit;
    let key = if is_least { k("debrief-measured-least") } else { k("debrief-measured") };
    Some(say_with(key, vec![("measured", measured), ("limit", limit)]))
}

/// The rule that a finding comes from, and what the site wants said beside it.
pub(crate) fn citation_text(rules: &RulesShown, code: &str) -> Option<String> {
    let rule = rules.citations.get(code)?;
    let note = rule.note(lang().code()).map(|n| format!(" {n}")).unwrap_or_default();
    let cited = text(source(&rule.source));
    Some(format!("{}{note}", say_with(k("debrief-rule"), vec![("rule", cited)])))
}

/// Findings about points of the truck, as grave as each other, are told in one: their names say all.
pub(crate) fn together(group: Vec<Numbered>) -> Vec<Vec<Numbered>> {
    let mut all: Vec<Vec<Numbered>> = Vec::new();
    for one in group {
        let joins = |times: &&mut Vec<Numbered>| {
            let first = times.first().map(|(_, f)| f);
            first.is_some_and(|f| f.point.is_some() && f.severity == one.1.severity)
        };
        match all.iter_mut().find(joins).filter(|_| one.1.point.is_some()) {
            Some(times) => times.push(one),
            None => all.push(vec![one]),
        }
    }
    all
}

/// What was found in a sentence: of points of the truck their names, since the title says what was with them.
pub(crate) fn what_text(times: &[Numbered], papers: Papers, units: Units) -> String {
    let names = point_names(times.iter().map(|(_, f)| f), papers);
    if !names.is_empty() {
        return format!("{names}.");
    }
    times.first().map(|(_, f)| tell(f, units).what).unwrap_or_default()
}

/// The names of the points that findings are about, as soon as the list is read.
fn point_names<'a>(findings: impl Iterator<Item = &'a Finding>, papers: Papers) -> String {
    papers.walk.with(|walk| {
        let names = findings.filter_map(|f| point_name(walk.as_deref(), f));
        names.collect::<Vec<_>>().join(", ")
    })
}

/// One code with every time it came up; None for an empty group.
pub(super) fn fault(
    group: Vec<Numbered>,
    id: &str,
    papers: Papers,
) -> Option<impl IntoView + use<>> {
    let settings = use_settings();
    let gravest = group.iter().map(|(_, f)| f.severity).max()?;
    let first = group.first()?.1.clone();
    let times = group.len();
    let code = first.code.clone();
    let cited = move || papers.rules.with(|rules| citation_text(rules.as_ref()?, &code));
    let told = Memo::new(move |_| tell(&first, settings.with(|s| s.units)));
    let occurrences = together(group)
        .into_iter()
        .filter_map(|times| occurrence(times, id, papers))
        .collect_view();
    Some(view! {
        <div class=format!("fault {}", finding::class(gravest))>
            <h3>
                {move || told.with(|t| t.title.clone())}
                <span class="severity">{move || say(severity_key(gravest))}</span>
                {(times > 1)
                    .then(|| {
                        view! {
                            <span class="severity">
                                {move || {
                                    say_with(k("debrief-times"), vec![("times", number(times as f64))])
                                }}
                            </span>
                        }
                    })}
            </h3>
            <ul class="occurrences">{occurrences}</ul>
            <p>{move || told.with(|t| t.why.clone())}</p>
            <p class="instead">
                <span aria-hidden="true">"→ "</span>
                {move || told.with(|t| t.instead.clone())}
            </p>
            <p class="cite">{cited}</p>
        </div>
    })
}

/// What came up once, or at several points of the truck; None where there is nothing.
fn occurrence(times: Vec<Numbered>, id: &str, papers: Papers) -> Option<impl IntoView + use<>> {
    let settings = use_settings();
    let (number, f) = times.first()?.clone();
    // What is about a point of the truck has no place on the plan.
    let on_plan = f.point.is_none().then_some(number);
    let look = look_link(id, &f, papers.as_driven.then_some(number));
    let (code, severity) = (f.code.clone(), f.severity);
    let words = Memo::new(move |_| {
        let units = settings.with(|s| s.units);
        (measured_text(&f, units), what_text(&times, papers, units))
    });
    Some(view! {
        <li data-code=code>
            <Marker number=on_plan severity />
            <span>
                {move || words.with(|w| w.1.clone())} " "
                {move || {
                    words
                        .with(|w| w.0.clone())
                        .map(|measured| view! { <strong class="measured">{measured} "."</strong> })
                }} " " {look}
            </span>
        </li>
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::test_support::found;
    use crate::words::{Lang, set_lang};

    fn fault(code: &str, severity: Severity, from: u32) -> Numbered {
        (from as usize, found(code, severity, from))
    }

    #[test]
    fn faults_of_one_code_stand_together_in_the_order_of_the_first() {
        let minor = |code, from| fault(code, Severity::Minor, from);
        let groups = by_code(vec![minor("b", 1), minor("a", 2), minor("b", 3)], |(_, f)| f);
        let shape: Vec<(&str, usize)> =
            groups.iter().map(|g| (g[0].1.code.as_str(), g.len())).collect();
        assert_eq!(shape, [("b", 2), ("a", 1)]);
        assert_eq!(groups[0][1].1.from, 3);
    }

    #[test]
    fn what_is_about_points_is_told_in_one_and_what_has_a_place_by_itself() {
        let at = |point, severity, from| {
            let (n, f) = fault("a", severity, from);
            (n, Finding { point, ..f })
        };
        let (minor, major) = (Severity::Minor, Severity::Major);
        let all = vec![
            at(Some(3), minor, 1),
            at(None, minor, 2),
            at(Some(5), major, 3),
            at(Some(4), minor, 4),
            at(None, minor, 5),
        ];
        let numbers: Vec<Vec<usize>> =
            together(all).iter().map(|times| times.iter().map(|(n, _)| *n).collect()).collect();
        assert_eq!(numbers, [vec![1, 4], vec![2], vec![3], vec![5]]);
    }

    #[test]
    fn the_worst_comes_first_however_late_it_was() {
        let all = vec![
            fault("small", Severity::Minor, 1),
            fault("small", Severity::Minor, 2),
            fault("small", Severity::Minor, 3),
            fault("once", Severity::Major, 4),
            fault("twice", Severity::Major, 5),
            fault("twice", Severity::Minor, 6),
            fault("harm", Severity::Critical, 7),
        ];
        let order: Vec<String> =
            worst_first(all).into_iter().map(|g| g[0].1.code.clone()).collect();
        assert_eq!(order, ["harm", "twice", "once", "small"]);
    }

    #[test]
    fn a_least_is_not_called_a_limit_and_time_to_do_it_in_is_neither() {
        let table = coneyard_core::words::shipped("en").unwrap();
        set_lang(Lang::En, table);
        let measured = |code: &str, measured, limit| {
            let (_, f) = fault(code, Severity::Minor, 1);
            measured_text(&Finding { measured, limit, unit: Unit::Second, ..f }, Units::Metric)
        };
        let said = measured("over-speed", 3.0, 2.0).unwrap();
        assert!(said.contains("limit 2"), "{said}");
        let said = measured("not-looked-before-entry", 0.1, 0.25).unwrap();
        assert!(said.contains("at least 0.25"), "{said}");
        assert_eq!(measured("no-horn-moving-off", 0.72, 5.0), None);
        assert!(measured("no-horn-moving-off", 7.0, 5.0).is_some());
    }
}
