//! Why a step is not done though the truck stands where it looks right: for whoever is told. Nothing is
//! judged by it.

use serde::{Deserialize, Serialize};

use crate::course::warehouse::PICK_REACH_M;
use crate::course::{Course, StepKind};
use crate::math::{Pose, Vec2};
use crate::moment::Moment;
use crate::task::facts::{FORKS_DOWN, REST_SPEED};
use crate::task::progress::MARK_REACH;
use crate::truck::spec::TruckSpec;
use crate::yard::frame::PalletFrame;

/// Farther from a box than this, m, nobody means to stand in it yet.
const NEAR_A_BOX: f64 = 3.0;
/// Farther short of a mark than this, m, nobody means to have stopped at it.
const NEAR_A_MARK: f64 = 8.0;
/// A pallet this near to its bay is meant for it, m.
const NEAR_THE_BAY: f64 = 0.5;
/// What stands out by less than this, m, is not worth a word: it is done at once.
const LEAST: f64 = 0.005;

/// What is missing.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Hint {
    /// The end with the power unit stands out of the box by so much, m.
    NoseOut(f64),
    /// The fork tips stand out of it, m.
    TipsOut(f64),
    /// A side of the truck stands out of it, m.
    SideOut(f64),
    /// The forks are not on the floor.
    ForksUp,
    /// The throttle is not in neutral.
    Throttle,
    /// The key is on.
    KeyOn,
    /// The rider is on the platform.
    Aboard,
    /// It stopped so far short of the mark, m.
    ShortOfMark(f64),
    /// The place to pick from is so much too far away, m.
    TooFar(f64),
    /// The rider has to step off to pick.
    StepOff,
    /// The rider has to step on again.
    StepOn,
}

/// What is missing; None while the truck moves, and where nothing has been begun.
pub fn hint(
    course: &Course,
    spec: &TruckSpec,
    m: &Moment,
    pallets: &[PalletFrame],
) -> Option<Hint> {
    if m.truck.speed.abs() > REST_SPEED {
        return None;
    }
    let step = course.steps.get(m.task.step as usize)?;
    match &step.what {
        StepKind::StopAtMark { .. } => {
            let short = m.task.mark_ahead?;
            (short > MARK_REACH && short <= NEAR_A_MARK).then_some(Hint::ShortOfMark(short))
        }
        StepKind::Park { stop_box, leave } => {
            let area = &course.boxes[*stop_box];
            if (m.truck.platform_in_yard - area.pose.at).length() > NEAR_A_BOX + 0.5 * area.size.x {
                return None;
            }
            stands_out(spec, m.truck.pose, (area.pose, area.size)).or_else(|| left(m, *leave))
        }
        StepKind::SetDown { bay } => {
            let bay = &course.warehouse.bays[*bay];
            let carried = pallets.iter().find(|p| p.carried)?;
            let over = (carried.pose.at - bay.pose.at).length() <= NEAR_THE_BAY;
            (over && m.truck.fork_height > FORKS_DOWN).then_some(Hint::ForksUp)
        }
        StepKind::Picks { .. } => {
            let away = (m.task.pick_at? - m.truck.platform_in_yard).length();
            let too_far = away - PICK_REACH_M;
            if too_far > 0.0 {
                return (too_far <= PICK_REACH_M).then_some(Hint::TooFar(too_far));
            }
            Some(if m.rider.aboard { Hint::StepOff } else { Hint::StepOn })
        }
        StepKind::Gates { .. }
        | StepKind::EmergencyStop { .. }
        | StepKind::PickUp { .. }
        | StepKind::CheckDock { .. }
        | StepKind::WalkRound { .. } => None,
    }
}

/// What stands out of a box the most.
fn stands_out(spec: &TruckSpec, truck: Pose, (pose, size): (Pose, Vec2)) -> Option<Hint> {
    let mut worst: Option<Hint> = None;
    let mut most = LEAST;
    let middle = spec.platform();
    for corner in spec.outline().concat() {
        let at = pose.to_body(truck.to_yard(corner));
        let along = at.x.abs() - 0.5 * size.x;
        let across = at.y.abs() - 0.5 * size.y;
        let by = along.max(across);
        if by <= most {
            continue;
        }
        most = by;
        worst = Some(match (across > along, corner.x > middle.x) {
            (true, _) => Hint::SideOut(by),
            (false, true) => Hint::NoseOut(by),
            (false, false) => Hint::TipsOut(by),
        });
    }
    worst
}

