//! The desk, shared by all who ask: one works at it at a time, on a thread where that holds nobody up.

use super::Trouble;
use super::desk::{Answer, Desk};
use serde_json::Value;
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use tokio::sync::{Notify, watch};

/// Where the desk stands.
pub(super) struct Room {
    desk: Mutex<Desk>,
    version: watch::Sender<u64>,
    /// The youngest preview that was asked for, and the youngest lay.
    youngest: AtomicU64,
    youngest_lay: AtomicU64,
    /// What takes long is done one after the other.
    aside: Mutex<()>,
    /// Told when the program is to end.
    pub(super) stop: Notify,
}

impl Room {
    pub(super) fn with(desk: Desk) -> Arc<Self> {
        let (version, _) = watch::channel(desk.version());
        Arc::new(Self {
            desk: Mutex::new(desk),
            version,
            youngest: AtomicU64::new(0),
            youngest_lay: AtomicU64::new(0),
            aside: Mutex::new(()),
            stop: Notify::new(),
        })
    }

    /// Does something at the desk.
    pub(super) async fn at_desk<T: Send + 'static>(
        self: &Arc<Self>,
        work: impl FnOnce(&mut Desk) -> Result<T, Trouble> + Send + 'static,
    ) -> Result<T, Trouble> {
        let room = Arc::clone(self);
        let done = tokio::task::spawn_blocking(move || {
            let mut desk = room.desk.lock().unwrap_or_else(PoisonError::into_inner);
            let done = work(&mut desk);
            room.version.send_if_modified(|told| std::mem::replace(told, desk.version()) != desk.version());
            done
        });
        done.await.unwrap_or_else(|_| Err(Trouble::fault("this cannot be worked out")))
    }

    /// A preview, unless a younger one was asked for meanwhile.
    pub(super) async fn preview(
        self: &Arc<Self>,
        seq: u64,
        work: impl FnOnce(&mut Desk) -> Answer + Send + 'static,
    ) -> Answer {
        self.youngest.fetch_max(seq, Ordering::Relaxed);
        let room = Arc::clone(self);
        self.at_desk(move |desk| {
            if room.youngest.load(Ordering::Relaxed) > seq {
                return Ok(serde_json::json!({ "seq": seq, "dropped": true }));
            }
            work(desk)
        })
        .await
    }

    /// What takes longer than one wants to wait at the desk: what it needs is taken there, the work is done
    /// beside it, one after the other.
    pub(super) async fn aside<T: Send + 'static>(
        self: &Arc<Self>,
        take: impl FnOnce(&Desk) -> Result<T, Trouble> + Send + 'static,
        work: impl FnOnce(&T) -> Answer + Send + 'static,
    ) -> Answer {
        let taken = self.at_desk(|desk| take(desk)).await?;
        let room = Arc::clone(self);
        let done = tokio::task::spawn_blocking(move || {
            let _one = room.aside.lock().unwrap_or_else(PoisonError::into_inner);
            work(&taken)
        });
        done.await.unwrap_or_else(|_| Err(Trouble::fault("this cannot be worked out")))
    }

    /// A lay, unless a younger one was asked for meanwhile.
    pub(super) async fn lay<T: Send + 'static>(
        self: &Arc<Self>,
        seq: u64,
        take: impl FnOnce(&Desk) -> Result<T, Trouble> + Send + 'static,
        work: impl FnOnce(&T) -> Answer + Send + 'static,
    ) -> Answer {
        self.youngest_lay.fetch_max(seq, Ordering::Relaxed);
        let room = Arc::clone(self);
        self.aside(take, move |taken| {
            if room.youngest_lay.load(Ordering::Relaxed) > seq {
                return Ok(serde_json::json!({ "seq": seq, "dropped": true }));
            }
            work(taken)
        })
        .await
    }

    /// Previews are counted anew, by a page that was loaded again.
    pub(super) fn forget_previews(&self) {
        self.youngest.store(0, Ordering::Relaxed);
        self.youngest_lay.store(0, Ordering::Relaxed);
    }

    /// Waits until the desk is at another version, and says which.
    pub(super) async fn after(self: &Arc<Self>, version: u64) -> Value {
        let mut told = self.version.subscribe();
        let mut tick = tokio::time::interval(LOOK);
        for _ in 0..LOOKS {
            if *told.borrow_and_update() != version {
                break;
            }
            tokio::select! {
                _ = told.changed() => {}
                _ = tick.tick() => {
                    // It has no answer of its own.
                    let _ = self.at_desk(|desk| { desk.look(); Ok(()) }).await;
                }
            }
        }
        let now = *told.borrow();
        serde_json::json!({ "version": now })
    }
}

/// So often the sheet's file is looked at, while a page waits.
const LOOK: std::time::Duration = std::time::Duration::from_secs(1);
const LOOKS: u32 = 20;
