//! Real key events, by the driver's own actions: the page cannot tell them from a person's.

use fantoccini::actions::{InputSource, KeyAction, KeyActions};
use fantoccini::key::Key;

use super::Yard;
use crate::key_rider::Held;

/// The keyboard of a page, and which of its keys are down.
#[derive(Default)]
pub struct Keyboard {
    held: Held,
}

impl Keyboard {
    /// Holds exactly these keys: what is not among them comes up, what is new goes down.
    pub async fn hold(&mut self, yard: &Yard, keys: &Held) {
        let up = self.held.difference(keys).map(|key| KeyAction::Up { value: *key });
        let down = keys.difference(&self.held).map(|key| KeyAction::Down { value: *key });
        let changes: Vec<KeyAction> = up.chain(down).collect();
        if changes.is_empty() {
            return;
        }
        perform(yard, changes).await;
        self.held.clone_from(keys);
    }
}

/// Presses a key and lets it go again.
pub async fn tap(yard: &Yard, key: char) {
    perform(yard, vec![KeyAction::Down { value: key }, KeyAction::Up { value: key }]).await;
}

/// Presses Tab, from wherever the focus is, until it is on an element of this kind.
pub async fn tab_to(yard: &Yard, css: &str) {
    let there = format!("document.activeElement?.matches({css:?}) ?? false");
    for _ in 0..400 {
        tap(yard, char::from(Key::Tab)).await;
        if yard.is(&there).await {
            return;
        }
    }
    panic!("Tab does not reach {css}; {}", yard.what_is_shown().await);
}

/// Presses Enter on what has the focus.
pub async fn enter(yard: &Yard) {
    tap(yard, char::from(Key::Enter)).await;
}

async fn perform(yard: &Yard, changes: Vec<KeyAction>) {
    let keys = KeyActions::new("keyboard".to_owned());
    let keys = changes.into_iter().fold(keys, |keys, change| keys.then(change));
    yard.client.perform_actions(keys).await.expect("the browser takes the keys");
}
