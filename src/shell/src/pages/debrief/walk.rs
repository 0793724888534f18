//! What a walk-round came to: whether the truck was rightly taken or tagged out, what was the matter with it
//! beside how it looks when nothing is, what was answered, and what was made up or left out.

use std::sync::Arc;

use coneyard_core::checks::list::Defect;
use coneyard_core::checks::sheet::{Row, WalkShown};
use coneyard_core::checks::walk::Answer;
use leptos::prelude::*;

use crate::courses::said;
use crate::parts::drawing::{Fetched, Picture, SOUND, use_drawings};
use crate::parts::papers::Papers;
use crate::parts::round::{
    answer_text, defect_of, figures, hours_text, is_tried, mode_key, right_text, shows_text,
};
use crate::parts::when::Length;
use crate::route::Route;
use crate::words::{k, say, say_with, source, text, tr};

/// The section, as soon as it is read; nothing where the drive began without a walk-round.
#[component]
pub(super) fn WalkRound(id: String, papers: Papers) -> impl IntoView {
    let drawings = use_drawings();
    move || {
        let walk = papers.walk.get()?;
        Some(view! { <Told walk id=id.clone() drawings /> })
    }
}

#[component]
fn Told(walk: Arc<WalkShown>, id: String, drawings: Fetched) -> impl IntoView {
    let points = 0..walk.list.points.len();
    let defects: Vec<usize> = points.filter(|p| defect_of(&walk, *p).is_some()).collect();
    let none = defects.is_empty();
    let cards = defects
        .into_iter()
        .map(|point| view! { <Card walk=walk.clone() point drawings /> })
        .collect_view();
    let decision = {
        let walk = walk.clone();
        move || {
            let (key, right) = decision(&walk);
            view! {
                <p class="walk-decision">
                    <span class="mark" aria-hidden="true">
                        {if right { "✓" } else { "▲" }}
                    </span>
                    " "
                    <strong>{say(key)}</strong>
                </p>
            }
        }
    };
    let counts = walk.counts;
    let figures =
        move || figures(&counts).into_iter().map(|said| view! { <li>{said}</li> }).collect_view();
    let trouble = move || {
        let why = drawings.with(|d| d.as_ref()?.as_ref().err().cloned()).filter(|_| !none)?;
        let said = say_with(k("debrief-walk-no-drawings"), vec![("why", text(why))]);
        Some(view! { <p class="quiet">{said}</p> })
    };
    let sheet = Route::DaySheet(id).href();
    view! {
        <section class="walk-round" aria-labelledby="walk-round-title">
            <h2 id="walk-round-title">
                {tr("debrief-walk")} <span class="severity">{tr(mode_key(walk.mode))}</span>
            </h2>
            {decision}
            <ul class="walk-figures">{figures}</ul>
            <Aside walk=walk.clone() />
            <p class="actions no-print">
                <a class="button" id="open-sheet" href=sheet>
                    {tr("debrief-walk-sheet")}
                </a>
            </p>
            <h3>{tr("debrief-walk-matter")}</h3>
            {none.then(|| view! { <p>{tr("debrief-walk-nothing")}</p> })}
            {trouble}
            <ol class="walk-defects">{cards}</ol>
            <MadeUp walk=walk.clone() />
            <LeftOut walk />
        </section>
    }
}

/// What was decided, and whether that was right.
fn decision(walk: &WalkShown) -> (&'static str, bool) {
    let points = 0..walk.list.points.len();
    let defects: Vec<&Defect> = points.filter_map(|p| defect_of(walk, p)).collect();
    let must_not =
        defects.iter().any(|d| walk.list.grades.get(d.grade).is_some_and(|g| !g.may_run));
    match (walk.sheet.taken, must_not) {
        (None, _) => (k("debrief-walk-open"), false),
        (Some(false), true) => (k("debrief-walk-tagged"), true),
        (Some(false), false) => (k("debrief-walk-tagged-sound"), false),
        (Some(true), true) => (k("debrief-walk-took-bad"), false),
        (Some(true), false) if defects.is_empty() => (k("debrief-walk-took-sound"), true),
        (Some(true), false) => (k("debrief-walk-took-worn"), true),
    }
}

/// The time it took, which is not scored, and what was written down of the hour meter.
#[component]
fn Aside(walk: Arc<WalkShown>) -> impl IntoView {
    let took = walk.sheet.decided_at.map(|at| {
        view! {
            <span>
                {tr("debrief-walk-took")} " " <Length ticks=at /> ". " {tr("debrief-walk-no-score")}
            </span>
        }
    });
    let (read, is) = (walk.sheet.hours_read, walk.sheet.hours);
    let hours = move || match read {
        Some(read) if read == is => {
            say_with(k("debrief-walk-hours-right"), vec![("hours", text(hours_text(read)))])
        }
        Some(read) => say_with(
            k("debrief-walk-hours-wrong"),
            vec![("read", text(hours_text(read))), ("is", text(hours_text(is)))],
        ),
        None => say_with(k("debrief-walk-hours-none"), vec![("is", text(hours_text(is)))]),
    };
    view! { <p class="quiet">{took} " " {hours}</p> }
}

