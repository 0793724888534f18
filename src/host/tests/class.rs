//! The class by its program: opened, killed in the midst of it, copied, put back, looked at.

// What a test cannot do without ends the test.
#![allow(clippy::unwrap_used)]

mod common;

use std::collections::BTreeSet;
use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Stdio};
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};
use std::sync::{Arc, Mutex};
use std::time::Duration;

use common::{assert_refused, coneyard, run, said};
use coneyard::riding::{NewRide, ride};
use tempfile::TempDir;

/// A host with a class.
struct Host {
    child: Child,
    address: String,
    code: String,
    /// Told when the class was new.
    passphrase: Option<String>,
}

impl Drop for Host {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}

impl Host {
    fn open(folder: &Path) -> Self {
        let dist = folder.join("dist");
        fs::create_dir_all(&dist).unwrap();
        fs::write(dist.join("index.html"), "the page").unwrap();
        let mut child = coneyard()
            .args(["serve", "--class", "--port", "0", "--dist", dist.to_str().unwrap()])
            .args(["--store", folder.join("class.db").to_str().unwrap()])
            .stdout(Stdio::piped())
            .spawn()
            .unwrap();
        let mut lines = BufReader::new(child.stdout.take().unwrap()).lines();
        let (mut address, mut code, mut passphrase) = (None, None, None);
        for line in lines.by_ref() {
            let line = line.unwrap();
            let after = |words: &str| {
                line.split(words).nth(1).map(|rest| rest.trim_end_matches('.').to_owned())
            };
            if let Some(rest) = after("http://localhost:") {
                let port: String = rest.chars().take_while(char::is_ascii_digit).collect();
                address = Some(format!("127.0.0.1:{port}"));
            }
            code = after("with the code ").or(code);
            passphrase = after("told again: ").or(passphrase);
            if line.starts_with("Its records") {
                break;
            }
        }
        Self { child, address: address.unwrap(), code: code.unwrap(), passphrase }
    }

    /// Status, cookie that is set, and body; None when there is no whole answer.
    fn ask(
        &self,
        method: &str,
        path: &str,
        cookie: &str,
        body: &[u8],
    ) -> Option<(u16, String, Vec<u8>)> {
        ask(&self.address, method, path, cookie, body)
    }

    fn join(&self, name: &str) -> String {
        let body = format!("{{\"code\":\"{}\",\"name\":\"{name}\"}}", self.code);
        let (status, cookie, _) = self.ask("POST", "/api/join", "", body.as_bytes()).unwrap();
        assert_eq!(status, 200);
        cookie
    }

    fn enter(&self, passphrase: &str) -> String {
        let body = format!("{{\"passphrase\":\"{passphrase}\"}}");
        let (status, cookie, _) = self.ask("POST", "/api/enter", "", body.as_bytes()).unwrap();
        assert_eq!(status, 200);
        cookie
    }

    fn runs(&self, cookie: &str) -> Vec<serde_json::Value> {
        let (status, _, body) = self.ask("GET", "/api/runs", cookie, b"").unwrap();
        assert_eq!(status, 200);
        serde_json::from_slice(&body).unwrap()
    }
}

fn ask(
    address: &str,
    method: &str,
    path: &str,
    cookie: &str,
    body: &[u8],
) -> Option<(u16, String, Vec<u8>)> {
    let mut stream = TcpStream::connect(address).ok()?;
    stream.set_read_timeout(Some(Duration::from_secs(30))).ok()?;
    let head = format!(
        "{method} {path} HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nCookie: {cookie}\r\n\
         Content-Length: {}\r\nConnection: close\r\n\r\n",
        body.len()
    );
    stream.write_all(head.as_bytes()).ok()?;
    stream.write_all(body).ok()?;
    let mut answer = Vec::new();
    stream.read_to_end(&mut answer).ok()?;
    let end = answer.windows(4).position(|four| four == b"\r\n\r\n")?;
    let head = String::from_utf8_lossy(&answer[..end]).into_owned();
    let status = head.split(' ').nth(1)?.parse().ok()?;
    let cookie = head.lines().find_map(|line| line.strip_prefix("set-cookie: "));
    let cookie = cookie.and_then(|line| line.split(';').next()).unwrap_or_default().to_owned();
    Some((status, cookie, answer[end + 4..].to_vec()))
}

fn id(bytes: &[u8]) -> String {
    blake3::hash(bytes).to_hex().to_string()
}

