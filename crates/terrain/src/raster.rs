//! The samples of one tile, read block by block when first asked for.

use std::sync::OnceLock;

use words::Message;

use crate::grid::Grid;

/// Samples of one block, rows north to south.
#[derive(Debug, Clone, PartialEq)]
pub enum Samples {
    /// Whole numbers; `i16::MIN` is void.
    I16(Box<[i16]>),
    /// Fractions; NaN is void.
    F32(Box<[f32]>),
    /// Classes; 0 is "no data".
    U8(Box<[u8]>),
}

impl Samples {
    /// Number of samples.
    pub fn len(&self) -> usize {
        match self {
            Self::I16(v) => v.len(),
            Self::F32(v) => v.len(),
            Self::U8(v) => v.len(),
        }
    }

    /// True without samples.
    pub fn is_empty(&self) -> bool {
        self.len() == 0
    }

    /// The value at an index; NaN where it is void.
    #[inline]
    fn value(&self, index: usize) -> f32 {
        match self {
            Self::I16(v) => {
                let raw = v[index];
                if raw == i16::MIN { f32::NAN } else { f32::from(raw) }
            }
            Self::F32(v) => v[index],
            Self::U8(v) => f32::from(v[index]),
        }
    }
}

/// Why the samples of a tile cannot be read.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
pub enum RasterError {
    /// The bytes could not be read or decoded.
    Unreadable {
        /// What happened and how to mend it.
        reason: Message,
    },
    /// A block with another number of samples than its place in the grid needs.
    BlockSize {
        /// Column of the block.
        block_col: u32,
        /// Row of the block.
        block_row: u32,
        /// Samples found.
        found: usize,
        /// Samples expected.
        expected: usize,
    },
    /// So many blocks that the table of them alone would fill the memory.
    TooManyBlocks {
        /// Number of blocks.
        blocks: u64,
    },
    /// A block of more than [`MAX_BLOCK_SAMPLES`] samples.
    BlockTooLarge {
        /// Samples of one block.
        samples: u64,
    },
}

/// Most blocks in one raster.
pub const MAX_BLOCKS: u64 = 1 << 19;

/// Most samples in one block (a 1″ SRTM tile has 13 million).
pub const MAX_BLOCK_SAMPLES: u64 = 1 << 25;

/// Gives the blocks of a raster. The implementer owns the file, or makes the ground.
pub trait BlockSource: Send + Sync {
    /// The samples of one block, clipped at the right and lower edge of the raster.
    ///
    /// # Errors
    /// [`RasterError`] when the bytes cannot be read; it is kept and given again at every later touch.
    fn load(&self, block_col: u32, block_row: u32) -> Result<Samples, RasterError>;
}

type Slot = OnceLock<Result<Samples, RasterError>>;

/// A georeferenced raster whose blocks are loaded when first touched and kept.
pub struct Raster {
    grid: Grid,
    block_width: u32,
    block_height: u32,
    blocks_across: u32,
    slots: Box<[Slot]>,
    source: Box<dyn BlockSource>,
}

impl std::fmt::Debug for Raster {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Raster")
            .field("grid", &self.grid)
            .field("blocks", &self.slots.len())
            .finish()
    }
}

impl Raster {
    /// A raster of blocks of the given size that `source` will load.
    ///
    /// # Errors
    /// [`RasterError::TooManyBlocks`], [`RasterError::BlockTooLarge`].
    pub fn new(
        grid: Grid,
        (block_width, block_height): (u32, u32),
        source: Box<dyn BlockSource>,
    ) -> Result<Self, RasterError> {
        let block_width = block_width.clamp(1, grid.width());
        let block_height = block_height.clamp(1, grid.height());
        let blocks_across = grid.width().div_ceil(block_width);
        let blocks_down = grid.height().div_ceil(block_height);
        let blocks = u64::from(blocks_across) * u64::from(blocks_down);
        if blocks > MAX_BLOCKS {
            return Err(RasterError::TooManyBlocks { blocks });
        }
        let samples = u64::from(block_width) * u64::from(block_height);
        if samples > MAX_BLOCK_SAMPLES {
            return Err(RasterError::BlockTooLarge { samples });
        }
        let slots = (0..blocks).map(|_| Slot::new()).collect();
        Ok(Self {
            grid,
            block_width,
            block_height,
            blocks_across,
            slots,
            source,
        })
    }

