//! Real stacks of wires on real masts: the plan in a rigger's words, the wires it becomes, its solution and its patterns.
//!
//! This is the proof behind [`crate::array`]'s draft: pole ends, lattice members and coupling are all in it; free space, no guys,
//! no booms (a boom through the neutral middle of an element in its plane of symmetry does nothing to first order).

pub mod answered;
pub mod bays;
pub mod mast;
pub mod mounted;
pub mod place;
pub mod shape;

pub use answered::Answered;
pub use bays::{BayPlan, WireElement};
pub use mast::Mast;
pub use mounted::{Matching, Mounted, truncation_db};
pub use place::{Found, Grid, MastPlace, Wish, best_place, brute_force};

use serde::{Deserialize, Serialize};
use words::Message;

use crate::array::{ArrayError, StackPlan, within};
use crate::wires::{WireFault, WireModel};

/// An antenna on its mast, heights from the middle of the stack, places from the mast's axis.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct MountPlan {
    /// Frequency the elements are cut and matched for, MHz.
    pub frequency_mhz: f64,
    /// The bays, in the order of the feed's branches.
    pub bays: Vec<BayPlan>,
    /// What carries them.
    pub mast: Mast,
    /// How far the mast is built beyond the outermost ends of the bays, up and down, m: one wavelength is usual. The error of
    /// cutting it there is what [`truncation_db`] shows.
    pub mast_beyond_m: f64,
}