fn driven(seed: u32) -> Vec<u8> {
    let new = NewRide { course: "straight", rider: "model", seed, truck: None, who: "Rowan" };
    ride(&new).unwrap().to_text().into_bytes()
}

#[test]
fn a_class_opens_takes_runs_and_ends_when_it_is_told_to() {
    let folder = TempDir::new().unwrap();
    let mut host = Host::open(folder.path());
    let rowan = host.join("Rowan");
    let run = driven(1);
    let path = format!("/api/runs/{}", id(&run));
    assert_eq!(host.ask("PUT", &path, &rowan, &run).unwrap().0, 201);
    let trainer = host.enter(host.passphrase.as_ref().unwrap());
    let judged = (0..300).any(|_| {
        std::thread::sleep(Duration::from_millis(50));
        host.runs(&trainer)[0]["state"] == "judged"
    });
    assert!(judged, "{:?}", host.runs(&trainer));
    // The site is beside it, with what its pages may do; the class's answers say it too.
    assert_eq!(host.ask("GET", "/", "", b"").unwrap().2, b"the page");
    // A second host does not take the same file.
    let store = folder.path().join("class.db");
    let store = store.to_str().unwrap();
    let dist = folder.path().join("dist");
    let second = run_with(&[
        "serve",
        "--class",
        "--port",
        "0",
        "--dist",
        dist.to_str().unwrap(),
        "--store",
        store,
    ]);
    assert_eq!(second.status.code(), Some(1));
    assert!(said(&second).contains("another host"), "{}", said(&second));
    // A trainer's page watches; told to end, the host ends all the same.
    let mut watching = TcpStream::connect(&host.address).unwrap();
    let head = format!("GET /api/live HTTP/1.1\r\nHost: localhost\r\nCookie: {trainer}\r\n\r\n");
    watching.write_all(head.as_bytes()).unwrap();
    let mut first = [0; 15];
    watching.read_exact(&mut first).unwrap();
    assert_eq!(&first, b"HTTP/1.1 200 OK");
    let told =
        std::process::Command::new("kill").arg(host.child.id().to_string()).status().unwrap();
    assert!(told.success());
    let ended = (0..100).any(|_| {
        std::thread::sleep(Duration::from_millis(50));
        host.child.try_wait().unwrap().is_some_and(|status| status.success())
    });
    assert!(ended, "it ends by itself within five seconds");
}

fn run_with(args: &[&str]) -> std::process::Output {
    run(args)
}

/// Twelve browsers deliver; the host is killed at random moments and begins again.
///
/// `CONEYARD_KILLS` is the number of times (5).
#[test]
fn a_host_that_is_killed_under_load_loses_nothing_that_it_acknowledged() {
    let kills: u64 = std::env::var("CONEYARD_KILLS").ok().and_then(|n| n.parse().ok()).unwrap_or(5);
    let folder = TempDir::new().unwrap();
    let real: Vec<Vec<u8>> = (0..12).map(driven).collect();
    let acknowledged = Arc::new(Mutex::new(BTreeSet::new()));
    let number = Arc::new(AtomicUsize::new(0));
    let mut passphrase = None;
    for kill in 0..kills {
        let mut host = Host::open(folder.path());
        passphrase = host.passphrase.clone().or(passphrase);
        let dead = Arc::new(AtomicBool::new(false));
        let browsers: Vec<_> = (0..12)
            .map(|browser: usize| {
                let cookie = host.join(&format!("Tree {browser}"));
                let (address, dead) = (host.address.clone(), dead.clone());
                let (acknowledged, number) = (acknowledged.clone(), number.clone());
                let real = real[browser].clone();
                std::thread::spawn(move || {
                    let mut first = Some(real);
                    while !dead.load(Ordering::Relaxed) {
                        let n = number.fetch_add(1, Ordering::Relaxed);
                        let bytes =
                            first.take().unwrap_or_else(|| format!("{{\"n\":{n}}}").into_bytes());
                        let path = format!("/api/runs/{}", id(&bytes));
                        let answer = ask(&address, "PUT", &path, &cookie, &bytes);
                        if let Some((200 | 201, ..)) = answer {
                            acknowledged.lock().unwrap().insert(id(&bytes));
                        }
                    }
                })
            })
            .collect();
        // Moments that hang on nothing but the number of the kill: 30 to 530 ms.
        let moment = 30 + blake3::hash(&kill.to_le_bytes()).as_bytes()[0] as u64 * 2;
        std::thread::sleep(Duration::from_millis(moment));
        host.child.kill().unwrap();
        host.child.wait().unwrap();
        dead.store(true, Ordering::Relaxed);
        browsers.into_iter().for_each(|browser| browser.join().unwrap());
    }
    let host = Host::open(folder.path());
    let trainer = host.enter(&passphrase.unwrap());
    let acknowledged = acknowledged.lock().unwrap().clone();
    assert!(acknowledged.len() as u64 > kills * 5, "{}", acknowledged.len());
    let runs = host.runs(&trainer);
    let there: BTreeSet<String> =
        runs.iter().map(|run| run["run"].as_str().unwrap().to_owned()).collect();
    assert_eq!(there.len(), runs.len(), "nothing is there twice");
    let lost: Vec<_> = acknowledged.difference(&there).collect();
    assert!(lost.is_empty(), "{} of {} are lost", lost.len(), acknowledged.len());
    // What the killed had claimed is judged after all.
    let judged = (0..600).any(|_| {
        std::thread::sleep(Duration::from_millis(50));
        host.runs(&trainer).iter().all(|run| run["state"] != "waiting")
    });
    assert!(judged);
    println!("{kills} kills, {} acknowledged, none lost", acknowledged.len());
    drop(host);
    let store = folder.path().join("class.db");
    let checked = run(&["class", "check", "--store", store.to_str().unwrap()]);
    assert!(checked.status.success(), "{}", said(&checked));
}

