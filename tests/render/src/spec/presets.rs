//! The two fixed scenes: the demo and its darker sister. All names and figures are invented.

use super::*;
use crate::guide::tab_body_lab_d65;

/// A natural tooth with usual small irregularities.
pub(super) fn tooth(fdi: u8, colour: Gradient) -> Tooth {
    Tooth {
        fdi,
        colour,
        restoration: false,
        measured: false,
        scale: [1.0, 1.0],
        turn_deg: 0.0,
        shift_mm: [0.0; 3],
        rotation_deg: 0.0,
        translucency: 0.7,
        spots: 0.15,
        crazing: 0.3,
        blotch: 0.2,
        missing: false,
    }
}

/// Body colour moved by what neck and edge usually differ.
pub(super) fn gradient(body: [f64; 3], neck: [f64; 3], edge: [f64; 3]) -> Gradient {
    let add = |d: [f64; 3]| [body[0] + d[0], body[1] + d[1], body[2] + d[2]];
    Gradient {
        neck: add(neck),
        body,
        edge: add(edge),
    }
}

/// A tab of the classical names, in the row at `x`.
pub(super) fn tab(name: &str, x: f64, turn_deg: f64, y: f64, z: f64) -> Tab {
    let body = tab_body_lab_d65(name).unwrap_or([74.0, 0.5, 17.0]);
    Tab {
        name: name.to_owned(),
        colour: gradient(body, [-3.2, 1.2, 4.5], [-4.5, -0.8, -4.0]),
        edge_mm: [x, y],
        turn_deg,
        scale: 1.0,
        z_mm: z,
        tilt_deg: [0.0, 0.0],
        steel: true,
        label: true,
        gloss: 1.0,
    }
}

pub(super) fn optics() -> Optics {
    Optics {
        blur_px: 0.85,
        defocus_px_per_mm: 0.7,
        focus_z_mm: -0.8,
        vignetting: 0.02,
        veil: 0.004,
        full_well_electrons: 8_000.0,
        read_noise_electrons: 5.0,
        sharpening: 0.35,
        shake: None,
    }
}

/// The photo that a new user meets.
pub fn demo() -> SceneSpec {
    let natural = gradient([74.6, 1.1, 17.2], [-3.6, 2.2, 5.0], [-8.0, -1.8, -7.0]);
    let side = |d: f64| {
        gradient(
            [74.0 - d, 1.3 + 0.2 * d, 18.0 + d],
            [-3.5, 2.0, 4.6],
            [-7.0, -1.6, -6.0],
        )
    };
    let mut teeth: Vec<Tooth> = vec![
        tooth(11, natural),
        tooth(
            21,
            Gradient {
                neck: [75.8, 0.4, 14.6],
                body: [77.2, 0.2, 15.2],
                edge: [72.6, -0.8, 11.6],
            },
        ),
        tooth(12, side(0.3)),
        tooth(22, side(0.0)),
        tooth(13, side(3.0)),
        tooth(23, side(2.6)),
        tooth(14, side(1.6)),
        tooth(24, side(1.4)),
        tooth(15, side(2.2)),
        tooth(25, side(2.0)),
    ];
    for t in &mut teeth {
        match t.fdi {
            11 => {
                t.measured = true;
                t.spots = 0.35;
                t.crazing = 0.75;
                t.turn_deg = 0.4;
            }
            21 => {
                t.measured = true;
                t.restoration = true;
                t.spots = 0.0;
                t.crazing = 0.0;
                t.blotch = 0.25;
                t.translucency = 0.5;
                t.scale = [1.01, 0.99];
                t.turn_deg = -0.6;
            }
            12 => {
                t.rotation_deg = 5.0;
                t.turn_deg = 1.0;
                t.shift_mm = [0.15, 0.1, -0.2];
            }
            22 => {
                t.rotation_deg = -2.0;
                t.turn_deg = 1.2;
                t.shift_mm = [0.0, 0.15, 0.1];
                t.scale = [1.02, 0.98];
            }
            13 => t.scale = [0.98, 1.02],
            _ => {}
        }
    }
    SceneSpec {
        seed: 20_310_514,
        width_px: 3600,
        height_px: 2400,
        frame: Frame {
            centre_mm: [0.6, 4.6],
            width_mm: 63.0,
            roll_deg: 0.8,
        },
        camera: Camera::One,
        lights: vec![
            Light {
                illuminant: Illuminant::Flash,
                azimuth_deg: -33.0,
                elevation_deg: 9.0,
                distance_mm: 270.0,
                shape: LightShape::Panel([26.0, 36.0]),
                power: 0.52,
            },
            Light {
                illuminant: Illuminant::Flash,
                azimuth_deg: 34.0,
                elevation_deg: 7.0,
                distance_mm: 270.0,
                shape: LightShape::Panel([26.0, 36.0]),
                power: 0.48,
            },
        ],
        ambient: Some(Ambient {
            illuminant: Illuminant::Flash,
            share: 0.12,
        }),
        exposure_ev: 0.0,
        white_balance: WhiteBalance::OffBy([1.015, 1.0, 1.005]),
        tone: Tone::Tagged,
        optics: optics(),
        output: Output {
            space: Space::Srgb,
            format: Format::Jpeg,
            quality: 92,
            chroma_half: true,
            bits: 8,
            orientation: 1,
            profile: true,
            exif: true,
            date: "2031-05-14 10:12:30".into(),
        },
        teeth,
        tissue: Tissue {
            gum: [54.5, 24.5, 14.0],
            recession_mm: 0.0,
            papilla: 1.0,
            stipple: 0.8,
            inflammation: 0.15,
            upper_lip_mm: None,
            lower_lip_mm: Some(24.8),
            opening_mm: 16.0,
            arch_per_mm: 0.016,
        },
        tabs: vec![
            tab("A1", -23.4, 1.5, 0.3, 0.1),
            tab("A2", -14.6, -0.8, 0.2, 0.3),
            tab("A3", -5.7, 0.6, 0.15, 0.3),
            tab("B2", 3.2, -1.4, 0.2, 0.2),
            tab("C1", 12.1, 1.0, 0.25, 0.2),
        ],
        card: Some(Card {
            centre_mm: [24.6, 15.5],
            size_mm: [14.0, 17.0],
            turn_deg: -4.0,
            tilt_deg: [2.0, -1.5],
            z_mm: 0.6,
            steps_y: vec![0.184],
            waviness: 0.01,
            tints_ab: Vec::new(),
            face: CardFace::Smooth,
        }),
        glare: 1.0,
        pair: None,
        teeth_gloss: 1.0,
        shadows: Vec::new(),
        treatment: None,
        scenery: None,
    }
}

