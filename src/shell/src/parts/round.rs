//! What a walk-round is told with: its points, answers and reasons by the words of its own check list, and from
//! where a defect shows.

use coneyard_core::checks::draw::{Found, Mode};
use coneyard_core::checks::list::{Aspect, CheckList, Defect, How, Point};
use coneyard_core::checks::sheet::{Counts, Row, WalkShown};
use coneyard_core::finding::Finding;

use crate::courses::said;
use crate::store::Attempt;
use crate::words::{k, number, say, say_with, steady_number, text};

/// Key of what a walk-round was for.
pub(crate) fn mode_key(mode: Mode) -> &'static str {
    match mode {
        Mode::Practice => k("round-practice"),
        Mode::Daily => k("round-daily"),
    }
}

/// The word of an answer by its code: fine, or how grave; None where there was none.
pub(crate) fn answer_word(list: &CheckList, code: Option<u8>) -> Option<String> {
    match code?.checked_sub(1) {
        None => Some(say(k("round-fine"))),
        Some(grade) => list.grades.get(usize::from(grade)).map(|g| said(&g.name)),
    }
}

/// The reason that an answer gave.
pub(crate) fn reason_word(list: &CheckList, row: &Row) -> Option<String> {
    list.reasons.get(row.reason?).map(|r| said(&r.name))
}

/// An answer with its reason, or that there is none.
pub(crate) fn answer_text(list: &CheckList, row: &Row) -> String {
    match (answer_word(list, row.answer), reason_word(list, row)) {
        (Some(answer), Some(reason)) => format!("{answer}: {reason}"),
        (Some(answer), None) => answer,
        (None, _) => say(k("round-no-answer")),
    }
}

/// What the right answer is, with the reasons that would be right.
pub(crate) fn right_text(list: &CheckList, defect: &Defect) -> String {
    let grade = list.grades.get(defect.grade).map(|g| said(&g.name)).unwrap_or_default();
    let reasons: Vec<String> =
        defect.reasons.iter().filter_map(|r| list.reasons.get(*r)).map(|r| said(&r.name)).collect();
    if reasons.is_empty() { grade } else { format!("{grade}: {}", reasons.join(" · ")) }
}

fn view_key(from: Aspect) -> &'static str {
    match from {
        Aspect::Above => k("round-view-above"),
        Aspect::Left => k("round-view-left"),
        Aspect::Right => k("round-view-right"),
        Aspect::Nose => k("round-view-nose"),
        Aspect::Tips => k("round-view-tips"),
        Aspect::Platform => k("round-view-platform"),
        Aspect::Desk => k("round-view-desk"),
    }
}

/// How a defect of a point is found, and from where.
pub(crate) fn shows_text(point: &Point, defect: &Defect) -> String {
    let key = match Found::of(point, defect) {
        Found::ByTrying => return say(k("round-shows-tried")),
        Found::AtAGlance => k("round-shows-glance"),
        Found::FromOneSide => k("round-shows-one-side"),
        Found::Closer => k("round-shows-closer"),
    };
    let views: Vec<String> = defect.seen_from.iter().map(|v| say(view_key(*v))).collect();
    say_with(key, vec![("views", text(views.join(", ")))])
}

/// The defect that a point had.
pub(crate) fn defect_of(walk: &WalkShown, point: usize) -> Option<&Defect> {
    let defect = (*walk.sheet.truth.get(point)?)?;
    walk.list.points.get(point)?.defects.get(defect)
}

/// The name of the point that a finding is about.
pub(crate) fn point_name(walk: Option<&WalkShown>, finding: &Finding) -> Option<String> {
    let point = walk?.list.points.get(usize::from(finding.point?))?;
    Some(said(&point.name))
}

/// Hours of a meter.
pub(crate) fn hours_text(tenths: u32) -> String {
    let hours = steady_number(f64::from(tenths) / 10.0, 1);
    say_with(k("round-hours"), vec![("hours", text(hours))])
}

/// What the answers come to, in one short sentence each.
pub(crate) fn figures(counts: &Counts) -> Vec<String> {
    let of = |key, is: u32, of: u32| {
        (of > 0).then(|| say_with(key, vec![("is", number(is)), ("of", number(of))]))
    };
    let all = [
        of(k("round-hits"), counts.hits, counts.defects),
        of(k("round-grades"), counts.right_grade, counts.hits),
        of(k("round-further"), counts.further_hits, counts.further),
        of(k("round-false"), counts.false_reports, counts.without),
        (counts.left_out > 0)
            .then(|| say_with(k("round-left-out"), vec![("count", number(counts.left_out))])),
    ];
    all.into_iter().flatten().collect()
}

