//! Something that may rock along or across the truck: a column, or a whole wrapped load. It rocks
//! along one of the two at a time, the one in which the push first lifted it.

use crate::load::event::Towards;
use crate::load::rock::{Block, Lean};
use crate::math::{G, Vec2};
use crate::state;

/// State of rocking.
#[derive(Clone, Debug, PartialEq)]
pub struct Tilt {
    /// Seen along x, plus towards the backrest.
    pub lengthwise: Block,
    /// Seen along y, plus towards the left.
    pub across: Block,
    /// It rocks along x.
    pub is_lengthwise: bool,
    /// How it stands.
    pub lean: Lean,
    /// Farthest lean since it lifted off, over alpha.
    pub peak: f64,
    /// It leans so far that it falls.
    pub lost: bool,
}

/// What a step brought.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Tilted {
    /// It lifted off.
    pub began: bool,
    /// It stands again, after this peak.
    pub ended: Option<f64>,
    /// It is lost since this step.
    pub lost: bool,
}

impl Tilt {
    /// A standing thing.
    pub fn new(lengthwise: Block, across: Block) -> Self {
        Self {
            lengthwise,
            across,
            is_lengthwise: true,
            lean: Lean::default(),
            peak: 0.0,
            lost: false,
        }
    }

    /// The push over g that first lifts it off, in the weakest direction.
    pub fn least_uplift(&self) -> f64 {
        let of = |b: &Block| b.edges[0].uplift.min(b.edges[1].uplift);
        of(&self.lengthwise).min(of(&self.across))
    }

    /// Which way it leans, or leant last.
    pub fn way(&self) -> Towards {
        match (self.is_lengthwise, self.lean.over_minus) {
            (true, false) => Towards::Backrest,
            (true, true) => Towards::Tips,
            (false, false) => Towards::Left,
            (false, true) => Towards::Right,
        }
    }

    /// How far it leans, as a share of the angle from which it does not come back, along x and y.
    pub fn leans(&self) -> Vec2 {
        if self.lean.is_standing() {
            return Vec2::default();
        }
        let alpha = self.block().edges[usize::from(self.lean.over_minus)].alpha;
        let share = (self.lean.angle / alpha).min(2.0);
        let signed = if self.lean.over_minus { -share } else { share };
        if self.is_lengthwise { Vec2 { x: signed, y: 0.0 } } else { Vec2 { x: 0.0, y: signed } }
    }

    fn block(&self) -> &Block {
        if self.is_lengthwise { &self.lengthwise } else { &self.across }
    }

    /// It is put down upright.
    pub fn stand(&mut self) {
        self.lean = Lean::default();
        (self.peak, self.lost) = (0.0, false);
    }

    /// One step under a push, m/s^2. It lifts off only where it does not slide first, which is
    /// where `grip`, the friction factor at rest under it, is above b / h, and only to a side that
    /// `is_free`. It is put down when it swings over to a side that `is_walled`.
    pub fn step(
        &mut self,
        push: Vec2,
        grip: f64,
        is_free: impl Fn(Towards) -> bool,
        is_walled: impl Fn(Towards) -> bool,
        dt: f64,
    ) -> Tilted {
        let mut tilted = Tilted::default();
        if self.lean.is_standing() {
            let Some(way) = self.lifts_off(push, grip, is_free) else { return tilted };
            self.is_lengthwise = way.is_lengthwise();
            (self.peak, self.lost) = (0.0, false);
            tilted.began = true;
        }
        let along = if self.is_lengthwise { push.x } else { push.y };
        let block = *self.block();
        let side_before = self.lean.over_minus;
        self.lean.step(&block, along, dt);
        if !tilted.began && self.lean.over_minus != side_before && is_walled(self.way()) {
            (self.lean.angle, self.lean.rate) = (0.0, 0.0);
        }
        let alpha = block.edges[usize::from(self.lean.over_minus)].alpha;
        self.peak = self.peak.max(self.lean.angle / alpha);
        if self.lean.is_standing() {
            tilted.ended = Some(self.peak);
            self.lost = false;
        } else if !self.lost && self.lean.is_lost(&block, along) {
            self.lost = true;
            tilted.lost = true;
        }
        tilted
    }

    /// The way in which a standing thing lifts off most readily; None when it stays.
    fn lifts_off(
        &self,
        push: Vec2,
        grip: f64,
        is_free: impl Fn(Towards) -> bool,
    ) -> Option<Towards> {
        let along = |push: f64, block: &Block, plus: Towards, minus: Towards| {
            let uplift = block.edges[usize::from(push < 0.0)].uplift;
            (push.abs() / (G * uplift), uplift, if push < 0.0 { minus } else { plus })
        };
        let sides = [
            along(push.x, &self.lengthwise, Towards::Backrest, Towards::Tips),
            along(push.y, &self.across, Towards::Left, Towards::Right),
        ];
        let mut best = None;
        let mut most = 1.0;
        for (ratio, uplift, way) in sides {
            if ratio > most && uplift < grip && is_free(way) {
                most = ratio;
                best = Some(way);
            }
        }
        best
    }
}

state!(Tilt { lengthwise, across, is_lengthwise, lean, peak, lost });
