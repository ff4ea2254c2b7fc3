//! What the truth of painted coats promises. Check values are computed from the equations of
//! Kubelka & Munk (Z techn Phys 1931;12:593) and Saunderson (J Opt Soc Am 1942;32:727).

use scene_render::colour::delta_e_00;
use scene_render::guide::tab_body_lab_d65;
use scene_render::rng::Rng;
use scene_render::stains::base::LIGHT_L;
use scene_render::stains::job::{misread, swatches};
use scene_render::stains::layer::{infinite, k_over_s, over};
use scene_render::stains::{
    Base, Ceramic, Handling, Job, Kind, StainSet, Surface, job, trade_targets,
};
use std::collections::BTreeSet;

#[track_caller]
fn near(got: f64, want: f64) {
    assert!((got - want).abs() < 6e-8, "{got} instead of {want}");
}

fn read_to(noise_delta_e_00: f64) -> Handling {
    Handling {
        noise_delta_e_00,
        uneven: 0.0,
    }
}

#[test]
fn infinite_layers() {
    for (r, want) in [(0.1, 4.05), (0.2, 1.6), (0.5, 0.25)] {
        near(k_over_s(r), want);
        near(infinite(want), r);
    }
    near(infinite(0.1), 0.641_742_4);
    near(infinite(0.5), 0.381_966_0);
    // A very thick layer is the same, whatever lies under it.
    near(over(0.02, 4.0, 40.0, 0.3), infinite(0.005));
}

#[test]
fn layers_over_backings() {
    for (k, s, d, backing, want) in [
        (0.1, 1.0, 1.0, 0.0, 0.461_033_6),
        (0.1, 1.0, 1.0, 0.5, 0.589_872_1),
        (0.1, 1.0, 1.0, 1.0, 0.828_919_3),
        (0.5, 2.0, 0.5, 0.6, 0.523_531_8),
        (0.0, 1.0, 1.0, 0.0, 0.5),
        (0.0, 1.0, 1.0, 0.5, 0.666_666_7),
        (0.5, 0.0, 0.1, 0.5, 0.5 * (-0.1_f64).exp()),
    ] {
        near(over(k, s, d, backing), want);
    }
    for (coats, want) in [
        (1.0, 0.530_302_3),
        (2.0, 0.512_767_6),
        (3.0, 0.497_191_3),
        (4.0, 0.483_380_5),
    ] {
        near(over(1.5, 3.0, 0.02 * coats, 0.55), want);
    }
}

#[test]
fn surfaces_there_and_back() {
    for (r, want) in [(0.1, 0.080_851_1), (0.5, 0.314_285_7), (0.9, 0.791_304_3)] {
        near(Surface::Included.outside(r), want);
        near(Surface::Excluded.outside(r), want - 0.04);
        for surface in [Surface::Included, Surface::Excluded] {
            near(surface.inside(surface.outside(r)), r);
        }
    }
}

#[test]
fn bases_are_as_varied_as_tabs() {
    let (mut light, mut dark) = (Vec::new(), Vec::new());
    for seed in 0..150 {
        let mut rng = Rng::new(seed, 77);
        light.push(Base::random(&mut rng, true));
        dark.push(Base::random(&mut rng, false));
    }
    let labs = |bases: &[Base]| {
        bases
            .iter()
            .map(|b| b.lab(Surface::Excluded))
            .collect::<Vec<_>>()
    };
    let (light, dark) = (labs(&light), labs(&dark));
    assert!(light.iter().all(|l| l[0] >= LIGHT_L) && dark.iter().all(|l| l[0] < LIGHT_L));
    let all = [light, dark].concat();
    let span = |i: usize| {
        all.iter().fold((f64::MAX, f64::MIN), |(lo, hi), l| {
            (lo.min(l[i]), hi.max(l[i]))
        })
    };
    for (i, outer, inner) in [
        (0, (61.9, 82.1), (64.0, 81.0)),
        (1, (-2.05, 5.05), (-0.5, 4.0)),
        (2, (7.9, 26.1), (10.0, 22.0)),
    ] {
        let (lo, hi) = span(i);
        assert!(lo >= outer.0 && hi <= outer.1, "{i}: {lo} {hi}");
        assert!(lo <= inner.0 && hi >= inner.1, "{i}: {lo} {hi}");
    }
}

