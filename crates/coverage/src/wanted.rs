//! Which field is wanted where, and how sure it must be.

use std::sync::LazyLock;

use propagation::p1812::variability::{inverse_normal, location_spread_db};
use propagation::p2108::{self, height_gain_loss_db};
use propagation::p2109::{Building, entry_loss_db};
use terrain::Surroundings;
use words::Message;

use crate::cover_row::{CoverRow, OPEN_REFERENCE_M, ReceivingRule};
use crate::error::CoverageError;

/// How the programme is heard.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Mode {
    /// Mono.
    Mono,
    /// Stereo.
    Stereo,
}

/// Where the listener's aerial is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Situation {
    /// Fixed aerial on the roof, 10 m above ground: what the table of BS.412 is for.
    Roof,
    /// Car or portable outdoors, 1.5 m above ground.
    Car,
    /// Indoors on the ground floor, 1.5 m above ground, behind the wall of such a building.
    Indoors(Building),
}

/// Height of a roof aerial, m above ground. Rec. ITU-R BS.412-9 § 1 (mark V).
pub const ROOF_M: f64 = 10.0;

/// Height of a portable's or car's aerial, m above ground. Common practice (mark P).
pub const LOW_M: f64 = 1.5;

impl Situation {
    /// Aerial above ground, m.
    pub fn height_m(self) -> f64 {
        match self {
            Situation::Roof => ROOF_M,
            Situation::Car | Situation::Indoors(_) => LOW_M,
        }
    }

    /// Loss from the field as predicted for a row down to the listener, dB: the row of P.2108 and, indoors, the median entry
    /// loss of P.2109.
    ///
    /// # Errors
    /// [`CoverageError::Situation`] outside the frequencies of P.2108 and P.2109; [`CoverageError::OtherHeight`] when the
    /// field was predicted at one true height and the situation is at another.
    ///
    /// # Source
    /// Rec. ITU-R P.2108-1 § 3.1, P.2109-2 § 3; which row starts where is our rule (mark P).
    pub fn loss_db(self, row: &CoverRow, rule: ReceivingRule, freq_mhz: f64) -> Result<f64, CoverageError> {
        Ok(self.row_loss_db(row, rule, freq_mhz)? + self.entry_db(freq_mhz, 50.0)?)
    }

    /// The outdoor part of [`Situation::loss_db`].
    ///
    /// # Errors
    /// As [`Situation::loss_db`].
    pub fn row_loss_db(
        self,
        row: &CoverRow,
        rule: ReceivingRule,
        freq_mhz: f64,
    ) -> Result<f64, CoverageError> {
        if let ReceivingRule::TrueHeight(predicted_m) = rule {
            let wanted_m = self.height_m();
            return if (predicted_m - wanted_m).abs() < 1e-9 {
                Ok(0.0)
            } else {
                Err(CoverageError::OtherHeight {
                    predicted_m,
                    wanted_m,
                })
            };
        }
        let (top_m, surroundings) = if row.in_clutter() {
            (row.clutter_top_m, p2108::Surroundings::BuiltUpOrTrees)
        } else {
            (OPEN_REFERENCE_M, p2108::Surroundings::Open)
        };
        Ok(height_gain_loss_db(
            freq_mhz / 1000.0,
            self.height_m(),
            top_m,
            surroundings,
        )?)
    }

    /// The part of [`Situation::loss_db`] that walls take in the median of buildings, dB; 0 outdoors.
    ///
    /// # Errors
    /// [`CoverageError::Situation`] outside the frequencies of P.2109.
    pub fn entry_loss_db(self, freq_mhz: f64) -> Result<f64, CoverageError> {
        self.entry_db(freq_mhz, 50.0)
    }

    /// Standard deviation of the entry loss between buildings, dB; 0 outdoors. From the 10 % and 90 % values of P.2109 as if
    /// they were a normal distribution's.
    ///
    /// # Errors
    /// [`CoverageError::Situation`] outside the frequencies of P.2109.
    pub fn building_spread_db(self, freq_mhz: f64) -> Result<f64, CoverageError> {
        let between = self.entry_db(freq_mhz, 90.0)? - self.entry_db(freq_mhz, 10.0)?;
        Ok(between / (2.0 * inverse_normal::<f64>(0.1)))
    }

    fn entry_db(self, freq_mhz: f64, share_pct: f64) -> Result<f64, CoverageError> {
        match self {
            Situation::Roof | Situation::Car => Ok(0.0),
            Situation::Indoors(building) => Ok(entry_loss_db(freq_mhz / 1000.0, share_pct, 0.0, building)?),
        }
    }
}

