//! Connections: how many there may be, and how long one that keeps still is waited for. A connection that is
//! opened and then left, or that takes nothing of its answer, must not hold a place for ever.

use std::future::Future;
use std::io;
use std::pin::Pin;
use std::sync::Arc;
use std::task::{Context, Poll, ready};
use std::time::Duration;

use axum::Router;
use axum::extract::{ConnectInfo, Extension};
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::service::TowerToHyperService;
use tokio::io::{AsyncRead, AsyncWrite, ReadBuf};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::{Semaphore, watch};
use tokio::time::Sleep;

use crate::hosts::CameInAt;

/// What connections are allowed.
#[derive(Clone, Copy, Debug)]
pub struct Limits {
    /// Longest wait for the whole head of a request, also of one that is not begun.
    pub head: Duration,
    /// Longest time in which nothing of an answer is taken.
    pub taken: Duration,
    /// Connections at a time; more wait until one ends. A browser has six.
    pub connections: usize,
}

impl Default for Limits {
    fn default() -> Self {
        Self { head: Duration::from_secs(20), taken: Duration::from_secs(30), connections: 1024 }
    }
}

/// A listener that cannot take a connection now tries again after this time: it has run out of something that
/// other connections will give back.
const OUT_OF_BREATH: Duration = Duration::from_millis(200);

/// What is being answered when the end comes is answered to its end, for so long.
const LAST: Duration = Duration::from_secs(10);

/// What stands between a connection and its answers.
#[derive(Clone)]
pub enum Door {
    /// Nothing.
    Open,
    /// Encryption; who comes without it is told to come to this address.
    #[cfg(feature = "tls")]
    Locked(tokio_rustls::TlsAcceptor, Arc<str>),
}

/// Answers until `end` comes, and then what is begun already.
pub async fn serve(
    listener: TcpListener,
    site: Router,
    limits: Limits,
    door: Door,
    end: impl Future<Output = ()>,
) {
    let places = Arc::new(Semaphore::new(limits.connections));
    let (ends, ending) = watch::channel(false);
    let accept = async {
        loop {
            let Ok(place) = Arc::clone(&places).acquire_owned().await else {
                return;
            };
            match listener.accept().await {
                Ok((stream, _)) => {
                    let (site, door, ending) = (site.clone(), door.clone(), ending.clone());
                    tokio::spawn(async move {
                        come_in(stream, site, limits, door, ending).await;
                        drop(place);
                    });
                }
                Err(_) => tokio::time::sleep(OUT_OF_BREATH).await,
            }
        }
    };
    tokio::select! {
        () = accept => {}
        () = end => {}
    }
    // Nobody may be connected.
    let _ = ends.send(true);
    let all = u32::try_from(limits.connections).unwrap_or(u32::MAX);
    let _ = tokio::time::timeout(LAST, places.acquire_many(all)).await;
}

async fn come_in(
    stream: TcpStream,
    site: Router,
    limits: Limits,
    door: Door,
    ending: watch::Receiver<bool>,
) {
    // One that is gone already needs no answer.
    let (Ok(address), Ok(from)) = (stream.local_addr(), stream.peer_addr()) else {
        return;
    };
    let site = site.layer(Extension(CameInAt(address.ip()))).layer(Extension(ConnectInfo(from)));
    let stream = Watched { stream, patience: limits.taken, waiting: None };
    match door {
        Door::Open => answer(stream, site, limits, ending).await,
        #[cfg(feature = "tls")]
        Door::Locked(lock, address) => {
            let shaken = locked::shake(stream, &lock, &address);
            // Whoever opens a connection and keeps still, or is no browser, is not waited for.
            if let Ok(Some(stream)) = tokio::time::timeout(limits.head, shaken).await {
                answer(stream, site, limits, ending).await;
            }
        }
    }
}

async fn answer(
    stream: impl AsyncRead + AsyncWrite + Unpin + Send + 'static,
    site: Router,
    limits: Limits,
    mut ending: watch::Receiver<bool>,
) {
    // What goes wrong with one connection is for whoever is at its other end to notice.
    let connection = http1::Builder::new()
        .timer(TokioTimer::new())
        .header_read_timeout(limits.head)
        .serve_connection(TokioIo::new(stream), TowerToHyperService::new(site));
    let mut connection = std::pin::pin!(connection);
    tokio::select! {
        _ = connection.as_mut() => return,
        _ = ending.wait_for(|ends| *ends) => connection.as_mut().graceful_shutdown(),
    }
    let _ = connection.await;
}

/// A connection that fails when what is written to it is not taken for too long.
struct Watched {
    stream: TcpStream,
    patience: Duration,
    /// Runs while something waits to be taken.
    waiting: Option<Pin<Box<Sleep>>>,
}

impl Watched {
    /// Hands on what came of writing; in time, or not at all.
    fn in_time<T>(
        &mut self,
        context: &mut Context<'_>,
        written: Poll<io::Result<T>>,
    ) -> Poll<io::Result<T>> {
        if written.is_ready() {
            self.waiting = None;
            return written;
        }
        let patience = self.patience;
        let waiting = self.waiting.get_or_insert_with(|| Box::pin(tokio::time::sleep(patience)));
        ready!(waiting.as_mut().poll(context));
        Poll::Ready(Err(io::ErrorKind::TimedOut.into()))
    }
}

impl AsyncRead for Watched {
    fn poll_read(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        into: &mut ReadBuf<'_>,
    ) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_read(context, into)
    }
}

