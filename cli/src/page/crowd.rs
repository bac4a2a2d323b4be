//! As many connections as there may be. Where more want in, the one that has waited longest without a
//! token goes: so nobody who holds connections open keeps the page from its own.

use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};
use tokio::sync::Notify;

/// Two pages take a dozen; a process may have some hundred files open.
const MOST: usize = 120;

/// One connection.
#[derive(Debug, Default)]
pub(super) struct Visit {
    is_trusted: AtomicBool,
    /// Told when it is to end.
    pub(super) leave: Notify,
}

impl Visit {
    /// It has shown the token.
    pub(super) fn trust(&self) {
        self.is_trusted.store(true, Ordering::Relaxed);
    }
}

/// Every connection there is, the oldest first.
#[derive(Debug, Default)]
pub(super) struct Crowd {
    all: Mutex<Vec<Arc<Visit>>>,
}

impl Crowd {
    /// A new connection, if there is room or can be made.
    pub(super) fn enter(&self) -> Option<Arc<Visit>> {
        let mut all = self.all.lock().unwrap_or_else(PoisonError::into_inner);
        if all.len() >= MOST {
            let stranger = all.iter().position(|visit| !visit.is_trusted.load(Ordering::Relaxed))?;
            all.remove(stranger).leave.notify_one();
        }
        let visit = Arc::new(Visit::default());
        all.push(Arc::clone(&visit));
        Some(visit)
    }

    /// It has ended.
    pub(super) fn left(&self, visit: &Arc<Visit>) {
        let mut all = self.all.lock().unwrap_or_else(PoisonError::into_inner);
        all.retain(|other| !Arc::ptr_eq(other, visit));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn strangers_make_room_and_the_page_stays() {
        let crowd = Crowd::default();
        let page = crowd.enter().unwrap();
        page.trust();
        for _ in 0..10 * MOST {
            crowd.enter().unwrap();
        }
        let all = crowd.all.lock().unwrap();
        assert!(all.len() == MOST && all.iter().any(|visit| Arc::ptr_eq(visit, &page)));
        drop(all);
        crowd.left(&page);
        assert_eq!(crowd.all.lock().unwrap().len(), MOST - 1);
    }
}
