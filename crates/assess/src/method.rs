//! Methods: formula in words, clause, validity, and the test that witnesses it.

use serde::Serialize;
use station::Mark;

/// How a figure is found.
#[derive(Debug, PartialEq, Serialize)]
pub struct Method {
    /// Stable id.
    pub id: &'static str,
    /// The formula, set as one would write it.
    pub formula: &'static str,
    /// Where it stands: standard and clause, or `common practice, no source`.
    pub clause: &'static str,
    /// Where it holds.
    pub validity: &'static str,
    /// The test that witnesses it.
    pub witness: &'static str,
    /// How good the method is.
    pub mark: Mark,
}
