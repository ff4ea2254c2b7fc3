//! A guide of the tabs of a rendered photo, as their owner would have measured them.

use tabside::colour::Lab;
use tabside::reading::{Guide, GuideSource, GuideTab, GuideZones};
use tabside::scene::{Region, RegionKind};

/// From the true colour of each region (by id) and zone (by name).
pub fn own_tabs(regions: &[Region], lab: impl Fn(&str, &str) -> Lab) -> Guide {
    let tabs = regions.iter().filter(|r| r.kind == RegionKind::Tab);
    Guide {
        name: "Own tabs".into(),
        source: GuideSource::Measured,
        tabs: tabs
            .map(|r| GuideTab {
                name: r.name.clone(),
                lab: lab(&r.id, "whole"),
                zones: Some(GuideZones {
                    cervical: Some(lab(&r.id, "cervical")),
                    middle: Some(lab(&r.id, "middle")),
                    incisal: Some(lab(&r.id, "incisal")),
                }),
            })
            .collect(),
        note: None,
    }
}
