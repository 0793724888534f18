//! Loading what driving takes before it is wanted. The frame of the pages knows how; a page only asks.

use leptos::prelude::*;

/// Loads it while nothing else happens.
#[derive(Clone, Copy)]
pub(crate) struct Prepare(pub(crate) fn());

/// Has what driving takes loaded.
pub(crate) fn prepare() {
    expect_context::<Prepare>().0();
}
