//! Putting the site together: what lies in `web/` and `assets/`, and what was made before.
//!
//! A file in `web/` may name another file of the site by a placeholder: `{{glue_js}}` stands for
//! `glue.js`. A file that is named so gets a digest of its content in its name, and browsers keep
//! it for ever; a file that is not keeps its plain name. `{{canvas_bg_wasm_bytes}}` stands for the size of a
//! file that was made before, `{{en_start_again}}` for a text of the pages in a language.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::Path;

use coneyard_core::words::{LANGUAGES, shipped};

use super::{SiteFile, worker};
use coneyard::names::{carries_digest, with_digest};
use coneyard::trouble::Trouble;

/// Files in `web/` in which placeholders are filled in.
const TEXTS: [&str; 4] = [".html", ".js", ".css", ".webmanifest"];

/// How a site was made, as its pages say it: `{{made}}` in `web/index.html`.
pub(crate) const QUICK: &str = "quick";
/// Small and fast, as people should load it.
pub(crate) const SMALL: &str = "small";

/// Where pages ask whether there is a class, and what a site of plain files answers: a question that leads
/// nowhere would stand as an error in the browser's console.
const NO_CLASS: (&str, &str) = ("api/class", "{\"class\":null,\"you\":null}\n");

/// All files of the site, which was made as `made` says.
///
/// # Errors
/// One sentence when a folder cannot be read or a placeholder names no file.
pub(crate) fn gather(
    project: &Path,
    bound: Vec<SiteFile>,
    made: &str,
) -> Result<Vec<SiteFile>, Trouble> {
    let mut web = Vec::new();
    read_folder(&project.join("web"), "", &mut web)?;
    if !web.iter().any(|file| file.path == "index.html") {
        return Err(Trouble::Here(
            "there is no web/index.html, the page that a browser loads first".to_owned(),
        ));
    }
    // The worker is of all others, so it comes last.
    let (workers, web) = web.into_iter().partition(|file| file.path == worker::FILE);
    let mut site = filled(web, &bound, made, &said_in_the_page())?;
    site.extend(bound);
    site.sort_by(|a, b| a.path.cmp(&b.path));
    worker::add(&mut site, workers)?;
    read_folder(&project.join("assets"), "assets/", &mut site)?;
    // Never kept: with a host it is another answer.
    site.push(SiteFile { path: NO_CLASS.0.to_owned(), content: NO_CLASS.1.into() });
    site.sort_by(|a, b| a.path.cmp(&b.path));
    Ok(site)
}

/// Reads all files below a folder, in order of their names.
fn read_folder(folder: &Path, prefix: &str, into: &mut Vec<SiteFile>) -> Result<(), Trouble> {
    let cannot = |e: std::io::Error| Trouble::with_path("cannot read", folder, &e);
    let mut entries: Vec<_> =
        fs::read_dir(folder).map_err(cannot)?.collect::<Result<_, _>>().map_err(cannot)?;
    entries.sort_by_key(fs::DirEntry::file_name);
    for entry in entries {
        let name = entry.file_name().to_string_lossy().into_owned();
        if name.starts_with('.') {
            continue;
        }
        let path = entry.path();
        if path.is_dir() {
            read_folder(&path, &format!("{prefix}{name}/"), into)?;
            continue;
        }
        let content = fs::read(&path).map_err(|e| Trouble::with_path("cannot read", &path, &e))?;
        into.push(SiteFile { path: format!("{prefix}{name}"), content });
    }
    Ok(())
}

/// All texts of the pages by their placeholders: what is seen before there is a program to look them up.
fn said_in_the_page() -> Vec<(String, String)> {
    let mut said = Vec::new();
    for language in LANGUAGES {
        // What is wrong in a text was found when the tables were made.
        let table = shipped(language).unwrap_or_default();
        for key in table.keys() {
            let text = table.say(key, &[]).unwrap_or_default();
            let text = text.replace('&', "&amp;").replace('<', "&lt;").replace('"', "&quot;");
            said.push((placeholder_of(&format!("{language}-{key}")), text));
        }
    }
    said
}

/// Fills in the placeholders and gives the files that they name their digests.
fn filled(
    web: Vec<SiteFile>,
    bound: &[SiteFile],
    made: &str,
    said: &[(String, String)],
) -> Result<Vec<SiteFile>, Trouble> {
    let mut named: BTreeMap<String, String> = said.iter().cloned().collect();
    for file in bound {
        let key = placeholder_of(&without_digest(&file.path));
        named.insert(format!("{key}_bytes"), file.content.len().to_string());
        named.insert(key, file.path.clone());
    }
    named.insert("made".to_owned(), made.to_owned());
    // Known when everything else is.
    named.insert("version".to_owned(), worker::VERSION.to_owned());
    let mut filling = Filling {
        waiting: web.into_iter().map(|file| (placeholder_of(&file.path), file)).collect(),
        named,
        done: Vec::new(),
        open: BTreeSet::new(),
    };
    while let Some(key) = filling.first_text_waiting() {
        filling.fill(&key, false)?;
    }
    filling.done.extend(filling.waiting.into_values());
    Ok(filling.done)
}

struct Filling {
    /// Files not yet looked at, by their placeholder.
    waiting: BTreeMap<String, SiteFile>,
    /// Final paths by placeholder.
    named: BTreeMap<String, String>,
    done: Vec<SiteFile>,
    /// Files being filled at this moment: one that comes up again names itself in a circle.
    open: BTreeSet<String>,
}

