//! The bounded search is held to the exhaustive one, on shelves of thirty things.
//!
//! The definition of exactness: no outside source is needed, every design was looked at.
#![allow(clippy::unwrap_used, reason = "a test stops where its ground gives way")]

mod shared;

use planner::{Pick, Plan, exhaustive, plan};
use serde_json::{Value as Json, json};
use shared::{Asked, THIRTY, THIRTY_WITH_LINKS, on_the_hill};

/// Both answers, which must be one; the bounded one.
#[track_caller]
fn exact(asked: &Asked) -> Plan {
    let (quick, slow) = (asked.answered(plan), asked.answered(exhaustive));
    println!("{:?}, {:?}", quick.looked_at, quick.chosen.choice);
    assert_eq!(quick.looked_at.designs, slow.looked_at.evaluated);
    assert!(quick.looked_at.evaluated < slow.looked_at.evaluated);
    assert!(quick.chosen.holds);
    assert_eq!(quick.chosen.choice, slow.chosen.choice);
    assert_eq!(quick.chosen.trial.price(), slow.chosen.trial.price());
    quick
}

/// The way into the air; every design is proved by wires on the mast, as a file asks that says nothing of it.
#[test]
fn the_choice_equals_exhaustive_assessment_and_moves_when_the_winner_is_gone() {
    let chosen = exact(&Asked::of(on_the_hill(), &THIRTY, None)).chosen;
    let path = &chosen.trial.outcome.transmission.emissions[0];
    assert!(path.radiating.as_ref().unwrap().wires);
    let Pick::Buy(winner) = &chosen.choice.transmitter else {
        panic!("nothing was there to keep");
    };
    let moved = Asked::of(on_the_hill(), &THIRTY, Some(winner)).answered(plan);
    assert_ne!(moved.chosen.choice.transmitter, chosen.choice.transmitter);
    assert!(moved.chosen.trial.capital() > chosen.trial.capital());
}

/// The same with the array model, as a file may ask.
#[test]
fn the_choice_is_exact_by_the_array_model_too() {
    let mut brief = on_the_hill();
    brief["study"] = json!({ "antennas": "array" });
    let chosen = exact(&Asked::of(brief, &THIRTY, None)).chosen;
    let path = &chosen.trial.outcome.transmission.emissions[0];
    assert!(!path.radiating.as_ref().unwrap().wires);
}

/// A studio in the port, 11 km over the sea from the hill; the mast there is built anew, so that its height moves the link's end.
fn studio_in_the_port(mast: Json) -> Json {
    let mut brief = on_the_hill();
    brief["sites"][0]["mast"] = mast;
    brief["sites"].as_array_mut().unwrap().push(json!({
        "tag": "PORT", "name": "Port", "position": "43.49611° N 35.53013° W",
        "mast": { "status": "existing", "kind": "pole", "height": "20 m above ground", "roof": "14 m above ground", "width": "60 mm" },
    }));
    // The antenna is not what is tried here.
    brief["study"] = json!({ "antennas": "array" });
    brief["rooms"] = json!([{ "tag": "STUDIO", "site": "PORT", "kind": "on-air studio", "volume": "40 m³" }]);
    brief
}

/// The equipment of the programme's way.
fn way(plan: &Plan) -> String {
    let hops = &plan.chosen.trial.text.station.hops;
    let hop = hops
        .iter()
        .find(|h| Some(&h.tag) == plan.chosen.trial.hop.as_ref());
    hop.unwrap().equipment.clone().unwrap()
}

#[test]
fn the_programme_s_way_is_chosen_exactly_and_moves_when_it_is_gone() {
    let built = json!({ "status": "new", "kind": "guyed lattice", "allowed_height": "48 m above ground" });
    let stands = json!({ "status": "existing", "kind": "guyed lattice", "height": "48 m above ground", "width": "0.3 m" });
    for mast in [built, stands] {
        let brief = studio_in_the_port(mast);
        let first = exact(&Asked::of(brief.clone(), &THIRTY_WITH_LINKS, None));
        let winner = way(&first);
        let moved = Asked::of(brief, &THIRTY_WITH_LINKS, Some(&winner)).answered(plan);
        assert_ne!(way(&moved), winner);
        assert!(moved.chosen.trial.capital() > first.chosen.trial.capital());
    }
}

/// A way that works for less of the year than is asked is not taken for its price: of two briefs, that which asks for more gets another.
#[test]
fn a_way_that_fails_too_often_gives_way_to_one_that_does_not() {
    let stands = json!({ "status": "existing", "kind": "guyed lattice", "height": "48 m above ground", "width": "0.3 m" });
    let asking = |share: &str| {
        let mut brief = studio_in_the_port(stands.clone());
        brief["hops"] = json!([{ "tag": "L1", "from": "PORT", "to": "HILL", "availability": share }]);
        exact(&Asked::of(brief, &THIRTY_WITH_LINKS, None))
    };
    let (easy, hard) = (asking("97 %"), asking("99.9 %"));
    assert_ne!(way(&easy), way(&hard));
    assert!(hard.chosen.trial.capital() > easy.chosen.trial.capital());
}

