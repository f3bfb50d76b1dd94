//! What a line, connector or splitter may carry, derated for where it stands.

use serde::{Deserialize, Serialize};

use super::{LineError, Vswr, within};

/// Air above the base altitude derates the cooling by this much per 100 m (practice; stated for transmitters, taken for lines).
const ALTITUDE_PER_100M: f64 = 0.01;
/// Altitude from which that derating begins, m (practice).
const ALTITUDE_FREE_M: f64 = 2000.0;
/// Factor by ambient temperature, °C → ratio; base 40 °C (practice). Straight lines between, refused above the last.
const AMBIENT: [(f64, f64); 3] = [(40.0, 1.0), (50.0, 0.85), (60.0, 0.7)];
/// Factor in direct sun (practice: 0.8–0.9, the lower taken).
const SUN: f64 = 0.8;
/// Share of the derated rating used for 24 h duty (practice: 70–80 %, the lower taken).
const CONTINUOUS: f64 = 0.7;
/// Pressure scale of the standard atmosphere: p/p0 = (1 − h/44331 m)^5.256 (memory: ICAO standard atmosphere).
const ATMOSPHERE_M: f64 = 44_331.0;
const ATMOSPHERE_EXPONENT: f64 = 5.256;

/// How many hours a day the power is on.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Service {
    /// All day, all year: broadcast.
    Continuous,
    /// Tests and short operation.
    Intermittent,
}

/// Where the part stands and what it sees.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Conditions {
    /// Highest air temperature, °C.
    pub ambient_c: f64,
    /// Height above sea level, m.
    pub altitude_amsl_m: f64,
    /// Whether the sun shines on it.
    pub sunlit: bool,
    /// VSWR at the part.
    pub vswr: Vswr,
    /// Hours of service.
    pub service: Service,
}

impl Default for Conditions {
    /// 40 °C, sea level, shade, matched, continuous.
    fn default() -> Self {
        Self {
            ambient_c: 40.0,
            altitude_amsl_m: 0.0,
            sunlit: false,
            vswr: Vswr::ONE,
            service: Service::Continuous,
        }
    }
}

/// A rating with each factor that led to it.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub struct Derated {
    /// Average power at the frequency under base conditions (40 °C, matched), W.
    pub base_w: f64,
    /// Ratio for ambient temperature.
    pub ambient_ratio: f64,
    /// Ratio for altitude (cooling).
    pub altitude_ratio: f64,
    /// Ratio for sun.
    pub sun_ratio: f64,
    /// Ratio for standing waves, average heating: 2S/(S²+1).
    pub vswr_ratio: f64,
    /// Ratio for standing waves where a hot spot or a voltage peak is the limit: 1/S.
    pub hot_spot_ratio: f64,
    /// Ratio for the hours of service.
    pub service_ratio: f64,
    /// What average heating allows: base × every ratio but the hot spot's, W.
    pub average_w: f64,
    /// What a hot spot allows: base × every ratio but the average VSWR's, W. The smaller of the two counts where the part's
    /// limit is not known to be its average heating.
    pub hot_spot_w: f64,
}

/// Average power rating of a line at a frequency from that at 100 MHz: P100·α(100)/α(f).
///
/// Exact where conductor heating is the limit (practice).
pub fn line_rating_w(at_100_mhz_w: f64, alpha_100_db: f64, alpha_db: f64) -> Result<f64, LineError> {
    within(
        "power-rating-in-w",
        at_100_mhz_w,
        at_100_mhz_w > 0.0,
        "a-power-above-0",
    )?;
    within(
        "attenuation-at-100-mhz",
        alpha_100_db,
        alpha_100_db > 0.0,
        "a-figure-above-0",
    )?;
    within(
        "attenuation-at-the-frequency",
        alpha_db,
        alpha_db > 0.0,
        "a-figure-above-0",
    )?;
    Ok(at_100_mhz_w * alpha_100_db / alpha_db)
}

/// Average power rating of a connector at a frequency from that at 100 MHz: falls with 1/√f (practice).
pub fn connector_rating_w(at_100_mhz_w: f64, freq_mhz: f64) -> Result<f64, LineError> {
    within(
        "power-rating-in-w",
        at_100_mhz_w,
        at_100_mhz_w > 0.0,
        "a-power-above-0",
    )?;
    within(
        "frequency-in-mhz",
        freq_mhz,
        freq_mhz > 0.0,
        "a-frequency-above-0",
    )?;
    Ok(at_100_mhz_w * (100.0 / freq_mhz).sqrt())
}

