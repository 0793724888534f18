//! The page itself, as style sheets know it: its size, its margins, and a line at its foot with
//! who drove what and the page's number.

use leptos::prelude::*;

use crate::canvas;
use crate::settings::{Paper, use_settings};
use crate::words::{k, say_with, text};

/// Stand for the two numbers while the words around them are put together.
const PAGE: &str = "\u{1}";
const PAGES: &str = "\u{2}";

/// A string of a style sheet: letters, digits and spaces as they are, all else as its number.
fn quoted(words: &str) -> String {
    let mut css = String::from("\"");
    for c in words.chars() {
        if c.is_alphanumeric() || c == ' ' {
            css.push(c);
        } else {
            css.push_str(&format!("\\{:x} ", u32::from(c)));
        }
    }
    css.push('"');
    css
}

/// Words with the two stand-ins as the content of a style sheet's box.
fn counted(words: &str) -> String {
    let mut parts = Vec::new();
    for (n, part) in words.split(PAGE).enumerate() {
        if n > 0 {
            parts.push("counter(page)".to_owned());
        }
        for (n, part) in part.split(PAGES).enumerate() {
            if n > 0 {
                parts.push("counter(pages)".to_owned());
            }
            if !part.is_empty() {
                parts.push(quoted(part));
            }
        }
    }
    parts.join(" ")
}

/// The rule for every page.
fn page_rule(paper: Paper, foot: &str, page_of: &str) -> String {
    let size = paper.css();
    let font = "font: 8.5pt system-ui, sans-serif; color: #000;";
    format!(
        "@page {{ size: {size} portrait; margin: 14mm 15mm 17mm; \
         @bottom-left {{ content: {}; {font} }} \
         @bottom-right {{ content: {}; {font} }} }}",
        quoted(foot),
        counted(page_of)
    )
}

/// Sets size and foot of every printed page while it is in the document.
#[component]
pub(crate) fn PageStyle(
    /// What stands at the foot on the left.
    foot: Signal<String>,
) -> impl IntoView {
    let settings = use_settings();
    let rule = move || {
        let page_of =
            say_with(k("print-page-of"), vec![("page", text(PAGE)), ("pages", text(PAGES))]);
        page_rule(settings.with(|s| s.paper), &foot.get(), &page_of)
    };
    // Not an element of the page: a page whose server lets no style stand in it is to print as well.
    Effect::new(move |_| canvas::print_by(&rule()));
    on_cleanup(|| canvas::print_by(""));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_stand_where_the_language_puts_them() {
        let page_of = format!("Page {PAGE} of {PAGES}");
        assert_eq!(counted(&page_of), r#""Page " counter(page) " of " counter(pages)"#);
        assert_eq!(counted(&format!("{PAGES}/{PAGE}")), r#"counter(pages) "\2f " counter(page)"#);
    }

    #[test]
    fn a_name_cannot_end_the_string_or_the_style() {
        let odd = quoted("A\"; } </style> \\ \n");
        assert_eq!(odd.matches('"').count(), 2);
        assert!(!odd.contains(['<', '>', ';', '}', '\n']), "{odd}");
        assert_eq!(quoted("Álamo 7"), "\"Álamo 7\"");
    }

    #[test]
    fn the_size_is_the_papers() {
        assert!(page_rule(Paper::A4, "", "").starts_with("@page { size: A4 portrait;"));
        assert!(page_rule(Paper::Letter, "", "").starts_with("@page { size: letter portrait;"));
    }
}
