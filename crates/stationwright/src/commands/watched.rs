//! Long work on a terminal: a bar with the time left, and Ctrl-C stops it cleanly.

use coverage::{Control, Progress};
use indicatif::{ProgressBar, ProgressStyle};
use std::io::IsTerminal;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};

/// Work that is watched.
pub struct Watched {
    bar: Option<ProgressBar>,
    stop: Arc<AtomicBool>,
}

impl Watched {
    /// Begins to listen for Ctrl-C; shows a bar where somebody looks.
    pub fn begin() -> Watched {
        let bar = std::io::stderr().is_terminal().then(|| {
            let bar = ProgressBar::new(0);
            if let Ok(style) = ProgressStyle::with_template("{wide_bar} {percent} % {msg}") {
                bar.set_style(style);
            }
            bar
        });
        let stop = Arc::new(AtomicBool::new(false));
        listen(stop.clone());
        Watched { bar, stop }
    }

    /// Does the work and takes the bar away.
    pub fn work<T>(&self, work: impl FnOnce(&Control<'_>) -> T) -> T {
        let show = |p: Progress| {
            if let Some(bar) = &self.bar {
                bar.set_length(p.total);
                bar.set_position(p.done);
                bar.set_message(
                    p.left
                        .map_or(String::new(), |left| format!("{} s", left.as_secs())),
                );
            }
        };
        let control = Control {
            progress: Some(&show),
            cancel: Some(&self.stop),
        };
        let out = work(&control);
        if let Some(bar) = &self.bar {
            bar.finish_and_clear();
        }
        out
    }
}

/// Sets the flag at Ctrl-C. Where the system gives no such signal, Ctrl-C ends the program as ever.
fn listen(stop: Arc<AtomicBool>) {
    std::thread::spawn(move || {
        let Ok(runtime) = tokio::runtime::Builder::new_current_thread().enable_all().build() else {
            return;
        };
        if runtime.block_on(tokio::signal::ctrl_c()).is_ok() {
            stop.store(true, Ordering::Relaxed);
        }
    });
}