/// A coat that does not scatter only takes light away, in every band, and more coats take more.
#[test]
fn absorbing_stains_raise_no_band() {
    for seed in 0..20 {
        let mut set = StainSet::random(seed);
        for stain in &mut set.stains {
            stain.s = stain.s.map(|_| 0.0);
        }
        for light in [true, false] {
            let base = Base::random(&mut Rng::new(seed, 3), light);
            for stain in &set.stains {
                let mut before = base;
                for _ in 0..3 {
                    let next = set.paint(&before, &[(&stain.name, 1.0)], 1.0).unwrap();
                    let raised = next
                        .internal
                        .0
                        .iter()
                        .zip(&before.internal.0)
                        .any(|(a, b)| a > b);
                    assert!(!raised, "seed {seed}, {}", stain.name);
                    before = next;
                }
            }
        }
    }
}

/// With its own scattering a coat moves each band toward that coat's own infinite depth.
#[test]
fn coats_move_toward_their_own_infinite_depth() {
    for seed in 0..10 {
        let set = StainSet::random(seed);
        let base = Base::random(&mut Rng::new(seed, 4), seed % 2 == 0);
        for stain in &set.stains {
            let after = set.paint(&base, &[(&stain.name, 1.0)], 2.5).unwrap();
            for i in 0..base.internal.0.len() {
                let (r0, r1) = (base.internal.0[i], after.internal.0[i]);
                let goal = infinite(stain.k.0[i] / stain.s.0[i]);
                assert!((r1 - r0) * (goal - r0) >= 0.0 && (goal - r1).abs() <= (goal - r0).abs());
            }
        }
    }
}

#[test]
fn one_coat_shifts_a_light_base_as_stains_do() {
    for seed in 0..60 {
        let set = StainSet::random(seed);
        let base = set.read(&set.swatch_base);
        assert!(base[0] >= LIGHT_L);
        for stain in &set.stains {
            let shift = stain.shift(&set.swatch_base);
            let after = set
                .after(&set.swatch_base, &[(&stain.name, 1.0)], 1.0)
                .unwrap();
            near(shift, delta_e_00(base, after));
            let range = match stain.kind {
                Kind::Glaze => 0.15..0.5,
                Kind::Light => 0.4..1.0,
                _ => 1.0..3.5,
            };
            assert!(
                range.contains(&shift),
                "seed {seed}, {}: {shift}",
                stain.name
            );
            let [l, a, b] = std::array::from_fn(|i| after[i] - base[i]);
            let as_named = match stain.kind {
                Kind::ReddishBrown => l < 0.0 && a > 0.0 && b > 0.0,
                Kind::ReddishYellow => l < 0.0 && b > 0.0,
                Kind::Grey | Kind::IncisalGrey => l < 0.0 && a.abs() < -l && b.abs() < -l,
                Kind::ReddishGrey => l < 0.0 && a > 0.0,
                Kind::BlueViolet => l < 0.0 && b < 0.0,
                Kind::Light => l > 0.0,
                Kind::Glaze => l < 0.0,
            };
            assert!(
                as_named,
                "seed {seed}, {}: {l:.2} {a:.2} {b:.2}",
                stain.name
            );
        }
    }
}

#[test]
fn mixes_are_sums_by_volume_and_bad_ones_are_refused() {
    let set = StainSet::demo();
    let base = Ceramic::plain().of_l(70.0).base();
    let shares = [("heath copper", 0.3), ("clear glaze", 0.7)];
    let mixed = set.after(&base, &shares, 2.0).unwrap();
    // Layer upon layer, thinly, comes to the same as the mix.
    let mut body = base;
    for _ in 0..200 {
        for (name, share) in shares {
            body = set.paint(&body, &[(name, 1.0)], 0.01 * share).unwrap();
        }
    }
    assert!(delta_e_00(set.read(&body), mixed) < 0.002);
    assert_eq!(
        set.after(&base, &[("heath copper", 3.0), ("clear glaze", 7.0)], 2.0)
            .unwrap(),
        mixed
    );
    for bad in [
        vec![],
        vec![("nobody's", 1.0)],
        vec![("heath copper", -1.0)],
        vec![("heath copper", 0.0)],
    ] {
        assert!(set.after(&base, &bad, 1.0).is_err(), "{bad:?}");
    }
}

#[test]
fn readings_are_displaced_by_the_noise_asked_for() {
    let mut rng = Rng::new(8, 8);
    let lab = [75.0, 1.0, 18.0];
    let n = 20_000;
    let (mut square, mut sum) = (0.0, [0.0; 3]);
    for _ in 0..n {
        let read = misread(&mut rng, lab, 0.3);
        square += delta_e_00(lab, read).powi(2);
        for i in 0..3 {
            sum[i] += read[i] - lab[i];
        }
    }
    let rms = (square / f64::from(n)).sqrt();
    assert!((rms - 0.3).abs() < 0.005, "{rms}");
    assert!(
        sum.iter().all(|s| (s / f64::from(n)).abs() < 0.02),
        "{sum:?}"
    );
    assert_eq!(misread(&mut rng, lab, 0.0), lab);
    // Each swatch's base is read anew.
    let set = StainSet::random(4);
    let bases = |noise: f64| -> BTreeSet<String> {
        swatches(&set, 4, read_to(noise))
            .unwrap()
            .iter()
            .map(|s| format!("{:?}", s.base))
            .collect()
    };
    assert_eq!(bases(0.0).len(), 1);
    assert_eq!(bases(0.3).len(), 2 * set.stains.len());
}

