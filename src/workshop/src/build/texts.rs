//! The texts of each language as browsers fetch them: tables made of Fluent's files, one a language,
//! of which a browser fetches the one in use.

use coneyard_core::words::{LANGUAGES, shipped};

use super::SiteFile;
use coneyard::names::with_digest;
use coneyard::trouble::Trouble;

/// Makes `words-LANGUAGE-DIGEST.txt` of every language.
///
/// # Errors
/// One sentence with file and key when a text cannot be used.
pub(crate) fn tables() -> Result<Vec<SiteFile>, Trouble> {
    let mut files = Vec::new();
    for language in LANGUAGES {
        let content = shipped(language)?.to_text().into_bytes();
        files.push(SiteFile {
            path: with_digest(&format!("words-{language}.txt"), &content),
            content,
        });
    }
    Ok(files)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_language_has_its_own_texts() {
        let files = tables().unwrap();
        assert_eq!(files.len(), LANGUAGES.len());
        for (file, language) in files.iter().zip(LANGUAGES) {
            assert!(file.path.starts_with(&format!("words-{language}-")), "{}", file.path);
            let text = String::from_utf8(file.content.clone()).unwrap();
            assert!(text.lines().count() > 500, "{}", file.path);
            assert!(text.lines().any(|line| line == "lang-en\tEnglish"));
        }
        assert_ne!(files[0].content, files[1].content);
    }
}
