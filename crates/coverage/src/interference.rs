//! What other stations take away: protection ratios, nuisance fields and their sums, the usable field.

use std::sync::LazyLock;

use rayon::prelude::*;
use terrain::geodesic;
use words::Message;

use crate::erp::ErpTable;
use crate::error::CoverageError;
use crate::loss_field::LossField;
use crate::wanted::Mode;

/// Peak deviation of the stations' system.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Deviation {
    /// ±75 kHz: BS.412 Table 3.
    Khz75,
    /// ±50 kHz: BS.412 Table 4.
    Khz50,
}

/// How long interference is there.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// About half the time or more.
    Steady,
    /// One per cent of the time.
    Tropospheric,
}

/// A row of the tables of protection ratios.
#[derive(Debug, Clone, PartialEq)]
pub struct ProtectionRow {
    /// Spacing of the carriers, kHz.
    pub spacing_khz: f64,
    /// System.
    pub deviation: Deviation,
    /// Wanted less unwanted field, dB: mono steady, mono tropospheric, stereo steady, stereo tropospheric.
    pub ratio_db: [f64; 4],
    /// Source.
    pub source: String,
    /// Mark: V, C, M, P or I.
    pub mark: char,
}

static ROWS: LazyLock<Vec<ProtectionRow>> = LazyLock::new(|| {
    read_rows(include_str!("../data/protection-ratio.csv")).expect("the built-in table is read by a test")
});

/// Protection ratios with source and mark of each row (`data/protection-ratio.csv`).
///
/// # Source
/// Rec. ITU-R BS.412-9, Tables 3 and 4.
pub fn protection_rows() -> &'static [ProtectionRow] {
    &ROWS
}

/// Largest spacing with a ratio, kHz; beyond it less than −20 dB is needed and nothing is tabulated.
pub const WIDEST_SPACING_KHZ: f64 = 400.0;

/// Protection ratio at a carrier spacing, dB, by straight lines between the rows; `None` beyond 400 kHz.
///
/// # Source
/// Rec. ITU-R BS.412-9, Tables 3 and 4.
///
/// # Example
/// ```
/// use coverage::interference::{Deviation, Kind, protection_ratio_db};
/// use coverage::Mode;
/// let ratio = protection_ratio_db(Deviation::Khz75, Mode::Stereo, Kind::Steady, 110.0).unwrap();
/// assert!((ratio - 29.6).abs() < 0.01);
/// ```
pub fn protection_ratio_db(deviation: Deviation, mode: Mode, kind: Kind, spacing_khz: f64) -> Option<f64> {
    let spacing_khz = spacing_khz.abs();
    if spacing_khz.is_nan() || spacing_khz > WIDEST_SPACING_KHZ {
        return None;
    }
    let column = match (mode, kind) {
        (Mode::Mono, Kind::Steady) => 0,
        (Mode::Mono, Kind::Tropospheric) => 1,
        (Mode::Stereo, Kind::Steady) => 2,
        (Mode::Stereo, Kind::Tropospheric) => 3,
    };
    let rows: Vec<&ProtectionRow> = ROWS.iter().filter(|row| row.deviation == deviation).collect();
    let above = rows
        .partition_point(|row| row.spacing_khz <= spacing_khz)
        .clamp(1, rows.len() - 1);
    let (a, b) = (rows[above - 1], rows[above]);
    let share = (spacing_khz - a.spacing_khz) / (b.spacing_khz - a.spacing_khz);
    Some(a.ratio_db[column] + share * (b.ratio_db[column] - a.ratio_db[column]))
}

/// Response of a directional roof aerial for stereo, dB, at an angle off its wanted direction; 0 to 27°, straight to −12 dB at
/// 60°, −12 dB beyond.
///
/// # Source
/// Rec. ITU-R BS.599. Not used unless asked: none is the careful side.
pub fn stereo_aerial_db(off_deg: f64) -> f64 {
    let off_deg = geodesic::compass_deg(off_deg);
    let off_deg = off_deg.min(360.0 - off_deg);
    -12.0 * ((off_deg - 27.0) / (60.0 - 27.0)).clamp(0.0, 1.0)
}

