//! By which names the yard may be asked for. A page of another site could have its own name lead to this
//! computer, and would then be let into what this site keeps in the browser: so an unknown name is refused.

use std::net::IpAddr;
use std::sync::Arc;

use axum::extract::{Extension, Request, State};
use axum::http::StatusCode;
use axum::http::header::{CONTENT_TYPE, HOST, X_CONTENT_TYPE_OPTIONS};
use axum::http::uri::Authority;
use axum::middleware::Next;
use axum::response::{IntoResponse, Response};

/// Longest name that there can be (RFC 1035).
const LONGEST: usize = 253;

/// Names and addresses that a request may be for, besides the address that it came in at and this computer's
/// own.
#[derive(Clone, Debug)]
pub struct Hosts(Arc<Own>);

#[derive(Debug)]
struct Own {
    names: Vec<String>,
    /// Where the yard can be opened, for the sentence.
    opened_at: String,
}

/// The address of this computer that a connection came in at.
#[derive(Clone, Copy, Debug)]
pub struct CameInAt(pub IpAddr);

impl Hosts {
    /// Allows these names too; `opened_at` is where one is told to go instead.
    pub fn new(names: &[String], opened_at: String) -> Self {
        let names = names.iter().map(|name| plain(name)).collect();
        Self(Arc::new(Own { names, opened_at }))
    }

    /// Whether a request for this host, which came in at this address, is for the yard.
    pub fn allow(&self, host: &str, came_in_at: IpAddr) -> bool {
        let host = plain(host);
        let address = host.trim_start_matches('[').trim_end_matches(']').parse::<IpAddr>();
        let is_here = |address: IpAddr| {
            address.is_loopback() || address.to_canonical() == came_in_at.to_canonical()
        };
        host == "localhost" || address.is_ok_and(is_here) || self.0.names.contains(&host)
    }
}

/// A name as it is compared.
fn plain(name: &str) -> String {
    name.strip_suffix('.').unwrap_or(name).to_ascii_lowercase()
}

/// Reads a name for the command line.
///
/// # Errors
/// What is wrong with it.
pub fn read_name(name: &str) -> Result<String, String> {
    let usual = |c: char| c.is_ascii_alphanumeric() || matches!(c, '.' | '-' | '_');
    let is_name = !name.is_empty() && name.len() <= LONGEST && name.chars().all(usual);
    let is_address = name.trim_start_matches('[').trim_end_matches(']').parse::<IpAddr>().is_ok();
    match name.parse::<IpAddr>() {
        Ok(IpAddr::V6(address)) => Ok(format!("[{address}]")),
        _ if is_name || is_address => Ok(name.to_owned()),
        _ => Err("this is no name of a computer: give it as in an address, without http:// and \
                  without a port, for example yard.example"
            .to_owned()),
    }
}

/// Refuses a request that is not for the yard, with one sentence.
pub async fn check(
    State(hosts): State<Hosts>,
    Extension(CameInAt(came_in_at)): Extension<CameInAt>,
    request: Request,
    next: Next,
) -> Response {
    let header = request.headers().get(HOST);
    let header = header.and_then(|host| host.to_str().ok()?.parse::<Authority>().ok());
    // An address in the request itself goes before the header.
    let asked = request.uri().authority().cloned().or(header);
    let host = asked.as_ref().map(Authority::host);
    if host.is_some_and(|host| hosts.allow(host, came_in_at)) {
        return next.run(request).await;
    }
    let open = &hosts.0.opened_at;
    let (status, sentence) = match host {
        Some(host) => (
            StatusCode::MISDIRECTED_REQUEST,
            format!(
                "The yard does not go by the name {host}: open {open}, or start it with \
                 `coneyard serve --host {host}`.\n"
            ),
        ),
        None => (
            StatusCode::BAD_REQUEST,
            format!("This request does not say for which site it is: open {open}.\n"),
        ),
    };
    let headers =
        [(CONTENT_TYPE, "text/plain; charset=utf-8"), (X_CONTENT_TYPE_OPTIONS, "nosniff")];
    (status, headers, sentence).into_response()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hosts() -> Hosts {
        Hosts::new(&["Yard.Example".to_owned()], "http://localhost:8137".to_owned())
    }

    #[test]
    fn this_computer_its_address_and_given_names_are_allowed_and_no_other() {
        let at = |address: &str| address.parse::<IpAddr>().unwrap();
        let here = at("192.0.2.7");
        for host in ["localhost", "LOCALHOST", "127.0.0.1", "[::1]", "192.0.2.7", "yard.example."] {
            assert!(hosts().allow(host, here), "{host}");
        }
        for host in ["example", "localhost.example", "192.0.2.8", "yard.example.org", "", "."] {
            assert!(!hosts().allow(host, here), "{host}");
        }
        assert!(hosts().allow("[2001:db8::7]", at("2001:db8::7")));
        assert!(hosts().allow("192.0.2.7", at("::ffff:192.0.2.7")), "one address in two forms");
    }

    #[test]
    fn only_names_are_taken_for_names() {
        for name in ["yard", "yard.example", "192.0.2.7", "10.0.0.1"] {
            assert_eq!(read_name(name).as_deref(), Ok(name));
        }
        assert_eq!(read_name("2001:db8::7").as_deref(), Ok("[2001:db8::7]"));
        let long = "a".repeat(LONGEST + 1);
        for name in ["", "http://yard", "yard:8137", "two names", "ñ", long.as_str()] {
            assert!(read_name(name).is_err(), "{name}");
        }
    }
}