impl Filling {
    /// The next file to fill: pages first, since they name the others and so decide which files
    /// get a digest.
    fn first_text_waiting(&self) -> Option<String> {
        TEXTS.iter().find_map(|ending| {
            self.waiting
                .iter()
                .find(|(_, file)| file.path.ends_with(ending))
                .map(|(key, _)| key.clone())
        })
    }

    fn fill(&mut self, key: &str, with_name_by_digest: bool) -> Result<(), Trouble> {
        let Some(mut file) = self.waiting.remove(key) else {
            return Ok(());
        };
        self.open.insert(key.to_owned());
        if TEXTS.iter().any(|ending| file.path.ends_with(ending)) {
            let text = String::from_utf8(file.content)
                .map_err(|_| Trouble::Here(format!("web/{} is not text in UTF-8", file.path)))?;
            file.content = self.fill_text(&file.path, &text)?.into_bytes();
        }
        self.open.remove(key);
        if with_name_by_digest {
            file.path = with_digest(&file.path, &file.content);
            self.named.insert(key.to_owned(), file.path.clone());
        }
        self.done.push(file);
        Ok(())
    }

    fn fill_text(&mut self, path: &str, text: &str) -> Result<String, Trouble> {
        let mut filled = String::with_capacity(text.len());
        let mut rest = text;
        while let Some((before, after)) = rest.split_once("{{") {
            filled.push_str(before);
            let Some((key, after)) = after.split_once("}}").filter(|(key, _)| is_key(key)) else {
                filled.push_str("{{");
                rest = after;
                continue;
            };
            if self.open.contains(key) {
                return Err(Trouble::Here(format!(
                    "web/{path} names {{{{{key}}}}}, which names it in turn: no digest can be \
                     made of a circle"
                )));
            }
            self.fill(key, true)?;
            let Some(name) = self.named.get(key) else {
                return Err(Trouble::Here(format!(
                    "web/{path} names {{{{{key}}}}}, but no file of the site goes by that name"
                )));
            };
            filled.push_str(name);
            rest = after;
        }
        filled.push_str(rest);
        Ok(filled)
    }
}

/// `glue.js` is `glue_js` in a placeholder.
fn placeholder_of(path: &str) -> String {
    path.chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '_' }).collect()
}

fn is_key(key: &str) -> bool {
    !key.is_empty() && key.bytes().all(|b| b.is_ascii_alphanumeric() || b == b'_')
}

/// Takes the digest that [`with_digest`] put in out again.
fn without_digest(path: &str) -> String {
    if !carries_digest(path) {
        return path.to_owned();
    }
    match (path.rsplit_once('-'), path.rsplit_once('.')) {
        (Some((stem, _)), Some((_, extension))) => format!("{stem}.{extension}"),
        _ => path.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn file(path: &str, content: &str) -> SiteFile {
        SiteFile { path: path.to_owned(), content: content.as_bytes().to_vec() }
    }

    fn text_of(site: &[SiteFile], start: &str, end: &str) -> String {
        let found =
            site.iter().find(|f| f.path.starts_with(start) && f.path.ends_with(end)).unwrap();
        String::from_utf8(found.content.clone()).unwrap()
    }

    #[test]
    fn a_page_names_its_files_by_their_digest() {
        let web = vec![
            file("glue.js", "import './{{canvas_js}}'; const a = {b: {c: 1}};"),
            file("index.html", "<script src={{glue_js}}> {{shell_js}} {{made}} {{ not one }}"),
            file("about.html", "{{shell_js_bytes}} {{en_start_again}} {{version}}"),
            file("manifest.webmanifest", "{}"),
        ];
        let bound = [file("canvas-0123456789ab.js", ""), file("shell-ba9876543210.js", "12345")];
        let said = [("en_start_again".to_owned(), "Again".to_owned())];
        let site = filled(web, &bound, QUICK, &said).unwrap();
        assert_eq!(text_of(&site, "about", "html"), "5 Again {{version}}");
        let glue = text_of(&site, "glue-", ".js");
        assert_eq!(glue, "import './canvas-0123456789ab.js'; const a = {b: {c: 1}};");
        let name = with_digest("glue.js", glue.as_bytes());
        assert_eq!(
            text_of(&site, "index", "html"),
            format!("<script src={name}> shell-ba9876543210.js quick {{{{ not one }}}}")
        );
        assert!(site.iter().any(|f| f.path == "manifest.webmanifest"));
    }

    #[test]
    fn a_placeholder_without_a_file_is_an_error_that_names_it() {
        let trouble =
            filled(vec![file("index.html", "{{gleu_js}}")], &[], SMALL, &[]).err().unwrap();
        assert!(trouble.to_string().contains("gleu_js"));
    }

    #[test]
    fn texts_cannot_end_what_they_stand_in() {
        let said = said_in_the_page();
        let again = said.iter().find(|(key, _)| key == "es_start_again").unwrap();
        assert_eq!(again.1, "Volver a cargar la página");
        assert!(said.iter().all(|(_, text)| !text.contains(['<', '"'])));
    }

    #[test]
    fn a_circle_is_an_error() {
        let web = vec![file("a.js", "{{b_js}}"), file("b.js", "{{a_js}}")];
        assert!(filled(web, &[], SMALL, &[]).err().unwrap().to_string().contains("circle"));
    }
}
