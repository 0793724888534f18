//! What the class goes by on this computer: which exercises count, and what a newcomer begins with. Each works at once.

use coneyard_core::words::Units;
use leptos::prelude::*;

use crate::courses::{said, use_library};
use crate::parts::press::{Choice, Option1};
use crate::site::{ClassSet, use_site};
use crate::store::use_store;
use crate::words::{Lang, k, number, say, say_with, tr};

/// The part of the page.
#[component]
pub(super) fn ClassCard() -> impl IntoView {
    let (library, site, store) = (use_library(), use_site(), use_store());
    let refused = RwSignal::new(None::<String>);
    let set = move |change: Box<dyn FnOnce(&mut ClassSet)>| {
        let mut class = site.class.get_untracked();
        change(&mut class);
        leptos::task::spawn_local(async move {
            let kept = site.keep_class(class, store).await;
            refused.try_set(kept.err());
        });
    };
    let exercises = move || {
        let courses = library.find(|l| {
            let all = l.courses.iter();
            Some(all.map(|c| (c.course.id.clone(), c.course.title.clone())).collect::<Vec<_>>())
        })?;
        let rows = courses.into_iter().map(|(id, name)| {
            let (counted, id) = (id.clone(), StoredValue::new(id));
            view! {
                <li>
                    <label class="switch">
                        <input
                            type="checkbox"
                            prop:checked=move || site.class.with(|class| class.counts(&counted))
                            on:change=move |ev| {
                                let counts = event_target_checked(&ev);
                                set(Box::new(move |class| class.set_counts(&id.get_value(), counts)));
                            }
                        />
                        <span>{move || said(&name)}</span>
                    </label>
                </li>
            }
        });
        Some(rows.collect_view())
    };
    let counting = move || {
        let all = library.find(|l| Some(l.courses.len())).unwrap_or_default();
        let out = library.find(|l| {
            let counts = |id: &str| site.class.with(|class| class.counts(id));
            Some(l.courses.iter().filter(|c| !counts(&c.course.id)).count())
        });
        let counted = all - out.unwrap_or_default();
        let values = vec![("counted", number(counted as f64)), ("all", number(all as f64))];
        say_with(k("class-set-counting"), values)
    };
    let language = |code: Option<&'static str>, name| {
        Option1::new(
            name,
            move || site.class.with(|c| c.language.as_deref() == code),
            move || set(Box::new(move |c| c.language = code.map(str::to_owned))),
        )
    };
    let units = |units: Option<Units>, name| {
        Option1::new(
            name,
            move || site.class.with(|c| c.units == units),
            move || set(Box::new(move |c| c.units = units)),
        )
    };
    let languages = core::iter::once(language(None, k("class-set-as-before")))
        .chain(Lang::ALL.into_iter().map(|lang| language(Some(lang.code()), lang.name_key())))
        .collect();
    let all_units = vec![
        units(None, k("class-set-as-before")),
        units(Some(Units::Imperial), k("units-imperial")),
        units(Some(Units::Metric), k("units-metric")),
    ];
    view! {
        <section class="card" aria-labelledby="class-set-title">
            <h2 id="class-set-title">{tr("class-set-title")}</h2>
            <p>{tr("class-set-lead")}</p>
            <details>
                <summary>
                    <strong>{tr("class-set-exercises")}</strong>
                    " "
                    <span class="quiet">{counting}</span>
                </summary>
                <ul class="counted" id="counted">
                    {exercises}
                </ul>
            </details>
            <p>{tr("class-set-newcomers")}</p>
            <div class="fields">
                <Choice legend=k("language-label") group="class-language" options=languages />
                <Choice legend=k("units-label") group="class-units" options=all_units />
            </div>
            <p role="alert">{refused}</p>
            <p class="quiet">{move || say(k("class-set-host"))}</p>
        </section>
    }
}