/// Spread of the field between places within a small square.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum LocationSpread {
    /// By P.1812 § 4.7 for a square of this side, m, from the receiver's and the clutter's height.
    Square(f64),
    /// This standard deviation everywhere, dB.
    Fixed(f64),
}

/// The two spreads that make a median a probability; combined as the root of their squares (and of the building's, indoors).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spread {
    /// Between places.
    pub location: LocationSpread,
    /// Error of the prediction itself, standard deviation, dB.
    pub model_error_db: f64,
}

/// Side of the square for the location spread unless stated, m: the customary study step's order (mark I).
pub const SQUARE_M: f64 = 100.0;

/// Error of the prediction unless stated or measured, dB (mark I).
pub const MODEL_ERROR_DB: f64 = 6.0;

impl Default for Spread {
    /// P.1812 § 4.7 over 100 m, model error 6 dB.
    fn default() -> Self {
        Self {
            location: LocationSpread::Square(SQUARE_M),
            model_error_db: MODEL_ERROR_DB,
        }
    }
}

impl Spread {
    /// Location spread at a row, dB.
    pub fn location_db(&self, row: &CoverRow, height_m: f64, freq_mhz: f64) -> f64 {
        match self.location {
            LocationSpread::Fixed(db) => db,
            LocationSpread::Square(side_m) => {
                location_spread_db(freq_mhz / 1000.0, side_m, height_m, row.clutter_top_m)
            }
        }
    }

    fn check(&self) -> Result<(), CoverageError> {
        let (what, value, most) = match self.location {
            LocationSpread::Square(m) => ("square", m, 5000.0),
            LocationSpread::Fixed(db) => ("location-spread", db, 30.0),
        };
        if !(0.0..=most).contains(&value) {
            return Err(CoverageError::Study { what, value });
        }
        if !(0.0..=30.0).contains(&self.model_error_db) {
            return Err(CoverageError::Study {
                what: "model-error",
                value: self.model_error_db,
            });
        }
        Ok(())
    }
}

/// Wanted median field at the listener's aerial by surroundings, dB(µV/m).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct WantedFields {
    /// Open country and villages.
    pub rural_dbuv_m: f64,
    /// Towns.
    pub urban_dbuv_m: f64,
    /// Large cities.
    pub large_city_dbuv_m: f64,
}

impl WantedFields {
    /// One field everywhere.
    pub fn everywhere(dbuv_m: f64) -> Self {
        Self {
            rural_dbuv_m: dbuv_m,
            urban_dbuv_m: dbuv_m,
            large_city_dbuv_m: dbuv_m,
        }
    }

    /// The rows of Rec. ITU-R BS.412-9 § 1.
    pub fn bs412(mode: Mode) -> Self {
        let of = |surroundings| {
            bs412_rows()
                .iter()
                .find(|row| row.mode == mode && row.surroundings == surroundings)
                .expect("the table holds every pair; read by a test")
                .field_dbuv_m
        };
        Self {
            rural_dbuv_m: of(Surroundings::Rural),
            urban_dbuv_m: of(Surroundings::Urban),
            large_city_dbuv_m: of(Surroundings::LargeCity),
        }
    }

    /// The field for one kind of surroundings, dB(µV/m).
    pub fn of(&self, surroundings: Surroundings) -> f64 {
        match surroundings {
            Surroundings::Rural => self.rural_dbuv_m,
            Surroundings::Urban => self.urban_dbuv_m,
            Surroundings::LargeCity => self.large_city_dbuv_m,
        }
    }
}

/// What counts as heard.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wanted {
    /// Field at the listener's aerial.
    pub fields: WantedFields,
    /// Where the aerial is.
    pub situation: Situation,
    /// How sure.
    pub spread: Spread,
}

impl Wanted {
    /// The table of BS.412 in a situation, with the default spread.
    pub fn bs412(mode: Mode, situation: Situation) -> Self {
        Self {
            fields: WantedFields::bs412(mode),
            situation,
            spread: Spread::default(),
        }
    }

    /// What one row must reach.
    ///
    /// # Errors
    /// [`CoverageError`]: spreads out of range, and those of [`Situation::loss_db`].
    pub fn threshold(
        &self,
        row: &CoverRow,
        rule: ReceivingRule,
        freq_mhz: f64,
    ) -> Result<Threshold, CoverageError> {
        self.threshold_in(row, row.surroundings(), rule, freq_mhz)
    }

