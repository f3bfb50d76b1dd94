//! Means over a raster's rows, for a coast without the stairs of its water mask.

/// The mean of every cell and its neighbours within `reach` along the row; cells beyond the edge are left out.
pub(super) fn mean_along(cells: &[f32], width: usize, reach: usize) -> Vec<f32> {
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
pub(super) fn transposed(cells: &[f32], width: usize) -> Vec<f32> {
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

    #[test]
    fn transposing_twice_changes_nothing() {
        let cells = [1.0, 2.0, 3.0, 4.0, 5.0, 6.0];
        assert_eq!(transposed(&cells, 3), [1.0, 4.0, 2.0, 5.0, 3.0, 6.0]);
        assert_eq!(transposed(&transposed(&cells, 3), 2), cells);
    }
}
