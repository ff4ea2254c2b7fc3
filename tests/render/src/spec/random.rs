//! Random scenes by seed: teeth, gums, tabs, card. What the camera does is in `random_camera`.

use super::presets::{gradient, tab, tooth};
use super::random_camera::{lights, optics, output, tone, white_balance};
use super::*;
use crate::guide::CLASSICAL_16;
use crate::rng::Rng;

/// How far random scenes stray.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Variety {
    /// Upright size.
    pub size_px: [u32; 2],
    /// Framing, crowding, gaps, lips, lower teeth, cards at odd places: 0 tidy – 1 wild.
    pub geometry: f64,
    /// Kinds of light, mixtures, wrong balance, exposure: 0 tidy – 1 wild.
    pub light: f64,
    /// Tone curves besides the plain one.
    pub tones: bool,
    /// Colour spaces, formats, depths, orientations besides upright sRGB JPEG.
    pub files: bool,
    /// Chance of a card in the picture.
    pub card: f64,
    /// Make a cross-polarised twin.
    pub pair: bool,
    /// Sound photos of all kinds of light, exposure and file, always with a card and 2–6 tabs
    /// (`random_trust`).
    pub trust: bool,
    /// Photos of every kind that a finder can meet, with hands and tools (`random_finding`).
    pub finding: bool,
}

impl Variety {
    /// For accuracy: a card in full view, plain tone, sRGB; lights, cameras and mouths vary.
    pub fn accuracy() -> Self {
        Self {
            size_px: [1500, 1000],
            geometry: 0.35,
            light: 0.5,
            tones: false,
            files: false,
            card: 1.0,
            pair: false,
            trust: false,
            finding: false,
        }
    }

    /// For judging the correction and the light checks on sound photos: all usual lights and
    /// exposures, casts, falloff, noise, compression, wide spaces, orientations; plain tone.
    pub fn trust() -> Self {
        Self {
            trust: true,
            ..Self::accuracy()
        }
    }

    /// As [`Self::trust`] with a camera's tone curve; half of the cards have several steps.
    pub fn toned() -> Self {
        Self {
            tones: true,
            ..Self::trust()
        }
    }

    /// For judging what finds cards, tabs and crowns without a tap: framings from two teeth to a
    /// whole face, all lights, mouths and surroundings. The height of the picture varies too.
    pub fn finding() -> Self {
        Self {
            finding: true,
            ..Self::wild()
        }
    }

    /// For judging what finds cards, tabs and crowns by itself: everything varies.
    pub fn wild() -> Self {
        Self {
            size_px: [1500, 1000],
            geometry: 1.0,
            light: 1.0,
            tones: true,
            files: false,
            card: 0.85,
            pair: false,
            trust: false,
            finding: false,
        }
    }
}

impl Default for Variety {
    fn default() -> Self {
        Self::accuracy()
    }
}

impl SceneSpec {
    /// The scene of a seed; the same seed and variety give the same scene.
    pub fn random(seed: u64, variety: &Variety) -> Self {
        let g = variety.geometry;
        let r = &mut Rng::new(seed, 1);
        let opening_mm = r.range(13.0, 22.0);
        let count = if r.chance(0.15 * g) {
            0
        } else {
            1 + r.below(5) + usize::from(r.chance(0.5))
        };
        let spacing = r.range(8.5, 10.0);
        let needed = (count as f64 * spacing + 20.0).max(34.0);
        let width_mm = r.range(needed.min(58.0), (needed + 18.0 + 12.0 * g).min(82.0));
        let aspect = f64::from(variety.size_px[1]) / f64::from(variety.size_px[0]);
        let mut frame = Frame {
            centre_mm: [
                r.range(-2.0, 2.0) * (1.0 + 3.0 * g),
                4.6 + r.range(-2.0, 2.0) * (1.0 + g),
            ],
            width_mm,
            roll_deg: r.normal() * (1.0 + 3.5 * g),
        };
        // Tall frames see more; keep the biting edges near the upper third.
        frame.centre_mm[1] += (width_mm * aspect - 42.0) * 0.18;
        let (lights, ambient) = lights(seed, variety);
        let tabs = tabs(&mut Rng::new(seed, 2), count, spacing, &frame, g);
        let card = (Rng::new(seed, 3).chance(variety.card))
            .then(|| card(&mut Rng::new(seed, 4), &frame, aspect, &tabs, g));
        let pair = variety.pair.then(|| {
            let r = &mut Rng::new(seed, 5);
            let s = f64::from(variety.size_px[0]) / 1500.0;
            Pair {
                shift_px: [r.range(-25.0, 25.0) * s, r.range(-20.0, 20.0) * s],
                turn_deg: r.range(-2.0, 2.0),
                scale: r.range(0.97, 1.03),
                exposure_ev: r.range(-0.4, 0.2),
                residual_glare: r.range(0.01, 0.02),
                filter_gains: [1.0, r.range(0.96, 1.0), r.range(0.92, 0.98)],
                card_shift_mm: [r.range(-0.5, 0.5), r.range(-0.5, 0.5)],
                date: None,
            }
        });
        let mut spec = Self {
            seed,
            width_px: variety.size_px[0],
            height_px: variety.size_px[1],
            frame,
            camera: Rng::new(seed, 6).pick(&[Camera::One, Camera::Two, Camera::Three]),
            lights,
            ambient,
            exposure_ev: Rng::new(seed, 7).range(-0.25, 0.08) * (1.0 + 1.2 * variety.light),
            white_balance: white_balance(seed, variety),
            tone: tone(seed, variety),
            optics: optics(seed, variety),
            output: output(seed, variety),
            teeth: teeth(&mut Rng::new(seed, 8), g),
            tissue: tissue(&mut Rng::new(seed, 9), g, opening_mm),
            tabs,
            card,
            glare: Rng::new(seed, 10).range(0.6, 1.2),
            pair,
            teeth_gloss: 1.0,
            shadows: Vec::new(),
            treatment: None,
            scenery: None,
        };
        if variety.trust {
            super::random_trust::apply(&mut spec, seed, variety);
        }
        if variety.finding {
            super::random_finding::apply(&mut spec, seed, variety);
        }
        spec
    }
}

