//! A station folder opened and assessed: the one place where files, world and proof come together.

use crate::answers::Answers;
use crate::language;
use crate::memory::Memory;
use assess::said::Sheet;
use assess::{Assessment, Case, FieldStore, Fields, Outcome, evaluate, explain, say, weigh};
use coverage::{Control, Study};
use folder::{OpenedWorld, StationFile};
use station::country::CountryProfile;
use station::value::Date;
use station::{Node, Shelf, Station};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use words::{Language, Message};

/// Everything a station is judged by, opened once.
pub struct Office {
    /// The folder.
    pub folder: PathBuf,
    /// Equipment.
    pub shelf: Shelf,
    /// The country's rules.
    pub country: CountryProfile,
    /// Ground, people, places.
    pub world: OpenedWorld,
    /// The day prices are counted from.
    pub today: Date,
    fields: Memory,
}

/// A station with its whole proof.
#[derive(Clone)]
pub struct Assessed {
    /// The document as the file has it.
    pub file: Node,
    /// The document with its assumptions.
    pub document: Node,
    /// The same, read.
    pub station: Station,
    /// Loss fields.
    pub fields: Fields,
    /// The numbers.
    pub outcome: Outcome,
    /// Figures and findings.
    pub assessment: Assessment,
    /// The same in the station's language.
    pub sheet: Sheet,
}

