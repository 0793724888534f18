//! How the yard lies on the screen: what takes a place of it to a point of the page and back, whichever way the picture
//! is turned.

use coneyard_core::math::{Vec2, vec2};

use crate::canvas;

/// It is asked for at places so far apart, m: what they are apart on the screen is then told exactly enough.
const APART: f64 = 10.0;
/// A picture in which a metre is smaller than this shows nothing, CSS pixels.
const LEAST_PX: f64 = 0.1;

/// How the yard lies on a part of the page, CSS pixels from its top left corner, x to the right and y downwards.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Lie {
    /// Where the yard's origin is.
    origin: Vec2,
    /// A metre to the east.
    east: Vec2,
    /// A metre to the north.
    north: Vec2,
}

impl Lie {
    /// As it was drawn last, on this part of the page; None before there is a picture.
    pub(super) fn on(part: &web_sys::Element) -> Option<Self> {
        let canvas = leptos::prelude::document().get_element_by_id("yard")?;
        let (yard, part) = (canvas.get_bounding_client_rect(), part.get_bounding_client_rect());
        let at = |x: f64, y: f64| {
            let [right, down] = canvas::place_in_picture(x, y)?;
            Some(vec2(
                yard.left() - part.left() + right * yard.width(),
                yard.top() - part.top() + down * yard.height(),
            ))
        };
        Self::of(at(0.0, 0.0)?, at(APART, 0.0)?, at(0.0, APART)?)
    }

    /// From where the origin is, and the places ten metres east and north of it; None where nothing could be seen.
    fn of(origin: Vec2, east: Vec2, north: Vec2) -> Option<Self> {
        let lie = Self {
            origin,
            east: (east - origin) * (1.0 / APART),
            north: (north - origin) * (1.0 / APART),
        };
        (lie.east.cross(lie.north).abs() > LEAST_PX * LEAST_PX).then_some(lie)
    }

    /// Where a place of the yard, m, is on the screen.
    pub(super) fn on_screen(&self, place: Vec2) -> Vec2 {
        self.origin + self.east * place.x + self.north * place.y
    }

    /// Which place of the yard, m, is at a point of the screen.
    pub(super) fn in_yard(&self, point: Vec2) -> Vec2 {
        self.way(point - self.origin)
    }

    /// Which way of the yard, m, is this way on the screen.
    fn way(&self, on_screen: Vec2) -> Vec2 {
        let whole = self.east.cross(self.north);
        vec2(on_screen.cross(self.north) / whole, self.east.cross(on_screen) / whole)
    }

    /// So far in the yard, m, into this direction of the screen.
    pub(super) fn step(&self, towards: Vec2, by: f64) -> Vec2 {
        self.way(towards).normalized() * by
    }
}

#[cfg(test)]
mod tests {
    use coneyard_core::math::DEG;

    use super::*;

    /// A picture turned by so much, rad, with so many pixels a metre.
    fn turned(by: f64, pixels: f64) -> Lie {
        let origin = vec2(400.0, 300.0);
        // On a screen y goes downwards.
        let at = |p: Vec2| {
            let p = p.rotated(-by) * pixels;
            origin + vec2(p.x, -p.y)
        };
        Lie::of(origin, at(vec2(APART, 0.0)), at(vec2(0.0, APART))).unwrap()
    }

    #[test]
    fn a_place_comes_back_whichever_way_the_picture_is_turned() {
        for by in [0.0, 30.0, 90.0, 200.0, -75.0] {
            for pixels in [8.0, 50.0] {
                let lie = turned(by * DEG, pixels);
                for place in [vec2(0.0, 0.0), vec2(12.5, -3.0), vec2(-7.0, 40.0)] {
                    let back = lie.in_yard(lie.on_screen(place));
                    assert!((back - place).length() < 1e-9, "{by}: {place:?} is {back:?}");
                }
            }
        }
    }

    #[test]
    fn right_on_the_screen_is_east_where_north_is_up() {
        let lie = turned(0.0, 50.0);
        assert_eq!(lie.on_screen(vec2(1.0, 1.0)), vec2(450.0, 250.0));
        assert!((lie.step(vec2(1.0, 0.0), 0.25) - vec2(0.25, 0.0)).length() < 1e-9);
        assert!((lie.step(vec2(0.0, -1.0), 0.25) - vec2(0.0, 0.25)).length() < 1e-9, "up is north");
        // Turned with a truck that drives east, its front is up.
        let lie = turned(-90.0 * DEG, 50.0);
        assert!((lie.step(vec2(0.0, -1.0), 1.0) - vec2(1.0, 0.0)).length() < 1e-9);
    }

    #[test]
    fn a_picture_without_size_shows_nothing() {
        let p = vec2(5.0, 5.0);
        assert_eq!(Lie::of(p, p, p), None);
        let (none, some) = (0.9 * LEAST_PX * APART, 1.1 * LEAST_PX * APART);
        for (long, seen) in [(none, false), (some, true)] {
            assert_eq!(Lie::of(p, p + vec2(long, 0.0), p - vec2(0.0, long)).is_some(), seen);
        }
    }
}