    /// The same where the surroundings are stated and not read off the land cover.
    ///
    /// # Errors
    /// As [`Wanted::threshold`].
    pub fn threshold_in(
        &self,
        row: &CoverRow,
        surroundings: Surroundings,
        rule: ReceivingRule,
        freq_mhz: f64,
    ) -> Result<Threshold, CoverageError> {
        self.spread.check()?;
        let field_dbuv_m = self.fields.of(surroundings);
        if !(-100.0..=200.0).contains(&field_dbuv_m) {
            return Err(CoverageError::Study {
                what: "wanted-field",
                value: field_dbuv_m,
            });
        }
        let situation_db = self.situation.loss_db(row, rule, freq_mhz)?;
        let height_m = self.situation.height_m();
        let location_db = self.spread.location_db(row, height_m, freq_mhz);
        let building_db = self.situation.building_spread_db(freq_mhz)?;
        let spread_db = location_db.hypot(self.spread.model_error_db).hypot(building_db);
        Ok(Threshold {
            situation_db,
            wanted_dbuv_m: field_dbuv_m,
            location_db,
            building_db,
            spread_db,
        })
    }
}

/// What a receiver must reach, and how spread out the field is there.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Threshold {
    /// Loss from the predicted field to the listener, dB.
    pub situation_db: f64,
    /// Median field wanted at the listener, dB(µV/m).
    pub wanted_dbuv_m: f64,
    /// Spread between places, dB.
    pub location_db: f64,
    /// Spread between buildings, dB.
    pub building_db: f64,
    /// All spreads together, dB.
    pub spread_db: f64,
}

impl Threshold {
    /// Field wanted at the height of prediction, dB(µV/m).
    pub fn at_prediction_dbuv_m(&self) -> f64 {
        self.wanted_dbuv_m + self.situation_db
    }

    /// Probability that the wanted field is reached where its predicted median lies `margin_db` above the need.
    pub fn probability(&self, margin_db: f64) -> f64 {
        probability(margin_db, self.spread_db)
    }
}

/// Share of a normal distribution of this spread that lies above −margin; a step without spread.
///
/// Taken from a table, as whole areas ask it for every receiver: within 1.2e-7 of the integral, none or all beyond six spreads
/// (1e-9).
#[inline]
pub fn probability(margin_db: f64, spread_db: f64) -> f64 {
    if spread_db < 1e-6 {
        return if margin_db >= 0.0 { 1.0 } else { 0.0 };
    }
    let at = (margin_db / spread_db + SHARES_SPAN) * SHARES_PER_SPREAD;
    if at <= 0.0 {
        return 0.0;
    }
    let row = at as usize;
    match SHARES.get(row..row + 2) {
        Some(&[below, above]) => below + (above - below) * (at - row as f64),
        _ => 1.0,
    }
}

/// Spreads to either side that the table covers.
const SHARES_SPAN: f64 = 6.0;
/// Rows of the table in a spread.
const SHARES_PER_SPREAD: f64 = 512.0;
/// The normal distribution, ½·erfc(−z/√2), at even steps.
static SHARES: LazyLock<Vec<f64>> = LazyLock::new(|| {
    let rows = (2.0 * SHARES_SPAN * SHARES_PER_SPREAD) as usize;
    let z = |row: usize| row as f64 / SHARES_PER_SPREAD - SHARES_SPAN;
    (0..=rows)
        .map(|row| 0.5 * libm::erfc(-z(row) / std::f64::consts::SQRT_2))
        .collect()
});

/// A row of the table of wanted fields.
#[derive(Debug, Clone, PartialEq)]
pub struct WantedRow {
    /// Surroundings.
    pub surroundings: Surroundings,
    /// Mono or stereo.
    pub mode: Mode,
    /// Median field at 10 m, dB(µV/m).
    pub field_dbuv_m: f64,
    /// Source.
    pub source: String,
    /// Mark of the row: V, C, M, P or I.
    pub mark: char,
}

static BS412: LazyLock<Vec<WantedRow>> = LazyLock::new(|| {
    read_wanted(include_str!("../data/wanted-field.csv")).expect("the built-in table is read by a test")
});

/// Median fields wanted at 10 m for FM sound, with source and mark of each row (`data/wanted-field.csv`).
///
/// # Source
/// Rec. ITU-R BS.412-9 § 1, Table 1.
pub fn bs412_rows() -> &'static [WantedRow] {
    &BS412
}

fn read_wanted(text: &str) -> Result<Vec<WantedRow>, CoverageError> {
    let mut reader = csv::ReaderBuilder::new()
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let mut out = Vec::new();
    for (index, row) in reader.records().enumerate() {
        let fail = |expected: Message| CoverageError::Table {
            table: "wanted-fields",
            line: index as u64 + 2,
            expected,
        };
        let wants = |what: &str| fail(Message::new("coverage-table-wants").tag("what", what));
        let row = row.map_err(|e| fail(Message::foreign(e)))?;
        let cell = |i: usize| row.get(i).unwrap_or_default();
        out.push(WantedRow {
            surroundings: match cell(0) {
                "rural" => Surroundings::Rural,
                "urban" => Surroundings::Urban,
                "large city" => Surroundings::LargeCity,
                _ => return Err(wants("surroundings")),
            },
            mode: match cell(1) {
                "mono" => Mode::Mono,
                "stereo" => Mode::Stereo,
                _ => return Err(wants("mode")),
            },
            field_dbuv_m: cell(2).parse().map_err(|_| wants("field"))?,
            source: cell(3).into(),
            mark: cell(4).chars().next().ok_or_else(|| wants("mark"))?,
        });
    }
    Ok(out)
}

