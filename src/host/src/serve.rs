//! `coneyard serve`: hands the built site to browsers.

use std::io::ErrorKind;
use std::net::{IpAddr, Ipv4Addr, SocketAddr, UdpSocket};
use std::path::{Path, PathBuf};

use axum::{Router, middleware};
use coneyard::files::{project_folder, say};
use coneyard::hosts::{self, Hosts};
use coneyard::listen::{self, Door, Limits};
use coneyard::site::site_with;
use coneyard::trouble::Trouble;

/// Options of `coneyard serve`.
#[derive(clap::Args)]
#[command(after_help = "Example: coneyard serve --port 8137 --open")]
pub(crate) struct Args {
    /// Port to listen on; 0 takes any free one
    #[arg(long, default_value_t = 8137)]
    port: u16,
    /// Address to listen on; 0.0.0.0 lets other computers in
    #[arg(long, default_value_t = IpAddr::V4(Ipv4Addr::LOCALHOST))]
    listen: IpAddr,
    /// A name that other computers know this one by, as in the address that they open; may be given again
    #[arg(long, value_name = "NAME", value_parser = hosts::read_name)]
    host: Vec<String>,
    /// Open the yard in this computer's browser
    #[arg(long)]
    open: bool,
    /// Folder of the built site [default: dist in the project]
    #[arg(long, value_name = "DIR")]
    dist: Option<PathBuf>,
    /// Let other computers in: the same as --listen 0.0.0.0
    #[arg(long, conflicts_with = "listen")]
    lan: bool,
    /// Encrypt connections by an authority of this computer's own, which every device must trust once: needed for
    /// tablets that are to go on without network, or to use a gamepad
    #[cfg(feature = "tls")]
    #[arg(long)]
    tls: bool,
    /// Folder of that authority [default: in this account's folder for data]
    #[cfg(feature = "tls")]
    #[arg(long, value_name = "DIR", requires = "tls")]
    authority: Option<PathBuf>,
    #[cfg(feature = "class")]
    #[command(flatten)]
    class: crate::class::serving::Args,
}

/// Serves the site until the program is interrupted.
///
/// # Errors
/// One sentence when there is no built site or the port is taken.
pub(crate) fn serve(args: &Args) -> Result<(), Trouble> {
    let dist = match &args.dist {
        Some(dist) => dist.clone(),
        None => project_folder()?.join("dist"),
    };
    if !dist.join("index.html").is_file() {
        return Err(Trouble::Here(format!(
            "there is no built site in {}: run `coneyard-workshop build` first, or name another folder \
             with --dist",
            dist.display()
        )));
    }
    tokio::runtime::Builder::new_multi_thread()
        .enable_all()
        .build()
        .map_err(|e| Trouble::Here(format!("the server could not be started: {e}")))?
        .block_on(open_yard(args, &dist))
}

async fn open_yard(args: &Args, dist: &Path) -> Result<(), Trouble> {
    let listen = if args.lan { IpAddr::V4(Ipv4Addr::UNSPECIFIED) } else { args.listen };
    let asked_for = SocketAddr::new(listen, args.port);
    let listener =
        tokio::net::TcpListener::bind(asked_for).await.map_err(|e| refused(asked_for, &e))?;
    let address = listener.local_addr().unwrap_or(asked_for);
    let lock = lock(args, listen)?;
    let (page, elsewhere) = opened_at(address, lock.scheme());
    // Before the address is told: whoever opens it finds the class.
    #[cfg(feature = "class")]
    let class = args.class.open(lock.is_locked(), dist).await?;
    say(format_args!("The yard is open at {page} (Ctrl-C closes it)."));
    if let Some(elsewhere) = &elsewhere {
        say(format_args!("Other computers open {elsewhere}."));
    }
    let told = elsewhere.as_deref().unwrap_or(&page);
    if let Some(screen) = lock.screen(told) {
        say(screen);
    }
    let door = lock.door(told);
    #[cfg(feature = "class")]
    if let Some(class) = &class {
        class.say(elsewhere.as_deref());
    }
    if args.open
        && let Err(e) = open::that_detached(&page)
    {
        eprintln!("coneyard: no browser could be opened ({e}); open {page} by hand");
    }
    let hosts = Hosts::new(&args.host, page);
    let routes = lock.routes();
    #[cfg(feature = "class")]
    let routes = match &class {
        Some(class) => routes.merge(class.routes()),
        None => routes,
    };
    let site = site_with(dist, routes).layer(middleware::from_fn_with_state(hosts, hosts::check));
    let end = async {
        told_to_end().await;
        #[cfg(feature = "class")]
        if let Some(class) = &class {
            class.end();
        }
    };
    listen::serve(listener, site, Limits::default(), door, end).await;
    #[cfg(feature = "class")]
    if let Some(class) = class {
        class.close().await;
    }
    Ok(())
}

/// Whether connections are encrypted, and how.
struct Lock {
    #[cfg(feature = "tls")]
    tls: Option<coneyard::tls::Tls>,
}

