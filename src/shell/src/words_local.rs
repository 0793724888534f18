//! Reads the pages' own texts until the shared reader of texts stands.

use fluent_bundle::{FluentArgs, FluentBundle, FluentResource, FluentValue};

/// Texts of one language.
pub(crate) struct Words {
    bundle: FluentBundle<FluentResource>,
}

impl Words {
    /// The texts of the language of this code; English for any other.
    pub(crate) fn new(lang: &str) -> Self {
        let source = match lang {
            "es" => include_str!("../../../assets/lang/shell.es.ftl"),
            _ => include_str!("../../../assets/lang/shell.en.ftl"),
        };
        let id = lang.parse().unwrap_or_default();
        let mut bundle = FluentBundle::new(vec![id]);
        bundle.set_use_isolating(false);
        let resource = match FluentResource::try_new(source.to_owned()) {
            Ok(r) => r,
            Err((r, _)) => r,
        };
        bundle.add_resource_overriding(resource);
        Self { bundle }
    }

    /// The text of a key, or the key itself where there is none.
    pub(crate) fn say(&self, key: &str, values: &[(&str, FluentValue<'_>)]) -> String {
        let Some(pattern) = self.bundle.get_message(key).and_then(|m| m.value()) else {
            return key.to_owned();
        };
        let mut args = FluentArgs::new();
        for (name, value) in values {
            args.set(*name, value.clone());
        }
        self.bundle.format_pattern(pattern, Some(&args), &mut Vec::new()).into_owned()
    }
}
