//! What is watched beside the yard: the value of each gauge now, and how it went, as a curve with the same scale
//! on both sides.

use coneyard_core::finding::Unit;
use coneyard_core::lesson::Gauge;
use coneyard_core::lesson::scene::{
    ABOARD, ARM_DOWN, ARM_UP, At, BRAKES, Drawn, HORN, PLUGS, RIGHT, STEPS,
};
use coneyard_core::words::Units;
use leptos::prelude::*;

use crate::settings::use_settings;
use crate::words::{k, quantity, say, steady_number, tr};

/// Width and height of a curve's drawing.
const WIDE: f64 = 300.0;
const HIGH: f64 = 44.0;

fn name(gauge: Gauge) -> &'static str {
    match gauge {
        Gauge::Speed => k("dash-speed"),
        Gauge::Throttle => k("dash-throttle"),
        Gauge::Arm => k("dash-arm"),
        Gauge::Forks => k("dash-forks"),
        Gauge::Horn => k("dash-horn"),
        Gauge::Look => k("dash-look"),
        Gauge::Stance => k("dash-stance"),
    }
}

/// A number for the curve.
fn level(gauge: Gauge, at: &At) -> f64 {
    let is = |bit, value: f64| if at.is(bit) { value } else { 0.0 };
    match gauge {
        Gauge::Speed => f64::from(at.1[0]) / 100.0,
        Gauge::Throttle => f64::from(at.1[1]),
        Gauge::Arm => is(ARM_UP, 1.0) - is(ARM_DOWN, 1.0),
        Gauge::Forks => f64::from(at.1[2]) / 1000.0,
        Gauge::Horn => is(HORN, 1.0),
        Gauge::Look => f64::from(at.1[3]),
        Gauge::Stance if at.is(STEPS) || !at.is(ABOARD) => 0.0,
        Gauge::Stance => 1.0 - 2.0 * is(RIGHT, 1.0),
    }
}

/// The value in words.
fn word(gauge: Gauge, at: &At, units: Units) -> String {
    match gauge {
        Gauge::Speed => {
            let speed = quantity(level(gauge, at).abs(), Unit::MetrePerSecond, units);
            let how = if at.is(BRAKES) && at.1[0] != 0 {
                k("dash-braking")
            } else if at.is(PLUGS) && at.1[0] != 0 {
                k("dash-plugging")
            } else if at.1[0] < -3 {
                k("dash-forks-first")
            } else {
                return speed;
            };
            format!("{speed} · {}", say(how))
        }
        Gauge::Throttle => format!("{} %", steady_number(level(gauge, at), 0)),
        Gauge::Arm if at.is(ARM_UP) => say(k("dash-arm-upper")),
        Gauge::Arm if at.is(ARM_DOWN) => say(k("dash-arm-lower")),
        Gauge::Arm => say(k("dash-arm-driving")),
        Gauge::Forks => quantity(level(gauge, at), Unit::Metre, units),
        Gauge::Horn => say(if at.is(HORN) { k("lesson-horn-on") } else { k("lesson-horn-off") }),
        Gauge::Look => say(match at.1[3] {
            -25..=25 => k("dash-look-ahead"),
            26..=120 => k("dash-look-left"),
            -120..=-26 => k("dash-look-right"),
            _ => k("dash-look-behind"),
        }),
        Gauge::Stance if !at.is(ABOARD) => say(k("dash-stance-off")),
        Gauge::Stance if at.is(STEPS) => say(k("dash-stance-between")),
        Gauge::Stance if at.is(RIGHT) => say(k("dash-stance-right")),
        Gauge::Stance => say(k("dash-stance-left")),
    }
}

/// The curve of these levels between the least and the most of both sides, and the height of nought in it.
fn curve(levels: &[f64], (low, high): (f64, f64)) -> (String, f64) {
    let span = (high - low).max(1e-9);
    let y = |level: f64| 3.0 + (high - level) / span * (HIGH - 6.0);
    let along = (levels.len().saturating_sub(1)).max(1) as f64;
    let points = levels.iter().enumerate();
    let points = points.map(|(n, l)| {
        let (sign, x) = (if n == 0 { 'M' } else { 'L' }, WIDE * n as f64 / along);
        format!("{sign}{x:.1} {:.1}", y(*l))
    });
    (points.collect(), y(0.0))
}

