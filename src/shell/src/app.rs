//! The frame of every page: heading, navigation, the canvas's stage and the page itself. The
//! canvas is made here once and lives as long as the page is loaded; pages without it hide the
//! stage by its style, never by taking it away.

use leptos::prelude::*;

use crate::browser;
use crate::canvas;
use crate::courses::{self, LibraryDesk};
use crate::host::{self, HostDesk};
use crate::later;
use crate::pages;
use crate::parts::kept::Kept;
use crate::parts::keycap::KeyNames;
use crate::parts::offline::{Newer, WithoutNetwork};
use crate::parts::prepare::Prepare;
use crate::parts::sent::Waiting;
use crate::parts::sketch::Sketcher;
use crate::route::Route;
use crate::settings::{Settings, SettingsDesk};
use crate::site::{SiteDesk, use_site};
use crate::store::StoreDesk;
use crate::words::{self, Lang, k, say, say_with, text, tr};

/// The yard's own cone from above, as on its icon.
const MARK: &str = include_str!("../../../web/icon.svg");

/// Where all pages find the address.
#[derive(Clone, Copy)]
pub(crate) struct RouteDesk(pub(crate) RwSignal<Route>);

/// The address as a signal.
pub(crate) fn use_route() -> RwSignal<Route> {
    expect_context::<RouteDesk>().0
}

fn route_now() -> Route {
    Route::parse(&location().hash().unwrap_or_default())
}

/// Shows everything, with the settings as they were kept.
pub(crate) fn mount(settings: Settings) {
    leptos::mount::mount_to_body(move || view! { <App settings /> });
    canvas::started();
}

#[component]
fn App(
    /// As they were kept; their language is set.
    settings: Settings,
) -> impl IntoView {
    let settings = RwSignal::new(settings);
    let route = RwSignal::new(route_now());
    let library = LibraryDesk(RwSignal::new(None));
    let store = StoreDesk::new();
    let class = HostDesk::new();
    provide_context(SettingsDesk(settings));
    provide_context(RouteDesk(route));
    provide_context(Prepare(later::prepare_driving));
    provide_context(Sketcher(later::sketch));
    provide_context(library);
    provide_context(store);
    provide_context(class);
    let site = SiteDesk::new();
    provide_context(site);
    let key_names = RwSignal::new(Vec::new());
    provide_context(KeyNames(key_names));
    leptos::task::spawn_local(async move { key_names.set(canvas::key_names().await) });

    Effect::new(move |_| {
        let lang = settings.with(Settings::language);
        if words::lang_now() != lang {
            leptos::task::spawn_local(speak(lang, settings, store));
        }
        settings.with(Settings::remember);
    });
    Effect::new(move |_| {
        if let Some(root) = document().document_element() {
            // The attribute is a plain one; setting it cannot fail.
            let _ = root.set_attribute("lang", words::lang().code());
        }
    });

    leptos::task::spawn_local(async move {
        // What the site sets for itself is read meanwhile, so that no drive begins without it.
        let (fetched, ()) = futures_util::future::join(courses::fetch(), site.read()).await;
        library.0.set(Some(match fetched {
            Ok(library) => Ok(std::sync::Arc::new(site.in_force(library, class).await)),
            Err(why) => Err(why),
        }));
    });
    site.follow(library, class);
    leptos::task::spawn_local(store.refresh());
    leptos::task::spawn_local(class.ask());
    host::follow(class, store);
    host::follow_remarks(class, store, route);

    let heading = NodeRef::<leptos::html::H1>::new();
    let moved = window_event_listener(leptos::ev::hashchange, move |_| {
        route.set(route_now());
        window().scroll_to_with_x_and_y(0.0, 0.0);
        // A new page is read from its heading on, as if it had been loaded.
        if let Some(heading) = heading.get_untracked() {
            let _ = heading.focus();
        }
    });
    on_cleanup(move || moved.remove());

    let title = Memo::new(move |_| page_title(&route.get(), library));
    Effect::new(move |_| document().set_title(&format!("{} · Coneyard", title.get())));

    view! {
        <a
            class="skip"
            href="#main"
            on:click=move |ev| {
                ev.prevent_default();
                if let Some(heading) = heading.get_untracked() {
                    let _ = heading.focus();
                }
            }
        >
            {tr("skip-to-content")}
        </a>
        <header class="top" hidden=move || route.with(Route::drives)>
            <a class="brand" href="#/" aria-label="Coneyard">
                <span class="mark" aria-hidden="true" inner_html=MARK></span>
                <span>"Coneyard"</span>
            </a>
            <nav aria-label=tr("nav-label")>
                <NavLink to=Route::Path name="nav-path" />
                <NavLink to=Route::Progress name="nav-progress" />
                // Without a host those make a class whose drives came in as files.
                <Show when=move || {
                    class.hosted.with(Option::is_some)
                        || store.attempts.with(|all| all.iter().any(|a| a.imported))
                }>
                    <NavLink to=Route::Class name="nav-class" />
                </Show>
                <NavLink to=Route::Controls name="nav-controls" />
                <NavLink to=Route::Settings name="nav-settings" />
            </nav>
        </header>
        <main
            id="main"
            class:with-yard=move || route.with(Route::shows_yard)
            class:driving=move || route.with(Route::drives)
        >
            <h1 tabindex="-1" node_ref=heading>
                {title}
            </h1>
            <Stage />
            <Show when=move || !route.with(Route::shows_yard)>
                <Kept />
                <RulesNotHeld />
            </Show>
            {move || page(&route.get())}
            <Show when=move || !route.with(Route::shows_yard)>
                <Newer />
            </Show>
        </main>
        <footer class="bottom">
            <p>{tr("caution-short")}</p>
            <div role="status">
                <Waiting />
            </div>
            <WithoutNetwork />
            <Made />
        </footer>
    }
}

