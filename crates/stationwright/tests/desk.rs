//! The desk over a real folder: edits on disk, undo, drafts, a change by another hand, probe and map.
#![expect(
    clippy::unwrap_used,
    reason = "a test stops at the first thing that is not as it should be"
)]

use folder::StationFile;
use server::desk::{Desk, Event};
use server::file::Saved;
use server::map::FieldAsk;
use server::offers::OffersState;
use server::paper::PaperState;
use server::probe::ProbeAsk;
use server::view::{FileCondition, View};
use stationwright::commands::assess::assess_folder;
use stationwright::desk::StationDesk;
use std::path::Path;
use std::sync::Arc;
use std::time::{Duration, Instant};

/// The demo's folder with a small study, so that a test takes seconds.
fn desk(folder: &Path) -> Arc<StationDesk> {
    let text = include_str!("../../../examples/orrenay/station.toml");
    let small = text
        .replace("radius = \"30 km\"", "radius = \"9 km\"")
        .replace("within = \"25 km\"", "within = \"8 km\"");
    assert_ne!(small, text);
    std::fs::write(folder.join("station.toml"), small).unwrap();
    let (office, assessed) = assess_folder(folder).unwrap();
    StationDesk::new(StationFile::open(folder).unwrap(), office, assessed)
}

/// Asks again and again until there is an answer.
fn until<T>(what: &str, mut answer: impl FnMut() -> Option<T>) -> T {
    let end = Instant::now() + Duration::from_secs(300);
    while Instant::now() < end {
        if let Some(answer) = answer() {
            return answer;
        }
        std::thread::sleep(Duration::from_millis(5));
    }
    panic!("{what}: not within five minutes");
}

/// Waits until the whole answer stands.
fn whole(desk: &StationDesk, mut events: tokio::sync::broadcast::Receiver<Event>) -> View {
    until("a whole answer", || {
        matches!(events.try_recv(), Ok(Event::Done { .. })).then(|| desk.view().unwrap())
    })
}

/// Waits until no draft stands.
fn settled(desk: &StationDesk) -> View {
    until("no draft", || desk.view().ok().filter(|view| !view.draft))
}

#[test]
fn a_remedy_is_done_on_disk_told_in_words_and_taken_back() {
    let folder = tempfile::tempdir().unwrap();
    let desk = desk(folder.path());
    let before = std::fs::read_to_string(folder.path().join("station.toml")).unwrap();
    let view = desk.view().unwrap();
    let wrong = view.sheet.findings.iter().find(|f| f.code == "ST 04").unwrap();
    let remedy = wrong.remedies[0].clone();
    assert!(remedy.effect.is_some(), "a whole answer weighs its remedies");

    let events = desk.events();
    let after = desk.apply(&remedy.edits).unwrap();
    assert!(after.draft && after.can_undo);
    // In words: no path, no id of the shelf.
    let says = after.last.unwrap().says;
    assert!(says.starts_with("DESK1: ") && says.contains(", was "), "{says}");
    assert!(!says.contains("console-1") && !says.contains("items"), "{says}");
    let after = whole(&desk, events);
    assert!(!after.draft);
    assert!(!after.sheet.findings.iter().any(|f| f.code == "ST 04"));
    let on_disk = std::fs::read_to_string(folder.path().join("station.toml")).unwrap();
    assert_ne!(on_disk, before);
    assert!(
        on_disk.contains("# the console below can keep two apart"),
        "comments stay"
    );

    let events = desk.events();
    let undone = desk.undo().unwrap();
    assert!(undone.can_redo && !undone.can_undo);
    assert_eq!(
        std::fs::read_to_string(folder.path().join("station.toml")).unwrap(),
        before
    );
    assert!(
        whole(&desk, events)
            .sheet
            .findings
            .iter()
            .any(|f| f.code == "ST 04")
    );
}

