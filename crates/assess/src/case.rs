//! What an evaluation looks at: the station, the shelf, the country, the world.

use coverage::{Control, CoverageError, LossField, Study, World};
use station::country::CountryProfile;
use station::value::Date;
use station::{Edit, Node, Shelf, Station};
use std::collections::BTreeMap;
use std::sync::Arc;

/// One station with everything it is judged by.
#[derive(Clone, Copy)]
pub struct Case<'a> {
    /// The document as the file has it: what edits change.
    pub file: &'a Node,
    /// The document with its assumptions laid in.
    pub document: &'a Node,
    /// The same, read.
    pub station: &'a Station,
    /// Equipment.
    pub shelf: &'a Shelf,
    /// The country's rules.
    pub country: &'a CountryProfile,
    /// Ground, people, places.
    pub world: &'a dyn World,
    /// The day of the assessment, for the age of prices.
    pub today: Date,
}

impl Case<'_> {
    /// The edit that puts a value at a path of the file. A new item of a list carries its tag, so that the edit can be
    /// taken back.
    pub fn set(&self, path: impl Into<String>, to: impl Into<serde_json::Value>) -> Edit {
        let (path, mut to) = (path.into(), to.into());
        if let (Some((_, tag)), Some(item)) = (path.rsplit_once('.'), to.as_object_mut()) {
            item.entry("tag").or_insert_with(|| tag.into());
        }
        Edit::set(self.file, path, to)
    }

    /// The edit that removes what stands at a path of the file.
    pub fn remove(&self, path: impl Into<String>) -> Edit {
        Edit::remove(self.file, path)
    }
}

/// Where loss fields come from: computed, or from a cache.
pub trait FieldStore: Sync {
    /// The loss field of a study.
    ///
    /// # Errors
    /// What the computation says; cancelled included.
    fn field(
        &self,
        world: &dyn World,
        study: &Study,
        control: &Control,
    ) -> Result<Arc<LossField>, CoverageError>;
}

/// A store that computes every time.
pub struct NoStore;

impl FieldStore for NoStore {
    fn field(
        &self,
        world: &dyn World,
        study: &Study,
        control: &Control,
    ) -> Result<Arc<LossField>, CoverageError> {
        LossField::compute(world, study, control).map(Arc::new)
    }
}

/// The loss field of each emission, by tag: the slow part, which knows nothing of power or pattern.
#[derive(Debug, Clone, Default)]
pub struct Fields {
    /// Fields by emission.
    pub by_emission: BTreeMap<String, Result<Arc<LossField>, CoverageError>>,
}

impl Fields {
    /// Computes or fetches the field of every emission that has a site, a height and a frequency.
    ///
    /// # Errors
    /// [`CoverageError::Cancelled`] only; any other error stays with its emission and becomes a finding.
    pub fn prepare(case: &Case, store: &dyn FieldStore, control: &Control) -> Result<Fields, CoverageError> {
        let mut fields = Fields::default();
        for emission in &case.station.emissions {
            let Some(study) = crate::proofs::coverage::study(case, emission) else {
                continue;
            };
            let field = store.field(case.world, &study, control);
            if let Err(CoverageError::Cancelled) = field {
                return Err(CoverageError::Cancelled);
            }
            fields.by_emission.insert(emission.tag.clone(), field);
        }
        Ok(fields)
    }
}
