//! How much station a budget or a licence speaks of.

use station::Station;

/// Five sizes of station, by what there is to spend (bands invented, in units of the brief's money).
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Tier {
    /// Under 5 000.
    A,
    /// To 25 000.
    B,
    /// To 75 000.
    C,
    /// To 250 000.
    D,
    /// Above.
    E,
}

impl Tier {
    /// The tier of a brief: by its budget, else by the licensed ERP.
    pub fn of(station: &Station) -> Tier {
        let budget = station.brief.budget.value().map(|b| b.to_f64());
        let erp_w = station
            .emissions
            .first()
            .and_then(|e| e.licence.erp.value().map(|p| p.erp().w()));
        let band = |value: f64, edges: [f64; 4]| match edges.iter().position(|e| value < *e) {
            Some(0) => Tier::A,
            Some(1) => Tier::B,
            Some(2) => Tier::C,
            Some(_) => Tier::D,
            None => Tier::E,
        };
        match (budget, erp_w) {
            (Some(budget), _) => band(budget, [5e3, 25e3, 75e3, 250e3]),
            (None, Some(erp)) => band(erp, [60.0, 400.0, 4e3, 40e3]),
            (None, None) => Tier::B,
        }
    }

    /// Its letter.
    pub fn letter(self) -> &'static str {
        match self {
            Tier::A => "A",
            Tier::B => "B",
            Tier::C => "C",
            Tier::D => "D",
            Tier::E => "E",
        }
    }
}