fn teeth(r: &mut Rng, g: f64) -> Vec<Tooth> {
    let body = [r.range(67.0, 81.0), r.range(-0.3, 3.2), r.range(11.0, 22.5)];
    let neck = [r.range(-5.0, -2.0), r.range(0.8, 2.8), r.range(3.0, 6.0)];
    let edge = [
        r.range(-8.0, -3.0),
        r.range(-2.0, -0.6),
        r.range(-7.0, -3.0),
    ];
    let (spots, crazing, clear) = (r.unit() * 0.6, r.unit(), r.range(0.3, 1.0));
    let crowded = r.chance(0.3 * g);
    let size = [1.0 + 0.05 * r.normal(), 1.0 + 0.06 * r.normal()];
    let restored = r.pick(&[11u8, 21, 12, 22, 13, 0]);
    let gap = if r.chance(0.15 * g) {
        r.pick(&[12u8, 22, 14, 24, 11])
    } else {
        0
    };
    let lower = r.chance(0.25 + 0.4 * g);
    let measured_lateral = r.chance(0.4);
    let mut out = Vec::new();
    for quadrant in 1..=4u8 {
        if quadrant > 2 && !lower {
            continue;
        }
        for place in 1..=5u8 {
            let fdi = quadrant * 10 + place;
            // Canines darkest, all a little of their own.
            let deeper = [0.0, 0.5, 3.0, 1.6, 2.0][usize::from(place) - 1];
            let own = [
                body[0] - deeper + 0.6 * r.normal(),
                body[1] + 0.2 * deeper + 0.15 * r.normal(),
                body[2] + deeper + 0.5 * r.normal(),
            ];
            let mut t = tooth(fdi, gradient(own, neck, edge));
            t.measured =
                place == 1 && quadrant < 3 || (measured_lateral && place == 2 && quadrant < 3);
            t.scale = [
                size[0] * (1.0 + 0.015 * r.normal()),
                size[1] * (1.0 + 0.02 * r.normal()),
            ];
            let unruly = if crowded { 2.5 } else { 0.6 + 0.6 * g };
            t.turn_deg = 1.2 * unruly * r.normal();
            t.rotation_deg = 3.0 * unruly * r.normal();
            t.shift_mm = [
                0.10 * unruly * r.normal(),
                0.12 * unruly * r.normal(),
                0.25 * unruly * r.normal(),
            ];
            t.translucency = clear;
            t.spots = spots;
            t.crazing = crazing;
            t.blotch = r.unit() * 0.4;
            t.missing = fdi == gap;
            if fdi == restored {
                t.restoration = true;
                t.measured = true;
                t.spots = 0.0;
                t.crazing = 0.0;
                let off = [1.8 * r.normal(), 0.6 * r.normal(), 1.8 * r.normal()];
                let milder = r.range(0.3, 1.0);
                t.colour = gradient(
                    std::array::from_fn(|i| own[i] + off[i]),
                    neck.map(|v| v * milder),
                    edge.map(|v| v * milder),
                );
                t.blotch = if r.chance(0.3) { 1.0 } else { 0.2 };
            }
            t.measured &= !t.missing;
            out.push(t);
        }
    }
    out
}

