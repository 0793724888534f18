//! The model rider with nothing but a keyboard: it wants what it always wants, and a few keys come
//! as near to that as they can. A twist is one of four, the tiller is swung fully or not at all.
//!
//! It drives worse than with hands, and later, and that is the point: a person at a keyboard does
//! too. The tiller stays where it is let go.

use coneyard_core::acts::{Act, Input};
use coneyard_core::controls::{ArmAsk, Controls, Look, Side, TillerAsk};
use coneyard_core::course::Course;
use coneyard_core::math::DEG;
use coneyard_core::moment::Moment;
use coneyard_core::rider::{MODEL, Rider, by_name};
use coneyard_core::rules::SiteRules;
use coneyard_core::run::DriveSetup;
use coneyard_core::truck::spec::TruckSpec;
use fantoccini::key::Key;

use crate::key_rider::Held;

/// A smaller twist than this is none, percent.
const TWIST_LEAST: i8 = 8;
/// Twists that the keys know, percent, with the key that asks for them.
const TWISTS: [(i16, char); 4] = [(25, '1'), (50, '2'), (75, '3'), (100, '4')];
/// A smaller swing than this is left alone, percent: a key swings the tiller at its fastest.
const SWING_LEAST: i8 = 35;
/// Nearer than this to a wanted angle of the tiller it is left alone, rad.
const NEAR_ENOUGH: f64 = 6.0 * DEG;

/// The rider.
pub struct KeyHands {
    rider: Box<dyn Rider>,
    wants: Controls,
    /// Has said that something is wrong, since the keys were last asked for.
    reports: bool,
}

impl KeyHands {
    /// A rider for a drive, before its first tick.
    pub fn new(setup: &DriveSetup, seed: u64) -> Self {
        let course = Course::parse("course", setup.course.as_bytes()).expect("a valid course");
        let truck = TruckSpec::parse("truck", setup.truck.as_bytes()).expect("a valid truck");
        let rules = SiteRules::parse("rules", setup.rules.as_bytes()).expect("valid rules");
        let rider = by_name(MODEL, &course, &truck, &rules, seed).expect("the model is there");
        let wants = Controls { stance: course.spawn_stance, ..Controls::default() };
        Self { rider, wants, reports: false }
    }

    /// Sees a moment; none is left out.
    pub fn see(&mut self, moment: &Moment) {
        let Input { controls, acts } = self.rider.ride(moment);
        self.wants = controls;
        self.reports |= acts.contains(&Act::Report);
    }

    /// The keys that are down from now on.
    pub fn keys(&mut self, moment: &Moment) -> Held {
        let mut held = keys(&self.wants, &moment.controls, moment.truck.steer);
        if core::mem::take(&mut self.reports) {
            held.insert('b');
        }
        held
    }
}

/// The keys that come nearest to what is wanted, from what is done now and the drive wheel's angle,
/// rad.
fn keys(wants: &Controls, now: &Controls, steer: f64) -> Held {
    let mut held = Held::new();
    let mut hold = |key: char, is: bool| {
        if is {
            held.insert(key);
        }
    };
    hold('g', wants.aboard != now.aboard);
    hold('q', wants.stance != now.stance && wants.stance == Side::Left);
    hold('e', wants.stance != now.stance && wants.stance == Side::Right);
    hold(' ', wants.arm == ArmAsk::LetGo);
    hold('x', wants.arm == ArmAsk::PushDown);
    hold('h', wants.horn);
    hold('r', wants.forks_up);
    hold('f', wants.forks_down);
    hold('j', wants.look == Look::Left);
    hold('l', wants.look == Look::Right);
    hold('k', wants.look == Look::Behind);
    hold(char::from(Key::Shift), wants.high_speed);
    let twist = i16::from(wants.throttle);
    if wants.throttle.saturating_abs() >= TWIST_LEAST {
        hold('w', twist > 0);
        hold('s', twist < 0);
        let nearest = TWISTS.iter().min_by_key(|(percent, _)| (percent - twist.abs()).abs());
        hold(nearest.map_or('1', |(_, key)| *key), true);
    }
    let way = match wants.tiller {
        TillerAsk::Swing(swing) if swing.saturating_abs() >= SWING_LEAST => f64::from(swing),
        TillerAsk::Swing(_) => 0.0,
        TillerAsk::To(half_degrees) => {
            let off = f64::from(half_degrees) * 0.5 * DEG - steer;
            if off.abs() > NEAR_ENOUGH { off } else { 0.0 }
        }
    };
    hold('a', way > 0.0);
    hold('d', way < 0.0);
    held
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_wanted_becomes_the_nearest_keys() {
        let now = Controls::default();
        let held = |wants: Controls| keys(&wants, &now, 0.0);
        assert_eq!(held(now), Held::new());
        assert_eq!(held(Controls { throttle: 60, ..now }), Held::from(['w', '2']));
        assert_eq!(held(Controls { throttle: -90, ..now }), Held::from(['s', '4']));
        assert_eq!(held(Controls { throttle: 5, ..now }), Held::new());
        assert_eq!(held(Controls { arm: ArmAsk::LetGo, ..now }), Held::from([' ']));
        assert_eq!(held(Controls { tiller: TillerAsk::Swing(-60), ..now }), Held::from(['d']));
        assert_eq!(held(Controls { tiller: TillerAsk::Swing(20), ..now }), Held::new());
        assert_eq!(held(Controls { tiller: TillerAsk::To(40), ..now }), Held::from(['a']));
        assert_eq!(held(Controls { stance: Side::Right, ..now }), Held::from(['e']));
        assert_eq!(held(Controls { aboard: false, ..now }), Held::from(['g']));
    }
}