#[test]
fn an_effect_is_told_of_the_change_that_had_it_whenever_the_next_is_taken_back() {
    let folder = tempfile::tempdir().unwrap();
    let desk = desk(folder.path());
    // The stops of the power as it now is, but the one it stands at.
    let stops = |view: &View| {
        let power = view.handles.iter().find(|h| h.id == "power").unwrap();
        let others = power.stops.iter().filter(|s| !s.edits.is_empty());
        let others = others.filter(|s| (s.at - power.at).abs() > 0.05);
        others.map(|s| s.edits.clone()).collect::<Vec<_>>()
    };
    desk.apply(&stops(&desk.view().unwrap())[0]).unwrap();
    let view = settled(&desk);
    let (told, stops) = (view.last.clone(), stops(&view));
    assert!(told.as_ref().is_some_and(|l| l.effect.is_some()), "{told:?}");
    let begun = Instant::now();
    desk.apply(&stops[0]).unwrap();
    settled(&desk);
    let long = begun.elapsed();
    desk.undo().unwrap();
    // Taken back while the whole answer is on its way, as it comes, and after it.
    for i in 5..17 {
        settled(&desk);
        desk.apply(&stops[i % stops.len()]).unwrap();
        std::thread::sleep(long * i as u32 / 16);
        desk.undo().unwrap();
        assert_eq!(settled(&desk).last, told, "taken back after {i}/16 of {long:?}");
    }
}

#[test]
fn a_draft_answers_without_touching_the_file() {
    let folder = tempfile::tempdir().unwrap();
    let desk = desk(folder.path());
    let before = std::fs::read_to_string(folder.path().join("station.toml")).unwrap();
    let view = desk.view().unwrap();
    for id in ["power", "bays", "height"] {
        let handle = view.handles.iter().find(|h| h.id == id).unwrap();
        let stop = handle
            .stops
            .iter()
            .find(|s| (s.at - handle.at).abs() > 0.05 && !s.edits.is_empty())
            .unwrap();
        let draft = desk.draft(&stop.edits).unwrap();
        assert!(draft.draft, "{id}");
        assert_ne!(draft.sheet.figures, view.sheet.figures, "{id}");
    }
    assert_eq!(
        std::fs::read_to_string(folder.path().join("station.toml")).unwrap(),
        before
    );
}

#[test]
fn another_hand_is_never_overwritten() {
    let folder = tempfile::tempdir().unwrap();
    let desk = desk(folder.path());
    let path = folder.path().join("station.toml");
    let mine = desk.file().unwrap();
    let theirs = format!("{}\n# by another hand\n", mine.text);
    std::fs::write(&path, &theirs).unwrap();
    let refused = desk.apply(&[station::Edit {
        path: "brief.seats.callers".into(),
        from: Some(3.into()),
        to: Some(2.into()),
        at: Vec::new(),
    }]);
    assert_eq!(refused.unwrap_err().code, "changed");
    match desk
        .save(&mine.text.replace("callers = 3", "callers = 2"), &mine.digest)
        .unwrap()
    {
        Saved::Changed { theirs: found, .. } => assert_eq!(found.text, theirs),
        other => panic!("{other:?}"),
    }
    assert_eq!(std::fs::read_to_string(&path).unwrap(), theirs);
    // Begun from theirs, with a fault: told with its line, not written.
    let digest = desk.file().unwrap().digest;
    match desk
        .save(&theirs.replace("callers = 3", "callers = \"three\""), &digest)
        .unwrap()
    {
        Saved::Faults { faults } => assert!(
            faults
                .iter()
                .any(|f| theirs.lines().nth(f.line - 1).unwrap().contains("callers"))
        ),
        other => panic!("{other:?}"),
    }
    assert_eq!(std::fs::read_to_string(&path).unwrap(), theirs);
}

