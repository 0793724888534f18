//! Encrypted connections without anybody who sells certificates: a small authority is made once, devices are told to
//! trust it once, and at every start it vouches for this computer anew.
//!
//! A browser lets a site work without network, and use a gamepad, only where it trusts the connection (or the yard
//! is on the same computer); an address on a local network has no certificate that it would trust.

mod authority;
mod screen;
#[cfg(test)]
mod tests;

use std::net::IpAddr;
use std::path::Path;
use std::sync::Arc;

use axum::Router;
use axum::http::header::{CONTENT_DISPOSITION, CONTENT_TYPE};
use axum::routing::get;
use tokio_rustls::TlsAcceptor;
use tokio_rustls::rustls::ServerConfig;
use tokio_rustls::rustls::crypto::ring;
use tokio_rustls::rustls::pki_types::PrivatePkcs8KeyDer;

use crate::trouble::Trouble;
use authority::Authority;

/// Where a device takes the authority's certificate from.
const CERTIFICATE: &str = "/authority.crt";

/// What encrypts, and what devices are to trust.
pub struct Tls {
    authority: Authority,
    accepts: TlsAcceptor,
}

impl Tls {
    /// Takes the authority of this folder, or makes it, and lets it vouch for these names besides this computer
    /// itself; `own` is the computer's address among others.
    ///
    /// # Errors
    /// One sentence: the folder cannot be used, or the authority was made for other names.
    pub fn open(folder: &Path, names: &[String], own: Option<IpAddr>) -> Result<Self, Trouble> {
        let authority = Authority::open(folder, names, own)?;
        let (chain, key) = authority.vouch(names, own)?;
        let failed = |e| Trouble::Here(format!("encryption could not be set up: {e}"));
        let mut config = ServerConfig::builder_with_provider(Arc::new(ring::default_provider()))
            .with_safe_default_protocol_versions()
            .map_err(failed)?
            .with_no_client_auth()
            .with_single_cert(chain, PrivatePkcs8KeyDer::from(key).into())
            .map_err(failed)?;
        config.alpn_protocols = vec![b"http/1.1".to_vec()];
        Ok(Self { authority, accepts: TlsAcceptor::from(Arc::new(config)) })
    }

    /// What opens connections.
    pub fn acceptor(&self) -> TlsAcceptor {
        self.accepts.clone()
    }

    /// The authority's certificate, for devices to take.
    pub fn routes(&self) -> Router {
        let certificate = self.authority.certificate().to_vec();
        let headers = [
            (CONTENT_TYPE, "application/x-x509-ca-cert"),
            (CONTENT_DISPOSITION, "attachment; filename=\"coneyard-authority.crt\""),
        ];
        Router::new().route(CERTIFICATE, get(move || async move { (headers, certificate) }))
    }

    /// What a person must do, on one screen; the yard is opened at `page`.
    pub fn screen(&self, page: &str) -> String {
        screen::text(&self.authority, page)
    }
}
