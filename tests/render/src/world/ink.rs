//! Colours of a body: six spectra whose shares a painter sets per place, each already seen
//! through every light by the camera, and by the standard observer under D65.

use crate::colour::xyz_under;
use crate::illuminant::Illuminant;
use crate::material::{Family, dyed, grey, lift_d65, stainless, tinted};
use crate::spec::{Card, Gradient, SceneSpec};
use crate::spectrum::Spectrum;

/// Spectra per body.
pub const INKS: usize = 6;
/// Lamps 0–2, ambient (3), light returned by the neighbourhood (4).
pub const LIGHTS: usize = 5;

/// The spectra of one body.
pub type Palette = [Spectrum; INKS];

/// A palette seen.
#[derive(Debug, Clone)]
pub struct Seen {
    /// Camera raw numbers of a face-on diffuse surface, by light and spectrum; white = 1 in green
    /// for each light.
    pub raw: [[[f32; 3]; INKS]; LIGHTS],
    /// XYZ under D65.
    pub xyz: [[f32; 3]; INKS],
    /// XYZ when D65 has first been returned by the neighbourhood.
    pub xyz_returned: [[f32; 3]; INKS],
}

/// The light sources' spectra and the camera, ready to see palettes.
pub struct Viewer {
    /// Spectrum of each of the [`LIGHTS`].
    pub lights: [Spectrum; LIGHTS],
    /// Camera rows, scaled so that the whole light on white gives green 1.
    pub camera: [Spectrum; 3],
    /// Camera numbers of white under each light.
    pub white_raw: [[f32; 3]; LIGHTS],
    /// Reflectance of the neighbourhood.
    returned: Spectrum,
}

impl Viewer {
    /// From lights and camera.
    pub fn new(spec: &SceneSpec, shares: &[f64], ambient_share: f64) -> Self {
        let returned = lift_d65(Family::Mucosa, spec.tissue.gum).mix(&Spectrum::flat(0.55), 0.45);
        let mut total = Spectrum::flat(0.0);
        let mut lights = [Spectrum::flat(0.0); LIGHTS];
        let mut add = |s: &Spectrum, k: f64| {
            for i in 0..crate::spectrum::N {
                total.0[i] += s.0[i] * k;
            }
        };
        for (k, l) in spec.lights.iter().take(3).enumerate() {
            lights[k] = l.illuminant.spectrum();
            add(&lights[k], shares.get(k).copied().unwrap_or(0.0));
        }
        let ambient = spec
            .ambient
            .as_ref()
            .map_or(Illuminant::D65, |a| a.illuminant);
        lights[3] = ambient.spectrum();
        add(&lights[3], ambient_share);
        lights[4] = total.times(&returned);
        let rows = crate::camera::sensitivities(spec.camera);
        let k = 1.0 / rows[1].dot(&total);
        let camera = rows.map(|r| r.scaled(k));
        let white_raw =
            std::array::from_fn(|l| std::array::from_fn(|c| camera[c].dot(&lights[l]) as f32));
        Self {
            lights,
            camera,
            white_raw,
            returned,
        }
    }

    /// The sum of the lights as the card plane gets it.
    pub fn see(&self, palette: &Palette) -> Seen {
        let d65 = Illuminant::D65.spectrum();
        let to_f32 = |v: [f64; 3]| v.map(|x| x as f32);
        let returned = d65.times(&self.returned);
        let y = crate::colour::xyz_under(&d65, &self.returned)[1];
        Seen {
            raw: std::array::from_fn(|l| {
                std::array::from_fn(|b| {
                    std::array::from_fn(|c| {
                        self.camera[c].dot(&self.lights[l].times(&palette[b])) as f32
                    })
                })
            }),
            xyz: std::array::from_fn(|b| to_f32(xyz_under(&d65, &palette[b]))),
            xyz_returned: std::array::from_fn(|b| {
                to_f32(xyz_under(&returned, &palette[b]).map(|v| v * y))
            }),
        }
    }
}

/// Neck, body, edge, chalky white, warm dentine, stain.
pub fn crown_palette(g: &Gradient, family: Family) -> Palette {
    let near =
        |lab: [f64; 3], d: [f64; 3]| [lab[0] + d[0], lab[1] + d[1], (lab[2] + d[2]).max(3.0)];
    [
        lift_d65(family, g.neck),
        lift_d65(family, g.body),
        lift_d65(family, g.edge),
        lift_d65(family, near(g.body, [7.0, -0.8, -7.0])),
        lift_d65(family, near(g.body, [-1.5, 1.2, 5.0])),
        lift_d65(Family::Tooth, [52.0, 5.0, 21.0]),
    ]
}

/// Base, pale, red, vessel, dark, wet white.
pub fn mucosa_palette(lab: [f64; 3]) -> Palette {
    let m = |d: [f64; 3]| {
        lift_d65(
            Family::Mucosa,
            [lab[0] + d[0], lab[1] + d[1], lab[2] + d[2]],
        )
    };
    [
        m([0.0, 0.0, 0.0]),
        m([8.0, -6.5, -1.5]),
        m([-7.0, 5.0, 1.0]),
        m([-14.0, 3.0, -3.5]),
        m([-22.0, 0.0, -2.0]),
        m([14.0, -12.0, -3.0]),
    ]
}

/// Steps of a card (up to six).
pub fn card_palette(card: &Card, phase: f64) -> Palette {
    std::array::from_fn(|i| {
        let steps = &card.steps_y;
        let y = steps.get(i).or(steps.last()).copied().unwrap_or(0.184);
        let paper = grey(y, card.waviness, phase + 0.3 * i as f64);
        match card.tints_ab.get(i).or(card.tints_ab.last()) {
            Some(ab) => tinted(&paper, *ab),
            None => paper,
        }
    })
}

/// Metal, plastic, print.
pub fn stem_palette(steel: bool) -> Palette {
    let body = if steel {
        stainless().scaled(0.62)
    } else {
        grey(0.30, 0.02, 1.0)
    };
    let print = if steel {
        grey(0.10, 0.01, 0.0)
    } else {
        grey(0.85, 0.01, 0.0)
    };
    [body, body.scaled(0.7), print, body, body, body]
}

/// Lip, paler lip, redder lip, skin, redder skin, dark lip.
pub fn face_palette(lip: [f64; 3], skin: [f64; 3]) -> Palette {
    let m = |lab: [f64; 3], d: [f64; 3]| {
        lift_d65(
            Family::Mucosa,
            std::array::from_fn(|i| (lab[i] + d[i]).max(if i == 0 { 16.0 } else { 2.0 })),
        )
    };
    [
        m(lip, [0.0; 3]),
        m(lip, [7.0, -5.0, -1.0]),
        m(lip, [-7.0, 4.0, 1.0]),
        m(skin, [0.0; 3]),
        m(skin, [-3.0, 3.5, 0.5]),
        m(lip, [-18.0, -2.0, -2.0]),
    ]
}

/// Base, darker, paler, dark, grey, gum: things of one dye.
pub fn dyed_palette(lab: [f64; 3]) -> Palette {
    let off = |l: f64, k: f64| dyed([(lab[0] + l).clamp(4.0, 92.0), lab[1] * k, lab[2] * k]);
    [
        off(0.0, 1.0),
        off(-9.0, 1.0),
        off(9.0, 0.8),
        off(-25.0, 0.6),
        grey(0.45, 0.01, 0.0),
        lift_d65(Family::Mucosa, [52.0, 24.0, 14.0]),
    ]
}
