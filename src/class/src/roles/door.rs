//! The door: what whoever comes may do. It lets people in and out, and tells the class's name.

use std::sync::Arc;

use tokio::sync::Semaphore;

use super::{Done, Refusal, You};
use crate::clock::{self, DAY, Millis};
use crate::records::{Person, Role, Session, name};
use crate::secret::{self, Whose};
use crate::store::Store;

/// A trainee's browser stays known for a term of classes: whoever was offline comes back without typing.
const TRAINEE_STAYS: Millis = 120 * DAY;
/// A trainer's for a working day: the projector's computer is everybody's.
const TRAINER_STAYS: Millis = DAY / 2;

/// The door.
pub struct Door {
    store: Arc<dyn Store>,
    served: Arc<str>,
    comparing: Arc<Semaphore>,
}

/// Somebody was let in.
pub struct LetIn {
    /// Who.
    pub you: You,
    /// What their browser is to hold.
    pub token: String,
    /// For how long, s.
    pub seconds: i64,
}

impl Door {
    pub(super) fn new(store: Arc<dyn Store>, served: Arc<str>, comparing: Arc<Semaphore>) -> Self {
        Self { store, served, comparing }
    }

    /// The name of the class of this session, or else of the one that is served.
    pub async fn class_name(&self, session: Option<&Session>) -> Done<String> {
        let id = session.map_or(&*self.served, |session| &session.class);
        let class = self.store.class(id).await?;
        class
            .map(|class| class.name)
            .ok_or_else(|| Refusal::NotThere("there is no class here".to_owned()))
    }

    /// Joins as a trainee. The same name is the same person.
    pub async fn join(&self, code: &str, typed: &str) -> Done<LetIn> {
        let name = name(typed).map_err(Refusal::Wrong)?;
        let class = self.store.class_of_code(&secret::plain(code)).await?;
        let class = class.ok_or_else(|| {
            Refusal::NotAllowed("no class has this code: ask the trainer for it".to_owned())
        })?;
        let (token, now) = (secret::token()?, clock::now());
        let new = Person { id: secret::id()?, name, joined: now };
        let kept = secret::of_token(&token);
        let person = self.store.join(&class.id, &new, &kept, now + TRAINEE_STAYS).await?;
        let you = You { role: Role::Trainee, person: Some(person) };
        Ok(LetIn { you, token, seconds: TRAINEE_STAYS / 1000 })
    }

    /// Enters as a trainer or as the owner.
    pub async fn enter(&self, passphrase: &str) -> Done<LetIn> {
        let wrong = || Refusal::NotAllowed("this is not the passphrase".to_owned());
        let (role, class, kept) = match secret::whose(passphrase) {
            None => return Err(wrong()),
            Some(Whose::Owner) => (Role::Owner, self.served.to_string(), self.store.owner().await?),
            Some(Whose::Trainer(code)) => match self.store.class_of_code(&code).await? {
                None => return Err(wrong()),
                Some(class) => (Role::Trainer, class.id, Some(class.passphrase)),
            },
        };
        let kept = kept.ok_or_else(wrong)?;
        let typed = passphrase.to_owned();
        let is = {
            let _place = self.comparing.acquire().await;
            let compare = move || secret::is_passphrase(&typed, &kept);
            tokio::task::spawn_blocking(compare).await.unwrap_or(false)
        };
        if !is {
            return Err(wrong());
        }
        let token = secret::token()?;
        let session = Session { class, role, person: None };
        let ends = clock::now() + TRAINER_STAYS;
        self.store.enter(&session, &secret::of_token(&token), ends).await?;
        Ok(LetIn { you: You { role, person: None }, token, seconds: TRAINER_STAYS / 1000 })
    }

    /// Leaves.
    pub async fn leave(&self, token: &str) -> Done<()> {
        Ok(self.store.leave(&secret::of_token(token), clock::now()).await?)
    }
}
