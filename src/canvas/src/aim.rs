//! Where the camera aims, and how much it sees: plain geometry.

use bevy::math::Vec2;
use coneyard_core::desk::View;

/// Metres seen across the shorter side.
const SPAN: f32 = 12.0;

/// The same on a phone: what is farther could not be made out.
const SPAN_SMALL: f32 = 9.0;

/// A shorter side below this counts as a phone, CSS pixels.
const SMALL_BELOW: f32 = 480.0;

/// Where all of a small yard is seen nearer than that, it is; but never from nearer than this part of it.
const NEAREST: f32 = 0.6;

/// So much is shown outside the floor's edge at most, m, or this part of what is seen where that is more: a
/// truck at the edge must not stand at the picture's, where thumbs and buttons are.
const RIM: f32 = 2.0;
/// See there.
const RIM_PART: f32 = 0.2;
/// And in an overview at least, m.
const RIM_OF_ALL: f32 = 1.0;

/// The truck stands so far behind the middle of what is free, as a part of it, when it drives this fast, m/s,
/// or faster: more of the way ahead is seen than of the way behind.
const BEHIND: f32 = 0.2;
/// See there.
const BEHIND_FROM: f32 = 1.5;

/// What the camera has to show, and on what.
pub(crate) struct Frame {
    /// How it is looked at.
    pub(crate) view: View,
    /// Width and height of the picture; only their ratio counts.
    pub(crate) size: Vec2,
    /// Its shorter side on the screen, CSS pixels.
    pub(crate) on_screen: f32,
    /// Two corners of the floor, m.
    pub(crate) floor: (Vec2, Vec2),
}

impl Frame {
    /// Width and height over the shorter side.
    fn ratio(&self) -> Vec2 {
        self.size / self.size.min_element().max(1.0)
    }

    /// The part of the picture's height that nothing lies over.
    fn free_share(&self) -> f32 {
        (1.0 - self.view.covered.top - self.view.covered.bottom).max(0.1) as f32
    }

    /// Metres across the shorter side so that all of the floor is seen in what is free.
    fn span_of_all(&self) -> f32 {
        let all = self.floor.1 - self.floor.0 + 2.0 * RIM_OF_ALL;
        (all / (self.ratio() * Vec2::new(1.0, self.free_share()))).max_element()
    }

    /// Metres across the shorter side.
    pub(crate) fn span(&self) -> f32 {
        let all = self.span_of_all();
        if self.view.overview {
            return all;
        }
        let usual = if self.on_screen < SMALL_BELOW { SPAN_SMALL } else { SPAN };
        self.view.zoom as f32 * usual.min(all.max(NEAREST * usual))
    }

    /// Width and height of what is seen and free, m.
    fn free(&self) -> Vec2 {
        self.ratio() * self.span() * Vec2::new(1.0, self.free_share())
    }

    /// How far before the truck the middle of what is free ought to be, m, in the yard. `heading` of the truck,
    /// rad, and its speed, m/s, power unit first positive.
    pub(crate) fn ahead(&self, heading: f32, speed: f32) -> Vec2 {
        let way = Vec2::from_angle(heading) * speed.signum();
        // As the picture lies: turned with the truck, its way is always up or down.
        let (free, in_picture) = (self.free(), way.rotate(Vec2::from_angle(-self.turn(heading))));
        let reach = (free / in_picture.abs().max(Vec2::splat(1e-3))).min_element();
        way * reach * BEHIND * (speed.abs() / BEHIND_FROM).min(1.0)
    }

    /// How the picture is turned, rad.
    pub(crate) fn turn(&self, heading: f32) -> f32 {
        if self.view.north_up || self.view.overview {
            0.0
        } else {
            heading - core::f32::consts::FRAC_PI_2
        }
    }

    /// Where the middle of the whole picture is, m, so that `followed` is in the middle of what is free, as far
    /// as the floor reaches.
    pub(crate) fn middle(&self, followed: Vec2, heading: f32) -> Vec2 {
        let (lo, hi) = self.floor;
        let at = if self.view.overview {
            0.5 * (lo + hi)
        } else if self.view.north_up {
            within_yard(followed, self.free(), lo, hi)
        } else {
            followed
        };
        // The middle of what is not covered, not that of the picture.
        let up = Vec2::from_angle(self.turn(heading)).perp();
        let covered = self.view.covered;
        let seen = self.ratio().y * self.span();
        at - up * (0.5 * (covered.bottom - covered.top) as f32 * seen)
    }
}

/// As near to `at` as the camera may be without showing more than a rim outside the floor; the
/// middle of the floor where all of it is seen.
fn within_yard(at: Vec2, seen: Vec2, floor_min: Vec2, floor_max: Vec2) -> Vec2 {
    let rim = (RIM_PART * seen).max(Vec2::splat(RIM));
    let room = 0.5 * (floor_max - floor_min - seen) + rim;
    let middle = 0.5 * (floor_min + floor_max);
    middle + (at - middle).clamp(-room.max(Vec2::ZERO), room.max(Vec2::ZERO))
}

