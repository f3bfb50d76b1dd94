//! What stands round a receiver: which row of the height rule it takes, and at which height its field is predicted.

use terrain::{ClutterMode, ClutterTable, CoverCategory, Surroundings};

use crate::feed::Named;

/// Height of a planning receiver over open ground, m: Rec. ITU-R BS.412-9 § 1 (mark V), and the clutter top of open ground in Rec.
/// ITU-R P.2108-1 § 3.1 (mark V).
pub const OPEN_REFERENCE_M: f64 = 10.0;

/// Least receiving height P.1812 takes, m.
pub const LEAST_RX_AGL_M: f64 = 1.0;

/// Rule by which a field is predicted at a height and brought down to the listener.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum ReceivingRule {
    /// One correction, once. Open ground, water, and clutter lower than 10 m: predicted at 10 m. Built-up or trees: at the
    /// clutter top R. From there the row of Rec. ITU-R P.2108-1 § 3.1 leads down. Over a surface model, whose heights are the
    /// clutter tops already, built-up and trees are predicted 1 m above the surface, the least P.1812 takes.
    ByCover,
    /// P.1812 at this height above ground everywhere; no row is added afterwards. The answer depends strongly on the step.
    TrueHeight(f64),
}

/// One kind of surroundings of receivers.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CoverRow {
    /// Category of the land cover.
    pub category: CoverCategory,
    /// Clutter top R, m above ground; 0 for open ground and water.
    pub clutter_top_m: f64,
    /// Height at which the field is predicted, m above the profile's ground (above its surface for a surface model).
    pub reference_m: f64,
}

impl CoverRow {
    /// True where the row of buildings or trees applies.
    pub fn in_clutter(&self) -> bool {
        self.clutter_top_m > 0.0
    }

    /// The row of BS.412 that fits: dense urban is a large city, suburban and urban are towns, the rest is rural. Our choice
    /// (mark I); a named place states its own.
    pub fn surroundings(&self) -> Surroundings {
        match self.category {
            CoverCategory::DenseUrban => Surroundings::LargeCity,
            CoverCategory::Suburban | CoverCategory::Urban => Surroundings::Urban,
            CoverCategory::Open | CoverCategory::Trees | CoverCategory::Water => Surroundings::Rural,
        }
    }

    fn of(category: CoverCategory, clutter_m: f64, rule: ReceivingRule, mode: ClutterMode) -> Self {
        let stands =
            !matches!(category, CoverCategory::Open | CoverCategory::Water) && clutter_m >= OPEN_REFERENCE_M;
        let clutter_top_m = if stands { clutter_m } else { 0.0 };
        let reference_m = match (rule, stands, mode) {
            (ReceivingRule::TrueHeight(height_m), ..) => height_m,
            (ReceivingRule::ByCover, false, _) => OPEN_REFERENCE_M,
            (ReceivingRule::ByCover, true, ClutterMode::HeldBySurfaceModel) => LEAST_RX_AGL_M,
            (ReceivingRule::ByCover, true, _) => clutter_m,
        };
        Self {
            category,
            clutter_top_m,
            reference_m,
        }
    }
}

/// Most different rows one coverage may hold.
pub const MAX_ROWS: usize = 32;

/// The rows of a clutter table, and which one each land-cover code takes.
#[derive(Debug, Clone, PartialEq)]
pub struct CoverRows {
    rows: Vec<CoverRow>,
    by_code: [u8; 256],
}

impl CoverRows {
    /// Rows of a table under a rule; `None` if the table has more than [`MAX_ROWS`] different ones.
    pub fn new(table: &ClutterTable, rule: ReceivingRule, mode: ClutterMode) -> Option<Self> {
        // Codes the table does not hold, and no data, are open ground.
        let mut out = Self {
            rows: vec![CoverRow::of(CoverCategory::Open, 0.0, rule, mode)],
            by_code: [0; 256],
        };
        for class in table.classes() {
            let row = CoverRow::of(class.category, class.clutter_m, rule, mode);
            let index = match out.rows.iter().position(|r| *r == row) {
                Some(index) => index,
                None => {
                    out.rows.push(row);
                    out.rows.len() - 1
                }
            };
            if index >= MAX_ROWS {
                return None;
            }
            out.by_code[usize::from(class.code)] = index as u8;
        }
        Some(out)
    }

    pub(crate) fn from_parts(rows: Vec<CoverRow>, by_code: [u8; 256]) -> Self {
        Self { rows, by_code }
    }

    /// The rows; the first is open ground.
    pub fn rows(&self) -> &[CoverRow] {
        &self.rows
    }

    /// Index of the row that a land-cover code takes.
    #[inline]
    pub fn index_of(&self, code: u8) -> usize {
        usize::from(self.by_code[usize::from(code)])
    }

    /// The row that a land-cover code takes.
    pub fn of_code(&self, code: u8) -> &CoverRow {
        &self.rows[self.index_of(code)]
    }

    pub(crate) fn codes(&self) -> &[u8; 256] {
        &self.by_code
    }
}

/// Feeds a receiving rule.
pub(crate) fn feed_rule(named: &mut Named<'_>, rule: ReceivingRule) {
    match rule {
        ReceivingRule::ByCover => named.bytes("receiving", b"by cover"),
        ReceivingRule::TrueHeight(height_m) => named.number("receiving at true height", height_m),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use terrain::cover;

    #[test]
    fn heights_of_prediction_follow_the_rule() {
        let table = ClutterTable::default();
        let by = |mode| CoverRows::new(&table, ReceivingRule::ByCover, mode).unwrap();
        let bare = by(ClutterMode::AddedToBareGround);
        assert_eq!(bare.of_code(cover::GRASS).reference_m, 10.0);
        assert_eq!(bare.of_code(cover::TREES).reference_m, 15.0);
        assert_eq!(bare.of_code(cover::BUILT_UP).reference_m, 10.0);
        assert!(bare.of_code(cover::BUILT_UP).in_clutter() && !bare.of_code(cover::SHRUB).in_clutter());
        assert_eq!(bare.of_code(200).category, CoverCategory::Open);
        assert_eq!(
            by(ClutterMode::HeldBySurfaceModel)
                .of_code(cover::TREES)
                .reference_m,
            1.0
        );
        let low = CoverRows::new(
            &table,
            ReceivingRule::TrueHeight(1.5),
            ClutterMode::AddedToBareGround,
        )
        .unwrap();
        assert!(low.rows().iter().all(|r| r.reference_m == 1.5));
    }

    #[test]
    fn surroundings_follow_the_cover() {
        let table = ClutterTable::default();
        let rows = CoverRows::new(&table, ReceivingRule::ByCover, ClutterMode::AddedToBareGround).unwrap();
        assert_eq!(rows.of_code(cover::BUILT_UP).surroundings(), Surroundings::Urban);
        assert_eq!(rows.of_code(cover::TREES).surroundings(), Surroundings::Rural);
    }
}
