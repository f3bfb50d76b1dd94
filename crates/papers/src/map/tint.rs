//! The tints of the map: six of the signal's ink on land, shaded by relief within a lightness that keeps classes apart.

use super::CLASSES_DBUV_M;

/// Bare land, then the classes, in sRGB.
const RAMP: [[u8; 3]; 7] = [
    [0xE3, 0xE6, 0xE1],
    [0xE4, 0xBD, 0xDD],
    [0xC8, 0x93, 0xC5],
    [0xA7, 0x6C, 0xAF],
    [0x84, 0x48, 0x96],
    [0x5E, 0x2A, 0x79],
    [0x38, 0x12, 0x55],
];

/// Most that relief may shift lightness, OKLab.
const RELIEF: f64 = 0.03;

/// Shades of each class.
const SHADES: usize = 13;

/// Colours by class and shade.
pub(crate) struct Tints([[[u8; 3]; SHADES]; 7]);

impl Tints {
    /// Works them out.
    pub(crate) fn new() -> Self {
        let mut table = [[[0; 3]; SHADES]; 7];
        for (row, colour) in table.iter_mut().zip(RAMP) {
            for (shade, out) in row.iter_mut().enumerate() {
                let middle = (SHADES - 1) as f64 / 2.0;
                *out = lighter(colour, RELIEF * (shade as f64 - middle) / middle);
            }
        }
        Self(table)
    }

    /// The colour of a field (hundredths of a dB(µV/m)) on a slope that looks into the light (1) or away from it (−1).
    pub(crate) fn of(&self, field_cdb: i16, lit: f64) -> [u8; 3] {
        let middle = (SHADES - 1) as f64 / 2.0;
        let shade = (middle + middle * lit.clamp(-1.0, 1.0)).round() as usize;
        self.0[class(field_cdb)][shade]
    }
}

/// Index of the class a field falls into; 0 below all of them and where there is none.
pub(crate) fn class(field_cdb: i16) -> usize {
    CLASSES_DBUV_M
        .iter()
        .filter(|edge| f64::from(field_cdb) / 100.0 >= **edge)
        .count()
}

/// Name of a class's colour, for plates and rulers.
pub(crate) fn hex(class: usize) -> String {
    let [r, g, b] = RAMP[class.min(6)];
    format!("#{r:02X}{g:02X}{b:02X}")
}

/// A colour with its OKLab lightness moved (B. Ottosson's OKLab, 2020; matrices from memory, mark M).
fn lighter(colour: [u8; 3], by: f64) -> [u8; 3] {
    let linear = colour.map(|c| {
        let c = f64::from(c) / 255.0;
        if c <= 0.04045 {
            c / 12.92
        } else {
            ((c + 0.055) / 1.055).powf(2.4)
        }
    });
    let times = |m: [[f64; 3]; 3], v: [f64; 3]| m.map(|row| row[0] * v[0] + row[1] * v[1] + row[2] * v[2]);
    let lms = times(
        [
            [0.4122214708, 0.5363325363, 0.0514459929],
            [0.2119034982, 0.6806995451, 0.1073969566],
            [0.0883024619, 0.2817188376, 0.6299787005],
        ],
        linear,
    )
    .map(f64::cbrt);
    // Moving L alone moves the three cube roots alike.
    let back = times(
        [
            [4.0767416621, -3.3077115913, 0.2309699292],
            [-1.2684380046, 2.6097574011, -0.3413193965],
            [-0.0041960863, -0.7034186147, 1.7076147010],
        ],
        lms.map(|v| (v + by).powi(3)),
    );
    back.map(|c| {
        let c = c.clamp(0.0, 1.0);
        let coded = if c <= 0.0031308 {
            12.92 * c
        } else {
            1.055 * c.powf(1.0 / 2.4) - 0.055
        };
        (255.0 * coded).round() as u8
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_relief_leaves_the_ramp_as_it_is() {
        for colour in RAMP {
            let same = lighter(colour, 0.0);
            assert!(
                colour.iter().zip(same).all(|(a, b)| a.abs_diff(b) <= 1),
                "{colour:?} {same:?}"
            );
        }
    }

    #[test]
    fn an_edge_belongs_to_the_class_above() {
        assert_eq!(class(4799), 0);
        assert_eq!(class(4800), 1);
        assert_eq!(class(7400), 6);
        assert_eq!(class(i16::MIN), 0);
    }
}
