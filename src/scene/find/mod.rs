//! Everything a photo holds, found without a tap: the card, the tabs, every visible crown.
//!
//! Works on the reduced copy. Middles of light, little red blobs ([`seeds`]) are grown to closed
//! curves ([`candidate`]); the curves that look most like crowns ([`likely`]) and do not lie on
//! each other ([`choose`]) are kept and drawn again, finely.

pub mod arrange;
pub mod axis;
pub mod candidate;
pub mod card;
pub mod choose;
pub mod context;
mod context_weights;
pub mod likely;
mod likely_weights;
pub mod propose;
pub mod seeds;
pub mod surround;
pub mod tap;
pub mod types;

use crate::error::{Error, Result};
use crate::photo::Reduced;
use crate::scene::grow::features::{Features, Model};
use crate::scene::grow::radial::{Closed, Fan, How, best_curve};
use crate::scene::grow::refine::refined;
use crate::scene::ring;
use crate::scene::types::Point;
use arrange::Crown;
use candidate::Candidate;
use card::CardGuess;
pub use types::{Found, FoundCard, FoundRegion};

/// How far a curve may reach, in distances from its seed to the nearest edge.
const REACHES: [f64; 2] = [3.2, 1.9];
/// Likelier than this at first sight, a curve needs no second try with a shorter reach.
const GOOD: f32 = 0.7;

/// All guesses, judged.
pub fn candidates(features: &Features) -> Vec<Candidate> {
    let mut all: Vec<Candidate> = Vec::new();
    for seed in seeds::seeds(features) {
        let colour = candidate::colour_at(features, &seed);
        for reach in REACHES {
            let Some(mut c) = candidate::around(features, &seed, &colour, reach) else {
                continue;
            };
            c.likely = likely::likely(&c.traits);
            let good = c.likely > GOOD;
            all.push(c);
            // What looks right needs no second try.
            if good {
                break;
            }
        }
    }
    context::Family::of(&choose::choose(all.clone())).judge(&mut all);
    all
}

/// Everything in a photo, with proposals.
pub fn found(search: &Search, reduced: &Reduced) -> Found {
    let (crowns, card) = search.everything();
    propose::found(&crowns, card.as_ref(), reduced)
}

/// What a search over one photo keeps: taps ask again and again.
pub struct Search {
    /// What is looked at.
    pub features: Features,
    /// All guesses at crowns and tabs, judged.
    pub candidates: Vec<Candidate>,
    /// Those that stand side by side.
    pub chosen: Vec<Candidate>,
    /// These as crowns and tabs.
    rough: Vec<Crown>,
    /// All guesses at the card, judged.
    pub cards: Vec<CardGuess>,
}

impl Search {
    /// Searches a photo.
    pub fn of(reduced: &Reduced) -> Result<Self> {
        let features = Features::of(reduced)?;
        let candidates = candidates(&features);
        let chosen = choose::choose(candidates.clone());
        let rough = arrange::arrange(&features, &chosen);
        let cards = card::guesses(&features, &rough);
        Ok(Self {
            features,
            candidates,
            chosen,
            rough,
            cards,
        })
    }

    /// Crowns and tabs, finely outlined, and the card.
    pub fn everything(&self) -> (Vec<Crown>, Option<CardGuess>) {
        let features = &self.features;
        let mut chosen = self.chosen.clone();
        let card = card::card_among(&self.cards);
        if let Some(card) = &card {
            chosen.retain(|c| !ring::contains(&card.outline, c.curve.middle()));
        }
        // What lies on the card was no crown.
        let fewer = (chosen.len() < self.chosen.len()).then(|| arrange::arrange(features, &chosen));
        let rough = fewer.as_ref().unwrap_or(&self.rough);
        chosen.retain(|c| !arrange::is_holder(c, rough));
        let fine: Vec<Candidate> = chosen
            .into_iter()
            .map(|c| Candidate {
                curve: finely(features, &c),
                ..c
            })
            .collect();
        (arrange::arrange(features, &fine), card)
    }

    /// The outlines that a tap can mean, the likeliest first; they differ from each other.
    pub fn choices(&self, at: [f64; 2]) -> Vec<Crown> {
        let features = &self.features;
        let mut pool: Vec<Candidate> = self
            .candidates
            .iter()
            .filter(|c| c.curve.contains(at))
            .cloned()
            .collect();
        pool.extend(tap::candidates_at(features, at, &self.chosen));
        let fine = tap::best_different(pool, at)
            .into_iter()
            .map(|c| Candidate {
                curve: finely(features, &c),
                ..c
            });
        // Drawn finely, two may have become one.
        let chosen = tap::different(fine);
        let count = chosen.len();
        // The neighbours tell which way round it stands.
        let others = self.chosen.iter().filter(|c| !c.curve.contains(at));
        let all: Vec<Candidate> = chosen.into_iter().chain(others.cloned()).collect();
        let mut crowns = arrange::arrange(features, &all);
        crowns.truncate(count);
        crowns
    }
}

/// The outlines that a tap can mean, the likeliest first; they differ from each other.
pub fn choices(search: &Search, reduced: &Reduced, tap: Point) -> Result<Vec<FoundRegion>> {
    let at = search
        .features
        .reduced_from_photo(reduced, tap)
        .ok_or_else(|| Error::input("That place is not in the photo.", "Tap inside the photo."))?;
    let crowns = search.choices(at);
    Ok(crowns
        .iter()
        .map(|c| propose::region_of(c, reduced))
        .collect())
}

/// The card under a tap, or a step of it; `None` when nothing there looks like one.
pub fn card_at(search: &Search, reduced: &Reduced, tap: Point) -> Option<Vec<Point>> {
    let at = search.features.reduced_from_photo(reduced, tap)?;
    let card = card::card_at(&search.cards, at)?;
    Some(propose::all_in_photo(&card.outline, reduced))
}

/// Axis and kind for outlines drawn by other means, in photo pixels.
pub fn described(
    search: &Search,
    reduced: &Reduced,
    outlines: Vec<Vec<Point>>,
) -> Vec<FoundRegion> {
    let features = &search.features;
    outlines
        .into_iter()
        .filter_map(|outline| {
            let small = outline.iter().map(|p| reduced.reduced_from_photo(p.0));
            let drawn = Candidate::drawn(features, &small.collect::<Vec<_>>())?;
            let middle = drawn.curve.middle();
            let others = search.chosen.iter().filter(|c| !c.curve.contains(middle));
            let all: Vec<Candidate> = std::iter::once(drawn).chain(others.cloned()).collect();
            let crown = arrange::arrange(features, &all).into_iter().next()?;
            // The outline stays as it was drawn.
            Some(FoundRegion {
                outline,
                ..propose::region_of(&crown, reduced)
            })
        })
        .collect()
}

/// The same curve, searched for again in more directions and radii, then moved to the border.
fn finely(features: &Features, candidate: &Candidate) -> Closed {
    let how = How::CROWN;
    let rough = &candidate.curve;
    let radii = rough.radii();
    let (small, large) = radii
        .iter()
        .fold((f64::INFINITY, 0.0_f64), |(a, b), r| (a.min(*r), b.max(*r)));
    let middle = rough.middle();
    let centre = if rough.contains(middle) {
        middle
    } else {
        rough.centre()
    };
    let model = Model::within(features, rough.centre(), &rough.shrunk(0.8), &how)
        .unwrap_or(candidate.model);
    let limits = [0.6 * small, 1.35 * large];
    let fine = best_curve(features, centre, &model, limits, &how, &Fan::KEPT);
    refined(features, &fine, &model, &how)
}
