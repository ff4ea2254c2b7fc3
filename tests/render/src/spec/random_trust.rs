//! Random sound photos: every usual kind of light, exposure and file, each within what a careful
//! user can meet, always with a card and two to six tabs. Overrides of a random scene, from
//! random streams of their own.

use super::random::{Variety, card, tabs};
use super::*;
use crate::camera::{gains_for, output_from_balanced};
use crate::rng::Rng;
use crate::spectrum::Spectrum;

/// Turns a random scene into a sound photo of `Variety::trust`.
pub(super) fn apply(spec: &mut SceneSpec, seed: u64, v: &Variety) {
    lay_out(spec, seed, v);
    light(spec, seed);
    optics(&mut spec.optics, seed, v);
    let r = &mut Rng::new(seed, 34);
    let o = &mut spec.output;
    o.quality = 60 + r.below(36) as u8;
    o.space = r.pick(&[Space::Srgb, Space::DisplayP3]);
    o.orientation = 1 + r.below(8) as u8;
    (o.profile, o.exif, o.format, o.bits) = (true, true, Format::Jpeg, 8);
    if v.tones {
        spec.tone = Rng::new(seed, 35).pick(&[Tone::Filmic, Tone::Punchy, Tone::Lifted]);
    }
    if let Some(pair) = &mut spec.pair {
        let later = Rng::new(seed, 36).range(15.0, 90.0);
        pair.date = Some(later_date(&spec.output.date, later as u32));
    }
    spec.exposure_ev = Rng::new(seed, 37).range(-1.3, 0.3).min(headroom_ev(spec));
}

/// Tabs on one side and the card on the other, both in full view.
fn lay_out(spec: &mut SceneSpec, seed: u64, v: &Variety) {
    let r = &mut Rng::new(seed, 30);
    let count = 2 + r.below(5);
    let spacing = r.range(8.6, 9.4);
    let stepped = r.chance(if v.tones { 0.5 } else { 0.35 });
    let side = r.pick(&[-1.0, 1.0]);
    let aspect = f64::from(v.size_px[1]) / f64::from(v.size_px[0]);
    let span = count as f64 * spacing;
    let mut c = card(&mut Rng::new(seed, 31), &spec.frame, aspect, &[], 0.0);
    if stepped {
        let n = 3 + r.below(4);
        c.steps_y = [0.763, 0.407, 0.184, 0.0624, 0.30, 0.55][..n].to_vec();
        c.size_mm = [r.range(17.0, 22.0), r.range(7.0, 10.0)];
    } else {
        c.steps_y = vec![r.pick(&[0.184, 0.18, 0.30])];
        c.size_mm = [r.range(10.0, 15.0), r.range(10.0, 15.0)];
    }
    let needed = span + c.size_mm[0] + 6.5;
    let width = r.range(needed.max(42.0), (needed + 12.0).max(60.0));
    spec.frame.width_mm = width;
    spec.frame.centre_mm[0] = r.range(-2.5, 2.5);
    spec.frame.centre_mm[1] = 4.6 + r.range(-1.5, 1.5) + (width * aspect - 42.0) * 0.18;
    spec.frame.roll_deg = 1.5 * r.normal();
    let (middle, low) = (
        spec.frame.centre_mm[0],
        spec.frame.centre_mm[1] + width * aspect / 2.0,
    );
    // Below the upper teeth, however short the frame is.
    c.size_mm[1] = c.size_mm[1].min(low - 3.8);
    c.centre_mm = [
        middle + side * (width / 2.0 - c.size_mm[0] / 2.0 - 2.8),
        low - c.size_mm[1] / 2.0 - 2.8,
    ];
    c.turn_deg = 3.0 * r.normal();
    c.tilt_deg = [r.range(-6.0, 6.0), r.range(-6.0, 6.0)];
    c.z_mm = r.range(0.0, 1.5);
    let mut list = tabs(&mut Rng::new(seed, 32), count, spacing, &spec.frame, 0.0);
    let have = list.iter().map(|t| t.edge_mm[0]).sum::<f64>() / count as f64;
    let room = width - needed;
    let want = middle - side * (width / 2.0 - span / 2.0 - 1.5 - room * r.unit());
    for t in &mut list {
        t.edge_mm[0] += want - have;
    }
    spec.tabs = list;
    spec.card = Some(c);
}

