//! The border: what every reader of a file from outside shares.
//!
//! A file is parsed once into a type that cannot hold a wrong value. What is wrong with it is
//! said in one sentence: which file, which place in it, what is wrong and what to do.

pub(crate) mod bounded;
pub(crate) mod values;
mod written;

use core::fmt;
use std::collections::BTreeMap;

use serde::de::DeserializeOwned;

pub use written::to_json;

/// A sentence in every language the file has, by language code ("en", "es").
pub type Said = BTreeMap<String, String>;

/// Why a file was refused: one sentence.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BadInput {
    /// Name of the file, or what it is when it has none.
    pub file: String,
    /// Place in it, like `steps[2].gates[0]` or `line 4, column 7`; empty when it is the whole.
    pub place: String,
    /// What is wrong and what to do.
    pub reason: String,
}

impl fmt::Display for BadInput {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.place.is_empty() {
            write!(f, "{}: {}", self.file, self.reason)
        } else {
            write!(f, "{}, at {}: {}", self.file, self.place, self.reason)
        }
    }
}

impl std::error::Error for BadInput {}

impl BadInput {
    /// A refusal.
    pub fn new(
        file: impl Into<String>,
        place: impl Into<String>,
        reason: impl Into<String>,
    ) -> Self {
        Self { file: file.into(), place: place.into(), reason: reason.into() }
    }
}

/// Reads JSON into `T`, bounded in size before anything is allocated; serde_json bounds the depth
/// at 128 and refuses numbers that do not fit.
///
/// # Errors
/// One sentence with file and place when it is too large, not JSON, or not of the shape of `T`.
pub fn read_json<T: DeserializeOwned>(
    file: &str,
    text: &[u8],
    max_bytes: usize,
) -> Result<T, BadInput> {
    if text.len() > max_bytes {
        return Err(BadInput::new(
            file,
            "",
            format!("the file has {} bytes, more than the {max_bytes} allowed", text.len()),
        ));
    }
    let mut reader = serde_json::Deserializer::from_slice(text);
    let value: T = serde_path_to_error::deserialize(&mut reader).map_err(|e| {
        let path = e.path().to_string();
        let place = if path == "." { String::new() } else { path };
        BadInput::new(file, one_line(&place, 120), one_line(&e.inner().to_string(), 200))
    })?;
    reader.end().map_err(|e| BadInput::new(file, "", one_line(&e.to_string(), 200)))?;
    Ok(value)
}

/// Keeps what a library says, or a name from the file, to one line of so many characters at most: a
/// hostile file must not choose what fills the screen.
fn one_line(message: &str, most: usize) -> String {
    message.chars().map(|c| if c.is_control() { ' ' } else { c }).take(most).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_name_from_the_file_stays_short_and_on_one_line() {
        #[derive(Debug, serde::Deserialize)]
        #[serde(deny_unknown_fields)]
        struct Only {
            #[serde(rename = "a")]
            _a: BTreeMap<String, u32>,
        }
        let text = format!(r#"{{"a": {{"{}\nb": "no number"}}}}"#, "n".repeat(500));
        let said = read_json::<Only>("a file", text.as_bytes(), 10_000)
            .expect_err("no number")
            .to_string();
        assert!(said.len() < 400 && !said.contains('\n'), "{said}");
        let text = r#"{"a": {"x\ny": "no number"}}"#;
        let said = read_json::<Only>("a file", text.as_bytes(), 10_000)
            .expect_err("no number")
            .to_string();
        assert!(said.starts_with("a file, at a.x y: "), "{said}");
    }
}
