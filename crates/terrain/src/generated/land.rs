//! One invented land: height, cover and people at any point of a local plane.

use super::lattice::Field;
use super::noise::{Noise, smooth};
use crate::cover;
use crate::position::Position;

/// A local plane: kilometres east and north of a middle. Lengths on it are within 2 % of true ones 70 km out; whatever must
/// be exact is measured on the ellipsoid afterwards.
#[derive(Debug, Clone, Copy)]
pub(super) struct Frame {
    pub lat_deg: f64,
    pub lon_deg: f64,
    /// Kilometres in a degree of longitude at the middle (a stated number rather than a cosine).
    pub km_per_deg_lon: f64,
}

/// Kilometres in a degree of latitude near 45°.
pub(super) const KM_PER_DEG_LAT: f64 = 111.13;

impl Frame {
    /// Kilometres east and north of a position, to the millimetre: positions come from geodesics, whose last bits differ
    /// between machines.
    pub(super) fn xy_km(&self, position: Position) -> (f64, f64) {
        let (x_km, y_km) = self.xy_of(position.lat_deg(), position.lon_deg());
        ((x_km * 1e6).round() / 1e6, (y_km * 1e6).round() / 1e6)
    }

    #[inline]
    pub(super) fn xy_of(&self, lat_deg: f64, lon_deg: f64) -> (f64, f64) {
        (
            (lon_deg - self.lon_deg) * self.km_per_deg_lon,
            (lat_deg - self.lat_deg) * KM_PER_DEG_LAT,
        )
    }

    pub(super) fn position(&self, x_km: f64, y_km: f64) -> Position {
        Position::from_computed(
            self.lat_deg + y_km / KM_PER_DEG_LAT,
            self.lon_deg + x_km / self.km_per_deg_lon,
        )
    }
}

/// A point whose height is wanted: the land is raised or lowered smoothly round it.
#[derive(Debug, Clone, Copy)]
pub(super) struct Pin {
    pub x_km: f64,
    pub y_km: f64,
    pub radius_km: f64,
    /// How far the middle is raised; set by [`Land::pin`].
    lift_m: f64,
}

/// A lake: its oval, wavered by noise, is levelled.
#[derive(Debug, Clone, Copy)]
pub(super) struct Lake {
    pub x_km: f64,
    pub y_km: f64,
    /// Half lengths along its axis and across.
    pub half_km: (f64, f64),
    /// Direction of its axis as a vector of unit length.
    pub axis: (f64, f64),
    pub level_m: f64,
}

/// A named town or village to build.
#[derive(Debug, Clone, Copy)]
pub(super) struct Settlement {
    pub name: &'static str,
    pub x_km: f64,
    pub y_km: f64,
    pub people: f64,
    /// Distance at which houses thin out, km.
    pub radius_km: f64,
}

/// How woods, fields and rock follow height.
#[derive(Debug, Clone, Copy)]
pub(super) struct Growth {
    /// Trees end here, m.
    pub tree_line_m: f64,
    /// Snow stays above this, m.
    pub snow_line_m: f64,
    /// Fields are tilled below this, m.
    pub crops_below_m: f64,
    /// More wood: −1 bare … 1 forest.
    pub woods: f64,
}

/// Everything that makes one land.
#[derive(Debug, Clone)]
pub(super) struct Land {
    pub frame: Frame,
    pub base: Field,
    pub noise: Noise,
    /// Strength of small forms, m: everywhere, and for a slope of 1.
    pub rough_m: (f64, f64),
    /// True where height 0 and below is sea.
    pub has_sea: bool,
    pub pins: Vec<Pin>,
    pub lakes: Vec<Lake>,
    pub settlements: Vec<Settlement>,
    /// People outside the settlements.
    pub scattered_people: f64,
    pub growth: Growth,
}

impl Land {
    /// Height at a point, m; exactly 0 over the sea.
    pub(super) fn height_m(&self, x_km: f64, y_km: f64) -> f64 {
        if self.has_sea && !self.base.covers(x_km, y_km) {
            return 0.0;
        }
        let mut height_m = self.unpinned_m(x_km, y_km);
        for pin in &self.pins {
            let (dx, dy) = (x_km - pin.x_km, y_km - pin.y_km);
            let near = 1.0 - (dx * dx + dy * dy) / (pin.radius_km * pin.radius_km);
            if near > 0.0 {
                height_m += pin.lift_m * near * near;
            }
        }
        for lake in &self.lakes {
            height_m = lake.level(self.noise, x_km, y_km, height_m);
        }
        if !self.has_sea {
            return height_m;
        }
        if height_m <= 0.0 { 0.0 } else { height_m.max(0.3) }
    }

    /// Gives the point at a position a height, blending into the land over a radius; radii of pins should not overlap.
    pub(super) fn pin(&mut self, position: Position, height_m: f64, radius_km: f64) {
        let (x_km, y_km) = self.frame.xy_km(position);
        let lift_m = height_m - self.unpinned_m(x_km, y_km);
        self.pins.push(Pin {
            x_km,
            y_km,
            radius_km,
            lift_m,
        });
    }

