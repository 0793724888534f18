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
    let (server, _) = serve_with(dist, &[]);
    server
}

/// The same with these options; all that it prints before it answers.
fn serve_with(dist: &Path, options: &[&str]) -> (Server, String) {
    let mut child = coneyard()
        .args(["serve", "--port", "0", "--dist", dist.to_str().unwrap()])
        .args(options)
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    let mut output = BufReader::new(child.stdout.take().unwrap());
    let mut said = String::new();
    output.read_line(&mut said).unwrap();
    let address = addresses(&said)[0].replace("localhost", "127.0.0.1");
    if options.contains(&"0.0.0.0") {
        // Read on until it has been answered once: all that is said is said before.
        let server = Server(child, address);
        get(&server, "/", "identity");
        let mut more = vec![0; 4096];
        let read = output.read(&mut more).unwrap_or(0);
        said.push_str(&String::from_utf8_lossy(&more[..read]));
        return (server, said);
    }
    (Server(child, address), said)
}

/// The addresses in what was said, without `http://`.
fn addresses(said: &str) -> Vec<String> {
    let after = said.split("http://").skip(1).filter_map(|rest| rest.split_whitespace().next());
    after.map(|address| address.trim_end_matches('.').to_owned()).collect()
}

/// Status, headers in lower case, and body.
fn get(server: &Server, path: &str, accept: &str) -> (u16, String, Vec<u8>) {
    ask(
        server,
        &format!(
            "GET {path} HTTP/1.1\r\nHost: localhost\r\nAccept-Encoding: {accept}\r\nConnection: close\r\n\r\n"
        ),
    )
}

/// The same for a request as it is written.
fn ask(server: &Server, asked: &str) -> (u16, String, Vec<u8>) {
    let mut stream = TcpStream::connect(&server.1).unwrap();
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
    fs::create_dir(dist.path().join("assets")).unwrap();
    for (name, content) in [
        ("index.html", "the page"),
        ("yard_bg-0123456789ab.wasm", "plain module"),
        ("yard_bg-0123456789ab.wasm.br", "brotli module"),
        ("yard_bg-0123456789ab.wasm.gz", "gzip module"),
        ("glue-0123456789ab.js", "the glue"),
        ("assets/straight.json", "{}"),
        ("service-worker.js", "the worker"),
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
        ("/assets/straight.json", "application/json", "no-cache"),
        ("/service-worker.js", "text/javascript", "no-cache"),
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
        format!("/assets/..%2f..%2f{name}"),
    ] {
        let (status, head, body) = get(&server, &path, "identity");
        assert!(status >= 400, "{path}: {head}");
        assert!(!head.contains("immutable"), "{path}: {head}");
        assert!(!String::from_utf8_lossy(&body).contains("secret"), "{path}");
    }
    fs::remove_file(outside).unwrap();
}

/// Everything comes from the site itself, nothing written into a page runs, and nobody frames it.
#[test]
fn every_answer_says_what_a_page_may_do() {
    let dist = site();
    let server = serve(dist.path());
    for path in ["/", "/glue-0123456789ab.js", "/service-worker.js", "/gone.js"] {
        let (_, head, _) = get(&server, path, "identity");
        let policy = head.lines().find(|l| l.starts_with("content-security-policy: ")).unwrap();
        let allowed = |what: &str| {
            let mut parts = policy.split(": ").nth(1).unwrap().split("; ");
            parts.find_map(|part| part.strip_prefix(&format!("{what} "))).unwrap().to_owned()
        };
        assert_eq!(allowed("default-src"), "'none'", "{path}");
        assert_eq!(allowed("script-src"), "'self' 'wasm-unsafe-eval'", "{path}");
        assert_eq!(allowed("style-src"), "'self'", "{path}");
        assert_eq!(allowed("frame-ancestors"), "'none'", "{path}");
        assert_eq!(allowed("base-uri"), "'none'", "{path}");
        assert!(!policy.contains("unsafe-inline") && !policy.contains('*'), "{policy}");
        for line in [
            "x-content-type-options: nosniff",
            "x-frame-options: deny",
            "referrer-policy: no-referrer",
            "cross-origin-opener-policy: same-origin",
        ] {
            assert!(head.lines().any(|l| l == line), "{path}: {line} in {head}");
        }
        let unused = head.lines().find(|l| l.starts_with("permissions-policy: ")).unwrap();
        assert!(unused.contains("camera=()") && !unused.contains("gamepad"), "{unused}");
    }
}

#[test]
fn a_name_that_the_yard_does_not_go_by_is_refused_in_a_sentence() {
    let dist = site();
    let (server, _) = serve_with(dist.path(), &["--host", "yard.example", "--host", "10.1.2.3"]);
    let asked = |host: &str| {
        let host = if host.is_empty() { String::new() } else { format!("Host: {host}\r\n") };
        ask(&server, &format!("GET / HTTP/1.1\r\n{host}Connection: close\r\n\r\n"))
    };
    let port = server.1.rsplit(':').next().unwrap().to_owned();
    for host in [
        "localhost",
        &format!("localhost:{port}"),
        &format!("127.0.0.1:{port}"),
        "[::1]",
        "YARD.example:80",
        "10.1.2.3",
    ] {
        assert_eq!(asked(host).0, 200, "{host}");
    }
    for host in ["other.example", "192.0.2.55:80", "localhost.other.example"] {
        let (status, head, body) = asked(host);
        let sentence = String::from_utf8(body).unwrap();
        assert_eq!(status, 421, "{host}");
        assert!(head.contains("content-type: text/plain"), "{head}");
        let name = host.split(':').next().unwrap();
        assert!(sentence.contains(name) && sentence.contains("http://localhost:"), "{sentence}");
        assert!(sentence.contains("--host"), "{sentence}");
        assert_eq!(sentence.trim_end().lines().count(), 1);
    }
    for host in ["", "<script>", "a b"] {
        let (status, head, body) = asked(host);
        assert_eq!(status, 400, "{host}: {head}");
        assert!(!String::from_utf8_lossy(&body).contains("<script"), "{host}");
    }
    // The address in the request goes before the header.
    let (status, ..) = ask(
        &server,
        "GET http://other.example/ HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n",
    );
    assert_eq!(status, 421);
}

#[test]
fn what_is_no_name_is_refused_at_the_start() {
    let dist = site();
    let output = run(&["serve", "--dist", dist.path().to_str().unwrap(), "--host", "http://yard"]);
    assert_eq!(output.status.code(), Some(2));
    assert!(said(&output).contains("without a port"), "{}", said(&output));
}

/// Every address that is printed is answered at, under its own name.
#[test]
fn an_open_yard_prints_addresses_that_can_be_opened() {
    let dist = site();
    let (_server, said) = serve_with(dist.path(), &["--listen", "0.0.0.0"]);
    assert!(!said.contains("0.0.0.0"), "{said}");
    assert!(addresses(&said)[0].starts_with("localhost:"), "{said}");
    for address in addresses(&said) {
        let mut stream = TcpStream::connect(address.replace("localhost", "127.0.0.1")).unwrap();
        let asked = format!("GET / HTTP/1.1\r\nHost: {address}\r\nConnection: close\r\n\r\n");
        stream.write_all(asked.as_bytes()).unwrap();
        let mut answer = String::new();
        stream.read_to_string(&mut answer).unwrap();
        assert!(answer.starts_with("HTTP/1.1 200") && answer.ends_with("the page"), "{answer}");
    }
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