/// That rules of the site's own are there and do not hold.
#[component]
fn RulesNotHeld() -> impl IntoView {
    let site = use_site();
    move || {
        let why = say_with(k("rules-not-held"), vec![("why", text(site.trouble.get()?))]);
        Some(view! {
            <p class="note warn" role="alert">
                {why}
                " "
                <a href=Route::Rules.href()>{say(k("rules-title"))}</a>
            </p>
        })
    }
}

/// That the site was built quickly, where it was: it is larger and slower than it could be.
#[component]
fn Made() -> impl IntoView {
    let quickly = browser::meta("made").as_deref() == Some("quick");
    quickly.then(|| view! { <p class="made">{tr("made-quickly")}</p> })
}

/// Fetches another language. One that cannot be had is taken out of the settings again, and why is
/// said.
async fn speak(lang: Lang, settings: RwSignal<Settings>, store: StoreDesk) {
    let fetched = words::fetch(lang).await;
    if settings.with_untracked(Settings::language) != lang {
        // Another one was chosen meanwhile.
        return;
    }
    match fetched {
        Ok(texts) => words::set_lang(lang, texts),
        Err(why) => {
            store.undone.set(Some(say_with(k("language-trouble"), vec![("why", text(why))])));
            settings.update(|s| words::lang_now().code().clone_into(&mut s.lang));
        }
    }
}

fn page(route: &Route) -> AnyView {
    if let Some(page) = later::page(route) {
        return page;
    }
    match route {
        Route::Home => view! { <pages::home::Home /> }.into_any(),
        Route::DriveNow => view! { <pages::home::DriveNow /> }.into_any(),
        Route::Path => view! { <pages::path::Path /> }.into_any(),
        _ => view! {
            <p class="lead">{tr("unknown-page")}</p>
            <p>
                <a href="#/">{tr("to-start")}</a>
            </p>
        }
        .into_any(),
    }
}

fn page_title(route: &Route, library: LibraryDesk) -> String {
    match route {
        Route::Home => say("home-title"),
        Route::DriveNow => say("drive-title"),
        Route::Path => say("path-title"),
        Route::Drive { course, .. } => library.title(course),
        Route::DriveOn(_) => say("drive-title"),
        Route::PreTest | Route::Sitting(_) => say("pretest-title"),
        Route::Part { part, .. } => pages::pretest::part_text(*part),
        Route::Debrief(_) => say("debrief-title"),
        Route::Print(_) => say("print-title"),
        Route::DaySheet(_) => say("sheet-title"),
        Route::Replay { .. } => say("replay-title"),
        Route::Two(_) => say("two-title"),
        Route::Progress => say("progress-title"),
        Route::Class | Route::ClassRun(_) | Route::Person(_) => say("class-title"),
        Route::InFigures => say("figures-title"),
        Route::Training(_) => say("training-title"),
        Route::Kinds | Route::Moments(_) | Route::Tour { .. } => say("moments-title"),
        Route::Lesson | Route::Topic(_) => say("lesson-title"),
        Route::LessonRecord(_) => say("lesson-record-title"),
        Route::Controls => say("controls-title"),
        Route::Settings => say("settings-title"),
        Route::Rules => say("rules-title"),
        Route::Unknown => say("unknown-title"),
    }
}

#[component]
fn NavLink(to: Route, name: &'static str) -> impl IntoView {
    let route = use_route();
    let href = to.href();
    let here = move || route.with(|r| *r == to).then_some("page");
    view! {
        <a href=href aria-current=here>
            {tr(name)}
        </a>
    }
}

/// The canvas. `tabindex` lets a keyboard reach it; Tab always leaves it again.
#[component]
fn Stage() -> impl IntoView {
    let route = use_route();
    view! {
        <div class="stage" class:away=move || !route.with(Route::shows_yard)>
            <div class="pane">
                <canvas id="yard" tabindex="0" role="img" aria-label=tr("yard-label")></canvas>
            </div>
        </div>
    }
}
