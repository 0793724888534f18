//! What only some may know: tokens of sessions, codes of classes, passphrases.
//!
//! A token and a passphrase are random, never chosen, so that neither can be guessed: a token has 256 bits, a
//! passphrase 75. The store holds the BLAKE3 of a token and the Argon2id of a passphrase.

use argon2::password_hash::phc::PasswordHash;
use argon2::password_hash::{PasswordHasher, PasswordVerifier};
use argon2::{Algorithm, Argon2, Params, Version};

/// Signs that are not taken for one another when they are read aloud or off a projector.
const SIGNS: &[u8; 30] = b"23456789ABCDEFGHJKMNPQRSTVWXYZ";

/// Signs of a class's code: 30^6 is 7.3e8, and wrong ones are limited (`http::limits`).
const CODE: usize = 6;

/// Signs of a passphrase beside the code that it begins with: 15 times 4.9 bits.
const SECRET: usize = 15;

/// What an owner's passphrase begins with; no code has this length.
const OWNER: &str = "OWNER";

/// This computer gives no random numbers: nothing may go on.
#[derive(Debug)]
pub struct NoChance(String);

impl core::fmt::Display for NoChance {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        write!(f, "this computer gives no random numbers ({}): try again later", self.0)
    }
}

fn random<const N: usize>() -> Result<[u8; N], NoChance> {
    let mut bytes = [0; N];
    getrandom::fill(&mut bytes).map_err(|e| NoChance(e.to_string()))?;
    Ok(bytes)
}

fn hex(bytes: &[u8]) -> String {
    bytes.iter().map(|byte| format!("{byte:02x}")).collect()
}

/// A name for a record that nobody can guess, 32 signs.
///
/// # Errors
/// No random numbers.
pub fn id() -> Result<String, NoChance> {
    random::<16>().map(|bytes| hex(&bytes))
}

/// A session's token, 64 signs.
///
/// # Errors
/// No random numbers.
pub fn token() -> Result<String, NoChance> {
    random::<32>().map(|bytes| hex(&bytes))
}

/// A token as the store holds it. It is as random as the hash is long, so one round is enough.
pub fn of_token(token: &str) -> String {
    blake3::hash(token.as_bytes()).to_hex().to_string()
}

fn signs(count: usize) -> Result<String, NoChance> {
    let mut text = String::with_capacity(count);
    while text.len() < count {
        // 240 is the highest multiple of 30 in a byte: what lies above would favour the first signs.
        for byte in random::<32>()?.into_iter().filter(|byte| *byte < 240) {
            if text.len() < count {
                text.push(char::from(SIGNS[usize::from(byte) % SIGNS.len()]));
            }
        }
    }
    Ok(text)
}

/// A class's code.
///
/// # Errors
/// No random numbers.
pub fn code() -> Result<String, NoChance> {
    signs(CODE)
}

/// A trainer's passphrase: the class's code, so that one knows whose it is, and what is secret.
///
/// # Errors
/// No random numbers.
pub fn passphrase(code: &str) -> Result<String, NoChance> {
    let secret = signs(SECRET)?;
    Ok(format!("{code}-{}-{}-{}", &secret[..5], &secret[5..10], &secret[10..]))
}

/// An owner's passphrase.
///
/// # Errors
/// No random numbers.
pub fn owner_passphrase() -> Result<String, NoChance> {
    passphrase(OWNER)
}

/// A code or passphrase in its one form: how it is typed does not matter.
pub fn plain(typed: &str) -> String {
    typed.chars().filter(char::is_ascii_alphanumeric).collect::<String>().to_ascii_uppercase()
}

/// Whose passphrase it says it is.
#[derive(Debug, PartialEq, Eq)]
pub enum Whose {
    /// The owner's.
    Owner,
    /// A trainer's of the class with this code.
    Trainer(String),
}

/// Reads a passphrase's first part; None for what no passphrase looks like.
pub fn whose(typed: &str) -> Option<Whose> {
    let plain = plain(typed);
    let code = plain.len().checked_sub(SECRET).map(|end| &plain[..end])?;
    match code {
        OWNER => Some(Whose::Owner),
        code if code.len() == CODE => Some(Whose::Trainer(code.to_owned())),
        _ => None,
    }
}

/// 19 MiB, 2 rounds, 1 lane: common practice for Argon2id where many may sign in at once.
fn argon2() -> Argon2<'static> {
    let params = Params::new(19 * 1024, 2, 1, None).unwrap_or_default();
    Argon2::new(Algorithm::Argon2id, Version::V0x13, params)
}

/// A passphrase as the store holds it.
///
/// # Errors
/// No random numbers.
pub fn of_passphrase(typed: &str) -> Result<String, NoChance> {
    let salt = random::<16>()?;
    argon2()
        .hash_password_with_salt(plain(typed).as_bytes(), &salt)
        .map(|hash| hash.to_string())
        .map_err(|e| NoChance(e.to_string()))
}

/// Whether it is this passphrase. Takes as long for a wrong one.
pub fn is_passphrase(typed: &str, kept: &str) -> bool {
    PasswordHash::new(kept)
        .is_ok_and(|kept| argon2().verify_password(plain(typed).as_bytes(), &kept).is_ok())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_passphrase_is_known_again_however_it_is_typed_and_no_other_is() {
        let code = code().unwrap();
        let said = passphrase(&code).unwrap();
        let kept = of_passphrase(&said).unwrap();
        assert!(kept.starts_with("$argon2id$"), "{kept}");
        assert!(is_passphrase(&said, &kept));
        assert!(is_passphrase(&said.to_lowercase().replace('-', " "), &kept));
        assert!(!is_passphrase(&passphrase(&code).unwrap(), &kept));
        assert!(!is_passphrase("", &kept) && !is_passphrase(&said, "nonsense"));
        assert_eq!(whose(&said), Some(Whose::Trainer(code)));
        assert_eq!(whose(&owner_passphrase().unwrap()), Some(Whose::Owner));
        for none in ["", "K", "ABC-ABCDE-ABCDE-ABCDE", "ÄÖÜ"] {
            assert_eq!(whose(none), None, "{none}");
        }
    }

    #[test]
    fn the_same_passphrase_is_never_kept_the_same_way_twice() {
        assert_ne!(of_passphrase("x").unwrap(), of_passphrase("x").unwrap());
    }

    #[test]
    fn codes_use_every_sign_about_as_often() {
        let mut counts = [0_u32; 30];
        for sign in signs(30_000).unwrap().bytes() {
            counts[SIGNS.iter().position(|s| *s == sign).unwrap()] += 1;
        }
        // 1000 each, standard deviation 31.
        assert!(counts.iter().all(|count| (840..1160).contains(count)), "{counts:?}");
        assert_ne!(token().unwrap(), token().unwrap());
        assert_eq!(token().unwrap().len(), 64);
    }
}
