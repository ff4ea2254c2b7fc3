//! The plan as brush strokes: foundation, cervical, body, incisal, a look, the firing.
//!
//! The order and the strokes are common practice in the trade (no published source). How far a
//! coat is thinned out grows with how much the two paints that meet differ.

use super::words::{coats, mix, number, sentence, third, thirds};
use super::{QUARTERS, Task, quarters};
use crate::colour::delta_e_00;
use crate::scene::Zone;
use crate::stain::book::StrengthBook;
use crate::stain::types::{
    Feather, Mix, Paint, PlanLimits, PlanStep, Predicted, StepKind, ZonePlan,
};

/// Feather as a share of the neighbouring third: at least, at most, and per ΔE00 between what
/// the two paints do.
const FEATHER: [f64; 3] = [0.2, 0.7, 0.15];

/// All steps of all firings.
pub fn steps(
    book: &StrengthBook,
    tasks: &[Task],
    zones: &[ZonePlan],
    limits: &PlanLimits,
) -> Vec<PlanStep> {
    let per_firing = quarters(limits.coats_per_firing).max(1);
    let firings = zones.iter().map(|z| z.firings).max().unwrap_or(0);
    let mut out = Vec::new();
    for firing in 1..=firings {
        let now: Vec<Now<'_>> = zones
            .iter()
            .zip(tasks)
            .map(|(plan, task)| Now::of(book, plan, task, firing, per_firing))
            .collect();
        if firing == 1 && limits.foundation {
            out.push(foundation());
        }
        for (i, group) in groups(&now) {
            out.push(paint(&now, i, group, firing));
        }
        out.push(look(&now, firing));
        out.push(plain(
            StepKind::Fire,
            firing,
            "Fire by the material's own instructions.",
            "",
            "The glaze is closed and shines evenly.",
        ));
        out.push(plain(
            StepKind::Photograph,
            firing,
            "Photograph it again, card beside it, and open the photo here.",
            "",
            "The next step is planned from what came out, not from what was predicted.",
        ));
    }
    out
}

/// One third in one firing.
struct Now<'a> {
    plan: &'a ZonePlan,
    /// This firing's paint.
    paint: Paint,
    /// The colour once it is fired.
    expect: Predicted,
}

impl<'a> Now<'a> {
    fn of(
        book: &StrengthBook,
        plan: &'a ZonePlan,
        task: &Task,
        firing: u32,
        per_firing: u32,
    ) -> Self {
        let all = quarters(plan.paint.coats);
        let before = (per_firing * (firing - 1)).min(all);
        let upto = (per_firing * firing).min(all);
        let share: Mix = plan
            .paint
            .mix
            .iter()
            .map(|s| (s.stain.clone(), f64::from(s.parts) / 10.0))
            .collect();
        let made = book.parts(&share).map_or(
            Predicted {
                lab: task.base_lab,
                doubt: 0.0,
            },
            |parts| book.predict_parts(&task.base, &parts, f64::from(upto) / QUARTERS),
        );
        Self {
            plan,
            paint: Paint {
                mix: if upto > before {
                    plan.paint.mix.clone()
                } else {
                    Vec::new()
                },
                coats: f64::from(upto - before) / QUARTERS,
            },
            expect: Predicted {
                lab: made.lab,
                // A photo of the result is read with the doubt of a photo.
                doubt: libm::hypot(libm::hypot(made.doubt, task.base_doubt), task.zone.doubt),
            },
        }
    }

    fn is_painted(&self) -> bool {
        self.paint.coats > 0.0
    }
}

