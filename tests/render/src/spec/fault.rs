//! Faulty photos: an otherwise sound random photo with one fault, clearly there, as it would be
//! met in practice; and the sound photos themselves, for false alarms. The sound photo of a seed
//! is the one that its faulty sisters start from (a few faults need more tabs or other steps on
//! the card and then start from a sister seed).

mod card;
mod light;
mod make;
mod names;
mod sound;
mod treat;

use crate::render::{Rendered, render};

pub use make::{Made, spec_of};
pub use sound::sound;

/// What is wrong with a photo.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Fault {
    /// No card in the picture.
    CardMissing,
    /// A light card, exposed beyond the sensor's range.
    CardClipped,
    /// A card in deep shadow, or a black one.
    CardDark,
    /// A card 18–35° out of the plane.
    CardTilted,
    /// A crumpled or printed card, or one half in a hard shadow.
    CardTextured,
    /// A card that is not what the scene says of it.
    CardNotNeutral,
    /// Teeth exposed beyond the sensor's range.
    ToothClipped,
    /// Teeth in the shadow of something.
    ToothDark,
    /// Teeth of too few pixels.
    ToothSmall,
    /// Three stops and more too dark.
    UnderExposed,
    /// Out of focus.
    Blur,
    /// Shaken.
    Shake,
    /// One near lamp at the side.
    LightUneven,
    /// A cold and a warm lamp from two sides.
    LightMixed,
    /// A balance for another light, gains three to one and more.
    CastStrong,
    /// A filter.
    Processed,
    /// Enlarged by the camera.
    DigitalZoom,
    /// Scaled down and compressed strongly, without a word of a camera.
    Recompressed,
    /// Tabs dry beside wet teeth, or in another plane.
    SurfaceUnlike,
    /// One tab goes by another's name.
    TabContradicts,
    /// The cross-polarised photo is of another mouth.
    PairMisaligned,
    /// The cross-polarised photo is of another time.
    PairTimes,
}

impl Fault {
    /// All.
    pub const ALL: &[Self] = &[
        Self::CardMissing,
        Self::CardClipped,
        Self::CardDark,
        Self::CardTilted,
        Self::CardTextured,
        Self::CardNotNeutral,
        Self::ToothClipped,
        Self::ToothDark,
        Self::ToothSmall,
        Self::UnderExposed,
        Self::Blur,
        Self::Shake,
        Self::LightUneven,
        Self::LightMixed,
        Self::CastStrong,
        Self::Processed,
        Self::DigitalZoom,
        Self::Recompressed,
        Self::SurfaceUnlike,
        Self::TabContradicts,
        Self::PairMisaligned,
        Self::PairTimes,
    ];

    /// The light check that must tell of it.
    pub const fn code(self) -> &'static str {
        match self {
            Self::CardMissing => "card-missing",
            Self::CardClipped => "card-clipped",
            Self::CardDark => "card-dark",
            Self::CardTilted => "card-tilted",
            Self::CardTextured => "card-textured",
            Self::CardNotNeutral => "card-not-neutral",
            Self::ToothClipped => "tooth-clipped",
            Self::ToothDark => "tooth-dark",
            Self::ToothSmall => "tooth-small",
            Self::UnderExposed => "under-exposed",
            Self::Blur | Self::Shake => "blur",
            Self::LightUneven => "light-uneven",
            Self::LightMixed => "light-mixed",
            Self::CastStrong => "cast-strong",
            Self::Processed | Self::DigitalZoom => "processed",
            Self::Recompressed => "recompressed",
            Self::SurfaceUnlike => "surface-unlike",
            Self::TabContradicts => "tab-contradicts",
            Self::PairMisaligned => "pair-misaligned",
            Self::PairTimes => "pair-times",
        }
    }

    /// Its own name on the command line: the code, or a word of its own where two share one.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Shake => "shake",
            Self::DigitalZoom => "digital-zoom",
            _ => self.code(),
        }
    }
}

/// The faulty photo of a seed. The size is kept except where the fault lies in it
/// (`ToothSmall`, and `Recompressed` above 1600 pixels).
///
/// # Errors
/// When an encoder refuses (its own words).
pub fn render_faulty(fault: Fault, seed: u64, size_px: [u32; 2]) -> Result<Rendered, String> {
    let made = spec_of(fault, seed, size_px);
    let mut out = render(&made.spec)?;
    if let Some(other) = &made.polarised_of {
        out.polarised = render(other)?.polarised;
        out.truth.pair = None;
    }
    if let (Some(card), Some(claims)) = (&mut out.truth.scene.card, &made.claimed_lab) {
        if card.steps.is_empty() {
            card.lab = claims.first().copied();
        }
        for (step, lab) in card.steps.iter_mut().zip(claims) {
            step.lab = *lab;
        }
    }
    if let Some((index, wrong)) = &made.wrong_name {
        names::misname(&mut out.truth, *index, wrong)?;
    }
    Ok(out)
}

/// The sound photo of a seed, with a cross-polarised twin if asked.
///
/// # Errors
/// When an encoder refuses (its own words).
pub fn render_sound(seed: u64, size_px: [u32; 2], pair: bool) -> Result<Rendered, String> {
    render(&sound(seed, size_px, pair))
}
