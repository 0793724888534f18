//! The truck's shapes, drawn from its specification about the load axle, +x to the power unit.

use bevy::math::Vec2;
use coneyard_core::truck::arm::ArmZone;
use coneyard_core::truck::spec::GeometryFile;

use super::chevron;
use super::ink::Ink;
use crate::palette::Palette;

fn at(x: f64, y: f64) -> Vec2 {
    Vec2::new(x as f32, y as f32)
}

pub(super) fn shadow(g: &GeometryFile, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    let w = 0.5 * g.chassis_width_m;
    ink.halo(at(g.backrest_x_m + 0.05, -w + 0.04), at(g.nose_x_m - 0.05, w - 0.04), 0.16, p.shadow);
    ink
}

/// One fork on each side, outer and inner edge, m.
fn fork_edges(g: &GeometryFile) -> [(f32, f32); 2] {
    let (outer, inner) = (0.5 * g.fork_spread_m, 0.5 * g.fork_spread_m - g.fork_width_m);
    [(inner as f32, outer as f32), (-(outer as f32), -(inner as f32))]
}

/// A fork's outline: straight, with a slender tip.
fn blade(g: &GeometryFile, lo: f32, hi: f32, grow: f32) -> Vec<Vec2> {
    let (tip, root) = (g.fork_tips_x_m as f32, g.backrest_x_m as f32 + 0.02);
    let taper = 0.28 * (hi - lo);
    vec![
        Vec2::new(root, lo - grow),
        Vec2::new(root, hi + grow),
        Vec2::new(tip + 0.22, hi + grow),
        Vec2::new(tip + 0.03 - grow, hi - taper + grow),
        Vec2::new(tip - grow, hi - taper - 0.02),
        Vec2::new(tip - grow, lo + taper + 0.02),
        Vec2::new(tip + 0.03 - grow, lo + taper - grow),
        Vec2::new(tip + 0.22, lo - grow),
    ]
}

pub(super) fn fork_shadow(g: &GeometryFile, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    for (lo, hi) in fork_edges(g) {
        ink.area(&blade(g, lo, hi, 0.02), p.shadow.faded(0.7));
    }
    ink
}

pub(super) fn forks(g: &GeometryFile, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    let root = g.backrest_x_m as f32;
    for (lo, hi) in fork_edges(g) {
        ink.area(&blade(g, lo, hi, 0.012), p.fork_edge);
        ink.area(&blade(g, lo, hi, -0.006), p.fork);
        let middle = 0.5 * (lo + hi);
        // A pressed rib along the blade.
        ink.run(&[Vec2::new(0.3, middle), Vec2::new(root - 0.12, middle)], 0.022, p.fork_edge);
        // The load wheels show in their slot: a pair in tandem about the axle.
        ink.slab(
            Vec2::new(-0.13, middle - 0.048),
            Vec2::new(0.13, middle + 0.048),
            0.02,
            p.fork_edge,
        );
        for x in [-0.062_f32, 0.062] {
            ink.slab(
                Vec2::new(x - 0.045, middle - 0.036),
                Vec2::new(x + 0.045, middle + 0.036),
                0.02,
                p.trim_shade,
            );
            ink.line(Vec2::new(x, middle - 0.036), Vec2::new(x, middle + 0.036), 0.014, p.fork);
        }
    }
    // The heel that joins the blades.
    let s = 0.5 * g.fork_spread_m as f32;
    ink.slab(Vec2::new(root - 0.09, -s), Vec2::new(root + 0.03, s), 0.02, p.fork_edge);
    ink.slab(Vec2::new(root - 0.075, -s + 0.014), Vec2::new(root + 0.02, s - 0.014), 0.015, p.fork);
    ink
}

