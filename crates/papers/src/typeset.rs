//! Typesetting: a template and its data become a PDF that archives and screen readers accept (PDF/A-3a, PDF/UA-1).

use crate::paper::PaperError;
use std::collections::HashMap;
use std::sync::LazyLock;
use typst::diag::{FileError, FileResult, SourceDiagnostic};
use typst::ecow::EcoVec;
use typst::foundations::{Bytes, Datetime, Duration, Smart};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, PdfStandard, PdfStandards};

/// The two families of every paper.
pub(crate) const FONT_FILES: [&[u8]; 5] = [
    include_bytes!("../../../fonts/LibertinusSerif_400Regular.ttf"),
    include_bytes!("../../../fonts/LibertinusSerif_400Regular_Italic.ttf"),
    include_bytes!("../../../fonts/LibertinusSerif_600SemiBold.ttf"),
    include_bytes!("../../../fonts/SofiaSansSemiCondensed_400Regular.ttf"),
    include_bytes!("../../../fonts/SofiaSansSemiCondensed_600SemiBold.ttf"),
];

static FONTS: LazyLock<Vec<Font>> = LazyLock::new(|| {
    FONT_FILES
        .iter()
        .flat_map(|bytes| Font::iter(Bytes::new(*bytes)))
        .collect()
});

/// A template with its files.
pub(crate) struct Typeset {
    library: LazyHash<Library>,
    book: LazyHash<FontBook>,
    main: Source,
    files: HashMap<FileId, Bytes>,
}

fn id(path: &str) -> FileId {
    let path = VirtualPath::new(path).expect("the paths of a template are written in this crate");
    RootedPath::new(VirtualRoot::Project, path).intern()
}

impl Typeset {
    /// A template and the files it reads.
    pub(crate) fn new(template: &str, files: Vec<(&str, Vec<u8>)>) -> Self {
        Self {
            library: LazyHash::new(Library::default()),
            book: LazyHash::new(FontBook::from_fonts(FONTS.iter())),
            main: Source::new(id("/main.typ"), template.into()),
            files: files
                .into_iter()
                .map(|(path, bytes)| (id(path), Bytes::new(bytes)))
                .collect(),
        }
    }

    /// The PDF, made for archives too where it is dated: without a day of its own, an archive's rules refuse it. A warning, such as a font family that does not exist, is a failure like an error.
    ///
    /// # Errors
    /// [`PaperError::Typeset`] with every message.
    pub(crate) fn pdf(&self, ident: &str, dated: bool) -> Result<Vec<u8>, PaperError> {
        let compiled = typst::compile::<PagedDocument>(self);
        let document = compiled
            .output
            .map_err(|faults| PaperError::Typeset(said(&faults)))?;
        if !compiled.warnings.is_empty() {
            return Err(PaperError::Typeset(said(&compiled.warnings)));
        }
        let kept: &[PdfStandard] = if dated {
            &[PdfStandard::Ua_1, PdfStandard::A_3a]
        } else {
            &[PdfStandard::Ua_1]
        };
        let standards =
            PdfStandards::new(kept).map_err(|fault| PaperError::Typeset(vec![format!("{fault:?}")]))?;
        let options = PdfOptions {
            ident: Smart::Custom(ident.into()),
            standards,
            ..Default::default()
        };
        let bytes =
            typst_pdf::pdf(&document, &options).map_err(|faults| PaperError::Typeset(said(&faults)))?;
        typst::comemo::evict(10);
        Ok(bytes)
    }
}

fn said(faults: &EcoVec<SourceDiagnostic>) -> Vec<String> {
    faults
        .iter()
        .map(|fault| {
            let hints: Vec<_> = fault.hints.iter().map(|h| format!("{h:?}")).collect();
            format!("{} {}", fault.message, hints.join(" ")).trim().to_owned()
        })
        .collect()
}

impl World for Typeset {
    fn library(&self) -> &LazyHash<Library> {
        &self.library
    }

    fn book(&self) -> &LazyHash<FontBook> {
        &self.book
    }

    fn main(&self) -> FileId {
        self.main.id()
    }

    fn font(&self, index: usize) -> Option<Font> {
        FONTS.get(index).cloned()
    }

    fn source(&self, id: FileId) -> FileResult<Source> {
        if id == self.main() {
            Ok(self.main.clone())
        } else {
            Err(FileError::NotSource)
        }
    }

    fn file(&self, id: FileId) -> FileResult<Bytes> {
        self.files
            .get(&id)
            .cloned()
            .ok_or_else(|| FileError::NotFound(id.vpath().get_without_slash().into()))
    }

    /// There is no clock: the date comes with the data.
    fn today(&self, _: Option<Duration>) -> Option<Datetime> {
        None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn page(family: &str) -> String {
        format!(
            "#set document(title: \"t\", date: datetime(year: 2026, month: 1, day: 1))\n#set text(font: \"{family}\", lang: \"en\")\n= A\nword"
        )
    }

    #[test]
    fn a_font_family_that_does_not_exist_is_a_failure() {
        let right = Typeset::new(&page("Libertinus Serif"), Vec::new()).pdf("a", true);
        assert!(right.is_ok(), "{:?}", right.err());
        let wrong = Typeset::new(&page("Libertinus Serf"), Vec::new()).pdf("a", true);
        let Err(PaperError::Typeset(messages)) = wrong else {
            panic!("a misspelt family passed")
        };
        assert!(messages[0].contains("unknown font family"), "{messages:?}");
    }
}
