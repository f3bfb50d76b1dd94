//! How much of the path is sea, and its longest stretches of land [3.6].

use super::profile::{Path, Zone};

/// Sea and land along a path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SeaAndLand {
    /// Share of the path over sea, `ω`, 0 to 1.
    pub sea_ratio: f64,
    /// Longest stretch of coastal land and inland together, km, `dtm`.
    pub land_km: f64,
    /// Longest inland stretch, km, `dlm`.
    pub inland_km: f64,
}

/// Over-land distances from the two terminals to the sea, km; 0 for a terminal at sea.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ToCoast {
    /// From the transmitter, `dct`.
    pub tx_km: f64,
    /// From the receiver, `dcr`.
    pub rx_km: f64,
}

impl ToCoast {
    /// No sea anywhere near: the distance that switches the coastal term off.
    pub const FAR: ToCoast = ToCoast {
        tx_km: 500.0,
        rx_km: 500.0,
    };
}

/// Sea share and longest land stretches of a path.
///
/// The boundary between two zones lies half way between their neighbouring points.
///
/// # Source
/// Rec. ITU-R P.1812-7, § 3.6.
pub fn sea_and_land(path: &Path<'_>) -> SeaAndLand {
    let sea = runs(path, |zone| zone == Zone::Sea);
    let land = runs(path, |zone| zone != Zone::Sea);
    let inland = runs(path, |zone| zone == Zone::Inland);
    SeaAndLand {
        sea_ratio: sea.sum_km / path.length_km(),
        land_km: land.longest_km,
        inland_km: inland.longest_km,
    }
}

/// Distances from both terminals to the first and the last sea point of the path; [`ToCoast::FAR`] without sea.
pub fn to_coast(path: &Path<'_>) -> ToCoast {
    let is_sea = |zone: &Zone| *zone == Zone::Sea;
    match (
        path.zone.iter().position(is_sea),
        path.zone.iter().rposition(is_sea),
    ) {
        (Some(first), Some(last)) => ToCoast {
            tx_km: path.d_km[first],
            rx_km: path.length_km() - path.d_km[last],
        },
        _ => ToCoast::FAR,
    }
}

struct Runs {
    sum_km: f64,
    longest_km: f64,
}

fn runs(path: &Path<'_>, wanted: impl Fn(Zone) -> bool) -> Runs {
    let (d, n) = (path.d_km, path.last());
    let mut total = Runs {
        sum_km: 0.0,
        longest_km: 0.0,
    };
    let mut i = 0;
    while i <= n {
        if !wanted(path.zone[i]) {
            i += 1;
            continue;
        }
        let first = i;
        while i < n && wanted(path.zone[i + 1]) {
            i += 1;
        }
        let before = if first > 0 {
            0.5 * (d[first] - d[first - 1])
        } else {
            0.0
        };
        let after = if i < n { 0.5 * (d[i + 1] - d[i]) } else { 0.0 };
        let length_km = d[i] - d[first] + before + after;
        total.sum_km += length_km;
        total.longest_km = total.longest_km.max(length_km);
        i += 1;
    }
    total
}
