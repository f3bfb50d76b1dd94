//! Putting an assessment into a language: numbers finished, sentences said.

use crate::assessment::{Assessment, BillLine, Curve, RankedAssumption};
use crate::case::Case;
use crate::figure::{Figure, Input, Spread, Stage, Value};
use crate::finding::{Effect, Finding, Remedy, Severity, clause_message};
use crate::naming;
use crate::said::*;
use crate::unit::{Places, Unit};
use quantity::{Digits, Locale};
use station::{Mark, Node};
use std::collections::BTreeMap;
use words::{Language, Message, WordsError, say_best};

/// Says an assessment, English standing in where a language has no message yet.
///
/// # Errors
/// [`WordsError`] for a message that does not exist or lacks an argument: a fault of ours, never of the station.
pub fn say(assessment: &Assessment, case: &Case, language: Language) -> Result<Sheet, WordsError> {
    Speaker {
        assessment,
        case,
        language,
        locale: language.locale(),
        figures: index(assessment),
    }
    .sheet()
}

fn index(assessment: &Assessment) -> BTreeMap<&str, &Figure> {
    assessment.figures.iter().map(|f| (f.id.as_str(), f)).collect()
}

struct Speaker<'a> {
    assessment: &'a Assessment,
    case: &'a Case<'a>,
    language: Language,
    locale: &'static Locale,
    figures: BTreeMap<&'a str, &'a Figure>,
}

