//! Bodies beside one mast, each solved by itself, then put together in any places: what a search of places asks again and again.
//!
//! With one ampere into a port and all others open a body feels mast and neighbours little. So each body's currents are those it has alone
//! in the air for one ampere into each of its ports, and those that an even field drives in it with its ports open. How much of the
//! latter flows follows from Galerkin's condition over all bodies and their mast; impedances err with the square of the currents'
//! error (the matrix is symmetric). A body costs the same wherever the others are, and where the mast repeats when turned, so
//! does the body beside it.

use super::beside::fresh;
use super::check::check;
use super::dense::{Factor, product, subtract_product};
use super::elimination::Mast;
use super::far_field::FarField;
use super::fault::WireFault;
use super::fill::{Matrix, fill_beside, fill_rest, fill_sector};
use super::geometry::WireModel;
use super::grid::{FieldGrid, add_fields};
use super::mesh::{Mesh, mesh_for};
use super::rotation::Search;
use super::solve::{SegmentCurrents, check_taps, segment_currents};
use super::{Complex, vector};
use faer::{Mat, MatRef};

/// A mast, factored.
pub(crate) struct Footing {
    mesh: Mesh,
    mast: Mast,
    far_field: FarField,
}

/// A body solved by itself beside a mast. Columns are currents: for one ampere into each port, then those with all ports open.
pub(crate) struct Body {
    ports: usize,
    currents: Mat<Complex>,
    /// What they induce along the mast, volts.
    along_mast: Mat<Complex>,
    /// What flows in the mast for that, with its sign turned.
    on_mast: Mat<Complex>,
    /// Each column's volts weighed with each column.
    own: Mat<Complex>,
    far_field: FarField,
    on_segments: Vec<SegmentCurrents>,
    on_mast_segments: Vec<SegmentCurrents>,
}

/// A body meshed and its currents without the mast.
struct Lone {
    wave_number: f64,
    mesh: Mesh,
    matrix: Matrix,
    currents: Mat<Complex>,
    along_mast: Mat<Complex>,
}

/// A body where it stands: solved elsewhere, turned with its mast by so many sectors, anticlockwise from above.
pub(crate) struct Standing<'a> {
    pub(crate) body: &'a Body,
    pub(crate) sectors: usize,
}

/// Bodies put together.
pub(crate) struct Together {
    /// Open-circuit impedances between all ports, in order, ohm.
    pub(crate) ohm: Mat<Complex>,
    /// For one ampere into each port (columns) how much of each body's open currents flows, bodies in order.
    pub(crate) open: Mat<Complex>,
}

impl Footing {
    /// The mast of a model, none where it has none that would be kept.
    ///
    /// # Errors
    /// As [`super::solve`].
    pub(crate) fn of(model: &WireModel) -> Result<Option<Self>, WireFault> {
        let (joints, _) = check(model)?;
        let mesh = mesh_for(model, &joints, Search::Standing)?;
        if mesh.rotation.order == 0 {
            return Ok(None);
        }
        let sector = fill_sector(model, &mesh);
        let mast = Mast::new(&mesh.rotation, sector.view());
        let mesh = mesh.repeating_part();
        Ok(Some(Self {
            far_field: FarField::of(model.wave_number_per_m(), model.ground, &mesh.segments),
            mast,
            mesh,
        }))
    }

    /// After how many turns of how many degrees it is itself again.
    pub(crate) fn sectors(&self) -> usize {
        self.mesh.rotation.order
    }

    /// Whether all of it stands on the axis, so that it is itself after any turn.
    pub(crate) fn is_round(&self) -> bool {
        let on_axis = |p: vector::Point| p[0].hypot(p[1]) < 1e-9;
        self.mesh
            .segments
            .iter()
            .all(|s| on_axis(s.start_m) && s.direction[0].hypot(s.direction[1]) < 1e-12)
    }

    /// Bodies beside it, each solved by itself; the mast is asked for all of them at once.
    ///
    /// # Shape
    /// `models`: for each body its wires and ports, without the mast and loads
    ///
    /// # Errors
    /// For each body as [`super::solve`].
    pub(crate) fn bodies(&self, models: &[WireModel]) -> Vec<Result<Body, WireFault>> {
        let lone: Vec<Result<Lone, WireFault>> = models.iter().map(|m| self.lone(m)).collect();
        let sound: Vec<&Lone> = lone.iter().filter_map(|l| l.as_ref().ok()).collect();
        let columns = sound.iter().map(|l| l.along_mast.ncols()).sum();
        let mut volts = Mat::<Complex>::zeros(self.mesh.rotation.all_unknowns(), columns);
        let mut at = 0;
        for l in &sound {
            let width = l.along_mast.ncols();
            volts.as_mut().subcols_mut(at, width).copy_from(&l.along_mast);
            at += width;
        }
        let flowing = self.mast.solve(volts.as_ref());
        let mut at = 0;
        lone.into_iter()
            .map(|l| {
                let l = l?;
                let width = l.along_mast.ncols();
                let on_mast = flowing.subcols(at, width).to_owned();
                at += width;
                Ok(self.beside(l, on_mast))
            })
            .collect()
    }