/// A reserve that the brief asks for comes beside a main way, never in its stead: the same main way as without it.
#[test]
fn a_reserve_stands_beside_the_main_way() {
    let stands = json!({ "status": "existing", "kind": "guyed lattice", "height": "48 m above ground", "width": "0.3 m" });
    let brief = studio_in_the_port(stands);
    let mut with_reserve = brief.clone();
    with_reserve["brief"]["continuity"] = json!({ "reserve_link": true });
    let alone = Asked::of(brief, &THIRTY_WITH_LINKS, None).answered(plan);
    let both = exact(&Asked::of(with_reserve, &THIRTY_WITH_LINKS, None));
    assert_eq!(way(&both), way(&alone));
    let link = &both.chosen.trial.outcome.link;
    assert_eq!(link.missing, None);
    assert_eq!(link.hops.iter().filter(|h| h.reserve).count(), 1);
    assert!(link.hops.iter().all(|h| h.sends != Some(false)));
}

/// What an emission leaves open is taken to be so, each named as an assumption; what it states stays.
#[test]
fn an_emission_that_says_nothing_yet_is_planned_on_assumptions() {
    let mut brief = on_the_hill();
    brief["study"] = json!({ "antennas": "array" });
    brief["emissions"] = json!([{ "tag": "E1", "licence": { "polarisation": "horizontal" } }]);
    let plan = Asked::of(brief, &THIRTY, None).answered(plan);
    let presumed: Vec<&str> = plan.presumed.iter().map(|e| e.path.as_str()).collect();
    assert_eq!(presumed, ["emissions.E1.frequency", "emissions.E1.licence.erp"]);
    assert!(plan.chosen.holds);
}

/// A second emission without a way into the air is told, forbids nothing, and moves nothing of the first.
#[test]
fn a_second_emission_is_told_and_left_alone() {
    let mut brief = on_the_hill();
    brief["study"] = json!({ "antennas": "array" });
    let alone = Asked::of(brief.clone(), &THIRTY, None).answered(plan);
    let mut second = brief["emissions"][0].clone();
    (second["tag"], second["frequency"]) = (json!("E2"), json!("99.1 MHz"));
    brief["emissions"].as_array_mut().unwrap().push(second);
    let both = exact(&Asked::of(brief, &THIRTY, None));
    assert_eq!(both.chosen.choice, alone.chosen.choice);
    assert_eq!((alone.left_open.len(), both.left_open.len()), (0, 1));
}

/// A second emission that has its antenna and transmitter is not left open: what is wrong with it forbids as before.
#[test]
fn a_second_emission_with_a_way_of_its_own_still_forbids() {
    let mut brief = on_the_hill();
    brief["study"] = json!({ "antennas": "array" });
    let mut second = brief["emissions"][0].clone();
    (second["tag"], second["frequency"]) = (json!("E2"), json!("99.1 MHz"));
    (second["antenna"], second["transmitter"]) = (json!("OLD"), json!("TXB"));
    brief["emissions"].as_array_mut().unwrap().push(second);
    brief["antennas"] = json!([{ "tag": "OLD", "site": "HILL", "height": "20 m above ground", "bays": 1, "element": "dipole-steel", "status": "keep" }]);
    brief["items"] = json!([{ "tag": "TXB", "shelf": "tx-100", "place": "HILL", "status": "keep" }]);
    let plan = Asked::of(brief, &THIRTY, None).answered(plan);
    assert_eq!(plan.left_open.len(), 0);
    let blocking = &plan.chosen.trial.blocking;
    assert!(blocking.iter().any(|f| f.tag == "E2"), "{blocking:?}");
}

/// Beside a main way that the file puts on the mobile network, the reserve goes over another.
#[test]
fn a_reserve_goes_over_another_network_than_the_main_way() {
    let stands = json!({ "status": "existing", "kind": "guyed lattice", "height": "48 m above ground", "width": "0.3 m" });
    let mut brief = studio_in_the_port(stands);
    brief["brief"]["continuity"] = json!({ "reserve_link": true });
    brief["hops"] = json!([{ "tag": "L1", "from": "PORT", "to": "HILL", "way": "mobile data" }]);
    let plan = Asked::of(brief, &THIRTY_WITH_LINKS, None).answered(plan);
    let hops = &plan.chosen.trial.outcome.link.hops;
    let over = |reserve: bool| hops.iter().find(|h| h.reserve == reserve).unwrap().way.unwrap();
    assert_eq!(
        (over(false).word(), over(true).word()),
        ("mobile data", "internet")
    );
    assert!(plan.chosen.holds);
}
