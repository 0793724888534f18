//! The rider from above: boots on the platform, shoulders, head with a peak that shows where the
//! rider looks, and both hands on the tiller. Stepping across is a walk from side to side.

use bevy::prelude::*;
use coneyard_core::controls::Side;
use coneyard_core::truck::arm::ArmZone;
use coneyard_core::truck::spec::TruckSpec;
use coneyard_core::yard::frame::Frame;

use super::ink::Ink;
use super::{Layer, Painter, Scene, Shown, Which, arm};
use crate::palette::Palette;

/// A part of the rider.
#[derive(Component, Clone, Copy)]
pub(super) struct Limb {
    which: Which,
    kind: Kind,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Kind {
    Boot(Hand),
    Torso,
    Upper(Hand),
    Fore(Hand),
    Hand(Hand),
    Head,
}

#[derive(Clone, Copy, PartialEq, Eq)]
enum Hand {
    Left,
    Right,
}

impl Hand {
    /// +1 on the rider's left.
    fn sign(self) -> f32 {
        match self {
            Hand::Left => 1.0,
            Hand::Right => -1.0,
        }
    }
}

/// Middle of a stance, m from the platform's middle.
const STANCE: f32 = 0.19;

/// Shoulder joint, m from the spine.
const SHOULDER: f32 = 0.19;

/// Length of upper arm and of forearm as seen from above, m.
const BONE: f32 = 0.27;

/// The grips are this far from the tiller's middle, m.
const GRIP: f32 = 0.15;

/// Off the platform, the rider stands this far beside the truck, m.
const BESIDE: f32 = 0.42;

/// Puts the rider on a truck.
pub(super) fn put(
    truck: &mut ChildSpawnerCommands,
    painter: &mut Painter,
    which: Which,
    p: &Palette,
) {
    let mut kinds = vec![(Kind::Torso, torso(p), Layer::Torso), (Kind::Head, head(p), Layer::Head)];
    for hand in [Hand::Left, Hand::Right] {
        kinds.push((Kind::Boot(hand), boot(p), Layer::Feet));
        kinds.push((Kind::Upper(hand), bone(0.115, p.vest, p), Layer::Arms));
        kinds.push((Kind::Fore(hand), bone(0.092, p.trousers, p), Layer::Sleeves));
        kinds.push((Kind::Hand(hand), palm(p), Layer::Hands));
    }
    for (kind, ink, layer) in kinds {
        truck.spawn((Limb { which, kind }, painter.piece(ink, layer)));
    }
}

/// Moves the riders.
pub(super) fn place(
    scene: Res<Scene>,
    shown: Res<Shown>,
    mut limbs: Query<(&Limb, &mut Transform)>,
) {
    for (limb, mut transform) in &mut limbs {
        let (Some(frame), Some(spec)) = (shown.frame_of(limb.which), scene.truck_of(limb.which))
        else {
            continue;
        };
        let pose = Posture::of(frame, spec);
        let mut here = pose.local(limb.kind);
        here.translation.z = transform.translation.z;
        transform.set_if_neq(here);
    }
}

/// Where the rider's joints are, body frame of the truck, m.
struct Posture {
    hips: Vec2,
    spine: Vec2,
    facing: f32,
    look: f32,
    hands: [Vec2; 2],
    stride: f32,
    /// The way the boots point.
    stand: f32,
}

impl Posture {
    fn of(frame: &Frame, spec: &TruckSpec) -> Self {
        if !frame.aboard {
            return Self::beside(frame, spec);
        }
        let side = |s: Side| if s == Side::Left { STANCE } else { -STANCE };
        let to = side(frame.stance);
        let gone = frame.step_phase.clamp(0.0, 1.0) as f32;
        let eased = gone * gone * (3.0 - 2.0 * gone);
        let low = frame.arm_zone == ArmZone::LowerBrake;
        // Sinking at the knees moves the hips back.
        let hips = Vec2::new(
            spec.geometry.platform_x_m as f32 - if low { 0.14 } else { 0.09 },
            -to + 2.0 * to * eased,
        );
        let grips = arm::grips_on_truck(frame, spec);
        let steer = frame.steer as f32;
        // Both hands stay on the tiller unless it has been let go and stands upright.
        let let_go = frame.arm_zone == ArmZone::UpperBrake;
        let reach = grips - hips;
        // What the arms cannot reach, the body leans.
        let lean = if let_go { 0.0 } else { (reach.length() - 0.42).clamp(0.0, 0.3) };
        let spine = hips + reach.normalize_or_zero() * lean;
        let facing = if let_go { 0.0 } else { (grips - spine).to_angle().clamp(-1.0, 1.0) };
        let across = Vec2::from_angle(steer).perp() * GRIP;
        let hands = if let_go {
            [1.0, -1.0].map(|s| spine + Vec2::from_angle(facing).rotate(Vec2::new(0.24, 0.15 * s)))
        } else {
            // The hand on the left takes the grip that lies to the left.
            let left = if across.y >= 0.0 { across } else { -across };
            [grips + left, grips - left]
        };
        let look = frame.head as f32;
        let stride = (gone * core::f32::consts::PI).sin() * to.signum();
        Self { hips, spine, facing, look, hands, stride, stand: 0.0 }
    }

