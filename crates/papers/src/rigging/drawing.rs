//! The mast with the stack on it, to scale in height, dimensioned for the rigger.

use crate::paper::PaperError;
use crate::svg::{INK, INK_2, INK_3, Lettering, SANS, SIGNAL, WARNING, width_of};
use crate::wording::Wording;
use assess::handover::Rigging;
use assess::said::Shown;
use std::fmt::Write;

/// Width of the drawing.
const WIDTH: f64 = 440.0;
/// Height of the drawing.
const HEIGHT: f64 = 780.0;
/// Where the ground lies.
const GROUND: f64 = 745.0;
/// Room above the highest point.
const SKY: f64 = 40.0;
/// The mast's axis.
const AXIS: f64 = 205.0;
/// Height of lettering.
const LETTER: f64 = 12.5;

struct Drawing<'a> {
    rig: &'a Rigging,
    words: Wording,
    per_m: f64,
    out: String,
}

/// The drawing of one antenna.
///
/// # Errors
/// [`PaperError::Words`].
pub(super) fn of(rig: &Rigging, words: Wording) -> Result<String, PaperError> {
    let highest = rig
        .bays
        .iter()
        .map(|b| b.height_m + rig.element_m / 2.0)
        .chain(rig.top_m)
        .fold(1.0, f64::max);
    let mut drawing = Drawing {
        rig,
        words,
        per_m: (GROUND - SKY) / highest,
        out: format!(
            r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" width="{WIDTH}" height="{HEIGHT}" font-family="{SANS}">"#
        ),
    };
    drawing.zone();
    drawing.ground();
    drawing.mast();
    drawing.feed();
    drawing.bays();
    drawing.heights()?;
    Ok(drawing.out + "</svg>\n")
}