/// Nuisance field of one station, dB(µV/m): the larger of its field with the steady ratio and its field for 1 % of the time
/// with the tropospheric ratio, less what the aerial suppresses. `None` beyond 400 kHz.
///
/// # Units
/// - `half_dbuv_m`, `hundredth_dbuv_m`: fields for 50 % and for 1 % of the time
/// - `aerial_db`: response of the receiving aerial in that direction, 0 or less
///
/// # Source
/// Planning practice after GE84 Annex 2 chapter 4 (mark V the larger of the two, M the percentages).
pub fn nuisance_dbuv_m(
    (half_dbuv_m, hundredth_dbuv_m): (f64, f64),
    deviation: Deviation,
    mode: Mode,
    spacing_khz: f64,
    aerial_db: f64,
) -> Option<f64> {
    let ratio = |kind| protection_ratio_db(deviation, mode, kind, spacing_khz);
    let steady = half_dbuv_m + ratio(Kind::Steady)?;
    let tropospheric = hundredth_dbuv_m + ratio(Kind::Tropospheric)?;
    Some(steady.max(tropospheric) + aerial_db)
}

/// How nuisance fields are summed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Sum {
    /// By power.
    Power,
    /// By simplified multiplication with [`MULTIPLICATION_SPREAD_DB`]: the more careful one.
    Multiplication,
}

/// Standard deviation of the simplified multiplication at 30 to 300 MHz, dB (mark V, public code of the GE84 plan).
pub const MULTIPLICATION_SPREAD_DB: f64 = 8.3;

/// Usable field by power sum, dB(µV/m); −∞ without nuisance.
pub fn power_sum_dbuv_m(nuisances_dbuv_m: &[f64]) -> f64 {
    let sum: f64 = nuisances_dbuv_m.iter().map(|n| 10f64.powf(n / 10.0)).sum();
    10.0 * sum.log10()
}

/// Usable field by simplified multiplication, dB(µV/m): the field E with Π Φ((E − Nᵢ)/(σ√2)) = ½; −∞ without nuisance.
///
/// # Source
/// GE84 Agreement, the method of its plan (mark V, public code); σ is [`MULTIPLICATION_SPREAD_DB`].
pub fn simplified_multiplication_dbuv_m(nuisances_dbuv_m: &[f64]) -> f64 {
    let finite = nuisances_dbuv_m.iter().copied().filter(|n| n.is_finite());
    let strongest = finite.clone().fold(f64::NEG_INFINITY, f64::max);
    if strongest == f64::NEG_INFINITY {
        return strongest;
    }
    let probability = |field: f64| -> f64 {
        finite
            .clone()
            .map(|n| 0.5 * libm::erfc(-(field - n) / (2.0 * MULTIPLICATION_SPREAD_DB)))
            .product()
    };
    // At the strongest it is at most ½; a hundred spreads above it is 1 for any number of stations.
    let (mut low, mut high) = (strongest, strongest + 100.0 * MULTIPLICATION_SPREAD_DB);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if probability(middle) < 0.5 {
            low = middle;
        } else {
            high = middle;
        }
    }
    0.5 * (low + high)
}

impl Sum {
    /// Usable field of these nuisance fields, dB(µV/m).
    pub fn of(self, nuisances_dbuv_m: &[f64]) -> f64 {
        match self {
            Sum::Power => power_sum_dbuv_m(nuisances_dbuv_m),
            Sum::Multiplication => simplified_multiplication_dbuv_m(nuisances_dbuv_m),
        }
    }
}

/// Another station: its losses for half and for a hundredth of the time over the same world, its radiated power, its spacing.
pub struct Interferer<'a> {
    /// Losses for 50 % of the time.
    pub half: &'a LossField,
    /// Losses for 1 % of the time.
    pub hundredth: &'a LossField,
    /// Radiated power.
    pub erp: &'a ErpTable,
    /// Its carrier less ours, kHz.
    pub spacing_khz: f64,
}

