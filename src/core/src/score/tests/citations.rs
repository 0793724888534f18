//! Every paragraph of 29 CFR 1910.178 that the shipped rules cite is about what the rule is
//! about.

use crate::score::rules::SiteRules;

/// Paragraph, what it is about (paraphrased), how that was checked, and the rules that may cite
/// it. "Reprint" is a public reprint of the rule with its numbers.
const PARAGRAPHS: &[(&str, &str, &str, &[&str])] = &[
    (
        "(n)(1)",
        "traffic rules and plant speed limits; under control always",
        "reprint",
        &["contact-structure", "over-speed", "tipped-over"],
    ),
    (
        "(n)(4)",
        "a load that blocks the view is carried trailing",
        "reprint; the same in WAC 296-307-52041",
        &["forks-first-travel"],
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
    let of_rules = rules
        .rules
        .values()
        .flat_map(|r| r.limits.values().chain(r.graver.as_ref().map(|g| &g.above)));
    for limit in of_rules.chain(rules.terms.values()).chain([&rules.speed_limit]) {
        assert!(OWN.contains(&limit.source.as_str()), "{}", limit.source);
    }
}
