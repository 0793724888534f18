//! A PostgreSQL of the tests' own: Debian's programs, a folder that goes away, a port that is free.

use std::net::TcpListener;
use std::os::unix::fs::MetadataExt;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::sync::{LazyLock, Mutex};
use std::time::{Duration, Instant};

use tempfile::TempDir;

/// A server that ends with what holds it.
pub(crate) struct Server {
    programs: PathBuf,
    folder: TempDir,
    port: u16,
    databases: Mutex<u32>,
}

/// Where Debian and others put the programs, the newest first.
fn programs() -> PathBuf {
    let said = Command::new("pg_config").arg("--bindir").output().ok();
    let said = said.map(|said| PathBuf::from(String::from_utf8_lossy(&said.stdout).trim()));
    let versions = (13..30).rev().map(|v| PathBuf::from(format!("/usr/lib/postgresql/{v}/bin")));
    let usual = ["/usr/local/bin", "/usr/bin", "/usr/local/pgsql/bin"].map(PathBuf::from);
    let all = said.into_iter().chain(versions).chain(usual);
    let found = all.into_iter().find(|folder| {
        ["initdb", "postgres", "pg_ctl"].iter().all(|program| folder.join(program).is_file())
    });
    found.expect(
        "the tests of the class need PostgreSQL 13 or newer: install it (Debian: apt-get install postgresql) and try again",
    )
}

/// PostgreSQL does not run as root: then it runs as the account that its package makes.
fn as_another(program: &Path) -> Command {
    if Path::new("/proc/self").metadata().map_or(1, |own| own.uid()) != 0 {
        return Command::new(program);
    }
    let mut command = Command::new("runuser");
    command.args(["-u", "postgres", "--"]).arg(program);
    command
}

impl Server {
    /// Starts one.
    pub(crate) fn start() -> Self {
        let programs = programs();
        let folder = TempDir::new().unwrap();
        if Path::new("/proc/self").metadata().unwrap().uid() == 0 {
            let given = Command::new("chown").arg("postgres").arg(folder.path()).status();
            assert!(
                given.is_ok_and(|given| given.success()),
                "PostgreSQL's own account `postgres` is needed to run it from root's tests: install Debian's postgresql"
            );
        }
        let data = folder.path().join("data");
        let made = as_another(&programs.join("initdb"))
            .args(["--auth=trust", "--username=coneyard", "--encoding=UTF8", "--no-sync", "-D"])
            .arg(&data)
            .current_dir("/")
            .output()
            .expect("PostgreSQL's initdb starts");
        assert!(made.status.success(), "initdb: {}", String::from_utf8_lossy(&made.stderr));
        let port = TcpListener::bind("127.0.0.1:0").unwrap().local_addr().unwrap().port();
        let server = Self { programs, folder, port, databases: Mutex::new(0) };
        server.up();
        server
    }

    fn control(&self, asked: &[&str]) -> bool {
        let data = self.folder.path().join("data");
        let mut command = as_another(&self.programs.join("pg_ctl"));
        command.arg("-D").arg(&data).args(asked).current_dir("/");
        command.stdin(Stdio::null()).stdout(Stdio::null()).stderr(Stdio::null());
        command.status().is_ok_and(|status| status.success())
    }

    /// Begins to answer.
    pub(crate) fn up(&self) {
        let options = format!(
            "-p {} -c listen_addresses=127.0.0.1 -c unix_socket_directories='' -c max_connections=200",
            self.port
        );
        let log = self.folder.path().join("log");
        let log = log.to_str().unwrap();
        let up = self.control(&["-w", "-t", "60", "-l", log, "-o", &options, "start"]);
        assert!(up, "PostgreSQL starts: {}", std::fs::read_to_string(log).unwrap_or_default());
    }

    /// Ends at once, as when its power is cut.
    pub(crate) fn down(&self) {
        assert!(self.control(&["-w", "-m", "immediate", "stop"]), "PostgreSQL ends");
    }

    /// A new database that is empty.
    pub(crate) async fn database(&self) -> String {
        let number = {
            let mut databases = self.databases.lock().unwrap();
            *databases += 1;
            *databases
        };
        let at = |name: &str| format!("postgres://coneyard@127.0.0.1:{}/{name}", self.port);
        let pool = sqlx::PgPool::connect(&at("postgres")).await.unwrap();
        let create = format!("CREATE DATABASE class_{number}");
        sqlx::raw_sql(sqlx::AssertSqlSafe(create)).execute(&pool).await.unwrap();
        pool.close().await;
        at(&format!("class_{number}"))
    }
}

impl Drop for Server {
    fn drop(&mut self) {
        self.control(&["-w", "-m", "immediate", "stop"]);
    }
}

/// The server that all tests share which do not take it down.
static SHARED: LazyLock<Mutex<Option<Server>>> = LazyLock::new(|| {
    // A static is never dropped: the server is ended when the tests' process ends.
    extern "C" fn end() {
        drop(SHARED.lock().map(|mut server| server.take()));
    }
    at_exit(end);
    Mutex::new(Some(Server::start()))
});

#[allow(unsafe_code)]
fn at_exit(end: extern "C" fn()) {
    unsafe extern "C" {
        fn atexit(end: extern "C" fn()) -> i32;
    }
    // SAFETY: the C library's own; the function that is handed over lives as long as the program.
    unsafe { atexit(end) };
}

/// A new database of the server that is shared.
pub(crate) async fn database() -> String {
    // Databases are made one after the other: making one needs the template alone.
    static ONE: tokio::sync::Mutex<()> = tokio::sync::Mutex::const_new(());
    let _one = ONE.lock().await;
    let held = tokio::task::spawn_blocking(|| SHARED.lock().map(|s| s.is_some())).await.unwrap();
    assert!(held.is_ok_and(|is| is), "PostgreSQL is up");
    let server = SHARED.lock().unwrap().take().unwrap();
    let address = server.database().await;
    *SHARED.lock().unwrap() = Some(server);
    address
}
