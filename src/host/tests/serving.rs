//! The server as a browser sees it: types, compressed copies, what may be kept, what is refused.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

mod common;

use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::{TcpListener, TcpStream};
use std::path::Path;
use std::process::{Child, Stdio};

use common::{coneyard, run, said};
use tempfile::TempDir;

struct Server(Child, String);

impl Drop for Server {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

fn serve(dist: &Path) -> Server {
    let mut child = coneyard()
        .args(["serve", "--port", "0", "--dist", dist.to_str().unwrap()])
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut line = String::new();
    BufReader::new(child.stdout.take().unwrap()).read_line(&mut line).unwrap();
    let address = line.split("http://").nth(1).unwrap().split_whitespace().next().unwrap();
    Server(child, address.replace("localhost", "127.0.0.1"))
}

/// Status, headers in lower case, and body.
fn get(server: &Server, path: &str, accept: &str) -> (u16, String, Vec<u8>) {
    let mut stream = TcpStream::connect(&server.1).unwrap();
    let asked = format!(
        "GET {path} HTTP/1.1\r\nHost: localhost\r\nAccept-Encoding: {accept}\r\nConnection: close\r\n\r\n"
    );
    stream.write_all(asked.as_bytes()).unwrap();
    let mut answer = Vec::new();
    stream.read_to_end(&mut answer).unwrap();
    let end = answer.windows(4).position(|four| four == b"\r\n\r\n").unwrap();
    let head = String::from_utf8_lossy(&answer[..end]).to_lowercase();
    let status = head.split(' ').nth(1).unwrap().parse().unwrap();
    (status, head, answer[end + 4..].to_vec())
}

fn site() -> TempDir {
    let dist = TempDir::new().unwrap();
    fs::create_dir(dist.path().join("levels")).unwrap();
    for (name, content) in [
        ("index.html", "the page"),
        ("yard_bg-0123456789ab.wasm", "plain module"),
        ("yard_bg-0123456789ab.wasm.br", "brotli module"),
        ("yard_bg-0123456789ab.wasm.gz", "gzip module"),
        ("glue-0123456789ab.js", "the glue"),
        ("levels/straight.json", "{}"),
    ] {
        fs::write(dist.path().join(name), content).unwrap();
    }
    dist
}

#[test]
fn files_have_their_types_and_their_time_to_live() {
    let dist = site();
    let server = serve(dist.path());
    let cases = [
        ("/", "text/html", "no-cache"),
        ("/index.html", "text/html", "no-cache"),
        ("/levels/straight.json", "application/json", "no-cache"),
        ("/yard_bg-0123456789ab.wasm", "application/wasm", "immutable"),
        ("/glue-0123456789ab.js", "text/javascript", "immutable"),
    ];
    for (path, kind, caching) in cases {
        let (status, head, _) = get(&server, path, "identity");
        assert_eq!(status, 200, "{path}");
        assert!(head.contains(&format!("content-type: {kind}")), "{path}: {head}");
        assert!(head.contains("nosniff"), "{path}: {head}");
        let line = head.lines().find(|line| line.starts_with("cache-control")).unwrap();
        assert!(line.contains(caching), "{path}: {line}");
    }
}

#[test]
fn the_smallest_copy_that_the_browser_takes_is_sent() {
    let dist = site();
    let server = serve(dist.path());
    let path = "/yard_bg-0123456789ab.wasm";
    for (accept, body) in [
        ("gzip, deflate, br", "brotli module"),
        ("gzip", "gzip module"),
        ("identity", "plain module"),
    ] {
        let (_, head, got) = get(&server, path, accept);
        assert!(String::from_utf8_lossy(&got).contains(body), "{accept}: {head}");
        assert!(head.contains("content-type: application/wasm"), "{accept}: {head}");
    }
}

#[test]
fn what_is_not_there_is_not_kept_and_nothing_outside_is_handed_out() {
    let dist = site();
    let outside = dist.path().with_extension("secret");
    fs::write(&outside, "secret").unwrap();
    let server = serve(dist.path());
    let name = outside.file_name().unwrap().to_str().unwrap().to_owned();
    for path in [
        "/gone-0123456789ab.js".to_owned(),
        format!("/../{name}"),
        format!("/%2e%2e/{name}"),
        format!("/levels/..%2f..%2f{name}"),
    ] {
        let (status, head, body) = get(&server, &path, "identity");
        assert!(status >= 400, "{path}: {head}");
        assert!(!head.contains("immutable"), "{path}: {head}");
        assert!(!String::from_utf8_lossy(&body).contains("secret"), "{path}");
    }
    fs::remove_file(outside).unwrap();
}

#[test]
fn a_taken_port_and_a_missing_site_are_said_in_a_sentence() {
    let dist = site();
    let taken = TcpListener::bind("127.0.0.1:0").unwrap();
    let port = taken.local_addr().unwrap().port().to_string();
    let output = run(&["serve", "--port", &port, "--dist", dist.path().to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(1));
    assert!(said(&output).contains(&format!("port {port} is taken")), "{}", said(&output));

    let empty = TempDir::new().unwrap();
    let output = run(&["serve", "--port", "0", "--dist", empty.path().to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(1));
    assert!(said(&output).contains("run `coneyard-workshop build`"), "{}", said(&output));
    assert_eq!(said(&output).lines().count(), 1);
}
