//! A mast that repeats when turned about its vertical axis: the matrix of such a part is block-circulant, so one sector is
//! filled and small blocks are factored instead of one large one.

use super::geometry::WireModel;
use super::joints::Groups;
use super::mesh::{Draft, Segment, Triangle};
use super::vector::{Point, add, along, distance, scale, turned};
use rustc_hash::FxHashMap;

/// Fewer segments than this are not worth the search.
const LEAST_SEGMENTS: usize = 24;
/// How closely a turned part must fall on itself; files usually round to a micrometre.
const TOLERANCE_M: f64 = 5e-6;
const CELL_M: f64 = 1e-3;
const ORDERS: [usize; 8] = [16, 12, 10, 8, 6, 5, 4, 3];

/// The repeating part: `order` sectors of `segments` segments and `unknowns` unknowns each, first in every numbering.
#[derive(Clone, Debug, Default)]
pub struct Rotation {
    /// Number of sectors; 0 when nothing repeats.
    pub order: usize,
    /// Segments in a sector.
    pub segments: usize,
    /// Unknowns in a sector.
    pub unknowns: usize,
    sectors: Vec<Vec<usize>>,
    node_sectors: Vec<Vec<usize>>,
    node_seat: Seats,
    /// For each segment of the repeating part: sector, rank in it, whether it runs against the turned first one.
    seat: Seats,
}

/// Where a segment went when sectors were put in order.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Place {
    pub(crate) segment: usize,
    pub(crate) reversed: bool,
}

impl Place {
    pub(crate) fn half(self, end: usize) -> (usize, usize) {
        (self.segment, end ^ usize::from(self.reversed))
    }

    pub(crate) fn oriented(self, s: Segment) -> Segment {
        if !self.reversed {
            return s;
        }
        Segment {
            start_m: add(s.start_m, scale(s.direction, s.length_m)),
            direction: scale(s.direction, -1.0),
            ..s
        }
    }
}

impl Rotation {
    /// Segments of all sectors together.
    pub fn all_segments(&self) -> usize {
        self.order * self.segments
    }

    /// Unknowns of all sectors together.
    pub fn all_unknowns(&self) -> usize {
        self.order * self.unknowns
    }

    pub(crate) fn new_place(&self, segments: usize) -> Vec<Place> {
        let mut next = self.all_segments();
        (0..segments)
            .map(|old| match self.seat.get(&old) {
                Some(&(sector, rank, reversed)) => Place {
                    segment: sector * self.segments + rank,
                    reversed,
                },
                None => {
                    next += 1;
                    Place {
                        segment: next - 1,
                        reversed: false,
                    }
                }
            })
            .collect()
    }

    /// Nodes of the first sector, of its images, then all others.
    pub(crate) fn node_order(&self, nodes: usize) -> Vec<usize> {
        let mut order: Vec<usize> = self.node_sectors.concat();
        let mut taken = vec![false; nodes];
        order.iter().for_each(|n| taken[*n] = true);
        order.extend((0..nodes).filter(|n| !taken[*n]));
        order
    }

    /// Halves meeting at a node, in the order that its counterpart in the first sector has them.
    pub(crate) fn halves_at(&self, node: usize, at_node: &[Vec<(usize, usize)>]) -> Vec<(usize, usize)> {
        match self.node_seat.get(&node) {
            Some(&(turns, rank, _)) if turns > 0 => at_node[self.node_sectors[0][rank]]
                .iter()
                .map(|half| self.image(*half, turns))
                .collect(),
            _ => at_node[node].clone(),
        }
    }

    fn image(&self, (segment, end): (usize, usize), turns: usize) -> (usize, usize) {
        let (sector, rank, reversed) = self.seat[&segment];
        let image = self.sectors[(sector + turns) % self.order][rank];
        (image, end ^ usize::from(reversed != self.seat[&image].2))
    }

    /// Unknowns in one sector, once they are numbered.
    pub(crate) fn in_each_sector(&self, unknowns: &[Triangle]) -> usize {
        let all = self.all_segments();
        unknowns.iter().filter(|t| t.first.segment < all).count() / self.order.max(1)
    }
}

/// What to look for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Search {
    /// Only what repeats: that is a saving in itself.
    Repeating,
    /// Failing that, the largest passive part as one sector, to be kept for other models.
    Standing,
    /// For nothing: all is solved as it is.
    Nothing,
}

/// All passive parts together if they repeat, else the largest one if it does.
pub(crate) fn find(draft: &Draft, model: &WireModel, search: Search) -> Rotation {
    if search == Search::Nothing {
        return Rotation::default();
    }
    let candidates = passive_parts(draft, model);
    let repeating = |part: &Vec<usize>| {
        let (axis, finder) = (centroid(draft, part), Finder::new(draft, part));
        ORDERS
            .iter()
            .find_map(|order| finder.rotation(part, axis, *order))
    };
    if let Some(found) = candidates.iter().find_map(repeating) {
        return found;
    }
    let alone = |part: &Vec<usize>| Finder::new(draft, part).rotation(part, [0.0; 2], 1);
    candidates
        .last()
        .filter(|_| search == Search::Standing)
        .and_then(alone)
        .unwrap_or_default()
}

