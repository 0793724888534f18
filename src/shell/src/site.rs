//! What this site sets for itself in this browser: rules of its own, which exercises count, and what newcomers begin
//! with. Other rules than those that came with the site hold for drives that begin afterwards, but never for who drives
//! for a class: its host hands out what holds there.

use std::sync::Arc;

use coneyard_core::outside::to_json;
use coneyard_core::words::Units;
use leptos::prelude::*;
use serde::{Deserialize, Serialize};

use crate::courses::{Library, LibraryDesk};
use crate::host::{ClassRules, HostDesk, get};
use crate::reader;
use crate::settings::Settings;
use crate::store::{Keeper, Store, StoreDesk};
use crate::words::Lang;

/// Under these names the browser's database keeps it.
const RULES: &str = "rules";
const CLASS: &str = "class";
const OWN_LIST: &str = "workplace";
const OF_CLASS: &str = "class-rules";

/// What a class goes by on this computer.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct ClassSet {
    /// Exercises that do not count, by the ids of their courses.
    pub(crate) left_out: Vec<String>,
    /// Language that a newcomer begins with, by its code; None: that of who was here before.
    pub(crate) language: Option<String>,
    /// Units that a newcomer begins with.
    pub(crate) units: Option<Units>,
}

impl ClassSet {
    fn read(text: Option<&str>) -> Self {
        text.and_then(|text| serde_json::from_str(text).ok()).unwrap_or_default()
    }

    /// Whether an exercise counts.
    pub(crate) fn counts(&self, course: &str) -> bool {
        self.left_out.iter().all(|out| out != course)
    }

    /// Sets whether it does.
    pub(crate) fn set_counts(&mut self, course: &str, counts: bool) {
        self.left_out.retain(|out| out != course);
        if !counts {
            self.left_out.push(course.to_owned());
        }
    }

    /// What somebody begins with who was never here.
    pub(crate) fn greet(&self, settings: &mut Settings) {
        if let Some(lang) = self.language.as_deref().and_then(Lang::from_code) {
            lang.code().clone_into(&mut settings.lang);
        }
        if let Some(units) = self.units {
            settings.units = units;
        }
    }
}

/// Exercises that do not count, as they are kept; none where that cannot be read.
pub(crate) async fn left_out(store: &Store) -> Vec<String> {
    ClassSet::read(store.site(CLASS).await.ok().flatten().as_deref()).left_out
}

/// Text of the site's own list of what is seen at the real truck; None where it has none.
///
/// # Errors
/// The database cannot be read.
pub(crate) async fn own_list() -> Result<Option<String>, String> {
    Store::open().await?.site(OWN_LIST).await
}

/// Keeps a list of the site's own, or takes it back.
///
/// # Errors
/// Why it was not kept; then nothing has changed.
pub(crate) async fn keep_own_list(text: Option<&str>) -> Result<(), String> {
    Store::open().await?.keep_site(OWN_LIST, text).await
}

/// Where all pages find it.
#[derive(Clone, Copy)]
pub(crate) struct SiteDesk {
    /// Text of the site's own rules; None where those that came with the site hold.
    pub(crate) rules: RwSignal<Option<String>>,
    /// Text of the rules that the class's host hands out, as it said last.
    pub(crate) of_class: RwSignal<Option<String>>,
    /// What the class goes by.
    pub(crate) class: RwSignal<ClassSet>,
    /// Why the site's own rules do not hold though there are some.
    pub(crate) trouble: RwSignal<Option<String>>,
}

impl SiteDesk {
    /// Nothing read yet.
    pub(crate) fn new() -> Self {
        Self {
            rules: RwSignal::new(None),
            of_class: RwSignal::new(None),
            class: RwSignal::new(ClassSet::default()),
            trouble: RwSignal::new(None),
        }
    }

