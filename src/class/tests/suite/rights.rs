//! Coming in, and what is refused: guessed codes, forged and replayed cookies, other sites, odd names and bodies.

use std::time::Duration;

use axum::body::Body;
use coneyard_class::records::Role;
use futures_util::stream;
use serde_json::json;

use super::asking::{Asked, request};
use super::stores::{Kept, file, id};

async fn asked() -> (Kept, Asked) {
    let kept = Kept::sqlite().await;
    let asked = Asked::host(kept.store.clone()).await;
    (kept, asked)
}

#[tokio::test]
async fn the_class_says_who_one_is() {
    let (_kept, asked) = asked().await;
    let you = |answer: super::asking::Answer| answer.json();
    assert_eq!(
        you(asked.get("/api/class", "").await),
        json!({ "class": { "name": "Cedar" }, "you": null })
    );
    let rowan = asked.join(&asked.class.code.to_lowercase(), " Rowan ").await;
    let said = you(asked.get("/api/class", &rowan).await);
    assert_eq!((&said["you"]["role"], &said["you"]["name"]), (&json!("trainee"), &json!("Rowan")));
    assert_eq!(said["you"]["person"].as_str().unwrap().len(), 32);
    // The same name in other letters is the same person, on another computer too.
    let again = asked.join(&asked.class.code, "ROWAN").await;
    assert_ne!(again, rowan);
    assert_eq!(you(asked.get("/api/class", &again).await), said);
    let trainer = asked.enter(&asked.passphrase.to_lowercase()).await;
    let said = you(asked.get("/api/class", &trainer).await);
    assert_eq!(said["you"], json!({ "role": "trainer", "name": "", "person": null }));
    let there = asked.enter(&asked.others_passphrase).await;
    assert_eq!(you(asked.get("/api/class", &there).await)["class"]["name"], "Birch");
    assert_eq!(
        you(asked.get("/api/class", &asked.enter(&asked.owner).await).await)["you"]["role"],
        "owner"
    );
    assert_eq!(Role::ALL.len(), 3);
}

#[tokio::test]
async fn who_has_left_stays_out_and_so_does_a_replayed_cookie() {
    let (_kept, asked) = asked().await;
    let rowan = asked.join(&asked.class.code, "Rowan").await;
    assert_eq!(asked.get("/api/runs", &rowan).await.status, 200);
    let left = asked.ask("POST", "/api/leave", &rowan, Body::empty()).await;
    assert_eq!(left.status, 204);
    assert!(left.headers["set-cookie"].to_str().unwrap().contains("Max-Age=0"));
    let answer = asked.get("/api/runs", &rowan).await;
    assert_eq!(answer.status, 401);
    answer.sentence();
    // Forged ones, and the hash that the store holds.
    let token = rowan.split('=').nth(1).unwrap();
    for forged in
        ["", "x", &"f".repeat(64), &token.to_uppercase(), &coneyard_class::secret::of_token(token)]
    {
        assert_eq!(
            asked.get("/api/runs", &format!("coneyard={forged}")).await.status,
            401,
            "{forged}"
        );
    }
}

#[tokio::test]
async fn codes_and_passphrases_cannot_be_guessed_for_long() {
    let (_kept, asked) = asked().await;
    let join = |code: &str| json!({ "code": code, "name": "Rowan" }).to_string();
    let mut refused = 0;
    for guess in 0..100 {
        let answer = asked.ask("POST", "/api/join", "", join(&format!("WRNG{guess:02}"))).await;
        match answer.status {
            403 => refused += 1,
            429 => assert!(answer.headers.contains_key("retry-after")),
            other => panic!("{other}"),
        }
        answer.sentence();
    }
    assert_eq!(refused, 60);
    assert_eq!(asked.ask("POST", "/api/join", "", join(&asked.class.code)).await.status, 429);
    let enter = |secret: &str| {
        json!({ "passphrase": format!("{}-{secret}", asked.class.code) }).to_string()
    };
    let mut statuses = Vec::new();
    for guess in 0..15 {
        let answer =
            asked.ask("POST", "/api/enter", "", enter(&format!("ABCDE-ABCDE-ABC{guess:02}"))).await;
        answer.sentence();
        statuses.push(answer.status);
    }
    assert_eq!(statuses, [[403; 10].as_slice(), &[429; 5]].concat());
    // Another class's trainer is not locked out by that.
    asked.enter(&asked.others_passphrase).await;
}

#[tokio::test]
async fn a_page_of_another_site_may_do_nothing() {
    let (_kept, asked) = asked().await;
    let trainer = asked.enter(&asked.passphrase).await;
    for (site, origin) in
        [("cross-site", "http://other.example"), ("same-site", "http://localhost:9")]
    {
        for (method, path) in
            [("POST", "/api/leave"), ("PUT", "/api/class/file"), ("DELETE", "/api/people/x")]
        {
            let mut foreign = request(method, path, &trainer).body(Body::from("{}")).unwrap();
            foreign.headers_mut().insert("sec-fetch-site", site.parse().unwrap());
            foreign.headers_mut().insert("origin", origin.parse().unwrap());
            let answer = asked.send(foreign).await;
            assert_eq!(answer.status, 403, "{method} {path}");
            assert!(answer.sentence().contains("another site"));
        }
    }
    assert_eq!(asked.get("/api/people", &trainer).await.status, 200);
}

