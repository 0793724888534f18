//! Who and where: a truck that can be driven within ten seconds, and the few choices before it.

use leptos::prelude::*;

use crate::courses::{Library, said, use_library};
use crate::pages::drive::ThreeKeys;
use crate::parts::people::{LanguageField, UnitsField, WhoField};
use crate::results::next_course;
use crate::route::Route;
use crate::settings::use_settings;
use crate::store::use_store;
use crate::words::{k, say, say_with, text, tr};
use crate::yard;

/// The first page.
#[component]
pub(crate) fn Home() -> impl IntoView {
    let library = use_library();
    let settings = use_settings();
    let store = use_store();
    yard::prepare();
    // Where "drive now" leads, with the exercise's name.
    let next = Memo::new(move |_| {
        let (who, wished) = settings.with(|s| (s.who.clone(), s.truck.clone()));
        library.find(|library| {
            let id = store.attempts.with(|all| next_course(library, all, &who))?;
            let course = &library.course(&id)?.course;
            let truck = Library::truck_for(course, &wished);
            let title = said(&course.title);
            Some((Route::Drive { course: id, truck }.href(), title))
        })
    });
    let trouble = move || {
        library.0.with(|l| match l {
            Some(Err(why)) => Some(view! {
                <p class="note warn" role="alert">
                    {say_with(k("courses-trouble"), vec![("why", text(why.clone()))])}
                </p>
            }),
            _ => None,
        })
    };
    let touch = move || settings.with(|s| s.shows_touch());
    view! {
        <p class="lead">{tr("home-lead")}</p>
        {trouble}
        <super::pretest::OpenSittings />
        <section class="drive-now" aria-label=tr("home-drive-now")>
            <a
                id="drive-now"
                class="button primary huge"
                href=move || next.get().map_or_else(|| Route::Path.href(), |n| n.0)
            >
                <span>{tr("home-drive-now")}</span>
                <small>
                    {move || next.get().map(|(_, title)| title)}
                </small>
            </a>
            <Show when=touch fallback=move || view! { <ThreeKeys /> }>
                <p class="hint">{tr("hint-touch")}</p>
            </Show>
        </section>
        <section class="card who" aria-labelledby="who-title">
            <h2 id="who-title">{tr("home-who-title")}</h2>
            <div class="fields">
                <WhoField />
                <LanguageField />
                <UnitsField />
            </div>
            <p class="quiet">{tr("home-private")}</p>
        </section>
        <p>
            <a class="button" href="#/path">
                {tr("home-to-path")}
            </a>
        </p>
        <section class="card">
            <h2>{move || say(k("caution-title"))}</h2>
            <p>{tr("caution")}</p>
        </section>
    }
}
