//! Power and heat, site by site: what is drawn, what feeds it, how long it lasts without mains, how warm it gets.

use crate::case::Case;
use crate::proofs::transmission;
use station::design::{Item, ItemStatus};
use station::shelf::{ItemKind, ShelfItem};

/// Hours of a year.
pub const HOURS_PER_YEAR: f64 = 8760.0;
/// Volume heat of air, W·h/(m³·K): 1.2 kg/m³ × 1005 J/(kg·K) / 3600 s.
const AIR_WH_PER_M3_K: f64 = 1.2 * 1005.0 / 3600.0;
/// Share of its rating that a generator is loaded with (common practice, no source).
pub const GENERATOR_LOAD: f64 = 0.75;
/// Share of new capacity left at the end of a battery's life, IEEE 485 [M].
const BATTERY_END_OF_LIFE: f64 = 0.8;

/// Power and heat of every site.
#[derive(Debug, Clone, PartialEq)]
pub struct Outcome {
    /// Sites that draw power, in the order of the file.
    pub sites: Vec<SiteEnergy>,
    /// Energy of all sites, kWh a year.
    pub kwh_per_year: f64,
}

/// One site.
#[derive(Debug, Clone, PartialEq)]
pub struct SiteEnergy {
    /// Its tag.
    pub tag: String,
    /// Drawn from the supply when all works, W.
    pub load_w: f64,
    /// Left as heat in the room, W.
    pub heat_w: f64,
    /// Items whose draw the shelf does not say, by tag.
    pub unknown: Vec<String>,
    /// What the connection gives, W.
    pub capacity_w: Option<f64>,
    /// Mains is there.
    pub mains: Option<bool>,
    /// Three phases are there.
    pub three_phase: bool,
    /// Items that need three phases, by tag.
    pub need_three_phase: Vec<String>,
    /// Hours without mains by battery alone.
    pub battery_h: Option<f64>,
    /// Hours without mains in all: battery, then generator while its tank lasts.
    pub reserve_h: f64,
    /// A generator or sun set carries the load.
    pub generator: bool,
    /// What batteries or generators give at most, W, where any is there.
    pub reserve_output_w: Option<f64>,
    /// Hours asked for.
    pub wanted_h: Option<f64>,
    /// Hours a year without programme for want of power: cuts longer than the reserve.
    pub dark_h_per_year: f64,
    /// Warmest the room gets, °C.
    pub room_c: Option<f64>,
    /// Warmest it may get, °C.
    pub room_allowed_c: Option<f64>,
    /// Air needed to hold it there, m³/h.
    pub air_m3_h: Option<f64>,
    /// Energy a year, kWh.
    pub kwh_per_year: f64,
    /// Transmitters: tag, RF out W, mains W.
    pub transmitters: Vec<(String, f64, f64)>,
}

/// The site an item stands on: its place, or its room's site.
fn site_of<'a>(case: &Case<'a>, item: &'a Item) -> Option<&'a str> {
    let place = item.place.as_deref()?;
    match case.station.room(place) {
        Some(room) => Some(&room.site),
        None => Some(place),
    }
}

/// Sums power and heat.
pub fn evaluate(case: &Case, transmission: &transmission::Outcome) -> Outcome {
    let sites: Vec<SiteEnergy> = case
        .station
        .sites
        .iter()
        .map(|site| site_energy(case, transmission, site))
        .collect();
    let sites: Vec<SiteEnergy> = sites
        .into_iter()
        .filter(|s| s.load_w > 0.0 || !s.unknown.is_empty())
        .collect();
    Outcome {
        kwh_per_year: sites.iter().map(|s| s.kwh_per_year).sum(),
        sites,
    }
}

fn site_energy(case: &Case, transmission: &transmission::Outcome, site: &station::place::Site) -> SiteEnergy {
    let here: Vec<(&Item, &ShelfItem, f64)> = case
        .station
        .items
        .iter()
        .filter(|i| i.status.unwrap_or(ItemStatus::New).is_present() && site_of(case, i) == Some(&site.tag))
        .filter_map(|i| Some((i, case.shelf.get(&i.shelf)?, f64::from(i.count.unwrap_or(1)))))
        .collect();
    let mut out = SiteEnergy {
        tag: site.tag.clone(),
        load_w: 0.0,
        heat_w: 0.0,
        unknown: Vec::new(),
        capacity_w: site.supply.capacity.value().map(|c| c.w()),
        mains: site.supply.mains.value().copied(),
        three_phase: site.supply.three_phase == Some(true),
        need_three_phase: Vec::new(),
        battery_h: None,
        reserve_h: 0.0,
        generator: false,
        reserve_output_w: None,
        wanted_h: case
            .station
            .brief
            .continuity
            .without_mains
            .value()
            .map(|d| d.hours()),
        dark_h_per_year: 0.0,
        room_c: None,
        room_allowed_c: site.shelter.warmest.value().map(|t| t.celsius()),
        air_m3_h: None,
        kwh_per_year: 0.0,
        transmitters: Vec::new(),
    };
    for (item, shelf, count) in &here {
        // A reserve transmitter stands by: its draw is left out while the first one works.
        if item.reserve == Some(true) && shelf.kind == ItemKind::Transmitter {
            continue;
        }
        match drawn(transmission, item, shelf) {
            Some((load, heat)) => {
                out.load_w += load * count;
                out.heat_w += heat * count;
                if let Some(rf) = rf_out_w(transmission, item) {
                    out.transmitters.push((item.tag.clone(), rf, load));
                }
            }
            None if draws(shelf.kind) => out.unknown.push(item.tag.clone()),
            None => {}
        }
        if shelf.transmitter.as_ref().and_then(|t| t.three_phase) == Some(true) {
            out.need_three_phase.push(item.tag.clone());
        }
    }
    reserve(&here, &mut out);
    warmth(site, &mut out);
    let duty = case
        .station
        .brief
        .seats
        .duty
        .value()
        .map_or(1.0, |d| d.pct() / 100.0);
    out.kwh_per_year = out.load_w / 1000.0 * HOURS_PER_YEAR * duty;
    out.dark_h_per_year = dark_hours(site, &out);
    out
}

