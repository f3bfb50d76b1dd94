//! The impedance matrix: far pairs eight at a time, near pairs once per shape, symmetry and the repeating part used.
//!
//! # Source
//! Mixed-potential form, Harrington, *Field Computation by Moment Methods* (from memory): per pair of halves
//! jωμ₀ (u·u′) M + (±1/L)(±1/L′) S/(jωε₀).

#![expect(
    clippy::needless_range_loop,
    reason = "indices run over several arrays in step"
)]

use super::Complex;
use super::geometry::{Ground, WireModel};
use super::lanes::{Constants, LANES, Lanes, Row, Stretch, far_row, near_segments};
use super::mesh::Mesh;
use super::pair::{PairShape, moments};
use rayon::prelude::*;
use rustc_hash::FxHashMap;

/// The matrix of one part against itself or another, rows contiguous.
#[derive(Clone, Debug)]
pub struct Block {
    /// Rows.
    pub rows: usize,
    /// Columns.
    pub columns: usize,
    /// Row by row.
    pub values: Vec<Complex>,
}

impl Block {
    fn zero(rows: usize, columns: usize) -> Self {
        Self {
            rows,
            columns,
            values: vec![Complex::ZERO; rows * columns],
        }
    }

    /// As a matrix for the linear algebra.
    pub fn view(&self) -> faer::MatRef<'_, Complex> {
        faer::MatRef::from_row_major_slice(&self.values, self.rows, self.columns)
    }
}

/// The whole matrix in its parts. Without a repeating part the first two are empty.
#[derive(Clone, Debug)]
pub struct Matrix {
    /// First sector against every sector: the first rows of a block-circulant matrix.
    pub sector: Block,
    /// The rest against the repeating part.
    pub across: Block,
    /// The rest against itself, symmetric.
    pub rest: Block,
}

/// Fills the matrix of a model.
pub fn fill(model: &WireModel, mesh: &Mesh) -> Matrix {
    let filler = Filler::new(model, mesh);
    Matrix {
        sector: filler.sector(),
        ..filler.beside(model)
    }
}

/// Fills what a mast that is factored already leaves: `sector` stays empty.
pub(crate) fn fill_beside(model: &WireModel, mesh: &Mesh) -> Matrix {
    Filler::new(model, mesh).beside(model)
}

/// Only the repeating part, first sector against every sector.
pub(crate) fn fill_sector(model: &WireModel, mesh: &Mesh) -> Block {
    Filler::new(model, mesh).sector()
}

/// Only the rest against itself, loads left out.
pub(crate) fn fill_rest(model: &WireModel, mesh: &Mesh) -> Block {
    Filler::new(model, mesh).rest()
}

struct Filler<'a> {
    mesh: &'a Mesh,
    constants: Constants,
    sources: Vec<Lanes>,
    line_members: FxHashMap<usize, Vec<usize>>,
}

/// One near neighbour: segment, and index of its moments.
type Near = (usize, usize);
/// For each stretch, and within it for each source set, the near neighbours.
type NearLists = Vec<Vec<Vec<Near>>>;
/// Moments of the four pairs of half-triangles.
type Moments = [[Complex; 2]; 2];
/// Takes the finished row of an unknown, with the sign it has on the half, into the block.
type Place<'f> = dyn Fn(usize, &[Complex], &mut [Complex], f64) + Sync + 'f;

impl<'a> Filler<'a> {
    fn new(model: &WireModel, mesh: &'a Mesh) -> Self {
        let constants = Constants::of(model);
        let mut sources = vec![Lanes::new(&mesh.segments, false)];
        if model.ground == Ground::Perfect {
            sources.push(Lanes::new(&mesh.segments, true));
        }
        let mut line_members: FxHashMap<usize, Vec<usize>> = FxHashMap::default();
        for (index, s) in mesh.segments.iter().enumerate() {
            line_members.entry(s.line).or_default().push(index);
        }
        Self {
            mesh,
            constants,
            sources,
            line_members,
        }
    }

    fn beside(&self, model: &WireModel) -> Matrix {
        let mut matrix = Matrix {
            sector: Block::zero(0, 0),
            across: self.across(),
            rest: self.rest(),
        };
        for (load, tap) in model.loads.iter().zip(&self.mesh.loads) {
            let at = tap.unknown - self.mesh.rotation.all_unknowns();
            matrix.rest.values[at * matrix.rest.columns + at] += load.ohm;
        }
        matrix
    }

