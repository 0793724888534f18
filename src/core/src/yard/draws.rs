//! What a seed decides about who is there and when.

use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::Rng;

use crate::course::warehouse::SetsOff;

/// A number from 0 up to but not 1.
pub(super) fn share(dice: &mut ChaCha8Rng) -> f64 {
    f64::from(dice.next_u32()) / 4_294_967_296.0
}

/// Of each group one member is there, and everybody who is in none.
pub(super) fn who_is_there<'a>(
    groups: impl Iterator<Item = Option<&'a str>>,
    dice: &mut ChaCha8Rng,
) -> Vec<bool> {
    let groups: Vec<Option<&str>> = groups.collect();
    let mut there: Vec<bool> = groups.iter().map(Option::is_none).collect();
    for (i, group) in groups.iter().enumerate() {
        if group.is_none() || groups[..i].contains(group) {
            continue;
        }
        let members: Vec<usize> = (i..groups.len()).filter(|j| groups[*j] == *group).collect();
        let drawn = (share(dice) * members.len() as f64) as usize;
        there[members[drawn.min(members.len() - 1)]] = true;
    }
    there
}

/// The time after which somebody sets off who waits for a time, s; drawn for everybody, so that one
/// more person in a course changes nobody else's draw but those behind.
pub(super) fn after(sets_off: &SetsOff, dice: &mut ChaCha8Rng) -> f64 {
    let drawn = share(dice);
    match *sets_off {
        SetsOff::After { least_s, most_s } => least_s + (most_s - least_s) * drawn,
        _ => 0.0,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dice::{Stream, dice};

    #[test]
    fn of_each_group_exactly_one_is_there_and_every_member_comes_up() {
        let groups = [None, Some("a"), Some("b"), Some("a"), Some("a"), Some("b"), None];
        let mut seen = [0; 7];
        for seed in 0..300 {
            let there = who_is_there(groups.into_iter(), &mut dice(seed, Stream::People));
            assert!(there[0] && there[6]);
            for word in ["a", "b"] {
                let members = (0..7).filter(|i| groups[*i] == Some(word) && there[*i]).count();
                assert_eq!(members, 1, "{word} with seed {seed}");
            }
            there.iter().zip(&mut seen).for_each(|(t, n)| *n += u32::from(*t));
        }
        assert!(seen.iter().all(|n| *n > 60), "{seen:?}");
    }
}
