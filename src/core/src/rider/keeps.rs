//! A rider keeps to the site rules that are in force: where a rule asks for more than the rider's own
//! habits give, the habit follows. Under the shipped rules every habit stays as it is.

use super::habits::Habits;
use crate::math::G;
use crate::rules::SiteRules;

/// Time that the arm takes from the hand into its upper brake zone, s, with some to spare.
const ARM_S: f64 = 0.4;
/// Farther from people than this the rider's own path passes, m.
const PASSES_AT_M: f64 = 0.5;
/// Share of a highest value that is used.
const USED: f64 = 0.8;

impl Habits {
    /// Takes the numbers of the rules where they ask for more.
    pub(super) fn keep_to(&mut self, rules: &SiteRules) {
        let least = |value: &mut f64, most: f64| *value = value.min(most);
        let rule = |code, name| rules.limit(code, name);

        let corner = rule("corner-speed", "side-acceleration") / SHIPPED_CORNER_G;
        let of_load = rule("corner-speed", "of-load") / SHIPPED_OF_LOAD;
        self.side_acceleration *= corner.min(of_load).min(1.0);
        least(&mut self.reaction_s, rule("emergency-late", "reaction") - ARM_S);

        let (throttle, within) =
            (rule("throttle-snatched", "throttle"), rule("throttle-snatched", "within"));
        let ticks = within * f64::from(crate::time::TICK_RATE);
        least(&mut self.throttle_rise, USED * 100.0 * (throttle - DEAD_BAND) / ticks.max(1.0));

        least(&mut self.steps_below, 0.85 * rule("stepped-across-moving", "speed"));
        least(&mut self.short_of_line, 0.4 * rule("stop-line-run", "before"));
        least(&mut self.at_yields, USED * rule("yield-not-slowed", "speed"));
        least(&mut self.at_blind_spots, USED * rule("too-fast-at-blind-spot", "speed"));
        least(&mut self.on_wet, 0.9 * rule("wet-not-slowed", "speed"));
        least(&mut self.on_grade.0, 0.9 * rule("grade-too-fast", "speed"));
        least(&mut self.on_grade.1, 0.9 * rule("grade-too-fast", "grade"));
        least(&mut self.on_dock, USED * rule("unchecked-crossing", "creep"));
        if let Some(from) = &mut self.horn_from {
            least(from, USED * rule("no-horn-at-blind-spot", "from"));
        }

        let most = |value: &mut f64, least: f64| *value = value.max(least);
        let gap = rule("person-near-miss", "gap");
        if gap > PASSES_AT_M {
            self.beside_people = (gap + 0.4, USED * rule("person-near-miss", "speed"));
        }
        let distance = rule("too-close-behind", "distance");
        if distance + 1.5 > self.behind {
            (self.behind, self.stands_behind) = (distance + 1.5, distance + 0.5);
        }
        most(&mut self.waits_from, rule("meeting-not-stopped", "distance") + 8.0);
        most(&mut self.sight_reaction, rule("outruns-sight", "reaction") + 0.1);
        most(&mut self.looks_at_check, rules.term("check-time") + 0.5);
    }
}

/// Share of a limit that is a hair under it, for what hands and motor follow closely, and for what they
/// overshoot. What swings about more has a share of its own below.
const HAIR: f64 = 0.95;
const WIDE_HAIR: f64 = 0.85;

impl Habits {
    /// Goes as far as the rules allow in everything, and no farther.
    pub(super) fn go_under(&mut self, rules: &SiteRules) {
        let rule = |code, name| rules.limit(code, name);
        (self.cruise, self.pace) = (rules.speed_limit.value, 1.0);
        // The motor overshoots where a zone begins.
        self.share_of_limit = 0.97;
        let corner = rule("corner-speed", "side-acceleration") * G;
        self.side_acceleration = 0.6 * corner;
        self.reaction_s = HAIR * rule("emergency-late", "reaction") - ARM_S;
        let (throttle, within) =
            (rule("throttle-snatched", "throttle"), rule("throttle-snatched", "within"));
        let ticks = within * f64::from(crate::time::TICK_RATE);
        self.throttle_rise = USED * 100.0 * (throttle - DEAD_BAND) / ticks.max(1.0);
        self.steps_below = HAIR * rule("stepped-across-moving", "speed");
        self.short_of_line = 0.6 * rule("stop-line-run", "before");
        self.at_yields = WIDE_HAIR * rule("yield-not-slowed", "speed");
        self.at_blind_spots = WIDE_HAIR * rule("too-fast-at-blind-spot", "speed");
        self.on_wet = HAIR * rule("wet-not-slowed", "speed");
        self.on_grade.0 = WIDE_HAIR * rule("grade-too-fast", "speed");
        self.on_dock = WIDE_HAIR * rule("unchecked-crossing", "creep");
        self.horn_from = Some(2.0 * rule("no-horn-at-blind-spot", "until"));
        // The head takes a while there and back.
        self.looks_away_s = 0.65 * rule("not-looking", "for");
        self.behind = rule("too-close-behind", "distance") + 0.9;
        self.sight_reaction = rule("outruns-sight", "reaction") + 0.05;
        self.looks_at_check = rules.term("check-time") + 0.1;
        self.sets_down_aside = 0.5 * rule("set-down-off", "off");
    }
}

/// The limits of cornering by which the rider's own side acceleration is chosen, g and share of one.
const SHIPPED_CORNER_G: f64 = 0.2;
const SHIPPED_OF_LOAD: f64 = 0.6;
/// Largest dead band of a throttle that the shipped trucks have, share of one.
const DEAD_BAND: f64 = 0.05;

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_shipped_rules_change_nobodys_habits_and_a_stricter_one_does() {
        let shipped = SiteRules::shipped();
        for seed in 0..200 {
            let own = Habits::of_a_model(seed);
            let mut kept = own.clone();
            kept.keep_to(&shipped);
            assert_eq!(format!("{kept:?}"), format!("{own:?}"), "seed {seed}");
            let mut stricter = shipped.clone();
            let wet = stricter.rules.get_mut("wet-not-slowed").expect("a rule");
            wet.limits.get_mut("speed").expect("its limit").value = 1.0;
            kept.keep_to(&stricter);
            assert_eq!((kept.on_wet, own.on_wet), (0.9, 1.3));
        }
    }
}
