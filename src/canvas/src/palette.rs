//! The colours of the yard by day and by dark.
//!
//! Marks keep a contrast of at least 3:1 against the floor they are painted on (WCAG 2.2,
//! success criterion 1.4.11); a test computes it. No meaning hangs on a colour alone.

/// A colour as on a screen (sRGB, 0 to 1) with its opacity.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Colour {
    pub red: f32,
    pub green: f32,
    pub blue: f32,
    /// 0 lets everything through, 1 nothing.
    pub alpha: f32,
}

impl Colour {
    /// Red, green and blue in linear light (IEC 61966-2-1), and the opacity.
    pub(crate) fn linear(self) -> [f32; 4] {
        let light = |c: f32| {
            if c <= 0.040_45 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
        };
        [light(self.red), light(self.green), light(self.blue), self.alpha]
    }

    /// What is seen when this colour is laid over an opaque one.
    pub(crate) fn over(self, under: Self) -> Self {
        Self { alpha: 1.0, ..under.towards(Self { alpha: 1.0, ..self }, self.alpha) }
    }

    /// The same colour with this share of its opacity.
    pub(crate) fn faded(self, share: f32) -> Self {
        Self { alpha: self.alpha * share, ..self }
    }

    /// A mixture: this colour at 0, the other at 1.
    pub(crate) fn towards(self, other: Self, share: f32) -> Self {
        let mix = |a: f32, b: f32| a + (b - a) * share;
        Self {
            red: mix(self.red, other.red),
            green: mix(self.green, other.green),
            blue: mix(self.blue, other.blue),
            alpha: mix(self.alpha, other.alpha),
        }
    }
}

/// All colours of one look.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)] // the names say it
pub(crate) struct Palette {
    pub void: Colour,
    pub off_lane: Colour,
    pub floor: Colour,
    pub joint: Colour,
    pub lane_edge: Colour,
    pub wet: Colour,
    pub wet_edge: Colour,
    pub dust: Colour,
    pub dust_grain: Colour,
    pub plate: Colour,
    pub plate_mark: Colour,
    pub shadow: Colour,
    pub halo: Colour,
    pub outline: Colour,
    pub ink: Colour,
    pub paint: Colour,
    pub trigger: Colour,
    pub gate: Colour,
    pub gate_due: Colour,
    pub gate_wash: Colour,
    pub stop_box: Colour,
    pub zone: Colour,
    pub help: Colour,
    pub help_stop: Colour,
    pub path: Colour,
    pub tyre: Colour,
    pub wall: Colour,
    pub wall_top: Colour,
    pub rack_post: Colour,
    pub rack_beam: Colour,
    pub rack_deck: Colour,
    pub goods: Colour,
    pub goods_line: Colour,
    pub cone: Colour,
    pub cone_base: Colour,
    pub cone_ring: Colour,
    pub cone_tip: Colour,
    pub body: Colour,
    pub body_light: Colour,
    pub body_edge: Colour,
    pub trim: Colour,
    pub trim_shade: Colour,
    pub fork: Colour,
    pub fork_edge: Colour,
    pub rubber: Colour,
    pub platform: Colour,
    pub platform_rib: Colour,
    pub vest: Colour,
    pub vest_band: Colour,
    pub skin: Colour,
    pub cap: Colour,
    pub cap_peak: Colour,
    pub trousers: Colour,
    pub boot: Colour,
    pub warn: Colour,
    pub warn_ink: Colour,
    pub goods_low: Colour,
    pub goods_top: Colour,
    pub wood: Colour,
    pub wood_edge: Colour,
    pub rail: Colour,
    pub rail_edge: Colour,
    pub curtain: Colour,
    pub curtain_edge: Colour,
    pub beam: Colour,
    pub other_body: Colour,
    pub other_light: Colour,
    pub other_edge: Colour,
    pub other_band: Colour,
    pub unseen: Colour,
    pub seen_edge: Colour,
}

const fn rgb(hex: u32) -> Colour {
    rgba(hex, 1.0)
}

const fn rgba(hex: u32, alpha: f32) -> Colour {
    Colour {
        red: (hex >> 16 & 0xff) as f32 / 255.0,
        green: (hex >> 8 & 0xff) as f32 / 255.0,
        blue: (hex & 0xff) as f32 / 255.0,
        alpha,
    }
}

