//! Tabs of known colour as anchors: the fit, and each tab judged by the others.

use super::model::{Freedom, LightModel, Seen};
use crate::colour::order::median;
use crate::colour::{Lab, Matrix3, Vec3, delta_e_00};

/// Zones in a photo that anchors are taken from at most.
const MAX_ANCHORS: usize = 120;
/// A tab is doubted when the others put it this far from its known colour (ΔE00), …
const CONTRADICTS: f64 = 3.0;
/// … and this many times further than they put each other.
const CONTRADICTS_TIMES: f64 = 2.5;
/// Tabs put each other off by more than this (ΔE00) only when something is wrong with all.
const STRAINED: f64 = 1.8;
/// Gain (ln) that the tabs ask for beside the card's, likewise.
const STRAINED_GAIN: f64 = 0.10;
/// Tabs that can outvote one.
const MIN_VOTERS: usize = 2;

/// One zone of a tab whose colour is known.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Anchor {
    /// Which tab (any number that is its own).
    pub tab: usize,
    /// As the photo shows it.
    pub seen: Seen,
    /// As it is known to be, D65.
    pub known: Lab,
    /// Known from publications, not measured on this tab.
    pub published: bool,
    /// Share of a tab that the known colour is the mean of: 1 for a whole tab.
    pub whole: bool,
}

/// How one tab fared.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Judged {
    /// Which tab.
    pub tab: usize,
    /// ΔE00 between its known colour and what the other tabs make of it (mean of its zones);
    /// against the card alone when there is no other.
    pub left_out_delta_e_00: f64,
    /// Whether it was used.
    pub used: bool,
}

/// The light with the anchors taken in.
#[derive(Debug, Clone, PartialEq)]
pub struct Anchored {
    /// The light.
    pub light: LightModel,
    /// Every tab, in the order given.
    pub tabs: Vec<Judged>,
}

impl Anchored {
    /// How far the used tabs are put from their known colours by each other (ΔE00, median).
    pub fn left_out(&self) -> f64 {
        let used = self.tabs.iter().filter(|t| t.used);
        let mut off: Vec<f32> = used.map(|t| t.left_out_delta_e_00 as f32).collect();
        f64::from(median(&mut off).unwrap_or(0.0))
    }

    /// Whether the tabs hardly agree with each other or with the card.
    pub fn is_strained(&self) -> bool {
        let [gain, _] = self.light.gain();
        self.left_out() > STRAINED || gain.abs() > STRAINED_GAIN
    }
}

/// Fits the light to the anchors. A tab that the others clearly contradict is left out and says
/// so; at most a third of the tabs are.
pub fn anchor(before: &LightModel, anchors: &[Anchor], xyz_from_rgb: &Matrix3) -> Anchored {
    let anchors = anchors.get(..MAX_ANCHORS).unwrap_or(anchors);
    let mut tabs: Vec<Judged> = Vec::new();
    for a in anchors {
        if !tabs.iter().any(|t| t.tab == a.tab) {
            tabs.push(Judged {
                tab: a.tab,
                left_out_delta_e_00: 0.0,
                used: true,
            });
        }
    }
    let mut left: Vec<usize> = Vec::new();
    loop {
        let trusted = |tab: usize| !left.contains(&tab);
        // Each tab by the others; and how well the others agree once it is gone.
        let apart: Vec<(usize, f64, f64)> = tabs
            .iter()
            .map(|t| {
                let others = |tab: usize| tab != t.tab && trusted(tab);
                let light = fitted(before, anchors, xyz_from_rgb, others);
                let own = mean_off(&light, anchors, xyz_from_rgb, |tab| tab == t.tab);
                (t.tab, own, mean_off(&light, anchors, xyz_from_rgb, others))
            })
            .collect();
        let voters = apart.iter().filter(|(tab, _, _)| trusted(*tab));
        let suspect = voters
            .clone()
            .min_by(|a, b| a.2.total_cmp(&b.2))
            .filter(|(_, own, rest)| {
                *own > CONTRADICTS && *own > CONTRADICTS_TIMES * rest.max(0.4)
            });
        if let Some((tab, _, _)) = suspect
            && voters.count() > MIN_VOTERS
            && left.len() < tabs.len() / 3
        {
            left.push(*tab);
            continue;
        }
        let light = fitted(before, anchors, xyz_from_rgb, trusted);
        for (t, (_, own, _)) in tabs.iter_mut().zip(&apart) {
            t.left_out_delta_e_00 = *own;
            t.used = trusted(t.tab);
        }
        return Anchored { light, tabs };
    }
}

/// The light with the anchors of some tabs.
fn fitted(
    before: &LightModel,
    anchors: &[Anchor],
    xyz_from_rgb: &Matrix3,
    of: impl Fn(usize) -> bool,
) -> LightModel {
    let mut light = before.clone();
    let Some(rgb_from_xyz) = xyz_from_rgb.inverse() else {
        return light;
    };
    let mut seen: Vec<usize> = Vec::new();
    for a in anchors.iter().filter(|a| of(a.tab)) {
        if !seen.contains(&a.tab) {
            seen.push(a.tab);
        }
    }
    light.set_freedom(Freedom::of_tabs(seen.len()));
    for a in anchors.iter().filter(|a| of(a.tab)) {
        let target = rgb_from_xyz.apply(a.known.to_xyz_d65());
        light.observe_zone(&a.seen, target, spread(a), a.published);
    }
    light
}

/// Standard deviations of what is known of a tab's zone against what the photo shows of it:
/// lightness (form and sheen, shared by the zones of a tab) and colour. Set on rendered scenes.
const fn spread(a: &Anchor) -> [f64; 2] {
    match (a.published, a.whole) {
        (true, _) => [0.04, 0.02],
        (false, true) => [0.024, 0.006],
        (false, false) => [0.034, 0.008],
    }
}

fn mean_off(
    light: &LightModel,
    anchors: &[Anchor],
    xyz_from_rgb: &Matrix3,
    of: impl Fn(usize) -> bool,
) -> f64 {
    let mut off: Vec<f32> = anchors
        .iter()
        .filter(|a| of(a.tab))
        .map(|a| {
            let (rgb, _): (Vec3, _) = light.correct(&a.seen);
            delta_e_00(a.known, Lab::from_xyz_d65(xyz_from_rgb.apply(rgb))) as f32
        })
        .collect();
    f64::from(median(&mut off).unwrap_or(0.0))
}

#[cfg(test)]
mod tests;
