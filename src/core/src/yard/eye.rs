//! What the rider sees: the view of this tick, and how far ahead the way is seen to be clear.

use crate::course::{Course, Structure};
use crate::geometry::{edges, rectangle};
use crate::math::{DEG, Vec2, cos, vec2, wrap_angle};
use crate::rules::SiteRules;
use crate::rules::ticks;
use crate::sight::cover::{Block, Blocks};
use crate::sight::looking::{Disc, Head, Leg, Noticing, clear_distance, clear_distance_at_once};
use crate::sight::outlook::Outlook;
use crate::sight::polygon::{Field, HALF_FIELD, Segment, add_facing};
use crate::state;
use crate::yard::TruckNow;

/// The way is looked along at least this far, m.
const LEAST_WAY: f64 = 2.0;
/// And this much farther than the truck needs, m.
const BEYOND: f64 = 2.0;
/// A step along the way that is looked along, m.
const STRIDE: f64 = 0.5;
/// Room on either side of the truck's half width, m.
const ROOM: f64 = 0.02;

/// The opaque things of a course that never move, and the rider's head.
#[derive(Clone, Debug, Default)]
pub struct Eye {
    /// Where the head is turned.
    pub head: Head,
    /// What is seen in this tick.
    pub outlook: Outlook,
    opaque: Vec<Segment>,
    /// How people are noticed.
    pub noticing: Noticing,
    /// Ticks since the rider looked along the way.
    unlooked: u32,
    asked: Asked,
    /// The way ahead as it would be seen by a rider who glances aside, and as it goes.
    remembered: Outlook,
    way: Vec<Leg>,
}

/// What the site rules ask of a rider's eyes.
#[derive(Clone, Copy, Debug, Default)]
struct Asked {
    /// For so many ticks a rider knows what was to be seen on the way: looking aside for longer is
    /// driving blind.
    remembers: u32,
    /// Looking along the way is within this angle of it, rad.
    along: f64,
    /// Time to react in which the way must be seen to be clear, s.
    reaction: f64,
}

/// How the truck goes on, for the way that is looked along.
#[derive(Clone, Copy, Debug)]
pub struct Onward {
    /// Unit vector of travel at the leading end, yard frame.
    pub along: Vec2,
    /// Curvature of the leading end's path, 1/m, left positive.
    pub curvature: f64,
    /// Speed, m/s.
    pub speed: f64,
    /// Distance in which the truck stops without time to react, m.
    pub braking: f64,
    /// Half of the truck's width, m.
    pub half_width: f64,
}

impl Eye {
    /// Before the first look.
    pub fn new(course: &Course, rules: &SiteRules) -> Self {
        let opaque = |s: &&Structure| s.kind.is_opaque();
        let fixed = course.structures.iter().filter(opaque);
        let asked = Asked {
            remembers: ticks(rules.term("remembers")),
            along: rules.term("looks-along") * DEG,
            reaction: rules.limit("outruns-sight", "reaction"),
        };
        let fixed = Blocks::new(fixed.map(|s| Block::new(rectangle(s.pose, s.size))));
        let noticing = Noticing {
            cosine: cos(rules.term("notices") * DEG),
            moving: rules.term("notices-moving"),
            after: ticks(rules.term("notices-after")),
        };
        let [outlook, remembered] = [fixed.clone(), fixed].map(Outlook::new);
        Self { outlook, remembered, asked, noticing, ..Self::default() }
    }

    /// Every edge of what is opaque and never moves, for lines of sight between any two points.
    pub fn all_edges(&self) -> Vec<Segment> {
        let all = self.outlook.fixed.iter().flat_map(|f| edges(&f.outline));
        all.map(|(from, to)| Segment { from, to }).collect()
    }

    /// What is opaque as seen from the eye; what moves is handed in as convex outlines.
    pub fn opaque(&mut self, eye: Vec2, moving: &[[Vec2; 4]]) -> &[Segment] {
        self.opaque.clear();
        for outline in self.outlook.fixed.iter().map(|block| &block.outline).chain(moving) {
            add_facing(outline, eye, &mut self.opaque);
        }
        &self.opaque
    }

