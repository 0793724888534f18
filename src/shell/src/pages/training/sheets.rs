//! Sheets for practice under supervision and for the evaluation at the workplace, filled in at the truck: one tap for each
//! thing that is to be seen. Every tap is kept; what was said before stays in the record, and the last word holds.

use coneyard_core::class::date::Date;
use coneyard_core::class::record::{Decided, Entry, Purpose, Record, Seen, Sheet};
use coneyard_core::class::workplace::{About, Item, List};
use leptos::prelude::*;

use super::desk::Desk;
use super::form::{Common, Fields, day_by};
use crate::browser::today;
use crate::courses::said;
use crate::parts::names::truck_name;
use crate::parts::press::{Choice, Delete, Option1, Press};
use crate::words::{k, number, say, say_with, source, text, tr};

fn purpose_key(purpose: Purpose) -> &'static str {
    match purpose {
        Purpose::Practice => k("seen-sheet-practice"),
        Purpose::Evaluation => k("seen-sheet-evaluation"),
    }
}

/// What was said last of an item.
fn last(sheet: &Sheet, item: &str) -> Option<Seen> {
    sheet.entries.iter().rev().find(|e| e.item == item).and_then(|e| e.seen)
}

/// The section.
#[component]
pub(super) fn Sheets(desk: Desk, lists: StoredValue<Vec<List>>) -> impl IntoView {
    let count = Memo::new(move |_| desk.with(|r| r.sheets.len()));
    let all = move || {
        // The newest first: it is the one that is being filled in.
        (0..count.get()).rev().map(|at| view! { <One desk lists at /> }).collect_view()
    };
    view! {
        <section aria-labelledby="sheets-title">
            <h3 id="sheets-title">{tr("seen-sheet-title")}</h3>
            <p class="quiet no-print">{tr("seen-sheet-more")}</p>
            {all}
            <Another desk lists />
        </section>
    }
}

/// A sheet: folded once it was decided.
#[component]
fn One(desk: Desk, lists: StoredValue<Vec<List>>, at: usize) -> impl IntoView {
    let sheet = Memo::new(move |_| desk.with(|r| r.sheets.get(at).cloned()));
    // A tick draws no line anew: the finger is still on it.
    let list_id = Memo::new(move |_| sheet.with(|s| s.as_ref().map(|s| s.list.clone())));
    let list = move || {
        let id = list_id.get()?;
        lists.with_value(|all| all.iter().find(|l| l.id == id).cloned())
    };
    let head = move || {
        sheet.with(|s| {
            s.as_ref().map(|s| {
                let decided = match s.decided {
                    Some(Decided::Safe) => say(k("training-safe")),
                    Some(Decided::NotYet) => say(k("training-not-yet")),
                    None => say(k("seen-sheet-open")),
                };
                let purpose = say(purpose_key(s.purpose));
                let truck = truck_name(&s.truck);
                let day = day_by(s.on, &s.by);
                let site =
                    if s.site.is_empty() { String::new() } else { format!(" · {}", s.site) };
                format!("{purpose} · {truck} · {day}{site} · {decided}")
            })
        })
    };
    let is_open = sheet.with_untracked(|s| s.as_ref().is_some_and(|s| s.decided.is_none()));
    let group = |about: About| {
        move || {
            let items = list()?.items.into_iter().filter(move |i| i.about == about);
            Some(items.map(|item| view! { <Line desk sheet at item /> }).collect_view())
        }
    };
    let unknown = move || {
        list().is_none().then(|| {
            let id = text(list_id.get().unwrap_or_default());
            view! { <p class="note warn">{say_with(k("lacks-list"), vec![("list", id)])}</p> }
        })
    };
    let forget = move |_| {
        let Some(drop) = sheet.get_untracked() else { return };
        desk.change(move |r| {
            if let Some(at) = position(r, &drop) {
                r.sheets.remove(at);
            }
        });
    };
    view! {
        <details class="workplace-sheet" open=is_open data-sheet=at>
            <summary>{head}</summary>
            {unknown}
            <h4>{tr("seen-sheet-truck")}</h4>
            <ol class="seen-list">{group(About::Truck)}</ol>
            <h4>{tr("seen-sheet-site")}</h4>
            <ol class="seen-list">{group(About::Site)}</ol>
            <Decision desk lists sheet />
            <p class="no-print">
                <Delete act=forget />
            </p>
        </details>
    }
}

/// The place of the sheet that was begun as this one was; what was ticked since does not matter.
fn position(record: &Record, sheet: &Sheet) -> Option<usize> {
    let same = |s: &Sheet| {
        (s.on, &s.by, &s.truck, &s.site, &s.list, s.purpose)
            == (sheet.on, &sheet.by, &sheet.truck, &sheet.site, &sheet.list, sheet.purpose)
    };
    record.sheets.iter().position(same)
}

