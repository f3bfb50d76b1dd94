//! The upper convex hull of the ground passed so far: what a receiver beyond it can see.
//!
//! A straight line in distance and flattened height (height less the Earth's curvature) is a ray over the curved Earth, so the
//! steepest ray back from a receiver touches a vertex of the hull.

use super::peak::peak;

/// Upper convex hull of points that come in order of distance, brought up to date when it is asked.
#[derive(Debug, Clone, Default)]
pub struct Hull {
    d_km: Vec<f64>,
    y_m: Vec<f64>,
    index: Vec<u32>,
    /// The next profile point to be taken in.
    next: usize,
    /// Where the last answers lay, counted from the newest vertex: the next lie near.
    back: usize,
    along: usize,
}

impl Hull {
    /// Forgets all points; the first one taken in will be that behind the transmitter.
    pub fn clear(&mut self) {
        self.d_km.clear();
        self.y_m.clear();
        self.index.clear();
        (self.next, self.back, self.along) = (1, 0, 0);
    }

    /// Takes in the points before profile point `n`, given all distances and flattened heights.
    #[inline(always)]
    pub fn before(&mut self, n: usize, d_km: &[f64], y_m: &[f64]) -> &mut Hull {
        for i in self.next..n {
            self.push(d_km[i], y_m[i], i);
        }
        self.next = n;
        self
    }

    /// Adds profile point `index`, farther out than all before it.
    #[inline(always)]
    fn push(&mut self, d_km: f64, y_m: f64, index: usize) {
        let mut len = self.d_km.len();
        while len >= 2 {
            let (d1, y1) = (self.d_km[len - 1], self.y_m[len - 1]);
            let (d0, y0) = (self.d_km[len - 2], self.y_m[len - 2]);
            if (y1 - y0) * (d_km - d0) >= (y_m - y0) * (d1 - d0) {
                break;
            }
            len -= 1;
        }
        self.d_km.truncate(len);
        self.y_m.truncate(len);
        self.index.truncate(len);
        self.d_km.push(d_km);
        self.y_m.push(y_m);
        self.index.push(index as u32);
    }

    /// Profile index of the point seen at the steepest slope from beyond the hull; the last of equal ones.
    #[inline(always)]
    pub fn steepest_from(&mut self, d_km: f64, y_m: f64) -> usize {
        let last = self.d_km.len() - 1;
        let (x, y) = (&self.d_km[..], &self.y_m[..]);
        let at = peak(last.saturating_sub(self.back), 0, last, |k| {
            (y[k + 1] - y_m) * (d_km - x[k]) >= (y[k] - y_m) * (d_km - x[k + 1])
        });
        self.back = last - at;
        self.index[at] as usize
    }

    /// Profile index of the point farthest above straight lines of this slope, in m/km.
    #[inline(always)]
    pub fn highest_along(&mut self, slope: f64) -> usize {
        let last = self.d_km.len() - 1;
        let (x, y) = (&self.d_km[..], &self.y_m[..]);
        let at = peak(last.saturating_sub(self.along), 0, last, |k| {
            y[k + 1] - y[k] >= slope * (x[k + 1] - x[k])
        });
        self.along = last - at;
        self.index[at] as usize
    }
}
