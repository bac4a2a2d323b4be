//! Serving on the loopback address, until Ctrl-C or a word from the page.

use super::crowd::Crowd;
use super::desk::Desk;
use super::door::Door;
use super::room::Room;
use super::routes;
use axum::{Extension, Router};
use hyper::server::conn::http1;
use hyper_util::rt::{TokioIo, TokioTimer};
use hyper_util::service::TowerToHyperService;
use std::io;
use std::net::{Ipv4Addr, TcpListener};
use std::sync::Arc;
use std::time::Duration;
use tokio::net::TcpStream;

/// Slower heads of requests are not waited for.
const SLOWEST_HEAD: Duration = Duration::from_secs(10);
/// Longer heads are refused, bytes.
const LONGEST_HEAD: usize = 32 * 1024;

/// A place that is listened at, with the word that opens it.
pub(crate) struct Listening {
    listener: TcpListener,
    port: u16,
    token: String,
}

impl Listening {
    /// Takes a port of the loopback address; any that is free without one.
    ///
    /// # Errors
    /// Where the port is taken.
    pub(crate) fn at(port: Option<u16>) -> io::Result<Self> {
        let listener = TcpListener::bind((Ipv4Addr::LOCALHOST, port.unwrap_or(0)))?;
        let port = listener.local_addr()?.port();
        let mut chance = [0u8; 32];
        getrandom::fill(&mut chance).map_err(|e| io::Error::other(e.to_string()))?;
        let token = chance.iter().map(|byte| format!("{byte:02x}")).collect();
        Ok(Self { listener, port, token })
    }

    /// What a browser opens. What stands behind # is sent to nobody.
    pub(crate) fn address(&self) -> String {
        format!("http://127.0.0.1:{}/#{}", self.port, self.token)
    }
}

/// Serves until it is told to stop; `ready` is called when it hears that.
///
/// # Errors
/// Where the machine gives neither threads nor sockets.
pub(crate) fn serve(at: Listening, desk: Desk, ready: impl FnOnce()) -> io::Result<()> {
    let Listening { listener, port, token } = at;
    let room = Room::with(desk);
    let app = routes::all(Arc::clone(&room), Arc::new(Door::new(port, &token)));
    let runtime = tokio::runtime::Builder::new_multi_thread().worker_threads(2).enable_all().build()?;
    runtime.block_on(async {
        listener.set_nonblocking(true)?;
        let listener = tokio::net::TcpListener::from_std(listener)?;
        let crowd = Arc::new(Crowd::default());
        let mut ending = std::pin::pin!(told_to_stop()?);
        ready();
        loop {
            tokio::select! {
                come = listener.accept() => match come {
                    Ok((stream, _)) => welcome(stream, &crowd, &app),
                    // Too many open files, for one: it passes.
                    Err(_) => tokio::time::sleep(Duration::from_millis(20)).await,
                },
                () = room.stop.notified() => break,
                () = &mut ending => break,
            }
        }
        // What was asked last is answered.
        tokio::time::sleep(Duration::from_millis(50)).await;
        Ok::<(), io::Error>(())
    })?;
    runtime.shutdown_timeout(Duration::from_millis(200));
    Ok(())
}

fn welcome(stream: TcpStream, crowd: &Arc<Crowd>, app: &Router) {
    let Some(visit) = crowd.enter() else { return };
    // Small answers go out at once.
    let _ = stream.set_nodelay(true);
    let service = TowerToHyperService::new(app.clone().layer(Extension(Arc::clone(&visit))));
    let crowd = Arc::clone(crowd);
    tokio::spawn(async move {
        let served = http1::Builder::new()
            .timer(TokioTimer::new())
            .header_read_timeout(SLOWEST_HEAD)
            .max_buf_size(LONGEST_HEAD)
            .serve_connection(TokioIo::new(stream), service);
        tokio::select! {
            // A connection that breaks concerns nobody else.
            _ = served => {}
            () = visit.leave.notified() => {}
        }
        crowd.left(&visit);
    });
}

/// Ends when the program is told to stop, from here on.
#[cfg(unix)]
fn told_to_stop() -> io::Result<impl Future<Output = ()>> {
    use tokio::signal::unix::{SignalKind, signal};
    let mut interrupt = signal(SignalKind::interrupt())?;
    let mut terminate = signal(SignalKind::terminate())?;
    let mut hangup = signal(SignalKind::hangup())?;
    Ok(async move {
        tokio::select! {
            _ = interrupt.recv() => {}
            _ = terminate.recv() => {}
            _ = hangup.recv() => {}
        }
    })
}

/// Ends when the program is told to stop, from here on.
#[cfg(windows)]
fn told_to_stop() -> io::Result<impl Future<Output = ()>> {
    let mut told = tokio::signal::windows::ctrl_c()?;
    Ok(async move {
        told.recv().await;
    })
}
