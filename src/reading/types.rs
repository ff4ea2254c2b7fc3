//! The plain data of a reading.

use crate::colour::Lab;
use crate::colour::threshold::Verdict;
use crate::scene::Zone;
use serde::{Deserialize, Serialize};

/// The colour of one zone.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct ZoneReading {
    /// L*a*b*, D65, 2° observer: the mean in linear light over the used pixels, as the surface
    /// would look face-on, evenly lit and without sheen.
    pub lab: Lab,
    /// Chroma C*ab.
    pub chroma: f64,
    /// Hue angle in degrees, 0–360.
    pub hue_deg: f64,
    /// The ± on this colour, in ΔE00 (about 95 %).
    pub doubt: f64,
    /// The ± when this colour is compared with another one in the same photo, in ΔE00
    /// (about 95 %): most of what the camera and the card get wrong is then shared.
    pub doubt_in_photo: f64,
    /// The ± in L* when it is compared with that of another colour in the same photo. Both added as
    /// squares hold nine true differences of ten between teeth and restorations; against tabs, of
    /// another material and held before them, a little fewer.
    pub doubt_l_in_photo: f64,
    /// The same in C*ab.
    pub doubt_c_in_photo: f64,
    /// Pixels used.
    pub pixels: u32,
    /// Share of the zone's pixels dropped as glare or clipped, 0–1.
    pub glare: f64,
    /// How much glare and sheen on the remaining pixels had raised L*; it is taken out.
    pub glare_value: f64,
    /// That was measured on a pair, not estimated from this photo.
    pub glare_measured: bool,
    /// Whiteness index WID.
    pub whiteness: f64,
    /// The rms ΔE00 left in this zone after the region's smooth change from neck to edge: how
    /// uneven it is. Missing when there are too few usable pixels.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub blotch: Option<f64>,
    /// With a pair: L* read from the cross-polarised photo.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub value_polarised: Option<f64>,
}

/// The zones of a region. A zone is missing when it has too few usable pixels; a light check
/// says why.
#[derive(Debug, Clone, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct ZoneReadings {
    /// The third at the neck.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub cervical: Option<ZoneReading>,
    /// The middle third.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub middle: Option<ZoneReading>,
    /// The third at the biting edge.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub incisal: Option<ZoneReading>,
    /// All three together.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub whole: Option<ZoneReading>,
}

impl ZoneReadings {
    /// The reading of one zone.
    pub const fn get(&self, zone: Zone) -> Option<&ZoneReading> {
        match zone {
            Zone::Cervical => self.cervical.as_ref(),
            Zone::Middle => self.middle.as_ref(),
            Zone::Incisal => self.incisal.as_ref(),
            Zone::Whole => self.whole.as_ref(),
        }
    }

    /// The place of one zone's reading.
    pub const fn get_mut(&mut self, zone: Zone) -> &mut Option<ZoneReading> {
        match zone {
            Zone::Cervical => &mut self.cervical,
            Zone::Middle => &mut self.middle,
            Zone::Incisal => &mut self.incisal,
            Zone::Whole => &mut self.whole,
        }
    }
}

/// One point of the curve along the axis.
#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct GradientPoint {
    /// Place along the axis: 0 at the cervical point, 1 at the incisal point.
    pub at: f64,
    /// Colour there.
    pub lab: Lab,
}

/// The reading of one region.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct RegionReading {
    /// The region's id.
    pub region: String,
    /// The colours of its zones.
    pub zones: ZoneReadings,
    /// Value and chroma along the axis, cervical first.
    pub gradient: Vec<GradientPoint>,
    /// The rms ΔE00 left after the smooth gradient: how uneven the surface is. Missing when
    /// there are too few usable pixels.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub blotch: Option<f64>,
}

/// Where a rung's colour comes from.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub enum RungBasis {
    /// Read from the tab in this photo.
    InPhoto,
    /// The user's own measured value from a guide.
    Measured,
    /// A published average; tabs differ from set to set.
    Published,
}

/// One tab on a ladder. Differences are tab − zone: a positive `delta_l` says that the tab is
/// lighter than the zone.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Rung {
    /// The tab's name.
    pub name: String,
    /// ΔE00 (1:1:1).
    pub delta_e_00: f64,
    /// ΔL′ ÷ SL.
    pub delta_l: f64,
    /// ΔC′ ÷ SC.
    pub delta_c: f64,
    /// ΔH′ ÷ SH.
    pub delta_h: f64,
    /// The same in words: "lighter, less chroma".
    pub words: String,
    /// Against the perceptibility and acceptability thresholds.
    pub verdict: Verdict,
    /// Where the tab's colour comes from.
    pub basis: RungBasis,
    /// Only a whole-tab colour was known, so the zone was compared with that.
    #[serde(default)]
    pub whole_tab: bool,
    /// It cannot be told from the nearest tab in this photo (true of the nearest itself).
    #[serde(default)]
    pub alike: bool,
}

/// The tabs ordered by their difference from one zone of a tooth or restoration.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Ladder {
    /// The region's id.
    pub region: String,
    /// The zone.
    pub zone: Zone,
    /// Nearest first.
    pub tabs: Vec<Rung>,
    /// That tabs cannot be told apart, or that the zone lies between two of them.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}
