//! The pattern of an emission's antenna as a file, and a measured pattern laid over it.

use crate::outcome::Outcome;
use crate::proofs::transmission::{Radiating, wave_plane};
use antenna::direction::Plane;
use antenna::pattern::{CutApart, MeasuredPattern, PatternFileError, PatternForm};

fn radiating<'a>(outcome: &'a Outcome, emission: &str) -> Option<&'a Radiating> {
    let mut paths = outcome.transmission.emissions.iter();
    paths.find(|p| p.tag == emission)?.radiating.as_ref().ok()
}

fn planes(radiating: &Radiating) -> Vec<Plane> {
    radiating
        .polarisation
        .planes()
        .iter()
        .map(|p| wave_plane(*p))
        .collect()
}

/// The pattern of an emission as a file's text; none where nothing radiates.
pub fn pattern_text(
    outcome: &Outcome,
    emission: &str,
    form: PatternForm,
    description: &str,
) -> Option<String> {
    let radiating = radiating(outcome, emission)?;
    let text = form.text(
        &radiating.pattern,
        &planes(radiating),
        &radiating.tag,
        description,
    );
    Some(text)
}

/// A measured pattern's text laid over the computed pattern of an emission; none where nothing radiates.
///
/// # Units
/// - `zero_deg`: true bearing of the measurement's azimuth 0, degrees
///
/// # Errors
/// [`PatternFileError`].
pub fn lay_over(
    outcome: &Outcome,
    emission: &str,
    (text, form): (&str, PatternForm),
    zero_deg: f64,
) -> Option<Result<Vec<CutApart>, PatternFileError>> {
    let radiating = radiating(outcome, emission)?;
    let measured = MeasuredPattern::parse(text, form, radiating.pattern.frequency_mhz());
    Some(measured.and_then(|m| m.over(&radiating.pattern, &planes(radiating), zero_deg)))
}
