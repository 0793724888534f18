//! A slow line between browser and server: whatever asks through it, the page or its service worker, waits as
//! long and shares the same bytes a second. The browser's own means slow the page alone.

use std::net::SocketAddr;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::time::Duration;

use tokio::io::{AsyncReadExt, AsyncWriteExt};
use tokio::net::tcp::{OwnedReadHalf, OwnedWriteHalf};
use tokio::net::{TcpListener, TcpStream};
use tokio::sync::{Mutex, mpsc};
use tokio::time::{Instant, sleep_until};

/// Bytes that travel at a time: as many as an Ethernet frame takes.
const PARCEL: usize = 1460;

/// A line of this kind that is open as long as this value lives.
pub struct Line {
    /// Where the browser finds the server behind the line.
    pub address: String,
    slow: Arc<AtomicBool>,
    task: tokio::task::JoinHandle<()>,
}

impl Drop for Line {
    fn drop(&mut self) {
        self.task.abort();
    }
}

/// What all connections share in one direction: when the next parcel may be sent.
#[derive(Clone)]
struct Rate {
    bytes_a_second: f64,
    /// From a request to its answer.
    there_and_back: Duration,
    slow: Arc<AtomicBool>,
    free_from: Arc<Mutex<Instant>>,
}

impl Rate {
    /// How long something is under way, as a part of the way there and back.
    fn under_way(&self, part: f64) -> Duration {
        let slow = self.slow.load(Ordering::Relaxed);
        if slow { self.there_and_back.mul_f64(part) } else { Duration::ZERO }
    }

    /// Waits for this many bytes' turn.
    async fn pass(&self, bytes: usize) {
        if !self.slow.load(Ordering::Relaxed) {
            return;
        }
        let mut free_from = self.free_from.lock().await;
        let begun = (*free_from).max(Instant::now());
        *free_from = begun + Duration::from_secs_f64(bytes as f64 / self.bytes_a_second);
        let until = *free_from;
        // The next one waits in its turn, so the lock is held meanwhile.
        sleep_until(until).await;
    }
}

impl Line {
    /// A line to this server, `http://localhost:PORT`: so many bits a second for everything that comes, and
    /// this time from a request to its answer.
    pub async fn open(server: &str, bits_a_second: f64, there_and_back: Duration) -> Self {
        let port = server.rsplit(':').next().and_then(|port| port.parse::<u16>().ok());
        let server = SocketAddr::from(([127, 0, 0, 1], port.expect("an address with a port")));
        let listener = TcpListener::bind("127.0.0.1:0").await.expect("a free port");
        let here = listener.local_addr().expect("a listener has an address");
        let slow = Arc::new(AtomicBool::new(true));
        let rate = || Rate {
            bytes_a_second: bits_a_second / 8.0,
            there_and_back,
            slow: Arc::clone(&slow),
            free_from: Arc::new(Mutex::new(Instant::now())),
        };
        let (up, down) = (rate(), rate());
        let task = tokio::spawn(async move {
            while let Ok((browser, _)) = listener.accept().await {
                let (up, down) = (up.clone(), down.clone());
                tokio::spawn(async move {
                    // Opening a connection takes its way there and back as well.
                    tokio::time::sleep(up.under_way(1.0)).await;
                    let Ok(server) = TcpStream::connect(server).await else {
                        return;
                    };
                    let (from_browser, to_browser) = browser.into_split();
                    let (from_server, to_server) = server.into_split();
                    tokio::join!(
                        carry(from_browser, to_server, up),
                        carry(from_server, to_browser, down),
                    );
                });
            }
        });
        Self { address: format!("http://localhost:{}", here.port()), slow, task }
    }

    /// Lets everything pass at once, or makes it slow again.
    pub fn set_slow(&self, slow: bool) {
        self.slow.store(slow, Ordering::Relaxed);
    }
}

/// Carries everything, each parcel at its rate and then so much later.
async fn carry(mut from: OwnedReadHalf, mut to: OwnedWriteHalf, rate: Rate) {
    let (send, mut sent) = mpsc::channel::<(Instant, Vec<u8>)>(4096);
    let take = async {
        let mut parcel = [0; PARCEL];
        while let Ok(read @ 1..) = from.read(&mut parcel).await {
            rate.pass(read).await;
            if send
                .send((Instant::now() + rate.under_way(0.5), parcel[..read].to_vec()))
                .await
                .is_err()
            {
                return;
            }
        }
        drop(send);
    };
    let give = async {
        while let Some((due, parcel)) = sent.recv().await {
            sleep_until(due).await;
            if to.write_all(&parcel).await.is_err() {
                return;
            }
        }
        // A connection that its other end has closed is closed here as well.
        let _ = to.shutdown().await;
    };
    tokio::join!(take, give);
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The line is as slow as it says, or the network table would measure nothing.
    #[tokio::test(flavor = "multi_thread")]
    async fn a_line_takes_its_time() {
        let listener = TcpListener::bind("127.0.0.1:0").await.unwrap();
        let server = format!("http://localhost:{}", listener.local_addr().unwrap().port());
        tokio::spawn(async move {
            while let Ok((mut stream, _)) = listener.accept().await {
                tokio::spawn(async move {
                    let _ = stream.read(&mut [0; 100]).await;
                    let _ = stream.write_all(&[7; 50_000]).await;
                });
            }
        });
        let round = Duration::from_millis(400);
        let line = Line::open(&server, 400_000.0, round).await;
        let address = line.address.replace("http://localhost", "127.0.0.1");
        let begun = Instant::now();
        let ask = async || {
            let mut stream = TcpStream::connect(&address).await.unwrap();
            stream.write_all(b"?").await.unwrap();
            let mut first = [0];
            stream.read_exact(&mut first).await.unwrap();
            let answered = begun.elapsed();
            let mut all = Vec::new();
            stream.read_to_end(&mut all).await.unwrap();
            assert_eq!(all.len(), 49_999);
            answered
        };
        let (one, other) = tokio::join!(ask(), ask());
        // Opened there and back, asked there and back.
        assert!(one.min(other) >= round * 2, "{one:?} {other:?}");
        // Two answers of a second each share the line.
        let all = begun.elapsed();
        assert!(all >= round * 2 + Duration::from_millis(1900), "{all:?}");
        assert!(all < round * 2 + Duration::from_millis(4000), "{all:?}");
    }
}
