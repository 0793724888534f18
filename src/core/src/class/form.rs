//! The form of records: JSON with the version of their form.

use serde::Serialize;
use serde::de::DeserializeOwned;

use crate::outside::to_json;

/// The form of records that do not say which they have: they are from before there were versions.
pub const FIRST_FORM: u32 = 1;

pub(super) fn first() -> u32 {
    FIRST_FORM
}

/// A kind of record.
pub trait Form {
    /// The newest version that is known here.
    const NEWEST: u32;

    /// The version of this one.
    fn version(&self) -> u32;
}

/// Reads a record.
///
/// # Errors
/// One sentence when it is none of this kind, or of a version that is not known here yet.
pub fn read_record<T: Form + DeserializeOwned>(text: &str) -> Result<T, String> {
    let record: T =
        serde_json::from_str(text).map_err(|e| format!("this record cannot be read: {e}"))?;
    if record.version() > T::NEWEST {
        let (is, reads) = (record.version(), T::NEWEST);
        return Err(format!(
            "this record has version {is}, and this program reads up to {reads}; load the newest program"
        ));
    }
    Ok(record)
}

/// A record as text.
///
/// # Errors
/// One sentence; a record of numbers, texts and lists always has a text.
pub fn write_record<T: Form + Serialize>(record: &T) -> Result<String, String> {
    to_json(record).map_err(|e| format!("this record cannot be written: {e}"))
}

/// The name that a word of a closed list has in records: "right-of-way".
pub(super) fn word<T: Serialize>(one: &T) -> String {
    match serde_json::to_value(one) {
        Ok(serde_json::Value::String(name)) => name,
        _ => String::new(),
    }
}
