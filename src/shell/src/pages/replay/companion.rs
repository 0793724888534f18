//! A second run beside the one that is shown: the person's best, or a scripted rider's.

use coneyard_core::class::standing;
use leptos::prelude::*;

use super::{Desk, Phase};
use crate::canvas;
use crate::pages::debrief::who_text;
use crate::parts::press::{Choice, Option1};
use crate::parts::when::date_text;
use crate::route::Route;
use crate::store::{Attempt, StoreDesk};
use crate::words::{k, say, say_with, steady_number, text, tr};

/// The rider that drives every course without a fault.
const MODEL: &str = "model";

/// Who drives beside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Beside {
    Nobody,
    Best,
    Model,
}

/// The best run of the same person on the same course with the same truck, other than this one, that can
/// be driven again.
fn best_of(desk: Desk, attempt: &Attempt) -> Option<Attempt> {
    let others: Vec<Attempt> = desk.store.attempts.with(|all| {
        let fits = |a: &&Attempt| {
            a.id != attempt.id && a.truck == attempt.truck && a.can_be_driven_again()
        };
        all.iter().filter(fits).cloned().collect()
    });
    standing(&others, &attempt.course, &attempt.who).best
}

/// The run that is driven beside `given`.
async fn run_of(
    store: StoreDesk,
    beside: Beside,
    best: Option<Attempt>,
    given: &str,
) -> Result<String, String> {
    if beside == Beside::Best {
        let id = best.map(|a| a.id).unwrap_or_default();
        return store.run(&id).await?.ok_or_else(|| say(k("run-not-there")));
    }
    // The same course, truck, rules and seed: what the model meets is what the person met.
    canvas::ride_again(given, MODEL)
}

/// The choice.
#[component]
pub(super) fn Companion(desk: Desk, attempt: Memo<Option<Attempt>>) -> impl IntoView {
    let chosen = RwSignal::new(Beside::Nobody);
    let working = RwSignal::new(false);
    let trouble = RwSignal::new(None::<String>);
    let best = Memo::new(move |_| attempt.get().and_then(|a| best_of(desk, &a)));
    let choose = move |beside: Beside| {
        chosen.set(beside);
        trouble.set(None);
        if beside == Beside::Nobody {
            trouble.set(canvas::close_companion().err());
            return;
        }
        working.set(true);
        let (best, given) = (best.get_untracked(), desk.run.get_untracked());
        // The page shows first that it is working: riding holds it up.
        set_timeout(
            move || {
                leptos::task::spawn_local(async move {
                    let run = run_of(desk.store, beside, best, &given).await;
                    let opened = run.and_then(|run| canvas::open_companion(&run));
                    if opened.is_err() {
                        chosen.try_set(Beside::Nobody);
                    }
                    trouble.try_set(opened.err());
                    working.try_set(false);
                });
            },
            std::time::Duration::from_millis(60),
        );
    };
    let option = move |beside: Beside, name: &'static str| Option1 {
        disabled: Signal::derive(move || {
            working.get()
                || desk.phase.get() != Phase::Open
                || beside == Beside::Best && best.with(Option::is_none)
        }),
        ..Option1::new(name, move || chosen.get() == beside, move || choose(beside))
    };
    let options = vec![
        option(Beside::Nobody, k("companion-nobody")),
        option(Beside::Best, k("companion-best")),
        option(Beside::Model, k("companion-model")),
    ];
    view! {
        <div class="companion">
            <Choice legend=k("companion-title") group="companion" options />
        </div>
        <Pick desk attempt />
        <p role="status" class="quiet">
            {move || working.get().then(|| say(k("companion-working")))}
            {move || {
                trouble.get().map(|why| say_with(k("companion-trouble"), vec![("why", text(why))]))
            }}
        </p>
    }
}

/// What can stand beside a drive: any other on the same course that can be driven again, the latest first.
fn others(all: &[Attempt], attempt: &Attempt) -> Vec<Attempt> {
    let fits =
        |a: &&Attempt| a.id != attempt.id && a.course == attempt.course && a.can_be_driven_again();
    all.iter().rev().filter(fits).cloned().collect()
}

/// Any two drives of a course, side by side on a page of their own.
#[component]
fn Pick(desk: Desk, attempt: Memo<Option<Attempt>>) -> impl IntoView {
    let chosen = RwSignal::new(String::new());
    move || {
        let attempt = attempt.get()?;
        let others = desk.store.attempts.with(|all| others(all, &attempt));
        let first = others.first()?.id.clone();
        chosen.set(first);
        let options = others
            .into_iter()
            .map(|a| {
                let total = a.total().map(|p| format!(" · {}", steady_number(p, 0)));
                let line = format!(
                    "{} · {}{}",
                    who_text(&a),
                    date_text(&a.started),
                    total.unwrap_or_default()
                );
                view! { <option value=a.id>{line}</option> }
            })
            .collect_view();
        let id = attempt.id;
        let href = move || Route::Two([id.clone(), chosen.get()]).href();
        Some(view! {
            <div class="two-pick">
                <label class="field">
                    <span>{tr("two-pick")}</span>
                    <select
                        id="two-other"
                        on:change=move |ev| chosen.set(event_target_value(&ev))
                    >
                        {options}
                    </select>
                </label>
                <a class="button" id="two-open" href=href>
                    {tr("two-open")}
                </a>
            </div>
        })
    }
}

#[cfg(test)]
mod tests {
    use coneyard_core::class::contract;

    use super::*;

    #[test]
    fn any_other_drive_of_the_course_that_can_be_driven_again_can_stand_beside() {
        let drive = |id: &str, course: &str, simulation: Option<u32>| {
            let mut drive = contract::attempt(id);
            drive.course = course.to_owned();
            drive.simulation = simulation.or(drive.simulation);
            drive
        };
        let all = [
            drive("a", "bays", None),
            drive("b", "ramp", None),
            drive("old", "bays", Some(1)),
            drive("c", "bays", None),
            drive("d", "bays", None),
        ];
        let ids = |of: &Attempt| others(&all, of).into_iter().map(|a| a.id).collect::<Vec<_>>();
        assert_eq!(ids(&all[0]), ["d", "c"]);
        assert_eq!(ids(&all[4]), ["c", "a"]);
        assert!(ids(&all[1]).is_empty());
    }
}