#[test]
fn another_hands_text_is_taken_in_as_one_change_and_a_faulty_one_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let desk = desk(folder.path());
    let path = folder.path().join("station.toml");
    let mine = std::fs::read_to_string(&path).unwrap();
    // Nothing new: nothing happens.
    desk.take_in();
    assert_eq!(desk.view().unwrap().last, None);

    let theirs = mine.replace("callers = 3", "callers = 2");
    std::fs::write(&path, &theirs).unwrap();
    let events = desk.events();
    desk.take_in();
    let view = whole(&desk, events);
    assert!(view.can_undo && view.last.unwrap().says.contains("station.toml"));
    assert!(!view.sheet.findings.iter().any(|f| f.code == "ST 04"));
    assert_eq!(std::fs::read_to_string(&path).unwrap(), theirs);

    // A text with faults: the answer of the one before stands, and the page says so.
    let faulty = theirs.replace("callers = 2", "callers = \"two\"");
    std::fs::write(&path, &faulty).unwrap();
    desk.take_in();
    let told = desk.view().unwrap();
    assert_eq!(told.file.condition, FileCondition::ChangedOutside);
    assert!(told.file.why.unwrap().contains("one fault"));
    assert_eq!(told.sheet.figures, view.sheet.figures);
    assert_eq!(desk.undo().unwrap_err().code, "changed");
    assert_eq!(std::fs::read_to_string(&path).unwrap(), faulty);
    // Mended by them: all is as before, and can be taken back.
    std::fs::write(&path, &theirs).unwrap();
    desk.take_in();
    assert_eq!(desk.view().unwrap().file.condition, FileCondition::Saved);
    desk.undo().unwrap();
    assert_eq!(std::fs::read_to_string(&path).unwrap(), mine);

    // Gone from the disk: told, and written again by the next change.
    std::fs::remove_file(&path).unwrap();
    desk.take_in();
    assert_eq!(desk.view().unwrap().file.condition, FileCondition::ChangedOutside);
    desk.redo().unwrap();
    assert_eq!(std::fs::read_to_string(&path).unwrap(), theirs);
    assert_eq!(desk.view().unwrap().file.condition, FileCondition::Saved);
}

#[test]
fn a_change_is_told_to_every_page_at_once_and_papers_are_never_of_a_draft() {
    let folder = tempfile::tempdir().unwrap();
    let desk = desk(folder.path());
    let mut events = desk.events();
    let edit = station::Edit {
        path: "brief.seats.callers".into(),
        from: Some(3.into()),
        to: Some(2.into()),
        at: Vec::new(),
    };
    let draft = desk.apply(&[edit]).unwrap();
    let told = events.try_recv().unwrap();
    assert_eq!(told, Event::Changed { token: draft.token });
    desk.write_papers().unwrap();
    let papers = desk.papers().unwrap();
    assert!(
        papers
            .iter()
            .any(|p| p.state == PaperState::Ready && p.name == "offer.pdf")
    );
    // The bill of materials holds what the whole answer says, not the draft.
    let view = whole(&desk, events);
    assert!(desk.papers().unwrap().iter().all(|p| p.state != PaperState::Old));
    assert!(!view.draft);
}

