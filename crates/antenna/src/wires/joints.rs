//! Where wires meet: ends at ends, ends on another wire's side, ends in the ground.

use super::cuts;
use super::geometry::{Ground, WireModel};
use super::vector::{Point, along, distance, dot, length, scale, sub};

/// The nodes of a model before its wires are cut.
#[derive(Clone, Debug)]
pub(crate) struct Joints {
    /// Node of each wire's start and end.
    pub(crate) ends: Vec<[usize; 2]>,
    /// For each wire the nodes between its ends, where others end on its side: fraction from start to end, rising, and node.
    pub(crate) between: Vec<Vec<(f64, usize)>>,
    /// For each node, whether it stands on the ground.
    pub(crate) grounded: Vec<bool>,
    /// For each wire, the straight line of one radius that it is part of.
    pub(crate) lines: Vec<Line>,
}

/// A straight line of one radius, over which the exact kernel of the tube applies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct Line {
    pub(crate) number: usize,
    /// Whether it stands upright on the ground, so that it runs on into its own image.
    pub(crate) standing: bool,
}

/// How far two wires may be drawn apart and still count as joined: the radius of the thinner, which is metal in metal, and
/// never less than 1e-4 of the shortest segment, for files that round.
fn reach_m(model: &WireModel, a: usize, b: usize, join_m: f64) -> f64 {
    join_m.max(model.wires[a].radius_m.min(model.wires[b].radius_m))
}

/// How closely a wire end must be drawn to the ground to stand on it, and the least that counts as joined anywhere: 1e-4 of
/// the shortest segment.
pub(crate) fn join_distance_m(model: &WireModel) -> f64 {
    let shortest =
        (0..model.wires.len()).map(|i| model.wires[i].length_m() / cuts::segments_of(model, i) as f64);
    1e-4 * shortest.fold(f64::INFINITY, f64::min)
}

impl Joints {
    /// Finds them all.
    pub(crate) fn of(model: &WireModel) -> Self {
        let join_m = join_distance_m(model);
        let sorted = Sorted::new(model);
        let mut groups = Groups::new(2 * model.wires.len());
        join_ends(model, &sorted, join_m, &mut groups);
        let mut on_side = ends_on_sides(model, &sorted, join_m, &mut groups);
        for (wire, found) in on_side.iter_mut().enumerate() {
            found.sort_by(|a, b| a.0.total_cmp(&b.0));
            // Ends that land side by side on one wire are joined to each other through it.
            for pair in found.windows(2) {
                let apart_m = (pair[1].0 - pair[0].0) * model.wires[wire].length_m();
                if apart_m < reach_m(model, pair[0].1 / 2, pair[1].1 / 2, join_m) {
                    groups.join(pair[0].1, pair[1].1);
                }
            }
        }
        let (nodes, count) = groups.numbered();
        let ends: Vec<[usize; 2]> = nodes.chunks(2).map(|pair| [pair[0], pair[1]]).collect();
        let between = on_side
            .iter()
            .map(|found| {
                let mut at: Vec<(f64, usize)> = found.iter().map(|(t, end)| (*t, nodes[*end])).collect();
                at.dedup_by_key(|(_, node)| *node);
                at
            })
            .collect();
        let mut grounded = vec![false; count];
        if model.ground == Ground::Perfect {
            for (point, node) in sorted.points.iter().zip(&nodes) {
                grounded[*node] |= point[2].abs() <= join_m;
            }
        }
        let lines = lines_of(model, &ends, &grounded, join_m);
        Self {
            ends,
            between,
            grounded,
            lines,
        }
    }

    /// Where a wire meets a node, if it does: 0 its start, 1 its end, else between.
    pub(crate) fn place_on(&self, wire: usize, node: usize) -> Option<f64> {
        let [start, end] = self.ends[wire];
        if node == start {
            return Some(0.0);
        }
        if node == end {
            return Some(1.0);
        }
        self.between[wire].iter().find(|b| b.1 == node).map(|b| b.0)
    }

    /// The nodes that two wires share: none, one, or more when they lie on one another.
    pub(crate) fn shared(&self, a: usize, b: usize) -> Vec<usize> {
        let mut shared: Vec<usize> = self.ends[a]
            .iter()
            .chain(self.between[a].iter().map(|(_, node)| node))
            .copied()
            .filter(|node| self.place_on(b, *node).is_some())
            .collect();
        shared.dedup();
        shared
    }
}

/// Wire ends sorted along a direction in which no usual structure repeats, so that neighbours stand next to each other.
struct Sorted {
    points: Vec<Point>,
    order: Vec<usize>,
    heights: Vec<f64>,
}

fn height(p: Point) -> f64 {
    dot(p, [0.577_215, 0.311_7, 0.759_8])
}