#[test]
fn records_are_copied_while_they_are_used_and_put_back() {
    let folder = TempDir::new().unwrap();
    let at = |name: &str| folder.path().join(name).to_str().unwrap().to_owned();
    let (store, copy) = (at("class.db"), at("copy.db"));
    let host = Host::open(folder.path());
    let rowan = host.join("Rowan");
    let deliver = |bytes: &[u8]| {
        let path = format!("/api/runs/{}", id(bytes));
        assert_eq!(host.ask("PUT", &path, &rowan, bytes).unwrap().0, 201);
    };
    deliver(b"{\"n\":1}");
    let copied = run(&["class", "backup", &copy, "--store", &store]);
    assert!(copied.status.success(), "{}", said(&copied));
    assert_refused(&run(&["class", "backup", &copy, "--store", &store]), &["copy.db", "already"]);
    deliver(b"{\"n\":2}");
    let held = run(&["class", "restore", &copy, "--store", &store]);
    assert_eq!(held.status.code(), Some(1), "{}", said(&held));
    let trainer = host.passphrase.clone().unwrap();
    drop(host);
    fs::write(at("none.db"), "no records at all").unwrap();
    assert_refused(&run(&["class", "restore", &at("none.db"), "--store", &store]), &["none.db"]);
    let mut torn = fs::read(&copy).unwrap();
    torn[8192..9000].fill(0xff);
    fs::write(at("torn.db"), torn).unwrap();
    assert_refused(&run(&["class", "restore", &at("torn.db"), "--store", &store]), &["torn.db"]);
    let restored = run(&["class", "restore", &copy, "--store", &store]);
    assert!(restored.status.success(), "{}", said(&restored));
    let host = Host::open(folder.path());
    assert_eq!(host.runs(&host.enter(&trainer)).len(), 1);
    // The browser is still known, and what it delivers again is there again.
    assert_eq!(host.ask("GET", "/api/runs", &rowan, b"").unwrap().0, 200);
    drop(host);
    let aside = fs::read_dir(folder.path()).unwrap().flatten();
    assert!(
        aside.into_iter().any(|e| e.file_name().to_string_lossy().starts_with("class.db-before-"))
    );
    let checked = run(&["class", "check", "--store", &store]);
    assert!(checked.status.success(), "{}", said(&checked));
    let new = run(&["class", "passphrase", "--store", &store]);
    assert!(String::from_utf8_lossy(&new.stdout).contains("not told again"));
    assert_refused(&run(&["work", "--store", &store]), &["postgres://"]);
}

#[test]
fn a_simulated_class_drives_real_runs() {
    let folder = TempDir::new().unwrap();
    let store = folder.path().join("class.db").to_str().unwrap().to_owned();
    let options = ["--people", "3", "--days", "2", "--seed", "5", "--store", &store];
    let simulated = run(&[&["class", "simulate"][..], &options].concat());
    assert!(simulated.status.success(), "{}", said(&simulated));
    let listed = run(&["class", "list", "--store", &store]);
    let listed = String::from_utf8_lossy(&listed.stdout).into_owned();
    assert!(listed.contains("Simulated 5: 3 people, 6 runs"), "{listed}");
}
