//! Sound as the pages switch it: off until it is asked for, then as loud as is set. What sounds, and when, is
//! the canvas's.

use leptos::ev::{keydown, pointerup};
use leptos::prelude::*;

use crate::canvas;
use crate::settings::Settings;

/// Switches the sound on or off.
pub(crate) fn toggle(settings: RwSignal<Settings>) {
    settings.update(|s| s.sound = !s.sound);
}

/// Has the canvas sound as it is set, from the time on when it is `there`, as long as this page is open.
/// Gives whether a browser that was asked to sound does not.
pub(crate) fn listen(settings: RwSignal<Settings>, there: Signal<bool>) -> RwSignal<bool> {
    let trouble = RwSignal::new(false);
    let volume = Memo::new(move |_| there.get().then(|| settings.with(Settings::loudness)));
    let tell = move |volume: Option<f64>| {
        let Some(volume) = volume else {
            return;
        };
        let refused = canvas::set_sound(volume).is_err();
        if refused && volume > 0.0 {
            settings.update(|s| s.sound = false);
            trouble.set(true);
        } else if volume > 0.0 {
            trouble.set(false);
        }
    };
    Effect::new(move |_| tell(volume.get()));
    // Where the setting was on before anything was pressed, browsers let it sound only now.
    let pressed = move || {
        if let Some(Some(on)) = volume.try_get_untracked()
            && on > 0.0
        {
            tell(Some(on));
        }
    };
    let heard = [
        window_event_listener(keydown, move |_| pressed()),
        window_event_listener(pointerup, move |_| pressed()),
    ];
    on_cleanup(move || {
        for handle in heard {
            handle.remove();
        }
    });
    trouble
}
