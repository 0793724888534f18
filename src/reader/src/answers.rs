//! Questions and their answers.

use std::collections::BTreeMap;

use coneyard_core::checks::list::CheckList;
use coneyard_core::class::figures::Figures;
use coneyard_core::class::workplace::{List, SHIPPED};
use coneyard_core::class::xapi::{Home, Judged, statements};
use coneyard_core::class::{Attempt, Taken, driven, sitting_file_name, walks, whole};
use coneyard_core::outside::{BadInput, read_json};
use coneyard_core::pretest::{self, Joined};
use coneyard_core::reading::{CameIn, Question, RunShown, SittingShown, StatementsOut};
use coneyard_core::rules::SiteRules;
use coneyard_core::run::file;
use coneyard_core::run::papers::Papers;
use coneyard_core::words::pretest::because;
use serde::Serialize;

use crate::rules::Rules;

/// Larger questions are refused before they are read, bytes: none is larger than the runs of a
/// pre-test, and each letter of those may take two.
const MOST: usize = 2 * pretest::MAX_BYTES;

/// Name of the check list in sentences.
const CHECK_LIST: &str = "pallet-trucks.json";

/// Name of the list of what is seen at the truck in sentences.
const WORKPLACE: &str = "workplace.json";

/// Name of the rules in sentences.
const SITE_RULES: &str = "site-rules.json";

fn said(bad: BadInput) -> String {
    bad.to_string()
}

fn written(answer: &impl Serialize) -> Result<String, String> {
    serde_json::to_string(answer).map_err(|e| e.to_string())
}

/// Answers a question, both as JSON.
///
/// # Errors
/// One sentence when a file that it is about cannot be read.
pub fn answer(question: &str) -> Result<String, String> {
    match read_json("the question", question.as_bytes(), MOST).map_err(said)? {
        Question::Terms(rules) => written(&Rules::read(SITE_RULES, &rules)?.terms()),
        Question::Run(file, run, changed) => written(&run_shown(&file, &run, &changed, None)?),
        Question::RunBy(file, run, changed, rules) => {
            written(&run_shown(&file, &run, &changed, Some(&rules))?)
        }
        Question::Sheet(rules) => {
            let rules = SiteRules::parse(SITE_RULES, rules.as_bytes()).map_err(said)?;
            written(&(rules.to_whole_text(), rules.sheet()))
        }
        Question::RulesFile(rules) => {
            let rules = SiteRules::parse(SITE_RULES, rules.as_bytes()).map_err(said)?;
            written(&rules.to_text())
        }
        Question::Edit(rules, edit) => {
            let rules = SiteRules::parse(SITE_RULES, rules.as_bytes()).map_err(said)?;
            let rules = rules.edited(SITE_RULES, &edit).map_err(said)?;
            written(&(rules.to_whole_text(), rules.sheet()))
        }
        Question::CameIn { file, text, id } => written(&came_in(&file, &text, id).map_err(said)?),
        Question::Part { sitting, part, id, now } => {
            written(&whole::begun(&sitting, part, id, &now).map_err(said)?)
        }
        Question::Sitting(sitting, driven) => {
            let rules = Rules::read(SITE_RULES, &sitting.rules)?;
            let joined = whole::joined(&sitting, &driven).map_err(said)?;
            written(&SittingShown {
                site: rules.site_name().map(str::to_owned),
                time_ratio_least: rules.terms().time_ratio_least,
                result: joined.result,
                reasons: joined.reasons.iter().map(because).collect(),
                total: joined.total,
                skills: joined.skills,
                ticks: joined.ticks,
                practise: joined.practise,
            })
        }
        Question::SittingFile(sitting, runs) => {
            let text = whole::file(&sitting, &runs).map_err(said)?;
            written(&(sitting_file_name(&sitting), text))
        }
        Question::Checks(text) => {
            written(&CheckList::parse(CHECK_LIST, text.as_bytes()).map_err(said)?)
        }
        Question::Walks(all, list) => {
            let list = CheckList::parse(CHECK_LIST, list.as_bytes()).map_err(said)?;
            written(&walks::added_up(&all, &list))
        }
        Question::Figures(attempts, clean_from) => written(&Figures::of(&attempts, clean_from)),
        Question::Statements { attempts, sittings, address, now, titles } => {
            let home = Home {
                address: &address,
                now: &now,
                titles: &titles,
                // People go by the names of the records.
                accounts: &BTreeMap::new(),
            };
            written(&statements_of(&attempts, &sittings, &home)?)
        }
        Question::Workplace(text) if text.is_empty() => written(&List::shipped()),
        Question::Workplace(text) => {
            written(&List::parse(WORKPLACE, text.as_bytes()).map_err(said)?)
        }
        Question::WorkplaceFile(text) if text.is_empty() => written(&SHIPPED),
        Question::WorkplaceFile(text) => {
            List::parse(WORKPLACE, text.as_bytes()).map_err(said)?;
            written(&text)
        }
        Question::RunName(run) => written(&file::name_of(run.as_bytes())),
        Question::ClassWord(typed) => written(&pretest::class_word(&typed).ok()),
    }
}

