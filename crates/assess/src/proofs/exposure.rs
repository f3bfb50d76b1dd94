//! People near the antennas: screening distances, fields at the points where people can be, the sum of all emitters.

use crate::case::Case;
use crate::proofs::transmission::{self, EmissionPath, Radiating};
use antenna::array::Exposure;
use antenna::direction::Plane;
use station::place::{PublicPoint, Site};

/// Reflection factor on the field over usual ground, FCC OET-65 [M].
pub const GROUND_FACTOR: f64 = 1.6;
/// Power gain of a half-wave dipole over isotropic.
const DIPOLE: f64 = 1.64;
/// Head height over a floor, m (OET-65 practice).
const HEAD_M: f64 = 2.0;
/// Nearer to a conductor that carries current nothing is computed, m: within reach of a hand.
const TOUCH_M: f64 = 0.5;
/// Least relative field taken outside the main lobe, where no maker's pattern shows less (common practice, no source).
const LEAST_RELATIVE_FIELD: f64 = 0.1;

/// What people near the antennas are exposed to.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    /// Distances for each emission.
    pub emissions: Vec<Distances>,
    /// Points where people can be.
    pub points: Vec<PointCheck>,
}

/// How far to stay away in the main lobe.
#[derive(Debug, Clone, PartialEq)]
pub struct Distances {
    /// Tag of the emission.
    pub tag: String,
    /// Far-field screening distance, public, m.
    pub public_m: f64,
    /// The same for workers.
    pub workers_m: f64,
    /// Distance by the sum over the bays, public, m; `None` where the fence of one wavelength is larger.
    pub public_by_bays_m: Option<f64>,
    /// The same for workers.
    pub workers_by_bays_m: Option<f64>,
    /// Where the far field begins, m.
    pub far_field_m: f64,
    /// One wavelength: the fence inside which nothing is computed, m.
    pub wavelength_m: f64,
    /// ERP of both planes together, W.
    pub erp_w: f64,
}

impl Distances {
    /// The public distance to print: the larger of both ways, never inside the fence.
    pub fn public_printed_m(&self) -> f64 {
        self.public_m
            .max(self.public_by_bays_m.unwrap_or(0.0))
            .max(self.wavelength_m)
    }
    /// The workers' distance to print.
    pub fn workers_printed_m(&self) -> f64 {
        self.workers_m
            .max(self.workers_by_bays_m.unwrap_or(0.0))
            .max(self.wavelength_m)
    }
}

/// One point where people can be.
#[derive(Debug, Clone, PartialEq)]
pub struct PointCheck {
    /// Site or room it belongs to.
    pub site: String,
    /// Its tag.
    pub tag: String,
    /// Its name.
    pub name: String,
    /// Only workers get there.
    pub workers_only: bool,
    /// Strongest field of our emissions, V/m.
    pub field_v_m: f64,
    /// Sum of squared shares of the limit, our emissions; 1 is the limit.
    pub ratio: f64,
    /// Shares that others on the site bring, where they said so.
    pub others_ratio: f64,
    /// Others whose share nobody knows, by tag.
    pub others_unknown: Vec<String>,
    /// It lies within one wavelength of a bay: fence it.
    pub fenced: bool,
}

/// Looks after the people near every antenna.
pub fn evaluate(case: &Case, transmission: &transmission::Outcome) -> Outcome {
    let emissions = transmission
        .emissions
        .iter()
        .filter_map(|path| distances(case, path))
        .collect();
    let mut points = Vec::new();
    for site in &case.station.sites {
        let rooms = case.station.rooms.iter().filter(|r| r.site == site.tag);
        for point in site
            .public_points
            .iter()
            .chain(rooms.flat_map(|r| &r.public_points))
        {
            if let Some(check) = point_check(case, transmission, site, point) {
                points.push(check);
            }
        }
    }
    Outcome { emissions, points }
}

