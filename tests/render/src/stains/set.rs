//! A set of stains with the base on which its swatches are fired.

use super::base::{Base, Ceramic};
use super::grid::Fine;
use super::layer::Surface;
use super::pigment::{Kind, Recipe, Stain, paint};
use crate::rng::Rng;

/// Share of random sets that have a white stain.
const HAS_LIGHT: f64 = 0.5;

/// Stains, their test base, and how colours are read.
#[derive(Debug, Clone)]
pub struct StainSet {
    /// The stains.
    pub stains: Vec<Stain>,
    /// What the swatches are painted on: light.
    pub swatch_base: Base,
    /// What readings hold of the outer reflection.
    pub surface: Surface,
}

impl StainSet {
    /// A set by seed: all kinds, half of the sets with a white one.
    pub fn random(seed: u64) -> Self {
        let mut rng = Rng::new(seed, 0x57a1);
        let swatch_base = {
            let l = rng.range(77.0, 82.0);
            Ceramic::random(&mut rng, l).base()
        };
        let mut kinds = Kind::COLOURS.to_vec();
        if rng.chance(HAS_LIGHT) {
            kinds.push(Kind::Light);
        }
        kinds.push(Kind::Glaze);
        let stains = kinds
            .into_iter()
            .map(|kind| {
                let recipe = Recipe::random(kind, &mut rng);
                let shift = match kind {
                    Kind::Glaze => rng.range(0.15, 0.5),
                    Kind::Light => rng.range(0.4, 1.0),
                    _ => rng.range(1.0, 3.5),
                };
                recipe.stain(kind.word(), kind, &swatch_base, shift)
            })
            .collect();
        Self {
            stains,
            swatch_base,
            surface: Surface::default(),
        }
    }

    /// The fixed set that a new user meets: invented stains.
    pub fn demo() -> Self {
        let mut rng = Rng::new(0xde30, 0x57a1);
        let swatch_base = Ceramic::plain().of_l(79.0).base();
        let stains = [
            ("heath copper", Kind::ReddishBrown, 2.6),
            ("barley husk", Kind::ReddishYellow, 2.3),
            ("rain slate", Kind::Grey, 2.0),
            ("dusk clay", Kind::ReddishGrey, 2.2),
            ("tide edge", Kind::IncisalGrey, 1.7),
            ("sloe veil", Kind::BlueViolet, 1.9),
            ("chalk breath", Kind::Light, 0.7),
            ("clear glaze", Kind::Glaze, 0.3),
        ]
        .map(|(name, kind, shift)| {
            Recipe::random(kind, &mut rng).stain(name, kind, &swatch_base, shift)
        })
        .into();
        Self {
            stains,
            swatch_base,
            surface: Surface::default(),
        }
    }

    /// The same set read in another way.
    pub fn with_surface(self, surface: Surface) -> Self {
        Self { surface, ..self }
    }

    /// CIELAB (D65, 2°) of a base.
    pub fn read(&self, base: &Base) -> [f64; 3] {
        base.lab(self.surface)
    }

    /// A base with coats of a mix: `(name, share by volume)`, shares of any sum.
    ///
    /// # Errors
    /// For a name that is not in the set, or shares that are not.
    pub fn paint(&self, base: &Base, mix: &[(&str, f64)], coats: f64) -> Result<Base, String> {
        let total: f64 = mix.iter().map(|(_, share)| share).sum();
        if total.is_nan() || total <= 0.0 || mix.iter().any(|(_, share)| *share < 0.0) {
            return Err(format!("{mix:?} is no mix"));
        }
        let (mut k, mut s) = (Fine::from_fn(|_| 0.0), Fine::from_fn(|_| 0.0));
        for (name, share) in mix {
            let stain = self
                .stains
                .iter()
                .find(|stain| stain.name == *name)
                .ok_or_else(|| format!("no stain called {name}"))?;
            k = k.zip(&stain.k, |a, b| a + share / total * b);
            s = s.zip(&stain.s, |a, b| a + share / total * b);
        }
        Ok(paint(base, &k, &s, coats))
    }

    /// CIELAB (D65, 2°) of a base with coats of a mix; see [`Self::paint`].
    ///
    /// # Errors
    /// As [`Self::paint`].
    pub fn after(&self, base: &Base, mix: &[(&str, f64)], coats: f64) -> Result<[f64; 3], String> {
        Ok(self.read(&self.paint(base, mix, coats)?))
    }
}
