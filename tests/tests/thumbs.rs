//! Two thumbs on a screen, driven without a screen: the same hands as in the browser's tests, which look at
//! the truck a few times a second and are late, and the same meaning of where a thumb lies.

use std::collections::VecDeque;

use coneyard_core::acts::Input;
use coneyard_core::controls::thumbs::{Place, Thumbs, TillerThumb, TwistThumb};
use coneyard_core::controls::{Controls, Side, TillerAsk};
use coneyard_core::debrief::Ending;
use coneyard_core::finding::Severity;
use coneyard_sim::Session;
use coneyard_tests::browser::thumbs::Fingers;
use coneyard_tests::drives::setup;
use coneyard_tests::thumb_hands::{Layout, TILLER, TWIST, ThumbHands};

const LAYOUT: Layout = Layout {
    tiller: (100.0, 600.0),
    twist: (300.0, 600.0),
    forks_down: (300.0, 450.0),
    stance: (200.0, 450.0),
};

/// The page's side: what fingers on it ask for.
struct Page {
    thumbs: Thumbs,
    stance: Side,
    on_stance: bool,
    forks_down: bool,
}

fn place((x, y): (f64, f64)) -> Place {
    Place { x, y }
}

impl Page {
    fn new(stance: Side) -> Self {
        Self { thumbs: Thumbs::default(), stance, on_stance: false, forks_down: false }
    }

    fn touched(&mut self, fingers: &Fingers) {
        match (fingers.get(&TILLER), &mut self.thumbs.tiller) {
            (Some(at), Some(thumb)) => thumb.slide(place(*at)),
            (Some(at), none) => *none = Some(TillerThumb::land(place(*at))),
            (None, thumb) => *thumb = None,
        }
        let twist = fingers.get(&TWIST).copied();
        self.forks_down = twist == Some(LAYOUT.forks_down);
        let on_stance = twist == Some(LAYOUT.stance);
        if on_stance && !self.on_stance {
            self.stance = match self.stance {
                Side::Left => Side::Right,
                Side::Right => Side::Left,
            };
        }
        self.on_stance = on_stance;
        let twist = twist.filter(|_| !self.forks_down && !on_stance);
        match (twist, &mut self.thumbs.twist) {
            (Some(at), Some(thumb)) => thumb.slide(place(at)),
            (Some(at), none) => *none = Some(TwistThumb::land(place(at), Side::Left)),
            (None, thumb) => *thumb = None,
        }
    }

    fn controls(&self) -> Controls {
        let tiller = self.thumbs.tiller().map_or(TillerAsk::Swing(0), TillerAsk::To);
        Controls {
            throttle: self.thumbs.twist(),
            tiller,
            arm: self.thumbs.arm(),
            stance: self.stance,
            horn: self.thumbs.horn(),
            forks_down: self.forks_down,
            ..Controls::default()
        }
    }
}

/// Drives a course with a look at the truck every so many ticks, each of which is acted on so many later;
/// the faults that were found.
fn faults(course: &str, every: u32, late: u32) -> Vec<String> {
    let setup = setup(course, "single", 1);
    let mut session = Session::new(&setup).expect("a shipped course can be driven");
    let mut hands = ThumbHands::new(&setup, LAYOUT, 7);
    let mut page = Page::new(session.moment().controls.stance);
    let mut coming: VecDeque<(u32, Fingers)> = VecDeque::new();
    let mut unseen = vec![session.moment().clone()];
    while session.ending().is_none() {
        let tick = session.moment().tick;
        if tick.is_multiple_of(every) {
            unseen.drain(..).for_each(|moment| hands.see(&moment));
            coming.push_back((tick + late, hands.fingers(session.moment())));
        }
        while let Some((_, fingers)) = coming.pop_front_if(|(at, _)| *at <= tick) {
            page.touched(&fingers);
        }
        session.step(Input { controls: page.controls(), acts: Vec::new() });
        unseen.push(session.moment().clone());
    }
    let faults = session.findings().iter().filter(|f| f.severity != Severity::Good);
    let faults = faults.map(|f| format!("{} at {}: {}", f.code, f.from, f.measured));
    let undone = (session.ending() != Some(Ending::Done)).then(|| "not done".to_owned());
    faults.chain(undone).collect()
}

/// Each of them with looks from 32 a second to 5 a second, and thumbs that are up to 0.16 s late.
#[test]
fn thumbs_that_are_a_little_late_drive_clean() {
    for course in ["straight", "emergency-stops", "figure-eight"] {
        for every in [2, 4, 6, 8, 12] {
            for late in [1, 3, 6, 10] {
                let found = faults(course, every, late);
                assert!(found.is_empty(), "{course}, every {every}, late {late}: {found:?}");
            }
        }
    }
}

#[test]
fn thumbs_that_are_half_a_second_late_do_not() {
    assert!(!faults("straight", 4, 32).is_empty());
}

/// Sets off into a bend, and from a tick on plugs to this twist, so much more in each, while the tiller goes from
/// 35 degrees to the middle as fast as it can; what was found, and the strongest jerk of the truck itself, m/s^3.
fn plugs_while_it_straightens(from: u32, a_tick: i8, to: i8) -> (usize, f64) {
    let mut session = Session::new(&setup("straight", "single", 1)).expect("it can be driven");
    let mut throttle = 100;
    let mut longways = Vec::new();
    for tick in 0..260 {
        if tick >= from && throttle > -to {
            throttle = (throttle - a_tick).max(-to);
        }
        let angle = if (from - 30..from + 20).contains(&tick) { 70 } else { 0 };
        let tiller = TillerAsk::To(angle);
        let controls = Controls { throttle, tiller, ..Controls::default() };
        let moment = session.step(Input { controls, acts: Vec::new() });
        if moment.truck.plugging {
            longways.push(moment.truck.accel_long);
        }
    }
    let jerk = longways.windows(17).map(|w| (w[16] - w[0]).abs() / 0.25).fold(0.0, f64::max);
    (session.findings().iter().filter(|f| f.code == "plugging-jerk").count(), jerk)
}

#[test]
fn turning_the_tiller_while_plugging_is_no_jerk_and_snatching_the_throttle_is() {
    let (found, jerk) = plugs_while_it_straightens(180, 4, 25);
    assert_eq!(found, 0);
    assert!(jerk > 6.0, "the truck itself jerks, by {jerk}, or this says nothing");
    assert_eq!(plugs_while_it_straightens(90, 100, 100).0, 1);
}