/// The usable field at every receiver of a coverage.
#[derive(Debug, Clone, PartialEq)]
pub struct Usable {
    /// At the height of prediction, dB(µV/m), one for each receiver in the lattice's order; −∞ without nuisance.
    pub field_dbuv_m: Vec<f32>,
    /// Share of receivers that lie beyond the radius of a station's own fields, so that its nuisance there is not known.
    pub beyond: f64,
}

/// What the others leave: the field a wanted station must reach at each receiver of `wanted`.
///
/// Both fields are taken at the height of prediction: what the situation takes from the wanted field it takes from the others.
/// The others' fields are interpolated between their own receivers.
///
/// # Errors
/// [`CoverageError::Study`] when a station's two fields are not for 50 % and 1 % of the time.
pub fn usable_field(
    wanted: &LossField,
    others: &[Interferer<'_>],
    deviation: Deviation,
    mode: Mode,
    sum: Sum,
) -> Result<Usable, CoverageError> {
    for other in others {
        check_time(other.half, 50.0)?;
        check_time(other.hundredth, 1.0)?;
    }
    let lattice = wanted.lattice();
    let others: Vec<_> = others
        .iter()
        .filter(|o| protection_ratio_db(deviation, mode, Kind::Steady, o.spacing_khz).is_some())
        .map(|o| (o, o.half.fields_dbuv_m(o.erp), o.hundredth.fields_dbuv_m(o.erp)))
        .collect();
    let per_radial: Vec<(Vec<f32>, u64)> = (0..lattice.azimuths())
        .into_par_iter()
        .map(|radial| {
            let course = geodesic::Course::new(lattice.site(), lattice.azimuth_deg(radial));
            let points = lattice.first_point(radial)..=lattice.points();
            let distances_m = points.map(|k| f64::from(k) * lattice.step_m());
            let mut positions = Vec::with_capacity(lattice.radial_range(radial).len());
            course.positions_into(distances_m, &mut positions);
            let (mut nuisances, mut beyond) = (Vec::new(), 0);
            let fields = positions
                .iter()
                .map(|&position| {
                    nuisances.clear();
                    let mut known = true;
                    for (other, half, hundredth) in &others {
                        let fields = other
                            .half
                            .interpolated(half, position)
                            .zip(other.hundredth.interpolated(hundredth, position));
                        known &= fields.is_some();
                        let nuisance =
                            fields.and_then(|f| nuisance_dbuv_m(f, deviation, mode, other.spacing_khz, 0.0));
                        nuisances.extend(nuisance);
                    }
                    beyond += u64::from(!known);
                    sum.of(&nuisances) as f32
                })
                .collect();
            (fields, beyond)
        })
        .collect();
    let beyond: u64 = per_radial.iter().map(|(_, n)| n).sum();
    Ok(Usable {
        field_dbuv_m: per_radial.into_iter().flat_map(|(fields, _)| fields).collect(),
        beyond: beyond as f64 / lattice.len() as f64,
    })
}

fn check_time(field: &LossField, wanted_pct: f64) -> Result<(), CoverageError> {
    let found_pct = field.study().conditions.time_pct;
    if found_pct == wanted_pct {
        return Ok(());
    }
    Err(CoverageError::Study {
        what: "interference-time",
        value: found_pct,
    })
}

fn read_rows(text: &str) -> Result<Vec<ProtectionRow>, CoverageError> {
    let mut reader = csv::ReaderBuilder::new()
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let mut out = Vec::new();
    for (index, row) in reader.records().enumerate() {
        let fail = |expected: Message| CoverageError::Table {
            table: "protection-ratios",
            line: index as u64 + 2,
            expected,
        };
        let wants = |what: &str| fail(Message::new("coverage-table-wants").tag("what", what));
        let row = row.map_err(|e| fail(Message::foreign(e)))?;
        let cell = |i: usize| row.get(i).unwrap_or_default();
        let number = |i: usize| cell(i).parse::<f64>().map_err(|_| wants("number"));
        out.push(ProtectionRow {
            spacing_khz: number(0)?,
            deviation: match cell(1) {
                "75" => Deviation::Khz75,
                "50" => Deviation::Khz50,
                _ => return Err(wants("deviation")),
            },
            ratio_db: [number(2)?, number(3)?, number(4)?, number(5)?],
            source: cell(6).into(),
            mark: cell(7).chars().next().ok_or_else(|| wants("mark"))?,
        });
    }
    Ok(out)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    /// Computed check values 10 and 11 of the planning reference: two and four nuisance fields.
    #[test]
    fn ref_sums_of_nuisance_fields() {
        let near = |value: f64, expected: f64| assert!((value - expected).abs() < 0.02, "{value} {expected}");
        near(power_sum_dbuv_m(&[54.0, 54.0]), 57.01);
        near(simplified_multiplication_dbuv_m(&[54.0, 54.0]), 60.40);
        near(power_sum_dbuv_m(&[60.0, 54.0, 50.0, 48.0]), 61.51);
        near(simplified_multiplication_dbuv_m(&[60.0, 54.0, 50.0, 48.0]), 65.91);
        assert_eq!(power_sum_dbuv_m(&[]), f64::NEG_INFINITY);
        assert_eq!(simplified_multiplication_dbuv_m(&[]), f64::NEG_INFINITY);
    }

    /// Rec. ITU-R BS.412-9, Tables 3 and 4: cells and a straight line between them.
    #[test]
    fn ref_protection_ratios() {
        use {Deviation::*, Kind::*, Mode::*};
        assert_eq!(protection_rows().len(), 34);
        for (deviation, mode, kind, spacing, expected) in [
            (Khz75, Stereo, Steady, 0.0, 45.0),
            (Khz75, Stereo, Tropospheric, 0.0, 37.0),
            (Khz75, Mono, Steady, 100.0, 12.0),
            (Khz75, Stereo, Steady, 110.0, 29.6),
            (Khz75, Stereo, Steady, -200.0, 7.0),
            (Khz75, Mono, Tropospheric, 400.0, -20.0),
            (Khz50, Stereo, Steady, 0.0, 49.0),
            (Khz50, Mono, Steady, 250.0, -6.0),
        ] {
            let ratio = protection_ratio_db(deviation, mode, kind, spacing).unwrap();
            assert!((ratio - expected).abs() < 1e-9, "{spacing}: {ratio}");
        }
        assert_eq!(protection_ratio_db(Khz75, Mono, Steady, 400.1), None);
        assert_eq!(protection_ratio_db(Khz75, Mono, Steady, f64::NAN), None);
    }

    /// Rec. ITU-R BS.599.
    #[test]
    fn ref_directional_aerial() {
        for (off, expected) in [
            (0.0, 0.0),
            (27.0, 0.0),
            (43.5, -6.0),
            (60.0, -12.0),
            (180.0, -12.0),
            (-43.5, -6.0),
            (350.0, 0.0),
        ] {
            assert!((stereo_aerial_db(off) - expected).abs() < 1e-9, "{off}");
        }
    }

    proptest! {
        #[test]
        fn prop_multiplication_is_the_more_careful_and_one_station_is_itself(
            fields in proptest::collection::vec(0.0..100.0f64, 1..8)
        ) {
            let strongest = fields.iter().copied().fold(f64::MIN, f64::max);
            let (power, multiplied) = (power_sum_dbuv_m(&fields), simplified_multiplication_dbuv_m(&fields));
            prop_assert!(power >= strongest - 1e-9 && multiplied >= strongest - 1e-9);
            prop_assert!((simplified_multiplication_dbuv_m(&fields[..1]) - fields[0]).abs() < 1e-9);
        }
    }
}