    /// The block-circulant part: rows of the first sector. Of the pairs that symmetry makes equal only one is computed.
    fn sector(&self) -> Block {
        let r = &self.mesh.rotation;
        if r.order == 0 {
            return Block::zero(0, 0);
        }
        let half = r.order / 2;
        let columns = r.all_unknowns();
        let stretches = |p: usize| {
            (0..=half)
                .map(|turn| {
                    let alone = turn == 0 || 2 * turn == r.order;
                    let from = turn * r.segments + if alone { p } else { 0 };
                    Stretch {
                        from,
                        to: (turn + 1) * r.segments,
                        halved: alone.then_some(turn * r.segments + p),
                    }
                })
                .collect()
        };
        let half_filled = self.accumulate(
            (0, r.segments),
            &stretches,
            r.unknowns,
            columns,
            &|unknown, values, block: &mut [Complex], sign| {
                // A row of another sector is the first sector's row, turned back.
                let (sector, rank) = (unknown / r.unknowns, unknown % r.unknowns);
                let row = &mut block[rank * columns..][..columns];
                let (late, early) = values[..columns].split_at(sector * r.unknowns);
                add_scaled(&mut row[..early.len()], early, sign);
                add_scaled(&mut row[early.len()..], late, sign);
            },
        );
        let mut whole = Block::zero(r.unknowns, columns);
        for m in 0..r.unknowns {
            for turn in 0..r.order {
                let back = (r.order - turn) % r.order;
                for n in 0..r.unknowns {
                    whole.values[m * columns + turn * r.unknowns + n] = half_filled.values
                        [m * columns + turn * r.unknowns + n]
                        + half_filled.values[n * columns + back * r.unknowns + m];
                }
            }
        }
        whole
    }

    fn across(&self) -> Block {
        let r = &self.mesh.rotation;
        let (first, columns) = (r.all_unknowns(), r.all_unknowns());
        let rows = self.mesh.unknowns.len() - first;
        if r.order == 0 {
            return Block::zero(rows, 0);
        }
        let stretches = |_| {
            vec![Stretch {
                from: 0,
                to: r.all_segments(),
                halved: None,
            }]
        };
        self.accumulate(
            (r.all_segments(), self.mesh.segments.len()),
            &stretches,
            rows,
            columns,
            &|unknown, values, block, sign| {
                add_scaled(
                    &mut block[(unknown - first) * columns..][..columns],
                    &values[..columns],
                    sign,
                );
            },
        )
    }

    fn rest(&self) -> Block {
        let r = &self.mesh.rotation;
        let first = r.all_unknowns();
        let n = self.mesh.unknowns.len() - first;
        let stretches = |p| {
            vec![Stretch {
                from: p,
                to: self.mesh.segments.len(),
                halved: Some(p),
            }]
        };
        let range = (r.all_segments(), self.mesh.segments.len());
        let mut block = self.accumulate(range, &stretches, n, n, &|unknown, values, block, sign| {
            add_scaled(&mut block[(unknown - first) * n..][..n], &values[first..], sign);
        });
        add_transpose(&mut block);
        block
    }

    /// Runs over the segments of `range`, each against its stretches, and hands the finished row of either half to `place`
    /// for every unknown that lives on it.
    fn accumulate(
        &self,
        range: (usize, usize),
        stretches: &(dyn Fn(usize) -> Vec<Stretch> + Sync),
        rows: usize,
        columns: usize,
        place: &Place<'_>,
    ) -> Block {
        let jobs: Vec<Vec<Stretch>> = (range.0..range.1).map(stretches).collect();
        let (near, table) = self.near_pairs(range.0, &jobs);
        let threads = rayon::current_num_threads().clamp(1, 1 + jobs.len() / 32);
        let work = |thread: usize| {
            let mut block = Block::zero(rows, columns);
            let mut scratch = Scratch::new(self.mesh);
            for index in (thread..jobs.len()).step_by(threads) {
                let p = range.0 + index;
                scratch.clear();
                for (stretch, near) in jobs[index].iter().zip(&near[index]) {
                    self.row(p, *stretch, near, &table, &mut scratch);
                }
                for end in 0..2 {
                    for &(unknown, sign) in &self.mesh.on_half[2 * p + end] {
                        place(unknown, &scratch.of_end[end], &mut block.values, sign);
                    }
                }
            }
            block
        };
        let mut blocks: Vec<Block> = if threads == 1 {
            vec![work(0)]
        } else {
            (0..threads).into_par_iter().map(work).collect()
        };
        let mut total = blocks.swap_remove(0);
        for other in &blocks {
            add_scaled(&mut total.values, &other.values, 1.0);
        }
        total
    }

    /// For each job, stretch and source set the near segments, with one table entry for each shape that occurs.
    fn near_pairs(&self, first: usize, jobs: &[Vec<Stretch>]) -> (Vec<NearLists>, Vec<Moments>) {
        let mut shapes: Vec<PairShape> = Vec::new();
        let mut known: FxHashMap<[i64; 8], usize> = FxHashMap::default();
        let mut near = Vec::with_capacity(jobs.len());
        let mut found = Vec::new();
        for (index, job) in jobs.iter().enumerate() {
            let p = first + index;
            let lists = job
                .iter()
                .map(|stretch| {
                    self.sources
                        .iter()
                        .map(|source| {
                            near_segments(&self.sources[0].pieces[p], source, *stretch, &mut found);
                            let seat = |&q: &usize| {
                                let one_line = self.one_line(p, source)
                                    && self.mesh.segments[p].line == self.mesh.segments[q].line;
                                let shape =
                                    PairShape::of(&self.sources[0].pieces[p], &source.pieces[q], one_line);
                                let entry = *known.entry(shape.key()).or_insert_with(|| {
                                    shapes.push(shape);
                                    shapes.len() - 1
                                });
                                (q, entry)
                            };
                            found.iter().map(seat).collect::<Vec<Near>>()
                        })
                        .collect()
                })
                .collect();
            near.push(lists);
        }
        let k = self.constants.wave_number;
        let one = |shape: &PairShape| moments(shape, k);
        let table = if shapes.len() > 256 {
            shapes.par_iter().map(one).collect()
        } else {
            shapes.iter().map(one).collect()
        };
        (near, table)
    }

