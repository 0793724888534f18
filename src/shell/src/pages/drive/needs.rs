//! The keys that a step needs, beside its sentence. They follow from the kind of the step, from which end
//! leads, and from whether the course has places to look at before one goes on; the sentence itself is
//! never read.

use coneyard_core::course::{BrakeZone, Travel};
use coneyard_core::outside::Said;
use leptos::prelude::*;

use super::Desk;
use crate::devices::Action;
use crate::files::{CourseLabel, What};
use crate::parts::keycap::KeyOf;
use crate::words::{k, tr};

/// Keys that are needed together, and what for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Need {
    actions: &'static [Action],
    name: &'static str,
}

/// A step as this page shows it.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Step {
    /// What there is to do.
    pub(crate) say: Said,
    /// With which keys.
    pub(crate) needs: Vec<Need>,
}

impl Step {
    /// It asks for this action.
    pub(crate) fn needs(&self, action: Action) -> bool {
        self.needs.iter().any(|need| need.actions.contains(&action))
    }
}

const HORN: Need = Need { actions: &[Action::Horn], name: k("need-horn") };
const DRIVE: Need = Need { actions: &[Action::Ahead], name: k("need-drive") };
const BRAKE: Need = Need { actions: &[Action::Back], name: k("need-brake") };
const DRIVE_BACK: Need = Need { actions: &[Action::Back], name: k("need-drive-back") };
const BRAKE_BACK: Need = Need { actions: &[Action::Ahead], name: k("need-brake") };
const LET_GO: Need = Need { actions: &[Action::LetGo], name: k("need-let-go") };
const PUSH_DOWN: Need = Need { actions: &[Action::PushDown], name: k("need-push-down") };
const LOOK: Need = Need { actions: &[Action::LookLeft, Action::LookRight], name: k("need-look") };
const LOOK_BEHIND: Need = Need { actions: &[Action::LookBehind], name: k("need-look-behind") };
const STAND: Need =
    Need { actions: &[Action::StandLeft, Action::StandRight], name: k("need-stand") };
const FORKS_UP: Need = Need { actions: &[Action::ForksUp], name: k("need-forks-up") };
const FORKS_DOWN: Need = Need { actions: &[Action::ForksDown], name: k("need-forks-down") };
const KEY: Need = Need { actions: &[Action::Key], name: k("need-key") };
const STEP_OFF: Need = Need { actions: &[Action::StepOff], name: k("need-step-off") };
const STEP_ON: Need = Need { actions: &[Action::StepOff], name: k("need-step-on") };
const KEY_ON: Need = Need { actions: &[Action::Key], name: k("need-key-on") };
const REPORT: Need = Need { actions: &[Action::Report], name: k("need-report") };

/// What a step of this kind needs, in the order in which it is needed.
fn needs(what: &What, travel: Travel, looks: bool) -> Vec<Need> {
    let ahead = travel == Travel::PowerUnitFirst;
    let (drive, brake) = if ahead { (DRIVE, BRAKE) } else { (DRIVE_BACK, BRAKE_BACK) };
    let mut needs = Vec::new();
    if !ahead {
        needs.push(LOOK_BEHIND);
    }
    match what {
        What::Gates {} => {
            needs.push(HORN);
            if !ahead {
                needs.push(drive);
            }
            needs.extend([brake, STAND]);
            if looks {
                needs.push(LOOK);
            }
        }
        What::StopAtMark {} => needs.extend([HORN, drive, brake]),
        What::EmergencyStop { brake: BrakeZone::Upper } => needs.extend([HORN, drive, LET_GO]),
        What::EmergencyStop { brake: BrakeZone::Lower } => needs.extend([HORN, drive, PUSH_DOWN]),
        What::Park { leave } => {
            needs.extend([brake, FORKS_DOWN]);
            if *leave {
                needs.extend([KEY, STEP_OFF]);
            }
        }
        What::PickUp {} => needs.extend([drive, brake, FORKS_UP]),
        What::SetDown {} => needs.extend([drive, brake, FORKS_DOWN]),
        What::Picks {} => needs.extend([HORN, brake, STEP_OFF]),
        // The walk-round has buttons of its own.
        What::WalkRound {} => needs.clear(),
        What::CheckDock {} => needs.extend([brake, LOOK, REPORT]),
    }
    needs
}

