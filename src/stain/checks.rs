//! What is wrong with swatches, in words: the unusable ones are left out, the odd ones named.

use super::book::{Seen, Stain};
use super::layer::Matter;
use super::lift::is_ceramic;
use super::predict::MAX_COATS;
use super::spectrum::Eye;
use super::strength::{Estimate, Explained, explain, explain_in, matter};
use super::types::{Swatch, SwatchBook, SwatchCheck, SwatchCheckCode as Code};
use crate::colour::delta_e_00_parts;
use crate::error::Severity;

/// Swatches of one stain that let one of them be judged by the others.
const ENOUGH_TO_JUDGE: usize = 3;
/// Among more than these one swatch bends the fit little: it is judged by the fit of all.
const FEW_ENOUGH: usize = 8;
/// Steps of a fit that show whether a swatch may be odd.
const FEW_STEPS: usize = 2;
/// A swatch this far from what the others predict contradicts them, in uncertainties …
const FAR_SIGMAS: f64 = 5.0;
/// … and in ΔE00.
const FAR_DELTA_E_00: f64 = 1.5;
/// Lightening that counts: in uncertainties of a part and in ΔL′∕SL.
const LIGHTER_SIGMAS: f64 = 3.0;
const LIGHTER_PARTS: f64 = 0.3;
/// A contradiction raises the book's noise, which must not hide it: it is judged by this at most.
const MOST_SIGMA: f64 = 0.25;
/// A name that is longer is none.
const MAX_NAME: usize = 80;

fn finding(code: Code, severity: Severity, text: String, remedy: &str) -> SwatchCheck {
    SwatchCheck {
        code,
        severity,
        text,
        remedy: remedy.to_owned(),
        stain: None,
        swatch: None,
    }
}

/// The swatches that say something, with their places; why the others do not.
pub fn usable<'a>(
    book: &'a SwatchBook,
    findings: &mut Vec<SwatchCheck>,
) -> Vec<(usize, &'a Swatch)> {
    let mut out = Vec::with_capacity(book.swatches.len());
    for (place, swatch) in book.swatches.iter().enumerate() {
        match fault(swatch) {
            None => out.push((place, swatch)),
            Some(mut found) => {
                found.swatch = Some(place as u32);
                found.stain = (!swatch.stain.is_empty()).then(|| swatch.stain.clone());
                findings.push(found);
            }
        }
    }
    names(book, &out, findings);
    out
}

fn called(swatch: &Swatch) -> String {
    let name = if swatch.stain.is_empty() {
        "a mix".to_owned()
    } else {
        format!("“{}”", swatch.stain)
    };
    if swatch.note.is_empty() {
        format!("The swatch of {name}")
    } else {
        format!("The swatch of {name} ({})", swatch.note)
    }
}

fn fault(swatch: &Swatch) -> Option<SwatchCheck> {
    let who = called(swatch);
    let out =
        |text: String, remedy: &str| Some(finding(Code::Unusable, Severity::Retake, text, remedy));
    if swatch.mix.is_none()
        && (swatch.stain.trim().is_empty() || swatch.stain.chars().count() > MAX_NAME)
    {
        return out(
            format!("{who} names no stain."),
            "Say which stain was painted.",
        );
    }
    if let Some(mix) = &swatch.mix {
        let sum: f64 = mix.values().sum();
        let sound = mix.values().all(|v| v.is_finite() && *v >= 0.0);
        if !sound || (sum - 1.0).abs() > 0.01 {
            return out(
                format!("{who} has shares that sum to {sum:.2}, not to 1."),
                "Correct the shares by volume.",
            );
        }
    }
    if !(swatch.coats > 0.0 && swatch.coats <= MAX_COATS) {
        return out(
            format!("{who} has {} coats.", swatch.coats),
            "Give the coats that were painted and fired, more than 0 and at most 12.",
        );
    }
    if swatch.doubt.is_some_and(|d| !(0.0..=20.0).contains(&d)) {
        return out(
            format!("{who} has a doubt that is no number between 0 and 20."),
            "Correct it or leave it out.",
        );
    }
    for (lab, what) in [(swatch.base, "base"), (swatch.after, "result")] {
        if !is_ceramic(lab) {
            let [l, a, b] = lab.0.map(|v| format!("{v:.1}"));
            let mut found = finding(
                Code::BaseUnlike,
                Severity::Retake,
                format!(
                    "{who}: its {what}, L* {l}, a* {a}, b* {b}, is no colour of a dental ceramic."
                ),
                "Check the reading and the card in its photo, or the typed numbers.",
            );
            if what == "result" {
                found.code = Code::Unusable;
            }
            return Some(found);
        }
    }
    None
}