#[tokio::test]
async fn what_is_sent_must_be_what_is_asked_for() {
    let (_kept, asked) = asked().await;
    let rowan = asked.join(&asked.class.code, "Rowan").await;
    let run = file(1, "Rowan", 8);
    let path = format!("/api/runs/{}", id(&run));
    let cases: [(&str, &str, &str, Vec<u8>, u16); 12] = [
        ("PUT", &path, "text/plain", run.clone(), 415),
        ("PUT", &path, "", run.clone(), 415),
        ("PUT", &path, "application/json", b"{}".to_vec(), 422),
        ("PUT", &path, "application/json", vec![b' '; 9 << 20], 413),
        ("PUT", "/api/runs/nothing", "application/json", run.clone(), 422),
        ("PUT", "/api/runs/..%2f..%2fetc%2fpasswd", "application/json", run.clone(), 422),
        ("GET", "/api/runs/%2e%2e%2fclass.db", "application/json", vec![], 422),
        ("POST", "/api/sittings", "application/json", b"{\"truck\":\"lorry\"}".to_vec(), 422),
        ("POST", "/api/sittings", "application/json", b"{\"truck\":".to_vec(), 422),
        ("POST", "/api/join", "application/json", vec![b' '; 20 << 10], 413),
        ("GET", "/api/nothing", "application/json", vec![], 404),
        ("DELETE", "/api/runs", "application/json", vec![], 405),
    ];
    for (method, path, kind, body, status) in cases {
        let mut request = request(method, path, &rowan).body(Body::from(body)).unwrap();
        request.headers_mut().insert("content-type", kind.parse().unwrap());
        let answer = asked.send(request).await;
        assert_eq!(answer.status, status, "{method} {path}: {answer:?}");
        answer.sentence();
        assert_eq!(answer.headers["cache-control"], "no-store", "{method} {path}");
    }
    // Capitals are another name for the same bytes: one form alone is known.
    let upper = path.replace(&id(&run), &id(&run).to_uppercase());
    assert_eq!(asked.ask("PUT", &upper, &rowan, run).await.status, 422);
    assert_eq!(asked.get("/api/runs", &rowan).await.json(), json!([]));
}

#[tokio::test]
async fn names_with_script_in_them_are_names() {
    let (_kept, asked) = asked().await;
    let name = "<script>alert(1)</script> \"'; DROP TABLE runs; --";
    let rowan = asked.join(&asked.class.code, name).await;
    assert_eq!(asked.deliver(&rowan, &file(1, name, 8)).await.status, 201);
    let trainer = asked.enter(&asked.passphrase).await;
    let people = asked.get("/api/people", &trainer).await;
    assert_eq!(people.json()[0]["name"], name);
    assert_eq!(people.headers["content-type"], "application/json");
    assert_eq!(asked.get("/api/runs", &trainer).await.json()[0]["name"], name);
    let body = |name: &str| json!({ "code": asked.class.code, "name": name }).to_string();
    for bad in ["", "  ", &"a".repeat(101), "a\u{0}b", "\u{1b}[2J"] {
        let answer = asked.ask("POST", "/api/join", "", body(bad)).await;
        assert_eq!(answer.status, 422, "{bad:?}");
        answer.sentence();
    }
}

#[tokio::test]
async fn whoever_sends_too_slowly_is_not_waited_for() {
    let kept = Kept::sqlite().await;
    let asked = Asked::patient(kept.store.clone(), Duration::from_millis(500)).await;
    let rowan = asked.join(&asked.class.code, "Rowan").await;
    let run = file(1, "Rowan", 8);
    let slow = stream::unfold(0, |n| async move {
        tokio::time::sleep(Duration::from_millis(50)).await;
        Some((Ok::<_, std::io::Error>(" "), n + 1))
    });
    let path = format!("/api/runs/{}", id(&run));
    let answer = asked.ask("PUT", &path, &rowan, Body::from_stream(slow)).await;
    assert_eq!(answer.status, 408);
    answer.sentence();
    assert_eq!(asked.deliver(&rowan, &run).await.status, 201);
}

#[tokio::test]
async fn the_owner_opens_classes_that_can_be_joined() {
    let (_kept, asked) = asked().await;
    let owner = asked.enter(&asked.owner).await;
    let opened =
        asked.ask("POST", "/api/classes", &owner, json!({ "name": "Larch" }).to_string()).await;
    assert_eq!(opened.status, 201);
    let opened = opened.json();
    asked.enter(opened["passphrase"].as_str().unwrap()).await;
    asked.join(opened["code"].as_str().unwrap(), "Rowan").await;
    let all = asked.get("/api/classes", &owner).await.json();
    assert_eq!(all.as_array().unwrap().len(), 3);
    assert!(all.as_array().unwrap().iter().all(|class| class.get("passphrase").is_none()));
}