/// Least and most of a gauge on both sides, nought among them.
fn reach(gauge: Gauge, sides: &[Drawn; 2]) -> (f64, f64) {
    let all = sides.iter().flat_map(|s| &s.truck).map(|at| level(gauge, at));
    let least = match gauge {
        Gauge::Arm | Gauge::Stance => (-1.0, 1.0),
        Gauge::Look => (-90.0, 90.0),
        Gauge::Horn => (0.0, 1.0),
        Gauge::Throttle => (0.0, 50.0),
        Gauge::Forks => (0.0, 0.06),
        Gauge::Speed => (0.0, 1.0),
    };
    all.fold(least, |(low, high), l| (low.min(l), high.max(l)))
}

/// The gauges of one side.
#[component]
pub(super) fn Gauges(
    /// What is watched.
    watch: Vec<Gauge>,
    /// Both sides, for the scale.
    sides: [Drawn; 2],
    /// Which of them.
    side: usize,
    /// The time, in places of the drive.
    #[prop(into)]
    now: Signal<f64>,
) -> impl IntoView {
    let settings = use_settings();
    let count = sides[side].truck.len();
    let long = sides.iter().map(|s| s.truck.len()).max().unwrap_or(1);
    let drawn = StoredValue::new(sides[side].truck.clone());
    let here = Memo::new(move |_| {
        let place = (now.get() as usize).min(count.saturating_sub(1));
        drawn.with_value(|all| all.get(place).copied())
    });
    let rows = watch
        .into_iter()
        .map(|gauge| {
            let levels: Vec<f64> =
                drawn.with_value(|all| all.iter().map(|at| level(gauge, at)).collect());
            let (data, nought) = curve(&levels, reach(gauge, &sides));
            // A drive that ends sooner has a shorter curve.
            let share = count.saturating_sub(1) as f64 / long.saturating_sub(1).max(1) as f64;
            let value = move || here.get().map(|at| word(gauge, &at, settings.with(|s| s.units)));
            let hand = move || {
                let x = (now.get() / long.saturating_sub(1).max(1) as f64).min(1.0) * WIDE;
                format!("M{x:.1} 0V{HIGH}")
            };
            view! {
                <div class="gauge">
                    <dt>{tr(name(gauge))}</dt>
                    <dd>
                        <span class="gauge-word">{value}</span>
                        <svg
                            class="gauge-curve"
                            viewBox=format!("0 0 {WIDE} {HIGH}")
                            preserveAspectRatio="none"
                            aria-hidden="true"
                        >
                            <path class="nought" d=format!("M0 {nought:.1}H{WIDE}") />
                            <path class="level" d=data transform=format!("scale({share:.3} 1)") />
                            <path class="hand" d=hand />
                        </svg>
                    </dd>
                </div>
            }
        })
        .collect_view();
    view! { <dl class="gauges">{rows}</dl> }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn at(speed: i32, bits: u16) -> At {
        At([0, 0, 0], [speed, 40, 50, -60, 0], bits)
    }

    #[test]
    fn each_gauge_tells_what_is_so() {
        assert_eq!(level(Gauge::Speed, &at(150, 0)), 1.5);
        assert_eq!(level(Gauge::Arm, &at(0, ARM_DOWN)), -1.0);
        assert_eq!(level(Gauge::Stance, &at(0, ABOARD | RIGHT)), -1.0);
        assert_eq!(level(Gauge::Stance, &at(0, ABOARD | RIGHT | STEPS)), 0.0);
        assert_eq!(level(Gauge::Stance, &at(0, RIGHT)), 0.0, "off the truck");
        assert_eq!(level(Gauge::Horn, &at(0, HORN)), 1.0);
        assert_eq!(level(Gauge::Look, &at(0, 0)), -60.0);
    }

    #[test]
    fn a_curve_goes_from_edge_to_edge_with_more_upwards() {
        let (data, nought) = curve(&[0.0, 1.0], (0.0, 1.0));
        assert_eq!(data, "M0.0 41.0L300.0 3.0");
        assert_eq!(nought, 41.0);
    }
}