pub(super) fn body(g: &GeometryFile, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    let w = 0.5 * g.chassis_width_m as f32;
    let (back, hood, nose) = (g.backrest_x_m as f32, g.power_unit_x_m as f32, g.nose_x_m as f32);

    // The platform: a ribbed mat between backrest and power unit, open at both sides.
    ink.slab(Vec2::new(back, -w + 0.02), Vec2::new(hood + 0.1, w - 0.02), 0.03, p.body_edge);
    ink.slab(
        Vec2::new(back + 0.02, -w + 0.035),
        Vec2::new(hood + 0.1, w - 0.035),
        0.02,
        p.platform,
    );
    let ribs = ((2.0 * w - 0.14) / 0.065).max(1.0) as u32;
    for i in 0..=ribs {
        let y = -w + 0.07 + (2.0 * w - 0.14) * i as f32 / ribs as f32;
        ink.line(Vec2::new(back + 0.1, y), Vec2::new(hood - 0.03, y), 0.012, p.platform_rib);
    }

    // The load backrest: a bar across with a guard on each end.
    ink.slab(Vec2::new(back - 0.015, -w), Vec2::new(back + 0.075, w), 0.03, p.body_edge);
    ink.slab(Vec2::new(back, -w + 0.014), Vec2::new(back + 0.06, w - 0.014), 0.022, p.trim);
    for y in [-0.62 * w, -0.2 * w, 0.2 * w, 0.62 * w] {
        ink.line(Vec2::new(back, y), Vec2::new(back + 0.06, y), 0.022, p.trim_shade);
    }

    // The power unit: deep teal with a rounded nose, an off-white deck, and a bumper.
    let corner = 0.2_f32.min(0.4 * w);
    let hull = |grow: f32| {
        let (x0, x1, y) = (hood - grow, nose + grow, w + grow);
        let mut points = vec![Vec2::new(x0, y), Vec2::new(x0, -y)];
        let r = corner + grow;
        for i in 0..=8 {
            let a = -0.25 + 0.25 * i as f32 / 8.0;
            points.push(Vec2::new(x1 - r, -y + r) + r * turn(a));
        }
        for i in 0..=8 {
            let a = 0.25 * i as f32 / 8.0;
            points.push(Vec2::new(x1 - r, y - r) + r * turn(a));
        }
        points
    };
    ink.area(&hull(0.0), p.body_edge);
    ink.area(&hull(-0.018), p.body);
    // A lighter shoulder on the lit side.
    ink.run(
        &[Vec2::new(hood + 0.06, w - 0.05), Vec2::new(nose - corner - 0.02, w - 0.05)],
        0.035,
        p.body_light,
    );
    // The battery's cover, with its two handles.
    let column = g.wheelbase_m as f32;
    let cover_end = (hood + 0.24).min(column - 0.2);
    if cover_end > hood + 0.1 {
        ink.slab(Vec2::new(hood + 0.035, -w + 0.1), Vec2::new(cover_end, w - 0.1), 0.03, p.trim);
        for y in [-0.5 * w, 0.5 * w] {
            ink.run(
                &[
                    Vec2::new(0.5 * (hood + 0.035 + cover_end), y - 0.07),
                    Vec2::new(0.5 * (hood + 0.035 + cover_end), y + 0.07),
                ],
                0.03,
                p.trim_shade,
            );
        }
    }
    // The hood's deck around the column.
    let deck0 = (column - 0.25).max(cover_end + 0.03);
    ink.slab(Vec2::new(deck0, -w + 0.1), Vec2::new(nose - 0.1, w - 0.1), 0.14, p.body_light);
    ink.slab(
        Vec2::new(deck0 + 0.015, -w + 0.115),
        Vec2::new(nose - 0.115, w - 0.115),
        0.13,
        p.body,
    );
    // The opening above the drive wheel.
    let middle = Vec2::new(column, 0.0);
    ink.disc(middle, 0.205, p.body_edge);
    ink.disc(middle, 0.19, p.platform);
    // Bumper.
    let mut bumper = Vec::new();
    for i in 0..=8 {
        bumper.push(
            Vec2::new(nose - corner, -w + corner)
                + (corner - 0.035) * turn(-0.19 + 0.19 * i as f32 / 8.0),
        );
    }
    for i in 0..=8 {
        bumper.push(
            Vec2::new(nose - corner, w - corner) + (corner - 0.035) * turn(0.19 * i as f32 / 8.0),
        );
    }
    ink.run(&bumper, 0.035, p.trim);
    ink
}

/// The unit vector at so many turns from +x.
fn turn(turns: f32) -> Vec2 {
    Vec2::from_angle(turns * core::f32::consts::TAU)
}

pub(super) fn drive_wheel(g: &GeometryFile, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    let (r, w) = (0.135, 0.5 * g.drive_wheel_width_m as f32 + 0.02);
    ink.slab(Vec2::new(-r, -w), Vec2::new(r, w), 0.025, p.rubber);
    for x in [-0.09_f32, -0.045, 0.0, 0.045, 0.09] {
        ink.line(Vec2::new(x, -w + 0.01), Vec2::new(x, w - 0.01), 0.012, p.platform_rib);
    }
    // A tick on the leading side tells which way it points.
    ink.area(&[Vec2::new(0.185, 0.0), Vec2::new(0.135, 0.05), Vec2::new(0.135, -0.05)], p.trim);
    ink
}

