//! The drawings of the walk-round, each cut down to what shows. All states of a part stand in its drawing, as
//! groups that name theirs; what is put on the page holds nothing of the others, and no names.

use std::collections::BTreeMap;
use std::sync::Arc;

use coneyard_core::checks::list::Aspect;
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use crate::canvas::{self, Asked};

/// The state of a part with nothing the matter.
pub(crate) const SOUND: &str = "sound";

/// The attribute by which a group names its states.
const STATES: &str = "data-state";

/// All drawings of the site, as texts by their names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Drawings(BTreeMap<String, String>);

/// The drawings: None while they are being fetched.
pub(crate) type Fetched = RwSignal<Option<Asked<Arc<Drawings>>>>;

/// The drawings, fetched once a page load.
pub(crate) fn use_drawings() -> Fetched {
    let fetched = RwSignal::new(None);
    leptos::task::spawn_local(async move {
        let read = |text: String| Drawings::read(&text).map(Arc::new);
        fetched.try_set(Some(canvas::drawings().await.and_then(read)));
    });
    fetched
}

impl Drawings {
    fn read(text: &str) -> Asked<Self> {
        serde_json::from_str(text).map(Self).map_err(|e| e.to_string())
    }

    /// A point from close by in one state, [`SOUND`] or a defect's id; None where the site has no drawing.
    pub(crate) fn closer(&self, point: &str, state: &str) -> Option<String> {
        cut(self.0.get(point)?, |s| s == state)
    }

    /// The whole truck from one side, with each point in the state that is told of it: [`SOUND`] or the id
    /// of a defect.
    pub(crate) fn whole<'a>(
        &self,
        from: Aspect,
        state_of: impl Fn(&str) -> &'a str,
    ) -> Option<String> {
        let shows = |s: &str| s.split_once('/').is_some_and(|(point, is)| state_of(point) == is);
        cut(self.0.get(file_of(from))?, shows)
    }
}

/// The name of a view's drawing.
fn file_of(from: Aspect) -> &'static str {
    match from {
        Aspect::Above => "view-above",
        Aspect::Left => "view-left",
        Aspect::Right => "view-right",
        Aspect::Nose => "view-nose",
        Aspect::Tips => "view-tips",
        Aspect::Platform => "view-platform",
        Aspect::Desk => "view-desk",
    }
}

/// A group is kept when one of the states that it names shows.
fn is_kept(states: &str, shows: &impl Fn(&str) -> bool) -> bool {
    states.split_whitespace().any(shows)
}

/// The drawing with the groups that show, and the names taken off them.
fn cut(svg: &str, shows: impl Fn(&str) -> bool) -> Option<String> {
    let parser = web_sys::DomParser::new().ok()?;
    let kind = web_sys::SupportedType::ImageSvgXml;
    let drawing = parser.parse_from_string(svg, kind).ok()?;
    let groups = drawing.query_selector_all(&format!("[{STATES}]")).ok()?;
    for i in 0..groups.length() {
        let Ok(group) = groups.get(i)?.dyn_into::<web_sys::Element>() else { continue };
        if is_kept(&group.get_attribute(STATES).unwrap_or_default(), &shows) {
            group.remove_attribute(STATES).ok()?;
        } else {
            group.remove();
        }
    }
    let root = drawing.document_element().filter(|e| e.local_name() == "svg")?;
    Some(root.outer_html())
}

/// A drawing on the page.
#[component]
pub(crate) fn Picture(
    /// As it came out of [`Drawings`].
    markup: String,
    /// What it shows, where no text beside it says so.
    #[prop(optional, into)]
    says: String,
) -> impl IntoView {
    let is_named = !says.is_empty();
    view! {
        <div
            class="check-picture"
            role=is_named.then_some("img")
            aria-label=is_named.then_some(says)
            aria-hidden=(!is_named).then_some("true")
            inner_html=markup
        ></div>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_group_shows_in_each_state_that_it_names_and_in_no_other() {
        let is = |state: &'static str| move |s: &str| s == state;
        assert!(is_kept("sound cracked-heel", &is("cracked-heel")));
        assert!(is_kept("sound cracked-heel", &is(SOUND)));
        assert!(!is_kept("sound cracked-heel", &is("cracked")));
        assert!(!is_kept("", &is(SOUND)));
    }

    #[test]
    fn every_view_of_the_site_has_the_name_that_the_file_gives_it() {
        for view in coneyard_core::checks::list::ASPECTS {
            let name = serde_json::to_value(view).unwrap();
            assert_eq!(file_of(view), format!("view-{}", name.as_str().unwrap()));
        }
    }
}
