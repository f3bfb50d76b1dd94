//! Wires cut into segments, ends joined at nodes, and the triangular currents that live there.

use super::check::WireFault;
use super::geometry::{WireEnds, WireModel};
use super::rotation::{self, Rotation, Search};
use super::vector::{Point, add, along, distance, dot, scale, sub};

/// Segments per wavelength on elements and on all others (convergence study of the method's note: triangles need about
/// twice the segments of a three-term basis for the same reactance).
const ELEMENT_PER_WAVELENGTH: f64 = 80.0;
const OTHER_PER_WAVELENGTH: f64 = 20.0;
/// Shortest segment chosen unasked, in radii.
const LEAST_RADII: f64 = 4.0;
/// A wire by itself of this length may resonate, so it is cut like a fed one: a yagi's rods must agree with each other.
const ELEMENT_WAVELENGTHS: std::ops::Range<f64> = 0.2..0.75;
/// However few the file asks for, no segment is longer than λ/8: beyond it a straight current is no description.
const LEAST_PER_WAVELENGTH: f64 = 8.0;
/// Largest number of unknowns accepted: 12 000 need 2.3 GB.
const MOST_UNKNOWNS: usize = 12_000;

/// One straight piece with a current that runs linearly from its start to its end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Segment {
    /// Start, metres.
    pub start_m: Point,
    /// Unit vector from start to end.
    pub direction: Point,
    /// Length, metres.
    pub length_m: f64,
    /// Radius, metres.
    pub radius_m: f64,
    /// Index of the wire it was cut from.
    pub wire: usize,
    /// Segments of one straight line of one radius share this number; within it the exact kernel applies.
    pub line: usize,
}

/// One half of a triangular current: on `segment`, reaching its peak at `end` (0 start, 1 end), with `sign` times unit
/// current along the segment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Half {
    /// Segment.
    pub segment: usize,
    /// 0 start, 1 end.
    pub end: usize,
    /// +1 or −1.
    pub sign: f64,
}

/// Where a port or load acts: an unknown, and the sign of the wire's direction in it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tap {
    /// Unknown.
    pub unknown: usize,
    /// +1 or −1.
    pub sign: f64,
}

/// The antenna cut to pieces. Segments and unknowns of a part that repeats round its axis come first, sector by sector.
#[derive(Clone, Debug)]
pub struct Mesh {
    /// All segments.
    pub segments: Vec<Segment>,
    /// The unknowns: each pairs two halves at one node.
    pub unknowns: Vec<[Half; 2]>,
    /// Unknowns (and signs) that live on half `2·segment + end`.
    pub on_half: Vec<Vec<(usize, f64)>>,
    /// One for each port of the model.
    pub ports: Vec<Tap>,
    /// One for each load of the model.
    pub loads: Vec<Tap>,
    /// The part that repeats.
    pub rotation: Rotation,
}

/// How closely wire ends must agree to be joined: 1e-4 of the shortest segment.
pub fn join_distance_m(model: &WireModel) -> f64 {
    let shortest = (0..model.wires.len()).map(|i| model.wires[i].length_m() / segments_of(model, i) as f64);
    1e-4 * shortest.fold(f64::INFINITY, f64::min)
}

/// Number of segments the mesh gives a wire.
pub fn segments_of(model: &WireModel, wire: usize) -> usize {
    cuts_of(model, wire).len() - 1
}

