//! Practice: one tab turned into another, scored by colour, gradient and evenness.

use super::plan::words::Third;
use super::types::{PracticeRequest, PracticeScore, PracticeZone, PracticeZoneScore};
use crate::colour::threshold::{PERCEPTIBILITY_DELTA_E_00, Verdict};
use crate::colour::{Lab, delta_e_00, delta_e_00_parts};
use crate::error::{Error, Result};
use crate::reading::words::{Subject, difference_in_words};
use crate::scene::Zone;

/// A part of a difference that deserves advice: half of what people see.
const WORTH_A_WORD: f64 = PERCEPTIBILITY_DELTA_E_00 / 2.0;
/// Unevenness above the target's that is spoken of, ΔE00.
const UNEVEN: f64 = 0.5;

/// Scores an exercise.
pub fn score(request: &PracticeRequest) -> Result<PracticeScore> {
    let sound =
        |z: &PracticeZone| [z.base, z.got, z.target].iter().all(Lab::is_finite) && z.doubt >= 0.0;
    if request.zones.is_empty() || !request.zones.iter().all(sound) {
        return Err(Error::input(
            "The exercise has no third that can be scored.",
            "Give base, result and target of at least one third.",
        ));
    }
    let zones: Vec<PracticeZoneScore> = request
        .zones
        .iter()
        .map(|z| {
            let left = delta_e_00(z.target, z.got);
            PracticeZoneScore {
                zone: z.zone,
                start_delta_e_00: delta_e_00(z.target, z.base),
                left_delta_e_00: left,
                verdict: Verdict::of_delta_e_00(left),
                words: difference_in_words(z.target, z.got, Subject::Restoration),
            }
        })
        .collect();
    let (start, left) = zones.iter().fold((0.0, 0.0), |(s, l), z| {
        (s + z.start_delta_e_00, l + z.left_delta_e_00)
    });
    let evenness = request
        .zones
        .iter()
        .filter_map(|z| Some((z.blotch? - z.target_blotch?).max(0.0)))
        .reduce(f64::max);
    let gradient = gradient(&request.zones);
    Ok(PracticeScore {
        colour: left / zones.len() as f64,
        gradient,
        evenness,
        way: if start > 0.0 {
            (1.0 - left / start).clamp(0.0, 1.0)
        } else {
            1.0
        },
        words: differently(&request.zones, &zones, gradient, evenness),
        zones,
    })
}

/// How far the change from neck to edge is from the target's, laid on the target's neck.
fn gradient(zones: &[PracticeZone]) -> Option<f64> {
    let of = |zone: Zone| zones.iter().find(|z| z.zone == zone);
    let (neck, edge) = (of(Zone::Cervical)?, of(Zone::Incisal)?);
    let moved = Lab([0, 1, 2].map(|i: usize| {
        let at = |lab: Lab| lab.0.get(i).copied().unwrap_or(0.0);
        at(neck.target) + (at(neck.got) - at(edge.got)) - (at(neck.target) - at(edge.target))
    }));
    Some(delta_e_00(neck.target, moved))
}

/// One sentence: what to do differently next time.
fn differently(
    zones: &[PracticeZone],
    scores: &[PracticeZoneScore],
    gradient: Option<f64>,
    evenness: Option<f64>,
) -> String {
    let worst = zones
        .iter()
        .zip(scores)
        .max_by(|a, b| a.1.left_delta_e_00.total_cmp(&b.1.left_delta_e_00));
    if let Some((zone, score)) = worst
        && score.left_delta_e_00 > PERCEPTIBILITY_DELTA_E_00.max(zone.doubt)
    {
        return format!(
            "{} is furthest off (ΔE00 {:.1}: {}): next time {}.",
            Third(zone.zone),
            score.left_delta_e_00,
            score.words,
            remedy(zone)
        );
    }
    if let Some(uneven) = evenness.filter(|e| *e > UNEVEN) {
        return format!(
            "The colour is there; it is more uneven than the target by ΔE00 {uneven:.1}: next time spread each coat longer and thinner."
        );
    }
    if gradient.is_some_and(|g| g > PERCEPTIBILITY_DELTA_E_00) {
        return "Each third is near, but the change from neck to edge is not the target's: next \
                time feather the neck and the edge further into the body."
            .to_owned();
    }
    "Nothing to do differently: what is left is less than people see, or within the doubt."
        .to_owned()
}

