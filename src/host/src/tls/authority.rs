//! The authority: made once, kept for this account alone, and bound to private networks and to the names that it was
//! made for, so that whoever steals it cannot pose as anybody else to a device that trusts it.

use std::fs;
use std::io::Write;
use std::net::{IpAddr, Ipv4Addr, Ipv6Addr};
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};

use rcgen::{
    BasicConstraints, CertificateParams, CidrSubnet, DistinguishedName, DnType,
    ExtendedKeyUsagePurpose, GeneralSubtree, IsCa, Issuer, KeyPair, KeyUsagePurpose,
    NameConstraints,
};
use serde::{Deserialize, Serialize};
use tokio_rustls::rustls::pki_types::CertificateDer;

use crate::files::read_bounded;
use crate::trouble::Trouble;

/// File that holds the authority's key.
const KEPT: &str = "authority.json";
/// Form of that file.
const FORM: u32 = 1;
/// It is a few hundred bytes, and a few more for each name.
const KEPT_MOST: usize = 64 * 1024;

const DAY: Duration = Duration::from_secs(24 * 3600);
/// How long devices may trust the authority.
const AUTHORITY_DAYS: u32 = 3650;
/// How long this computer is vouched for at a start. Apple's devices take no more than 825 days (from memory).
const SERVER_DAYS: u32 = 397;

/// Networks that no address of the internet lies in: RFC 1918, RFC 3927, RFC 4193, RFC 4291, and one's own computer.
const NETWORKS: [(IpAddr, u8); 8] = [
    (IpAddr::V4(Ipv4Addr::new(10, 0, 0, 0)), 8),
    (IpAddr::V4(Ipv4Addr::new(172, 16, 0, 0)), 12),
    (IpAddr::V4(Ipv4Addr::new(192, 168, 0, 0)), 16),
    (IpAddr::V4(Ipv4Addr::new(169, 254, 0, 0)), 16),
    (IpAddr::V4(Ipv4Addr::new(127, 0, 0, 0)), 8),
    (IpAddr::V6(Ipv6Addr::new(0xfc00, 0, 0, 0, 0, 0, 0, 0)), 7),
    (IpAddr::V6(Ipv6Addr::new(0xfe80, 0, 0, 0, 0, 0, 0, 0)), 10),
    (IpAddr::V6(Ipv6Addr::LOCALHOST), 128),
];

/// Names that are nobody's on the internet: RFC 6761, RFC 6762, RFC 8375, and the one that ICANN keeps free.
const NAMES: [&str; 4] = ["localhost", "local", "home.arpa", "internal"];

/// As it is kept.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Kept {
    format: u32,
    /// What it may vouch for besides private networks and their names.
    names: Vec<String>,
    /// DER as hexadecimal digits.
    certificate: String,
    /// PKCS #8 as PEM.
    key: String,
}

/// An authority.
pub(super) struct Authority {
    kept_in: PathBuf,
    names: Vec<String>,
    certificate: Vec<u8>,
    key: KeyPair,
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

fn from_hex(text: &str) -> Option<Vec<u8>> {
    let pairs = text.as_bytes().chunks(2);
    pairs.map(|two| u8::from_str_radix(core::str::from_utf8(two).ok()?, 16).ok()).collect()
}

fn address(name: &str) -> Option<IpAddr> {
    name.trim_start_matches('[').trim_end_matches(']').parse().ok()
}

/// Whether an address lies in a network of so many bits.
fn lies_in(ip: IpAddr, network: IpAddr, bits: u8) -> bool {
    match (ip, network) {
        (IpAddr::V4(ip), IpAddr::V4(network)) => {
            (ip.to_bits() ^ network.to_bits()).leading_zeros() >= u32::from(bits)
        }
        (IpAddr::V6(ip), IpAddr::V6(network)) => {
            (ip.to_bits() ^ network.to_bits()).leading_zeros() >= u32::from(bits)
        }
        _ => false,
    }
}

/// Whether it may be vouched for by every authority.
fn is_private(name: &str) -> bool {
    match address(name) {
        Some(ip) => NETWORKS.iter().any(|(network, bits)| lies_in(ip, *network, *bits)),
        None => NAMES.iter().any(|own| {
            name == *own || name.strip_suffix(own).is_some_and(|rest| rest.ends_with('.'))
        }),
    }
}

/// All that a server by these names is asked for as.
fn asked_for(names: &[String], own: Option<IpAddr>) -> Vec<String> {
    let here = ["localhost".to_owned(), "127.0.0.1".to_owned(), "::1".to_owned()];
    let given = names.iter().map(|name| match address(name) {
        Some(ip) => ip.to_string(),
        None => name.trim_end_matches('.').to_ascii_lowercase(),
    });
    let mut all: Vec<String> =
        here.into_iter().chain(given).chain(own.map(|ip| ip.to_string())).collect();
    all.sort();
    all.dedup();
    all
}

fn failed(e: impl core::fmt::Display) -> Trouble {
    Trouble::Here(format!("no certificate could be made: {e}"))
}

/// What an authority of these names is, apart from its key.
fn about(names: &[String]) -> Result<CertificateParams, Trouble> {
    let mut about = CertificateParams::default();
    about.distinguished_name = DistinguishedName::new();
    about.distinguished_name.push(DnType::CommonName, "Coneyard on this local network");
    about.is_ca = IsCa::Ca(BasicConstraints::Constrained(0));
    about.key_usages = vec![KeyUsagePurpose::KeyCertSign, KeyUsagePurpose::CrlSign];
    let networks = NETWORKS.iter().map(|(ip, bits)| CidrSubnet::from_addr_prefix(*ip, *bits));
    let given = names.iter().map(|name| match address(name) {
        Some(ip) => GeneralSubtree::IpAddress(CidrSubnet::from_addr_prefix(
            ip,
            if ip.is_ipv4() { 32 } else { 128 },
        )),
        None => GeneralSubtree::DnsName(name.clone()),
    });
    let permitted_subtrees = networks
        .map(GeneralSubtree::IpAddress)
        .chain(NAMES.iter().map(|name| GeneralSubtree::DnsName((*name).to_owned())))
        .chain(given)
        .collect();
    about.name_constraints =
        Some(NameConstraints { permitted_subtrees, excluded_subtrees: Vec::new() });
    (about.not_before, about.not_after) = from_now(AUTHORITY_DAYS);
    Ok(about)
}

/// From yesterday, since clocks differ, for so many days.
fn from_now(days: u32) -> (time::OffsetDateTime, time::OffsetDateTime) {
    let begins = SystemTime::now() - DAY;
    (begins.into(), (begins + DAY * days).into())
}

impl Authority {
    /// Reads it, or makes it where there is none.
    ///
    /// # Errors
    /// One sentence: the folder cannot be used, the file is none, or it was made for other names.
    pub(super) fn open(
        folder: &Path,
        names: &[String],
        own: Option<IpAddr>,
    ) -> Result<Self, Trouble> {
        let kept_in = folder.join(KEPT);
        let wanted: Vec<String> =
            asked_for(names, own).into_iter().filter(|name| !is_private(name)).collect();
        let authority = if kept_in.exists() {
            Self::read(&kept_in)?
        } else {
            Self::make(&kept_in, wanted.clone())?
        };
        match wanted.iter().find(|name| !authority.names.contains(name)) {
            None => Ok(authority),
            Some(name) => Err(Trouble::Here(format!(
                "{}: this authority was made for other names, and may not vouch for {name}: delete the file, \
                 start again, and let every device trust the new one",
                kept_in.display()
            ))),
        }
    }

