//! Land carved by its own rivers: the steady state of uplift against stream erosion on a lattice.
//!
//! Every node drains to its steepest lower neighbour; the slope there is uplift ÷ √(area drained), no steeper than loose
//! rock stands. Solving the tree from its outlets upward and letting it find steeper ways a few times gives branching
//! valleys and sharp divides.
//!
//! # Source
//! Stream-power law with m = 1/2, n = 1 (common in geomorphology; form from memory [M]). The land is invented in any case.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

use super::lattice::Lattice;
use super::noise::Noise;

/// What the rivers start from.
pub(super) struct Uplands<'a> {
    /// Size and spacing.
    pub lattice: Lattice,
    /// Height of nodes that are sea or valley floor, m; NaN where the land is to be found.
    pub outlets: &'a [f64],
    /// Uplift of every node, as the slope × √km of a river.
    pub uplift: &'a [f64],
    /// How fast rivers flatten downstream.
    pub flatten: Flatten,
    /// Steepest slope, m per m.
    pub steepest: f64,
    /// Rounds of finding steeper ways.
    pub rounds: u32,
    /// Seed of the first, random, tree.
    pub noise: Noise,
}

/// Power of the drained area by which slope falls.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Flatten {
    /// √A: long profiles of mountain rivers.
    Root,
    /// A^¾: flat rivers, local hills.
    ThreeQuarters,
}

const NOWHERE: u32 = u32::MAX;

/// Offsets to the neighbours; each odd one is the reverse of the one before.
const NEIGHBOURS: [(i64, i64); 8] = [
    (1, 0),
    (-1, 0),
    (0, 1),
    (0, -1),
    (1, 1),
    (-1, -1),
    (1, -1),
    (-1, 1),
];

/// Heights of all nodes, m.
pub(super) fn carve(uplands: &Uplands) -> Vec<f64> {
    let web = Web::new(uplands);
    let mut tree = first_tree(uplands, &web);
    let mut heights = solve(uplands, &web, &tree);
    for _ in 0..uplands.rounds {
        tree = steepest_ways(&web, &heights, &tree);
        heights = solve(uplands, &web, &tree);
    }
    soften_scarps(uplands, &web, &mut heights);
    heights
}

/// Every node's neighbours and the way to each, km.
///
/// The ways are stretched at random, each pair alike in both directions, so that rivers do not follow the lattice.
struct Web {
    ways: Vec<[Way; 8]>,
}

#[derive(Clone, Copy)]
struct Way {
    to: u32,
    run_km: f32,
    straight_km: f32,
}

const NO_WAY: Way = Way {
    to: NOWHERE,
    run_km: 1.0,
    straight_km: 1.0,
};

impl Web {
    fn new(uplands: &Uplands) -> Self {
        let lattice = &uplands.lattice;
        let mut ways = vec![[NO_WAY; 8]; lattice.len()];
        for node in 0..lattice.len() {
            let (i, j) = lattice.place(node);
            for (k, &(di, dj)) in NEIGHBOURS.iter().enumerate().step_by(2) {
                let Some(to) = lattice.node(i + di, j + dj) else {
                    continue;
                };
                let steps = if di == 0 || dj == 0 {
                    1.0
                } else {
                    std::f64::consts::SQRT_2
                };
                let straight_km = steps * lattice.step_km;
                let jitter = uplands.noise.dice(2 * i + di, 1_000_003 + 2 * j + dj) - 0.5;
                let way = Way {
                    to: to as u32,
                    run_km: (straight_km * (1.0 + 0.7 * jitter)) as f32,
                    straight_km: straight_km as f32,
                };
                ways[node][k] = way;
                ways[to][k + 1] = Way {
                    to: node as u32,
                    ..way
                };
            }
        }
        Self { ways }
    }

    fn from(&self, node: usize) -> impl Iterator<Item = &Way> {
        self.ways[node].iter().filter(|way| way.to != NOWHERE)
    }

    fn run_km(&self, node: usize, to: u32) -> f64 {
        self.from(node)
            .find(|way| way.to == to)
            .map_or(1.0, |way| f64::from(way.run_km))
    }
}

/// Cuts the steps that remain between neighbouring basins: no node stands above a neighbour by more than the steepest slope.
fn soften_scarps(uplands: &Uplands, web: &Web, heights: &mut [f64]) {
    let mut cut = |node: usize| {
        if uplands.outlets[node].is_nan() {
            for way in web.from(node) {
                let highest =
                    heights[way.to as usize] + uplands.steepest * 1000.0 * f64::from(way.straight_km);
                heights[node] = heights[node].min(highest);
            }
        }
    };
    for _ in 0..2 {
        (0..uplands.lattice.len()).for_each(&mut cut);
        (0..uplands.lattice.len()).rev().for_each(&mut cut);
    }
}

