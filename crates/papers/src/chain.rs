//! The air chain as a drawing: nine stages on one wire, room in hand above it, worst findings below.

use crate::book::Book;
use crate::paper::PaperError;
use crate::svg::{ERROR, INK, INK_2, INK_3, Lettering, SANS, SIGNAL, WARNING, escaped};
use assess::figure::Stage;
use assess::finding::Severity;
use assess::said::{SaidStage, Sheet, Shown};
use std::fmt::Write;

/// Width of the drawing.
const WIDTH: f64 = 990.0;
/// Height of the drawing.
const HEIGHT: f64 = 196.0;
/// Height of the wire.
const WIRE: f64 = 66.0;
/// Half of a symbol.
const HALF: f64 = 17.0;

/// The file.
///
/// # Errors
/// None today; the list of papers wants a way to fail.
pub fn file(book: &Book) -> Result<Vec<u8>, PaperError> {
    Ok(drawing(book.sheet).into_bytes())
}

/// The drawing, on bare paper.
pub fn drawing(sheet: &Sheet) -> String {
    let mut out = format!(
        r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" width="{WIDTH}" height="{HEIGHT}" font-family="{SANS}" role="img"><title>{}</title>"#,
        escaped(&sheet.name)
    );
    let stages: Vec<&SaidStage> = Stage::CHAIN
        .iter()
        .filter_map(|s| sheet.stages.iter().find(|said| said.stage == *s))
        .collect();
    let step = WIDTH / stages.len().max(1) as f64;
    for (index, pair) in stages.windows(2).enumerate() {
        let x = step * (index as f64 + 0.5);
        out += &wire(pair[0].stage, x + HALF + 2.0, x + step - HALF - 2.0);
    }
    for (index, stage) in stages.iter().enumerate() {
        out += &station(stage, step * (index as f64 + 0.5));
    }
    out += &ground(sheet);
    out + "</svg>\n"
}