    /// Off the platform: on the floor at the side that the rider stood on, hands down.
    fn beside(frame: &Frame, spec: &TruckSpec) -> Self {
        let g = &spec.geometry;
        let side = if frame.stance == Side::Left { 1.0 } else { -1.0 };
        let out = 0.5 * g.chassis_width_m as f32 + BESIDE;
        let spine = Vec2::new(g.platform_x_m as f32, side * out);
        let facing = side * core::f32::consts::FRAC_PI_2;
        let hand = |s: f32| spine + Vec2::from_angle(facing).rotate(Vec2::new(0.16, 0.2 * s));
        Self {
            hips: spine,
            spine,
            facing,
            look: facing,
            hands: [hand(1.0), hand(-1.0)],
            stride: 0.0,
            stand: facing,
        }
    }

    fn shoulder(&self, hand: Hand) -> Vec2 {
        self.spine + Vec2::from_angle(self.facing).perp() * SHOULDER * hand.sign()
    }

    /// Where the elbow is: outside the straight line from shoulder to hand.
    fn elbow(&self, hand: Hand) -> Vec2 {
        let (a, b) = (self.shoulder(hand), self.hand(hand));
        let half = (b - a) * 0.5;
        let out = (BONE * BONE - half.length_squared()).max(0.0).sqrt().min(0.12);
        a + half + half.perp().normalize_or_zero() * out * hand.sign()
    }

    fn hand(&self, hand: Hand) -> Vec2 {
        self.hands[usize::from(hand == Hand::Right)]
    }

    fn local(&self, kind: Kind) -> Transform {
        let put = |at: Vec2, turn: f32| {
            Transform::from_translation(at.extend(0.0)).with_rotation(Quat::from_rotation_z(turn))
        };
        let span = |a: Vec2, b: Vec2| {
            put(a, (b - a).to_angle()).with_scale(Vec3::new(a.distance(b).max(0.01), 1.0, 1.0))
        };
        match kind {
            // While stepping, the boots come together and part again.
            Kind::Boot(h) => {
                let apart = 0.115 * h.sign() * (1.0 - 0.7 * self.stride.abs());
                let at = Vec2::from_angle(self.stand).rotate(Vec2::new(0.03, apart));
                put(self.hips + at, self.stand + 0.12 * h.sign())
            }
            Kind::Torso => put(self.spine, self.facing),
            Kind::Upper(h) => span(self.shoulder(h), self.elbow(h)),
            Kind::Fore(h) => span(self.elbow(h), self.hand(h)),
            Kind::Hand(h) => put(self.hand(h), 0.0),
            Kind::Head => put(self.spine + Vec2::from_angle(self.facing) * 0.05, self.look),
        }
    }
}

fn boot(p: &Palette) -> Ink {
    let mut ink = Ink::default();
    ink.slab(Vec2::new(-0.1, -0.052), Vec2::new(0.18, 0.052), 0.05, p.boot);
    ink
}

/// Shoulders in a lime vest with two pale bands.
fn torso(p: &Palette) -> Ink {
    let mut ink = Ink::default();
    ink.blur(Vec2::ZERO, Vec2::new(0.26, 0.36), p.shadow);
    ink.slab(Vec2::new(-0.13, -0.245), Vec2::new(0.13, 0.245), 0.13, p.body_edge);
    ink.slab(Vec2::new(-0.116, -0.231), Vec2::new(0.116, 0.231), 0.116, p.vest);
    for y in [-0.135_f32, 0.135] {
        ink.slab(Vec2::new(-0.108, y - 0.024), Vec2::new(0.108, y + 0.024), 0.01, p.vest_band);
    }
    ink
}

/// One metre of arm along +x with an edge; it is scaled to the length that is seen.
fn bone(width: f32, colour: crate::palette::Colour, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    let h = 0.5 * width;
    ink.slab(Vec2::new(-0.06, -h - 0.01), Vec2::new(1.06, h + 0.01), 0.0, p.body_edge);
    ink.slab(Vec2::new(-0.05, -h + 0.002), Vec2::new(1.05, h - 0.002), 0.0, colour);
    ink
}

fn palm(p: &Palette) -> Ink {
    let mut ink = Ink::default();
    ink.disc(Vec2::ZERO, 0.055, p.boot);
    ink.disc(Vec2::ZERO, 0.043, p.skin);
    ink
}

/// A capped head looking along +x.
fn head(p: &Palette) -> Ink {
    let mut ink = Ink::default();
    ink.disc(Vec2::new(0.03, 0.0), 0.1, p.skin);
    // The peak.
    let peak: Vec<Vec2> = (0..=10)
        .map(|i| {
            Vec2::new(0.045, 0.0)
                + Vec2::new(0.155, 0.1) * Vec2::from_angle((i as f32 / 10.0 - 0.5) * 2.6)
        })
        .collect();
    ink.area(&peak, p.cap_peak);
    ink.disc(Vec2::ZERO, 0.115, p.cap_peak);
    ink.disc(Vec2::ZERO, 0.104, p.cap);
    ink.disc(Vec2::ZERO, 0.02, p.cap_peak);
    ink
}
