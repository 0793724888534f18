//! Every paragraph of 29 CFR 1910.178 that the shipped rules cite is about what the rule is
//! about.

use crate::rules::{DUTIES, TERMS};
use crate::rules::{Limit, SiteRules};
use crate::words::{LANGUAGES, Words};

/// Paragraph, what it is about (paraphrased), where that was read, and the rules that may cite it.
/// "Reprint" is a public reprint of the rule with its numbers; the Washington code has the same
/// duties in words of its own under numbers of its own, so it shows the subject and not the number.
/// The numbers of (n)(6), (n)(10), (n)(11), (n)(14), (o)(1), (o)(2) and (n)(7)(iii) have not been
/// seen in a reprint.
const PARAGRAPHS: &[(&str, &str, &str, &[&str])] = &[
    (
        "(n)(1)",
        "traffic rules and plant speed limits; about three truck lengths behind a truck ahead; under control always",
        "reprint",
        &[
            "contact-structure",
            "over-speed",
            "tipped-over",
            "person-struck",
            "stop-line-run",
            "full-stop",
            "yield-not-slowed",
            "too-close-behind",
            "meeting-not-stopped",
            "body-gap-closing",
        ],
    ),
    (
        "(n)(4)",
        "slow down and sound the horn at cross aisles and where the view is blocked; a load that blocks it is carried trailing",
        "reprint; WAC 296-307-52041(2)",
        &[
            "forks-first-travel",
            "no-horn-at-blind-spot",
            "horn-at-blind-spot",
            "too-fast-at-blind-spot",
            "load-hides-view",
            "not-looked-before-entry",
        ],
    ),
    (
        "(n)(6)",
        "look in the direction of travel and keep a clear view of the path",
        "WAC 296-307-52039(5)",
        &["yield-not-slowed", "not-looking", "headroom", "not-looked-before-entry"],
    ),
    (
        "(n)(7)(i)",
        "on grades of more than 10 percent a loaded truck is driven with the load upgrade",
        "OSHA memorandum, 12 November 1976; WAC 296-307-52041(3)(a)",
        &["load-not-upgrade"],
    ),
    (
        "(n)(8)",
        "under all conditions a speed at which the truck can be stopped safely",
        "OSHA letter, 4 November 2004; WAC 296-307-52041(4)",
        &["outruns-sight"],
    ),
    (
        "(n)(3)",
        "no passing of trucks that go the same way at intersections, blind spots and the like",
        "from memory, not held against a reprint",
        &["passed-truck-hidden"],
    ),
    (
        "(n)(7)",
        "grades are gone up and down slowly",
        "from memory, not held against a reprint",
        &["grade-too-fast"],
    ),
    (
        "(m)(5)(iii)",
        "off the truck within 25 feet: load lowered, controls neutral, brakes set",
        "from memory, not held against a reprint",
        &["left-unsecured"],
    ),
    (
        "(m)(14)",
        "fire aisles, stairs and equipment stay clear; by analogy for places that cannot be seen",
        "from memory, not held against a reprint",
        &["left-unsecured"],
    ),
    (
        "(n)(10)",
        "slow down for wet and slippery floors",
        "WAC 296-307-52041(5)",
        &["wet-not-slowed"],
    ),
    (
        "(n)(11)",
        "dockboards are secured and driven over carefully and slowly, never above what they bear",
        "WAC 296-307-52025(2) and (4)",
        &["unchecked-crossing", "refused-unsafe-dock"],
    ),
    (
        "(n)(14)",
        "no running over loose objects",
        "WAC 296-307-52039(9)",
        &["loose-object-run-over"],
    ),
    (
        "(o)(1)",
        "only stable or safely arranged loads",
        "WAC 296-307-52043(1)",
        &["load-shifted", "load-spilled"],
    ),
    (
        "(q)(7)",
        "trucks are examined before they are placed in service, at least daily; what is found is reported at once",
        "from memory, not held against a reprint",
        &["defect-missed", "not-checked", "defect-found"],
    ),
    (
        "(p)(1)",
        "a truck that is found in need of repair or in any way unsafe is taken out of service",
        "from memory, not held against a reprint",
        &["bad-truck-taken", "bad-truck-refused"],
    ),
    ("(o)(2)", "only loads within the rated capacity", "WAC 296-307-52043(2)", &["over-capacity"]),
    (
        "(m)(5)(i)",
        "left unattended: load lowered, controls neutral, power off, brakes set",
        "reprint; WAC 296-307-52031(5)",
        &["unattended"],
    ),
    (
        "(m)(5)(ii)",
        "unattended is 25 feet (7.6 m) or more away though in view, or out of the operator's view",
        "found by searching, not held against a reprint",
        &["unattended"],
    ),
    (
        "(n)(7)(iii)",
        "on grades the load is raised only as far as clears the surface",
        "WAC 296-307-52041(3)(c); by analogy, so never cited without common practice",
        &["forks-high-in-travel"],
    ),
    (
        "(n)(15)",
        "in turns a safe speed, and the wheel turned smoothly",
        "OSHA letter, 4 November 2004; for a tiller it is cited for speed only",
        &["corner-speed"],
    ),
];

