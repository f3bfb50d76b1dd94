//! The refusal that every method with a stated range of validity shares.

/// A value outside the range in which a method holds; nothing was computed.
#[derive(Debug, Clone, Copy, PartialEq, thiserror::Error)]
pub struct OutOfRange {
    /// Name of the argument, unit included, as in the signature.
    pub quantity: &'static str,
    /// What was given.
    pub value: f64,
    /// Least accepted value.
    pub low: f64,
    /// Greatest accepted value.
    pub high: f64,
    /// Unit of the three numbers.
    pub unit: &'static str,
    /// The method and clause that sets the limits.
    pub method: &'static str,
}

/// A range of validity: `low ..= high`, with the words that an error needs.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Range {
    pub quantity: &'static str,
    pub low: f64,
    pub high: f64,
    pub unit: &'static str,
    pub method: &'static str,
}

impl Range {
    /// Refuses values outside the range, NaN included.
    pub(crate) fn check(&self, value: f64) -> Result<(), OutOfRange> {
        if value >= self.low && value <= self.high {
            return Ok(());
        }
        let Self {
            quantity,
            low,
            high,
            unit,
            method,
        } = *self;
        Err(OutOfRange {
            quantity,
            value,
            low,
            high,
            unit,
            method,
        })
    }
}