/// All passive parts in one, then the largest of them alone; those of too few segments left out.
fn passive_parts(draft: &Draft, model: &WireModel) -> Vec<Vec<usize>> {
    let mut groups = Groups::new(draft.node_at.len());
    draft.nodes.iter().for_each(|[a, b]| groups.join(*a, *b));
    let mut parts: FxHashMap<usize, Vec<usize>> = FxHashMap::default();
    let mut active: Vec<usize> = Vec::new();
    for (index, segment) in draft.segments.iter().enumerate() {
        let group = groups.of(draft.nodes[index][0]);
        parts.entry(group).or_default().push(index);
        let tapped = model.is_fed(segment.wire) || model.loads.iter().any(|l| l.wire == segment.wire);
        if tapped {
            active.push(group);
        }
    }
    active.iter().for_each(|g| {
        parts.remove(g);
    });
    let mut union = parts.values().flatten().copied().collect::<Vec<_>>();
    union.sort_unstable();
    let several = parts.len() > 1;
    let largest = parts
        .into_values()
        .max_by_key(|p| (p.len(), std::cmp::Reverse(p[0])));
    let both = [several.then_some(union), largest];
    both.into_iter()
        .flatten()
        .filter(|p| p.len() >= LEAST_SEGMENTS)
        .collect()
}

fn centroid(draft: &Draft, part: &[usize]) -> [f64; 2] {
    let mut sum = [0.0; 3];
    for &s in part {
        let s = &draft.segments[s];
        sum = [
            sum[0] + s.length_m * middle(s)[0],
            sum[1] + s.length_m * middle(s)[1],
            sum[2] + s.length_m,
        ];
    }
    [sum[0] / sum[2], sum[1] / sum[2]]
}

fn middle(s: &Segment) -> Point {
    add(s.start_m, scale(s.direction, 0.5 * s.length_m))
}

fn end_point(s: &Segment) -> Point {
    add(s.start_m, scale(s.direction, s.length_m))
}

struct Finder<'a> {
    draft: &'a Draft,
    by_middle: FxHashMap<[i64; 3], Vec<usize>>,
}

fn cell(p: Point) -> [i64; 3] {
    p.map(|v| (v / CELL_M).floor() as i64)
}

impl<'a> Finder<'a> {
    fn new(draft: &'a Draft, part: &[usize]) -> Self {
        let mut by_middle: FxHashMap<[i64; 3], Vec<usize>> = FxHashMap::default();
        for &s in part {
            by_middle
                .entry(cell(middle(&draft.segments[s])))
                .or_default()
                .push(s);
        }
        Self { draft, by_middle }
    }

    /// The segment that lies where this one, turned, would; and whether it runs the other way.
    fn image(&self, segment: usize, axis: [f64; 2], turn: (f64, f64)) -> Option<(usize, bool)> {
        let s = &self.draft.segments[segment];
        let (start, end) = (turned(s.start_m, axis, turn), turned(end_point(s), axis, turn));
        let centre = along(start, end, 0.5);
        let shifts = |v: f64| [v - TOLERANCE_M, v + TOLERANCE_M];
        let mut seen = [[i64::MIN; 3]; 8];
        for (n, corner) in (0..8).map(|b| [b & 1, b >> 1 & 1, b >> 2 & 1]).enumerate() {
            let key = cell(std::array::from_fn(|i| shifts(centre[i])[corner[i]]));
            if seen.contains(&key) {
                continue;
            }
            seen[n] = key;
            for &other in self.by_middle.get(&key).map_or(&[][..], |v| v) {
                let o = &self.draft.segments[other];
                let near = |a: Point, b: Point| distance(a, b) < 2.0 * TOLERANCE_M;
                if (o.radius_m - s.radius_m).abs() > 1e-9 {
                    continue;
                }
                if near(o.start_m, start) && near(end_point(o), end) {
                    return Some((other, false));
                }
                if near(o.start_m, end) && near(end_point(o), start) {
                    return Some((other, true));
                }
            }
        }
        None
    }

    fn rotation(&self, part: &[usize], axis: [f64; 2], order: usize) -> Option<Rotation> {
        if !part.len().is_multiple_of(order) {
            return None;
        }
        let turn = (std::f64::consts::TAU / order as f64).sin_cos();
        let mut step = FxHashMap::default();
        for &s in part {
            step.insert(s, self.image(s, axis, turn)?);
        }
        let (sectors, seat) = orbits(part, &step, order)?;
        let mut node_step = FxHashMap::default();
        for (&s, &(image, reversed)) in &step {
            for end in 0..2 {
                let to = self.draft.nodes[image][end ^ usize::from(reversed)];
                if *node_step.entry(self.draft.nodes[s][end]).or_insert(to) != to {
                    return None;
                }
            }
        }
        let mut nodes: Vec<usize> = node_step.keys().copied().collect();
        nodes.sort_unstable();
        let with_sign = node_step.iter().map(|(a, b)| (*a, (*b, false))).collect();
        let (node_sectors, node_seat) = orbits(&nodes, &with_sign, order)?;
        Some(Rotation {
            order,
            segments: sectors[0].len(),
            unknowns: 0,
            sectors,
            node_sectors,
            node_seat,
            seat,
        })
    }
}

type Seats = FxHashMap<usize, (usize, usize, bool)>;

/// Sorts members into sectors by following each round; `None` unless every orbit has exactly `order` members.
fn orbits(
    members: &[usize],
    step: &FxHashMap<usize, (usize, bool)>,
    order: usize,
) -> Option<(Vec<Vec<usize>>, Seats)> {
    let mut sectors = vec![Vec::new(); order];
    let mut seat = Seats::default();
    for &first in members {
        if seat.contains_key(&first) {
            continue;
        }
        let (mut at, mut reversed) = (first, false);
        for (sector, list) in sectors.iter_mut().enumerate() {
            if seat.insert(at, (sector, list.len(), reversed)).is_some() {
                return None;
            }
            list.push(at);
            let (next, turned_back) = step[&at];
            (at, reversed) = (next, reversed != turned_back);
        }
        if at != first {
            return None;
        }
    }
    Some((sectors, seat))
}
