//! What hangs over the rider.

use crate::notes::{Kind, Notes};
use crate::seen::{Fixed, Seen};

pub(crate) fn look(fixed: &Fixed, here: &Seen, notes: &mut Notes) {
    let low = fixed.beams.iter().filter(|(.., underside)| *underside < fixed.truck.rider_top);
    for (i, beam, underside) in low {
        if here.aboard && fixed.platform(here).meets(beam) {
            let lower = fixed.truck.rider_top - underside;
            notes.add(Kind::UnderBeam, *i, here.tick, (lower, true));
        }
    }
}
