//! The number at the beginning of a quantity's text, as decimal digits and an exponent.

use crate::error::Kind;

/// Which separators a text may use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Source {
    /// Files and command line: the decimal point only.
    File,
    /// A field on the page: one separator, point or comma.
    Field,
}

/// A decimal number as written: sign, digits, and the power of ten of the last digit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(crate) struct DecimalNumber {
    pub(crate) negative: bool,
    pub(crate) digits: String,
    pub(crate) exponent: i32,
}

impl DecimalNumber {
    /// The nearest `f64` of this number times `10^tens`: one rounding in all.
    pub(crate) fn shifted(&self, tens: i32) -> f64 {
        let sign = if self.negative { "-" } else { "" };
        let text = format!("{sign}{}e{}", self.digits, self.exponent.saturating_add(tens));
        text.parse::<f64>().unwrap_or(f64::NAN) + 0.0
    }

    /// The shortest decimal that reads back as `value` exactly; `value` must be finite.
    pub(crate) fn shortest(value: f64) -> Self {
        Self::scientific(&format!("{value:e}"))
    }

    /// `value` rounded to so many significant digits.
    pub(crate) fn rounded(value: f64, significant: usize) -> Self {
        Self::scientific(&format!("{value:.*e}", significant.saturating_sub(1)))
    }

    fn scientific(text: &str) -> Self {
        let (mantissa, exponent) = text.split_once('e').unwrap_or((text, "0"));
        let negative = mantissa.starts_with('-');
        let mantissa = mantissa.trim_start_matches('-');
        let (whole, fraction) = mantissa.split_once('.').unwrap_or((mantissa, ""));
        let exponent = exponent.parse::<i32>().unwrap_or(0) - fraction.len() as i32;
        Self {
            negative,
            digits: format!("{whole}{fraction}"),
            exponent,
        }
        .trimmed()
    }

    fn trimmed(mut self) -> Self {
        while self.digits.len() > 1 && self.digits.ends_with('0') {
            self.digits.pop();
            self.exponent += 1;
        }
        if self.digits == "0" {
            self.negative = false;
            self.exponent = 0;
        }
        self
    }

    /// The number times `10^tens` as text with a point; an exponent only where zeros would run long.
    pub(crate) fn text(&self, tens: i32) -> String {
        let sign = if self.negative { "-" } else { "" };
        let count = self.digits.len() as i32;
        let exponent = self.exponent + tens;
        let point = count + exponent; // digits before the point
        if self.digits == "0" {
            return "0".into();
        }
        if !(-5..=15).contains(&point) {
            let (first, rest) = self.digits.split_at(1);
            let rest = if rest.is_empty() {
                String::new()
            } else {
                format!(".{rest}")
            };
            return format!("{sign}{first}{rest}e{}", point - 1);
        }
        if exponent >= 0 {
            format!("{sign}{}{}", self.digits, "0".repeat(exponent as usize))
        } else if point > 0 {
            let (whole, fraction) = self.digits.split_at(point as usize);
            format!("{sign}{whole}.{fraction}")
        } else {
            format!("{sign}0.{}{}", "0".repeat(-point as usize), self.digits)
        }
    }
}

/// Splits `text` (trimmed, signs and spaces made plain) into its leading number and the rest.
///
/// # Errors
/// [`Kind`] of what is wrong with the number.
pub(crate) fn leading_number(text: &str, source: Source) -> Result<(DecimalNumber, &str), Kind> {
    let lower = text.trim_start_matches(['+', '-']).to_ascii_lowercase();
    if ["nan", "inf"].iter().any(|word| lower.starts_with(word)) {
        return Err(Kind::NotFinite);
    }
    let unsigned = text.strip_prefix(['+', '-']).unwrap_or(text);
    let negative = text.starts_with('-');
    let end = unsigned
        .find(|c: char| !c.is_ascii_digit() && c != '.' && c != ',')
        .unwrap_or(unsigned.len());
    let (mantissa, rest) = unsigned.split_at(end);
    if !mantissa.bytes().any(|b| b.is_ascii_digit()) {
        return Err(Kind::NotANumber);
    }
    let (whole, fraction) = mantissa_parts(mantissa, source)?;
    let (exponent, rest) = exponent_of(rest);
    let digits = format!("{whole}{fraction}");
    let digits = digits.trim_start_matches('0');
    let digits = if digits.is_empty() {
        "0".to_owned()
    } else {
        digits.to_owned()
    };
    let exponent = exponent.saturating_sub(i32::try_from(fraction.len()).unwrap_or(i32::MAX));
    Ok((
        DecimalNumber {
            negative,
            digits,
            exponent,
        },
        rest.trim_start(),
    ))
}