/// One thing that is to be seen.
#[component]
fn Line(desk: Desk, sheet: Memo<Option<Sheet>>, at: usize, item: Item) -> impl IntoView {
    let id = StoredValue::new(item.id.clone());
    let said_last = Memo::new(move |_| {
        sheet.with(|s| s.as_ref().and_then(|s| id.with_value(|id| last(s, id))))
    });
    let say_it = move |seen: Option<Seen>| {
        let Some(of) = sheet.get_untracked() else { return };
        let (item, on) = (id.get_value(), Date::read(&today()));
        desk.change(move |r| {
            let Some(at) = position(r, &of) else { return };
            let Some(sheet) = r.sheets.get_mut(at) else { return };
            let on = on.unwrap_or(sheet.on);
            let by = sheet.by.clone();
            sheet.entries.push(Entry { item: item.clone(), seen, note: String::new(), by, on });
        });
    };
    let option = |name: &'static str, seen: Option<Seen>| {
        Option1::new(name, move || said_last.get() == seen, move || say_it(seen))
    };
    let options = vec![
        option(k("seen-sheet-seen-ok"), Some(Seen::Ok)),
        option(k("seen-sheet-seen-not-yet"), Some(Seen::NotYet)),
        option(k("seen-sheet-not-seen"), None),
    ];
    // A group of radio buttons goes by one name on the page.
    let group = format!("seen-{at}-{}", item.id);
    let must = item.must;
    let asks = item.asks.clone();
    view! {
        <li data-item=item.id.clone()>
            <p>
                {move || said(&asks)}
                <small>
                    {move || if must { say(k("seen-sheet-must")) } else { say(k("seen-sheet-may")) }} " · "
                    {source(&item.citation)}
                </small>
            </p>
            <Choice legend=k("seen-sheet-seen") group options />
        </li>
    }
}

/// What the sheet comes to.
#[component]
fn Decision(
    desk: Desk,
    lists: StoredValue<Vec<List>>,
    sheet: Memo<Option<Sheet>>,
) -> impl IntoView {
    let open = move || {
        sheet.with(|s| {
            let s = s.as_ref()?;
            let list = lists.with_value(|all| all.iter().find(|l| l.id == s.list).cloned())?;
            Some(s.open(&list).len())
        })
    };
    let decide = move |decided: Decided| {
        let Some(of) = sheet.get_untracked() else { return };
        desk.change(move |r| {
            if let Some(sheet) = position(r, &of).and_then(|at| r.sheets.get_mut(at)) {
                sheet.decided = Some(decided);
            }
        });
    };
    let left = move || match open() {
        Some(0) | None => say(k("seen-sheet-all-seen")),
        Some(left) => say_with(k("seen-sheet-left"), vec![("count", number(left as f64))]),
    };
    // Nobody is called safe while something that must be seen was not.
    let not_all = Signal::derive(move || open().is_none_or(|left| left > 0));
    let evaluates =
        move || sheet.with(|s| s.as_ref().is_some_and(|s| s.purpose == Purpose::Evaluation));
    view! {
        <p role="status">{left}</p>
        <Show when=evaluates>
            <p class="actions no-print">
                <Press
                    name=k("seen-sheet-decide-safe")
                    class="decide-safe"
                    disabled=not_all
                    act=move |_| decide(Decided::Safe)
                />
                <Press
                    name=k("seen-sheet-decide-not-yet")
                    class="decide-not-yet"
                    act=move |_| decide(Decided::NotYet)
                />
            </p>
        </Show>
    }
}

#[component]
fn Another(desk: Desk, lists: StoredValue<Vec<List>>) -> impl IntoView {
    let fields = Fields::new();
    let purpose = RwSignal::new(Purpose::Practice);
    let option = |of: Purpose| {
        Option1::new(purpose_key(of), move || purpose.get() == of, move || purpose.set(of))
    };
    let options = vec![option(Purpose::Practice), option(Purpose::Evaluation)];
    let begin = move |_| {
        let Some(filled) = fields.filled() else { return };
        let suits = |l: &&List| l.suits(&filled.truck, &filled.site);
        let list =
            lists.with_value(|all| all.iter().find(suits).or(all.last()).map(|l| l.id.clone()));
        let sheet = Sheet {
            purpose: purpose.get_untracked(),
            on: filled.on,
            by: filled.by,
            truck: filled.truck,
            site: filled.site,
            list: list.unwrap_or_default(),
            entries: Vec::new(),
            decided: None,
        };
        if desk.with_untracked(|r| position(r, &sheet).is_some()) {
            fields.wrong.set(Some(say(k("seen-sheet-there"))));
            return;
        }
        desk.change(move |r| r.sheets.push(sheet.clone()));
    };
    view! {
        <details class="no-print" id="another-sheet">
            <summary>{tr("seen-sheet-add")}</summary>
            <Choice legend=k("seen-sheet-purpose") group="sheet-purpose" options />
            <Common fields form="sheet" by=k("seen-sheet-by") site=true />
            <p role="alert">{move || fields.wrong.get()}</p>
            <Press name=k("seen-sheet-begin") id="begin-sheet" class="primary" act=begin />
        </details>
    }
}
