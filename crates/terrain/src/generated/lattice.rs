//! A square lattice of numbers over a local plane, read smoothly.

/// Size, spacing and origin of a lattice: node (0, 0) is its south-west corner.
#[derive(Debug, Clone, Copy)]
pub(super) struct Lattice {
    pub width: usize,
    pub height: usize,
    pub step_km: f64,
    pub west_km: f64,
    pub south_km: f64,
}

impl Lattice {
    /// A lattice that holds a rectangle round the origin.
    pub(super) fn around(
        (west_km, south_km): (f64, f64),
        (east_km, north_km): (f64, f64),
        step_km: f64,
    ) -> Self {
        let width = ((east_km - west_km) / step_km).ceil() as usize + 1;
        let height = ((north_km - south_km) / step_km).ceil() as usize + 1;
        Self {
            width,
            height,
            step_km,
            west_km,
            south_km,
        }
    }

    pub(super) fn len(&self) -> usize {
        self.width * self.height
    }

    /// Column and row of a node.
    #[inline]
    pub(super) fn place(&self, node: usize) -> (i64, i64) {
        ((node % self.width) as i64, (node / self.width) as i64)
    }

    /// Kilometres east and north of the origin.
    #[inline]
    pub(super) fn xy_km(&self, node: usize) -> (f64, f64) {
        let (i, j) = self.place(node);
        (
            self.west_km + i as f64 * self.step_km,
            self.south_km + j as f64 * self.step_km,
        )
    }

    /// The node at a column and row, if it exists.
    #[inline]
    pub(super) fn node(&self, i: i64, j: i64) -> Option<usize> {
        let inside = i >= 0 && j >= 0 && i < self.width as i64 && j < self.height as i64;
        inside.then(|| j as usize * self.width + i as usize)
    }
}

/// Numbers on a lattice.
#[derive(Debug, Clone)]
pub(super) struct Field {
    pub lattice: Lattice,
    pub values: Vec<f64>,
}

impl Field {
    /// The field's value at a point, m, and its slope, m per m, by uniform cubic B-splines (smooth, a little rounded); the edge
    /// goes on outside.
    #[inline]
    pub(super) fn at(&self, x_km: f64, y_km: f64) -> (f64, f64) {
        let lattice = &self.lattice;
        let (i, wx, dx) = weights((x_km - lattice.west_km) / lattice.step_km, lattice.width);
        let (j, wy, dy) = weights((y_km - lattice.south_km) / lattice.step_km, lattice.height);
        let (mut value, mut east, mut north) = (0.0, 0.0, 0.0);
        for row in 0..4 {
            let start = (j + row) * lattice.width + i;
            let v = &self.values[start..start + 4];
            let along = wx[0] * v[0] + wx[1] * v[1] + wx[2] * v[2] + wx[3] * v[3];
            value += wy[row] * along;
            north += dy[row] * along;
            east += wy[row] * (dx[0] * v[0] + dx[1] * v[1] + dx[2] * v[2] + dx[3] * v[3]);
        }
        (
            value,
            (east * east + north * north).sqrt() / (1000.0 * lattice.step_km),
        )
    }

    /// True when the point lies on the lattice.
    pub(super) fn covers(&self, x_km: f64, y_km: f64) -> bool {
        let (x, y) = (x_km - self.lattice.west_km, y_km - self.lattice.south_km);
        let (w, h) = ((self.lattice.width - 1) as f64, (self.lattice.height - 1) as f64);
        x >= 0.0 && y >= 0.0 && x <= w * self.lattice.step_km && y <= h * self.lattice.step_km
    }
}

/// First of four nodes, their B-spline weights and the weights of the derivative.
#[inline]
fn weights(at: f64, length: usize) -> (usize, [f64; 4], [f64; 4]) {
    let at = at.clamp(1.0, length as f64 - 2.000_001);
    let cell = at as usize;
    let t = at - cell as f64;
    let (t2, t3, s) = (t * t, t * t * t, 1.0 - t);
    let w = [
        s * s * s / 6.0,
        (3.0 * t3 - 6.0 * t2 + 4.0) / 6.0,
        (-3.0 * t3 + 3.0 * t2 + 3.0 * t + 1.0) / 6.0,
        t3 / 6.0,
    ];
    let d = [
        -s * s / 2.0,
        (3.0 * t2 - 4.0 * t) / 2.0,
        (-3.0 * t2 + 2.0 * t + 1.0) / 2.0,
        t2 / 2.0,
    ];
    (cell - 1, w, d)
}