/// The wire behind a stage says what it is.
fn wire(stage: Stage, from: f64, to: f64) -> String {
    let line = |y: f64, pen: f64, dash: &str| {
        format!(
            r#"<line x1="{from:.1}" y1="{y:.1}" x2="{to:.1}" y2="{y:.1}" stroke="{SIGNAL}" stroke-width="{pen}"{dash}/>"#
        )
    };
    match stage {
        Stage::Microphones => line(WIRE - 2.0, 1.2, "") + &line(WIRE + 2.0, 1.2, ""),
        Stage::Console | Stage::Processing => {
            let middle = 0.5 * (from + to);
            line(WIRE, 1.5, "")
                + &format!(
                    r#"<line x1="{:.1}" y1="{:.1}" x2="{:.1}" y2="{:.1}" stroke="{SIGNAL}" stroke-width="1.5"/>"#,
                    middle - 4.0,
                    WIRE + 6.0,
                    middle + 4.0,
                    WIRE - 6.0
                )
        }
        Stage::Link => line(WIRE, 2.0, ""),
        Stage::Transmitter | Stage::Feeder => line(WIRE, 4.5, ""),
        _ => line(WIRE, 1.6, r#" stroke-dasharray="7 5""#),
    }
}

fn station(stage: &SaidStage, x: f64) -> String {
    let mut out = format!(
        r#"<g transform="translate({x:.1} {WIRE})" fill="none" stroke="{INK}" stroke-width="1.6" stroke-linejoin="round" stroke-linecap="round">{}</g>"#,
        symbol(stage.stage)
    );
    if let Some(margin) = &stage.margin {
        out += &stem(margin, x);
    }
    let letters = |y: f64, size: f64, weight: u16, ink| Lettering {
        at: (x, y),
        anchor: "middle",
        size,
        weight,
        ink,
    };
    out += &letters(WIRE + 42.0, 17.0, 600, INK).of(&stage.name);
    if let Some(level) = &stage.level {
        out += &letters(WIRE + 62.0, 15.5, 400, INK_2).of(&joined(level));
    }
    out + &mark(stage.worst, x)
}

/// Room in hand: a stem from the wire up, or down where it is short.
fn stem(margin: &Shown, x: f64) -> String {
    let short = margin.number.is_some_and(|n| n < 0.0);
    let ink = if short { ERROR } else { INK_2 };
    let mut out = String::new();
    if margin.unit == "dB" {
        let tall = (1.1 * margin.number.unwrap_or(0.0)).clamp(-22.0, 22.0);
        let (top, high) = if short { (WIRE, -tall) } else { (WIRE - tall, tall) };
        let _ = write!(
            out,
            r#"<rect x="{:.1}" y="{top:.1}" width="3" height="{high:.1}" fill="{ink}"/>"#,
            x + HALF + 4.0
        );
    }
    let weight = if short { 600 } else { 400 };
    let text = Lettering {
        at: (x, WIRE - 30.0),
        anchor: "middle",
        size: 15.0,
        weight,
        ink,
    };
    out + &text.of(&joined(margin))
}

/// The worst finding: shape first, for a black photocopy.
fn mark(worst: Option<Severity>, x: f64) -> String {
    let y = WIRE + 77.0;
    match worst {
        Some(Severity::Error) => format!(
            r#"<rect x="{:.1}" y="{:.1}" width="11" height="11" fill="{ERROR}"/>"#,
            x - 5.5,
            y - 4.0
        ),
        Some(Severity::Warning | Severity::Caution) => format!(
            r#"<path d="M{x:.1} {:.1}l6.5 11.5h-13z" fill="none" stroke="{WARNING}" stroke-width="1.6"/>"#,
            y - 4.0
        ),
        _ => String::new(),
    }
}

/// What the chain stands on, above hatched ground.
fn ground(sheet: &Sheet) -> String {
    let y = HEIGHT - 12.0;
    let mut out = String::new();
    let mut x = 8.0;
    for stage in sheet
        .stages
        .iter()
        .filter(|s| matches!(s.stage, Stage::Sites | Stage::Money))
    {
        let level = stage.level.as_ref().map(joined).unwrap_or_default();
        let at = |x| Lettering {
            at: (x, y - 9.0),
            anchor: "start",
            size: 15.0,
            weight: 600,
            ink: INK,
        };
        out += &at(x).of(&stage.name);
        let after = x + 12.0 + crate::svg::width_of(&stage.name, 15.0);
        out += &Lettering {
            weight: 400,
            ink: INK_2,
            ..at(after)
        }
        .of(&level);
        x = after + crate::svg::width_of(&level, 15.0) + 46.0;
    }
    let _ = write!(
        out,
        r#"<line x1="0" y1="{y}" x2="{WIDTH}" y2="{y}" stroke="{INK}" stroke-width="1.6"/>"#
    );
    let hatch: String = (0..)
        .map(|i| f64::from(i) * 9.0)
        .take_while(|x| *x < WIDTH - 8.0)
        .map(|x| format!("M{x} {}l8 -9", y + 10.0))
        .collect();
    out + &format!(r#"<path d="{hatch}" stroke="{INK_3}" stroke-width="0.8" fill="none"/>"#)
}

/// Symbols after IEC 60617 where it has one, drawn within ±16.
fn symbol(stage: Stage) -> &'static str {
    match stage {
        Stage::Microphones => r#"<circle r="9"/><path d="M-9 -11V11"/>"#,
        Stage::Console => {
            r#"<path d="M-15 -15H15V15H-15Z M-7 -9V9 M0 -9V9 M7 -9V9 M-10 4H-4 M-3 -4H3 M4 2H10"/>"#
        }
        Stage::Processing => r#"<path d="M-15 -15H15V15H-15Z M-10 9L-1 -5H10"/>"#,
        Stage::Link => {
            r#"<path d="M-13 12V-2M-19 -9L-13 -2L-7 -9M13 12V-2M7 -9L13 -2L19 -9M-4 -8L0 -4L-1 -9L4 -5"/>"#
        }
        Stage::Transmitter => r#"<path d="M-15 -15H15V15H-15Z M-7 -9V9L9 0Z"/>"#,
        Stage::Feeder => r#"<circle r="9"/><path d="M-16 0H16" stroke-width="3"/>"#,
        Stage::Antenna => r#"<path d="M0 16V-14M-10 -14L0 -2L10 -14"/>"#,
        Stage::Field => r#"<circle r="16"/><path d="M-11 7L-3 -5L2 2L5 -2L11 7Z"/>"#,
        Stage::Listener => r#"<path d="M-9 -6H-2L8 -14V14L-2 6H-9Z"/>"#,
        _ => r#"<path d="M-15 -15H15V15H-15Z"/>"#,
    }
}

fn joined(shown: &Shown) -> String {
    assess::say::joined(shown)
}
