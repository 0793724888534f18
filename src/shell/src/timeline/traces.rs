//! Traces: one value over the whole run, drawn as a line.

use coneyard_core::desk::Traces;
use coneyard_core::finding::Unit;
use coneyard_core::time::Tick;
use coneyard_core::words::Units;
use leptos::prelude::*;

use crate::words::{k, quantity, tr};

/// Width and height of a trace's own drawing; the page stretches it.
const WIDTH: f64 = 1_000.0;
const HEIGHT: f64 = 40.0;

/// A trace ready to be drawn.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Trace {
    /// Key of its name.
    name: &'static str,
    /// Its line, as an SVG path.
    line: String,
    /// Height of the line for zero, when zero is inside.
    zero: Option<f64>,
    /// Lowest and highest value drawn, in `unit`.
    low: f64,
    high: f64,
    unit: Unit,
}

/// The path of values, one every `every` ticks, over a run of `last` ticks, between `low` and
/// `high`.
fn line(values: &[f32], every: u32, last: Tick, low: f64, high: f64) -> String {
    let mut path = String::with_capacity(values.len() * 12);
    let (width, span) = (f64::from(last.max(1)), (high - low).max(f64::EPSILON));
    for (n, value) in values.iter().enumerate() {
        let x = (n as f64 * f64::from(every) / width * WIDTH).min(WIDTH);
        let y = HEIGHT - (f64::from(*value) - low) / span * HEIGHT;
        let command = if n == 0 { 'M' } else { 'L' };
        path.push_str(&format!("{command}{x:.1} {:.1}", y.clamp(0.0, HEIGHT)));
    }
    path
}

/// Lowest and highest of the values, with `least` inside, so that a flat line stays flat.
fn range(values: &[f32], least: (f64, f64)) -> (f64, f64) {
    values
        .iter()
        .map(|v| f64::from(*v))
        .filter(|v| v.is_finite())
        .fold(least, |(low, high), v| (low.min(v), high.max(v)))
}

/// The traces, in the order in which they stand.
pub(super) fn rows(traces: &Traces, last: Tick) -> Vec<Trace> {
    let trace = |name, values: &[f32], least, unit, factor: f32| {
        let scaled: Vec<f32> = values.iter().map(|v| v * factor).collect();
        let (low, high) = range(&scaled, least);
        Trace {
            name,
            line: line(&scaled, traces.every, last, low, high),
            zero: (low < 0.0 && high > 0.0).then(|| HEIGHT + low / (high - low) * HEIGHT),
            low,
            high,
            unit,
        }
    };
    vec![
        trace(k("trace-speed"), &traces.speed, (0.0, 1.0), Unit::MetrePerSecond, 1.0),
        trace(k("trace-throttle"), &traces.throttle, (-1.0, 1.0), Unit::Share, 0.01),
        trace(k("trace-tiller"), &traces.steer, (-45.0, 45.0), Unit::Degree, 1.0),
        trace(k("trace-arm"), &traces.arm, (0.0, 90.0), Unit::Degree, 1.0),
        trace(k("trace-look"), &traces.look, (-90.0, 90.0), Unit::Degree, 1.0),
        trace(k("trace-forks"), &traces.forks, (0.0, 0.1), Unit::Metre, 1.0),
    ]
}

/// The name of a trace with its range, beside the line.
#[component]
pub(super) fn Name(
    name: &'static str,
    ends: (f64, f64, Unit),
    units: Signal<Units>,
) -> impl IntoView {
    let (low, high, unit) = ends;
    let ends = move || {
        let units = units.get();
        format!("{} … {}", quantity(low, unit, units), quantity(high, unit, units))
    };
    view! {
        <li>
            {tr(name)} " " <span class="ends">{ends}</span>
        </li>
    }
}

impl Trace {
    /// Key of its name.
    pub(super) fn name(&self) -> &'static str {
        self.name
    }

    /// Lowest and highest value drawn, with their unit.
    pub(super) fn ends(&self) -> (f64, f64, Unit) {
        (self.low, self.high, self.unit)
    }
}

/// One trace's line.
#[component]
pub(super) fn Row(row: Trace) -> impl IntoView {
    let Trace { line, zero, .. } = row;
    view! {
        <svg
            class="trace"
            viewBox=format!("0 0 {WIDTH} {HEIGHT}")
            preserveAspectRatio="none"
            aria-hidden="true"
        >
            {zero
                .map(|y| {
                    view! { <line class="zero" x1="0" x2=WIDTH y1=y y2=y /> }
                })}
            <path class="line" d=line vector-effect="non-scaling-stroke" />
        </svg>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_runs_from_left_to_right_and_from_low_to_high() {
        assert_eq!(line(&[0.0, 1.0], 64, 64, 0.0, 1.0), "M0.0 40.0L1000.0 0.0");
        assert_eq!(line(&[], 1, 0, 0.0, 1.0), "");
    }

    #[test]
    fn a_range_keeps_the_least_and_leaves_out_what_is_no_number() {
        assert_eq!(range(&[0.2, f32::NAN, 0.4], (0.0, 1.0)), (0.0, 1.0));
        assert_eq!(range(&[-2.0, 3.0], (0.0, 1.0)), (-2.0, 3.0));
    }

    #[test]
    fn zero_lies_where_the_line_crosses_it() {
        let traces = Traces {
            every: 1,
            speed: vec![-1.0, 1.0],
            throttle: vec![],
            arm: vec![],
            steer: vec![],
            look: vec![],
            forks: vec![],
            path: vec![],
        };
        let rows = rows(&traces, 1);
        assert_eq!(rows[0].zero, Some(20.0));
        assert_eq!(rows[3].zero, None);
        assert_eq!(rows[2].zero, Some(20.0), "the tiller swings both ways");
    }
}