/// Fractions at which a wire is cut, from 0 to 1, with a node at every port and load.
fn cuts_of(model: &WireModel, wire: usize) -> Vec<f64> {
    let w = &model.wires[wire];
    let wavelengths = w.length_m() / model.wavelength_m();
    let element =
        model.is_fed(wire) || (ELEMENT_WAVELENGTHS.contains(&wavelengths) && stands_alone(model, wire));
    let fine = |per: f64| {
        (wavelengths * per)
            .ceil()
            .min((w.length_m() / (LEAST_RADII * w.radius_m)).floor()) as usize
    };
    let own = if element {
        fine(ELEMENT_PER_WAVELENGTH)
    } else {
        (wavelengths * LEAST_PER_WAVELENGTH).ceil() as usize
    };
    let least = w
        .segments
        .unwrap_or_else(|| fine(OTHER_PER_WAVELENGTH))
        .max(own)
        .max(1);
    let ports = model.ports.iter().filter(|p| p.wire == wire).map(|p| p.position);
    let loads = model.loads.iter().filter(|l| l.wire == wire).map(|l| l.position);
    let mut taps: Vec<f64> = ports
        .chain(loads)
        .filter(|p| *p > 1e-9 && *p < 1.0 - 1e-9)
        .collect();
    taps.sort_by(f64::total_cmp);
    taps.dedup_by(|a, b| (*a - *b).abs() < 1e-9);
    let even = |n: &usize| {
        taps.iter()
            .all(|p| (p * *n as f64 - (p * *n as f64).round()).abs() < 1e-6)
    };
    if let Some(n) = (least..=2 * least + 4).find(even) {
        return (0..=n).map(|i| i as f64 / n as f64).collect();
    }
    uneven_cuts(&taps, least)
}

/// Whether no other wire shares an end with this one.
fn stands_alone(model: &WireModel, wire: usize) -> bool {
    let w = &model.wires[wire];
    let near = 1e-3 * w.length_m();
    let touches = |o: &super::Wire| {
        [o.start_m, o.end_m]
            .iter()
            .any(|p| distance(*p, w.start_m) < near || distance(*p, w.end_m) < near)
    };
    model
        .wires
        .iter()
        .enumerate()
        .all(|(i, o)| i == wire || !touches(o))
}

fn uneven_cuts(taps: &[f64], least: usize) -> Vec<f64> {
    let mut cuts = vec![0.0];
    for stop in taps.iter().copied().chain([1.0]) {
        let from = cuts[cuts.len() - 1];
        let pieces = ((stop - from) * least as f64).ceil().max(1.0) as usize;
        cuts.extend((1..=pieces).map(|i| from + (stop - from) * i as f64 / pieces as f64));
    }
    cuts
}

/// Cuts, joins and numbers.
///
/// # Errors
/// A port or load at a free end or at a junction of three; too many unknowns.
pub fn mesh(model: &WireModel) -> Result<Mesh, WireFault> {
    mesh_for(model, Search::Repeating)
}

pub(crate) fn mesh_for(model: &WireModel, search: Search) -> Result<Mesh, WireFault> {
    let draft = Draft::new(model);
    let rotation = rotation::find(&draft, model, search);
    draft.numbered(model, rotation)
}

/// Segments in the order of the wires, and the node at each of their ends.
pub(crate) struct Draft {
    pub(crate) segments: Vec<Segment>,
    /// Node of each half.
    pub(crate) nodes: Vec<[usize; 2]>,
    pub(crate) node_at: Vec<Point>,
    /// Halves meeting at each node.
    pub(crate) at_node: Vec<Vec<(usize, usize)>>,
    cuts: Vec<Vec<f64>>,
    first_segment: Vec<usize>,
}

impl Draft {
    fn new(model: &WireModel) -> Self {
        let cuts: Vec<_> = (0..model.wires.len()).map(|w| cuts_of(model, w)).collect();
        let end_node = joined_ends(model);
        let node_count = end_node.iter().flatten().max().map_or(0, |n| n + 1);
        let mut draft = Self {
            segments: Vec::new(),
            nodes: Vec::new(),
            node_at: vec![[0.0; 3]; node_count],
            at_node: vec![Vec::new(); node_count],
            cuts: Vec::new(),
            first_segment: Vec::new(),
        };
        let lines = lines_of(model, &end_node, node_count);
        for (index, cut) in cuts.iter().enumerate() {
            draft.cut_wire(model, index, cut, end_node[index], lines[index]);
        }
        draft.cuts = cuts;
        if model.ends == WireEnds::Closed {
            draft.close_ends();
        }
        draft
    }