/// Derates a base rating for its place and service.
///
/// # Errors
/// [`LineError::Range`] above 60 °C (no practice to cite there), outside −500…9000 m, or a rating not above 0.
pub fn derated(base_w: f64, at: &Conditions) -> Result<Derated, LineError> {
    within("power-rating-in-w", base_w, base_w > 0.0, "a-power-above-0")?;
    let ambient_ratio = ambient_ratio(at.ambient_c)?;
    let altitude_ratio = altitude_ratio(at.altitude_amsl_m)?;
    let sun_ratio = if at.sunlit { SUN } else { 1.0 };
    let s = at.vswr.ratio();
    let (vswr_ratio, hot_spot_ratio) = (2.0 * s / (s * s + 1.0), 1.0 / s);
    let service_ratio = if at.service == Service::Continuous {
        CONTINUOUS
    } else {
        1.0
    };
    let common = base_w * ambient_ratio * altitude_ratio * sun_ratio * service_ratio;
    Ok(Derated {
        base_w,
        ambient_ratio,
        altitude_ratio,
        sun_ratio,
        vswr_ratio,
        hot_spot_ratio,
        service_ratio,
        average_w: common * vswr_ratio,
        hot_spot_w: common * hot_spot_ratio,
    })
}

/// Ratio by which air at an altitude withstands less voltage than at sea level: the pressure of the standard atmosphere
/// (memory). Multiply a voltage limit by it, a peak power limit by its square. Errors as [`derated`].
pub fn voltage_altitude_ratio(altitude_amsl_m: f64) -> Result<f64, LineError> {
    check_altitude(altitude_amsl_m)?;
    Ok((1.0 - altitude_amsl_m.max(0.0) / ATMOSPHERE_M).powf(ATMOSPHERE_EXPONENT))
}

fn altitude_ratio(altitude_amsl_m: f64) -> Result<f64, LineError> {
    check_altitude(altitude_amsl_m)?;
    Ok(1.0 - ALTITUDE_PER_100M * (altitude_amsl_m - ALTITUDE_FREE_M).max(0.0) / 100.0)
}

fn check_altitude(altitude_amsl_m: f64) -> Result<f64, LineError> {
    let ok = (-500.0..=9000.0).contains(&altitude_amsl_m);
    within(
        "altitude-in-m-above-sea",
        altitude_amsl_m,
        ok,
        "between-minus-500-and-9000-m",
    )
}

fn ambient_ratio(ambient_c: f64) -> Result<f64, LineError> {
    let ok = (-80.0..=60.0).contains(&ambient_c);
    within(
        "ambient-temperature-in-c",
        ambient_c,
        ok,
        "between-minus-80-and-60-c",
    )?;
    let hit = AMBIENT
        .windows(2)
        .find(|w| ambient_c > w[0].0 && ambient_c <= w[1].0);
    Ok(hit.map_or(1.0, |w| {
        let t = (ambient_c - w[0].0) / (w[1].0 - w[0].0);
        w[0].1 + t * (w[1].1 - w[0].1)
    }))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ref_each_factor_is_the_practice_figure() {
        // Common practice, no source: 0.85 at 50 °C, sun 0.8, 70 % for 24 h, (S²+1)/(2S) at VSWR 2 is 1.25, S is 2.
        let at = Conditions {
            ambient_c: 50.0,
            altitude_amsl_m: 3000.0,
            sunlit: true,
            vswr: Vswr::new(2.0).unwrap(),
            service: Service::Continuous,
        };
        let d = derated(1000.0, &at).unwrap();
        assert_eq!((d.ambient_ratio, d.sun_ratio, d.service_ratio), (0.85, 0.8, 0.7));
        assert!((d.altitude_ratio - 0.9).abs() < 1e-12);
        assert!((d.average_w - 1000.0 * 0.85 * 0.8 * 0.7 * 0.9 / 1.25).abs() < 1e-9);
        assert!((d.hot_spot_w - 1000.0 * 0.85 * 0.8 * 0.7 * 0.9 / 2.0).abs() < 1e-9);
        assert!((ambient_ratio(45.0).unwrap() - 0.925).abs() < 1e-12);
        assert_eq!(ambient_ratio(-20.0).unwrap(), 1.0);
    }

    #[test]
    fn ref_connector_falls_with_the_root_of_frequency() {
        assert!((connector_rating_w(1000.0, 400.0).unwrap() - 500.0).abs() < 1e-9);
        assert!((line_rating_w(3400.0, 2.17, 4.75).unwrap() - 1553.3).abs() < 0.1);
    }

    #[test]
    fn ref_air_at_two_thousand_metres_holds_four_fifths() {
        // Standard atmosphere: 795 hPa at 2000 m against 1013.25 hPa (memory, any table of it).
        assert!((voltage_altitude_ratio(2000.0).unwrap() - 0.785).abs() < 0.002);
    }

    #[test]
    fn bad_heat_and_height_are_refused() {
        let hot = Conditions {
            ambient_c: 75.0,
            ..Conditions::default()
        };
        assert!(derated(1000.0, &hot).unwrap_err().to_string().contains("ambient"));
        assert!(derated(-5.0, &Conditions::default()).is_err());
        assert!(voltage_altitude_ratio(20_000.0).is_err());
    }
}