    fn make(kept_in: &Path, names: Vec<String>) -> Result<Self, Trouble> {
        let key = KeyPair::generate().map_err(failed)?;
        let certificate = about(&names)?.self_signed(&key).map_err(failed)?.der().to_vec();
        let kept = Kept {
            format: FORM,
            names: names.clone(),
            certificate: hex(&certificate),
            key: key.serialize_pem(),
        };
        let text = serde_json::to_vec_pretty(&kept).map_err(failed)?;
        write_private(kept_in, &text)
            .map_err(|e| Trouble::with_path("cannot write", kept_in, &e))?;
        Ok(Self { kept_in: kept_in.to_owned(), names, certificate, key })
    }

    fn read(kept_in: &Path) -> Result<Self, Trouble> {
        let bytes = read_bounded(kept_in, KEPT_MOST)?;
        let none = |why: &dyn core::fmt::Display| {
            Trouble::Here(format!(
                "{}: this is no authority ({why}): put the right file back, or delete it, start again, \
                 and let every device trust the new one",
                kept_in.display()
            ))
        };
        let kept: Kept = serde_json::from_slice(&bytes).map_err(|e| none(&e))?;
        if kept.format != FORM {
            return Err(none(&format!("it has form {}", kept.format)));
        }
        let certificate = from_hex(&kept.certificate).ok_or_else(|| none(&"its certificate"))?;
        let key = KeyPair::from_pem(&kept.key).map_err(|e| none(&e))?;
        Ok(Self { kept_in: kept_in.to_owned(), names: kept.names, certificate, key })
    }

    /// Its certificate, DER.
    pub(super) fn certificate(&self) -> &[u8] {
        &self.certificate
    }

    /// The file that holds its key.
    pub(super) fn kept_in(&self) -> &Path {
        &self.kept_in
    }

    /// What it may vouch for besides private networks.
    pub(super) fn names(&self) -> &[String] {
        &self.names
    }

    /// A certificate for a server by these names with what stands above it, and its key as PKCS #8.
    ///
    /// # Errors
    /// One sentence when a name is none.
    pub(super) fn vouch(
        &self,
        names: &[String],
        own: Option<IpAddr>,
    ) -> Result<(Vec<CertificateDer<'static>>, Vec<u8>), Trouble> {
        let all = asked_for(names, own);
        let mut server = CertificateParams::new(all).map_err(failed)?;
        server.distinguished_name = DistinguishedName::new();
        server.distinguished_name.push(DnType::CommonName, "Coneyard");
        server.key_usages = vec![KeyUsagePurpose::DigitalSignature];
        server.extended_key_usages = vec![ExtendedKeyUsagePurpose::ServerAuth];
        server.use_authority_key_identifier_extension = true;
        (server.not_before, server.not_after) = from_now(SERVER_DAYS);
        let key = KeyPair::generate().map_err(failed)?;
        let issuer = Issuer::new(about(&self.names)?, &self.key);
        let certificate = server.signed_by(&key, &issuer).map_err(failed)?;
        let authority = CertificateDer::from(self.certificate.clone());
        Ok((vec![certificate.der().clone(), authority], key.serialize_der()))
    }
}

/// Writes a file that only this account may read, whole or not at all.
fn write_private(path: &Path, text: &[u8]) -> std::io::Result<()> {
    let beside = path.with_extension("new");
    let mut options = fs::OpenOptions::new();
    options.write(true).create(true).truncate(true);
    #[cfg(unix)]
    std::os::unix::fs::OpenOptionsExt::mode(&mut options, 0o600);
    let mut file = options.open(&beside)?;
    file.write_all(text)?;
    file.sync_all()?;
    fs::rename(&beside, path)
}