    fn cut_wire(&mut self, model: &WireModel, index: usize, cut: &[f64], ends: [usize; 2], line: usize) {
        let wire = &model.wires[index];
        let direction = scale(sub(wire.end_m, wire.start_m), 1.0 / wire.length_m());
        self.first_segment.push(self.segments.len());
        let mut node = ends[0];
        self.node_at[ends[0]] = wire.start_m;
        self.node_at[ends[1]] = wire.end_m;
        for piece in cut.windows(2) {
            let last = piece[1] >= 1.0;
            let next = if last { ends[1] } else { self.node_at.len() };
            if !last {
                self.node_at.push(along(wire.start_m, wire.end_m, piece[1]));
                self.at_node.push(Vec::new());
            }
            let segment = self.segments.len();
            self.segments.push(Segment {
                start_m: along(wire.start_m, wire.end_m, piece[0]),
                direction,
                length_m: wire.length_m() * (piece[1] - piece[0]),
                radius_m: wire.radius_m,
                wire: index,
                line,
            });
            self.nodes.push([node, next]);
            self.at_node[node].push((segment, 0));
            self.at_node[next].push((segment, 1));
            node = next;
        }
    }

    fn close_ends(&mut self) {
        for halves in &self.at_node {
            let [(segment, end)] = halves[..] else { continue };
            let s = &mut self.segments[segment];
            let more = 0.5 * s.radius_m;
            if end == 0 {
                s.start_m = add(s.start_m, scale(s.direction, -more));
            }
            s.length_m += more;
        }
    }

    fn numbered(self, model: &WireModel, mut rotation: Rotation) -> Result<Mesh, WireFault> {
        let place = rotation.new_place(self.segments.len());
        let mut segments = self.segments.clone();
        for (old, s) in self.segments.iter().enumerate() {
            segments[place[old].segment] = place[old].oriented(*s);
        }
        let mut unknowns = Vec::new();
        for node in rotation.node_order(self.node_at.len()) {
            // Every sector pairs the images of the same halves, so that the sectors' unknowns correspond.
            let halves = rotation.halves_at(node, &self.at_node);
            for other in halves.iter().skip(1) {
                unknowns.push(pair_of(
                    place[halves[0].0].half(halves[0].1),
                    place[other.0].half(other.1),
                ));
            }
        }
        if unknowns.len() > MOST_UNKNOWNS {
            return Err(WireFault::TooLarge {
                unknowns: unknowns.len(),
                most: MOST_UNKNOWNS,
            });
        }
        let mut on_half = vec![Vec::new(); 2 * segments.len()];
        for (index, pair) in unknowns.iter().enumerate() {
            for half in pair {
                on_half[2 * half.segment + half.end].push((index, half.sign));
            }
        }
        let tap =
            |what, index, wire, position| self.tap(model, &place, &on_half, (what, index), (wire, position));
        let ports = model
            .ports
            .iter()
            .enumerate()
            .map(|(i, p)| tap("source", i, p.wire, p.position))
            .collect::<Result<_, _>>()?;
        let loads = model
            .loads
            .iter()
            .enumerate()
            .map(|(i, l)| tap("load", i, l.wire, l.position))
            .collect::<Result<_, _>>()?;
        rotation.unknowns = rotation.in_each_sector(&unknowns);
        Ok(Mesh {
            segments,
            unknowns,
            on_half,
            ports,
            loads,
            rotation,
        })
    }