/// Another camera, its balance left at a setting for open shade (strongly warm), other
/// tabs, an older mouth.
pub fn other() -> SceneSpec {
    let mut spec = demo();
    spec.seed = 20_310_820;
    spec.camera = Camera::Two;
    spec.width_px = 3000;
    spec.height_px = 2000;
    spec.frame = Frame {
        centre_mm: [-0.8, 4.0],
        width_mm: 60.0,
        roll_deg: -1.6,
    };
    spec.lights = vec![
        Light {
            illuminant: Illuminant::Flash,
            azimuth_deg: -24.0,
            elevation_deg: 6.0,
            distance_mm: 240.0,
            shape: LightShape::Panel([30.0, 24.0]),
            power: 0.55,
        },
        Light {
            illuminant: Illuminant::Flash,
            azimuth_deg: 27.0,
            elevation_deg: 4.0,
            distance_mm: 240.0,
            shape: LightShape::Panel([30.0, 24.0]),
            power: 0.45,
        },
    ];
    spec.ambient = Some(Ambient {
        illuminant: Illuminant::Flash,
        share: 0.15,
    });
    spec.white_balance = WhiteBalance::Preset(Illuminant::Planck(10_000.0));
    spec.exposure_ev = -0.15;
    spec.optics.full_well_electrons = 9_000.0;
    spec.output.quality = 84;
    spec.output.date = "2031-08-20 16:41:05".into();
    let older = |d: f64| {
        gradient(
            [70.5 - d, 2.2 + 0.2 * d, 20.5 + 0.8 * d],
            [-3.8, 2.4, 4.6],
            [-4.0, -1.2, -4.4],
        )
    };
    for t in &mut spec.teeth {
        t.restoration = t.fdi == 12;
        t.measured = matches!(t.fdi, 11 | 12 | 21);
        t.colour = older(match t.fdi % 10 {
            1 => 0.0,
            2 => 0.6,
            3 => 3.2,
            _ => 1.8,
        });
        t.crazing = 0.9;
        t.translucency = 0.45;
        t.scale[1] *= if t.fdi % 10 == 1 { 0.96 } else { 1.0 };
        if t.fdi == 12 {
            t.colour = Gradient {
                neck: [68.8, 2.6, 21.0],
                body: [70.0, 1.6, 19.4],
                edge: [67.0, 0.8, 16.2],
            };
            t.crazing = 0.0;
            t.rotation_deg = 2.0;
        }
    }
    spec.tissue.gum = [50.5, 23.5, 13.0];
    spec.tissue.recession_mm = 0.7;
    spec.tissue.papilla = 0.92;
    spec.tissue.inflammation = 0.35;
    spec.tabs = vec![
        tab("A3", -13.6, -2.0, 0.7, 0.2),
        tab("A3.5", -4.6, 1.2, 0.4, 0.3),
        tab("B3", 4.4, -0.5, 0.5, 0.3),
        tab("D3", 13.5, 2.4, 0.9, 0.1),
    ];
    for t in &mut spec.tabs {
        t.tilt_deg[1] = -2.5;
    }
    spec.card = Some(Card {
        centre_mm: [-23.6, 14.6],
        size_mm: [12.5, 16.0],
        turn_deg: 6.0,
        tilt_deg: [-2.0, 1.0],
        z_mm: 0.4,
        steps_y: vec![0.184],
        waviness: 0.01,
        tints_ab: Vec::new(),
        face: CardFace::Smooth,
    });
    spec
}