/// It is a walk-round for practice and nothing else: the same again is another truck, and there is no way to
/// draw.
pub(crate) fn is_practice_walk(attempt: &Attempt) -> bool {
    attempt.walk.as_ref().is_some_and(|walk| walk.mode == Mode::Practice)
}

/// A point is tried, and not looked at.
pub(crate) fn is_tried(point: &Point) -> bool {
    point.how == How::Try
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::test_support::found;
    use crate::words::{Lang, set_lang};
    use coneyard_core::acts::{Act, Done};
    use coneyard_core::checks::draw::Drawn;
    use coneyard_core::checks::sheet::Sheet;
    use coneyard_core::finding::Severity;

    fn in_english() {
        set_lang(Lang::En, coneyard_core::words::shipped("en").unwrap());
    }

    fn place(list: &CheckList, id: &str) -> usize {
        list.points.iter().position(|p| p.id == id).unwrap()
    }

    #[test]
    fn an_answer_is_told_with_its_reason_and_none_is_said_to_be_none() {
        in_english();
        let list = CheckList::shipped();
        let row = |answer, reason| Row { answer, reason, note: String::new() };
        assert_eq!(answer_text(&list, &row(None, None)), "no answer");
        assert_eq!(answer_text(&list, &row(Some(0), None)), "fine");
        let bent = list.reasons.iter().position(|r| r.id == "bent");
        let said = answer_text(&list, &row(Some(3), bent));
        assert_eq!(said, "out of service: bent, dented or uneven");
        assert_eq!(answer_word(&list, Some(99)), None, "no such answer");
    }

    #[test]
    fn where_a_defect_shows_follows_from_the_list() {
        in_english();
        let list = CheckList::shipped();
        let shows = |point: &str, defect: &str| {
            let point = &list.points[place(&list, point)];
            let defect = point.defects.iter().find(|d| d.id == defect).unwrap();
            shows_text(point, defect)
        };
        assert_eq!(shows("horn", "dead"), "Only when it is tried");
        let crack = shows("fork-left", "cracked-heel");
        assert!(crack.contains("one side") && crack.contains("left"), "{crack}");
        let lid = shows("battery-lid", "not-closed");
        assert!(lid.starts_with("At a glance") && lid.contains("above"), "{lid}");
    }

    #[test]
    fn a_finding_about_a_point_has_its_name_and_another_has_none() {
        in_english();
        let list = CheckList::shipped();
        let horn = place(&list, "horn");
        let drawn = Drawn { has: vec![(horn, 0)], hours: 9 };
        let take = [Done { tick: 3, act: Act::Take }];
        let sheet = Sheet::of(&list, &drawn, &take);
        let counts = sheet.counts(&list);
        let walk = WalkShown { mode: Mode::Daily, list, sheet, counts };
        assert_eq!(defect_of(&walk, horn).map(|d| d.id.as_str()), Some("dead"));
        assert!(defect_of(&walk, horn + 1).is_none() && defect_of(&walk, 999).is_none());
        let about = |point| Finding { point, ..found("defect-missed", Severity::Major, 3) };
        assert_eq!(point_name(Some(&walk), &about(Some(horn as u8))).as_deref(), Some("Horn"));
        assert_eq!(point_name(Some(&walk), &about(None)), None);
        assert_eq!(point_name(Some(&walk), &about(Some(250))), None);
        assert_eq!(point_name(None, &about(Some(1))), None);
    }

    #[test]
    fn what_there_was_none_of_has_no_figure() {
        in_english();
        let sound = Counts { without: 36, ..Counts::default() };
        assert_eq!(figures(&sound).len(), 1, "{:?}", figures(&sound));
        let full = Counts {
            defects: 3,
            hits: 2,
            right_grade: 1,
            without: 33,
            false_reports: 1,
            left_out: 4,
            further: 2,
            further_hits: 1,
        };
        let said = figures(&full);
        assert_eq!(said.len(), 5);
        assert!(said[0].contains("2 of 3") && said[1].contains("1 of 2"), "{said:?}");
    }
}
