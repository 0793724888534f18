//! Findings as marks: a shape by severity, its name for who points at it or reads it aloud.
//! Marks that would lie on each other are put on lines of their own.

use coneyard_core::finding::Finding;
use coneyard_core::time::Tick;
use leptos::prelude::*;

use super::scale::Scale;
use crate::parts::finding;
use crate::settings::use_settings;
use crate::words::{fine_time_text, k, say_with, tell, text, tr};

/// Share of the width that a mark takes up on a narrow screen: 24 px of 360.
const WIDTH: f64 = 24.0 / 360.0;
/// Lines of marks at most; what does not fit lies over others on the last.
const LINES: usize = 3;

/// The line for each of these places, which ascend.
fn lines(places: &[f64]) -> Vec<usize> {
    let mut ends = [f64::NEG_INFINITY; LINES];
    places
        .iter()
        .map(|place| {
            let line = ends.iter().position(|end| place - end >= WIDTH).unwrap_or(LINES - 1);
            ends[line] = *place;
            line
        })
        .collect()
}

/// The row of marks.
#[component]
pub(super) fn Marks(findings: Vec<Finding>, scale: Scale, seek: Callback<Tick>) -> impl IntoView {
    let settings = use_settings();
    let places: Vec<f64> = findings.iter().map(|f| scale.share(f.from)).collect();
    let lines = lines(&places);
    let used = lines.iter().max().map_or(0, |most| most + 1);
    let marks = findings
        .into_iter()
        .zip(places)
        .zip(lines)
        .map(|((f, place), line)| {
            let class = format!("mark-button {}", finding::class(f.severity));
            let (mark, from) = (finding::mark(f.severity), f.from);
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
                    style:left=format!("{:.3}%", place * 100.0)
                    style:top=format!("{:.1}rem", 1.6 * line as f64)
                    on:click=move |_| seek.run(from)
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
            style:height=format!("{:.1}rem", 1.6 * used as f64)
        >
            {marks}
        </div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_close_together_get_lines_of_their_own() {
        assert_eq!(lines(&[0.1, 0.11, 0.12, 0.13, 0.5]), [0, 1, 2, 2, 0]);
        assert_eq!(lines(&[]), [] as [usize; 0]);
        assert_eq!(lines(&[0.0, 0.2, 0.4]), [0, 0, 0]);
    }
}