/// Where the rule book of the project cites more than is cited here, and why not.
const NOT_CITED: &[(&str, &str, &str)] = &[
    ("stepped-off-rolling", "(m)(5)", "is about trucks left unattended, not about stepping off"),
    ("parked-in-the-way", "(m)", "has nothing about where a truck is parked in a warehouse"),
    ("person-near-miss", "FHWA SSAM", "its thresholds were not seen in the report itself"),
];

/// Words of a paragraph's subject of which the English texts of a rule that cites it have one.
const SUBJECTS: &[(&str, &[&str])] = &[
    ("(n)(1)", &["limit", "control", "truck length", "speed", "stop", "room", "on foot", "tip"]),
    ("(n)(4)", &["horn", "hidden", "see", "view"]),
    ("(n)(6)", &["look", "see", "beam"]),
    ("(n)(3)", &["passed"]),
    ("(n)(7)", &["slope"]),
    ("(m)(5)(iii)", &["neutral"]),
    ("(m)(14)", &["corners", "exits"]),
    ("(n)(7)(i)", &["uphill", "grade"]),
    ("(n)(8)", &["stop"]),
    ("(n)(10)", &["wet"]),
    ("(q)(7)", &["list", "walk-round", "reported", "report"]),
    ("(p)(1)", &["must not run"]),
    ("(n)(11)", &["plate", "dock"]),
    ("(n)(14)", &["loose", "ran over", "lying", "fallen"]),
    ("(o)(1)", &["load", "case"]),
    ("(o)(2)", &["plate", "capacity"]),
    ("(m)(5)(i)", &["key off", "neutral"]),
    ("(m)(5)(ii)", &["out of sight"]),
    ("(n)(7)(iii)", &["low"]),
    ("(n)(15)", &["turn"]),
];

const OWN: [&str; 3] = ["common practice, no source", "course task", "site rule"];

#[test]
fn what_is_cited_is_about_the_rule() {
    let mut cited = 0;
    for (code, rule) in &SiteRules::shipped().rules {
        for part in rule.citation.split("; ") {
            let Some(paragraph) = part.strip_prefix("29 CFR 1910.178") else {
                assert!(OWN.contains(&part), "{code} cites {part}");
                continue;
            };
            let row = PARAGRAPHS.iter().find(|(p, ..)| *p == paragraph);
            let (.., codes) = row.unwrap_or_else(|| panic!("{code} cites unknown {paragraph}"));
            assert!(codes.contains(&code.as_str()), "{code} has nothing to do with {paragraph}");
            cited += 1;
        }
    }
    assert_eq!(cited, PARAGRAPHS.iter().map(|p| p.3.len()).sum::<usize>());
}

