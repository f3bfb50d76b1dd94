//! Loss fields of a station, in memory first, then in the folder's cache; and the ground round its sites, so that another height
//! walks it again without reading it again.

use assess::FieldStore;
use coverage::study::Walker;
use coverage::{Control, CoverageError, LossField, Study, Survey, World};
use folder::Digest;
use folder::cache::Key;
use std::path::Path;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

/// Fields kept in memory: a station and a few heights beside it.
const MOST_KEPT: usize = 16;

/// Grounds kept in memory: those of two sites.
const MOST_SURVEYS: usize = 2;

/// Loss fields in memory first, then in the folder's cache; the ground of the sites whose height was changed.
pub(crate) struct Memory {
    kept: Mutex<Vec<(Study, Arc<LossField>)>>,
    surveys: Mutex<Vec<(Digest, Arc<Survey>)>>,
    cache: folder::Cache,
}

impl Memory {
    /// Nothing in memory yet; what the folder's cache holds is found there.
    pub fn of_folder(folder: &Path) -> Memory {
        Memory {
            kept: Mutex::default(),
            surveys: Mutex::default(),
            cache: folder::Cache::of_folder(folder),
        }
    }

    /// The fields in memory, oldest first.
    pub fn kept(&self) -> MutexGuard<'_, Vec<(Study, Arc<LossField>)>> {
        self.kept.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn surveys(&self) -> MutexGuard<'_, Vec<(Digest, Arc<Survey>)>> {
        self.surveys.lock().unwrap_or_else(PoisonError::into_inner)
    }

    /// A field that is in no memory: over the ground that is kept, where there is one.
    fn computed(
        &self,
        world: &dyn World,
        study: &Study,
        control: &Control<'_>,
    ) -> Result<LossField, CoverageError> {
        match self.survey(world, study, control)? {
            Some(survey) => LossField::from_survey(&survey, study, control),
            None => LossField::compute(world, study, control),
        }
    }

    /// The ground of a study: kept from its second height on, for whoever asks for two asks for more. None for the first, for a
    /// method that cannot use it, and where it would take too much memory.
    fn survey(
        &self,
        world: &dyn World,
        study: &Study,
        control: &Control<'_>,
    ) -> Result<Option<Arc<Survey>>, CoverageError> {
        if matches!(study.walker, Walker::Itm(_)) || !self.kept().iter().any(|(s, _)| one_ground(s, study)) {
            return Ok(None);
        }
        let mut key = Key::new();
        study.feed_survey_key(world, &mut key);
        let digest = key.digest();
        if let Some((_, survey)) = self.surveys().iter().find(|(d, _)| *d == digest) {
            return Ok(Some(survey.clone()));
        }
        let survey = match Survey::new(world, study, control) {
            Ok(survey) => Arc::new(survey),
            Err(CoverageError::SurveyTooLarge { .. }) => return Ok(None),
            Err(error) => return Err(error),
        };
        let mut surveys = self.surveys();
        if surveys.len() >= MOST_SURVEYS {
            surveys.remove(0);
        }
        surveys.push((digest, survey.clone()));
        Ok(Some(survey))
    }
}

/// Whether two studies look at the same ground.
fn one_ground(one: &Study, other: &Study) -> bool {
    let elsewise = Study {
        tx_agl_m: other.tx_agl_m,
        conditions: other.conditions,
        receiving: other.receiving,
        walker: other.walker,
        ..*one
    };
    elsewise == *other
}

impl FieldStore for Memory {
    fn field(
        &self,
        world: &dyn World,
        study: &Study,
        control: &Control,
    ) -> Result<Arc<LossField>, CoverageError> {
        if let Some((_, field)) = self.kept().iter().find(|(s, _)| s == study) {
            return Ok(field.clone());
        }
        let mut key = Key::new();
        study.feed_key(world, &mut key);
        let digest = key.digest();
        let stored = self
            .cache
            .load(digest)
            .and_then(|bytes| LossField::from_bytes(&bytes).ok());
        let field = match stored {
            Some(field) => Arc::new(field),
            None => {
                let field = Arc::new(self.computed(world, study, control)?);
                // A full disk costs time, never an answer.
                let _ = self.cache.store(digest, &field.to_bytes());
                field
            }
        };
        let mut kept = self.kept();
        if kept.len() >= MOST_KEPT {
            kept.remove(0);
        }
        kept.push((*study, field.clone()));
        Ok(field)
    }
}
