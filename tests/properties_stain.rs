//! Another coat of an absorbing stain never raises value, whatever the stains are and whatever lies
//! below.

mod support;

use proptest::prelude::*;
use scene_render::stains::{Handling, Kind, StainSet, job};
use std::collections::BTreeMap;
use tabside::colour::Lab;
use tabside::stain::{StrengthBook, Swatch};

/// The stains of a random set that absorb (no white one, no glaze), learned from its swatches, and their
/// names.
fn learned(seed: u64) -> (StrengthBook, Vec<String>) {
    let set = StainSet::random(seed);
    let handling = Handling {
        noise_delta_e_00: 0.0,
        uneven: 0.0,
    };
    let made = job(&set, seed, handling).expect("a job");
    let absorbing: Vec<String> = set
        .stains
        .iter()
        .filter(|s| !matches!(s.kind, Kind::Light | Kind::Glaze))
        .map(|s| s.name.clone())
        .collect();
    let swatches: Vec<Swatch> = made
        .swatches
        .iter()
        .filter(|s| absorbing.contains(&s.stain))
        .map(|s| Swatch::new(&s.stain, s.coats, Lab(s.base), Lab(s.after)))
        .collect();
    let book = StrengthBook::fit(&swatches).expect("a book");
    (book, absorbing)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    /// 64 sets of stains, each stain alone and all of them mixed, on six bases of teeth and ceramics each,
    /// learned from exact swatches. From swatches read to ΔE00 0.3 a weak stain may well be learned as one
    /// that lightens a dark base a little: that is what those swatches say.
    #[test]
    fn a_coat_never_raises_value(
        seed in 50_000..60_000_u64,
        bases in prop::collection::vec((50.0..88.0_f64, -2.0..6.0_f64, 4.0..30.0_f64), 6),
        shares in prop::collection::vec(0.0..1.0_f64, 8),
        coats in 0.0..6.0_f64,
        more in prop_oneof![Just(0.25), 0.01..4.0_f64],
    ) {
        let (book, names) = learned(seed);
        let mut mixes: Vec<BTreeMap<String, f64>> =
            names.iter().map(|n| BTreeMap::from([(n.clone(), 1.0)])).collect();
        let total: f64 = shares.iter().take(names.len()).sum();
        mixes.push(names.iter().zip(&shares).map(|(n, s)| (n.clone(), s / total)).collect());
        for (l, a, b) in bases {
            let base = Lab([l, a, b]);
            for mix in &mixes {
                let at = |coats: f64| book.predict(base, mix, coats).expect("a prediction").lab;
                let (bare, less, moreover) = (at(0.0), at(coats), at(coats + more));
                prop_assert!(less.l() <= bare.l() + 1e-9, "{mix:?} on {base:?}: {bare:?} {less:?}");
                prop_assert!(moreover.l() <= less.l() + 1e-9, "{mix:?} on {base:?}: {less:?} {moreover:?}");
            }
        }
    }
}
