//! The share of land round about each cell of a map, for a coast without the stairs of its water mask.

/// The share of land round each cell, 0 to 1: the coast runs where it is half. Two means one after the other weigh what is near
/// more than what is far; cells beyond the edge are left out.
///
/// # Shape
/// - `dry`: 1 for land and 0 for water, row by row
///
/// # Units
/// - `mask_m`: width of the water mask's own cells, m
/// - `cell_m`: width of the map's cells, m
pub fn shares_of_land(mut dry: Vec<f32>, width: usize, mask_m: f64, cell_m: f64) -> Vec<f32> {
    let height = dry.len() / width.max(1);
    let reach = (mask_m / cell_m).ceil().clamp(1.0, 12.0) as usize;
    for _ in 0..2 {
        dry = mean_along(&dry, width, reach);
        dry = transposed(&mean_along(&transposed(&dry, width), height, reach), height);
    }
    dry
}

/// The mean of every cell and its neighbours within `reach` along the row; cells beyond the edge are left out.
fn mean_along(cells: &[f32], width: usize, reach: usize) -> Vec<f32> {
    let mut out = Vec::with_capacity(cells.len());
    for row in cells.chunks(width) {
        let mut so_far = vec![0.0_f64];
        let mut sum = 0.0;
        for cell in row {
            sum += f64::from(*cell);
            so_far.push(sum);
        }
        for col in 0..row.len() {
            let (from, to) = (col.saturating_sub(reach), (col + reach + 1).min(row.len()));
            out.push(((so_far[to] - so_far[from]) / (to - from) as f64) as f32);
        }
    }
    out
}

/// Columns as rows.
fn transposed(cells: &[f32], width: usize) -> Vec<f32> {
    let height = cells.len() / width.max(1);
    (0..width)
        .flat_map(|col| (0..height).map(move |row| cells[row * width + col]))
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_mean_keeps_a_level_and_leaves_out_what_is_beyond_the_edge() {
        assert_eq!(mean_along(&[1.0; 6], 3, 2), [1.0; 6]);
        assert_eq!(
            mean_along(&[0.0, 0.0, 1.0, 1.0], 4, 1),
            [0.0, 1.0 / 3.0, 2.0 / 3.0, 1.0]
        );
    }

    /// A straight coast stays where it is, and a staircase along a slant becomes one line within half a cell of the slant.
    #[test]
    fn a_straight_coast_stays_and_stairs_become_a_slant() {
        let (width, height) = (30, 30);
        let half = |dry: &[f32], row: usize| {
            let at = (0..width).find(|col| dry[row * width + col] >= 0.5).unwrap();
            let (low, high) = (dry[row * width + at - 1], dry[row * width + at]);
            at as f32 - (high - 0.5) / (high - low)
        };
        let map = |land: &dyn Fn(usize, usize) -> bool| {
            let cells = (0..width * height).map(|i| f32::from(u8::from(land(i % width, i / width))));
            shares_of_land(cells.collect(), width, 90.0, 90.0)
        };
        let straight = map(&|col, _| col >= 15);
        assert!((8..22).all(|row| (half(&straight, row) - 14.5).abs() < 1e-4));
        // One step to the right every three rows.
        let stairs = map(&|col, row| col >= 10 + row / 3);
        for row in 6..24 {
            let slant = 9.5 + (row as f32 - 1.0) / 3.0;
            assert!((half(&stairs, row) - slant).abs() < 0.25, "row {row}");
        }
    }

    #[test]
    fn transposing_twice_changes_nothing() {
        let cells = [1.0, 2.0, 3.0, 4.0, 5.0, 6.0];
        assert_eq!(transposed(&cells, 3), [1.0, 4.0, 2.0, 5.0, 3.0, 6.0]);
        assert_eq!(transposed(&transposed(&cells, 3), 2), cells);
    }
}
