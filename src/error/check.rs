//! Light checks: findings about a photo's fitness, each with severity, reason and remedy.

use serde::{Deserialize, Serialize};

/// How much a finding matters.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub enum Severity {
    /// The numbers cannot be trusted: take the photo again.
    Retake,
    /// Usable with care: the doubt is raised, or something should be looked at.
    Care,
    /// Good to know.
    Note,
}

/// One finding. `text` says what was found, `remedy` what to do about it.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct LightCheck {
    /// Stable word for programs.
    pub code: CheckCode,
    /// How much it matters.
    pub severity: Severity,
    /// What was found, in plain words.
    pub text: String,
    /// What to do about it, in plain words.
    pub remedy: String,
    /// The region it concerns, when it concerns one.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub region: Option<String>,
}

/// The stable words of the light checks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub enum CheckCode {
    /// No card in the scene.
    CardMissing,
    /// The card is partly or wholly clipped.
    CardClipped,
    /// The card is too dark to balance on.
    CardDark,
    /// The card is uneven: texture, print, shadow or shine on it.
    CardTextured,
    /// The card is turned out of the plane of the teeth.
    CardTilted,
    /// Fewer usable card pixels than a balance needs.
    CardSmall,
    /// The card lies (partly) outside the photo.
    CardOutside,
    /// The card is not the grey it is said to be.
    CardNotNeutral,
    /// Region pixels are clipped.
    ToothClipped,
    /// The region is too dark.
    ToothDark,
    /// Too few usable pixels in a zone.
    ToothSmall,
    /// The region lies (partly) outside the photo.
    RegionOutside,
    /// The photo has a strong colour cast.
    CastStrong,
    /// The whole photo is under-exposed.
    UnderExposed,
    /// The photo is out of focus or shaken.
    Blur,
    /// The light differs much from place to place.
    LightUneven,
    /// Lights of different colour meet on the teeth.
    LightMixed,
    /// The colour space is assumed, not stated by the file.
    SpaceAssumed,
    /// The profile inside the file could not be used.
    ProfileUnusable,
    /// The camera or an editor changed tone, colour or size after taking the picture.
    Processed,
    /// The file was compressed again or is a picture of a screen, so that detail and tone are lost.
    Recompressed,
    /// Tabs and teeth differ in wetness or lie in different planes.
    SurfaceUnlike,
    /// A tab's known colour contradicts that of the other tabs.
    TabContradicts,
    /// The first picture of several (animation, pages) was taken.
    FirstOfSeveral,
    /// The file has transparency, which was laid over black.
    TransparencyIgnored,
    /// The metadata could not be read completely.
    MetadataDamaged,
    /// A reading is outside what was ever measured on teeth.
    ReadingUnusual,
    /// Numbers stand on published averages, not on a tab in the photo.
    PublishedAverages,
    /// The cross-polarised photo could not be laid over the plain one.
    PairMisaligned,
    /// The two photos of a pair were taken far apart in time.
    PairTimes,
}

impl LightCheck {
    /// A finding about the whole photo.
    pub fn new(
        code: CheckCode,
        severity: Severity,
        text: impl Into<String>,
        remedy: impl Into<String>,
    ) -> Self {
        Self {
            code,
            severity,
            text: text.into(),
            remedy: remedy.into(),
            region: None,
        }
    }

    /// The same finding, about one region.
    #[must_use]
    pub fn about(mut self, region: &str) -> Self {
        self.region = Some(region.to_owned());
        self
    }
}
