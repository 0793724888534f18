//! Days of the calendar as records have them: `2026-01-31`. No clock: whoever asks says what day it is.

use serde::{Deserialize, Deserializer, Serialize, Serializer};
use time::Month;
use time::format_description::FormatItem;
use time::macros::format_description;

const FORM: &[FormatItem<'static>] = format_description!("[year]-[month]-[day]");

/// A day.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date(time::Date);

impl Date {
    /// Reads a day, or the day of a time of RFC 3339; None when it is none of the calendar's, from 1900 to 2999.
    pub fn read(text: &str) -> Option<Self> {
        let (day, rest) = text.split_at_checked(10)?;
        let ends = rest.is_empty() || rest.starts_with(['T', 't', ' ']);
        let date = time::Date::parse(day, FORM).ok().filter(|_| ends)?;
        (1900..3000).contains(&date.year()).then_some(Self(date))
    }

    /// So many months later, on the same day of the month or on its last one.
    pub fn months_later(self, months: u16) -> Self {
        let (year, month, day) = self.0.to_calendar_date();
        let from_january = i32::from(u8::from(month)) - 1 + i32::from(months);
        let year = year + from_january.div_euclid(12);
        let month = Month::January.nth_next(from_january.rem_euclid(12) as u8);
        let day = day.min(month.length(year));
        // No calendar ends so early that a record of today could reach it.
        Self(time::Date::from_calendar_date(year, month, day).unwrap_or(self.0))
    }
}

impl core::fmt::Display for Date {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        let (year, month, day) = self.0.to_calendar_date();
        write!(f, "{year:04}-{:02}-{day:02}", u8::from(month))
    }
}

impl Serialize for Date {
    fn serialize<S: Serializer>(&self, s: S) -> Result<S::Ok, S::Error> {
        s.collect_str(self)
    }
}

impl<'de> Deserialize<'de> for Date {
    fn deserialize<D: Deserializer<'de>>(d: D) -> Result<Self, D::Error> {
        let text = String::deserialize(d)?;
        let wrong = || serde::de::Error::custom("a day is written as in 2026-01-31");
        Self::read(&text).filter(|_| text.len() == 10).ok_or_else(wrong)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(text: &str) -> Date {
        Date::read(text).unwrap()
    }

    #[test]
    fn days_are_read_and_written() {
        assert_eq!(day("2026-01-31").to_string(), "2026-01-31");
        assert_eq!(day("2026-01-31T23:59:59.999Z"), day("2026-01-31"));
        assert!(day("2026-01-31") < day("2026-02-01"));
        for none in [
            "",
            "2026-02-29",
            "2026-13-01",
            "2026-1-3",
            "31.01.2026",
            "2026-01-311",
            "1899-12-31",
            "2026-01-3\u{e9}",
        ] {
            assert_eq!(Date::read(none), None, "{none}");
        }
        let read = |text: &str| serde_json::from_str::<Date>(text).ok();
        assert_eq!(read("\"2026-01-31\""), Some(day("2026-01-31")));
        assert_eq!(read("\"2026-01-31T08:00:00Z\""), None, "a day and nothing else");
        assert_eq!(serde_json::to_string(&day("2026-01-31")).unwrap(), "\"2026-01-31\"");
    }

    /// As Python's `dateutil.relativedelta` has it (4.0.0): the last day where there is no such one.
    #[test]
    fn months_end_where_they_end() {
        for (from, months, to) in [
            ("2026-01-31", 1, "2026-02-28"),
            ("2028-01-31", 1, "2028-02-29"),
            ("2026-08-31", 6, "2027-02-28"),
            ("2026-12-05", 1, "2027-01-05"),
            ("2024-02-29", 36, "2027-02-28"),
            ("2026-06-15", 36, "2029-06-15"),
            ("2026-06-15", 0, "2026-06-15"),
        ] {
            assert_eq!(day(from).months_later(months), day(to), "{from} and {months}");
        }
    }
}