/// What is missing inside the box.
fn left(m: &Moment, leave: bool) -> Option<Hint> {
    if m.controls.throttle != 0 {
        return Some(Hint::Throttle);
    }
    if m.truck.fork_height > FORKS_DOWN {
        return Some(Hint::ForksUp);
    }
    if leave && m.controls.key_on {
        return Some(Hint::KeyOn);
    }
    (leave && m.rider.aboard).then_some(Hint::Aboard)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::course::shipped::parse;
    use crate::math::vec2;
    use crate::truck::spec::shipped::single;

    /// The course's last step is to park; the truck stands so far along and across from the box' middle.
    fn parked(along: f64, across: f64) -> (Course, Moment) {
        let course = parse("straight");
        let step = course.steps.len() - 1;
        let StepKind::Park { stop_box, .. } = course.steps[step].what else {
            panic!("the last step is to park");
        };
        let area = &course.boxes[stop_box];
        let spec = single();
        let g = &spec.geometry;
        let mut m = Moment::at_rest();
        m.task.step = step as u32;
        let middle = 0.5 * (g.nose_x_m + g.fork_tips_x_m);
        let at = area.pose.to_yard(vec2(along - middle, across));
        m.truck.pose = Pose { at, heading: area.pose.heading };
        m.truck.platform_in_yard = m.truck.pose.to_yard(spec.platform());
        m.truck.fork_height = 0.0;
        (course, m)
    }

    fn told((course, m): (Course, Moment)) -> Option<Hint> {
        hint(&course, &single(), &m, &[])
    }

    #[test]
    fn in_the_middle_of_the_box_nothing_is_missing() {
        assert_eq!(told(parked(0.0, 0.0)), None);
    }

    #[test]
    fn the_end_that_stands_out_is_named_with_how_far() {
        let by = |hint| match hint {
            Some(Hint::NoseOut(by) | Hint::TipsOut(by) | Hint::SideOut(by)) => by,
            other => panic!("{other:?}"),
        };
        let (nose, tips, side) =
            (told(parked(1.5, 0.0)), told(parked(-1.5, 0.0)), told(parked(0.0, 1.0)));
        assert!(matches!(nose, Some(Hint::NoseOut(_))), "{nose:?}");
        assert!(matches!(tips, Some(Hint::TipsOut(_))), "{tips:?}");
        assert!(matches!(side, Some(Hint::SideOut(_))), "{side:?}");
        // A decimetre farther is a decimetre more.
        assert!((by(told(parked(1.6, 0.0))) - by(nose) - 0.1).abs() < 1e-9);
        // Who is far away has not tried yet.
        assert_eq!(told(parked(20.0, 0.0)), None);
    }

    #[test]
    fn inside_it_the_throttle_comes_before_the_forks() {
        let (course, mut m) = parked(0.0, 0.0);
        m.truck.fork_height = 0.03;
        assert_eq!(told((course.clone(), m.clone())), Some(Hint::ForksUp));
        m.controls.throttle = 5;
        assert_eq!(told((course.clone(), m.clone())), Some(Hint::Throttle));
        m.truck.speed = 0.06;
        assert_eq!(told((course, m)), None);
    }

    #[test]
    fn who_leaves_the_truck_takes_the_key_and_steps_off() {
        let mut m = parked(0.0, 0.0).1;
        (m.controls.key_on, m.rider.aboard) = (true, true);
        assert_eq!((left(&m, false), left(&m, true)), (None, Some(Hint::KeyOn)));
        m.controls.key_on = false;
        assert_eq!(left(&m, true), Some(Hint::Aboard));
        m.rider.aboard = false;
        assert_eq!(left(&m, true), None);
    }

    #[test]
    fn a_stop_too_early_is_told_beyond_what_counts_as_a_stop() {
        let course = parse("straight");
        let mut m = Moment::at_rest();
        let mut at = |short| {
            m.task.mark_ahead = Some(short);
            hint(&course, &single(), &m, &[])
        };
        assert_eq!((at(MARK_REACH), at(30.0)), (None, None));
        assert_eq!(at(2.0), Some(Hint::ShortOfMark(2.0)));
    }
}
