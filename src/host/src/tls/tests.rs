use std::net::SocketAddr;
use std::time::{Duration, Instant};

use tempfile::TempDir;
use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tokio::net::{TcpListener, TcpStream};
use tokio_rustls::TlsConnector;
use tokio_rustls::rustls::pki_types::{CertificateDer, ServerName};
use tokio_rustls::rustls::{ClientConfig, RootCertStore};

use super::*;
use crate::listen::{self, Door, Limits};

const SHORT: Duration = Duration::from_millis(300);

fn names(names: &[&str]) -> Vec<String> {
    names.iter().map(|name| (*name).to_owned()).collect()
}

fn sentence(opened: Result<Tls, Trouble>) -> String {
    match opened {
        Ok(_) => panic!("it is opened"),
        Err(trouble) => trouble.to_string(),
    }
}

/// Serves one page by this encryption; where.
async fn served(tls: &Tls) -> SocketAddr {
    let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
    let address = listener.local_addr().unwrap();
    let site = Router::new().route("/", get(|| async { "the yard" })).merge(tls.routes());
    let limits = Limits { head: SHORT, taken: SHORT, connections: 8 };
    let door = Door::Locked(tls.acceptor(), "https://yard.test:1".into());
    tokio::spawn(listen::serve(listener, site, limits, door, std::future::pending()));
    address
}

/// What a device that trusts this certificate, or none, gets when it asks for a path by a name.
async fn got(
    address: SocketAddr,
    name: &str,
    trusts: Option<&[u8]>,
    path: &str,
) -> Result<String, String> {
    let mut roots = RootCertStore::empty();
    if let Some(certificate) = trusts {
        roots.add(CertificateDer::from(certificate.to_vec())).unwrap();
    }
    let config = ClientConfig::builder_with_provider(Arc::new(ring::default_provider()))
        .with_safe_default_protocol_versions()
        .unwrap()
        .with_root_certificates(roots)
        .with_no_client_auth();
    let stream = TcpStream::connect(address).await.unwrap();
    let name = ServerName::try_from(name.to_owned()).unwrap();
    let connector = TlsConnector::from(Arc::new(config));
    let mut stream = connector.connect(name, stream).await.map_err(|e| e.to_string())?;
    let asked = format!("GET {path} HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n");
    stream.write_all(asked.as_bytes()).await.unwrap();
    let mut answer = Vec::new();
    // What comes is what counts; how the connection is ended is another matter.
    let _ = stream.read_to_end(&mut answer).await;
    Ok(String::from_utf8_lossy(&answer).into_owned())
}

#[tokio::test]
async fn who_trusts_the_authority_trusts_this_computer_by_all_its_names_and_by_no_other() {
    let folder = TempDir::new().unwrap();
    let own = Some("192.168.7.7".parse().unwrap());
    let tls = Tls::open(folder.path(), &names(&["Yard.Local", "pallets.example"]), own).unwrap();
    let address = served(&tls).await;
    let authority = tls.authority.certificate();
    for name in ["localhost", "127.0.0.1", "::1", "192.168.7.7", "yard.local", "pallets.example"] {
        let answer = got(address, name, Some(authority), "/").await;
        assert!(answer.as_ref().is_ok_and(|a| a.ends_with("the yard")), "{name}: {answer:?}");
    }
    for name in ["192.168.7.8", "other.local", "pallets.example.org", "example"] {
        assert!(got(address, name, Some(authority), "/").await.is_err(), "{name}");
    }
    assert!(got(address, "localhost", None, "/").await.is_err(), "nobody is trusted unasked");
}

#[tokio::test]
async fn a_device_that_trusts_it_once_trusts_every_later_start() {
    let folder = TempDir::new().unwrap();
    let first = Tls::open(folder.path(), &[], None).unwrap().authority.certificate().to_vec();
    let later = Tls::open(folder.path(), &names(&["yard.local"]), None).unwrap();
    assert_eq!(later.authority.certificate(), first, "a private name needs no new one");
    let address = served(&later).await;
    assert!(got(address, "yard.local", Some(&first), "/").await.is_ok());
    let taken = got(address, "localhost", Some(&first), CERTIFICATE).await.unwrap();
    assert!(taken.contains("application/x-x509-ca-cert"), "{taken}");

    let other = TempDir::new().unwrap();
    let other = Tls::open(other.path(), &[], None).unwrap();
    let stranger = got(served(&other).await, "localhost", Some(&first), "/").await;
    assert!(stranger.is_err(), "another computer's authority is another one");
}

