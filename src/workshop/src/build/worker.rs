//! The service worker, which answers for the site when there is no network: its version, which is a digest of
//! the whole site, and the lists of files that it keeps.

use super::SiteFile;
use coneyard::trouble::Trouble;

/// The worker. Its name is always the same, since browsers ask for it to see whether it has changed.
pub(crate) const FILE: &str = "service-worker.js";

/// Stands for the version, in the worker and in the page.
pub(crate) const VERSION: &str = "{{version}}";

/// Hexadecimal digits of the version.
const DIGITS: usize = 16;

/// Adds the worker to the site that it is to keep, and writes the version into the page.
///
/// # Errors
/// One sentence when there is no worker, or when it has no place for what is to be filled in.
pub(crate) fn add(site: &mut Vec<SiteFile>, workers: Vec<SiteFile>) -> Result<(), Trouble> {
    let [worker] = <[SiteFile; 1]>::try_from(workers).map_err(|_| {
        Trouble::Here(format!(
            "there is no web/{FILE}, which keeps the site for a time without network"
        ))
    })?;
    let mut text = text_of(&worker)?;
    let version = version(site, &text);
    let (drive, pages): (Vec<&str>, Vec<&str>) =
        site.iter().map(|file| file.path.as_str()).partition(|path| path.starts_with("canvas"));
    let pages: Vec<&str> =
        pages.into_iter().map(|path| if path == "index.html" { "./" } else { path }).collect();
    for (place, value) in [
        ("\"{{pages}}\"", list(&pages)),
        ("\"{{drive}}\"", list(&drive)),
        (VERSION, version.clone()),
    ] {
        if text.matches(place).count() != 1 {
            return Err(Trouble::Here(format!("web/{FILE} must have {place} in it once")));
        }
        text = text.replace(place, &value);
    }
    for page in site.iter_mut().filter(|file| file.path == "index.html") {
        page.content = text_of(page)?.replace(VERSION, &version).into_bytes();
    }
    site.push(SiteFile { path: FILE.to_owned(), content: text.into_bytes() });
    Ok(())
}

fn text_of(file: &SiteFile) -> Result<String, Trouble> {
    String::from_utf8(file.content.clone())
        .map_err(|_| Trouble::Here(format!("web/{} is not text in UTF-8", file.path)))
}

/// A digest of everything that is kept and of the worker itself.
fn version(site: &[SiteFile], worker: &str) -> String {
    let mut hasher = blake3::Hasher::new();
    let mut add = |bytes: &[u8]| {
        hasher.update(&(bytes.len() as u64).to_le_bytes());
        hasher.update(bytes);
    };
    add(worker.as_bytes());
    for file in site {
        add(file.path.as_bytes());
        add(&file.content);
    }
    hasher.finalize().to_hex().as_str()[..DIGITS].to_owned()
}

/// A list as JavaScript writes it; names of files have nothing in them that would end a string.
fn list(files: &[&str]) -> String {
    let lines: Vec<String> = files.iter().map(|file| format!("  \"{file}\",\n")).collect();
    format!("[\n{}]", lines.concat())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(path: &str, content: &str) -> SiteFile {
        SiteFile { path: path.to_owned(), content: content.as_bytes().to_vec() }
    }

    fn made(of: &str) -> (String, String) {
        let mut site = vec![
            file("canvas_bg-0123456789ab.wasm", "engine"),
            file("glue-0123456789ab.js", of),
            file("index.html", "version {{version}}"),
        ];
        let worker = "const V = \"{{version}}\", P = \"{{pages}}\", D = \"{{drive}}\";";
        add(&mut site, vec![file(FILE, worker)]).unwrap();
        let text = |path| text_of(site.iter().find(|f| f.path == path).unwrap()).unwrap();
        (text(FILE), text("index.html"))
    }

    #[test]
    fn the_worker_knows_every_file_and_the_page_its_version() {
        let (worker, page) = made("glue");
        let version = page.strip_prefix("version ").unwrap();
        assert_eq!(version.len(), DIGITS);
        let pages = "[\n  \"glue-0123456789ab.js\",\n  \"./\",\n]";
        let drive = "[\n  \"canvas_bg-0123456789ab.wasm\",\n]";
        assert_eq!(worker, format!("const V = \"{version}\", P = {pages}, D = {drive};"));
    }

    #[test]
    fn whatever_changes_is_another_version() {
        assert_ne!(made("glue").1, made("other glue").1);
        assert_eq!(made("glue"), made("glue"));
    }

    #[test]
    fn a_worker_without_its_places_is_refused() {
        let why = add(&mut Vec::new(), vec![file(FILE, "const V = \"{{version}}\";")]).unwrap_err();
        assert!(why.to_string().contains("{{pages}}"), "{why}");
        assert!(add(&mut Vec::new(), Vec::new()).unwrap_err().to_string().contains(FILE));
    }
}
