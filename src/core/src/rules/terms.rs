//! Words that several rules share.

use crate::course::warehouse::CHECK_REACH_M;
use crate::finding::Unit::{Count, Degree, Metre, MetrePerSecond, Second, Share};
use crate::rules::needs::{Need, need};

/// Words that several rules share, with their numbers in the site rules.
pub const TERMS: &[Need] = &[
    // The same fault again within this time is the same finding.
    need("again-after", Second, 0.0, 5.0),
    // How long after a fault something may still come of it.
    need("cause-within", Second, 0.0, 10.0),
    // At rest is no faster than this,
    need("rest-speed", MetrePerSecond, 0.001, 0.1),
    // and for this long.
    need("rest-for", Second, 0.0, 10.0),
    // The counting of opportunities: see `exposure`.
    need("stretch", Metre, 1.0, 1000.0),
    need("turn", Degree, 1.0, 80.0),
    need("stop-from", MetrePerSecond, 0.05, 3.0),
    need("near-person", Metre, 0.5, 50.0),
    // From which lower end of the share of clean opportunities on someone is ready; see
    // `score::certainty`.
    need("ready-from", Share, 0.1, 0.99),
    // What calls for the brake: see `service_brake`.
    need("called-near", Metre, 0.0, 50.0),
    need("called-soon", Second, 0.0, 10.0),
    need("called-out", Metre, 0.0, 50.0),
    need("called-for", Second, 0.0, 10.0),
    // Nearer to a crossing than this someone who walks to it steps on.
    need("steps-on", Metre, 0.0, 5.0),
    // How a check at a dock is made: see `yard::ways`. A course promises that each can be made
    // from so near; the looks of a head are a right angle apart.
    need("check-reach", Metre, CHECK_REACH_M, 30.0),
    need("check-time", Second, 0.0, 5.0),
    need("check-aside", Degree, 45.0, 90.0),
    // A point of a truck is looked at when the closer look at it lasts so long.
    need("look-closer", Second, 0.0, 5.0),
    // Seeing the way ahead: see `yard::eye`. The field of view reaches no farther to a side.
    need("remembers", Second, 0.0, 10.0),
    need("looks-along", Degree, 10.0, 95.0),
    // What a pre-test asks for besides points: see `pretest::joined`.
    need("time-ratio", Share, 0.5, 0.99),
    need("pauses", Count, 0.0, 1.0),
    // What is wrong for long counts again after so much way,
    need("spell-metres", Metre, 1.0, 1000.0),
    // or after this time, whichever comes first.
    need("spell-seconds", Second, 1.0, 600.0),
    // A drive that was broken off, or ran out of time, counts as practice only from so much way on.
    need("counts-from", Metre, 0.0, 1000.0),
    // Someone who stands is noticed within this angle of where the rider looks;
    need("notices", Degree, 10.0, 95.0),
    // farther aside only who moves faster than this,
    need("notices-moving", MetrePerSecond, 0.0, 3.0),
    // and so much later.
    need("notices-after", Second, 0.0, 5.0),
    // Who comes from a side is looked for so far aside of the way.
    need("approach", Metre, 1.0, 20.0),
    // A drive with a critical finding has no more points than this in all.
    need("critical-total", Count, 0.0, 100.0),
    // So many major findings of one code a pre-test may have.
    need("majors-of-one-code", Count, 1.0, 100.0),
];