pub(super) fn tube(p: &Palette) -> Ink {
    let mut ink = Ink::default();
    ink.slab(Vec2::new(-1.0, -0.052), Vec2::new(0.0, 0.052), 0.0, p.body_edge);
    ink.slab(Vec2::new(-1.0, -0.038), Vec2::new(0.0, 0.038), 0.0, p.trim);
    ink.slab(Vec2::new(-1.0, -0.008), Vec2::new(0.0, 0.008), 0.0, p.trim_shade);
    ink
}

/// The tiller's head: a hub with a closed bow and a dark grip on each side.
pub(super) fn grips(p: &Palette) -> Ink {
    let mut ink = Ink::default();
    for (width, colour) in [(0.062, p.body_edge), (0.036, p.trim)] {
        ink.run(
            &[
                Vec2::new(0.1, 0.03),
                Vec2::new(0.0, 0.17),
                Vec2::new(-0.085, 0.12),
                Vec2::new(-0.1, 0.0),
                Vec2::new(-0.085, -0.12),
                Vec2::new(0.0, -0.17),
                Vec2::new(0.1, -0.03),
            ],
            width,
            colour,
        );
    }
    for side in [1.0, -1.0] {
        ink.run(&[Vec2::new(-0.01, 0.165 * side), Vec2::new(-0.07, 0.13 * side)], 0.062, p.rubber);
    }
    ink.slab(Vec2::new(-0.02, -0.06), Vec2::new(0.12, 0.06), 0.04, p.body_edge);
    ink.slab(Vec2::new(-0.006, -0.046), Vec2::new(0.106, 0.046), 0.03, p.trim);
    // The horn's button.
    ink.disc(Vec2::new(0.045, 0.0), 0.022, p.body);
    ink
}

/// The sign of the arm's zone, about the origin.
pub(super) fn zone_sign(zone: ArmZone, g: &GeometryFile, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    let size = (0.22 * (g.nose_x_m - g.wheelbase_m)).clamp(0.08, 0.14) as f32;
    if zone == ArmZone::Driving {
        ink.ring(Vec2::ZERO, size * 0.72, 0.035, p.trim);
        return ink;
    }
    let way = if zone == ArmZone::UpperBrake { 1.0 } else { -1.0 };
    ink.disc(Vec2::ZERO, size * 1.25, p.warn_ink);
    ink.disc(Vec2::ZERO, size * 1.12, p.warn);
    let tip = Vec2::new(size * 0.8 * way, 0.0);
    let foot = -size * 0.25 * way;
    ink.area(&[tip, Vec2::new(foot, size * 0.62), Vec2::new(foot, -size * 0.62)], p.warn_ink);
    let bar = -size * 0.58 * way;
    ink.line(Vec2::new(bar, -size * 0.62), Vec2::new(bar, size * 0.62), size * 0.28, p.warn_ink);
    ink
}

/// Two bars at the backrest while the service brake is on.
pub(super) fn brake_lamps(g: &GeometryFile, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    let (x, w) = (g.backrest_x_m as f32 + 0.03, 0.5 * g.chassis_width_m as f32);
    for side in [1.0, -1.0] {
        ink.run(&[Vec2::new(x, (w - 0.04) * side), Vec2::new(x, (w - 0.2) * side)], 0.07, p.warn);
    }
    ink
}

/// Two chevrons on each flank against the usual travel, while the motor brakes.
pub(super) fn plugging(g: &GeometryFile, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    let (x, w) = (g.wheelbase_m as f32, 0.5 * g.chassis_width_m as f32);
    for side in [1.0, -1.0] {
        for dx in [0.0, 0.13] {
            let tip = Vec2::new(x - 0.06 + dx, (w + 0.12) * side);
            chevron::chevron(&mut ink, tip, Vec2::NEG_X, Vec2::Y, 0.08, 0.045, p.zone);
        }
    }
    ink
}

/// Three arcs before the nose while the horn sounds.
pub(super) fn horn(g: &GeometryFile, p: &Palette) -> Ink {
    let mut ink = Ink::default();
    let middle = Vec2::new(g.nose_x_m as f32 - 0.1, 0.0);
    for r in [0.32_f32, 0.5, 0.68] {
        let arc: Vec<Vec2> =
            (0..=12).map(|i| middle + r * turn(-0.11 + 0.22 * i as f32 / 12.0)).collect();
        ink.run(&arc, 0.05, p.ink);
    }
    ink
}
