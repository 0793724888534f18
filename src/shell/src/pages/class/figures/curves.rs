//! Learning: what a class comes to by the number of the attempt, for the exercises that most people drove more than once.
//! Each plot's numbers stand in a table under it.

use coneyard_core::class::figures::Curve;
use coneyard_core::class::learning::Step;
use leptos::prelude::*;

use crate::courses::use_library;
use crate::words::{k, number, say_with, steady_number, text, tr};

const WIDTH: f64 = 320.0;
const HEIGHT: f64 = 120.0;
const LEFT: f64 = 30.0;
const EDGE: f64 = 8.0;

/// Where points lie in the drawing, 0 to 100 upwards.
fn y_of(points: f64) -> f64 {
    EDGE + (100.0 - points.clamp(0.0, 100.0)) / 100.0 * (HEIGHT - 2.0 * EDGE)
}

/// Where the attempt of this number lies, of so many.
fn x_of(number: usize, of: usize) -> f64 {
    let gaps = of.saturating_sub(1).max(1) as f64;
    LEFT + EDGE + (number - 1) as f64 / gaps * (WIDTH - LEFT - 2.0 * EDGE)
}

/// The section; nothing where there is no curve yet.
#[component]
pub(super) fn Curves(curves: Vec<Curve>) -> impl IntoView {
    if curves.is_empty() {
        return None;
    }
    let plots = curves.into_iter().map(|curve| view! { <Plot curve /> }).collect_view();
    Some(view! {
        <section aria-labelledby="curves-title">
            <h2 id="curves-title">{tr("figures-curves")}</h2>
            <p class="quiet">{tr("figures-curves-more")}</p>
            <div class="plots">{plots}</div>
        </section>
    })
}

#[component]
fn Plot(curve: Curve) -> impl IntoView {
    let title = use_library().title(&curve.course);
    let count = curve.steps.len();
    let at = |s: &Step| (x_of(s.number, count), y_of(s.mean));
    let path: String = curve
        .steps
        .iter()
        .map(at)
        .enumerate()
        .map(|(n, (x, y))| format!("{}{x:.1} {y:.1}", if n == 0 { 'M' } else { 'L' }))
        .collect();
    let dots = curve
        .steps
        .iter()
        .map(at)
        .map(|(cx, cy)| view! { <circle class="dot" cx=cx cy=cy r="4" /> })
        .collect_view();
    let grid = [0.0, 50.0, 100.0]
        .into_iter()
        .map(|p| {
            view! {
                <line class="grid" x1=LEFT x2=WIDTH y1=y_of(p) y2=y_of(p) />
                <text class="label" x=LEFT - 5.0 y=y_of(p) + 4.0>
                    {p}
                </text>
            }
        })
        .collect_view();
    let rows = curve.steps.into_iter().map(step).collect_view();
    view! {
        <figure class="plot-card">
            <figcaption>{title}</figcaption>
            <svg viewBox=format!("0 0 {WIDTH} {HEIGHT}") aria-hidden="true">
                {grid}
                <path class="line" d=path />
                {dots}
            </svg>
            <details>
                <summary>{tr("figures-curves-table")}</summary>
                <table>
                    <thead>
                        <tr>
                            <th scope="col">{tr("figures-curves-number")}</th>
                            <th scope="col" class="num">
                                {tr("class-people")}
                            </th>
                            <th scope="col" class="num">
                                {tr("progress-total")}
                            </th>
                            <th scope="col" class="num">
                                {tr("figures-curves-gained")}
                            </th>
                        </tr>
                    </thead>
                    <tbody>{rows}</tbody>
                </table>
            </details>
        </figure>
    }
}

fn step(step: Step) -> impl IntoView {
    let nth = say_with(k("figures-curves-nth"), vec![("number", number(step.number as f64))]);
    let gained = step.gained().map(|gained| {
        let sign = if gained >= 0.05 { "+" } else { "" };
        let gained = vec![("points", text(format!("{sign}{}", steady_number(gained, 1))))];
        say_with(k("figures-curves-by"), gained)
    });
    view! {
        <tr>
            <th scope="row">{nth}</th>
            <td class="num">{step.people}</td>
            <td class="num">{steady_number(step.mean, 1)}</td>
            <td class="num">{gained}</td>
        </tr>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn attempts_lie_from_left_to_right_within_the_drawing() {
        let of = |count: usize| (1..=count).map(|n| x_of(n, count)).collect::<Vec<_>>();
        for count in [2, 3, 40] {
            let x = of(count);
            assert!(x.is_sorted() && x[0] > LEFT && x[count - 1] < WIDTH, "{x:?}");
        }
        assert!(y_of(100.0) < y_of(0.0) && y_of(0.0) < HEIGHT && y_of(140.0) > 0.0);
    }
}