/// The main light; tungsten comes with a balance half-way between it and daylight.
fn light(spec: &mut SceneSpec, seed: u64) {
    let r = &mut Rng::new(seed, 33);
    let lit = r.pick(&[
        Illuminant::D65,
        Illuminant::D55,
        Illuminant::D50,
        Illuminant::Flash,
        Illuminant::LedCool,
        Illuminant::LedNeutral,
        Illuminant::F11,
        Illuminant::A,
    ]);
    // Nearer lamps fall off more; two of them make up for each other.
    let near = r.range(0.7, 1.1);
    for l in &mut spec.lights {
        l.illuminant = lit;
        l.distance_mm *= near;
    }
    if let Some(ambient) = &mut spec.ambient {
        ambient.illuminant = lit;
        ambient.share = ambient.share.max(0.06);
        if r.chance(0.25) {
            ambient.illuminant =
                r.pick(&[Illuminant::LedNeutral, Illuminant::D65, Illuminant::F11]);
            ambient.share = r.range(0.03, 0.08);
        }
    }
    let own = [1.0 + 0.05 * r.normal(), 1.0, 1.0 + 0.06 * r.normal()];
    spec.white_balance = match lit {
        // 350 and 182 mired: half-way is 266.
        Illuminant::A => WhiteBalance::Preset(Illuminant::Planck(1e6 / r.range(250.0, 282.0))),
        Illuminant::F11 => r.pick(&[
            WhiteBalance::OffBy(own),
            WhiteBalance::Preset(Illuminant::Planck(4400.0)),
        ]),
        _ => r.pick(&[
            WhiteBalance::Right,
            WhiteBalance::OffBy(own),
            WhiteBalance::GreyWorld(0.25),
            WhiteBalance::Preset(Illuminant::Planck(
                5500.0 * (0.18 * own[0].ln() / 0.05).exp(),
            )),
        ]),
    };
}

fn optics(o: &mut Optics, seed: u64, v: &Variety) {
    let r = &mut Rng::new(seed, 38);
    o.blur_px = r.range(0.35, 0.9) * (f64::from(v.size_px[0]) / 3600.0).sqrt().max(0.6);
    o.vignetting = r.range(0.0, 0.12);
    o.full_well_electrons = 25_000.0 * r.range(-2.6, 0.4).exp();
    o.read_noise_electrons = r.range(3.0, 9.0);
}

/// The exposure at which the brightest thing that must not clip nearly does.
pub(super) fn headroom_ev(spec: &SceneSpec) -> f64 {
    let tooth = spec
        .teeth
        .iter()
        .filter(|t| t.measured)
        .map(|t| luminance(t.colour.body[0]))
        .chain(spec.tabs.iter().map(|t| luminance(t.colour.body[0])))
        .fold(0.0, f64::max);
    let card = spec
        .card
        .iter()
        .flat_map(|c| &c.steps_y)
        .copied()
        .fold(0.0, f64::max);
    // Nearer places and the card's own tilt may get a little more than the plane; teeth send back
    // more red than green.
    (0.94 / (0.90 * 1.12 * (1.12 * tooth).max(card) * cast(spec))).log2()
}

/// Luminance of L*.
pub(super) fn luminance(l: f64) -> f64 {
    crate::colour::xyz_from_lab([l, 0.0, 0.0], crate::colour::white_d65())[1]
}

/// Greatest number of a white under all lights, before the camera's matrix and after it.
pub(super) fn cast(spec: &SceneSpec) -> f64 {
    let mut total = Spectrum::flat(0.0);
    let rest = 1.0 - spec.ambient.as_ref().map_or(0.0, |a| a.share);
    let power: f64 = spec.lights.iter().map(|l| l.power).sum();
    for l in &spec.lights {
        let (s, k) = (l.illuminant.spectrum(), rest * l.power / power);
        total = Spectrum(std::array::from_fn(|i| total.0[i] + k * s.0[i]));
    }
    if let Some(a) = &spec.ambient {
        let s = a.illuminant.spectrum();
        total = Spectrum(std::array::from_fn(|i| total.0[i] + a.share * s.0[i]));
    }
    let right = gains_for(spec.camera, &total);
    let balanced = match spec.white_balance {
        WhiteBalance::Right => [1.0; 3],
        WhiteBalance::Preset(light) => {
            let g = gains_for(spec.camera, &light.spectrum());
            std::array::from_fn(|c| g[c] / right[c])
        }
        WhiteBalance::OffBy(k) => k,
        // A mouth is red: its average asks for less red and more blue.
        WhiteBalance::GreyWorld(strength) => [1.0, 1.0, 2.0_f64.powf(strength)],
    };
    // The camera's brightest channel sets the scale of all (see `develop`).
    let low = right
        .iter()
        .zip(balanced)
        .map(|(r, b)| r * b)
        .fold(f64::INFINITY, f64::min);
    let raw: [f64; 3] = std::array::from_fn(|c| balanced[c] / low);
    // The matrix spreads a cast: its numbers can be larger than those before it.
    let m = output_from_balanced(spec.camera, spec.output.space);
    let out = crate::colour::apply(&m, raw);
    raw.iter().chain(&out).copied().fold(0.0, f64::max)
}

/// A time of the same day, some seconds later.
pub(super) fn later_date(date: &str, seconds: u32) -> String {
    let Some((day, time)) = date.split_once(' ') else {
        return date.to_owned();
    };
    let now = time
        .split(':')
        .filter_map(|v| v.parse::<u32>().ok())
        .fold(0, |s, v| s * 60 + v);
    let then = (now + seconds).min(86_399);
    format!(
        "{day} {:02}:{:02}:{:02}",
        then / 3600,
        then / 60 % 60,
        then % 60
    )
}
