//! The class beside the site that is served: it is opened, told, judged and ended with it.

use std::fs::File;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use axum::Router;
use coneyard::files::say;
use coneyard::trouble::Trouble;
use coneyard_class::records::Class;
use coneyard_class::roles::{self, Host};
use coneyard_class::store::{Store, alone};
use coneyard_class::{http, work};
use coneyard_core::reading::Exercises;
use tokio::sync::watch;
use tokio::task::JoinHandle;

use super::demo::{self, Demo};
use super::{Place, away, open, opened};

/// Options of `coneyard serve` for a class.
#[derive(clap::Args)]
pub(crate) struct Args {
    /// Open a class: what people drive arrives here by itself
    #[arg(long)]
    class: bool,
    /// Name of the class that is served; a new one is opened when there is none of it [default: the one opened last]
    #[arg(long, value_name = "NAME", requires = "class")]
    class_name: Option<String>,
    /// Show a class that never was: invented people drive while you look, and nothing of it is kept
    #[arg(long, conflicts_with_all = ["class", "class_name", "store"])]
    demo: bool,
    #[command(flatten)]
    place: Place,
}

/// A class that is open.
pub(crate) struct Open {
    host: Host,
    class: Class,
    new: bool,
    at: String,
    store: Arc<dyn Store>,
    ends: watch::Sender<bool>,
    judging: Option<JoinHandle<()>>,
    demo: Option<Demo>,
    _alone: Option<File>,
}

impl Args {
    /// Opens the class, if one is asked for, beside the site in this folder, and begins to judge what arrives;
    /// `encrypted` is how it is reached.
    ///
    /// # Errors
    /// One sentence when the records cannot be reached.
    pub(crate) async fn open(&self, encrypted: bool, dist: &Path) -> Result<Option<Open>, Trouble> {
        if !self.class && !self.demo {
            return Ok(None);
        }
        let mut demo = if self.demo { Some(Demo::new()?) } else { None };
        let place = match &demo {
            Some(demo) => Place { store: Some(demo.store()) },
            None => self.place.clone(),
        };
        let kept = opened(&place).await?;
        let held = kept.file.as_ref().map(|file| alone(file.file())).transpose().map_err(away)?;
        let store = kept.store;
        let classes = store.classes().await.map_err(away)?;
        let asked = |class: &Class| self.class_name.as_ref().is_none_or(|name| *name == class.name);
        let known = classes.into_iter().find(asked);
        let new = known.is_none();
        let class = match known {
            Some(class) => class,
            None => {
                let usual = if self.demo { demo::NAME } else { "Class" };
                let name = self.class_name.as_deref().unwrap_or(usual);
                open(&*roles::opens(store.clone()), name).await?
            }
        };
        // What its drives are judged by, on whatever computer, unless a trainer sets others.
        if let Some(rules) = rules_of(dist) {
            store.serve_rules(&class.id, &rules).await.map_err(away)?;
        }
        let (ends, ending) = watch::channel(false);
        // A database is judged by `coneyard work`, on as many computers as there are.
        let judging = kept.file.is_some().then(|| {
            let judging = work::work(store.clone(), work::cores(), Arc::default(), ending.clone());
            tokio::spawn(judging)
        });
        let at = match &kept.file {
            Some(file) => file.file().display().to_string(),
            None => "the database; `coneyard work` drives its runs again".to_owned(),
        };
        if let Some(demo) = &mut demo {
            demo.drive(store.clone(), class.id.clone());
        }
        let host = Host::new(store.clone(), &class.id, ending, encrypted);
        let ahead = host.clone();
        // If it cannot be read now, whoever asks for it is told.
        tokio::spawn(async move { ahead.look_ahead().await });
        Ok(Some(Open { host, class, new, at, store, ends, judging, demo, _alone: held }))
    }
}

impl Open {
    /// Its routes.
    pub(crate) fn routes(&self) -> Router {
        http::api(self.host.clone())
    }

    /// Says which class it is, where its records are, and how tablets come here if there is a way.
    pub(crate) fn say(&self, elsewhere: Option<&str>) {
        if let Some(picture) = elsewhere.and_then(picture) {
            say(picture);
        }
        let Class { name, code, .. } = &self.class;
        if !self.new {
            say(format_args!("The class {name} is open. Trainees join with the code {code}."));
            say(
                "The trainer's passphrase was told when it was opened; `coneyard class passphrase` makes a new one.",
            );
        }
        say(format_args!("Its records are in {}.", self.at));
    }

    /// Ends streams and judging.
    pub(crate) fn end(&self) {
        if let Some(demo) = &self.demo {
            demo.end();
        }
        // Nobody may be listening.
        let _ = self.ends.send(true);
    }

    /// Lets go of the records, once nothing is answered any more.
    pub(crate) async fn close(self) {
        self.end();
        if let Some(judging) = self.judging {
            let _ = judging.await;
        }
        self.store.close().await;
    }
}

/// The rules of a built site, if they can be read: they stand with its exercises.
fn rules_of(dist: &Path) -> Option<String> {
    let files = std::fs::read_dir(dist).ok()?.filter_map(|file| Some(file.ok()?.path()));
    let is = |path: &PathBuf| {
        let name = path.file_name().map(|name| name.to_string_lossy().into_owned());
        name.is_some_and(|name| name.starts_with("exercises-") && name.ends_with(".json"))
    };
    let text = std::fs::read(files.into_iter().find(is)?).ok()?;
    Some(serde_json::from_slice::<Exercises>(&text).ok()?.rules)
}

/// An address as a picture that a tablet reads off the screen, two rows of it to a line.
fn picture(address: &str) -> Option<String> {
    let code = qrcode::QrCode::new(address).ok()?;
    Some(code.render::<qrcode::render::unicode::Dense1x2>().quiet_zone(true).build())
}
