//! From Fluent's files to a table of texts. A program that says something needs only the table;
//! whoever builds a site makes it once.

use fluent_syntax::ast::{
    Entry, Expression, InlineExpression, Pattern, PatternElement, VariantKey,
};
use fluent_syntax::parser;

use super::table::Table;
use crate::outside::BadInput;

/// What a choice may go by, beside numbers and what is left. English and Spanish need no other form
/// for the numbers that are told here; a language that does needs a rule for it in `table` first.
const FORM: &str = "one";

/// Makes the table of a language's files, each with its name.
///
/// # Errors
/// One sentence with file and key: a text that is not Fluent, that stands twice, or that uses more
/// of Fluent than a table holds.
pub fn compile(files: &[(&str, &str)]) -> Result<Table, BadInput> {
    let mut table = Table::default();
    for (file, text) in files {
        let resource = parser::parse(*text).map_err(|(_, errors)| {
            let first = errors.first().map(ToString::to_string).unwrap_or_default();
            BadInput::new(*file, "", format!("this is not Fluent: {first}"))
        })?;
        for entry in resource.body {
            let message = match entry {
                Entry::Message(message) => message,
                Entry::Term(term) => {
                    return Err(BadInput::new(
                        *file,
                        term.id.name,
                        "write a text for each use of it",
                    ));
                }
                _ => continue,
            };
            let key = message.id.name;
            let within = |reason: String| BadInput::new(*file, key, reason);
            let Some(pattern) = message.value.filter(|_| message.attributes.is_empty()) else {
                return Err(within("a key has one text and nothing else".to_owned()));
            };
            let text = written(&pattern).map_err(within)?;
            if table.0.insert(key.to_owned(), text).is_some() {
                return Err(within("this key stands twice".to_owned()));
            }
        }
    }
    Ok(table)
}

fn written(pattern: &Pattern<&str>) -> Result<String, String> {
    let mut text = String::new();
    for element in &pattern.elements {
        match element {
            PatternElement::TextElement { value } => text.push_str(&plain(value)?),
            PatternElement::Placeable { expression } => text.push_str(&placed(expression)?),
        }
    }
    Ok(text)
}

/// Text as it stands. Braces and tabs are the table's own, and a text stays on its line.
fn plain(text: &str) -> Result<String, String> {
    if text.contains(['{', '}', '\t', '\n', '\r']) {
        return Err("keep it on one line, without braces and tabs".to_owned());
    }
    Ok(text.to_owned())
}

fn placed(expression: &Expression<&str>) -> Result<String, String> {
    let (selector, variants) = match expression {
        Expression::Inline(InlineExpression::VariableReference { id }) => {
            return Ok(format!("{{{}}}", id.name));
        }
        Expression::Inline(InlineExpression::StringLiteral { value }) => return plain(value),
        Expression::Select { selector, variants } => (selector, variants),
        Expression::Inline(_) => return Err("use values and choices only".to_owned()),
    };
    let InlineExpression::VariableReference { id } = selector else {
        return Err("choose by a value".to_owned());
    };
    let mut cases = String::new();
    let mut last = String::new();
    for variant in variants {
        let text = written(&variant.value)?;
        match variant.key {
            _ if variant.default => last = format!("[]{{{text}}}"),
            VariantKey::NumberLiteral { value: case }
            | VariantKey::Identifier { name: case @ FORM } => {
                cases.push_str(&format!("[{case}]{{{text}}}"));
            }
            VariantKey::Identifier { name } => {
                return Err(format!(
                    "the case {name} is not known: use a number, {FORM}, or *[other]"
                ));
            }
        }
    }
    Ok(format!("{{{}{cases}{last}}}", id.name))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn compiled(text: &str) -> Result<String, String> {
        compile(&[("a.ftl", text)]).map(|t| t.to_text()).map_err(|bad| bad.to_string())
    }

    #[test]
    fn a_text_with_values_and_choices_becomes_one_line() {
        let text = "# note\nb = Two { $n ->\n    [0] none\n    [one] one { $x }\n   *[other] { $n }\n}.\na = { \"  \" }\n";
        assert_eq!(compiled(text).unwrap(), "a\t  \nb\tTwo {n[0]{none}[one]{one {x}}[]{{n}}}.\n");
    }

    #[test]
    fn what_a_table_cannot_hold_is_refused_with_file_and_key() {
        for (text, why) in [
            ("a = { b }\nb = x\n", "values and choices only"),
            ("a = { NUMBER($n) }\n", "values and choices only"),
            ("a = { $n ->\n [few] x\n *[other] y\n}\n", "few"),
            ("a = { NUMBER($n) ->\n [one] x\n *[other] y\n}\n", "choose by a value"),
            ("a = one\n    two\n", "on one line"),
            ("a = { \"{\" }\n", "braces"),
            ("a = x\na = y\n", "twice"),
            ("a = x\n    .b = y\n", "one text"),
            ("-a = x\n", "each use"),
        ] {
            let said = compiled(text).unwrap_err();
            assert!(said.starts_with("a.ftl, at ") && said.contains(why), "{text}: {said}");
        }
        assert!(compiled("a = {\n").unwrap_err().contains("not Fluent"));
    }
}