impl Speaker<'_> {
    fn word(&self, code: &'static str) -> Result<String, WordsError> {
        self.text(&Message::new(code))
    }

    fn text(&self, message: &Message) -> Result<String, WordsError> {
        Ok(say_best(message, self.language)?.text)
    }

    fn sheet(&self) -> Result<Sheet, WordsError> {
        let a = self.assessment;
        Ok(Sheet {
            name: a.head.name.clone(),
            invented: a.head.invented,
            client: a.head.client.clone(),
            revision: a.head.revision,
            date: a.head.date.clone(),
            digest: a.head.digest.clone(),
            currency: a.head.currency.clone(),
            language: self.language.tag().to_owned(),
            sentence: self.sentence()?,
            lead: self.text(&a.lead)?,
            stages: a.stages.iter().map(|s| self.stage(s)).collect::<Result<_, _>>()?,
            points: a.points.iter().map(|p| self.point(p)).collect::<Result<_, _>>()?,
            figures: a
                .figures
                .iter()
                .map(|f| self.figure(f))
                .collect::<Result<_, _>>()?,
            findings: a
                .findings
                .iter()
                .map(|f| self.finding(f))
                .collect::<Result<_, _>>()?,
            bill: a
                .bill
                .iter()
                .map(|l| self.bill_line(l))
                .collect::<Result<_, _>>()?,
            excluded: a
                .excluded
                .iter()
                .map(|m| self.text(m))
                .collect::<Result<_, _>>()?,
            assumptions: a
                .assumptions
                .iter()
                .map(|r| self.assumption(r))
                .collect::<Result<_, _>>()?,
            questions: a
                .questions
                .iter()
                .map(|m| self.text(m))
                .collect::<Result<_, _>>()?,
            curves: a.curves.iter().map(|c| self.curve(c)).collect::<Result<_, _>>()?,
        })
    }

    /// The sentence in pieces, the numbers that are figures linked to them.
    fn sentence(&self) -> Result<Vec<Piece>, WordsError> {
        let mut rest = self.text(&self.assessment.sentence)?;
        let mut pieces = Vec::new();
        for (figure, text) in self.linked() {
            if let Some(at) = rest.find(&text) {
                let after = rest.split_off(at + text.len());
                let before = rest[..at].to_owned();
                if !before.is_empty() {
                    pieces.push(Piece {
                        text: before,
                        figure: None,
                    });
                }
                pieces.push(Piece {
                    text,
                    figure: Some(figure),
                });
                rest = after;
            }
        }
        if !rest.is_empty() {
            pieces.push(Piece {
                text: rest,
                figure: None,
            });
        }
        Ok(pieces)
    }

    /// Figures whose values stand in the sentence, in the order they stand there.
    fn linked(&self) -> Vec<(String, String)> {
        let listener = self
            .assessment
            .stages
            .iter()
            .find(|s| s.stage == Stage::Listener)
            .and_then(|s| s.level.clone());
        [listener, Some("money.capital".to_owned())]
            .into_iter()
            .flatten()
            .filter_map(|id| {
                let text = match &self.figures.get(id.as_str())?.value {
                    Value::Money(money) => self.whole(money.to_f64()),
                    value => self.shown(value).ok()?.text,
                };
                Some((id, text))
            })
            .collect()
    }

    fn shown(&self, value: &Value) -> Result<Shown, WordsError> {
        Ok(match value {
            Value::Number { number, unit } => self.number(*number, *unit)?,
            Value::Money(money) => Shown {
                text: self.whole(money.to_f64()),
                unit: money.currency.code().to_owned(),
                number: Some(money.to_f64()),
            },
            Value::Words(message) => Shown {
                text: self.text(message)?,
                unit: String::new(),
                number: None,
            },
            Value::NotKnown(_) => Shown {
                text: self.word("not-known")?,
                unit: String::new(),
                number: None,
            },
        })
    }

    /// A number whose unit is said in the language, where it is a word.
    fn number(&self, number: f64, unit: Unit) -> Result<Shown, WordsError> {
        let shown = show_number(number, unit, self.locale);
        Ok(Shown {
            unit: naming::unit(&shown.unit, self.language)?,
            ..shown
        })
    }

    fn whole(&self, number: f64) -> String {
        self.locale.number(number, Digits::Decimals(0))
    }

    /// Room in hand, with its sign.
    fn in_hand(&self, value: &Value) -> Result<Shown, WordsError> {
        let mut shown = self.shown(value)?;
        if value.number().is_some_and(|n| n > 0.0) && shown.number.is_some() {
            shown.text.insert(0, '+');
        }
        Ok(shown)
    }

    fn stage(&self, line: &crate::assessment::StageLine) -> Result<SaidStage, WordsError> {
        let level = line.level.as_deref().and_then(|id| self.figures.get(id));
        let margin = line
            .margin
            .as_deref()
            .and_then(|id| self.figures.get(id))
            .and_then(|f| f.margin.as_ref());
        Ok(SaidStage {
            stage: line.stage,
            name: self.word(stage_code(line.stage))?,
            level: level.map(|f| self.shown(&f.value)).transpose()?,
            level_figure: line.level.clone(),
            margin: margin.map(|m| self.in_hand(&m.in_hand)).transpose()?,
            margin_figure: line.margin.clone(),
            worst: self
                .assessment
                .findings
                .iter()
                .filter(|f| f.stage == line.stage)
                .map(|f| f.severity)
                .min(),
        })
    }

    fn point(&self, point: &crate::assessment::Point) -> Result<SaidPoint, WordsError> {
        let answered = match self.figures.get(point.figure.as_str()) {
            Some(figure) => self.shown(&figure.value)?,
            None => Shown {
                text: self.word("not-known")?,
                unit: String::new(),
                number: None,
            },
        };
        Ok(SaidPoint {
            label: self.text(&point.label)?,
            asked: self.shown(&point.asked)?,
            answered,
            in_hand: point.in_hand.as_ref().map(|v| self.in_hand(v)).transpose()?,
            figure: point.figure.clone(),
            kept: point.kept,
        })
    }

    fn figure(&self, figure: &Figure) -> Result<SaidFigure, WordsError> {
        let missing = match &figure.value {
            Value::NotKnown(what) => Some(self.text(what)?),
            _ => None,
        };
        let unit = match figure.value {
            Value::Number { unit, .. } => Some(unit),
            _ => None,
        };
        let spread = figure
            .spread
            .zip(unit)
            .map(|(spread, unit)| self.spread(spread, unit))
            .transpose()?;
        let (in_hand, short, against) = match &figure.margin {
            Some(margin) => {
                let short = margin
                    .in_hand
                    .number()
                    .is_some_and(|n| n < -crate::rules::LICENCE_TOLERANCE_DB);
                let limit = joined(&self.shown(&margin.against)?);
                let against = Message::new("against")
                    .text("whose", self.text(&margin.whose)?)
                    .text("limit", limit);
                (
                    Some(self.in_hand(&margin.in_hand)?),
                    short,
                    Some(self.text(&against)?),
                )
            }
            None => (None, false, None),
        };
        Ok(SaidFigure {
            id: figure.id.clone(),
            stage: figure.stage,
            label: self.text(&figure.label)?,
            value: self.shown(&figure.value)?,
            missing,
            spread,
            in_hand,
            short,
            against,
            mark: figure.mark.letter().to_string(),
            mark_words: self.word(mark_code(figure.mark))?,
            how: How {
                formula: self.text(&figure.method.formula())?,
                clause: self.text(&figure.method.clause())?,
                validity: self.text(&figure.method.validity())?,
                witness: self.text(&figure.method.witness())?,
                inputs: figure
                    .inputs
                    .iter()
                    .map(|i| self.input(i))
                    .collect::<Result<_, _>>()?,
            },
        })
    }

    fn spread(&self, spread: Spread, unit: Unit) -> Result<String, WordsError> {
        let show = |n: f64| Ok::<_, WordsError>(joined(&self.number(n, unit)?));
        let message = match spread {
            Spread::Sigma(sigma) => {
                // A spread of a level is a ratio.
                let unit = if unit == Unit::DbuvPerMetre {
                    Unit::Decibel
                } else {
                    unit
                };
                Message::new("spread-sigma").text("spread", joined(&self.number(sigma, unit)?))
            }
            Spread::Between(low, high) => Message::new("spread-between")
                .text("low", show(low)?)
                .text("high", show(high)?),
        };
        self.text(&message)
    }

    fn input(&self, input: &Input) -> Result<SaidInput, WordsError> {
        let plain = |text: String| Shown {
            text,
            unit: String::new(),
            number: None,
        };
        Ok(match input {
            Input::Figure(id) => match self.figures.get(id.as_str()) {
                Some(figure) => SaidInput {
                    kind: "figure".into(),
                    target: id.clone(),
                    label: self.text(&figure.label)?,
                    value: self.shown(&figure.value)?,
                    source: None,
                    mark: figure.mark.letter().to_string(),
                },
                None => SaidInput {
                    kind: "figure".into(),
                    target: id.clone(),
                    label: id.clone(),
                    value: plain(self.word("not-known")?),
                    source: None,
                    mark: "C".into(),
                },
            },
            Input::Stated(path) => {
                let node = self.case.document.at(path);
                let mark = node.map_or(Mark::LookedUp, assumed_mark);
                SaidInput {
                    kind: "stated".into(),
                    target: path.clone(),
                    label: naming::name(path, self.case.document, self.language)?,
                    value: plain(match node.and_then(node_value) {
                        Some(json) => naming::value(path, &json, self.language)?,
                        None => self.word("not-known")?,
                    }),
                    source: None,
                    mark: mark.letter().to_string(),
                }
            }
            Input::Shelf { id, rating } => {
                let item = self.case.shelf.get(id);
                SaidInput {
                    kind: "shelf".into(),
                    target: id.clone(),
                    label: format!(
                        "{}: {}",
                        item.map_or(id.as_str(), |i| i.name.as_str()),
                        rating.replace('.', " · ")
                    ),
                    value: plain(String::new()),
                    source: None,
                    mark: item
                        .and_then(|i| i.mark)
                        .unwrap_or(Mark::Practice)
                        .letter()
                        .to_string(),
                }
            }
            Input::Table { what, source, mark } => SaidInput {
                kind: "table".into(),
                target: (*source).to_owned(),
                label: self.text(what)?,
                value: plain(String::new()),
                source: Some(self.text(&clause_message(source))?),
                mark: mark.letter().to_string(),
            },
        })
    }

    fn finding(&self, finding: &Finding) -> Result<SaidFinding, WordsError> {
        Ok(SaidFinding {
            code: finding.code.to_owned(),
            key: format!("{} {}", finding.code, finding.tag),
            severity: finding.severity,
            severity_word: self.word(match finding.severity {
                Severity::Error => "severity-error",
                Severity::Warning => "severity-warning",
                Severity::Caution => "severity-caution",
                Severity::Note => "severity-note",
            })?,
            stage: finding.stage,
            tag: finding.tag.clone(),
            says: self.text(&finding.says)?,
            remedies: finding
                .remedies
                .iter()
                .map(|r| self.remedy(r))
                .collect::<Result<_, _>>()?,
            clause: self.text(&clause_message(finding.clause))?,
            mark: finding.mark.letter().to_string(),
            figures: finding.figures.clone(),
        })
    }

    fn remedy(&self, remedy: &Remedy) -> Result<SaidRemedy, WordsError> {
        Ok(SaidRemedy {
            does: self.text(&remedy.does)?,
            edits: remedy.edits.clone(),
            effect: remedy.effect.as_ref().map(|e| self.effect(e)).transpose()?,
        })
    }

    fn effect(&self, effect: &Effect) -> Result<String, WordsError> {
        let price = match &effect.price {
            Some(value) if value.number().is_some_and(|n| n.abs() >= 0.5) => joined(&self.in_hand(value)?),
            _ => self.word("no-cost")?,
        };
        let price = match effect.over_budget {
            Some(Value::Money(over)) => self.text(
                &Message::new("effect-over-budget")
                    .text("price", price)
                    .money("over", over.whole()),
            )?,
            _ => price,
        };
        let people = match effect.people.as_ref().and_then(Value::number) {
            Some(n) if n >= 5.0 => Some(Message::new("people-more").count("count", tens(n))),
            Some(n) if n <= -5.0 => Some(Message::new("people-fewer").count("count", tens(-n))),
            _ => None,
        };
        match people {
            Some(people) => self.text(
                &Message::new("effect-both")
                    .text("price", price)
                    .text("people", self.text(&people)?),
            ),
            None => self.text(&Message::new("effect-price").text("price", price)),
        }
    }

    fn bill_line(&self, line: &BillLine) -> Result<SaidBillLine, WordsError> {
        let money = |m: quantity::Money| Shown {
            text: self.locale.number(m.to_f64(), Digits::Decimals(2)),
            unit: m.currency.code().to_owned(),
            number: Some(m.to_f64()),
        };
        let whole = (line.quantity - line.quantity.round()).abs() < 1e-9;
        Ok(SaidBillLine {
            id: line.id.clone(),
            stage: line.stage,
            stage_name: self.word(stage_code(line.stage))?,
            shelf: line.shelf.clone(),
            name: line.name.clone(),
            quantity: Shown {
                text: self
                    .locale
                    .number(line.quantity, Digits::Decimals(if whole { 0 } else { 1 })),
                unit: self.text(&line.per.clone().count("count", line.quantity.round() as i64))?,
                number: Some(line.quantity),
            },
            each: line.each.map(money),
            line: line.line.map(money),
            mass: line
                .mass_kg
                .map(|kg| show_number(kg, Unit::Kilogram, self.locale)),
            why: line.why.as_ref().map(|m| self.text(m)).transpose()?,
            mark: line.mark.letter().to_string(),
        })
    }

    fn assumption(&self, ranked: &RankedAssumption) -> Result<SaidAssumption, WordsError> {
        let a = &ranked.assumption;
        let text = |json: &serde_json::Value| naming::value(&a.path, json, self.language);
        let between = match (&a.low, &a.high) {
            (Some(low), Some(high)) => Some(
                self.text(
                    &Message::new("between")
                        .text("low", text(low)?)
                        .text("high", text(high)?),
                )?,
            ),
            _ => None,
        };
        Ok(SaidAssumption {
            path: a.path.clone(),
            label: naming::name(&a.path, self.case.document, self.language)?,
            value: text(&a.value)?,
            between,
            why: self.text(&a.reason())?,
            field: ranked
                .field_db
                .map(|db| self.in_hand(&Value::of(db, Unit::Decibel)))
                .transpose()?,
            people: ranked
                .people
                .map(|n| self.in_hand(&Value::of(n, Unit::People)))
                .transpose()?,
            money: ranked.money.map(|m| Shown {
                text: self.locale.signed(m, Digits::Decimals(0)),
                unit: self.assessment.head.currency.clone(),
                number: Some(m),
            }),
            mark: a.mark.letter().to_string(),
        })
    }

    fn curve(&self, curve: &Curve) -> Result<SaidCurve, WordsError> {
        Ok(SaidCurve {
            id: curve.id.clone(),
            along: self.text(&curve.along)?,
            along_unit: curve.along_unit.to_owned(),
            of: self.text(&curve.of)?,
            unit: curve.unit.to_owned(),
            points: curve.points.clone(),
        })
    }
}

