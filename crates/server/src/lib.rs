//! The page and its API over HTTP, for one person at one machine.
//!
//! The layer is thin: a [`Desk`] answers, this crate carries. It reads no file, assesses nothing and prints no number; what it
//! adds is the page itself, the lines and shades of the map drawn from the desk's grid, and the rules of the door: loopback names
//! only, nothing from outside, no script but the page's own.

pub mod antenna;
pub mod desk;
pub mod drawn;
pub mod file;
pub mod handover;
pub mod link;
pub mod map;
pub mod masts;
pub mod offers;
mod page;
pub mod paper;
pub mod probe;
mod routes;
mod rules;
pub mod studio;
pub mod view;

pub use desk::{Desk, Event, Refusal, SaidRefusal};
pub use routes::{openapi, router};

use std::future::Future;
use std::net::{Ipv4Addr, SocketAddr};
use std::sync::Arc;
use std::time::Duration;
use tokio::net::TcpListener;

/// Opens a port on the loopback address; any free one when none is named.
///
/// # Errors
/// When the port is taken or may not be opened.
pub async fn bind(port: Option<u16>) -> std::io::Result<TcpListener> {
    TcpListener::bind(SocketAddr::from((Ipv4Addr::LOCALHOST, port.unwrap_or(0)))).await
}

/// Serves the desk until `stop` comes true; open streams get one second to end.
///
/// # Errors
/// When the listener fails.
pub async fn serve(
    desk: Arc<dyn Desk>,
    listener: TcpListener,
    stop: impl Future<Output = ()> + Send + 'static,
) -> std::io::Result<()> {
    let (told, mut tell) = tokio::sync::watch::channel(false);
    let stop = async move {
        stop.await;
        told.send(true).ok();
    };
    let mut late = tell.clone();
    let serving = axum::serve(listener, router(desk)).with_graceful_shutdown(async move {
        tell.wait_for(|stopped| *stopped).await.ok();
    });
    tokio::spawn(stop);
    // A page that holds its stream of events would hold the door open for ever.
    tokio::select! {
        end = serving.into_future() => end,
        () = async {
            late.wait_for(|stopped| *stopped).await.ok();
            tokio::time::sleep(Duration::from_secs(1)).await;
        } => Ok(()),
    }
}
