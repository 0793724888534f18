//! The rules of this site: every rule and every number beside what it usually is; what would become of the drives that
//! are kept here; and what the class goes by on this computer.
//!
//! What is changed is a draft, a text that the reader has read: what the reader refuses is said at its field, and the
//! draft stays as it was. Only what is saved holds, for drives that begin afterwards.

mod class;
mod compared;
mod files;
mod hand_out;
mod number;
mod preview;
mod row;
mod saving;
mod sheets;

use std::collections::VecDeque;

use coneyard_core::finding::Skill;
use coneyard_core::reading::Question;
use coneyard_core::rules::{Edit, Number, RuleRow, Sheet};
use coneyard_core::words::skill_key;
use leptos::prelude::*;
use wasm_bindgen::JsCast;

use crate::courses::use_library;
use crate::host::use_host;
use crate::parts::press::Press;
use crate::reader;
use crate::site::{SiteDesk, use_site};
use crate::words::{k, number, say, say_with, text, title, tr};
use class::ClassCard;
use files::Files;
use hand_out::HandOut;
use number::{NumberField, Slot, number_name};
use preview::Preview;
use row::RuleCard;
use saving::Saving;
use sheets::SheetList;

/// What the parts of the page share.
#[derive(Clone, Copy)]
struct Desk {
    /// The rules as they would be, whole.
    draft: RwSignal<String>,
    /// The rules that hold, whole.
    held: RwSignal<String>,
    /// The draft as it is shown; None until it is read.
    sheet: RwSignal<Option<Sheet>>,
    /// Raised when another text came in, whose rules may lie in other groups.
    made: RwSignal<u32>,
    /// Why the rules cannot be shown, if so.
    trouble: RwSignal<Option<String>>,
    /// What was done last, for who cannot see it.
    news: RwSignal<String>,
    /// What is looked for among the rules.
    wanted: RwSignal<String>,
    /// Only what is not as shipped is shown.
    only_changed: RwSignal<bool>,
    /// Changes that are to be made, the one that is being made first.
    waiting: StoredValue<VecDeque<(Edit, RwSignal<Option<String>>)>>,
    site: SiteDesk,
}

impl Desk {
    /// Takes a whole text as the draft.
    ///
    /// # Errors
    /// Why it cannot be read; then the draft stays.
    async fn take(self, rules: String) -> Result<(), String> {
        let (draft, sheet): (String, Sheet) = reader::ask(&Question::Sheet(rules)).await?;
        self.sheet.try_set(Some(sheet));
        self.draft.try_set(draft);
        self.made.try_update(|n| *n += 1);
        Ok(())
    }

    /// Makes a change; why it was not made stands in `refused` then. Changes are made one after another: each is one of
    /// what the one before has left.
    fn edit(self, edit: Edit, refused: RwSignal<Option<String>>) {
        let idle = self.waiting.try_update_value(|waiting| {
            waiting.push_back((edit, refused));
            waiting.len() == 1
        });
        if idle != Some(true) {
            return;
        }
        leptos::task::spawn_local(async move {
            let next = || self.waiting.try_with_value(|waiting| waiting.front().cloned()).flatten();
            while let Some((edit, refused)) = next() {
                self.make(edit, refused).await;
                self.waiting.try_update_value(VecDeque::pop_front);
            }
        });
    }

    async fn make(self, edit: Edit, refused: RwSignal<Option<String>>) {
        let Some(draft) = self.draft.try_get_untracked() else { return };
        match reader::ask::<(String, Sheet)>(&Question::Edit(draft, edit)).await {
            Ok((draft, sheet)) => {
                self.sheet.try_set(Some(sheet));
                self.draft.try_set(draft);
                refused.try_set(None);
            }
            Err(why) => {
                refused.try_set(Some(why));
            }
        }
    }

    /// Something of the sheet, once it is there.
    fn read<T>(self, read: impl FnOnce(&Sheet) -> Option<T>) -> Option<T> {
        self.sheet.with(|sheet| read(sheet.as_ref()?))
    }

    fn rule<T>(self, at: usize, read: impl FnOnce(&RuleRow) -> T) -> Option<T> {
        self.read(|sheet| sheet.rules.get(at).map(read))
    }

    /// The draft is not what holds.
    fn is_unsaved(self) -> bool {
        self.draft.with(|draft| self.held.with(|held| draft != held))
    }

    /// Whether a name has in it what is looked for, however it is written.
    fn is_wanted(self, names: &str) -> bool {
        self.wanted.with(|wanted| {
            let names = names.to_lowercase();
            wanted.to_lowercase().split_whitespace().all(|word| names.contains(word))
        })
    }

    /// The rule at this place of the sheet is among those that are looked for.
    fn shows_rule(self, at: usize) -> bool {
        let shown =
            |r: &RuleRow| self.is_wanted(&names_of(r)) && (r.differs() || !self.only_changed.get());
        self.rule(at, shown).unwrap_or_default()
    }

