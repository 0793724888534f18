//! What a person must do so that devices trust the yard.

use ring::digest::{SHA256, digest};

use super::CERTIFICATE;
use super::authority::Authority;

/// SHA-256 as browsers and phones show it.
fn fingerprint(certificate: &[u8]) -> String {
    let bytes = digest(&SHA256, certificate);
    let pairs: Vec<String> = bytes.as_ref().iter().map(|byte| format!("{byte:02X}")).collect();
    pairs.join(":")
}

/// All of it. Where menus stand is from memory, and they move.
pub(super) fn text(authority: &Authority, page: &str) -> String {
    let besides = match authority.names() {
        [] => String::new(),
        names => format!(" and for {}", names.join(", ")),
    };
    format!(
        "Connections are encrypted. Every device must trust this computer once; until then it warns, keeps nothing for \
         use without network, and takes no gamepad:\n\
         \x20 1. On the device open {page}{CERTIFICATE}, past the warning this once. Compare its SHA-256:\n\
         \x20    {}\n\
         \x20 2. Trust it, for websites only. Windows: open it, install, \"Trusted Root Certification Authorities\".\n\
         \x20    Android: Settings, Security, install a certificate, CA certificate. iPad and iPhone: Settings, profile\n\
         \x20    downloaded, install; then General, About, Certificate Trust Settings. Mac: Keychain Access, Always\n\
         \x20    Trust. Linux, and Firefox anywhere: the browser's settings, certificates, authorities, import.\n\
         \x20 3. Open {page}.\n\
         It vouches for addresses of private networks{besides}, and for nothing else. Its key is in {}: whoever has that\n\
         file can pose as this computer there. When no class needs it any more, delete it and take it off the devices.",
        fingerprint(authority.certificate()),
        authority.kept_in().display(),
    )
}
