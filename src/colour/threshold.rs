//! The two thresholds that every difference is placed against.
//!
//! Paravina et al. 2015, J Esthet Restor Dent 27(S1):S1–S9 (7 sites, 175 observers, ceramic
//! pairs in a viewing booth): half of the observers see a difference of 0.8, half would want
//! one of 1.8 corrected. They belong to ΔE00 with kL = kC = kH = 1 and are the midpoints of a
//! curve, not cut-offs; in the mouth people tolerate more.

use serde::{Deserialize, Serialize};

/// ΔE00 (1:1:1) that half of the observers notice.
pub const PERCEPTIBILITY_DELTA_E_00: f64 = 0.8;
/// ΔE00 (1:1:1) that half of the observers would want corrected.
pub const ACCEPTABILITY_DELTA_E_00: f64 = 1.8;

/// Where a difference lies against the two thresholds.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "snake_case")]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub enum Verdict {
    /// At most 0.8: fewer than half of observers would see it.
    NotSeen,
    /// Above 0.8, at most 1.8: seen by most, accepted by most.
    Accepted,
    /// Above 1.8: more than half of observers would want it corrected.
    Disturbing,
}

impl Verdict {
    /// Places a ΔE00 (1:1:1).
    pub fn of_delta_e_00(delta_e_00: f64) -> Self {
        if delta_e_00 <= PERCEPTIBILITY_DELTA_E_00 {
            Self::NotSeen
        } else if delta_e_00 <= ACCEPTABILITY_DELTA_E_00 {
            Self::Accepted
        } else {
            Self::Disturbing
        }
    }
}
