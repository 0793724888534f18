//! The class's host, where this site has one: who this browser is to it, and what is still to be sent there.
//! A site of plain files has none; then nothing of this shows, and all works by files.
//!
//! `calls` asks it, `outbox` sends it what was driven, `remarks` exchanges what was said of it, `live` tells it what is
//! being driven.

mod calls;
pub(crate) mod live;
mod outbox;
mod remarks;

use leptos::prelude::*;
use serde::{Deserialize, Serialize};

pub(crate) use calls::{Trouble, call, get, hear};
pub(crate) use outbox::follow;
pub(crate) use remarks::{exchange, follow as follow_remarks};

use crate::browser;

/// Under this name the browser's small store keeps what the host said last: a page that opens without
/// network still knows that there is a class.
const NAME: &str = "coneyard-class";

/// What somebody may do in the class.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub(crate) enum Role {
    /// Drives.
    Trainee,
    /// Sees the class, and teaches it.
    Trainer,
    /// Opens classes, besides.
    Owner,
}

/// Who this browser is to the class.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct You {
    /// What they may do.
    pub(crate) role: Role,
    /// What they are called; None for who has no name there.
    #[serde(default)]
    pub(crate) name: Option<String>,
}

/// The class.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct ClassName {
    /// As people call it.
    pub(crate) name: String,
    /// What trainees join with; told to trainers only.
    #[serde(default)]
    pub(crate) code: Option<String>,
}

/// What the host says of itself.
#[derive(Clone, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub(crate) struct Hosted {
    /// The class.
    pub(crate) class: ClassName,
    /// None as long as nobody has joined with this browser.
    pub(crate) you: Option<You>,
}

/// By which rules drives of the class are judged.
#[derive(Clone, Debug, PartialEq, Eq, Deserialize)]
pub(crate) struct ClassRules {
    /// Text of the file; None where each drive goes by its own.
    pub(crate) rules: Option<String>,
    /// A trainer has set them; else they are the site's.
    pub(crate) set: bool,
}

/// What is answered to the question whether there is a class. A site of plain files says that there is none.
#[derive(Deserialize)]
struct Asked {
    class: Option<ClassName>,
    you: Option<You>,
}

/// Where all pages find it.
#[derive(Clone, Copy)]
pub(crate) struct HostDesk {
    /// What the host said last; None where there is none.
    pub(crate) hosted: RwSignal<Option<Hosted>>,
    /// Finished drives of whoever joined that are on this device only.
    pub(crate) waiting: RwSignal<usize>,
    /// Why they are, where something is in the way.
    pub(crate) trouble: RwSignal<Option<String>>,
}

impl HostDesk {
    /// As it was known last.
    pub(crate) fn new() -> Self {
        let known = browser::recall(NAME).and_then(|text| serde_json::from_str(&text).ok());
        Self {
            hosted: RwSignal::new(known),
            waiting: RwSignal::new(0),
            trouble: RwSignal::new(None),
        }
    }

    /// Asks whether there is a host, and who this browser is to it.
    pub(crate) async fn ask(self) {
        match get::<Asked>("class").await {
            Ok(Asked { class, you }) => self.know(class.map(|class| Hosted { class, you })),
            Err(Trouble::NoHost) => self.know(None),
            // It is away: what is known of it stays.
            Err(Trouble::Away(_) | Trouble::Refused(..)) => {}
        }
    }

    /// Takes over what the host says of this browser after it joined, or left.
    pub(crate) fn is_now(self, you: Option<You>) {
        let class = self.hosted.with_untracked(|h| h.as_ref().map(|h| h.class.clone()));
        if let Some(class) = class {
            self.know(Some(Hosted { class, you }));
        }
    }

    /// Leaves the class with this browser.
    pub(crate) async fn leave(self) {
        // A host that is away forgets nobody; this browser does.
        let _ = call::<serde::de::IgnoredAny>("POST", "leave", None).await;
        self.is_now(None);
    }

    fn know(self, hosted: Option<Hosted>) {
        let text = hosted.as_ref().and_then(|h| serde_json::to_string(h).ok());
        browser::remember(NAME, text.as_deref().unwrap_or("null"));
        if self.hosted.with_untracked(|known| *known != hosted) {
            self.hosted.set(hosted);
        }
    }

    /// What somebody may do with this browser.
    pub(crate) fn role(self) -> Option<Role> {
        self.hosted.with(|h| h.as_ref()?.you.as_ref().map(|you| you.role))
    }

    /// Somebody teaches the class with this browser.
    pub(crate) fn teaches(self) -> bool {
        matches!(self.role(), Some(Role::Trainer | Role::Owner))
    }

    /// What somebody may do at this moment; nothing follows it.
    pub(crate) fn role_now(self) -> Option<Role> {
        self.hosted.with_untracked(|h| h.as_ref()?.you.as_ref().map(|you| you.role))
    }

    /// The name under which somebody drives for the class with this browser.
    pub(crate) fn trainee(self) -> Option<String> {
        self.hosted.with(|h| {
            let you = h.as_ref()?.you.as_ref()?;
            (you.role == Role::Trainee).then(|| you.name.clone().unwrap_or_default())
        })
    }
}

/// The host, for a page.
pub(crate) fn use_host() -> HostDesk {
    expect_context::<HostDesk>()
}
