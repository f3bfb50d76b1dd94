//! What is stated about the air, the ground, the frequency and the spread; what is refused; and what follows from it for any path.

use super::variability::{ClimateCurves, Deviates, climate_curves};
use super::warnings::{Warning, Warnings};
use super::{Antennas, preparation::surface_impedance};
use crate::p1812::Polarisation;

/// Electrical constants of the ground.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Ground {
    /// Relative permittivity, `εr`, at least 1.
    pub permittivity: f64,
    /// Conductivity, S/m, `σ`, above 0.
    pub conductivity_s_per_m: f64,
}

impl Ground {
    /// Average ground: 15, 0.005 S/m (textbook value).
    pub const AVERAGE: Self = Self {
        permittivity: 15.0,
        conductivity_s_per_m: 0.005,
    };
    /// Poor ground: 4, 0.001 S/m (textbook value).
    pub const POOR: Self = Self {
        permittivity: 4.0,
        conductivity_s_per_m: 0.001,
    };
    /// Good ground: 25, 0.020 S/m (textbook value).
    pub const GOOD: Self = Self {
        permittivity: 25.0,
        conductivity_s_per_m: 0.020,
    };
    /// Fresh water: 81, 0.010 S/m (textbook value).
    pub const FRESH_WATER: Self = Self {
        permittivity: 81.0,
        conductivity_s_per_m: 0.010,
    };
    /// Sea water: 81, 5 S/m (textbook value).
    pub const SEA: Self = Self {
        permittivity: 81.0,
        conductivity_s_per_m: 5.0,
    };
}

/// Conditions of a prediction, in the codes of the method.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conditions {
    /// Climate: 1 equatorial, 2 continental subtropical, 3 maritime subtropical, 4 desert, 5 continental temperate, 6 maritime
    /// temperate over land, 7 over sea.
    pub climate: u8,
    /// Surface refractivity reduced to sea level, N-units: 250 to 400.
    pub n0: f64,
    /// Frequency, MHz: 20 to 20 000.
    pub freq_mhz: f64,
    /// Plane of the electric field.
    pub polarisation: Polarisation,
    /// Ground constants.
    pub ground: Ground,
    /// Mode of variability: 0 single message, 1 accidental, 2 mobile, 3 broadcast; +10 without the spread by place, +20 without the
    /// spread by situation.
    pub variability: u8,
    /// Share of time, %, above 0 and below 100.
    pub time_pct: f64,
    /// Share of places, %.
    pub location_pct: f64,
    /// Share of situations (confidence), %.
    pub situation_pct: f64,
}

impl Conditions {
    /// Broadcast medians over average ground in continental temperate climate, horizontal polarisation, N0 301.
    pub fn broadcast_median(freq_mhz: f64) -> Self {
        Self {
            climate: 5,
            n0: 301.0,
            freq_mhz,
            polarisation: Polarisation::Horizontal,
            ground: Ground::AVERAGE,
            variability: 3,
            time_pct: 50.0,
            location_pct: 50.0,
            situation_pct: 50.0,
        }
    }
}

/// Why the method refuses.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
#[repr(u16)]
pub enum Refusal {
    /// Transmitting aerial outside 0.5 to 3000 m.
    TxHeight = 1000,
    /// Receiving aerial outside 0.5 to 3000 m.
    RxHeight = 1001,
    /// Unknown climate.
    Climate = 1002,
    /// Share of time not above 0 and below 100.
    Time = 1003,
    /// Share of places not above 0 and below 100.
    Location = 1004,
    /// Share of situations not above 0 and below 100.
    Situation = 1005,
    /// Sea-level refractivity outside 250 to 400.
    Refractivity = 1008,
    /// Frequency outside 20 to 20 000 MHz.
    Frequency = 1009,
    /// Unknown polarisation.
    Polarisation = 1010,
    /// Permittivity under 1.
    Permittivity = 1011,
    /// Conductivity not above 0.
    Conductivity = 1012,
    /// The ground's impedance has too small a real part.
    GroundImpedance = 1013,
    /// Unknown mode of variability.
    Variability = 1014,
    /// Effective Earth radius outside 4000 to 13 333 km.
    EarthRadius = 1016,
    /// Surface refractivity of the path under 150.
    SurfaceRefractivityLow = 1021,
    /// Surface refractivity of the path over 400.
    SurfaceRefractivityHigh = 1022,
}

impl Refusal {
    /// The method's number for it.
    pub fn code(self) -> u16 {
        self as u16
    }
}

/// A refusal, with the warnings met until then.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub struct Refused {
    /// Why.
    pub refusal: Refusal,
    /// Warnings met before it.
    pub warnings: Warnings,
}

/// Checks the aerials; the first step of the method.
pub(super) fn check_antennas(antennas: &Antennas) -> Result<Warnings, Refused> {
    let accepted = |h: f64| (0.5..=3000.0).contains(&h);
    let usual = |h: f64| (1.0..=1000.0).contains(&h);
    let mut warnings = Warnings::when(!usual(antennas.tx_agl_m), Warning::TxHeight);
    refuse_unless(accepted(antennas.tx_agl_m), Refusal::TxHeight, warnings)?;
    warnings = warnings | Warnings::when(!usual(antennas.rx_agl_m), Warning::RxHeight);
    refuse_unless(accepted(antennas.rx_agl_m), Refusal::RxHeight, warnings)?;
    Ok(warnings)
}

