//! One segment against many: eight pairs at a time in vector registers.

use super::geometry::WireModel;
use super::mesh::Segment;
use super::pair::Piece;
use super::phase::{fma, sin_cos};
use super::quadrature::gauss_01;
use super::vector::{Point, add, scale};
use super::{FREE_SPACE_OHM, LIGHT_M_PER_US};

/// Pairs at a time.
pub(crate) const LANES: usize = 8;
/// Pairs whose centres are closer than this many times the sum of their lengths are integrated as near. Not a round figure:
/// pairs of an even mesh must not sit on the border.
const NEAR: f64 = 1.55;
/// Beyond this many times, two Gauss points each way do what three do nearer.
const VERY_FAR: f64 = 6.05;

/// Segments laid out for eight at a time: coordinates of three and of two Gauss points, direction, length.
pub(crate) struct Lanes {
    three: [[Vec<f64>; 3]; 3],
    two: [[Vec<f64>; 3]; 2],
    centre: [Vec<f64>; 3],
    direction: [Vec<f64>; 3],
    length: Vec<f64>,
    pub(crate) pieces: Vec<Piece>,
    /// −1 for images in the ground, which carry the opposite current and charge.
    pub(crate) sign: f64,
    pub(crate) image: bool,
}

impl Lanes {
    pub(crate) fn new(segments: &[Segment], image: bool) -> Self {
        let flip = |p: Point| if image { [p[0], p[1], -p[2]] } else { p };
        let pieces: Vec<Piece> = segments
            .iter()
            .map(|s| Piece {
                start_m: flip(s.start_m),
                direction: flip(s.direction),
                length_m: s.length_m,
                radius_m: s.radius_m,
            })
            .collect();
        let padded = pieces.len().next_multiple_of(LANES) + LANES;
        let column = |f: &dyn Fn(&Piece) -> f64, pad: f64| {
            let mut v: Vec<f64> = pieces.iter().map(f).collect();
            v.resize(padded, pad);
            v
        };
        let points = |fraction: f64| -> [Vec<f64>; 3] {
            std::array::from_fn(|i| column(&|p| p.start_m[i] + p.direction[i] * p.length_m * fraction, 1e6))
        };
        let (g2, g3) = (gauss_01(2), gauss_01(3));
        Self {
            three: std::array::from_fn(|i| points(g3[i].0)),
            two: std::array::from_fn(|i| points(g2[i].0)),
            centre: points(0.5),
            direction: std::array::from_fn(|i| column(&|p| p.direction[i], 0.0)),
            length: column(&|p| p.length_m, 1.0),
            pieces,
            sign: if image { -1.0 } else { 1.0 },
            image,
        }
    }
}

/// Where the halves of segment `p` against those of a stretch of segments go: `[e, e′]` pairs, real and imaginary.
pub(crate) struct Row {
    pub(crate) parts: [Vec<f64>; 8],
}

pub(crate) struct Constants {
    pub(crate) wave_number: f64,
    /// ωμ₀, ohm per metre.
    pub(crate) omega_mu: f64,
    /// 1/(ωε₀), ohm metre.
    pub(crate) per_omega_epsilon: f64,
    two: [(f64, f64); 2],
    three: [(f64, f64); 3],
}

impl Constants {
    pub(crate) fn of(model: &WireModel) -> Self {
        let k = model.wave_number_per_m();
        let omega = std::f64::consts::TAU * model.frequency_mhz;
        // µ₀ = η/c, ε₀ = 1/(ηc); with ω per microsecond and c in metres per microsecond the units cancel.
        let (g2, g3) = (gauss_01(2), gauss_01(3));
        Self {
            wave_number: k,
            omega_mu: omega * FREE_SPACE_OHM / LIGHT_M_PER_US,
            per_omega_epsilon: FREE_SPACE_OHM * LIGHT_M_PER_US / omega,
            two: [g2[0], g2[1]],
            three: [g3[0], g3[1], g3[2]],
        }
    }
}

/// Segments against which a row is filled; the entry that is its own mirror image counts half.
#[derive(Clone, Copy)]
pub(crate) struct Stretch {
    pub(crate) from: usize,
    pub(crate) to: usize,
    pub(crate) halved: Option<usize>,
}

/// Segments of a stretch that are near the piece.
pub(crate) fn near_segments(p: &Piece, source: &Lanes, stretch: Stretch, found: &mut Vec<usize>) {
    found.clear();
    let c = add(p.start_m, scale(p.direction, 0.5 * p.length_m));
    for q in stretch.from..stretch.to {
        let d = [
            source.centre[0][q] - c[0],
            source.centre[1][q] - c[1],
            source.centre[2][q] - c[2],
        ];
        let reach = NEAR * (p.length_m + source.length[q]);
        if d[0] * d[0] + d[1] * d[1] + d[2] * d[2] < reach * reach {
            found.push(q);
        }
    }
}

/// Fills `row` for all segments of the stretch as if all were far; near ones are put in afterwards.
#[multiversion::multiversion(targets("x86_64+avx2+fma", "aarch64+neon"))]
pub(crate) fn far_row(
    constants: &Constants,
    p: &Piece,
    source: &Lanes,
    stretch: Stretch,
    extra: &[f64],
    row: &mut Row,
) {
    if multiversion::target::target_cfg_f!(any(target_feature = "fma", target_arch = "aarch64")) {
        far_row_with::<true>(constants, p, source, stretch, extra, row);
    } else {
        far_row_with::<false>(constants, p, source, stretch, extra, row);
    }
}

