//! Random photos of every kind that a finder can meet: framings from two teeth to a whole face,
//! all mouths, lights and surroundings, tabs and cards wherever hands put them. Overrides of a
//! random scene, from random streams of their own (200 and up).

mod light;
mod mouth;
mod on_teeth;
mod surroundings;
mod things;

use super::random::Variety;
use super::*;
use crate::rng::Rng;

/// How near the camera is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Framing {
    /// Two to four teeth.
    Close,
    /// The usual: canine to canine and some more.
    Usual,
    /// A whole smile.
    Whole,
}

/// What the jaws do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Jaws {
    /// Biting: upper edges before the lower ones.
    Biting,
    /// Both seen, a gap between.
    Open,
    /// Only upper teeth.
    Upper,
    /// The frame is on the lower teeth.
    Lower,
}

/// What the parts of a scene must agree on.
struct Plan {
    framing: Framing,
    jaws: Jaws,
    /// Height ÷ width.
    aspect: f64,
    opening_mm: f64,
    /// Lips pulled away (retractors) rather than a smile; `None` without lips.
    retracted: Option<bool>,
    /// Turn of the head.
    yaw_deg: f64,
}

/// Turns a random scene into one of `Variety::finding`.
pub(super) fn apply(spec: &mut SceneSpec, seed: u64, v: &Variety) {
    let plan = plan(spec, seed, v);
    mouth::mouth(spec, seed, &plan);
    spec.tabs = things::tabs(spec, seed, &plan);
    spec.card = things::card(spec, seed, &plan);
    surroundings::add(spec, seed, &plan);
    things::shadow(spec, seed);
    light::light(spec, seed);
    light::camera(spec, seed, v);
}

/// Size, frame and the mouth's state.
fn plan(spec: &mut SceneSpec, seed: u64, v: &Variety) -> Plan {
    let r = &mut Rng::new(seed, 200);
    let long = f64::from(v.size_px[0]);
    let ratio = r.pick(&[2.0 / 3.0, 2.0 / 3.0, 2.0 / 3.0, 0.75, 0.75, 9.0 / 16.0, 1.0]);
    let upright = r.chance(0.15);
    let short = (long * ratio).round();
    let [w, h] = if upright {
        [short, long]
    } else {
        [long, short]
    };
    (spec.width_px, spec.height_px) = (w as u32, h as u32);
    let aspect = h / w;
    let framing = match r.unit() {
        u if u < 0.18 => Framing::Close,
        u if u < 0.68 => Framing::Usual,
        _ => Framing::Whole,
    };
    let jaws = match r.unit() {
        u if u < 0.32 => Jaws::Biting,
        u if u < 0.62 => Jaws::Open,
        u if u < 0.88 => Jaws::Upper,
        _ => Jaws::Lower,
    };
    let opening_mm = match jaws {
        Jaws::Biting => r.range(-2.5, 0.5),
        Jaws::Open if r.chance(0.35) => r.range(1.0, 7.0),
        Jaws::Open => r.range(9.0, 20.0),
        Jaws::Upper => r.range(13.0, 22.0),
        Jaws::Lower => r.range(16.0, 24.0),
    };
    let width_mm = match framing {
        Framing::Close => r.range(24.0, 30.0),
        Framing::Usual => r.range(42.0, 62.0),
        Framing::Whole => r.range(75.0, 95.0),
    };
    // Tall frames: the height is what the photographer fills.
    let width_mm = width_mm.min(88.0 / aspect);
    let sway = match framing {
        Framing::Close => r.range(-11.0, 11.0),
        _ => 2.5 * r.normal(),
    };
    let middle_y = match jaws {
        Jaws::Biting => opening_mm * 0.5 + r.range(-3.0, 3.0),
        Jaws::Open => (opening_mm * 0.5).min(5.0) + r.range(-4.0, 3.0),
        Jaws::Upper => 3.5 + r.range(-4.0, 3.0) + (width_mm * aspect - 42.0) * 0.12,
        Jaws::Lower => opening_mm + r.range(-3.0, 4.0),
    };
    let middle_y = if framing == Framing::Close {
        middle_y.clamp(-4.0, 4.0) + if jaws == Jaws::Lower { opening_mm } else { 0.0 }
    } else {
        middle_y
    };
    spec.frame = Frame {
        centre_mm: [sway, middle_y],
        width_mm,
        roll_deg: if r.chance(0.35) {
            r.range(-15.0, 15.0)
        } else {
            1.8 * r.normal()
        },
    };
    let lips = match framing {
        Framing::Close => 0.08,
        Framing::Usual => 0.45,
        Framing::Whole => 1.0,
    };
    let half = width_mm * aspect / 2.0;
    let beyond_gums = middle_y - half < -25.0 || middle_y + half > opening_mm.max(-1.0) + 21.0;
    let retracted = (r.chance(lips) || beyond_gums).then(|| r.chance(0.6));
    let r = &mut Rng::new(seed, 207);
    let yaw_deg = if r.chance(0.3) {
        r.pick(&[-1.0, 1.0]) * r.range(8.0, 40.0)
    } else {
        0.0
    };
    Plan {
        yaw_deg,
        framing,
        jaws,
        aspect,
        opening_mm,
        retracted,
    }
}
