//! The whole answer for one antenna with its feed: pattern, network, currents on every wire. What is kept and asked afterwards.

use num_complex::Complex64 as C64;

use super::{MountError, Mounted};
use crate::array::Matrix;
use crate::direction::Vec3;
use crate::feed::{Fed, Feed};
use crate::pattern::Pattern;
use crate::wires::{NearField, Piece, near_field};

/// An antenna solved with its feed. Currents and network are for 1 W incident at the feed's input.
#[derive(Debug, Clone, PartialEq)]
pub struct Answered {
    /// Gain by plane and direction, against the power accepted at the feed's input.
    pub pattern: Pattern,
    /// What flows at the feed's input and at every bay's connector.
    pub fed: Fed,
    /// Impedances between the bays' connectors, ohm: any other feed of these bays needs no new solution.
    pub ports_ohm: Matrix,
    /// Currents, piece by piece.
    pub pieces: Vec<Piece>,
    /// Name and radius (m) of every wire.
    pub wires: Vec<(String, f64)>,
}

impl Mounted {
    /// The answer for a feed.
    ///
    /// # Errors
    /// As [`Mounted::pattern`].
    pub fn answered(&self, feed: &Feed) -> Result<Answered, MountError> {
        let (pattern, fed) = self.pattern(feed)?;
        let drive = self.solution().drive(&self.wire_volts(&fed.currents_a));
        Ok(Answered {
            pieces: self.solution().pieces(&drive.currents),
            ports_ohm: self.ports_ohm().clone(),
            wires: self.wires().to_vec(),
            pattern,
            fed,
        })
    }
}

impl Answered {
    /// Field at a place outside the wires for a power accepted at the feed's input; free space.
    ///
    /// # Units
    /// - `accepted_w`: W; `at_m`: east, north, up from the mast's axis and the middle of the stack
    pub fn near(&self, accepted_w: f64, at_m: Vec3) -> NearField {
        let k = crate::array::element::wave_number(self.fed.frequency_mhz);
        let scale = (accepted_w / self.fed.accepted_w()).sqrt();
        let mut field = near_field(&self.pieces, k, at_m);
        field
            .electric_v_m
            .iter_mut()
            .chain(&mut field.magnetic_a_m)
            .for_each(|c| *c *= scale);
        field
    }

    /// Distance from a place to the nearest of the wires chosen by index, m.
    pub fn nearest_m(&self, at_m: Vec3, chosen: impl Fn(usize) -> bool) -> f64 {
        self.pieces
            .iter()
            .filter(|p| chosen(p.wire))
            .map(|p| crate::wires::near::beside_m(p, at_m))
            .fold(f64::INFINITY, f64::min)
    }

    /// The answer as bytes; see [`Self::from_bytes`].
    pub fn to_bytes(&self) -> Vec<u8> {
        let mut out = Writer(Vec::new());
        out.0.extend(TAG);
        out.number(FORMAT as f64);
        self.pattern.write(&mut out);
        let fed = &self.fed;
        out.number(fed.frequency_mhz);
        out.number(fed.z0_ohm);
        for list in [&fed.currents_a, &fed.volts_v, &fed.branch_reflection] {
            out.complexes(list);
        }
        out.numbers(&fed.bay_w);
        out.numbers(&fed.branch_forward_w);
        out.complexes(&[fed.input_reflection, C64::from(fed.radiated_w)]);
        let n = self.ports_ohm.nrows();
        let ports: Vec<C64> = (0..n * n).map(|i| self.ports_ohm[(i / n, i % n)]).collect();
        out.complexes(&ports);
        out.number(self.pieces.len() as f64);
        for p in &self.pieces {
            out.number(p.wire as f64);
            p.start_m.iter().chain(&p.end_m).for_each(|x| out.number(*x));
            [p.start_a, p.end_a].iter().for_each(|c| {
                out.number(c.re);
                out.number(c.im);
            });
        }
        out.number(self.wires.len() as f64);
        for (name, radius_m) in &self.wires {
            out.number(name.len() as f64);
            out.0.extend(name.as_bytes());
            out.number(*radius_m);
        }
        out.0
    }

