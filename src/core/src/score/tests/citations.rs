//! Every paragraph of 29 CFR 1910.178 that the shipped rules cite is about what the rule is
//! about.

use crate::score::rules::SiteRules;

/// How the paragraphs of the rule book were taken over.
const RULE_BOOK: &str = "from the project's rule book; not yet held against a reprint";

/// Paragraph, what it is about (paraphrased), how that was checked, and the rules that may cite
/// it. "Reprint" is a public reprint of the rule with its numbers.
const PARAGRAPHS: &[(&str, &str, &str, &[&str])] = &[
    (
        "(n)(1)",
        "traffic rules and plant speed limits; under control always",
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
        "slow and horn where the view is blocked; a load that blocks it is carried trailing",
        "reprint; the same in WAC 296-307-52041",
        &[
            "forks-first-travel",
            "no-horn-at-blind-spot",
            "horn-at-blind-spot",
            "too-fast-at-blind-spot",
            "load-hides-view",
        ],
    ),
    (
        "(n)(6)",
        "look in the direction of travel and keep a clear view of it",
        RULE_BOOK,
        &["yield-not-slowed", "not-looking", "headroom"],
    ),
    (
        "(n)(7)(i)",
        "on grades of more than 10 percent a loaded truck is driven with the load upgrade",
        RULE_BOOK,
        &["load-not-upgrade"],
    ),
    (
        "(n)(8)",
        "speed at which the truck can be stopped safely under all conditions",
        RULE_BOOK,
        &["outruns-sight"],
    ),
    ("(n)(10)", "slow down on wet and slippery floor", RULE_BOOK, &["wet-not-slowed"]),
    (
        "(n)(11)",
        "dockboards are properly secured and driven over carefully and slowly",
        RULE_BOOK,
        &["unchecked-crossing", "refused-unsafe-dock"],
    ),
    ("(n)(14)", "no running over loose objects", RULE_BOOK, &["loose-object-run-over"]),
    (
        "(o)(1)",
        "only stable or safely arranged loads",
        RULE_BOOK,
        &["load-shifted", "load-spilled"],
    ),
    ("(o)(2)", "only loads within the rated capacity", RULE_BOOK, &["over-capacity"]),
    (
        "(m)(5)(i)",
        "left unattended: load lowered, controls neutral, power off",
        RULE_BOOK,
        &["unattended"],
    ),
    (
        "(n)(7)(iii)",
        "on grades, load raised only as far as clears the surface",
        "number from memory; by analogy, so never cited without common practice",
        &["forks-high-in-travel"],
    ),
    (
        "(n)(15)",
        "turns: reduce to a safe speed",
        "OSHA letter of interpretation, 4 November 2004; for a tiller it is cited for speed only",
        &["corner-speed"],
    ),
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

/// What is borrowed from a paragraph about something else says so.
#[test]
fn an_analogy_is_never_the_only_source() {
    for code in ["forks-first-travel", "forks-high-in-travel"] {
        let citation = &SiteRules::shipped().rules[code].citation;
        assert!(citation.starts_with("common practice, no source; "), "{code}");
    }
}

/// OSHA sets no number for speed, height or distance (letter of 4 November 2004), so no limit of
/// ours may claim one.
#[test]
fn no_number_claims_to_come_from_the_law() {
    let rules = SiteRules::shipped();
    // The one number that the law has: the grade above which a load has to be uphill.
    let by_law = &rules.rules["load-not-upgrade"].limits["grade"];
    assert_eq!((by_law.value, by_law.source.as_str()), (0.1, "29 CFR 1910.178(n)(7)(i)"));
    let of_rules = rules
        .rules
        .values()
        .flat_map(|r| r.limits.values().chain(r.graver.as_ref().map(|g| &g.beyond)))
        .filter(|limit| *limit != by_law);
    for limit in of_rules.chain(rules.terms.values()).chain([&rules.speed_limit]) {
        assert!(OWN.contains(&limit.source.as_str()), "{}", limit.source);
    }
}
