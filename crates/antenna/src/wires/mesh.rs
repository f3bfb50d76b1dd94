//! Wires cut into segments, ends joined at nodes, and the triangular currents that live there.

use super::cuts::{MOST_UNKNOWNS, cuts_of};
use super::fault::WireFault;
use super::geometry::{WireEnds, WireModel};
use super::joints::Joints;
use super::rotation::{self, Rotation, Search};
use super::vector::{Point, add, along, scale, sub};

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
    /// Whether that line stands upright on the ground, so that the exact kernel applies to its image, too.
    pub standing: bool,
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

/// A triangular current: in through the first half and out through the second. Without a second it comes out of the ground
/// and goes on in its image there.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Triangle {
    /// The half it comes in by, or that stands on the ground.
    pub first: Half,
    /// The half it goes out by.
    pub second: Option<Half>,
}

impl Triangle {
    fn over(first: (usize, usize), second: (usize, usize)) -> Self {
        Self {
            first: Half::new(first, if first.1 == 1 { 1.0 } else { -1.0 }),
            second: Some(Half::outward(second)),
        }
    }

    fn out_of_the_ground(half: (usize, usize)) -> Self {
        Self {
            first: Half::outward(half),
            second: None,
        }
    }

    /// One half or both.
    pub fn halves(&self) -> impl Iterator<Item = Half> {
        std::iter::once(self.first).chain(self.second)
    }
}

impl Half {
    fn new((segment, end): (usize, usize), sign: f64) -> Self {
        Self { segment, end, sign }
    }

    /// With a current that leaves the node.
    fn outward(half: (usize, usize)) -> Self {
        Self::new(half, if half.1 == 0 { 1.0 } else { -1.0 })
    }
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
    /// The unknowns.
    pub unknowns: Vec<Triangle>,
    /// Unknowns (and signs) that live on half `2·segment + end`.
    pub on_half: Vec<Vec<(usize, f64)>>,
    /// One for each port of the model.
    pub ports: Vec<Tap>,
    /// One for each load of the model.
    pub loads: Vec<Tap>,
    /// The part that repeats.
    pub rotation: Rotation,
}

/// Cuts, joins and numbers.
///
/// # Errors
/// A port or load at a free end or at a junction of three; too many unknowns.
pub fn mesh(model: &WireModel) -> Result<Mesh, WireFault> {
    mesh_for(model, &Joints::of(model), Search::Repeating)
}

impl Mesh {
    /// The part that repeats by itself.
    pub(crate) fn repeating_part(&self) -> Self {
        let segments = self.rotation.all_segments();
        Self {
            segments: self.segments[..segments].to_vec(),
            unknowns: self.unknowns[..self.rotation.all_unknowns()].to_vec(),
            on_half: self.on_half[..2 * segments].to_vec(),
            ports: Vec::new(),
            loads: Vec::new(),
            rotation: self.rotation.clone(),
        }
    }

    /// With others beside it, which nothing joins.
    pub(crate) fn with(&self, others: &Self) -> Self {
        let mut all = self.clone();
        let (segments, unknowns) = (self.segments.len(), self.unknowns.len());
        let lines = self.segments.iter().map(|s| s.line + 1).max().unwrap_or(0);
        all.segments.extend(others.segments.iter().map(|s| Segment {
            line: s.line + lines,
            ..*s
        }));
        let moved = |half: Half| Half {
            segment: half.segment + segments,
            ..half
        };
        all.unknowns.extend(others.unknowns.iter().map(|t| Triangle {
            first: moved(t.first),
            second: t.second.map(moved),
        }));
        let of_half = |list: &Vec<(usize, f64)>| list.iter().map(|(u, sign)| (u + unknowns, *sign)).collect();
        all.on_half.extend(others.on_half.iter().map(of_half));
        let tap = |t: &Tap| Tap {
            unknown: t.unknown + unknowns,
            ..*t
        };
        all.ports.extend(others.ports.iter().map(tap));
        all.loads.extend(others.loads.iter().map(tap));
        all
    }
}