#[cfg(test)]
mod tests {
    use super::*;
    use terrain::CoverCategory;

    fn row(category: CoverCategory, top_m: f64) -> CoverRow {
        CoverRow {
            category,
            clutter_top_m: top_m,
            reference_m: top_m.max(10.0),
        }
    }

    /// Rec. ITU-R P.2108-1 § 3.1 and P.2109-2 at 98 MHz, in the rows a planner uses.
    #[test]
    fn the_table_of_shares_is_the_integral() {
        let mut worst = 0.0f64;
        for i in -70_000..=70_000 {
            let z = f64::from(i) * 1.000_7e-4;
            worst = worst
                .max((probability(z * 5.5, 5.5) - 0.5 * libm::erfc(-z / std::f64::consts::SQRT_2)).abs());
        }
        assert!(worst < 1.3e-7, "{worst}");
        assert_eq!((probability(-40.0, 6.0), probability(40.0, 6.0)), (0.0, 1.0));
        assert!(probability(f64::NAN, 6.0).is_nan());
    }

    #[test]
    fn ref_situations_at_98_mhz() {
        let loss = |situation: Situation, row: &CoverRow| {
            situation.loss_db(row, ReceivingRule::ByCover, 98.0).unwrap()
        };
        let open = row(CoverCategory::Open, 0.0);
        for (row, expected_db) in [
            (open, 12.81),
            (row(CoverCategory::Suburban, 10.0), 9.72),
            (row(CoverCategory::Trees, 15.0), 13.12),
            (row(CoverCategory::DenseUrban, 20.0), 15.50),
        ] {
            let car_db = loss(Situation::Car, &row);
            assert!((car_db - expected_db).abs() < 0.02, "{row:?}: {car_db}");
        }
        let indoors = loss(Situation::Indoors(Building::Traditional), &open);
        assert!((indoors - 12.81 - 14.23).abs() < 0.07, "{indoors}");
        assert_eq!(loss(Situation::Roof, &open), 0.0);
        assert_eq!(loss(Situation::Roof, &row(CoverCategory::Urban, 10.0)), 0.0);
    }

    #[test]
    fn a_true_height_takes_no_row() {
        let open = row(CoverCategory::Open, 0.0);
        let rule = ReceivingRule::TrueHeight(1.5);
        assert_eq!(Situation::Car.loss_db(&open, rule, 98.0), Ok(0.0));
        assert!(matches!(
            Situation::Roof.loss_db(&open, rule, 98.0),
            Err(CoverageError::OtherHeight { .. })
        ));
    }

    /// Rec. ITU-R BS.412-9 § 1: the rows confirmed from a published note (mark V).
    #[test]
    fn ref_bs412_stereo_rows() {
        assert_eq!(bs412_rows().len(), 6);
        let stereo = WantedFields::bs412(Mode::Stereo);
        assert_eq!(
            (stereo.rural_dbuv_m, stereo.urban_dbuv_m, stereo.large_city_dbuv_m),
            (54.0, 66.0, 74.0)
        );
        assert!(WantedFields::bs412(Mode::Mono).rural_dbuv_m < 54.0);
    }

    #[test]
    fn spreads_combine_as_root_of_squares() {
        let wanted = Wanted {
            spread: Spread {
                location: LocationSpread::Fixed(3.0),
                model_error_db: 4.0,
            },
            ..Wanted::bs412(Mode::Stereo, Situation::Roof)
        };
        let open = row(CoverCategory::Open, 0.0);
        let threshold = wanted.threshold(&open, ReceivingRule::ByCover, 98.0).unwrap();
        assert_eq!(threshold.spread_db, 5.0);
        // One standard deviation of margin: 84.13 % (tables of the normal distribution).
        assert!((threshold.probability(5.0) - 0.841345).abs() < 1e-6);
        assert!((threshold.probability(0.0) - 0.5).abs() < 1e-12);
    }

    #[test]
    fn bad_spreads_are_refused() {
        let mut wanted = Wanted::bs412(Mode::Mono, Situation::Roof);
        wanted.spread.model_error_db = f64::NAN;
        let open = row(CoverCategory::Open, 0.0);
        assert!(wanted.threshold(&open, ReceivingRule::ByCover, 98.0).is_err());
    }
}