/// Each rule says in its own texts what the paragraph is about.
#[test]
fn a_rule_is_about_what_its_paragraph_is_about() {
    let words = Words::new("en");
    for (paragraph, subject, read_in, codes) in PARAGRAPHS {
        assert!(!subject.is_empty() && !read_in.is_empty(), "{paragraph}");
        let row = SUBJECTS.iter().find(|(p, _)| p == paragraph);
        let (_, about) = row.unwrap_or_else(|| panic!("{paragraph} has no subject words"));
        for code in *codes {
            let parts =
                ["", "-what", "-why", "-instead"].map(|p| words.say(&format!("{code}{p}"), &[]));
            let text = parts.join(" ").to_lowercase();
            assert!(about.iter().any(|w| text.contains(w)), "{code} says nothing of {about:?}");
        }
    }
    for (code, what, why) in NOT_CITED {
        let citation = &SiteRules::shipped().rules[*code].citation;
        assert!(!citation.contains(what), "{code} cites {what}, which {why}");
    }
}

/// A duty is whole: a skill and a citation, every number with its unit and its source, and four
/// texts in every language.
#[test]
fn every_duty_has_its_numbers_its_texts_and_its_citation() {
    let rules = SiteRules::shipped();
    let whole = |place: &str, limit: &Limit, unit| {
        assert_eq!(limit.unit, unit, "{place}");
        assert!(!limit.source.trim().is_empty(), "{place} has no source");
    };
    for d in DUTIES {
        let rule = &rules.rules[d.code];
        assert!(rule.on && !rule.citation.trim().is_empty(), "{}", d.code);
        assert_eq!(rule.limits.len(), d.limits.len(), "{}", d.code);
        for need in d.limits {
            whole(&format!("{} {}", d.code, need.name), &rule.limits[need.name], need.unit);
        }
        assert_eq!(rule.graver.is_some(), d.graver.is_some(), "{}", d.code);
        if let (Some(graver), Some(need)) = (&rule.graver, &d.graver) {
            whole(&format!("{} graver", d.code), &graver.beyond, need.unit);
        }
        for lang in LANGUAGES {
            let words = Words::new(lang);
            for part in ["", "-what", "-why", "-instead"] {
                let text = words.say(&format!("{}{part}", d.code), &[]);
                assert!(text.chars().count() > 3 && !text.starts_with('['), "{lang} {text}");
            }
        }
    }
    for need in TERMS {
        whole(need.name, &rules.terms[need.name], need.unit);
    }
}

/// What is borrowed from a paragraph about something else says so.
#[test]
fn an_analogy_is_never_the_only_source() {
    for code in ["forks-first-travel", "forks-high-in-travel"] {
        let citation = &SiteRules::shipped().rules[code].citation;
        assert!(citation.starts_with("common practice, no source; "), "{code}");
    }
}

/// OSHA sets no number for the speed and height of a truck that is driven, nor for its distance from
/// others (letter of 4 November 2004), so no limit of ours may claim one.
#[test]
fn no_number_claims_to_come_from_the_law() {
    let rules = SiteRules::shipped();
    // The numbers that the law has: the grade above which a load has to be uphill, and how far from a
    // truck it is unattended.
    let by_law = [("load-not-upgrade", "grade"), ("unattended", "away")];
    let by_law = by_law.map(|(code, limit)| &rules.rules[code].limits[limit]);
    let says = by_law.map(|l| (l.value, l.source.as_str()));
    assert_eq!(says, [(0.1, "29 CFR 1910.178(n)(7)(i)"), (7.6, "29 CFR 1910.178(m)(5)(ii)")]);
    let of_rules = rules
        .rules
        .values()
        .flat_map(|r| r.limits.values().chain(r.graver.as_ref().map(|g| &g.beyond)))
        .filter(|limit| !by_law.contains(limit));
    for limit in of_rules.chain(rules.terms.values()).chain([
        &rules.speed_limit,
        &rules.pass.skill,
        &rules.pass.total,
    ]) {
        assert!(OWN.contains(&limit.source.as_str()), "{}", limit.source);
    }
}
