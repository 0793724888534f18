//! Small things that only the browser can do: the clock, its own small store, saving a file.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::prelude::*;

/// Now, RFC 3339.
pub(crate) fn now() -> String {
    String::from(js_sys::Date::new_0().to_iso_string())
}

/// Today where the browser is, "2026-01-31".
pub(crate) fn today() -> String {
    let now = js_sys::Date::new_0();
    format!("{:04}-{:02}-{:02}", now.get_full_year(), now.get_month() + 1, now.get_date())
}

/// What the page says of itself under this name, in a tag of its head.
pub(crate) fn meta(name: &str) -> Option<String> {
    let tag = document().query_selector(&format!("meta[name=\"coneyard-{name}\"]"));
    tag.ok()??.get_attribute("content")
}

/// Milliseconds since the page was opened.
pub(crate) fn clock_ms() -> f64 {
    window().performance().map_or(0.0, |p| p.now())
}

/// A seed for a drive.
pub(crate) fn seed() -> u32 {
    (js_sys::Math::random() * f64::from(u32::MAX)) as u32
}

/// A short name for a new record: the time, so that names sort by it, and chance.
pub(crate) fn new_id() -> String {
    format!("{:011x}-{:08x}", js_sys::Date::now() as u64, seed())
}

/// The language and region the browser prefers, like "en-US".
pub(crate) fn preferred_language() -> String {
    window().navigator().language().unwrap_or_default()
}

/// Whether a media query holds now.
pub(crate) fn media(query: &str) -> bool {
    window().match_media(query).ok().flatten().is_some_and(|m| m.matches())
}

/// Comes back after this time.
pub(crate) async fn wait(time: std::time::Duration) {
    let promise = js_sys::Promise::new(&mut |done, _| {
        set_timeout(
            move || {
                // Resolving a promise cannot fail.
                let _ = done.call0(&JsValue::NULL);
            },
            time,
        );
    });
    // It is never rejected.
    let _ = wasm_bindgen_futures::JsFuture::from(promise).await;
}

/// Reads a text from the browser's small store.
pub(crate) fn recall(name: &str) -> Option<String> {
    window().local_storage().ok()??.get_item(name).ok()?
}

/// Keeps a text in the browser's small store; without one, it lasts as long as the page.
pub(crate) fn remember(name: &str, text: &str) {
    if let Ok(Some(store)) = window().local_storage() {
        // A full or forbidden store leaves the setting as it is on this page.
        let _ = store.set_item(name, text);
    }
}

/// Hands a text to the person as a file.
pub(crate) fn save_file(name: &str, text: &str) -> Result<(), JsValue> {
    let parts = js_sys::Array::of1(&text.into());
    let kind = web_sys::BlobPropertyBag::new();
    kind.set_type("application/json");
    let blob = web_sys::Blob::new_with_str_sequence_and_options(&parts, &kind)?;
    let url = web_sys::Url::create_object_url_with_blob(&blob)?;
    let link: web_sys::HtmlAnchorElement = document().create_element("a")?.unchecked_into();
    link.set_href(&url);
    link.set_download(name);
    link.click();
    // The address must outlive the click: the browser reads it after this task.
    set_timeout(
        move || {
            let _ = web_sys::Url::revoke_object_url(&url);
        },
        std::time::Duration::from_secs(60),
    );
    Ok(())
}

/// What a gamepad shows at one moment.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct Snapshot {
    /// Its name for itself.
    pub(crate) name: String,
    /// Sticks, -1 to 1; right and down positive.
    pub(crate) axes: Vec<f64>,
    /// Buttons, 0 to 1.
    pub(crate) buttons: Vec<f64>,
}

/// The first gamepad that is there, as it stands now.
pub(crate) fn gamepad() -> Option<Snapshot> {
    let pads = window().navigator().get_gamepads().ok()?;
    pads.iter().find_map(|pad| {
        let pad: web_sys::Gamepad = pad.dyn_into().ok()?;
        if !pad.connected() {
            return None;
        }
        let buttons = pad
            .buttons()
            .iter()
            .map(|b| b.dyn_into::<web_sys::GamepadButton>().map_or(0.0, |b| b.value()))
            .collect();
        Some(Snapshot {
            name: pad.id(),
            axes: pad.axes().iter().filter_map(|a| a.as_f64()).collect(),
            buttons,
        })
    })
}
