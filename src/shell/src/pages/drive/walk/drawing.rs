//! The drawings of the truck: each is read as SVG, loses the states that are not present, and is put into the
//! page. Which state it was nobody can tell from what is left.

use leptos::prelude::*;
use wasm_bindgen::JsCast;

use super::round::Round;

/// A drawing in a state.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Drawn {
    /// Its name.
    pub(super) name: String,
    /// The states that are present.
    pub(super) present: Vec<String>,
}

/// Names the states in which a group is shown.
const STATE: &str = "data-state";
/// Marks a number on the hour meter, or one that is so many hours more: "0.0" with tenths, "63" without.
const HOURS: &str = "data-hours";

/// A group of these states is shown.
fn is_shown(states: &str, present: &[String]) -> bool {
    states.split_whitespace().any(|state| present.iter().any(|p| p == state))
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

/// Reads a drawing; None where it is none.
fn read(text: &str, present: &[String], tenths: u32) -> Option<web_sys::Element> {
    let parser = web_sys::DomParser::new().ok()?;
    let file = parser.parse_from_string(text, web_sys::SupportedType::ImageSvgXml).ok()?;
    let drawing = file.document_element().filter(|e| e.local_name() == "svg")?;
    for (group, states) in bearing(&drawing, STATE) {
        if is_shown(&states, present) {
            // It was there a moment ago.
            let _ = group.remove_attribute(STATE);
        } else {
            group.remove();
        }
    }
    for (number, more) in bearing(&drawing, HOURS) {
        number.set_text_content(hours_text(&more, tenths).as_deref());
        let _ = number.remove_attribute(HOURS);
    }
    document().adopt_node(&drawing).ok()?.dyn_into().ok()
}

/// A drawing in the page. What is seen on it is said in words beside it.
#[component]
pub(super) fn Drawing(round: Round, #[prop(into)] what: Signal<Option<Drawn>>) -> impl IntoView {
    let frame = NodeRef::<leptos::html::Div>::new();
    Effect::new(move |_| {
        let (Some(frame), what) = (frame.get(), what.get()) else {
            return;
        };
        let drawing = what.and_then(|what| {
            round.drawings.with_value(|all| {
                read(all.get(&what.name)?, &what.present, round.hours.get_untracked())
            })
        });
        match drawing {
            Some(drawing) => frame.replace_children_with_node_1(&drawing),
            None => frame.replace_children_with_node_0(),
        }
    });
    view! { <div class="walk-drawing" aria-hidden="true" node_ref=frame></div> }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_group_is_shown_in_every_state_that_it_names_and_in_no_other() {
        let present = ["sound".to_owned()];
        assert!(is_shown("sound", &present) && is_shown("cracked sound", &present));
        assert!(!is_shown("cracked", &present) && !is_shown("soundless", &present));
        assert!(!is_shown("sound", &[]));
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