/// Names that nobody could tell apart, and stains without a swatch.
fn names(book: &SwatchBook, usable: &[(usize, &Swatch)], findings: &mut Vec<SwatchCheck>) {
    let plain = |name: &str| name.trim().to_lowercase();
    let mut all: Vec<&str> = Vec::new();
    let listed = book.stains.iter().map(|s| s.name.as_str());
    for name in listed.chain(usable.iter().map(|(_, s)| s.stain.as_str())) {
        if name.is_empty() || all.contains(&name) {
            continue;
        }
        if let Some(like) = all.iter().find(|n| plain(n) == plain(name)) {
            let mut found = finding(
                Code::NameTwice,
                Severity::Care,
                format!("“{name}” and “{like}” are taken for two stains."),
                "Write the name in one way if they are the same jar.",
            );
            found.stain = Some(name.to_owned());
            findings.push(found);
        }
        all.push(name);
    }
    for info in &book.stains {
        let has = usable
            .iter()
            .any(|(_, s)| s.mix.is_none() && s.stain == info.name);
        if !has {
            let mut found = finding(
                Code::NoSwatch,
                Severity::Note,
                format!(
                    "“{}” has no swatch that can be used, so no plan uses it.",
                    info.name
                ),
                "Fire it on a test tab, one and two coats, and read before and after.",
            );
            found.stain = Some(info.name.clone());
            findings.push(found);
        }
    }
}

