//! A stain set that behaves as the trade expects of one, and the targets that it then reaches.
//!
//! Common practice, without a published source: a shade family is walked down by one stain alone
//! (A by a reddish brown, B by a reddish yellow, C by a greyish one), the darkest A shades by
//! mixing a reddish grey in, and an incisal edge is lowered by a grey. The stains and bases here
//! were shaped so that this holds: painted by the truth model, coat by coat, they pass near the
//! nominal tab colours of [`crate::guide`] (within ΔE00 1.5; the tests say how near). The targets
//! are what the truth model says, not the tabs' rows.

use super::base::{Base, Ceramic};
use super::layer::Surface;
use super::pigment::{Kind, Recipe, Stain};
use super::set::StainSet;

/// One target and how practice reaches it.
#[derive(Debug, Clone, PartialEq)]
pub struct TradeTarget {
    /// From which shade to which.
    pub name: &'static str,
    /// CIELAB before.
    pub base: [f64; 3],
    /// CIELAB wished: exactly what the expected mix and coats give.
    pub target: [f64; 3],
    /// Stains and shares by volume.
    pub mix: Vec<(&'static str, f64)>,
    /// Number of coats.
    pub coats: f64,
}

/// Bases like the lightest tabs of three families.
struct Bases {
    a1: Base,
    b1: Base,
    c1: Base,
}

impl Bases {
    fn new() -> Self {
        let body = |l: f64, violet: f64, reach_nm: f64, yellow: f64, pink: f64, flat: f64| {
            let shape = Ceramic {
                violet,
                reach_nm,
                yellow: [455.0, 28.0, yellow],
                pink: [525.0, 30.0, pink],
                flat,
                power: 0.8,
            };
            shape.of_l(l).base()
        };
        Self {
            a1: body(79.6, 0.133, 55.0, 0.0238, 0.0034, 0.0199),
            b1: body(78.9, 0.152, 58.0, 0.0147, 0.0016, 0.0213),
            c1: body(74.3, 0.277, 41.9, 0.0352, 0.0177, 0.0412),
        }
    }
}

/// An iron edge, a yellow edge and an even grey; one coat over `on` shifts by `shift`.
fn stain(kind: Kind, red: [f64; 3], gold: f64, flat: f64, on: &Base, shift: f64) -> Stain {
    let recipe = Recipe {
        edges: vec![red, [500.0, 16.0, gold]],
        bands: Vec::new(),
        flat,
        slope: 0.0,
        scatter: 0.15,
        power: 1.0,
    };
    recipe.stain(kind.word(), kind, on, shift)
}

impl StainSet {
    /// The trade's set (see the module); its swatches are fired on the A1-like base.
    pub fn trade() -> Self {
        let Bases { a1, b1, c1 } = Bases::new();
        let incisal = Recipe {
            bands: vec![[542.0, 18.0, 0.15], [588.0, 18.0, 0.2], [638.0, 22.0, 0.2]],
            flat: 0.8,
            scatter: 0.3,
            power: 1.0,
            ..Recipe::default()
        };
        let stains = vec![
            stain(
                Kind::ReddishBrown,
                [565.0, 14.0, 0.87],
                1.17,
                0.41,
                &a1,
                3.6,
            ),
            stain(
                Kind::ReddishYellow,
                [565.0, 14.0, 0.36],
                1.08,
                0.37,
                &b1,
                3.4,
            ),
            stain(Kind::Grey, [565.0, 14.0, 0.37], 0.72, 0.68, &c1, 3.1),
            stain(Kind::ReddishGrey, [575.0, 14.0, 0.31], 1.03, 1.0, &a1, 2.85),
            incisal.stain(Kind::IncisalGrey.word(), Kind::IncisalGrey, &a1, 2.0),
        ];
        Self {
            stains,
            swatch_base: a1,
            surface: Surface::default(),
        }
    }
}

/// The targets that the trade's set reaches, computed by the truth model.
///
/// # Errors
/// Never.
pub fn trade_targets() -> Result<Vec<TradeTarget>, String> {
    let set = StainSet::trade();
    let Bases { a1, b1, c1 } = Bases::new();
    let (brown, grey) = (Kind::ReddishBrown.word(), Kind::Grey.word());
    let (yellow, reddish) = (Kind::ReddishYellow.word(), Kind::ReddishGrey.word());
    let incisal = Kind::IncisalGrey.word();
    let a2 = set.paint(&a1, &[(brown, 1.0)], 1.0)?;
    let b2 = set.paint(&b1, &[(yellow, 1.0)], 1.0)?;
    [
        ("A1 to A2", &a1, vec![(brown, 1.0)], 1.0),
        ("A1 to A3", &a1, vec![(brown, 1.0)], 2.0),
        ("A1 to A3.5", &a1, vec![(brown, 0.6), (reddish, 0.4)], 3.0),
        ("A1 to A4", &a1, vec![(brown, 0.4), (reddish, 0.6)], 4.0),
        ("A2 to A3", &a2, vec![(brown, 1.0)], 1.0),
        ("B1 to B2", &b1, vec![(yellow, 1.0)], 1.0),
        ("B1 to B3", &b1, vec![(yellow, 1.0)], 2.0),
        ("B1 to B4", &b1, vec![(yellow, 1.0)], 3.0),
        ("B2 to B3", &b2, vec![(yellow, 1.0)], 1.0),
        ("C1 to C2", &c1, vec![(grey, 1.0)], 1.0),
        ("C1 to C3", &c1, vec![(grey, 1.0)], 2.0),
        ("C1 to C4", &c1, vec![(grey, 1.0)], 3.0),
        ("A1 lowered at the edge", &a1, vec![(incisal, 1.0)], 1.0),
        ("A2 lowered at the edge", &a2, vec![(incisal, 1.0)], 1.5),
    ]
    .into_iter()
    .map(|(name, base, mix, coats)| {
        Ok(TradeTarget {
            name,
            base: set.read(base),
            target: set.after(base, &mix, coats)?,
            mix,
            coats,
        })
    })
    .collect()
}
