//! The model rider with two thumbs on a screen: it wants what it always wants, and the thumbs slide to where
//! that is asked for. Whoever drives so has two fingers and no more: while a button is held with one, it is
//! not on the throttle.

use coneyard_core::acts::{Act, Input};
use coneyard_core::controls::thumbs::{
    HORN_PX, PUSH_DOWN_PX, TILLER_DEAD_PX, TILLER_FULL_PX, TWIST_FULL_PX, TWIST_NEUTRAL_PX,
};
use coneyard_core::controls::{ArmAsk, Controls, Side, TILLER_MAX_HALF_DEGREES, TillerAsk};
use coneyard_core::course::Course;
use coneyard_core::math::DEG;
use coneyard_core::moment::Moment;
use coneyard_core::rider::{MODEL, Rider, by_name};
use coneyard_core::rules::SiteRules;
use coneyard_core::run::DriveSetup;
use coneyard_core::time::DT;
use coneyard_core::truck::spec::TruckSpec;

use crate::browser::thumbs::{Fingers, Place};

/// The finger on the tiller, and the one on the throttle.
pub const TILLER: u32 = 1;
/// The other one.
pub const TWIST: u32 = 2;

/// A smaller twist than this is none, percent.
const TWIST_LEAST: i8 = 4;
/// A smaller angle of the tiller is none, degrees.
const TILLER_LEAST: f64 = 0.5;
/// A thumb slides so far away from neutral in a tick, px, and no farther than that between two looks at the
/// screen: it does not jump. Back it goes at once.
const SLIDES_PX: f64 = 4.0;
const SLIDES_MOST_PX: f64 = 16.0;
/// Slower than this the truck stands, m/s.
const STANDS_MPS: f64 = 0.05;
/// A full swing of the tiller is asked for as an angle so far ahead of where it is, degrees: a rider's hands
/// swing it at a rate that brings it where it should be in 0.16 s, and all of a swing is 110 degrees a second.
const SWING_AHEAD: f64 = 0.16 * 110.0;
/// What a thumb does is felt so long after the look that it is for, beside the time between two looks, ticks.
const LATE: f64 = 12.0;
/// The thumb of the tiller goes where it should be in about so long, ticks: what it does not feel yet would
/// have it weave.
const CALM: f64 = 8.0;

/// Where things are on the screen.
#[derive(Clone, Copy, Debug)]
pub struct Layout {
    /// Where the thumb of the tiller lands.
    pub tiller: Place,
    /// Where that of the throttle lands.
    pub twist: Place,
    /// The button that lowers the forks.
    pub forks_down: Place,
    /// The one that changes sides.
    pub stance: Place,
}

/// What the thumb of the throttle presses when it is not there.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Button {
    ForksDown,
    Stance,
}

/// The rider.
pub struct ThumbHands {
    rider: Box<dyn Rider>,
    wants: Controls,
    layout: Layout,
    on_button: Option<Button>,
    /// The side was changed, and the page has not said so yet: it is not pressed twice.
    changed: Option<Side>,
    landed: [bool; 2],
    /// The horn is wanted, and was not heard yet: nobody moves off before.
    owes_horn: bool,
    /// How far up the thumb of the throttle is, px.
    up: f64,
    /// How far to the right that of the tiller is, px.
    right: f64,
    /// Ticks that were seen since the last look, and between the two before.
    seen: u32,
    between: u32,
}

impl ThumbHands {
    /// A rider for a drive, before its first tick.
    pub fn new(setup: &DriveSetup, layout: Layout, seed: u64) -> Self {
        let course = Course::parse("course", setup.course.as_bytes()).expect("a valid course");
        let truck = TruckSpec::parse("truck", setup.truck.as_bytes()).expect("a valid truck");
        let rules = SiteRules::parse("rules", setup.rules.as_bytes()).expect("valid rules");
        let rider = by_name(MODEL, &course, &truck, &rules, seed).expect("the model is there");
        let wants = Controls { stance: course.spawn_stance, ..Controls::default() };
        Self {
            rider,
            wants,
            layout,
            on_button: None,
            changed: None,
            landed: [false; 2],
            owes_horn: false,
            up: 0.0,
            right: 0.0,
            seen: 0,
            between: 0,
        }
    }

    /// Sees a moment; none is left out.
    pub fn see(&mut self, moment: &Moment) {
        let Input { controls, acts } = self.rider.ride(moment);
        assert!(!acts.contains(&Act::Report), "there is nothing to report on these courses");
        self.wants = controls;
        self.seen += 1;
        // A thumb is later than a scripted hand: what it is for may be over by then.
        self.owes_horn = (self.owes_horn || controls.horn) && !moment.truck.horn_sounds;
    }

