//! From outlines to teeth and tabs: which is which, which end is cervical, in which order.

use super::axis::{Form, Lie, ends};
use super::candidate::{Candidate, Shape};
use super::surround::{Surround, beyond, surround};
use crate::scene::grow::features::Features;

/// A crown or tab that was found, in reduced pixels.
#[derive(Debug, Clone)]
pub struct Crown {
    /// Its dense outline.
    pub outline: Vec<[f64; 2]>,
    /// A tab, else a tooth.
    pub is_tab: bool,
    /// The cervical end of its axis.
    pub cervical: [f64; 2],
    /// The incisal end of its axis.
    pub incisal: [f64; 2],
    /// 0–1.
    pub sure: f32,
    /// Lightness, redness, yellowness inside.
    pub colour: [f32; 3],
    /// √(area/π).
    pub radius: f64,
}

/// Weights of form, gum, holder and dark for telling the cervical end.
const NECK: [f64; 7] = [6.22, 2.88, -1.90, 1.55, 1.18, -2.68, 1.27];

/// Weights of what is seen around, beyond the neck, beyond the edge, of the form, and of how clearly
/// the neck is told, for a tab; and a constant.
const TAB: ([f64; 9], f64) = (
    [0.16, -1.29, 1.99, -1.95, 3.08, -1.04, 1.16, -0.81, -0.29],
    -1.14,
);

/// How much each neighbour of a row counts against the crown itself.
const NEIGHBOUR: f64 = 0.4;
/// No crown speaks louder than this for its row.
const LOUDEST: f64 = 3.0;

/// One outline as seen by itself.
struct Alone<'a> {
    candidate: &'a Candidate,
    outline: &'a [[f64; 2]],
    around: &'a Surround,
    radius: f64,
    lie: Lie,
    ends: [[f64; 2]; 2],
    beyond: [[f64; 4]; 2],
    /// All positive when the cervical end is the high one.
    signs: [f64; 7],
}

impl Alone<'_> {
    /// Positive when the cervical end is the high one.
    fn neck(&self) -> f64 {
        self.signs.iter().zip(NECK).map(|(s, w)| s * w).sum()
    }

    /// Positive for a tab.
    fn tabness(&self) -> f64 {
        let neck = self.neck();
        let [low, high] = self.beyond;
        let (at_neck, at_edge) = if neck > 0.0 { (high, low) } else { (low, high) };
        let evidence = [
            self.around.red_share,
            self.around.solid_share,
            self.around.dark_share,
            at_neck[0],
            at_neck[1],
            at_neck[3],
            at_edge[1],
            self.lie.ratio(),
            neck.abs(),
        ];
        let (weights, constant) = TAB;
        let sum: f64 = evidence.iter().zip(weights).map(|(e, w)| e * w).sum();
        sum + constant
    }
}

/// Finds axis and kind of every outline.
pub fn arrange(features: &Features, candidates: &[Candidate]) -> Vec<Crown> {
    let seen: Vec<(Vec<[f64; 2]>, Surround, Shape)> = candidates
        .iter()
        .filter_map(|c| {
            let outline = c.curve.outline();
            let shape = Shape::of(&outline)?;
            Some((outline, surround(features, c), shape))
        })
        .collect();
    let forms: Vec<Option<Form>> = seen.iter().map(|(o, ..)| Form::of(o)).collect();
    let first: Vec<Option<Lie>> = forms.iter().map(|f| f.as_ref()?.lie(None)).collect();
    let alone: Vec<Alone> = seen
        .iter()
        .zip(candidates)
        .enumerate()
        .filter_map(|(i, ((outline, around, shape), candidate))| {
            let form = forms.get(i)?.as_ref()?;
            let lie = form.lie(neighbours_axis(i, &first, &seen))?;
            let ends = ends(outline, &lie);
            let ([ux, uy], size) = (lie.unit, [lie.length, lie.width]);
            let [low, high] = ends;
            let low = beyond(features, candidate, low, [-ux, -uy], size);
            let high = beyond(features, candidate, high, [ux, uy], size);
            let along = |v: [f64; 2]| v[0] * ux + v[1] * uy;
            Some(Alone {
                candidate,
                outline,
                around,
                radius: shape.mean_radius,
                lie,
                ends,
                beyond: [low, high],
                signs: [
                    -lie.taper,
                    along(around.red),
                    along(around.solid),
                    high[0] - low[0],
                    high[1] - low[1],
                    high[2] - low[2],
                    high[3] - low[3],
                ],
            })
        })
        .collect();
    // The teeth of a row point one way, and so do the tabs of a fan.
    let neck = |a: &Alone| a.neck();
    let necks: Vec<f64> = (0..alone.len())
        .map(|i| in_row(&alone, i, neck, true))
        .collect();
    let tab = |a: &Alone| a.tabness();
    let tabs: Vec<f64> = (0..alone.len())
        .map(|i| in_row(&alone, i, tab, false))
        .collect();
    alone
        .iter()
        .zip(necks.iter().zip(tabs))
        .map(|(a, (neck, tab))| {
            let [low, high] = a.ends;
            let (cervical, incisal) = if *neck > 0.0 {
                (high, low)
            } else {
                (low, high)
            };
            Crown {
                is_tab: tab > 0.0,
                outline: a.outline.to_vec(),
                cervical,
                incisal,
                sure: a.candidate.likely,
                colour: a.candidate.model.middle(),
                radius: a.radius,
            }
        })
        .collect()
}