#[test]
fn jobs_are_repeatable_and_ask_for_all_kinds() {
    let one = Job::random(12, read_to(0.3), Surface::Excluded).unwrap();
    assert_eq!(
        one,
        Job::random(12, read_to(0.3), Surface::Excluded).unwrap()
    );
    let exact = Job::random(12, read_to(0.0), Surface::Excluded).unwrap();
    assert_eq!((&one.requests, &one.truth), (&exact.requests, &exact.truth));
    let set = StainSet::random(12);
    let count = |f: &dyn Fn(&scene_render::stains::job::Request) -> bool| {
        exact.requests.iter().filter(|r| f(r)).count()
    };
    assert_eq!(count(&|r| r.mix.len() == 1), 20);
    assert_eq!(count(&|r| r.base[0] >= LIGHT_L), 20);
    assert_eq!(count(&|r| r.base[0] >= LIGHT_L && r.mix.len() == 1), 10);
    for (r, truth) in exact.requests.iter().zip(&exact.truth) {
        assert_eq!(r.id, truth.id);
        assert!((0.5..=3.0).contains(&r.coats) && (r.coats * 4.0).fract() == 0.0);
        near(r.mix.values().sum(), 1.0);
        assert!(
            r.mix
                .values()
                .all(|s| (s * 10.0 - (s * 10.0).round()).abs() < 1e-9)
        );
        assert!(
            r.mix
                .keys()
                .all(|n| set.stains.iter().any(|s| s.name == *n))
        );
    }
    // A reading with the outer reflection is lighter and greyer.
    let included = Job::random(12, read_to(0.0), Surface::Included).unwrap();
    for (a, b) in included.truth.iter().zip(&exact.truth) {
        assert!(a.lab[0] > b.lab[0] && a.lab[2] < b.lab[2]);
    }
    let [(name, text), ..] = job(&StainSet::demo(), 0, Handling::default())
        .unwrap()
        .files()
        .unwrap();
    assert_eq!(name, "swatches.json");
    let swatches: serde_json::Value = serde_json::from_str(&text).unwrap();
    assert_eq!(swatches["swatches"][0]["stain"], "heath copper");
}

/// Thicker or thinner coats change what a swatch became, not what it was nor what is asked.
#[test]
fn uneven_coats_are_in_the_swatches_alone() {
    let even = Job::random(5, read_to(0.0), Surface::Excluded).unwrap();
    let handling = Handling {
        noise_delta_e_00: 0.0,
        uneven: 0.1,
    };
    let uneven = Job::random(5, handling, Surface::Excluded).unwrap();
    assert_eq!(
        (&even.requests, &even.truth),
        (&uneven.requests, &uneven.truth)
    );
    let mut thick = 0;
    for (a, b) in even.swatches.iter().zip(&uneven.swatches) {
        assert_eq!(a.base, b.base);
        let ratio = delta_e_00(b.base, b.after) / delta_e_00(a.base, a.after);
        // ± 2.5 standard deviations, and never the same.
        assert!(
            (0.75..1.3).contains(&ratio) && (ratio - 1.0).abs() > 1e-4,
            "{ratio}"
        );
        thick += usize::from(ratio > 1.0);
    }
    assert!(thick > 2 && thick + 2 < even.swatches.len(), "{thick}");
}

/// The walk down the tabs by the trade's set passes near the nominal tabs.
#[test]
fn the_trades_set_does_what_practice_expects() {
    let targets = trade_targets().unwrap();
    for t in &targets {
        near(t.mix.iter().map(|(_, share)| share).sum(), 1.0);
        assert!(t.target[0] < t.base[0] - 0.5, "{}", t.name);
        let Some((from, to)) = t.name.split_once(" to ") else {
            continue;
        };
        for (tab, lab) in [(from, t.base), (to, t.target)] {
            let d = delta_e_00(tab_body_lab_d65(tab).unwrap(), lab);
            println!("{}: {tab} {lab:.2?} is ΔE00 {d:.2} from its tab", t.name);
            assert!(d < 1.5, "{}: {tab} {lab:.2?}: {d:.2}", t.name);
        }
    }
    assert_eq!(targets.len(), 14);
}