/// What makes a plan unbuildable or unanswerable.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum MountError {
    /// In the plan, the feed or the pattern.
    Array(#[from] ArrayError),
    /// In the wires.
    Wire(#[from] WireFault),
    /// A bay's conductor in or through the mast.
    InsideMast {
        /// Number of the bay, from 1.
        bay: usize,
        /// Nearest its conductors come to the axis, m.
        distance_m: f64,
        /// How far the mast reaches from its axis, m.
        mast_m: f64,
    },
    /// A bay whose resistance cannot be matched.
    Unmatchable {
        /// Number of the bay, from 1.
        bay: usize,
        /// Its resistance, ohm.
        resistance_ohm: f64,
    },
    /// No place of the search can be built.
    NoPlace {
        /// Places tried.
        tried: usize,
        /// What was wrong with the first.
        first: Message,
    },
}

impl MountPlan {
    /// Equal bays one above another on one side of the mast.
    pub fn even(
        frequency_mhz: f64,
        count: usize,
        spacing_m: f64,
        element: WireElement,
        place: MastPlace,
        mast: Mast,
    ) -> Self {
        Self::faces(frequency_mhz, count, spacing_m, element, &[place], mast)
    }

    /// Levels of bays, each with one bay at every place round the mast, lowest level first: several faces of panels, say.
    pub fn faces(
        frequency_mhz: f64,
        levels: usize,
        spacing_m: f64,
        element: WireElement,
        places: &[MastPlace],
        mast: Mast,
    ) -> Self {
        let middle = (levels as f64 - 1.0) / 2.0;
        let bay = |level: usize, place: &MastPlace| BayPlan {
            element,
            height_m: (level as f64 - middle) * spacing_m,
            bearing_deg: place.bearing_deg,
            facing_deg: place.bearing_deg,
            stand_off_m: place.stand_off_m,
            inverted: false,
        };
        let bays = (0..levels)
            .flat_map(|level| places.iter().map(move |p| bay(level, p)))
            .collect();
        let mast_beyond_m = crate::line::wavelength_m(frequency_mhz);
        Self {
            frequency_mhz,
            bays,
            mast,
            mast_beyond_m,
        }
    }

    /// The proof of a draft: the same bays as wires, on a pole as drafted, or on another mast. Without any mast the bays' own axis
    /// is the mast's.
    pub fn proof_of(draft: &StackPlan, mast: Option<Mast>) -> Self {
        let mast = mast.unwrap_or(match draft.pole_radius_m {
            Some(radius_m) => Mast::Pole { radius_m },
            None => Mast::None,
        });
        let stand_off_m = if mast == Mast::None {
            0.0
        } else {
            draft.stand_off_m
        };
        let place = MastPlace {
            bearing_deg: draft.bearing_deg,
            stand_off_m,
        };
        Self::even(
            draft.frequency_mhz,
            draft.bays,
            draft.spacing_m,
            draft.element.into(),
            place,
            mast,
        )
    }

    /// The plan with all bays moved round the mast and in or out together.
    pub fn at_place(&self, place: MastPlace) -> Self {
        let mut out = self.clone();
        for bay in &mut out.bays {
            let turn = bay.facing_deg - bay.bearing_deg;
            (bay.bearing_deg, bay.stand_off_m) = (place.bearing_deg, place.stand_off_m);
            bay.facing_deg = place.bearing_deg + turn;
        }
        out
    }

    /// The wires: bays first, in order, then the mast.
    ///
    /// # Errors
    /// [`MountError`] for figures out of range or a bay in the mast. Wires that touch in other ways are found by the solver.
    pub fn wires(&self) -> Result<WireModel, MountError> {
        Ok(self.built()?.0)
    }

    /// The wires, and for each bay its ports with their weights.
    pub(crate) fn built(&self) -> Result<(WireModel, Vec<bays::BayPorts>), MountError> {
        let (mut model, ports) = self.bays_built()?;
        let span = span(&model);
        self.add_mast(&mut model, span);
        Ok((model, ports))
    }

    /// The bays' wires alone, and for each bay its ports with their weights.
    pub(crate) fn bays_built(&self) -> Result<(WireModel, Vec<bays::BayPorts>), MountError> {
        self.check()?;
        let (model, ports) = self.bays_hung();
        self.check_clear(&model, &ports)?;
        Ok((model, ports))
    }

    /// The mast's wires alone, as high as these bays want it.
    pub(crate) fn mast_built(&self) -> Result<WireModel, MountError> {
        self.check()?;
        let mut model = WireModel {
            frequency_mhz: self.frequency_mhz,
            ..WireModel::default()
        };
        self.add_mast(&mut model, span(&self.bays_hung().0));
        Ok(model)
    }

    fn bays_hung(&self) -> (WireModel, Vec<bays::BayPorts>) {
        let mut model = WireModel {
            frequency_mhz: self.frequency_mhz,
            ..WireModel::default()
        };
        let hung = |(i, bay): (usize, &BayPlan)| bay.add_to(&mut model, i + 1, self.frequency_mhz);
        let ports = self.bays.iter().enumerate().map(hung).collect();
        (model, ports)
    }

    fn add_mast(&self, model: &mut WireModel, (low_m, high_m): (f64, f64)) {
        let level = self.bays.iter().any(|b| b.element.has_level_parts());
        self.mast.add_to(
            model,
            low_m - self.mast_beyond_m,
            high_m + self.mast_beyond_m,
            level,
        );
    }

    fn check(&self) -> Result<(), MountError> {
        let f = self.frequency_mhz;
        within("frequency-in-mhz", f, f > 0.0, "a-frequency-above-0")?;
        if self.bays.is_empty() || self.bays.len() > 64 {
            return Err(ArrayError::BayCount {
                count: self.bays.len(),
            }
            .into());
        }
        let beyond = self.mast_beyond_m;
        within(
            "length-of-mast-beyond-the-bays-in-m",
            beyond,
            (0.0..200.0).contains(&beyond),
            "from-0-to-200",
        )?;
        for b in &self.bays {
            within(
                "height-of-a-bay-in-m",
                b.height_m,
                b.height_m.abs() < 500.0,
                "a-height-within-500-m",
            )?;
            within(
                "bearing-of-a-bay-in-degrees",
                b.bearing_deg,
                true,
                "a-finite-bearing",
            )?;
            within(
                "facing-of-a-bay-in-degrees",
                b.facing_deg,
                true,
                "a-finite-bearing",
            )?;
            let ok = (0.0..20.0).contains(&b.stand_off_m);
            within("stand-off-of-a-bay-in-m", b.stand_off_m, ok, "from-0-to-20")?;
        }
        self.mast.check()
    }

    fn check_clear(&self, model: &WireModel, ports: &[bays::BayPorts]) -> Result<(), MountError> {
        let mast_m = self.mast.reach_m();
        for (i, p) in ports.iter().enumerate() {
            for wire in &model.wires[p.wires.clone()] {
                let distance_m = axis_distance_m(wire.start_m, wire.end_m);
                if mast_m > 0.0 && distance_m < mast_m + wire.radius_m {
                    return Err(MountError::InsideMast {
                        bay: i + 1,
                        distance_m,
                        mast_m,
                    });
                }
            }
        }
        Ok(())
    }
}

fn span(model: &WireModel) -> (f64, f64) {
    let heights = model.wires.iter().flat_map(|w| [w.start_m[2], w.end_m[2]]);
    heights.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), z| {
        (low.min(z), high.max(z))
    })
}

/// Shortest distance of a wire from the vertical axis through the origin, m.
fn axis_distance_m(start: [f64; 3], end: [f64; 3]) -> f64 {
    let (dx, dy) = (end[0] - start[0], end[1] - start[1]);
    let square = dx * dx + dy * dy;
    let t = if square > 0.0 {
        (-(start[0] * dx + start[1] * dy) / square).clamp(0.0, 1.0)
    } else {
        0.0
    };
    (start[0] + t * dx).hypot(start[1] + t * dy)
}
