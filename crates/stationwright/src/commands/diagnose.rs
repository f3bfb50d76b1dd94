//! `stationwright diagnose`: what may be wrong with an antenna, from readings; without any, which to take.

use super::assess::{refused, report};
use crate::office::Opened;
use assess::diagnosis::{Cause, Diagnosis, TestPoint, diagnose, suspected};
use assess::say::{joined, show_number};
use assess::unit::Unit;
use folder::readings::ReadingsError;
use quantity::{Digits, Power};
use serde_json::{Value, json};
use std::path::PathBuf;
use std::process::ExitCode;
use words::{Language, Message, said};

/// Ranks what may be wrong with an antenna, from forward and reflected power and fields at points.
///
/// Without readings: which points to measure, and what a healthy station gives there.
#[derive(clap::Args, Debug)]
#[command(
    after_help = "Example: stationwright diagnose examples/tremarine --readings examples/tremarine/readings.toml

A file of readings:
  [meters]
  forward = \"100 W\"
  reflected = \"0.3 W\"
  accuracy = \"0.5 dB\"
  [measuring_set]
  accuracy = \"2 dB\"          # of its calibration, the same everywhere
  repeat = \"1.5 dB\"          # from spot to spot at one point
  [[points]]
  place = \"POLLAVERN\"        # or: azimuth = \"120°\", distance = \"2 km\"
  field = \"41.5 dBµV/m\"      # at 10 m above ground
  before = \"48 dBµV/m\"       # where it was read while all was well"
)]
pub struct DiagnoseArgs {
    /// Folder of the station, or its file
    #[arg(value_name = "DIR")]
    folder: PathBuf,
    /// What was read (TOML)
    #[arg(long, value_name = "FILE")]
    readings: Option<PathBuf>,
    /// Tag of the emission; that of the readings, else the first, when left out
    #[arg(long, value_name = "TAG")]
    emission: Option<String>,
    /// Print everything as JSON
    #[arg(long)]
    json: bool,
}

/// Runs the command: 0 when the antenna may be well or nothing was read, 1 when a fault comes first, 2 when the input is refused.
pub fn run(args: &DiagnoseArgs) -> ExitCode {
    let opened = match Opened::at(&args.folder) {
        Ok(opened) => opened,
        Err(error) => return report(&error),
    };
    let language = opened.language();
    let test = match args.readings.as_deref().map(folder::readings::open).transpose() {
        Ok(test) => test,
        Err(ReadingsError::Faults { faults }) => {
            faults
                .iter()
                .for_each(|fault| eprintln!("{}", fault.said(language)));
            return refused(&ReadingsError::Faults { faults });
        }
        Err(error) => return refused(&error),
    };
    let of_test = test.as_ref().and_then(|t| t.emission.as_deref());
    let tag = opened.emission(args.emission.as_deref().or(of_test));
    let found = match diagnose(&opened.case(), &tag, test.as_ref()) {
        Ok(found) => found,
        Err(why) => return refused(why.says(&tag)),
    };
    let told = Told {
        found: &found,
        language,
    };
    if args.json {
        println!("{:#}", told.as_value());
    } else {
        print!("{}", told.sheet());
    }
    ExitCode::from(u8::from(!found.is_well()))
}

struct Told<'a> {
    found: &'a Diagnosis,
    language: Language,
}