/// What the fitted strengths say of their swatches; marks the stains that lighten.
pub fn about_strengths(
    seen: &[Seen<'_>],
    stains: &mut [Stain],
    alone: &[Explained],
    sigma: f64,
    eye: &Eye,
    findings: &mut Vec<SwatchCheck>,
) {
    for (stain, alone) in stains.iter_mut().zip(alone) {
        let name = stain.info.name.clone();
        let own: Vec<&Seen<'_>> = seen.iter().filter(|s| s.is_of(&name)).collect();
        let mut say = |code, severity, text: String, remedy: &str, place: Option<usize>| {
            let mut found = finding(code, severity, text, remedy);
            found.stain = Some(name.clone());
            found.swatch = place.map(|p| p as u32);
            findings.push(found);
        };
        few(&own, &name, &mut say);
        lightening(stain, &own, sigma, &name, &mut say);
        contradictions(eye, (stain, alone), &own, sigma, &name, &mut say);
        let most = own
            .iter()
            .map(|s| s.observation.miss(eye, &Matter::NONE).norm())
            .fold(0.0, f64::max);
        let noise = stain.sigma * 3.0_f64.sqrt();
        if most < 2.0 * noise {
            say(
                Code::Faint,
                Severity::Care,
                format!(
                    "“{name}” changes its swatches by ΔE00 {most:.1} at most, hardly more than the readings' own uncertainty."
                ),
                "Fire two or three coats, so that its effect stands out.",
                None,
            );
        }
    }
}

type Say<'a> = dyn FnMut(Code, Severity, String, &str, Option<usize>) + 'a;

fn few(own: &[&Seen<'_>], name: &str, say: &mut Say<'_>) {
    if let [only] = own {
        say(
            Code::OneSwatch,
            Severity::Care,
            format!(
                "“{name}” has one swatch only; how it builds up in coats leans on what stains usually do."
            ),
            "Fire a second tab with twice the coats.",
            Some(only.place),
        );
        return;
    }
    let same = own
        .windows(2)
        .all(|w| matches!(w, [a, b] if a.swatch.coats == b.swatch.coats));
    if same {
        say(
            Code::OneCoatCount,
            Severity::Note,
            format!("All swatches of “{name}” have the same number of coats."),
            "Add one with another number of coats, so that building up is known.",
            None,
        );
    }
}

/// A stain lightens when its swatches do so beyond their noise and none of them says otherwise.
fn lightening(stain: &mut Stain, own: &[&Seen<'_>], sigma: f64, name: &str, say: &mut Say<'_>) {
    // Each swatch with its change of lightness, and whether that is up or down beyond its noise.
    let all: Vec<(&Seen<'_>, bool, bool)> = own
        .iter()
        .map(|s| {
            let part = delta_e_00_parts(s.swatch.base, s.swatch.after).delta_l;
            let noise = LIGHTER_SIGMAS * s.observation.sigma(sigma.min(MOST_SIGMA));
            let enough = LIGHTER_PARTS.max(noise);
            (*s, part > enough, part < -enough)
        })
        .collect();
    let up: Vec<&Seen<'_>> = all.iter().filter(|a| a.1).map(|a| a.0).collect();
    if up.is_empty() {
        return;
    }
    // On a light base a lightening stain may darken; on the same base it may not do both.
    let darkest_down = all
        .iter()
        .filter(|a| a.2)
        .map(|a| a.0.swatch.base.l())
        .fold(f64::INFINITY, f64::min);
    let contradicted = up.iter().any(|s| darkest_down <= s.swatch.base.l() + 2.0);
    if !contradicted {
        stain.lightens = true;
        stain.lightens_up_to = up.iter().map(|s| s.swatch.base.l()).fold(0.0, f64::max);
        return;
    }
    for s in up {
        say(
            Code::Lighter,
            Severity::Care,
            format!("A swatch of “{name}” got lighter, though its others get darker."),
            "Look at its photos again: base and result may be exchanged, or the light differed. It is not taken as a stain that lightens.",
            Some(s.place),
        );
    }
}

fn contradictions(
    eye: &Eye,
    (stain, alone): (&Stain, &Explained),
    own: &[&Seen<'_>],
    sigma: f64,
    name: &str,
    say: &mut Say<'_>,
) {
    let far = |miss: f64, s: &Seen<'_>| {
        miss > FAR_DELTA_E_00.max(FAR_SIGMAS * s.observation.sigma(sigma.min(MOST_SIGMA)))
    };
    if own.len() >= ENOUGH_TO_JUDGE {
        for (i, s) in own.iter().enumerate() {
            let least = |ways: &[Estimate]| {
                ways.iter()
                    .map(|w| s.observation.miss(eye, &matter(&w.at)).norm())
                    .fold(f64::INFINITY, f64::min)
            };
            // A few steps from the fit of all show what would change without it; only what may be
            // odd then is fitted from nothing.
            let least = if own.len() > FEW_ENOUGH {
                least(&stain.ways)
            } else {
                let others: Vec<_> = own
                    .iter()
                    .enumerate()
                    .filter(|(j, _)| *j != i)
                    .map(|(_, o)| o.observation.clone())
                    .collect();
                let sigma = sigma.min(MOST_SIGMA);
                let start = alone.without(i);
                let near = explain_in(FEW_STEPS, eye, &others, sigma, Some(&start));
                match least(&near.ways) {
                    near if far(2.0 * near, s) => least(&explain(eye, &others, sigma, None).ways),
                    near => near,
                }
            };
            if far(least, s) {
                say(
                    Code::Contradicts,
                    Severity::Care,
                    format!(
                        "A swatch of “{name}” ({} coats) is ΔE00 {least:.1} from what its others predict.",
                        s.swatch.coats
                    ),
                    "Look at its photos again, or fire it again; until then the strengths are a compromise.",
                    Some(s.place),
                );
            }
        }
        return;
    }
    // Two on one base: more coats must do more.
    if let [a, b] = own {
        let (less, more) = if a.swatch.coats < b.swatch.coats {
            (a, b)
        } else {
            (b, a)
        };
        let shift = |s: &Seen<'_>| s.observation.miss(eye, &Matter::NONE).norm();
        let alike = delta_e_00_parts(less.swatch.base, more.swatch.base).delta_e_00 < 2.0;
        if alike
            && less.swatch.coats < more.swatch.coats
            && shift(less) - shift(more) > FAR_SIGMAS * 0.1 + 0.3
        {
            say(
                Code::Contradicts,
                Severity::Care,
                format!(
                    "“{name}”: {} coats changed the base less than {} did.",
                    more.swatch.coats, less.swatch.coats
                ),
                "Look whether the two were exchanged, or fire them again.",
                Some(more.place),
            );
        }
    }
}
