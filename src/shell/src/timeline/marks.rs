//! Findings as marks: a shape by severity, its name for who points at it or reads it aloud. No mark lies
//! on another: who stands too close moves aside or onto a line below, tied to its place by a stroke.

use coneyard_core::finding::Finding;
use leptos::prelude::*;

use super::scale::Scale;
use crate::parts::finding;
use crate::settings::use_settings;
use crate::words::{fine_time_text, k, say_with, tell, text, tr};

/// A mark is so wide and high, px: the least that a finger hits.
pub(super) const WIDE: f64 = 24.0;
/// From one line of marks to the next, px.
const LINE: f64 = 25.0;
/// Marks go onto one more line rather than this many widths aside, up to so many lines.
const ASIDE: f64 = 1.2;
const LINES: usize = 3;

/// Where a mark stands: share of the width, and line from the top.
type Spot = (f64, usize);

/// Places, which ascend, moved as little as can be (in squares) so that they are this far apart, and half
/// of it from the ends: Barlow and others' pooling of neighbours (1972).
fn apart(places: &[f64], width: f64) -> Vec<f64> {
    let mut pools: Vec<(f64, usize)> = Vec::new();
    for (n, place) in places.iter().enumerate() {
        let mut pool = (place - n as f64 * width, 1);
        while let Some((sum, count)) = pools.pop_if(|p| p.0 / p.1 as f64 > pool.0 / pool.1 as f64) {
            pool = (pool.0 + sum, pool.1 + count);
        }
        pools.push(pool);
    }
    let most = 1.0 - 0.5 * width - places.len().saturating_sub(1) as f64 * width;
    let starts = pools.into_iter().flat_map(|(sum, n)| core::iter::repeat_n(sum / n as f64, n));
    let inside = |start: f64| start.min(most).max(0.5 * width);
    starts.enumerate().map(|(n, start)| inside(start) + n as f64 * width).collect()
}

/// A spot for each of these places, which ascend, on so many lines.
fn on_lines(places: &[f64], width: f64, lines: usize) -> Vec<Spot> {
    let mut spots = vec![(0.0, 0); places.len()];
    for line in 0..lines {
        let mine: Vec<f64> = places.iter().copied().skip(line).step_by(lines).collect();
        for (n, place) in apart(&mine, width).into_iter().enumerate() {
            spots[line + n * lines] = (place, line);
        }
    }
    spots
}

/// A spot for each of these places, none over another.
fn spots(places: &[f64], width: f64) -> Vec<Spot> {
    let on_one = ((1.0 / width + 1e-9) as usize).max(1);
    let needed = places.len().div_ceil(on_one).max(1);
    let near = |spots: &Vec<Spot>| {
        spots.iter().zip(places).all(|((spot, _), place)| (spot - place).abs() <= ASIDE * width)
    };
    (needed..=LINES)
        .map(|lines| on_lines(places, width, lines))
        .find(near)
        .unwrap_or_else(|| on_lines(places, width, needed.max(LINES)))
}

/// The row of marks.
#[component]
pub(super) fn Marks(
    findings: Vec<Finding>,
    scale: Scale,
    /// Width of the timeline, px.
    #[prop(into)]
    wide: Signal<f64>,
    /// Shows the finding of this index.
    pick: Callback<usize>,
) -> impl IntoView {
    let settings = use_settings();
    let places: Vec<f64> = findings.iter().map(|f| scale.share(f.from)).collect();
    let placed = places.clone();
    let spots = Memo::new(move |_| spots(&placed, WIDE / wide.get().max(WIDE)));
    let spot = move |n: usize| spots.with(|all| all.get(n).copied().unwrap_or_default());
    let lines = move || spots.with(|all| all.iter().map(|s| s.1 + 1).max().unwrap_or(0));
    let high = move || LINE * lines() as f64 + 6.0;
    let ties = move || {
        let tie = |(n, place): (usize, &f64)| {
            let (along, line) = spot(n);
            let bottom = LINE * line as f64 + WIDE;
            format!("M{:.2} {bottom:.1}L{:.2} {:.1}", 100.0 * along, 100.0 * place, high())
        };
        places.iter().enumerate().map(tie).collect::<String>()
    };
    let marks = findings
        .into_iter()
        .enumerate()
        .map(|(n, f)| {
            let class = format!("mark-button {}", finding::class(f.severity));
            let mark = finding::mark(f.severity);
            let name = Memo::new(move |_| {
                let title = tell(&f, settings.with(|s| s.units)).title;
                let at = text(fine_time_text(f.from));
                say_with(k("timeline-mark"), vec![("title", text(title)), ("at", at)])
            });
            view! {
                <button
                    type="button"
                    class=class
                    title=name
                    aria-label=name
                    style:left=move || format!("{:.3}%", spot(n).0 * 100.0)
                    style:top=move || format!("{:.1}px", LINE * spot(n).1 as f64)
                    on:click=move |_| pick.run(n)
                >
                    {mark}
                </button>
            }
        })
        .collect_view();
    view! {
        <div
            class="marks"
            role="group"
            aria-label=tr("timeline-marks")
            style:height=move || format!("{:.1}px", high())
        >
            <svg
                class="ties"
                viewBox=move || format!("0 0 100 {:.1}", high())
                preserveAspectRatio="none"
                aria-hidden="true"
            >
                <path d=ties vector-effect="non-scaling-stroke" />
            </svg>
            {marks}
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_stands_alone_stands_at_its_place() {
        assert_eq!(spots(&[], 0.1), []);
        let at = |places: &[f64], expected: &[f64]| {
            for (spot, place) in spots(places, 0.1).iter().zip(expected) {
                assert!((spot.0 - place).abs() < 1e-9 && spot.1 == 0, "{spot:?} {place}");
            }
        };
        at(&[0.1, 0.5, 0.9], &[0.1, 0.5, 0.9]);
        // None hangs over the end.
        at(&[0.0, 1.0], &[0.05, 0.95]);
    }

    #[test]
    fn no_mark_lies_on_another_however_many_there_are() {
        let crowd: Vec<f64> = core::iter::repeat_n(0.3, 20)
            .chain((0..20).map(|n| 0.6 + 0.005 * f64::from(n)))
            .collect();
        for width in [0.01, 0.02, 0.06, 0.08, 0.3] {
            let spots = spots(&crowd, width);
            for (n, a) in spots.iter().enumerate() {
                assert!(a.0 >= 0.5 * width - 1e-9 && a.0 <= 1.0 - 0.5 * width + 1e-9, "{a:?}");
                for b in &spots[..n] {
                    assert!(a.1 != b.1 || (a.0 - b.0).abs() >= width - 1e-9, "{a:?} on {b:?}");
                }
            }
        }
    }

    #[test]
    fn marks_go_below_before_they_go_far_aside() {
        let spots = spots(&[0.5; 6], 0.05);
        assert!(spots.iter().all(|s| (s.0 - 0.5).abs() <= ASIDE * 0.05), "{spots:?}");
        assert_eq!(spots.iter().map(|s| s.1).max(), Some(1));
    }
}