fn tens(number: f64) -> i64 {
    ((number / 10.0).round() * 10.0) as i64
}

/// A number and its unit in one text.
pub fn joined(shown: &Shown) -> String {
    match shown.unit.as_str() {
        "" => shown.text.clone(),
        // A degree sign stands close.
        "°" => format!("{}°", shown.text),
        unit => format!("{}\u{a0}{unit}", shown.text),
    }
}

/// A number in hand, with its sign.
pub fn signed(number: f64, unit: Unit, locale: &Locale) -> Shown {
    let mut shown = show_number(number, unit, locale);
    if number > 0.0 {
        shown.text.insert(0, '+');
    }
    shown
}

/// A number in its unit, finished for a reader.
pub fn show_number(number: f64, unit: Unit, locale: &Locale) -> Shown {
    let (text, symbol) = match unit.places() {
        Places::Fixed(0) if unit == Unit::Percent => (share(number, locale), unit.symbol().to_owned()),
        Places::Fixed(places) if unit == Unit::FinePercent => {
            (short_of_all(number, places, locale), unit.symbol().to_owned())
        }
        Places::Fixed(places) => (
            locale.number(number, Digits::Decimals(places as u8)),
            unit.symbol().to_owned(),
        ),
        Places::Tens => (
            locale.number((number / 10.0).round() * 10.0, Digits::Decimals(0)),
            unit.symbol().to_owned(),
        ),
        Places::ThreeFigures if number.abs() >= 999.5 => (
            locale.number(number / 1000.0, Digits::Significant(3)),
            format!("k{}", unit.symbol()),
        ),
        Places::ThreeFigures => (
            locale.number(number, Digits::Significant(3)),
            unit.symbol().to_owned(),
        ),
    };
    Shown {
        text,
        unit: symbol,
        number: Some(number),
    }
}