    /// A body's currents without the mast, and what they do to it.
    fn lone(&self, model: &WireModel) -> Result<Lone, WireFault> {
        let mesh = self.mesh.with(&alone(model)?);
        let matrix = fill_beside(model, &mesh);
        let first = mesh.rotation.all_unknowns();
        let (n, values) = (matrix.rest.rows, &matrix.rest.values);
        let ports: Vec<usize> = mesh.ports.iter().map(|tap| tap.unknown - first).collect();
        let free: Vec<usize> = (0..n).filter(|i| !ports.contains(i)).collect();
        let own = Factor::new(Mat::from_fn(free.len(), free.len(), |i, j| {
            values[free[i] * n + free[j]]
        }));
        let even = even_fields(&mesh);
        // One ampere into each port along its wire, then even fields with the ports open.
        let driving = ports.len();
        let solved = own.solve(Mat::from_fn(free.len(), driving + 3, |i, c| match ports.get(c) {
            Some(port) => -values[free[i] * n + port] * mesh.ports[c].sign,
            None => even[(free[i], c - driving)],
        }));
        let mut all = Mat::<Complex>::zeros(n, driving + 3);
        for c in 0..driving + 3 {
            free.iter()
                .enumerate()
                .for_each(|(i, &at)| all[(at, c)] = solved[(i, c)]);
            if let Some(&port) = ports.get(c) {
                all[(port, c)] = Complex::from(mesh.ports[c].sign);
            }
        }
        let open = fresh(&all.subcols(driving, 3).to_owned(), None);
        let currents = Mat::from_fn(n, driving + open.ncols(), |i, c| {
            if c < driving {
                all[(i, c)]
            } else {
                open[(i, c - driving)]
            }
        });
        let along_mast = product(matrix.across.view().transpose(), currents.as_ref());
        if (0..along_mast.ncols()).any(|c| along_mast.col_as_slice(c).iter().any(|v| !v.is_finite())) {
            return Err(WireFault::Singular);
        }
        Ok(Lone {
            wave_number: model.wave_number_per_m(),
            mesh,
            matrix,
            currents,
            along_mast,
        })
    }

    fn beside(&self, lone: Lone, on_mast: Mat<Complex>) -> Body {
        let Lone {
            mesh,
            matrix,
            currents,
            ..
        } = &lone;
        let mut image = product(matrix.rest.view(), currents.as_ref());
        subtract_product(&mut image, matrix.across.view(), on_mast.as_ref());
        let segments = mesh.rotation.all_segments();
        let mut on_segments: Vec<SegmentCurrents> = (0..currents.ncols())
            .map(|c| {
                let on_mast = on_mast.col_as_slice(c).iter().map(|v| -v);
                let all: Vec<Complex> = on_mast.chain(currents.col_as_slice(c).iter().copied()).collect();
                segment_currents(mesh, &all)
            })
            .collect();
        let own_segments = on_segments
            .iter_mut()
            .map(|all| all.split_off(segments))
            .collect();
        Body {
            ports: mesh.ports.len(),
            own: product(currents.transpose(), image.as_ref()),
            far_field: FarField::of(
                lone.wave_number,
                self.far_field.ground(),
                &mesh.segments[segments..],
            ),
            on_segments: own_segments,
            on_mast_segments: on_segments,
            on_mast,
            along_mast: lone.along_mast,
            currents: lone.currents,
        }
    }

    /// For each body the far field of each of its columns, mast included, where it was solved.
    pub(crate) fn fields(
        &self,
        bodies: &[&Body],
        elevation_deg: &[f64],
        azimuth_deg: &[f64],
        digits: f64,
    ) -> Vec<Vec<FieldGrid>> {
        let of = |far_field: &FarField, sets: &mut dyn Iterator<Item = &SegmentCurrents>| {
            let sets: Vec<&SegmentCurrents> = sets.collect();
            FieldGrid::to_digits(far_field, &sets, elevation_deg, azimuth_deg, digits)
        };
        let mut by_mast = of(
            &self.far_field,
            &mut bodies.iter().flat_map(|b| &b.on_mast_segments),
        )
        .into_iter();
        bodies
            .iter()
            .map(|body| {
                let mut grids = of(&body.far_field, &mut body.on_segments.iter());
                let others: Vec<FieldGrid> = by_mast.by_ref().take(grids.len()).collect();
                add_fields(&mut grids, &others);
                grids
            })
            .collect()
    }

