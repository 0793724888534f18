//! What can be pressed: a button, a choice of one among a few, and a deletion that asks twice.
//! Each is made in one place, so that all behave alike and a browser loads them once.

use leptos::ev::MouseEvent;
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use crate::words::{k, tr};

/// A button with its name.
#[component]
pub(crate) fn Press(
    /// Key of its name.
    name: &'static str,
    /// What it does.
    #[prop(into)]
    act: Callback<MouseEvent>,
    /// Its place in the page, for scripts and tests.
    #[prop(optional)]
    id: &'static str,
    /// How it looks.
    #[prop(optional)]
    class: &'static str,
    /// A sign that stands for the name, or before it.
    #[prop(optional)]
    mark: &'static str,
    /// Only the sign is seen; the name is read aloud.
    #[prop(optional)]
    mark_only: bool,
    /// It cannot be pressed now.
    #[prop(optional, into)]
    disabled: Signal<bool>,
    /// It is a switch, and this is its state.
    #[prop(optional, into)]
    pressed: Option<Signal<bool>>,
) -> AnyView {
    let label = mark_only.then(|| tr(name));
    view! {
        <button
            type="button"
            id=(!id.is_empty()).then_some(id)
            class=class
            title=label
            aria-label=label
            aria-pressed=move || pressed.map(|p| p.get().to_string())
            disabled=disabled
            on:click=move |ev| act.run(ev)
        >
            {(!mark.is_empty()).then(|| view! { <span aria-hidden="true">{mark}</span> })}
            {(!mark_only).then(|| tr(name))}
        </button>
    }
    .into_any()
}

/// One of a few things to choose.
#[derive(Clone, Copy)]
pub(crate) struct Option1 {
    /// Key of its name.
    pub(crate) name: &'static str,
    /// A sign that is seen instead of the name; empty for none.
    pub(crate) mark: &'static str,
    /// It is the one chosen.
    pub(crate) chosen: Signal<bool>,
    /// It cannot be chosen now.
    pub(crate) disabled: Signal<bool>,
    /// Chooses it.
    pub(crate) choose: Callback<()>,
}

impl Option1 {
    /// A choice that is always there, by its name.
    pub(crate) fn new(
        name: &'static str,
        chosen: impl Fn() -> bool + Send + Sync + 'static,
        choose: impl Fn() + Send + Sync + 'static,
    ) -> Self {
        Self {
            name,
            mark: "",
            chosen: Signal::derive(chosen),
            disabled: Signal::stored(false),
            choose: Callback::new(move |()| choose()),
        }
    }
}

/// A choice of one among a few, all in sight.
#[component]
pub(crate) fn Choice(
    /// Key of what is chosen.
    legend: &'static str,
    /// Name of the group, unlike any other's on the page.
    #[prop(into)]
    group: String,
    /// What there is to choose.
    options: Vec<Option1>,
) -> AnyView {
    let options = options
        .into_iter()
        .map(|option| {
            let marked = !option.mark.is_empty();
            view! {
                <label>
                    <input
                        type="radio"
                        name=group.clone()
                        aria-label=marked.then(|| tr(option.name))
                        prop:checked=option.chosen
                        disabled=option.disabled
                        on:change=move |_| option.choose.run(())
                    />
                    <span title=marked.then(|| tr(option.name))>
                        {if marked { Ok(option.mark) } else { Err(tr(option.name)) }
                            .map_or_else(IntoAny::into_any, IntoAny::into_any)}
                    </span>
                </label>
            }
            .into_any()
        })
        .collect_view();
    view! {
        <fieldset class="segments">
            <legend>{tr(legend)}</legend>
            {options}
        </fieldset>
    }
    .into_any()
}

/// A deletion: the first press asks, the second does it. What keeps everything as it is comes to lie under
/// the pointer, and the second click of a double one deletes nothing wherever it lands.
#[component]
pub(crate) fn Delete(
    /// Does it.
    #[prop(into)]
    act: Callback<MouseEvent>,
) -> AnyView {
    let asks = RwSignal::new(false);
    let answers = NodeRef::<leptos::html::Span>::new();
    Effect::new(move |_| {
        // The button that was pressed is gone: keys go on at the first answer.
        let first = answers.get().and_then(|a| a.query_selector("button").ok().flatten());
        if let Some(first) = first.and_then(|f| f.dyn_into::<web_sys::HtmlElement>().ok()) {
            let _ = first.focus();
        }
    });
    let sure = move |ev: MouseEvent| {
        if ev.detail() < 2 {
            act.run(ev);
        }
    };
    (move || {
        if asks.get() {
            view! {
                <span class="answers" node_ref=answers>
                    <Press name=k("delete-no") act=move |_| asks.set(false) />
                    <Press name=k("delete-sure") class="grave" act=sure />
                </span>
            }
            .into_any()
        } else {
            view! { <Press name=k("delete") act=move |_| asks.set(true) /> }.into_any()
        }
    })
    .into_any()
}
