//! From the yard to the paper: metres, north up, become tenths of a millimetre from the drawing's
//! top left corner, so that sizes of text and marks are those on paper.

use std::fmt::Write;

use coneyard_core::math::{Vec2, vec2};

/// The drawing is at most this wide and this high, 0.1 mm: A4 less its margins is 1800 wide,
/// Letter is wider and less high, and heading and points stand on the same page.
pub(super) const WIDEST: f64 = 1_800.0;
pub(super) const HIGHEST: f64 = 1_000.0;

/// Where the drawing is in the yard.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Frame {
    /// North-west corner of the floor, m.
    corner: Vec2,
    /// Width and height of the floor, m.
    size: Vec2,
    /// Drawing units a metre.
    pub(super) scale: f64,
}

impl Frame {
    /// The frame that shows this floor as large as fits on paper.
    pub(super) fn of(south_west: Vec2, north_east: Vec2) -> Self {
        Self::within(south_west, north_east, WIDEST, HIGHEST)
    }

    /// The frame that shows this floor as large as fits into so much.
    pub(super) fn within(south_west: Vec2, north_east: Vec2, widest: f64, highest: f64) -> Self {
        let size = north_east - south_west;
        let size = vec2(size.x.max(1.0), size.y.max(1.0));
        Self {
            corner: vec2(south_west.x, north_east.y),
            size,
            scale: (widest / size.x).min(highest / size.y),
        }
    }

    /// Width of the drawing.
    pub(super) fn width(&self) -> f64 {
        self.size.x * self.scale
    }

    /// Height of the drawing.
    pub(super) fn height(&self) -> f64 {
        self.size.y * self.scale
    }

    /// A point of the yard in the drawing: x to the right, y downwards.
    pub(super) fn at(&self, p: Vec2) -> Vec2 {
        vec2((p.x - self.corner.x) * self.scale, (self.corner.y - p.y) * self.scale)
    }

    /// SVG path data of a line through these points; closed for an outline.
    pub(super) fn line(&self, points: &[Vec2], closed: bool) -> String {
        let mut data = String::with_capacity(points.len() * 14);
        for (n, p) in points.iter().enumerate() {
            let p = self.at(*p);
            // Writing to a string cannot fail.
            let _ = write!(data, "{}{:.1} {:.1}", if n == 0 { 'M' } else { 'L' }, p.x, p.y);
        }
        if closed && !points.is_empty() {
            data.push('Z');
        }
        data
    }

    /// Path data of several outlines together.
    pub(super) fn outlines<'a>(&self, all: impl IntoIterator<Item = &'a [Vec2]>) -> String {
        all.into_iter().map(|outline| self.line(outline, true)).collect()
    }

    /// Path data of discs with this radius, drawing units.
    pub(super) fn discs(&self, middles: &[Vec2], radius: f64) -> String {
        let mut data = String::with_capacity(middles.len() * 60);
        for p in middles {
            let p = self.at(*p);
            let (left, across) = (p.x - radius, 2.0 * radius);
            let _ = write!(
                data,
                "M{left:.1} {:.1}a{radius:.1} {radius:.1} 0 1 0 {across:.1} 0a{radius:.1} {radius:.1} 0 1 0 {:.1} 0Z",
                p.y, -across
            );
        }
        data
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn north_is_up_and_the_corners_are_the_drawings() {
        let frame = Frame::of(vec2(-10.0, -5.0), vec2(20.0, 5.0));
        assert_eq!(frame.scale, 60.0);
        assert_eq!(frame.at(vec2(-10.0, 5.0)), vec2(0.0, 0.0));
        assert_eq!(frame.at(vec2(20.0, -5.0)), vec2(frame.width(), frame.height()));
        assert_eq!((frame.width(), frame.height()), (WIDEST, 600.0));
        assert!(frame.at(vec2(0.0, 4.0)).y < frame.at(vec2(0.0, 3.0)).y);
    }

    #[test]
    fn a_high_floor_is_drawn_as_high_as_fits_and_keeps_its_proportions() {
        let frame = Frame::of(vec2(0.0, 0.0), vec2(10.0, 20.0));
        assert_eq!(frame.height(), HIGHEST);
        assert_eq!(frame.width() * 2.0, frame.height());
    }

    #[test]
    fn path_data_are_svgs() {
        let frame = Frame::of(vec2(0.0, 0.0), vec2(18.0, 1.0));
        let (a, b) = (vec2(0.0, 1.0), vec2(1.0, 0.0));
        assert_eq!(frame.line(&[a, b], false), "M0.0 0.0L100.0 100.0");
        assert_eq!(frame.line(&[a, b], true), "M0.0 0.0L100.0 100.0Z");
        assert_eq!(frame.line(&[], true), "");
        assert_eq!(
            frame.discs(&[b], 10.0),
            "M90.0 100.0a10.0 10.0 0 1 0 20.0 0a10.0 10.0 0 1 0 -20.0 0Z"
        );
    }
}
