//! The drawings of the walk-round, each cut down to what shows. All states of a part stand in its drawing, as
//! groups that name theirs; which state it was nobody can tell from what is left.

use std::collections::BTreeMap;
use std::sync::Arc;

use leptos::prelude::*;
use wasm_bindgen::JsCast;

use crate::canvas::{self, Asked};

/// The state of a part with nothing the matter.
pub(crate) const SOUND: &str = "sound";

/// Names the states in which a group is shown.
const STATES: &str = "data-state";
/// Marks a number on the hour meter, or one that is so many hours more: "0.0" with tenths, "63" without.
const HOURS: &str = "data-hours";

/// All drawings of the site, as texts by their names.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Drawings(BTreeMap<String, String>);

/// The drawings: None while they are being fetched.
pub(crate) type Fetched = RwSignal<Option<Asked<Arc<Drawings>>>>;

/// The drawings, fetched once a page load.
pub(crate) fn use_drawings() -> Fetched {
    let fetched = RwSignal::new(None);
    leptos::task::spawn_local(async move {
        let read = |text: String| {
            let all = serde_json::from_str(&text).map_err(|e| e.to_string());
            all.map(|all| Arc::new(Drawings(all)))
        };
        fetched.try_set(Some(canvas::drawings().await.and_then(read)));
    });
    fetched
}

impl Drawings {
    /// A point from close by in one state, [`SOUND`] or a defect's id, on a truck whose hour meter shows these
    /// tenths; None where the site has no drawing.
    pub(crate) fn closer(&self, point: &str, state: &str, tenths: u32) -> Option<String> {
        cut(self.0.get(point)?, |s| s == state, tenths).map(|drawing| drawing.outer_html())
    }
}

/// A group is kept when one of the states that it names shows.
fn is_kept(states: &str, shows: impl Fn(&str) -> bool) -> bool {
    states.split_whitespace().any(shows)
}

/// What stands in the place of a number of hours, when the meter shows these tenths.
fn hours_text(more: &str, tenths: u32) -> Option<String> {
    let hours = more.parse::<f64>().ok()? + f64::from(tenths) / 10.0;
    let decimals = usize::from(more.contains('.'));
    // The meter shows whole hours that are over, and so does a sticker.
    let hours = if decimals == 0 { hours.floor() } else { hours };
    Some(format!("{hours:.decimals$}"))
}

/// All elements in it that bear this attribute, with its value.
fn bearing(drawing: &web_sys::Element, attribute: &str) -> Vec<(web_sys::Element, String)> {
    let Ok(found) = drawing.query_selector_all(&format!("[{attribute}]")) else {
        return Vec::new();
    };
    (0..found.length())
        .filter_map(|i| found.get(i)?.dyn_into::<web_sys::Element>().ok())
        .filter_map(|e| e.get_attribute(attribute).map(|value| (e, value)))
        .collect()
}

/// A drawing with the groups that show, and the names taken off them; None where the text is none.
pub(crate) fn cut(
    text: &str,
    shows: impl Fn(&str) -> bool,
    tenths: u32,
) -> Option<web_sys::Element> {
    let parser = web_sys::DomParser::new().ok()?;
    let file = parser.parse_from_string(text, web_sys::SupportedType::ImageSvgXml).ok()?;
    let drawing = file.document_element().filter(|e| e.local_name() == "svg")?;
    for (group, states) in bearing(&drawing, STATES) {
        if is_kept(&states, &shows) {
            // It was there a moment ago.
            let _ = group.remove_attribute(STATES);
        } else {
            group.remove();
        }
    }
    for (number, more) in bearing(&drawing, HOURS) {
        number.set_text_content(hours_text(&more, tenths).as_deref());
        let _ = number.remove_attribute(HOURS);
    }
    Some(drawing)
}

/// A drawing on the page. What is seen on it is said in words beside it.
#[component]
pub(crate) fn Picture(
    /// As it came out of [`Drawings`].
    markup: String,
) -> impl IntoView {
    view! { <div class="check-picture" aria-hidden="true" inner_html=markup></div> }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_group_shows_in_each_state_that_it_names_and_in_no_other() {
        let is = |state: &'static str| move |s: &str| s == state;
        assert!(is_kept("sound cracked-heel", is("cracked-heel")));
        assert!(is_kept("sound cracked-heel", is(SOUND)));
        assert!(!is_kept("sound cracked-heel", is("cracked")));
        assert!(!is_kept("soundless", is(SOUND)) && !is_kept("", is(SOUND)));
    }

    #[test]
    fn the_meter_and_what_is_compared_with_it_show_the_hours_of_this_truck() {
        assert_eq!(hours_text("0.0", 21_874).as_deref(), Some("2187.4"));
        assert_eq!(hours_text("0", 21_879).as_deref(), Some("2187"));
        assert_eq!(hours_text("63", 21_879).as_deref(), Some("2250"));
        assert_eq!(hours_text("-62", 21_879).as_deref(), Some("2125"));
        assert_eq!(hours_text("soon", 1), None);
    }
}
