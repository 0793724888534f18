//! A PostgreSQL of the tests' own: Debian's programs, a folder that goes away, a port that is free.

use std::net::TcpListener;
use std::os::unix::fs::MetadataExt;
use std::path::{Path, PathBuf};
use std::process::{Child, Command, Stdio};

use tempfile::TempDir;
use tokio::sync::{Mutex, OnceCell};

/// A server that ends with what holds it.
pub(crate) struct Server {
    programs: PathBuf,
    folder: PathBuf,
    port: u16,
    /// Ends the server and takes its folder away when this program ends, however it does.
    guard: Child,
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
    let mut command = Command::new("setpriv");
    // It goes on overriding modes of files: there are machines where /dev/null is for root alone.
    command.args(["--reuid=postgres", "--regid=postgres", "--clear-groups"]);
    command.args(["--inh-caps=+dac_override", "--ambient-caps=+dac_override", "--"]).arg(program);
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
        let folder = folder.keep();
        let stop = format!("{:?}", as_another(&programs.join("pg_ctl"))).replace('"', "'");
        let ends = format!(
            "read _; {stop} -D '{0}/data' -m immediate stop; rm -rf '{0}'",
            folder.display()
        );
        let guard = Command::new("sh")
            .args(["-c", &ends])
            .current_dir("/")
            .stdin(Stdio::piped())
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        let server = Self { programs, folder, port, guard };
        server.up();
        server
    }

    fn control(&self, asked: &[&str]) -> bool {
        let data = self.folder.join("data");
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
        let log = self.folder.join("log");
        let log = log.to_str().unwrap();
        let up = self.control(&["-w", "-t", "60", "-l", log, "-o", &options, "start"]);
        assert!(up, "PostgreSQL starts: {}", std::fs::read_to_string(log).unwrap_or_default());
    }

    /// Ends at once, as when its power is cut.
    pub(crate) fn down(&self) {
        assert!(self.control(&["-w", "-m", "immediate", "stop"]), "PostgreSQL ends");
    }

    /// A new database that is empty.
    pub(crate) async fn database(&self, number: u32) -> String {
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
        drop(self.guard.stdin.take());
        let _ = self.guard.wait();
    }
}

/// The server that all tests share which do not take it down.
static SHARED: OnceCell<Server> = OnceCell::const_new();

/// A new database of the server that is shared.
pub(crate) async fn database() -> String {
    // Databases are made one after the other: making one needs the template alone.
    static ONE: Mutex<u32> = Mutex::const_new(0);
    let mut number = ONE.lock().await;
    let start = || async { tokio::task::spawn_blocking(Server::start).await.unwrap() };
    *number += 1;
    SHARED.get_or_init(start).await.database(*number).await
}
