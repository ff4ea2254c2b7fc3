//! What `Variety::trust` and `Variety::toned` promise.

use scene_render::develop::decode;
use scene_render::illuminant::Illuminant;
use scene_render::render;
use scene_render::spec::{Format, SceneSpec, Space, Tone, Variety, WhiteBalance};
use scene_render::truth::{Region, zone_pixels};
use std::collections::BTreeSet;

fn small() -> Variety {
    Variety {
        size_px: [420, 280],
        ..Variety::trust()
    }
}

#[test]
fn every_usual_light_camera_and_file_is_met() {
    let (mut lights, mut cameras, mut turns, mut spaces) = (
        BTreeSet::new(),
        BTreeSet::new(),
        BTreeSet::new(),
        BTreeSet::new(),
    );
    let (mut low, mut high, mut stepped, mut tabs) = (0.0_f64, -9.0_f64, 0, BTreeSet::new());
    for seed in 1..=200 {
        let s = SceneSpec::random(seed, &Variety::trust());
        let lit = s.lights[0].illuminant;
        lights.insert(format!("{lit:?}"));
        cameras.insert(format!("{:?}", s.camera));
        turns.insert(s.output.orientation);
        spaces.insert(format!("{:?}", s.output.space));
        tabs.insert(s.tabs.len());
        low = low.min(s.exposure_ev);
        high = high.max(s.exposure_ev);
        let card = s.card.as_ref().expect("always a card");
        stepped += usize::from(card.steps_y.len() > 1);
        assert!(card.tilt_deg.iter().all(|t| t.abs() <= 6.0));
        assert!((60..=95).contains(&s.output.quality) && s.output.profile);
        assert!(s.optics.vignetting <= 0.12 && s.tone == Tone::Tagged);
        assert!(s.output.space != Space::AdobeRgb && s.output.format == Format::Jpeg);
        if lit == Illuminant::A {
            assert!(matches!(s.white_balance, WhiteBalance::Preset(_)));
        }
    }
    assert_eq!((lights.len(), cameras.len(), turns.len()), (8, 3, 8));
    assert_eq!(
        (spaces.len(), tabs.into_iter().collect()),
        (2, vec![2, 3, 4, 5, 6])
    );
    assert!(low < -1.2 && high > 0.0 && high <= 0.3, "{low} {high}");
    assert!((40..100).contains(&stepped), "{stepped}");
}

#[test]
fn toned_photos_have_a_curve_and_often_steps() {
    let mut tones = BTreeSet::new();
    let mut stepped = 0;
    for seed in 1..=100 {
        let toned = SceneSpec::random(seed, &Variety::toned());
        let mut plain = SceneSpec::random(seed, &Variety::trust());
        tones.insert(format!("{:?}", toned.tone));
        assert_ne!(toned.tone, Tone::Tagged);
        stepped += usize::from(toned.card.as_ref().unwrap().steps_y.len() > 2);
        plain.tone = toned.tone;
        assert_eq!(plain.teeth, toned.teeth);
    }
    assert_eq!(tones.len(), 3);
    assert!((35..=65).contains(&stepped), "{stepped}");
}

#[test]
fn tabs_and_card_are_in_full_view_and_in_range() {
    for seed in (1..=10).chain([45, 242]) {
        let spec = SceneSpec::random(seed, &small());
        let r = render(&spec).unwrap();
        let regions = &r.truth.scene.regions;
        let tabs: Vec<&Region> = regions.iter().filter(|q| q.kind == "tab").collect();
        assert_eq!(tabs.len(), spec.tabs.len(), "{seed}");
        let card = r.truth.card_outline.as_ref().expect("a card");
        for (what, outline) in tabs
            .iter()
            .map(|t| (t.id.as_str(), &t.outline))
            .chain([("card", card)])
        {
            for p in outline {
                assert!(
                    p[0] > 0.0 && p[1] > 0.0 && p[0] < 419.0 && p[1] < 279.0,
                    "{seed} {what} {p:?}"
                );
            }
        }
        for q in regions {
            let pixels = zone_pixels(q, 1);
            let full = pixels
                .iter()
                .filter(|&&(x, y, _)| {
                    r.plain.picture.rgb[y as usize * 420 + x as usize]
                        .iter()
                        .any(|v| decode(Space::Srgb, f64::from(*v)) > 0.985)
                })
                .count();
            // Highlights of lamps may clip, the surface may not.
            assert!(
                full * 10 < pixels.len() * 4,
                "{seed} {}: {full} of {}",
                q.id,
                pixels.len()
            );
        }
    }
}