    /// Reads what is set. Where nothing can be read, the store says so on its pages.
    pub(crate) async fn read(self) {
        let Ok(store) = Store::open().await else { return };
        self.rules.set(store.site(RULES).await.ok().flatten());
        self.of_class.set(store.site(OF_CLASS).await.ok().flatten());
        self.class.set(ClassSet::read(store.site(CLASS).await.ok().flatten().as_deref()));
    }

    /// Keeps rules of the site's own, or takes them back; from then on they hold.
    ///
    /// # Errors
    /// Why they were not kept; then nothing has changed.
    pub(crate) async fn keep_rules(self, text: Option<String>) -> Result<(), String> {
        Store::open().await?.keep_site(RULES, text.as_deref()).await?;
        self.rules.set(text);
        Ok(())
    }

    /// Keeps what the class goes by; lists count by it at once.
    ///
    /// # Errors
    /// Why it was not kept; then nothing has changed.
    pub(crate) async fn keep_class(self, set: ClassSet, store: StoreDesk) -> Result<(), String> {
        let text = (set != ClassSet::default()).then(|| to_json(&set)).transpose()?;
        Store::open().await?.keep_site(CLASS, text.as_deref()).await?;
        self.class.set(set);
        store.refresh().await;
        Ok(())
    }

    /// Asks the class's host by which rules people drive for it, and keeps them for when it is away.
    async fn ask_class(self) {
        let Ok(ClassRules { rules, .. }) = get("class/rules").await else { return };
        if self.of_class.try_get_untracked().is_some_and(|known| known != rules) {
            if let Ok(store) = Store::open().await {
                // What cannot be kept holds as long as the page is open.
                let _ = store.keep_site(OF_CLASS, rules.as_deref()).await;
            }
            self.of_class.try_set(rules);
        }
    }

    /// The exercises with the rules that hold: the site's own, or those of the class for which somebody drives with this
    /// browser.
    pub(crate) async fn in_force(self, library: Library, host: HostDesk) -> Library {
        let for_class = untrack(|| host.trainee().is_some());
        let own = if for_class { self.of_class } else { self.rules }.get_untracked();
        let rules = own.unwrap_or_else(|| library.served.clone());
        if rules == library.rules {
            self.trouble.set(None);
            return library;
        }
        match reader::terms(&rules).await {
            Ok(terms) => {
                self.trouble.set(None);
                Library { rules, terms, ..library }
            }
            Err(why) => {
                self.trouble.set(Some(why));
                library
            }
        }
    }

    /// Puts the rules in force, whenever they or who drives here are others.
    pub(crate) fn follow(self, library: LibraryDesk, host: HostDesk) {
        Effect::new(move |_| {
            if host.trainee().is_some() {
                leptos::task::spawn_local(self.ask_class());
            }
        });
        Effect::new(move |_| {
            self.rules.track();
            self.of_class.track();
            host.hosted.track();
            leptos::task::spawn_local(async move {
                let Some(Ok(now)) = library.0.get_untracked() else { return };
                let then = self.in_force((*now).clone(), host).await;
                if then.rules != now.rules {
                    library.0.set(Some(Ok(Arc::new(then))));
                }
            });
        });
    }
}

/// What the site sets for itself.
pub(crate) fn use_site() -> SiteDesk {
    expect_context::<SiteDesk>()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_exercise_counts_until_it_is_left_out() {
        let mut set = ClassSet::read(None);
        assert!(set.counts("straight"));
        set.set_counts("straight", false);
        set.set_counts("straight", false);
        assert!(!set.counts("straight") && set.counts("slalom"));
        let text = to_json(&set).unwrap();
        assert_eq!(ClassSet::read(Some(&text)), set);
        set.set_counts("straight", true);
        assert_eq!(set, ClassSet::default());
        assert_eq!(ClassSet::read(Some("damage")), ClassSet::default());
        let later = r#"{"left_out": ["slalom"], "something": "later"}"#;
        assert!(!ClassSet::read(Some(later)).counts("slalom"));
    }
}