    /// Whether a segment's line runs on in a source set: in the wires themselves always, in the image where it stands on the
    /// ground.
    fn one_line(&self, p: usize, source: &Lanes) -> bool {
        !source.image || self.mesh.segments[p].standing
    }

    fn row(&self, p: usize, stretch: Stretch, near: &[Vec<Near>], table: &[Moments], scratch: &mut Scratch) {
        for (source, near) in self.sources.iter().zip(near) {
            let own_line = if self.one_line(p, source) {
                &self.line_members[&self.mesh.segments[p].line][..]
            } else {
                &[][..]
            };
            let radius = self.mesh.segments[p].radius_m;
            own_line
                .iter()
                .for_each(|q| scratch.extra[*q] = 2.0 * radius * radius);
            far_row(
                &self.constants,
                &self.sources[0].pieces[p],
                source,
                stretch,
                &scratch.extra,
                &mut scratch.row,
            );
            own_line.iter().for_each(|q| scratch.extra[*q] = 0.0);
            for &(q, entry) in near {
                self.near_entry(p, q, source, &table[entry], &mut scratch.row);
            }
            if let Some(same) = stretch.halved {
                scratch.row.parts.iter_mut().for_each(|part| part[same] *= 0.5);
            }
            scratch.collect(self.mesh, stretch);
        }
    }

    fn near_entry(&self, p: usize, q: usize, source: &Lanes, m: &Moments, row: &mut Row) {
        let (a, b) = (&self.sources[0].pieces[p], &source.pieces[q]);
        let vector = Complex::new(
            0.0,
            source.sign * self.constants.omega_mu * super::vector::dot(a.direction, b.direction),
        );
        let total: Complex = m.iter().flatten().sum();
        let charge = total
            * Complex::new(
                0.0,
                -source.sign * self.constants.per_omega_epsilon / (a.length_m * b.length_m),
            );
        for (e, row_of) in m.iter().enumerate() {
            for (f, moment) in row_of.iter().enumerate() {
                let value = vector * moment + if e == f { charge } else { -charge };
                row.parts[4 * e + 2 * f][q] = value.re;
                row.parts[4 * e + 2 * f + 1][q] = value.im;
            }
        }
    }
}

struct Scratch {
    row: Row,
    extra: Vec<f64>,
    of_end: [Vec<Complex>; 2],
}

impl Scratch {
    fn new(mesh: &Mesh) -> Self {
        let padded = mesh.segments.len().next_multiple_of(LANES) + LANES;
        let unknowns = mesh.unknowns.len();
        Self {
            row: Row {
                parts: std::array::from_fn(|_| vec![0.0; padded]),
            },
            extra: vec![0.0; padded],
            of_end: [vec![Complex::ZERO; unknowns], vec![Complex::ZERO; unknowns]],
        }
    }

    fn clear(&mut self) {
        self.of_end.iter_mut().for_each(|v| v.fill(Complex::ZERO));
    }

    /// Adds the pair values to the unknowns that live on the other segment's halves.
    fn collect(&mut self, mesh: &Mesh, stretch: Stretch) {
        let [at_start, at_end] = &mut self.of_end;
        let parts = &self.row.parts;
        for q in stretch.from..stretch.to {
            for f in 0..2 {
                let start = Complex::new(parts[2 * f][q], parts[2 * f + 1][q]);
                let end = Complex::new(parts[4 + 2 * f][q], parts[5 + 2 * f][q]);
                for &(unknown, sign) in &mesh.on_half[2 * q + f] {
                    at_start[unknown] += start * sign;
                    at_end[unknown] += end * sign;
                }
            }
        }
    }
}

fn add_scaled(to: &mut [Complex], from: &[Complex], factor: f64) {
    to.iter_mut().zip(from).for_each(|(a, b)| *a += b * factor);
}

/// Z ← Z + Zᵀ, in tiles that stay in the cache.
fn add_transpose(block: &mut Block) {
    const TILE: usize = 32;
    let n = block.rows;
    for i0 in (0..n).step_by(TILE) {
        for j0 in (i0..n).step_by(TILE) {
            for i in i0..(i0 + TILE).min(n) {
                for j in j0.max(i)..(j0 + TILE).min(n) {
                    let sum = block.values[i * n + j] + block.values[j * n + i];
                    block.values[i * n + j] = sum;
                    block.values[j * n + i] = sum;
                }
            }
        }
    }
}
