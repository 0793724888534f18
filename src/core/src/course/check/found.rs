//! What was found wrong with a course so far, and what all of its checks look at.

use crate::course::Course;
use crate::geometry::rectangle;
use crate::math::Vec2;
use crate::outside::BadInput;

/// What was found wrong so far.
pub(super) struct Found<'a> {
    pub(super) course: &'a Course,
    pub(super) problems: Vec<BadInput>,
}

impl Found<'_> {
    pub(super) fn say(&mut self, place: impl Into<String>, reason: impl Into<String>) {
        self.problems.push(BadInput::new(format!("course {}", self.course.id), place, reason));
    }

    pub(super) fn on_floor(&self, p: Vec2) -> bool {
        let (min, max) = (self.course.floor_min, self.course.floor_max);
        (min.x..=max.x).contains(&p.x) && (min.y..=max.y).contains(&p.y)
    }

    pub(super) fn need_floor(&mut self, place: impl Into<String>, points: &[Vec2]) {
        if let Some(p) = points.iter().find(|p| !self.on_floor(**p)) {
            self.say(place, format!("({:.2}, {:.2}) lies outside the floor", p.x, p.y));
        }
    }
}

/// What stands in the way of trucks, with its place in the list.
pub(super) fn solid(course: &Course) -> impl Iterator<Item = (usize, [Vec2; 4])> + '_ {
    let all = course.structures.iter().enumerate();
    all.filter(|(_, s)| s.kind.is_solid()).map(|(i, s)| (i, rectangle(s.pose, s.size)))
}