    /// Where the fingers are from now on.
    pub fn fingers(&mut self, moment: &Moment) -> Fingers {
        self.between = core::mem::take(&mut self.seen);
        let wants = self.wants;
        let mut fingers = Fingers::new();
        let lands = wants.arm != ArmAsk::LetGo;
        if lands {
            let to = if self.landed[0] { across(&wants, moment.truck.steer) } else { 0.0 };
            let share = (f64::from(self.between) / CALM).min(1.0);
            self.right = if self.landed[0] { self.right + (to - self.right) * share } else { 0.0 };
            let x = self.right;
            let down = wants.arm == ArmAsk::PushDown && self.landed[0];
            let y = if down { PUSH_DOWN_PX + 6.0 } else { 0.0 };
            fingers.insert(TILLER, moved(self.layout.tiller, x, y));
        }
        self.landed[0] = lands;
        let stands = moment.controls.stance;
        self.changed = self.changed.filter(|side| *side != stands);
        let button = if wants.stance != stands && self.changed.is_none() {
            Some(Button::Stance)
        } else {
            (wants.forks_down && wants.throttle == 0).then_some(Button::ForksDown)
        };
        if button != self.on_button {
            // A thumb lifts before it lands elsewhere.
            self.on_button = button;
            self.landed[1] = false;
            self.up = 0.0;
        } else if let Some(button) = button {
            fingers.insert(
                TWIST,
                match button {
                    Button::ForksDown => self.layout.forks_down,
                    Button::Stance => self.layout.stance,
                },
            );
            if button == Button::Stance {
                self.changed = Some(wants.stance);
            }
        } else {
            let stands = moment.truck.speed.abs() < STANDS_MPS;
            let waits = !self.landed[1] || self.owes_horn && stands;
            let eases = waits || self.soon_stands(moment);
            let wish = if eases { 0.0 } else { upwards(wants.throttle) };
            let slides = (f64::from(self.between) * SLIDES_PX).min(SLIDES_MOST_PX);
            self.up = slid(self.up, wish, slides);
            let y = -self.up;
            let sounds = self.landed[1] && (wants.horn || self.owes_horn);
            let x = if sounds { -HORN_PX - 8.0 } else { 0.0 };
            fingers.insert(TWIST, moved(self.layout.twist, x, y));
            self.landed[1] = true;
        }
        fingers
    }

    /// Who plugs and waits until the truck stands is too late with a thumb, and drives off the other way: it
    /// goes back to neutral as early as it is late.
    fn soon_stands(&self, moment: &Moment) -> bool {
        let (speed, throttle) = (moment.truck.speed, f64::from(self.wants.throttle));
        let late = (f64::from(self.between) + LATE) * DT;
        throttle * speed < 0.0 && speed.abs() < moment.truck.accel_long.abs() * late
    }
}

/// Where a thumb of the throttle is at the next look that is here, goes there and slides so far, px upwards.
fn slid(from: f64, to: f64, slides: f64) -> f64 {
    let from = if from * to <= 0.0 { 0.0 } else { from.signum() * from.abs().min(to.abs()) };
    from + (to - from).clamp(-slides, slides)
}

fn moved((x, y): Place, by_x: f64, by_y: f64) -> Place {
    (x + by_x, y + by_y)
}

/// How far up the thumb of the throttle slides for this twist, px.
fn upwards(twist: i8) -> f64 {
    if twist.saturating_abs() < TWIST_LEAST {
        return 0.0;
    }
    let share = f64::from(twist.saturating_abs()) / 100.0;
    let way = TWIST_NEUTRAL_PX + (TWIST_FULL_PX - TWIST_NEUTRAL_PX) * share;
    if twist > 0 { way } else { -way }
}

/// How far to the right the thumb of the tiller slides for what is wanted, from the drive wheel's angle,
/// rad, px: found by trying, since the page's own curve is none of this rider's business.
fn across(wants: &Controls, steer: f64) -> f64 {
    let degrees = match wants.tiller {
        TillerAsk::Swing(swing) => steer / DEG + f64::from(swing) / 100.0 * SWING_AHEAD,
        TillerAsk::To(half_degrees) => f64::from(half_degrees) * 0.5,
    };
    if degrees.abs() < TILLER_LEAST {
        return 0.0;
    }
    let at = |px: f64| {
        let share = (px - TILLER_DEAD_PX) / (TILLER_FULL_PX - TILLER_DEAD_PX);
        share * (0.35 + 0.65 * share) * f64::from(TILLER_MAX_HALF_DEGREES) * 0.5
    };
    let (mut low, mut high) = (TILLER_DEAD_PX, TILLER_FULL_PX);
    for _ in 0..20 {
        let middle = 0.5 * (low + high);
        if at(middle) < degrees.abs() {
            low = middle;
        } else {
            high = middle;
        }
    }
    if degrees > 0.0 { -low } else { low }
}