/// Screening distance in the main lobe for a total ERP, m: the larger of the power density's and the field's limit.
///
/// R = F·√(1.64·ERP/(4π·S)) and F·√(49.2·ERP)/E: far-field formulas, FCC OET-65 form [M].
pub fn screening_m(erp_w: f64, density_w_m2: f64, field_v_m: f64, factor: f64) -> f64 {
    let by_density = (DIPOLE * erp_w / (4.0 * std::f64::consts::PI * density_w_m2)).sqrt();
    let by_field = (30.0 * DIPOLE * erp_w).sqrt() / field_v_m;
    factor * by_density.max(by_field)
}

/// ERP of both planes in the strongest direction, W.
fn total_erp_w(path: &EmissionPath) -> f64 {
    path.planes.iter().map(|p| p.erp_w).sum()
}

fn radiated_w(path: &EmissionPath, radiating: &Radiating) -> f64 {
    let into = path.power_w.unwrap_or(0.0) * 10f64.powf(-path.loss_db() / 10.0);
    into * 10f64.powf(-radiating.feed_loss_db / 10.0)
}

fn distances(case: &Case, path: &EmissionPath) -> Option<Distances> {
    let radiating = path.radiating.as_ref().ok()?;
    let erp_w = total_erp_w(path);
    let country = case.country;
    let (s, e) = (
        country.exposure_public.value.w_m2(),
        country.exposure_public_field.value.v_m(),
    );
    let (sw, ew) = (
        country.exposure_workers.value.w_m2(),
        country.exposure_workers_field.value.v_m(),
    );
    let bearing = path.planes.first().map_or(0.0, |p| p.azimuth_deg);
    Some(Distances {
        tag: path.tag.clone(),
        public_m: screening_m(erp_w, s, e, GROUND_FACTOR),
        workers_m: screening_m(erp_w, sw, ew, GROUND_FACTOR),
        public_by_bays_m: by_bays_m(path, radiating, bearing, e.min((s * 377.0).sqrt())),
        workers_by_bays_m: by_bays_m(path, radiating, bearing, ew.min((sw * 377.0).sqrt())),
        far_field_m: radiating.stack.far_field_m(),
        wavelength_m: antenna::line::wavelength_m(path.frequency_mhz?),
        erp_w,
    })
}

/// The careful near field at a place, V/m, reflections included: what the wires' currents make there, electric or magnetic, whichever
/// is the stronger; of a draft the sum over the array's dipoles. `None` within one wavelength of a bay and at arm's length of the mast beside it: nothing
/// small is promised there.
///
/// # Units
/// - `at_m`: east, north, up from the mast's axis and the middle of the stack
fn near_v_m(path: &EmissionPath, radiating: &Radiating, at_m: [f64; 3]) -> Option<f64> {
    let Some(answered) = &radiating.answered else {
        let power = radiated_w(path, radiating);
        let currents = &radiating.fed.currents_a;
        return match radiating.stack.exposure_at(currents, power, at_m, GROUND_FACTOR) {
            Ok(Exposure::Computed(near)) => Some(near.e_sum_v_per_m),
            Ok(Exposure::Fenced { .. }) => None,
            Err(_) => Some(0.0),
        };
    };
    let fence_m = antenna::line::wavelength_m(answered.fed.frequency_mhz);
    let bay = |wire: usize| answered.wires[wire].0.starts_with("bay");
    if answered.nearest_m(at_m, bay) < fence_m || answered.nearest_m(at_m, |_| true) < TOUCH_M {
        return None;
    }
    let accepted_w = path.power_w.unwrap_or(0.0) * 10f64.powf(-path.loss_db() / 10.0);
    Some(GROUND_FACTOR * answered.near(accepted_w, at_m).equivalent_v_m())
}

/// Farthest distance at the height of any bay where the careful sum over the bays reaches a field, m.
fn by_bays_m(path: &EmissionPath, radiating: &Radiating, bearing_deg: f64, limit_v_m: f64) -> Option<f64> {
    let (sin, cos) = bearing_deg.to_radians().sin_cos();
    let over = |distance: f64| {
        radiating.mount.bays.iter().any(|bay| {
            let at = [distance * sin, distance * cos, bay.height_m];
            near_v_m(path, radiating, at).is_none_or(|field| field > limit_v_m)
        })
    };
    let wavelength = antenna::line::wavelength_m(path.frequency_mhz?);
    let (mut low, mut high) = (1.5 * wavelength, 2000.0);
    if !over(low) {
        return None;
    }
    while high - low > 0.01 {
        let middle = 0.5 * (low + high);
        if over(middle) { low = middle } else { high = middle }
    }
    Some(high)
}