/// How far beyond its neck a tab's holder is looked for, in lengths of the tab, and how far to
/// the sides, in its radii.
const HOLDER: [f64; 2] = [1.02, 3.4];
const HOLDER_SIDE: f64 = 0.6;

/// Whether a candidate is the holder of a tab: it lies in the middle of where the holder of one
/// has to be.
pub fn is_holder(candidate: &Candidate, crowns: &[Crown]) -> bool {
    let at = candidate.curve.middle();
    crowns
        .iter()
        .filter(|c| c.is_tab && c.sure > candidate.likely)
        .any(|c| {
            let (dx, dy) = (c.cervical[0] - c.incisal[0], c.cervical[1] - c.incisal[1]);
            let length = libm::hypot(dx, dy).max(1.0);
            let (ux, uy) = (dx / length, dy / length);
            let (x, y) = (at[0] - c.incisal[0], at[1] - c.incisal[1]);
            let along = (x * ux + y * uy) / length;
            let across = (y * ux - x * uy).abs();
            along > HOLDER[0] && along < HOLDER[1] && across < HOLDER_SIDE * c.radius
        })
}

/// A crown's own say and that of its neighbours in a row; `turned`: the say depends on which
/// way the axis is counted.
fn in_row(alone: &[Alone], of: usize, say: impl Fn(&Alone) -> f64, turned: bool) -> f64 {
    let Some(own) = alone.get(of) else { return 0.0 };
    let [ux, uy] = own.lie.unit;
    let mut sum = say(own);
    for (j, other) in alone.iter().enumerate() {
        let (dx, dy) = (
            other.lie.middle[0] - own.lie.middle[0],
            other.lie.middle[1] - own.lie.middle[1],
        );
        let (along, across) = (dx * ux + dy * uy, dy * ux - dx * uy);
        let same = other.lie.unit[0] * ux + other.lie.unit[1] * uy;
        let size = other.radius / own.radius.max(1.0);
        let beside = along.abs() < 0.45 * own.lie.length
            && across.abs() < 2.6 * own.lie.width
            && same.abs() > 0.85
            && (0.6..1.7).contains(&size);
        if j != of && beside {
            let says = say(other).clamp(-LOUDEST, LOUDEST);
            sum += NEIGHBOUR * if turned && same < 0.0 { -says } else { says };
        }
    }
    sum
}

/// The mean axis of the crowns nearby; teeth of a row and tabs of a fan lie nearly alike.
fn neighbours_axis(
    of: usize,
    lies: &[Option<Lie>],
    seen: &[(Vec<[f64; 2]>, Surround, Shape)],
) -> Option<[f64; 2]> {
    let own = lies.get(of).copied().flatten()?;
    let radius = seen.get(of)?.2.mean_radius;
    // Axes have no sign: their angles are doubled for the mean.
    let (mut c, mut s, mut all) = (0.0, 0.0, 0.0);
    for (j, other) in lies.iter().enumerate() {
        let Some(other) = other else { continue };
        let apart = libm::hypot(
            other.middle[0] - own.middle[0],
            other.middle[1] - own.middle[1],
        ) / radius.max(1.0);
        let weight = libm::exp(-apart * apart / 18.0)
            * (other.ratio() - 1.0).clamp(0.02, 0.6)
            * if j == of { 0.5 } else { 1.0 };
        let [x, y] = other.unit;
        c += weight * (x * x - y * y);
        s += weight * 2.0 * x * y;
        all += weight;
    }
    if libm::hypot(c, s) < 0.5 * all {
        return None;
    }
    let angle = libm::atan2(s, c) / 2.0;
    Some([libm::cos(angle), libm::sin(angle)])
}
