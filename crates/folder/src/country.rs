//! Country profiles: two generic ones built in, or a user's own beside the station.

use std::path::Path;
use words::{Arg, Message};

use station::country::CountryProfile;
use station::read::{Faults, FromNode};

use crate::document;
use crate::reading::{Fault, OpenError, read_text, several};
use crate::source::Source;

/// The built-in profiles: id and text.
const BUILT_IN: &[(&str, &str)] = &[
    ("generic-50us", include_str!("../../../country/generic-50us.toml")),
    ("generic-75us", include_str!("../../../country/generic-75us.toml")),
];

/// Why there is no such profile.
#[derive(Debug, thiserror::Error)]
pub enum CountryError {
    /// Neither built in nor beside the station.
    Unknown {
        /// The id asked for.
        id: String,
        /// The built-in ones.
        known: Vec<&'static str>,
    },
    /// The file cannot be read.
    Open(#[from] OpenError),
    /// The file has faults.
    Faults {
        /// All of them.
        faults: Vec<Fault>,
    },
}

impl From<&CountryError> for Message {
    fn from(error: &CountryError) -> Self {
        match error {
            CountryError::Unknown { id, known } => Message::new("country-unknown")
                .text("id", id)
                .with("known", Arg::All(known.iter().map(|k| (*k).to_owned()).collect())),
            CountryError::Open(error) => error.into(),
            CountryError::Faults { faults } => several(faults.iter().map(Message::from)),
        }
    }
}

words::said_in_english!(CountryError);

/// Reads the text of a profile.
///
/// # Errors
/// Every fault, with its place.
pub fn profile(source: &Source) -> Result<CountryProfile, Vec<Fault>> {
    let (node, syntax) = document::parse(source.text());
    let mut faults = Faults(syntax);
    let read = CountryProfile::from_node(&node, "", &mut faults);
    let placed: Vec<Fault> = faults.0.into_iter().map(|f| Fault::placed(source, f)).collect();
    match read {
        Some(profile) if placed.is_empty() => Ok(profile),
        _ => Err(placed),
    }
}

/// The profile with an id: `country/<id>.toml` or `<id>.toml` in the station's folder first, then the built-in ones.
///
/// # Errors
/// [`CountryError`].
pub fn find(id: &str, folder: Option<&Path>) -> Result<CountryProfile, CountryError> {
    let is_plain = !id.is_empty() && id.chars().all(|c| c.is_alphanumeric() || "-_".contains(c));
    let own = folder.filter(|_| is_plain).and_then(|folder| {
        let name = format!("{id}.toml");
        [folder.join("country").join(&name), folder.join(&name)]
            .into_iter()
            .find(|path| path.is_file())
    });
    let source = match own {
        Some(path) => Source::new(format!("{id}.toml"), read_text(&path)?.0),
        None => {
            let known = || BUILT_IN.iter().map(|(id, _)| *id).collect();
            let text = BUILT_IN.iter().find(|(known, _)| *known == id);
            let (_, text) = text.ok_or_else(|| CountryError::Unknown {
                id: id.into(),
                known: known(),
            })?;
            Source::new(format!("country/{id}.toml"), *text)
        }
    };
    profile(&source).map_err(|faults| CountryError::Faults { faults })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn both_generic_profiles_are_read_and_a_fork_goes_first() {
        assert_eq!(
            find("generic-50us", None).unwrap().pre_emphasis.value,
            quantity::TimeConstant::from_us(50.0)
        );
        assert_eq!(
            find("generic-75us", None).unwrap().pre_emphasis.value,
            quantity::TimeConstant::from_us(75.0)
        );
        let folder = tempfile::tempdir().unwrap();
        let fork = BUILT_IN[0]
            .1
            .replace("generic-50us", "ours")
            .replace("50 µs\"\n", "75 µs\"\n");
        std::fs::write(folder.path().join("ours.toml"), fork).unwrap();
        assert_eq!(
            find("ours", Some(folder.path())).unwrap().pre_emphasis.value.us(),
            75.0
        );
    }

    #[test]
    fn bad_profiles_are_named() {
        assert!(
            find("../secret", None)
                .unwrap_err()
                .to_string()
                .contains("generic-50us")
        );
        let faults = profile(&Source::new("x.toml", "id = 1\n[band_from]\nvalue = \"87.5\"\n")).unwrap_err();
        assert!(
            faults
                .iter()
                .any(|f| f.line == 3 && f.what.code == "quantity-missing-unit"),
            "{faults:?}"
        );
    }
}
