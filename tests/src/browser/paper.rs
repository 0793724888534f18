//! What a printed page is measured by.

/// Sizes of paper as a PDF has them, points of 1/72 in: 210 mm by 297 mm, and 8.5 in by 11 in.
pub const PAPERS: [(&str, f64, f64); 2] = [("a4", 595.0, 842.0), ("letter", 612.0, 792.0)];

/// Width and height of every page of a PDF, points.
pub fn page_sizes(pdf: &[u8]) -> Vec<(f64, f64)> {
    let text = String::from_utf8_lossy(pdf);
    text.split("/MediaBox")
        .skip(1)
        .map(|after| {
            let inside = after.split(['[', ']']).nth(1).unwrap_or_default();
            let corners: Vec<f64> =
                inside.split_whitespace().filter_map(|number| number.parse().ok()).collect();
            let &[left, bottom, right, top] = corners.as_slice() else {
                panic!("a MediaBox has four numbers, not {inside}");
            };
            (right - left, top - bottom)
        })
        .collect()
}