/// Sets up encryption if it is asked for.
///
/// # Errors
/// One sentence when there is no folder for the authority, or it was made for other names.
#[cfg_attr(
    not(feature = "tls"),
    expect(clippy::unnecessary_wraps, reason = "with it there are errors")
)]
fn lock(args: &Args, listen: IpAddr) -> Result<Lock, Trouble> {
    #[cfg(feature = "tls")]
    {
        if !args.tls {
            return Ok(Lock { tls: None });
        }
        let folder = match &args.authority {
            Some(folder) => folder.clone(),
            None => coneyard::own_folder::own_folder("--authority")?,
        };
        coneyard::own_folder::make_private(&folder)
            .map_err(|e| Trouble::with_path("cannot make the folder", &folder, &e))?;
        let own = if listen.is_unspecified() { own_address() } else { Some(listen) };
        Ok(Lock { tls: Some(coneyard::tls::Tls::open(&folder, &args.host, own)?) })
    }
    #[cfg(not(feature = "tls"))]
    {
        let _ = (args, listen);
        Ok(Lock {})
    }
}

#[cfg(feature = "tls")]
impl Lock {
    fn is_locked(&self) -> bool {
        self.tls.is_some()
    }

    fn scheme(&self) -> &'static str {
        if self.is_locked() { "https" } else { "http" }
    }

    fn screen(&self, page: &str) -> Option<String> {
        self.tls.as_ref().map(|tls| tls.screen(page))
    }

    fn door(&self, page: &str) -> Door {
        match &self.tls {
            Some(tls) => Door::Locked(tls.acceptor(), page.into()),
            None => Door::Open,
        }
    }

    fn routes(&self) -> Router {
        self.tls.as_ref().map_or_else(Router::new, coneyard::tls::Tls::routes)
    }
}

#[cfg(not(feature = "tls"))]
impl Lock {
    fn scheme(&self) -> &'static str {
        "http"
    }

    fn screen(&self, _page: &str) -> Option<&'static str> {
        None
    }

    fn door(&self, _page: &str) -> Door {
        Door::Open
    }

    fn routes(&self) -> Router {
        Router::new()
    }
}

/// Ctrl-C, or what a service manager sends. Without a handler the default action ends the program just as well.
async fn told_to_end() {
    let interrupted = async {
        let _ = tokio::signal::ctrl_c().await;
    };
    #[cfg(unix)]
    {
        use tokio::signal::unix::{SignalKind, signal};
        if let Ok(mut terminated) = signal(SignalKind::terminate()) {
            tokio::select! {
                () = interrupted => {}
                _ = terminated.recv() => {}
            }
            return;
        }
    }
    interrupted.await;
}

/// Where this computer's browser opens the yard, and where other computers' do if it is another address.
fn opened_at(address: SocketAddr, scheme: &str) -> (String, Option<String>) {
    let page = |ip: IpAddr| format!("{scheme}://{}", SocketAddr::new(ip, address.port()));
    let here = format!("{scheme}://localhost:{}", address.port());
    match address.ip() {
        // No address at all, but all that this computer has: nobody can open it.
        ip if ip.is_unspecified() => (here, own_address().map(page)),
        ip if ip == IpAddr::V4(Ipv4Addr::LOCALHOST) => (here, None),
        ip => (page(ip), None),
    }
}

/// The address that this computer has among others; None when it is alone. Nothing is sent: a connection
/// without a protocol only has the way looked up, here to an address that is kept for documents (RFC 5737).
fn own_address() -> Option<IpAddr> {
    let socket = UdpSocket::bind((Ipv4Addr::UNSPECIFIED, 0)).ok()?;
    socket.connect((Ipv4Addr::new(192, 0, 2, 1), 9)).ok()?;
    let own = socket.local_addr().ok()?.ip();
    (!own.is_loopback() && !own.is_unspecified()).then_some(own)
}

fn refused(address: SocketAddr, error: &std::io::Error) -> Trouble {
    let port = address.port();
    Trouble::Here(match error.kind() {
        ErrorKind::AddrInUse => format!(
            "port {port} is taken by another program: end that one, or choose another port, \
             for example `coneyard serve --port {}`",
            port.checked_add(1).unwrap_or(8137)
        ),
        ErrorKind::PermissionDenied => {
            format!("this account may not listen on port {port}: choose one above 1023 with --port")
        }
        ErrorKind::AddrNotAvailable => format!(
            "this computer has no address {}: leave --listen out, or name one that it has",
            address.ip()
        ),
        _ => format!("listening on {address} failed: {error}"),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_printed_can_be_opened() {
        let at = |address: &str| opened_at(address.parse().unwrap(), "http");
        assert_eq!(at("127.0.0.1:8137"), ("http://localhost:8137".to_owned(), None));
        assert_eq!(at("127.0.0.2:80"), ("http://127.0.0.2:80".to_owned(), None));
        assert_eq!(at("[::1]:8137"), ("http://[::1]:8137".to_owned(), None));
        assert_eq!(at("192.0.2.7:8137"), ("http://192.0.2.7:8137".to_owned(), None));
        for all in ["0.0.0.0:8137", "[::]:8137"] {
            let (here, elsewhere) = at(all);
            assert_eq!(here, "http://localhost:8137");
            assert!(elsewhere.is_none_or(|e| !e.contains("0.0.0.0") && e.ends_with(":8137")));
        }
    }
}
