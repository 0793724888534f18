//! The house rules that a machine can check: who may depend on whom, and what core and the
//! simulation may not so much as name.

use std::path::PathBuf;
use std::process::Command;

use coneyard_tests::yards::repo_file;

/// The packages that a crate of the workspace depends on, by `cargo tree`, without its tests'.
fn dependencies(package: &str, target: &str) -> Vec<String> {
    let out = Command::new(env!("CARGO"))
        .args(["tree", "--edges", "normal", "--prefix", "none", "--format", "{p}"])
        .args(["--package", package, "--target", target, "--offline"])
        .current_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/.."))
        .output()
        .expect("cargo runs");
    assert!(out.status.success(), "{}", String::from_utf8_lossy(&out.stderr));
    String::from_utf8_lossy(&out.stdout)
        .lines()
        .filter_map(|line| line.split_whitespace().next())
        .map(str::to_owned)
        .collect()
}

fn no_one_of(package: &str, target: &str, forbidden: &[&str]) {
    let found = dependencies(package, target);
    assert!(found.iter().any(|d| d == package), "cargo tree listed {package} itself");
    for name in found {
        assert!(
            !forbidden.iter().any(|f| name == *f || name.starts_with(&format!("{f}_"))),
            "{package} depends on {name}"
        );
    }
}

const HERE: &str = "x86_64-unknown-linux-gnu";
const WEB: &str = "wasm32-unknown-unknown";

#[test]
fn core_knows_no_engine_no_web_and_no_runtime() {
    no_one_of("coneyard-core", HERE, &["bevy", "rapier2d", "web-sys", "wasm-bindgen", "tokio"]);
}

#[test]
fn the_pages_know_no_engine() {
    no_one_of("coneyard-shell", WEB, &["bevy", "rapier2d", "coneyard-sim", "coneyard-canvas"]);
}

#[test]
fn the_reader_knows_no_engine_and_no_pages() {
    no_one_of("coneyard-reader", WEB, &["bevy", "rapier2d", "coneyard-sim", "leptos", "web-sys"]);
}

#[test]
fn the_simulation_has_no_renderer() {
    no_one_of("coneyard-sim", HERE, &["bevy_render", "bevy_window", "bevy_winit", "wgpu"]);
}

/// What a site runs links no generator of bindings and nothing else that only the workshop needs.
#[test]
fn the_server_has_no_workshop_in_it() {
    let workshop =
        ["coneyard-workshop", "wasm-bindgen-cli-support", "walrus", "brotli", "indicatif"];
    no_one_of("coneyard", HERE, &workshop);
    // The check can fail: all of them are what the workshop is made of.
    let found = dependencies("coneyard-workshop", HERE);
    for name in workshop {
        assert!(found.iter().any(|d| d == name), "the workshop depends on {name}");
    }
}

/// Names of a clock, of files and the like, of maps without an order, and of randomness that
/// nobody handed in.
const FORBIDDEN: [&str; 16] = [
    "Instant",
    "SystemTime",
    "Duration",
    "Stopwatch",
    "HashMap",
    "HashSet",
    "RandomState",
    "DefaultHasher",
    "std::time",
    "std::fs",
    "std::env",
    "std::net",
    "std::process",
    "std::thread",
    "thread_rng",
    "from_os_rng",
];

/// Lines of a source file outside tests, without comments, with their numbers from 1.
fn code(text: &str) -> Vec<(usize, &str)> {
    let mut lines = Vec::new();
    let mut in_test: Option<usize> = None;
    for (i, line) in text.lines().enumerate() {
        let indent = line.len() - line.trim_start().len();
        let line = line.split("//").next().unwrap_or("").trim();
        match in_test {
            // An item ends with its first line or with a bracket below where it began.
            Some(begun) if indent == begun && (line.ends_with(';') || line.starts_with('}')) => {
                in_test = None;
            }
            Some(_) => {}
            None if line == "#[cfg(test)]" => in_test = Some(indent),
            None if !line.is_empty() => lines.push((i + 1, line)),
            None => {}
        }
    }
    lines
}

