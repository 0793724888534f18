//! A drawing of two curves side by side, as SVG: points as a line with dots, passes as a broken line with
//! squares. It says by itself which colours it has on a light and on a dark page.

use std::fmt::Write as _;

use coneyard_sim::curves::Point;

/// A drawing.
pub(super) struct Sheet<'a> {
    pub(super) title: String,
    pub(super) left: Curve<'a>,
    pub(super) right: Curve<'a>,
}

/// One curve, with what stands below its axis.
pub(super) struct Curve<'a> {
    pub(super) axis: &'static str,
    pub(super) points: &'a [Point],
}

/// Size of the drawing, and of the field of one curve, px.
const SIZE: (f64, f64) = (760.0, 300.0);
const FIELD: (f64, f64) = (300.0, 190.0);
const TOP: f64 = 56.0;
const LEFT: [f64; 2] = [56.0, 432.0];

const STYLE: &str = "\
svg{font:12px system-ui,sans-serif}\
.page{fill:#fff}text{fill:#222}.grid{stroke:#ddd}.mark{stroke:#999;stroke-dasharray:2 4}\
.points{stroke:#1f5fa8}.dot{fill:#1f5fa8}.passes{stroke:#a34a00;stroke-dasharray:6 4}.square{fill:#a34a00}\
polyline{fill:none;stroke-width:2}\
@media(prefers-color-scheme:dark){\
.page{fill:#15191e}text{fill:#e6e6e6}.grid{stroke:#333a42}.mark{stroke:#777}\
.points{stroke:#7db4f0}.dot{fill:#7db4f0}.passes{stroke:#f0a860}.square{fill:#f0a860}}";

impl Sheet<'_> {
    /// The text of the file.
    pub(super) fn to_text(&self) -> String {
        let (width, height) = SIZE;
        let title = escaped(&self.title);
        let mut svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" role=\"img\">\n\
             <title>{title}: points and passes against delay and speed</title>\n<style>{STYLE}</style>\n\
             <rect class=\"page\" width=\"{width}\" height=\"{height}\"/>\n\
             <text x=\"16\" y=\"22\" font-weight=\"600\">{title}</text>\n"
        );
        legend(&mut svg);
        for (curve, left) in [&self.left, &self.right].into_iter().zip(LEFT) {
            field(&mut svg, curve, left);
        }
        svg.push_str("</svg>\n");
        svg
    }
}

fn legend(svg: &mut String) {
    let _ = writeln!(
        svg,
        "<polyline class=\"points\" points=\"56,40 80,40\"/><circle class=\"dot\" cx=\"68\" cy=\"40\" r=\"3.5\"/>\
         <text x=\"86\" y=\"44\">points, of 100</text>\n\
         <polyline class=\"passes\" points=\"190,40 214,40\"/>\
         <rect class=\"square\" x=\"199\" y=\"37\" width=\"6\" height=\"6\"/>\
         <text x=\"220\" y=\"44\">drives that pass, %</text>"
    );
}

fn field(svg: &mut String, curve: &Curve<'_>, left: f64) {
    let (width, height) = FIELD;
    let bottom = TOP + height;
    for value in [0, 20, 40, 60, 80, 100] {
        let y = bottom - height * f64::from(value) / 100.0;
        let _ = writeln!(
            svg,
            "<line class=\"grid\" x1=\"{left}\" y1=\"{y}\" x2=\"{}\" y2=\"{y}\"/>\
             <text x=\"{}\" y=\"{}\" text-anchor=\"end\">{value}</text>",
            left + width,
            left - 8.0,
            y + 4.0
        );
    }
    let _ = writeln!(
        svg,
        "<text transform=\"translate({} {}) rotate(-90)\" text-anchor=\"middle\">points; passes, %</text>",
        left - 40.0,
        TOP + 0.5 * height
    );
    let (Some(first), Some(last)) = (curve.points.first(), curve.points.last()) else { return };
    let across = (last.at - first.at).max(1e-9);
    let x = |p: &Point| left + width * (p.at - first.at) / across;
    for p in curve.points {
        let _ = writeln!(
            svg,
            "<text x=\"{:.1}\" y=\"{}\" text-anchor=\"middle\" font-size=\"10\">{}</text>",
            x(p),
            bottom + 16.0,
            p.at
        );
    }
    let _ = writeln!(
        svg,
        "<text x=\"{}\" y=\"{}\" text-anchor=\"middle\">{}</text>",
        left + 0.5 * width,
        bottom + 36.0,
        escaped(curve.axis)
    );
    let passes = |p: &Point| bottom - height * p.passes;
    let points = |p: &Point| bottom - height * p.points / 100.0;
    polyline(svg, "passes", curve.points.iter().map(|p| (x(p), passes(p))));
    polyline(svg, "points", curve.points.iter().map(|p| (x(p), points(p))));
    for p in curve.points {
        let _ = writeln!(
            svg,
            "<rect class=\"square\" x=\"{:.1}\" y=\"{:.1}\" width=\"6\" height=\"6\"/>\
             <circle class=\"dot\" cx=\"{:.1}\" cy=\"{:.1}\" r=\"3.5\"/>",
            x(p) - 3.0,
            passes(p) - 3.0,
            x(p),
            points(p)
        );
    }
}

fn polyline(svg: &mut String, class: &str, points: impl Iterator<Item = (f64, f64)>) {
    let points: Vec<String> = points.map(|(x, y)| format!("{x:.1},{y:.1}")).collect();
    let _ = writeln!(svg, "<polyline class=\"{class}\" points=\"{}\"/>", points.join(" "));
}

/// Text as it may stand in a file of marks.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_best_lies_at_the_top_and_the_worst_at_the_bottom() {
        let points = [
            Point { at: 0.0, points: 100.0, passes: 1.0 },
            Point { at: 2.0, points: 0.0, passes: 0.5 },
        ];
        let sheet = Sheet {
            title: "One & two <three>".to_owned(),
            left: Curve { axis: "delay, s", points: &points },
            right: Curve { axis: "speed", points: &points },
        };
        let text = sheet.to_text();
        assert!(text.contains("One &amp; two &lt;three&gt;"));
        assert!(text.contains("class=\"points\" points=\"56.0,56.0 356.0,246.0\""), "{text}");
        assert!(text.contains("class=\"passes\" points=\"432.0,56.0 732.0,151.0\""), "{text}");
        assert_eq!(text.matches("<circle").count(), 5);
    }
}
