//! What is due and why, of everybody.

use coneyard_core::class::again::Due;
use coneyard_core::class::date::Date;
use coneyard_core::class::due::OfPerson;
use leptos::prelude::*;

use crate::browser::today;
use crate::parts::due::{day_text, why_text};
use crate::parts::names::truck_name;
use crate::route::Route;
use crate::words::{k, say, say_with, text, tr};

/// The section; nothing where nobody has driven and no record is there.
#[component]
pub(super) fn DueNow(due: Vec<OfPerson>) -> impl IntoView {
    let today = Date::read(&today())?;
    if due.is_empty() {
        return None;
    }
    let rows = due.into_iter().map(|of| row(of, today)).collect_view();
    Some(view! {
        <section>
            <h2 id="due-title">{tr("due-title")}</h2>
            <p class="quiet">{tr("due-more")}</p>
            <div class="table-wrap" tabindex="0" role="region" aria-label=tr("due-title")>
                <table id="due">
                    <thead>
                        <tr>
                            <th scope="col">{tr("class-person")}</th>
                            <th scope="col">{tr("due-now")}</th>
                            <th scope="col">{tr("due-later")}</th>
                        </tr>
                    </thead>
                    <tbody>{rows}</tbody>
                </table>
            </div>
        </section>
    })
}

fn row(of: OfPerson, today: Date) -> impl IntoView {
    let (now, later): (Vec<Due>, Vec<Due>) = of.due.into_iter().partition(|d| d.is_due(today));
    let list = |all: Vec<Due>, dated: bool| {
        let one = move |due: Due| {
            let day = due.on.filter(|_| dated).map(|on| {
                let on = vec![("day", text(day_text(on)))];
                format!("{} · ", say_with(k("due-from"), on))
            });
            view! { <li>{day} {why_text(due.why)}</li> }
        };
        match all.is_empty() {
            true => view! { <span aria-hidden="true">"–"</span> }.into_any(),
            false => view! { <ul class="plain">{all.into_iter().map(one).collect_view()}</ul> }
                .into_any(),
        }
    };
    let unknown = (!of.recorded).then(|| view! { <small>{say(k("due-no-record"))}</small> });
    view! {
        <tr data-who=of.who.clone()>
            <th scope="row">
                <a href=Route::Training(of.who.clone()).href()>{of.who.clone()}</a>
                " · "
                {truck_name(&of.truck)}
                {unknown}
            </th>
            <td>{list(now, false)}</td>
            <td>{list(later, true)}</td>
        </tr>
    }
}
