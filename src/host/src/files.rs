//! Files and folders: reading within bounds, finding the project, and writing lines to the screen.

use std::fs::{self, File};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};

use crate::trouble::Trouble;

/// Reads a file of at most `max_bytes`. A larger one is refused by its size, before it is read.
///
/// # Errors
/// One sentence when there is no such file, it is no file, or it is too large.
pub fn read_bounded(path: &Path, max_bytes: usize) -> Result<Vec<u8>, Trouble> {
    let name = path.display();
    let refused = |why: &dyn core::fmt::Display| Trouble::Input(format!("{name}: {why}"));
    let about = fs::metadata(path).map_err(|e| refused(&plain(&e)))?;
    if about.is_dir() {
        return Err(refused(&"this is a folder, and a file is needed"));
    }
    let too_large = |has: &str| {
        refused(&format!(
            "the file has {has} bytes, more than the {max_bytes} allowed; is it the right file?"
        ))
    };
    if about.len() > max_bytes as u64 {
        return Err(too_large(&about.len().to_string()));
    }
    // A pipe or device has no honest length, so the reading is bounded as well.
    let mut text = Vec::new();
    File::open(path)
        .and_then(|file| file.take(max_bytes as u64 + 1).read_to_end(&mut text))
        .map_err(|e| refused(&plain(&e)))?;
    if text.len() > max_bytes {
        return Err(too_large(&format!("more than {max_bytes}")));
    }
    Ok(text)
}

/// An error of the file system in plain words, without the number of the system call.
pub fn plain(error: &io::Error) -> String {
    match error.kind() {
        io::ErrorKind::NotFound => "there is no such file".to_owned(),
        io::ErrorKind::PermissionDenied => "this account may not read it".to_owned(),
        _ => error.to_string(),
    }
}

/// The project's folder: the nearest one above the present folder that holds the workspace and
/// its levels; else the one that this program was built from.
///
/// # Errors
/// One sentence when there is none.
pub fn project_folder() -> Result<PathBuf, Trouble> {
    let is_project = |folder: &Path| {
        folder.join("Cargo.lock").is_file()
            && folder.join("levels").is_dir()
            && folder.join("src/host").is_dir()
    };
    let here = std::env::current_dir()
        .map_err(|e| Trouble::Here(format!("the present folder cannot be read: {e}")))?;
    let built_from = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    here.ancestors()
        .map(Path::to_path_buf)
        .chain([built_from])
        .find(|folder| is_project(folder))
        .ok_or_else(|| {
            Trouble::Here(
                "this is not inside Coneyard's project folder: change into the cloned project and \
                 try again"
                    .to_owned(),
            )
        })
}

/// Writes one line to standard output. A reader who has gone away is no trouble.
pub fn say(line: impl core::fmt::Display) {
    let _ = writeln!(io::stdout().lock(), "{line}");
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_over_the_bound_is_refused_by_its_size() {
        let path = std::env::temp_dir().join(format!("coneyard-large-{}", std::process::id()));
        let file = File::create(&path).unwrap();
        file.set_len(200_000_000).unwrap();
        let sentence = read_bounded(&path, 1_000_000).unwrap_err().to_string();
        fs::remove_file(&path).unwrap();
        assert!(sentence.contains("200000000 bytes"), "{sentence}");
        assert!(!sentence.contains('\n'));
    }

    #[cfg(unix)]
    #[test]
    fn a_device_without_length_is_refused_too() {
        let sentence = read_bounded(Path::new("/dev/zero"), 1000).unwrap_err().to_string();
        assert!(sentence.contains("more than the 1000 allowed"), "{sentence}");
    }

    #[test]
    fn a_missing_file_and_a_folder_are_told_apart() {
        let missing = read_bounded(Path::new("no-such-file"), 10).unwrap_err();
        assert_eq!(missing.to_string(), "no-such-file: there is no such file");
        assert_eq!(missing.exit_code(), 2);
        let folder = read_bounded(&std::env::temp_dir(), 10).unwrap_err();
        assert!(folder.to_string().contains("this is a folder"));
    }
}
