//! Who may call what: the table that the description of the routes gives, tried for everybody on every route.

use coneyard_class::http::openapi::{Access, access, description};
use coneyard_class::records::Role;
use serde_json::json;

use super::asking::Asked;
use super::stores::{Kept, file, id};

/// The table as it is meant, by hand: a route that is not in it fails the test.
const MEANT: [(&str, &str, &str); 31] = [
    ("GET", "/api/attempts", "trainee trainer owner"),
    ("GET", "/api/board", "trainer owner"),
    ("GET", "/api/class", "anybody"),
    ("GET", "/api/class/file", "trainer owner"),
    ("PUT", "/api/class/file", "trainer owner"),
    ("GET", "/api/class/rules", "trainee trainer owner"),
    ("PUT", "/api/class/rules", "trainer owner"),
    ("GET", "/api/classes", "owner"),
    ("POST", "/api/classes", "owner"),
    ("GET", "/api/due", "trainer owner"),
    ("POST", "/api/enter", "anybody"),
    ("GET", "/api/figures", "trainer owner"),
    ("GET", "/api/found/{code}", "trainer owner"),
    ("POST", "/api/join", "anybody"),
    ("POST", "/api/leave", "anybody"),
    ("GET", "/api/live", "trainer owner"),
    ("PUT", "/api/live", "trainee"),
    ("GET", "/api/openapi.json", "anybody"),
    ("GET", "/api/people", "trainer owner"),
    ("DELETE", "/api/people/{person}", "trainer owner"),
    ("GET", "/api/people/{person}/training", "trainer owner"),
    ("PUT", "/api/people/{person}/training", "trainer owner"),
    ("GET", "/api/remarks", "trainee trainer owner"),
    ("GET", "/api/runs", "trainee trainer owner"),
    ("GET", "/api/runs/{run}", "trainee trainer owner"),
    ("PUT", "/api/runs/{run}", "trainee"),
    ("GET", "/api/runs/{run}/attempt", "trainee trainer owner"),
    ("GET", "/api/runs/{run}/remarks", "trainee trainer owner"),
    ("PUT", "/api/runs/{run}/remarks", "trainee trainer owner"),
    ("POST", "/api/sittings", "trainee"),
    ("GET", "/api/trainings", "trainer owner"),
];

fn said(access: &Access) -> String {
    let roles: Vec<&str> = access.roles.iter().map(|role| role.name()).collect();
    if access.anybody { "anybody".to_owned() } else { roles.join(" ") }
}

#[test]
fn every_route_says_who_may_call_it_and_it_is_as_meant() {
    let mut table: Vec<_> =
        access().iter().map(|a| (a.path.clone(), a.method.clone(), said(a))).collect();
    let mut meant: Vec<_> = MEANT
        .iter()
        .map(|(method, path, who)| (path.to_string(), method.to_string(), who.to_string()))
        .collect();
    table.sort();
    meant.sort();
    assert_eq!(table, meant);
}

#[test]
fn the_description_is_openapi_and_names_every_answer() {
    let description = serde_json::to_value(description()).unwrap();
    assert!(description["openapi"].as_str().unwrap().starts_with("3.1"));
    for (path, routes) in description["paths"].as_object().unwrap() {
        for (method, route) in routes.as_object().unwrap() {
            assert!(!route["summary"].as_str().unwrap_or_default().is_empty(), "{method} {path}");
            let answers = route["responses"].as_object().unwrap();
            assert!(answers.keys().any(|status| status.starts_with('2')), "{method} {path}");
            let closed =
                route["security"].as_array().unwrap().iter().all(|one| one["session"].is_array());
            assert_eq!(closed, answers.contains_key("401"), "{method} {path}");
        }
    }
}

/// The schema that the OpenAPI Initiative publishes (`tests/vendor/openapi`), and for what stands under
/// `components/schemas` JSON Schema 2020-12, which is OpenAPI 3.1's own dialect but for a few keys.
#[test]
fn the_description_keeps_to_the_published_schema() {
    let published = include_str!("../../../../tests/vendor/openapi/schema-3.1.json");
    let published = jsonschema::validator_for(&serde_json::from_str(published).unwrap()).unwrap();
    let wrong = |description: &serde_json::Value| -> Vec<String> {
        published.iter_errors(description).map(|e| format!("{}: {e}", e.instance_path())).collect()
    };
    let whole = serde_json::to_value(description()).unwrap();
    assert_eq!(wrong(&whole), Vec::<String>::new());
    for (name, schema) in whole["components"]["schemas"].as_object().unwrap() {
        assert!(jsonschema::draft202012::meta::is_valid(schema), "{name}: {schema}");
    }
    // It would be noticed.
    for spoil in [
        |d: &mut serde_json::Value| _ = d["info"].as_object_mut().unwrap().remove("title"),
        |d: &mut serde_json::Value| d["paths"]["/api/class"]["get"]["responses"] = json!([]),
        |d: &mut serde_json::Value| {
            d["paths"]["/api/runs/{run}"]["put"]["parameters"] = json!([{ "name": "run" }])
        },
        |d: &mut serde_json::Value| d["paths"]["api"] = json!({}),
    ] {
        let mut spoilt = whole.clone();
        spoil(&mut spoilt);
        assert_ne!(wrong(&spoilt), Vec::<String>::new());
    }
}