/// Kinds that draw power: a missing figure there matters.
fn draws(kind: ItemKind) -> bool {
    matches!(
        kind,
        ItemKind::Transmitter
            | ItemKind::Console
            | ItemKind::Playout
            | ItemKind::Processor
            | ItemKind::LinkRadio
            | ItemKind::Codec
            | ItemKind::Loudspeaker
            | ItemKind::HeadphoneAmplifier
    )
}

fn rf_out_w(transmission: &transmission::Outcome, item: &Item) -> Option<f64> {
    transmission
        .emissions
        .iter()
        .find(|e| e.steps.is_ok() && e.joints.first().is_some_and(|j| j.between.0 == item.tag))
        .and_then(|e| e.power_w)
}

/// Mains power and heat of one item, W.
fn drawn(transmission: &transmission::Outcome, item: &Item, shelf: &ShelfItem) -> Option<(f64, f64)> {
    if let Some(ratings) = &shelf.transmitter {
        let rf = rf_out_w(transmission, item)?;
        let mains = mains_w(rf, ratings.efficiency.filter(|e| e.pct() > 0.0)?.pct() / 100.0);
        return Some((mains, mains - rf));
    }
    let load = shelf.power?.w();
    Some((load, shelf.heat.map_or(load, |h| h.w())))
}

/// Mains power of a transmitter: RF out over efficiency, W.
pub fn mains_w(rf_w: f64, efficiency_ratio: f64) -> f64 {
    rf_w / efficiency_ratio
}

fn reserve(here: &[(&Item, &ShelfItem, f64)], out: &mut SiteEnergy) {
    let mut stored_wh = 0.0;
    let mut output: f64 = 0.0;
    let mut tank_h: f64 = 0.0;
    let mut any_battery = false;
    for (_, shelf, count) in here {
        let Some(supply) = &shelf.supply else { continue };
        match shelf.kind {
            ItemKind::Ups | ItemKind::Solar => {
                if let (Some(energy), Some(depth), Some(efficiency)) =
                    (supply.energy, supply.depth, supply.efficiency)
                {
                    any_battery = true;
                    output += supply.output.w() * count;
                    stored_wh += energy.wh() * depth.pct() / 100.0 * efficiency.pct() / 100.0
                        * BATTERY_END_OF_LIFE
                        * count;
                }
            }
            ItemKind::Generator => {
                out.generator = true;
                output += supply.output.w() * count;
                let (Some(litres), Some(tank)) = (supply.litres_per_kwh, supply.tank_litres) else {
                    continue;
                };
                if out.load_w > 0.0 {
                    tank_h += tank * count / (litres * out.load_w / 1000.0);
                }
            }
            _ => {}
        }
    }
    if out.load_w > 0.0 && any_battery {
        out.battery_h = Some(stored_wh / out.load_w);
    }
    out.reserve_h = out.battery_h.unwrap_or(0.0) + tank_h;
    out.reserve_output_w = (output > 0.0).then_some(output);
}

/// Temperature of a ventilated room on the hottest day, °C: the air carries the heat away.
fn warmth(site: &station::place::Site, out: &mut SiteEnergy) {
    let Some(outside) = site.climate.hottest.value().map(|t| t.celsius()) else {
        return;
    };
    let cooled = site.shelter.cooling.value().map_or(0.0, |c| c.w());
    let left = (out.heat_w - cooled).max(0.0);
    if let Some(air) = site.shelter.airflow_m3_h.value()
        && *air > 0.0
    {
        out.room_c = Some(outside + left / (AIR_WH_PER_M3_K * air));
    }
    if let Some(allowed) = out.room_allowed_c
        && allowed > outside
    {
        out.air_m3_h = Some(air_needed_m3_h(left, allowed - outside));
    }
}

/// Air that carries heat away at a rise in temperature, m³/h: P·3600/(1.2·1005·ΔT).
pub fn air_needed_m3_h(heat_w: f64, rise_k: f64) -> f64 {
    heat_w / (AIR_WH_PER_M3_K * rise_k)
}

/// Hours a year without power: each cut beyond the reserve, cuts lasting as exponential waiting times do.
fn dark_hours(site: &station::place::Site, out: &SiteEnergy) -> f64 {
    if out.mains == Some(false) {
        return 0.0;
    }
    let (Some(cuts), Some(usual)) = (site.supply.cuts_per_week.value(), site.supply.usual_cut.value()) else {
        return 0.0;
    };
    let mean_h = usual.hours();
    if mean_h <= 0.0 {
        return 0.0;
    }
    cuts * 52.18 * mean_h * (-out.reserve_h / mean_h).exp()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 1 kW at 68 %: 1471 W from the mains, 471 W of heat, which 10 K of rise carry away in 140 m³/h (definitions).
    #[test]
    fn ref_transmitter_mains_heat_and_air() {
        let mains = mains_w(1000.0, 0.68);
        assert!((mains - 1471.0).abs() < 1.0);
        assert!((air_needed_m3_h(mains - 1000.0, 10.0) - 140.0).abs() < 2.0);
    }
}