/// After a walk-round one stands beside a truck that is off: what it takes to get on comes first, and what every
/// driver has learnt by then makes room for it.
fn getting_on(needs: &mut Vec<Need>) {
    needs.retain(|need| *need != STAND && *need != LOOK && *need != BRAKE);
    let first = [STEP_ON, KEY_ON, FORKS_UP].into_iter().filter(|need| !needs.contains(need));
    let first: Vec<Need> = first.collect();
    needs.splice(0..0, first);
    if !needs.iter().any(|need| *need == DRIVE || *need == DRIVE_BACK) {
        needs.push(DRIVE);
    }
}

/// The steps of a course with what each needs.
pub(super) fn steps(course: CourseLabel) -> Vec<Step> {
    let looks = course.has_places_to_look();
    let mut walked = false;
    let step = |step: crate::files::StepLabel| {
        let mut needs = needs(&step.what, step.travel, looks);
        if core::mem::replace(&mut walked, step.what == What::WalkRound {}) {
            getting_on(&mut needs);
        }
        Step { needs, say: step.say }
    };
    course.steps.into_iter().map(step).collect()
}

/// The keys of the step that is due. On a screen that is touched, what they do stands on the buttons.
#[component]
pub(super) fn Needs(
    desk: Desk,
    /// The step; None when there is none.
    #[prop(into)]
    step: Signal<Option<u32>>,
) -> impl IntoView {
    let needed = Memo::new(move |_| {
        let step = step.get()? as usize;
        desk.steps.with(|steps| steps.get(step).map(|step| step.needs.clone()))
    });
    move || {
        if desk.settings.with(|s| s.shows_touch()) {
            return None;
        }
        let keys = needed.get()?.into_iter().map(|need| {
            let caps = need.actions.iter().map(|action| view! { <KeyOf action=*action /> });
            view! {
                <li>
                    <span class="pair">{caps.collect_view()}</span>
                    <span>{tr(need.name)}</span>
                </li>
            }
        });
        Some(view! {
            <ul class="needs" aria-label=tr("needs-label")>
                {keys.collect_view()}
            </ul>
        })
    }
}

#[cfg(test)]
mod tests {
    use coneyard_core::course::shipped;

    use super::*;

    fn of(course: &str, step: usize) -> Vec<&'static str> {
        let (file, text) = shipped::ALL.iter().find(|(name, _)| *name == course).unwrap();
        let steps = steps(CourseLabel::read(file, text).unwrap());
        steps[step].needs.iter().map(|need| need.name.trim_start_matches("need-")).collect()
    }

    #[test]
    fn what_a_step_asks_for_is_shown_with_it() {
        assert_eq!(of("straight", 0), ["horn", "drive", "brake"]);
        assert_eq!(of("emergency-stops", 0), ["horn", "drive", "let-go"]);
        assert_eq!(of("emergency-stops", 2), ["horn", "drive", "push-down"]);
        assert_eq!(of("figure-eight", 0), ["horn", "brake", "stand"]);
        assert_eq!(of("cross-aisles", 0), ["horn", "brake", "stand", "look"]);
        assert_eq!(of("dock", 1), ["brake", "look", "report"]);
        assert_eq!(of("pretest-leaving", 1), ["brake", "forks-down", "key", "step-off"]);
        assert_eq!(of("morning", 0), [""; 0], "it has buttons of its own");
        assert_eq!(of("morning", 1), ["step-on", "key-on", "forks-up", "horn", "drive"]);
        let back = ["look-behind", "drive-back", "brake", "forks-up"];
        assert_eq!(of("bays", 1), back);
    }

    #[test]
    fn they_are_few_and_each_has_a_key() {
        let keys = crate::devices::keys::KeyMap::default();
        for (file, text) in shipped::ALL {
            let label = CourseLabel::read(file, text).unwrap();
            let walks: Vec<bool> =
                label.steps.iter().map(|s| s.what == What::WalkRound {}).collect();
            for (step, walks) in steps(label).into_iter().zip(walks) {
                if walks {
                    continue;
                }
                assert!((2..=5).contains(&step.needs.len()), "{file}: {step:?}");
                let mut actions = step.needs.iter().flat_map(|need| need.actions);
                assert!(actions.all(|a| !keys.codes(*a).is_empty()), "{file}: {step:?}");
            }
        }
    }
}