    /// And so is this number.
    fn shows_number(self, place: Slot) -> bool {
        let shown = |n: &Number| {
            self.is_wanted(&number_name(n)) && (n.differs() || !self.only_changed.get())
        };
        self.read(|sheet| place.of(sheet).map(shown)).unwrap_or_default()
    }

    /// Not all of the rules are shown.
    fn is_sifted(self) -> bool {
        self.only_changed.get() || self.wanted.with(|wanted| !wanted.trim().is_empty())
    }
}

/// The page.
#[component]
pub(crate) fn RulesPage() -> impl IntoView {
    let (library, site, host) = (use_library(), use_site(), use_host());
    let desk = Desk {
        draft: RwSignal::new(String::new()),
        held: RwSignal::new(String::new()),
        sheet: RwSignal::new(None),
        made: RwSignal::new(0),
        trouble: RwSignal::new(None),
        news: RwSignal::new(String::new()),
        wanted: RwSignal::new(String::new()),
        only_changed: RwSignal::new(false),
        waiting: StoredValue::new(VecDeque::new()),
        site,
    };
    let begun = StoredValue::new(false);
    Effect::new(move |_| {
        let Some(served) = library.find(|l| Some(l.served.clone())) else { return };
        if begun.get_value() {
            return;
        }
        begun.set_value(true);
        let rules = untrack(|| site.rules.get()).unwrap_or(served);
        leptos::task::spawn_local(async move {
            match desk.take(rules).await {
                Ok(()) => {
                    desk.held.try_set(desk.draft.get_untracked());
                }
                Err(why) => {
                    desk.trouble.try_set(Some(why));
                }
            }
        });
    });
    let rests = move || {
        let rests = host.trainee().is_some() && site.rules.with(Option::is_some);
        rests.then(|| view! { <p class="note">{say(k("rules-rest"))}</p> })
    };
    let shown = move || {
        // Made anew only when another text came in: a field that is being written into stays.
        desk.made.track();
        let groups = untrack(|| desk.read(|sheet| Some(groups(sheet))))?;
        Some(groups.into_iter().map(|group| view! { <Group group desk /> }).collect_view())
    };
    view! {
        <p class="lead">{tr("rules-lead")}</p>
        {rests}
        <Trouble desk />
        <Show
            when=move || desk.sheet.with(Option::is_some)
            fallback=move || {
                let is_loading = move || desk.trouble.with(Option::is_none);
                view! { <p role="status">{move || is_loading().then(|| say(k("rules-loading")))}</p> }
            }
        >
            <section class="card" aria-labelledby="own-rules-title">
                <h2 id="own-rules-title">{tr("rules-own-title")}</h2>
                <Sift desk />
                <div class="rule-groups">{shown}</div>
            </section>
            <Saving desk />
            <Preview desk />
            <HandOut desk />
            <Files desk />
            <SheetList />
        </Show>
        <ClassCard />
        <p class="quiet caution">
            <strong>{tr("caution-title")}</strong>
            ". "
            {tr("caution")}
        </p>
    }
}

/// Why the rules that are set cannot be shown, and the way back to those that came with the site: nothing could be driven
/// under what cannot be read.
#[component]
fn Trouble(desk: Desk) -> impl IntoView {
    let library = use_library();
    let put_back = move |_| {
        let Some(served) = untrack(|| library.find(|l| Some(l.served.clone()))) else { return };
        leptos::task::spawn_local(async move {
            let done = async {
                desk.site.keep_rules(None).await?;
                desk.take(served).await
            };
            let done = done.await;
            if done.is_ok() {
                desk.held.try_set(desk.draft.get_untracked());
                desk.news.try_set(say(k("rules-put-back")));
            }
            desk.trouble.try_set(done.err());
        });
    };
    move || {
        let why = say_with(k("rules-trouble"), vec![("why", text(desk.trouble.get()?))]);
        let is_own = desk.site.rules.with(Option::is_some);
        Some(view! {
            <div class="note warn" role="alert">
                <p>{why}</p>
                {is_own
                    .then(|| {
                        view! {
                            <p class="actions">
                                <Press name=k("rules-all-back") id="rules-give-up" act=put_back />
                            </p>
                        }
                    })}
            </div>
        })
    }
}

