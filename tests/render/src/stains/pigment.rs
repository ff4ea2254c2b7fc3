//! Stains: absorption from pigment-like features, a little scattering, of one coat.
//!
//! The features are in the character of the real colorants (iron oxides absorb all below an edge,
//! cobalt blues in three bands of the yellow and red, greys nearly evenly; common knowledge, no
//! table is used). Everything is scaled so that one coat over a light base shifts the colour as
//! far as wished.

use super::base::Base;
use super::grid::Fine;
use super::layer::{Surface, over};
use crate::colour::delta_e_00;
use crate::rng::Rng;

/// What a stain is for.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Red iron oxide over yellow: more chroma, redder, darker.
    ReddishBrown,
    /// Yellow with a trace of red.
    ReddishYellow,
    /// Nearly even.
    Grey,
    /// Even, and an iron edge.
    ReddishGrey,
    /// Even with a trace of blue, a little milky.
    IncisalGrey,
    /// Cobalt bands.
    BlueViolet,
    /// White: scatters, hardly absorbs.
    Light,
    /// Clear, nearly.
    Glaze,
}

impl Kind {
    /// All that colour.
    pub const COLOURS: [Self; 6] = [
        Self::ReddishBrown,
        Self::ReddishYellow,
        Self::Grey,
        Self::ReddishGrey,
        Self::IncisalGrey,
        Self::BlueViolet,
    ];

    /// Its plain name.
    pub fn word(self) -> &'static str {
        match self {
            Self::ReddishBrown => "reddish-brown",
            Self::ReddishYellow => "reddish-yellow",
            Self::Grey => "grey",
            Self::ReddishGrey => "reddish-grey",
            Self::IncisalGrey => "incisal grey",
            Self::BlueViolet => "blue-violet",
            Self::Light => "light",
            Self::Glaze => "glaze",
        }
    }
}

/// The shape of a stain's spectrum, in relative amounts.
#[derive(Debug, Clone, Default)]
pub struct Recipe {
    /// Absorbs below an edge: place and softness in nanometres, amount.
    pub edges: Vec<[f64; 3]>,
    /// Absorbs in a band: middle and standard deviation in nanometres, amount.
    pub bands: Vec<[f64; 3]>,
    /// Absorbs everywhere.
    pub flat: f64,
    /// Change of `flat` from 550 to 730 nm, as a share of it.
    pub slope: f64,
    /// Scattering at 550 nm as a share of the mean absorption.
    pub scatter: f64,
    /// Scattering falls as (λ/550 nm)^−power.
    pub power: f64,
}

impl Recipe {
    fn absorption(&self) -> Fine {
        Fine::from_fn(|nm| {
            let edges = self
                .edges
                .iter()
                .map(|[at, soft, amount]| amount / (1.0 + ((nm - at) / soft).exp()));
            let bands = self
                .bands
                .iter()
                .map(|[at, wide, amount]| amount * (-0.5 * ((nm - at) / wide).powi(2)).exp());
            let flat = self.flat * (1.0 + self.slope * (nm - 550.0) / 180.0).max(0.0);
            edges.chain(bands).sum::<f64>() + flat
        })
    }

    /// A stain whose single coat shifts `on` by `delta_e_00` (glare dropped).
    pub fn stain(&self, name: &str, kind: Kind, on: &Base, delta_e_00: f64) -> Stain {
        let k = self.absorption();
        let mean = k.mean();
        let unit = Stain {
            name: name.to_owned(),
            kind,
            k: k.map(|v| v / mean),
            s: Fine::from_fn(|nm| self.scatter * (nm / 550.0).powf(-self.power)),
        };
        let (mut low, mut high) = (-12.0_f64, 0.0_f64);
        for _ in 0..60 {
            let mid = 0.5 * (low + high);
            if unit.scaled(mid.exp()).shift(on) < delta_e_00 {
                low = mid;
            } else {
                high = mid;
            }
        }
        unit.scaled((0.5 * (low + high)).exp())
    }

