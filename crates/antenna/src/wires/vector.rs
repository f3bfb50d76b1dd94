//! Three-component vectors, as plain arrays.

/// A point or a vector in metres.
pub(crate) type Point = [f64; 3];

pub(crate) fn sub(a: Point, b: Point) -> Point {
    [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
}

pub(crate) fn add(a: Point, b: Point) -> Point {
    [a[0] + b[0], a[1] + b[1], a[2] + b[2]]
}

pub(crate) fn scale(a: Point, factor: f64) -> Point {
    [a[0] * factor, a[1] * factor, a[2] * factor]
}

pub(crate) fn dot(a: Point, b: Point) -> f64 {
    a[0] * b[0] + a[1] * b[1] + a[2] * b[2]
}

pub(crate) fn length(a: Point) -> f64 {
    dot(a, a).sqrt()
}

pub(crate) fn distance(a: Point, b: Point) -> f64 {
    length(sub(a, b))
}

pub(crate) fn along(a: Point, b: Point, fraction: f64) -> Point {
    add(a, scale(sub(b, a), fraction))
}

/// The point turned about a vertical axis through `(x, y)` by the angle whose sine and cosine are given.
pub(crate) fn turned(p: Point, axis: [f64; 2], (sin, cos): (f64, f64)) -> Point {
    let (x, y) = (p[0] - axis[0], p[1] - axis[1]);
    [axis[0] + x * cos - y * sin, axis[1] + x * sin + y * cos, p[2]]
}

/// Nearest approach of two straight pieces: distance, and the fraction along each where it happens.
pub(crate) fn nearest_approach(a: [Point; 2], b: [Point; 2]) -> (f64, f64, f64) {
    let (da, db, r) = (sub(a[1], a[0]), sub(b[1], b[0]), sub(a[0], b[0]));
    let (aa, bb, ab, ar, br) = (dot(da, da), dot(db, db), dot(da, db), dot(da, r), dot(db, r));
    let denominator = aa * bb - ab * ab;
    let mut s = if denominator > 1e-12 * aa * bb {
        ((ab * br - ar * bb) / denominator).clamp(0.0, 1.0)
    } else {
        0.0
    };
    let mut t = (ab * s + br) / bb;
    if !(0.0..=1.0).contains(&t) {
        t = t.clamp(0.0, 1.0);
        s = ((ab * t - ar) / aa).clamp(0.0, 1.0);
    }
    (distance(add(a[0], scale(da, s)), add(b[0], scale(db, t))), s, t)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn verif_nearest_approach_of_crossing_parallel_and_skew() {
        let x = [[-1.0, 0.0, 0.0], [1.0, 0.0, 0.0]];
        let (d, s, t) = nearest_approach(x, [[0.5, -1.0, 0.2], [0.5, 3.0, 0.2]]);
        assert!((d - 0.2).abs() < 1e-15 && (s - 0.75).abs() < 1e-15 && (t - 0.25).abs() < 1e-15);
        let (d, _, _) = nearest_approach(x, [[2.0, 0.3, 0.0], [5.0, 0.3, 0.0]]);
        assert!((d - 1.09f64.sqrt()).abs() < 1e-12, "{d}");
    }
}
