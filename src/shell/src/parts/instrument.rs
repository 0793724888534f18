//! The instrument of a drive: like the head of a tiller, with the tiller's turn as an arc, the arm as a fan
//! and the speed inside. It is for the eye; the same in words stands beside it for who listens.

use coneyard_core::desk::Status;
use coneyard_core::finding::Unit;
use coneyard_core::truck::arm::ArmZone;
use coneyard_core::words::Units;
use leptos::prelude::*;

use super::dials::{LOWER_BEGINS, UPPER_ENDS, arc, around};
use super::face::{
    Face, arm_word, direction, limit_text, load_text, look_word, stance_word, tiller_text,
};
use crate::settings::use_settings;
use crate::words::{k, number, quantity, say, say_with, steady_number, tr};

/// Middle and radius of the tiller's arc, units of the drawing.
const TILLER: (f64, f64, f64) = (160.0, 118.0, 96.0);
/// Foot and length of the arm.
const ARM: (f64, f64, f64) = (256.0, 122.0, 54.0);
/// Half of the twist's bar.
const TWIST: f64 = 62.0;

/// A row of the words: its name, and what it says.
type Row = (&'static str, fn(&Face, Units) -> String);

fn speed(face: &Face, units: Units) -> String {
    let shown = units.show(face.speed.abs(), Unit::MetrePerSecond);
    let limit = limit_text(face, units).map(|l| format!(", {l}")).unwrap_or_default();
    let way = say(direction(face.speed));
    format!("{} {}, {way}{limit}", steady_number(shown.value, 1), say(shown.unit))
}

fn contacts(face: &Face) -> String {
    say_with(k("dash-contacts-of-four"), vec![("count", number(face.contacts))])
}

fn states(face: &Face) -> String {
    let words: Vec<String> = face.states.iter().map(|(_, word)| say(word)).collect();
    words.join(", ")
}

const ROWS: [Row; 10] = [
    (k("dash-speed"), speed),
    (k("dash-throttle"), |f, _| format!("{}\u{a0}{}", f.throttle, say(k("unit-percent")))),
    (k("dash-tiller"), |f, _| tiller_text(f.steer_deg)),
    (k("dash-arm"), |f, _| f.zone.map(|z| say(arm_word(z))).unwrap_or_default()),
    (k("dash-forks"), |f, units| quantity(f.forks, Unit::Metre, units)),
    (k("dash-stance"), |f, _| say(stance_word(f))),
    (k("dash-contacts"), |f, _| contacts(f)),
    (k("dash-look"), |f, _| say(look_word(f.look))),
    (k("dash-load"), |f, units| load_text(f.pallets, f.load_kg, f.plugging_most, units)),
    (k("dash-states"), |f, _| states(f)),
];

/// The instrument, and its words.
#[component]
pub(crate) fn Instrument(
    /// The yard's word.
    #[prop(into)]
    status: Signal<Option<Status>>,
) -> impl IntoView {
    let settings = use_settings();
    let units = Memo::new(move |_| settings.with(|s| s.units));
    let face = Face::of_status(status);
    let rows = ROWS.map(|(name, says)| {
        let words = Memo::new(move |_| face.with(|f| says(f, units.get())));
        view! {
            <div>
                <dt>{tr(name)}</dt>
                <dd>{words}</dd>
            </div>
        }
    });
    view! {
           <div class="instrument" aria-hidden="true">
               <Drawing face units />
               <ul class="states">
                   {move || {
                       let shown = |state: &(&'static str, &'static str)| {
    let (mark, word) = *state;
    view! { <li>{mark} " " {say(word)}</li> }
    };
                       face.with(|f| f.states.iter().map(shown).collect_view())
                   }}
               </ul>
           </div>
           <section class="sr" id="dash" aria-label=tr("dash-label")>
               <dl>{rows.collect_view()}</dl>
           </section>
       }
}

#[component]
fn Drawing(face: Memo<Face>, units: Memo<Units>) -> impl IntoView {
    let shown = Memo::new(move |_| {
        let shown = units.get().show(face.with(|f| f.speed.abs()), Unit::MetrePerSecond);
        (steady_number(shown.value, 1), shown.unit)
    });
    let way = Memo::new(move |_| direction(face.with(|f| f.speed)));
    let limit = Memo::new(move |_| {
        let limit = face.with(|f| f.limit)?;
        let shown = units.get().show(limit, Unit::MetrePerSecond).value;
        let is_whole = (shown - shown.round()).abs() < 0.05;
        Some(steady_number(shown, usize::from(!is_whole)))
    });
    let turn = move || {
        let (x, y, _) = TILLER;
        format!("rotate({} {x} {y})", -face.with(|f| f.steer_deg))
    };
    let tip = Memo::new(move |_| around(ARM.0, ARM.1, ARM.2, face.with(|f| f.arm_deg)));
    let braking = move || face.with(|f| f.zone.is_some_and(|z| z != ArmZone::Driving));
    let twist = move || face.with(|f| f64::from(f.throttle)) / 100.0 * TWIST;
    // 0.20 m of lift over 30 units of drawing.
    let forks = move || 44.0 - face.with(|f| f.forks.clamp(0.0, 0.2)) * 150.0;
    let foot = move |is_left: bool| {
        face.with(|f| match f.stepping {
            _ if !f.aboard => "foot",
            true => "foot between",
            false if f.left == is_left => "foot here",
            false => "foot",
        })
    };
    let (x, y, r) = TILLER;
    let (ax, ay, ar) = ARM;
    view! {
        <svg class="dial" viewBox="0 0 320 152">
            <path class="zone" d=arc(x, y, r, -85.0, 85.0) />
            <line class="tick" x1=x y1=y - r - 6.0 x2=x y2=y - r + 6.0 />
            <g transform=turn>
                <path
                    class="pointer"
                    d=format!("M{x} {}l-7 16h14z", y - r + 4.0)
                />
                <line class="hand" x1=x y1=y - r - 7.0 x2=x y2=y - r + 7.0 />
            </g>
            <text class="speed" x=x y="101" class:over=move || face.with(Face::over)>
                {move || shown.get().0}
            </text>
            <text class="unit" x=x y="121">
                {move || say(shown.get().1)}
            </text>
            <text class="way" x=x y="149">
                {move || say(way.get())}
            </text>
            <rect class="track" x=x - TWIST y="127" width=2.0 * TWIST height="8" rx="4" />
            <rect
                class="fill"
                y="127"
                height="8"
                x=move || x + twist().min(0.0)
                width=move || twist().abs()
            />
            <line class="tick" x1=x y1="125" x2=x y2="137" />
            <g class="arm" class:braking=braking>
                <path class="zone brake" d=arc(ax, ay, ar, 0.0, UPPER_ENDS) />
                <path class="zone drive" d=arc(ax, ay, ar, UPPER_ENDS, LOWER_BEGINS) />
                <path class="zone brake" d=arc(ax, ay, ar, LOWER_BEGINS, 90.0) />
                <line
                    class="hand"
                    x1=ax
                    y1=ay
                    x2=move || tip.get().0
                    y2=move || tip.get().1
                />
                <circle class="hub" cx=ax cy=ay r="4" />
            </g>
            <line class="floor" x1="262" y1="50" x2="316" y2="50" />
            <rect class="band" x="262" y="36.5" width="54" height="4" />
            <path class="fork" d=move || format!("M268 8V{:.1}H314v-4H273V8z", forks()) />
            <rect class="platform" x="8" y="8" width="46" height="32" rx="5" />
            <rect class=move || foot(true) x="12" y="12" width="17" height="24" rx="7" />
            <rect class=move || foot(false) x="33" y="12" width="17" height="24" rx="7" />
            {move || {
                limit
                    .get()
                    .map(|limit| {
                        view! {
                            <g class="limit" class:over=move || face.with(Face::over)>
                                <circle cx="31" cy="104" r="27" />
                                <text x="31" y="113">
                                    {limit}
                                </text>
                            </g>
                        }
                    })
            }}
        </svg>
    }
}
