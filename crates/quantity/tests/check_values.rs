//! Conversions against published and reference figures.

use quantity::*;

fn near(value: f64, expected: f64, tolerance: f64) {
    assert!(
        (value - expected).abs() <= tolerance,
        "{value}, expected {expected} ± {tolerance}"
    );
}

/// From the definitions, worked by hand: 1 kW ERP at 1 km in free space is 106.92 dB(µV/m), 221.9 mV/m; E = √(30·P·G)/d.
#[test]
fn ref_fm_planning_13_1_field_of_1_kw_erp_at_1_km() {
    let eirp = Erp::parse("1 kW").unwrap().to_eirp();
    let field = FieldStrength::from_v_m((30.0 * eirp.w()).sqrt() / 1000.0);
    near(field.dbuv_m(), 106.92, 0.03);
    near(field.mv_m(), 221.9, 0.1);
}

/// From the definitions, worked by hand: 1 kW EIRP at 1 km is 104.77 dB(µV/m).
#[test]
fn ref_fm_planning_13_2_field_of_1_kw_eirp_at_1_km() {
    let field = FieldStrength::from_v_m((30.0 * Eirp::from_kw(1.0).w()).sqrt() / 1000.0);
    near(field.dbuv_m(), 104.77, 0.01);
}

/// From the definitions, worked by hand: EIRP(dBW) = ERP(dBW) + 2.15; S(dBW/m²) = E(dBµV/m) − 145.76.
#[test]
fn ref_fm_planning_5_levels() {
    let erp = Erp::parse("27 dBW").unwrap();
    near(erp.to_eirp().dbw() - erp.dbw(), 2.15, 1e-9);
    near(erp.to_eirp().to_erp().w(), erp.w(), 1e-9);
    let field = FieldStrength::parse("54 dBuV/m").unwrap();
    near(field.power_density().dbw_m2(), 54.0 - 145.76, 0.005);
    near(GainDbd::from_dbd(6.0).to_dbi().dbi(), 8.15, 1e-12);
}

/// From the definitions, worked by hand: 1 kW, 0.463 + 0.25 dB lost, +5.9 dBd is 3.30 kW, 35.19 dBW.
#[test]
fn ref_fm_planning_13_15_chain() {
    let erp = Power::parse("1 kW")
        .unwrap()
        .plus(Decibels::from_db(-0.463 - 0.25))
        .radiated(GainDbd::from_dbd(5.9));
    near(erp.dbw(), 35.19, 0.05);
    near(erp.kw(), 3.30, 0.01);
}

/// From the definitions, worked by hand: 27.7 V/m is 2.037 W/m², 61 V/m is 9.88 W/m².
#[test]
fn ref_exposure_6_power_density() {
    near(FieldStrength::from_v_m(27.7).power_density().w_m2(), 2.037, 0.01);
    near(
        FieldStrength::parse("61 V/m").unwrap().power_density().w_m2(),
        9.88,
        0.01,
    );
}

/// From the definitions, worked by hand: 83.5 µW/cm² = 0.835 W/m².
#[test]
fn ref_exposure_6_density_units() {
    near(PowerDensity::parse("83.5 µW/cm²").unwrap().w_m2(), 0.835, 1e-12);
    near(
        PowerDensity::parse("83.5 uW/cm2").unwrap().mw_cm2(),
        0.0835,
        1e-12,
    );
}

/// From the definitions, worked by hand: 1 kW ERP reaches 28 V/m at 7.92 m in free space.
#[test]
fn ref_exposure_6_3_distance_of_28_v_m() {
    let field = FieldStrength::parse("28 V/m").unwrap();
    near(
        (30.0 * Erp::from_kw(1.0).to_eirp().w()).sqrt() / field.v_m(),
        7.92,
        0.02,
    );
}

/// Exact by definition (international yard and pound, 1959): inch, foot; ISO 80000-5: 0 °C is 273.15 K.
#[test]
fn ref_defined_units() {
    near(Length::parse("1 in").unwrap().mm(), 25.4, 1e-12);
    near(Length::parse("100 ft").unwrap().m(), 30.48, 1e-12);
    near(Temperature::from_celsius(0.0).kelvin(), 273.15, 1e-12);
    near(Speed::parse("36 km/h").unwrap().m_s(), 10.0, 1e-12);
    near(Power::parse("4700 BTU/h").unwrap().kw(), 1.377, 0.001);
}

/// 2:1 is 9.54 dB return loss (from the definition of reflection coefficient, 1/3).
#[test]
fn ref_return_loss_of_two_to_one() {
    near(Vswr::parse("2:1").unwrap().return_loss_db(), 9.542, 0.001);
    near(Vswr::from_return_loss_db(9.542_425).ratio(), 2.0, 1e-6);
}
