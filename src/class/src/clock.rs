//! Time on the wall, milliseconds since 1970 in UTC, and how it is written.

use std::time::{SystemTime, UNIX_EPOCH};

use time::OffsetDateTime;
use time::format_description::well_known::Rfc3339;
use time::macros::format_description;

/// Milliseconds since 1970, UTC.
pub type Millis = i64;

/// A day, ms.
pub const DAY: Millis = 24 * 3600 * 1000;

/// Now. A clock before 1970 tells 0.
pub fn now() -> Millis {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).unwrap_or_default();
    Millis::try_from(since.as_millis()).unwrap_or(Millis::MAX)
}

/// As RFC 3339 has it, to the millisecond; empty for a time that no calendar knows.
pub fn text(at: Millis) -> String {
    let format =
        format_description!("[year]-[month]-[day]T[hour]:[minute]:[second].[subsecond digits:3]Z");
    OffsetDateTime::from_unix_timestamp_nanos(i128::from(at) * 1_000_000)
        .ok()
        .and_then(|at| at.format(&format).ok())
        .unwrap_or_default()
}

/// Reads a time of RFC 3339, to the millisecond.
pub fn read(text: &str) -> Option<Millis> {
    let at = OffsetDateTime::parse(text, &Rfc3339).ok()?;
    Millis::try_from(at.unix_timestamp_nanos().div_euclid(1_000_000)).ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_written_to_the_millisecond() {
        assert_eq!(text(0), "1970-01-01T00:00:00.000Z");
        assert_eq!(text(951_782_400_007), "2000-02-29T00:00:00.007Z");
        assert_eq!(text(Millis::MAX), "");
        for at in [0, 951_782_400_007, 1_800_000_000_999] {
            assert_eq!(read(&text(at)), Some(at));
        }
        assert_eq!(read("yesterday"), None);
    }
}