/// Every reference leads somewhere, and every name between braces of a path is a parameter of it: what a schema alone
/// cannot say.
#[test]
fn what_the_description_refers_to_is_there() {
    fn references<'a>(value: &'a serde_json::Value, into: &mut Vec<&'a str>) {
        match value {
            serde_json::Value::Object(all) => {
                into.extend(all.get("$ref").and_then(|r| r.as_str()));
                all.values().for_each(|value| references(value, into));
            }
            serde_json::Value::Array(all) => all.iter().for_each(|value| references(value, into)),
            _ => {}
        }
    }
    let whole = serde_json::to_value(description()).unwrap();
    let mut all = Vec::new();
    references(&whole, &mut all);
    assert!(!all.is_empty());
    for reference in all {
        let place = reference.strip_prefix('#').unwrap();
        assert!(whole.pointer(place).is_some(), "{reference}");
    }
    for (path, routes) in whole["paths"].as_object().unwrap() {
        let between: Vec<&str> =
            path.split('{').skip(1).filter_map(|rest| rest.split('}').next()).collect();
        for (method, route) in routes.as_object().unwrap() {
            let named: Vec<&str> = route["parameters"]
                .as_array()
                .into_iter()
                .flatten()
                .filter(|parameter| parameter["in"] == "path")
                .filter_map(|parameter| parameter["name"].as_str())
                .collect();
            assert_eq!(named, between, "{method} {path}");
        }
    }
}

/// Everybody who may come, and whether the table lets them.
#[tokio::test]
async fn the_table_is_kept_for_everybody_on_every_route() {
    let kept = Kept::sqlite().await;
    let asked = Asked::host(kept.store.clone()).await;
    let (code, others) = (asked.class.code.clone(), asked.other.code.clone());
    let run = file(1, "Rowan", 8);
    let run_id = id(&run);
    let mut opened = 0;
    for access in access() {
        let path = |person: &str| {
            let path = access.path.replace("{run}", &run_id).replace("{person}", person);
            let path = path.replace("{code}", "contact-cone");
            if path == "/api/figures" { path + "?clean=0.8" } else { path }
        };
        // Whoever leaves or is deleted comes anew for the next route.
        let rowan = asked.join(&code, "Rowan").await;
        asked.deliver(&rowan, &run).await;
        let members = asked.store.people(&asked.class.id).await.unwrap();
        let person = members.iter().find(|m| m.name == "Rowan").unwrap().person.clone();
        let everybody = [
            ("nobody", None, true, String::new()),
            ("forged", None, true, format!("coneyard={}", "0".repeat(64))),
            ("other trainee", Some(Role::Trainee), true, asked.join(&code, "Elm").await),
            ("trainee elsewhere", Some(Role::Trainee), false, asked.join(&others, "Rowan").await),
            (
                "trainer elsewhere",
                Some(Role::Trainer),
                false,
                asked.enter(&asked.others_passphrase).await,
            ),
            ("trainee", Some(Role::Trainee), true, rowan),
            ("owner", Some(Role::Owner), true, asked.enter(&asked.owner).await),
            ("trainer", Some(Role::Trainer), true, asked.enter(&asked.passphrase).await),
        ];
        for (who, role, here, cookie) in everybody {
            let body = body_for(&access);
            let watches = access.path == "/api/live" && access.method == "GET";
            let request = super::asking::request(&access.method, &path(&person), &cookie);
            let request = request.body(body.clone().into()).unwrap();
            // A stream has no end: its head is enough.
            let status = match watches {
                true => asked.open(request).await.status().as_u16(),
                false => asked.send(request).await.status,
            };
            let what =
                format!("{who}: {} {} with {body:.60}: {status}", access.method, access.path);
            let may = access.anybody || role.is_some_and(|role| access.roles.contains(&role));
            match (may, role) {
                (false, None) => assert_eq!(status, 401, "{what}"),
                (false, Some(_)) => assert_eq!(status, 403, "{what}"),
                (true, _) => {
                    assert!(![401, 405].contains(&status) && status < 500, "{what}");
                    let theirs = access.path.contains("{run}") && access.method == "GET"
                        || access.path.contains("{person}");
                    // Of what is not theirs they are told no more than of what is not there.
                    if theirs && (!here || who == "other trainee") {
                        assert_eq!(status, 404, "{what}");
                    }
                    opened += 1;
                }
            }
        }
    }
    assert!(opened > 60, "{opened}");
}

fn body_for(access: &Access) -> String {
    let body = match (access.method.as_str(), access.path.as_str()) {
        ("POST", "/api/join") => json!({ "code": "NOTONE", "name": "Ash" }),
        ("POST", "/api/enter") => json!({ "passphrase": "x" }),
        ("POST", "/api/sittings") => json!({ "truck": "single" }),
        ("POST", "/api/classes") => json!({ "name": "Larch" }),
        ("PUT", "/api/live") => {
            json!({ "course": "bays", "truck": "single", "seconds": 3.5, "step": 1, "findings": 0 })
        }
        ("PUT", "/api/class/rules") => json!({ "rules": null }),
        ("PUT", "/api/runs/{run}/remarks") => json!({ "edition": 0, "is": {} }),
        ("PUT", "/api/people/{person}/training") => {
            json!({ "edition": 0, "is": { "person": "p", "operator": "Rowan" } })
        }
        ("PUT", _) => return "{}".to_owned(),
        _ => return String::new(),
    };
    body.to_string()
}
