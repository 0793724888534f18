//! The two programs that a browser test starts. Whatever is started here is ended here, by its
//! own handle.

use std::io::{BufRead, BufReader, Read, Write};
use std::net::{Ipv4Addr, TcpStream};
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

use tempfile::TempDir;

/// Longest wait for the browser to close.
const PATIENCE: Duration = Duration::from_secs(20);

/// A running program that ends with this value.
pub(crate) struct Process(Child);

impl Drop for Process {
    fn drop(&mut self) {
        // It may have ended by itself already.
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

/// The browser's driver, which ends its browser and then itself with this value.
pub(crate) struct Driver {
    process: Process,
    port: u16,
}

impl Driver {
    /// Where WebDriver clients find it.
    pub(crate) fn address(&self) -> String {
        format!("http://localhost:{}", self.port)
    }

    /// Asks it to close its browser, which would outlive a driver that is merely killed.
    fn shut_down(&mut self) -> std::io::Result<()> {
        let mut stream = TcpStream::connect((Ipv4Addr::LOCALHOST, self.port))?;
        stream.set_read_timeout(Some(PATIENCE))?;
        stream
            .write_all(b"GET /shutdown HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n")?;
        stream.read_to_end(&mut Vec::new())?;
        let begun = Instant::now();
        while self.process.0.try_wait()?.is_none() && begun.elapsed() < PATIENCE {
            std::thread::sleep(Duration::from_millis(20));
        }
        Ok(())
    }
}

impl Drop for Driver {
    fn drop(&mut self) {
        // What it does not do by itself is done by force right after.
        let _ = self.shut_down();
    }
}

/// So often the driver is started.
const DRIVER_TRIES: usize = 5;

/// The project's folder.
pub fn project_folder() -> PathBuf {
    let tests = Path::new(env!("CARGO_MANIFEST_DIR"));
    tests.parent().unwrap_or(tests).to_path_buf()
}

/// The folder that cargo builds into: tests leave what a person should look at in `screens/`.
pub fn target_folder() -> PathBuf {
    built_folder().parent().map_or_else(|| PathBuf::from("target"), Path::to_path_buf)
}

/// Where this test's own program lies, less `deps/`: `coneyard` lies beside it.
fn built_folder() -> PathBuf {
    let this = std::env::current_exe().expect("a running program has a path");
    this.ancestors()
        .find(|folder| folder.is_dir() && !folder.ends_with("deps"))
        .map(Path::to_path_buf)
        .expect("a test lies in cargo's target folder")
}

/// A command line of the native program, to be completed and run from the project's folder.
pub fn coneyard() -> Command {
    let program = built_folder().join(format!("coneyard{}", std::env::consts::EXE_SUFFIX));
    assert!(
        program.is_file(),
        "there is no {}: run `cargo build --release --package coneyard`, or ./check for all",
        program.display()
    );
    let mut command = Command::new(program);
    command.current_dir(project_folder());
    command
}

/// The folder of the built site.
pub fn site() -> PathBuf {
    let site = std::env::var_os("CONEYARD_SITE")
        .map_or_else(|| project_folder().join("dist"), PathBuf::from);
    assert!(
        site.join("index.html").is_file(),
        "there is no built site in {}: run `coneyard-workshop build --dev`, or ./check for all",
        site.display()
    );
    site
}

/// Serves a built site on a free port; returns the address.
pub(crate) fn start_server(site: &Path) -> (Process, String) {
    let mut command = coneyard();
    command.args(["serve", "--port", "0", "--dist"]).arg(site);
    start(command, |line| {
        let from = line.find("http://")?;
        line[from..].split_whitespace().next().map(str::to_owned)
    })
}

/// A class that is open.
pub struct Class {
    /// What trainees join with.
    pub code: String,
    /// What lets a trainer in.
    pub passphrase: String,
    /// Address of its host.
    pub address: String,
    _records: TempDir,
    _host: Process,
}

impl Class {
    /// Opens one, with its records in a folder for this time only.
    pub fn open() -> Self {
        let records = TempDir::new().expect("a folder for temporary files can be made");
        let mut command = coneyard();
        command.args(["serve", "--port", "0", "--class", "--store"]);
        command.arg(records.path().join("class.db")).arg("--dist").arg(site());
        let (mut code, mut passphrase) = (None, None);
        let (host, address) = start(command, |line| {
            let after = |what: &str| line.split_once(what).map(|(_, after)| after.to_owned());
            code = code.take().or(after("join with the code "));
            passphrase = passphrase.take().or(after("not told again: "));
            let from = line.find("http://")?;
            line[from..].split_whitespace().next().map(str::to_owned)
        });
        let code = code.expect("the host tells the code").trim_end_matches('.').to_owned();
        let passphrase = passphrase.expect("the host tells the passphrase");
        Self { code, passphrase, address, _records: records, _host: host }
    }
}

/// Starts the browser's driver on a free port.
pub(crate) fn start_driver() -> Driver {
    let named = |line: &str| {
        let (_, port) = line.split_once("started successfully on port ")?;
        port.trim_end_matches('.').parse().ok()
    };
    // It looks for a port that is free, and ends when another program takes it in the same moment.
    for _ in 0..DRIVER_TRIES {
        let mut command = Command::new("chromedriver");
        command.arg("--port=0");
        if let Ok((process, port)) = try_to_start(command, named) {
            return Driver { process, port };
        }
    }
    panic!("the browser's driver finds no free port")
}

/// Starts a program and reads what it prints up to the line that names its address.
fn start<T>(command: Command, address: impl FnMut(&str) -> Option<T>) -> (Process, T) {
    try_to_start(command, address).unwrap_or_else(|said| panic!("{said}"))
}

/// The same; what it said when it ended before that.
fn try_to_start<T>(
    mut command: Command,
    mut address: impl FnMut(&str) -> Option<T>,
) -> Result<(Process, T), String> {
    let mut child =
        command.stdin(Stdio::null()).stdout(Stdio::piped()).spawn().unwrap_or_else(|e| {
            panic!("{command:?} cannot be started: {e}; run ./check, which installs it")
        });
    let output = child.stdout.take().expect("its output was asked for");
    let process = Process(child);
    let mut output = BufReader::new(output);
    let mut said = String::new();
    loop {
        let mut line = String::new();
        let read = output.read_line(&mut line).unwrap_or(0);
        if read == 0 {
            return Err(format!("{command:?} ended before it named its address: {said}"));
        }
        if let Some(address) = address(line.trim_end()) {
            // Its output is read on, or a full pipe would stop it one day.
            std::thread::spawn(move || {
                std::io::copy(&mut output.take(u64::MAX), &mut std::io::sink())
            });
            return Ok((process, address));
        }
        said.push_str(&line);
    }
}
