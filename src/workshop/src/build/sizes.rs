//! What the site weighs: as it is, and as browsers fetch it.

use std::fmt::Write;

use super::pack::Packed;
use coneyard::names::carries_digest;

/// Bytes of one part of the site.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize)]
pub(crate) struct Weight {
    /// As they are.
    pub(crate) raw: u64,
    /// As gzip.
    pub(crate) gzip: u64,
    /// As brotli.
    pub(crate) brotli: u64,
}

impl Weight {
    /// Adds a file; one without a compressed copy travels as it is.
    pub(crate) fn add(&mut self, raw: u64, gzip: Option<u64>, brotli: Option<u64>) {
        self.raw += raw;
        self.gzip += gzip.unwrap_or(raw);
        self.brotli += brotli.unwrap_or(raw);
    }
}

/// The parts of the site, in the order in which a browser meets them.
pub(crate) const PARTS: [&str; 8] =
    ["pages", "shell", "words", "later", "reader", "canvas", "exercises", "assets"];

/// The part that a file belongs to, as an index into [`PARTS`].
pub(crate) fn part_of(path: &str) -> usize {
    let begins = |with: &str| path.starts_with(with) && carries_digest(path);
    let bound = |name: &str| ["-", "_bg-", "_link-"].iter().any(|e| begins(&format!("{name}{e}")));
    match path {
        _ if begins("exercises-") || begins("drawings-") => 6,
        _ if path.starts_with("assets/") => 7,
        // Pictures for those who install it.
        _ if begins("icon-") && path.ends_with(".png") => 7,
        _ if bound("shell") => 1,
        _ if begins("words-") => 2,
        // Pages that were cut out of the shell, what several of them share, and what one of them shows.
        _ if begins("split_") || begins("chunk_") || begins("lesson-") => 3,
        _ if bound("reader") => 4,
        _ if bound("canvas") => 5,
        _ => 0,
    }
}

/// Weighs what was packed, part by part.
pub(crate) fn weigh(files: &[Packed]) -> [Weight; PARTS.len()] {
    let mut weights = [Weight::default(); PARTS.len()];
    let size = |bytes: &Vec<u8>| bytes.len() as u64;
    for file in files {
        weights[part_of(&file.path)].add(
            size(&file.content),
            file.gzip.as_ref().map(size),
            file.brotli.as_ref().map(size),
        );
    }
    weights
}

/// The weights as a table to read, in kilobytes of 1000 bytes.
pub(crate) fn table(weights: &[Weight; PARTS.len()]) -> String {
    let mut total = Weight::default();
    let mut text = format!("{:<10}{:>12}{:>12}{:>12}\n", "kB", "raw", "gzip", "brotli");
    for (part, weight) in PARTS.iter().zip(weights) {
        total.add(weight.raw, Some(weight.gzip), Some(weight.brotli));
        text.push_str(&row(part, *weight));
    }
    text.push_str(row("total", total).trim_end());
    text
}

fn row(name: &str, weight: Weight) -> String {
    let kilobytes = |bytes: u64| bytes as f64 / 1000.0;
    let mut row = String::new();
    // Writing to a string cannot fail.
    let _ = writeln!(
        row,
        "{name:<10}{:>12.1}{:>12.1}{:>12.1}",
        kilobytes(weight.raw),
        kilobytes(weight.gzip),
        kilobytes(weight.brotli)
    );
    row
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_file_belongs_to_the_part_that_loads_it() {
        let parts = [
            ("index.html", "pages"),
            ("glue-0123456789ab.js", "pages"),
            ("shell_bg-0123456789ab.wasm", "shell"),
            ("canvas-0123456789ab.js", "canvas"),
            ("reader_bg-0123456789ab.wasm", "reader"),
            ("words-en-0123456789ab.txt", "words"),
            ("shell_link-0123456789ab.js", "shell"),
            ("split_driving-0123456789ab.wasm", "later"),
            ("chunk_4-0123456789ab.wasm", "later"),
            ("split_notes.txt", "pages"),
            ("canvas-notes.txt", "pages"),
            ("lesson-0123456789ab.json", "later"),
            ("exercises-0123456789ab.json", "exercises"),
            ("drawings-0123456789ab.json", "exercises"),
            ("assets/canvas-0123456789ab.js", "assets"),
        ];
        for (path, part) in parts {
            assert_eq!(PARTS[part_of(path)], part, "{path}");
        }
    }
}
