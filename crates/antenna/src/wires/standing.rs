//! A mast whose block of the matrix is factored once for many models: a bay is moved and only what concerns it is new.

use super::beside::port_columns_beside;
use super::check::check;
use super::elimination::{Mast, port_columns};
use super::fault::WireFault;
use super::fill::{Matrix, fill, fill_beside};
use super::geometry::{Ground, WireModel};
use super::mesh::{Mesh, Segment, Triangle, mesh_for};
use super::rotation::Search;
use super::solve::{Solution, check_taps, finished};
use std::sync::{Arc, PoisonError, RwLock};

/// Solves as [`solve`] does, with the mast's block of the matrix factored only once for all models that share it: the
/// largest part without sources and loads is kept in `standing`, and used again while frequency, ground and that part are
/// the same. Another part replaces it. The answer is that of [`solve`] to rounding, or near it, as `standing` was made.
///
/// # Errors
/// As [`solve`].
pub fn solve_on(model: &WireModel, standing: &Standing) -> Result<Solution, WireFault> {
    let (joints, cautions) = check(model)?;
    if model.ports.is_empty() {
        return Err(WireFault::NoPort);
    }
    let mesh = mesh_for(model, &joints, Search::Standing)?;
    check_taps(model, &mesh)?;
    let (matrix, kept) = if mesh.rotation.order == 0 {
        (fill(model, &mesh), None)
    } else if let Some(kept) = standing.kept(model, &mesh) {
        (fill_beside(model, &mesh), Some(kept))
    } else {
        let matrix = fill(model, &mesh);
        let kept = standing.keep(Kept::new(model, &mesh, &matrix));
        (matrix, Some(kept))
    };
    let mast = kept.as_ref().map(|k| &k.mast);
    let near = mast.filter(|_| standing.near);
    let unknowns = match near.and_then(|mast| port_columns_beside(&mesh, &matrix, mast)) {
        Some(unknowns) => unknowns,
        None => port_columns(&mesh, &matrix, mast)?,
    };
    Ok(finished(model, mesh, cautions, &unknowns))
}

/// A mast kept factored from one model to the next; see [`solve_on`]. Threads may share it.
#[derive(Debug, Default)]
pub struct Standing {
    kept: RwLock<Option<Arc<Kept>>>,
    near: bool,
}

#[derive(Debug)]
struct Kept {
    frequency_mhz: f64,
    ground: Ground,
    order: usize,
    segments: Vec<Segment>,
    unknowns: Vec<Triangle>,
    mast: Mast,
}

impl Kept {
    fn new(model: &WireModel, mesh: &Mesh, matrix: &Matrix) -> Self {
        let (segments, unknowns) = Self::part(mesh);
        Self {
            frequency_mhz: model.frequency_mhz,
            ground: model.ground,
            order: mesh.rotation.order,
            segments: segments.to_vec(),
            unknowns: unknowns.to_vec(),
            mast: Mast::new(&mesh.rotation, matrix.sector.view()),
        }
    }

    fn part(mesh: &Mesh) -> (&[Segment], &[Triangle]) {
        (
            &mesh.segments[..mesh.rotation.all_segments()],
            &mesh.unknowns[..mesh.rotation.all_unknowns()],
        )
    }

    fn serves(&self, model: &WireModel, mesh: &Mesh) -> bool {
        let (segments, unknowns) = Self::part(mesh);
        let same = |a: &Segment, b: &Segment| {
            (a.start_m, a.direction, a.length_m, a.radius_m)
                == (b.start_m, b.direction, b.length_m, b.radius_m)
        };
        self.frequency_mhz == model.frequency_mhz
            && self.ground == model.ground
            && self.order == mesh.rotation.order
            && self.segments.len() == segments.len()
            && self.segments.iter().zip(segments).all(|(a, b)| same(a, b))
            && self.unknowns == unknowns
    }
}

impl Standing {
    /// For searching: few wires beside the mast are solved by rounds, to 1e-5 of their currents ([`super::beside`]).
    pub fn near() -> Self {
        Self {
            near: true,
            ..Self::default()
        }
    }

    fn kept(&self, model: &WireModel, mesh: &Mesh) -> Option<Arc<Kept>> {
        let held = self.kept.read().unwrap_or_else(PoisonError::into_inner);
        held.as_ref().filter(|k| k.serves(model, mesh)).cloned()
    }

    fn keep(&self, kept: Kept) -> Arc<Kept> {
        let kept = Arc::new(kept);
        *self.kept.write().unwrap_or_else(PoisonError::into_inner) = Some(kept.clone());
        kept
    }
}
