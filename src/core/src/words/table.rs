//! A language's texts as a program carries them: Fluent's files, already read.
//!
//! One line a text: its key, a tab, and the text. In it `{name}` stands for a value, and
//! `{name[0]{nothing}[one]{one thing}[]{{name} things}}` for the first of these texts whose case
//! fits the value; the last fits always. A case is a number, or "one" for one of something. `fluent`
//! makes such a table, and refuses what cannot be said in it.

use core::fmt::Write;
use std::collections::BTreeMap;

/// A value to be put into a text.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// As it is.
    Text(String),
    /// A number, which may choose the text.
    Number(f64),
}

impl From<String> for Value {
    fn from(text: String) -> Self {
        Self::Text(text)
    }
}

impl From<&str> for Value {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

impl From<f64> for Value {
    fn from(number: f64) -> Self {
        Self::Number(number)
    }
}

impl Value {
    /// Whether a case of a choice is this value's.
    fn fits(&self, case: &str) -> bool {
        match (self, case) {
            (_, "") => true,
            (Self::Text(text), case) => text == case,
            (Self::Number(number), "one") => number.abs() == 1.0,
            // Nought has no sign here.
            (Self::Number(number), case) => case == format!("{}", number + 0.0),
        }
    }
}

/// The texts of one language by their keys.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Table(pub(super) BTreeMap<String, String>);

impl Table {
    /// Reads a table from its file.
    ///
    /// # Errors
    /// A sentence with the number of the line that is no text with its key.
    pub fn read(text: &str) -> Result<Self, String> {
        let mut texts = BTreeMap::new();
        for (n, line) in text.lines().enumerate() {
            let (key, text) = line
                .split_once('\t')
                .ok_or_else(|| format!("line {}: this is no text with its key", n + 1))?;
            texts.insert(key.to_owned(), text.to_owned());
        }
        Ok(Self(texts))
    }

    /// The table as the text of a file.
    pub fn to_text(&self) -> String {
        self.0.iter().map(|(key, text)| format!("{key}\t{text}\n")).collect()
    }

    /// The keys, in the order of the alphabet.
    pub fn keys(&self) -> impl Iterator<Item = &str> {
        self.0.keys().map(String::as_str)
    }

    /// Whether there is a text for a key.
    pub fn has(&self, key: &str) -> bool {
        self.0.contains_key(key)
    }

    /// The text of a key with values put in; None where there is none.
    pub fn say(&self, key: &str, values: &[(&str, Value)]) -> Option<String> {
        let mut said = String::new();
        put(self.0.get(key)?, values, &mut said);
        Some(said)
    }
}

/// Puts a text with its values at the end of what is said.
fn put(text: &str, values: &[(&str, Value)], said: &mut String) {
    let mut rest = text;
    while let Some((before, inside)) = rest.split_once('{') {
        said.push_str(before);
        let end = closing(inside);
        put_value(&inside[..end], values, said);
        rest = inside.get(end + 1..).unwrap_or("");
    }
    said.push_str(rest);
}

/// Puts what stands between two braces.
fn put_value(inside: &str, values: &[(&str, Value)], said: &mut String) {
    let name = inside.split('[').next().unwrap_or(inside);
    let value = values.iter().find(|(n, _)| *n == name).map(|(_, value)| value);
    if name.len() < inside.len() {
        let cases = Cases(&inside[name.len()..]);
        let chosen = cases.into_iter().find(|(case, _)| match value {
            Some(value) => value.fits(case),
            None => case.is_empty(),
        });
        put(chosen.map_or("", |(_, text)| text), values, said);
        return;
    }
    // Writing to a string cannot fail.
    let _ = match value {
        Some(Value::Text(text)) => said.write_str(text),
        Some(Value::Number(number)) => write!(said, "{number}"),
        None => write!(said, "{{${name}}}"),
    };
}

/// Where the brace that is open before this text is closed; its length when it is not.
fn closing(text: &str) -> usize {
    let mut open = 0;
    for (at, c) in text.char_indices() {
        match c {
            '{' => open += 1,
            '}' if open == 0 => return at,
            '}' => open -= 1,
            _ => {}
        }
    }
    text.len()
}

/// `[case]{text}[case]{text}`, one by one.
struct Cases<'a>(&'a str);

impl<'a> Iterator for Cases<'a> {
    type Item = (&'a str, &'a str);

    fn next(&mut self) -> Option<Self::Item> {
        let (case, rest) = self.0.strip_prefix('[')?.split_once("]{")?;
        let end = closing(rest);
        self.0 = rest.get(end + 1..).unwrap_or("");
        Some((case, &rest[..end]))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn said(text: &str, values: &[(&str, Value)]) -> String {
        let table = Table::read(&format!("key\t{text}\n")).unwrap();
        table.say("key", values).unwrap()
    }

    #[test]
    fn values_are_put_in_and_choose() {
        let text = "{who}: {n[0]{none}[one]{one}[]{{n} of {all}}}.";
        let of =
            |n: f64| said(text, &[("who", "Alder".into()), ("n", n.into()), ("all", 9.0.into())]);
        assert_eq!(of(0.0), "Alder: none.");
        assert_eq!(of(1.0), "Alder: one.");
        assert_eq!(of(2.5), "Alder: 2.5 of 9.");
        assert_eq!(said("{n[here]{yes}[]{no}}", &[("n", "here".into())]), "yes");
    }

    #[test]
    fn what_is_missing_is_seen() {
        assert_eq!(said("{a} and {b[one]{1}[]{more}}", &[]), "{$a} and more");
        assert_eq!(Table::default().say("none", &[]), None);
        assert!(Table::read("one\ttext\nno key\n").unwrap_err().starts_with("line 2"));
    }

    #[test]
    fn braces_that_a_value_brings_along_are_only_text() {
        assert_eq!(said("{a}", &[("a", "{b[".into()), ("b", "no".into())]), "{b[");
    }

    #[test]
    fn a_damaged_text_never_panics() {
        for text in ["{", "}", "{a", "{a[", "{a[]", "{a[]{", "{a[x]{b}c", "{{{", "é{é[é]{é", "{}"]
        {
            said(text, &[("a", 1.0.into())]);
        }
    }

    #[test]
    fn a_table_comes_back_as_it_was() {
        let table = Table::read("a\tone {x}\nb\t\n").unwrap();
        assert_eq!(Table::read(&table.to_text()), Ok(table.clone()));
        assert_eq!(table.keys().collect::<Vec<_>>(), ["a", "b"]);
    }
}
