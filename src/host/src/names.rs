//! File names that carry a digest of their content: `shell-0123456789ab.js`.

/// Hexadecimal digits of the digest in a name: 48 bits, far more than a handful of files need.
const DIGITS: usize = 12;

/// The name with a digest of the content in it, before the last dot.
pub fn with_digest(name: &str, content: &[u8]) -> String {
    let digest = blake3::hash(content).to_hex();
    let digest = &digest.as_str()[..DIGITS];
    match name.rsplit_once('.') {
        Some((stem, extension)) => format!("{stem}-{digest}.{extension}"),
        None => format!("{name}-{digest}"),
    }
}

/// Whether the last part of this path is a name made by [`with_digest`].
pub fn carries_digest(path: &str) -> bool {
    let name = path.rsplit('/').next().unwrap_or(path);
    let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem);
    stem.rsplit_once('-').is_some_and(|(_, end)| {
        end.len() == DIGITS && end.bytes().all(|b| matches!(b, b'0'..=b'9' | b'a'..=b'f'))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_names_with_a_digest_may_be_kept_for_ever() {
        let name = with_digest("canvas_bg.wasm", b"content");
        assert_ne!(name, with_digest("canvas_bg.wasm", b"content changed"));
        assert!(carries_digest(&format!("/{name}")));
        for other in ["/", "/index.html", "/levels/figure-eight.json", "/a-0123456789AB.js"] {
            assert!(!carries_digest(other), "{other}");
        }
    }
}
