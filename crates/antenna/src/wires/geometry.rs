//! What there is: wires, where they are fed and loaded, and the ground below.

use super::{Complex, LIGHT_M_PER_US};

/// One straight, perfectly conducting round wire. Where ends of wires coincide, and where one ends on another's axis, they are
/// joined: within the radius of the thinner, or 1e-4 of the shortest segment if that is more.
#[derive(Clone, Debug, PartialEq)]
pub struct Wire {
    /// What the builder calls it; errors name it.
    pub name: String,
    /// Start, metres.
    pub start_m: [f64; 3],
    /// End, metres.
    pub end_m: [f64; 3],
    /// Radius, metres. For flat bars and angles use the equivalent round radius.
    pub radius_m: f64,
    /// Least number of segments; `None`: λ/40 on fed wires, λ/20 on others.
    pub segments: Option<usize>,
}

impl Wire {
    /// A wire between two points, its segments left to the mesh.
    pub fn new(name: impl Into<String>, start_m: [f64; 3], end_m: [f64; 3], radius_m: f64) -> Self {
        Self {
            name: name.into(),
            start_m,
            end_m,
            radius_m,
            segments: None,
        }
    }

    /// Length, metres.
    pub fn length_m(&self) -> f64 {
        super::vector::distance(self.start_m, self.end_m)
    }
}

/// A place where power enters: positive volts drive current from the wire's start towards its end. At the foot of a wire that
/// stands on the ground it sits between the ground and the wire.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Port {
    /// Index into [`WireModel::wires`].
    pub wire: usize,
    /// Fraction of the wire from start to end, 0.5 for the middle.
    pub position: f64,
}

/// A lumped impedance in series with the wire.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Load {
    /// Index into [`WireModel::wires`].
    pub wire: usize,
    /// Fraction of the wire from start to end.
    pub position: f64,
    /// Impedance, ohm.
    pub ohm: Complex,
}

/// What lies below.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Ground {
    /// Nothing anywhere.
    #[default]
    FreeSpace,
    /// A perfectly conducting plane at z = 0; a wire stands two radii clear above it or ends at z = 0 and is joined to it there.
    Perfect,
}

/// How a free wire end is closed.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum WireEnds {
    /// An open thin tube: what the exact kernel describes.
    #[default]
    Open,
    /// A solid rod, by lengthening each free end by half a radius: this follows no published rule; it was found by
    /// comparing dipoles and yagis with an independent engine.
    Closed,
}

/// Everything the solver needs.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct WireModel {
    /// The wires.
    pub wires: Vec<Wire>,
    /// Where it is fed; the order is that of every port matrix.
    pub ports: Vec<Port>,
    /// Lumped loads.
    pub loads: Vec<Load>,
    /// The ground.
    pub ground: Ground,
    /// Free ends.
    pub ends: WireEnds,
    /// Frequency, MHz.
    pub frequency_mhz: f64,
}

impl WireModel {
    /// Wavelength in free space, metres.
    pub fn wavelength_m(&self) -> f64 {
        LIGHT_M_PER_US / self.frequency_mhz
    }

    /// Wave number 2π/λ, per metre.
    pub fn wave_number_per_m(&self) -> f64 {
        std::f64::consts::TAU / self.wavelength_m()
    }

    /// Whether a wire carries a port.
    pub fn is_fed(&self, wire: usize) -> bool {
        self.ports.iter().any(|p| p.wire == wire)
    }

    /// The same antenna with every wire cut `factor` times finer than the mesh would cut it now.
    pub fn refined(&self, factor: f64) -> Self {
        let mut finer = self.clone();
        for (index, wire) in finer.wires.iter_mut().enumerate() {
            let now = super::cuts::segments_of(self, index) as f64;
            wire.segments = Some((now * factor).ceil() as usize);
        }
        finer
    }
}
