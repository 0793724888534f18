//! What is opaque round an eye, laid in slices of the round, so that whoever asks about a direction meets
//! only the few things that stand there. Their sides are worked out when one is first asked for.

use core::ops::ControlFlow;

use crate::math::Vec2;
use crate::sight::cover::Block;
use crate::sight::polygon::{sides_facing, walls};
use crate::sight::sides::{Gaze, Side, is_beyond, key};

/// Slices of the whole round, from key -2 to 2.
const SLICES: usize = 64;

/// Beside them, what is so near, or reaches across the ray backwards, that it is in no few slices.
const EVERYWHERE: usize = SLICES;

/// Keys of what is nearer than so many of its radii, measured along both axes, are not bounded.
const NEAR: f64 = 4.0;

/// More than any rounding of a key.
const ROUNDING: f64 = 1e-9;

/// No further entry in a slice; or sides that are not worked out.
const NONE: u32 = u32::MAX;

/// The slice that a key lies in: a greater key never lies in an earlier one.
fn slice(key: f64) -> usize {
    (((key + 2.0) * (SLICES as f64 / 4.0)).max(0.0) as u32 as usize).min(SLICES - 1)
}

/// A block within the field.
#[derive(Clone, Debug)]
struct Standing {
    outline: [Vec2; 4],
    /// All of it lies between these keys.
    from: f64,
    to: f64,
    /// The circle round it: how far its middle is, squared, m^2, and its radius, m.
    away_squared: f64,
    radius: f64,
    /// Of its slices the first.
    first: u32,
    /// Where its sides are among all, once they are worked out: from here, so many.
    begin: u32,
    sides: u32,
}

/// An entry of a slice: which block, and which entry comes next.
#[derive(Clone, Copy, Debug)]
struct Entry {
    block: u32,
    next: u32,
}

/// What stands round an eye.
#[derive(Clone, Debug, Default)]
pub(super) struct Round {
    gaze: Gaze,
    blocks: Vec<Standing>,
    /// The first entry of each slice, and of what is everywhere.
    heads: Vec<u32>,
    entries: Vec<Entry>,
    /// The floor's edge first, then what was asked for.
    sides: Vec<Side>,
    walls: usize,
}