/// A stolen key is good for private networks and the names it was made for, and for nobody else.
#[tokio::test]
async fn the_authority_cannot_vouch_for_the_internet() {
    let folder = TempDir::new().unwrap();
    let tls = Tls::open(folder.path(), &[], None).unwrap();
    // The certificates as a thief makes them: nothing of ours asks whether they may be.
    for (name, is_taken) in [
        ("example.org", false),
        ("93.184.215.14", false),
        ("172.15.255.255", false),
        ("172.32.0.0", false),
        ("172.16.0.0", true),
        ("172.31.255.255", true),
        ("yard.internal", true),
    ] {
        let (chain, key) = tls.authority.vouch(&names(&[name]), None).unwrap();
        let config = ServerConfig::builder_with_provider(Arc::new(ring::default_provider()))
            .with_safe_default_protocol_versions()
            .unwrap()
            .with_no_client_auth()
            .with_single_cert(chain, PrivatePkcs8KeyDer::from(key).into())
            .unwrap();
        let thief = Tls {
            authority: Authority::open(folder.path(), &[], None).unwrap(),
            accepts: TlsAcceptor::from(Arc::new(config)),
        };
        let address = served(&thief).await;
        let answer = got(address, name, Some(tls.authority.certificate()), "/").await;
        assert_eq!(answer.is_ok(), is_taken, "{name}: {answer:?}");
    }
}

#[test]
fn a_name_that_it_was_not_made_for_is_refused_with_what_to_do() {
    let folder = TempDir::new().unwrap();
    let public = Some("192.0.2.7".parse().unwrap());
    Tls::open(folder.path(), &names(&["yard.example"]), public).unwrap();
    assert!(Tls::open(folder.path(), &names(&["YARD.example."]), public).is_ok());
    assert!(Tls::open(folder.path(), &[], None).is_ok());
    for (asked, own) in
        [(names(&["yards.example"]), None), (names(&[]), Some("192.0.2.8".parse().unwrap()))]
    {
        let said = sentence(Tls::open(folder.path(), &asked, own));
        assert!(said.contains("delete the file") && said.contains("authority.json"), "{said}");
    }
}

#[test]
fn the_key_is_for_this_account_alone_and_a_spoilt_file_is_told() {
    let folder = TempDir::new().unwrap();
    Tls::open(folder.path(), &[], None).unwrap();
    let file = folder.path().join("authority.json");
    #[cfg(unix)]
    {
        use std::os::unix::fs::PermissionsExt;
        let mode = std::fs::metadata(&file).unwrap().permissions().mode();
        assert_eq!(mode & 0o777, 0o600);
    }
    let text = std::fs::read_to_string(&file).unwrap();
    let spoilt = [
        String::new(),
        text[..text.len() / 2].to_owned(),
        text.replace("\"format\": 1", "\"format\": 2"),
        text.replace("-----BEGIN", "-----BEGUN"),
        text.replace("\"certificate\": \"30", "\"certificate\": \"3é"),
    ];
    for spoilt in spoilt {
        std::fs::write(&file, &spoilt).unwrap();
        let said = sentence(Tls::open(folder.path(), &[], None));
        assert!(said.contains("this is no authority") && said.lines().count() == 1, "{said}");
        assert_eq!(std::fs::read_to_string(&file).unwrap(), spoilt, "it is left as it is");
    }
}

#[tokio::test]
async fn who_leaves_out_the_s_is_told_and_who_keeps_still_is_not_waited_for() {
    let folder = TempDir::new().unwrap();
    let tls = Tls::open(folder.path(), &[], None).unwrap();
    let address = served(&tls).await;
    let all = async |sent: &[u8]| {
        let mut stream = TcpStream::connect(address).await.unwrap();
        stream.write_all(sent).await.unwrap();
        let begun = Instant::now();
        let mut all = Vec::new();
        // A reset is an end too.
        let ended = tokio::time::timeout(SHORT * 20, stream.read_to_end(&mut all)).await;
        assert!(ended.is_ok(), "it is ended");
        (String::from_utf8_lossy(&all).into_owned(), begun.elapsed())
    };
    let (told, _) = all(b"GET / HTTP/1.1\r\nHost: localhost\r\n\r\n").await;
    assert!(told.starts_with("HTTP/1.1 400") && told.contains("https://yard.test:1"), "{told}");
    for still in [&b""[..], &[0x16], &[0x16, 3, 1, 2]] {
        let (told, after) = all(still).await;
        assert!(told.is_empty() && after >= SHORT / 2, "{told:?} after {after:?}");
    }
}

#[test]
fn the_screen_says_the_address_and_the_fingerprint_that_others_work_out() {
    let folder = TempDir::new().unwrap();
    let tls = Tls::open(folder.path(), &names(&["yard.example"]), None).unwrap();
    let screen = tls.screen("https://192.168.7.7:8137");
    assert!(screen.contains("https://192.168.7.7:8137/authority.crt"), "{screen}");
    assert!(screen.contains("and for yard.example"), "{screen}");
    assert!(screen.lines().count() <= 12, "one screen");
    let fingerprint = screen.lines().nth(2).unwrap().trim();
    assert_eq!(fingerprint.len(), 32 * 3 - 1, "{fingerprint}");
    // OpenSSL works it out as well, where it is there to be asked.
    let file = folder.path().join("authority.crt");
    std::fs::write(&file, tls.authority.certificate()).unwrap();
    let asked = std::process::Command::new("openssl")
        .args(["x509", "-inform", "DER", "-noout", "-fingerprint", "-sha256", "-in"])
        .arg(&file)
        .output();
    if let Ok(said) = asked {
        let said = String::from_utf8_lossy(&said.stdout).into_owned();
        assert!(said.contains(fingerprint), "{said}");
    }
}