/// A share in whole percent, but for what would then read as none or all of it: that keeps the digits that tell.
fn share(percent: f64, locale: &Locale) -> String {
    let size = percent.abs();
    if size > 0.0 && size < 0.01 {
        return format!("<\u{a0}{}", locale.number(0.01, Digits::Decimals(2)));
    }
    let close_to = |whole: f64| (size - whole).abs() <= 0.5 && (size - whole).abs() > 0.005;
    let places = if close_to(0.0) || close_to(100.0) { 2 } else { 0 };
    locale.number(percent, Digits::Decimals(places))
}

/// A share close to the whole, with as many places more, up to six, as it takes not to read as all of it.
fn short_of_all(percent: f64, places: usize, locale: &Locale) -> String {
    let reads_as_all =
        |places: &usize| percent < 100.0 && 100.0 - percent <= 0.5 * 10f64.powi(-(*places as i32));
    let places = (places..6).find(|p| !reads_as_all(p)).unwrap_or(6);
    let shown = if reads_as_all(&places) {
        99.999_999
    } else {
        percent
    };
    locale.number(shown, Digits::Decimals(places as u8))
}

pub(crate) fn stage_code(stage: Stage) -> &'static str {
    match stage {
        Stage::Brief => "stage-brief",
        Stage::Microphones => "stage-microphones",
        Stage::Console => "stage-console",
        Stage::Processing => "stage-processing",
        Stage::Link => "stage-link",
        Stage::Transmitter => "stage-transmitter",
        Stage::Feeder => "stage-feeder",
        Stage::Antenna => "stage-antenna",
        Stage::Field => "stage-field",
        Stage::Listener => "stage-listener",
        Stage::Sites => "stage-sites",
        Stage::Money => "stage-money",
    }
}

