//! A thing in the picture: where it is, its form, what it is made of.

use super::grid::Grid;
use crate::spec::{Tab, Tooth};

/// Own axes in the world plane.
#[derive(Debug, Clone, Copy)]
pub struct Place {
    /// World place of the own origin.
    pub origin: [f32; 2],
    /// Cosine of the turn.
    pub cos: f32,
    /// Sine of the turn.
    pub sin: f32,
}

impl Place {
    /// Turn in radians.
    pub fn new(origin: [f64; 2], angle: f64) -> Self {
        Self {
            origin: [origin[0] as f32, origin[1] as f32],
            cos: angle.cos() as f32,
            sin: angle.sin() as f32,
        }
    }

    /// World to own.
    #[inline]
    pub fn own(&self, x: f32, y: f32) -> [f32; 2] {
        let (dx, dy) = (x - self.origin[0], y - self.origin[1]);
        [
            dx * self.cos + dy * self.sin,
            -dx * self.sin + dy * self.cos,
        ]
    }

    /// Own to world.
    #[inline]
    pub fn world(&self, x: f32, y: f32) -> [f32; 2] {
        let [vx, vy] = self.turn(x, y);
        [self.origin[0] + vx, self.origin[1] + vy]
    }

    /// A direction from own to world axes.
    #[inline]
    pub fn turn(&self, x: f32, y: f32) -> [f32; 2] {
        [x * self.cos - y * self.sin, x * self.sin + y * self.cos]
    }
}

/// What a body is, with what its painter needs.
#[derive(Debug, Clone)]
pub enum Kind {
    /// A tooth, restoration or tab face.
    Crown(Box<CrownLook>),
    /// The holder of a tab.
    Stem {
        /// Steel, else grey plastic.
        steel: bool,
        /// Name on it.
        label: Option<String>,
        /// Where the name stands, from the neck.
        length: f32,
    },
    /// Gum of one jaw.
    Gum {
        /// (distance across the tooth 0–1, height over the zeniths, papilla 0–1, unused).
        field: Grid<4>,
        /// 0–1.
        stipple: f32,
        /// 0–1.
        inflammation: f32,
        /// Brown patches 0–1.
        pigment: f32,
    },
    /// Lip.
    Lip,
    /// Both lips and the skin around them.
    Face {
        /// Width of the red above and below.
        red: [f32; 2],
        /// Half of the opening's width.
        half_width: f32,
    },
    /// A thing of the scenery.
    Prop {
        /// Its surface.
        surface: Surface,
        /// Half of its width and height.
        half: [f32; 2],
    },
    /// Tongue.
    Tongue,
    /// The back of the mouth.
    Cavity,
    /// Grey card.
    Card {
        /// As seen, foreshortened.
        half_width: f32,
        /// Count of its steps.
        steps: usize,
        /// Its face.
        face: crate::spec::CardFace,
    },
}

/// Surfaces of the scenery.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Surface {
    /// Thin rubber, wrinkled.
    Glove,
    /// Clear or milky plastic.
    Plastic,
    /// Polished metal.
    Steel,
    /// Sand-blasted metal.
    DullMetal,
    /// A mirror with its rim.
    Mirror,
    /// Matt black.
    Black,
    /// Embossed paper.
    Paper,
    /// Cotton.
    Cotton,
    /// A bracket's ceramic, a filling.
    Ceramic,
    /// Water.
    Saliva,
}

/// Look of a crown.
#[derive(Debug, Clone)]
pub struct CrownLook {
    /// Form.
    pub form: super::crown::CrownForm,
    /// Ceramic (no growth lines, glazed).
    pub ceramic: bool,
    /// Glassy edge 0–1.
    pub translucency: f32,
    /// White spots 0–1.
    pub spots: f32,
    /// Craze lines 0–1.
    pub crazing: f32,
    /// Uneven colour 0–1.
    pub blotch: f32,
    /// Polish against the usual.
    pub gloss: f32,
    /// Metal, not tooth-coloured.
    pub metal: bool,
    /// The tooth it is, if it is one.
    pub tooth: Option<Tooth>,
    /// The tab it is, if it is one.
    pub tab: Option<Tab>,
}

/// One body.
#[derive(Debug, Clone)]
pub struct Body {
    /// `tooth-11`, `tab-A2`, `card`, …
    pub id: String,
    /// What it is.
    pub kind: Kind,
    /// Front bodies have small numbers.
    pub order: i32,
    /// Own axes.
    pub place: Place,
    /// (signed distance, z, ∂z/∂x, ∂z/∂y) in own axes.
    pub form: Grid<4>,
    /// (openness 0–1, light reaching it from lamp 0, 1, 2).
    pub light: Grid<4>,
    /// Index of its inks.
    pub ink: usize,
    /// World box (x0, y0, x1, y1).
    pub bounds: [f32; 4],
    /// For its textures.
    pub seed: u32,
    /// Share of it that hides what lies behind.
    pub opacity: f32,
    /// Ends the outline of what it covers; a bracket or a drop belongs to the crown under it.
    pub occludes: bool,
}

impl Body {
    /// World box of a box in own axes.
    pub fn world_bounds(place: &Place, own: [f32; 4]) -> [f32; 4] {
        let mut b = [
            f32::INFINITY,
            f32::INFINITY,
            f32::NEG_INFINITY,
            f32::NEG_INFINITY,
        ];
        for (x, y) in [
            (own[0], own[1]),
            (own[2], own[1]),
            (own[0], own[3]),
            (own[2], own[3]),
        ] {
            let [wx, wy] = place.world(x, y);
            b = [b[0].min(wx), b[1].min(wy), b[2].max(wx), b[3].max(wy)];
        }
        b
    }

    /// Writes the slopes from the heights.
    pub fn slope_from_height(form: &mut Grid<4>) {
        let (w, h, p) = (form.w, form.h, form.pitch);
        let z: Vec<f32> = form.cells.iter().map(|c| c[1]).collect();
        for j in 0..h {
            for i in 0..w {
                let at = |i: usize, j: usize| z[j * w + i];
                let (i0, i1) = (i.saturating_sub(1), (i + 1).min(w - 1));
                let (j0, j1) = (j.saturating_sub(1), (j + 1).min(h - 1));
                let cell = &mut form.cells[j * w + i];
                cell[2] = (at(i1, j) - at(i0, j)) / ((i1 - i0) as f32 * p);
                cell[3] = (at(i, j1) - at(i, j0)) / ((j1 - j0) as f32 * p);
            }
        }
    }
}
