//! Racks, walls, rails and what else stands about, from above. What hangs overhead is drawn by
//! `overhead`.

use bevy::math::Vec2;
use coneyard_core::course::{Structure, StructureKind};

use super::ink::{Ink, turned};
use super::v;
use crate::palette::Palette;

/// The light comes from the north-west: this is how far a shadow falls, m.
const SHADOW: Vec2 = Vec2::new(0.14, -0.16);

/// Everything solid that never moves.
pub(super) fn structures(all: &[Structure], p: &Palette) -> Ink {
    let mut ink = Ink::default();
    for s in all.iter().filter(|s| s.kind.is_solid()) {
        let (at, heading, size) = (v(s.pose.at), s.pose.heading as f32, v(s.size));
        ink.area(&turned(at + SHADOW, heading, size + 0.06), p.shadow.faded(0.6));
    }
    for s in all {
        let frame = Frame {
            at: v(s.pose.at),
            along: Vec2::from_angle(s.pose.heading as f32),
            half: v(s.size) * 0.5,
        };
        match s.kind {
            StructureKind::Wall => wall(&mut ink, &frame, p),
            StructureKind::Rack => rack(&mut ink, &frame, p),
            StructureKind::Load => load(&mut ink, &frame, p),
            StructureKind::Rail => rail(&mut ink, &frame, p),
            StructureKind::Panel => panel(&mut ink, &frame, p),
            StructureKind::Curtain | StructureKind::Beam => {}
        }
    }
    ink
}

/// The structure's own frame.
struct Frame {
    at: Vec2,
    along: Vec2,
    half: Vec2,
}

impl Frame {
    fn yard(&self, x: f32, y: f32) -> Vec2 {
        self.at + self.along * x + self.along.perp() * y
    }

    fn rect(&self, lo: Vec2, hi: Vec2) -> [Vec2; 4] {
        [self.yard(lo.x, lo.y), self.yard(hi.x, lo.y), self.yard(hi.x, hi.y), self.yard(lo.x, hi.y)]
    }

    fn whole(&self) -> [Vec2; 4] {
        self.rect(-self.half, self.half)
    }
}

fn wall(ink: &mut Ink, f: &Frame, p: &Palette) {
    ink.area(&f.whole(), p.wall);
    let inset = 0.05_f32.min(0.3 * f.half.min_element());
    ink.area(&f.rect(-f.half + inset, f.half - inset), p.wall_top);
}

/// Bays of about the usual width, with uprights at each end of a bay, beams along both faces and
/// a pallet's goods in most places.
fn rack(ink: &mut Ink, f: &Frame, p: &Palette) {
    const BAY: f32 = 1.4;
    const POST: f32 = 0.1;
    let h = f.half;
    ink.area(&f.whole(), p.rack_deck);
    let bays = ((2.0 * h.x / BAY).round() as u32).clamp(1, 500);
    let bay = 2.0 * h.x / bays as f32;
    for i in 0..bays {
        // Every fifth place is empty: a rack in use.
        if i % 5 == 3 {
            continue;
        }
        let (x0, x1) = (-h.x + bay * i as f32 + 0.14, -h.x + bay * (i + 1) as f32 - 0.14);
        let (y0, y1) = (-h.y + 0.14, h.y - 0.14);
        if x1 <= x0 || y1 <= y0 {
            continue;
        }
        goods(ink, f, Vec2::new(x0, y0), Vec2::new(x1, y1), p);
    }
    let beam = 0.07_f32.min(0.4 * h.y);
    for y in [-h.y, h.y - beam] {
        ink.area(&f.rect(Vec2::new(-h.x, y), Vec2::new(h.x, y + beam)), p.rack_beam);
    }
    for i in 0..=bays {
        let x = (-h.x + bay * i as f32).clamp(-h.x + 0.5 * POST, h.x - 0.5 * POST);
        for y in [-h.y, h.y - POST.min(h.y)] {
            let (lo, hi) =
                (Vec2::new(x - 0.5 * POST, y), Vec2::new(x + 0.5 * POST, y + POST.min(h.y)));
            ink.area(&f.rect(lo, hi), p.rack_post);
        }
        ink.line(f.yard(x, -h.y), f.yard(x, h.y), 0.03, p.rack_post);
    }
}

/// A low rail: a yellow tube with a dark foot every metre or so.
fn rail(ink: &mut Ink, f: &Frame, p: &Palette) {
    let h = f.half;
    ink.area(&f.whole(), p.rail_edge);
    let inset = 0.025_f32.min(0.3 * h.min_element());
    ink.area(&f.rect(-h + inset, h - inset), p.rail);
    let feet = ((2.0 * h.x / 1.2).round() as u32).clamp(1, 300);
    for i in 0..=feet {
        let x = (-h.x + 2.0 * h.x * i as f32 / feet as f32).clamp(-h.x + 0.06, h.x - 0.06);
        ink.area(&f.rect(Vec2::new(x - 0.06, -h.y), Vec2::new(x + 0.06, h.y)), p.rail_edge);
    }
}

/// A cabinet lower than the eye: a lid with a slanted line across.
fn panel(ink: &mut Ink, f: &Frame, p: &Palette) {
    let h = f.half;
    ink.area(&f.whole(), p.rack_post);
    let inset = 0.035_f32.min(0.3 * h.min_element());
    ink.area(&f.rect(-h + inset, h - inset), p.rack_beam);
    ink.line(
        f.yard(-h.x + inset, -h.y + inset),
        f.yard(h.x - inset, h.y - inset),
        0.03,
        p.rack_post,
    );
}

fn load(ink: &mut Ink, f: &Frame, p: &Palette) {
    goods(ink, f, -f.half, f.half, p);
}

/// Cases on a pallet, seen from above.
fn goods(ink: &mut Ink, f: &Frame, lo: Vec2, hi: Vec2, p: &Palette) {
    ink.area(&f.rect(lo, hi), p.goods);
    let size = hi - lo;
    let cut = |length: f32| (length / 0.4).round().clamp(1.0, 8.0) as u32;
    for i in 1..cut(size.x) {
        let x = lo.x + size.x * i as f32 / cut(size.x) as f32;
        ink.line(f.yard(x, lo.y), f.yard(x, hi.y), 0.018, p.goods_line.faded(0.6));
    }
    for i in 1..cut(size.y) {
        let y = lo.y + size.y * i as f32 / cut(size.y) as f32;
        ink.line(f.yard(lo.x, y), f.yard(hi.x, y), 0.018, p.goods_line.faded(0.6));
    }
    ink.edge(&f.rect(lo, hi), 0.03, p.goods_line);
}