#[test]
fn link_and_studio_are_drawn_from_the_figures() {
    let folder = tempfile::tempdir().unwrap();
    let desk = desk(folder.path());
    let view = desk.view().unwrap();
    let figure = |id: &str| view.sheet.figures.iter().find(|f| f.id == id).unwrap();
    let hops = desk.link().unwrap();
    let radio = hops[0].radio.as_ref().unwrap();
    // One number, two faces.
    let margin = &figure("link.L1.margin").value;
    assert_eq!(radio.in_hand.text.trim_start_matches('+'), margin.text);
    assert_eq!(
        radio.rungs.last().unwrap().change,
        figure("link.L1.received").value
    );
    let clear = figure("link.L1.clearance").value.clone();
    assert!(
        radio.nearest.says.contains(&assess::say::joined(&clear)),
        "{}",
        radio.nearest.says
    );
    // The ladder's terms add up to what arrives.
    let sum: f64 = radio.rungs[1..radio.rungs.len() - 1]
        .iter()
        .map(|r| r.to - r.from)
        .sum();
    let ends = radio.rungs.last().unwrap().to - radio.rungs[0].to;
    assert!(
        (sum - ends).abs() < 0.06 * radio.rungs.len() as f64,
        "{sum} {ends}"
    );
    // The earth is higher at the low k than at the median, between the ends.
    let middle = radio.profile.ground.len() / 2;
    assert!(radio.low_ground[middle].1 > radio.profile.ground[middle].1);

    let studio = desk.studio().unwrap();
    assert_eq!(
        studio
            .sources
            .iter()
            .filter(|s| s.name.starts_with("Caller"))
            .count(),
        3
    );
    // Three callers, two clean feeds: the third hears themselves, and only they.
    let short: Vec<_> = studio
        .hears
        .rows
        .iter()
        .filter(|r| r.short)
        .map(|r| r.name.as_str())
        .collect();
    assert_eq!(short, ["Caller 3"]);
    assert!(
        studio
            .outputs
            .iter()
            .any(|o| o.short && o.name.starts_with("Caller 3"))
    );
    assert_eq!(studio.buses.len(), 4);
    let caller = studio.sources.iter().find(|s| s.name == "Caller 1").unwrap();
    assert_eq!(
        (caller.routed.as_slice(), caller.left_out.as_slice()),
        ([0, 1, 3].as_slice(), [2].as_slice())
    );
    assert!(studio.racks.iter().all(|r| r.items.iter().all(|i| i.units > 0)));
}

#[test]
fn map_and_probe_answer_and_off_the_map_is_said() {
    let folder = tempfile::tempdir().unwrap();
    let desk = desk(folder.path());
    let ask = FieldAsk {
        emission: None,
        heard: server::map::Heard::Roof,
        places: 50,
    };
    let picture = desk.field(&ask).unwrap();
    let cells = picture.legend.width * picture.legend.height;
    assert_eq!(
        (picture.field_hundredths.len(), picture.land.len()),
        (cells, cells)
    );
    assert!(picture.land.iter().any(|l| *l) && picture.land.iter().any(|l| !*l));

    let at = |place: &str| ProbeAsk {
        emission: None,
        heard: server::map::Heard::Roof,
        places: None,
        x: None,
        y: None,
        at: Some(place.into()),
    };
    let probe = desk.probe(&at("Port Orren")).unwrap();
    // One number, two faces: the probe and the figure say the same.
    let view = desk.view().unwrap();
    let figure = view
        .sheet
        .figures
        .iter()
        .find(|f| f.id == "coverage.W1.field")
        .unwrap();
    assert_eq!(probe.field.text, figure.value.text);
    assert_eq!(desk.probe(&at("Nowhere at all")).unwrap_err().code, "not-found");
    let off = ProbeAsk {
        x: Some(1e9),
        y: Some(f64::NAN),
        at: None,
        ..at("")
    };
    assert_eq!(desk.probe(&off).unwrap_err().code, "not-found");
}

/// Waits until the offers are no longer being worked out.
fn offers(desk: &StationDesk) -> server::offers::Offers {
    until("offers", || {
        Some(desk.offers()).filter(|now| now.state != OffersState::Working)
    })
}

