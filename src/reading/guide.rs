//! Shade guides: named tabs with known colours. They are data that the user can replace.

use crate::colour::Lab;
use crate::error::{Error, Result};
use serde::{Deserialize, Serialize};

/// Tabs a guide may have.
const MAX_TABS: usize = 500;

/// How a guide's colours were come by.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub enum GuideSource {
    /// Measured on the user's own tabs.
    Measured,
    /// Published averages.
    Published,
}

/// Known colours of the thirds of a tab, where they were measured.
#[derive(Debug, Clone, Copy, Default, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct GuideZones {
    /// The third at the neck.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cervical: Option<Lab>,
    /// The middle third.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub middle: Option<Lab>,
    /// The third at the biting edge.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub incisal: Option<Lab>,
}

/// One tab of a guide.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct GuideTab {
    /// Its name.
    pub name: String,
    /// Its colour, D65.
    pub lab: Lab,
    /// The colours of its thirds.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub zones: Option<GuideZones>,
}

/// A shade guide. Colours are L*a*b* under D65, 2° observer.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[cfg_attr(feature = "schema", derive(schemars::JsonSchema))]
#[cfg_attr(target_arch = "wasm32", derive(tsify::Tsify))]
pub struct Guide {
    /// Its name.
    pub name: String,
    /// How its colours were come by.
    pub source: GuideSource,
    /// Its tabs, in the order they are shown.
    pub tabs: Vec<GuideTab>,
    /// Where the figures come from.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub note: Option<String>,
}

/// The default guide, as data: comment lines, then one `name,L*,a*,b*` per tab.
const CLASSICAL_SIXTEEN: &str = include_str!("data/classical_sixteen.csv");

/// A number with two decimals. The general parser of floating-point numbers would bring 10 KB
/// of tables into the page for these.
fn hundredths(text: &str) -> Option<f64> {
    let (whole, fraction) = text.trim().split_once('.')?;
    let digits: i32 = fraction.parse().ok().filter(|_| fraction.len() == 2)?;
    let units: i32 = whole.trim_start_matches('-').parse().ok()?;
    let sign = if whole.starts_with('-') { -1.0 } else { 1.0 };
    Some(sign * f64::from(100 * units + digits) / 100.0)
}

impl Guide {
    /// The default guide: published averages of the classical sixteen.
    pub fn classical_sixteen() -> Result<Self> {
        let (notes, rows): (Vec<&str>, Vec<&str>) = CLASSICAL_SIXTEEN
            .lines()
            .partition(|line| line.starts_with('#'));
        let tabs: Option<Vec<GuideTab>> = rows
            .into_iter()
            .map(|row| {
                let (name, numbers) = row.split_once(',')?;
                let mut numbers = numbers.split(',').map(hundredths);
                let mut next = || numbers.next()?;
                Some(GuideTab {
                    name: name.to_owned(),
                    lab: Lab::new(next()?, next()?, next()?),
                    zones: None,
                })
            })
            .collect();
        let guide = Self {
            name: "Classical sixteen (published averages)".to_owned(),
            source: GuideSource::Published,
            tabs: tabs.ok_or_else(|| Error::internal("the default guide cannot be read."))?,
            note: Some(
                notes
                    .iter()
                    .map(|n| n.trim_start_matches('#').trim())
                    .collect::<Vec<_>>()
                    .join(" "),
            ),
        };
        guide.check()?;
        Ok(guide)
    }

    /// Reads and checks a guide.
    #[cfg(feature = "json")]
    pub fn from_json(json: &str) -> Result<Self> {
        let guide: Self = serde_json::from_str(json).map_err(|e| {
            Error::input(
                format!("The shade guide could not be read: {e}."),
                "A guide is JSON: {\"name\": …, \"source\": \"measured\" or \"published\", \"tabs\": \
                 [{\"name\": \"A2\", \"lab\": [L, a, b]}, …]}.",
            )
        })?;
        guide.check()?;
        Ok(guide)
    }

    /// Checks names and colours.
    pub fn check(&self) -> Result<()> {
        let remedy = "Correct the guide file: each tab needs a name of its own and a D65 L*a*b*.";
        if self.tabs.is_empty() || self.tabs.len() > MAX_TABS {
            return Err(Error::input(
                format!(
                    "The shade guide has {} tabs; 1 to {MAX_TABS} are taken.",
                    self.tabs.len()
                ),
                remedy,
            ));
        }
        for (i, tab) in self.tabs.iter().enumerate() {
            let zones = tab.zones.unwrap_or_default();
            let all = [Some(tab.lab), zones.cervical, zones.middle, zones.incisal];
            let sane = |lab: Lab| {
                lab.is_finite() && (0.0..=110.0).contains(&lab.l()) && lab.chroma() <= 150.0
            };
            if tab.name.trim().is_empty() || tab.name.chars().count() > 60 {
                return Err(Error::input(
                    format!("Tab {} of the shade guide has no usable name.", i + 1),
                    remedy,
                ));
            }
            if !all.into_iter().flatten().all(sane) {
                return Err(Error::input(
                    format!("Tab “{}” has a colour that cannot be.", tab.name),
                    remedy,
                ));
            }
            if self.tabs.iter().take(i).any(|other| other.name == tab.name) {
                return Err(Error::input(
                    format!("The shade guide names “{}” twice.", tab.name),
                    remedy,
                ));
            }
        }
        Ok(())
    }
}