#[cfg(test)]
mod tests {
    use coneyard_core::desk::Covered;

    use super::*;
    use crate::view::FIRST;

    const FLOOR: (Vec2, Vec2) = (Vec2::ZERO, Vec2::new(60.0, 40.0));

    fn frame(width: f32, height: f32, view: View) -> Frame {
        let size = Vec2::new(width, height);
        Frame { view, size, on_screen: size.min_element(), floor: FLOOR }
    }

    fn covered(top: f64, bottom: f64) -> View {
        View { covered: Covered { top, bottom }, ..FIRST }
    }

    /// Where a place is in the picture: shares from the left and from above.
    fn in_picture(f: &Frame, middle: Vec2, heading: f32, p: Vec2) -> Vec2 {
        let seen = f.ratio() * f.span();
        let at = (p - middle).rotate(Vec2::from_angle(-f.turn(heading)));
        Vec2::new(0.5, 0.5) + at / seen * Vec2::new(1.0, -1.0)
    }

    #[test]
    fn more_of_the_way_ahead_is_seen_than_behind_and_the_truck_stays_in_what_is_free() {
        let screens = [(1366.0, 768.0), (390.0, 844.0), (844.0, 390.0), (320.0, 256.0)];
        for ((width, height), (top, bottom)) in
            screens.into_iter().zip([(0.17, 0.11), (0.17, 0.38), (0.19, 0.15), (0.3, 0.0)])
        {
            for north_up in [true, false] {
                let f = frame(width, height, View { north_up, ..covered(top, bottom) });
                for (heading, speed) in [(0.0, 2.0), (1.571, 2.0), (2.3, -1.8), (-1.571, 0.7)] {
                    let truck = Vec2::new(30.0, 20.0);
                    let middle = f.middle(truck + f.ahead(heading, speed), heading);
                    let at = in_picture(&f, middle, heading, truck);
                    assert!((0.25..=0.75).contains(&at.x), "{width} x {height}: {at}");
                    let (lo, hi) = (top as f32, 1.0 - bottom as f32);
                    let free = (at.y - lo) / (hi - lo);
                    assert!((0.25..=0.75).contains(&free), "{width} x {height}: {at}");
                    let way = Vec2::from_angle(heading) * speed.signum();
                    let next = in_picture(&f, middle, heading, truck + way);
                    let mid = Vec2::new(0.5, 0.5 * (lo + hi));
                    assert!(next.distance(mid) < at.distance(mid), "it drives into the picture");
                }
            }
        }
    }

    #[test]
    fn a_truck_at_the_edge_of_the_floor_is_not_at_the_edge_of_the_picture() {
        for (width, height) in [(1366.0, 768.0), (844.0, 390.0), (390.0, 844.0)] {
            let f = frame(width, height, covered(0.2, 0.15));
            let truck = Vec2::new(2.7, 20.0);
            let at = in_picture(&f, f.middle(truck, 0.0), 0.0, truck);
            assert!((0.28..=0.5).contains(&at.x), "{width} x {height}: {at}");
        }
    }

    #[test]
    fn an_overview_shows_all_of_the_floor_in_what_is_free() {
        for (width, height) in [(1366.0, 768.0), (390.0, 844.0), (844.0, 390.0)] {
            let view = View { overview: true, north_up: false, ..covered(0.2, 0.3) };
            let f = frame(width, height, view);
            let middle = f.middle(Vec2::new(3.0, 4.0), 1.0);
            for corner in [FLOOR.0, FLOOR.1, Vec2::new(60.0, 0.0), Vec2::new(0.0, 40.0)] {
                let at = in_picture(&f, middle, 1.0, corner);
                assert!(at.x > 0.0 && at.x < 1.0 && at.y > 0.2 && at.y < 0.7, "{corner} at {at}");
            }
        }
    }

    #[test]
    fn a_small_yard_is_seen_from_nearer_and_a_zoom_changes_that() {
        let wide = frame(1366.0, 768.0, FIRST);
        assert_eq!(wide.span(), SPAN);
        let small =
            Frame { floor: (Vec2::ZERO, Vec2::new(14.0, 8.0)), ..frame(1366.0, 768.0, FIRST) };
        assert!((small.span() - 10.0).abs() < 1e-4, "{}", small.span());
        let tiny =
            Frame { floor: (Vec2::ZERO, Vec2::new(3.0, 2.0)), ..frame(1366.0, 768.0, FIRST) };
        assert!((tiny.span() - NEAREST * SPAN).abs() < 1e-4);
        let far = frame(1366.0, 768.0, View { zoom: 2.0, ..FIRST });
        assert_eq!(far.span(), 2.0 * SPAN);
        assert_eq!(frame(390.0, 844.0, FIRST).span(), SPAN_SMALL);
    }
}
