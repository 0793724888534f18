//! Rules that are changed on a page: what is written is read again as it was, every bound holds from both sides, and what
//! is refused says where and changes nothing.

use proptest::prelude::*;
use serde_json::json;

use super::reading::{parse, schema};
use crate::finding::Unit;
use crate::rules::{DUTIES, Edit, Number, SiteRules, TERMS};

fn numbers(rules: &SiteRules) -> Vec<Number> {
    let sheet = rules.sheet();
    let of_rules = sheet.rules.into_iter().flat_map(|r| r.numbers);
    sheet.pretest.into_iter().chain(sheet.points).chain(sheet.shared).chain(of_rules).collect()
}

fn edited(rules: &SiteRules, edit: &Edit) -> Result<SiteRules, String> {
    rules.edited("own", edit).map_err(|e| e.to_string())
}

fn set(place: &str, value: f64) -> Edit {
    Edit::Number(place.to_owned(), value)
}

#[test]
fn what_is_as_shipped_is_an_empty_file() {
    let text = SiteRules::shipped().to_text();
    assert_eq!(serde_json::from_str::<serde_json::Value>(&text).unwrap(), json!({ "format": 1 }));
    assert_eq!(SiteRules::shipped().sheet().differing(), 0);
}

/// The page shows every number that there is, each once, with the bounds of the table of duties.
#[test]
fn every_number_is_on_the_sheet_once() {
    let all = numbers(&SiteRules::shipped());
    let limits: usize = DUTIES.iter().map(|d| d.limits.len()).sum();
    let graver = SiteRules::shipped().rules.values().filter(|r| r.graver.is_some()).count();
    // Two marks, three points and the speed limit besides.
    assert_eq!(all.len(), limits + graver + TERMS.len() + 2 + 3 + 1);
    let mut places: Vec<&str> = all.iter().map(|n| n.place.as_str()).collect();
    places.sort_unstable();
    places.dedup();
    assert_eq!(places.len(), all.len());
    for n in &all {
        assert!(!n.differs() && n.least <= n.usual && n.usual <= n.most, "{n:?}");
    }
}

/// Both bounds can be set, and nothing a hair beyond them: what is refused says the place.
#[test]
fn every_bound_holds_from_both_sides() {
    let shipped = SiteRules::shipped();
    for n in numbers(&shipped) {
        for (value, good) in [
            (n.least, true),
            (n.most, true),
            (n.least - 1e-6, false),
            (n.most + 1e-6, false),
            (f64::NAN, false),
            (f64::INFINITY, false),
        ] {
            match edited(&shipped, &set(&n.place, value)) {
                Ok(rules) => {
                    assert!(good, "{} {value}", n.place);
                    let now = numbers(&rules).into_iter().find(|m| m.place == n.place).unwrap();
                    assert_eq!(now.value, Some(value), "{}", n.place);
                    // Points have no source; any other number was set by the site then.
                    let own = if n.source.is_empty() { "" } else { "site rule" };
                    assert_eq!(now.source, own);
                    assert!(schema().is_valid(&serde_json::from_str(&rules.to_text()).unwrap()));
                    let back = edited(&rules, &Edit::Back(n.place.clone())).unwrap();
                    assert_eq!(back, shipped, "{}", n.place);
                }
                Err(why) => {
                    assert!(!good, "{} {value}: {why}", n.place);
                    // Points are refused beside each other.
                    let field = if n.source.is_empty() {
                        "points."
                    } else {
                        n.place.split('.').next_back().unwrap()
                    };
                    assert!(why.starts_with("own, at ") && why.contains(field), "{why}");
                }
            }
        }
    }
}

#[test]
fn a_rule_is_switched_off_and_on_and_says_what_the_site_wants() {
    let shipped = SiteRules::shipped();
    let code = || "contact-cone".to_owned();
    let off = edited(&shipped, &Edit::On(code(), false)).unwrap();
    assert_eq!(off.changed(), ["contact-cone"]);
    assert!(off.sheet().rules[0].differs() && !off.sheet().rules[0].on);
    assert_eq!(edited(&off, &Edit::On(code(), true)).unwrap(), shipped);
    let say = |lang: &str, text: &str| Edit::Say(code(), lang.to_owned(), text.to_owned());
    let said = edited(&shipped, &say("es", "  Regla 7 ")).unwrap();
    assert_eq!(said.note("contact-cone", "es"), Some("Regla 7"));
    let both = edited(&said, &say("en", "Rule 7")).unwrap();
    assert_eq!(both.note("contact-cone", "en"), Some("Rule 7"));
    assert_eq!(edited(&both, &say("en", "")).unwrap(), said);
    assert_eq!(edited(&said, &say("es", " ")).unwrap(), shipped);
    let all = edited(&both, &Edit::On(code(), false)).unwrap();
    assert_eq!(edited(&all, &Edit::RuleBack(code())).unwrap(), shipped);
    // The longest sentence, and one letter more.
    assert!(edited(&shipped, &say("en", &"n".repeat(400))).is_ok());
    let why = edited(&shipped, &say("en", &"n".repeat(401))).unwrap_err();
    assert!(why.starts_with("own, at notes.contact-cone.en: "), "{why}");
}