pub(super) fn refuse_unless(holds: bool, refusal: Refusal, warnings: Warnings) -> Result<(), Refused> {
    if holds {
        Ok(())
    } else {
        Err(Refused { refusal, warnings })
    }
}

/// Base of the mode of variability.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Base {
    SingleMessage,
    Accidental,
    Mobile,
    Broadcast,
}

/// Everything that follows from the conditions, whatever the path.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Constants {
    pub(super) n0: f64,
    pub(super) freq_mhz: f64,
    /// Natural logarithm of the frequency in MHz.
    pub(super) ln_freq: f64,
    /// `f^(1/3)`.
    pub(super) freq_third: f64,
    /// `K/C` of the smooth Earth, `0.017778·f^(−1/3)/|Zg|`, and its logarithm.
    pub(super) smooth_earth_k: f64,
    pub(super) ln_smooth_earth_k: f64,
    /// Wave number, rad/m, `f/47.7`.
    pub(super) wave_number: f64,
    /// Surface impedance, real and imaginary.
    pub(super) impedance: [f64; 2],
    /// Free-space loss at 1 km, dB.
    pub(super) free_space_km_db: f64,
    pub(super) base: Base,
    pub(super) location_spread: bool,
    pub(super) situation_spread: bool,
    pub(super) deviates: Deviates,
    pub(super) curves: ClimateCurves,
    /// `g−` and `g+`.
    pub(super) frequency_gain: [f64; 2],
    /// `(575.7·10¹²/wn)^(1/3)`, m.
    pub(super) wave_distance_m: f64,
    pub(super) warnings: Warnings,
}

impl Constants {
    /// Works out what follows from the conditions.
    ///
    /// # Errors
    /// [`Refused`] for the first condition, in the method's order, that it does not accept.
    pub fn new(conditions: &Conditions) -> Result<Self, Refused> {
        Self::after(conditions, Warnings::NONE)
    }

    pub(super) fn after(c: &Conditions, before: Warnings) -> Result<Self, Refused> {
        let mut warnings = before;
        let curves = *climate_curves(c.climate).ok_or(Refused {
            refusal: Refusal::Climate,
            warnings,
        })?;
        refuse_unless((250.0..=400.0).contains(&c.n0), Refusal::Refractivity, warnings)?;
        warnings = warnings | Warnings::when(!(40.0..=10_000.0).contains(&c.freq_mhz), Warning::Frequency);
        refuse_unless(
            (20.0..=20_000.0).contains(&c.freq_mhz),
            Refusal::Frequency,
            warnings,
        )?;
        refuse_unless(c.ground.permittivity >= 1.0, Refusal::Permittivity, warnings)?;
        refuse_unless(
            c.ground.conductivity_s_per_m > 0.0,
            Refusal::Conductivity,
            warnings,
        )?;
        let base = base_of(c.variability).ok_or(Refused {
            refusal: Refusal::Variability,
            warnings,
        })?;
        let inside = |pct: f64| pct > 0.0 && pct < 100.0;
        refuse_unless(inside(c.situation_pct), Refusal::Situation, warnings)?;
        refuse_unless(inside(c.time_pct), Refusal::Time, warnings)?;
        refuse_unless(inside(c.location_pct), Refusal::Location, warnings)?;
        let (deviates, extreme) = Deviates::of(c, base);
        warnings = warnings | Warnings::when(extreme, Warning::ExtremePercentage);

        let impedance = surface_impedance(c.freq_mhz, c.ground, c.polarisation);
        let wave_number = c.freq_mhz / 47.7;
        let freq_third = c.freq_mhz.cbrt();
        let smooth_earth_k = 0.017778 / freq_third / impedance[0].hypot(impedance[1]);
        Ok(Self {
            n0: c.n0,
            freq_mhz: c.freq_mhz,
            ln_freq: c.freq_mhz.ln(),
            freq_third,
            smooth_earth_k,
            ln_smooth_earth_k: smooth_earth_k.ln(),
            wave_number,
            impedance,
            free_space_km_db: 32.45 + 20.0 * c.freq_mhz.log10(),
            base,
            location_spread: (c.variability / 10).is_multiple_of(2),
            situation_spread: c.variability < 20,
            deviates,
            frequency_gain: curves.frequency_gain(wave_number),
            curves,
            wave_distance_m: (575.7e12 / wave_number).cbrt(),
            warnings,
        })
    }
}

fn base_of(mode: u8) -> Option<Base> {
    match (mode <= 33).then_some(mode % 10)? {
        0 => Some(Base::SingleMessage),
        1 => Some(Base::Accidental),
        2 => Some(Base::Mobile),
        3 => Some(Base::Broadcast),
        _ => None,
    }
}
