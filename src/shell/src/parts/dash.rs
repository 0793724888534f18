//! The dashboard beside a replay: the truck's state in words, numbers and small drawings, on the page and
//! not in the canvas, so that a screen reader reads it.

use coneyard_core::desk::Status;
use coneyard_core::finding::Unit;
use leptos::prelude::*;

use super::dials::{ArmDial, ForkDial, StanceDial, TillerDial};
use super::face::{
    Face, arm_word, direction, limit_text, load_text, look_word, stance_word, tiller_text,
};
use crate::settings::use_settings;
use crate::words::{k, number, quantity, say, say_with, steady_number, tr};

/// One value of the dashboard.
#[component]
fn Cell(name: &'static str, class: &'static str, children: Children) -> impl IntoView {
    view! {
        <div class=format!("cell {class}")>
            <dt>{tr(name)}</dt>
            <dd>{children()}</dd>
        </div>
    }
}

/// The dashboard of what is shown on the canvas.
#[component]
pub(crate) fn Dash(
    /// The yard's word.
    #[prop(into)]
    status: Signal<Option<Status>>,
) -> impl IntoView {
    let settings = use_settings();
    let units = Memo::new(move |_| settings.with(|s| s.units));
    let face = Face::of_status(status);
    let speed_shown = move || units.get().show(face.with(|f| f.speed.abs()), Unit::MetrePerSecond);
    let limit = move || face.with(|f| limit_text(f, units.get()));
    let stance = move || say(face.with(stance_word));
    let value = move |pick: fn(&Face) -> f64| Signal::derive(move || face.with(pick));
    view! {
        <section class="dash" aria-label=tr("dash-label")>
            <dl>
                <Cell name="dash-speed" class="speed">
                    <span class="big">{move || steady_number(speed_shown().value, 1)}</span>
                    <span class="unit">{move || say(speed_shown().unit)}</span>
                    <span class="under">{move || say(face.with(|f| direction(f.speed)))}</span>
                    <span class="limit" class:over=move || face.with(Face::over)>
                        {limit}
                    </span>
                </Cell>
                <Cell name="dash-throttle" class="throttle">
                    <span class="twist" aria-hidden="true">
                        <span
                            class="fill"
                            class:back=move || face.with(|f| f.throttle < 0)
                            style:width=move || {
                                format!("{}%", face.with(|f| f64::from(f.throttle.unsigned_abs())) / 2.0)
                            }
                        ></span>
                    </span>
                    <span class="under">
                        {move || format!("{}\u{a0}{}", face.with(|f| f.throttle), say(k("unit-percent")))}
                    </span>
                </Cell>
                <Cell name="dash-tiller" class="with-dial">
                    <TillerDial degrees=value(|f| f.steer_deg) />
                    <span class="under">{move || tiller_text(face.with(|f| f.steer_deg))}</span>
                </Cell>
                <Cell name="dash-arm" class="with-dial">
                    <ArmDial degrees=value(|f| f.arm_deg) zone=Signal::derive(move || face.with(|f| f.zone)) />
                    <span class="under">
                        {move || face.with(|f| f.zone).map(|z| say(arm_word(z)))}
                    </span>
                </Cell>
                <Cell name="dash-forks" class="with-dial">
                    <ForkDial height=value(|f| f.forks) />
                    <span class="under">{move || quantity(face.with(|f| f.forks), Unit::Metre, units.get())}</span>
                </Cell>
                <Cell name="dash-stance" class="with-dial">
                    <StanceDial left=Signal::derive(move || face.with(|f| f.left)) stepping=Signal::derive(move || face.with(|f| f.stepping)) />
                    <span class="under">{stance}</span>
                </Cell>
                <Cell name="dash-contacts" class="small">
                    {move || {
                        say_with(
                            k("dash-contacts-of-four"),
                            vec![("count", number(face.with(|f| f.contacts)))],
                        )
                    }}
                </Cell>
                <Cell name="dash-look" class="small">
                    {move || say(face.with(|f| look_word(f.look)))}
                </Cell>
                <Cell name="dash-load" class="small load">
                    {move || face.with(|f| load_text(f.pallets, f.load_kg, f.plugging_most, units.get()))}
                </Cell>
            </dl>
            <ul class="states" aria-label=tr("dash-states")>
                {move || {
                    face.with(|f| f.states.clone()).into_iter()
                        .map(|(mark, word)| {
                            view! {
                                <li>
                                    <span aria-hidden="true">{mark}</span>
                                    {say(word)}
                                </li>
                            }
                        })
                        .collect_view()
                }}
            </ul>
        </section>
    }
}
