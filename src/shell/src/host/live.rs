//! What is being driven is told to the host now and then, so that a trainer sees who is where.

use coneyard_core::desk::Status;
use coneyard_core::finding::Severity;
use coneyard_core::outside::to_json;
use coneyard_core::time::TICK_RATE;
use serde::Serialize;

use super::{HostDesk, call};

/// So often, ms.
const EVERY_MS: f64 = 2000.0;

/// What is driven now.
#[derive(Serialize)]
struct Note<'a> {
    course: &'a str,
    truck: &'a str,
    seconds: f64,
    step: u32,
    findings: usize,
}

/// Tells the host, if it is time and somebody drives for a class; when it told last is kept in `last_ms`.
pub(crate) fn tell(
    host: HostDesk,
    (course, truck): (&str, &str),
    status: &Status,
    now_ms: f64,
    last_ms: &mut f64,
) {
    if now_ms - *last_ms < EVERY_MS || leptos::prelude::untrack(|| host.trainee()).is_none() {
        return;
    }
    *last_ms = now_ms;
    let findings = status.findings.iter().filter(|f| f.severity != Severity::Good).count();
    let seconds = f64::from(status.tick) / f64::from(TICK_RATE);
    let Ok(note) = to_json(&Note { course, truck, seconds, step: status.task.step, findings })
    else {
        return;
    };
    leptos::task::spawn_local(async move {
        // What cannot be told now is told in two seconds.
        let _ = call::<serde::de::IgnoredAny>("PUT", "live", Some(note)).await;
    });
}
