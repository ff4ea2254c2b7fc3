//! First stain advice: per third, which way a restoration would have to go to meet its target.
//!
//! Only directions, no amounts: amounts need the user's own fired swatches. The rules are
//! common practice in the trade (no published source) on top of one of physics: a thin coat
//! over glaze takes light away, so it lowers value and does not raise it. Value comes first,
//! then chroma, then hue.

use super::{StainAdvice, StainDirection, ZoneAdvice};
use crate::colour::threshold::{PERCEPTIBILITY_DELTA_E_00, Verdict};
use crate::colour::{DeltaE00Parts, delta_e_00_parts};
use crate::reading::RegionReading;
use crate::reading::words::{Subject, difference_in_words};
use crate::scene::Zone;

/// Parts smaller than this are left alone: half the perceptibility threshold.
const WORTH_DOING: f64 = PERCEPTIBILITY_DELTA_E_00 / 2.0;

/// Compares a restoration with its target, third by third.
pub fn advise(restoration: &RegionReading, target: &RegionReading) -> StainAdvice {
    let zones = Zone::THIRDS
        .into_iter()
        .filter_map(|zone| {
            let own = restoration.zones.get(zone)?;
            let wanted = target.zones.get(zone)?;
            let parts = delta_e_00_parts(wanted.lab, own.lab);
            let doubt = libm::hypot(own.doubt_in_photo, wanted.doubt_in_photo);
            let directions = directions(&parts, doubt);
            let steps = directions
                .iter()
                .map(|d| sentence(*d, zone).to_owned())
                .collect();
            Some(ZoneAdvice {
                zone,
                delta_e_00: parts.delta_e_00,
                doubt,
                delta_l: parts.delta_l,
                delta_c: parts.delta_c,
                delta_h: parts.delta_h,
                verdict: Verdict::of_delta_e_00(parts.delta_e_00),
                words: difference_in_words(wanted.lab, own.lab, Subject::Restoration),
                directions,
                steps,
            })
        })
        .collect();
    StainAdvice {
        restoration: restoration.region.clone(),
        target: target.region.clone(),
        zones,
        cautions: CAUTIONS.map(str::to_owned).to_vec(),
    }
}

/// Directions for a difference restoration − target, most important first. What few would see, or
/// what the doubt is as large as, is left alone.
fn directions(parts: &DeltaE00Parts, doubt: f64) -> Vec<StainDirection> {
    use StainDirection as D;
    if parts.delta_e_00 <= PERCEPTIBILITY_DELTA_E_00.max(doubt) {
        return vec![D::Leave];
    }
    let mut out = Vec::with_capacity(3);
    if parts.delta_l < -WORTH_DOING {
        out.push(D::CannotLighten);
    } else if parts.delta_l > WORTH_DOING {
        out.push(D::LowerValue);
    }
    if parts.delta_c < -WORTH_DOING {
        out.push(D::AddChroma);
    } else if parts.delta_c > WORTH_DOING {
        out.push(D::ReduceChroma);
    }
    if parts.delta_h > WORTH_DOING {
        out.push(D::Redder);
    } else if parts.delta_h < -WORTH_DOING {
        out.push(D::Yellower);
    }
    if out.is_empty() {
        // A visible whole made of parts too small to name.
        out.push(D::Leave);
    }
    out
}

const fn sentence(direction: StainDirection, zone: Zone) -> &'static str {
    match (direction, zone) {
        (StainDirection::Leave, _) => "Leave this third as it is.",
        (StainDirection::LowerValue, Zone::Incisal) => {
            "Lower the value: a thin coat of incisal grey, blended into the middle third."
        }
        (StainDirection::LowerValue, _) => {
            "Lower the value: thin coats that take light away (grey, or the body stain if chroma \
             is missing too)."
        }
        (StainDirection::AddChroma, Zone::Cervical) => {
            "Add chroma: body stain across the neck, thinned towards the middle third."
        }
        (StainDirection::AddChroma, Zone::Incisal) => {
            "Add chroma sparingly: very little body stain, so that the edge stays clear."
        }
        (StainDirection::AddChroma, _) => "Add chroma: a thin coat of body stain.",
        (StainDirection::ReduceChroma, _) => {
            "There is too much chroma. Only the complementary colour lowers it, and it lowers \
             the value as well; a remake or a less chromatic base may be better."
        }
        (StainDirection::Redder, _) => "Turn the hue towards red: a little of a redder stain.",
        (StainDirection::Yellower, _) => {
            "Turn the hue towards yellow: a little of a yellower stain."
        }
        (StainDirection::CannotLighten, _) => {
            "The restoration is darker than its target. Surface stain does not raise value: this \
             needs a lighter base or a remake."
        }
    }
}

/// Said with every advice.
pub const CAUTIONS: [&str; 5] = [
    "Try the stain on a fired test piece of the same ceramic first; this gives directions, not \
     amounts.",
    "Firing temperature, hold, number of firings and thickest coat are in the material's own \
     instructions; every extra firing changes the colour.",
    "Ceramic dust, stain powders and glaze sprays need extraction, mask and gloves by local rules.",
    "Surface stain wears with the years; plan to look at it again.",
    "The final judgement is the clinician's, at the try-in, wet, under two lights.",
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::Lab;

    fn ask(target: [f64; 3], own: [f64; 3]) -> Vec<StainDirection> {
        directions(&delta_e_00_parts(Lab(target), Lab(own)), 0.0)
    }

    #[test]
    fn directions_follow_the_difference() {
        use StainDirection as D;
        let target = [74.0, 2.0, 19.0];
        assert_eq!(ask(target, [74.2, 2.0, 19.0]), [D::Leave]);
        assert_eq!(
            ask(target, [78.0, 1.6, 15.0]),
            [D::LowerValue, D::AddChroma]
        );
        assert_eq!(ask(target, [71.0, 2.0, 19.0]), [D::CannotLighten]);
        assert_eq!(ask(target, [74.0, 2.4, 23.0]), [D::ReduceChroma]);
        assert!(ask(target, [74.0, -0.5, 19.0]).contains(&D::Redder));
        assert!(ask(target, [74.0, 4.5, 18.6]).contains(&D::Yellower));
    }

    /// Value comes before chroma, chroma before hue.
    #[test]
    fn order_is_value_chroma_hue() {
        let all = ask([74.0, 2.0, 19.0], [79.0, -1.5, 14.0]);
        assert_eq!(
            all,
            [
                StainDirection::LowerValue,
                StainDirection::AddChroma,
                StainDirection::Redder
            ]
        );
    }

    #[test]
    fn what_the_doubt_is_as_large_as_is_left_alone() {
        use StainDirection as D;
        let parts = delta_e_00_parts(Lab([74.0, 1.0, 17.0]), Lab([77.0, 1.0, 17.0]));
        assert_eq!(directions(&parts, parts.delta_e_00 * 0.99), [D::LowerValue]);
        assert_eq!(directions(&parts, parts.delta_e_00), [D::Leave]);
    }

    /// Advice never claims that stain lightens.
    #[test]
    fn nothing_raises_value() {
        let darker = ask([80.0, 1.0, 15.0], [70.0, 1.0, 15.0]);
        assert_eq!(darker.first(), Some(&StainDirection::CannotLighten));
        assert!(!darker.contains(&StainDirection::LowerValue));
    }
}