/// How an answer to a point with something the matter turned out.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Outcome {
    /// Found, and as grave as it is.
    Right,
    /// Found, and said to be milder than it is.
    TooMild,
    /// Found, and said to be graver.
    TooGrave,
    /// Said to be fine.
    SaidFine,
    /// Not answered.
    NotAnswered,
}

impl Outcome {
    fn of(row: &Row, defect: &Defect) -> Self {
        let right = Answer::Grade(defect.grade).code();
        match row.answer {
            None => Self::NotAnswered,
            Some(0) => Self::SaidFine,
            Some(code) if code == right => Self::Right,
            Some(code) if code < right => Self::TooMild,
            Some(_) => Self::TooGrave,
        }
    }

    fn key(self) -> &'static str {
        match self {
            Self::Right => k("debrief-walk-found"),
            Self::TooMild => k("debrief-walk-too-mild"),
            Self::TooGrave => k("debrief-walk-too-grave"),
            Self::SaidFine => k("debrief-walk-said-fine"),
            Self::NotAnswered => k("debrief-walk-not-answered"),
        }
    }

    /// A mark and a class.
    fn look(self) -> (&'static str, &'static str) {
        match self {
            Self::Right => ("✓", "found"),
            Self::TooMild | Self::TooGrave => ("○", "half"),
            Self::SaidFine | Self::NotAnswered => ("▲", "missed"),
        }
    }
}

/// One thing that was the matter.
#[component]
fn Card(walk: Arc<WalkShown>, point: usize, drawings: Fetched) -> impl IntoView {
    move || {
        let at = walk.list.points.get(point)?;
        let defect = defect_of(&walk, point)?;
        let row = walk.sheet.rows.get(point)?;
        let outcome = Outcome::of(row, defect);
        let (mark, class) = outcome.look();
        let (sound, seen) = (said(&at.sound), said(&defect.seen));
        let hours = walk.sheet.hours;
        let picture = |state: &str| {
            let (id, state) = (at.id.clone(), state.to_owned());
            move || {
                let drawn =
                    drawings.with(|d| d.as_ref()?.as_ref().ok()?.closer(&id, &state, hours));
                drawn.map(|markup| view! { <Picture markup /> })
            }
        };
        let here = if is_tried(at) { k("debrief-walk-here-tried") } else { k("debrief-walk-here") };
        let why = format!("{} ({})", said(&defect.why), source(&defect.citation));
        let note = (!row.note.is_empty()).then(|| format!(" “{}”", row.note));
        Some(view! {
            <li class=format!("walk-defect {class}") data-point=at.id.clone()>
                <h4>
                    <span class="mark" aria-hidden="true">
                        {mark}
                    </span>
                    " "
                    {said(&defect.name)}
                    <span class="severity">{say(outcome.key())}</span>
                </h4>
                <div class="beside">
                    <figure>
                        <div class="check-frame">{picture(SOUND)}</div>
                        <figcaption>
                            <strong>{say(k("debrief-walk-sound"))}</strong>
                            " "
                            {sound}
                        </figcaption>
                    </figure>
                    <figure>
                        <div class="check-frame">{picture(&defect.id)}</div>
                        <figcaption>
                            <strong>{say(here)}</strong>
                            " "
                            {seen}
                        </figcaption>
                    </figure>
                </div>
                <dl>
                    <div>
                        <dt>{say(k("debrief-walk-shows"))}</dt>
                        <dd>{shows_text(at, defect)}</dd>
                    </div>
                    <div>
                        <dt>{say(k("debrief-walk-answer"))}</dt>
                        <dd>{answer_text(&walk.list, row)} {note}</dd>
                    </div>
                    <div>
                        <dt>{say(k("debrief-walk-right"))}</dt>
                        <dd>{right_text(&walk.list, defect)}</dd>
                    </div>
                    <div>
                        <dt>{say(k("debrief-walk-why"))}</dt>
                        <dd>{why}</dd>
                    </div>
                </dl>
            </li>
        })
    }
}

/// Points with nothing the matter at which something was reported.
fn made_up(walk: &WalkShown) -> Vec<usize> {
    let is = |p: &usize| {
        let reported = walk.sheet.rows.get(*p).and_then(|r| r.answer).is_some_and(|c| c != 0);
        reported && defect_of(walk, *p).is_none()
    };
    (0..walk.list.points.len()).filter(is).collect()
}

/// Points without an answer at which nothing was the matter.
fn left_out(walk: &WalkShown) -> Vec<usize> {
    let is = |p: &usize| {
        let open = walk.sheet.rows.get(*p).is_none_or(|r| r.answer.is_none());
        open && defect_of(walk, *p).is_none()
    };
    (0..walk.list.points.len()).filter(is).collect()
}