/// What is shown of a run, by these rules instead of its own where there are some.
fn run_shown(
    file: &str,
    run: &str,
    changed: &[String],
    by: Option<&str>,
) -> Result<RunShown, String> {
    let papers = Papers::parse(file, run.as_bytes()).map_err(said)?;
    let rules = Rules::read(file, by.unwrap_or(&papers.rules))?.shown(changed);
    let simulation = papers.head.simulation;
    let walk = whole::walked(file, &papers).map_err(said)?;
    Ok(RunShown { simulation, course: papers.course, rules, walk })
}

/// The statements, each pre-test with what its parts come to.
fn statements_of(
    attempts: &[Attempt],
    sittings: &[Taken],
    home: &Home<'_>,
) -> Result<StatementsOut, String> {
    let joined: Result<Vec<Joined>, BadInput> =
        sittings.iter().map(|s| whole::joined(s, &driven(attempts, &s.id))).collect();
    let joined = joined.map_err(said)?;
    let judged: Vec<Judged<'_>> =
        sittings.iter().zip(&joined).map(|(taken, joined)| Judged { taken, joined }).collect();
    let out = statements(attempts, &judged, home).map_err(said)?;
    Ok(StatementsOut {
        text: out.to_text()?,
        statements: out.statements.len(),
        left_out: out.left_out.len(),
    })
}

fn came_in(file: &str, text: &str, id: String) -> Result<CameIn, BadInput> {
    if !pretest::is_sitting(text.as_bytes()) {
        return Ok(CameIn::Run);
    }
    whole::read(file, text, id).map(|(taken, runs)| CameIn::Sitting(taken, runs))
}

#[cfg(test)]
mod tests {
    use coneyard_core::checks::draw::Mode;
    use coneyard_core::checks::sheet::Counts;
    use coneyard_core::class::Place;
    use coneyard_core::class::contract::{attempt, taken};
    use coneyard_core::class::walks::{WalkResult, WalksShown};
    use coneyard_core::reading::{Begun, Terms};
    use coneyard_core::rules::{Edit, SHIPPED, Sheet};
    use coneyard_core::run::Run;
    use coneyard_core::run::file::SIMULATION;
    use coneyard_core::state::chain::Digest;
    use serde::de::DeserializeOwned;

    use super::*;

    fn asked<T: DeserializeOwned>(question: &Question) -> Result<T, String> {
        answer(&serde_json::to_string(question).unwrap()).map(|a| serde_json::from_str(&a).unwrap())
    }

    fn sitting() -> Taken {
        Taken { rules: SHIPPED.to_owned(), ..taken("s") }
    }

    /// The run file of a part, of which nothing was driven.
    fn run(part: usize) -> String {
        let (id, now) = ("d".to_owned(), "2026-01-05T08:01:00Z".to_owned());
        let begun: Begun = asked(&Question::Part { sitting: sitting(), part, id, now }).unwrap();
        let claimed = coneyard_core::debrief::Debrief { ticks: 0, ..attempt("a").verdict.debrief };
        let digests = vec![Digest([7; 8])];
        let setup = begun.setup;
        Run {
            setup,
            time_ratio: 0.75,
            pace: 1.0,
            format: 2,
            controls: vec![],
            acts: vec![],
            digests,
            claimed,
        }
        .to_text()
    }