/// Whole and fraction digits, by what the source allows.
fn mantissa_parts(mantissa: &str, source: Source) -> Result<(&str, &str), Kind> {
    let separators = mantissa.bytes().filter(|b| matches!(b, b'.' | b',')).count();
    match separators {
        0 => return Ok((mantissa, "")),
        1 => {}
        _ => {
            return Err(if source == Source::File && mantissa.contains(',') {
                Kind::Comma
            } else {
                Kind::TwoSeparators
            });
        }
    }
    let is_comma = mantissa.contains(',');
    let (whole, fraction) = mantissa.split_once(['.', ',']).unwrap_or((mantissa, ""));
    if is_comma && source == Source::File {
        return Err(Kind::Comma);
    }
    if fraction.is_empty() {
        return Err(Kind::NotANumber);
    }
    // `0,125` and `12345,678` cannot have a mark between thousands there, so they have one reading.
    let may_be_thousands = (1..=3).contains(&whole.len()) && !whole.starts_with('0') && fraction.len() == 3;
    if is_comma && may_be_thousands {
        return Err(Kind::TwoReadings {
            decimal: format!("{whole}.{fraction}"),
            thousands: format!("{whole}{fraction}"),
        });
    }
    Ok((whole, fraction))
}

/// A decimal exponent at the beginning of `rest`, if there is one: `e6`, `E-3`.
fn exponent_of(rest: &str) -> (i32, &str) {
    let Some(after) = rest.strip_prefix(['e', 'E']) else {
        return (0, rest);
    };
    let unsigned = after.strip_prefix(['+', '-']).unwrap_or(after);
    let end = unsigned
        .find(|c: char| !c.is_ascii_digit())
        .unwrap_or(unsigned.len());
    if end == 0 {
        return (0, rest);
    }
    let magnitude = unsigned[..end].parse::<i32>().unwrap_or(99_999).min(99_999);
    let exponent = if after.starts_with('-') {
        -magnitude
    } else {
        magnitude
    };
    (exponent, &unsigned[end..])
}

#[cfg(test)]
mod tests {
    use super::*;

    fn field(text: &str) -> Result<f64, Kind> {
        leading_number(text, Source::Field).map(|(number, _)| number.shifted(0))
    }

    #[test]
    fn a_field_takes_one_separator_of_either_kind() {
        assert_eq!(field("98,3"), Ok(98.3));
        assert_eq!(field("98.3"), Ok(98.3));
        assert_eq!(field("0,125"), Ok(0.125));
        assert_eq!(
            field("1,234"),
            Err(Kind::TwoReadings {
                decimal: "1.234".into(),
                thousands: "1234".into()
            })
        );
        assert_eq!(field("1,234.5"), Err(Kind::TwoSeparators));
    }

    #[test]
    fn bad_numbers_are_named() {
        for (text, kind) in [
            ("NaN W", Kind::NotFinite),
            ("-inf W", Kind::NotFinite),
            ("W", Kind::NotANumber),
            ("5. W", Kind::NotANumber),
            ("98,3 MHz", Kind::Comma),
            ("1.2.3 W", Kind::TwoSeparators),
        ] {
            assert_eq!(
                leading_number(text, Source::File).map(|_| ()),
                Err(kind),
                "{text}"
            );
        }
    }

    #[test]
    fn text_shifts_the_point() {
        let n = DecimalNumber::shortest(98_300_000.0);
        assert_eq!(n.text(-6), "98.3");
        assert_eq!(n.text(0), "98300000");
        assert_eq!(DecimalNumber::shortest(1.5e-9).text(0), "1.5e-9");
        assert_eq!(DecimalNumber::shortest(0.004).text(0), "0.004");
        assert_eq!(DecimalNumber::shortest(-0.0).text(0), "0");
    }
}
