//! Faults as edits of a network on one solution, held to the same faults in the metal, solved anew.
#![allow(clippy::unwrap_used, reason = "tests")]

#[path = "shared/stations.rs"]
#[allow(dead_code, reason = "the bench uses the rest")]
mod stations;

use antenna::array::{ElementKind, StackPlan};
use antenna::chain::Stage;
use antenna::direction::Plane;
use antenna::fault::{Aerial, Fault, Installation, usual_points};
use antenna::feed::{Cable, Feed, Splitter};
use antenna::line::{LineConstants, wavelength_m};
use antenna::mount::{Mast, MastPlace, MountPlan, WireElement};
use antenna::wires::Wire;
use stations::{half_turn, moves_what_it_must, stretch};

const FREQ_MHZ: f64 = 98.0;

fn plan(element: WireElement, bays: usize) -> MountPlan {
    let place = MastPlace {
        bearing_deg: 40.0,
        stand_off_m: 0.8,
    };
    let mast = Mast::Pole { radius_m: 0.03 };
    // A panel's rods are longer than a wavelength.
    let apart = if element == WireElement::Panel { 1.3 } else { 0.9 };
    MountPlan::even(
        FREQ_MHZ,
        bays,
        apart * wavelength_m(FREQ_MHZ),
        element,
        place,
        mast,
    )
}

fn installation(aerial: Aerial) -> Installation {
    let cable = Cable {
        line: LineConstants::new(0.4022, 0.000782, 0.85, 50.0).unwrap(),
        length_m: 5.0,
    };
    let main = LineConstants::new(0.1122, 0.000483, 0.89, 50.0).unwrap();
    Installation {
        feed: Feed::equal(
            Splitter::quarter_wave(aerial.bays(), FREQ_MHZ, 0.1),
            aerial.bays(),
            cable,
        ),
        aerial,
        line: vec![Stage::Line {
            cable: Cable {
                line: main,
                length_m: 60.0,
            },
            conductor_c: 20.0,
        }],
        wet: None,
        forward_w: 1000.0,
        fold_back: None,
        coupler_directivity_db: 30.0,
        scatter_db: -60.0,
    }
}

/// Largest difference of two installations' readings at the usual points, dB, and of the meters alone.
fn apart_db(a: &Installation, b: &Installation, plane: Plane) -> (f64, f64) {
    let points = usual_points(plane, 6);
    let (a, b) = (a.readings(&points).unwrap(), b.readings(&points).unwrap());
    let meters = (a.forward_dbw - b.forward_dbw)
        .abs()
        .max((a.reflected_dbw - b.reflected_dbw).abs());
    let fields = a.erp_dbw.iter().zip(&b.erp_dbw).map(|(x, y)| (x - y).abs());
    (fields.fold(meters, f64::max), meters)
}

#[test]
fn verif_a_bay_upside_down_is_its_own_metal_reversed() {
    // Every conductor of the bay turned half round its boom, and solved anew.
    for element in [
        WireElement::Vertical,
        WireElement::Horizontal,
        WireElement::Slant { lean_deg: 45.0 },
        WireElement::Crossed { right_handed: true },
        WireElement::Turnstile,
        WireElement::Yagi { upright: true },
        WireElement::Panel,
    ] {
        let plan = plan(element, 2);
        let mounted = plan.solved().unwrap();
        let turned = plan
            .solved_reshaped(FREQ_MHZ, mounted.matching(), |bay, wire| {
                if bay == 1 {
                    half_turn(&plan.bays[1], wire);
                }
            })
            .unwrap();
        let drawn = installation(Aerial::solved(plan.clone(), mounted));
        let edited = Fault::UpsideDown { bay: 1 }.applied(&drawn).unwrap();
        let metal = installation(Aerial::solved(plan.clone(), turned));
        for plane in Plane::BOTH {
            let (worst, _) = apart_db(&edited, &metal, plane);
            // A plane without any field but rounding says nothing.
            let silent = drawn.readings(&usual_points(plane, 1)).unwrap().erp_dbw[0] < -20.0;
            assert!(silent || worst < 0.01, "{element:?} {plane:?}: {worst} dB");
        }
    }
}

#[test]
fn verif_a_turnstile_upside_down_is_no_reversal() {
    // Half a turn reverses the dipole across and not the one along: the sign alone would be wrong, and is not used.
    assert!(!WireElement::Turnstile.turns_onto_itself());
    let plan = plan(WireElement::Turnstile, 2);
    let drawn = installation(Aerial::wires(plan.clone()).unwrap());
    let edited = Fault::UpsideDown { bay: 1 }.applied(&drawn).unwrap();
    // Reversing the current alone is half a turn of phase on its branch.
    let mut reversed = drawn;
    let cable = &mut reversed.feed.branches[1].cable;
    let half_turn_m = 180.0 / cable.line.phase_deg_per_m(FREQ_MHZ);
    cable.line.a_db_per_100m = 0.0;
    cable.line.b_db_per_100m = 0.0;
    cable.length_m += half_turn_m;
    let (worst, _) = apart_db(&edited, &reversed, Plane::Horizontal);
    assert!(worst > 3.0, "{worst} dB");
}