#[component]
fn MadeUp(walk: Arc<WalkShown>) -> impl IntoView {
    let points = made_up(&walk);
    (!points.is_empty()).then(|| {
        let items = move || {
            let item = |p: &usize| {
                let (at, row) = (walk.list.points.get(*p)?, walk.sheet.rows.get(*p)?);
                Some(view! {
                    <li>
                        <strong>{said(&at.name)}</strong>
                        " ("
                        {answer_text(&walk.list, row)}
                        "): "
                        {said(&at.sound)}
                    </li>
                })
            };
            points.iter().filter_map(item).collect_view()
        };
        view! {
            <h3>{tr("debrief-walk-made-up")}</h3>
            <ul class="plain made-up">{items}</ul>
        }
    })
}

#[component]
fn LeftOut(walk: Arc<WalkShown>) -> impl IntoView {
    let points = left_out(&walk);
    (!points.is_empty()).then(|| {
        let names = move || {
            let names = points.iter().filter_map(|p| walk.list.points.get(*p));
            names.map(|p| said(&p.name)).collect::<Vec<_>>().join(", ")
        };
        view! {
            <h3>{tr("debrief-walk-left-out")}</h3>
            <p class="left-out">{names} "."</p>
        }
    })
}

#[cfg(test)]
mod tests {
    use coneyard_core::acts::{Act, Done};
    use coneyard_core::checks::draw::{Drawn, Mode};
    use coneyard_core::checks::list::CheckList;
    use coneyard_core::checks::sheet::Sheet;

    use super::*;

    fn place(list: &CheckList, id: &str) -> usize {
        list.points.iter().position(|p| p.id == id).unwrap()
    }

    /// A truck with these defects ("point", index), answered so ("point", code), and taken or not.
    fn walk(has: &[(&str, usize)], said: &[(&str, u8)], decided: Option<bool>) -> WalkShown {
        let list = CheckList::shipped();
        let mut drawn = Drawn { has: vec![], hours: 10 };
        drawn.has.extend(has.iter().map(|(p, d)| (place(&list, p), *d)));
        let answer = |(point, answer): &(&str, u8)| Act::Answer {
            point: place(&list, point) as u8,
            answer: *answer,
            reason: None,
        };
        let acts = said.iter().map(answer);
        let end = decided.map(|taken| if taken { Act::Take } else { Act::TagOut });
        let acts: Vec<Done> = acts.chain(end).map(|act| Done { tick: 5, act }).collect();
        let sheet = Sheet::of(&list, &drawn, &acts);
        let counts = sheet.counts(&list);
        WalkShown { mode: Mode::Practice, list, sheet, counts }
    }

    #[test]
    fn a_decision_is_right_by_what_was_the_matter() {
        let of = |has: &[(&str, usize)], decided| decision(&walk(has, &[], decided));
        // A dead horn must not run; dented covers may.
        let (bad, mild) = ([("horn", 0)], [("casters", 1)]);
        assert_eq!(of(&bad, Some(false)), ("debrief-walk-tagged", true));
        assert_eq!(of(&bad, Some(true)), ("debrief-walk-took-bad", false));
        assert_eq!(of(&mild, Some(true)), ("debrief-walk-took-worn", true));
        assert_eq!(of(&mild, Some(false)), ("debrief-walk-tagged-sound", false));
        assert_eq!(of(&[], Some(true)), ("debrief-walk-took-sound", true));
        assert_eq!(of(&[], Some(false)), ("debrief-walk-tagged-sound", false));
        assert_eq!(of(&bad, None), ("debrief-walk-open", false));
    }

    #[test]
    fn an_answer_turns_out_by_how_grave_the_defect_is() {
        let out = |code: Option<u8>| {
            let said: Vec<(&str, u8)> = code.map(|c| ("drive-wheel", c)).into_iter().collect();
            let walk = walk(&[("drive-wheel", 1)], &said, Some(true));
            let at = place(&walk.list, "drive-wheel");
            Outcome::of(&walk.sheet.rows[at], defect_of(&walk, at).unwrap())
        };
        // Worn smooth is to be reported: the second of the three grades.
        assert_eq!(out(None), Outcome::NotAnswered);
        assert_eq!(out(Some(0)), Outcome::SaidFine);
        assert_eq!(out(Some(1)), Outcome::TooMild);
        assert_eq!(out(Some(2)), Outcome::Right);
        assert_eq!(out(Some(3)), Outcome::TooGrave);
    }

    #[test]
    fn what_was_made_up_and_left_out_is_about_sound_points_only() {
        let walk =
            walk(&[("horn", 0), ("key", 0)], &[("horn", 1), ("covers", 2), ("cables", 0)], None);
        let names = |points: Vec<usize>| -> Vec<String> {
            points.into_iter().map(|p| walk.list.points[p].id.clone()).collect()
        };
        assert_eq!(names(made_up(&walk)), ["covers"]);
        let left = names(left_out(&walk));
        assert_eq!(left.len(), walk.list.points.len() - 4);
        for there in ["horn", "key", "covers", "cables"] {
            assert!(!left.iter().any(|id| id == there), "{there}");
        }
    }
}