    /// Drained land with its small forms.
    fn unpinned_m(&self, x_km: f64, y_km: f64) -> f64 {
        let warp_x = self.noise.at(x_km * 0.9 + 3.1, y_km * 0.9 - 7.7);
        let warp_y = self.noise.at(x_km * 0.9 - 9.2, y_km * 0.9 + 2.4);
        let bend_km = 0.6 * self.base.lattice.step_km;
        let (base_m, slope) = self.base.at(x_km + bend_km * warp_x, y_km + bend_km * warp_y);
        let strength = self.rough_m.0 + self.rough_m.1 * slope.min(0.8);
        let small = self.noise.octaves(x_km * 1.3, y_km * 1.3, 3, 0.55);
        let crests = self.noise.ridged(x_km * 0.8 + 40.0, y_km * 0.8 - 20.0, 2) - 0.45;
        base_m + strength * (small + 0.6 * crests)
    }

    /// True where a lake lies.
    pub(super) fn in_lake(&self, x_km: f64, y_km: f64) -> bool {
        self.lakes
            .iter()
            .any(|lake| lake.inside(self.noise, x_km, y_km) > 0.0)
    }

    /// Land-cover code at a point of known height and slope.
    pub(super) fn cover(&self, x_km: f64, y_km: f64, height_m: f64, slope: f64) -> u8 {
        if (self.has_sea && height_m <= 0.0) || self.in_lake(x_km, y_km) {
            return cover::WATER;
        }
        let houses = if slope < 0.45 {
            self.houses(x_km, y_km)
        } else {
            0.0
        };
        if houses > 0.25 && houses > 1.0 + 1.3 * self.noise.octaves(x_km * 1.1, y_km * 1.1, 4, 0.7) {
            return cover::BUILT_UP;
        }
        self.wild_cover(x_km, y_km, height_m, slope)
    }

    fn wild_cover(&self, x_km: f64, y_km: f64, height_m: f64, slope: f64) -> u8 {
        let growth = &self.growth;
        let patch = self
            .noise
            .octaves(x_km * 0.33 + 91.0, y_km * 0.33 + 13.0, 4, 0.62);
        let above_trees_m = height_m - growth.tree_line_m - 140.0 * patch;
        if height_m + 160.0 * patch > growth.snow_line_m && slope < 1.1 {
            return cover::SNOW;
        }
        if slope > 0.85 || above_trees_m > 320.0 {
            return cover::BARE;
        }
        if above_trees_m > 0.0 {
            return if above_trees_m < 90.0 {
                cover::SHRUB
            } else {
                cover::GRASS
            };
        }
        if self.has_sea && height_m < 2.2 && slope < 0.03 && patch < -0.1 {
            return cover::WETLAND;
        }
        let woods = patch + growth.woods + 1.5 * smooth(0.12, 0.5, slope);
        if woods > 0.42 {
            return cover::TREES;
        }
        let tilled = height_m < growth.crops_below_m + 60.0 * patch && slope < 0.16;
        let field = self
            .noise
            .octaves(x_km * 0.45 - 31.0, y_km * 0.45 + 57.0, 3, 0.75);
        if tilled && field > -0.06 {
            return cover::CROPS;
        }
        if woods > 0.3 { cover::SHRUB } else { cover::GRASS }
    }

    /// How densely houses stand: 1 on average at the rim of a settlement.
    pub(super) fn houses(&self, x_km: f64, y_km: f64) -> f64 {
        self.settlements
            .iter()
            .map(|s| 2.0 * s.nearness(x_km, y_km))
            .sum()
    }
}

impl Settlement {
    /// 1 in the middle, ½ at the radius, falling on; no transcendental functions, so equal on every machine.
    pub(super) fn nearness(&self, x_km: f64, y_km: f64) -> f64 {
        let (dx, dy) = (x_km - self.x_km, y_km - self.y_km);
        let r2 = (dx * dx + dy * dy) / (self.radius_km * self.radius_km);
        if r2 > 9.0 {
            0.0
        } else {
            1.0 / (1.0 + r2 * (0.4 + 0.6 * r2))
        }
    }
}

impl Lake {
    /// Above 0 inside the shore, 1 in the middle.
    fn inside(&self, noise: Noise, x_km: f64, y_km: f64) -> f64 {
        let (dx, dy) = (x_km - self.x_km, y_km - self.y_km);
        let along = (dx * self.axis.0 + dy * self.axis.1) / self.half_km.0;
        let across = (dy * self.axis.0 - dx * self.axis.1) / self.half_km.1;
        let r2 = along * along + across * across;
        if r2 > 4.0 {
            -3.0
        } else {
            1.0 - r2 + 0.35 * noise.octaves(x_km * 0.8, y_km * 0.8, 3, 0.5)
        }
    }

    /// The height with the lake in it: level inside, a shore of a few hundred metres round it.
    fn level(&self, noise: Noise, x_km: f64, y_km: f64, height_m: f64) -> f64 {
        let inside = self.inside(noise, x_km, y_km);
        if inside > 0.0 {
            return self.level_m;
        }
        if inside < -0.9 {
            return height_m;
        }
        let raise = smooth(-0.9, -0.5, inside);
        let land_m = height_m + raise * (self.level_m + 1.0 - height_m).max(0.0);
        self.level_m + (land_m - self.level_m) * (1.0 - 0.85 * smooth(-0.9, 0.0, inside))
    }
}

impl Settlement {
    /// The same settlement somewhere else.
    pub(super) fn at(self, (x_km, y_km): (f64, f64)) -> Self {
        Self { x_km, y_km, ..self }
    }
}
