//! The compact form of the controls inside a run file.
//!
//! Spans as pairs (32-bit code, ticks), the code as the exclusive-or with the one before so that
//! unchanged fields are zero; written by postcard (variable-length whole numbers), compressed by
//! DEFLATE (RFC 1951), and in text as base64 (RFC 4648, padded, no stray bits).

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;

use miniz_oxide::inflate::decompress_to_vec_with_limit;

use crate::outside::BadInput;
use crate::run::TICKS_MOST;
use crate::time::Tick;

/// Compression level of DEFLATE, 0 to 10. 8 costs milliseconds for a run and saves a few percent
/// over the usual 6.
const LEVEL: u8 = 8;

/// Largest controls that are unpacked, bytes: two hours with a change in every tick take less.
const UNPACKED_MOST: usize = 16 * 1024 * 1024;

/// Bytes as base64 of their DEFLATE form.
pub fn pack(bytes: &[u8]) -> String {
    STANDARD.encode(miniz_oxide::deflate::compress_to_vec(bytes, LEVEL))
}

/// What `pack` made, at most `most` bytes of it.
///
/// # Errors
/// A sentence when it is not base64, not DEFLATE, or larger than allowed.
pub fn unpack(file: &str, place: &str, text: &str, most: usize) -> Result<Vec<u8>, BadInput> {
    let packed = STANDARD
        .decode(text)
        .map_err(|e| BadInput::new(file, place, format!("this is not base64 ({e})")))?;
    let unpacked = decompress_to_vec_with_limit(&packed, most).map_err(|_| {
        BadInput::new(file, place, format!("this does not unpack to at most {most} bytes"))
    })?;
    // The library stops at the end of what was packed and does not say that more follows.
    let shorter = &packed[..packed.len().saturating_sub(1)];
    if decompress_to_vec_with_limit(shorter, most).is_ok() {
        return Err(BadInput::new(file, place, "something follows what was packed; leave it out"));
    }
    Ok(unpacked)
}

/// Codes of 32 bits with their ticks, as text.
pub fn encode(codes: impl Iterator<Item = (u32, Tick)>) -> String {
    let mut before = 0;
    let pairs: Vec<(u32, u32)> = codes
        .map(|(bits, ticks)| {
            let change = bits ^ before;
            before = bits;
            (change, ticks)
        })
        .collect();
    // Writing whole numbers into a growing vector cannot fail.
    pack(&postcard::to_allocvec(&pairs).unwrap_or_default())
}

/// Codes with their ticks from text; neighbours differ.
///
/// # Errors
/// A sentence when the text is damaged or longer than two hours.
pub fn decode(file: &str, place: &str, text: &str) -> Result<Vec<(u32, Tick)>, BadInput> {
    let bad = |reason: String| BadInput::new(file, place, reason);
    let bytes = unpack(file, place, text, UNPACKED_MOST)?;
    let (pairs, rest): (Vec<(u32, u32)>, &[u8]) = postcard::take_from_bytes(&bytes)
        .map_err(|_| bad("the controls are damaged: they do not unpack to pairs".into()))?;
    if !rest.is_empty() {
        return Err(bad(format!("{} bytes follow the last pair of controls", rest.len())));
    }
    let (mut before, mut ticks) = (0, 0u32);
    let mut codes = Vec::with_capacity(pairs.len());
    for (i, (change, n)) in pairs.into_iter().enumerate() {
        let bits = change ^ before;
        ticks = ticks
            .checked_add(n)
            .filter(|t| n > 0 && *t <= TICKS_MOST)
            .ok_or_else(|| bad(format!("span {i} has no length, or the drive passes two hours")))?;
        if change == 0 && i > 0 {
            return Err(bad(format!("span {i} repeats the one before it")));
        }
        before = bits;
        codes.push((bits, n));
    }
    Ok(codes)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        #[test]
        fn what_was_recorded_is_read_back(all in proptest::collection::vec((any::<u32>(), 1u32..500), 0..200)) {
            let mut codes = all;
            codes.dedup_by_key(|(bits, _)| *bits);
            prop_assert_eq!(decode("t", "controls", &encode(codes.iter().copied())), Ok(codes));
        }

        #[test]
        fn random_text_never_panics(text in ".{0,200}") {
            let _ = decode("t", "controls", &text);
        }

        #[test]
        fn random_bytes_never_panic(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
            let _ = decode("t", "controls", &pack(&bytes));
            let _ = decode("t", "controls", &STANDARD.encode(&bytes));
        }
    }

    #[test]
    fn a_small_text_that_unpacks_to_very_much_is_refused() {
        let bomb = pack(&vec![0; 64 * 1024 * 1024]);
        assert!(bomb.len() < 200_000);
        let e = decode("t", "controls", &bomb).expect_err("too large");
        assert!(e.reason.contains("at most"), "{e}");
    }
}