    /// The answer that [`Self::to_bytes`] wrote; none for other bytes, another format or damage: solve it again.
    pub fn from_bytes(bytes: &[u8]) -> Option<Self> {
        let mut from = Reader(bytes.strip_prefix(TAG)?);
        if from.number()? != f64::from(FORMAT) {
            return None;
        }
        let pattern = Pattern::read(&mut from)?;
        let (frequency_mhz, z0_ohm) = (from.number()?, from.number()?);
        let (currents_a, volts_v, branch_reflection) =
            (from.complexes()?, from.complexes()?, from.complexes()?);
        let (bay_w, branch_forward_w) = (from.numbers()?, from.numbers()?);
        let &[input_reflection, radiated] = &from.complexes()?[..] else {
            return None;
        };
        let n = currents_a.len();
        let ports = from.complexes()?;
        let alike = volts_v.len() == n && branch_reflection.len() == n && bay_w.len() == n;
        if ports.len() != n * n || !alike || branch_forward_w.len() != n {
            return None;
        }
        let count = from.count()?;
        let mut pieces = Vec::with_capacity(count);
        for _ in 0..count {
            let wire = from.number()? as usize;
            let mut v = [0.0; 10];
            for x in &mut v {
                *x = from.number()?;
            }
            pieces.push(Piece {
                wire,
                start_m: [v[0], v[1], v[2]],
                end_m: [v[3], v[4], v[5]],
                start_a: C64::new(v[6], v[7]),
                end_a: C64::new(v[8], v[9]),
            });
        }
        let wires: Vec<(String, f64)> = (0..from.count()?)
            .map(|_| {
                let long = from.count()?;
                Some((String::from_utf8(from.take(long)?.to_vec()).ok()?, from.number()?))
            })
            .collect::<Option<_>>()?;
        (from.0.is_empty() && pieces.iter().all(|p| p.wire < wires.len())).then_some(Self {
            pattern,
            fed: Fed {
                frequency_mhz,
                z0_ohm,
                currents_a,
                volts_v,
                bay_w,
                branch_reflection,
                branch_forward_w,
                input_reflection,
                radiated_w: radiated.re,
            },
            ports_ohm: Matrix::from_fn(n, n, |i, j| ports[i * n + j]),
            pieces,
            wires,
        })
    }
}

const TAG: &[u8] = b"antenna\n";
/// Raised whenever the method or the form changes.
const FORMAT: u32 = 1;

/// Writes little-endian numbers.
pub(crate) struct Writer(pub(crate) Vec<u8>);

impl Writer {
    pub(crate) fn number(&mut self, x: f64) {
        self.0.extend(x.to_le_bytes());
    }

    fn numbers(&mut self, list: &[f64]) {
        self.number(list.len() as f64);
        list.iter().for_each(|x| self.number(*x));
    }

    fn complexes(&mut self, list: &[C64]) {
        self.number(list.len() as f64);
        list.iter().for_each(|c| {
            self.number(c.re);
            self.number(c.im);
        });
    }
}

/// Reads what a [`Writer`] wrote, never past the end.
pub(crate) struct Reader<'a>(pub(crate) &'a [u8]);

impl<'a> Reader<'a> {
    pub(crate) fn take(&mut self, count: usize) -> Option<&'a [u8]> {
        let (taken, left) = self.0.split_at_checked(count)?;
        self.0 = left;
        Some(taken)
    }

    pub(crate) fn number(&mut self) -> Option<f64> {
        Some(f64::from_le_bytes(self.take(8)?.try_into().ok()?))
    }

    /// A length that the bytes left can hold.
    pub(crate) fn count(&mut self) -> Option<usize> {
        let x = self.number()?;
        (x >= 0.0 && x <= self.0.len() as f64).then_some(x as usize)
    }

    fn numbers(&mut self) -> Option<Vec<f64>> {
        (0..self.count()?).map(|_| self.number()).collect()
    }

    fn complexes(&mut self) -> Option<Vec<C64>> {
        (0..self.count()?)
            .map(|_| Some(C64::new(self.number()?, self.number()?)))
            .collect()
    }
}
