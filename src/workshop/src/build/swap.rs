//! Writing the new site beside the old one and swapping the two at the very end.

use std::fs;
use std::path::{Path, PathBuf};

use super::pack::Packed;
use super::worker;
use coneyard::trouble::Trouble;

/// Writes everything into a fresh folder, then puts it in the place of `dist`.
///
/// # Errors
/// One sentence when the disk refuses. The old site then stands where it stood.
pub(crate) fn swap_in(files: &[Packed], dist: &Path) -> Result<(), Trouble> {
    if dist.exists() && !is_a_site(dist) {
        return Err(Trouble::Here(format!(
            "{} holds something that is not a built site, and building would delete it: name an \
             empty or a new folder with --dist",
            dist.display()
        )));
    }
    let fresh = beside(dist, "new");
    let old = beside(dist, "old");
    let written = write_all(files, &fresh).and_then(|()| {
        let had_one = dist.exists();
        if had_one {
            fs::rename(dist, &old).map_err(|e| Trouble::with_path("cannot move away", dist, &e))?;
        }
        fs::rename(&fresh, dist).map_err(|e| {
            if had_one {
                let _ = fs::rename(&old, dist);
            }
            Trouble::with_path("cannot put the new site at", dist, &e)
        })
    });
    if written.is_err() {
        let _ = fs::remove_dir_all(&fresh);
    }
    let _ = fs::remove_dir_all(&old);
    written
}

/// An empty folder or a site that was built before: what may be replaced.
fn is_a_site(folder: &Path) -> bool {
    let empty = fs::read_dir(folder).is_ok_and(|mut entries| entries.next().is_none());
    // Sites built before there was a worker have a folder of levels.
    let known = folder.join(worker::FILE).is_file() || folder.join("levels").is_dir();
    empty || (folder.join("index.html").is_file() && known)
}

/// A folder name beside `dist` that no other build uses.
fn beside(dist: &Path, what: &str) -> PathBuf {
    let name = dist.file_name().unwrap_or_default().to_string_lossy();
    dist.with_file_name(format!(".{name}-{what}-{}", std::process::id()))
}

fn write_all(files: &[Packed], folder: &Path) -> Result<(), Trouble> {
    for file in files {
        let path = folder.join(&file.path);
        if let Some(parent) = path.parent() {
            fs::create_dir_all(parent)
                .map_err(|e| Trouble::with_path("cannot make the folder", parent, &e))?;
        }
        write(&path, &file.content)?;
        for (ending, copy) in [(".br", &file.brotli), (".gz", &file.gzip)] {
            let Some(copy) = copy else { continue };
            let mut name = path.clone().into_os_string();
            name.push(ending);
            write(Path::new(&name), copy)?;
        }
    }
    Ok(())
}

fn write(path: &Path, content: &[u8]) -> Result<(), Trouble> {
    fs::write(path, content).map_err(|e| Trouble::with_path("cannot write", path, &e))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page(text: &str) -> Vec<Packed> {
        let file = |path: &str| Packed {
            path: path.to_owned(),
            content: text.as_bytes().to_vec(),
            brotli: None,
            gzip: Some(b"zipped".to_vec()),
        };
        vec![file("index.html"), file(worker::FILE), file("assets/a.json")]
    }

    #[test]
    fn a_new_site_replaces_an_old_one_and_nothing_else() {
        let root = std::env::temp_dir().join(format!("coneyard-swap-{}", std::process::id()));
        let dist = root.join("dist");
        fs::create_dir_all(&root).unwrap();
        swap_in(&page("one"), &dist).unwrap();
        fs::write(dist.join("stale.js"), "old").unwrap();
        swap_in(&page("two"), &dist).unwrap();
        assert_eq!(fs::read_to_string(dist.join("index.html")).unwrap(), "two");
        assert!(dist.join("assets/a.json.gz").is_file());
        assert!(!dist.join("stale.js").exists());
        assert_eq!(fs::read_dir(&root).unwrap().count(), 1, "nothing is left beside it");

        let precious = root.join("precious");
        fs::create_dir_all(&precious).unwrap();
        fs::write(precious.join("letter.txt"), "dear").unwrap();
        let sentence = swap_in(&page("three"), &precious).unwrap_err().to_string();
        assert!(sentence.contains("not a built site"), "{sentence}");
        assert!(precious.join("letter.txt").is_file());
        fs::remove_dir_all(&root).unwrap();
    }
}