    #[test]
    fn a_run_shows_its_course_and_its_rules() {
        let file = || "a.run.json".to_owned();
        let shown: RunShown = asked(&Question::Run(file(), run(0), vec![])).unwrap();
        assert_eq!(shown.simulation, SIMULATION);
        assert!(shown.course.contains("pretest-walk-round") && shown.walk.is_some());
        assert!(shown.rules.citations.contains_key("contact-cone"));
        let came = Question::CameIn { file: file(), text: run(0), id: "s".to_owned() };
        assert_eq!(asked(&came), Ok(CameIn::Run));
    }

    #[test]
    fn attempts_and_pre_tests_become_statements_and_what_is_left_out_is_counted() {
        let part = |part: usize| {
            let mut attempt = attempt(&format!("a{part}"));
            attempt.place = Some(Place { sitting: "s".to_owned(), part });
            attempt
        };
        let mut differs = attempt("b");
        differs.verdict.reproduces = false;
        let asking = |address: &str, sittings| Question::Statements {
            attempts: vec![part(0), part(1), differs.clone()],
            sittings,
            address: address.to_owned(),
            now: "2026-12-01T08:00:00Z".to_owned(),
            titles: BTreeMap::new(),
        };
        let out: StatementsOut = asked(&asking("https://yard.example", vec![sitting()])).unwrap();
        // Two parts and the pre-test; what is not what it says it is stays here.
        assert_eq!((out.statements, out.left_out), (3, 1));
        let all: Vec<serde_json::Value> = serde_json::from_str(&out.text).unwrap();
        assert_eq!(all.len(), 3);
        let whole: Vec<_> = all.iter().filter(|s| s["result"]["success"].is_boolean()).collect();
        assert!(whole.is_empty(), "a pre-test with open parts passes and fails nobody");
        let none: StatementsOut = asked(&asking("https://yard.example", vec![])).unwrap();
        assert_eq!(none.statements, 2);
        assert!(asked::<StatementsOut>(&asking("yard", vec![])).is_err());
    }

    #[test]
    fn a_list_of_the_site_is_read_and_the_shipped_one_is_there_without() {
        let shipped: List = asked(&Question::Workplace(String::new())).unwrap();
        assert_eq!(shipped, List::shipped());
        let text = coneyard_core::class::workplace::SHIPPED
            .replace("\"id\": \"pallet-trucks\"", "\"id\": \"ours\"");
        assert_eq!(asked::<List>(&Question::Workplace(text.clone())).unwrap().id, "ours");
        // Its file goes out as it came in, and the shipped one as it is.
        assert_eq!(asked(&Question::WorkplaceFile(text.clone())), Ok(text));
        let out: String = asked(&Question::WorkplaceFile(String::new())).unwrap();
        assert_eq!(List::parse("out", out.as_bytes()).unwrap(), List::shipped());
        assert!(asked::<String>(&Question::WorkplaceFile("{}".to_owned())).is_err());
        let wrong = asked::<List>(&Question::Workplace("{}".to_owned())).unwrap_err();
        assert!(wrong.starts_with("workplace.json"), "{wrong}");
    }

    #[test]
    fn a_class_has_its_figures() {
        let is: Figures = asked(&Question::Figures(vec![attempt("a")], 0.8)).unwrap();
        assert_eq!(is, Figures::of(&[attempt("a")], 0.8));
    }

