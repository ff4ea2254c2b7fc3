//! Bodies of a specification: mouth, jaws, tabs, card.

use super::arch::{Stand, View};
use super::body::{Body, CrownLook, Kind, Place};
use super::crown::CrownForm;
use super::grid::Grid;
use super::gum;
use super::ink::{self, Palette};
use crate::material::Family;
use crate::noise::{smooth, value};
use crate::spec::{Card, SceneSpec, Tab};

const ORDER_CARD: i32 = 10;
const ORDER_TAB: i32 = 20;
const ORDER_STEM: i32 = 40;
const ORDER_BEHIND: i32 = 58;
const ORDER_GUM: i32 = 70;
const ORDER_TEETH: i32 = 80;

/// Collects bodies and their palettes.
pub(super) struct Maker {
    pub(super) bodies: Vec<Body>,
    pub(super) palettes: Vec<Palette>,
    pub(super) seed: u32,
    pub(super) pitch: f64,
}

impl Maker {
    pub(super) fn palette(&mut self, p: Palette) -> usize {
        self.palettes.push(p);
        self.palettes.len() - 1
    }

    /// Adds a body whose form is (distance, height) of its own place.
    #[allow(clippy::too_many_arguments)]
    pub(super) fn add(
        &mut self,
        id: &str,
        kind: Kind,
        order: i32,
        place: Place,
        own: [f64; 4],
        pitch: f64,
        ink: usize,
        form: impl Fn(f32, f32) -> [f32; 2] + Sync,
    ) {
        let mut grid = Grid::<4>::covering(own, pitch);
        grid.fill(|[x, y]| {
            let [d, z] = form(x, y);
            [d, z, 0.0, 0.0]
        });
        Body::slope_from_height(&mut grid);
        self.finish(id, kind, order, place, own, ink, grid);
    }

    #[allow(clippy::too_many_arguments)]
    fn finish(
        &mut self,
        id: &str,
        kind: Kind,
        order: i32,
        place: Place,
        own: [f64; 4],
        ink: usize,
        form: Grid<4>,
    ) {
        let fine = if matches!(kind, Kind::Cavity | Kind::Tongue) {
            0.8
        } else {
            (self.pitch * 3.0).clamp(0.18, 0.27)
        };
        let light = Grid::covering(own, fine);
        let seed = crate::rng::hash2(self.bodies.len() as i32, 9, self.seed);
        let bounds = Body::world_bounds(&place, own.map(|v| v as f32));
        self.bodies.push(Body {
            id: id.to_owned(),
            kind,
            order,
            place,
            form,
            light,
            ink,
            bounds,
            seed,
            opacity: 1.0,
            occludes: true,
        });
    }

    pub(super) fn jaw(&mut self, spec: &SceneSpec, all: &[Stand], upper: bool) {
        let jaw: Vec<Stand> = all
            .iter()
            .filter(|s| (s.tooth.fdi < 30) == upper)
            .cloned()
            .collect();
        if jaw.is_empty() {
            return;
        }
        let back = if upper { 0 } else { 60 };
        let midline = View::of(spec).map_or(0.0, |v| v.turn(0.0, 0.0)[0]);
        let midline = if upper { midline } else { -midline };
        let pitch = self.pitch;
        if let Some((place, form, field)) = gum::gum(
            &jaw,
            &spec.tissue,
            upper,
            self.seed ^ u32::from(upper),
            pitch,
            midline as f32,
        ) {
            let p = self.palette(ink::mucosa_palette(spec.tissue.gum));
            let own = [
                f64::from(form.origin[0]),
                f64::from(form.origin[1]),
                f64::from(form.origin[0] + form.pitch * (form.w - 1) as f32),
                f64::from(form.origin[1] + form.pitch * (form.h - 1) as f32),
            ];
            let kind = Kind::Gum {
                field,
                stipple: spec.tissue.stipple as f32,
                inflammation: spec.tissue.inflammation as f32,
                pigment: spec.scenery.as_ref().map_or(0.0, |s| s.pigment) as f32,
            };
            self.finish(
                if upper { "gum-upper" } else { "gum-lower" },
                kind,
                ORDER_GUM + back,
                place,
                own,
                p,
                form,
            );
        }
        for s in jaw.iter().filter(|s| !s.tooth.missing) {
            let family = if s.tooth.restoration {
                Family::Ceramic
            } else {
                Family::Tooth
            };
            let scenery = spec.scenery.as_ref();
            let metal = scenery.and_then(|c| c.metals.iter().find(|m| m.fdi == s.tooth.fdi));
            let p = self.palette(match metal {
                Some(m) => ink::dyed_palette(m.colour),
                None => ink::crown_palette(&s.tooth.colour, family),
            });
            let look = CrownLook {
                form: s.form.clone(),
                ceramic: s.tooth.restoration,
                translucency: s.tooth.translucency as f32,
                spots: s.tooth.spots as f32,
                crazing: s.tooth.crazing as f32,
                blotch: s.tooth.blotch as f32,
                gloss: spec.teeth_gloss as f32,
                metal: metal.is_some(),
                tooth: Some(s.tooth.clone()),
                tab: None,
            };
            let (w, l) = (f64::from(s.form.half_width), f64::from(s.form.length));
            let (z, yaw) = (s.z as f32, s.yaw_slope as f32);
            let form = s.form.clone();
            // Nearer the midline lies in front, except where a tooth stands out.
            let order = ORDER_TEETH + back + i32::from(s.tooth.fdi % 10) * 2
                - (s.tooth.shift_mm[2] * 4.0).round() as i32;
            let fillings = scenery.map_or(&[][..], |c| &c.fillings);
            for f in fillings.iter().filter(|f| f.fdi == s.tooth.fdi) {
                self.filling(f, s, order);
            }
            self.add(
                &format!("tooth-{}", s.tooth.fdi),
                Kind::Crown(Box::new(look)),
                order,
                Place::new(s.origin, s.angle),
                [-w - 0.6, -0.32 * l, w + 0.6, l + 0.7],
                pitch,
                p,
                move |x, y| {
                    let d = form.distance(x, y);
                    [d, z + yaw * x + form.height(x, y, d)]
                },
            );
        }
    }