#[test]
fn verif_a_bay_cut_otherwise_is_nearly_a_reactance() {
    // The bay's own dipole really 4 MHz too short or too long, on its mast among its neighbours, against what the lone bay shows more.
    for (element, plane) in [
        (WireElement::Vertical, Plane::Vertical),
        (WireElement::Horizontal, Plane::Horizontal),
    ] {
        let plan = plan(element, 4);
        let mounted = plan.solved().unwrap();
        let matching = mounted.matching().to_vec();
        let drawn = installation(Aerial::solved(plan.clone(), mounted));
        for by_mhz in [-4.0, 4.0] {
            let cut = |bay: usize, wire: &mut Wire| {
                if bay == 1 {
                    stretch(wire, FREQ_MHZ / (FREQ_MHZ + by_mhz));
                }
            };
            let metal = plan.solved_reshaped(FREQ_MHZ, &matching, cut).unwrap();
            let metal = installation(Aerial::solved(plan.clone(), metal));
            let edited = Fault::Detuned { bay: 1, by_mhz }.applied(&drawn).unwrap();
            let (before, after, taken) = (
                drawn.aerial.ports_ohm(),
                metal.aerial.ports_ohm(),
                edited.aerial.ports_ohm(),
            );
            let moved = (after[(1, 1)] - before[(1, 1)]).norm();
            let own = (after[(1, 1)] - taken[(1, 1)]).norm() / moved;
            let coupled = (after[(1, 2)] - taken[(1, 2)]).norm() / moved;
            let lobe = |i: &Installation| i.readings(&usual_points(plane, 4)[..4]).unwrap().erp_dbw;
            let in_lobe = lobe(&edited)
                .iter()
                .zip(lobe(&metal))
                .map(|(a, b)| (a - b).abs())
                .fold(0.0, f64::max);
            assert!(
                moved > 10.0 && own < 0.1 && coupled < 0.1 && in_lobe < 0.2,
                "{element:?} {by_mhz} MHz: {moved:.1} ohm, own {own:.3}, coupled {coupled:.3}, lobe {in_lobe:.3} dB"
            );
        }
    }
}

#[test]
fn verif_readings_are_those_of_the_solved_pattern() {
    // The same antenna by its pattern: gain at the splitter times what the line delivers.
    let plan = plan(WireElement::Vertical, 4);
    let mounted = plan.solved().unwrap();
    let station = installation(Aerial::wires(plan).unwrap());
    let points = usual_points(Plane::Vertical, 6);
    let read = station.readings(&points).unwrap();
    let (pattern, fed) = mounted.pattern(&station.feed).unwrap();
    let probe = station.chain().at(FREQ_MHZ, fed.input_ohm(), 1000.0).unwrap();
    for (p, erp_dbw) in points.iter().zip(&read.erp_dbw) {
        let gain_dbd = pattern.gain_dbd(p.plane, p.towards.bearing_deg, p.towards.elev_deg);
        let wanted = gain_dbd + 10.0 * probe.delivered_w.log10();
        assert!(
            gain_dbd < -10.0 || (erp_dbw - wanted).abs() < 0.03,
            "{p:?}: {erp_dbw} {wanted}"
        );
    }
}

#[test]
fn prop_faults_on_wires_do_what_they_must() {
    let station = installation(Aerial::wires(plan(WireElement::Vertical, 4)).unwrap());
    let points = usual_points(Plane::Vertical, 4);
    let read = |f: Fault| f.applied(&station).unwrap().readings(&points).unwrap();
    moves_what_it_must(&read);
}

#[test]
fn regress_the_array_model_says_nearly_the_same_of_a_fault() {
    // Two models of one stack on a pole: a reversed bay costs the same in the lobe within half a decibel.
    let draft = StackPlan {
        frequency_mhz: FREQ_MHZ,
        bays: 4,
        spacing_m: 0.9 * wavelength_m(FREQ_MHZ),
        element: ElementKind::Vertical,
        bearing_deg: 40.0,
        pole_radius_m: Some(0.03),
        stand_off_m: 0.8,
    };
    let costs = |aerial: Aerial| {
        let station = installation(aerial);
        let points = usual_points(Plane::Vertical, 8);
        let lobe = |i: &Installation| i.readings(&points).unwrap().erp_dbw[0];
        lobe(&station) - lobe(&Fault::UpsideDown { bay: 2 }.applied(&station).unwrap())
    };
    let array = costs(Aerial::array(draft.stack().unwrap()).unwrap());
    let wires = costs(Aerial::wires(MountPlan::proof_of(&draft, None)).unwrap());
    assert!((array - wires).abs() < 0.5, "{array} {wires}");
}
