//! A rider's walk-round: from point to point, closer and from every side, trying what can be tried, and
//! answering by what is seen. Only what is before the eyes is known.

use crate::acts::{Act, Input};
use crate::checks::list::{ASPECTS, How};
use crate::checks::walk::{Answer, By, Walk};
use crate::controls::{ArmAsk, Controls};
use crate::moment::Moment;
use crate::time::Tick;

/// For so long a point is looked at, ticks.
const LOOKS: Tick = 40;
/// The self-test of a truck that was switched on is waited for, ticks.
const SELF_TEST: Tick = 128;

/// How somebody inspects.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Inspecting {
    /// Every point, from every side, to the end.
    Whole,
    /// Leaves out every point of this number and its multiples.
    LeavesOut(usize),
    /// Looks at nothing and answers that all is fine.
    LooksAtNothing,
    /// Stops looking after the first find, and calls the rest fine.
    StopsAtTheFirst,
    /// Calls everything faulty.
    CallsAllFaulty,
    /// Never tries anything.
    TriesNothing,
    /// Looks from one side only.
    OneSide,
    /// Finds everything, and takes the truck all the same.
    TakesItAnyway,
    /// Tags out every truck.
    TagsOutAll,
    /// Looks at each point, from every side, for so many ticks and two more.
    Looks(Tick),
    /// Sees everything and says that all is fine.
    KeepsQuiet,
    /// Touches the truck's settings.
    TouchesSettings,
}

/// Where one is in the walk-round.
#[derive(Clone, Debug, Default)]
pub(super) struct Round {
    /// The work that is left, the next thing last; None before it was planned.
    left: Option<Vec<Work>>,
    /// Looking since this tick.
    since: Option<Tick>,
    /// The gravest that was seen of the point in hand, and the grade's reason.
    seen: Option<(usize, Option<u8>)>,
    /// Something was found.
    found: bool,
    /// Something that must not run was found.
    must_not_run: bool,
    /// On the platform since this tick.
    aboard_since: Option<Tick>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Work {
    Look(usize, By),
    Answer(usize),
    ReadHours,
    Settings,
    Decide,
}

impl Round {
    /// What is done in the next tick; None when the rider stands aboard a truck that is switched on.
    pub(super) fn go(&mut self, m: &Moment, how: Inspecting) -> Option<Input> {
        let walk = m.walk.as_ref()?;
        if walk.decided.is_some() {
            return self.get_on(m);
        }
        let controls = Controls {
            aboard: false,
            key_on: false,
            arm: ArmAsk::LetGo,
            stance: m.truck.stance,
            ..Controls::default()
        };
        let acts = self.next(walk, m.tick, how).into_iter().collect();
        Some(Input { controls, acts })
    }

    /// Gets on, switches on, and waits for the self-test.
    fn get_on(&mut self, m: &Moment) -> Option<Input> {
        if m.task.done || m.task.failed {
            return Some(Controls { aboard: false, key_on: false, ..m.controls }.into());
        }
        let since = *self.aboard_since.get_or_insert(m.tick);
        let waits = m.tick.saturating_sub(since) < SELF_TEST;
        waits.then(|| Controls { stance: m.truck.stance, ..Controls::default() }.into())
    }

    fn next(&mut self, walk: &Walk, now: Tick, how: Inspecting) -> Option<Act> {
        let left = self.left.get_or_insert_with(|| plan(walk, how));
        let work = *left.last()?;
        match work {
            Work::Look(point, by) => self.look(walk, now, how, (point, by)),
            Work::Answer(point) => {
                left.pop();
                let number = point as u8;
                let answer = |answer: Answer, reason| Act::Answer {
                    point: number,
                    answer: answer.code(),
                    reason,
                };
                let seen = self.seen.take();
                if how == Inspecting::CallsAllFaulty {
                    return Some(answer(Answer::Grade(walk.truck.list.grades.len() - 1), None));
                }
                Some(match seen {
                    Some((grade, reason)) if how != Inspecting::KeepsQuiet => {
                        answer(Answer::Grade(grade), reason)
                    }
                    _ => answer(Answer::Fine, None),
                })
            }
            Work::ReadHours => {
                left.pop();
                Some(Act::ReadHours { tenths: walk.truck.drawn.hours })
            }
            Work::Settings => {
                left.pop();
                Some(Act::TouchSettings)
            }
            Work::Decide => {
                left.pop();
                let tags = match how {
                    Inspecting::TakesItAnyway | Inspecting::KeepsQuiet => false,
                    Inspecting::TagsOutAll => true,
                    _ => self.must_not_run || how == Inspecting::CallsAllFaulty,
                };
                Some(if tags { Act::TagOut } else { Act::Take })
            }
        }
    }

    fn look(
        &mut self,
        walk: &Walk,
        now: Tick,
        how: Inspecting,
        (point, by): (usize, By),
    ) -> Option<Act> {
        let Some(since) = self.since else {
            self.since = Some(now);
            let point = point as u8;
            return Some(match by {
                By::Trying => Act::Try { point },
                By::Looking(view) => {
                    let view = ASPECTS.iter().position(|v| *v == view).unwrap_or_default();
                    Act::LookCloser { point, view: view as u8 }
                }
            });
        };
        // The look begins in the tick after the act.
        let enough = if let Inspecting::Looks(ticks) = how { ticks } else { LOOKS };
        if now.saturating_sub(since) < enough {
            return None;
        }
        self.since = None;
        if let Some(left) = &mut self.left {
            left.pop();
        }
        let list = &walk.truck.list;
        let shown = walk.shown.filter(|s| s.point == point).and_then(|s| s.defect);
        if let Some(defect) = shown.and_then(|d| list.defect((point, d))) {
            let reason = defect.reasons.first().map(|r| *r as u8);
            self.seen = self.seen.max(Some((defect.grade, reason)));
            self.must_not_run |= !list.grades[defect.grade].may_run;
            if how == Inspecting::StopsAtTheFirst && !self.found {
                let rest = self.left.iter().flatten();
                let answers = rest.filter(|w| !matches!(w, Work::Look(..))).copied().collect();
                self.left = Some(answers);
            }
            self.found = true;
        }
        None
    }
}

/// All the work, the first thing last.
fn plan(walk: &Walk, how: Inspecting) -> Vec<Work> {
    let mut all = Vec::new();
    for (i, point) in walk.truck.list.points.iter().enumerate() {
        if let Inspecting::LeavesOut(every) = how
            && i.is_multiple_of(every)
        {
            continue;
        }
        let one_side = if how == Inspecting::OneSide { 1 } else { usize::MAX };
        match point.how {
            _ if how == Inspecting::LooksAtNothing => {}
            How::Try if how == Inspecting::TriesNothing => {}
            How::Try => all.push(Work::Look(i, By::Trying)),
            How::Look => all.extend(
                point.places.iter().take(one_side).map(|(v, _)| Work::Look(i, By::Looking(*v))),
            ),
        }
        all.push(Work::Answer(i));
    }
    all.push(Work::ReadHours);
    if how == Inspecting::TouchesSettings {
        all.push(Work::Settings);
    }
    all.push(Work::Decide);
    all.reverse();
    all
}
