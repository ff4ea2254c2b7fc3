//! Tiles along one side of a photo. They are laid from the stored picture's first pixel, so on a
//! mirrored side the narrow one comes first.

/// One side, in upright pixels.
pub struct Axis {
    length: usize,
    tile_px: usize,
    mirrored: bool,
}

impl Axis {
    pub const fn new(length: usize, tile_px: usize, mirrored: bool) -> Self {
        Self {
            length,
            tile_px,
            mirrored,
        }
    }

    pub const fn length(&self) -> usize {
        self.length
    }

    /// How many tiles there are.
    pub const fn count(&self) -> usize {
        self.length.div_ceil(self.tile_px)
    }

    /// Pixels by which the first tile is narrower.
    const fn missing(&self) -> usize {
        if self.mirrored {
            self.count() * self.tile_px - self.length
        } else {
            0
        }
    }

    /// The tile of a pixel.
    pub const fn tile(&self, at: usize) -> usize {
        (at + self.missing()) / self.tile_px
    }

    /// First pixel of some tiles, the last of them included, and the one after their last.
    pub fn span(&self, first: usize, last: usize) -> (usize, usize) {
        let missing = self.missing();
        let from = (first * self.tile_px).saturating_sub(missing);
        let to = ((last + 1) * self.tile_px - missing).min(self.length);
        (from, to)
    }

    /// Pixels from, to (not included), in the stored picture.
    pub const fn stored(&self, (from, to): (usize, usize)) -> (usize, usize) {
        if self.mirrored {
            (self.length - to, self.length - from)
        } else {
            (from, to)
        }
    }

    /// Pixels before the first whole cell of this many.
    pub const fn rest(&self, cell_px: usize) -> usize {
        if self.mirrored {
            self.length % cell_px
        } else {
            0
        }
    }
}