/// A note that a file has in the rule itself gets its language when another is added.
#[test]
fn a_note_in_a_rule_is_not_lost_when_one_is_added() {
    let mut rules = SiteRules::shipped();
    rules.rules.get_mut("contact-cone").unwrap().note = Some("As on the board.".to_owned());
    let es =
        Edit::Say("contact-cone".to_owned(), "es".to_owned(), "Como en el tablero.".to_owned());
    let both = edited(&rules, &es).unwrap();
    assert_eq!(both.note("contact-cone", "en"), Some("As on the board."));
    assert_eq!(both.note("contact-cone", "es"), Some("Como en el tablero."));
}

#[test]
fn what_made_a_finding_graver_comes_back() {
    let mut never = SiteRules::shipped();
    never.rules.get_mut("over-speed").unwrap().graver = None;
    let row = |rules: &SiteRules| {
        rules.sheet().rules.into_iter().find(|r| r.code == "over-speed").unwrap()
    };
    let graver = |rules: &SiteRules| row(rules).numbers.pop().unwrap();
    assert_eq!((graver(&never).value, graver(&never).differs()), (None, true));
    let again = edited(&never, &set("rules.over-speed.graver", 0.5)).unwrap();
    assert_eq!(graver(&again).value, Some(0.5));
    assert_eq!(
        edited(&again, &Edit::RuleBack("over-speed".to_owned())).unwrap(),
        SiteRules::shipped()
    );
}

#[test]
fn a_place_that_there_is_not_is_refused() {
    let shipped = SiteRules::shipped();
    for place in [
        "",
        "points",
        "points.none",
        "terms.none",
        "rules.none.limits.for",
        "rules.contact-cone.limits.for",
        "rules.contact-cone.graver",
        "rules.left-the-lane",
        "pass.mark",
        "zones",
        "speed_limit.value",
    ] {
        for edit in [set(place, 1.0), Edit::Back(place.to_owned())] {
            let why = edited(&shipped, &edit).unwrap_err();
            assert!(why.starts_with("own: there is no "), "{place}: {why}");
        }
    }
    for edit in [Edit::On("none".into(), true), Edit::RuleBack("none".into())] {
        assert!(edited(&shipped, &edit).unwrap_err().starts_with("own: there is no "));
    }
}

#[test]
fn the_speed_limit_goes_back_with_its_rule() {
    let slow = edited(&SiteRules::shipped(), &set("speed_limit", 2.0)).unwrap();
    assert_eq!(slow.changed(), ["over-speed"]);
    assert_eq!(edited(&slow, &Edit::RuleBack("over-speed".into())).unwrap(), SiteRules::shipped());
}

proptest! {
    /// Whatever is set, in whichever order: what is written is read as it was.
    #[test]
    fn what_is_written_is_read_again(
        steps in prop::collection::vec((0usize..300, 0.0f64..=1.0, 0u8..4), 0..12),
        site in "[a-zñ ]{0,20}",
    ) {
        let mut rules = edited(&SiteRules::shipped(), &Edit::Site(site)).unwrap();
        for (which, share, what) in steps {
            let all = numbers(&rules);
            let n = &all[which % all.len()];
            let code = DUTIES[which % DUTIES.len()].code.to_owned();
            let edit = match what {
                0 => Edit::On(code, share < 0.5),
                1 => Edit::Say(code, "en".into(), format!("Note {share:.3}")),
                2 => Edit::Back(n.place.clone()),
                _ => set(&n.place, n.least + share * (n.most - n.least)),
            };
            rules = edited(&rules, &edit).unwrap();
        }
        let text: serde_json::Value = serde_json::from_str(&rules.to_text()).unwrap();
        prop_assert!(schema().is_valid(&text), "{text}");
        prop_assert_eq!(parse(&text).unwrap(), rules.clone());
        let whole: serde_json::Value = serde_json::from_str(&rules.to_whole_text()).unwrap();
        prop_assert!(schema().is_valid(&whole) && whole["rules"].as_object().unwrap().len() == DUTIES.len());
        prop_assert_eq!(parse(&whole).unwrap(), rules);
    }
}

#[test]
fn zones_and_sources_are_written_as_they_were() {
    let file = json!({
        "format": 1,
        "zones": [{
            "course": "straight",
            "area_m": [[0.1, 0.0], [4.25, 0.0], [4.25, -3.5]],
            "limit": { "value": 1.1, "unit": "m/s", "source": "board 3" },
        }],
        "terms": { "stretch": { "value": 10, "unit": "m", "source": "another source" } },
        "pass": { "total": 85 },
        "notes": { "clean-lap": { "en": "Well done.", "es": "Bien." } },
    });
    let rules = parse(&file).unwrap();
    let again: serde_json::Value = serde_json::from_str(&rules.to_text()).unwrap();
    assert_eq!(parse(&again).unwrap(), rules);
    assert_eq!(rules.sheet().zones, 1);
    assert_eq!(numbers(&rules).iter().filter(|n| n.unit == Unit::Count && n.differs()).count(), 1);
}