/// The truck, the rider, the cones and what else keeps its own colours in any light.
const THINGS: Palette = Palette {
    shadow: rgba(0x101418, 0.34),
    halo: rgb(0xf6f8fa),
    outline: rgb(0x14181b),
    wall: rgb(0x4a4f55),
    wall_top: rgb(0x6d737a),
    rack_post: rgb(0x2d3f57),
    rack_beam: rgb(0x5a7190),
    rack_deck: rgb(0xb9bec4),
    goods: rgb(0xc9ab82),
    goods_line: rgb(0x7d6340),
    cone: rgb(0xf0641e),
    cone_base: rgb(0xa83c06),
    cone_ring: rgb(0xfff4e6),
    cone_tip: rgb(0xffa066),
    body: rgb(0x0f5c60),
    body_light: rgb(0x1d7a7d),
    body_edge: rgb(0x06363a),
    trim: rgb(0xf5f1e6),
    trim_shade: rgb(0xc9c4b4),
    fork: rgb(0x555e66),
    fork_edge: rgb(0x2b3238),
    rubber: rgb(0x1c2023),
    platform: rgb(0x3a4247),
    platform_rib: rgb(0x586168),
    vest: rgb(0xb6e021),
    vest_band: rgb(0xf4f7e4),
    skin: rgb(0xb98362),
    cap: rgb(0x2b3a4d),
    cap_peak: rgb(0x16202d),
    trousers: rgb(0x33404f),
    boot: rgb(0x17191c),
    warn: rgb(0xd7263d),
    warn_ink: rgb(0xffffff),
    goods_low: rgb(0x8f7449),
    goods_top: rgb(0xdcc29b),
    wood: rgb(0xb98f57),
    wood_edge: rgb(0x6d4f26),
    rail: rgb(0xd8b13a),
    rail_edge: rgb(0x6b5208),
    curtain: rgba(0x6f9fb5, 0.5),
    curtain_edge: rgb(0x2f6278),
    beam: rgb(0x6a4a8c),
    other_body: rgb(0x4b5668),
    other_light: rgb(0x6a778c),
    other_edge: rgb(0x252c38),
    other_band: rgb(0xc98b21),
    unseen: rgba(0x1c232b, 0.62),
    seen_edge: rgb(0x22262a),
    void: rgb(0),
    off_lane: rgb(0),
    floor: rgb(0),
    joint: rgb(0),
    lane_edge: rgb(0),
    wet: rgb(0),
    wet_edge: rgb(0),
    dust: rgb(0),
    dust_grain: rgb(0),
    plate: rgb(0),
    plate_mark: rgb(0),
    ink: rgb(0),
    paint: rgb(0),
    trigger: rgb(0),
    gate: rgb(0),
    gate_due: rgb(0),
    gate_wash: rgb(0),
    stop_box: rgb(0),
    zone: rgb(0),
    help: rgb(0),
    help_stop: rgb(0),
    path: rgb(0),
    tyre: rgb(0),
};

impl Palette {
    /// The colours of a companion: drained towards the floor, so that the own truck stands out.
    pub(crate) fn pale(&self) -> Self {
        let pale = |c: Colour| Colour { alpha: c.alpha, ..c.towards(self.floor, 0.62) };
        Self {
            shadow: self.shadow.faded(0.4),
            body: pale(self.body),
            body_light: pale(self.body_light),
            body_edge: self.body_edge.towards(self.floor, 0.4),
            trim: pale(self.trim),
            trim_shade: pale(self.trim_shade),
            fork: pale(self.fork),
            fork_edge: self.fork_edge.towards(self.floor, 0.4),
            rubber: pale(self.rubber),
            platform: pale(self.platform),
            platform_rib: pale(self.platform_rib),
            vest: pale(self.vest),
            vest_band: pale(self.vest_band),
            skin: pale(self.skin),
            cap: pale(self.cap),
            cap_peak: pale(self.cap_peak),
            trousers: pale(self.trousers),
            boot: pale(self.boot),
            warn: pale(self.warn),
            ..self.clone()
        }
    }
}

/// By day: pale concrete, ink for marks.
pub(crate) const DAY: Palette = Palette {
    void: rgb(0xcfcec9),
    off_lane: rgb(0xd9d8d3),
    floor: rgb(0xebeae5),
    joint: rgba(0x8d8b84, 0.28),
    lane_edge: rgb(0x97700a),
    wet: rgba(0x6fa3cf, 0.42),
    wet_edge: rgb(0x2d6ea6),
    dust: rgba(0xc9b38c, 0.55),
    dust_grain: rgb(0x8a7448),
    plate: rgb(0xb4bac0),
    plate_mark: rgb(0x6a727a),
    ink: rgb(0x22262a),
    paint: rgb(0x767a7e),
    trigger: rgb(0x8a2c6d),
    gate: rgb(0x5a6ea8),
    gate_due: rgb(0x1d3fbb),
    gate_wash: rgba(0x1d3fbb, 0.16),
    stop_box: rgb(0x1d3fbb),
    zone: rgb(0x9c4221),
    help: rgb(0x4d6b57),
    help_stop: rgb(0x22262a),
    path: rgba(0x1d3fbb, 0.55),
    tyre: rgba(0x22262a, 0.45),
    ..THINGS
};