fn remedy(zone: &PracticeZone) -> &'static str {
    let off = delta_e_00_parts(zone.target, zone.got);
    let most = off
        .delta_l
        .abs()
        .max(off.delta_c.abs())
        .max(off.delta_h.abs());
    if off.delta_l < -WORTH_A_WORD && off.delta_l.abs() >= most {
        "lay it thinner or one coat less there"
    } else if off.delta_l > WORTH_A_WORD && off.delta_l.abs() >= most {
        "lay a little more there"
    } else if off.delta_c.abs() >= most && off.delta_c > 0.0 {
        "take less of the chromatic stain there"
    } else if off.delta_c.abs() >= most {
        "take more of the chromatic stain there"
    } else if off.delta_h > 0.0 {
        "take a redder mix there"
    } else {
        "take a yellower mix there"
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn zone(zone: Zone, base: [f64; 3], got: [f64; 3], target: [f64; 3]) -> PracticeZone {
        PracticeZone {
            zone,
            base: Lab(base),
            got: Lab(got),
            target: Lab(target),
            doubt: 0.3,
            blotch: Some(0.6),
            target_blotch: Some(0.5),
        }
    }

    #[test]
    fn a_hit_scores_the_whole_way() {
        let hit = [74.0, 1.5, 18.0];
        let made = score(&PracticeRequest {
            zones: vec![zone(Zone::Middle, [78.0, 0.0, 13.0], hit, hit)],
        })
        .unwrap();
        assert!(made.way > 0.999 && made.colour < 1e-9 && made.gradient.is_none());
        assert!(made.words.starts_with("Nothing"), "{}", made.words);
    }

    #[test]
    fn the_worst_third_gives_the_sentence() {
        let made = score(&PracticeRequest {
            zones: vec![
                zone(
                    Zone::Cervical,
                    [78.0, 0.0, 13.0],
                    [69.0, 2.0, 19.0],
                    [73.0, 2.0, 19.0],
                ),
                zone(
                    Zone::Incisal,
                    [78.0, 0.0, 13.0],
                    [76.0, 0.0, 13.0],
                    [76.2, 0.0, 13.0],
                ),
            ],
        })
        .unwrap();
        assert!(
            made.words.contains("Cervical") && made.words.contains("thinner"),
            "{}",
            made.words
        );
        // The neck is 4 darker than it should be against the edge.
        assert!(made.gradient.unwrap() > 2.0);
    }

    /// Both ends too dark by the same: the change from neck to edge is met.
    #[test]
    fn the_gradient_is_a_difference_of_differences() {
        let made = score(&PracticeRequest {
            zones: vec![
                zone(
                    Zone::Cervical,
                    [78.0, 0.0, 13.0],
                    [70.0, 2.0, 19.0],
                    [73.0, 2.0, 19.0],
                ),
                zone(
                    Zone::Incisal,
                    [78.0, 0.0, 13.0],
                    [73.0, 0.0, 13.0],
                    [76.0, 0.0, 13.0],
                ),
            ],
        })
        .unwrap();
        assert!(made.gradient.unwrap() < 0.01, "{:?}", made.gradient);
    }

    #[test]
    fn unevenness_is_spoken_of_when_the_colour_is_there() {
        let hit = [74.0, 1.5, 18.0];
        let mut z = zone(Zone::Middle, [78.0, 0.0, 13.0], hit, hit);
        z.blotch = Some(1.6);
        let made = score(&PracticeRequest { zones: vec![z] }).unwrap();
        assert!(made.words.contains("uneven"), "{}", made.words);
    }
}