fn point_check(
    case: &Case,
    transmission: &transmission::Outcome,
    site: &Site,
    point: &PublicPoint,
) -> Option<PointCheck> {
    let workers_only = point.workers_only == Some(true);
    let country = case.country;
    let (s, e) = if workers_only {
        (
            country.exposure_workers.value.w_m2(),
            country.exposure_workers_field.value.v_m(),
        )
    } else {
        (
            country.exposure_public.value.w_m2(),
            country.exposure_public_field.value.v_m(),
        )
    };
    let mut out = PointCheck {
        site: site.tag.clone(),
        tag: point.tag.clone(),
        name: point.name.clone(),
        workers_only,
        field_v_m: 0.0,
        ratio: 0.0,
        others_ratio: 0.0,
        others_unknown: Vec::new(),
        fenced: false,
    };
    let mut any = false;
    for path in &transmission.emissions {
        let Ok(radiating) = &path.radiating else { continue };
        if radiating.site != site.tag {
            continue;
        }
        any = true;
        match field_at_point_v_m(path, radiating, point) {
            Some(field) => {
                out.field_v_m = out.field_v_m.hypot(field);
                out.ratio += (field / e).powi(2).max(field * field / 377.0 / s);
            }
            None => out.fenced = true,
        }
    }
    for other in &site.others {
        match other.exposure_share.value() {
            Some(share) => out.others_ratio += share.pct() / 100.0,
            None => out.others_unknown.push(other.tag.clone()),
        }
    }
    any.then_some(out)
}

/// Strongest field where a person's head may be, V/m: the larger of far-field screening and the sum over the bays;
/// `None` within one wavelength of a bay.
fn field_at_point_v_m(path: &EmissionPath, radiating: &Radiating, point: &PublicPoint) -> Option<f64> {
    let up = point.floor.m() + HEAD_M - radiating.centre_agl_m;
    let across = point.distance.m();
    let slant = across.hypot(up);
    let elev = up.atan2(across).to_degrees();
    let azimuths: Vec<f64> = match point.azimuth {
        Some(azimuth) => vec![azimuth.deg()],
        None => (0..36).map(|i| f64::from(i) * 10.0).collect(),
    };
    let mut strongest: f64 = 0.0;
    for azimuth in azimuths {
        let (sin, cos) = azimuth.to_radians().sin_cos();
        let at = [across * sin, across * cos, up];
        let near = near_v_m(path, radiating, at)?;
        let peak: f64 = total_erp_w(path);
        let towards: f64 = Plane::BOTH
            .iter()
            .map(|p| radiating.pattern.gain_ratio(*p, azimuth, elev))
            .sum::<f64>()
            * path.power_w.unwrap_or(0.0)
            * 10f64.powf(-path.loss_db() / 10.0);
        let erp = towards.max(peak * LEAST_RELATIVE_FIELD * LEAST_RELATIVE_FIELD);
        let far = GROUND_FACTOR * (30.0 * DIPOLE * erp).sqrt() / slant;
        strongest = strongest.max(near).max(far);
    }
    Some(strongest)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The far-field form of FCC OET-65, worked by hand for 1 kW ERP.
    #[test]
    fn ref_screening_distances_of_one_kilowatt() {
        // R = F·√(1.64·ERP/(4π·S)): 12.92 m at F 1.6 and S 2 W/m²; by E = F·√(49.2·ERP)/R: 7.92 m at F 1 and 28 V/m.
        assert!((screening_m(1000.0, 2.0, f64::INFINITY, 1.6) - 12.92).abs() < 0.02);
        assert!((screening_m(1000.0, f64::INFINITY, 28.0, 1.0) - 7.92).abs() < 0.02);
        // The larger of both counts.
        assert!((screening_m(1000.0, 2.0, 28.0, 1.6) - 12.92).abs() < 0.02);
    }
}