impl Told<'_> {
    fn words(&self, message: &Message) -> String {
        said(message, self.language)
    }

    fn word(&self, code: &'static str) -> String {
        self.words(&Message::new(code))
    }

    fn shown(&self, number: f64, unit: Unit) -> String {
        joined(&show_number(number, unit, self.language.locale()))
    }

    /// Near the mast ten metres matter.
    fn distance(&self, km: f64) -> String {
        format!(
            "{}\u{a0}km",
            self.language.locale().number(km, Digits::Decimals(2))
        )
    }

    fn sheet(&self) -> String {
        let found = self.found;
        let mut lines = vec![
            self.words(
                &Message::new("diagnosis-head")
                    .text("tag", &found.emission)
                    .text("antenna", &found.antenna)
                    .quantity("power", Power::from_w(found.forward_w))
                    .quantity("reflected", Power::from_w(found.reflected_w)),
            ),
        ];
        if found.read_w != (None, None) {
            let read = |w: Option<f64>| {
                w.map_or_else(|| self.word("diagnosis-not-read"), |w| self.shown(w, Unit::Watt))
            };
            lines.push(
                self.words(
                    &Message::new("diagnosis-meters")
                        .text("forward", read(found.read_w.0))
                        .text("reflected", read(found.read_w.1)),
                ),
            );
        }
        lines.push(String::new());
        if found.causes.is_empty() {
            lines.push(self.word("diagnosis-measure"));
            lines.extend(self.table(&found.measure));
        } else {
            if !found.fields.is_empty() {
                let read: Vec<usize> = found.fields.iter().map(|f| f.point).collect();
                lines.extend(self.table(&read));
                lines.push(String::new());
            }
            lines.extend(found.causes.iter().map(|c| self.cause(c)));
            lines.extend(self.next());
        }
        lines.push(String::new());
        lines.extend(found.notes.iter().map(|n| self.words(n)));
        lines.join("\n") + "\n"
    }

    /// Points with their prediction, and what was read there.
    fn table(&self, points: &[usize]) -> Vec<String> {
        let mut heads = vec![
            "diagnosis-point",
            "diagnosis-azimuth",
            "diagnosis-distance",
            "diagnosis-elevation",
            "diagnosis-well",
            "diagnosis-spread",
        ];
        let with_readings = !self.found.causes.is_empty();
        if with_readings {
            heads.extend(["diagnosis-read", "diagnosis-off"]);
        }
        let row = |cells: Vec<String>| {
            let (first, rest) = cells
                .split_first()
                .map_or((String::new(), &[][..]), |(f, r)| (f.clone(), r));
            let rest: String = rest.iter().map(|c| format!("{c:>14}")).collect();
            format!("{first:16}{rest}")
        };
        let mut lines = vec![row(heads.into_iter().map(|h| self.word(h)).collect())];
        for (at, &index) in points.iter().enumerate() {
            let p = &self.found.points[index];
            let field = self.found.fields.get(at).filter(|_| with_readings);
            let healthy = field.map_or(p.field_dbuv_m, |f| f.healthy_dbuv_m);
            let before = field.is_some_and(|f| f.before);
            let mut cells = vec![
                p.name.clone().unwrap_or_else(|| (at + 1).to_string()),
                self.shown(p.azimuth_deg, Unit::Degree),
                self.distance(p.distance_km),
                self.shown(p.elev_deg, Unit::Degree),
                self.shown(healthy, Unit::DbuvPerMetre),
                if before {
                    self.word("diagnosis-before")
                } else {
                    self.shown(p.spread_db, Unit::Decibel)
                },
            ];
            if let Some(f) = field {
                cells.push(self.shown(f.field_dbuv_m, Unit::DbuvPerMetre));
                cells.push(self.shown(f.off_db, Unit::Decibel));
            }
            lines.push(row(cells));
        }
        lines
    }

    fn cause(&self, cause: &Cause) -> String {
        let share = format!("{:>5}", self.shown(100.0 * cause.probability, Unit::Percent));
        self.words(
            &Message::new("diagnosis-cause")
                .text("share", share)
                .text("what", self.faults(cause)),
        )
    }

    fn faults(&self, cause: &Cause) -> String {
        let each: Vec<String> = cause
            .suspects
            .iter()
            .map(|s| self.words(&suspected(&s.fault, self.found.bays)))
            .collect();
        match &each[..] {
            [one] => one.clone(),
            _ => self.words(
                &Message::new("diagnosis-one-of").text("faults", each.join(&self.word("words-semicolon"))),
            ),
        }
    }

    fn next(&self) -> Option<String> {
        let next = self.found.next.as_ref()?;
        let expected: Vec<String> = self
            .found
            .causes
            .iter()
            .zip(&next.expected_dbuv_m)
            .take(3)
            .map(|(cause, field)| {
                self.words(
                    &Message::new("diagnosis-next-if")
                        .text("field", self.shown(*field, Unit::DbuvPerMetre))
                        .text(
                            "fault",
                            self.words(&suspected(&cause.suspects[0].fault, self.found.bays)),
                        ),
                )
            })
            .collect();
        let message = Message::new("diagnosis-next")
            .text("point", self.point_name(&self.found.points[next.point]))
            .text("expected", expected.join(", "));
        Some(self.words(&message))
    }

    fn point_name(&self, point: &TestPoint) -> String {
        point.name.clone().unwrap_or_else(|| {
            format!(
                "{} {}",
                self.shown(point.azimuth_deg, Unit::Degree),
                self.distance(point.distance_km)
            )
        })
    }

    fn as_value(&self) -> Value {
        let mut value = json!(self.found);
        let causes = self.found.causes.iter().map(|c| {
            let mut cause = json!(c);
            cause["says"] = self.faults(c).into();
            cause
        });
        value["causes"] = causes.collect::<Vec<_>>().into();
        let notes: Vec<String> = self.found.notes.iter().map(|n| self.words(n)).collect();
        value["notes"] = notes.into();
        value["well"] = self.found.is_well().into();
        value
    }
}