    fn tap(
        &self,
        model: &WireModel,
        place: &[rotation::Place],
        on_half: &[Vec<(usize, f64)>],
        (what, index): (&'static str, usize),
        (wire, position): (usize, f64),
    ) -> Result<Tap, WireFault> {
        let cuts = &self.cuts[wire];
        let nearest = |a: &usize, b: &usize| {
            (cuts[*a] - position)
                .abs()
                .total_cmp(&(cuts[*b] - position).abs())
        };
        let cut = (0..cuts.len()).min_by(nearest).unwrap_or(0);
        let (old, end) = if cut == 0 {
            (self.first_segment[wire], 0)
        } else {
            (self.first_segment[wire] + cut - 1, 1)
        };
        let meeting = self.at_node[self.nodes[old][end]].len();
        let name = model.wires[wire].name.clone();
        match meeting {
            1 => Err(WireFault::FreeEnd {
                what,
                index,
                wire: name,
            }),
            2 => {
                let (segment, end) = place[old].half(end);
                let (unknown, sign) = on_half[2 * segment + end][0];
                Ok(Tap {
                    unknown,
                    sign: if place[old].reversed { -sign } else { sign },
                })
            }
            _ => Err(WireFault::Junction {
                what,
                index,
                wire: name,
                others: meeting - 1,
            }),
        }
    }
}

/// The triangular current that runs in through the first half and out through the second.
fn pair_of(first: (usize, usize), second: (usize, usize)) -> [Half; 2] {
    let sign_in = if first.1 == 1 { 1.0 } else { -1.0 };
    let sign_out = if second.1 == 0 { 1.0 } else { -1.0 };
    [
        Half {
            segment: first.0,
            end: first.1,
            sign: sign_in,
        },
        Half {
            segment: second.0,
            end: second.1,
            sign: sign_out,
        },
    ]
}

/// Node number of each wire's two ends, ends within the joining distance sharing one.
fn joined_ends(model: &WireModel) -> Vec<[usize; 2]> {
    let tolerance = join_distance_m(model);
    let points: Vec<Point> = model.wires.iter().flat_map(|w| [w.start_m, w.end_m]).collect();
    // Sorted along a direction in which no usual structure repeats, candidates stand next to each other.
    let height = |p: &Point| dot(*p, [0.577_215, 0.311_7, 0.759_8]);
    let mut order: Vec<usize> = (0..points.len()).collect();
    order.sort_by(|a, b| height(&points[*a]).total_cmp(&height(&points[*b])));
    let mut node = vec![usize::MAX; points.len()];
    let mut count = 0;
    for (rank, &a) in order.iter().enumerate() {
        if node[a] != usize::MAX {
            continue;
        }
        node[a] = count;
        for &b in order[rank + 1..]
            .iter()
            .take_while(|b| height(&points[**b]) - height(&points[a]) <= tolerance)
        {
            if node[b] == usize::MAX && distance(points[a], points[b]) <= tolerance {
                node[b] = count;
            }
        }
        count += 1;
    }
    node.chunks(2).map(|pair| [pair[0], pair[1]]).collect()
}

/// Straight lines: wires of one radius that carry on in the same direction through a node share a number.
fn lines_of(model: &WireModel, end_node: &[[usize; 2]], nodes: usize) -> Vec<usize> {
    let mut at: Vec<Vec<(usize, Point)>> = vec![Vec::new(); nodes];
    for (index, wire) in model.wires.iter().enumerate() {
        let u = scale(sub(wire.end_m, wire.start_m), 1.0 / wire.length_m());
        at[end_node[index][0]].push((index, u));
        at[end_node[index][1]].push((index, scale(u, -1.0)));
    }
    let mut group = Groups::new(model.wires.len());
    for meeting in &at {
        for (i, (a, u)) in meeting.iter().enumerate() {
            for (b, v) in &meeting[i + 1..] {
                let straight = dot(*u, *v) < -1.0 + 1e-9;
                if straight && (model.wires[*a].radius_m - model.wires[*b].radius_m).abs() < 1e-12 {
                    group.join(*a, *b);
                }
            }
        }
    }
    (0..model.wires.len()).map(|w| group.of(w)).collect()
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
}
