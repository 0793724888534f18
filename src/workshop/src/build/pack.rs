//! Brotli and gzip copies of every file, made once here instead of at each request.

use std::io::Write;

use flate2::Compression;
use flate2::write::GzEncoder;
use rayon::prelude::*;

use super::SiteFile;
use super::store::Store;
use coneyard::trouble::Trouble;

/// A file of the site with its compressed copies; None where one would not be smaller.
pub(crate) struct Packed {
    /// Path below the root.
    pub(crate) path: String,
    /// The bytes.
    pub(crate) content: Vec<u8>,
    /// As brotli.
    pub(crate) brotli: Option<Vec<u8>>,
    /// As gzip.
    pub(crate) gzip: Option<Vec<u8>>,
}

/// How much work goes into making it small.
#[derive(Clone, Copy)]
struct Effort {
    brotli: i32,
    gzip: u32,
}

/// Compresses every file, several at once; what is in the store is taken from there.
///
/// # Errors
/// One sentence when compressing fails, which only a lack of memory can bring about.
pub(crate) fn pack(
    files: Vec<SiteFile>,
    quickly: bool,
    store: &Store,
) -> Result<Vec<Packed>, Trouble> {
    let effort =
        if quickly { Effort { brotli: 4, gzip: 4 } } else { Effort { brotli: 11, gzip: 9 } };
    let mut packed: Vec<Packed> = files
        .into_iter()
        .map(|file| Packed { path: file.path, content: file.content, brotli: None, gzip: None })
        .collect();
    let mut missing = Vec::new();
    for (at, file) in packed.iter_mut().enumerate() {
        for kind in [Kind::Brotli, Kind::Gzip] {
            let key = Store::key(&kind.work(effort), &file.content);
            match store.get(&key) {
                Some(small) => file.keep(kind, small),
                None => missing.push((at, kind, key)),
            }
        }
    }
    // The largest first: otherwise one thread would end up alone with it.
    missing.sort_by_key(|(at, ..)| std::cmp::Reverse(packed[*at].content.len()));

    let compress = |(at, kind, key): (usize, Kind, String)| {
        let small = kind.compress(&packed[at].content, effort);
        (at, kind, key, small)
    };
    // One after the other is taken, in this order.
    let made: Vec<_> = missing.into_iter().par_bridge().map(compress).collect();
    for (at, kind, key, small) in made {
        let small =
            small.map_err(|e| Trouble::Here(format!("compressing the site failed: {e}")))?;
        store.put(&key, &small);
        packed[at].keep(kind, small);
    }
    Ok(packed)
}

impl Packed {
    /// Keeps a compressed copy if it is worth its place on the disk.
    fn keep(&mut self, kind: Kind, small: Vec<u8>) {
        let worth_it = (small.len() < self.content.len()).then_some(small);
        match kind {
            Kind::Brotli => self.brotli = worth_it,
            Kind::Gzip => self.gzip = worth_it,
        }
    }
}

#[derive(Clone, Copy)]
enum Kind {
    Brotli,
    Gzip,
}

impl Kind {
    /// The name of the work in the store.
    fn work(self, effort: Effort) -> String {
        match self {
            Self::Brotli => format!("brotli {}", effort.brotli),
            Self::Gzip => format!("gzip {}", effort.gzip),
        }
    }

    fn compress(self, content: &[u8], effort: Effort) -> std::io::Result<Vec<u8>> {
        match self {
            Self::Brotli => {
                let params = brotli::enc::BrotliEncoderParams {
                    quality: effort.brotli,
                    // 16 MiB of window, the most that every browser takes.
                    lgwin: 24,
                    size_hint: content.len(),
                    ..Default::default()
                };
                let mut small = Vec::new();
                brotli::BrotliCompress(&mut &content[..], &mut small, &params)?;
                Ok(small)
            }
            Self::Gzip => {
                let mut encoder = GzEncoder::new(Vec::new(), Compression::new(effort.gzip));
                encoder.write_all(content)?;
                encoder.finish()
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Read;

    #[test]
    fn both_copies_unpack_to_the_original() {
        let original = "the yard stands; ".repeat(1000).into_bytes();
        let effort = Effort { brotli: 11, gzip: 9 };
        let mut back = Vec::new();
        let small = Kind::Brotli.compress(&original, effort).unwrap();
        brotli::BrotliDecompress(&mut &small[..], &mut back).unwrap();
        assert_eq!(back, original);
        let small = Kind::Gzip.compress(&original, effort).unwrap();
        back.clear();
        flate2::read::GzDecoder::new(&small[..]).read_to_end(&mut back).unwrap();
        assert_eq!(back, original);
    }
}
