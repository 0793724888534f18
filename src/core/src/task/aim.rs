//! Where the step at hand wants the truck next: for whoever is shown the way there.

use crate::course::{Course, StepKind, Travel};
use crate::math::Vec2;
use crate::moment::Moment;
use crate::yard::frame::PalletFrame;

/// The middle of what is due, yard frame, m; None when all is done.
pub fn aim(course: &Course, m: &Moment, pallets: &[PalletFrame]) -> Option<Vec2> {
    let between = |line: usize| {
        let line = &course.lines[line];
        (line.from + line.to) * 0.5
    };
    let around = &course.warehouse;
    Some(match &course.steps.get(m.task.step as usize)?.what {
        StepKind::Gates { .. } => course.gates[m.task.next_gate? as usize].middle(),
        StepKind::StopAtMark { line, .. } => between(*line),
        StepKind::EmergencyStop { trigger, .. } => between(*trigger),
        StepKind::Park { stop_box, .. } => course.boxes[*stop_box].pose.at,
        StepKind::PickUp { pallet } => {
            pallets.iter().find(|p| p.pallet as usize == *pallet)?.pose.at
        }
        StepKind::SetDown { bay } => around.bays[*bay].pose.at,
        StepKind::Picks { .. } => m.task.pick_at?,
        StepKind::WalkRound { .. } => return None,
        StepKind::CheckDock { dock } => {
            let area = &around.docks[*dock].area;
            area.iter().fold(Vec2::default(), |sum, p| sum + *p) * (1.0 / area.len() as f64)
        }
    })
}

/// The same as seen from the end that leads, m: how far ahead, and how far to the left, when one looks the
/// way that the step has it.
pub fn aim_from_the_leading_end(
    course: &Course,
    m: &Moment,
    pallets: &[PalletFrame],
) -> Option<Vec2> {
    let to = aim(course, m, pallets)?;
    let end = match m.task.travel {
        Travel::PowerUnitFirst => m.truck.nose_in_yard,
        Travel::ForksFirst => m.truck.tips_in_yard,
    };
    let way = (to - end).rotated(-m.truck.pose.heading);
    Some(match m.task.travel {
        Travel::PowerUnitFirst => way,
        Travel::ForksFirst => way * -1.0,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::course::shipped::parse;
    use crate::math::vec2;

    #[test]
    fn a_mark_ahead_of_the_nose_is_ahead_and_behind_it_is_behind() {
        let course = parse("straight");
        let StepKind::StopAtMark { line, .. } = course.steps[0].what else {
            panic!("the first step is a stop");
        };
        let mark = (course.lines[line].from + course.lines[line].to) * 0.5;
        let mut m = Moment::at_rest();
        m.truck.pose.heading = core::f64::consts::FRAC_PI_2;
        m.truck.nose_in_yard = mark - vec2(1.0, 2.0);
        let to = aim_from_the_leading_end(&course, &m, &[]).expect("a step");
        // It looks north: what lies east of it is on its right.
        assert!((to - vec2(2.0, -1.0)).length() < 1e-9, "{to:?}");
        m.task.travel = Travel::ForksFirst;
        m.truck.tips_in_yard = mark + vec2(0.5, 3.0);
        let to = aim_from_the_leading_end(&course, &m, &[]).expect("a step");
        assert!((to - vec2(3.0, -0.5)).length() < 1e-9, "{to:?}");
        m.task.step = course.steps.len() as u32;
        assert_eq!(aim(&course, &m, &[]), None);
    }
}