#[inline(always)]
fn far_row_with<const F: bool>(
    constants: &Constants,
    p: &Piece,
    source: &Lanes,
    stretch: Stretch,
    extra: &[f64],
    row: &mut Row,
) {
    let at = |fraction: f64| add(p.start_m, scale(p.direction, p.length_m * fraction));
    let three: [Point; 3] = std::array::from_fn(|i| at(constants.three[i].0));
    let two: [Point; 2] = std::array::from_fn(|i| at(constants.two[i].0));
    let centre = at(0.5);
    let mut q = stretch.from;
    while q < stretch.to {
        let mut far = true;
        let (cx, cy, cz) = (
            eight(&source.centre[0], q),
            eight(&source.centre[1], q),
            eight(&source.centre[2], q),
        );
        let length = eight(&source.length, q);
        for lane in 0..LANES {
            let (dx, dy, dz) = (cx[lane] - centre[0], cy[lane] - centre[1], cz[lane] - centre[2]);
            let reach = VERY_FAR * (p.length_m + length[lane]);
            far &= dx * dx + dy * dy + dz * dz > reach * reach;
        }
        let m = if far {
            far_moments::<F, 2>(constants, &constants.two, &two, &source.two, q, extra)
        } else {
            far_moments::<F, 3>(constants, &constants.three, &three, &source.three, q, extra)
        };
        place_far::<F>(constants, p, source, q, &m, row);
        q += LANES;
    }
}

/// Eight values from `at` on. Arrays are spelt out below: closures do not inherit the wide instructions.
#[inline(always)]
fn eight(values: &[f64], at: usize) -> &[f64; LANES] {
    values[at..at + LANES].try_into().expect("padded to whole lanes")
}

/// Moments divided by both lengths, `[4e + 2e′ + (0 real, 1 imaginary)]`, without the 1/4π.
#[inline(always)]
fn far_moments<const F: bool, const N: usize>(
    constants: &Constants,
    rule: &[(f64, f64); N],
    from: &[Point; N],
    to: &[[Vec<f64>; 3]; N],
    q: usize,
    extra: &[f64],
) -> [[f64; LANES]; 8] {
    let mut m = [[0.0; LANES]; 8];
    let thick = eight(extra, q);
    for i in 0..N {
        let (x, wx) = rule[i];
        for j in 0..N {
            let (y, wy) = rule[j];
            let (xs, ys, zs) = (eight(&to[j][0], q), eight(&to[j][1], q), eight(&to[j][2], q));
            let (falling, rising) = (wx * wy * (1.0 - x), wx * wy * x);
            let parts = [falling * (1.0 - y), falling * y, rising * (1.0 - y), rising * y];
            for lane in 0..LANES {
                let (dx, dy, dz) = (
                    xs[lane] - from[i][0],
                    ys[lane] - from[i][1],
                    zs[lane] - from[i][2],
                );
                let square = fma::<F>(dx, dx, fma::<F>(dy, dy, fma::<F>(dz, dz, thick[lane] + 1e-18)));
                let r = square.sqrt();
                let (sin, cos) = sin_cos::<F>(constants.wave_number * r);
                let inverse = 1.0 / r;
                let (re, im) = (cos * inverse, -sin * inverse);
                for e in 0..4 {
                    m[2 * e][lane] = fma::<F>(parts[e], re, m[2 * e][lane]);
                    m[2 * e + 1][lane] = fma::<F>(parts[e], im, m[2 * e + 1][lane]);
                }
            }
        }
    }
    m
}

#[inline(always)]
fn place_far<const F: bool>(
    constants: &Constants,
    p: &Piece,
    source: &Lanes,
    q: usize,
    m: &[[f64; LANES]; 8],
    row: &mut Row,
) {
    let common = source.sign / (4.0 * std::f64::consts::PI);
    let (ux, uy, uz) = (
        eight(&source.direction[0], q),
        eight(&source.direction[1], q),
        eight(&source.direction[2], q),
    );
    let length = eight(&source.length, q);
    let charge = common * constants.per_omega_epsilon;
    let (mut vector, mut charge_re, mut charge_im) = ([0.0; LANES], [0.0; LANES], [0.0; LANES]);
    for lane in 0..LANES {
        let cosine = fma::<F>(
            p.direction[0],
            ux[lane],
            fma::<F>(p.direction[1], uy[lane], p.direction[2] * uz[lane]),
        );
        // jωμ₀ cos · L L′ M and S/(jωε₀), the latter's lengths cancelled by the slopes 1/L, 1/L′.
        vector[lane] = common * constants.omega_mu * cosine * p.length_m * length[lane];
        charge_re[lane] = charge * (m[1][lane] + m[3][lane] + m[5][lane] + m[7][lane]);
        charge_im[lane] = -charge * (m[0][lane] + m[2][lane] + m[4][lane] + m[6][lane]);
    }
    for e in 0..4 {
        let sign = if e == 0 || e == 3 { 1.0 } else { -1.0 };
        let (mut re, mut im) = ([0.0; LANES], [0.0; LANES]);
        for lane in 0..LANES {
            re[lane] = fma::<F>(sign, charge_re[lane], -vector[lane] * m[2 * e + 1][lane]);
            im[lane] = fma::<F>(sign, charge_im[lane], vector[lane] * m[2 * e][lane]);
        }
        row.parts[2 * e][q..q + LANES].copy_from_slice(&re);
        row.parts[2 * e + 1][q..q + LANES].copy_from_slice(&im);
    }
}
