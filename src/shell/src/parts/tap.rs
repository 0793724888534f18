//! A button that is also pressed while another finger holds something: of such a tap browsers make no
//! click. It acts when the finger is lifted where it came down, so one that slips off changes nothing
//! (WCAG 2.5.2).

use leptos::ev::PointerEvent;
use leptos::prelude::*;
use wasm_bindgen::JsCast;

/// Whether a finger is over what it came down on.
fn is_over(ev: &PointerEvent) -> bool {
    let element = ev.current_target().and_then(|t| t.dyn_into::<web_sys::Element>().ok());
    element.is_some_and(|element| {
        let area = element.get_bounding_client_rect();
        let (x, y) = (f64::from(ev.client_x()), f64::from(ev.client_y()));
        (area.left()..=area.right()).contains(&x) && (area.top()..=area.bottom()).contains(&y)
    })
}

/// The button.
#[component]
pub(crate) fn Tap(
    /// What it does; told whether it was a pointer, not a key or a screen reader.
    #[prop(into)]
    act: Callback<bool>,
    /// Its place in the page.
    id: &'static str,
    /// How it looks.
    #[prop(optional)]
    class: &'static str,
    /// It cannot be pressed now.
    #[prop(optional, into)]
    disabled: Signal<bool>,
    /// It is a switch, and this is its state.
    #[prop(optional, into)]
    pressed: Option<Signal<bool>>,
    children: Children,
) -> impl IntoView {
    let down = StoredValue::new(None::<i32>);
    view! {
        <button
            type="button"
            id=id
            class=class
            aria-pressed=move || pressed.map(|p| p.get().to_string())
            disabled=disabled
            on:pointerdown=move |ev| {
                // Of a mouse only the button that presses things; a finger has no other.
                down.set_value((ev.button() == 0).then(|| ev.pointer_id()));
            }
            on:pointercancel=move |_| down.set_value(None)
            on:pointerup=move |ev| {
                let came_down_here = down.get_value() == Some(ev.pointer_id());
                down.set_value(None);
                if came_down_here && is_over(&ev) {
                    act.run(true);
                }
            }
            on:click=move |ev| {
                // By key or by a screen reader: no pointer came before it.
                if ev.detail() == 0 {
                    act.run(false);
                }
            }
        >
            {children()}
        </button>
    }
}
