//! How numbers look to people: separators, digits, signs.

/// A way of writing numbers.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Locale {
    /// Between whole and fraction.
    pub decimal: char,
    /// Between groups of three digits.
    pub group: &'static str,
    /// Between number and unit.
    pub unit_space: &'static str,
}

impl Locale {
    /// `12,345.6 m`.
    pub const ENGLISH: Locale = Locale {
        decimal: '.',
        group: ",",
        unit_space: "\u{a0}",
    };
    /// `12 345,6 m`, groups set apart by a narrow space that does not break.
    pub const FRENCH: Locale = Locale {
        decimal: ',',
        group: "\u{202f}",
        unit_space: "\u{a0}",
    };

    /// `value` with the digits asked for, grouped, the minus as U+2212, never `-0`.
    ///
    /// The text lies within half its last digit of `value`. What is not finite is written `?`: it cannot come from a checked
    /// quantity.
    pub fn number(&self, value: f64, digits: Digits) -> String {
        if !value.is_finite() {
            return "?".into();
        }
        let plain = digits.fixed(value.abs());
        let (whole, fraction) = plain.split_once('.').unwrap_or((plain.as_str(), ""));
        let is_zero = plain.bytes().all(|b| b == b'0' || b == b'.');
        let mut text = String::new();
        if value < 0.0 && !is_zero {
            text.push('\u{2212}');
        }
        text.push_str(&self.grouped(whole));
        if !fraction.is_empty() {
            text.push(self.decimal);
            text.push_str(fraction);
        }
        text
    }

    /// Whole digits with a separator between groups of three.
    pub(crate) fn grouped(&self, whole: &str) -> String {
        let mut text = String::new();
        for (i, digit) in whole.chars().enumerate() {
            if i > 0 && (whole.len() - i).is_multiple_of(3) {
                text.push_str(self.group);
            }
            text.push(digit);
        }
        text
    }

    /// `value` as [`Locale::number`], with `+` before what is above zero: margins carry a sign.
    pub fn signed(&self, value: f64, digits: Digits) -> String {
        let text = self.number(value, digits);
        let is_zero = !text.chars().any(|c| c.is_ascii_digit() && c != '0');
        if value > 0.0 && !is_zero {
            format!("+{text}")
        } else {
            text
        }
    }

    /// A whole number, grouped.
    pub fn count(&self, value: i64) -> String {
        let text = self.grouped(&value.unsigned_abs().to_string());
        if value < 0 {
            format!("\u{2212}{text}")
        } else {
            text
        }
    }
}

/// How many digits the display form has.
#[derive(Debug, Clone, Copy, PartialEq, Eq, serde::Serialize, serde::Deserialize, schemars::JsonSchema)]
#[serde(rename_all = "snake_case")]
pub enum Digits {
    /// Exactly so many behind the point.
    Decimals(u8),
    /// So many significant digits; whole digits are never rounded away.
    Significant(u8),
    /// Up to so many behind the point, trailing zeros dropped: `98.3`, `98.25`.
    AtMost(u8),
}

impl Digits {
    /// `value` (not negative) in plain digits with a point.
    fn fixed(self, value: f64) -> String {
        match self {
            Digits::Decimals(n) => format!("{value:.*}", usize::from(n)),
            Digits::AtMost(n) => {
                let text = format!("{value:.*}", usize::from(n));
                if text.contains('.') {
                    text.trim_end_matches('0').trim_end_matches('.').into()
                } else {
                    text
                }
            }
            Digits::Significant(n) => {
                let decimals = significant_decimals(value, n);
                let text = format!("{value:.decimals$}");
                // Rounding may have added a digit: 9.996 to three is 10.0, not 10.00.
                let again = text
                    .parse()
                    .map_or(decimals, |rounded| significant_decimals(rounded, n));
                if again < decimals {
                    format!("{value:.again$}")
                } else {
                    text
                }
            }
        }
    }
}

/// Digits behind the point that give `value` so many significant ones; at most 12.
fn significant_decimals(value: f64, significant: u8) -> usize {
    let significant = i32::from(significant.max(1));
    if value == 0.0 {
        return 0;
    }
    let order = value.abs().log10().floor() as i32;
    (significant - 1 - order).clamp(0, 12) as usize
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_grouped_rounded_and_signed() {
        let en = Locale::ENGLISH;
        assert_eq!(en.number(8130.0, Digits::Decimals(0)), "8,130");
        assert_eq!(
            en.number(-1234567.891, Digits::Decimals(1)),
            "\u{2212}1,234,567.9"
        );
        assert_eq!(en.number(-0.04, Digits::Decimals(1)), "0.0");
        assert_eq!(en.number(9.996, Digits::Significant(3)), "10.0");
        assert_eq!(en.number(0.0, Digits::Significant(3)), "0");
        assert_eq!(en.number(98.25, Digits::AtMost(3)), "98.25");
        assert_eq!(en.number(100.0, Digits::AtMost(3)), "100");
        assert_eq!(en.signed(3.72, Digits::Decimals(1)), "+3.7");
        assert_eq!(en.signed(0.01, Digits::Decimals(1)), "0.0");
        assert_eq!(en.signed(-3.72, Digits::Decimals(1)), "\u{2212}3.7");
        assert_eq!(
            Locale::FRENCH.number(12345.6, Digits::Decimals(1)),
            "12\u{202f}345,6"
        );
        assert_eq!(en.count(-1000), "\u{2212}1,000");
    }
}