#[test]
fn offers_are_worked_out_chosen_from_and_taken_back() {
    let folder = tempfile::tempdir().unwrap();
    let desk = desk(folder.path());
    let path = folder.path().join("station.toml");
    let original = std::fs::read_to_string(&path).unwrap();
    assert_eq!(desk.offers().state, OffersState::None);
    desk.work_out_offers().unwrap();
    let ready = offers(&desk);
    assert_eq!(ready.state, OffersState::Ready, "{:?}", ready.why);
    let answer = ready.answer.unwrap();
    assert_eq!(answer.offers.iter().filter(|o| o.chosen).count(), 1);
    assert!(answer.offers.len() >= 4, "the chosen one has neighbours");
    assert!(
        answer
            .offers
            .windows(2)
            .all(|w| w[0].cost.number <= w[1].cost.number)
    );
    // The price shown is the price the station then has.
    let chosen = answer.offers.iter().find(|o| o.chosen).unwrap();
    let events = desk.events();
    let taken = desk.choose_offer("chosen").unwrap();
    assert!(taken.can_undo);
    assert!(
        desk.offers()
            .answer
            .unwrap()
            .offers
            .iter()
            .any(|o| o.in_force && o.chosen)
    );
    let view = whole(&desk, events);
    let capital = view
        .sheet
        .figures
        .iter()
        .find(|f| f.id == "money.capital")
        .unwrap();
    assert_eq!(capital.value.text, chosen.cost.text);
    // From one design to another without working out anew, and back over both.
    let other = answer.offers.iter().find(|o| o.can_choose && !o.chosen).unwrap();
    desk.choose_offer(&other.id).unwrap();
    assert_eq!(desk.offers().state, OffersState::Ready);
    desk.undo().unwrap();
    desk.undo().unwrap();
    assert_eq!(std::fs::read_to_string(&path).unwrap(), original);
    // A change makes them old, and nothing is chosen from old offers.
    let edit = station::Edit {
        path: "brief.seats.callers".into(),
        from: Some(3.into()),
        to: Some(2.into()),
        at: Vec::new(),
    };
    desk.apply(&[edit]).unwrap();
    assert_eq!(desk.offers().state, OffersState::Old);
    assert_eq!(desk.choose_offer("chosen").unwrap_err().code, "changed");
}

#[test]
fn offers_that_are_stopped_are_dropped_at_once() {
    let folder = tempfile::tempdir().unwrap();
    let desk = desk(folder.path());
    desk.work_out_offers().unwrap();
    assert_eq!(desk.offers().state, OffersState::Working);
    let begun = Instant::now();
    desk.cancel();
    let stopped = desk.offers();
    assert!(begun.elapsed() < Duration::from_millis(100));
    assert_eq!(stopped.state, OffersState::None);
    assert!(stopped.why.is_some() && stopped.answer.is_none());
}

#[test]
fn the_antenna_and_what_is_handed_over_say_what_the_sheet_says() {
    let folder = tempfile::tempdir().unwrap();
    let desk = desk(folder.path());
    let view = desk.view().unwrap();
    let value = |id: &str| {
        let figure = view.sheet.figures.iter().find(|f| f.id == id).unwrap();
        assess::say::joined(&figure.value)
    };
    let antennas = desk.antennas().unwrap();
    let antenna = &antennas[0];
    assert!(!antenna.draft, "a whole answer is the wires'");
    assert!(antenna.apart.is_some() && antenna.currents.is_some());
    assert_eq!(antenna.annex.len(), 36);
    assert_eq!(antenna.bays.len(), antenna.harness.len());
    // The same gain and the same least room in hand as the figures.
    let gain = &antenna.planes[0].gain;
    assert_eq!(assess::say::joined(gain), value("transmission.E1.gain"));
    let rows = &antenna.planes[0].rows;
    assert!(rows.iter().all(|r| r.len() == rows[0].len()));
    let classes = antenna.planes[0].classes.len() as u8;
    assert!(rows.iter().flatten().any(|c| *c == classes - 1) && rows.iter().flatten().all(|c| *c < classes));
    let seen = &view.horizon.unwrap().places;
    for place in &antenna.planes[0].places {
        let on_cut = seen.iter().find(|p| p.name == place.name).unwrap();
        assert!((on_cut.depression_deg - place.depression_deg).abs() < 1e-9);
    }
    let over = desk.handover().unwrap();
    let checks: Vec<_> = over.acceptance.iter().flat_map(|g| &g.checks).collect();
    assert!(checks.len() > 10);
    assert!(
        checks
            .iter()
            .any(|c| c.promised == value("transmission.E1.power"))
    );
    assert!(
        checks
            .iter()
            .all(|c| !c.instrument.is_empty() && !c.accepted.is_empty() && !c.clause.is_empty())
    );
    assert_eq!(over.rigging[0].bays.len(), antenna.bays.len());
}