impl Round {
    /// A look within a field that opens by `half` on either side. The floor is given by its south-west
    /// and north-east corners.
    pub(super) fn look<'a>(
        &mut self,
        (gaze, half): (Gaze, Vec2),
        floor: (Vec2, Vec2),
        blocks: impl Iterator<Item = &'a Block>,
    ) {
        self.begin(gaze, floor);
        for block in blocks {
            self.take(block, half);
        }
    }

    fn begin(&mut self, gaze: Gaze, floor: (Vec2, Vec2)) {
        self.gaze = gaze;
        self.blocks.clear();
        self.entries.clear();
        self.heads.clear();
        self.heads.resize(SLICES + 1, NONE);
        self.sides.clear();
        self.sides.extend(walls(gaze, floor));
        self.walls = self.sides.len();
    }

    /// Takes a block in unless it lies outside the field for certain, as most do: behind the rider.
    pub(super) fn take(&mut self, block: &Block, half: Vec2) {
        let middle = self.gaze.to_look(block.middle());
        if is_beyond(half, middle, block.radius()) {
            return;
        }
        let radius = block.radius();
        let along_both = middle.x.abs() + middle.y.abs();
        let place = key(middle);
        // A key changes by no more than 1/(|x| + |y|) a metre, and that sum by no more than the root of
        // two.
        let wide = radius / (along_both - 1.5 * radius) + ROUNDING;
        let (from, to) = (place - wide, place + wide);
        let is_bounded = along_both > NEAR * radius && from > -2.0 && to < 2.0;
        let slices = if is_bounded { slice(from)..=slice(to) } else { EVERYWHERE..=EVERYWHERE };
        let (from, to) = if is_bounded { (from, to) } else { (f64::NEG_INFINITY, f64::INFINITY) };
        let number = self.blocks.len() as u32;
        let first = *slices.start() as u32;
        let (outline, away_squared) = (block.outline, middle.dot(middle));
        let standing =
            Standing { outline, from, to, away_squared, radius, first, begin: 0, sides: NONE };
        self.blocks.push(standing);
        for head in &mut self.heads[slices] {
            let next = core::mem::replace(head, self.entries.len() as u32);
            self.entries.push(Entry { block: number, next });
        }
    }

    /// Goes through the sides that have something in common with a range of keys, until one of them ends
    /// it. Each comes once; those of what is nowhere nearer than `within`, m, may be left out.
    pub(super) fn each_between<B>(
        &mut self,
        (from, to): (f64, f64),
        within: f64,
        mut ask: impl FnMut(&Side) -> ControlFlow<B>,
    ) -> Option<B> {
        let mut ask_all = |sides: &[Side]| {
            let there = sides.iter().filter(|side| side.reaches_into(from, to));
            there.map(&mut ask).find_map(ControlFlow::break_value)
        };
        if let Some(told) = ask_all(&self.sides[..self.walls]) {
            return Some(told);
        }
        let (first, last) = (slice(from), slice(to));
        for here in (first..=last).chain([EVERYWHERE]) {
            let mut at = self.heads[here];
            while let Some(entry) = self.entries.get(at as usize) {
                at = entry.next;
                let block = &mut self.blocks[entry.block as usize];
                // In several slices: it counts in the first of them that is asked.
                let comes_again = here != (block.first as usize).max(first);
                let reach = within + block.radius;
                if comes_again
                    || block.from > to
                    || block.to < from
                    || block.away_squared > reach * reach
                {
                    continue;
                }
                if block.sides == NONE {
                    block.begin = self.sides.len() as u32;
                    for side in sides_facing(&block.outline, self.gaze) {
                        self.sides.push(side);
                    }
                    block.sides = self.sides.len() as u32 - block.begin;
                }
                let begin = block.begin as usize;
                if let Some(told) = ask_all(&self.sides[begin..begin + block.sides as usize]) {
                    return Some(told);
                }
            }
        }
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::{distance_to_segment, rectangle};
    use crate::math::{Pose, vec2};
    use crate::sight::polygon::HALF_FIELD;
    use rand::{RngExt, SeedableRng};
    use rand_chacha::ChaCha8Rng;

    /// Whatever stands there, each range of directions meets the same sides as if all were asked, but for
    /// what is too far away.
    #[test]
    fn every_side_in_a_direction_is_met_once() {
        let mut dice = ChaCha8Rng::seed_from_u64(7);
        let floor = (vec2(-30.0, -30.0), vec2(30.0, 30.0));
        let (mut met_in_all, mut left_out) = (0, 0);
        for _ in 0..200 {
            let look = Vec2::from_angle(dice.random_range(-3.0..3.0));
            let gaze = Gaze { eye: vec2(0.0, 0.0), look };
            let blocks: Vec<Block> = (0..60)
                .map(|i| {
                    let mut place = || dice.random_range(-20.0..20.0);
                    let pose = Pose { at: vec2(place(), place()), heading: place() };
                    Block::new(rectangle(pose, vec2(0.2 + 0.05 * f64::from(i), 1.0)))
                })
                .collect();
            let in_field =
                |b: &&Block| !is_beyond(HALF_FIELD, gaze.to_look(b.middle()), b.radius());
            let there = blocks.iter().filter(in_field);
            let all: Vec<Side> = walls(gaze, floor)
                .chain(there.flat_map(|b| sides_facing(&b.outline, gaze)))
                .collect();
            let mut round = Round::default();
            round.look((gaze, HALF_FIELD), floor, blocks.iter());
            for _ in 0..50 {
                let from = dice.random_range(-1.0..1.0);
                let to = from + dice.random_range(1e-9..0.3);
                let within = dice.random_range(0.0..40.0);
                let keys = |side: &Side| (side.from.key.to_bits(), side.to.key.to_bits());
                let mut met = Vec::new();
                let end = round.each_between((from, to), within, |side| {
                    met.push(keys(side));
                    ControlFlow::<()>::Continue(())
                });
                assert!(end.is_none());
                for side in all.iter().filter(|side| side.reaches_into(from, to)) {
                    let times = met.iter().filter(|k| **k == keys(side)).count();
                    let is_near = distance_to_segment(gaze.eye, side.from.at, side.to.at) < within;
                    assert!(times == 1 || times == 0 && !is_near, "{times} times, {side:?}");
                    left_out += 1 - times;
                }
                met_in_all += met.len();
            }
        }
        assert!(met_in_all > 10_000 && left_out > 10_000, "{met_in_all} met, {left_out} left out");
    }
}
