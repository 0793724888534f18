//! The chain of state digests.
//!
//! After every second, and after the last tick, the bits of the whole simulation state and of the
//! controls since the last digest are hashed with the digest before (BLAKE3). So a digest vouches
//! for everything up to it, the setup included: change one byte anywhere, and all that follow
//! differ.

use crate::outside::BadInput;

/// Length of a digest in a run file, bytes. 64 bits are enough to notice any change that was not
/// searched for on purpose, and the chain cannot be repaired further on; a run is checked by
/// driving it again, not by its digests alone.
pub const BYTES: usize = 8;

/// A state digest.
#[derive(Clone, Copy, PartialEq, Eq)]
pub struct Digest(pub [u8; BYTES]);

impl core::fmt::Debug for Digest {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        f.write_str(&self.to_hex())
    }
}

impl Digest {
    /// Sixteen lower-case hexadecimal digits.
    pub fn to_hex(self) -> String {
        self.0.iter().map(|b| format!("{b:02x}")).collect()
    }

    /// Reads what `to_hex` wrote, and nothing else.
    pub fn from_hex(text: &str) -> Option<Self> {
        let digits = text.as_bytes();
        if digits.len() != 2 * BYTES {
            return None;
        }
        let mut out = [0; BYTES];
        for (byte, pair) in out.iter_mut().zip(digits.chunks(2)) {
            *byte = hex_digit(pair[0])? << 4 | hex_digit(pair[1])?;
        }
        Some(Self(out))
    }
}

fn hex_digit(c: u8) -> Option<u8> {
    match c {
        b'0'..=b'9' => Some(c - b'0'),
        b'a'..=b'f' => Some(c - b'a' + 10),
        _ => None,
    }
}

/// Takes in state and controls and gives a digest when asked.
pub struct Chain {
    hasher: blake3::Hasher,
    /// Not hashed yet: hashing much at once is several times as fast as word by word.
    waiting: Vec<u8>,
}

/// Bytes that are hashed at once.
const AT_ONCE: usize = 64 * 1024;

impl Chain {
    /// Begins with what the chain is of.
    pub fn new(of: &[u8]) -> Self {
        let mut hasher = blake3::Hasher::new();
        hasher.update(of);
        Self { hasher, waiting: Vec::with_capacity(AT_ONCE) }
    }

    fn take(&mut self, bytes: &[u8]) {
        if self.waiting.len() + bytes.len() > AT_ONCE {
            self.hash_waiting();
        }
        if bytes.len() > AT_ONCE {
            self.hasher.update(bytes);
        } else {
            self.waiting.extend_from_slice(bytes);
        }
    }

    fn hash_waiting(&mut self) {
        self.hasher.update(&self.waiting);
        self.waiting.clear();
    }

    /// A text, so that none can be told to be another.
    pub fn text(&mut self, text: &str) {
        self.u64(text.len() as u64);
        self.take(text.as_bytes());
    }

    /// A word of 32 bits.
    pub fn u32(&mut self, word: u32) {
        self.take(&word.to_le_bytes());
    }

    /// A number of the state, by its bits.
    pub fn f64(&mut self, value: f64) {
        self.take(&value.to_bits().to_le_bytes());
    }

    /// A number of the physics engine's state, by its bits.
    pub fn f32(&mut self, value: f32) {
        self.take(&value.to_bits().to_le_bytes());
    }

    /// A whole number of the state.
    pub fn u64(&mut self, value: u64) {
        self.take(&value.to_le_bytes());
    }

    /// The digest of all so far; the chain goes on from it.
    pub fn close_second(&mut self) -> Digest {
        self.hash_waiting();
        let hash = self.hasher.finalize();
        let mut out = [0; BYTES];
        out.copy_from_slice(&hash.as_bytes()[..BYTES]);
        // Starting afresh from the full hash keeps the work of a second constant.
        self.hasher = blake3::Hasher::new();
        self.hasher.update(hash.as_bytes());
        Digest(out)
    }
}

/// Digests of a file's text, for telling which shipped file it is.
pub fn of_text(text: &str) -> String {
    blake3::hash(text.as_bytes()).to_hex().to_string()
}

/// Digests from a run file.
///
/// # Errors
/// A sentence that names the one that is damaged.
pub fn read_all(file: &str, place: &str, texts: &[String]) -> Result<Vec<Digest>, BadInput> {
    texts
        .iter()
        .enumerate()
        .map(|(i, text)| {
            Digest::from_hex(text).ok_or_else(|| {
                BadInput::new(
                    file,
                    format!("{place}[{i}]"),
                    "a digest has sixteen lower-case hexadecimal digits",
                )
            })
        })
        .collect()
}
