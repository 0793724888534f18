//! `coneyard serve`: hands the built site to browsers.

use std::io::ErrorKind;
use std::net::{IpAddr, Ipv4Addr, SocketAddr};
use std::path::{Path, PathBuf};

use coneyard::files::{project_folder, say};
use coneyard::site::site;
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
    /// Open the yard in this computer's browser
    #[arg(long)]
    open: bool,
    /// Folder of the built site [default: dist in the project]
    #[arg(long, value_name = "DIR")]
    dist: Option<PathBuf>,
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
        .block_on(listen(args, &dist))
}

async fn listen(args: &Args, dist: &Path) -> Result<(), Trouble> {
    let asked_for = SocketAddr::new(args.listen, args.port);
    let listener =
        tokio::net::TcpListener::bind(asked_for).await.map_err(|e| refused(asked_for, &e))?;
    let address = listener.local_addr().unwrap_or(asked_for);
    let host =
        if address.ip().is_loopback() { "localhost".to_owned() } else { address.ip().to_string() };
    let page = format!("http://{host}:{}", address.port());
    say(format_args!("The yard is open at {page} (Ctrl-C closes it)."));
    if args.open
        && let Err(e) = open::that_detached(&page)
    {
        eprintln!("coneyard: no browser could be opened ({e}); open {page} by hand");
    }
    axum::serve(listener, site(dist))
        .with_graceful_shutdown(async {
            // Without a signal handler the default action ends the program just as well.
            let _ = tokio::signal::ctrl_c().await;
        })
        .await
        .map_err(|e| Trouble::Here(format!("the server stopped: {e}")))
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
