//! Small pieces of SVG, and SVG to PNG.

use crate::paper::PaperError;
use crate::typeset::FONT_FILES;
use resvg::{tiny_skia, usvg};
use std::sync::{Arc, LazyLock};
use words::Message;

/// Ink of the light theme (and so of paper).
pub(crate) const INK: &str = "#17222A";
/// Secondary ink.
pub(crate) const INK_2: &str = "#43515A";
/// Units, sources.
pub(crate) const INK_3: &str = "#5F6C74";
/// Rules.
pub(crate) const HAIR: &str = "#CBD3D1";
/// What the station radiates.
pub(crate) const SIGNAL: &str = "#6B2C8A";
/// Short of what was asked.
pub(crate) const ERROR: &str = "#96180C";
/// Worth a look.
pub(crate) const WARNING: &str = "#8F6000";
/// What is labelled or measured: by its whole name for one reader of drawings, by family and width for the other.
pub(crate) const SANS: &str = "Sofia Sans Semi Condensed, Sofia Sans\" font-stretch=\"semi-condensed";

/// Text that may stand between tags and in attributes.
pub(crate) fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
        .replace('"', "&quot;")
}

/// A line of lettering.
pub(crate) struct Lettering<'a> {
    /// Where it is anchored.
    pub at: (f64, f64),
    /// `start`, `middle` or `end`.
    pub anchor: &'a str,
    /// Height of the type.
    pub size: f64,
    /// 400 or 600.
    pub weight: u16,
    /// Colour.
    pub ink: &'a str,
}

impl Lettering<'_> {
    /// The element.
    pub(crate) fn of(&self, text: &str) -> String {
        let Self {
            at: (x, y),
            anchor,
            size,
            weight,
            ink,
        } = self;
        format!(
            r#"<text x="{x:.1}" y="{y:.1}" text-anchor="{anchor}" font-size="{size}" font-weight="{weight}" fill="{ink}">{}</text>"#,
            escaped(text)
        )
    }
}

/// Roughly how wide a text of this size is set: for plates and for keeping names apart.
pub(crate) fn width_of(text: &str, size: f64) -> f64 {
    text.chars().count() as f64 * size * 0.44
}

static TYPES: LazyLock<Arc<usvg::fontdb::Database>> = LazyLock::new(|| {
    let mut types = usvg::fontdb::Database::new();
    FONT_FILES
        .iter()
        .for_each(|bytes| types.load_font_data(bytes.to_vec()));
    Arc::new(types)
});

/// Paints a drawing, `scale` pixels for each of its units.
///
/// # Errors
/// [`PaperError::Drawing`] when it is no SVG or too large to hold.
pub(crate) fn painted(svg: &str, scale: f32) -> Result<Vec<u8>, PaperError> {
    let options = usvg::Options {
        fontdb: TYPES.clone(),
        ..Default::default()
    };
    let tree = usvg::Tree::from_str(svg, &options).map_err(|e| PaperError::Drawing(Message::foreign(e)))?;
    let size = tree.size();
    let (width, height) = (
        (size.width() * scale).ceil() as u32,
        (size.height() * scale).ceil() as u32,
    );
    let mut pixels = tiny_skia::Pixmap::new(width, height).ok_or_else(|| {
        let says = Message::new("papers-too-large").count("width", i64::from(width));
        PaperError::Drawing(says.count("height", i64::from(height)))
    })?;
    resvg::render(
        &tree,
        tiny_skia::Transform::from_scale(scale, scale),
        &mut pixels.as_mut(),
    );
    pixels
        .encode_png()
        .map_err(|e| PaperError::Drawing(Message::foreign(e)))
}