/// What is shown of the rules: whose they are, and which of them.
#[component]
fn Sift(desk: Desk) -> impl IntoView {
    let refused = RwSignal::new(None::<String>);
    let zones = move || {
        let zones = desk.read(|s| Some(s.zones)).filter(|zones| *zones > 0)?;
        let said = say_with(k("rules-zones"), vec![("zones", number(zones as f64))]);
        Some(view! { <p class="note">{said}</p> })
    };
    view! {
        <div class="fields">
            <label class="field">
                <span>{tr("rules-site")}</span>
                <input
                    type="text"
                    id="rules-site"
                    autocomplete="off"
                    maxlength="300"
                    prop:value=move || desk.read(|s| Some(s.site.clone()))
                    on:change=move |ev| desk.edit(Edit::Site(event_target_value(&ev)), refused)
                />
            </label>
            <label class="field">
                <span>{tr("rules-find")}</span>
                <input
                    type="text"
                    id="rules-find"
                    autocomplete="off"
                    prop:value=desk.wanted
                    on:input=move |ev| desk.wanted.set(event_target_value(&ev))
                />
            </label>
        </div>
        <p role="alert">{refused}</p>
        {zones}
        <label class="switch">
            <input
                type="checkbox"
                id="rules-only"
                prop:checked=desk.only_changed
                on:change=move |ev| desk.only_changed.set(event_target_checked(&ev))
            />
            <span>
                <strong>{tr("rules-only")}</strong>
            </span>
        </label>
    }
}

/// Rules, or numbers that belong together.
struct Group {
    name: &'static str,
    numbers: Vec<Slot>,
    rules: Vec<usize>,
}

/// The groups in the order of the skills, then what several rules share.
fn groups(sheet: &Sheet) -> Vec<Group> {
    let of_skill = |skill: Skill| {
        let at = sheet.rules.iter().enumerate().filter(|(_, rule)| rule.skill == skill);
        let rules: Vec<usize> = at.map(|(at, _)| at).collect();
        Group { name: skill_key(skill), numbers: Vec::new(), rules }
    };
    let mut skills: Vec<Skill> = Vec::new();
    for rule in &sheet.rules {
        if !skills.contains(&rule.skill) {
            skills.push(rule.skill);
        }
    }
    skills.sort_unstable();
    let numbers = |name, count: usize, slot: fn(usize) -> Slot| Group {
        name,
        numbers: (0..count).map(slot).collect(),
        rules: Vec::new(),
    };
    let shared = [
        numbers(k("rules-pretest"), sheet.pretest.len(), Slot::PreTest),
        numbers(k("rules-points"), sheet.points.len(), Slot::Points),
        numbers(k("rules-shared"), sheet.shared.len(), Slot::Shared),
    ];
    skills.into_iter().map(of_skill).chain(shared).collect()
}

#[component]
fn Group(group: Group, desk: Desk) -> impl IntoView {
    let Group { name, numbers, rules } = group;
    let all = numbers.len() + rules.len();
    let (of_numbers, of_rules) = (numbers.clone(), rules.clone());
    let differing = move || {
        let numbers = of_numbers.iter().filter(|slot| {
            desk.read(|sheet| slot.of(sheet).map(|n| n.differs())).unwrap_or_default()
        });
        let rules =
            of_rules.iter().filter(|at| desk.rule(**at, RuleRow::differs).unwrap_or_default());
        numbers.count() + rules.count()
    };
    let (of_numbers, of_rules) = (numbers.clone(), rules.clone());
    let hidden = move || {
        desk.is_sifted()
            && !of_numbers.iter().any(|place| desk.shows_number(*place))
            && !of_rules.iter().any(|at| desk.shows_rule(*at))
    };
    let counts = move || {
        let values = vec![("all", number(all as f64)), ("changed", number(differing() as f64))];
        say_with(k("rules-group"), values)
    };
    let fields =
        numbers.into_iter().map(|slot| view! { <SharedNumber place=slot desk /> }).collect_view();
    let cards = rules.into_iter().map(|at| view! { <RuleCard at desk /> }).collect_view();
    view! {
        <details class="rule-group" hidden=hidden prop:open=move || desk.is_sifted()>
            <summary>
                <strong>{tr(name)}</strong>
                " "
                <span class="quiet">{counts}</span>
            </summary>
            <ul class="rule-numbers shared">{fields}</ul>
            {cards}
        </details>
    }
}

/// A number that belongs to no single rule.
#[component]
fn SharedNumber(place: Slot, desk: Desk) -> impl IntoView {
    view! {
        <li hidden=move || !desk.shows_number(place)>
            <NumberField place desk />
        </li>
    }
}

/// Gives the keyboard to what has this id, once the page is drawn: the button that was pressed is gone by then.
fn focus_on(id: String) {
    request_animation_frame(move || {
        let found = document().get_element_by_id(&id);
        if let Some(found) = found.and_then(|e| e.dyn_into::<web_sys::HtmlElement>().ok()) {
            // What cannot take the focus leaves it where it is.
            let _ = found.focus();
        }
    });
}

/// A rule's name, and whatever else it may be looked for by.
fn names_of(rule: &RuleRow) -> String {
    let numbers = rule.numbers.iter().map(number_name);
    let all: Vec<String> = [title(&rule.code), rule.code.clone(), rule.citation.clone()]
        .into_iter()
        .chain(numbers)
        .collect();
    all.join(" ")
}