impl Drawing<'_> {
    fn y(&self, height_m: f64) -> f64 {
        GROUND - height_m * self.per_m
    }

    /// The mast's top: where the file says, else just above the topmost bay.
    fn top(&self) -> f64 {
        let bay = self.rig.bays.first().map_or(0.0, |b| b.height_m);
        self.y(self.rig.top_m.unwrap_or(bay + self.rig.element_m / 2.0))
    }

    fn half_width(&self) -> f64 {
        (self.rig.width_m.unwrap_or(0.1) * self.per_m / 2.0).max(if self.rig.lattice { 6.0 } else { 2.5 })
    }

    fn arm(&self) -> f64 {
        (self.rig.stand_off_m * self.per_m).max(self.half_width() + 20.0)
    }

    fn path(&mut self, path: &str, pen: f64, ink: &str, more: &str) {
        let _ = write!(
            self.out,
            r#"<path d="{path}" fill="none" stroke="{ink}" stroke-width="{pen}"{more}/>"#
        );
    }

    fn text(&mut self, at: (f64, f64), anchor: &str, weight: u16, ink: &str, text: &str) {
        let letters = Lettering {
            at,
            anchor,
            size: LETTER,
            weight,
            ink,
        };
        self.out += &letters.of(text);
    }

    /// Where the public may not be while it is on the air: dotted round the stack.
    fn zone(&mut self) {
        let Some(public_m) = self.rig.public_m else { return };
        let (Some(first), Some(last)) = (self.rig.bays.first(), self.rig.bays.last()) else {
            return;
        };
        let far = public_m * self.per_m;
        let x = AXIS + self.arm();
        let (top, foot) = (
            self.y(first.height_m) - far,
            (self.y(last.height_m) + far).min(GROUND),
        );
        let _ = write!(
            self.out,
            r#"<clipPath id="sheet"><rect width="{WIDTH}" height="{HEIGHT}"/></clipPath><rect x="{:.1}" y="{top:.1}" width="{:.1}" height="{:.1}" rx="{:.1}" clip-path="url(#sheet)" fill="none" stroke="{WARNING}" stroke-width="1.2" stroke-dasharray="1.5 4" stroke-linecap="round"/>"#,
            x - far,
            2.0 * far,
            foot - top,
            far.min(40.0)
        );
    }

    fn ground(&mut self) {
        let mut hatch = String::new();
        let mut x = 0.0;
        while x < WIDTH - 8.0 {
            let _ = write!(hatch, "M{x} {}l8 -9", GROUND + 10.0);
            x += 9.0;
        }
        self.path(&hatch, 0.7, INK_3, "");
        self.path(&format!("M0 {GROUND}H{WIDTH}"), 1.8, INK, "");
        if self.rig.foot_m > 0.0 {
            let roof = self.y(self.rig.foot_m);
            self.path(
                &format!("M{} {GROUND}V{roof:.1}H{}V{GROUND}", AXIS - 60.0, AXIS + 60.0),
                1.8,
                INK,
                "",
            );
        }
    }

    fn mast(&mut self) {
        let (top, foot, half) = (self.top(), self.y(self.rig.foot_m), self.half_width());
        let (left, right) = (AXIS - half, AXIS + half);
        self.path(
            &format!("M{left:.1} {foot:.1}V{top:.1}H{right:.1}V{foot:.1}"),
            1.6,
            INK,
            "",
        );
        if self.rig.lattice {
            let mut braces = format!("M{left:.1} {foot:.1}");
            let (mut y, mut to_right) = (foot, true);
            while y - 2.0 * half > top {
                y -= 2.0 * half;
                let _ = write!(braces, "L{:.1} {y:.1}", if to_right { right } else { left });
                to_right = !to_right;
            }
            self.path(&braces, 0.7, INK, "");
        }
        if self.rig.guyed {
            for share in [0.55, 0.95] {
                let y = foot - (foot - top) * share;
                self.path(
                    &format!(
                        "M{left:.1} {y:.1}L{:.1} {GROUND}M{right:.1} {y:.1}L{:.1} {GROUND}",
                        AXIS - 150.0,
                        AXIS + 150.0
                    ),
                    0.6,
                    INK_2,
                    "",
                );
            }
        }
        // A rod for the lightning, at the very top.
        self.path(&format!("M{AXIS} {top:.1}v-16"), 1.4, INK, "");
    }

    fn feed(&mut self) {
        let splitter = self.y(self.rig.centre_m);
        let (x, foot) = (AXIS - self.half_width() + 2.0, self.y(0.0) - 16.0);
        self.path(
            &format!("M{x:.1} {splitter:.1}V{foot:.1}H{}", AXIS + 120.0),
            2.4,
            SIGNAL,
            "",
        );
        let heights: Vec<f64> = self.rig.bays.iter().map(|b| self.y(b.height_m)).collect();
        let end = AXIS + self.arm();
        for y in heights {
            self.path(&format!("M{AXIS} {splitter:.1}V{y:.1}H{end:.1}"), 1.1, SIGNAL, "");
        }
        if self.rig.splitter.is_some() {
            let _ = write!(
                self.out,
                r##"<rect x="{:.1}" y="{:.1}" width="14" height="14" fill="#FFFFFF" stroke="{INK}" stroke-width="1.5"/>"##,
                AXIS - 7.0,
                splitter - 7.0
            );
        }
        self.path(&format!("M{} {GROUND}v-34h44v34", AXIS + 120.0), 1.6, INK, "");
    }

    fn bays(&mut self) {
        let x = AXIS + self.arm();
        let half = self.rig.element_m * self.per_m / 2.0;
        let mut free = f64::MIN;
        for bay in &self.rig.bays {
            let y = self.y(bay.height_m);
            let path = if self.rig.upright {
                format!(
                    "M{x:.1} {:.1}V{:.1}M{x:.1} {:.1}V{:.1}",
                    y - half,
                    y - 1.5,
                    y + 1.5,
                    y + half
                )
            } else {
                format!("M{:.1} {y:.1}h14", x - 7.0)
            };
            self.path(&path, 3.2, INK, "");
            // Names keep a line of their own where bays stand close.
            let line = y.max(free + LETTER + 3.0);
            free = line;
            let label = x + 22.0;
            self.path(
                &format!(
                    "M{:.1} {y:.1}H{:.1}L{:.1} {line:.1}",
                    x + 5.0,
                    x + 12.0,
                    label - 3.0
                ),
                0.6,
                INK_2,
                "",
            );
            let height = joined(&bay.height);
            let _ = write!(
                self.out,
                r##"<rect x="{:.1}" y="{:.1}" width="{:.1}" height="{:.1}" fill="#FFFFFF" fill-opacity="0.9"/>"##,
                label - 2.0,
                line - LETTER / 2.0 - 1.0,
                20.0 + width_of(&height, LETTER),
                LETTER + 2.0
            );
            self.text((label, line + 4.0), "start", 600, INK, &bay.number.to_string());
            self.text((label + 16.0, line + 4.0), "start", 400, INK, &height);
        }
    }

    /// A height dimension left of the mast: two arrows, the figure along the line on a plate.
    fn dimension(&mut self, x: f64, from: f64, to: f64, text: &str) {
        let (top, foot) = (from.min(to), from.max(to));
        let near = AXIS - self.half_width() - 4.0;
        self.path(
            &format!(
                "M{:.1} {top:.1}H{near:.1}M{:.1} {foot:.1}H{near:.1}M{x:.1} {top:.1}V{foot:.1}",
                x - 6.0,
                x - 6.0
            ),
            0.6,
            INK,
            "",
        );
        let head = |y: f64, way: f64| {
            format!(
                "M{:.1} {:.1}L{x:.1} {y:.1}L{:.1} {:.1}",
                x - 2.6,
                y + way,
                x + 2.6,
                y + way
            )
        };
        self.path(&(head(top, 8.0) + &head(foot, -8.0)), 0.9, INK, "");
        let (long, middle) = (width_of(text, LETTER) + 8.0, (top + foot) / 2.0);
        if foot - top > long + 8.0 {
            let _ = write!(
                self.out,
                r##"<g transform="translate({x:.1} {middle:.1}) rotate(-90)"><rect x="{:.1}" y="-8" width="{long:.1}" height="16" fill="#FFFFFF"/><text text-anchor="middle" y="4.2" font-size="{LETTER}" fill="{INK}">{}</text></g>"##,
                -long / 2.0,
                crate::svg::escaped(text)
            );
        } else {
            self.text((x - 10.0, middle + 4.0), "end", 400, INK, text);
        }
    }

    fn heights(&mut self) -> Result<(), PaperError> {
        let ground = GROUND;
        if let Some(top) = &self.rig.top {
            let text = joined(top);
            self.dimension(34.0, self.top(), ground, &text);
        }
        let centre = format!(
            "{} {}",
            self.words.word("paper-rigging-centre")?,
            joined(&self.rig.centre)
        );
        self.dimension(78.0, self.y(self.rig.centre_m), ground, &centre);
        if let (Some(spacing), [first, second, ..]) = (&self.rig.spacing, self.rig.bays.as_slice()) {
            let (from, to) = (self.y(first.height_m), self.y(second.height_m));
            let text = joined(spacing);
            self.dimension(150.0, from, to, &text);
        }
        Ok(())
    }
}

fn joined(shown: &Shown) -> String {
    assess::say::joined(shown)
}