    pub(super) fn tab(&mut self, tab: &Tab, index: usize, stem_length: f32) {
        let form = CrownForm {
            half_width: (3.9 * tab.scale) as f32,
            length: (10.2 * tab.scale) as f32,
            mesial: 1.0,
            kind: 0,
            seed: crate::rng::hash2(index as i32, 33, self.seed),
        };
        let l = f64::from(form.length);
        // Edge up: own +y (toward the edge) points up.
        let angle = std::f64::consts::PI + tab.turn_deg.to_radians();
        let origin = [
            tab.edge_mm[0] + angle.sin() * l,
            tab.edge_mm[1] - angle.cos() * l,
        ];
        let place = Place::new(origin, angle);
        let (sx, sy) = (
            tab.tilt_deg[0].to_radians().tan() as f32,
            tab.tilt_deg[1].to_radians().tan() as f32,
        );
        let z = tab.z_mm as f32;
        let stem_inks = self.palette(ink::stem_palette(tab.steel));
        let half = form.half_width;
        let order = ORDER_STEM + index as i32;
        let kind = Kind::Stem {
            steel: tab.steel,
            label: tab.label.then(|| tab.name.clone()),
            length: 22.0,
        };
        let round = if tab.steel { 0.5 } else { 0.9 };
        self.add(
            &format!("stem-{}", tab.name),
            kind,
            order,
            place,
            [
                f64::from(-half),
                -f64::from(stem_length),
                f64::from(half),
                1.4,
            ],
            self.pitch.max(0.06),
            stem_inks,
            move |x, y| {
                // A waist under the porcelain, then a blade with a rounded section.
                let down = -y;
                let width = 1.55 + 0.95 * smooth(1.2, 0.2, down) + 1.15 * smooth(2.2, 5.0, down);
                let d = (x.abs() - width).max(y - 0.9).max(down - stem_length);
                let r = (d + round).clamp(0.0, round) / round;
                [
                    d,
                    z - 1.5 + sx * x + sy * (y - 5.0)
                        - 0.35 * (x / width.max(0.1)).powi(2)
                        - 0.5 * round * (1.0 - (1.0 - r * r).max(0.0).sqrt()),
                ]
            },
        );
        let p = self.palette(ink::crown_palette(&tab.colour, Family::Ceramic));
        let look = CrownLook {
            form: form.clone(),
            ceramic: true,
            translucency: 0.75,
            spots: 0.0,
            crazing: 0.0,
            blotch: 0.12,
            gloss: tab.gloss as f32,
            metal: false,
            tooth: None,
            tab: Some(tab.clone()),
        };
        self.add(
            &format!("tab-{}", tab.name),
            Kind::Crown(Box::new(look)),
            ORDER_TAB + index as i32,
            place,
            [
                f64::from(-half) - 0.5,
                -0.14 * l,
                f64::from(half) + 0.5,
                l + 0.6,
            ],
            self.pitch,
            p,
            move |x, y| {
                let d = form.distance(x, y);
                [d, z + sx * x + sy * (y - 5.0) + form.height(x, y, d)]
            },
        );
    }

    pub(super) fn card(&mut self, card: &Card, behind: bool) {
        let p = self.palette(ink::card_palette(card, f64::from(self.seed % 100)));
        let [w, h] = card.size_mm.map(|v| (v / 2.0) as f32);
        let (tx, ty) = (card.tilt_deg[0].to_radians(), card.tilt_deg[1].to_radians());
        let (sx, sy) = (tx.tan() as f32, ty.tan() as f32);
        // Foreshortening, and a trapezium from the nearer side being larger.
        let (fx, fy) = (tx.cos() as f32, ty.cos() as f32);
        let z = card.z_mm as f32;
        let eye = 380.0_f32;
        let seed = self.seed;
        let kind = Kind::Card {
            half_width: w * fx,
            steps: card.steps_y.len(),
            face: card.face,
        };
        self.add(
            "card",
            kind,
            if behind { ORDER_BEHIND } else { ORDER_CARD },
            Place::new(card.centre_mm, card.turn_deg.to_radians()),
            [
                f64::from(-w) * 1.1 - 0.5,
                f64::from(-h) * 1.1 - 0.5,
                f64::from(w) * 1.1 + 0.5,
                f64::from(h) * 1.1 + 0.5,
            ],
            self.pitch.max(0.06),
            p,
            move |x, y| {
                let grow = 1.0 + (sx * x + sy * y) / eye;
                let (u, v) = (x / (fx * grow), y / (fy * grow));
                let (a, b) = (u.abs() - w, v.abs() - h);
                let r = 0.5;
                let (p, q) = ((a + r).max(0.0), (b + r).max(0.0));
                let d = a.max(b).min(-r) + p.hypot(q) - r + r;
                let bend = 0.10 * value(x * 0.05 + 4.0, y * 0.05, seed ^ 91).v;
                [d, z + sx * x + sy * y + bend]
            },
        );
    }
}
