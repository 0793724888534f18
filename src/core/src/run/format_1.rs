//! Run files of format 1 had no acts: that something is wrong was said by a bit of the controls, held as
//! a button is. Here it becomes an act in every tick in which it was held, and back.

use crate::acts::{Act, Done};
use crate::controls::Controls;
use crate::run::Span;
use crate::time::Tick;

/// Its number.
pub const FORMAT: u32 = 1;

/// The bit in the code of the controls.
const REPORT: u32 = 1 << 29;

/// The code of one tick, as digests of that format have it.
pub fn bits(controls: Controls, acts: &[Act]) -> u32 {
    let report = acts.contains(&Act::Report);
    controls.to_bits() | if report { REPORT } else { 0 }
}

/// Takes the bit out of a code: whether it was there, and the rest.
pub fn split(bits: u32) -> (bool, u32) {
    (bits & REPORT != 0, bits & !REPORT)
}

/// Acts of a stretch of so many ticks after this one in which the bit was held or not.
pub fn acts(held: bool, after: Tick, ticks: Tick) -> impl Iterator<Item = Done> {
    let held = if held { ticks } else { 0 };
    (1..=held).map(move |n| Done { tick: after + n, act: Act::Report })
}

/// Spans of codes as that format has them: a span ends where the bit changes.
pub fn codes(spans: &[Span], acts: &[Done]) -> Vec<(u32, Tick)> {
    let mut codes: Vec<(u32, Tick)> = Vec::new();
    let mut acts = acts.iter().peekable();
    let mut tick = 0;
    for span in spans {
        for _ in 0..span.ticks {
            tick += 1;
            let mut now = Vec::new();
            while let Some(done) = acts.next_if(|done| done.tick == tick) {
                now.push(done.act.clone());
            }
            let code = bits(span.controls, &now);
            match codes.last_mut() {
                Some((last, ticks)) if *last == code => *ticks += 1,
                _ => codes.push((code, 1)),
            }
        }
    }
    codes
}