pub(crate) fn mesh_for(model: &WireModel, joints: &Joints, search: Search) -> Result<Mesh, WireFault> {
    let draft = Draft::new(model, joints);
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
    grounded: Vec<bool>,
    cuts: Vec<Vec<f64>>,
    first_segment: Vec<usize>,
}

impl Draft {
    fn new(model: &WireModel, joints: &Joints) -> Self {
        let nodes = joints.grounded.len();
        let mut draft = Self {
            segments: Vec::new(),
            nodes: Vec::new(),
            node_at: vec![[0.0; 3]; nodes],
            at_node: vec![Vec::new(); nodes],
            grounded: joints.grounded.clone(),
            cuts: Vec::new(),
            first_segment: Vec::new(),
        };
        for index in 0..model.wires.len() {
            draft.cut_wire(model, index, joints);
        }
        if model.ends == WireEnds::Closed {
            draft.close_ends();
        }
        draft
    }

    fn cut_wire(&mut self, model: &WireModel, index: usize, joints: &Joints) {
        let wire = &model.wires[index];
        let direction = scale(sub(wire.end_m, wire.start_m), 1.0 / wire.length_m());
        let ends = joints.ends[index];
        self.first_segment.push(self.segments.len());
        self.node_at[ends[0]] = wire.start_m;
        self.node_at[ends[1]] = wire.end_m;
        let cuts = cuts_of(model, index, &joints.between[index]);
        let mut node_of_cut = vec![None; cuts.len()];
        node_of_cut[0] = Some(ends[0]);
        node_of_cut[cuts.len() - 1] = Some(ends[1]);
        for (fraction, node) in &joints.between[index] {
            node_of_cut[nearest(&cuts, *fraction)] = Some(*node);
        }
        let mut node = ends[0];
        for (piece, at_end) in cuts.windows(2).zip(&node_of_cut[1..]) {
            let next = at_end.unwrap_or_else(|| {
                self.node_at.push(along(wire.start_m, wire.end_m, piece[1]));
                self.at_node.push(Vec::new());
                self.grounded.push(false);
                self.node_at.len() - 1
            });
            let segment = self.segments.len();
            self.segments.push(Segment {
                start_m: along(wire.start_m, wire.end_m, piece[0]),
                direction,
                length_m: wire.length_m() * (piece[1] - piece[0]),
                radius_m: wire.radius_m,
                wire: index,
                line: joints.lines[index].number,
                standing: joints.lines[index].standing,
            });
            self.nodes.push([node, next]);
            self.at_node[node].push((segment, 0));
            self.at_node[next].push((segment, 1));
            node = next;
        }
        self.cuts.push(cuts);
    }

    fn close_ends(&mut self) {
        for (halves, grounded) in self.at_node.iter().zip(&self.grounded) {
            let [(segment, end)] = halves[..] else { continue };
            if *grounded {
                continue;
            }
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
            let placed = halves.iter().map(|(segment, end)| place[*segment].half(*end));
            if self.grounded[node] {
                unknowns.extend(placed.map(Triangle::out_of_the_ground));
            } else if let Some(first) = placed.clone().next() {
                unknowns.extend(placed.skip(1).map(|other| Triangle::over(first, other)));
            }
        }
        if unknowns.len() > MOST_UNKNOWNS {
            return Err(WireFault::TooLarge {
                unknowns: unknowns.len(),
                most: MOST_UNKNOWNS,
            });
        }
        let mut on_half = vec![Vec::new(); 2 * segments.len()];
        for (index, triangle) in unknowns.iter().enumerate() {
            for half in triangle.halves() {
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
        let cut = nearest(cuts, position);
        let (old, end) = if cut == 0 {
            (self.first_segment[wire], 0)
        } else {
            (self.first_segment[wire] + cut - 1, 1)
        };
        let node = self.nodes[old][end];
        let meeting = self.at_node[node].len() + usize::from(self.grounded[node]);
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

/// The cut nearest to a fraction of the wire.
fn nearest(cuts: &[f64], fraction: f64) -> usize {
    let from = |cut: usize| (cuts[cut] - fraction).abs();
    (0..cuts.len())
        .min_by(|a, b| from(*a).total_cmp(&from(*b)))
        .unwrap_or(0)
}
