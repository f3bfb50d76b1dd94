//! Antennas by the array model, each distinct one computed once: a search asks for the same stack on every line.

use antenna::array::{ArrayError, Stack};
use antenna::feed::{Fed, Feed};
use antenna::pattern::Pattern;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// Antennas kept in memory: a search looks at some tens of stacks, each at a few heights that leave it as it is.
const MOST_KEPT: usize = 64;

/// A pattern with what the bays are fed with.
pub type Drafted = (Arc<Pattern>, Arc<Fed>);

static KEPT: Mutex<Vec<(Stack, Feed, Drafted)>> = Mutex::new(Vec::new());

fn kept() -> MutexGuard<'static, Vec<(Stack, Feed, Drafted)>> {
    KEPT.lock().unwrap_or_else(PoisonError::into_inner)
}

/// The pattern of a stack on its feed, or the one that was computed of the same before.
///
/// # Errors
/// [`ArrayError`], as [`Pattern::of`].
pub fn of(stack: &Stack, feed: &Feed) -> Result<Drafted, ArrayError> {
    if let Some((_, _, drafted)) = kept().iter().find(|(s, f, _)| s == stack && f == feed) {
        return Ok(drafted.clone());
    }
    let (pattern, fed) = Pattern::of(stack, feed)?;
    let drafted = (Arc::new(pattern), Arc::new(fed));
    let mut kept = kept();
    if kept.len() >= MOST_KEPT {
        kept.remove(0);
    }
    kept.push((stack.clone(), feed.clone(), drafted.clone()));
    Ok(drafted)
}
