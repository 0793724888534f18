//! Fingers on the screen: a tiller that goes where it is dragged or tapped, a twist for the thumb,
//! and buttons. Two hands at once work, since each part keeps its own pointer.

/// What the fingers ask for now.
#[derive(Debug, Default)]
pub(crate) struct Touch {
    /// Tiller angle asked for, half degrees, left positive; None when no finger is on it.
    pub(crate) tiller: Option<i16>,
    /// Twist, percent, power unit first positive; 0 when no finger is on it.
    pub(crate) twist: i8,
    /// The high-speed button is on.
    pub(crate) high_speed: bool,
}

impl Touch {
    /// All fingers come off.
    pub(crate) fn release_all(&mut self) {
        *self = Self::default();
    }
}

/// Twist from a thumb's place on its track: 0 at the top (power unit first) to 1 at the bottom.
/// The middle fifth is neutral, so that a thumb laid down gently asks for nothing; the last 3 % at each
/// end are full, so that a thumb that trembles there does not ease.
pub(crate) fn twist_at(place: f64) -> i8 {
    let from_middle = (0.5 - place.clamp(0.0, 1.0)) * 2.0;
    let beyond = ((from_middle.abs() - 0.2) / 0.74).clamp(0.0, 1.0);
    (beyond * 100.0).round() as i8 * if from_middle < 0.0 { -1 } else { 1 }
}

/// Tiller angle from a finger's place on its track: 0 at the left end to 1 at the right end, in
/// half degrees, left positive.
pub(crate) fn tiller_at(place: f64, most_half_degrees: i16) -> i16 {
    let share = 1.0 - 2.0 * place.clamp(0.0, 1.0);
    (share * f64::from(most_half_degrees)).round() as i16
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_thumb_has_a_neutral_middle_and_full_ends() {
        assert_eq!(twist_at(0.0), 100);
        assert_eq!(twist_at(0.5), 0);
        assert_eq!(twist_at(0.42), 0);
        assert_eq!(twist_at(1.0), -100);
        assert_eq!(twist_at(-3.0), 100);
        assert_eq!(twist_at(0.03), 100);
        assert_eq!(twist_at(0.04), 97);
        assert_eq!(twist_at(0.215), 50);
    }

    #[test]
    fn the_tiller_goes_left_on_the_left() {
        assert_eq!(tiller_at(0.0, 170), 170);
        assert_eq!(tiller_at(0.5, 170), 0);
        assert_eq!(tiller_at(1.0, 170), -170);
    }
}