    #[test]
    fn rules_are_shown_and_changed_and_a_run_is_shown_by_them() {
        let (text, sheet): (String, Sheet) = asked(&Question::Sheet(SHIPPED.to_owned())).unwrap();
        assert_eq!(sheet.differing(), 0);
        let file: String = asked(&Question::RulesFile(text.clone())).unwrap();
        assert!(text.contains("contact-cone") && !file.contains("contact-cone"));
        // What is kept says what pages go by, so that nobody need be asked.
        assert_eq!(Terms::stated(&text), Terms::stated(SHIPPED));
        let edit = Edit::Number("rules.contact-structure.limits.sliding".to_owned(), 0.4);
        let asking = |edit: Edit| asked::<(String, Sheet)>(&Question::Edit(text.clone(), edit));
        let (own, sheet) = asking(edit).unwrap();
        assert_eq!(sheet.differing(), 1);
        let why = asking(Edit::Number("speed_limit".to_owned(), 60.0)).unwrap_err();
        assert!(why.starts_with("site-rules.json, at speed_limit.value: 60 lies outside"), "{why}");
        let changed = vec!["contact-structure".to_owned()];
        let by = Question::RunBy("a.run.json".to_owned(), run(0), changed.clone(), own);
        let shown: RunShown = asked(&by).unwrap();
        assert_eq!(shown.rules.changes["contact-structure"].len(), 1);
        let as_driven = Question::Run("a.run.json".to_owned(), run(0), changed);
        let shown: RunShown = asked(&as_driven).unwrap();
        assert!(shown.rules.changes["contact-structure"].is_empty());
    }

    #[test]
    fn a_pre_test_goes_out_as_a_file_and_comes_in_again() {
        let runs = vec![run(0), run(1)];
        let (name, text): (String, String) =
            asked(&Question::SittingFile(sitting(), runs.clone())).unwrap();
        assert_eq!(name, sitting_file_name(&sitting()));
        let came = Question::CameIn { file: "a.sitting.json".into(), text, id: "s".into() };
        let CameIn::Sitting(back, parts) = asked(&came).unwrap() else { panic!("a pre-test") };
        assert_eq!(back, Taken { imported: true, ..sitting() });
        assert_eq!(parts, runs);
    }

    #[test]
    fn a_pre_test_is_judged_over_its_parts() {
        let shown: SittingShown = asked(&Question::Sitting(sitting(), vec![attempt("a")])).unwrap();
        assert_eq!((shown.ticks, shown.site), (64, None));
        assert!(shown.reasons.iter().any(|r| r.key == "pretest-why-missing"));
        let terms: Terms = asked(&Question::Terms(SHIPPED.to_owned())).unwrap();
        assert_eq!(shown.time_ratio_least, terms.time_ratio_least);
    }

    #[test]
    fn walk_rounds_are_added_up_with_the_names_of_the_list() {
        let walk = WalkResult {
            mode: Mode::Daily,
            counts: Counts { defects: 1, hits: 1, without: 35, ..Counts::default() },
            defects: [("horn/dead".to_owned(), true)].into(),
        };
        let asked_of = |list: &str| asked(&Question::Walks(vec![walk.clone()], list.to_owned()));
        let shown: WalksShown = asked_of(coneyard_core::checks::list::SHIPPED).unwrap();
        assert_eq!((shown.modes[0].walks, shown.modes[0].detection), (1, None));
        assert_eq!((shown.defects[0].found, shown.defects[0].there), (1, 1));
        assert!(shown.defects[0].name.as_ref().is_some_and(|n| n.contains_key("es")));
        let said = asked_of("{}").unwrap_err();
        assert!(said.starts_with(CHECK_LIST), "{said}");
    }

    #[test]
    fn a_word_has_one_form_however_it_is_typed() {
        let word = |typed: &str| asked(&Question::ClassWord(typed.to_owned()));
        assert_eq!(word(" Grey  Heron "), Ok(Some("grey-heron".to_owned())));
        assert_eq!(word("  "), Ok(None));
    }

    #[test]
    fn damage_gets_a_sentence_with_the_files_name() {
        let odd = || "odd.json".to_owned();
        for text in ["", "{}", "[1, 2]", "{\"class_word\": 1}"] {
            let said = asked::<RunShown>(&Question::Run(odd(), text.to_owned(), vec![]));
            assert!(said.clone().unwrap_err().starts_with("odd.json"), "{said:?}");
        }
        let text = "{\"class_word\": 1}".to_owned();
        let came = Question::CameIn { file: odd(), text, id: String::new() };
        assert!(asked::<CameIn>(&came).unwrap_err().starts_with("odd.json"));
        assert!(answer("{").unwrap_err().starts_with("the question"));
    }
}
