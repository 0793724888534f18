//! `coneyard class`: looks after the records of classes; and the class beside the site that is served (`serving`).

mod demo;
mod keeping;
mod place;
pub(crate) mod serving;
mod simulating;

use std::path::PathBuf;

use coneyard::files::say;
use coneyard::trouble::Trouble;
use coneyard_class::records::Class;
use coneyard_class::roles;
use coneyard_class::store::Store;

pub(crate) use place::{Place, opened, running};

/// Options of `coneyard class`.
#[derive(clap::Args)]
pub(crate) struct Args {
    /// File of the class's records, or the database postgres://... [default: in this account's folder for data]
    #[arg(long, value_name = "FILE|ADDRESS", global = true)]
    store: Option<String>,
    #[command(subcommand)]
    command: Command,
}

#[derive(clap::Subcommand)]
enum Command {
    /// Open another class, and tell its code and the trainer's passphrase
    Open {
        /// Name of the class
        name: String,
    },
    /// List classes with their codes
    List,
    /// Make a new passphrase for a class's trainer, or for the owner; the old one opens nothing any more
    Passphrase {
        /// Code of the class [default: the one opened last]
        #[arg(long, value_name = "CODE")]
        code: Option<String>,
        /// For the owner, who may open classes
        #[arg(long, conflicts_with = "code")]
        owner: bool,
    },
    /// Copy the records into a new file, also while they are used
    Backup {
        /// The new file
        to: PathBuf,
    },
    /// Put a copy in the place of the records; what is there is set aside
    Restore {
        /// The copy
        from: PathBuf,
    },
    /// Look whether all that is kept holds together
    Check,
    /// Let invented people drive real runs on days past, into a class of their own
    Simulate(simulating::Args),
}

/// Does what is asked for.
///
/// # Errors
/// One sentence.
pub(crate) fn class(args: &Args) -> Result<(), Trouble> {
    let place = &Place { store: args.store.clone() };
    match &args.command {
        Command::Restore { from } => keeping::restore(place, from),
        command => running(async {
            let opened = opened(place).await?;
            let store = opened.store.clone();
            let done = match command {
                Command::Open { name } => {
                    open(&*roles::opens(store.clone()), name).await.map(|_| ())
                }
                Command::List => list(&*store).await,
                Command::Passphrase { owner: true, .. } => owner(&*store).await,
                Command::Passphrase { code, .. } => passphrase(&*store, code.as_deref()).await,
                Command::Backup { to } => keeping::backup(&opened, to).await,
                Command::Check => keeping::check(&*store).await,
                Command::Simulate(args) => simulating::simulate(store.clone(), args).await,
                Command::Restore { .. } => Ok(()),
            };
            store.close().await;
            done
        }),
    }
}

/// A refusal of the class as this program says it.
pub(crate) fn refused(refusal: roles::Refusal) -> Trouble {
    match refusal {
        roles::Refusal::Wrong(sentence) | roles::Refusal::NotThere(sentence) => {
            Trouble::Input(sentence)
        }
        roles::Refusal::Away(sentence) => Trouble::Here(sentence),
        other => Trouble::Here(format!("{other:?}")),
    }
}

fn away(away: coneyard_class::store::Away) -> Trouble {
    Trouble::Here(away.to_string())
}

/// Opens a class and says what is said once.
pub(crate) async fn open(owner: &dyn roles::Opens, name: &str) -> Result<Class, Trouble> {
    let (class, said) = owner.open(name).await.map_err(refused)?;
    say(format_args!(
        "The class {} is open. Trainees join with the code {}.",
        class.name, class.code
    ));
    say(format_args!("The trainer's passphrase, which is not told again: {said}"));
    Ok(class)
}

async fn list(store: &dyn Store) -> Result<(), Trouble> {
    for class in store.classes().await.map_err(away)? {
        let people = store.people(&class.id).await.map_err(away)?;
        let runs: i64 = people.iter().map(|member| member.runs).sum();
        let (code, name, count) = (&class.code, &class.name, people.len());
        say(format_args!("{code}  {name}: {count} people, {runs} runs"));
    }
    Ok(())
}

async fn owner(store: &dyn Store) -> Result<(), Trouble> {
    let said = roles::new_owner_passphrase(store).await.map_err(refused)?;
    say(format_args!("The owner's passphrase, which is not told again: {said}"));
    Ok(())
}

async fn passphrase(store: &dyn Store, code: Option<&str>) -> Result<(), Trouble> {
    let classes = store.classes().await.map_err(away)?;
    let plain = code.map(coneyard_class::secret::plain);
    let is = |class: &&Class| plain.as_ref().is_none_or(|code| *code == class.code);
    let class = classes.iter().find(is).ok_or_else(|| {
        Trouble::Input(
            "there is no such class here: `coneyard class list` shows those that there are"
                .to_owned(),
        )
    })?;
    let said = roles::new_passphrase(store, class).await.map_err(refused)?;
    say(format_args!(
        "The passphrase of the class {}, which is not told again: {said}",
        class.name
    ));
    Ok(())
}