impl AsyncWrite for Watched {
    fn poll_write(
        mut self: Pin<&mut Self>,
        context: &mut Context<'_>,
        bytes: &[u8],
    ) -> Poll<io::Result<usize>> {
        let written = Pin::new(&mut self.stream).poll_write(context, bytes);
        self.in_time(context, written)
    }

    fn poll_flush(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_flush(context)
    }

    fn poll_shutdown(mut self: Pin<&mut Self>, context: &mut Context<'_>) -> Poll<io::Result<()>> {
        Pin::new(&mut self.stream).poll_shutdown(context)
    }
}

/// Connections that are encrypted.
#[cfg(feature = "tls")]
mod locked {
    use tokio::io::{AsyncReadExt, AsyncWriteExt};
    use tokio_rustls::TlsAcceptor;
    use tokio_rustls::server::TlsStream;

    use super::Watched;

    /// The first byte of a handshake (RFC 8446, 5.1).
    const HANDSHAKE: u8 = 0x16;

    /// Agrees on encryption; None when nothing comes of it.
    pub(super) async fn shake(
        mut stream: Watched,
        lock: &TlsAcceptor,
        address: &str,
    ) -> Option<TlsStream<Watched>> {
        let mut first = [0];
        match stream.stream.peek(&mut first).await {
            Ok(1) if first == [HANDSHAKE] => lock.accept(stream).await.ok(),
            Ok(1) => {
                tell(&mut stream, address).await;
                None
            }
            _ => None,
        }
    }

    /// Someone who left out the s of https would only see that something was reset.
    async fn tell(stream: &mut Watched, address: &str) {
        let said = format!("The yard is opened by https here: {address}\n");
        let answer = format!(
            "HTTP/1.1 400 Bad Request\r\nContent-Type: text/plain; charset=utf-8\r\nContent-Length: {}\r\n\
             Connection: close\r\n\r\n{said}",
            said.len()
        );
        if stream.write_all(answer.as_bytes()).await.is_err() || stream.shutdown().await.is_err() {
            return;
        }
        // What was asked is read, so that the answer is not lost to a reset. The caller's patience ends it.
        let mut asked = [0; 1024];
        while stream.read(&mut asked).await.is_ok_and(|read| read > 0) {}
    }
}

#[cfg(test)]
mod tests {
    use std::time::Instant;

    use tokio::io::{AsyncReadExt, AsyncWriteExt};

    use super::*;

    const SHORT: Duration = Duration::from_millis(300);
    const WHOLE: &[u8] = b"GET / HTTP/1.1\r\nHost: localhost\r\n\r\n";

    /// Serves a large answer with short patience; where.
    async fn served(connections: usize) -> std::net::SocketAddr {
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        let address = listener.local_addr().unwrap();
        let large = || async { vec![7_u8; 64 << 20] };
        let site = Router::new()
            .route("/", axum::routing::get(|| async { "the yard" }))
            .route("/large", axum::routing::get(large));
        let limits = Limits { head: SHORT, taken: SHORT, connections };
        tokio::spawn(serve(listener, site, limits, Door::Open, std::future::pending()));
        address
    }

    /// What comes until the connection ends, and after which time.
    async fn rest(stream: &mut TcpStream) -> (String, Duration) {
        let begun = Instant::now();
        let mut all = Vec::new();
        let ended = tokio::time::timeout(SHORT * 20, stream.read_to_end(&mut all)).await;
        assert!(ended.is_ok(), "the connection is ended");
        (String::from_utf8_lossy(&all).into_owned(), begun.elapsed())
    }

    #[tokio::test]
    async fn a_head_that_does_not_come_is_not_waited_for() {
        let address = served(8).await;
        for half in [&b""[..], b"G", b"GET / HTTP/1.1\r\nHost: local"] {
            let mut stream = TcpStream::connect(address).await.unwrap();
            stream.write_all(half).await.unwrap();
            let (_, after) = rest(&mut stream).await;
            assert!(after >= SHORT / 2, "{after:?}");
        }
    }

    #[tokio::test]
    async fn a_head_that_comes_byte_by_byte_is_waited_for_only_so_long() {
        let address = served(8).await;
        let mut stream = TcpStream::connect(address).await.unwrap();
        let begun = Instant::now();
        while begun.elapsed() < SHORT * 20 {
            if stream.write_all(b"a").await.is_err() {
                return;
            }
            tokio::time::sleep(SHORT / 10).await;
        }
        panic!("it is still waited for");
    }

    #[tokio::test]
    async fn an_answer_that_nobody_takes_gives_its_place_back() {
        let address = served(1).await;
        let mut greedy = TcpStream::connect(address).await.unwrap();
        greedy.write_all(b"GET /large HTTP/1.1\r\nHost: localhost\r\n\r\n").await.unwrap();
        // There is one place, and it is taken.
        let mut other = TcpStream::connect(address).await.unwrap();
        other.write_all(WHOLE).await.unwrap();
        let (said, after) = rest(&mut other).await;
        assert!(said.starts_with("HTTP/1.1 200") && said.ends_with("the yard"), "{said}");
        assert!(after >= SHORT / 2, "{after:?}");
    }

    #[tokio::test]
    async fn whoever_reads_slowly_but_reads_gets_everything() {
        let address = served(8).await;
        let mut slow = TcpStream::connect(address).await.unwrap();
        slow.write_all(b"GET /large HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n")
            .await
            .unwrap();
        let mut part = vec![0; 8 << 20];
        let mut got = 0;
        loop {
            match slow.read(&mut part).await.unwrap() {
                0 => break,
                more => got += more,
            }
            tokio::time::sleep(SHORT / 30).await;
        }
        assert!(got > 64 << 20, "{got}");
    }
}