fn mark_code(mark: Mark) -> &'static str {
    match mark {
        Mark::LookedUp => "mark-v",
        Mark::Computed => "mark-c",
        Mark::Memory => "mark-m",
        Mark::Practice => "mark-p",
        Mark::Invented => "mark-i",
    }
}

/// The mark of an input as the document gives it: an assumption's own, else stated.
fn assumed_mark(node: &Node) -> Mark {
    let word = node.get("assumed").and(node.get("mark")).and_then(node_text);
    word.and_then(|w| Mark::ALL.iter().copied().find(|m| m.word() == w))
        .unwrap_or(Mark::LookedUp)
}

/// A value of the document, however known; nothing for lists and sections.
fn node_value(node: &Node) -> Option<serde_json::Value> {
    let node = node
        .get("assumed")
        .or_else(|| node.get("measured"))
        .unwrap_or(node);
    let json = node.to_json();
    (!json.is_array() && !json.is_object()).then_some(json)
}

fn node_text(node: &Node) -> Option<String> {
    Some(node_value(node)?.as_str()?.to_owned())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_small_share_is_not_nothing_and_nearly_all_is_not_all() {
        let said = |n: f64| show_number(n, Unit::Percent, words::Language::English.locale()).text;
        assert_eq!(
            [0.0, 0.0755, 0.004, 91.2, 99.924, 100.0, 0.5].map(said),
            ["0", "0.08", "<\u{a0}0.01", "91", "99.92", "100", "0.50"]
        );
        let fine = |n: f64| show_number(n, Unit::FinePercent, words::Language::English.locale()).text;
        assert_eq!(
            [98.0, 99.9994, 99.9996, 99.99998, 99.999_999_9, 100.0].map(fine),
            ["98.000", "99.999", "99.9996", "99.99998", "99.999999", "100.000"]
        );
    }
}
