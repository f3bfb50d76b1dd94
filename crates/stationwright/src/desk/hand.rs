//! What a hand asks while it moves something: echoes, on threads of their own and before all other work.

use rayon::{ThreadPool, ThreadPoolBuilder};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::{Condvar, Mutex, MutexGuard, PoisonError};
use std::time::{Duration, Instant};

/// How long after an echo a hand counts as moving still: longer than a key held down takes to repeat.
const STILL_MOVING: Duration = Duration::from_millis(250);

/// A hand on the station: its echoes, one at a time, the newest only.
pub(super) struct Hand {
    /// In the common pool an echo would stand behind whatever long work was begun before it; none where the system gives no
    /// more threads.
    threads: Option<ThreadPool>,
    turn: Mutex<()>,
    newest: AtomicU64,
    moving: Mutex<Moving>,
    at_rest: Condvar,
}

/// Echoes asked for and not answered yet, and when the last one was answered.
#[derive(Default)]
struct Moving {
    asked: usize,
    last: Option<Instant>,
}

impl Hand {
    pub fn new() -> Hand {
        let named = ThreadPoolBuilder::new().thread_name(|i| format!("echo {i}"));
        Hand {
            threads: named.build().ok(),
            turn: Mutex::default(),
            newest: AtomicU64::new(0),
            moving: Mutex::default(),
            at_rest: Condvar::new(),
        }
    }

    /// Works an echo out when its turn comes; none when a newer one was asked for meanwhile.
    pub fn echo<T: Send>(&self, work: impl FnOnce() -> T + Send) -> Option<T> {
        let mine = self.newest.fetch_add(1, Ordering::SeqCst) + 1;
        self.in_turn(|| {
            let newest = self.newest.load(Ordering::SeqCst) == mine;
            newest.then(|| self.on_threads(work))
        })
    }

    /// Works out what a hand that let go has done: in its turn like an echo, and never left out.
    pub fn done<T: Send>(&self, work: impl FnOnce() -> T + Send) -> T {
        self.newest.fetch_add(1, Ordering::SeqCst);
        self.in_turn(|| self.on_threads(work))
    }

    fn on_threads<T: Send>(&self, work: impl FnOnce() -> T + Send) -> T {
        match &self.threads {
            Some(threads) => threads.install(work),
            None => work(),
        }
    }

    fn in_turn<T>(&self, work: impl FnOnce() -> T) -> T {
        let _asked = Asked::by(self);
        let _turn = self.turn.lock().unwrap_or_else(PoisonError::into_inner);
        work()
    }

    /// Long work calls this between its pieces: it goes on when the hand rests.
    pub fn let_by(&self) {
        let mut moving = self.moving();
        loop {
            let rest = match moving.last {
                _ if moving.asked > 0 => STILL_MOVING,
                Some(last) => STILL_MOVING.saturating_sub(last.elapsed()),
                None => return,
            };
            if rest.is_zero() {
                return;
            }
            let waited = self.at_rest.wait_timeout(moving, rest);
            moving = waited.unwrap_or_else(PoisonError::into_inner).0;
        }
    }

    fn moving(&self) -> MutexGuard<'_, Moving> {
        self.moving.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// One asking hand, counted until it has its answer, whatever comes of that.
struct Asked<'a>(&'a Hand);

impl<'a> Asked<'a> {
    fn by(hand: &'a Hand) -> Asked<'a> {
        hand.moving().asked += 1;
        Asked(hand)
    }
}

impl Drop for Asked<'_> {
    fn drop(&mut self) {
        let mut moving = self.0.moving();
        moving.asked -= 1;
        moving.last = Some(Instant::now());
        drop(moving);
        self.0.at_rest.notify_all();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::sync::Arc;
    use std::sync::atomic::AtomicBool;
    use std::thread::{sleep, spawn};

    #[test]
    fn of_many_echoes_that_wait_only_the_newest_is_worked_out() {
        let hand = Arc::new(Hand::new());
        let first = {
            let hand = hand.clone();
            spawn(move || hand.echo(|| sleep(Duration::from_millis(120))))
        };
        sleep(Duration::from_millis(30));
        let waiting: Vec<_> = (0..4)
            .map(|i| {
                let hand = hand.clone();
                let asked = spawn(move || hand.echo(move || i));
                sleep(Duration::from_millis(10));
                asked
            })
            .collect();
        let answers: Vec<Option<i32>> = waiting.into_iter().filter_map(|w| w.join().ok()).collect();
        assert_eq!(answers, [None, None, None, Some(3)]);
        assert!(matches!(first.join(), Ok(Some(()))));
    }

    #[test]
    fn an_echo_does_not_stand_behind_long_work_that_fills_the_common_pool() {
        let over = Arc::new(AtomicBool::new(false));
        let filled = {
            let over = over.clone();
            spawn(move || {
                rayon::scope(|scope| {
                    for _ in 0..64 {
                        scope.spawn(|_| {
                            if !over.load(Ordering::Relaxed) {
                                sleep(Duration::from_millis(400));
                            }
                        });
                    }
                });
            })
        };
        sleep(Duration::from_millis(50));
        let begun = Instant::now();
        let sum = Hand::new().echo(|| {
            use rayon::prelude::*;
            (0..1000_u64).into_par_iter().sum::<u64>()
        });
        let took = begun.elapsed();
        over.store(true, Ordering::Relaxed);
        assert_eq!(sum, Some(499_500));
        assert!(took < Duration::from_millis(350), "{took:?}");
        assert!(filled.join().is_ok());
    }

    #[test]
    fn long_work_waits_while_the_hand_moves_and_goes_on_when_it_rests() {
        let hand = Hand::new();
        let begun = Instant::now();
        hand.let_by();
        assert!(
            begun.elapsed() < Duration::from_millis(100),
            "no hand, no waiting"
        );
        hand.echo(|| ());
        let begun = Instant::now();
        hand.let_by();
        let waited = begun.elapsed();
        assert!(
            waited >= STILL_MOVING / 2 && waited < STILL_MOVING * 4,
            "{waited:?}"
        );
    }
}