    /// All bodies together, none where the bodies of `model` are not those solved.
    ///
    /// # Shape
    /// `model`: the wires of all bodies in their places, in the order of `standing`, without the mast
    ///
    /// # Errors
    /// As [`super::solve`]: bodies that cross each other.
    pub(crate) fn together(
        &self,
        model: &WireModel,
        standing: &[Standing<'_>],
    ) -> Result<Option<Together>, WireFault> {
        let mesh = alone(model)?;
        let rows: usize = standing.iter().map(|s| s.body.currents.nrows()).sum();
        if mesh.unknowns.len() != rows {
            return Ok(None);
        }
        let between = fill_rest(model, &mesh);
        // Ports of all bodies first, then their open currents.
        let ports: usize = standing.iter().map(|s| s.body.ports).sum();
        let mut seats: Vec<Vec<usize>> = Vec::new();
        let (mut port, mut open) = (0, ports);
        for s in standing {
            let more = s.body.currents.ncols() - s.body.ports;
            seats.push((port..port + s.body.ports).chain(open..open + more).collect());
            (port, open) = (port + s.body.ports, open + more);
        }
        let mut all = Mat::<Complex>::zeros(open, open);
        let (mut row, order) = (0, self.mesh.rotation.order);
        for (i, a) in standing.iter().enumerate() {
            let mut column = 0;
            for (j, b) in standing[..=i].iter().enumerate() {
                let weighed = if i == j {
                    a.body.own.clone()
                } else {
                    let direct = between.view().submatrix(
                        row,
                        column,
                        a.body.currents.nrows(),
                        b.body.currents.nrows(),
                    );
                    let volts = product(direct, b.body.currents.as_ref());
                    let mut sum = product(a.body.currents.transpose(), volts.as_ref());
                    let further = (order + b.sectors % order - a.sectors % order) % order;
                    self.subtract_by_mast(
                        &mut sum,
                        a.body.along_mast.as_ref(),
                        b.body.on_mast.as_ref(),
                        further,
                    );
                    sum
                };
                for (m, &at) in seats[i].iter().enumerate() {
                    for (n, &to) in seats[j].iter().enumerate() {
                        all[(at, to)] = weighed[(m, n)];
                        all[(to, at)] = weighed[(m, n)];
                    }
                }
                column += b.body.currents.nrows();
            }
            row += a.body.currents.nrows();
        }
        let more = open - ports;
        let mut ohm = all.as_ref().submatrix(0, 0, ports, ports).to_owned();
        let driven = all.as_ref().submatrix(ports, 0, more, ports);
        let flowing = if more > 0 {
            let opens = all.as_ref().submatrix(ports, ports, more, more).to_owned();
            Factor::new(opens).solve(-driven.to_owned())
        } else {
            Mat::zeros(0, ports)
        };
        let back = -flowing.clone();
        subtract_product(&mut ohm, driven.transpose(), back.as_ref());
        let finite =
            |m: &Mat<Complex>| (0..m.ncols()).all(|j| m.col_as_slice(j).iter().all(|v| v.is_finite()));
        if !finite(&ohm) || !finite(&flowing) {
            return Err(WireFault::Singular);
        }
        Ok(Some(Together { ohm, open: flowing }))
    }

    /// What currents on the mast, turned on by some sectors, do to others.
    fn subtract_by_mast(
        &self,
        sum: &mut Mat<Complex>,
        volts: MatRef<'_, Complex>,
        currents: MatRef<'_, Complex>,
        further: usize,
    ) {
        let (order, unknowns) = (self.mesh.rotation.order, self.mesh.rotation.unknowns);
        for sector in 0..order {
            let from = (order + sector - further) % order;
            let volts = volts.subrows(sector * unknowns, unknowns).transpose();
            subtract_product(sum, volts, currents.subrows(from * unknowns, unknowns));
        }
    }
}

impl Body {
    /// Its ports.
    pub(crate) fn ports(&self) -> usize {
        self.ports
    }
}

/// Bodies meshed without any mast.
fn alone(model: &WireModel) -> Result<Mesh, WireFault> {
    let (joints, _) = check(model)?;
    let mesh = mesh_for(model, &joints, Search::Nothing)?;
    check_taps(model, &mesh)?;
    Ok(mesh)
}

/// Volts of even fields along x, y and z on every unknown that is not the mast's.
fn even_fields(mesh: &Mesh) -> Mat<Complex> {
    let first = mesh.rotation.all_unknowns();
    Mat::from_fn(mesh.unknowns.len() - first, 3, |i, axis| {
        let of_half = |half: super::mesh::Half| {
            let segment = &mesh.segments[half.segment];
            0.5 * half.sign * segment.length_m * segment.direction[axis]
        };
        Complex::from(mesh.unknowns[first + i].halves().map(of_half).sum::<f64>())
    })
}
