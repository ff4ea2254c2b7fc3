//! The colour of every zone: statistics in linear light, gradients along the axis, doubt,
//! blotch, the ladder of tabs, and plain colours compared. Knows nothing of stains.

pub mod difference;
pub mod doubt;
pub mod form;
pub mod glare;
pub mod guide;
pub mod ladder;
pub mod read;
pub mod smooth;
pub mod statistics;
pub mod surface;
pub mod types;
pub mod words;

pub use difference::{Colour, ColourPair, Difference};
pub use guide::{Guide, GuideSource, GuideTab, GuideZones};
pub use read::read_region;
pub use statistics::RegionStatistics;
pub use types::{GradientPoint, Ladder, RegionReading, Rung, RungBasis, ZoneReading, ZoneReadings};