    /// A raster that lies whole in memory.
    ///
    /// # Errors
    /// [`RasterError::BlockSize`] when the number of samples is not width × height.
    pub fn in_memory(grid: Grid, samples: Samples) -> Result<Self, RasterError> {
        struct Held(Samples);
        impl BlockSource for Held {
            fn load(&self, _: u32, _: u32) -> Result<Samples, RasterError> {
                Ok(self.0.clone())
            }
        }
        let expected = grid.width() as usize * grid.height() as usize;
        if samples.len() != expected {
            return Err(RasterError::BlockSize {
                block_col: 0,
                block_row: 0,
                found: samples.len(),
                expected,
            });
        }
        let size = (grid.width(), grid.height());
        let raster = Self::new(grid, size, Box::new(Held(Samples::U8(Box::default()))))?;
        // Filling the only slot now avoids keeping the samples twice.
        let _ = raster.slots[0].set(Ok(samples));
        Ok(raster)
    }

    /// Where the samples lie.
    pub fn grid(&self) -> &Grid {
        &self.grid
    }

    /// Width and height of a block, in samples.
    pub fn block_size(&self) -> (u32, u32) {
        (self.block_width, self.block_height)
    }

    /// Share of the blocks read so far, 0…1.
    pub fn loaded_share(&self) -> f64 {
        let loaded = self.slots.iter().filter(|slot| slot.get().is_some()).count();
        loaded as f64 / self.slots.len() as f64
    }

    /// The value of one sample; NaN where it is void.
    ///
    /// # Errors
    /// The [`RasterError`] of its block.
    ///
    /// # Panics
    /// When `col` or `row` lies outside the grid.
    #[inline]
    pub fn value(&self, col: u32, row: u32) -> Result<f32, &RasterError> {
        assert!(
            col < self.grid.width() && row < self.grid.height(),
            "sample outside the raster"
        );
        let (block_col, block_row) = (col / self.block_width, row / self.block_height);
        let samples = self.block(block_col, block_row)?;
        let width = self.width_of(block_col);
        let index = (row - block_row * self.block_height) as usize * width
            + (col - block_col * self.block_width) as usize;
        Ok(samples.value(index))
    }

    /// The four samples whose north-west one is at `col`, `row`: north-west, north-east, south-west, south-east.
    ///
    /// # Errors
    /// The [`RasterError`] of a block.
    #[inline]
    pub(crate) fn quad(&self, col: u32, row: u32) -> Result<[f32; 4], &RasterError> {
        let (block_col, block_row) = (col / self.block_width, row / self.block_height);
        let (x, y) = (
            col - block_col * self.block_width,
            row - block_row * self.block_height,
        );
        let width = self.width_of(block_col);
        if x as usize + 1 < width && y + 1 < self.block_height && row + 1 < self.grid.height() {
            let samples = self.block(block_col, block_row)?;
            let index = y as usize * width + x as usize;
            return Ok([
                samples.value(index),
                samples.value(index + 1),
                samples.value(index + width),
                samples.value(index + width + 1),
            ]);
        }
        Ok([
            self.value(col, row)?,
            self.value(col + 1, row)?,
            self.value(col, row + 1)?,
            self.value(col + 1, row + 1)?,
        ])
    }

    #[inline]
    fn width_of(&self, block_col: u32) -> usize {
        self.block_width
            .min(self.grid.width() - block_col * self.block_width) as usize
    }

    #[inline]
    fn block(&self, block_col: u32, block_row: u32) -> Result<&Samples, &RasterError> {
        let slot = &self.slots[(block_row * self.blocks_across + block_col) as usize];
        slot.get_or_init(|| self.load_checked(block_col, block_row))
            .as_ref()
    }

    fn load_checked(&self, block_col: u32, block_row: u32) -> Result<Samples, RasterError> {
        let samples = self.source.load(block_col, block_row)?;
        let height = self
            .block_height
            .min(self.grid.height() - block_row * self.block_height) as usize;
        let expected = self.width_of(block_col) * height;
        if samples.len() != expected {
            return Err(RasterError::BlockSize {
                block_col,
                block_row,
                found: samples.len(),
                expected,
            });
        }
        Ok(samples)
    }
}