    /// Looks. The head has been turned for this tick.
    pub fn look(&mut self, course: &Course, truck: &TruckNow<'_>, moving: &[[Vec2; 4]]) {
        let field = self.head.field(truck.pose.heading);
        let floor = (course.floor_min, course.floor_max);
        self.outlook.look(truck.platform, &field, floor, moving);
        let off = off_path(&self.head, truck);
        self.unlooked = if off <= self.asked.along { 0 } else { self.unlooked.saturating_add(1) };
    }

    /// How far ahead the way is seen to be clear, m, with discs that are seen and what is opaque and
    /// moves. A rider who glances aside remembers what was there a moment ago.
    pub fn clear_ahead(
        &mut self,
        course: &Course,
        truck: &TruckNow<'_>,
        onward: &Onward,
        (seen, moving): (&[Disc], &[[Vec2; 4]]),
    ) -> f64 {
        let half_width = onward.half_width + ROOM;
        self.way.clear();
        let points = way(truck.leading, onward, self.asked.reaction);
        self.way.extend(points.filter_map(|(from, to)| Leg::new(from, to, half_width)));
        let off = off_path(&self.head, truck);
        if off <= self.asked.along || self.unlooked > self.asked.remembers {
            return clear_on(&mut self.outlook, &self.way, half_width, seen);
        }
        let field = Field { look: truck.along, half: HALF_FIELD };
        let floor = (course.floor_min, course.floor_max);
        self.remembered.look(truck.platform, &field, floor, moving);
        clear_on(&mut self.remembered, &self.way, half_width, seen)
    }
}

fn clear_on(outlook: &mut Outlook, way: &[Leg], half_width: f64, seen: &[Disc]) -> f64 {
    let at_once = clear_distance_at_once(outlook, way, half_width, seen);
    at_once.unwrap_or_else(|| clear_distance(outlook.view(), way, half_width, seen))
}

/// Angle between the head and the way the truck goes, rad; 0 at rest.
pub fn off_path(head: &Head, truck: &TruckNow<'_>) -> f64 {
    if truck.speed == 0.0 {
        return 0.0;
    }
    wrap_angle(truck.pose.heading + head.angle - truck.along.angle()).abs()
}

/// The way ahead from the leading end: an arc with the present curvature, as long as is needed to
/// react in so many seconds and to stop, and some more; both ends of each stride.
fn way(from: Vec2, onward: &Onward, reaction: f64) -> impl Iterator<Item = (Vec2, Vec2)> {
    let long = (onward.speed.abs() * reaction + onward.braking + BEYOND).max(LEAST_WAY);
    let steps = (long / STRIDE).ceil() as u32;
    let stride = long / f64::from(steps);
    let (mut at, mut along) = (from, onward.along);
    // Half the turn of a stride on either side of it keeps to the arc.
    let turn = Vec2::from_angle(0.5 * onward.curvature * stride);
    let turned = move |v: Vec2| vec2(v.x * turn.x - v.y * turn.y, v.x * turn.y + v.y * turn.x);
    (0..steps).map(move |_| {
        let before = at;
        along = turned(along);
        at = at + along * stride;
        along = turned(along);
        (before, at)
    })
}

// What is seen follows from where everything is.
state!(Eye { head, unlooked } left out {
    outlook,
    noticing,
    opaque,
    asked,
    remembered,
    way,
});

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_way_ahead_keeps_to_its_circle() {
        let radius = 3.0;
        let onward = Onward {
            along: vec2(1.0, 0.0),
            curvature: 1.0 / radius,
            speed: 2.0,
            braking: 0.7,
            half_width: 0.5,
        };
        let points: Vec<Vec2> = way(vec2(0.0, 0.0), &onward, 1.0).map(|(_, to)| to).collect();
        let middle = vec2(0.0, radius);
        assert!(points.iter().all(|p| ((*p - middle).length() - radius).abs() < 5e-3));
        let long = |reaction: f64| -> f64 {
            way(vec2(0.0, 0.0), &onward, reaction).map(|(from, to)| (to - from).length()).sum()
        };
        let with = long(1.0);
        assert!((with - 4.7).abs() < 0.02, "{with}");
        let long = long(5.0);
        assert!((long - 12.7).abs() < 0.02, "as far as five seconds take: {long}");
    }
}