impl Sorted {
    fn new(model: &WireModel) -> Self {
        let points: Vec<Point> = model.wires.iter().flat_map(|w| [w.start_m, w.end_m]).collect();
        let mut order: Vec<usize> = (0..points.len()).collect();
        order.sort_by(|a, b| height(points[*a]).total_cmp(&height(points[*b])));
        let heights = order.iter().map(|i| height(points[*i])).collect();
        Self {
            points,
            order,
            heights,
        }
    }

    /// The ends whose height lies between two, and a little beyond.
    fn within(&self, low: f64, high: f64, margin: f64) -> &[usize] {
        let from = self.heights.partition_point(|h| *h < low - 1.01 * margin);
        let to = self.heights.partition_point(|h| *h <= high + 1.01 * margin);
        &self.order[from..to.max(from)]
    }
}

fn join_ends(model: &WireModel, sorted: &Sorted, join_m: f64, groups: &mut Groups) {
    for (a, point) in sorted.points.iter().enumerate() {
        let h = height(*point);
        for &b in sorted.within(h, h, join_m.max(model.wires[a / 2].radius_m)) {
            if b > a
                && distance(*point, sorted.points[b]) <= reach_m(model, a / 2, b / 2, join_m)
                && b / 2 != a / 2
            {
                groups.join(a, b);
            }
        }
    }
}

/// For each wire the ends of others that lie on its side, with the fraction where.
fn ends_on_sides(
    model: &WireModel,
    sorted: &Sorted,
    join_m: f64,
    groups: &mut Groups,
) -> Vec<Vec<(f64, usize)>> {
    let mut found = vec![Vec::new(); model.wires.len()];
    for (index, wire) in model.wires.iter().enumerate() {
        let (a, b) = (height(wire.start_m), height(wire.end_m));
        let span = sub(wire.end_m, wire.start_m);
        let length_m = length(span);
        let own = [groups.of(2 * index), groups.of(2 * index + 1)];
        for &end in sorted.within(a.min(b), a.max(b), join_m.max(wire.radius_m)) {
            let reach_m = reach_m(model, index, end / 2, join_m);
            let fraction = dot(sub(sorted.points[end], wire.start_m), span) / (length_m * length_m);
            let from_end_m = fraction.min(1.0 - fraction) * length_m;
            if from_end_m < reach_m || own.contains(&groups.of(end)) {
                continue;
            }
            let foot = along(wire.start_m, wire.end_m, fraction);
            if distance(foot, sorted.points[end]) <= reach_m {
                found[index].push((fraction, end));
            }
        }
    }
    found
}

/// Wires of one radius that carry on in the same direction through a node share a line.
fn lines_of(model: &WireModel, ends: &[[usize; 2]], grounded: &[bool], join_m: f64) -> Vec<Line> {
    let mut at: Vec<Vec<(usize, Point, Point)>> = vec![Vec::new(); grounded.len()];
    for (index, wire) in model.wires.iter().enumerate() {
        let u = scale(sub(wire.end_m, wire.start_m), 1.0 / wire.length_m());
        at[ends[index][0]].push((index, u, wire.start_m));
        at[ends[index][1]].push((index, scale(u, -1.0), wire.end_m));
    }
    let mut groups = Groups::new(model.wires.len());
    for meeting in &at {
        for (i, (a, u, p)) in meeting.iter().enumerate() {
            for (b, v, q) in &meeting[i + 1..] {
                let straight = dot(*u, *v) < -1.0 + 1e-9 && distance(*p, *q) <= join_m;
                if straight && (model.wires[*a].radius_m - model.wires[*b].radius_m).abs() < 1e-12 {
                    groups.join(*a, *b);
                }
            }
        }
    }
    let mut standing = vec![false; model.wires.len()];
    for (_, meeting) in at.iter().enumerate().filter(|(node, _)| grounded[*node]) {
        for (index, u, _) in meeting {
            standing[groups.of(*index)] |= u[2] > 1.0 - 1e-9;
        }
    }
    let line = |wire| {
        let number = groups.of(wire);
        Line {
            number,
            standing: standing[number],
        }
    };
    (0..model.wires.len()).map(line).collect()
}

/// Disjoint sets.
pub(crate) struct Groups(Vec<usize>);

impl Groups {
    pub(crate) fn new(n: usize) -> Self {
        Self((0..n).collect())
    }

    pub(crate) fn of(&mut self, mut i: usize) -> usize {
        while self.0[i] != i {
            self.0[i] = self.0[self.0[i]];
            i = self.0[i];
        }
        i
    }

    pub(crate) fn join(&mut self, a: usize, b: usize) {
        let (a, b) = (self.of(a), self.of(b));
        self.0[b.max(a)] = a.min(b);
    }

    /// Numbers the sets from 0 in the order of their first members; and how many there are.
    fn numbered(&mut self) -> (Vec<usize>, usize) {
        let mut count = 0;
        let mut numbers = vec![0; self.0.len()];
        for i in 0..self.0.len() {
            let first = self.of(i);
            if first == i {
                numbers[i] = count;
                count += 1;
            } else {
                numbers[i] = numbers[first];
            }
        }
        (numbers, count)
    }
}