/// Receivers, and the nodes in an order that visits each receiver before its donors.
struct Tree {
    receivers: Vec<u32>,
    order: Vec<u32>,
}

/// Floods inward from the outlets over random ground, lowest first: a branching tree that reaches every node.
fn first_tree(uplands: &Uplands, web: &Web) -> Tree {
    let lattice = &uplands.lattice;
    let key = |node: usize| {
        let (i, j) = lattice.place(node);
        let (x, y) = (i as f64 * 0.07, j as f64 * 0.07);
        let rough = uplands.noise.octaves(x, y, 3, 0.6) + 0.35 * uplands.noise.dice(i, j);
        ((rough + 4.0) * (1u64 << 40) as f64) as u64
    };
    let mut receivers = vec![NOWHERE; lattice.len()];
    let mut reached: Vec<bool> = uplands.outlets.iter().map(|h| !h.is_nan()).collect();
    let mut order: Vec<u32> = (0..lattice.len() as u32)
        .filter(|&n| reached[n as usize])
        .collect();
    let mut shore = BinaryHeap::new();
    let mut look_round = |node: u32, level: u64, shore: &mut BinaryHeap<_>| {
        for way in web.from(node as usize) {
            let next = way.to as usize;
            if !reached[next] {
                reached[next] = true;
                receivers[next] = node;
                shore.push(Reverse((key(next).max(level), way.to)));
            }
        }
    };
    for &node in &order {
        look_round(node, 0, &mut shore);
    }
    while let Some(Reverse((level, node))) = shore.pop() {
        order.push(node);
        look_round(node, level, &mut shore);
    }
    Tree { receivers, order }
}

/// Every node to its steepest lower neighbour (or its old receiver where none is lower).
fn steepest_ways(web: &Web, heights: &[f64], before: &Tree) -> Tree {
    let mut receivers = before.receivers.clone();
    let mut donors = vec![0u32; heights.len() + 1];
    for node in 0..heights.len() {
        if before.receivers[node] == NOWHERE {
            continue;
        }
        let mut steepest = 0.0;
        for way in web.from(node) {
            let slope = (heights[node] - heights[way.to as usize]) / f64::from(way.run_km);
            if slope > steepest {
                (steepest, receivers[node]) = (slope, way.to);
            }
        }
        donors[receivers[node] as usize + 1] += 1;
    }
    let order = from_outlets_up(&receivers, donors);
    Tree { receivers, order }
}

fn from_outlets_up(receivers: &[u32], mut starts: Vec<u32>) -> Vec<u32> {
    for k in 1..starts.len() {
        starts[k] += starts[k - 1];
    }
    let mut slots = starts.clone();
    let mut donors = vec![0u32; receivers.len()];
    for (node, &receiver) in receivers.iter().enumerate().filter(|(_, r)| **r != NOWHERE) {
        let slot = &mut slots[receiver as usize];
        donors[*slot as usize] = node as u32;
        *slot += 1;
    }
    let mut order: Vec<u32> = (0..receivers.len() as u32)
        .filter(|&n| receivers[n as usize] == NOWHERE)
        .collect();
    let mut next = 0;
    while next < order.len() {
        let node = order[next] as usize;
        order.extend_from_slice(&donors[starts[node] as usize..starts[node + 1] as usize]);
        next += 1;
    }
    order
}

fn solve(uplands: &Uplands, web: &Web, tree: &Tree) -> Vec<f64> {
    let cell_km2 = uplands.lattice.step_km * uplands.lattice.step_km;
    let mut area_km2 = vec![cell_km2; uplands.lattice.len()];
    for &node in tree.order.iter().rev() {
        let receiver = tree.receivers[node as usize];
        if receiver != NOWHERE {
            area_km2[receiver as usize] += area_km2[node as usize];
        }
    }
    let flatten = |area_km2: f64| match uplands.flatten {
        Flatten::Root => area_km2.sqrt(),
        Flatten::ThreeQuarters => area_km2.sqrt() * area_km2.sqrt().sqrt(),
    };
    let mut heights = uplands.outlets.to_vec();
    for &node in &tree.order {
        let (node, receiver) = (node as usize, tree.receivers[node as usize]);
        if receiver != NOWHERE {
            let slope = (uplands.uplift[node] / flatten(area_km2[node])).min(uplands.steepest);
            heights[node] = heights[receiver as usize] + slope * 1000.0 * web.run_km(node, receiver);
        }
    }
    heights
}