fn tissue(r: &mut Rng, g: f64, opening_mm: f64) -> Tissue {
    let pigmented = r.chance(0.2 * g);
    let gum = if pigmented {
        [r.range(36.0, 46.0), r.range(13.0, 19.0), r.range(9.0, 13.0)]
    } else {
        [
            r.range(46.0, 58.0),
            r.range(19.0, 27.0),
            r.range(11.0, 17.0),
        ]
    };
    Tissue {
        gum,
        recession_mm: r.range(-0.3, 0.6 + 1.2 * g),
        papilla: r.range(0.80, 1.05),
        stipple: r.unit(),
        inflammation: r.unit().powi(2),
        upper_lip_mm: r.chance(0.3 * g + 0.05).then(|| r.range(-17.0, -13.0)),
        lower_lip_mm: r.chance(0.5).then(|| opening_mm + r.range(6.0, 11.0)),
        opening_mm,
        arch_per_mm: r.range(0.012, 0.020),
    }
}

pub(super) fn tabs(r: &mut Rng, count: usize, spacing: f64, frame: &Frame, g: f64) -> Vec<Tab> {
    let steel = r.chance(0.6);
    let label = r.chance(0.7);
    let fan = r.range(-2.0, 2.0 + 3.0 * g);
    let start = r.range(-1.0, 1.0);
    let set = [1.0 * r.normal(), 0.3 * r.normal(), 0.9 * r.normal()];
    let mut left: Vec<&str> = CLASSICAL_16.iter().map(|(n, _)| *n).collect();
    let middle =
        frame.centre_mm[0] + start * (frame.width_mm / 2.0 - count as f64 * spacing / 2.0).max(0.0);
    let (y, z) = (r.range(0.2, 1.2 + 1.5 * g), r.range(-0.3, 0.8));
    let scale = r.range(0.94, 1.06);
    (0..count)
        .map(|i| {
            let name = left.remove(r.below(left.len()));
            let k = i as f64 - (count as f64 - 1.0) / 2.0;
            let mut t = tab(
                name,
                middle + k * spacing,
                fan * k + 1.2 * r.normal(),
                y + 0.25 * r.normal() + 0.03 * k * k * fan,
                z + 0.15 * r.normal(),
            );
            let own = [0.4 * r.normal(), 0.15 * r.normal(), 0.4 * r.normal()];
            for lab in [&mut t.colour.neck, &mut t.colour.body, &mut t.colour.edge] {
                for c in 0..3 {
                    lab[c] += set[c] + own[c];
                }
            }
            t.steel = steel;
            t.label = label;
            t.scale = scale;
            t.tilt_deg = [2.0 * r.normal() * (0.6 + g), 2.0 * r.normal() * (0.6 + g)];
            t
        })
        .collect()
}

pub(super) fn card(r: &mut Rng, frame: &Frame, aspect: f64, tabs: &[Tab], g: f64) -> Card {
    let stepped = r.chance(0.3);
    let size_mm = if stepped {
        [r.range(18.0, 26.0), r.range(6.0, 10.0)]
    } else {
        [r.range(8.0, 16.0), r.range(8.0, 18.0)]
    };
    let (hw, hh) = (frame.width_mm / 2.0, frame.width_mm * aspect / 2.0);
    // Away from the tabs: at the side that has more room, low; sometimes at the top.
    let mean = tabs.iter().map(|t| t.edge_mm[0]).sum::<f64>() / tabs.len().max(1) as f64
        - frame.centre_mm[0];
    let side = if mean > 0.0 { -1.0 } else { 1.0 };
    let inset = if r.chance(0.35 * g) { -0.25 } else { 0.08 };
    let x = frame.centre_mm[0] + side * (hw - size_mm[0] * (0.5 + inset));
    let low = !(r.chance(0.25 * g));
    let y = frame.centre_mm[1] + if low { 1.0 } else { -1.0 } * (hh - size_mm[1] * (0.5 + inset));
    let y = if low {
        y.max(4.0 + size_mm[1] / 2.0)
    } else {
        y.min(-12.0)
    };
    Card {
        centre_mm: [x, y],
        size_mm,
        turn_deg: r.normal() * (3.0 + 8.0 * g),
        tilt_deg: [r.normal() * (2.0 + 3.0 * g), r.normal() * (2.0 + 3.0 * g)],
        z_mm: r.range(0.0, 1.5 + 1.5 * g),
        steps_y: if stepped {
            vec![0.763, 0.407, 0.184, 0.0624]
        } else {
            vec![r.pick(&[0.184, 0.18, 0.184, 0.30])]
        },
        waviness: r.range(0.004, 0.012),
        tints_ab: Vec::new(),
        face: CardFace::Smooth,
    }
}