/// Why a folder could not be assessed. Every kind says how to mend it.
#[derive(Debug, thiserror::Error)]
pub enum OfficeError {
    /// The file could not be opened.
    Open(#[from] folder::reading::OpenError),
    /// The file has faults.
    Faults(Vec<folder::Fault>),
    /// The shelf could not be read.
    Shelf(#[from] folder::shelf::ShelfError),
    /// The country profile could not be read.
    Country(#[from] folder::country::CountryError),
    /// The ground could not be read.
    World(#[from] folder::WorldError),
    /// Cancelled.
    Cancelled,
    /// A sentence is missing: a fault of ours.
    Words(String),
}

impl From<&OfficeError> for Message {
    fn from(error: &OfficeError) -> Self {
        match error {
            OfficeError::Open(error) => error.into(),
            OfficeError::Faults(faults) => Message::new("office-faults").count("count", faults.len() as i64),
            OfficeError::Shelf(error) => error.into(),
            OfficeError::Country(error) => error.into(),
            OfficeError::World(error) => error.into(),
            OfficeError::Cancelled => Message::new("office-cancelled"),
            OfficeError::Words(why) => Message::new("office-no-words").text("why", why),
        }
    }
}

words::said_in_english!(OfficeError);

/// The file's document with its station, or its faults.
pub fn read(file: &StationFile) -> Result<&Node, OfficeError> {
    if file.reading.faults.is_empty() {
        Ok(&file.reading.document)
    } else {
        Err(OfficeError::Faults(file.reading.faults.clone()))
    }
}

/// A station folder opened, its file read as a station, nothing computed yet.
pub struct Opened {
    /// The file as it was read.
    pub file: StationFile,
    /// What it is judged by.
    pub office: Office,
    /// The document with its assumptions.
    pub document: Node,
    /// The same, read.
    pub station: Station,
}

impl Opened {
    /// Opens a folder, or its file.
    ///
    /// # Errors
    /// [`OfficeError`], naming the file.
    pub fn at(path: &Path) -> Result<Opened, OfficeError> {
        let file = StationFile::open(path)?;
        language::of_file(&file.reading.document);
        let document = station::assumptions::fill(read(&file)?);
        let station = Station::read(&document).map_err(model_faults)?;
        let office = Office::open(file.folder(), &file.reading.document, today())?;
        Ok(Opened {
            file,
            office,
            document,
            station,
        })
    }

    /// The station as a case.
    pub fn case(&self) -> Case<'_> {
        self.office
            .case(&self.file.reading.document, &self.document, &self.station)
    }

    /// Tag of the emission asked for, or of the first.
    pub fn emission(&self, asked: Option<&str>) -> String {
        let first = || self.station.emissions.first().map(|e| e.tag.as_str());
        asked.or_else(first).unwrap_or_default().to_owned()
    }

    /// The station's language.
    pub fn language(&self) -> Language {
        language::of(self.station.language.as_deref())
    }
}

impl Office {
    /// Opens what a document needs: shelf, country, ground.
    ///
    /// # Errors
    /// [`OfficeError`], naming the file.
    pub fn open(folder: &Path, document: &Node, today: Date) -> Result<Office, OfficeError> {
        let filled = station::assumptions::fill(document);
        let station = Station::read(&filled).map_err(model_faults)?;
        let (shelf, _) = folder::shelf::of_folder(folder)?;
        let spoken = language::of(station.language.as_deref());
        let shelf = shelf
            .priced_in(station.counted_in(), &station.exchange)
            .named_in(spoken);
        let country =
            folder::country::find(station.country.as_deref().unwrap_or("generic-50us"), Some(folder))?;
        let world = OpenedWorld::of(&station, folder)?;
        assess::proofs::mounted::keep_in(Arc::new(Answers::of_folder(folder)));
        Ok(Office {
            folder: folder.to_owned(),
            shelf,
            country,
            world,
            today,
            fields: Memory::of_folder(folder),
        })
    }

    /// Assesses a document: every figure and finding, remedies weighed, assumptions ranked.
    ///
    /// # Errors
    /// [`OfficeError`]: faults in the document, or cancelled.
    pub fn assess(&self, file: &Node, digest: &str, control: &Control) -> Result<Assessed, OfficeError> {
        self.weighed(self.answer(file, digest, control)?, control)
    }

    /// Every figure and finding of a document, each final; what its remedies would change and what its assumptions are worth
    /// is left to [`Office::weighed`], which takes many evaluations.
    ///
    /// # Errors
    /// [`OfficeError`]: faults in the document, or cancelled.
    pub fn answer(&self, file: &Node, digest: &str, control: &Control) -> Result<Assessed, OfficeError> {
        let document = station::assumptions::fill(file);
        let station = Station::read(&document).map_err(model_faults)?;
        let case = self.case(file, &document, &station);
        let fields = Fields::prepare(&case, &self.fields, control).map_err(|_| OfficeError::Cancelled)?;
        let outcome = evaluate(&case, &fields);
        let assessment = explain(&case, &outcome, digest);
        let sheet = self.said(&assessment, &case)?;
        Ok(Assessed {
            file: file.clone(),
            document,
            station,
            fields,
            outcome,
            assessment,
            sheet,
        })
    }

    /// An answer with its remedies weighed and its assumptions ranked.
    ///
    /// # Errors
    /// [`OfficeError`]: cancelled, or a sentence is missing.
    pub fn weighed(&self, mut answer: Assessed, control: &Control) -> Result<Assessed, OfficeError> {
        let case = self.case(&answer.file, &answer.document, &answer.station);
        weigh(
            &case,
            &answer.fields,
            &answer.outcome,
            &mut answer.assessment,
            control,
        )
        .map_err(|_| OfficeError::Cancelled)?;
        answer.sheet = self.said(&answer.assessment, &case)?;
        Ok(answer)
    }

    /// A fast echo of a document: fields that are at hand, the nearest height's where the height's own is not there yet;
    /// remedies not weighed, assumptions not ranked. The flag says whether every field was its own.
    ///
    /// # Errors
    /// [`OfficeError`]: faults in the document.
    pub fn draft(&self, file: &Node, digest: &str) -> Result<(Assessed, bool), OfficeError> {
        let document = station::assumptions::fill(file);
        let mut station = Station::read(&document).map_err(model_faults)?;
        // The array model answers within a drag; the wires follow with the whole answer.
        station.study.antennas = Some(station::place::AntennaModel::Array);
        let case = self.case(file, &document, &station);
        let mut fields = Fields::default();
        let mut own = true;
        for emission in &station.emissions {
            let Some(study) = assess::proofs::coverage::study(&case, emission) else {
                continue;
            };
            let kept = self.fields.kept();
            let exact = kept.iter().find(|(s, _)| *s == study);
            let near = || {
                kept.iter()
                    .filter(|(s, _)| {
                        Study {
                            tx_agl_m: study.tx_agl_m,
                            ..*s
                        } == study
                    })
                    .min_by(|a, b| {
                        (a.0.tx_agl_m - study.tx_agl_m)
                            .abs()
                            .total_cmp(&(b.0.tx_agl_m - study.tx_agl_m).abs())
                    })
            };
            own &= exact.is_some();
            if let Some((_, field)) = exact.or_else(near) {
                fields.by_emission.insert(emission.tag.clone(), Ok(field.clone()));
            }
        }
        let outcome = evaluate(&case, &fields);
        let assessment = explain(&case, &outcome, digest);
        let sheet = self.said(&assessment, &case)?;
        Ok((
            Assessed {
                file: file.clone(),
                document,
                station,
                fields,
                outcome,
                assessment,
                sheet,
            },
            own,
        ))
    }

    /// Computes the fields of a document ahead, so that a draft of it is its own.
    ///
    /// # Errors
    /// [`OfficeError`]: faults in the document, or cancelled.
    pub fn prepare(&self, file: &Node, control: &Control) -> Result<(), OfficeError> {
        let document = station::assumptions::fill(file);
        let station = Station::read(&document).map_err(model_faults)?;
        let case = self.case(file, &document, &station);
        Fields::prepare(&case, &self.fields, control)
            .map(|_| ())
            .map_err(|_| OfficeError::Cancelled)
    }

    fn said(&self, assessment: &Assessment, case: &Case) -> Result<Sheet, OfficeError> {
        let language = language::of(case.station.language.as_deref());
        say(assessment, case, language).map_err(|e| OfficeError::Words(e.to_string()))
    }

    /// Where its loss fields come from.
    pub fn store(&self) -> &dyn FieldStore {
        &self.fields
    }

    /// The case of a document that has been read.
    pub fn case<'a>(&'a self, file: &'a Node, document: &'a Node, station: &'a Station) -> Case<'a> {
        Case {
            file,
            document,
            station,
            shelf: &self.shelf,
            country: &self.country,
            world: &self.world.world,
            today: self.today,
        }
    }
}

/// Faults of a document that came from edits, not from a text.
pub(crate) fn model_faults(faults: Vec<station::Fault>) -> OfficeError {
    let source = folder::Source::new("station.toml", "");
    OfficeError::Faults(
        faults
            .into_iter()
            .map(|f| folder::Fault::placed(&source, f))
            .collect(),
    )
}

/// Today, by the clock of this machine.
pub fn today() -> Date {
    let seconds = std::time::SystemTime::now()
        .duration_since(std::time::UNIX_EPOCH)
        .map_or(0, |d| d.as_secs());
    Date::from_unix_days((seconds / 86_400) as i64)
}