/// What a source file names that it must not, with the number of the line.
fn named<'a>(text: &str, forbidden: &[&'a str]) -> Vec<(usize, &'a str)> {
    let part = |c: char| c.is_alphanumeric() || c == '_';
    let holds = |line: &str, word: &str| {
        line.match_indices(word).any(|(at, _)| {
            !line[..at].ends_with(part) && !line[at + word.len()..].starts_with(part)
        })
    };
    let words = |(n, line): (usize, &str)| {
        forbidden.iter().filter(|w| holds(line, w)).map(|w| (n, *w)).collect::<Vec<_>>()
    };
    code(text).into_iter().flat_map(words).collect()
}

/// Source files of a crate, without those that hold nothing but tests.
fn sources(of: &str) -> Vec<(PathBuf, String)> {
    let mut folders = vec![repo_file(of)];
    let mut files = Vec::new();
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(&folder).expect("a folder of the repository") {
            let path = entry.expect("an entry").path();
            let name = path.file_name().and_then(|n| n.to_str()).unwrap_or("");
            if matches!(name, "tests" | "tests.rs" | "test_support.rs" | "text_keys.rs") {
                continue;
            }
            if path.is_dir() {
                folders.push(path);
            } else if name.ends_with(".rs") {
                let text = std::fs::read_to_string(&path).expect("text");
                files.push((path, text));
            }
        }
    }
    files.sort();
    files
}

fn names_none(of: &str, forbidden: &[&str]) {
    let files = sources(of);
    let found: Vec<String> = files
        .iter()
        .flat_map(|(path, text)| {
            named(text, forbidden)
                .into_iter()
                .map(move |(line, word)| format!("{}:{line}: {word}", path.display()))
        })
        .collect();
    assert!(files.len() > 4, "{of} has sources");
    assert!(found.is_empty(), "{found:#?}");
}

/// What is found is found, and what stands in a comment, in a test or in a longer name is not.
#[test]
fn the_check_of_sources_can_fail() {
    for word in FORBIDDEN {
        let text = format!("fn a() {{\n    let x = {word}::new();\n}}\n");
        assert_eq!(named(&text, &FORBIDDEN), [(2, word)], "{word}");
        let others = [
            format!("// {word}\n/// {word}\nfn a() {{}} // {word}\n"),
            format!("fn a{word}s() {{}}\n"),
            format!("#[cfg(test)]\nmod tests {{\n    fn a() {{\n        {word}\n    }}\n}}\n"),
            format!("#[cfg(test)]\nuse {word};\n"),
        ];
        for text in others {
            assert_eq!(named(&text, &FORBIDDEN), [], "{text}");
        }
        let after = format!("#[cfg(test)]\nmod tests {{\n}}\nuse {word};\n");
        assert_eq!(named(&after, &FORBIDDEN), [(4, word)], "{after}");
    }
}

#[test]
fn core_has_no_clock_no_files_no_chance_of_its_own_and_no_map_without_an_order() {
    names_none("src/core/src", &FORBIDDEN);
}

#[test]
fn the_simulation_has_none_of_them_either() {
    names_none("src/sim/src", &FORBIDDEN);
}

/// What a sound room could only know from elsewhere than from Frames.
const NOT_HEARD: [&str; 9] =
    ["Moment", "Session", "Controls", "Live", "Playback", "Course", "Run", "desk", "moment"];

#[test]
fn sound_hears_frames_and_nothing_else() {
    names_none("src/canvas/src/sound", &NOT_HEARD);
}

/// What the oracle is held against, and what that stands on: it shares none of their errors.
const NOT_IN_ORACLE: [&str; 6] = [
    "coneyard_core::watch",
    "coneyard_core::score",
    "coneyard_core::geometry",
    "coneyard_core::people::encounter",
    "coneyard_core::yard::touch",
    "contacts",
];