    /// A random stain of a kind.
    pub fn random(kind: Kind, rng: &mut Rng) -> Self {
        let iron =
            |rng: &mut Rng, amount: f64| [rng.range(555.0, 585.0), rng.range(9.0, 20.0), amount];
        let yellow =
            |rng: &mut Rng, amount: f64| [rng.range(480.0, 520.0), rng.range(10.0, 22.0), amount];
        let cobalt = |rng: &mut Rng, amount: f64| {
            let shift = rng.range(-6.0, 6.0);
            [(542.0, 20.0, 0.65), (588.0, 20.0, 1.0), (638.0, 24.0, 0.95)].map(
                |(at, wide, share)| {
                    [
                        at + shift,
                        wide * rng.range(0.75, 1.1),
                        amount * share * rng.range(0.8, 1.2),
                    ]
                },
            )
        };
        // Mostly absorbing: from nearly no scattering to about a third of the absorption.
        let scatter = |rng: &mut Rng, low: f64, high: f64| rng.range(low.ln(), high.ln()).exp();
        let power = rng.range(0.4, 1.6);
        let slope = rng.range(-0.25, 0.25);
        match kind {
            Kind::ReddishBrown => {
                let (red, gold) = (rng.range(0.7, 1.0), rng.range(0.5, 1.1));
                Self {
                    edges: vec![iron(rng, red), yellow(rng, gold)],
                    bands: vec![[rng.range(840.0, 880.0), 90.0, rng.range(0.1, 0.3)]],
                    flat: rng.range(0.15, 0.4),
                    slope,
                    scatter: scatter(rng, 0.02, 0.35),
                    power,
                }
            }
            Kind::ReddishYellow => {
                let (red, gold) = (rng.range(0.25, 0.55), rng.range(0.8, 1.2));
                Self {
                    edges: vec![iron(rng, red), yellow(rng, gold)],
                    bands: Vec::new(),
                    flat: rng.range(0.12, 0.3),
                    slope,
                    scatter: scatter(rng, 0.02, 0.35),
                    power,
                }
            }
            Kind::Grey => {
                let trace = rng.range(0.0, 0.15);
                Self {
                    edges: vec![yellow(rng, trace)],
                    bands: vec![[
                        rng.range(520.0, 640.0),
                        rng.range(40.0, 80.0),
                        rng.range(0.0, 0.15),
                    ]],
                    flat: 1.0,
                    slope,
                    scatter: scatter(rng, 0.03, 0.4),
                    power,
                }
            }
            Kind::ReddishGrey => {
                let red = rng.range(0.35, 0.8);
                Self {
                    edges: vec![iron(rng, red)],
                    bands: vec![[
                        rng.range(480.0, 540.0),
                        rng.range(35.0, 60.0),
                        rng.range(0.0, 0.2),
                    ]],
                    flat: rng.range(0.7, 1.0),
                    slope,
                    scatter: scatter(rng, 0.03, 0.35),
                    power,
                }
            }
            Kind::IncisalGrey => {
                let blue = rng.range(0.1, 0.35);
                Self {
                    edges: Vec::new(),
                    bands: cobalt(rng, blue).to_vec(),
                    flat: 0.8,
                    slope,
                    scatter: scatter(rng, 0.1, 0.6),
                    power,
                }
            }
            Kind::BlueViolet => {
                let mut bands = cobalt(rng, 1.0).to_vec();
                bands.push([
                    rng.range(505.0, 530.0),
                    rng.range(22.0, 35.0),
                    rng.range(0.2, 0.7),
                ]);
                Self {
                    edges: Vec::new(),
                    bands,
                    flat: rng.range(0.25, 0.6),
                    slope,
                    scatter: scatter(rng, 0.03, 0.35),
                    power,
                }
            }
            Kind::Light => Self {
                edges: vec![[430.0, 14.0, rng.range(0.5, 1.0)]],
                bands: Vec::new(),
                flat: 0.3,
                slope,
                scatter: rng.range(25.0, 80.0),
                power: rng.range(0.3, 1.0),
            },
            Kind::Glaze => Self {
                edges: vec![[rng.range(440.0, 490.0), 25.0, rng.range(0.5, 1.0)]],
                bands: Vec::new(),
                flat: rng.range(0.4, 1.0),
                slope,
                scatter: scatter(rng, 0.05, 0.5),
                power,
            },
        }
    }
}

/// A stain: absorption and scattering of one coat.
#[derive(Debug, Clone)]
pub struct Stain {
    /// Its name in the set.
    pub name: String,
    /// What it is for.
    pub kind: Kind,
    /// Absorption of one coat.
    pub k: Fine,
    /// Scattering of one coat.
    pub s: Fine,
}

impl Stain {
    fn scaled(&self, by: f64) -> Self {
        Self {
            k: self.k.map(|v| v * by),
            s: self.s.map(|v| v * by),
            ..self.clone()
        }
    }

    /// How far one coat shifts a base, ΔE00, glare dropped.
    pub fn shift(&self, on: &Base) -> f64 {
        let coated = paint(on, &self.k, &self.s, 1.0);
        delta_e_00(on.lab(Surface::Excluded), coated.lab(Surface::Excluded))
    }
}

/// `coats` of a layer with absorption `k` and scattering `s` each, over a base.
pub fn paint(on: &Base, k: &Fine, s: &Fine, coats: f64) -> Base {
    let mut internal = on.internal;
    for (r, (k, s)) in internal.0.iter_mut().zip(k.0.iter().zip(&s.0)) {
        *r = over(*k, *s, coats, *r);
    }
    Base { internal }
}
