//! The top of a sequence that rises and then falls, found from a guess.

/// Index of the top of a sequence over `first..=last` that rises, then falls.
///
/// `rises(k)` tells whether the sequence does not fall from `k` to `k + 1`, so of equal tops the later one is found. From the
/// guess the steps double until the top is passed, then the stretch is halved: a good guess costs two comparisons, a bad one
/// a logarithm.
#[inline(always)]
pub fn peak(guess: usize, first: usize, last: usize, rises: impl Fn(usize) -> bool) -> usize {
    let guess = guess.clamp(first, last);
    // Invariant: the top lies in low..=high.
    let (mut low, mut high);
    let mut step = 1;
    if guess < last && rises(guess) {
        (low, high) = (guess + 1, last);
        while low + step <= high && rises(low + step - 1) {
            low += step;
            step *= 2;
        }
        high = high.min(low + step - 1);
    } else {
        (low, high) = (first, guess);
        while high >= first + step && !rises(high - step) {
            high -= step;
            step *= 2;
        }
        low = low.max((high + 1).saturating_sub(step));
    }
    while low < high {
        let middle = (low + high) / 2;
        if rises(middle) {
            low = middle + 1;
        } else {
            high = middle;
        }
    }
    low
}

#[cfg(test)]
mod tests {
    use super::peak;

    #[test]
    fn every_top_is_found_from_every_guess() {
        for last in 1..40usize {
            for top in 1..=last {
                for guess in 0..=last + 3 {
                    assert_eq!(
                        peak(guess, 1, last, |k| k < top),
                        top,
                        "guess {guess} of 1..={last}"
                    );
                }
            }
        }
    }

    #[test]
    fn of_equal_tops_the_later_one() {
        let values = [0, 1, 5, 5, 5, 2];
        for guess in 0..6 {
            assert_eq!(peak(guess, 0, 5, |k| values[k + 1] >= values[k]), 4);
        }
    }
}