#[test]
fn the_oracle_knows_nothing_of_the_watchers() {
    names_none("tests/oracle/src", &NOT_IN_ORACLE);
}

/// The rooms of core, ground floor first: each knows itself and those before it, and no other.
const ROOMS: [&str; 32] = [
    "time", "math", "geometry", "outside", "state", "controls", "acts", "floor", "finding",
    "debrief", "dice", "truck", "load", "sight", "people", "checks", "run", "course", "moment",
    "rules", "yard", "task", "watch", "score", "drive", "rider", "pretest", "lesson", "class",
    "words", "desk", "reading",
];

/// What a file of this room names of the rooms above it. Rooms are named one in a `use`.
fn looks_up(room: &str, text: &str) -> Vec<String> {
    let at = ROOMS.iter().position(|r| *r == room);
    let above = at.map_or(&ROOMS[..], |at| &ROOMS[at + 1..]);
    let words: Vec<String> = above.iter().map(|r| format!("crate::{r}")).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let several = code(text).into_iter().filter(|(_, line)| line.contains("crate::{"));
    let several = several.map(|(line, _)| (line, "crate::{"));
    let named = named(text, &words).into_iter().chain(several);
    named.map(|(line, word)| format!("{line}: {word}")).collect()
}

#[test]
fn each_room_of_core_knows_only_those_below_it() {
    let (mut found, mut rooms) = (Vec::new(), std::collections::BTreeSet::new());
    for (path, text) in sources("src/core/src") {
        let below = path.strip_prefix(repo_file("src/core/src")).expect("a file of core");
        let room = below.iter().next().and_then(|r| r.to_str()).expect("a room");
        let room = room.trim_end_matches(".rs").to_owned();
        if room != "lib" {
            let up = looks_up(&room, &text);
            found.extend(up.into_iter().map(|what| format!("{}:{what}", below.display())));
            rooms.insert(room);
        }
    }
    assert!(found.is_empty(), "{found:#?}");
    assert!(rooms.iter().map(String::as_str).eq(std::collections::BTreeSet::from(ROOMS)));
}

#[test]
fn a_room_that_looks_up_is_found() {
    assert_eq!(looks_up("truck", "use crate::load::stack::Stack;\n"), ["1: crate::load"]);
    assert_eq!(looks_up("truck", "use crate::math::Vec2; // crate::load\n"), [""; 0]);
    assert_eq!(looks_up("truck", "use crate::{load, math};\n"), ["1: crate::{"]);
    assert_eq!(looks_up("load", "use crate::truck::spec::TruckSpec;\n"), [""; 0]);
}

/// What reads runs, rules and courses whole, and Fluent's files: the pages leave it to the reader and
/// to whoever builds the site. `browser_modules.rs` looks into the modules themselves.
const NOT_IN_PAGES: [&str; 10] = [
    "SiteRules",
    "SHIPPED",
    "DUTIES",
    "Header",
    "class::whole",
    "run::Run",
    "run::coding",
    "run::papers",
    "fluent_syntax",
    "Words::new",
];

#[test]
fn the_pages_read_no_whole_files() {
    names_none("src/shell/src", &NOT_IN_PAGES);
}

/// Each of these names something that there is: elsewhere it is used.
#[test]
fn what_pages_may_not_name_is_named_elsewhere() {
    let elsewhere =
        ["src/core/src", "src/sim/src", "src/canvas/src", "src/reader/src", "src/host/src"];
    let elsewhere: Vec<_> = elsewhere.into_iter().flat_map(sources).collect();
    for word in NOT_IN_PAGES {
        let found = elsewhere.iter().any(|(_, text)| !named(text, &[word]).is_empty());
        assert!(found, "nothing is called {word} any more: say what it is called now");
    }
}