/// Neighbouring thirds with the same paint: place of the first, and how many.
fn groups(now: &[Now<'_>]) -> Vec<(usize, usize)> {
    let mut out: Vec<(usize, usize)> = Vec::new();
    for (i, n) in now.iter().enumerate() {
        if !n.is_painted() {
            continue;
        }
        match out.last_mut() {
            Some((first, count))
                if *first + *count == i && now.get(*first).is_some_and(|f| f.paint == n.paint) =>
            {
                *count += 1;
            }
            _ => out.push((i, 1)),
        }
    }
    out
}

fn plain(kind: StepKind, firing: u32, title: &str, stroke: &str, look: &str) -> PlanStep {
    PlanStep {
        kind,
        firing,
        zones: Vec::new(),
        paint: None,
        feather: Vec::new(),
        title: title.to_owned(),
        stroke: stroke.to_owned(),
        look: look.to_owned(),
        expect: Vec::new(),
    }
}

fn foundation() -> PlanStep {
    plain(
        StepKind::Foundation,
        1,
        "Foundation of glaze over the whole surface.",
        "Thin and even, from the middle outwards, until no brush strokes are left.",
        "A wet, even shine; no pools at the neck, no dry places.",
    )
}

fn paint(now: &[Now<'_>], first: usize, count: usize, firing: u32) -> PlanStep {
    let group: Vec<&Now<'_>> = now.iter().skip(first).take(count).collect();
    let zones: Vec<Zone> = group.iter().map(|n| n.plan.zone).collect();
    let paint = group.first().map(|n| n.paint.clone()).unwrap_or_default();
    let before = first.checked_sub(1).and_then(|i| now.get(i));
    let after = now.get(first + count);
    let feather: Vec<Feather> = [(before, group.first()), (after, group.last())]
        .into_iter()
        .filter_map(|(neighbour, own)| {
            let (neighbour, own) = (neighbour?, *own?);
            Some(Feather {
                into: neighbour.plan.zone,
                share: feather_share(own.plan, neighbour.plan),
            })
        })
        .collect();
    let title = format!(
        "{}: {}, {}.",
        sentence(&thirds(&zones)),
        mix(&paint),
        coats(paint.coats)
    );
    PlanStep {
        kind: StepKind::Paint,
        firing,
        stroke: stroke(&zones, &feather),
        look: appearance(&group),
        expect: group.iter().map(|n| n.expect).collect(),
        zones,
        paint: Some(paint),
        feather,
        title,
    }
}

/// The more the two paints differ in what they do, the longer the feather.
fn feather_share(own: &ZonePlan, neighbour: &ZonePlan) -> f64 {
    let done = |z: &ZonePlan| {
        let [l, a, b] = [0, 1, 2].map(|i: usize| {
            z.predicted.lab.0.get(i).copied().unwrap_or(0.0)
                - z.from.0.get(i).copied().unwrap_or(0.0)
        });
        crate::colour::Lab::new(75.0 + l, a, 15.0 + b)
    };
    let [least, most, per] = FEATHER;
    // In twentieths: nobody measures finer with a brush.
    let share = (least + per * delta_e_00(done(own), done(neighbour))).min(most);
    (share * 20.0).round() / 20.0
}

fn stroke(zones: &[Zone], feather: &[Feather]) -> String {
    let mut out = match zones {
        [Zone::Cervical] => "Across the neck from side to side, fullest at the gum line".to_owned(),
        [Zone::Middle] => "Lengthwise over the body, in one thin, even film".to_owned(),
        [Zone::Incisal] => {
            "In short strokes towards the edge, blended upwards into the body".to_owned()
        }
        _ => "In one thin, even film, from the neck downwards".to_owned(),
    };
    for f in feather {
        out.push_str(&format!(
            "; thinned out over {:.0} % of the {}",
            f.share * 100.0,
            third(f.into)
        ));
    }
    out.push('.');
    out
}

fn appearance(group: &[&Now<'_>]) -> String {
    group
        .iter()
        .map(|n| {
            let [l, a, b] = n.expect.lab.0.map(number);
            format!(
                "{} fired: L* {l}, a* {a}, b* {b} (± ΔE00 {:.1}), {} the bare restoration.",
                sentence(third(n.plan.zone)),
                n.expect.doubt,
                against(n.plan, n.expect.lab),
            )
        })
        .collect::<Vec<_>>()
        .join(" ")
}

fn against(plan: &ZonePlan, fired: crate::colour::Lab) -> String {
    use crate::reading::words::{Subject, difference_in_words};
    let words = difference_in_words(plan.from, fired, Subject::Tab);
    if words.starts_with("no difference") {
        "hardly different from".to_owned()
    } else {
        format!("{words} than")
    }
}

fn look(now: &[Now<'_>], firing: u32) -> PlanStep {
    let thick = now
        .iter()
        .filter(|n| n.is_painted())
        .max_by(|a, b| a.paint.coats.total_cmp(&b.paint.coats))
        .map_or(String::new(), |n| {
            format!(
                " Most paint lies on the {}; no border shows.",
                third(n.plan.zone)
            )
        });
    plain(
        StepKind::Look,
        firing,
        "Look before firing, by eye and by photo.",
        "From arm's length and from the side: lift what is too much, spread what is patchy, add what is missing.",
        &format!("Unfired paint looks other than fired; judge evenness and where it lies.{thick}"),
    )
}