/// By dark: the same yard at night.
pub(crate) const DARK: Palette = Palette {
    void: rgb(0x121416),
    off_lane: rgb(0x353a3f),
    floor: rgb(0x444a50),
    joint: rgba(0x9aa0a6, 0.16),
    lane_edge: rgb(0xd8ae3c),
    wet: rgba(0x3f74a3, 0.45),
    wet_edge: rgb(0x77b0e0),
    dust: rgba(0x7a6a48, 0.5),
    dust_grain: rgb(0xb59f70),
    plate: rgb(0x4b5258),
    plate_mark: rgb(0x848c94),
    shadow: rgba(0x000000, 0.5),
    ink: rgb(0xe8eaec),
    paint: rgb(0xa2a9af),
    trigger: rgb(0xe28bc6),
    gate: rgb(0x98a9dc),
    gate_due: rgb(0x9fb6ff),
    gate_wash: rgba(0x9fb6ff, 0.05),
    stop_box: rgb(0x9fb6ff),
    zone: rgb(0xe08a63),
    help: rgb(0x8fb39b),
    help_stop: rgb(0xe8eaec),
    path: rgba(0x9fb6ff, 0.55),
    tyre: rgba(0x000000, 0.6),
    wall: rgb(0x9ea6ae),
    wall_top: rgb(0x6d747b),
    rack_post: rgb(0x96acc9),
    rack_beam: rgb(0x5a7190),
    rack_deck: rgb(0x3f464d),
    body_edge: rgb(0x8fd0d2),
    cone_base: rgb(0xff8a4a),
    cone: rgb(0xe65c17),
    wood_edge: rgb(0xc79e66),
    rail_edge: rgb(0xd8b13a),
    curtain_edge: rgb(0x8cc4dc),
    beam: rgb(0xb795dd),
    other_edge: rgb(0xa7b3c7),
    unseen: rgba(0x000000, 0.9),
    seen_edge: rgb(0xe8eaec),
    ..THINGS
};

#[cfg(test)]
mod tests {
    use super::*;

    /// WCAG 2.2: relative luminance.
    fn luminance(c: Colour) -> f32 {
        let [r, g, b, _] = c.linear();
        0.2126 * r + 0.7152 * g + 0.0722 * b
    }

    /// WCAG 2.2: contrast ratio.
    fn contrast(a: Colour, b: Colour) -> f32 {
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    /// What is seen, and what is not under its veil; the hatch lets a fifth of the veil go in 0.3 of it.
    #[test]
    fn seen_floor_is_told_from_unseen_floor_on_the_lane_and_off_it() {
        for (name, p) in [("day", DAY), ("dark", DARK)] {
            for under in [p.floor, p.off_lane] {
                let veil = p.unseen.faded(1.0 - 0.3 * 0.2);
                let [r, g, b] = [0, 1, 2].map(|i| {
                    let (over, under) = (veil.linear()[i], under.linear()[i]);
                    under + (over - under) * veil.alpha
                });
                let unseen = 0.2126 * r + 0.7152 * g + 0.0722 * b;
                for seen in [p.floor, p.off_lane] {
                    let c = (luminance(seen) + 0.05) / (unseen + 0.05);
                    assert!(c >= 1.45, "{name}: {c:.2}");
                    if seen == under {
                        assert!(c >= 1.6, "{name}: {c:.2}");
                    }
                }
            }
        }
    }

    /// People and cones have an outline and a halo: one of them stands out from any floor.
    #[test]
    fn outline_or_halo_stands_out_from_every_floor() {
        for (name, p) in [("day", DAY), ("dark", DARK)] {
            for floor in [p.floor, p.off_lane, p.plate, p.wet.over(p.floor), p.dust.over(p.floor)] {
                let most = contrast(p.halo, floor).max(contrast(p.outline, floor));
                assert!(most >= 3.0, "{name}: {most:.2}");
            }
            assert!(contrast(p.halo, p.outline) >= 3.0);
        }
    }

    #[test]
    fn marks_stand_out_from_the_floor() {
        for (name, p) in [("day", DAY), ("dark", DARK)] {
            for (mark, colour) in [
                ("lane_edge", p.lane_edge),
                ("ink", p.ink),
                ("paint", p.paint),
                ("trigger", p.trigger),
                ("gate", p.gate),
                ("gate_due", p.gate_due),
                ("stop_box", p.stop_box),
                ("zone", p.zone),
                ("help", p.help),
                ("wet_edge", p.wet_edge),
                ("dust_grain", p.dust_grain),
                ("cone_base", p.cone_base),
                ("wall", p.wall),
                ("rack_post", p.rack_post),
                ("body_edge", p.body_edge),
                ("wood_edge", p.wood_edge),
                ("rail_edge", p.rail_edge),
                ("curtain_edge", p.curtain_edge),
                ("beam", p.beam),
                ("other_edge", p.other_edge),
                ("seen_edge", p.seen_edge),
                ("help_stop", p.help_stop),
            ] {
                let c = contrast(colour, p.floor);
                assert!(c >= 3.0, "{mark} by {name}: {c:.2}");
            }
        }
    }
}
